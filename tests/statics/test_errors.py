"""What the statics refuse, and in which words."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.statics import (
    BeamStiffness,
    Supports,
    beam_stiffness,
    close_with_couple,
    close_with_rod,
    deflections,
    grid,
    running,
    solve,
    unloaded,
)

BREAKS = [0.0, 0.1, 0.5, 0.9, 1.0]
SECTION = beam_stiffness(1000.0, 2000.0)


def solved(supports=None, breaks=BREAKS, section=SECTION, coupled=True, **loads):
    stations = grid(breaks, cells=1)
    acting = unloaded(stations, **(loads or {"z": 1.0}))
    return solve(stations, acting, section, supports or Supports((1, 2, 3)), coupled)


def matrix(**entries):
    c = np.diag(np.full(6, 1e-6))
    for place, value in entries.items():
        c[int(place[1]), int(place[2])] = value
    return c


@pytest.mark.parametrize(
    ("supports", "words"),
    [
        (Supports(()), "no hinge"),
        (Supports((1,)), "one hinge lets the surface swing sideways"),
        (Supports((1, 9)), "outside the span"),
        (Supports((-1, 2)), "outside the span"),
        (Supports((2, 1)), "in order from root to tip"),
        (Supports((1, 1)), "a break of its own"),
        (Supports((1, 2), slopes_held=(3,)), "can hold a slope"),
        (Supports((1, 2, 3), matrix(c01=1e-7)), "not symmetric"),
        (Supports((1, 2, 3), matrix(c11=-1e-9)), "zero is rigid"),
        (Supports((1, 2, 3), matrix(c01=2e-6, c10=2e-6)), "coupled more than each gives"),
        (Supports((1, 2, 3), np.zeros((3, 3))), r"must end in \(6, 6\)"),
        (Supports((1, 2, 3), matrix(c11=np.nan)), "Supports.compliance has a value"),
        (Supports((1, 2, 3), displacement=np.zeros((1, 2, 2))), r"must end in \(3, 2\)"),
        (Supports((1, 2, 3), displacement=np.full((1, 3, 2), np.nan)), "Supports.displacement"),
        (Supports((1, 2, 3), thrust=np.array([3])), "0 to 2"),
        (Supports((1, 2, 3), thrust=np.array([0, 1])), "each of the 1 cases"),
    ],
)
def test_mechanisms_and_impossible_supports(supports, words):
    with pytest.raises(SurfaceError, match=words):
        solved(supports)


def test_hinges_nearer_than_a_millimetre():
    with pytest.raises(SurfaceError, match=r"0.9 mm apart"):
        solved(breaks=[0.0, 0.1, 0.1009, 0.9, 1.0])
    assert solved(breaks=[0.0, 0.1, 0.1011, 0.9, 1.0]).reactions[..., 2].sum() == pytest.approx(-1.0, rel=1e-9)


@pytest.mark.parametrize("bad", [0.0, -1e-3, np.nan])
def test_bending_compliance_must_be_positive(bad):
    parts = {n: np.zeros(1) for n in BeamStiffness.__dataclass_fields__}
    parts |= {"b_xx": np.array([1e-3]), "b_zz": np.array([bad])}
    with pytest.raises(SurfaceError, match="carries direct stress"):
        solved(section=BeamStiffness(**parts))


def test_product_of_inertia_larger_than_the_moments_of_inertia_allow():
    with pytest.raises(SurfaceError, match="must be positive"):
        beam_stiffness(1000.0, 1000.0, 1001.0)


def test_negative_shear_compliance_matters_only_where_it_is_used():
    section = beam_stiffness(1000.0, 1000.0, s_zz=-1e-6)
    with pytest.raises(SurfaceError, match="must not be negative"):
        solved(section=section)
    assert np.isfinite(solved(section=section, coupled=False).reactions).all()


@pytest.mark.parametrize("name", ["x", "y", "z", "torque", "moment_x", "moment_z", "force", "moment"])
def test_a_hole_in_the_loads_is_named(name):
    stations = grid(BREAKS, cells=1)
    hole = np.zeros((1, 5, 3) if name in ("force", "moment") else (1, 16))
    hole[0, 2] = np.nan
    with pytest.raises(SurfaceError, match=f"BeamLoads.{name}"):
        solve(stations, unloaded(stations, **{name: hole}), SECTION, Supports((1, 2, 3)), True)


@pytest.mark.parametrize("name", ["s_zz", "torsion", "x_s", "z_s"])
def test_a_hole_in_the_section_is_refused(name):
    with pytest.raises(SurfaceError, match=r"must not be negative|BeamStiffness"):
        solved(section=beam_stiffness(1000.0, 1000.0, **{"torsion": 1e-3, name: np.nan}), z=1.0)


def test_a_centroid_that_is_not_known_never_reaches_the_answer():
    section = beam_stiffness(1000.0, 1000.0, x_c=np.nan)
    with pytest.raises(SurfaceError, match=r"BeamStiffness.x_c"):
        solved(section=section, y=10.0)


def test_torque_that_nothing_holds():
    with pytest.raises(SurfaceError, match="horn, a torque tube or a stop is missing"):
        solved(z=1.0, torque=-0.1)
    stations = grid(BREAKS)
    couple, loads = close_with_couple(stations, unloaded(stations, torque=-0.1), 2)
    assert couple == pytest.approx([0.1], rel=1e-12)
    beam = solve(stations, loads, SECTION, Supports((1, 3)), True)
    at = stations.before(2), stations.after(2)
    assert beam.T_0[0, at] == pytest.approx([0.05, -0.05], rel=1e-12)
    assert np.abs(beam.reactions).max() < 1e-15


def test_rod_through_the_hinge_line():
    stations = grid(BREAKS)
    loads = unloaded(stations, torque=-1.0)
    through = [((0.0, 0.0), (1, 0, 0)), ((0.05, 0.0), (1, 0, 0)), ((0.0, 0.09), (0, 0, 1)), ((0.05, 0.09), (0, 1, 0))]
    for point, direction in through:
        with pytest.raises(SurfaceError, match="no arm about the hinge line"):
            close_with_rod(stations, loads, 0, point, direction)
    with pytest.raises(SurfaceError, match="has no length"):
        close_with_rod(stations, loads, 0, (0.0, 0.09), (0, 0, 0))
    with pytest.raises(SurfaceError, match="numbered 0 to 4"):
        close_with_rod(stations, loads, 5, (0.0, 0.09), (1, 0, 0))


def test_horn_force_that_doubles_instead_of_balancing_is_refused():
    """The first trap: a horn force with its sign turned leaves twice the torque, and the pins cannot hold it."""
    stations = grid(BREAKS)
    air = unloaded(stations, z=100.0, torque=-12.0)
    rod, _ = close_with_rod(stations, air, 0, (0.0, -0.09), (-1, 0, 0))
    wrong = air.plus(0, [[rod[0], 0, 0]], [[0.0, -0.09 * rod[0], 0.0]])
    with pytest.raises(SurfaceError, match="-24 N m are left over"):
        solve(stations, wrong, SECTION, Supports((1, 3)), True)


@pytest.mark.parametrize(
    ("breaks", "cells", "words"),
    [
        ([0.0], 2, "at least two"),
        ([0.0, 0.5, 0.4], 2, "sort them"),
        ([0.0, 0.5, 0.5], 2, None),
        ([0.5, 0.5], 2, "sort them"),
        ([0.0, np.nan, 1.0], 2, "sort them"),
        ([0.0, np.inf], 2, "sort them"),
        ([[0.0, 0.5, 1.0], [0.0, 0.6, 0.5]], 2, r"there is \[0\. +0\.6 0\.5\]"),
        ([0.0, 1.0], 0, "at least one cell"),
        ([0.0, 1.0, 2.0], (1,), "1 entries for 2 bays"),
    ],
)
def test_breaks(breaks, cells, words):
    if words is None:
        assert grid(breaks, cells).points == 16
        return
    with pytest.raises(SurfaceError, match=words):
        grid(breaks, cells)


def test_sides_of_a_break_are_counted():
    stations = grid([0.0, 0.5, 2.0], cells=(2, 1))
    assert (stations.before(1), stations.after(1), stations.points) == (7, 8, 12)
    assert stations.y[[7, 8]] == pytest.approx([0.5, 0.5], abs=0)
    for side, b in (("before", 0), ("after", 2), ("after", 3), ("before", -1)):
        with pytest.raises(SurfaceError, match="break"):
            getattr(stations, side)(b)


def test_running_integral_is_exact_to_the_third_degree_and_the_sum_to_the_fifth():
    stations = grid([0.0, 0.7, 1.0], cells=1)
    y = stations.y
    assert running(stations, (y**3)[None])[0] == pytest.approx((1 - y**4) / 4, abs=1e-15)
    assert (y**5 * stations.weight).sum() == pytest.approx(1 / 6, rel=1e-14)
    assert abs((y**6 * stations.weight).sum() - 1 / 7) > 1e-6


def test_names_that_are_not_there():
    stations = grid(BREAKS)
    with pytest.raises(SurfaceError, match="twist: no such load"):
        unloaded(stations, twist=1.0)
    with pytest.raises(SurfaceError, match="GJ: no such property"):
        beam_stiffness(1.0, 1.0, GJ=1.0)


def test_twist_is_zero_where_it_is_asked_to_be():
    stations = grid(BREAKS)
    _, loads = close_with_couple(stations, unloaded(stations, torque=-0.1), 2)
    beam = solve(stations, loads, beam_stiffness(1.0, 1.0, torsion=2.0), Supports((1, 3)), True)
    twist = deflections(beam, untwisted=2).twist[0]
    assert twist[[stations.before(2), stations.after(2)]] == pytest.approx([0.0, 0.0], abs=1e-16)
    assert twist[-1] == pytest.approx(-2.0 * 0.1 * 0.5**2 / 2, rel=1e-12)
    assert twist[0] == pytest.approx(twist[-1], rel=1e-12)
