"""A pin off the line of the others, on a spar that bends alone: exact solutions and a number of the trade.

References
----------
Two equal bays: R = 6 E I d/L^3 at the middle, half of it the other way outside (three moments, exact). The number: a
channel 60 mm deep, flanges 16 mm, 0.63 mm sheet, thin walls on their middle lines, E 68.3 GPa, bays 450 + 450 mm:
132.6 N/mm, worked out apart from this code.
Unequal bays a, b: R = 3 E I d (a + b)/(a^2 b^2) (three moments, exact).
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.statics import Supports, beam_stiffness, grid, solve, unloaded
from surfacecheck.studies import thread_offsets

E = 68.3e9


def channel(t=0.63e-3, web=60e-3, flange=16e-3):
    """Second moment of a thin channel about the axis across its web [m4]."""
    return t * web**3 / 12 + 2 * flange * t * (web / 2) ** 2


def pins(bays, offset, EI, give=0.0):
    """Force of each support on the beam, without load."""
    at = np.concatenate([[0.0], np.cumsum(bays)])
    stations = grid(at, cells=1)
    moved = np.zeros((1, at.size, 2))
    moved[0, :, 0] = offset
    compliance = give * np.eye(2 * at.size) if give else None
    supports = Supports(tuple(range(at.size)), displacement=moved, compliance=compliance)
    return solve(stations, unloaded(stations), beam_stiffness(EI, EI), supports, coupled=False).reactions[0, :, 2]


def test_second_moment_of_the_channel():
    """29,484 mm4 as noted; middle lines 60 and 16 mm give 29,484."""
    assert 1e12 * channel() == pytest.approx(29484, abs=0.5)


def test_middle_of_two_equal_bays():
    EI = E * 29484e-12
    found = pins([0.45, 0.45], [0.0, 1e-3, 0.0], EI)
    assert found[1] == pytest.approx(132.6, abs=0.05)
    assert found[1] == pytest.approx(6 * EI * 1e-3 / 0.45**3, rel=1e-11)
    assert found[[0, 2]] == pytest.approx([-found[1] / 2] * 2, rel=1e-11)


@pytest.mark.parametrize(("a", "b"), [(0.47, 0.45), (0.3, 0.6), (0.1, 0.9)])
def test_unequal_bays(a, b):
    found = pins([a, b], [0.0, 1e-3, 0.0], 2000.0)
    assert found[1] == pytest.approx(3 * 2000.0 * 1e-3 * (a + b) / (a**2 * b**2), rel=1e-10)
    assert found[0] == pytest.approx(-found[1] * b / (a + b), rel=1e-10)


def test_a_line_that_is_only_turned_sets_nothing_in():
    assert np.abs(pins([0.4, 0.5, 0.3], 1e-3 * np.array([1.0, 1.4, 1.9, 2.2]), 2000.0)).max() < 1e-9


@pytest.mark.parametrize("give", [1e-7, 1e-6, 1e-5])
def test_brackets_that_give(give):
    """Equal bays: the middle one gives c R, the outer ones c R/2; R = d/(L^3/(6 E I) + 3 c/2)."""
    EI, L, d = 2013.8, 0.45, 1e-3
    assert pins([L, L], [0.0, d, 0.0], EI, give)[1] == pytest.approx(d / (L**3 / (6 * EI) + 1.5 * give), rel=1e-9)


def test_thread():
    """A thread beside the pins: what counts is the distance from the line through the outer ones."""
    up = np.array([0.09, 0.56, 1.01])
    assert thread_offsets(up, [5e-3, 5.8e-3, 5e-3]) == pytest.approx([0.0, 0.8e-3, 0.0], abs=1e-15)
    slope = 2e-3 + 7e-3 * up  # a thread stretched askew reads a straight line
    assert thread_offsets(up, slope + np.array([0.0, 0.5e-3, 0.0])) == pytest.approx([0.0, 0.5e-3, 0.0], abs=1e-15)
    with pytest.raises(SurfaceError, match="2 readings for 3 pins"):
        thread_offsets(up, [1e-3, 2e-3])
    with pytest.raises(SurfaceError, match="do not rise"):
        thread_offsets(up[::-1], [0.0, 0.0, 0.0])
