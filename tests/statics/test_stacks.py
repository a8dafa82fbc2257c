"""A stack of variants gives bit for bit what single runs give, and more than one case gives what one gives."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest

from surfacecheck.statics import (
    BeamLoads,
    BeamStiffness,
    Supports,
    beam_stiffness,
    close_with_rod,
    deflections,
    grid,
    heel_bound,
    share_group,
    share_in_plane,
    solve,
    unloaded,
)

VARIANTS = 1000
HINGES = (1, 3, 4, 6)
RESULTS = ("reactions", "couples", "V_x", "V_z", "N", "M_x", "M_z", "T_0")


def stack(seed, variants, cases, hinges=HINGES, held=(HINGES[1],)):
    """Everything different in every variant."""
    rng = np.random.default_rng(seed)
    breaks = np.linspace(0.0, 1.2, 8) + rng.uniform(-0.02, 0.02, (variants, 8))
    stations = grid(breaks, cells=(1, 2, 1, 1, 3, 1, 1))
    y = stations.y[:, None, :]
    slope = rng.uniform(-1, 1, (variants, cases, 4))[..., None, :]
    q = {n: 300.0 + 200.0 * slope[..., i] * y for i, n in enumerate("xyz")}
    loads = unloaded(
        stations,
        cases,
        **q,
        torque=20.0 * slope[..., 3] - 0.1 * q["z"],
        moment_z=0.1 * q["y"],
        force=rng.normal(0, 50, (variants, cases, 8, 3)),
    )
    _, loads = close_with_rod(stations, loads, 0, (0.0, -0.09), (-1.0, 0.1, 0.05))
    EI = 1000.0 + 300.0 * rng.uniform(size=(variants, 1)) * stations.y
    shape = stations.y.shape
    other = {n: rng.uniform(1e-7, 1e-5, shape) for n in ("s_xx", "s_zz")}
    other |= {n: rng.uniform(-0.05, 0.05, shape) for n in ("x_s", "z_s", "x_c", "z_c")}
    section = beam_stiffness(EI, 40 * EI, EI, torsion=1 / EI, s_xz=rng.uniform(-1e-8, 1e-8, shape), **other)
    n = len(hinges)
    give = rng.normal(0, 1e-3, (variants, 2 * n, 2 * n))
    give = give @ np.swapaxes(give, -1, -2)
    supports = Supports(
        hinges,
        (give + np.swapaxes(give, -1, -2)) / 2,
        rng.uniform(-1e-3, 1e-3, (variants, cases, n, 2)),
        rng.integers(0, n, cases),
        slopes_held=held,
    )
    return stations, loads, section, supports


def one_of(i, stations, loads, section, supports):
    def pick(v, trailing):
        return v[i] if v.ndim > trailing else v

    def load(name):
        return pick(getattr(loads, name), 3 if name in ("force", "moment") else 2)

    return (
        grid(stations.breaks[i], stations.cells),
        BeamLoads(**{f.name: load(f.name) for f in fields(loads)}),
        BeamStiffness(**{f.name: pick(getattr(section, f.name), 1) for f in fields(section)}),
        Supports(
            supports.hinges,
            supports.compliance[i],
            supports.displacement[i],
            supports.thrust,
            supports.slopes_held,
        ),
    )


@pytest.mark.parametrize("cases", [1, 3])
@pytest.mark.parametrize("coupled", [False, True], ids=["bending alone", "coupled"])
def test_a_stack_of_a_thousand_equals_a_thousand_single_runs(coupled, cases):
    problem = stack(7, VARIANTS, cases)
    together = solve(*problem, coupled)
    moved = deflections(together)
    for i in range(VARIANTS):
        alone = solve(*one_of(i, *problem), coupled)
        for name in RESULTS:
            assert np.array_equal(getattr(alone, name), getattr(together, name)[i]), (name, i)
        if i % 50 == 0:
            single = deflections(alone)
            for f in fields(moved):
                assert np.array_equal(getattr(single, f.name), getattr(moved, f.name)[i]), (f.name, i)


@pytest.mark.parametrize("hinges", [(1, 4), (1, 3, 6), (0, 2, 4, 7), (0, 1, 3, 4, 6, 7)], ids=len)
@pytest.mark.parametrize("held", [False, True])
@pytest.mark.parametrize("cases", [1, 2])
def test_whatever_the_number_of_hinges_and_cases(hinges, held, cases):
    """One redundant, one case: products with one row or one column are where a stack may go another way."""
    problem = stack(9, 60, cases, hinges, hinges[:1] if held else ())
    together = solve(*problem, True)
    for i in range(60):
        alone = solve(*one_of(i, *problem), True)
        for name in RESULTS:
            assert np.array_equal(getattr(alone, name), getattr(together, name)[i]), (name, i)


def test_chunks_of_a_stack_equal_the_stack():
    problem = stack(8, 60, 2)
    together = solve(*problem, True)
    singles = [one_of(slice(k, k + 20), *problem) for k in (0, 20, 40)]
    found = np.concatenate([solve(*p, True).reactions for p in singles])
    assert np.array_equal(found, together.reactions)


def test_shared_arrays_broadcast_over_variants():
    """Loads of one shape, sections of a stack: the same as with the loads written out for each."""
    stations = grid([0.0, 0.2, 0.6, 1.0])
    loads = unloaded(stations, z=np.array([[100.0], [200.0]]) * np.ones(stations.points), cases=2)
    EI = 1000.0 + 100.0 * np.arange(5)[:, None] * stations.y
    found = solve(stations, loads, beam_stiffness(EI, EI), Supports((0, 1, 3)), True)
    assert found.reactions.shape == (5, 2, 3, 3)
    for i in range(5):
        alone = solve(stations, loads, beam_stiffness(EI[i], EI[i]), Supports((0, 1, 3)), True)
        assert np.array_equal(alone.reactions, found.reactions[i])


def test_groups_of_a_stack_equal_single_groups():
    rng = np.random.default_rng(3)
    (a, b), w = rng.uniform(-0.03, 0.03, (2, 200, 9)), rng.uniform(0.5, 2.0, (200, 9))
    F, r, M = rng.normal(0, 100, (200, 4, 3)), rng.normal(0, 0.05, (200, 3)), rng.normal(0, 5, (200, 4, 3))
    together = share_group(a, b, F, r, M, w)
    plane = share_in_plane(a, b, F[..., 1:], r[:, 1:], M[..., 0], w)
    pulled, contact = heel_bound(a, b, F, r, (-0.03, 0.0), (1.0, 0.0), 1, M, w)
    assert together.shape == (200, 4, 9, 3)
    for i in range(200):
        assert np.array_equal(share_group(a[i], b[i], F[i], r[i], M[i], w[i]), together[i])
        assert np.array_equal(share_in_plane(a[i], b[i], F[i, :, 1:], r[i, 1:], M[i, :, 0], w[i]), plane[i])
        tension, press = heel_bound(a[i], b[i], F[i], r[i], (-0.03, 0.0), (1.0, 0.0), 1, M[i], w[i])
        assert np.array_equal(tension, pulled[i])
        assert np.array_equal(press, contact[i])
