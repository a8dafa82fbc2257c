"""The columns of a deviation: as drawn, as it is now, each option."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess, assess_each
from surfacecheck.changes import columns_of
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read

DATA = Path(__file__).parents[2] / "data"
RIVET = "hinge.middle.bracket.rivet-3"
HOLE = 'where = "hinge middle, bracket rivet 3"\nwhat = "hole too large"\nlayers = ["bracket", "spar"]\n'


@pytest.fixture(scope="module")
def columns():
    return columns_of(read(DATA / "rudder_oversize_hole.toml"))


@pytest.fixture(scope="module")
def worked(columns):
    return assess_each([s for one in columns for s in (one.fully, one.nothing) if s is not None])


def at(assessment, place, mode):
    return next(f for f in assessment.findings if f.place == place and f.check.mode == mode)


def test_the_oversize_hole(columns) -> None:
    assert [(one.title, one.kind, one.nothing is not None) for one in columns] == [
        ("as drawn", "drawn", False),
        ("as it is now (leave it)", "now", True),
        ("next size 4.8 mm", "option", False),
        ("rivet not there", "option", False),
    ]
    assert [one.places for one in columns] == [(), (RIVET,), (RIVET,), (RIVET,)]
    drawn, now, size, gone = (one.fully.apart[RIVET] for one in columns)
    assert [one.along["spar"].said for one in (drawn, now, size, gone)] == ["4.1 mm", "4.60 mm", "4.9 mm", "4.60 mm"]
    assert [one.across["spar"].said for one in (drawn, now, size, gone)] == ["4.1 mm", "4.45 mm", "4.9 mm", "4.45 mm"]
    assert [one.holds.si for one in (drawn, now, size, gone)] == [1.0, 1.0, 1.0, 0.0]
    assert columns[1].nothing.apart[RIVET].holds.si == 0.0
    assert (size.rivet.name, gone.there.si) == ("next_size", 0.0)
    assert all(not one.fully.happened for one in columns)
    assert any("the rivet is out" in said for said in columns[1].says)


def test_what_each_way_does_to_the_group(worked) -> None:
    """Rivet 3 gone: what it carried goes to the five others; each column has margins of that rivet of its own."""
    drawn, fully = worked[:2]
    place = "hinge.middle.bracket"
    one = at(drawn, RIVET, "rivet-both").margin
    assert at(fully, RIVET, "rivet-both").margin == one  # the same rivet in the same group
    rest = [
        min(f.margin for f in a.findings if f.check.place == place and f.check.mode == "rivet-both") for a in worked
    ]
    assert rest[2] == rest[4] < rest[0]
    # a larger hole bears no wider than the rivet is made for, and tears sooner
    crush, tear = ([at(a, RIVET, f"bracket-{mode}").margin for a in worked] for mode in ("crush", "tear-out"))
    assert crush[1] / crush[0] == pytest.approx(4.2 / 4.1, rel=0.02)
    assert tear[1] < tear[0]
    assert np.isinf(crush[4])


def test_rules_at_the_rivet(worked) -> None:
    found = [
        {r.place.removeprefix(f"{RIVET}."): r.outcome for r in a.rules if r.place.startswith(RIVET)} for a in worked
    ]
    drawn, fully, _, size, gone = found
    assert set(drawn.values()) == {"meets"}
    assert {key for key, outcome in fully.items() if outcome == "does not meet"} == {"hole.bracket", "hole.spar"}
    assert {key for key, outcome in size.items() if outcome == "does not meet"} == {"edge.bracket"}
    assert gone == {}


def test_every_place_stands_apart_in_every_column_without_changing_the_drawing(columns, worked) -> None:
    plain = assess(read(DATA / "rudder.toml"))
    lowest = {}
    for f in worked[0].findings:
        key = f.check.place, f.check.mode
        lowest[key] = min(lowest.get(key, (np.inf, "")), (np.inf if f.margin is None else f.margin, f.place))
    for f in plain.findings:
        assert lowest[f.check.place, f.check.mode][0] == (np.inf if f.margin is None else f.margin)
    assert worked[0].masses.mass == plain.masses.mass


def test_ordinary_edits_are_part_of_as_it_is_now() -> None:
    found = columns_of(read(DATA / "rudder_pitch_30.toml"))
    assert [one.title for one in found] == ["as drawn", "as it is now (leave it)"]
    assert [one.fully.rows["left_skin_to_spar"].pitch.said for one in found] == ["25 mm", "30 mm"]


def test_a_surface_as_drawn_has_one_column() -> None:
    (only,) = columns_of(read(DATA / "rudder.toml"))
    assert (only.title, only.kind, only.nothing) == ("as drawn", "drawn", None)


def test_options_of_its_nature_are_offered_where_none_is_named(told) -> None:
    found = columns_of(told(HOLE + 'smallest = "4.45 mm"'))
    assert [one.title for one in found][2:] == ["rivet not there"]  # part D has no larger rivet
    packet = '[rivet.more]\nset = "pulled"\ndiameter = "4.8 mm"\nhole = "4.9 mm"\n'
    found = columns_of(told(HOLE + 'smallest = "4.45 mm"', more=packet))
    assert [one.title for one in found][2:] == ["next size", "rivet not there"]
    missing = columns_of(told('where = "left skin to spar, rivet 12"\nwhat = "rivet missing"'))
    assert [one.title for one in missing][2:] == ["rivet put in", "extra rivets either side"]


def test_a_next_size_that_nobody_described_has_no_strength(told) -> None:
    size = columns_of(told(HOLE + 'smallest = "4.45 mm"\ntry = ["next size 4.8 mm"]'))[2].fully
    found = at(assess(size), RIVET, "rivet-shear")
    assert (found.margin, found.outcome) == (None, "not given")
    assert found.required > 0.0


def test_a_next_size_that_does_not_clean_the_hole_up_leaves_it_open(told) -> None:
    found = columns_of(told(HOLE + 'smallest = "5.3 mm"\ntry = ["next size 4.8 mm"]'))[2]
    assert found.nothing is not None
    assert found.fully.apart[RIVET].along["spar"].said == "5.3 mm"


def test_a_chain_acts_together_and_an_option_answers_one_of_it(told) -> None:
    poor = 'where = "hinge middle, bracket rivet 3"\nwhat = "poor rivet"\ntry = ["leave it"]'
    hole = HOLE + 'smallest = "4.45 mm"\nrivet_in = "no"\ntry = ["next size 4.8 mm"]'
    edge = poor.replace("poor rivet", 'short edge"\nedges = { bracket = "7.3 mm" }\nnote = "')
    found = columns_of(told(poor, hole, edge))
    assert [(one.title, one.nothing is not None) for one in found] == [
        ("as drawn", False), ("as it is now (leave it)", True), ("next size 4.8 mm", False),
    ]  # fmt: skip
    assert found[1].fully.apart[RIVET].edge["bracket"].said == "7.3 mm"
    assert found[2].fully.apart[RIVET].edge["bracket"].said == "7.3 mm"
    assert found[2].fully.apart[RIVET].rivet.diameter.said == "4.8 mm"


@pytest.mark.parametrize("title", ["part replaced", "as drawn"])
def test_an_option_that_restores_the_drawing(title: str, told) -> None:
    event = (
        f'where = "left skin to spar, rivet 12"\nwhat = "short edge"\nedges = {{ spar = "5 mm" }}\ntry = ["{title}"]'
    )
    drawn, _, put_right = columns_of(told(event))
    assert put_right.fully.apart["row.left_skin_to_spar.rivet-12"].edge["spar"].said == "7.0 mm"
    assert repr(put_right.fully.rows) == repr(drawn.fully.rows)


def test_an_option_nobody_knows(told) -> None:
    with pytest.raises(SurfaceError) as caught:
        columns_of(told(HOLE + 'smallest = "4.45 mm"\ntry = ["glue it"]'))
    fault = caught.value.faults[0]
    assert (fault.file, fault.key) == ("tried.toml", "happened[1]")
    assert 'try = "glue it" cannot be there, or nobody knows it' in fault.message


@pytest.mark.parametrize(
    ("where", "option"),
    [("left skin to spar, rivet 12", "extra rivets either side"),
     ("hinge middle, bracket rivet 3", "doubler 0.8 mm, 120 mm long, 40 mm wide")],
)  # fmt: skip
def test_what_is_put_beside_a_rivet_in_doubt_leaves_it_in_doubt(where: str, option: str, told) -> None:
    event = f'where = "{where}"\nwhat = "poor rivet"\ntry = ["{option}"]'
    *_, tried = columns_of(told(event))
    assert tried.nothing is not None
    assert "nobody publishes what it holds" in tried.says[0]
    assert len(tried.says) == 2


def test_a_doubler_over_a_bracket(told) -> None:
    tries = 'try = ["doubler 0.8 mm, 120 mm long, 40 mm wide"]'
    event = f'where = "hinge middle, bracket rivet 3"\nwhat = "poor rivet"\n{tries}'
    drawn, _, tried = columns_of(told(event))
    (doubler,) = (one for name, one in tried.fully.sheet.doublers.items() if name not in drawn.fully.sheet.doublers)
    assert [doubler.start.si, doubler.to.si, doubler.thickness.si, doubler.wide.si] == pytest.approx(
        [0.5, 0.62, 8e-4, 0.04]
    )
    before, after = assess_each([drawn.fully, tried.fully])
    crush = [at(one, RIVET, "spar-crush") for one in (before, after)]
    assert crush[1].value("t") == pytest.approx(crush[0].value("t") + 0.8e-3)
