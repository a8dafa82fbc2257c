"""A small rudder worked by hand, sent through the whole chain from its surface file.

Two hinges, one triangular load case, a channel spar, two skins and a lap (all invented). Every figure was derived
twice by hand (statics by two routes; flows also by moments about the trailing edge); the hand figures are given to
five digits and must agree to one in the last.
"""

from pathlib import Path

import numpy as np
import pytest

import surfacecheck

FILE = Path(__file__).with_name("rudder_by_hand.toml")
DIGITS = 1.1e-4


@pytest.fixture(scope="module")
def assessment():
    return surfacecheck.assess(surfacecheck.read(FILE))


@pytest.fixture(scope="module")
def case(assessment):
    """Air load towards +z, spread evenly."""
    return assessment.case_titles.index("side load to the left, straight to zero")


def at(assessment, values, y):
    """Values at a station inside a bay, by the cubic through its four points."""
    points = assessment.span.y
    low = int(np.searchsorted(points, y)) // 4 * 4
    here = slice(low, low + 4)
    return np.polynomial.polynomial.polyval(y - y, np.polynomial.polynomial.polyfit(points[here] - y, values[here], 3))


DIAGRAMS = {
    0.05: (-22.500, 0.56250, 540.00, 27.000, -45.900),
    0.20: (78.750, -7.8750, -90.000, 45.000, -37.800),
    0.40: (-11.250, -14.625, -90.000, 27.000, -27.000),
    0.60: (-101.25, -3.3750, -90.000, 9.0000, -16.200),
    0.80: (45.000, 2.2500, 0.0, 0.0, -5.4000),
}


@pytest.mark.parametrize("y", DIAGRAMS)
def test_diagrams(assessment, case, y):
    beam = assessment.beam
    got = [at(assessment, getattr(beam, name)[case], y) for name in ("V_z", "M_x", "V_x", "M_z", "T_0")]
    assert got == pytest.approx(DIAGRAMS[y], rel=DIGITS, abs=1e-9)


def test_pins_and_cable(assessment, case):
    a, b = assessment.beam.reactions[case]
    assert a == pytest.approx([630.00, 0.0, -168.75], rel=DIGITS, abs=1e-9)
    assert b == pytest.approx([-90.000, 0.0, -236.25], rel=DIGITS, abs=1e-9)
    assert assessment.effects.horn_force[case, :, 0].sum() == pytest.approx(-540.00, rel=DIGITS)


def test_air_load_reversed_leaves_the_chordwise_loads(assessment):
    other = assessment.case_titles.index("side load to the right, straight to zero")
    a, b = assessment.beam.reactions[other]
    assert a == pytest.approx([630.00, 0.0, 168.75], rel=DIGITS, abs=1e-9)
    assert b == pytest.approx([-90.000, 0.0, 236.25], rel=DIGITS, abs=1e-9)


def test_section(assessment):
    one = assessment.effects.box.closed
    assert one.area[0] == pytest.approx(72.000e-6, rel=DIGITS)
    assert one.x_c[0] - 0.020 == pytest.approx(62.844e-3, rel=DIGITS)
    assert one.I_xx[0] == pytest.approx(14507e-12, rel=DIGITS)
    assert one.I_zz[0] == pytest.approx(1.0138e-6, rel=DIGITS)
    assert one.x_s[0] - 0.020 == pytest.approx(8.6085e-3, rel=DIGITS)


FLOWS = {
    0.05: (-2942.4, -4761.4),
    0.20: (-3207.4, -2904.2),
    0.40: (-2415.0, -2111.9),
    0.60: (-1622.7, -1319.5),
    0.80: (-396.18, -396.18),
}


@pytest.mark.parametrize("y", FLOWS)
def test_skin_flows(assessment, case, y):
    got = [at(assessment, assessment.effects.mean(f"skin_{s}")[case], y) for s in ("plus", "minus")]
    assert got == pytest.approx(FLOWS[y], rel=DIGITS)


def test_direct_stress(assessment, case):
    nodes = {
        n: at(assessment, surfacecheck.checks.node_stress(assessment.effects, n)[case], 0.375)
        for n in ("corner_plus", "corner_minus", "tip_plus", "edge")
    }
    assert [v / 1e6 for v in nodes.values()] == pytest.approx([18.544, -22.170, 19.006, 6.8422], rel=DIGITS)


def test_rivet_loads_of_the_rows(assessment, case):
    rows = {r.row.name: r for r in assessment.rows}
    upper, lower = rows["left_skin_to_spar"], rows["right_skin_to_spar"]
    edge = rows["trailing_edge"]
    for row, y, force in (
        (upper, 0.05, 73.561),
        (lower, 0.05, 119.03),
        (edge, 0.05, 96.298),
        (upper, 0.60 - 1e-9, 40.567),
        (lower, 0.60 - 1e-9, 32.988),
        (edge, 0.60 - 1e-9, 36.778),
    ):
        assert at(assessment, row.shear[case], y) == pytest.approx(force, rel=DIGITS)
    assert at(assessment, upper.tension[case], 0.05) == pytest.approx(7.5000, rel=DIGITS)
    assert at(assessment, edge.tension[case], 0.05) == pytest.approx(3.7500, rel=DIGITS)


def test_rib_row(assessment):
    """A middle rib collects 135 N; the skins take 1188.5 N/m of it, 35.656 N a rivet at 30 mm."""
    row = next(r for r in assessment.rows if r.row.name == "left_skin_to_ribs")
    case = row.effects.cases.index("side load to the left, straight to zero, through the ribs")
    assert row.effects.rib_load[case, 1] == pytest.approx(135.00, rel=DIGITS)
    assert row.flow[case, 1] == pytest.approx(1188.5, rel=DIGITS)
    assert row.shear[case, 1] == pytest.approx(35.656, rel=DIGITS)


BRACKET = {  # eta, zeta in mm to f_x, f_y, f_z in N
    (-10, -12): (238.31, 10.332, -36.735),
    (10, -12): (112.31, 10.332, -19.515),
    (-10, 0): (168.00, 0.0, -36.735),
    (10, 0): (42.000, 0.0, -19.515),
    (-10, 12): (97.688, -10.332, -36.735),
    (10, 12): (-28.313, -10.332, -19.515),
}


def test_bracket_rivets(assessment, case):
    load = assessment.brackets[0]
    for i, (a, b) in enumerate(zip(load.a, load.b, strict=True)):
        assert load.share[case, i] == pytest.approx(BRACKET[round(a * 1e3), round(b * 1e3)], rel=DIGITS, abs=1e-9)


def test_margins_of_pins(assessment, case):
    pin = {f.check.mode: f for f in assessment.findings if f.place == "hinge.a.pin"}
    per_case = {mode: f.check.margins()[case, 0] for mode, f in pin.items() if f.margin is not None}
    assert per_case["bearing"] == pytest.approx(0.72405, abs=1e-5)
    assert per_case["shear"] == pytest.approx(7.7262, abs=1e-4)
    control = assessment.case_titles.index("control system, 1.25 x: side load to the left, straight to zero")
    assert pin["bearing"].check.margins()[control, 0] == pytest.approx(0.37924, abs=1e-5)


def test_margins_of_the_bracket(assessment, case):
    found = {
        f.check.mode: f.check.margins()[case]
        for f in assessment.findings
        if f.check.place == "hinge.a.bracket" and f.margin is not None
    }
    rivet = {
        (round(a * 1e3), round(b * 1e3)): i
        for i, (a, b) in enumerate(zip(assessment.brackets[0].a, assessment.brackets[0].b, strict=True))
    }
    assert found["rivet-shear"][rivet[-10, -12]] == pytest.approx(17.989, abs=1e-3)
    assert found["rivet-both"][rivet[10, 12]] == pytest.approx(21.424, abs=1e-3)
    # no edge of the web is given, so the full bearing strength counts, as by hand
    assert found["spar-crush"][rivet[-10, -12]] == pytest.approx(28.897, abs=1e-3)
    assert found["spar-crush-yield"][rivet[-10, -12]] == pytest.approx(27.402, abs=1e-3)


def test_strip_of_web_without_a_rib(assessment, case):
    strips = {f.check.mode: f for f in assessment.findings if f.place == "hinge.a.bracket.web"}
    for mode, stress in (("strip-supported", 885.94), ("strip-clamped", 687.66)):
        check = strips[mode].check
        moment = check.terms["M"].values[case, 0]
        assert 6 * moment / (0.040 * 0.0008**2) / 1e6 == pytest.approx(stress, rel=DIGITS)
        assert strips[mode].outcome == "outside the method: ask"
