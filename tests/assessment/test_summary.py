"""What is shown of an assessment: it fits a terminal, says what the numbers say, and its workings can be redone."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.assessment._balance import balance_line, mass_table
from surfacecheck.assessment._sentence import finding_sentence, needed, place_words, show_working
from surfacecheck.assessment._shown import margin_text, quantity_of_result, shown_formulas
from surfacecheck.assessment._summary import counts, notebook_html, summary
from surfacecheck.assessment._tables import bracket_table, case_words, margin_table, pin_table, row_table
from surfacecheck.checks import Check, Term, find
from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source
from surfacecheck.reading import read, read_text
from surfacecheck.working import evaluate

DATA = Path(__file__).parents[2] / "data"
DEMOS = [path.name for path in (DATA / "rudder.toml", DATA / "elevator.toml") if path.exists()]
TEXT = Source(Basis.PUBLISHED, "a book")


@pytest.fixture(scope="module", params=DEMOS)
def demo(request):
    return assess(read(DATA / request.param))


@pytest.fixture(scope="module")
def rudder():
    return assess(read(DATA / "rudder.toml"))


def one(available, required, terms, **more):
    """Make a finding of one case at one spot."""
    settings = {
        "effect": "S",
        "cases": ("a case",),
        "spots": ("",),
        "source": TEXT,
        "factors": "1.5 x 1.15 on ultimate",
    }
    return find(Check("row.x", "shears", "row x", "rivet shears", available, required, terms, **settings | more))


def rivet(shear=1250.0, load=118.0, factor=1.725):
    return one(
        "P_s",
        "FS * S",
        {
            "S": Term(load, "force", "shear of one rivet at limit"),
            "FS": Term(factor, "", "from limit load to ultimate"),
            "P_s": Term(shear, "force", "shear strength of one rivet", TEXT, "rivet.small.shear"),
        },
        subject="this rivet",
    )


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_every_shown_working_gives_what_is_shown(demo, system):
    worked = 0
    for finding in demo.findings:
        for shown in shown_formulas(finding, system):
            letters = {letter.name: float(letter.text) for letter in shown.letters}
            places = len(shown.result.partition(".")[2])
            for value in (evaluate(shown.formula, letters), evaluate(shown.filled, {})):
                assert float(f"{value:.{places}f}") == float(shown.result), (finding.name, shown)
            worked += 1
    assert worked > len(demo.margins)


def test_what_is_shown_is_what_was_computed(demo):
    for finding in demo.findings:
        by_name = {shown.name: shown for shown in shown_formulas(finding)}
        if finding.kind == "margin" and finding.margin is not None and np.isfinite(finding.margin):
            assert by_name["margin"].result == margin_text(finding.margin)
            assert ("used" in by_name) == bool(finding.check.proof)
        if "used" in by_name:
            assert by_name["used"].result == "1.000"
            texts = [{x.name: x.text for x in by_name[name].letters}["lam"] for name in ("margin", "used")]
            assert texts[0] == texts[1]


def test_the_printed_lines_can_be_typed_into_a_calculator(demo):
    name = "(?:margin|used|times limit load|must carry)"
    filled = re.compile(rf"^{name} = (.*?)\n +(?<!:) = (\S+)", re.MULTILINE | re.DOTALL)
    for finding in (*demo.margins[:30], *demo.not_given[:5], *demo.statements):
        for numbers, result in filled.findall(show_working(finding, demo)):
            typed = " ".join(numbers.rpartition("known from")[2].split()).rpartition("= ")[2]
            value = evaluate(typed, {})
            assert float(f"{value:.{len(result.partition('.')[2])}f}") == float(result), (finding.name, typed)


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("width", [80, 100])
def test_a_summary_fits(demo, system, width):
    text = summary(demo, system, width)
    assert text.isascii()
    assert max(len(line) for line in text.split("\n")) <= width
    held = f"every case: load in = pins and {demo.horn_pull.kind} back"
    for words in ("LOWEST", "RULES", "BALANCE", "NOT LOOKED AT", held):
        assert words in text
    assert " ".join(text.split()).endswith("No flight on the strength of this page.")


def test_a_summary_says_the_lowest_margins_in_order(demo):
    table = margin_table(demo)
    margins = [float(row[2]) for row in table.rows]
    assert margins == sorted(margins)
    assert [row[1] for row in table.rows] == [f.part for f in demo.lowest_by_part[:5]]
    assert table.rows[0][2] in summary(demo)


def test_no_word_that_reads_as_permission(demo):
    texts = [summary(demo), notebook_html(demo), *(show_working(f, demo) for f in demo.findings)]
    for text in texts:
        ours = re.sub(r"not safe|approved (rating|load of the bearing)", "", " ".join(text.split()))
        assert not re.search(r"(?i)\b(ok|safe|passes|passed|fine|enough|approved)\b", ours), text


def test_pins_and_cable_are_those_of_the_assessment(demo):
    rows = pin_table(demo).rows
    assert [row[0] for row in rows[: len(demo.pins)]] == [pin.name for pin in reversed(demo.pins)]
    for row, pin in zip(rows, reversed(demo.pins), strict=False):
        shown = float(row[2].split()[0]) if row[2] != "-" else 0.0
        assert shown == pytest.approx(abs(pin.sideways.value), rel=5e-3, abs=1e-3)


def test_a_difference_of_methods_over_a_tenth_is_in_capitals(rudder):
    pins = tuple(replace(pin, apart=replace(pin.apart, value=0.14)) for pin in rudder.pins)
    assert pin_table(replace(rudder, pins=pins)).note.count("14 % APART") == len(pins)
    pins = tuple(replace(pin, apart=replace(pin.apart, value=0.09)) for pin in rudder.pins)
    assert "APART" not in pin_table(replace(rudder, pins=pins)).note


def test_left_is_left(rudder):
    pin = rudder.pins[0]
    words = {}
    for value in (5.0, -5.0):
        moved = replace(pin, sideways=replace(pin.sideways, value=value))
        words[value] = pin_table(replace(rudder, pins=(moved,))).rows[0][2]
    assert words == {5.0: "5.00 N left", -5.0: "5.00 N right"}


def test_sentence_of_a_margin():
    assert finding_sentence(rivet()) == (
        "At limit this rivet carries 118 N. With factors 1.5 and 1.15 it must be good for 204 N at ultimate; "
        "the data sheet says 1250 N, 6.14 times that: margin +5.14."
    )


def test_sentence_of_what_is_less_than_required():
    said = finding_sentence(rivet(shear=187.27))
    assert "It is good for 0.92 of what is required: margin -0.08, less than required." in said


def test_sentence_of_an_unknown_strength():
    assert finding_sentence(rivet(shear=None)) == (
        "At limit this rivet carries 118 N. No strength given. With factors 1.5 and 1.15 it must be good for 204 N "
        "at ultimate: shear strength of one rivet at least 204 N; look for that on the data sheet."
    )


def test_sentence_where_nothing_acts():
    assert finding_sentence(rivet(load=0.0)) == "Nothing is required of this rivet here."
    assert shown_formulas(rivet(load=0.0)) == ()


def test_an_unknown_strength_is_turned_round():
    terms = {
        "S": Term(1000.0, "force", "load of the pin at limit"),
        "FS": Term(2.0, "", "factor"),
        "D": Term(0.005, "length", "pin"),
        "t": Term(0.002, "length", "leg"),
        "F": Term(None, "stress", "bearing strength", key="bracket.plate.pin.crushing_strength"),
    }
    least = needed(one("F * D * t", "FS * S", terms))
    assert least.key == "bracket.plate.pin.crushing_strength"
    assert least.si == pytest.approx(2000.0 / (0.005 * 0.002), rel=1e-12)
    assert needed(one("min(F, 1e8) * D * t", "FS * S", terms)) is None
    assert needed(one("F * D * t", "FS * S", terms | {"t": Term(None, "length", "leg")})) is None


@pytest.mark.parametrize(
    ("formula", "quantity"),
    [
        ("S", "force"),
        ("S / (D * t)", "stress"),
        ("S * D", "torque"),
        ("S / D", "line_load"),
        ("S / S", ""),
        ("D", "length"),
    ],
)
def test_the_unit_of_a_result_is_found(formula, quantity):
    terms = {name: Term(value, of, "") for name, value, of in
             (("S", 3.0, "force"), ("D", 0.004, "length"), ("t", 0.0005, "length"))}  # fmt: skip
    assert quantity_of_result(one("1", formula, terms), formula) == quantity


def test_a_multiple_of_the_load_is_proved():
    terms = {
        "S": Term(100.0, "force", "shear at limit"),
        "P_s": Term(800.0, "force", "strength"),
        "lam": Term(2.0, "", "multiple of the load"),
    }
    margin, used = shown_formulas(one("P_s", "S", terms, proof="lam**3 * S / P_s"))
    assert (margin.result, margin.filled) == ("+1.00", "2 - 1")
    assert (used.result, used.filled) == ("1.000", "2**3 * 100 / 800")


def test_a_wrong_proof_is_no_silent_nonsense():
    terms = {"S": Term(100.0, "force", ""), "P_s": Term(800.0, "force", ""), "lam": Term(2.0, "", "")}
    with pytest.raises(SurfaceError, match=r"does not give 1\.000"):
        shown_formulas(one("P_s", "S", terms, proof="lam * S / P_s"))


def test_tables_of_rivets(rudder):
    rows = row_table(rudder, "left_skin_to_spar").rows
    load = next(row for row in rudder.rows if row.row.name == "left_skin_to_spar")
    assert max(float(row[2].split()[0]) for row in rows) == pytest.approx(load.shear.max(), rel=5e-3)
    for name in rudder.surface.hinges:
        assert len(bracket_table(rudder, name).rows) == 6
    with pytest.raises(SurfaceError, match=r"was not worked; worked: .*left_skin_to_spar"):
        row_table(rudder, "left_skin")


def test_mass_adds_up(demo):
    *parts, whole = mass_table(demo).rows
    total = sum(float(row[1].split()[0]) for row in parts if row[0] != "paint") * float(np.mean(demo.masses.mass_scale))
    assert float(whole[1].split()[0]) == pytest.approx(total, abs=0.06 * len(parts))
    assert ("tail-heavy" in balance_line(demo)) == (float(np.mean(demo.masses.moment)) > 0.0)


class _Reader(HTMLParser):
    def __init__(self):
        super().__init__()
        self.tags = set()

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)


def test_a_notebook_shows_names_as_text(rudder):
    named = replace(rudder, surface=replace(rudder.surface, name="<script>alert(1)</script>"))
    reader = _Reader()
    reader.feed(notebook_html(named))
    assert reader.tags <= {"div", "h4", "h5", "p", "em", "ul", "li", "table", "caption", "thead", "tbody", "tfoot",
                           "tr", "th", "td"}  # fmt: skip
    assert "\x1b" not in summary(replace(rudder, surface=replace(rudder.surface, name="\x1b[2J")))


@pytest.mark.parametrize(("ends_at", "says"), [("# ---- C", "cable"), ("[horn]", "no margin yet")])
def test_a_half_filled_file_gives_its_half(ends_at, says):
    text = (DATA / "rudder.toml").read_text(encoding="utf-8").split(ends_at)[0]
    found = assess(read_text(text))
    shown = summary(found)
    assert max(len(line) for line in shown.split("\n")) <= 80
    assert says in shown
    for pin in found.pins:
        assert pin.name in shown
    assert counts(found)["not given"] == len(found.surface.gaps) > 0


def test_places_and_cases_in_words():
    assert place_words("row.left_skin_to_spar.edge.spar") == "left skin to spar edge spar"
    assert (
        case_words("control system, 1.25 x: side load to the left, even") == "control system, 1.25 x: side load, even"
    )
    assert (
        case_words("along the hinge line, 24 g, down, taken by bottom") == "along the hinge line, 24 g, taken by bottom"
    )
