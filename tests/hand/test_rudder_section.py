"""A small rudder worked by hand: section, shear flows, direct stress.

All data invented. Channel spar (web 40 mm at x = 20 mm, flanges 16 mm aft, 0.8 mm), two flat skins of 0.6 mm to the
trailing edge at x = 320 mm, their lap there a boom of 14.4 mm^2. Web and flanges carry direct stress and shear, the
skins shear only. Units of the hand work: mm, N, N/m, MPa. A value agrees where it rounds to what is printed.

The hand work takes the cell by Bredt's formula alone: ``open_torsion=0``.
"""

import numpy as np
import pytest

from surfacecheck.sections import (
    Topology,
    direct_stress,
    flow,
    flow_at,
    flow_ends,
    resultant,
    section,
    twist_rate,
    wall_force,
)

E, G = 68e9, 26e9
BOX = Topology(5, ((0, 1), (1, 2), (2, 3), (2, 4), (4, 1)))
"""Lower flange from its tip, web upwards, upper flange to its tip, upper skin aft, lower skin forward."""
LOWER_FLANGE, WEB, UPPER_FLANGE, UPPER_SKIN, LOWER_SKIN = range(5)
X, Z = np.array([36.0, 20.0, 20.0, 36.0, 320.0]) / 1e3, np.array([-20.0, -20.0, 20.0, 20.0, 0.0]) / 1e3
T_SHEAR, T_DIRECT = np.array([0.8, 0.8, 0.8, 0.6, 0.6]) / 1e3, np.array([0.8, 0.8, 0.8, 0.0, 0.0]) / 1e3

STATIONS = [0.05, 0.20, 0.40, 0.60, 0.80]
V_Z = np.array([-22.5, 78.75, -11.25, -101.25, 45.0])
V_X = np.array([540.0, -90.0, -90.0, -90.0, 0.0])
T_0 = np.array([-45.9, -37.8, -27.0, -16.2, -5.4])
"""Shear forces [N] and torque about the hinge line [N m] at the stations, worked by hand from the loads."""


def printed(text):
    """Numbers as printed, and one unit of the last digit of each."""
    words = text.split()
    digits = [len(word.partition(".")[2]) for word in words]
    return np.array([float(word) for word in words]), np.array([10.0**-d for d in digits])


def agrees(computed, text):
    """Rounds to what is printed; the thousandth over half a unit is for ties."""
    value, unit = printed(text)
    difference = np.abs(np.asarray(computed) - value)
    assert (difference <= 0.501 * unit).all(), f"{np.asarray(computed)} against {text}"


@pytest.fixture(scope="module")
def rudder():
    return section(BOX, X, Z, T_SHEAR, t_direct=T_DIRECT, boom=[0, 0, 0, 0, 14.4e-6], open_torsion=0.0)


@pytest.fixture(scope="module")
def flows(rudder):
    return flow(rudder, V_X, V_Z, T_0, about=(0.0, 0.0))


def test_area_centroid_second_moments(rudder):
    agrees([1e6 * rudder.area, 1e3 * (rudder.x_c - 0.020)], "72.000 62.844")
    agrees(1e12 * rudder.I_xx, "14507")
    agrees(1e6 * rudder.I_zz, "1.0138")
    assert rudder.I_xz == 0.0


def test_channel_alone():
    """Shear centre ahead of the web, second moments and the stress the flange tips would take without the lap."""
    channel = section(Topology(4, ((0, 1), (1, 2), (2, 3))), X[:4], Z[:4], 0.8e-3)
    agrees(1e3 * (channel.x_s - 0.020), "-5.6471")
    agrees(1e12 * channel.I_zz, "1456.4")
    tip = direct_stress(channel, [0.036], [0.02], 0.0, 54.0)
    agrees(1e-6 * tip, "461.43")


def test_cell_and_torsion_constants(rudder):
    agrees(1e6 * np.abs(rudder.cell_area), "6000.0")
    agrees(1e3 * rudder.length[UPPER_SKIN], "300.67")
    agrees((rudder.length / rudder.t)[[WEB, UPPER_SKIN, LOWER_SKIN]].sum(), "1052.2")
    agrees(1e7 * rudder.J, "1.3685")
    opened = section(Topology(5, BOX.walls[:4]), X, Z, T_SHEAR[:4], t_direct=T_DIRECT[:4], boom=[0, 0, 0, 0, 14.4e-6])
    # the seam opened: the lower skin still twists with its own l t^3 / 3
    own = np.hypot(0.300, 0.020) * 0.6e-3**3 / 3.0
    agrees(1e12 * (opened.J + own), "55.584")
    agrees(rudder.J / (opened.J + own), "2462.")
    agrees(1e3 * (rudder.x_s - 0.020), "8.6085")
    assert 1e3 * (rudder.x_s - 0.020) == pytest.approx(2.0 * 6000.0 / (0.8 * 1052.22) - 5.64706, rel=1e-5)


def test_seam_open_at_the_trailing_edge_keeps_the_torsion_of_both_skins():
    """The same 55.584 mm^4 from the topology with the seam open: the lower skin ends beside the lap."""
    opened = section(
        Topology(6, (*BOX.walls[:4], (5, 1))),
        np.append(X, X[4]),
        np.append(Z, Z[4]),
        T_SHEAR,
        t_direct=T_DIRECT,
        boom=[0, 0, 0, 0, 14.4e-6, 0],
    )
    agrees(1e12 * opened.J, "55.584")
    assert opened.J_cells == 0.0


TABLE = """
-46.223 -3851.9 -397.06  909.49 -2942.4 -4761.4 -4784.5 -4497.1 -3713.4 -770.97 -23.144 -0.013081
-36.670 -3055.8  1389.7 -151.58 -3207.4 -2904.2 -1576.8 -797.54 -1755.4  1452.0  1327.4 -0.0099902
-27.161 -2263.5 -198.53 -151.58 -2415.0 -2111.9 -2372.7 -2586.1 -2551.2 -136.21 -260.85 -0.0076786
-17.653 -1471.1 -1786.8 -151.58 -1622.7 -1319.5 -3168.6 -4374.6 -3347.1 -1724.4 -1849.1 -0.0053669
-4.7541 -396.18  794.12  0.0    -396.18 -396.18  397.94  894.26  397.94  794.12  794.12 -0.0011558
""".strip().splitlines()


@pytest.mark.parametrize("row", range(5), ids=[f"y={y:.2f}" for y in STATIONS])
def test_shear_flow_table(rudder, flows, row):
    """Every column: T_e, q0, q_c, q_v, skins, web at bottom, middle and top, flanges at the corners, twist."""
    channel = section(Topology(4, ((0, 1), (1, 2), (2, 3))), X[:4], Z[:4], 0.8e-3)
    t_e = T_0[row] + channel.x_s * V_Z[row]
    start, end = (part[row] for part in flow_ends(flows))
    middle = flow_at(flows, 0.5)[row]
    skins, web = middle[[UPPER_SKIN, LOWER_SKIN]], (start[WEB], middle[WEB], end[WEB])
    q0, q_v = 0.5 * (skins[0] + skins[1]), 0.5 * (skins[0] - skins[1])
    corner = 0.5 * (start[UPPER_FLANGE] + end[LOWER_FLANGE])
    twist = twist_rate(rudder, V_X, V_Z, T_0, G=G, about=(0.0, 0.0))[row]
    agrees(
        [t_e, q0, corner, q_v, *skins, *web, start[UPPER_FLANGE], end[LOWER_FLANGE], twist],
        TABLE[row],
    )


def test_the_parts_of_the_table(rudder):
    """Per unit load: q_c = 17.647 V_z, web middle q0 + q_c + 11.029 V_z, q_v 1.6842, q_t 0.99180, q_f -0.69244 V_x."""
    lateral, chordwise = (flow(rudder, v_x, v_z, 0.0) for v_x, v_z in ((0.0, 1.0), (1.0, 0.0)))
    start, end = flow_ends(lateral)
    closing = lateral.mean[UPPER_SKIN]
    agrees(start[UPPER_FLANGE], "17.647")
    agrees(flow_at(lateral, 0.5)[WEB] - closing - start[UPPER_FLANGE], "11.029")
    assert end[WEB] - closing == pytest.approx(start[UPPER_FLANGE])
    start, end = flow_ends(chordwise)
    agrees([chordwise.mean[UPPER_SKIN], end[WEB], start[UPPER_FLANGE]], "1.6842 0.99180 -0.69244")


def test_flows_balance_the_loads(rudder, flows):
    total = resultant(rudder, flows)
    for sum_, load in zip(total, (V_X, V_Z, T_0), strict=True):
        assert sum_ == pytest.approx(load, rel=1e-12, abs=1e-9)


def test_second_route_moments_about_the_trailing_edge(rudder, flows):
    """Route (a): both skin forces pass through the trailing edge, so web and flanges alone carry T_TE there."""
    corner = 17.647058823529413 * V_Z
    about_edge = T_0 + 0.320 * V_Z
    web = (about_edge - 0.040 * 0.016 * corner / 2.0) / 0.300
    agrees(web[[0, 3]], "-176.58 -160.09")
    assert wall_force(rudder, flows).F_z[:, WEB] == pytest.approx(web, rel=1e-12)


def test_second_route_twist(rudder):
    """Route (b): twist = (T_e + 0.014256 V_z) / (G J), G J = 3558.2 N m^2."""
    stiffness = 3558.192
    agrees(G * rudder.J, "3558.2")
    t_e = T_0 + (0.020 - 0.0056471) * V_Z
    twist = twist_rate(rudder, V_X, V_Z, T_0, G=G, about=(0.0, 0.0))
    assert twist == pytest.approx((t_e + 0.014256 * V_Z) / stiffness, rel=2e-5)


def test_two_corner_check_of_the_web_flow(rudder, flows):
    """q_t = q_f + q_v: at the upper corner what the web brings leaves by flange and skin."""
    start, end = flow_ends(flows)
    assert end[:, WEB] == pytest.approx(start[:, UPPER_FLANGE] + start[:, UPPER_SKIN], rel=1e-12)
    assert start[:, WEB] == pytest.approx(end[:, LOWER_FLANGE] + end[:, LOWER_SKIN], rel=1e-12)
    assert np.abs(start[:, LOWER_FLANGE]).max() < 1e-9
    assert np.abs(end[:, UPPER_FLANGE]).max() < 1e-9


@pytest.mark.parametrize(
    ("m_x", "m_z", "stress"),
    [
        (0.5625, 27.0, "-2.4492 -0.89815 6.3159"),
        (-7.875, 45.0, "8.0676 -13.647 10.526"),
        (-14.765625, 29.25, "18.544 -22.170 6.8422"),
        (-3.375, 9.0, "4.0951 -5.2109 2.1053"),
    ],
    ids=["y=0.05", "y=0.20", "y=0.375", "y=0.60"],
)
def test_direct_stress(rudder, m_x, m_z, stress):
    """Upper corner, lower corner, trailing edge, MPa."""
    agrees(1e-6 * direct_stress(rudder, X[[2, 1, 4]], Z[[2, 1, 4]], m_x, m_z), stress)


def test_direct_stress_at_the_flange_tip(rudder):
    agrees(1e-6 * direct_stress(rudder, X[[3]], Z[[3]], -14.765625, 29.25), "19.006")


def test_open_part_of_the_torsion_constant_is_what_thin_wall_theory_neglects(rudder, flows):
    """With ``l t^3 / 3`` counted too (the default), the cell takes 4.1e-4 less: the digits of the table move by two."""
    full = section(BOX, X, Z, T_SHEAR, t_direct=T_DIRECT, boom=[0, 0, 0, 0, 14.4e-6])
    agrees(1e12 * full.J_open, "55.584")
    share = full.J / rudder.J - 1.0
    assert share == pytest.approx(1.0 / 2462.0, rel=1e-3)
    assert full.x_s == pytest.approx(rudder.x_s, rel=1e-12)
    torque = T_0 + rudder.x_s * V_Z
    change = flow(full, V_X, V_Z, T_0, about=(0.0, 0.0)).mean[:, UPPER_SKIN] - flows.mean[:, UPPER_SKIN]
    assert change == pytest.approx(-torque / 0.012 / 2463.0, rel=1e-3)
