"""A stack of fasteners or notches gives what its members give alone, bit for bit."""

from __future__ import annotations

import inspect

import numpy as np
import pytest

from surfacecheck.strength import concentration, flexibility

SHEETS = [(3e-4, 4e-3), (3e-4, 4e-3), (2e-3, 8e-3), (4e10, 2e11), (4e10, 2e11), (6e10, 2e11)]
RANGES = {
    "huth": SHEETS,
    "swift": SHEETS,
    "quadratic_grip": SHEETS,
    "tate_rosenfeld_single": [*SHEETS, (0.2, 0.4)],
    "tate_rosenfeld_double": [*SHEETS, (0.2, 0.4)],
    "flexibility_spread": [*SHEETS, (0.2, 0.4)],
    "ellipse_concentration": [(0, 1e-2), (1e-4, 1e-2)],
    "fillet_bending": [(2e-2, 5e-2), (5e-3, 2e-2), (1e-3, 1e-2)],
    "fillet_covered": [(2e-2, 5e-2), (5e-3, 2e-2), (1e-3, 1e-2)],
    "fillet_tension": [(2e-2, 5e-2), (5e-3, 2e-2), (1e-3, 1e-2)],
    "hole_concentration": [(0, 5e-3), (1e-2, 5e-2)],
    "hole_concentration_gross": [(0, 5e-3), (1e-2, 5e-2)],
    "hole_edge_stress": [(-2e8, 2e8), (-2e8, 2e8)],
}


def function(name):
    return getattr(flexibility, name, None) or getattr(concentration, name)


def plain(found):
    return np.asarray(found.values if isinstance(found, flexibility.FlexibilitySpread) else found)


def drawn(ranges, count):
    rng = np.random.default_rng(6)
    return [low + (high - low) * rng.random(count) for low, high in ranges]


def test_no_function_is_forgotten():
    there = {n for m in (flexibility, concentration) for n in m.__all__ if inspect.isfunction(getattr(m, n))}
    assert there == set(RANGES)


@pytest.mark.parametrize("name", RANGES)
def test_stack_is_its_members(name):
    arguments = drawn(RANGES[name], 131)
    whole = plain(function(name)(*arguments))
    assert np.isfinite(whole).all()
    for i in range(131):
        alone = plain(function(name)(*(float(a[i]) for a in arguments)))
        assert alone.tobytes() == whole[i].tobytes()


@pytest.mark.parametrize("name", RANGES)
def test_shapes_broadcast_and_strides_do_not_matter(name):
    arguments = drawn(RANGES[name], 24)
    flat = plain(function(name)(*arguments))
    turned = plain(function(name)(*(a.reshape(4, 6).T for a in arguments)))
    assert np.array_equal(flat.reshape(4, 6, *flat.shape[1:]).swapaxes(0, 1), turned)
