"""Cases and spots are reduced before strengths are asked for: what is left holds the worst, with its name."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from surfacecheck.checks import _panels as panels
from surfacecheck.checks import _rows, factors_of, find, joint_checks, panel_checks, spar_checks
from surfacecheck.checks import _spar as spar
from surfacecheck.checks import _web as web
from surfacecheck.checks._reduce import Kept, front, keep, worst_case
from surfacecheck.sections import WallFlow, flow_peak, flow_size

# few values, so that equal points and equal loads are common
LOADS = st.sampled_from([0.0, 0.25, 0.5, 1.0, 1.5, 2.0, 3.0]) | st.floats(0.0, 1e6, allow_subnormal=False)
GROWING = [
    lambda *x: sum(x),
    lambda *x: np.sqrt(sum(one**2 for one in x)),
    lambda *x: np.maximum.reduce(x),
    lambda *x: x[0],
    lambda *x: x[-1],
    lambda *x: x[0] * (1.0 + 0.414 * np.tanh(np.log10(np.maximum(x[-1], 1.0)))),
    lambda *x: np.floor(x[0]) + np.floor(2.0 * x[-1]),
]


def points(loads):
    return hnp.arrays(np.float64, st.tuples(st.just(loads), st.integers(1, 40)), elements=LOADS)


@pytest.mark.parametrize("loads", [1, 2, 3])
@given(data=st.data())
def test_the_front_holds_the_greatest_of_whatever_grows(loads, data):
    at = data.draw(points(loads))
    kept = front(*at)
    for grows in GROWING:
        assert grows(*at[:, kept]).max() == grows(*at).max()


@given(points(2))
@example(np.array([[1e6, 1e6], [np.nextafter(1e6, 0.0), 1e6]]))  # their sums are the same but for rounding
def test_no_point_of_the_front_is_exceeded_in_both(at):
    kept = at[:, front(*at)]
    exceeded = (kept[:, :, None] <= kept[:, None, :]).all(axis=0) & (kept[:, :, None] < kept[:, None, :]).any(axis=0)
    assert not exceeded.any()


@given(points(2))
def test_every_point_is_matched_by_the_front(at):
    kept = at[:, front(*at)]
    assert (at[:, :, None] <= kept[:, None, :]).all(axis=0).any(axis=1).all()


def test_of_equal_points_the_first_is_kept():
    assert front(np.array([1.0, 2.0, 2.0, 2.0]), np.array([0.0, 5.0, 5.0, 1.0])).tolist() == [1]


@given(hnp.arrays(np.float64, (3, 5), elements=LOADS), hnp.arrays(np.float64, 5, elements=st.floats(0.1, 10.0)))
def test_the_worst_case_of_each_spot_holds_the_worst_with_strengths_that_differ(effect, strength):
    """And the first of equal ones, counted by cases and then by spots, as in the unreduced array."""
    kept = worst_case(effect)
    all_used, used = effect / strength, kept.of(effect) / kept.of(strength)
    at = int(np.argmax(used))
    assert used[0, at] == all_used.max()
    assert (kept.case[at], kept.spot[at]) == np.unravel_index(np.argmax(all_used), all_used.shape)


@given(hnp.arrays(np.float64, (3, 4), elements=LOADS))
def test_one_load_alone_keeps_its_first_greatest(load):
    kept = keep((load,))
    assert (kept.case.tolist(), kept.spot.tolist()) == tuple(
        [int(i)] for i in np.unravel_index(np.argmax(load), load.shape)
    )


def test_picking_from_whatever_broadcasts():
    kept = Kept(np.array([0, 1]), np.array([2, 0]))
    grid = np.arange(6.0).reshape(2, 3)
    assert kept.of(grid).tolist() == [[2.0, 3.0]]
    assert kept.of(grid[0]).tolist() == kept.of(grid[:1]).tolist() == [[2.0, 0.0]]
    assert kept.of(grid[:, :1]).tolist() == [[0.0, 3.0]]
    assert kept.of(7.0).tolist() == [[7.0, 7.0]]
    assert kept.spots(("a", "b", "c")) == ("c", "a")
    assert kept.cases(("x", "y")) == ("x", "y")


def everything(effect):
    """Keep every case and every spot."""
    return Kept(*(index.ravel() for index in np.indices(effect.shape)))


def same(reduced, full):
    """Hold the reduced check to the same margin, at the same case and spot: the first of equal ones."""
    a, b = find(reduced), find(full)
    assert a.check.mode == b.check.mode
    assert a.margin == b.margin or a.margin == pytest.approx(b.margin, rel=1e-15), a.name
    assert a.required == pytest.approx(b.required, rel=1e-15), a.name
    if (a.case, a.spot) != (b.case, b.spot):  # equal but for the last bit, at the place of a support for instance
        full_margins = b.check.margins().ravel().tolist()
        there = list(zip(b.check.spot_cases, b.check.spots, strict=True)).index((a.case, a.spot))
        assert full_margins[there] == pytest.approx(b.margin, rel=1e-14), a.name


def test_rows_give_the_margins_of_the_unreduced_rows(demo, monkeypatch):
    surface, seen = demo.surface, 0
    for load in demo.rows:
        rivet = surface.rivets[load.row.rivet]
        factors = factors_of(surface, rivet)
        reduced = list(joint_checks(surface, _rows.row_joint(surface, load, rivet, _rows.row_kept(load)), factors))
        with monkeypatch.context() as patch:
            patch.setattr(_rows, "keep", lambda first, *_: everything(first[0]))
            full = list(joint_checks(surface, _rows.row_joint(surface, load, rivet, _rows.row_kept(load)), factors))
        assert len(full[0].spots) == load.shear.size >= len(reduced[0].spots)
        for pair in zip(reduced, full, strict=True):
            same(*pair)
            seen += 1
    assert seen > 40


def test_spar_and_panels_give_the_margins_of_the_unreduced_ones(demo, monkeypatch):
    effects = demo.effects
    reduced = [*spar_checks(effects), *panel_checks(effects)]
    for module in (spar, web, panels):
        monkeypatch.setattr(module, "worst_case", everything)
    monkeypatch.setattr(panels, "keep", lambda first, *_: everything(first[0]))
    full = [*spar_checks(effects), *panel_checks(effects)]
    assert len(full) > 8
    for pair in zip(reduced, full, strict=True):
        if pair[0].cases == ("",):
            same(*pair)


def test_one_wall_alone_is_that_wall_of_the_whole_section(demo):
    """Bit for bit, in either state of the nose, and in a choice of cases as in all of them."""
    effects, box = demo.effects, demo.effects.box
    assert effects.nose_open_too == (box.rear_alone is not None)
    for chosen in (effects, effects.whole, effects.handed_over, effects.only(effects.control)):
        for at, wall in enumerate(box.walls):
            assert np.array_equal(chosen.mean(wall), chosen.flow.mean[..., at]), wall
            alone = WallFlow(*(part[..., at] for part in chosen.flow))
            assert np.array_equal(chosen.size(wall), flow_size(alone)), wall
            for part in alone[1:]:  # how a flow bends does not ask which cells are closed
                assert np.array_equal(part, chosen.twice(part[: len(chosen.cases)])), wall
            assert chosen.size(wall) == pytest.approx(np.abs(flow_peak(alone).value), rel=1e-12), wall
            some = [0, chosen.span.y.size - 1, 3]
            assert np.array_equal(chosen.mean_at(wall, some), alone.mean[..., some]), wall
