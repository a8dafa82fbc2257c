"""Alternatives for the rivets of rows: against whole assessments, by hand, and what cannot be."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import surfacecheck
from surfacecheck.checks import factors_of
from surfacecheck.errors import SurfaceError
from surfacecheck.library import rivet_type
from surfacecheck.model import Apart, HeadKind, Rivet, RivetSet, YesNo
from surfacecheck.provenance import NOT_SAID, Value, plain
from surfacecheck.reading import read_text
from surfacecheck.studies import Alternatives, limits, rivets, takeoff, takes_table, unbeaten
from surfacecheck.studies.riveting._rivets_flange import flange_lines, flange_margin
from surfacecheck.studies.riveting._rivets_rules import RULES
from surfacecheck.studies.riveting._rivets_words import bits

DATA = Path(__file__).parents[2] / "data"
MM = 1e-3


def mm(*values):
    return tuple(value * MM for value in values)


@pytest.fixture(scope="module")
def rudder():
    return surfacecheck.assess(surfacecheck.read(DATA / "rudder.toml"))


@pytest.fixture(scope="module")
def elevator():
    return surfacecheck.assess(surfacecheck.read(DATA / "elevator.toml"))


def row_margins(assessment, name):
    """Margins of one row of an assessment, lowest first."""
    own = [one for one in assessment.margins if one.check.place == f"row.{name}"]
    return sorted(own, key=lambda one: one.margin)


SAMPLES = [
    ("rudder", "left_skin_to_spar", {"pitch": mm(22, 41)}, (0, 9, 22)),
    ("rudder", "right_skin_to_ribs", {"pitch": mm(18, 33)}, (1, 10)),
    ("rudder", "trailing_edge", {"pitch": mm(15, 30)}, (2, 23)),
    ("rudder", "ribs_to_spar", {"count": (1, 3)}, (3, 21)),
    ("rudder", "doubler_to_spar", {"pitch": mm(20, 45)}, (4, 18)),
    ("rudder", "nose_skin_to_ribs", {"count": (2, 5)}, (5, 20)),
    ("elevator", "bottom_skin_to_spar", {"pitch": mm(22, 41)}, (6, 19)),
    ("elevator", "top_skin_to_ribs", {"pitch": mm(25, 60)}, (7, 22)),
]


@pytest.mark.parametrize(("file", "name", "spaces", "chosen"), SAMPLES, ids=[f"{s[0]}-{s[1]}" for s in SAMPLES])
def test_bit_for_bit_what_the_whole_surface_gives(file, name, spaces, chosen, rudder, elevator):
    """Margin, the next, what gives, pitch, number, and where the skin edge lifts, of the surface with that row."""
    base = {"rudder": rudder, "elevator": elevator}[file]
    kinds = ("small", "AD 5/32", "ISO 15977 H 3.2")
    found = rivets(base, name, Alternatives(**spaces, rivet=kinds, edge=mm(5.5, 7), lines=(1, 2)))
    (table,) = found.rows
    for i in chosen:
        alone = surfacecheck.assess(found.surface_of(i))
        first, second = row_margins(alone, name)[:2]
        assert (table.margin[i], table.then[i]) == (first.margin, second.margin), i
        assert table.modes[table.gives[i]] == (first.check.mode, first.gives)
        plan = next(load.plan for load in alone.rows if load.row.name == name)
        assert (table.total[i], table.pitch[i]) == (plan.total, plan.pitch)
        lifts = [one.margin + 1.0 for one in alone.statements if one.check.mode == "between-rivets"
                 and one.check.place == f"row.{name}"]  # fmt: skip
        assert lifts == ([] if math.isnan(table.lifts[i]) else [table.lifts[i]])


def test_a_sheet_changes_the_loads_and_is_worked_again(rudder):
    found = rivets(rudder, "left_skin_to_spar", Alternatives(pitch=mm(25, 30), sheet=mm(0.5, 0.63)))
    for i in range(4):
        alone = surfacecheck.assess(found.surface_of(i))
        assert found.rows[0].margin[i] == row_margins(alone, "left_skin_to_spar")[0].margin
    assert found.surface_of(3).sheet.left_skin.thickness.si == 0.63 * MM
    more = found.whole.mass[2] - found.whole.mass[0]
    alone = [surfacecheck.assess(found.surface_of(i)).masses.mass for i in (0, 2)]
    assert more == pytest.approx(float(alone[1] - alone[0]), rel=1e-9)


def test_rules_are_those_of_the_surface(rudder):
    given = Alternatives(pitch=mm(10, 25), rivet=("small", "large", "AD 3/16"), edge=mm(5, 6.5, 8, 13))
    found = rivets(rudder, "left_skin_to_spar", given)
    (table,) = found.rows
    for i in range(0, found.size, 2):
        if table.why[i]:
            continue
        here = [
            r for r in surfacecheck.assess(found.surface_of(i)).rules if r.place.startswith("row.left_skin_to_spar")
        ]
        short = {r.name for r in here if r.counts and r.outcome == "does not meet"}
        assert set(bits(int(table.not_met[i]))) == short, i
    assert {name for i in range(found.size) for name in bits(int(table.not_met[i]))} == {
        "edge distance", "least pitch", "head clear of the bend",
    }  # fmt: skip
    assert set(bits(int(table.not_covered[0]))) == {"grip", "sheet for this rivet"}


def test_masses_and_numbers_are_those_of_the_surface(rudder):
    names = ("left_skin_to_spar", "trailing_edge")
    found = rivets(rudder, names, Alternatives(pitch=mm(25, 40), rivet=("small", "AD 1/8")))
    drawn = rudder.masses
    for i in range(4):
        masses = surfacecheck.assess(found.surface_of(i)).masses
        assert found.whole.mass[i] - found.as_drawn.mass[0] == pytest.approx(float(masses.mass - drawn.mass), abs=1e-12)
        turned = found.whole.moment[i] - found.as_drawn.moment[0]
        assert turned == pytest.approx(float(masses.moment - drawn.moment), abs=1e-9)
    taken = takeoff(found.surface_of(3))
    rows = [one for one in taken.rows if one.stretch.seats.place.removeprefix("row.") in names]
    count, holes = sum(one.count for one in rows), sum(one.holes for one in rows)
    assert found.whole.count[3] == count
    assert found.whole.minutes[3] == pytest.approx(taken.work.minutes(holes, count))
    assert found.bought(3).lines == len(taken.lines)


def test_two_thin_rivets_for_a_thick_one():
    """Two 1/8 in for one 5/32 in: hole areas 2 (0.1285 / 0.159)^2 = 1.306; table 8.1.2(b): 2 x 388 / 596 = 1.302."""
    thin, thick = rivet_type("AD 1/8"), rivet_type("AD 5/32")
    assert 2.0 * (plain(thin.hole) / plain(thick.hole)) ** 2 == pytest.approx(1.306, abs=5e-4)
    assert 2.0 * plain(thin.shear) / plain(thick.shear) == pytest.approx(2 * 388 / 596, rel=1e-6)


def test_two_thin_rivets_for_a_thick_one_in_a_row(rudder):
    """In thick sheet nothing of the tables' loss in thin sheet is left, and the row carries 1.302 times as much."""
    sheet = rudder.surface.sheet
    thick = {
        name: replace(getattr(sheet, name), thickness=Value(2.0 * MM)) for name in ("left_skin", "nose_skin", "spar")
    }
    thick["spar"] = replace(thick["spar"], flange=Value(25.0 * MM))  # room for two lines
    surface = replace(rudder.surface, sheet=replace(sheet, **thick))
    found = rivets(surface, "left_skin_to_spar", Alternatives(rivet=("AD 1/8", "AD 5/32"), lines=(1, 2), edge=mm(12)))
    (table,) = found.rows
    shear = {table.modes[way][0] for way in table.gives}
    assert shear == {"rivet-shear"}
    two_thin, one_thick = table.margin[1] + 1.0, table.margin[2] + 1.0
    assert two_thin / one_thick == pytest.approx(2 * 388 / 596, rel=1e-9)


def test_the_ends_of_the_edge_distances(rudder):
    """Bearing from 1.5 D to 2 D by a straight line; beyond 2 D no more; below 1.5 D the value at 1.5 D, and outside."""
    D = 3.2
    given = Alternatives(rivet=("ISO 15983 3.2",), edge=mm(1.4 * D, 1.5 * D, 1.75 * D, 2.2 * D, 2.6 * D))
    sheet = rudder.surface.sheet
    thin = replace(sheet, left_skin=replace(sheet.left_skin, thickness=Value(0.3 * MM)))
    found = rivets(replace(rudder.surface, sheet=thin), "trailing_edge", given)
    (table,) = found.rows
    assert [table.modes[way][0] for way in table.gives[3:]] == ["left_skin-crush", "left_skin-crush"]
    assert table.margin[4] == table.margin[3]
    assert table.outside.tolist() == [True, False, False, False, False]
    alone = [surfacecheck.assess(found.surface_of(i)) for i in range(5)]
    (strengths,) = zip(*((one.find("row.trailing_edge:left_skin-crush").value("F_br"),) for one in alone), strict=True)
    assert strengths[0] == strengths[1]
    assert strengths[2] == pytest.approx(0.5 * (strengths[1] + strengths[3]), rel=1e-12)
    assert strengths[4] == strengths[3]


def test_margin_zero_is_at_the_pitch_it_says(rudder):
    """A row made as long as seven spaces of that pitch has nothing left over, by the whole assessment."""
    found = rivets(rudder, "left_skin_to_spar", Alternatives(rivet=("small", "large", "ISO 15977 H 3.2")))
    (table,) = found.rows
    for i in range(3):
        pitch, row = float(table.zero_pitch[i]), found.surface_of(i).rows["left_skin_to_spar"]
        whole = replace(row, to=Value(0.020 + 7 * pitch), pitch=Value(pitch))
        surface = replace(found.surface_of(i), rows=found.surface_of(i).rows | {row.name: whole})
        assert surface.rows[row.name].to.si < 1.1
        first = row_margins(surfacecheck.assess(surface), row.name)[0]
        assert first.margin == pytest.approx(0.0, abs=1e-9)
        assert first.gives == table.modes[table.zero_gives[i]][1]


def test_margin_zero_where_the_pull_does_not_grow_with_the_pitch(elevator):
    """A row on ribs: the root, against the same row at pitches around it."""
    given = Alternatives(rivet=("ISO 15977 L 3",))
    (table,) = rivets(elevator, "bottom_skin_to_ribs", given).rows
    zero = float(table.zero_pitch[0])
    assert 0.02 < zero < 0.3
    wide = rivets(elevator, "bottom_skin_to_ribs", replace(given, pitch=tuple(np.linspace(0.5, 1.4, 40) * zero)))
    (near,) = wide.rows
    spaced = np.array([plan.rib_pitch[0] for plan in near.laid.plans])[near.layout]  # of the rib that is worst
    assert spaced.min() < zero < spaced.max()
    assert (near.margin[spaced < zero - 1e-6] > 0.0).all()
    assert (near.margin[spaced > zero + 1e-6] < 0.0).all()


def test_rows_by_number_say_how_many_are_needed(rudder):
    found = rivets(rudder, "ribs_to_spar", Alternatives(count=(1, 2, 3), rivet=("ISO 15977 L 3",)))
    (table,) = found.rows
    need = int(table.zero_count[0])
    assert all((margin >= 0.0) == (count >= need) for margin, count in zip(table.margin, (1, 2, 3), strict=True))
    with pytest.raises(SurfaceError, match=r"ribs_to_spar goes by a number .* give count instead of pitch"):
        rivets(rudder, "ribs_to_spar", Alternatives(pitch=mm(25)))


def test_limits_of_a_pitch_name_their_field(rudder):
    found = limits(rivets(rudder, "left_skin_to_spar", Alternatives(rivet=("small", "large"))))
    said = {(one.field, one.counts, round(one.at / MM, 1)) for one in found}
    assert ("aircraft", True, 9.6) in said  # 3 D, AC 43.13-1B 4-57
    assert ("aircraft", True, 12.0) in said
    assert ("sealing", False, 12.0) in said  # 24 t of 0.5 mm
    assert ("civil", False, 85.0) in said  # 75 mm + 20 t
    lifts = next(one for one in found if "lifts" in one.words)
    finding = next(one for one in rudder.statements if one.check.mode == "between-rivets")
    c, E, t, n, f = (finding.value(letter) for letter in ("c", "E", "t", "n", "f"))
    assert lifts.at == pytest.approx(t * math.sqrt(c * math.pi**2 / 12.0 * E / (n * f)), rel=1e-9)


def test_unknown_strength_is_what_each_must_carry(rudder):
    found = rivets(rudder, "left_skin_to_spar", Alternatives(pitch=mm(25, 30)))
    (table,) = found.rows
    assert not table.shear_known.any()
    for i in (0, 1):
        alone = surfacecheck.assess(found.surface_of(i))
        asked = {one.check.mode: one.required for one in alone.not_given if one.check.place == "row.left_skin_to_spar"}
        assert table.must_shear[i] == asked["rivet-shear"]
        assert table.must_pull[i] == asked["rivet-pull"]


@given(st.integers(0, 2**31), st.integers(1, 60))
def test_the_best_set_is_that_of_brute_force(seed, size):
    rng = np.random.default_rng(seed)
    figures = rng.integers(0, 5, (3, size)).astype(float)
    figures[:, rng.random(size) < 0.1] = np.nan
    marked = unbeaten(*figures)

    def beats(one, other):
        return (one >= other).all() and (one > other).any()

    points, seen = figures.T, []
    for i, point in enumerate(points):
        beaten = np.isnan(point).any() or any(beats(other, point) for other in points if not np.isnan(other).any())
        first = not any(np.array_equal(point, other) for other in seen)
        assert marked[i] == (not beaten and first), i
        seen.append(point)


def test_what_breaks_a_rule_or_is_not_known_beats_nothing_that_is(rudder):
    given = Alternatives(pitch=mm(20, 40), rivet=("small", "large", "ISO 15977 H 3.2"), edge=mm(5, 7))
    found = rivets(rudder, "left_skin_to_spar", given)
    whole = found.whole
    wanted = np.stack([whole.margin, -whole.count, -whole.mass, whole.known, -whole.broken])
    for i in np.flatnonzero(~found.best):
        others = np.delete(wanted, i, axis=1)
        assert (others >= wanted[:, [i]]).all(axis=0).any(), i


def test_rows_together_are_least_values_and_sums(rudder):
    names = ("left_skin_to_spar", "right_skin_to_ribs", "trailing_edge")
    found = rivets(rudder, names, Alternatives(pitch=mm(20, 30, 45), rivet=("small", "ISO 15977 H 3.2")))
    ways = np.random.default_rng(2).integers(0, found.size, (50, 3))
    whole = found.together(ways)
    for v, way in enumerate(ways):
        parts = [(table, int(i)) for table, i in zip(found.rows, way, strict=True)]
        assert whole.margin[v] == min(table.margin[i] for table, i in parts)
        assert whole.count[v] == sum(table.total[i] for table, i in parts)
        assert whole.mass[v] == pytest.approx(sum(table.mass[i] for table, i in parts), rel=1e-12)
    changed = replace(
        rudder.surface,
        rows=rudder.surface.rows
        | {name: found.surface_of(int(i)).rows[name] for name, i in zip(names, ways[0], strict=True)},
        rivets=found.surface_of(0).rivets | found.surface_of(5).rivets,
    )
    alone = surfacecheck.assess(changed)
    assert whole.margin[0] == min(row_margins(alone, name)[0].margin for name in names)


def test_another_head_has_no_strength_until_somebody_gives_it(rudder):
    found = rivets(rudder, "left_skin_to_spar", Alternatives(rivet=("large",), head=("protruding", "countersunk")))
    (table,) = found.rows
    assert table.shear_known.tolist() == [True, False]
    assert RULES.index("depth of the countersink") in [i for i in range(16) if int(table.not_covered[1]) >> i & 1]
    assert table.lifts[1] == pytest.approx(table.lifts[0] / 2.0, rel=1e-12)  # c 1 in place of 2


def test_a_half_filled_file_gives_what_it_can():
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    text = text.replace('pitch = "25 mm (drawing)" # or count', 'pitch = "?" # or count')
    surface = read_text(text, "half.toml")
    for pitch, count in ((mm(25, 30), [43, 36]), (mm(30, 25), [36, 43])):
        found = rivets(surface, "left_skin_to_spar", Alternatives(pitch=pitch))
        assert found.whole.count.tolist() == count
        assert np.isfinite(found.whole.margin).all()
        assert found.drawn[0].reasons[found.drawn[0].why[0]] == "the drawing's pitch is not given"
        assert "as drawn: the drawing's pitch is not given." in " ".join(str(found).split())
        adds = [row[3] for row in takes_table(found, (0, 1)).rows]
        assert adds == ["", "not given", "not given"]
    row = replace(surface.rows["left_skin_to_spar"], drilled_already=YesNo.YES)
    drilled = replace(surface, rows=surface.rows | {row.name: row})
    with pytest.raises(SurfaceError, match="drilled already, at a pitch that is not given"):
        rivets(drilled, row.name, Alternatives(pitch=mm(25)))
    assert rivets(drilled, row.name, Alternatives(pitch=mm(25)), drilled_at=25 * MM).drilled


def test_rivets_that_are_not_as_their_row_says_are_left_out_and_named(rudder):
    row = "left_skin_to_spar"
    surface = replace(rudder.surface, apart={f"row.{row}.rivet-12": Apart(holds=Value(0.0)), "horn.rivet-2": Apart()})
    found = rivets(surface, row, Alternatives(pitch=mm(25)))
    assert found.apart == (row,)
    assert list(found.surface.apart) == ["horn.rivet-2"]
    assert "single rivets of left skin to spar is not followed" in " ".join(str(found).split())


def test_the_flange_at_larger_holes_is_that_of_the_whole_surface(rudder):
    names = ("left_skin_to_spar", "right_skin_to_spar")
    found = rivets(rudder, names, Alternatives(rivet=("small", "large")))
    for i, hole in enumerate((3.3 * MM, 4.1 * MM)):
        alone = surfacecheck.assess(found.surface_of(i))
        drawn = next(one for one in alone.margins if (one.check.place, one.check.mode) == ("spar", "net-section"))
        assert drawn.value("d") == hole
        assert flange_margin(rudder, hole) == pytest.approx(drawn.margin, rel=1e-3)  # other rivets weigh more
    said = flange_lines(found)
    assert [line.rpartition(":")[0] for line in said] == [
        "flange of the spar in tension at holes of 3.30 mm", "flange of the spar in tension at holes of 4.10 mm",
    ]  # fmt: skip
    assert flange_lines(rivets(rudder, "trailing_edge", Alternatives())) == []


def test_the_flange_at_two_lines_has_two_holes_less(rudder):
    """17.6 mm less one hole of 3.3 mm leaves 14.3 mm, less two 11.0 mm."""
    one, two = (flange_margin(rudder, 3.3 * MM, n) for n in (1, 2))
    assert (two + 1.0) / (one + 1.0) == pytest.approx(11.0 / 14.3, rel=1e-12)
    found = rivets(rudder, "left_skin_to_spar", Alternatives(lines=(1, 2)))
    assert [line.rpartition(":")[0] for line in flange_lines(found)] == [
        "flange of the spar in tension at holes of 3.30 mm",
        "flange of the spar in tension at holes of 3.30 mm in 2 lines",
    ]


def test_the_factor_goes_with_where_the_strength_comes_from(rudder):
    """A solid rivet of part D without a shear is the table's AD 1/8: alike; typed or unknown, the fitting factor."""
    size, hole, head = (Value(inch * 25.4 * MM) for inch in (0.125, 0.1285, 0.25))
    mine = Rivet(RivetSet.SOLID, "2117-T3", HeadKind.PROTRUDING, diameter=size, hole=hole, head=head, name="mine")
    typed = replace(mine, name="typed", shear=replace(rivet_type("AD 1/8").shear, source=NOT_SAID))
    nobodys = replace(mine, name="nobodys", alloy="")
    kinds = {one.name: one for one in (mine, typed, nobodys)}
    surface = replace(rudder.surface, rivets=rudder.surface.rivets | kinds)
    found = rivets(surface, "left_skin_to_spar", Alternatives(rivet=(*kinds, "AD 1/8")))
    (table,) = found.rows
    assert table.margin[0] == table.margin[3] > table.margin[1] == table.margin[2]
    factors = [factors_of(surface, block.setting.rivet).ultimate for block in table.blocks.values()]
    assert factors == [1.5, 1.5 * 1.15, 1.5 * 1.15, 1.5]
    own = [one.margin for one in surfacecheck.assess(found.surface_of(3)).margins
           if one.check.place == "row.left_skin_to_spar"]  # fmt: skip
    assert min(own) == table.margin[3]


def test_a_head_of_unknown_strength_carries_no_more_than_a_known_one(rudder):
    heads = ("protruding", "dimpled", "countersunk")
    (table,) = rivets(rudder, "trailing_edge", Alternatives(rivet=("AD 1/8",), head=heads)).rows
    assert table.shear_known.tolist() == [True, False, False]
    assert table.must_shear[1] == table.must_shear[2] > table.must_shear[0]
    assert (table.margin[1:] <= table.margin[0]).all()
