"""Thin-wall theory against the sheet as a solid: a finite element analysis of the cross-section.

The solid keeps what thin walls neglect: corners, ends, and stress through the thickness. The differences allowed are
of the size of thickness over width, stated at each test, and must fall when the sheet gets thinner.
"""

import numpy as np
import pytest

from surfacecheck.sections import Topology, section, warping

pytest.importorskip("sectionproperties", reason="the general library for cross-sections is not installed")
from sectionproperties.analysis import Section as Solid
from sectionproperties.pre import Geometry
from shapely import LineString, Polygon

CHANNEL = Topology(4, ((0, 1), (1, 2), (2, 3)))


def solid(shape, mesh):
    """Area, I_xx, I_zz, I_xz, J, shear centre and warping constant of a polygon."""
    geometry = Geometry(shape)
    geometry.create_mesh(mesh_sizes=[mesh])
    analysis = Solid(geometry)
    analysis.calculate_geometric_properties()
    analysis.calculate_warping_properties()
    i_xx, i_zz, i_xz = analysis.get_ic()
    return {
        "area": analysis.get_area(),
        "I_xx": i_xx,
        "I_zz": i_zz,
        "I_xz": i_xz,
        "J": analysis.get_j(),
        "shear centre": np.array(analysis.get_sc()),
        "C_w": analysis.get_gamma(),
    }


def sheet(line, t):
    """The line with half the thickness on either side, square corners and ends."""
    return LineString(line).buffer(t / 2, cap_style="flat", join_style="mitre")


def test_channel_80_by_25_by_1():
    """Open: everything within 0.2 % (corners and ends; in J the two cancel)."""
    line = [(25.0, -40.0), (0.0, -40.0), (0.0, 40.0), (25.0, 40.0)]
    x, z = np.transpose(line)
    thin = section(CHANNEL, x, z, 1.0)
    whole = solid(sheet(line, 1.0), 0.3)
    assert thin.area == pytest.approx(whole["area"], rel=1e-9)
    assert [thin.I_xx, thin.I_zz] == pytest.approx([whole["I_xx"], whole["I_zz"]], rel=2e-3)
    assert thin.I_xz == pytest.approx(whole["I_xz"], abs=1e-6 * whole["I_xx"])
    assert thin.J_open == pytest.approx(whole["J"], rel=2e-3)
    assert [thin.x_s, thin.z_s] == pytest.approx(whole["shear centre"], abs=1e-3 * 25.0)
    assert warping(thin).C_w == pytest.approx(whole["C_w"], rel=2e-3)


def test_leaning_z_has_the_same_product_of_inertia_and_shear_centre():
    """No axis of symmetry, flanges of different width: product of inertia and both coordinates of the shear centre."""
    line = [(-30.0, -40.0), (0.0, -35.0), (5.0, 40.0), (25.0, 42.0)]
    x, z = np.transpose(line)
    thin = section(CHANNEL, x, z, 1.0)
    whole = solid(sheet(line, 1.0), 0.3)
    assert [thin.I_xx, thin.I_zz, thin.I_xz] == pytest.approx([whole[i] for i in ("I_xx", "I_zz", "I_xz")], rel=2e-3)
    assert [thin.x_s, thin.z_s] == pytest.approx(whole["shear centre"], abs=1e-3 * 80.0)
    assert warping(thin).C_w == pytest.approx(whole["C_w"], rel=2e-3)


@pytest.fixture(scope="module")
def wedges():
    """A closed box of trapezoid shape, 60 high at one end, 300 long, thick 4 and 2: thin theory and solid."""
    corners = [(0.0, -30.0), (0.0, 30.0), (300.0, 15.0), (300.0, -15.0)]
    x, z = np.transpose(corners)
    ring = Topology(4, ((0, 1), (1, 2), (2, 3), (3, 0)))
    pairs = []
    for t in (4.0, 2.0):
        middle = Polygon(corners)
        walls = middle.buffer(t / 2, join_style="mitre").difference(middle.buffer(-t / 2, join_style="mitre"))
        pairs.append((section(ring, x, z, t), solid(walls, 0.8 * t * t)))
    return pairs


@pytest.mark.parametrize(
    ("name", "rel"),
    [("area", 1e-9), ("I_xx", 1e-3), ("I_zz", 2e-4), ("J", 6e-3), ("C_w", 3e-2)],
)
def test_closed_box(wedges, name, rel):
    """Bredt plus the walls' own twisting; better still as the sheet gets thinner."""
    errors = []
    for thin, whole in wedges:
        value = warping(thin).C_w if name == "C_w" else getattr(thin, name)
        errors.append(abs(value / whole[name] - 1.0))
    assert errors[1] < rel
    # both areas are the same to rounding; all else is off by a share of the thickness at least
    assert errors[1] < 0.6 * errors[0] or errors[0] < 1e-9


def test_shear_centre_of_the_closed_box(wedges):
    """Within 0.1 % of the chord: the one number that places the torque."""
    for thin, whole in wedges:
        assert [thin.x_s, thin.z_s] == pytest.approx(whole["shear centre"], abs=1e-3 * 300.0)


def test_the_walls_own_twisting_belongs_to_the_torsion_constant(wedges):
    """Bredt alone is low, and less so in thinner sheet; with l t^3 / 3 it is nearer."""
    for thin, whole in wedges:
        assert abs(thin.J - whole["J"]) < abs(thin.J_cells - whole["J"])
