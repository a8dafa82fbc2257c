"""The picture of a touched place: to scale, with its numbers, words clear of each other; the page and the sheet."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read, read_text
from surfacecheck.report import deviation_page, deviation_picture, query_page
from surfacecheck.report._style import FONT, RAMP, WIDE
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import deviation, fitted, query, query_text, rows_of

DATA = Path(__file__).parents[2] / "data"
PLACE = "hinge.middle.bracket.rivet-3"


@pytest.fixture(scope="module")
def found():
    return deviation(read(DATA / "rudder.toml", DATA / "rudder_oversize_hole.toml"))


def words_in(fig):
    return " ".join(text.get_text() for text in (*fig.texts, *(t for ax in fig.axes for t in ax.texts)))


def boxes(fig):
    renderer = FigureCanvasAgg(fig).get_renderer()
    out = []
    for text in (*fig.texts, *(t for ax in fig.axes for t in ax.texts)):
        box = text.get_window_extent(renderer)
        air = 0.25 * box.height / (text.get_text().count("\n") + 1)
        out.append((text.get_text(), box.x0 + 1, box.y0 + air, box.x1 - 1, box.y1 - air))
    return [one for one in out if one[0].strip()]


def clashes(fig):
    return [
        (a[0], b[0])
        for a, b in combinations(boxes(fig), 2)
        if min(a[3], b[3]) > max(a[1], b[1]) and min(a[4], b[4]) > max(a[2], b[2])
    ]


def outside(fig):
    wide, tall = fig.get_figwidth() * fig.dpi, fig.get_figheight() * fig.dpi
    return [box for box in boxes(fig) if box[1] < -2 or box[3] > wide + 2 or box[2] < -2 or box[4] > tall + 2]


@pytest.mark.parametrize("brief", [False, True])
@pytest.mark.parametrize("system", ["metric", "inch"])
def test_no_two_words_lie_on_each_other(found, system, brief):
    fig = deviation_picture(found, PLACE, system, brief=brief)
    assert clashes(fig) == []
    assert outside(fig) == []
    assert fig.get_figwidth() == WIDE
    assert min(t.get_fontsize() for ax in fig.axes for t in ax.texts) >= FONT


EVENTS = {
    "nick": ("rudder", "spar flange, at 560 mm", 'depth = "1.5 mm"\nradius = "6 mm"'),
    "corner radius": ("elevator", "spar flange, at 12 in", 'depth = "0.06 in"\nradius = "0.02 in"'),
    "stray hole": ("rudder", "spar web, at 325 mm", 'across = "4.1 mm"'),
    "lightening hole": ("elevator", "spar web, at 12 in", 'across = "0.9 in"'),
    "dent filed out": ("rudder", "spar web, at 325 mm", 'thickness = "0.6 mm"'),
    "rivets missing": ("rudder", "left skin to spar, rivets 22 and 23", ""),
    "short edge": ("elevator", "top skin to ribs, rib 3, rivet 2", 'layers = ["ribs"]\nedge = "0.15 in"'),
    "rivet missing": ("rudder", "horn rivet 1", ""),
    "poor rivet": ("rudder", "hinge bottom, bracket rivet 1", ""),
    "hinge off line": ("rudder", "hinge middle", 'out_of_line = "0.4 mm left"'),
}


@pytest.fixture(scope="module", params=EVENTS)
def event(request):
    name, where, more = EVENTS[request.param]
    text = f'based_on = "{name}.toml"\ntitle = "x"\n[[happened]]\nwhere = "{where}"\nwhat = "{request.param}"\n{more}\n'
    return deviation(read_text(text, "c.toml", DATA))


@pytest.mark.parametrize("brief", [False, True])
@pytest.mark.parametrize("system", ["metric", "inch"])
def test_words_stay_clear_of_each_other_for_every_sort_of_place(event, system, brief):
    fig = deviation_picture(event, None, system, brief=brief)
    assert clashes(fig) == []
    assert outside(fig) == []
    lengths = [word for word in words_in(fig).split() if word in {"mm", "in"}]
    assert set(lengths) <= ({"mm"} if system == "metric" else {"in"})


def spot_of(found):
    """The enlarged axes of a place of the spar, and what is drawn there, as width and height [m]."""
    right = deviation_picture(found).axes[1]
    box = next(patch for patch in right.patches if patch.get_gid() == "happened-near").get_path().get_extents()
    return box.width, box.height


def test_holes_and_nicks_of_the_spar_are_to_scale():
    def found(what):
        name, where, more = EVENTS[what]
        text = f'based_on = "{name}.toml"\ntitle = "x"\n[[happened]]\nwhere = "{where}"\nwhat = "{what}"\n{more}\n'
        return deviation(read_text(text, "c.toml", DATA))

    assert spot_of(found("stray hole")) == pytest.approx((4.1e-3, 4.1e-3), rel=5e-3)
    # half an ellipse 1.5 deep whose bottom has a radius of 6: half as long as sqrt(1.5 x 6) = 3 to either side
    assert spot_of(found("nick")) == pytest.approx((1.5e-3, 6.0e-3), rel=5e-3)
    assert "At most 208 N across the spar" in words_in(deviation_picture(found("stray hole")))


def test_it_has_the_numbers_of_the_sentence(found):
    words, passes = words_in(deviation_picture(found)), found.passing[0]
    assert f"{passes.shear:.1f} N" in words
    assert f"{passes.pull:.0f} N pull" in words
    assert "Hole now (line) 4.45 mm wide, 4.60 mm tall; drawn (dashes) 4.10 mm." in words
    assert "8 mm" in words
    assert "Seen from behind" in words
    assert "no approval" in words
    assert "no approval" not in words_in(deviation_picture(found, alone=False))


def test_the_hole_is_drawn_to_scale(found):
    """Of the enlarged axes: the outline of the hole is 4.45 wide and 4.60 tall, drawn dashes 4.10, in metres."""
    right = deviation_picture(found).axes[1]
    hole = next(patch for patch in right.patches if patch.get_gid() == "hole-now")
    box = hole.get_path().get_extents()
    assert (box.width, box.height) == pytest.approx((0.00445, 0.00460), rel=5e-3)
    scale_x = right.bbox.width / (right.get_xlim()[1] - right.get_xlim()[0])
    scale_y = right.bbox.height / (right.get_ylim()[1] - right.get_ylim()[0])
    assert scale_x == pytest.approx(scale_y, rel=1e-9)


def test_arrows_go_where_the_forces_go(found):
    """Seen from behind, a force to the right points to the right; every rivet of the group has its arrow."""
    left = deviation_picture(found).axes[0]
    arrows = [patch for patch in left.patches if (patch.get_gid() or "").startswith("load-")]
    assert len(arrows) == 6
    for arrow in arrows:
        (x0, _), (x1, _) = arrow._posA_posB
        assert x1 > x0


def test_only_the_one_hue_and_the_same_bytes(found):
    first, again = (to_svg(deviation_picture(found), "a") for _ in range(2))
    assert first == again
    colours = {one.lower() for one in re.findall(r"#[0-9a-fA-F]{6}", re.sub(r'(id|href|url)[=(]"?[^" )]*', "", first))}
    assert colours <= {one.lower() for one in RAMP} | {"#ffffff", "#000000"}


def test_a_place_that_is_not_touched(found):
    with pytest.raises(SurfaceError, match=r"not touched; touched: hinge\.middle"):
        deviation_picture(found, "hinge.top.bracket.rivet-1")


def test_page_and_sheet_have_the_numbers_of_the_table(found):
    page, sheet = deviation_page(found), query_page(fitted(query(found)))
    for row in rows_of(found, "place"):
        for cell in row.cells:
            assert f">{cell}<" in page
    assert query_text(fitted(query(found))) in sheet.replace("&gt;", ">").replace("&#39;", "'")
    for text in (page, sheet):
        assert "<script" not in text
        assert "No flight on the strength of this page." in text
        assert not re.search(r"\b(safe|OK|passes|fine|approved|slip)\b", re.sub(r"<[^>]*>", " ", text))


def test_the_page_shows_the_working_of_every_margin_here(found):
    """Evaluated as it stands on the page: filled formulas give the margins that the table shows."""
    page = re.sub(r"<[^>]*>", " ", deviation_page(found)).replace("&gt;", ">")
    shown = re.findall(r"margin = (1 / \([0-9.* +/()sqrt]*?\) - 1) = +([+-]\d+\.\d\d)", page)
    assert shown
    for formula, result in shown:
        assert f"{eval(formula, {'sqrt': lambda x: x**0.5}):+.2f}" == result  # noqa: S307 - our own text
    here = {f"{f.margin:+.2f}" for way in found.ways for f in way.here(found.places)}
    assert {result for _, result in shown} == here
