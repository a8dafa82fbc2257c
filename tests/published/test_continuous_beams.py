"""Continuous beams, propped and fixed beams, cantilevers: tabulated and closed-form results.

References
----------
Table 2.1: Hicks, T. G.: Civil Engineering Formulas, McGraw-Hill, table 2.1 (uniformly loaded continuous beams over
equal spans; reactions as parts of w L, moments as parts of w L^2). Seen as a secondary copy.
Timoshenko cantilever: E I = 5e6, kappa G A = 3.8e5, L = 20, P = 100; exact solution P L^3/(3 E I) + P L/(kappa G A).
All others are exact solutions of the equation of three moments or of E I w'' = M; each says so.

In the tables w is the load, R the support's force against it, M is positive where the beam hogs. Here a load along +z
gives a reaction along -z, and hogging is positive M_x.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.statics import Supports, beam_stiffness, deflections, grid, solve, unloaded

EXACT = {"rel": 1e-11, "abs": 1e-12}


def posed(breaks, hinges, z=0.0, forces=None, EI=1.0, cells=1, coupled=False, stiffness=None, **supports):
    """Solve one lateral case; `z` and `EI` may be functions of y."""
    stations = grid(breaks, cells)
    loads = unloaded(stations, z=z(stations.y) if callable(z) else z)
    for b, force in (forces or {}).items():
        loads = loads.plus(b, [0.0, 0.0, force], [0.0, 0.0, 0.0])
    bending = EI(stations.y) if callable(EI) else EI
    made = beam_stiffness(bending, bending, **(stiffness or {}))
    return solve(stations, loads, made, Supports(hinges, **supports), coupled)


def carried(beam):
    return -beam.reactions[0, :, 2]


def hogging(beam, *breaks):
    return np.array([beam.M_x[0, beam.stations.before(b)] for b in breaks])


def equal_spans(count, **more):
    return posed(list(range(count + 1)), tuple(range(count + 1)), **more)


@pytest.mark.parametrize(
    ("reactions", "support", "span"),
    [
        pytest.param([1 / 2, 1 / 2], [], [1 / 8], id="2 supports"),
        pytest.param([3 / 8, 10 / 8, 3 / 8], [1 / 8], [0.0703], id="3 supports"),
        pytest.param([0.4, 1.1, 1.1, 0.4], [0.1, 0.1], [0.080, 0.025], id="4 supports"),
        pytest.param([11 / 28, 32 / 28, 26 / 28, 32 / 28, 11 / 28], [3 / 28, 2 / 28, 3 / 28], [0.0772, 0.0364], id="5"),
        pytest.param(
            [15 / 38, 43 / 38, 37 / 38, 37 / 38, 43 / 38, 15 / 38],
            [4 / 38, 3 / 38, 3 / 38, 4 / 38],
            [0.0779, 0.0332, 0.0461],
            id="6 supports",
        ),
    ],
)
def test_table_2_1(reactions, support, span):
    spans = len(reactions) - 1
    beam = equal_spans(spans, z=1.0)
    assert carried(beam) == pytest.approx(np.array(reactions), **EXACT)
    assert hogging(beam, *range(1, spans)) == pytest.approx(np.array(support), **EXACT)
    for i, printed in enumerate(span):
        first = beam.stations.after(i)
        sag = -(beam.M_x[0, first] - beam.V_z[0, first] ** 2 / 2)  # where V = 0; w = 1
        assert sag == pytest.approx(printed, abs=0.00005)


def test_only_one_of_two_spans_loaded_exact_solution():
    beam = equal_spans(2, z=lambda y: np.where(np.arange(y.size) < 4, 1.0, 0.0))
    assert carried(beam) == pytest.approx([7 / 16, 5 / 8, -1 / 16], **EXACT)
    assert hogging(beam, 1) == pytest.approx([1 / 16], **EXACT)


@pytest.mark.parametrize(
    ("spans", "reactions", "moments", "digits"),
    [
        pytest.param(1, [1 / 6, 1 / 3], [], 1e-12, id="1 span"),
        pytest.param(2, [1 / 48, 5 / 8, 17 / 48], [1 / 16], 1e-12, id="2 spans"),
        pytest.param(3, [1 / 30, 0.3, 0.8, 11 / 30], [1 / 45, 7 / 90], 1e-12, id="3 spans"),
        pytest.param(
            4, [0.01935, 0.25893, 0.46429, 0.88393, 0.37351], [0.02232, 0.03571, 0.08482], 0.5e-5, id="4 spans"
        ),
    ],
)
def test_triangular_load_over_all_spans_exact_solution(spans, reactions, moments, digits):
    """Load 0 at the first support, w0 at the last; three moments."""
    beam = equal_spans(spans, z=lambda y: y / spans)
    assert carried(beam) == pytest.approx(np.array(reactions), abs=digits)
    assert hogging(beam, *range(1, spans)) == pytest.approx(np.array(moments), abs=digits)


def test_triangular_load_on_one_span_exact_solution():
    """Largest moment w0 L^2/(9 sqrt 3) at y = L/sqrt 3; largest deflection 0.006522 w0 L^4/EI at y = 0.519 L."""
    beam = posed([0.0, 1 / np.sqrt(3), 1.0], (0, 2), z=lambda y: y)
    assert hogging(beam, 1) == pytest.approx([-1 / (9 * np.sqrt(3))], **EXACT)
    place = np.sqrt(1 - np.sqrt(8 / 15))
    beam = posed([0.0, place, 1.0], (0, 2), z=lambda y: y)
    assert deflections(beam).w[0, beam.stations.after(1)] == pytest.approx(0.006522, abs=0.5e-6)


@pytest.mark.parametrize(
    ("load", "reactions", "moments"),
    [
        pytest.param(lambda y: 1 + 0 * y, [0.5375, 0.925, 0.5375], [0.02, 0.07, 0.02], id="even"),
        pytest.param(lambda y: 1 - y / 2, [0.47708, 0.46250, 0.06042], [0.01933, 0.0350, 0.00067], id="tapered chord"),
    ],
)
def test_three_hinges_with_overhangs_exact_solution(load, reactions, moments):
    """Overhangs 0.2, spans 0.8: three moments, to the five digits in which they are known."""
    beam = posed([0.0, 0.2, 1.0, 1.8, 2.0], (1, 2, 3), z=load)
    assert carried(beam) == pytest.approx(reactions, abs=0.5e-5)
    assert hogging(beam, 1, 2, 3) == pytest.approx(moments, abs=0.5e-5)


def test_unequal_spans_exact_solution():
    beam = posed([0.0, 1.0, 2.5], (0, 1, 2), z=1.0)
    assert hogging(beam, 1) == pytest.approx([0.21875], **EXACT)
    assert carried(beam) == pytest.approx([0.28125, 1.61458, 0.60417], abs=0.5e-5)
    beam = posed([0.0, 0.6, 1.6, 2.4], (0, 1, 2, 3), z=1.0)
    assert hogging(beam, 1, 2) == pytest.approx([0.0681, 0.08608], abs=0.5e-4)
    assert carried(beam) == pytest.approx([0.1865, 0.89551, 1.02559, 0.2924], abs=0.5e-4)


@pytest.mark.parametrize(
    ("breaks", "hinges", "forces", "reactions", "moments"),
    [
        pytest.param([0, 0.5, 1, 1.5, 2], (0, 2, 4), {1: 1.0, 3: 1.0}, [5 / 16, 11 / 8, 5 / 16], [3 / 16], id="both"),
        pytest.param([0, 0.5, 1, 2], (0, 2, 3), {1: 1.0}, [13 / 32, 11 / 16, -3 / 32], [3 / 32], id="one of two"),
        pytest.param(
            [0, 0.5, 1, 1.5, 2, 2.5, 3],
            (0, 2, 4, 6),
            {1: 1.0, 3: 1.0, 5: 1.0},
            [0.35, 1.15, 1.15, 0.35],
            [0.15, 0.15],
            id="three spans",
        ),
    ],
)
def test_forces_at_mid_span_exact_solution(breaks, hinges, forces, reactions, moments):
    beam = posed(breaks, hinges, forces=forces)
    assert carried(beam) == pytest.approx(reactions, **EXACT)
    assert hogging(beam, *hinges[1:-1]) == pytest.approx(moments, **EXACT)


@pytest.mark.parametrize(
    ("spans", "settles", "change", "moments"),
    [
        pytest.param(2, 1, [3, -6, 3], [-3], id="2 spans"),
        pytest.param(3, 1, [3.6, -9.6, 8.4, -2.4], [-3.6, 2.4], id="3 spans"),
        pytest.param(
            4,
            2,
            np.array([-18, 66, -96, 66, -18]) / 7,
            np.array([18, -30, 18]) / 7,
            id="4 spans, centre, hogging beside",
        ),
    ],
)
def test_a_support_settles_exact_solution(spans, settles, change, moments):
    """A support moves by d along the load, in units of EI d/L^3 and EI d/L^2: three moments.

    Over two spans M_B = 3 EI d/L^2 sagging.
    """
    moved = np.zeros((1, spans + 1, 2))
    moved[0, settles, 0] = 1.0
    beam = equal_spans(spans, displacement=moved)
    assert carried(beam) == pytest.approx(np.array(change), **EXACT)
    assert hogging(beam, *range(1, spans)) == pytest.approx(np.array(moments), **EXACT)
    assert deflections(beam).hinge_w[0] == pytest.approx(moved[0, :, 0], **EXACT)


@pytest.mark.parametrize("k", [0.1, 1.0, 48.0, 1e6])
def test_elastic_middle_support_exact_solution(k):
    """R_mid = 1.25 w L/[1 + 6 EI/(k L^3)]: 5 w (2L)^4/384 EI = R (2L)^3/48 EI + R/k."""
    soft = np.zeros((6, 6))
    soft[1, 1] = 1 / k
    beam = equal_spans(2, z=1.0, compliance=soft)
    assert carried(beam)[1] == pytest.approx(1.25 / (1 + 6 / k), **EXACT)
    assert deflections(beam).hinge_w[0, 1] == pytest.approx(carried(beam)[1] / k, **EXACT)


@pytest.mark.parametrize(("flexible", "printed"), [(0.0, 1.25), (0.05, 1.2174), (0.1, 1.1923), (0.5, 1.10)])
def test_shear_flexible_two_spans_exact_solution(flexible, printed):
    """R_mid = w L (5/24 + phi/2)/(1/6 + phi/2), phi = EI/(kappa G A L^2)."""
    beam = equal_spans(2, z=1.0, coupled=True, stiffness={"s_zz": flexible})
    assert carried(beam)[1] == pytest.approx((5 / 24 + flexible / 2) / (1 / 6 + flexible / 2), **EXACT)
    assert carried(beam)[1] == pytest.approx(printed, abs=0.5e-4)


def test_bending_stiffness_larger_over_the_middle_support_exact_solution():
    """3 EI over the centre half of the total length: M_B = 0.1625 w L^2 against 0.125."""
    beam = posed([0, 0.5, 1, 1.5, 2], (0, 2, 4), z=1.0, EI=lambda y: np.where((np.arange(16) // 4) % 3 == 0, 1.0, 3.0))
    assert hogging(beam, 2) == pytest.approx([0.1625], **EXACT)


@pytest.mark.parametrize(
    ("load", "fixed", "prop", "moment"),
    [
        pytest.param(lambda y: 1 + 0 * y, 5 / 8, 3 / 8, 1 / 8, id="even"),
        pytest.param(lambda y: 1 - y, 2 / 5, 1 / 10, 1 / 15, id="largest at the fixed end"),
        pytest.param(lambda y: y, 9 / 40, 11 / 40, 7 / 120, id="largest at the prop"),
    ],
)
def test_propped_cantilever_exact_solution(load, fixed, prop, moment):
    """The end that holds slope is at the root; its couple opposes the hogging moment just outboard of it."""
    beam = posed([0.0, 1.0], (0, 1), z=load, slopes_held=(0,))
    assert carried(beam) == pytest.approx([fixed, prop], **EXACT)
    assert beam.M_x[0, 0] == pytest.approx(moment, **EXACT)
    assert beam.couples[0, 0] == pytest.approx([-moment, 0.0], **EXACT)
    assert deflections(beam).hinge_slope_w[0, 0] == pytest.approx(0.0, abs=1e-14)


def test_propped_cantilever_in_the_chordwise_plane_exact_solution():
    """The same 5/8, 3/8 and 1/8; M_z is minus the sum of (y' - y) F_x, so that the signs of M_z are turned."""
    stations = grid([0.0, 1.0], cells=1)
    supports = Supports((0, 1), slopes_held=(0,))
    beam = solve(stations, unloaded(stations, x=1.0), beam_stiffness(1.0, 2.0), supports, coupled=False)
    assert beam.reactions[0, :, 0] == pytest.approx([-5 / 8, -3 / 8], **EXACT)
    assert beam.M_z[0, 0] == pytest.approx(-1 / 8, **EXACT)
    assert beam.couples[0, 0] == pytest.approx([0.0, 1 / 8], **EXACT)


def test_propped_cantilever_held_at_the_tip_exact_solution():
    beam = posed([0.0, 1.0], (0, 1), z=1.0, slopes_held=(1,))
    assert carried(beam) == pytest.approx([3 / 8, 5 / 8], **EXACT)
    assert beam.couples[0, 0] == pytest.approx([1 / 8, 0.0], **EXACT)
    assert beam.M_x[0, -1] == pytest.approx(1 / 8, **EXACT)


def test_fixed_at_both_ends_exact_solution():
    """Triangular load: R 3/20, 7/20, M w0 L^2/30, w0 L^2/20. A force at 0.3 L: P a b^2/L^2, P a^2 b/L^2."""
    beam = posed([0.0, 1.0], (0, 1), z=lambda y: y, slopes_held=(0, 1))
    assert carried(beam) == pytest.approx([3 / 20, 7 / 20], **EXACT)
    assert beam.M_x[0, [0, -1]] == pytest.approx([1 / 30, 1 / 20], **EXACT)
    beam = posed([0.0, 0.3, 1.0], (0, 2), forces={1: 1.0}, slopes_held=(0, 2))
    assert beam.M_x[0, [0, -1]] == pytest.approx([0.147, 0.063], **EXACT)


def test_slope_held_between_two_spans_makes_each_a_propped_cantilever_exact_solution():
    """The held slope cuts the beam: 3/8 and 5/8 on either side, spans 1 and 2, even load."""
    beam = posed([0.0, 1.0, 3.0], (0, 1, 2), z=1.0, slopes_held=(1,))
    assert carried(beam) == pytest.approx([3 / 8, 5 / 8 * 3, 3 / 8 * 2], **EXACT)
    at = beam.stations
    assert beam.M_x[0, [at.before(1), at.after(1)]] == pytest.approx([1 / 8, 4 / 8], **EXACT)
    assert beam.couples[0, 0, 0] == pytest.approx(1 / 8 - 4 / 8, **EXACT)


@pytest.mark.parametrize(
    ("EI", "load", "tip_force", "deflection"),
    [
        pytest.param(lambda y: 1 + 0 * y, lambda y: 0 * y, 1.0, 1 / 3, id="even EI, tip force"),
        pytest.param(lambda y: 1 + 0 * y, lambda y: 1 + 0 * y, 0.0, 1 / 8, id="even EI, even load"),
        pytest.param(lambda y: 1 + 0 * y, lambda y: 1 - y, 0.0, 1 / 30, id="even EI, load largest at the root"),
        pytest.param(lambda y: 1 + 0 * y, lambda y: y, 0.0, 11 / 120, id="even EI, load largest at the tip"),
        pytest.param(lambda y: 2 - y, lambda y: 0 * y, 1.0, np.log(2) - 0.5, id="I linear 2 to 1"),
        pytest.param(lambda y: (2 - y) ** 2, lambda y: 0 * y, 1.0, 1.5 - 2 * np.log(2), id="I as h2, tip force"),
        pytest.param(lambda y: (2 - y) ** 2, lambda y: 1 + 0 * y, 0.0, 3 * np.log(2) / 2 - 1, id="I as h2, even load"),
        pytest.param(lambda y: (2 - y) ** 3, lambda y: 0 * y, 1.0, np.log(2) - 0.625, id="I as h3, 8 to 1"),
    ],
)
def test_cantilever_exact_solution(EI, load, tip_force, deflection):
    """Tip deflection by integrating M m/EI; in units of P L^3/EI_tip or w L^4/EI_tip.

    The numbers .19315, .113706, .039721 and .068147 are these closed forms.
    """
    beam = posed([0.0, 1.0], (0,), z=load, forces={1: tip_force}, EI=EI, cells=16, slopes_held=(0,))
    assert deflections(beam).w[0, -1] == pytest.approx(deflection, rel=1e-9)


def test_closed_forms_of_the_tapered_cantilevers_have_their_printed_digits():
    assert np.log(2) - 0.5 == pytest.approx(0.19315, abs=0.5e-5)
    assert 1.5 - 2 * np.log(2) == pytest.approx(0.113706, abs=0.5e-6)
    assert 3 * np.log(2) / 2 - 1 == pytest.approx(0.039721, abs=0.5e-6)
    assert np.log(2) - 0.625 == pytest.approx(0.068147, abs=0.5e-6)


def test_stepped_cantilever_exact_solution():
    """2 EI over the root half: 0.1875 P L^3/EI."""
    beam = posed([0.0, 0.5, 1.0], (0,), forces={2: 1.0}, EI=lambda y: np.repeat([2.0, 1.0], 4), slopes_held=(0,))
    assert deflections(beam).w[0, -1] == pytest.approx(0.1875, **EXACT)


def test_shear_flexible_cantilever():
    """0.0533333 + 0.0052632 = 0.0585965."""
    beam = posed(
        [0.0, 20.0],
        (0,),
        forces={1: 100.0},
        EI=5e6,
        coupled=True,
        stiffness={"s_zz": 1 / 3.8e5},
        slopes_held=(0,),
    )
    assert deflections(beam).w[0, -1] == pytest.approx(0.0585965, abs=0.5e-7)


TAPERED = {
    4: (
        [0.08, 0.56, 1.04, 1.52],
        [793.7333, 1274.8000, 909.2000, 382.2667],
        [-254.8444, -606.1333, -849.8667, -529.1556],
    ),
    5: (
        [0.08, 0.44, 0.80, 1.16, 1.52],
        [670.3417, 1002.6500, 718.0000, 661.3500, 307.6583],
        [-205.1056, -440.9000, -478.6667, -668.4333, -446.8944],
    ),
}


@pytest.mark.parametrize("hinges", TAPERED)
@pytest.mark.parametrize("coupled", [False, True])
def test_tapered_load_on_four_and_five_hinges_exact_solution(hinges, coupled):
    """1.6 m, overhangs 0.08 m, EI 8514 N m2; 3000 to 1200 N/m one way, 800 to 2000 N/m the other.

    The exact reactions, by Macaulay's brackets and by direct stiffness, to the four decimals in which they are known.
    """
    places, first, second = TAPERED[hinges]
    stations = grid([0.0, *places, 1.6], cells=1)
    y = stations.y / 1.6
    loads = unloaded(stations, cases=2, z=np.stack([-3000 + 1800 * y, 800 + 1200 * y]))
    supports = Supports(tuple(range(1, hinges + 1)))
    beam = solve(stations, loads, beam_stiffness(8514.0, 8514.0), supports, coupled)
    assert beam.reactions[0, :, 2] == pytest.approx(first, abs=0.5e-4)
    assert beam.reactions[1, :, 2] == pytest.approx(second, abs=0.5e-4)
    assert beam.reactions[..., :2] == pytest.approx(0.0, abs=1e-12)
