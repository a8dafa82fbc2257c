"""What must hold for any thin-walled section, whatever its shape."""

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from surfacecheck.sections import (
    Topology,
    axial_flow,
    direct_stress,
    flow,
    flow_at,
    flow_ends,
    flow_peak,
    resultant,
    section,
    twist_rate,
    warping,
)

OPEN = Topology(5, ((0, 1), (1, 2), (2, 3), (2, 4)))
"""A channel spar with one skin that ends free."""
BOX = Topology(5, ((0, 1), (1, 2), (2, 3), (2, 4), (4, 1)))
"""The same with a second skin: one cell."""
NOSED = Topology(6, (*BOX.walls, (1, 5), (5, 2)))
"""And a nose of two walls: two cells."""
MIDDLE = Topology(8, (*NOSED.walls, (4, 6), (6, 7), (7, 2)))
"""And a third cell on top."""
SHAPES = {
    "nodes": (
        np.array([36.0, 20.0, 20.0, 36.0, 320.0, -60.0, 330.0, 60.0]),
        np.array([-20.0, -22.0, 18.0, 20.0, 3.0, -2.0, 60.0, 70.0]),
    )
}
TOPOLOGIES = st.sampled_from([OPEN, BOX, NOSED, MIDDLE])
SETTINGS = settings(max_examples=40, deadline=None)


@st.composite
def sections(draw, topologies=TOPOLOGIES, **fixed):
    """Input of a section: nodes moved about, thicknesses, booms, moduli."""
    topology = draw(topologies)
    nodes, walls = topology.nodes, len(topology.walls)

    def many(low, high, count):
        return np.round(draw(st.lists(st.floats(low, high), min_size=count, max_size=count)), 6)

    x, z = (places[:nodes] + many(-8.0, 8.0, nodes) for places in SHAPES["nodes"])
    t = many(0.3, 2.0, walls)
    given_ = {
        "x": x,
        "z": z,
        "t": t,
        "t_direct": t * (many(0.0, 1.0, walls) > 0.3),
        "boom": many(0.0, 40.0, nodes),
        "shear_ratio": many(0.3, 1.0, walls),
        "modulus_ratio": many(0.3, 1.0, walls),
        **fixed,
    }
    built = section(topology, **given_)
    assume(built.chordwise_defined)
    assume(min(built.I_xx, built.I_zz) > 1e-3 * max(built.I_xx, built.I_zz))
    assume(built.I_xx * built.I_zz - built.I_xz**2 > 1e-3 * built.I_xx * built.I_zz)
    return topology, given_, built


THOUSANDTHS = st.integers(-1_000_000, 1_000_000).map(lambda count: count / 1e3)
"""No load of 1e-315, where floating point itself has no digits left."""
LOADS = st.tuples(THOUSANDTHS, THOUSANDTHS, THOUSANDTHS.map(lambda load: 100.0 * load))


def close(value, other, size, rel=1e-9):
    return bool((np.abs(np.asarray(value) - other) <= rel * (np.abs(other) + size)).all())


@SETTINGS
@given(sections(), LOADS)
def test_flows_add_up_to_what_is_applied(made, loads):
    _, _, one = made
    v_x, v_z, torque = loads
    walls = flow(one, v_x, v_z, torque, about=(0.0, 0.0))
    total = resultant(one, walls)
    force = abs(v_x) + abs(v_z) + abs(torque) / 1e3 + 1.0
    assert close([total.F_x, total.F_z], [v_x, v_z], force)
    own = np.sum(one.J_open) / one.J * (torque + one.x_s * v_z - one.z_s * v_x)
    # the share of the torque that walls take by their own twisting is not in the flow
    assert close(total.T + own, torque, 300.0 * force)


@SETTINGS
@given(sections(), LOADS)
def test_flow_is_in_equilibrium_with_the_direct_stress_wall_by_wall(made, loads):
    """dq/ds = -t ds_y/dy along each wall, and what enters a node leaves it but for the boom's share."""
    topology, given_, one = made
    v_x, v_z, _ = loads
    walls = flow(one, v_x, v_z, 0.0)
    start, end = flow_ends(walls)
    # a metre further out the moments are smaller by the shear forces: dM_x/dy = -V_z, dM_z/dy = V_x
    gradient = direct_stress(one, one.x, one.z, -v_z, v_x)
    for fraction in (0.0, 0.3, 0.8):
        slope = (flow_at(walls, fraction + 1e-3) - flow_at(walls, fraction - 1e-3)) / (2e-3 * one.length)
        here = gradient[topology.starts] * (1.0 - fraction) + gradient[topology.ends] * fraction
        strip = given_["t_direct"] * given_["modulus_ratio"]
        assert close(slope, -strip * here, np.abs(gradient).max() * 2.0, rel=1e-8)
    gathered = np.zeros(topology.nodes)
    np.add.at(gathered, topology.ends, end)
    np.add.at(gathered, topology.starts, -start)
    assert close(gathered, given_["boom"] * gradient, np.abs(walls.mean).max() + 1e-3)


@SETTINGS
@given(sections(), LOADS, st.floats(-500.0, 500.0), st.floats(-500.0, 500.0))
def test_flow_does_not_depend_on_the_reference_point(made, loads, a, b):
    """T about (a, b) is T_0 + a V_z - b V_x: the same flow and twist."""
    _, _, one = made
    v_x, v_z, torque = loads
    here = flow(one, v_x, v_z, torque, about=(0.0, 0.0))
    there = flow(one, v_x, v_z, torque + a * v_z - b * v_x, about=(a, b))
    assert close(here.mean, there.mean, np.abs(here.mean).max() + 1.0)
    assert close(
        twist_rate(one, v_x, v_z, torque, G=1.0, about=(0.0, 0.0)),
        twist_rate(one, v_x, v_z, torque + a * v_z - b * v_x, G=1.0, about=(a, b)),
        (abs(torque) + 1e3 * (abs(v_x) + abs(v_z)) + 1.0) / one.J,
    )


@SETTINGS
@given(sections(st.just(BOX)))
def test_torque_alone_puts_the_same_flow_round_the_cell(made):
    _, _, one = made
    walls = flow(one, 0.0, 0.0, 1e4).mean
    bredt = 1e4 / (2.0 * one.cell_area[0]) * one.J_cells / one.J
    sign = BOX.loop_matrix[0]
    assert close(walls, sign * bredt, abs(bredt))
    assert walls[0] == walls[2] == 0.0


@SETTINGS
@given(sections(st.sampled_from([BOX, NOSED, MIDDLE])), st.floats(0.0, 2.0 * np.pi))
def test_shear_through_the_shear_centre_twists_nothing(made, angle):
    """The circulation of q/(Gt) round every loop, integrated by Gauss's rule, is nothing."""
    topology, _, one = made
    walls = flow(one, np.cos(angle), np.sin(angle), 0.0)
    at, weight = np.polynomial.legendre.leggauss(3)
    mean = 0.5 * weight @ flow_at(walls, 0.5 * (1.0 + at[:, None]))
    turned = topology.loop_matrix @ (mean * one.length / (one.shear_ratio * one.t))
    size = np.abs(mean * one.length / (one.shear_ratio * one.t)).max()
    assert close(turned, 0.0, size + 1e-9)
    assert twist_rate(one, np.cos(angle), np.sin(angle), 0.0, G=1.0) == 0.0


@SETTINGS
@given(sections())
def test_mirror_in_z(made):
    topology, given_, one = made
    other = section(topology, **{**given_, "z": -given_["z"]})
    assert close(other.I_xz, -one.I_xz, one.I_xx)
    assert close([other.x_s, other.z_s], [one.x_s, -one.z_s], 300.0)
    assert close([other.I_xx, other.I_zz, other.J], [one.I_xx, one.I_zz, one.J], 0.0)
    assert close(other.s_xz, -one.s_xz, abs(one.s_zz))
    assert close(other.unit_z.mean, -one.unit_z.mean, np.abs(one.unit_z.mean).max())
    assert close(other.unit_x.mean, one.unit_x.mean, np.abs(one.unit_x.mean).max())


@SETTINGS
@given(st.floats(5.0, 50.0), st.floats(20.0, 100.0), st.floats(0.4, 2.0))
def test_channel_turned_round_has_its_shear_centre_on_the_other_side(b, h, t):
    channel = Topology(4, ((0, 1), (1, 2), (2, 3)))
    z = [-h / 2, -h / 2, h / 2, h / 2]
    aft, ahead = section(channel, [b, 0, 0, b], z, t), section(channel, [-b, 0, 0, -b], z, t)
    assert aft.x_s < 0.0 < ahead.x_s
    assert close(ahead.x_s, -aft.x_s, b)


@SETTINGS
@given(sections(), LOADS, st.sampled_from([1e-3, 25.4, 1.0 / 12.0]))
def test_units(made, loads, scale):
    """All lengths times a: areas by a^2, second moments and J by a^4, C_w by a^6, stress and flow as they must."""
    topology, given_, one = made
    powers = {"x": 1, "z": 1, "t": 1, "t_direct": 1, "boom": 2, "shear_ratio": 0, "modulus_ratio": 0}
    other = section(topology, **{name: value * scale ** powers[name] for name, value in given_.items()})
    assert close([other.area, other.J, other.I_xx], [one.area * scale**2, one.J * scale**4, one.I_xx * scale**4], 0.0)
    assert close(other.x_s, one.x_s * scale, 300.0 * scale)
    first, second = warping(one), warping(other)
    assert close(second.C_w, first.C_w * scale**6, one.area * np.abs(first.omega).max() ** 2 * scale**6, rel=1e-8)
    v_x, v_z, torque = loads
    first, second = flow(one, v_x, v_z, torque), flow(other, v_x, v_z, torque * scale)
    for part, scaled in zip(first, second, strict=True):
        assert close(scaled * scale, part, np.abs(first.mean).max() + 1e-3)


@SETTINGS
@given(sections(st.just(NOSED)))
def test_a_nose_of_no_stiffness_is_no_nose(made):
    """G times 1e-12 and no direct stress: the section without the nose, as far as 1e-9."""
    _, given_, _ = made
    count = len(BOX.walls)
    soft = np.where(np.arange(len(NOSED.walls)) < count, given_["shear_ratio"], 1e-12)
    direct = np.where(np.arange(len(NOSED.walls)) < count, given_["t_direct"], 0.0)
    boom = given_["boom"] * (np.arange(6) < 5)
    nosed = section(NOSED, **{**given_, "shear_ratio": soft, "t_direct": direct, "boom": boom})
    cut = {name: value[: count if len(value) == len(NOSED.walls) else 5] for name, value in given_.items()}
    box = section(BOX, **{**cut, "t_direct": direct[:count]})
    # the rest must carry bending both ways by itself
    assume(box.I_xx * box.I_zz - box.I_xz**2 > 1e-3 * box.I_xx * box.I_zz)
    assert close([nosed.J, nosed.I_xx, nosed.I_zz], [box.J, box.I_xx, box.I_zz], 0.0)
    assert close([nosed.x_s, nosed.z_s], [box.x_s, box.z_s], 300.0)
    for name in ("unit_x", "unit_z"):
        ours, theirs = getattr(nosed, name).mean, getattr(box, name).mean
        assert close(ours[:count], theirs, np.abs(theirs).max())
        assert close(ours[count:], 0.0, np.abs(theirs).max())
    assert close([nosed.s_xx, nosed.s_zz], [box.s_xx, box.s_zz], 0.0)


@SETTINGS
@given(sections(st.just(BOX)))
def test_a_seam_opened_by_a_soft_wall_is_the_open_section(made):
    """A wall of 0.1 mm, no direct stress, G times 1e-12, at the trailing edge: the section with the seam open."""
    _, given_, _ = made
    walls = (*BOX.walls[:4], (5, 1))
    place = {"x": np.append(given_["x"], given_["x"][4] + 0.1), "z": np.append(given_["z"], given_["z"][4])}
    common = {**given_, **place, "boom": np.append(given_["boom"], 0.0)}
    opened = section(Topology(6, walls), **common)
    soft = {"t_direct": 0.0, "shear_ratio": 1e-12, "modulus_ratio": 1.0, "t": 0.5}
    seam = section(
        Topology(6, (*walls, (4, 5))),
        **{name: np.append(value, soft[name]) if name in soft else value for name, value in common.items()},
    )
    assert opened.J_cells == 0.0
    # what is left of Bredt's constant: (2 A)^2 G t / l of the soft wall alone
    left = (2.0 * seam.cell_area[0]) ** 2 * 1e-12 * 0.5 / 0.1
    assert close(seam.J_cells, left, 0.0, rel=1e-6)
    assert left < 1e-3 * opened.J
    assert close(seam.J_open, opened.J, 0.0)
    # the shear centre still moves with the little the seam carries: tenths of the chord would be the closed cell's
    assert close([seam.x_s, seam.z_s], [opened.x_s, opened.z_s], 300.0, rel=1e-6)
    assert close(seam.unit_z.mean[:5], opened.unit_z.mean, np.abs(opened.unit_z.mean).max(), rel=1e-6)


@SETTINGS
@given(sections(), LOADS)
def test_peak_is_the_largest_of_many_places(made, loads):
    _, _, one = made
    walls = flow(one, *loads)
    peak = flow_peak(walls)
    many = flow_at(walls, np.linspace(0.0, 1.0, 401)[:, None])
    size = np.abs(many).max() + 1e-3
    assert (np.abs(peak.value) >= np.abs(many).max(axis=0) - 1e-12 * size).all()
    assert close(np.abs(peak.value), np.abs(many).max(axis=0), size, rel=1e-4)
    assert close(flow_at(walls, peak.fraction), peak.value, size)


@SETTINGS
@given(sections(), st.randoms(use_true_random=False))
def test_order_and_direction_of_walls_do_not_matter(made, random):
    """Another tree, other cut walls, walls turned: the same section."""
    topology, given_, one = made
    order = list(range(len(topology.walls)))
    random.shuffle(order)
    turned = np.array([random.random() < 0.5 for _ in order])
    walls = tuple(topology.walls[w][::-1] if flip else topology.walls[w] for w, flip in zip(order, turned, strict=True))
    per_wall = ("t", "t_direct", "shear_ratio", "modulus_ratio")
    other = section(Topology(topology.nodes, walls), **{n: v[order] if n in per_wall else v for n, v in given_.items()})
    assert close([other.J, other.I_zz, other.s_zz], [one.J, one.I_zz, one.s_zz], 0.0)
    assert close([other.x_s, other.z_s], [one.x_s, one.z_s], 300.0)
    for name in ("unit_x", "unit_z"):
        same = getattr(one, name).mean[order] * np.where(turned, -1.0, 1.0)
        assert close(getattr(other, name).mean, same, np.abs(same).max())


@SETTINGS
@given(sections(st.sampled_from([BOX, NOSED])), st.integers(0, 4), st.floats(0.2, 0.8))
def test_a_wall_cut_in_two_changes_nothing(made, wall, fraction):
    topology, given_, one = made
    first, second = topology.walls[wall]
    new = topology.nodes
    walls = (*topology.walls[:wall], (first, new), *topology.walls[wall + 1 :], (new, second))
    changed = {}
    for name, value in given_.items():
        if name in ("x", "z"):
            changed[name] = np.append(value, value[first] * (1 - fraction) + value[second] * fraction)
        else:
            changed[name] = np.append(value, 0.0 if name == "boom" else value[wall])
    other = section(Topology(new + 1, walls), **changed)
    assert close([other.J, other.I_zz, other.s_zz], [one.J, one.I_zz, one.s_zz], 0.0)
    assert close([other.x_s, other.z_s], [one.x_s, one.z_s], 300.0)
    size = np.abs(one.unit_z.mean).max()
    assert close(flow_ends(other.unit_z)[1][wall], flow_at(one.unit_z, fraction)[wall], size)
    whole = warping(one)
    assert close(warping(other).C_w, whole.C_w, one.area * np.abs(whole.omega).max() ** 2, rel=1e-8)


@SETTINGS
@given(sections())
def test_direct_stress_adds_up_to_the_moments(made):
    """Simpson's rule over every wall, exact for these products, and the booms."""
    topology, given_, one = made
    m_x, m_z, n = 3e3, -2e3, 500.0
    weights = np.array([1.0, 4.0, 1.0]) / 6.0
    total = np.zeros(3)
    for weight, fraction in zip(weights, (0.0, 0.5, 1.0), strict=True):
        x = one.x[topology.starts] * (1 - fraction) + one.x[topology.ends] * fraction
        z = one.z[topology.starts] * (1 - fraction) + one.z[topology.ends] * fraction
        strip = weight * one.length * given_["t_direct"] * given_["modulus_ratio"]
        force = strip * direct_stress(one, x, z, m_x, m_z, n)
        total += [force.sum(), -(force * (z - one.z_c)).sum(), (force * (x - one.x_c)).sum()]
    force = given_["boom"] * direct_stress(one, one.x, one.z, m_x, m_z, n)
    total += [force.sum(), -(force * (one.z - one.z_c)).sum(), (force * (one.x - one.x_c)).sum()]
    assert close(total, [n, m_x, m_z], 3e3, rel=1e-8)


@SETTINGS
@given(sections(), LOADS)
def test_energy_of_the_flow_is_that_of_the_compliances(made, loads):
    """sum of integrals q^2 / (G t) = s_xx V_x^2 + 2 s_xz V_x V_z + s_zz V_z^2 + T^2 (Bredt's share) / J."""
    _, _, one = made
    v_x, v_z, torque = loads
    assume(abs(v_x) + abs(v_z) + abs(torque) > 1.0)
    walls = flow(one, v_x, v_z, torque)
    # Gauss-Legendre with three points is exact for the fourth degree of q squared
    at, weight = np.polynomial.legendre.leggauss(3)
    q = flow_at(walls, 0.5 * (1.0 + at[:, None]))
    energy = np.sum(0.5 * weight[:, None] * q * q * one.length / (one.shear_ratio * one.t))
    stored = one.s_xx * v_x**2 + 2.0 * one.s_xz * v_x * v_z + one.s_zz * v_z**2 + torque**2 * one.J_cells / one.J**2
    assert close(energy, stored, 0.0)


@SETTINGS
@given(sections(), st.integers(0, 4), st.integers(0, 4))
def test_load_along_the_span_is_taken_up_where_the_direct_stress_changes(made, one_node, other_node):
    """No resultant; along walls and at nodes the flow feeds the stress of N and its moments."""
    topology, given_, one = made
    share = np.zeros(topology.nodes)
    share[one_node] += 0.25
    share[other_node] += 0.75
    axial = axial_flow(one, share)
    start, end = flow_ends(axial.flow)
    a, b = share @ one.x - one.x_c, share @ one.z - one.z_c
    # 1 N/m along +y: dN/dy = -1, dM_x/dy = +b, dM_z/dy = -a
    gradient = direct_stress(one, one.x, one.z, b, -a, -1.0)
    strip = given_["t_direct"] * given_["modulus_ratio"] * one.length
    taken = 0.5 * strip * (gradient[topology.starts] + gradient[topology.ends])
    assert close(end - start, -taken, 1.0)
    gathered = np.zeros(topology.nodes)
    np.add.at(gathered, topology.ends, end)
    np.add.at(gathered, topology.starts, -start)
    assert close(gathered, given_["boom"] * gradient + share, 1.0)
    total = resultant(one, axial.flow)
    assert close([total.F_x, total.F_z], 0.0, 1e3)
    # the flow's own torque is what the walls' own twisting takes off
    assert close(total.T, -axial.torque * one.J_open / one.J, 1e3 + abs(axial.torque))
    at, weight = np.polynomial.legendre.leggauss(3)
    q = flow_at(axial.flow, 0.5 * (1.0 + at[:, None]))
    supple = one.length / (one.shear_ratio * one.t)
    circulation = topology.loop_matrix @ (0.5 * weight @ q * supple)
    # 2 A G theta' of each loop, with the twist that goes with the flow; flows of a wall may cancel along it, so that
    # rounding goes with the greatest and not with the mean
    assert close(circulation, 2.0 * one.cell_area * axial.torque / one.J, (np.abs(q) * supple).max())
