"""An invented beam on three hinges, tapered chord, the middle hinge off line: every number, worked by hand.

Span 1.200 m, w = 480 - 150 y N/m along +z, hinges at 0.100, 0.650, 1.100 m, EI = 1000 N m2, no shear flexibility,
rigid supports; the middle hinge displaced by d = 0 or +1.0000 mm along the load. SI units, five significant digits; a
program must agree to 1 in the last digit. All numbers were redone by three moments before; none had to be changed.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.statics import Supports, beam_stiffness, deflections, grid, solve, unloaded

BREAKS = [0.0, 0.1, 0.3, 0.5, 0.65, 0.8, 1.0, 1.1, 1.2]
MIDDLE = 4
HINGES = (1, MIDDLE, 7)


def beam_with(d=0.0, factor=1.0, soft=0.0, hinges=HINGES, coupled=False, push=0.0):
    """One case; `soft` is the give of the middle bracket [m/N], `push` a force at the middle."""
    stations = grid(BREAKS, cells=1)
    loads = unloaded(stations, z=factor * (480.0 - 150.0 * stations.y)).plus(MIDDLE, [0, 0, push], np.zeros(3))
    n = len(hinges)
    moved, give = np.zeros((1, n, 2)), np.zeros((2 * n, 2 * n))
    moved[0, n // 2, 0], give[n // 2, n // 2] = d, soft
    supports = Supports(hinges, compliance=give, displacement=moved)
    return solve(stations, loads, beam_stiffness(1000.0, 1000.0), supports, coupled)


def middle_moment(beam):
    return beam.M_x[0, beam.stations.after(MIDDLE)]


def test_load():
    stations = grid([0.0, 1.2], cells=1)
    w = 480.0 - 150.0 * stations.y
    total = (w * stations.weight).sum()
    assert total == pytest.approx(468.00, abs=0.01)
    assert (w * stations.y * stations.weight).sum() / total == pytest.approx(0.55385, abs=0.00001)


def test_hinge_moment_uses_the_integral_of_the_chord_squared():
    """51.600 N m, 400 x 0.12900; the load times a third of the mean chord is 50.700, 1.7 % low."""
    stations = grid([0.0, 1.2], cells=1)
    chord = 0.400 - 0.125 * stations.y
    assert (chord**2 * stations.weight).sum() == pytest.approx(0.12900, abs=0.00001)
    beam_torque = (1200.0 / 3 * chord**2 * stations.weight).sum()
    assert beam_torque == pytest.approx(51.600, abs=0.001)
    wrong = 468.0 * 0.325 / 3
    assert wrong == pytest.approx(50.700, abs=0.001)
    assert 100 * (1 - wrong / beam_torque) == pytest.approx(1.7, abs=0.1)


def test_three_moments_by_hand():
    """L1 M_A + 2 (L1 + L2) M_B + L2 M_C = 6 (S1 + S2) - 6 EI d (1/L1 + 1/L2), worked with the printed w at hinges."""
    L1, L2, w_A, w_B, w_C = 0.55, 0.45, 465.00, 382.50, 315.00
    M_A, M_C = 0.1**2 * (2 * 480 + w_A) / 6, 0.1**2 * (2 * 300 + w_C) / 6
    S1, S2 = L1**3 * (7 * w_A + 8 * w_B) / 360, L2**3 * (8 * w_B + 7 * w_C) / 360
    assert pytest.approx([2.3750, 1.5250, 2.9185, 1.3327], abs=0.0001) == [M_A, M_C, S1, S2]
    for d in (0.0, 1e-3):
        M_B = (6 * (S1 + S2) - 6 * 1000 * d * (1 / L1 + 1 / L2) - L1 * M_A - L2 * M_C) / (2 * (L1 + L2))
        beam = beam_with(d)
        assert middle_moment(beam) == pytest.approx(M_B, rel=1e-10)
        ends = [beam.M_x[0, beam.stations.after(b)] for b in (1, 7)]
        assert ends == pytest.approx([M_A, M_C], rel=1e-10)
        R_A = (M_B - 0.65**2 * (2 * 480 + w_B) / 6) / L1
        R_C = (M_B - 0.55**2 * (2 * 300 + w_B) / 6) / L2
        assert beam.reactions[0, :, 2] == pytest.approx([R_A, -468.0 - R_A - R_C, R_C], rel=1e-10)


@pytest.mark.parametrize("coupled", [False, True])
@pytest.mark.parametrize(
    ("d", "M_B", "reactions"),
    [(0.0, 11.757, [-150.50, -233.55, -83.949]), (1e-3, -0.36387, [-172.54, -184.57, -110.88])],
)
def test_moment_and_reactions(d, M_B, reactions, coupled):
    beam = beam_with(d, coupled=coupled)
    assert middle_moment(beam) == pytest.approx(M_B, abs=0.001 if d == 0.0 else 0.00001)
    for found, hand in zip(beam.reactions[0, :, 2], reactions, strict=True):
        assert found == pytest.approx(hand, abs=0.01 if abs(hand) > 100 else 0.001)


def test_difference_of_the_two():
    straight, off = beam_with(0.0), beam_with(1e-3)
    assert middle_moment(off) - middle_moment(straight) == pytest.approx(-12.121, abs=0.001)
    change = off.reactions[0, :, 2] - straight.reactions[0, :, 2]
    assert change == pytest.approx([-22.039, 48.975, -26.936], abs=0.001)


def test_force_method_numbers():
    """Middle hinge removed: -255.60, -212.40 N, 4.7687 mm; a^2 b^2/(3 EI l) = 2.0419e-5 m/N."""
    without = beam_with(hinges=(1, 7))
    assert without.reactions[0, :, 2] == pytest.approx([-255.60, -212.40], abs=0.01)
    sag = deflections(without).w[0, without.stations.after(MIDDLE)]
    assert sag == pytest.approx(4.7687e-3, abs=1e-7)
    pushed = beam_with(factor=0.0, hinges=(1, 7), push=1.0)
    give = deflections(pushed).w[0, pushed.stations.after(MIDDLE)]
    assert give == pytest.approx(2.0419e-5, abs=1e-9)
    assert give == pytest.approx(0.55**2 * 0.45**2 / (3 * 1000 * 1.0), rel=1e-10)
    assert [(d - sag) / give for d in (0.0, 1e-3)] == pytest.approx([-233.55, -184.57], abs=0.01)


def test_deflection_formula_of_the_force_method():
    """EI v = 480 y^4/24 - 150 y^5/120 + R_A <y - y_A>^3/6 less its chord line."""

    def v(y):
        return (480 * y**4 / 24 - 150 * y**5 / 120 - 255.60 * max(y - 0.1, 0.0) ** 3 / 6) / 1000

    chord = v(0.1) + (v(1.1) - v(0.1)) * 0.55
    assert v(0.65) - chord == pytest.approx(4.7687e-3, abs=1e-7)


DIAGRAMS = {
    0.0: {0.3: (13.254, -9.1757), 0.5: (-70.746, -3.3265), 0.8: (48.051, 0.41531), 1.0: (-20.949, -2.1949)},
    1e-3: {0.3: (35.292, -13.583), 0.5: (-48.708, -12.142), 0.8: (21.115, -7.6655), 1.0: (-47.885, -4.8885)},
}


@pytest.mark.parametrize("y", [0.3, 0.5, 0.8, 1.0])
@pytest.mark.parametrize("d", DIAGRAMS)
def test_diagrams(d, y):
    beam = beam_with(d)
    i = beam.stations.after(BREAKS.index(y))
    for found, hand in zip((beam.V_z[0, i], beam.M_x[0, i]), DIAGRAMS[d][y], strict=True):
        assert found == pytest.approx(hand, abs=10.0 ** (np.floor(np.log10(abs(hand))) - 4))


@pytest.mark.parametrize(
    ("d", "reactions", "pin"),
    [(0.0, [-185.05, -156.77, -126.18], 1.5677e-3), (1e-3, [-199.85, -123.90, -144.26], 2.2390e-3)],
)
def test_soft_middle_bracket(d, reactions, pin):
    """100 N/mm: R_B = (d - 4.7687e-3)/(2.0419e-5 + 1e-5)."""
    beam = beam_with(d, soft=1e-5)
    assert beam.reactions[0, :, 2] == pytest.approx(reactions, abs=0.01)
    assert deflections(beam).hinge_w[0, 1] == pytest.approx(pin, abs=1e-7)


def test_a_displacement_does_not_scale_with_the_load():
    """1.5 (-233.55) + 48.975 = -301.35 N, not 1.5 (-184.57) = -276.86 N."""
    R_B = beam_with(1e-3, factor=1.5).reactions[0, 1, 2]
    assert pytest.approx(-301.35, abs=0.01) == R_B
    assert 1.5 * beam_with(1e-3).reactions[0, 1, 2] == pytest.approx(-276.86, abs=0.01)
