"""What must hold of the whole chain, from surface file to margins, whatever the numbers are.

Mirror, half, unit system, superposition, balance against the load as typed, limits. Nothing here is a figure of its
own: each test holds one run of the chain against another, or against balance.
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


def swapped(*pairs):
    """Exchange words, both ways."""
    words = dict(pairs) | {b: a for a, b in pairs}
    pattern = re.compile("|".join(re.escape(word) for word in words))
    return lambda text: pattern.sub(lambda match: words[match.group()], text)


SIDES = swapped(("left", "right"))
ODD = {  # nothing of this rudder is the same on both sides
    "sheet.left_skin.thickness": '"0.6 mm"',
    "sheet.right_skin": '{ thickness = "0.5 mm", alloy = "2024-T3 clad" }',
    "sheet.nose_skin.thickness": '"0.5 mm"',
    "outline.pins_off_middle": '"5 mm left"',
    "hinge.middle.out_of_line": '"0.4 mm left"',
    "hinge.top.out_of_line": '"0 mm"',
    "hinge.top.fin_bends": '"3 mm left"',
    "row.left_skin_to_spar.pitch": '"20 mm"',
    "outline.swings_left": '"30 deg"',
    "rivet.small.shear": '"900 N"',
    "rivet.small.pull": '"700 N"',
}


@cache
def plain_rudder():
    return surfacecheck.assess(read(DATA / "rudder.toml"))


@pytest.fixture(scope="module")
def rudder():
    return plain_rudder()


@pytest.fixture(scope="module")
def odd():
    return laid(ODD)


@pytest.fixture(scope="module")
def mirrored():
    """The same rudder in the mirror: every left is a right, in keys and in answers."""
    skins = {
        "sheet.left_skin.thickness": '"0.5 mm"',
        "sheet.right_skin": '{ thickness = "0.6 mm", alloy = "2024-T3 clad" }',
    }
    bends = {
        "hinge.top.fin_bends": ODD["hinge.top.fin_bends"]
    }  # to the left for a load to the left: no side of its own
    rest = {SIDES(key): SIDES(answer) for key, answer in ODD.items() if not re.match("sheet.(left|right)_skin", key)}
    same = {"row.trailing_edge.joins": '["right_skin", "left_skin"]', "outline.swings_left": '"25 deg"'}
    return laid(skins | rest | same | bends)


def test_mirror_gives_the_same_margins_on_the_other_side(odd, mirrored):
    one, other = margins(odd), margins(mirrored, SIDES)
    assert one.keys() == other.keys()
    assert len(one) > 100
    assert {k: other[k] for k in one} == pytest.approx(one, rel=1e-9, abs=1e-9)


def test_mirror_turns_sideways_forces_and_leaves_the_rest(odd, mirrored):
    at = [mirrored.case_titles.index(SIDES(title)) for title in odd.case_titles]
    sign = np.array([1.0, 1.0, -1.0])
    assert mirrored.beam.reactions[at] == pytest.approx(odd.beam.reactions * sign, rel=1e-9, abs=1e-7)
    assert mirrored.beam.T_0[at] == pytest.approx(-odd.beam.T_0, rel=1e-9, abs=1e-8)


def test_mirror_swaps_the_rivets_of_brackets_and_horn(odd, mirrored):
    at = [mirrored.case_titles.index(SIDES(title)) for title in odd.case_titles]
    for one, other in zip(odd.brackets, mirrored.brackets, strict=True):
        pair = [int(np.argmin(np.hypot(other.a - a, other.b + b))) for a, b in zip(one.a, one.b, strict=True)]
        assert sorted(pair) == list(range(one.a.size))
        assert pair != list(range(one.a.size))  # rivet 1 is lowest left of both
        assert other.tension[at][:, pair] == pytest.approx(one.tension, rel=1e-9, abs=1e-7)
        assert other.shear[at][:, pair] == pytest.approx(one.shear, rel=1e-9, abs=1e-7)
        assert other.bound[at][:, pair] == pytest.approx(one.bound, rel=1e-9, abs=1e-7)
    one, other = odd.horn, mirrored.horn
    pair = [int(np.argmin(np.hypot(other.x - x, other.z + z))) for x, z in zip(one.x, one.z, strict=True)]
    assert other.share[at][:, pair] == pytest.approx(one.share * np.array([1.0, 1.0, -1.0]), rel=1e-9, abs=1e-7)


@pytest.fixture(scope="module")
def halves():
    text = (DATA / "elevator.toml").read_text(encoding="utf-8")
    assert text.count('half = "left"') == 1
    odd = text.replace('pins_off_middle = "0 in', 'pins_off_middle = "0.2 in top')
    assert odd != text
    text, odd = odd, odd.replace('fin_bends = "none"', 'fin_bends = "0.1 in top"\ngives_fore_aft = "0.01 in/lbf"', 1)
    odd = odd.replace('gives_fore_aft = "none"\n', "", 1)
    assert odd != text
    text, odd = (
        odd,
        odd.replace("[horn]", '[hinge.middle]\nsame_as = "outer"\nout = "21 in"\nfin_bends = "0.2 in top"\n[horn]', 1),
    )
    assert odd != text
    return [
        surfacecheck.assess(read_text(odd.replace('half = "left"', f'half = "{half}"'), "half.toml", folder=DATA))
        for half in ("left", "right")
    ]


def test_left_and_right_half_have_the_same_margins(halves):
    """Seen from outside the one is the other's mirror image: only z, and with it every sign, turns round."""
    left, right = halves
    assert sorted(left.case_titles) == sorted(right.case_titles)
    at = [right.case_titles.index(title) for title in left.case_titles]
    assert left.surface.left_is == -right.surface.left_is
    one, other = margins(left), margins(right)
    assert other.keys() == one.keys()
    assert other == pytest.approx(one, rel=1e-9, abs=1e-9)
    sign = np.array([1.0, 1.0, -1.0])
    assert right.beam.reactions[at] == pytest.approx(left.beam.reactions * sign, rel=1e-9, abs=1e-7)


UNITS = {
    "in": (25.4, "mm"), "psf": (47.88025898, "Pa"), "lbf": (4.4482216152605, "N"), "lb": (0.45359237, "kg"),
    "oz": (28.349523125, "g"), "ft2": (0.09290304, "m2"), "ksi": (6.894757293168361, "MPa"),
}  # fmt: skip
"""Inch, pound and their kin: ISO 80000-3 and -4, exact by the 1959 agreement; psf and ksi follow from them."""


def test_unit_system_does_not_matter():
    text = (DATA / "elevator.toml").read_text(encoding="utf-8")
    pattern = re.compile(r'"([0-9.]+) (' + "|".join(UNITS) + r")\b")
    metric, count = pattern.subn(lambda m: f'"{float(m[1]) * UNITS[m[2]][0]:.17g} {UNITS[m[2]][1]}', text)
    assert count > 80
    assert not pattern.search(metric)
    inch, other = (surfacecheck.assess(read_text(t, "units.toml", folder=DATA)) for t in (text, metric))
    assert margins(other) == pytest.approx(margins(inch), rel=1e-8, abs=1e-8)
    assert other.beam.reactions == pytest.approx(inch.beam.reactions, rel=1e-8, abs=1e-7)


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
        assert np.abs(flow).max() < 1e-6 * np.abs(only.effects.peak("web")).max()


def test_an_open_trailing_edge_leaves_the_torque_to_the_spar():
    """Closed, the cell carries the couple of the horn; open, only the sheet's own twisting, and it turns far more."""
    shut, opened = laid({"method.skins_carry": '"shear only"'}), laid(OPEN | {"method.skins_carry": '"shear only"'})
    case = shut.case_titles.index("side load to the left, even")
    assert opened.case_titles[case] == shut.case_titles[case]
    twist = [np.abs(one.beam.T_0[case] / one.effects.box.closed.J).max() for one in (shut, opened)]
    assert twist[1] > 500.0 * twist[0]


# ---- section and brackets


def test_flanges_ahead_or_behind_put_the_open_shear_centre_on_the_other_side():
    gone = {f"row.{row}.gone": '"yes"' for row in ("left_skin_to_spar", "right_skin_to_spar", "left_skin_to_ribs",
            "right_skin_to_ribs", "nose_skin_to_ribs", "trailing_edge")}  # fmt: skip
    bare = gone | {f"sheet.{skin}": '{ thickness = "none" }' for skin in ("left_skin", "right_skin", "nose_skin")}
    behind, ahead = (laid(bare | {"sheet.spar.flanges_point": f'"{way}"'}).effects.box for way in ("behind", "ahead"))
    away = behind.closed.x_s - behind.web_x
    assert (away < -1e-3).all()
    assert ahead.closed.x_s - ahead.web_x == pytest.approx(-away, rel=1e-9)


def test_flanges_ahead_or_behind_move_the_closed_shear_centre_less():
    behind, ahead = (laid({"sheet.spar.flanges_point": f'"{way}"'}) for way in ("behind", "ahead"))
    x = [one.effects.box.closed.x_s for one in (behind, ahead)]
    assert (x[1] > x[0]).all()
    case = behind.case_titles.index("side load to the left, even")
    assert ahead.beam.reactions[case].sum(axis=0) == pytest.approx(behind.beam.reactions[case].sum(axis=0), abs=1e-7)


def test_the_face_of_the_web_decides_which_rivets_are_pulled():
    ahead, behind = (laid({"bracket.plate.on_face": f'"{face}"'}) for face in ("ahead", "behind"))
    for one, other in zip(ahead.brackets, behind.brackets, strict=True):
        assert other.share == pytest.approx(one.share, rel=1e-12, abs=1e-12)
        assert one.tension - other.tension == pytest.approx(-one.share[..., 0], rel=1e-12, abs=1e-9)
        assert not np.any((one.tension > 0.0) & (other.tension > 0.0))


def test_rivets_of_a_bracket_return_force_and_couple(rudder):
    for load in rudder.brackets:
        place = np.stack([np.zeros_like(load.a), load.a, load.b], axis=-1)
        assert load.share.sum(axis=1) == pytest.approx(load.force, rel=1e-9, abs=1e-8)
        couple = np.cross(place, load.share).sum(axis=1)
        assert couple == pytest.approx(np.cross(load.offset, load.force), rel=1e-9, abs=1e-9)


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
