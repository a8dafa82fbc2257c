"""Sections: stacks, guards, small worked cases, and every refusal."""

from itertools import pairwise

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.sections import (
    Topology,
    WallFlow,
    direct_stress,
    flow,
    flow_at,
    flow_ends,
    flow_peak,
    open_torsion_stress,
    resultant,
    section,
    twist_rate,
    wall_force,
    warping,
)

CHANNEL = Topology(4, ((0, 1), (1, 2), (2, 3)))
TWO_CELLS = Topology(
    11,
    ((0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (2, 6), (6, 7), (7, 8), (8, 3), (2, 9), (9, 10), (10, 3)),
)
"""Twelve walls, two cells, two loose flanges."""


def many(count, seed=7):
    """Input of as many sections as asked for, every dimension different."""
    random = np.random.default_rng(seed)
    angle = np.linspace(0.3, 6.0, 11)
    return {
        "x": 0.1 * np.cos(angle) + random.uniform(-0.02, 0.02, (count, 11)),
        "z": 0.05 * np.sin(angle) + random.uniform(-0.02, 0.02, (count, 11)),
        "t": random.uniform(4e-4, 1e-3, (count, 12)),
        "t_direct": random.uniform(0.0, 1e-3, (count, 12)),
        "boom": random.uniform(0.0, 2e-5, (count, 11)),
        "shear_ratio": random.uniform(0.5, 1.0, (count, 12)),
        "modulus_ratio": random.uniform(0.5, 1.0, (count, 12)),
    }


def arrays(thing):
    """Every array of a section, by name."""
    found = {}
    for name, value in vars(thing).items():
        if isinstance(value, WallFlow):
            found |= {f"{name}.{part}": array for part, array in zip(value._fields, value, strict=True)}
        elif isinstance(value, np.ndarray):
            found[name] = value
    return found


def same_bits(one, other):
    return one.shape == other.shape and one.tobytes() == other.tobytes()


@pytest.mark.parametrize("order", ["C", "F"])
def test_a_stack_of_a_thousand_equals_single_sections_bit_for_bit(order):
    given = {name: np.asarray(value, order=order) for name, value in many(1000).items()}
    stack = section(TWO_CELLS, **given)
    loads = np.random.default_rng(1).normal(size=(3, 1000, 4))
    flows, sectorial = flow(stack, *loads, about=(0.0, 0.0)), warping(stack)
    total, stress = resultant(stack, flows), direct_stress(stack, stack.x, stack.z, *loads)
    wholes = arrays(stack)
    assert len(wholes) > 35
    for n in (0, 1, 2, 3, 499, 998, 999):
        single = section(TWO_CELLS, **{name: value[n] for name, value in given.items()})
        for name, value in arrays(single).items():
            assert same_bits(value, wholes[name][n]), name
        own = flow(single, *loads[:, n], about=(0.0, 0.0))
        for part, whole in zip(own, flows, strict=True):
            assert same_bits(part, whole[n])
        for part, whole in zip(resultant(single, own), total, strict=True):
            assert same_bits(part, whole[n])
        for part, whole in zip(warping(single), sectorial, strict=True):
            assert same_bits(part, whole[n])
        assert same_bits(direct_stress(single, single.x, single.z, *loads[:, n]), stress[n])


@pytest.mark.parametrize("count", [1, 2, 3, 60])
def test_small_stacks_and_two_leading_axes_give_the_same_bits(count):
    given = many(60)
    whole = arrays(section(TWO_CELLS, **given))
    part = arrays(section(TWO_CELLS, **{name: value[:count] for name, value in given.items()}))
    for name, value in part.items():
        assert same_bits(np.ascontiguousarray(value), np.ascontiguousarray(whole[name][:count])), name
    folded = {name: value.reshape(12, 5, -1) for name, value in given.items()}
    for name, value in arrays(section(TWO_CELLS, **folded)).items():
        assert value.shape[:2] == (12, 5)
        assert same_bits(np.ascontiguousarray(value), np.ascontiguousarray(whole[name]).reshape(value.shape)), name


def test_leading_axes_are_broadcast_together():
    x, z = np.array([16.0, 0, 0, 16.0]) / 1e3, np.array([-20.0, -20, 20, 20]) / 1e3
    thicknesses = np.array([0.8, 1.0, 1.2])[:, None, None] / 1e3
    scale = np.array([1.0, 0.9])[:, None]
    spars = section(CHANNEL, x * scale, z * scale, thicknesses)
    assert spars.shape == spars.area.shape == (3, 2)
    assert spars.x.shape == (3, 2, 4)
    assert spars.unit_z.mean.shape == (3, 2, 3)
    assert spars.area[:, 0] == pytest.approx(thicknesses[:, 0, 0] * 0.072)


def test_no_section_at_all_is_no_error():
    """An empty stack of variants comes back empty."""
    assert section(CHANNEL, np.zeros((0, 4)), 0.0, 1e-3).area.shape == (0,)


def test_two_cells_in_torsion_against_the_two_equations_written_out():
    """Round nose, web and a wedge behind: Bredt's two equations solved by hand (Cramer's rule)."""
    radius, depth, chord = 2.0, 4.0, 16.0
    t_nose, t_web, t_skin = 0.025, 0.032, 0.020
    box = section(
        Topology(3, ((0, 1), (1, 2), (2, 0), (0, 1))),
        [0.0, 0.0, chord],
        [-depth / 2, depth / 2, 0.0],
        [t_web, t_skin, t_skin, t_nose],
        t_direct=0.0,
        length=[0.0, 0.0, 0.0, np.pi * radius],
        swept=[0.0, 0.0, 0.0, np.pi * radius**2 / 2],
        open_torsion=0.0,
    )
    skin = np.hypot(chord, depth / 2)
    web, nose, tail = depth / t_web, np.pi * radius / t_nose, 2 * skin / t_skin
    a_nose, a_tail = np.pi * radius**2 / 2, chord * depth / 2
    determinant = (nose + web) * (tail + web) - web * web
    nose_flow = ((tail + web) * 2 * a_nose + web * 2 * a_tail) / determinant
    tail_flow = ((nose + web) * 2 * a_tail + web * 2 * a_nose) / determinant
    j = 2 * a_nose * nose_flow + 2 * a_tail * tail_flow
    torsion = box.J
    assert torsion == pytest.approx(j)
    assert torsion == pytest.approx(3.1601, abs=5e-5)
    mean = flow(box, 0.0, 0.0, 1000.0).mean
    assert mean == pytest.approx(1000.0 / j * np.array([tail_flow - nose_flow, tail_flow, tail_flow, nose_flow]))
    assert mean == pytest.approx([-2.071, 12.721, 12.721, 14.792], abs=5e-4)
    assert twist_rate(box, 0.0, 0.0, 1000.0, G=3.8e6) == pytest.approx(8.327e-5, abs=5e-9)
    assert sorted(box.cell_area) == pytest.approx([a_nose, a_tail])


def test_curved_wall_is_the_limit_of_many_straight_ones():
    """A half-round nose in shear only: one wall with its length and swept area, against 16, 32 and 64 chords."""
    tail = {"x": [0.0, 0.0, 0.3], "z": [-0.02, 0.02, 0.0]}
    arc = np.pi * 0.02
    walls = ((0, 1), (1, 2), (2, 0))
    boom = np.array([1e-5, 2e-5, 1.5e-5])
    one = section(
        Topology(3, (*walls, (0, 1))),
        **tail,
        t=[8e-4, 6e-4, 6e-4, 5e-4],
        t_direct=[8e-4, 0, 0, 0],
        boom=boom,
        length=[0, 0, 0, arc],
        swept=[0, 0, 0, arc * 0.01],
        open_torsion=0.0,
    )
    errors = []
    for count in (16, 32, 64):
        angle = np.linspace(0.0, np.pi, count + 1)[1:-1]
        nodes = [0, *range(3, 2 + count), 1]
        many_walls = tuple(pairwise(nodes))
        other = section(
            Topology(2 + count, (*walls, *many_walls)),
            [*tail["x"], *(-0.02 * np.sin(angle))],
            [*tail["z"], *(-0.02 * np.cos(angle))],
            [8e-4, 6e-4, 6e-4] + [5e-4] * count,
            t_direct=[8e-4, 0, 0] + [0.0] * count,
            boom=[*boom, *[0.0] * (count - 1)],
            open_torsion=0.0,
        )
        errors.append([abs(other.J / one.J - 1.0), abs(other.x_s - one.x_s) / 0.3, abs(other.s_zz / one.s_zz - 1.0)])
    assert np.log2(np.divide(errors[0], errors[1])) == pytest.approx([2.0, 2.0, 2.0], abs=0.1)
    assert np.log2(np.divide(errors[1], errors[2])) == pytest.approx([2.0, 2.0, 2.0], abs=0.1)
    assert max(errors[2]) < 1e-3


def test_booms_on_one_line_leave_chordwise_bending_not_defined():
    """Booms on the web only: flagged, no division by nothing, lateral bending as ever."""
    web = section(Topology(3, ((0, 1), (1, 2))), 0.02, [-0.02, 0.0, 0.02], 8e-4, t_direct=0.0, boom=[1e-5, 0.0, 1e-5])
    assert not web.chordwise_defined
    assert web.lateral_defined
    for name, value in arrays(web).items():
        assert np.isfinite(value.astype(float)).all(), name
    assert flow(web, 0.0, 100.0, 0.0).mean == pytest.approx([2500.0, 2500.0])
    assert not flow(web, 100.0, 0.0, 0.0).mean.any()
    assert web.x_s == pytest.approx(0.02)


def test_sheet_along_x_leaves_lateral_bending_not_defined():
    flat = section(Topology(2, ((0, 1),)), [0.0, 0.3], 0.01, 1e-3)
    assert flat.chordwise_defined
    assert not flat.lateral_defined


def test_leaning_line_defines_neither_and_one_bent_corner_defines_both():
    leaning = section(Topology(2, ((0, 1),)), [0.0, 0.1], [0.0, 0.1], 1e-3)
    assert not leaning.chordwise_defined
    assert not leaning.lateral_defined
    angle = section(Topology(3, ((0, 1), (1, 2))), [0.0, 0.1, 0.1], [0.0, 0.1, 0.12], 1e-3)
    assert angle.chordwise_defined
    assert angle.lateral_defined


def test_flag_of_one_in_a_stack_leaves_the_others_alone():
    x = np.array([[0.0, 0.0, 0.3], [0.0, 0.0, 0.0]])
    x[1] = 0.02
    z = [-0.02, 0.02, 0.06]
    stack = section(Topology(3, ((0, 1), (1, 2))), x, z, 1e-3)
    assert stack.chordwise_defined.tolist() == [True, False]
    assert same_bits(stack.I_zz[0], section(Topology(3, ((0, 1), (1, 2))), x[0], z, 1e-3).I_zz)


def test_section_without_direct_stress_still_has_torsion():
    tube = section(Topology(4, ((0, 1), (1, 2), (2, 3), (3, 0))), [0, 0, 1, 1], [0, 1, 1, 0], 0.01, t_direct=0.0)
    assert tube.area == 0.0
    assert not tube.chordwise_defined
    assert not tube.lateral_defined
    assert tube.J_cells == pytest.approx(0.01)
    assert not direct_stress(tube, tube.x, tube.z, 5.0, 5.0, 5.0).any()
    assert warping(tube).C_w == 0.0


def test_a_stiffer_metal_takes_more():
    """Two flanges of one area, one of three times the modulus: the centroid goes to the quarter."""
    beam = section(Topology(2, ((0, 1),)), 0.0, [0.0, 0.1], 1e-3, t_direct=0.0, boom=[3e-5, 1e-5])
    assert beam.z_c == pytest.approx(0.025)
    plates = {"x": [0.0, 0.02, 0.0, 0.02], "z": [0.0, 0.0, 0.1, 0.1], "t": 1e-3}
    walls = Topology(4, ((0, 1), (0, 2), (2, 3)))
    mixed = section(walls, **plates, t_direct=[1e-3, 0, 1e-3], modulus_ratio=[3.0, 1.0, 1.0])
    assert mixed.z_c == pytest.approx(0.025)


def test_cases_stand_between_sections_and_walls():
    stack = section(CHANNEL, [16e-3, 0, 0, 16e-3], [-20e-3, -20e-3, 20e-3, 20e-3], np.full((5, 3), 8e-4))
    cases = np.arange(10.0).reshape(5, 2)
    walls = flow(stack, cases, 1.0, 0.0, about=(np.zeros(5), 0.0))
    assert walls.mean.shape == (5, 2, 3)
    assert flow_peak(walls).value.shape == flow_at(walls, 0.3).shape == flow_ends(walls)[0].shape == (5, 2, 3)
    assert wall_force(stack, walls).T.shape == (5, 2, 3)
    assert resultant(stack, walls).F_x == pytest.approx(cases)
    assert twist_rate(stack, cases, 0.0, 1.0, G=26e9).shape == (5, 2)
    assert open_torsion_stress(stack, cases).shape == (5, 2, 3)
    assert direct_stress(stack, [0.0, 0.1, 0.2, 0.3], 0.0, cases, 0.0).shape == (5, 2, 4)
    assert flow(stack, 1.0, 1.0, 0.0).mean.shape == (5, 3)


@pytest.mark.parametrize(
    ("nodes", "walls", "message"),
    [
        (1, ((0, 0),), "at least two nodes"),
        (2, (), "0 walls"),
        (2, ((0, 2),), "wall 0 names node 2: nodes run from 0 to 1"),
        (3, ((0, 1), (1, 1), (1, 2)), "wall 1 joins node 1 to itself"),
        (4, ((0, 1), (2, 3)), "node 2 is not connected"),
        (3, ((0, 1),), "node 2 is not connected"),
    ],
)
def test_topologies_that_are_none(nodes, walls, message):
    with pytest.raises(SurfaceError, match=message):
        Topology(nodes, walls)


def test_tree_cut_walls_and_loops():
    assert CHANNEL.cells == 0
    assert CHANNEL.loop_matrix.shape == (0, 3)
    assert TWO_CELLS.cut_walls == (8, 11)
    assert sorted(step.wall for step in TWO_CELLS.tree) == [w for w in range(12) if w not in (8, 11)]
    assert TWO_CELLS.in_cell.tolist() == [False, False, True, False, False] + [True] * 7
    # every loop closes: what it leaves at a node it also brings
    incidence = np.zeros((11, 12), dtype=int)
    for wall, (first, second) in enumerate(TWO_CELLS.walls):
        incidence[first, wall], incidence[second, wall] = -1, 1
    assert not (incidence @ TWO_CELLS.loop_matrix.T).any()
    assert Topology(4, ((0, 1), (1, 2), (2, 3))) == CHANNEL
    assert hash(Topology(4, ((0, 1), (1, 2), (2, 3)))) == hash(CHANNEL)


GOOD = {"x": [16e-3, 0, 0, 16e-3], "z": [-20e-3, -20e-3, 20e-3, 20e-3], "t": [8e-4, 8e-4, 8e-4]}


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"t": [8e-4, 0.0, 8e-4]}, "thickness of wall 1 is 0: give more than zero"),
        ({"t": [8e-4, -1e-3, 8e-4]}, "thickness of wall 1 is -0.001"),
        ({"t": [8e-4, np.nan, 8e-4]}, "thickness of wall 1 is nan: give a number"),
        ({"x": [0, 0, np.inf, 0]}, "place x of node 2 is inf"),
        ({"t_direct": [0, 0, -1e-3]}, "direct-stress thickness of wall 2 is -0.001: zero"),
        ({"boom": [0, -1e-5, 0, 0]}, "boom at node 1 is -1e-05: zero or more"),
        ({"shear_ratio": [1, 1, 0]}, "shear_ratio of wall 2 is 0: more than zero"),
        ({"modulus_ratio": [1, 0, 1]}, "modulus_ratio of wall 1 is 0: more than zero"),
        ({"x": 0.0, "z": [-20e-3, -20e-3, 20e-3, 30e-3]}, "length of wall 0 is 0: its two nodes lie on one point"),
        ({"length": [0, 30e-3, 0]}, "length of wall 1 is 0.03: zero .straight. or at least"),
        ({"length": [0, 50e-3, 0]}, "curved wall 1 is 0.0008: .*works in shear only"),
        ({"swept": [0, 1e-4, 0]}, "swept area of wall 1 is 0.0001: a straight wall sweeps nothing"),
        (
            {"t": [8e-4, 8e-4]},
            r"thickness of wall has shape \(2,\): its last axis must have 3 values, one for each of the wall",
        ),
        ({"boom": np.zeros(3)}, "boom at node has shape .* one for each of the nodes"),
        ({"x": np.zeros((2, 4)), "t": np.full((3, 3), 1e-3)}, "leading axes do not go together"),
        ({"open_torsion": 0.0}, "no torsional stiffness"),
    ],
)
def test_refusals(changed, message):
    with pytest.raises(SurfaceError, match=message):
        section(CHANNEL, **{**GOOD, **changed})


def test_refusals_of_loads():
    spar = section(CHANNEL, **GOOD)
    with pytest.raises(SurfaceError, match="V_z = nan"):
        flow(spar, 0.0, np.nan, 0.0)
    with pytest.raises(SurfaceError, match="M_x = inf"):
        direct_stress(spar, 0.0, 0.0, np.inf, 0.0)
    stack = section(CHANNEL, GOOD["x"], GOOD["z"], np.full((5, 3), 8e-4))
    with pytest.raises(SurfaceError, match=r"V_x has shape \(4, 2\), the sections \(5,\)"):
        flow(stack, np.zeros((4, 2)), 0.0, 0.0)
