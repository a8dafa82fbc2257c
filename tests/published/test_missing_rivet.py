"""A rivet left out of a long seam under a uniform flow: what its neighbours get.

References
----------
Spring model of rows, NACA TN 1051 (1946) as quoted in secondary text, with a flow as the load. The row: 41 rivets,
pitch 25 mm, strips 0.5 x 25 mm of 68.3 GPa on each side. The numbers were worked out apart from this code, and again by
a stiffness matrix of the slips. Tributary bound: balance, common practice.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.statics import row_reach, seam_pick_up, seam_row, tributary_lengths

EA = 0.5e-3 * 25e-3 * 68.3e9
PITCH = 0.025
STRIP = EA / PITCH
FLOW = 4000.0


def seam(k, *out, rivets=41, **more):
    stiffness = np.full(rivets, k)
    stiffness[list(out)] = 0.0
    return seam_row(stiffness, STRIP, STRIP, FLOW, PITCH, **more)


@pytest.mark.parametrize(
    ("k", "first", "second"), [(2e6, 1.144, 1.103), (5e6, 1.207, 1.121), (20e6, 1.322, 1.115), (100e6, 1.435, 1.056)]
)
def test_one_out(k, first, second):
    factor = seam(k, 20).factor
    assert factor[[18, 19, 20, 21, 22]] == pytest.approx([second, first, 0.0, first, second], abs=5e-4)


@pytest.mark.parametrize(("k", "first"), [(2e6, 1.289), (5e6, 1.414), (20e6, 1.645), (100e6, 1.871)])
def test_two_side_by_side_out(k, first):
    assert seam(k, 19, 20).factor[[18, 21]] == pytest.approx([first, first], abs=5e-4)


@pytest.mark.parametrize(("out", "factor"), [((20,), 1.5), ((20, 21), 2.0), ((19, 20, 21), 2.5)])
def test_tributary_bound(out, factor):
    """1 + k/2; the spring model comes up to it as the rivets get stiff, and is it when they are rigid."""
    found = seam(20e6, *out)
    assert found.tributary[[out[0] - 1, out[-1] + 1]] == pytest.approx([factor * FLOW * PITCH] * 2, rel=1e-12)
    assert found.complete.max() < found.loads.max() < found.tributary.max()
    assert seam(1e13, *out).factor[out[0] - 1] == pytest.approx(factor, rel=1e-4)
    rigid = seam(np.inf, *out)
    assert rigid.loads == pytest.approx(rigid.tributary, rel=1e-12)


def test_complete_row_has_no_end_effect():
    found = seam(20e6)
    assert found.factor == pytest.approx(np.ones(41), rel=1e-12)
    assert np.abs(found.strip).max() < 1e-9


def test_soft_rivets_share_evenly():
    """Without stiffness to speak of, 41 shares over 40 rivets."""
    assert seam(1.0, 20).loads[np.arange(41) != 20] == pytest.approx(np.full(40, 41 / 40 * FLOW * PITCH), rel=1e-5)


def test_end_of_a_seam():
    """A seam that ends at its last rivet: half a share comes in there, and the next ones give it some of theirs.

    The end rivet is missing: the whole gap falls to its one neighbour, 2.0 if rivets did not give.
    """
    ends = seam(20e6, overhang=0.0)
    assert ends.complete[[0, 1, -1]] == pytest.approx([FLOW * PITCH / 2, FLOW * PITCH, FLOW * PITCH / 2], rel=1e-12)
    assert ends.factor[0] > 1.0
    assert ends.factor[1] < 1.0
    gone = seam(20e6, 0)
    assert gone.tributary[1] == pytest.approx(2.0 * FLOW * PITCH, rel=1e-12)
    assert 1.0 < gone.factor[1] < 2.0


def test_disturbance_dies_out_as_said():
    """Beside the gap each rivet has exp(-1/reach) of the excess of the one before it."""
    excess = seam(20e6, 20).factor[21:27] - 1.0
    assert excess[1:] / excess[:-1] == pytest.approx(np.full(5, np.exp(-1 / row_reach(20e6, STRIP, STRIP))), rel=1e-6)


def test_soft_rivet_in_the_row():
    """A blind rivet of a fifth of the stiffness carries less, its neighbours more; full and nothing bracket them."""
    stiffness = np.full(41, 20e6)
    stiffness[20] = 4e6
    part, none = seam_row(stiffness, STRIP, STRIP, FLOW, PITCH).factor, seam(20e6, 20).factor
    assert 0.2 < part[20] < 1.0
    assert 1.0 < part[19] < none[19]


def test_loose_rivets_pick_up_last():
    """Every second rivet 0.05 mm loose: at first the snug ones carry double, at a high flow all carry nearly alike.

    By hand, far from the ends: the snug ones slip 2 q p/k. By symmetry half of a snug one's load, q p, goes to each
    side, where q p/2 of it comes in beside it: the mean force in a strip is q p/2, and both strips stretch.
    """
    gaps = np.where(np.arange(41) % 2, 5e-5, 0.0)
    k = np.full(41, 20e6)
    touches = seam_pick_up(k, STRIP, STRIP, PITCH, gaps)
    assert (touches[::2] == 0.0).all()
    middle = touches[19]
    slip = 2 * PITCH / 20e6 + PITCH / 2 * 2 / STRIP  # of a loose place, per unit of flow
    assert middle == pytest.approx(5e-5 / slip, rel=1e-6)
    before = seam_row(k, STRIP, STRIP, 0.9 * touches[1::2].min(), PITCH, clearance=gaps).factor
    assert before[1::2].tolist() == [0.0] * 20
    assert before[20] == pytest.approx(2.0, rel=1e-6)
    high = seam_row(k, STRIP, STRIP, 100 * middle, PITCH, clearance=gaps).factor
    assert high[19] == pytest.approx(1.0, abs=0.02)
    assert high[19] < 1.0 < high[20]


def test_refused():
    with pytest.raises(SurfaceError, match="every rivet of the row is missing"):
        seam_row(np.zeros(5), STRIP, STRIP, FLOW, PITCH)
    with pytest.raises(SurfaceError, match="every rivet of the row is missing"):
        tributary_lengths([False, False], PITCH)
    with pytest.raises(SurfaceError, match="pitch is 0"):
        seam_row(np.ones(5), STRIP, STRIP, FLOW, 0.0)
    with pytest.raises(SurfaceError, match=r"overhang is -0\.01"):
        seam(1e6, overhang=-0.01)
    with pytest.raises(SurfaceError, match="k is negative"):
        seam(-1e6)
    with pytest.raises(SurfaceError, match="not a finite number"):
        seam_row(np.ones(5), STRIP, STRIP, np.nan, PITCH)
    with pytest.raises(SurfaceError, match="k must be zero or more"):
        row_reach(-1.0, 1.0, 1.0)


def test_one_rivet_takes_all():
    found = seam_row([3e6], STRIP, STRIP, FLOW, PITCH)
    assert found.loads.tolist() == [FLOW * PITCH]
    assert found.strip.shape == (0,)
