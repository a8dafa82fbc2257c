"""The whole chain in the mirror, on the other half, and in other units: the same margins.

Nothing here is a figure of its own: each test holds one run of the chain, from surface file to margins, against
another.
"""

import re
from pathlib import Path

import numpy as np
import pytest

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
    at = [mirrored.fittings.cases.index(SIDES(title)) for title in odd.fittings.cases]
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


def test_two_rows_one_after_the_other_share_the_span_between_them():
    """Each is judged by the load of its own stretch, and together by what one row along the whole span has."""
    name = "left_skin_to_spar"
    rest = 'rivet = "small", pitch = "25 mm"'
    upper = f'{{ joins = ["left_skin", "nose_skin", "spar"], from = "600 mm", to = "1080 mm", {rest} }}'
    rudder = surfacecheck.assess(read(DATA / "rudder.toml"))
    two = laid({f"row.{name}.to": '"570 mm"', f"row.{name}.pitch": '"25 mm"', "row.upper": upper})
    whole, low, high = (
        next(load for load in one.rows if load.row.name == which)
        for one, which in ((rudder, name), (two, name), (two, "upper"))
    )
    y = two.span.y
    assert not low.flow[:, y > 0.585].any()
    assert not high.flow[:, y < 0.585].any()
    same = [not case.startswith("along") for case in whole.cases]  # one rivet less weighs less
    for load, here in ((low, y < 0.585), (high, y > 0.585)):
        assert load.flow[same][:, here] == pytest.approx(whole.flow[same][:, here], rel=1e-12, abs=1e-9)
    for finding in two.findings:
        if finding.check.place == "row.upper" and finding.margin is not None and np.isfinite(finding.margin):
            assert float(re.search(r"(\d+) mm", finding.spot)[1]) >= 585.0, finding.name
