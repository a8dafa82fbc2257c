"""The picture of a comparison of rivets: what is drawn is what was worked, told apart without colour."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.errors import SurfaceError
from surfacecheck.report import rivets_page, rivets_picture
from surfacecheck.studies import CRITERIA, Alternatives, limits, rivets

DATA = Path(__file__).parents[2] / "data"
MM = 1e-3


@pytest.fixture(scope="module")
def rudder():
    return surfacecheck.assess(surfacecheck.read(DATA / "rudder.toml"))


@pytest.fixture(scope="module")
def found(rudder):
    given = Alternatives(
        pitch=(20 * MM, 25 * MM, 40 * MM), rivet=("small", "large", "ISO 15977 H"), edge=(5 * MM, 7 * MM)
    )
    return rivets(rudder, "left_skin_to_spar", given)


@pytest.fixture(scope="module")
def picture(found):
    return rivets_picture(found)


def drawn(picture, prefix):
    return {line.get_gid(): line for ax in picture.axes for line in ax.lines if str(line.get_gid()).startswith(prefix)}


def test_every_alternative_has_its_symbol_at_its_margin(found, picture):
    marks = drawn(picture, "marks")
    points = np.concatenate([np.column_stack(line.get_data()) for line in marks.values()])
    (table,) = found.rows
    expected = np.column_stack([table.pitch / MM, found.whole.margin])
    assert sorted(map(tuple, points.round(9))) == sorted(map(tuple, expected.round(9)))
    full = sum(len(line.get_xdata()) for name, line in marks.items() if name.endswith("best"))
    assert full == found.best.sum()


def test_a_symbol_is_what_gives_first(found, picture):
    (table,) = found.rows
    ways = {table.modes[way][1] for way in table.gives}
    markers = {line.get_marker() for line in drawn(picture, "marks").values()}
    assert len(markers) == len(ways) > 2
    texts = {text.get_text() for ax in picture.axes for text in ax.texts}
    assert ways <= texts


def test_lines_are_told_apart_by_their_dashes_and_go_through_the_symbols(found, picture):
    lines = drawn(picture, "line")
    assert len(lines) == 6
    assert len({str(line._unscaled_dash_pattern) for line in lines.values()}) == 6
    (table,) = found.rows
    for i in range(found.size):
        at = table.pitch[i] / MM
        near = [abs(np.interp(at, *line.get_data()) - found.whole.margin[i]) for line in lines.values()]
        assert min(near) < 0.03, i


def test_bars_say_what_the_texts_allow(found, picture):
    words = [text.get_text() for text in picture.texts]
    for one in limits(found):
        assert any(
            word.startswith(f"{'to' if one.most else 'from'} ") and one.field in " ".join(words) for word in words
        )
    fills = [patch for ax in picture.axes for patch in ax.patches]
    assert any(patch.get_hatch() for patch in fills)
    assert any(not patch.get_hatch() for patch in fills)


def test_text_and_page_name_all_that_alternatives_are_compared_in(found, picture):
    """Table and picture of the page, and the text: rules that are met and known strengths count as well."""
    key = " ".join(text.get_text() for ax in picture.axes for text in ax.texts)
    assert f"another is as good in {CRITERIA}, and better in one" in key
    for text in (str(found), rivets_page(found)):
        assert f"nothing else beats it in {CRITERIA}" in " ".join(text.split())
    assert len(CRITERIA.replace(" and ", ", ").split(", ")) == 5


def test_it_says_in_words_what_it_shows_and_carries_the_caution(found, picture):
    assert picture.words.startswith("Margins of 18 alternatives against pitch, ")
    assert "no approval" in " ".join(text.get_text() for text in picture.texts)
    assert picture.png() == rivets_picture(found).png()


def test_rows_by_number_are_drawn_against_their_number(rudder):
    picture = rivets_picture(rivets(rudder, "ribs_to_spar", Alternatives(count=(1, 2, 3))))
    (line,) = drawn(picture, "line").values()
    assert line.get_xdata().tolist() == [1.0, 2.0, 3.0]
    assert [ax.get_xlabel() for ax in picture.axes if ax.get_xlabel()] == ["rivets on each rib"]


def test_rows_of_both_kinds_in_inches(rudder):
    given = Alternatives(pitch=(25 * MM,), count=(3,))
    picture = rivets_picture(rivets(rudder, ["trailing_edge", "right_skin_to_ribs"], given), "inch")
    assert [ax.get_xlabel() for ax in picture.axes if ax.get_xlabel()] == ["real pitch where it is lowest, in"]


def test_nothing_to_draw_is_one_line_and_the_page_stands_without(rudder):
    nothing = rivets(rudder, "left_skin_to_spar", Alternatives(pitch=(1.2,)))
    with pytest.raises(SurfaceError, match="no alternative has a margin"):
        rivets_picture(nothing)
    page = rivets_page(nothing)
    assert "<svg" not in page
    assert "is longer than the row" in page
    assert rivets_page(nothing, "inch") != page


def test_lines_that_lie_on_each_other_are_named_in_the_key(rudder):
    """With 7 or 8 mm of edge a row of small rivets carries the same: one line hides the other, also in colour."""
    given = Alternatives(pitch=(20 * MM, 40 * MM), rivet=("small", "ISO 15977 H"), edge=(7 * MM, 8 * MM))
    picture = rivets_picture(rivets(rudder, "left_skin_to_spar", given))
    key = " ".join(text.get_text() for ax in picture.axes for text in ax.texts)
    assert "small, edge 8.00 mm (?): lies on small, edge 7.00 mm" in key
    assert key.count("lies on") == 2
    apart = rivets_picture(rivets(rudder, "left_skin_to_spar", Alternatives(rivet=("small", "ISO 15977 H"))))
    assert "lies on" not in " ".join(text.get_text() for ax in apart.axes for text in ax.texts)


def test_table_picture_and_pitch_for_margin_zero_agree_on_ribs():
    """Every rib divides its own length: what is shown is the pitch of the rib that decides, and zero is where it is."""
    surface = surfacecheck.assess(surfacecheck.read(DATA / "elevator.toml"))
    wanted = tuple(MM * one for one in (60, 110, 141, 157, 173))
    found = rivets(surface, "top_skin_to_ribs", Alternatives(pitch=wanted))
    (table,) = found.rows
    zero = table.zero_pitch[0]
    assert ((table.margin < 0.0) == (table.ruling > zero)).all()
    for i in (0, 2, 4):
        alone = surfacecheck.assess(found.surface_of(i))
        own = [one for one in alone.margins if one.check.place == "row.top_skin_to_ribs"]
        load = next(load for load in alone.rows if load.row.name == "top_skin_to_ribs")
        rib = list(load.spots).index(min(own, key=lambda one: one.margin).spot)
        assert table.ruling[i] == table.laid.plans[table.layout[i]].rib_pitch[rib]
    picture = rivets_picture(found)
    (line,) = drawn(picture, "line").values()
    x, y = line.get_data()
    assert np.interp(zero / MM, x, y) == pytest.approx(0.0, abs=0.01)
    for i in range(found.size):
        assert np.interp(table.ruling[i] / MM, x, y) == pytest.approx(table.margin[i], abs=1e-9)
    assert [ax.get_xlabel() for ax in picture.axes if ax.get_xlabel()] == ["real pitch where it is lowest, mm"]
    assert "on the rib with the lowest margin" in " ".join(str(found).split())
