"""A stack of variants gives what its members give alone, bit for bit; nothing gives a value that is not a number."""

from __future__ import annotations

import numpy as np
import pytest

import surfacecheck.strength as st

RANGES = {  # a range per argument: sheet-metal sizes and stresses, SI
    "margin": [(0, 2e3), (0, 2e3), (1, 7)],
    "ratio": [(0, 2e3), (0, 2e3)],
    "hole_area": [(0, 7e-3)],
    "solid_shear": [(1e-3, 7e-3), (1e8, 3e8), (1, 2), (0.5, 1)],
    "thin_sheet_single": [(2e-3, 7e-3), (2e-4, 3e-3)],
    "thin_sheet_double": [(2e-3, 7e-3), (2e-4, 3e-3)],
    "sheet_covered": [(2e-3, 7e-3), (2e-4, 3e-3)],
    "blind_shear": [(0, 3e3), (1, 2)],
    "pull_over": [(1e8, 5e8), (4e-3, 1e-2), (3e-4, 2e-3)],
    "pull_over_covered": [(2e-4, 2e-3)],
    "tension_unwelcome": [(0, 1e3), (1e2, 3e3)],
    "interaction_sum": [(0, 2), (0, 2)],
    "interaction_margin": [(0, 2), (0, 2)],
    "interaction_en1993_1_8": [(0, 2), (0, 2)],
    "bearing_stress": [(1, 3), (3e8, 5e8), (5e8, 8e8)],
    "bearing_covered": [(1, 3)],
    "bearing_load": [(3e8, 8e8), (2e-3, 7e-3), (3e-4, 3e-3)],
    "shear_out": [(1e8, 3e8), (0, 2e-2), (2e-3, 7e-3), (3e-4, 3e-3)],
    "net_width": [(1e-2, 5e-2), (2e-3, 5e-3), (0, 4), (0, 2e-2), (5e-3, 2e-2)],
    "net_section": [(1e8, 5e8), (3e-4, 3e-3), (0, 5e-2)],
    "lug_axial_coefficient": [(0.5, 3), (1e8, 3e8), (2e8, 5e8)],
    "lug_axial": [(1e8, 3e8), (3e8, 8e8), (4e-3, 2e-2), (3e-3, 7e-3), (1e-3, 4e-3)],
    "lug_net": [(1e8, 5e8), (5e-3, 3e-2), (3e-3, 7e-3), (1e-3, 4e-3), (0.8, 1)],
    "lug_mean_ligament": [(1e-3, 1e-2)] * 4,
    "lug_transverse": [(0.2, 1.2), (1e8, 5e8), (3e-3, 7e-3), (1e-3, 4e-3)],
    "lug_oblique_margin": [(0, 2), (0, 2)],
    "pin_shear": [(1e8, 8e8), (3e-3, 1e-2), (1, 2)],
    "pin_arm_both_ends": [(1e-3, 5e-3), (1e-3, 5e-3), (0, 2e-3)],
    "pin_arm_one_end": [(1e-3, 5e-3), (1e-3, 5e-3), (0, 2e-3)],
    "pin_bending_stress": [(0, 50), (3e-3, 1e-2)],
    "pin_bearing": [(1e8, 8e8), (3e-3, 1e-2), (1e-3, 1e-2)],
    "plate_constant": [(0.2, 0.4)],
    "plate_critical": [(0.4, 40), (6e10, 2e11), (0.2, 0.4), (3e-4, 3e-3), (1e-2, 0.5)],
    "compression_coefficient": [(0.1, 12)],
    "bending_coefficient": [(0.1, 12)],
    "gradient_coefficient": [(-1.2, 1.2)],
    "shear_coefficient": [(0.02, 0.6), (0.02, 0.6)],
    "shear_coefficient_fit": [(0.02, 0.6), (0.02, 0.6)],
    "compression_shear_margin": [(-1, 2), (-2, 2)],
    "bending_shear_margin": [(-2, 2), (-2, 2)],
    "inter_rivet": [(1, 4), (6e10, 2e11), (3e-4, 3e-3), (1e-2, 0.1)],
    "inter_rivet_pitch": [(1, 4), (6e10, 2e11), (3e-4, 3e-3), (0, 3e8)],
    "lip_stiffness": [(0, 1e-2), (5e-3, 4e-2), (3e-4, 3e-3)],
    "least_lip": [(5e-3, 4e-2), (3e-4, 3e-3)],
    "plasticity_supported_plate": [(0, 4e8), (6e10, 8e10), (0.2, 0.4), (2e8, 3e8), (5, 35)],
    "plastic_plate_critical": [(1e6, 2e9), (6e10, 8e10), (0.2, 0.4), (2e8, 3e8), (5, 35)],
    "crippling_two_corners": [(2e-5, 3e-4), (3e-4, 3e-3), (6e10, 2e11), (1e8, 5e8)],
    "crippling_angle": [(2e-5, 3e-4), (3e-4, 3e-3), (6e10, 2e11), (1e8, 5e8)],
    "channel_coefficient": [(0.05, 1.2)],
    "curved_compression_coefficient": [(0, 300)],
    "diagonal_tension_factor": [(-5e3, 5e3), (0, 2e3)],
    "row_factor": [(0, 1)],
    "wrinkled_row_margin": [(0, 1), (0, 1), (0, 20), (1, 2)],
    "largest_factor": [(1e-4, 3e-3)],
    "upright_rivet_tension": [(1e8, 5e8), (3e-4, 3e-3)],
    "plate_flat_bending": [(-50, 50), (5e-3, 5e-2), (3e-4, 4e-3)],
    "plate_edge_bending": [(-50, 50), (5e-3, 5e-2), (3e-4, 4e-3)],
    "plate_stress": [(-2e3, 2e3), (-50, 50), (-50, 50), (5e-3, 5e-2), (3e-4, 4e-3)],
    "set_in_margin": [(0, 2e3), (-1e3, 1e3), (-1e3, 1e3), (1, 2)],
}
ELSEWHERE = {  # tested below or no array function of its own
    "at_least", "fitting", "highest_special", "joint_by_test", "load_multiplier", "member", "pin_bending_moment",
    "strip_moment_clamped", "strip_moment_supported", "turning_bearing",
}  # fmt: skip


def drawn(ranges: list[tuple[float, float]], count: int, seed: int = 1) -> list[np.ndarray]:
    """Draw a stack, the ends of each range among it (zeros meet zeros there)."""
    rng = np.random.default_rng(seed)
    low, high = (np.array(end, dtype=float)[:, None] for end in zip(*ranges, strict=True))
    stack = low + (high - low) * rng.random((len(ranges), count))
    stack[:, 0], stack[:, 1] = low[:, 0], high[:, 0]
    return list(stack)


def as_tuple(found: object) -> tuple[np.ndarray, ...]:
    return found if isinstance(found, tuple) else (np.asarray(found),)


def test_no_function_is_forgotten() -> None:
    functions = {n for n in st.__all__ if callable(getattr(st, n)) and n[0].islower()}
    assert functions == set(RANGES) | ELSEWHERE - {"at_least"}


@pytest.mark.parametrize("name", RANGES)
def test_stack_is_its_members(name: str) -> None:
    function = getattr(st, name)
    arguments = drawn(RANGES[name], 131)
    whole = as_tuple(function(*arguments))
    for i in range(131):
        alone = as_tuple(function(*(float(a[i]) for a in arguments)))
        for stacked, single in zip(whole, alone, strict=True):
            assert stacked[i].tobytes() == single.tobytes(), (name, i)


@pytest.mark.parametrize("name", RANGES)
def test_shapes_broadcast_and_strides_do_not_matter(name: str) -> None:
    function = getattr(st, name)
    arguments = drawn(RANGES[name], 24, seed=2)
    flat = as_tuple(function(*arguments))
    turned = as_tuple(function(*(a.reshape(4, 6).T for a in arguments)))
    for one, other in zip(flat, turned, strict=True):
        assert other.shape == (6, 4)
        assert np.array_equal(one, other.T.ravel())


@pytest.mark.parametrize("name", RANGES)
def test_never_not_a_number(name: str) -> None:
    for found in as_tuple(getattr(st, name)(*drawn(RANGES[name], 1000, seed=3))):
        assert not np.isnan(found).any()


@pytest.mark.parametrize("function", [st.strip_moment_supported, st.strip_moment_clamped])
def test_strips_of_a_stack(function) -> None:
    rng = np.random.default_rng(4)
    forces, places, span = rng.normal(size=(50, 3)) * 300, rng.random((50, 3)) * 0.04, 0.04 + 0.02 * rng.random(50)
    whole = function(forces, places, span)
    assert whole.shape == (50,)
    alone = [float(function(forces[i], places[i], span[i])) for i in range(50)]
    assert whole.tolist() == alone


def test_multiplier_of_a_stack() -> None:
    rng = np.random.default_rng(5)
    a, b = rng.random(40), rng.random(40) * 0.9

    def used(x: np.ndarray) -> np.ndarray:
        return np.square(a * x) + b

    whole = st.load_multiplier(used, (40,))
    assert whole == pytest.approx(np.sqrt(1 - b) / a, rel=1e-14)
    for i in range(40):
        alone = st.load_multiplier(lambda x, i=i: np.square(a[i] * x) + b[i])
        assert float(alone) == float(whole[i])


def test_moment_of_a_pin_in_a_stack() -> None:
    got = st.pin_bending_moment([100.0, 200.0], 0.003, both_ends=False)
    assert got.tolist() == [100.0 * 0.003, 200.0 * 0.003]
