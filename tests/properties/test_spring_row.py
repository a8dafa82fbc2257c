"""What must hold of every row of rivets, whatever its numbers."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.statics import lap_joint, lap_pick_up, seam_pick_up, seam_row, tributary_lengths

SETTINGS = st.integers(0, 2**32 - 1)


def a_row(seed, *, missing=True, clearance=False, rivets=None):
    """Draw a row: flexibilities over three decades, bays all different, a third of the rivets missing."""
    rng = np.random.default_rng(seed)
    R = rivets or int(rng.integers(2, 15))
    C = 10.0 ** rng.uniform(-8.5, -5.5, R)
    if missing:
        gone = rng.random(R) < 0.33
        gone[rng.integers(R)] = False
        C[gone] = np.inf
    k_A, k_B = 10.0 ** rng.uniform(6.0, 8.5, (2, R - 1))
    gap = rng.uniform(0.0, 1e-4, R) * (rng.random(R) < 0.6) if clearance else np.zeros(R)
    return C, k_A, k_B, gap


def stiffness(C):
    return np.where(np.isinf(C), 0.0, 1.0 / C)


def energy(F, C, k_A, k_B, P):
    S = np.cumsum(F)[:-1]
    there = np.isfinite(C)
    return ((C[there] * F[there] ** 2).sum() + ((P - S) ** 2 / k_A + S**2 / k_B).sum()) / 2


@given(SETTINGS)
def test_equilibrium(seed):
    C, k_A, k_B, gap = a_row(seed, clearance=True)
    F = lap_joint(C, k_A, k_B, 740.0)
    assert F.sum() == pytest.approx(740.0, rel=1e-12)
    assert (F[np.isinf(C)] == 0.0).all()
    found = seam_row(stiffness(C), k_A, k_B, 4000.0, 0.02, clearance=gap)
    seam = 4000.0 * 0.02 * C.size
    for loads in (found.loads, found.complete, found.tributary):
        assert loads.sum() == pytest.approx(seam, rel=1e-12)


@given(SETTINGS)
def test_slips_agree_with_what_the_strips_stretch(seed):
    """Bay by bay, with slips from C F: the equations as the source writes them."""
    C, k_A, k_B, _ = a_row(seed, missing=False)
    F = lap_joint(C, k_A, k_B, 500.0)
    S = np.cumsum(F)[:-1]
    left, right = C[:-1] * F[:-1] + S / k_B, (500.0 - S) / k_A + C[1:] * F[1:]
    assert left == pytest.approx(right, abs=1e-10 * max(np.abs(left).max(), np.abs(C * F).max()))


@given(SETTINGS)
def test_superposition(seed):
    C, k_A, k_B, _ = a_row(seed)
    one, two, both = (lap_joint(C, k_A, k_B, P) for P in (300.0, -110.0, 190.0))
    assert one + two == pytest.approx(both, abs=1e-9 * np.abs(one).max())
    k = stiffness(C)
    one, two, both = (seam_row(k, k_A, k_B, q, 0.02).loads for q in (3e3, -1e3, 2e3))
    assert one + two == pytest.approx(both, abs=1e-9 * np.abs(one).max())


@given(SETTINGS)
def test_the_other_way_round(seed):
    """A joint read from its other end, with A and B exchanged; a seam from its other end."""
    C, k_A, k_B, gap = a_row(seed, clearance=True)
    F = lap_joint(C, k_A, k_B, 500.0)
    assert lap_joint(C[::-1], k_B[::-1], k_A[::-1], 500.0) == pytest.approx(F[::-1], abs=1e-9 * np.abs(F).max())
    here = seam_row(stiffness(C), k_A, k_B, 4e3, 0.02, clearance=gap)
    there = seam_row(stiffness(C)[::-1], k_B[::-1], k_A[::-1], 4e3, 0.02, clearance=gap[::-1])
    assert there.loads == pytest.approx(here.loads[::-1], abs=1e-8 * here.loads.max())
    assert there.tributary == pytest.approx(here.tributary[::-1], rel=1e-12)


@given(SETTINGS)
def test_removing_a_rivet_never_raises_a_stiffness(seed):
    """The energy under one load (end-to-end flexibility) never falls; the other rivets of a seam never shed load."""
    C, k_A, k_B, _ = a_row(seed, missing=False)
    whole = energy(lap_joint(C, k_A, k_B, 1.0), C, k_A, k_B, 1.0)
    loads = seam_row(stiffness(C), k_A, k_B, 4e3, 0.02).loads
    for i in range(C.size):
        less = C.copy()
        less[i] = np.inf
        assert energy(lap_joint(less, k_A, k_B, 1.0), less, k_A, k_B, 1.0) >= whole * (1 - 1e-10)
        others = np.arange(C.size) != i
        assert (seam_row(stiffness(less), k_A, k_B, 4e3, 0.02).loads - loads)[others].min() >= -1e-9 * loads.max()


@given(SETTINGS, st.floats(0.0, 1.0))
def test_full_and_nothing_bracket_any_part_of_a_rivet(seed, part):
    C, k_A, k_B, _ = a_row(seed, missing=False)
    i = seed % C.size
    rows = np.tile(stiffness(C), (3, 1))
    rows[1, i] *= part
    rows[2, i] = 0.0
    full, some, none = seam_row(rows, k_A, k_B, 4e3, 0.02).loads
    room = 1e-9 * np.abs(full).max()
    assert (some >= np.minimum(full, none) - room).all()
    assert (some <= np.maximum(full, none) + room).all()


@given(SETTINGS)
def test_limits(seed):
    """Rigid rivets carry what halving the gaps gives; rivets softer than everything share evenly."""
    C, _, _, _ = a_row(seed)
    rng = np.random.default_rng(seed)
    pitch = rng.uniform(0.01, 0.04, C.size - 1)
    there = np.isfinite(C)
    rigid = seam_row(np.where(there, np.inf, 0.0), 1e6 / pitch, 2e6 / pitch, 4e3, pitch, 0.005)
    assert rigid.loads == pytest.approx(rigid.tributary, rel=1e-11)
    assert rigid.tributary == pytest.approx(4e3 * tributary_lengths(there, pitch, 0.005), rel=1e-14)
    soft = seam_row(np.where(there, 1e-3, 0.0), 1e6 / pitch, 2e6 / pitch, 4e3, pitch, 0.005).loads
    assert soft[there] == pytest.approx(np.full(there.sum(), soft.sum() / there.sum()), rel=1e-6)


def by_trying_every_set(C, g, h, total, gap):
    """Force of each rivet: the one set of carrying rivets with nothing pushed back and no loose one overrun."""
    R = C.size
    for size in range(1, R + 1):
        for held in combinations(np.flatnonzero(np.isfinite(C)), size):
            A, b = np.zeros((2 * R, 2 * R)), np.zeros(2 * R)  # forces, then slips
            for i in range(R):
                A[i, i], A[i, R + i], b[i] = (C[i], -1.0, -gap[i]) if i in held else (1.0, 0.0, 0.0)
            for i in range(R - 1):
                A[R + i, : i + 1], A[R + i, R + i], A[R + i, R + i + 1], b[R + i] = -g[i], -1.0, 1.0, -h[i]
            A[-1, :R], b[-1] = 1e-7, 1e-7 * total
            x = np.linalg.solve(A, b)
            F, slip = x[:R], x[R:]
            out = [i for i in range(R) if np.isfinite(C[i]) and i not in held]
            if (-1e-9 * total <= F).all() and (slip[out] <= gap[out] + 1e-13).all():
                return F
    raise AssertionError("no set of carrying rivets fits")


@given(SETTINGS, st.floats(1.0, 5.0))
def test_contact_is_the_one_set_that_fits(seed, size):
    C, k_A, _, gap = a_row(seed, clearance=True, rivets=2 + seed % 4)
    k_B = 1.7 * k_A  # even along the row: nothing is handed back
    P = 10.0**size
    g = 1 / k_A + 1 / k_B
    expected = by_trying_every_set(C, g, P / k_A, P, gap)
    assert lap_joint(C, k_A, k_B, P, gap) == pytest.approx(expected, abs=1e-6 * P)
    whole = 0.02 * C.size
    handed = P * np.arange(1, C.size) / C.size
    expected = by_trying_every_set(C, g, g * handed, P, gap)
    found = seam_row(stiffness(C), k_A, k_B, P / whole, 0.02, clearance=gap)
    assert found.loads == pytest.approx(expected, abs=1e-6 * P)


@given(SETTINGS)
def test_pick_up_is_where_a_rivet_starts_to_carry(seed):
    """Just below its load it has nothing, just above something; and loads only grow."""
    C, k_A, _, gap = a_row(seed, clearance=True)
    k_B = 0.6 * k_A
    start = lap_pick_up(C, k_A, k_B, gap)
    whole = 0.02 * C.size
    flow = seam_pick_up(stiffness(C), k_A, k_B, 0.02, gap)
    assert np.isinf(start[np.isinf(C)]).all()
    assert start.min() == flow.min() == 0.0
    for i in np.flatnonzero(np.isfinite(start) & (start > 0.0)):
        below, above = (lap_joint(C, k_A, k_B, start[i] * f, gap) for f in (1 - 1e-6, 1 + 1e-6))
        assert below[i] == 0.0 < above[i]
        assert (above - below).min() >= -1e-9 * start[i]
    for i in np.flatnonzero(np.isfinite(flow) & (flow > 0.0)):
        below, above = (
            seam_row(stiffness(C), k_A, k_B, flow[i] * f, 0.02, clearance=gap).loads for f in (1 - 1e-6, 1 + 1e-6)
        )
        assert below[i] == 0.0 < above[i]
        assert (above - below).min() >= -1e-9 * flow[i] * whole


@given(SETTINGS)
def test_no_clearance_is_the_linear_row(seed):
    """Strips of one taper: contact with no gap to close finds what the linear equations give."""
    C, k_A, _, _ = a_row(seed)
    tiny = np.full(C.size, 1e-3)  # the same gap everywhere is a rigid slip and changes no load
    linear = lap_joint(C, k_A, 2 * k_A, 500.0)
    assert lap_joint(C, k_A, 2 * k_A, 500.0, tiny) == pytest.approx(linear, abs=1e-8 * 500.0)


@pytest.mark.parametrize("clearance", [False, True])
def test_stack_is_its_members_bit_for_bit(clearance):
    rng = np.random.default_rng(11)
    V, cases, R = 300, 3, 9
    rows = [a_row(s, clearance=True, rivets=R) for s in range(V)]
    C, k_A, _, gap = (np.stack(part) for part in zip(*rows, strict=True))
    k_B, gap = 1.4 * k_A, gap * clearance
    load, overhang = rng.normal(0, 2e3, (V, cases)), rng.uniform(0.0, 0.02, V)
    load[:, 0] *= np.arange(V) % 5 > 0  # some of the loads are none
    wide = [v[:, None] for v in (C, k_A, k_B)]
    joint = lap_joint(*wide, load, gap[:, None])
    seam = seam_row(stiffness(C)[:, None], *wide[1:], load, 0.02, overhang[:, None], gap[:, None])
    start, flow = lap_pick_up(C, k_A, k_B, gap), seam_pick_up(stiffness(C), k_A, k_B, 0.02, gap, overhang)
    assert joint.shape == seam.loads.shape == seam.tributary.shape == (V, cases, R)
    assert not np.isnan(joint).any()
    for i in range(V):
        own = stiffness(C[i])
        assert np.array_equal(lap_joint(C[i], k_A[i], k_B[i], load[i], gap[i]), joint[i])
        alone = seam_row(own, k_A[i], k_B[i], load[i], 0.02, overhang[i], gap[i])
        for name in ("loads", "complete", "tributary", "strip", "factor"):
            assert np.array_equal(getattr(alone, name), getattr(seam, name)[i]), name
        one = seam_row(own, k_A[i], k_B[i], load[i, 1], 0.02, overhang[i], gap[i])
        assert np.array_equal(one.loads, seam.loads[i, 1])
        assert np.array_equal(lap_pick_up(C[i], k_A[i], k_B[i], gap[i]), start[i])
        assert np.array_equal(seam_pick_up(own, k_A[i], k_B[i], 0.02, gap[i], overhang[i]), flow[i])
