"""The picture of one gone at a time, and of unlike rivets: a mark for everything, sizes that follow the margins."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from surfacecheck.assessment import assess, margin_text
from surfacecheck.checks import Outcome
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read
from surfacecheck.report import gone_page, gone_picture, mixed_page, mixed_picture
from surfacecheck.report._gone_picture import mark_of
from surfacecheck.report._style import FONT, RAMP
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import mixed_row, one_gone

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module", params=["rudder", "elevator"])
def gone(request):
    return one_gone(assess(read(DATA / f"{request.param}.toml")))


@pytest.fixture(scope="module")
def mixed():
    assessment = assess(read(DATA / "rudder.toml"))
    return mixed_row(assessment, "left_skin_to_spar", [11, 13, 15], other="large", slack=0.02e-3)


def marks(fig):
    return {line.get_gid(): line for ax in fig.axes for line in ax.lines if (line.get_gid() or "").startswith("gone-")}


def test_a_mark_for_everything(gone):
    fig = gone_picture(gone)
    assert set(marks(fig)) == {f"gone-{one.name}" for one in gone.items}
    words = " ".join(t.get_text() for ax in fig.axes for t in ax.texts)
    for one in gone.items:
        found = one.here or one.lowest
        assert ("not held" if found is None else margin_text(found.margin)) in words


def test_less_left_is_larger_and_darker(gone):
    drawn = marks(gone_picture(gone))
    ordered = sorted((one for one in gone.items if one.here and one.outcome != Outcome.OUTSIDE),
                     key=lambda one: one.here.margin)  # fmt: skip
    sizes = [drawn[f"gone-{one.name}"].get_markersize() for one in ordered]
    assert sizes == sorted(sizes, reverse=True)
    for one in gone.items:
        mark = drawn[f"gone-{one.name}"]
        assert (mark.get_marker() == "X") == (one.outcome == Outcome.OUTSIDE)
        short = one.here is not None and one.here.margin < 0.0 and one.outcome != Outcome.OUTSIDE
        assert (mark.get_markerfacecolor() == RAMP[0]) == short


def test_marks_lie_where_things_are(gone):
    span, drawn = gone.assessment.span, marks(gone_picture(gone))
    for name, b in span.hinges.items():
        assert drawn[f"gone-hinge.{name}"].get_xydata()[0] == pytest.approx([0.0, span.breaks[b]])
    for i, b in enumerate(span.ribs):
        assert drawn[f"gone-rib-{i + 1}"].get_xydata()[0][1] == pytest.approx(span.breaks[b])


def test_rivets_lie_as_they_are_seen(gone):
    """Rivet 1 lowest left (a flat half: where its view says), numbers up, then the next column."""
    drawn = marks(gone_picture(gone))
    load = gone.assessment.brackets[0]
    at = np.array([drawn[f"gone-hinge.{load.hinge.name}.bracket.rivet-{n}"].get_xydata()[0] for n in range(1, 7)])
    if gone.assessment.surface.kind == "rudder":
        assert (np.diff(at[:3, 1]) > 0.0).all()
        assert at[0, 0] < at[3, 0]
    else:
        assert np.allclose(at[:3, 1], at[0, 1])
        assert at[0, 1] > at[3, 1]
    assert len({tuple(np.round(place, 6)) for place in at}) == 6


@pytest.mark.parametrize("which", ["gone", "mixed"])
def test_no_two_words_lie_on_each_other(which, gone, mixed):
    fig = gone_picture(gone) if which == "gone" else mixed_picture(mixed)
    renderer = FigureCanvasAgg(fig).get_renderer()
    boxes = []
    for text in (*fig.texts, *(t for ax in fig.axes for t in ax.texts)):
        box = text.get_window_extent(renderer)
        air = 0.25 * box.height / (text.get_text().count("\n") + 1)
        boxes.append((text.get_text(), box.x0 + 1, box.y0 + air, box.x1 - 1, box.y1 - air))
        assert text.get_fontsize() >= FONT
    clashes = [
        (a[0], b[0])
        for a, b in combinations(boxes, 2)
        if min(a[3], b[3]) > max(a[1], b[1]) and min(a[4], b[4]) > max(a[2], b[2])
    ]
    assert clashes == []
    wide = fig.get_figwidth() * fig.dpi
    assert [b[0] for b in boxes if b[1] < -2 or b[3] > wide + 2] == []


def test_one_hue_and_the_same_bytes(gone, mixed):
    for draw in (lambda: gone_picture(gone), lambda: mixed_picture(mixed)):
        text = to_svg(draw(), "a")
        colours = set(re.findall(r"#[0-9a-f]{6}\b", re.sub(r'(id|href|url)[=(]"?[^" )]*', "", text)))
        assert colours <= {c.lower() for c in RAMP} | {"#ffffff", "#f4f7f9", "#000000"}
        assert text == to_svg(draw(), "a")


def test_curves_are_the_loads(mixed):
    fig = mixed_picture(mixed)
    lines = {line.get_gid(): line for ax in fig.axes for line in ax.lines if line.get_gid()}
    share = mixed.shares[0]
    for gid, line in lines.items():
        x, y = line.get_xydata().T
        assert x == pytest.approx(share.flows * 1e-3)
        if gid == "even":
            assert y == pytest.approx(share.flows * mixed.line.pitch)
        else:
            assert y == pytest.approx(share.loads[:, int(gid.removeprefix("rivet-")) - 1])
    assert {"rivet-11", "rivet-13", "even"} <= set(lines)


def test_pages_need_nothing(gone, mixed):
    whole = gone_page(gone)
    for text in (whole, mixed_page(mixed)):
        assert text.startswith("<!DOCTYPE html>")
        assert not re.search(r"<(script|link|img|iframe)\b", text)
        assert text.count("<svg") == 1
        assert "no approval" in text
        assert len(text) < 200_000
        ids = re.findall(r'\bid="([^"]*)"', text)
        assert len(ids) == len(set(ids))
    for one in gone.items:
        assert one.part.split(" at ")[0] in whole


def test_without_a_trailing_edge_there_is_nothing_to_draw(gone):
    surface = gone.assessment.surface
    places = tuple(replace(p, edge_behind=replace(p.edge_behind, si=None)) for p in surface.outline.places)
    bare = replace(surface, outline=replace(surface.outline, at=places))
    odd = replace(gone, assessment=replace(gone.assessment, surface=bare))
    with pytest.raises(SurfaceError, match="edge_behind"):
        gone_picture(odd)
    assert "<svg" not in gone_page(odd)


def test_looks_do_not_need_a_margin(gone):
    item = replace(gone.items[-1], lowest=None, here=None)
    assert mark_of(item)["markersize"] == 5.0
