"""Events that leave nothing that holds, that tell one edge twice, that do not say what or where: one clear line."""

from __future__ import annotations

import pytest

from surfacecheck.changes import columns_of
from surfacecheck.errors import SurfaceError


def event(where: str, what: str, *lines: str) -> str:
    return "\n".join((f'where = "{where}"', f'what = "{what}"', *lines))


RIVET = "hinge middle, bracket rivet 3"
ROW_RIVET = "left skin to spar, rivet 5"
WEB, FLANGE = "spar web, at 670 mm", "spar flange, at 560 mm"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (event("left skin to spar, rivets 1 to 43", "rivets missing"), "of left skin to spar none of the 43 rivets"),
        (event("hinge middle, bracket rivets 1 to 6", "rivets missing"), "of middle hinge, bracket none of the 6 "),
        (event("horn rivets 1 to 8", "poor rivet"), "none of the 8 rivets would hold"),
        (event("ribs to spar, rib 3, rivets 1 and 2", "rivets missing"), "none of the 2 rivets would hold"),
        (event(WEB, "lightening hole", 'across = "70 mm"'), "but the spar is 50.9 mm deep"),
        (event(WEB, "stray hole", 'across = "60 mm"'), "but the spar is 50.9 mm deep"),
        (
            event("nose skin, at 600 mm", "stray hole", 'across = "3.3 mm"'),
            "worked for the spar and the skins behind it",
        ),
        (event("nose skin, at 600 mm", "nick", 'depth = "1 mm"'), "worked for the spar and the skins behind it"),
        (
            event(ROW_RIVET, "hole too large", 'smallest = "36 mm"', 'layers = ["spar"]'),
            "a hole of 36 mm (smallest) is wider than from rivet to rivet",
        ),
        (
            event(
                ROW_RIVET, "hole too large", 'smallest = "20 mm"', 'layers = ["left_skin", "spar"]', 'rivet_in = "yes"'
            ),
            "a hole of 20 mm (smallest) goes over the edge of left skin, 7.0 mm from its centre as drawn",
        ),
        (
            event("hinge middle", "bracket off", 'off_sideways = "100 mm left"'),
            "takes rivets of the bracket off the web",
        ),
        (event("hinge middle", "bracket off", 'off_sideways = "20 mm right"'), "the spar is 52.4 mm deep there"),
        (event(FLANGE, "nick", 'depth = "18 mm"'), "but the flange is 18.0 mm wide"),
        (event(RIVET, ""), 'what is not said. Write: what = "'),
        (event("", "rivet missing"), 'where is not said. Write: where = "'),
    ],
)
def test_what_leaves_nothing_is_refused(text: str, words: str, told) -> None:
    with pytest.raises(SurfaceError) as caught:
        columns_of(told(text))
    (fault,) = caught.value.faults
    assert words in fault.message
    assert "\n" not in fault.message
    assert fault.file == "tried.toml"


def test_all_but_one_may_be_out(told) -> None:
    """The last rivet that holds keeps the question inside the method; one more out and it is refused."""
    assert len(columns_of(told(event("hinge middle, bracket rivets 1 to 5", "rivets missing")))) > 1
    assert len(columns_of(told(event(WEB, "lightening hole", 'across = "50 mm"')))) > 1


def test_an_edge_of_every_layer_contradicts_one_of_a_single_layer(told) -> None:
    """A hole event with an edge but without layers tells the edge of all of them."""
    hole = event(RIVET, "hole too large", 'smallest = "4.45 mm"', 'edge = "6 mm"')
    for events in ((event(RIVET, "short edge", 'edges = { bracket = "7 mm" }'), hole),
                   (hole, event(RIVET, "short edge", 'edges = { bracket = "7 mm" }'))):  # fmt: skip
        with pytest.raises(SurfaceError, match="tells its edge already"):
            columns_of(told(*events))
    plain = event(RIVET, "hole too large", 'smallest = "4.45 mm"')
    assert len(columns_of(told(event(RIVET, "short edge", 'edges = { bracket = "7 mm" }'), plain))) > 1


def test_how_a_rivet_sits_is_told_once(told) -> None:
    with pytest.raises(SurfaceError, match=r'"poor rivet"\) tells how it sits already'):
        columns_of(told(event(RIVET, "poor rivet"), event(RIVET, "rivet too long")))


def test_an_option_of_its_nature_that_cannot_be_there_says_why(told) -> None:
    """Offered, not named: left out with its reason, never in silence; what is named and cannot be is refused."""
    hole = (RIVET, "hole too large", 'smallest = "4.45 mm"')
    now = columns_of(told(event(*hole)))[1]
    assert now.not_offered == ('next size: part D has no larger rivet than 4.0 mm. Write its size: "next size 4.8 mm"',)
    assert columns_of(told(event(*hole, 'try = ["rivet not there"]')))[1].not_offered == ()
    with pytest.raises(SurfaceError, match="no larger rivet"):
        columns_of(told(event(*hole, 'try = ["next size"]')))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (event("hinge middle", "hinge off line"), ('out_of_line = "... mm left"', 'out_of_line_aft = "... mm behind"')),
        (event("hinge middle", "bracket off"), ('off_along = "... mm up"', 'turned = "... deg left"')),
    ],
)
def test_what_is_asked_can_be_copied_with_its_way_and_unit(text: str, words: tuple[str, ...], told) -> None:
    with pytest.raises(SurfaceError) as caught:
        columns_of(told(text))
    assert all(one in caught.value.faults[0].message for one in words)


@pytest.mark.parametrize("off", ['off_sideways = "12 mm left"', 'off_along = "30 mm down"'])
def test_a_bracket_off_by_little_is_worked(off: str, told) -> None:
    assert columns_of(told(event("hinge middle", "bracket off", off)))[1].title.startswith("as it is now")
