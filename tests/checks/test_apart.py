"""Rivets that stand apart: shares of a group, of a row, holes as the load meets them; against sums done here."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.checks._apart import hole_in
from surfacecheck.checks._row_growth import growth, read_at
from surfacecheck.model import Apart, Rivet
from surfacecheck.provenance import Value
from surfacecheck.reading import read

DATA = Path(__file__).parents[2] / "data"
GONE = Apart(holds=Value(0.0))


@pytest.fixture(scope="module")
def rudder():
    return read(DATA / "rudder.toml")


def with_apart(surface, **apart):
    return assess(replace(surface, apart=apart))


def mm(size):
    return Value(size * 1e-3, f"{size} mm")


# ---- groups


def by_springs(y, z, k, force, offset):
    """Loads of a rigid plate on equal springs, from its six displacements; nothing of the kernel is used."""
    x_p, y_p, z_p = offset
    places = np.stack([np.zeros_like(y), y, z], axis=-1)
    moment = np.cross([x_p, y_p, z_p], force)
    stiff = np.zeros((6, 6))
    arms = []
    for place, one in zip(places, k, strict=True):
        arm = np.zeros((3, 6))
        arm[:, :3] = np.eye(3)
        arm[:, 3:] = -np.array([[0, -place[2], place[1]], [place[2], 0, -place[0]], [-place[1], place[0], 0]])
        arms.append(one * arm)
        stiff += one * arm.T @ arm
    moves = np.linalg.solve(stiff, np.concatenate([force, moment]))
    return np.stack([arm @ moves for arm in arms])


@pytest.mark.parametrize("holds", [1.0, 0.5, 0.0])
def test_a_bracket_with_one_rivet_that_holds_less(rudder, holds) -> None:
    """Six components over five and a bit rivets: as a rigid plate on springs solved by its displacements."""
    found = with_apart(rudder, **{"hinge.bottom.bracket.rivet-2": Apart(holds=Value(holds))}).brackets[0]
    k = np.array([1.0, holds, 1.0, 1.0, 1.0, 1.0])
    for case in range(0, len(found.force), 9):
        expected = by_springs(found.a, found.b, k, found.force[case], found.offset)
        assert found.share[case] == pytest.approx(expected, rel=1e-9, abs=1e-7)


def test_a_larger_rivet_takes_more_by_its_area(rudder) -> None:
    large = replace(rudder.rivets["large"], diameter=mm(4.8), name="more")
    found = with_apart(rudder, **{"hinge.bottom.bracket.rivet-2": Apart(rivet=large)}).brackets[0]
    k = np.array([1.0, 1.44, 1.0, 1.0, 1.0, 1.0])
    expected = by_springs(found.a, found.b, k, found.force[3], found.offset)
    assert found.share[3] == pytest.approx(expected, rel=1e-9, abs=1e-7)


def test_a_bracket_moved_and_turned_on_the_web(rudder) -> None:
    """Rivets 2 mm to the left of the pin and turned by 5 degrees, upper end to the left; left is +z on a rudder."""
    off = Apart(moved_across=mm(2.0), turned=Value(np.deg2rad(5.0)))
    drawn, found = assess(rudder).brackets[1], with_apart(rudder, **{"hinge.middle.bracket": off}).brackets[1]
    c, s = np.cos(np.deg2rad(5.0)), np.sin(np.deg2rad(5.0))
    assert found.a == pytest.approx(c * drawn.a - s * drawn.b)
    assert found.b == pytest.approx(s * drawn.a + c * drawn.b + 2e-3)
    expected = by_springs(found.a, found.b, np.ones(6), found.force[0], found.offset)
    assert found.share[0] == pytest.approx(expected, rel=1e-9, abs=1e-7)


def test_a_group_left_with_one_line_holds_no_couple(rudder) -> None:
    gone = {f"hinge.middle.bracket.rivet-{i}": GONE for i in (4, 5, 6)}
    found = with_apart(rudder, **gone)
    assert [load.hinge.name for load in found.brackets] == ["bottom", "top"]
    assert any(f.place == "hinge.middle.bracket" and f.check.mode == "one-line" for f in found.outside)


def test_a_horn_rivet_gone(rudder) -> None:
    found = with_apart(rudder, **{"horn.rivets.rivet-1": GONE})
    assert found.horn.share[:, 0] == pytest.approx(0.0)
    assert found.horn.share.sum(axis=1) == pytest.approx(assess(rudder).horn.share.sum(axis=1), abs=1e-9)


# ---- rows


@pytest.mark.parametrize(("k", "factor"), [(1, 1.5), (2, 2.0), (3, 2.5)])
def test_k_missing_side_by_side(k, factor) -> None:
    """users' check values: neighbour factor 1 + k/2."""
    holds = np.ones((1, 41))
    holds[0, 20 : 20 + k] = 0.0
    found = growth(holds)
    assert found[[19, 20 + k]].tolist() == [factor, factor]
    assert found.sum() == pytest.approx(41.0)


def test_rivets_side_by_side_share_what_comes_to_their_place() -> None:
    holds = np.ones((2, 5))
    holds[0, 2] = 0.0
    assert growth(holds).tolist() == [1, 1, 0, 1, 1, 1, 1, 2, 1, 1]
    assert growth(np.array([[1.0, 0.0, 1.0]]), evenly=True).tolist() == [1.5, 0.0, 1.5]


def test_a_stack_of_rows_is_each_row_alone() -> None:
    rng = np.random.default_rng(7)
    holds = rng.choice([0.0, 0.25, 0.5, 1.0], size=(6, 1, 9))
    holds[..., 4] = 1.0
    assert (growth(holds) == np.stack([growth(one) for one in holds])).all()


def test_one_rivet_of_a_row_is_read_at_its_own_place(rudder) -> None:
    """Rivet 12 of 43 from 20 to 1080 mm: flow there, straight between stations, times the pitch."""
    found = with_apart(rudder, **{"row.left_skin_to_spar.rivet-12": Apart()})
    load = next(load for load in found.rows if load.row.name == "left_skin_to_spar")
    y = 0.020 + 11 * 1.060 / 42
    y_s, pitch = found.span.y, 1.060 / 42
    flow = np.array([np.interp(y, y_s, one) for one in load.flow])
    one = next(f for f in found.findings if f.name == "row.left_skin_to_spar.rivet-12:rivet-shear")
    assert one.check.terms["S"].values.ravel() == pytest.approx(flow * pitch, rel=1e-9)
    gone = with_apart(rudder, **{"row.left_skin_to_spar.rivet-12": GONE})
    beside = next(f for f in gone.findings if f.name.startswith("row.left_skin_to_spar.rivet-13:rivet-shear"))
    reach = [np.array([np.interp(y + i * pitch, y_s, q) for q in load.flow]) for i in (-1, 0, 1)]
    assert beside.check.terms["S"].values[:, 1] == pytest.approx(1.5 * pitch * np.maximum.reduce(reach), rel=1e-9)


def test_the_sheet_at_a_gap_buckles_at_a_quarter(rudder) -> None:
    gap = "row.left_skin_to_spar.rivet-12-gap:between-rivets"
    drawn, one, two = (
        next(
            f
            for f in with_apart(rudder, **{f"row.left_skin_to_spar.rivet-{i}": a for i in out}).findings
            if f.name == gap
        )
        for a, out in ((Apart(), (12,)), (GONE, (12,)), (GONE, (12, 13)))
    )
    assert one.available == pytest.approx(drawn.available / 4.0, rel=1e-12)
    assert two.available == pytest.approx(drawn.available / 9.0, rel=1e-12)


def test_extra_rivets_either_side(rudder) -> None:
    """One out, one more half-way to each neighbour: every length is then three quarters of a pitch or less."""
    extra = Apart(holds=Value(0.0), extra=Value(1.0))
    found = with_apart(rudder, **{"row.left_skin_to_spar.rivet-12": extra})
    check = next(
        f for f in found.findings if f.name.startswith("row.left_skin_to_spar.rivet-1") and "rivet-shear" in f.name
    )
    assert [spot for spot in check.check.spots] == ["rivet 11", "rivet 11 extra", "rivet 12 extra", "rivet 13"]
    plain = with_apart(rudder, **{"row.left_skin_to_spar.rivet-12": Apart()})
    drawn = next(
        f for f in plain.findings if f.check.spots == ("rivet 11", "rivet 13") and f.check.mode == "rivet-shear"
    )
    ratio = check.check.terms["S"].values[:, [0, 3]] / drawn.check.terms["S"].values
    assert ratio.min() == pytest.approx(0.75)  # more only where the flow within its length is larger than its own
    assert ratio.max() < 0.85


def test_reading_at_a_jump_takes_the_larger_side() -> None:
    stations, values = np.array([0.0, 1.0, 1.0, 2.0]), np.array([[0.0, 2.0, 5.0, 6.0], [1.0, 4.0, 3.0, 0.0]])
    assert read_at(stations, values, np.array([0.5, 1.0, 1.5])) == pytest.approx(
        np.array([[1.0, 5.0, 5.5], [2.5, 4.0, 1.5]]), abs=1e-8
    )


def test_a_row_that_runs_off(rudder) -> None:
    """Edge 7 mm at the first of 43 rivets, 4 mm at the last: 5.5 mm at the middle one; e/D 1.25 is outside."""
    off = Apart(edge={"spar": mm(7.0)}, edge_last={"spar": mm(4.0)})
    found = with_apart(rudder, **{"row.left_skin_to_spar": off})
    tear = next(
        f for f in found.findings if f.check.place == "row.left_skin_to_spar" and f.check.mode == "spar-tear-out"
    )
    e = tear.check.terms["e"].values
    assert e[0, [0, 21, 42]] == pytest.approx([7e-3, 5.5e-3, 4e-3])
    assert np.ravel(tear.check.outside)[[0, 21, 42]].tolist() == [False, False, True]
    rule = next(r for r in found.rules if r.place == "row.left_skin_to_spar.edge.spar")
    assert (rule.outcome, rule.found) == ("does not meet", pytest.approx(4e-3))
    bend = next(r for r in found.rules if r.place == "row.left_skin_to_spar.spar")
    assert bend.found == pytest.approx(18e-3 - 7e-3)  # where it is farthest from the edge, it is nearest the bend


def test_a_shim_pulls_on_the_rivets(rudder) -> None:
    """T = S t / e: 0.8 mm over the least edge of the row, 7 mm."""
    found, drawn = (with_apart(rudder, **{"row.left_skin_to_spar": one}) for one in (Apart(shim=mm(0.8)), Apart()))
    with_shim, without = (
        next(load for load in one.rows if load.row.name == "left_skin_to_spar") for one in (found, drawn)
    )
    assert with_shim.tension - without.tension == pytest.approx(without.shear * 0.8 / 7.0, rel=1e-9, abs=1e-12)


# ---- holes


RIVET = Rivet(hole=mm(4.1), hole_range=(mm(4.1), mm(4.2)))


@pytest.mark.parametrize(
    ("along", "bears", "tears"),
    [(1.0, 4.2, 4.6), (0.0, 4.2, 4.4), (np.sqrt(0.5), 4.2, np.hypot(4.4, 4.6) / np.sqrt(2))],
)
def test_an_oval_as_the_load_meets_it(along, bears, tears) -> None:
    """Across 4.4, along 4.6: bears no wider than the rivet is made for, is gone by its width along the load."""
    one = Apart(across={"spar": mm(4.4)}, along={"spar": mm(4.6)})
    hole = hole_in("spar", one, RIVET, np.array(along))
    assert hole.too_wide
    assert [hole.bears.values * 1e3, hole.tears.values * 1e3] == pytest.approx([bears, tears])


def test_a_round_hole_keeps_its_diameter_to_the_last_digit() -> None:
    one = Apart(across={"spar": mm(4.15)}, along={"spar": mm(4.15)})
    turn = np.linspace(0.0, 1.0, 101)[:, None]
    hole = hole_in("spar", one, RIVET, turn)
    assert (hole.bears.values == 4.15e-3).all()
    assert (hole.tears.values == 4.15e-3).all()
    assert not hole.too_wide
    assert hole_in("bracket", one, RIVET, turn) is None


def test_holes_across_the_web_of_a_bracket(rudder) -> None:
    """Two across: one of 6.1 and one of 4.1 mm take 10.2 mm of the depth."""
    wide = Apart(across={"spar": mm(6.1)}, along={"spar": mm(6.1)})
    found = with_apart(rudder, **{"hinge.middle.bracket.rivet-3": wide})
    net = next(f for f in found.findings if f.check.place == "hinge.middle.bracket.web" and f.check.mode == "net-shear")
    assert net.value("n") * net.value("D") == pytest.approx(10.2e-3)


def test_a_hole_in_the_flange_under_a_skin_rivet(rudder) -> None:
    wide = Apart(across={"spar": mm(5.0)}, along={"spar": mm(3.3)})
    found = with_apart(rudder, **{"row.left_skin_to_spar.rivet-22": wide})
    net = next(f for f in found.findings if f.name == "row.left_skin_to_spar.rivet-22:flange-net")
    b = net.value("b")
    assert net.available == pytest.approx(net.value("F_tu") * (b - 5e-3) / b)


def finite(assessment):
    """Leave out what nothing is required of: in a stack that another variant pulls, it has a pull of nothing."""
    return [(f.name, f.margin) for f in assessment.findings if f.margin is not None and np.isfinite(f.margin)]


def test_a_stack_of_apart_rivets_is_each_alone(rudder) -> None:
    from surfacecheck.assessment import assess_each

    names = ("hinge.middle.bracket.rivet-3", "row.left_skin_to_spar.rivet-12", "row.ribs_to_spar.rib-2.rivet-1")
    ways = [replace(rudder, apart={n: Apart(holds=Value(h)) for n in names}) for h in (1.0, 0.5, 0.0)]
    for together, surface in zip(assess_each(ways), ways, strict=True):
        alone = assess(surface)
        assert finite(together) == finite(alone)


def test_a_rivet_too_near_the_bend(rudder) -> None:
    """12 mm from the free edge of an 18 mm flange: 6 mm from the bend, whose head needs 0.8 + 2.4 + 3.25 = 6.45 mm."""
    found = with_apart(rudder, **{"row.left_skin_to_spar.rivet-12": Apart(edge={"spar": mm(12.0)})})
    rule = next(r for r in found.rules if r.place == "row.left_skin_to_spar.rivet-12.spar")
    assert (rule.outcome, rule.asked) == ("does not meet", pytest.approx(6.45e-3))
