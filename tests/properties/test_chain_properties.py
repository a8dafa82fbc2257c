"""What must hold of the whole chain, from surface file to margins, whatever the numbers are.

Superposition, balance against the load as typed, places, limits, rows. Nothing here is a figure of its own: each test
holds one run of the chain against another, or against balance.
"""

import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import surfacecheck
from surfacecheck.reading import read, read_text

DATA = Path(__file__).parents[2] / "data"
HAND = Path(__file__).parents[1] / "hand"


def laid(changes, base="rudder.toml", folder=DATA):
    """Assess a surface with changes laid over it, key = answer."""
    return surfacecheck.assess(surface(changes, base, folder))


def surface(changes, base="rudder.toml", folder=DATA):
    lines = "".join(f"{key} = {answer}\n" for key, answer in changes.items())
    return read_text(f'based_on = "{base}"\ntitle = "tried"\n{lines}', "tried.toml", folder=folder)


def margins(assessment, says=lambda text: text):
    """Least margin of every check, by place and mode; infinite ones left out."""
    found = {}
    for finding in assessment.findings:
        if finding.margin is not None and np.isfinite(finding.margin):
            key = says(f"{finding.check.place}:{finding.check.mode}")
            found[key] = min(finding.margin, found.get(key, np.inf))
    return found


@cache
def plain_rudder():
    return surfacecheck.assess(read(DATA / "rudder.toml"))


@pytest.fixture(scope="module")
def rudder():
    return plain_rudder()


def flight(assessment):
    return [i for i, title in enumerate(assessment.case_titles) if title.startswith("side load")]


def test_twice_the_load_is_twice_everything():
    """With no rigging pull and no pin off line nothing is there that does not grow with the load."""
    one, two = (
        laid({"load.pressure": f'"{p} kPa"', "controls.rigging_pull": '"none"', "controls.horn_per_pilot": '"?"'})
        for p in (0.9, 1.8)
    )
    at = flight(one)
    assert two.beam.reactions[at] == pytest.approx(2.0 * one.beam.reactions[at], rel=1e-12, abs=1e-9)
    for a, b in zip(one.brackets, two.brackets, strict=True):
        assert b.share[at] == pytest.approx(2.0 * a.share[at], rel=1e-11, abs=1e-9)
    for a, b in zip(one.rows, two.rows, strict=True):
        assert b.effects.cases == a.effects.cases
        these = [i for i, title in enumerate(a.effects.cases) if title.startswith("side load")]
        assert b.shear[these] == pytest.approx(2.0 * a.shear[these], rel=1e-10, abs=1e-9)
        assert b.tension[these] == pytest.approx(2.0 * a.tension[these], rel=1e-10, abs=1e-9)


@pytest.mark.parametrize("name", ["reactions", "M_x", "M_z", "T_0"])
def test_loads_add_up_on_top_of_what_is_set_in(name):
    """Equal steps of load make equal steps of every force; pins off line and rigging pull stay where they are."""
    extra = {"hinge.middle.out_of_line": '"0.7 mm left"', "hinge.middle.gives_sideways": '"0.5 mm/kN"'}
    low, mid, high = (laid({"load.pressure": f'"{p} kPa"', **extra}) for p in (0.8, 1.2, 1.6))
    at = flight(low)
    a, b, c = (getattr(one.beam, name)[at] for one in (low, mid, high))
    assert c - b == pytest.approx(b - a, rel=1e-9, abs=1e-8)
    if name != "T_0":
        assert np.abs(a - 2.0 * (b - a)).max() > 1.0  # and something was set in


def test_a_displacement_set_in_stays_when_the_load_grows():
    """R(load, d) = R(load, 0) + R(0, d)."""
    off, true = {"hinge.middle.out_of_line": '"0.7 mm left"'}, {}
    steps = []
    for p in (0.8, 1.6):
        one, other = (laid({"load.pressure": f'"{p} kPa"', **way}) for way in (off, true))
        at = [one.case_titles.index(title) for title in other.case_titles]
        steps.append((one.beam.reactions[at] - other.beam.reactions)[flight(other)])
    assert steps[1] == pytest.approx(steps[0], rel=1e-6, abs=1e-7)
    assert np.abs(steps[0]).max() > 50.0


# ---- balance against the load as typed

ARM = {"even": 1.0 / 2.0, "straight to zero": 1.0 / 3.0, "curved to zero": 1.0 / 4.0}
"""Centre of pressure over chord: a rectangle, a triangle, and 3 (1 - s)^2."""


def typed(assessment, shape, sign):
    """Force, and (M_x, T, M_z) about the root's pin, of the pressure as typed: outline and shape alone."""
    places = assessment.surface.outline.places
    y, c = np.array([[p.up.si for p in places], [p.edge_behind.si for p in places]])
    p = sign * assessment.surface.load.pressure.si
    at, weight = np.polynomial.legendre.leggauss(5)
    total = np.zeros(6)
    for (y0, y1), (c0, c1) in zip(pairwise(y), pairwise(c), strict=True):
        u = 0.5 * (at + 1.0)
        chord, up, step = c0 + (c1 - c0) * u, y0 + (y1 - y0) * u, 0.5 * weight * (y1 - y0)
        w = p * chord
        total += [
            0.0, 0.0, (w * step).sum(), (up * w * step).sum(), -(ARM[shape] * chord * w * step).sum(), 0.0,
        ]  # fmt: skip
    return total[:3], total[3:]


def moment(point, force):
    """Moment of forces about the origin, right-handed about x, y and z."""
    return np.cross(np.asarray(point), np.asarray(force))


BALANCE_TITLE = re.compile(
    r"(control system, 1\.25 x: )?side load to the (left|right), ([a-z ]+?)(, through the ribs)?$"
)


@given(point=st.tuples(*[st.floats(-2.0, 2.0)] * 3), pick=st.integers(0, 10_000))
@settings(max_examples=60, deadline=None)
def test_every_case_is_in_balance_about_any_point(point, pick):
    """Load as typed, pins and horn (rigging pull with it) add up to nothing, control system's 25 per cent included."""
    rudder = plain_rudder()
    titles = [(i, BALANCE_TITLE.match(t)) for i, t in enumerate(rudder.case_titles)]
    titles = [(i, m) for i, m in titles if m]
    assert len(titles) >= 18
    case, match = titles[pick % len(titles)]
    factor = 1.25 if match[1] else 1.0
    sign = 1.0 if match[2] == "left" else -1.0
    force, about = typed(rudder, match[3], sign * factor)
    pins = [(0.0, rudder.span.breaks[b], 0.0) for b in rudder.span.hinges.values()]
    horn = rudder.span.breaks[rudder.span.horn]
    ends = [(x, horn, z) for x, z in rudder.effects.horn_points]
    places = np.array([*pins, *ends])
    forces = np.concatenate([rudder.beam.reactions[case], rudder.effects.horn_force[case]])
    assert force + forces.sum(axis=0) == pytest.approx(np.zeros(3), abs=1e-8)
    shifted = about - np.cross(point, force) + moment(places - np.array(point), forces).sum(axis=0)
    assert shifted == pytest.approx(np.zeros(3), abs=1e-8)


def test_what_is_left_over_of_every_case_is_rounding(rudder):
    assert len(rudder.rests) == len(rudder.case_titles)
    assert max(rest.rest for rest in rudder.rests) < 1e-9


# ---- places


@pytest.mark.parametrize("apart", [1e-6, 5e-4], ids=["a millionth of a millimetre", "half a thousandth"])
def test_a_hinge_exactly_at_a_rib_or_hardly_beside_it(rudder, apart):
    beside = laid({"hinge.middle.up": f'"{560 + apart:.9g} mm"'})
    assert beside.span.y == pytest.approx(rudder.span.y, abs=1.1e-3 * apart)
    assert beside.beam.reactions == pytest.approx(rudder.beam.reactions, rel=1e-9, abs=10.0 * apart)
    assert margins(beside) == pytest.approx(margins(rudder), rel=0.1 * apart, abs=0.1 * apart)


def test_places_a_thousandth_of_a_millimetre_apart_count_as_one(rudder):
    """An outline place and a horn hardly beside a rib are still found among the breaks."""
    at = surface({}).outline.places
    line = "{{ up = \"{up}\", fin_ahead = \"330 mm\", nose_ahead = \"{n} mm\", nose_around = \"{r} mm\", " \
           "web_behind = \"25 mm\", edge_behind = \"{e} mm\", spar_depth = \"{d} mm\" }}"  # fmt: skip
    u = 560.0 / 1100.0
    n, r, e, d = (
        1e3 * (float(getattr(at[0], k).si) * (1 - u) + float(getattr(at[1], k).si) * u)
        for k in ("nose_ahead", "nose_around", "edge_behind", "spar_depth")
    )
    ends = [
        line.format(up=f"{1e3 * p.up.si} mm", n=1e3 * p.nose_ahead.si, r=1e3 * p.nose_around.si,
                    e=1e3 * p.edge_behind.si, d=1e3 * p.spar_depth.si) for p in at
    ]  # fmt: skip
    middle = line.format(up="560.0005 mm", n=n, r=r, e=e, d=d)
    more = laid({"outline.at": f"[{ends[0]}, {middle}, {ends[1]}]", "horn.up": '"0.0005 mm"',
                 "load.wind_at_tiedown": '"none"'})  # fmt: skip
    both = [i for i, t in enumerate(more.case_titles) if BALANCE_TITLE.match(t)]
    same = [rudder.case_titles.index(more.case_titles[i]) for i in both]
    assert more.beam.reactions[both] == pytest.approx(rudder.beam.reactions[same], abs=0.02)


# ---- limits


def test_a_support_ever_stiffer_comes_to_a_stiff_one(rudder):
    """The difference falls in step with what the support gives."""
    at = flight(rudder)
    apart = []
    for gives in (1e-2, 1e-3, 1e-4):
        soft = laid({"hinge.middle.gives_sideways": f'"{gives} mm/kN"', "hinge.top.gives_sideways": '"none"'})
        apart.append(np.abs(soft.beam.reactions[at] - rudder.beam.reactions[at]).max())
    assert 0.0 < apart[2] < 0.01
    assert apart[0] / apart[1] == pytest.approx(10.0, rel=0.02)
    assert apart[1] / apart[2] == pytest.approx(10.0, rel=0.02)


def test_one_seam_open_drops_torsion_by_three_to_four_orders():
    """Rear cell alone: the nose, where no hinge opens it, is a small cell of its own and keeps some of it."""
    shut, opened = (
        surfacecheck.assess(read(DATA / name)).effects.box for name in ("elevator.toml", "elevator_open_edge.toml")
    )
    ratio = shut.rear_alone.J / opened.rear_alone.J
    assert (ratio > 1e3).all()
    assert (ratio < 1e4).all()


OPEN = {"outline.trailing_edge": '"open"', "row.trailing_edge.gone": '"yes"'}


def test_an_open_trailing_edge_carries_nothing_across():
    """No row is left there, the skins bring nothing to where it was but what their own edge strips take up."""
    one = laid(OPEN)
    assert "trailing_edge" not in {load.row.name for load in one.rows}
    assert not one.effects.box.rear_closed
    only = laid(OPEN | {"method.skins_carry": '"shear only"'})
    for side in ("plus", "minus"):
        flow = only.effects.mean(f"skin_{side}")
        assert np.abs(flow).max() < 1e-6 * only.effects.size("web").max()


def test_an_open_trailing_edge_leaves_the_torque_to_the_spar():
    """Closed, the cell carries the couple of the horn; open, only the sheet's own twisting, and it turns far more."""
    shut, opened = laid({"method.skins_carry": '"shear only"'}), laid(OPEN | {"method.skins_carry": '"shear only"'})
    case = shut.case_titles.index("side load to the left, even")
    assert opened.case_titles[case] == shut.case_titles[case]
    twist = [np.abs(one.beam.T_0[case] / one.effects.box.closed.J).max() for one in (shut, opened)]
    assert twist[1] > 500.0 * twist[0]


# ---- rows


@pytest.mark.parametrize("bay", range(5))
def test_what_a_row_brings_to_a_sheet_is_the_change_of_its_axial_force(bay):
    """Between two cuts: spar row less trailing-edge row, along y, is the change of axial force of skin and half lap."""
    one = surfacecheck.assess(read(HAND / "rudder_by_hand.toml"))
    effects, box = one.effects, one.effects.box
    case = effects.cases.index("side load to the left, straight to zero")
    edges = np.flatnonzero(np.abs(np.diff(one.span.breaks)) > 1e-6)
    points = np.flatnonzero(one.span.bay == edges[bay])
    weight = one.span.stations.weight[points]
    stress = surfacecheck.checks.node_stress(effects, "edge")[case]
    lap = 0.5 * box.closed.boom[points[0], box.node("edge")]
    change = lap * (stress[points[-1]] - stress[points[0]])
    plus, minus = (effects.mean(f"skin_{side}")[case, points] for side in ("plus", "minus"))
    row = next(load for load in one.rows if load.row.name == "trailing_edge")
    across = np.abs(0.5 * (plus + minus))
    assert row.flow[row.effects.cases.index(effects.cases[case]), points] == pytest.approx(across, rel=1e-12, abs=1e-9)
    brought = (weight * (plus - 0.5 * (plus + minus))).sum()
    assert change == pytest.approx(brought, rel=1e-9, abs=1e-7)


def test_a_sheet_under_the_others_shares_the_row_in_any_order_of_the_stack(rudder):
    """Spar between skin and nose: each interface has the flow of one sheet; spar below both: the last their sum."""
    between = laid({"row.left_skin_to_spar.joins": '["left_skin", "spar", "nose_skin"]'})
    name = "left_skin_to_spar"
    one = next(load for load in between.rows if load.row.name == name)
    other = next(load for load in rudder.rows if load.row.name == name)
    skin, nose = one.layers["left_skin"], one.layers["nose_skin"]
    assert one.shear == pytest.approx(np.maximum(skin, nose), rel=1e-12, abs=1e-9)
    assert other.shear == pytest.approx(np.maximum(skin, other.layers["spar"]), rel=1e-12, abs=1e-9)
    assert one.layers["spar"] == pytest.approx(other.layers["spar"], rel=1e-12, abs=1e-9)
    assert np.any(np.abs(one.shear - other.shear) > 1.0)


def test_rivets_of_a_bracket_return_force_and_couple(rudder):
    for load in rudder.brackets:
        place = np.stack([np.zeros_like(load.a), load.a, load.b], axis=-1)
        assert load.share.sum(axis=1) == pytest.approx(load.force, rel=1e-9, abs=1e-8)
        couple = np.cross(place, load.share).sum(axis=1)
        assert couple == pytest.approx(np.cross(load.offset, load.force), rel=1e-9, abs=1e-9)
