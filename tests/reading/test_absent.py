"""A part that was looked for and is not there goes out of the rows that name it, and says so."""

import numpy as np
import pytest

import surfacecheck


def changed(what, root):
    text = f'based_on = "rudder.toml"\ntitle = "off"\n{what}\n'
    return surfacecheck.read_text(text, folder=root / "data")


def test_without_a_nose_skin_its_rows_go_and_the_others_stay(request):
    surface = changed('sheet.nose_skin.thickness = "none"', request.config.rootpath)
    assert "nose_skin_to_ribs" not in surface.rows
    assert surface.rows["left_skin_to_spar"].joins == ("left_skin", "spar")
    assert "nose_skin" not in surface.rows["left_skin_to_spar"].edge
    assert any("nose_skin_to_ribs is left out" in remark for remark in surface.remarks)


@pytest.mark.parametrize(("skin", "rows"), [("left_skin", {"left_skin_to_ribs", "trailing_edge"})])
def test_one_skin_off_gives_an_open_box(skin, rows, request):
    surface = changed(f'sheet.{skin} = {{ thickness = "none" }}', request.config.rootpath)
    assert not rows & set(surface.rows)
    drawn = surfacecheck.assess(surfacecheck.read(request.config.rootpath / "data" / "rudder.toml"))
    opened = surfacecheck.assess(surface)
    assert not opened.effects.box.rear_closed
    # twist of the whole span under one torque: the stretches without a nose cell decide, whatever the stations
    closed, open_ = ((one.span.stations.weight / one.effects.box.closed.J).sum() for one in (drawn, opened))
    assert open_ / closed > 1000.0
    assert all(np.isfinite(finding.margin) for finding in opened.margins)


def test_an_unfilled_row_of_a_folded_trailing_edge_is_left_out(request):
    text = (
        (request.config.rootpath / "data" / "rudder.toml").read_text(encoding="utf-8").replace("riveted shut", "folded")
    )
    head, row = text.split("[row.trailing_edge]")
    body, rest = row.split("[row.ribs_to_spar]")
    blank = body.replace("20 mm (ruler)", "?").replace("1080 mm (ruler)", "?").replace("25 mm (drawing)", "?")
    surface = surfacecheck.read_text(f"{head}[row.trailing_edge]{blank}[row.ribs_to_spar]{rest}")
    assert "trailing_edge" not in surface.rows
    assert any(remark.startswith("row.trailing_edge is left out") for remark in surface.remarks)
    assert not any(gap.startswith("row.trailing_edge") for gap in surface.gaps)
    with pytest.raises(surfacecheck.SurfaceError, match="do not meet"):
        surfacecheck.read_text(text)


def test_hinges_whose_places_are_swapped_are_remarked_on(request):
    surface = changed('hinge.middle.up = "1050 mm"', request.config.rootpath)
    assert "hinge.middle lies beyond hinge.top: are the two places swapped?" in surface.remarks
