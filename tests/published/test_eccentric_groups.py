"""Eccentrically loaded fastener groups, elastic method.

References
----------
Case "four bolts": Budynas, R. G., and Nisbett, J. K.: Shigley's Mechanical Engineering Design, chapter 8, worked
example of a cantilevered bar on four bolts (16 kN, 120 x 150 mm, 425 mm); numbers from memory, redone here by hand.
Case "two columns of six": AISC Design Examples, companion to the Steel Construction Manual, examples II.A-24 and
II.A-25 (two rows of six bolts, spacing 3 in, gauge 5.5 in, eccentricity 16 in, elastic method); numbers from memory,
redone here.
Case "unit square": exact solution of the elastic vector method, P/n + M r/sum r^2.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.statics import share_in_plane


def resultants(shares):
    return np.hypot(shares[..., 0], shares[..., 1])


def test_unit_square_in_inches_and_pounds():
    """100 lb down through (3.5, 0.5): M = -300 in lb, sum r^2 = 2.0; 125.0 lb at x = 1, 90.14 lb at x = 0.

    The load-side rivets see 25 + 75 = 100 down and 75 across, 125; the others 50 up and 75 across, 90.14.
    """
    a, b = np.array([0.0, 1.0, 0.0, 1.0]), np.array([0.0, 0.0, 1.0, 1.0])
    shares = share_in_plane(a, b, [[0.0, -100.0]], offset=(3.5, 0.5))
    assert resultants(shares)[0] == pytest.approx([90.14, 125.0, 90.14, 125.0], abs=0.005)
    assert shares[0, 1] == pytest.approx([-75.0, -100.0], rel=1e-12)
    assert shares[0, 2] == pytest.approx([75.0, 50.0], rel=1e-12)


def test_four_bolts_120_by_150_mm():
    """r = sqrt(60^2 + 75^2) = 96.05 mm; 6800 N m/(4 r) = 17.70 kN; resultants 20.97 and 14.79 kN.

    The books' data: force 16 kN, 425 mm from the group's centre, columns 150 mm, rows 120 mm apart.
    """
    a, b = np.array([75.0, -75.0, -75.0, 75.0]), np.array([60.0, 60.0, -60.0, -60.0])
    turning = share_in_plane(a, b, [[0.0, 0.0]], moment=16.0 * 425.0)
    assert resultants(turning)[0] == pytest.approx(np.full(4, 17.70), abs=0.005)
    assert np.hypot(75.0, 60.0) == pytest.approx(96.05, abs=0.005)
    shares = share_in_plane(a, b, [[0.0, -16.0]], offset=(425.0, 0.0))
    assert resultants(shares)[0] == pytest.approx([20.97, 14.79, 14.79, 20.97], abs=0.005)


def test_two_columns_of_six_in_inches():
    """I_p = 405.75 in^2, the worst bolt takes 0.3525 P, so that the group counts as 2.84 bolts."""
    a, b = (v.ravel() for v in np.meshgrid([-2.75, 2.75], 3.0 * np.arange(6), indexing="ij"))
    assert ((a - a.mean()) ** 2 + (b - b.mean()) ** 2).sum() == pytest.approx(405.75, rel=1e-12)
    worst = resultants(share_in_plane(a, b, [[0.0, -1.0]], offset=(16.0, 7.5))).max()
    assert worst == pytest.approx(0.3525, abs=0.5e-4)
    assert 1 / worst == pytest.approx(2.84, abs=0.005)


def capacity(a, weight):
    """Load through 0.5 that uses up the first of equal rivets in one line, strength 1 each."""
    shares = share_in_plane(a, 0.0 * np.asarray(a), [[0.0, 1.0]], offset=(0.5, 0.0), weight=weight)
    return 1.0 / np.abs(shares[0, :, 1]).max()


def test_elastic_capacity_can_rise_when_a_rivet_is_gone():
    """Rivets in line at 0, 1, 10, load at 0.5: 1.906; without the third 2.000 (own derivation, by hand).

    Centroid 11/3, sum r^2 = 182/3, moment 19/6: the first carries 1/3 + (19/6)(11/3)/(182/3) = 191/364. Without the
    third, half each. By best sharing the three carry at least as much as the two: 2.
    """
    assert capacity([0.0, 1.0, 10.0], [1.0, 1.0, 1.0]) == pytest.approx(364 / 191, rel=1e-12)
    assert pytest.approx(1.906, abs=5e-4) == 364 / 191
    assert capacity([0.0, 1.0, 10.0], [1.0, 1.0, 0.0]) == pytest.approx(2.0, rel=1e-12)


def test_group_with_a_rivet_removed_by_hand():
    """The unit square without the rivet at (1, 1), 100 lb down through (3.5, 0.5).

    Centroid (1/3, 1/3), sum r^2 = 4/3, M = -100 (3.5 - 1/3) = -316.67, rate 237.5 a unit: at (1, 0), r = (2/3, -1/3),
    33.33 + 158.33 = 191.67 down and 79.17 back, 207.37 lb.
    """
    a, b = np.array([0.0, 1.0, 0.0, 1.0]), np.array([0.0, 0.0, 1.0, 1.0])
    shares = share_in_plane(a, b, [[0.0, -100.0]], offset=(3.5, 0.5), weight=[1.0, 1.0, 1.0, 0.0])[0]
    assert shares[1] == pytest.approx([-237.5 / 3, -100 / 3 - 237.5 * 2 / 3], rel=1e-12)
    assert resultants(shares)[1] == pytest.approx(207.37, abs=0.005)
    assert shares[3].tolist() == [0.0, 0.0]
    three = share_in_plane(a[:3], b[:3], [[0.0, -100.0]], offset=(3.5, 0.5))[0]
    assert shares[:3] == pytest.approx(three, rel=1e-12)
