"""What a sheet says of several events: each with its own drawing, options with what they answer, units of the file."""

from __future__ import annotations

import re

import numpy as np
import pytest

from surfacecheck.assessment import assess, assess_each
from surfacecheck.changes import columns_of
from surfacecheck.checks import Outcome
from surfacecheck.errors import SurfaceError
from surfacecheck.masses import weigh, weigh_as_changed
from surfacecheck.report import query_page
from surfacecheck.studies import DROPS, deviation, deviation_text, outcome_lines, query, query_text, rows_of
from surfacecheck.studies.deviating._query_blocks import OFF_LINE, SWUNG


def event(where, what, *lines):
    return "\n".join((f'where = "{where}"', f'what = "{what}"', *lines))


def one_line(text):
    return " ".join(text.split())


SHIM = event("top skin to spar", "shim", 'thickness = "0.025 in (micrometer)"')
EDGE = event("top skin to spar, rivet 9", "short edge", 'edge = "0.17 in (caliper)"', 'layers = ["spar"]')
GAUGE = event("top skin", "other gauge", 'thickness = "0.016 in (micrometer)"', 'try = ["part replaced"]')
PITCH = event("trailing edge", "pitch wrong", 'pitch = "1.5 in (ruler)"')
NO_LAYERS = ('smallest = "4.45 mm (drill shank)"', 'largest = "?"', 'edge = "?"')


def sheet_of(surface, system="metric"):
    return one_line(query_text(query(deviation(surface), system=system)))


def test_each_event_has_what_the_drawing_says_of_it(told):
    """Not all of it under the first, where it reads as if the shim had an edge."""
    text = sheet_of(told(SHIM, EDGE, base="elevator.toml"), "inch")
    shim, edge = text.index("Top skin to spar: shim."), text.index("Top skin to spar, rivet 9: short edge.")
    assert shim < edge < text.index("Drawing says: edge 0.30 in in the spar (ruler).")
    assert text.count("Drawing says") == 1


def test_what_the_drawing_says_is_said_in_words(told):
    text = sheet_of(told(PITCH, GAUGE, base="elevator.toml"), "inch")
    assert "Drawing says: trailing edge pitch 1.0 in (drawing)." in text
    assert "Drawing says: top skin thickness 0.020 in (micrometer)." in text
    drift = event("trailing edge", "row drifted", 'edge_first = "7 mm"', 'edge_last = "5 mm"',
                  'layers = ["left_skin", "right_skin"]')  # fmt: skip
    assert "Drawing says: edge 7.0 mm in the left skin and right skin (ruler)." in sheet_of(told(drift))


def test_what_was_not_measured_is_said(told):
    text = sheet_of(told(event("hinge bottom, bracket rivet 4", "hole too large", *NO_LAYERS)))
    assert "I have: smallest 4.45 mm (drill shank, once, +-0.05 mm); not measured: largest, edge." in text


def test_an_inch_file_has_an_inch_sheet_in_its_own_words(told):
    """No millimetre, no left, no up on an elevator measured in inches; 12.5 in keeps its point."""
    dent = event("top skin, at 12.5 in", "dent", 'thickness = "0.016 in"')
    gap = event("bottom skin to ribs, rib 3, rivets 2 and 3", "rivets missing")
    oval = event("hinge inner, bracket rivet 1", "hole oval", 'smallest = "0.166 in"', 'largest = "0.185 in"',
                 'largest_points = "out"', 'layers = ["spar"]')  # fmt: skip
    text = sheet_of(told(dent, gap, oval, PITCH, base="elevator.toml"), "inch")
    assert "the largest points out" in text
    assert "rib 3 at 12.5 in" in text
    assert "Top skin at 12.5 in, thin" in text
    assert "30 rivets, 1.50 in apart" in text
    assert not re.search(r"\d mm\b|\bleft skin\b|points up|\d \d+ in\b", text)


def test_an_option_says_which_event_it_answers(told):
    found = deviation(told(SHIM, GAUGE, base="elevator.toml"))
    assert "Option shown, shim taken out: top skin to spar: as drawn." in one_line(query_text(query(found)))
    assert any(line.startswith("part replaced (top skin: as drawn): ") for line in outcome_lines(found))
    alone = deviation(told(GAUGE, base="elevator.toml"))
    assert any(line.startswith("part replaced: ") for line in outcome_lines(alone))


def test_what_passes_names_the_part_and_says_that_it_is_as_drawn(told):
    off = event("hinge middle", "hinge off line", 'out_of_line = "0.3 mm left"')
    text = one_line(deviation_text(deviation(told(off))))
    assert "Middle hinge, pin: at limit, as drawn, the pin carries 491 N." in text
    nick = event("spar flange, at 560 mm", "nick", 'depth = "1.5 mm"')
    text = one_line(deviation_text(deviation(told(nick))))
    assert "Spar flange at 560 mm, notch: at limit, as it is now, the sheet there carries" in text


def test_a_strength_not_given_stands_beside_the_outcome(told):
    text = sheet_of(told(event("right skin to spar, rivet 8", "poor rivet")))
    assert f"{Outcome.CARRIES}; {Outcome.NOT_GIVEN}: rivet shears, rivet pulls out." in text


def test_what_is_a_bound_by_itself_stays_on_the_sheet(told):
    off = event("hinge middle", "hinge off line", 'out_of_line_aft = "0.3 mm behind"')
    gust = event("surface", "storm", 'wind = "35 knots"', 'swung = "25 deg"', 'stop_gives = "4 deg"')
    whole = query(deviation(told(off, gust)))
    for drop in range(1, len(DROPS) + 1):
        whole = whole.without(drop)
    assert all(words in one_line(query_text(whole)) for words in (OFF_LINE, SWUNG))
    assert not any(words in sheet_of(told(SHIM, base="elevator.toml")) for words in (OFF_LINE, SWUNG))


def test_the_numbers_of_a_working_stay_longer_than_its_letters():
    assert DROPS.index("letters of the working") < DROPS.index("places after the second") < DROPS.index("working")


def test_of_a_stop_no_empty_line_is_shown_and_the_lowest_anywhere_is_worked(told):
    stop = '[controls]\nstopped_at = "surface"\nstop = { up = "0 mm", arm = "60 mm", side = "both" }\n'
    surface = told(event("stop", "stop arm other", 'arm = "48 mm"'), more=stop)
    found = deviation(surface)
    assert rows_of(found, "place") == ()
    text = one_line(query_text(query(found)))
    assert "Worked (bottom hinge, pin)" in text
    assert "Drawing says: stop arm 60 mm" in text
    for column, way in zip(columns_of(surface), found.ways, strict=True):
        assert [f.margin for f in way.fully.margins] == [f.margin for f in assess(column.fully).margins]


def test_a_stop_whose_arm_varies_goes_through_as_one_stack(told):
    stop = '[controls]\nstopped_at = "surface"\nstop = { up = "90 mm", arm = "60 mm", side = "left" }\n'
    surfaces = [column.fully for column in columns_of(told(event("stop", "stop other", 'arm = "45 mm"'), more=stop))]
    for together, surface in zip(assess_each(surfaces[1:]), surfaces[1:], strict=True):
        assert [f.margin for f in together.margins] == [f.margin for f in assess(surface).margins]


def test_the_scale_saw_the_drawn_one(told):
    """0.004 in less of 2024 over the top skin, behind the web and by hand: trapezium 45 in long, 13.0 and 9.5 in wide.

    A = 45 (13.0 + 9.5) / 2 = 506 in2, and a little more where the skin goes round the slope; at 0.1 lb/in3 that is
    0.20 lb. The weighed 4.6 lb alone would hide it: "same".
    """
    found = deviation(told(GAUGE, base="elevator.toml"))
    drawn, now, back = (way.fully for way in found.ways)
    by_hand = 45.0 * (13.0 + 9.5) / 2.0 * 0.004 * 0.1 * 0.45359237
    assert drawn.mass - now.mass == pytest.approx(by_hand, rel=0.05)
    assert (back.mass, back.tail_heavy) == (drawn.mass, drawn.tail_heavy)
    (mass, moment) = rows_of(found, "balance", "inch")
    assert mass.cells[1].startswith("-3.")
    assert mass.cells[1].endswith(" oz")
    assert moment.cells[1].startswith("-1.")


def test_a_surface_as_drawn_is_weighed_as_ever(told):
    surface = told(GAUGE, base="elevator.toml")
    drawn = surface.drawn.surface
    assert float(weigh_as_changed(drawn).mass) == float(weigh(drawn).mass)
    again = told(GAUGE, base="elevator.toml", more='[weighed]\nmass = "4.2 lb"\n')
    now = columns_of(again)[1].fully
    assert float(weigh_as_changed(now).mass) == float(weigh(now).mass)


def test_rivets_in_rows_are_counted_as_they_are(told):
    gap = event("left skin to spar, rivets 22 and 23", "rivets missing",
                'try = ["rivet put in", "extra rivets either side"]')  # fmt: skip
    rows = {row.name: row.cells for row in rows_of(deviation(told(gap)), "whole")}
    drawn = int(rows["rivets in rows"][0])
    assert rows["rivets in rows"][1:] == (f"{drawn - 2} (-2)", "same", f"{drawn + 1} (+1)")


def test_a_title_alone_is_nothing_that_happened(told):
    with pytest.raises(SurfaceError, match="nothing happened to this surface"):
        deviation(told())


def test_an_arrow_of_the_load_path_is_never_broken(told):
    """On paper "-" and ">" stay on one line; the class that holds them together means nothing else."""
    page = query_page(query(deviation(told(SHIM, base="elevator.toml"))))
    assert page.count('<span class="unbroken">-&gt;</span>') >= 3
    style = page.partition("</style>")[0]
    assert re.findall(r"[^{}]*unbroken[^{}]*\{[^}]*\}", style) == ["\n.query .unbroken{white-space:nowrap}"]
    assert "-&gt;" not in page.replace('<span class="unbroken">-&gt;</span>', "").split("<details")[0]


def test_what_the_others_carry_is_of_the_same_case_when_a_gust_brings_cases_of_its_own(told):
    """By hand in lbf and in: 58.80 outwards and 7.718 aft, 1.00 ahead of the middle of six rivets, 0.65 by 0.80 apart.

    Rivet 1 gone, five are left, their middle 0.13 out and 0.08 across from that of six: y = 0, .65, -.65, 0, .65 and
    z = .4, .4, -.4, -.4, -.4. Pull in a plane through them holds 7.718 and the couples of 58.80 x 1.00 and of the
    offsets; shear 58.80 / 5 and the couple 58.80 x 0.08. Rivet 4, at the inner end, then carries 35.9.
    """
    y, z = np.array([0.0, 0.65, -0.65, 0.0, 0.65]), np.array([0.4, 0.4, -0.4, -0.4, -0.4])
    n, out, aft = 5, -58.80, -7.718
    a, b = y - y.mean(), z - z.mean()
    plane = np.stack([np.ones(n), a, b])
    pull = np.linalg.solve(plane @ plane.T, [aft, out - aft * y.mean(), -aft * z.mean()]) @ plane
    turn = -out * z.mean() / (a @ a + b @ b)
    by_hand = np.hypot(np.hypot(out / n + turn * b, -turn * a), np.maximum(pull, 0.0)).max()
    oval = event("hinge inner, bracket rivet 1", "rivet missing")
    gust = event("surface", "storm", 'wind = "45 knots"', 'swung = "27 deg"', 'stop_gives = "3 deg"')
    for events in ((oval,), (oval, gust)):
        (passes, *_) = deviation(told(*events, base="elevator.toml")).passing
        assert passes.most / 4.4482216 == pytest.approx(by_hand, rel=2e-3)


@pytest.mark.parametrize("events", [(SHIM,), (EDGE,), (SHIM, EDGE)], ids=["a row", "a rivet", "two"])
def test_the_word_on_every_sheet_is_deviation(events, told):
    text = sheet_of(told(*events, base="elevator.toml"), "inch").casefold()
    assert "1 what happened: the deviation" in text
    assert "slip" not in text
