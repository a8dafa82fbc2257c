"""Weighed and balanced, before and after: sums by hand, states that change nothing, words."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.errors import SurfaceError
from surfacecheck.masses import GRAVITY, painted, weigh
from surfacecheck.model import Added, BalanceMass, Half, Kind, Surface, Weighed
from surfacecheck.provenance import Basis, Source, Value
from surfacecheck.studies import (
    MET,
    NOT_APPLICABLE,
    NOT_MET,
    balance,
    balance_change,
    balance_data,
    balance_headline,
    balance_text,
    group_table,
    paint_line,
    reading_lines,
    state_table,
)

DATA = Path(__file__).parents[2] / "data"
READ = Source(Basis.MEASURED, "scale")
POUND = 0.45359237


def v(si, key=""):
    return Value(si, f"{si}", READ, key)


@pytest.fixture(scope="module")
def rudder():
    return surfacecheck.read(DATA / "rudder.toml")


@pytest.fixture(scope="module")
def study():
    files = (DATA / name for name in ("rudder.toml", "rudder_weighed.toml", "rudder_painted.toml"))
    return balance(*(surfacecheck.read(one) for one in files))


def put_on(surface, *things):
    return replace(surface, weighed=replace(surface.weighed, added=things))


def test_a_repair_is_paid_twice(rudder):
    """0.15 lb at 12 in aft is 1.8 in-lb; 0.60 lb 3 in ahead keeps the balance; 0.75 lb in all (sum by hand)."""
    inch = 0.0254
    before, after = weigh(rudder), weigh(put_on(rudder, Added("patch", v(0.15 * POUND), v(12 * inch), v(0.3))))
    change = balance_change(before, after, 3.0 * inch)
    assert change.mass / POUND == pytest.approx(0.15)
    assert change.moment / (POUND * GRAVITY * inch) == pytest.approx(1.8)
    assert change.nose / POUND == pytest.approx(0.60)
    assert change.paid / POUND == pytest.approx(0.75)


def test_paint_of_the_published_sum(rudder):
    """0.24 lb of paint at 7.2 in aft: 1.728 in-lb."""
    inch = 0.0254
    change = balance_change(weigh(rudder), weigh(put_on(rudder, Added("paint", v(0.24 * POUND), v(7.2 * inch)))), 0.1)
    assert change.moment / (POUND * GRAVITY * inch) == pytest.approx(1.728)


def test_paint_on_the_whole_planform_lies_in_the_published_band(rudder):
    """0.12 to 0.30 kg/m2 on both sides of 0.396 m2, centre 0.1817 m: 0.10 to 0.24 kg, 0.17 to 0.42 N m (by hand)."""
    bare = (replace(p, web_behind=v(0.0), spar_depth=v(1e-9)) for p in rudder.outline.places)
    skin = replace(rudder.sheet.nose_skin, thickness=Value(0.0, "none", absent=True))
    flat = replace(rudder, outline=replace(rudder.outline, at=tuple(bare)), sheet=replace(rudder.sheet, nose_skin=skin))
    on = painted(flat)
    assert float(on.area) == pytest.approx(0.792, rel=1e-6)
    assert float(on.x) == pytest.approx(0.1817, abs=5e-5)
    assert [round(coat * float(on.area), 2) for coat in (0.12, 0.30)] == [0.10, 0.24]
    assert [round(coat * float(on.first) * GRAVITY, 2) for coat in (0.12, 0.30)] == [0.17, 0.42]


def test_a_change_of_nothing_changes_nothing(rudder):
    same = put_on(rudder, Added("nothing", v(0.0), v(0.4), v(0.5)))
    changes = balance(rudder, rudder, same).changes
    assert [(one.mass, one.moment, one.nose, one.paid) for one in changes] == [(0.0, 0.0, 0.0, 0.0)] * 2


def test_taking_it_off_again_is_the_opposite(rudder):
    tab = put_on(rudder, Added("tab", v(0.06), v(0.395), v(0.3)))
    there, back = balance(rudder, tab).changes[0], balance(tab, rudder).changes[0]
    assert (back.mass, back.moment, back.nose) == pytest.approx((-there.mass, -there.moment, -there.nose))


def test_the_levelling_mass_levels(rudder):
    ahead = 0.12
    place = BalanceMass(Value(0.0, "none", absent=True), v(1.0), v(ahead))
    level = balance(replace(rudder, balance_mass=place)).columns[0].levelling
    assert level.ahead == ahead
    assert dict(level.loads)["normal to the surface"] == pytest.approx(24.0 * GRAVITY * level.mass)
    assert dict(level.loads)["fore and aft"] == pytest.approx(12.0 * GRAVITY * level.mass)
    done = balance(replace(rudder, balance_mass=BalanceMass(v(level.mass), v(1.0), v(ahead)))).columns[0]
    assert done.moment == pytest.approx(0.0, abs=1e-12)
    half = balance(replace(rudder, balance_mass=BalanceMass(v(0.5 * level.mass), v(1.0), v(ahead)))).columns[0]
    assert half.levelling.mass == pytest.approx(0.5 * level.mass)
    assert half.levelling.whole == pytest.approx(level.mass)
    over = balance(replace(rudder, balance_mass=BalanceMass(v(2.0 * level.mass), v(1.0), v(ahead)))).columns[0]
    assert over.moment < 0.0
    assert over.levelling is None
    assert "nose-heavy" in balance_headline(over)


def test_the_demo_worked_by_hand(study):
    """766 and 740 g at 360 mm: 753 g x 9.80665 x 0.36 = 2.6584 N m; then paint 0.2 kg/m2, a tab of 60 g at 395 mm."""
    weighed, painted_one = study.columns[1:]
    assert weighed.moment == pytest.approx(0.753 * GRAVITY * 0.36)
    assert float(weighed.readings.friction) == pytest.approx(0.013 * GRAVITY)
    rest = 0.36 * GRAVITY * (0.753 - 0.746) / np.tan(np.radians(20.0))
    assert float(weighed.readings.height) == pytest.approx(rest)
    on = painted(painted_one.surface)
    more = 0.2 * float(on.first) * GRAVITY + 0.06 * 0.395 * GRAVITY
    assert painted_one.moment - weighed.moment == pytest.approx(more)
    assert painted_one.mass == pytest.approx(2.12 + 0.2 * float(on.area) + 0.06)
    assert painted_one.bare_mass == pytest.approx(2.12)
    assert painted_one.by_parts == pytest.approx(study.columns[0].moment)


def test_left_and_right_half_weigh_the_same():
    text = (DATA / "elevator.toml").read_text(encoding="utf-8")
    assert 'half = "left"' in text
    left, right = (balance(surfacecheck.read_text(text.replace('half = "left"', f'half = "{half}"'))).columns[0]
                   for half in ("left", "right"))  # fmt: skip
    assert (left.mass, left.moment, left.by_parts) == (right.mass, right.moment, right.by_parts)
    assert left.levelling == right.levelling
    assert [one.outcome for one in left.criteria] == [one.outcome for one in right.criteria]


@pytest.mark.parametrize(
    ("changes", "outcomes"),
    [
        ({}, ["not given", NOT_APPLICABLE, "not given"]),
        ({"speed_dive": v(80.0)}, [MET, NOT_APPLICABLE, "not given"]),
        ({"speed_dive": v(140.0)}, [NOT_MET, NOT_APPLICABLE, "not given"]),
        ({"gamma_allowed": v(9.0)}, ["not given", NOT_APPLICABLE, MET]),
        ({"gamma_allowed": v(0.1)}, ["not given", NOT_APPLICABLE, NOT_MET]),
        ({"kind": Kind.AILERON, "half": Half.LEFT}, ["not given", "not given", NOT_APPLICABLE]),
        ({"kind": Kind.AILERON, "half": Half.LEFT, "free_play": v(0.005)}, ["not given", MET, NOT_APPLICABLE]),
        ({"kind": Kind.AILERON, "half": Half.LEFT, "free_play": v(0.010)}, ["not given", NOT_MET, NOT_APPLICABLE]),
    ],
)
def test_simplified_criteria_have_three_words_and_never_a_verdict(rudder, changes, outcomes):
    weighed = {key: one for key, one in changes.items() if key in {"gamma_allowed", "free_play"}}
    plane = {key: one for key, one in changes.items() if key == "speed_dive"}
    head = {key: one for key, one in changes.items() if key in {"kind", "half"}}
    changed = replace(
        rudder, weighed=replace(rudder.weighed, **weighed), aeroplane=replace(rudder.aeroplane, **plane), **head
    )
    column = balance(changed).columns[0]
    assert [one.outcome for one in column.criteria] == outcomes
    text = balance_text(balance(changed))
    assert "No verdict on flutter" in text


def test_gamma_by_a_timed_swing(rudder):
    """gamma = b S / I, I = M T^2 / 4 pi^2: 4 pi^2 b / (g T^2) whatever the moment; b half the chord at 70 per cent."""
    swung = replace(rudder, weighed=replace(rudder.weighed, swing_time=v(1.1)))
    gamma = balance(swung).columns[0].criteria[-1]
    chord = 0.3 * (0.380 + 0.420) + 0.7 * (0.270 + 0.300)
    assert gamma.semichord == pytest.approx(chord / 2.0)
    assert gamma.found == pytest.approx(chord / 2.0 / GRAVITY * (2.0 * np.pi / 1.1) ** 2)
    estimate = balance(rudder).columns[0].criteria[-1]
    assert "estimated" in estimate.says
    unknown = Value(None, "?", key="outline.at[1].fin_ahead")
    places = tuple(replace(one, fin_ahead=unknown) for one in rudder.outline.places)
    no_fin = replace(rudder, outline=replace(rudder.outline, at=places))
    assert balance(no_fin).columns[0].criteria[-1].says == "outline.at[1].fin_ahead"


def test_half_filled_and_empty():
    alone = Surface(weighed=Weighed(mass=v(2.5)))
    assert "2.50 kg; not given" in balance_headline(balance(alone).columns[0])
    push = Surface(weighed=Weighed(push_behind=v(0.36), rising=(v(11.2),), sinking=(v(10.8),)))
    assert balance(push).columns[0].moment == pytest.approx(3.96)
    assert "3.96 N m tail-heavy" in balance_headline(balance(push).columns[0])
    nothing = balance(Surface()).columns[0]
    assert balance_headline(nothing) == "Mass not given; not given: outline.at."
    assert (nothing.mass, nothing.moment, nothing.levelling, nothing.by_parts) == (None, None, None, None)
    assert "No flight" in balance_text(balance(Surface()))
    with pytest.raises(SurfaceError, match="a nose mass 0 mm ahead of the pins levels nothing"):
        balance_change(weigh(alone), weigh(alone), 0.0)


def test_before_anything_is_read_the_scale_is_foretold(rudder):
    """By the parts 2.515 N m; at 360 mm 6.986 N, 712 g."""
    arm = replace(rudder, weighed=replace(rudder.weighed, push_behind=v(0.36)))
    (line,) = reading_lines(balance(arm).columns[0])
    moment = balance(rudder).columns[0].moment
    assert f"{moment / 0.36:.2f} N ({1e3 * moment / 0.36 / GRAVITY:.0f} g)" in line
    assert "over r" in reading_lines(balance(rudder).columns[0])[0]
    one = replace(arm, weighed=replace(arm.weighed, tail_push=v(7.0)))
    assert "friction is in it, unknown" in " ".join(reading_lines(balance(one).columns[0]))


def test_groups_add_up_to_the_parts(study):
    column = study.columns[-1]
    table = group_table(column)
    masses = {row[0]: float(row[1].split()[0]) for row in table.rows}
    whole = masses.pop("whole (measured)")
    parts = sum(float(piece.mass) for piece in column.masses.pieces)
    assert sum(masses.values()) == pytest.approx(parts + masses["paint"], abs=2e-3)
    assert whole == pytest.approx(column.mass, abs=5e-3)
    assert {"fixed tab", "paint", "ribs", "rivets in rows", "horn and its rivets"} <= set(masses)


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_text_fits_and_carries_the_caution(study, system):
    text = balance_text(study, system)
    assert text.isascii()
    assert max(len(line) for line in text.split("\n")) <= 80
    assert "No flight on the strength of this page." in " ".join(text.split())
    assert "paid twice" in text
    assert text.count("rising") == 1
    assert not re.search(r"(?i)\b(safe|approved|ok|fine|passes|recommend)\b", text)
    other = r"\d mm\b|\d N\b|\d kg\b(?! m2)|\d g\b(?! sideways|,|:| \()" if system == "inch" else r"\d in\b|\d lbf?\b"
    assert re.findall(other, re.sub(r"24, 12,?\s+12\s+g|24 g|12 g", "", text)) == []


def test_signs_of_a_change(study):
    rows = {row[0]: row[1:] for row in state_table(study).rows}
    assert rows["change of mass"] == ("", "+0.119 kg", "+0.357 kg")
    assert rows["paid in all"][0] == ""
    back = {row[0]: row[1:] for row in state_table(balance(*(c.surface for c in study.columns[::-1]))).rows}
    assert back["change of mass"][-1] == "-0.357 kg"


def test_paint_line_without_an_outline_says_nothing(study):
    assert paint_line(balance(Surface(weighed=Weighed(mass=v(2.0)))).columns[0]) == ""
    assert "0.120 kg/m2 to 0.300 kg/m2 a side" in paint_line(study.columns[0])


def test_plain_data(study):
    data = json.loads(json.dumps(balance_data(study), allow_nan=False))
    assert [one["title"] for one in data["states"]] == list(study.titles)
    assert data["states"][1]["readings"]["friction"] == pytest.approx(0.013 * GRAVITY)
    assert data["states"][0]["readings"] is None
    assert data["changes"][1]["paid"] == pytest.approx(study.changes[1].paid)
    assert sum(one["mass"] for one in data["states"][0]["parts"]) == pytest.approx(data["states"][0]["mass"])
    assert "No flight" in data["caution"]


def test_a_notebook_shows_names_as_text(rudder):
    html = balance(put_on(rudder, Added("<b>lead</b>", v(0.1), v(0.1), v(0.1))))._repr_html_()
    assert "<b>" not in html
    assert "No flight" in html
