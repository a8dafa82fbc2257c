"""Rows of fasteners one behind the other: what each carries of a pull.

References
----------
Spring model of NACA TN 1051 (1946) and TN 1458, as quoted in secondary text. The 3-row cases (ratios r, 3 mm sheet) are
a public tutorial's numbers; the 4- and 5-row cases were worked out apart from this code from the
stated equations. The closed form F_i ~ cosh(lambda (i - (N+1)/2)), cosh lambda = 1 + (1/k_A + 1/k_B)/(2 C), is exact
for equal rows and equal strips.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.statics import lap_joint, lap_pick_up, row_reach
from surfacecheck.strength.flexibility import huth, swift

K_3MM = 72e3 * 3 * 25 / 25  # N/mm: 3 mm of 72 GPa, strip 25, pitch 25
K_032 = 9.9e6 * 0.032 * 0.5 / 0.5  # lb/in


@pytest.mark.parametrize(
    ("r", "end"), [(0.1, 34.4), (0.3, 36.1), (1.0, 40.0), (3.0, 44.4), (10.0, 47.8), (30.0, 49.2)], ids=str
)
def test_three_rows_by_stiffness_ratio(r, end):
    """End share (1 + r)/(3 + 2 r) percent, r = fastener over strip stiffness."""
    F = lap_joint(np.full(3, 1 / r), 1.0, 1.0, 100.0)
    assert pytest.approx([end, 100 - 2 * end, end], abs=0.11) == F
    assert F[0] == pytest.approx(end, abs=0.05)
    assert F[0] == pytest.approx(100 * (1 + r) / (3 + 2 * r), rel=1e-13)


def test_three_rows_exact():
    assert lap_joint(np.ones(3), 1.0, 1.0, 1.0) == pytest.approx([0.4, 0.2, 0.4], rel=1e-14)
    assert lap_joint(np.full(3, 1 / 3), 1.0, 1.0, 1.0) == pytest.approx([4 / 9, 1 / 9, 4 / 9], rel=1e-14)


def test_three_rows_in_3_mm_sheet():
    """Bolts of 6.35 mm by Huth: C = 1.988e-5 mm/N, k = 216,000 N/mm."""
    C = huth(3.0, 3.0, 6.35, 72e3, 72e3, 200e3, riveted=False)
    assert f"{C:.3e}" == "1.988e-05"
    assert lap_joint([C, C, C], K_3MM, K_3MM, 1.0) == pytest.approx([0.3557, 0.2885, 0.3557], abs=5e-5)


def test_three_rows_6_mm_on_3_mm():
    """The tutorial prints 31/30/40; the flexibility is that of 6 on 3 mm, 1.954e-5 (1.988e-5 gives .3076)."""
    C = huth(6.0, 3.0, 6.35, 72e3, 72e3, 200e3, riveted=False)
    F = lap_joint([C, C, C], 2 * K_3MM, K_3MM, 1.0)
    assert pytest.approx([0.3073, 0.2980, 0.3947], abs=5e-5) == F
    assert pytest.approx([0.31, 0.30, 0.40], abs=0.0055) == F


def test_rigid_and_soft_limits():
    assert lap_joint(np.zeros(3), 1.0, 1.0, 1.0) == pytest.approx([0.5, 0.0, 0.5], abs=1e-15)
    assert lap_joint(np.zeros(3), 2.0, 1.0, 1.0) == pytest.approx([1 / 3, 0.0, 2 / 3], abs=1e-15)
    assert lap_joint(np.full(3, 1e9), 2.0, 1.0, 1.0) == pytest.approx([1 / 3] * 3, abs=1e-8)
    assert lap_joint(np.ones(3), np.inf, np.inf, 1.0) == pytest.approx([1 / 3] * 3, rel=1e-14)
    assert lap_joint(np.full(3, 1e-9), 2.0, 1.0, 1.0) == pytest.approx([1 / 3, 0.0, 2 / 3], abs=1e-8)


@pytest.mark.parametrize(
    ("formula", "C", "shares"),
    [
        (huth, 1.2039e-5, [0.3019, 0.1981, 0.1981, 0.3019]),
        (swift, 9.051e-6, [0.3146, 0.1854, 0.1854, 0.3146]),
        (huth, 1.2039e-5, [0.2768, 0.1598, 0.1266, 0.1598, 0.2768]),
    ],
    ids=["4 rows, Huth", "4 rows, Swift", "5 rows, Huth"],
)
def test_rivets_in_two_sheets_of_032(formula, C, shares):
    """6061 sheet 0.032 on 0.032 in, strip and pitch 0.5 in, rivet 1/8 in: k = 316,800 lb/in."""
    give = formula(0.032, 0.032, 0.125, 9.9e6, 9.9e6, 10.0e6)
    assert float(give) == pytest.approx(C, rel=1e-4)
    assert pytest.approx(316800) == K_032
    assert lap_joint(np.full(len(shares), give), K_032, K_032, 1.0) == pytest.approx(shares, abs=5e-5)


def test_thin_sheet_loads_the_row_where_it_is_fully_loaded():
    """0.032 on 0.020 in, Huth C 1.4404e-5, 4 rows."""
    C = huth(0.032, 0.020, 0.125, 9.9e6, 9.9e6, 10.0e6)
    assert float(C) == pytest.approx(1.4404e-5, abs=5e-10)
    F = lap_joint(np.full(4, C), K_032, K_032 * 0.020 / 0.032, 1.0)
    assert pytest.approx([0.2545, 0.1803, 0.2088, 0.3564], abs=5e-5) == F


@pytest.mark.parametrize("rows", [2, 3, 4, 5, 9, 30])
@pytest.mark.parametrize("r", [0.01, 0.5, 4.0])
def test_closed_form(rows, r):
    k = 5.0e6
    decay = np.arccosh(1 + r)
    shape = np.cosh(decay * (np.arange(1, rows + 1) - (rows + 1) / 2))
    F = lap_joint(np.full(rows, 1 / (r * k)), k, k, 1000.0)
    assert pytest.approx(1000.0 * shape / shape.sum(), rel=1e-12) == F
    assert row_reach(r * k, k, k) == pytest.approx(1 / decay, rel=1e-12)


def test_four_rows_end_over_inner():
    """F_1/F_2 = 1 + 2 r."""
    F = lap_joint(np.full(4, 1 / 0.7), 1.0, 1.0, 1.0)
    assert F[0] / F[1] == pytest.approx(1 + 2 * 0.7, rel=1e-13)


def test_missing_row_is_a_shorter_joint_with_a_longer_bay():
    """Leaving out row 2 of 4: bays of 1/2 and 1 of the stiffness between the three that are left."""
    C = np.array([2.0, np.inf, 1.0, 3.0])
    F = lap_joint(C, 1.5, 0.8, 10.0)
    assert F[1] == 0.0
    assert F[[0, 2, 3]] == pytest.approx(lap_joint(C[[0, 2, 3]], [0.75, 1.5], [0.4, 0.8], 10.0), rel=1e-13)


def test_two_rows_with_clearance_by_hand():
    """C = 2, strips 1 and 1, row 2 loose by 3: S/1 + 2 S = (P - S)/1 + slip_2.

    Row 1 alone: slip_2 = slip_1 + S g - P/k_A = 2 P + 2 P - P = 3 P reaches 3 at P = 1. From there half of what is
    added goes to each: at P = 5, row 1 has 1 + 2, row 2 has 2.
    """
    assert lap_pick_up([2.0, 2.0], 1.0, 1.0, [0.0, 3.0]) == pytest.approx([0.0, 1.0], rel=1e-14)
    assert lap_joint([2.0, 2.0], 1.0, 1.0, 1.0, [0.0, 3.0]) == pytest.approx([1.0, 0.0], abs=1e-14)
    assert lap_joint([2.0, 2.0], 1.0, 1.0, 5.0, [0.0, 3.0]) == pytest.approx([3.0, 2.0], rel=1e-14)
    assert lap_joint([2.0, 2.0], 1.0, 1.0, -5.0, [0.0, 3.0]) == pytest.approx([-3.0, -2.0], rel=1e-14)
    assert lap_joint([2.0, 2.0], 1.0, 1.0, 0.0, [0.0, 3.0]).tolist() == [0.0, 0.0]


@pytest.mark.parametrize(
    ("C", "k_A", "clearance", "words"),
    [
        ([np.inf, np.inf], 1.0, 0.0, "every rivet of the row is missing"),
        ([], 1.0, 0.0, "at least one rivet"),
        ([1.0, -1.0], 1.0, 0.0, "C is negative"),
        ([1.0, np.nan], 1.0, 0.0, "C is negative or not a number"),
        ([1.0, 1.0], 0.0, 0.0, "k_A is 0 N/m"),
        ([1.0, 1.0], np.nan, 0.0, "k_A is nan"),
        ([1.0, 1.0, 1.0], [1.0, 1.0, 1.0], 0.0, "3 values for 2 bays"),
        ([0.0, 0.0], np.inf, 0.0, "share in no one way"),
        ([1.0, 1.0], 1.0, -0.1, "clearance is -0.1 m"),
        ([1.0, 1.0, 1.0], [1.0, 4.0], 0.1, "turn the joint round"),
    ],
)
def test_refused(C, k_A, clearance, words):
    k_B = np.inf if np.isinf(k_A).all() else 1.0
    with pytest.raises(SurfaceError, match=words):
        lap_joint(C, k_A, k_B, 1.0, clearance)


def test_load_that_is_no_number():
    with pytest.raises(SurfaceError, match="not a finite number"):
        lap_joint([1.0, 1.0], 1.0, 1.0, np.nan)
