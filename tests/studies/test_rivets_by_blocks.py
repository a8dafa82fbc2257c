"""Alternatives are worked block by block: sheets as stacks, with the numbers of each; a stop keeps what was done."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.report import rivets_page, rivets_picture
from surfacecheck.studies import Alternatives, rivets, rivets_data
from surfacecheck.studies.riveting import _rivets_all
from surfacecheck.studies.riveting._rivets_fill import RowFilling

DATA = Path(__file__).parents[2] / "data"
MM = 1e-3
ROWS = ("left_skin_to_spar", "left_skin_to_ribs")
SHEETS = (0.4 * MM, 0.5 * MM, 0.55 * MM, 0.63 * MM, 0.8 * MM)
LISTS = {"pitch": (22 * MM, 34 * MM), "rivet": ("small", "AD 5/32"), "edge": (6 * MM, 7 * MM)}
PATTERN = 2 * 2 * 2


@pytest.fixture(scope="module")
def rudder():
    return surfacecheck.read(DATA / "rudder.toml")


@pytest.fixture(scope="module")
def whole(rudder):
    return rivets(rudder, ROWS, Alternatives(**LISTS, sheet=SHEETS))


WORDED = {"gives": "modes", "next_": "modes", "zero_gives": "modes", "why": "reasons"}


def figures(table):
    """Every table of a row, with words for what is numbered."""
    found = {}
    for one in fields(table):
        values = getattr(table, one.name)
        if isinstance(values, np.ndarray):
            words = getattr(table, WORDED[one.name]) if one.name in WORDED else None
            found[one.name] = values if words is None else np.array([repr(words[i]) if i >= 0 else "" for i in values])
    assert len(found) > 15
    return found


def same(one, other):
    """To the last bit, holes for holes."""
    return (
        one.dtype == other.dtype and one.tobytes() == other.tobytes() if one.dtype.kind == "f" else (one == other).all()
    )


@pytest.mark.parametrize("at", range(len(SHEETS)))
def test_sheets_worked_as_a_stack_have_every_bit_of_each_alone(rudder, whole, at):
    """A single thickness is no stack: it goes through the load path by itself."""
    alone = rivets(rudder, ROWS, Alternatives(**LISTS, sheet=(SHEETS[at],)))
    here = slice(at * PATTERN, (at + 1) * PATTERN)
    for together, by_itself in zip(whole.rows, alone.rows, strict=True):
        other = figures(by_itself)
        for name, values in figures(together).items():
            assert same(values[here], other[name]), name
    for name in ("margin", "mass", "moment", "minutes"):
        assert same(getattr(whole.whole, name)[here], getattr(alone.whole, name)), name
    assert str(whole.sheets[at]) == str(alone.sheets[0])


def test_one_sheet_is_what_an_assessment_of_that_surface_gives(whole):
    """The last sheet of the stack, the last pitch, rivet and edge."""
    last = whole.size - 1
    found = surfacecheck.assess(whole.surface_of(last))
    for table in whole.rows:
        least = min(one.margin for one in found.margins if one.check.place == f"row.{table.row.name}")
        assert table.margin[last] == least


def test_the_sheets_are_not_worked_one_by_one(rudder, monkeypatch):
    """Five thicknesses go through the load path once; whoever asks for one of them alone would fail here."""
    asked = []
    monkeypatch.setattr(_rivets_all, "assess_each", lambda some: asked.append(len(some)) or assess_each(some))
    from surfacecheck.assessment import _each, assess_each

    def alone(surface):
        raise AssertionError(surface.name)

    monkeypatch.setattr(_each, "assess", alone)
    found = rivets(rudder, ROWS, Alternatives(**LISTS, sheet=SHEETS))
    assert np.isfinite(found.whole.margin).all()
    assert asked == [len(SHEETS)]


def test_more_sheets_than_a_stack_takes(rudder, whole, monkeypatch):
    monkeypatch.setattr(_rivets_all, "SHEETS", 2)
    found = rivets(rudder, ROWS, Alternatives(**LISTS, sheet=SHEETS))
    for one, other in zip(found.rows, whole.rows, strict=True):
        assert all(same(values, figures(other)[name]) for name, values in figures(one).items())


@pytest.fixture
def interrupted(monkeypatch):
    """Let the keyboard interrupt in the middle of a block: its first row is worked, the others are not."""

    def at(block):
        work = RowFilling.block
        seen = []

        def one(self, assessment, where):
            if self.alternatives != Alternatives():  # the rows as drawn come first
                seen.append(where)
                if where == block and self.row.name == ROWS[1]:
                    raise KeyboardInterrupt
            work(self, assessment, where)

        monkeypatch.setattr(RowFilling, "block", one)
        return seen

    return at


@pytest.mark.parametrize(("block", "done"), [((0, 1, 0), 1), ((1, 0, 0), 2), ((3, 1, 0), 7)])
def test_stopped_it_holds_whole_alternatives_of_all_rows(rudder, whole, interrupted, block, done):
    interrupted(block)
    found = rivets(rudder, ROWS, Alternatives(**LISTS, sheet=SHEETS))
    some = done * PATTERN // 2
    assert (found.stopped, found.size, found.asked) == (True, some, len(SHEETS) * PATTERN)
    for one, other in zip(found.rows, whole.rows, strict=True):
        assert all(same(values, figures(other)[name][:some]) for name, values in figures(one).items())
    assert same(found.whole.mass, whole.whole.mass[:some])
    assert not whole.stopped


def test_stopped_everything_that_is_shown_says_how_many_of_how_many(rudder, interrupted):
    interrupted((1, 1, 0))
    found = rivets(rudder, ROWS, Alternatives(**LISTS, sheet=SHEETS))
    said = "Stopped: 12 of 40 alternatives were finished, and only they are here."
    for text in (str(found), found._repr_html_(), rivets_page(found)):
        assert said in " ".join(text.split())
    assert "12 of 40 alternatives" in str(found).split("WHAT EACH CARRIES")[1].split("\n")[0]
    data = rivets_data(found)
    assert (data["stopped"], data["asked"], len(data["alternatives"])) == (True, 40, 12)
    assert rivets_picture(found) is not None
    assert found.surface_of(11).sheet.left_skin.thickness.si == SHEETS[1]


def test_stopped_before_anything_was_finished_it_says_so(rudder, interrupted):
    seen = interrupted((0, 0, 0))
    with pytest.raises(KeyboardInterrupt, match="not one alternative was finished"):
        rivets(rudder, ROWS, Alternatives(**LISTS))
    assert len(seen) == 2


def test_all_that_was_asked_for_is_not_stopped(whole):
    data = rivets_data(whole)
    assert (data["stopped"], data["asked"], len(data["alternatives"])) == (False, 40, 40)
    assert "Stopped" not in str(whole)


def test_a_bar_shows_how_far_it_is_when_it_takes_long(rudder, monkeypatch, capsys):
    """It counts alternatives; a second is more than this takes, so the bar is told to show at once."""
    import tqdm

    class AtOnce(tqdm.tqdm):
        def __init__(self, *args, **more):
            assert more["delay"] == 1.0
            super().__init__(*args, **(more | {"delay": 0.0, "mininterval": 0.0}))

    monkeypatch.setattr(tqdm, "tqdm", AtOnce)
    rivets(rudder, ROWS[0], Alternatives(**LISTS), progress=True)
    err = capsys.readouterr().err
    assert "4.00/8.00" in err
    assert "alternatives" in err
    rivets(rudder, ROWS[0], Alternatives(**LISTS))
    assert capsys.readouterr().err == ""


def test_of_many_sheets_the_limits_of_the_ends_are_told(rudder):
    """A list that nobody reads is no answer; plain data has them all."""
    sheets = tuple(np.linspace(0.8, 0.4, 9) * MM)
    found = rivets(rudder, ROWS[0], Alternatives(sheet=sheets))
    said = " ".join(str(found).split())
    assert "of 9 sheets the limits of the thinnest and the thickest are shown" in said
    told = said.split("LIMITS OF A PITCH")[1]
    assert "sheet 0.400 mm" in told
    assert "sheet 0.800 mm: lowest margin" in told
    assert "sheet 0.550 mm" not in told
    assert any("sheet 0.550 mm" in one["what"] for one in rivets_data(found)["limits"])


def test_a_countersunk_sheet_is_outside_the_method(rudder):
    """Its bearing tables are of plain holes: no margin of that sheet says that it carries, in whatever command."""
    from surfacecheck.checks import Outcome

    heads = Alternatives(head=("protruding", "countersunk", "dimpled"), sheet=(0.8 * MM, 1.6 * MM))
    found = rivets(rudder, ROWS[0], heads)
    assert found.rows[0].outside.tolist() == [False, True, False] * 2
    said = " ".join(str(found).split())
    assert "less bears than in a plain hole" in said
    assert "less bears than in a plain hole" not in str(rivets(rudder, ROWS[0], Alternatives(head=("dimpled",))))
    checked = surfacecheck.assess(found.surface_of(4))
    for mode, outcome in (("left_skin-crush", Outcome.OUTSIDE), ("spar-crush", Outcome.CARRIES)):
        assert checked.find(f"row.left_skin_to_spar:{mode}").outcome == outcome
    assert "strength does not set this pitch" not in str(rivets(checked, ROWS[0], Alternatives()))


def test_pulled_beside_solid_says_what_no_margin_tells(rudder):
    said = " ".join(str(rivets(rudder, ROWS[0], Alternatives(rivet=("AD 1/8",)))).split())  # drawn are pulled ones
    assert "a pulled rivet does not fill its hole" in said
    assert "strength of AD 1/8 in, 3.17 mm, hole 3.26 mm, solid" in said
    assert "does not fill its hole" not in str(rivets(rudder, ROWS[0], Alternatives(rivet=("small", "large"))))


def test_the_pitch_for_margin_zero_names_the_one_rivet_that_was_asked_for(rudder):
    said = " ".join(str(rivets(rudder, ROWS[0], Alternatives(rivet=("large",), pitch=(25 * MM, 30 * MM)))).split())
    assert "left skin to spar large" in said.split("PITCH FOR MARGIN ZERO")[1]
    said = " ".join(str(rivets(rudder, ROWS[0], Alternatives(pitch=(25 * MM, 30 * MM)))).split())
    assert "left skin to spar as drawn" in said.split("PITCH FOR MARGIN ZERO")[1]
