"""Each kind of event: what it changes in the model, and what it asks for."""

from __future__ import annotations

from pathlib import Path

import pytest

from surfacecheck.changes import KINDS, columns_of, kind_of
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Happened, specs

DATA = Path(__file__).parents[2] / "data"
ROW, RIB = "row.left_skin_to_spar", "row.left_skin_to_ribs.rib-3"
BRACKET, HORN = "hinge.middle.bracket", "horn.rivets"


def event(where: str, what: str, *lines: str) -> str:
    return "\n".join((f'where = "{where}"', f'what = "{what}"', *lines))


EVENTS = {
    "hole oval": (
        event("left skin to spar, rivet 12", "hole oval", 'layers = ["left_skin", "spar"]', 'smallest = "3.3 mm"',
              'largest = "3.8 mm"', 'largest_points = "up"', 'rivet_in = "yes"'),
        lambda s: [s.apart[f"{ROW}.rivet-12"].along["spar"].si, s.apart[f"{ROW}.rivet-12"].across["left_skin"].si],
        [3.8e-3, 3.3e-3], (1.0, 0.0),
    ),
    "two holes touching": (
        event("hinge middle, bracket rivet 3", "figure eight", 'layers = ["spar"]', 'spacing = "3.0 mm"',
              'second_lies = "left"'),
        lambda s: [s.apart[f"{BRACKET}.rivet-3"].across["spar"].si, s.apart[f"{BRACKET}.rivet-3"].along["spar"].si],
        [7.1e-3, 4.1e-3], (1.0, 0.0),
    ),
    "stray hole in the web": (
        event("spar web, at 325 mm", "stray hole", 'across = "6 mm"'),
        lambda s: [s.marks["spar.web.at-325-mm"].across.si], [6e-3], None,
    ),
    "stray hole beside a rivet": (
        event("left skin to spar, rivet 12", "stray hole", 'across = "3.3 mm"', 'spacing = "8 mm"',
              'second_lies = "up"', 'layers = ["spar"]'),
        lambda s: [s.apart[f"{ROW}.rivet-12"].edge["spar"].si, s.apart[f"{ROW}.rivet-12"].beside["spar"].si],
        [6.35e-3, 3.3e-3], None,
    ),
    "short edge, one rivet": (
        event("left skin to ribs, rib 3, rivet 2", "short edge", 'edges = { ribs = "4.0 mm" }'),
        lambda s: [s.apart[f"{RIB}.rivet-2"].edge["ribs"].si], [4e-3], None,
    ),
    "short edge, a row": (
        event("left skin to spar", "short edge", 'edge = "5.0 mm"', 'layers = ["spar"]'),
        lambda s: [s.rows["left_skin_to_spar"].edge["spar"].si], [5e-3], None,
    ),
    "rivets missing": (
        event("left skin to spar, rivets 12 and 13", "rivets missing"),
        lambda s: [s.apart[f"{ROW}.rivet-{i}"].there.si for i in (12, 13)], [0.0, 0.0], None,
    ),
    "wrong rivet": (
        event("hinge middle, bracket rivet 3", "wrong rivet", 'rivet = "small"'),
        lambda s: [s.apart[f"{BRACKET}.rivet-3"].rivet.diameter.si, s.apart[f"{BRACKET}.rivet-3"].rivet.hole.si],
        [3.2e-3, 4.1e-3], (1.0, 0.0),
    ),
    "wrong rivet that was drilled for": (
        event("left skin to spar, rivet 12", "wrong rivet", 'rivet = "large"'),
        lambda s: [s.apart[f"{ROW}.rivet-12"].rivet.hole.si], [4.1e-3], None,
    ),
    "wrong rivet, a row": (
        event("left skin to spar", "wrong rivet", 'rivet = "large"'),
        lambda s: [s.rivets[s.rows["left_skin_to_spar"].rivet].diameter.si], [4e-3], None,
    ),
    "wrong grip": (
        event("hinge middle, bracket rivet 3", "rivet too long"),
        lambda s: [s.apart[f"{BRACKET}.rivet-3"].holds.si], [1.0], (1.0, 0.0),
    ),
    "poor rivet": (
        event("horn rivet 2", "poor rivet"),
        lambda s: [s.apart[f"{HORN}.rivet-2"].holds.si], [1.0], (1.0, 0.0),
    ),
    "row drifted": (
        event("left skin to spar", "row drifted", 'edge_first = "7 mm"', 'edge_last = "4 mm"', 'layers = ["spar"]'),
        lambda s: [s.apart[ROW].edge["spar"].si, s.apart[ROW].edge_last["spar"].si], [7e-3, 4e-3], None,
    ),
    "pitch laid out wrong": (
        event("left skin to spar", "pitch wrong", 'pitch = "35 mm"'),
        lambda s: [s.rows["left_skin_to_spar"].pitch.si], [35e-3], None,
    ),
    "count laid out wrong": (
        event("left skin to spar", "count wrong", "count = 31"),
        lambda s: [s.rows["left_skin_to_spar"].count, s.rows["left_skin_to_spar"].pitch.known], [31, False], None,
    ),
    "bracket off": (
        event("hinge middle, bracket", "bracket off", 'off_along = "6 mm down"', 'off_sideways = "2 mm left"',
              'turned = "3 deg right"', 'edges = { bracket = "7.5 mm" }'),
        lambda s: [s.hinges["middle"].up.si, s.apart[BRACKET].moved_across.si, s.apart[BRACKET].turned.si,
                   s.apart[f"{BRACKET}.rivet-6"].edge["bracket"].si],
        [0.554, 2e-3, -0.0523598775598, 7.5e-3], None,
    ),
    "hinge off line": (
        event("hinge middle", "hinge off line", 'out_of_line = "0.8 mm left"', 'out_of_line_aft = "0.5 mm ahead"'),
        lambda s: [s.hinges["middle"].out_of_line.si, s.hinges["middle"].out_of_line_aft.si], [8e-4, -5e-4], None,
    ),
    "corner radius": (
        event("spar flange, at 325 mm", "square corner", 'radius = "0.5 mm"', 'depth = "3 mm"'),
        lambda s: [s.marks["spar.flange.at-325-mm"].radius.si, s.marks["spar.flange.at-325-mm"].depth.si],
        [5e-4, 3e-3], None,
    ),
    "nick": (
        event("spar flange, at 560 mm", "nick", 'depth = "2 mm"'),
        lambda s: [s.marks["spar.flange.at-560-mm"].depth.si], [2e-3], None,
    ),
    "dent filed out": (
        event("left skin, at 325 mm", "dent", 'thickness = "0.40 mm"'),
        lambda s: [s.marks["left_skin.at-325-mm"].left.si], [4e-4], None,
    ),
    "lightening hole": (
        event("spar web, at 700 mm", "extra lightening hole", 'across = "25 mm"'),
        lambda s: [s.sheet.spar.holes[0].up.si, s.sheet.spar.holes[0].across.si], [0.7, 0.025], None,
    ),
    "doubler short": (
        event("bottom doubler", "doubler short", 'to = "150 mm"', "lines = 1"),
        lambda s: [s.sheet.doublers["bottom_doubler"].to.si, s.rows["doubler_to_spar"].to.si,
                   s.rows["doubler_to_spar"].lines],
        [0.15, 0.13, 1], None,
    ),
    "other gauge and alloy": (
        event("spar", "other gauge", 'thickness = "0.63 mm"', 'alloy = "6061-T6"'),
        lambda s: [s.sheet.spar.thickness.si, s.sheet.spar.alloy], [6.3e-4, "6061-T6"], None,
    ),
    "shim": (
        event("left skin to spar", "shim", 'thickness = "0.8 mm"'),
        lambda s: [s.apart[ROW].shim.si], [8e-4], None,
    ),
    "horn": (
        event("horn", "horn arm other", 'arm = "80 mm"', 'leaves = "10 deg inward"'),
        lambda s: [s.horn.arm.si, s.horn.leaves.inward.si], [0.08, 0.174532925199], None,
    ),
    "paint": (
        event("surface", "painted", 'mass = "0.25 kg"'),
        lambda s: [s.weighed.paint.si], [0.25], None,
    ),
    "mass added": (
        event("trailing edge, at 550 mm", "tab added", 'mass = "60 g"'),
        lambda s: [s.weighed.added[-1].mass.si, s.weighed.added[-1].behind.si, s.weighed.added[-1].up.si],
        [0.06, 0.36, 0.55], None,
    ),
    "gust": (
        event("surface", "over-travel", 'wind = "40 knots"', 'swung = "25 deg"', 'stop_gives = "3 deg"'),
        lambda s: [s.swung.wind.si, s.swung.swing.si], [20.57777777778, 0.436332312999], None,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", EVENTS)
def test_what_it_changes(name: str, told) -> None:
    text, read_off, expected, holds = EVENTS[name]
    drawn, now, *_ = columns_of(told(text))
    assert (
        read_off(now.fully) == pytest.approx(expected, rel=1e-9)
        if not any(isinstance(one, str) for one in expected)
        else read_off(now.fully) == expected
    )
    assert now.says
    assert all(said.strip() for said in now.says)
    if holds is None:
        assert now.nothing is None
    else:
        (place,) = now.places
        assert (now.fully.apart[place].holds.si, now.nothing.apart[place].holds.si) == holds
    assert drawn.kind == "drawn"


def test_every_kind_has_an_example_here() -> None:
    tried = {kind_of(next(line for line in text.splitlines() if line.startswith("what"))[8:-1]).work
             for text, *_ in EVENTS.values()}  # fmt: skip
    assert {kind.work for kind in KINDS} - tried == {kind_of("stop arm other").work}  # the demo stops at the pedals


def test_a_stop_on_the_surface(told) -> None:
    stop = '[controls]\nstopped_at = "surface"\nstop = { up = "90 mm", arm = "60 mm", side = "both" }\n'
    found = columns_of(told(event("stop", "stop arm other", 'arm = "45 mm"'), more=stop))
    assert [one.fully.controls.stop and one.fully.controls.stop.arm.si for one in found] == [None, 0.045, 0.06]


def test_a_kind_asks_only_for_keys_there_are() -> None:
    keys = set(specs(Happened))
    for kind in KINDS:
        assert set(kind.asks) <= keys
        assert len({*kind.words}) == len(kind.words)
    words = [word for kind in KINDS for word in kind.words]
    assert len(set(words)) == len(words)


RIVET = "hinge middle, bracket rivet 3"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (event(RIVET, "hole to large"), 'nobody knows what = "hole to large". Nearest: hole too large. Kinds: '),
        (event("hinge midle, rivet 3", "poor rivet"), "Nearest: hinge middle, bracket rivet 3"),
        (event(RIVET, "hole too large", 'smallest = "3.9 mm"'), "3.9 mm is smaller than the rivet (4.0 mm)"),
        (event(RIVET, "hole oval", 'smallest = "4.6 mm"', 'largest = "4.4 mm"'), "4.6 mm is more than largest 4.4 mm"),
        (event(RIVET, "hole oval", 'smallest = "4.3 mm"', 'largest = "4.5 mm"', 'largest_points = "ahead"'),
         'largest_points = "ahead": at middle hinge, bracket rivet 3 a hole goes down, left, right, up'),
        (event(RIVET, "hole too large", 'smallest = "4.5 mm"', 'layers = ["rib"]'),
         'layer "rib" is not under middle hinge, bracket rivet 3. Nearest: spar. Layers there: "bracket", "spar"'),
        (event(RIVET, "short edge"), '"short edge" needs edge or edges'),
        (event(RIVET, "short edge", 'edge = "6 mm"'), 'which sheet has the short edge? Write layers = one of'),
        (event(RIVET, "short edge", 'edges = { bracket = "2.0 mm" }'), "edge 2.0 mm puts a 4.1 mm hole over the edge"),
        (event(RIVET, "two holes touching", 'spacing = "6 mm"', 'second_lies = "up"'), "do not touch"),
        (event(RIVET, "two holes touching", 'spacing = "3 mm"'), "needs second_lies"),
        (event("left skin to spar, rivet 2", "stray hole", 'across = "3 mm"', 'spacing = "3 mm"', 'second_lies = "up"',
               'layers = ["spar"]'), 'touch: write what = "two holes touching"'),
        (event(RIVET, "hole oval", 'smallest = "5 mm"', 'largest = "29 mm"', 'largest_points = "up"',
               'layers = ["spar"]'),
         "reaches the next rivet, 16 mm away"),
        (event("spar", "stray hole", 'across = "3 mm"'), "needs its place along the pins"),
        (event("spar, at 325 mm", "nick", 'depth = "2 mm"'), 'web or flange? Write: where = "spar flange, at 325 mm"'),
        (event("rib 3", "rivet missing"), '"rivet missing" cannot be at rib 3. Write where, such as: '),
        (event(RIVET, "wrong rivet", 'rivet = "smal"'), 'rivet "smal" is not in [rivet]. Nearest: small. Here: '),
        (event("left skin to spar, rivet 3", "pitch wrong", 'pitch = "30 mm"'), "is of a whole row"),
        (event("left skin to spar", "pitch wrong", 'pitch = "30 mm"', "count = 30"), "pitch and count both"),
        (event("left skin to ribs", "row drifted", 'edge_first = "7 mm"', 'edge_last = "4 mm"', 'layers = ["ribs"]'),
         "is of a whole row along the pins"),
        (event("left skin to spar", "row drifted", 'edge_first = "7 mm"', 'edge_last = "1 mm"', 'layers = ["spar"]'),
         "edge 1 mm puts a 3.3 mm hole over the edge"),
        (event("left skin to spar", "row drifted", 'edge_first = "7 mm"', 'edge_last = "19 mm"', 'layers = ["spar"]'),
         "edge 19 mm is more than the flange is wide (18 mm)"),
        (event("left skin to ribs, rib 2, rivet 3", "short edge", 'edges = { ribs = "16 mm" }'), "(15 mm)"),
        (event("hinge middle", "bracket off"), "needs off_along or off_sideways or turned"),
        (event("hinge middle", "hinge off line"), "needs out_of_line or out_of_line_aft"),
        (event("spar", "other gauge", 'alloy = "unobtainium"'), "unobtainium"),
        (event("spar", "doubler short", 'to = "100 mm"'), "is of a doubler. Here: bottom_doubler"),
        (event("bottom doubler", "doubler short", 'to = "15 mm"'), "two at least must"),
        (event("bottom doubler", "doubler short", 'from = "150 mm"', 'to = "100 mm"'), "nothing would be left of it"),
        (event("left skin, at 325 mm", "dent", 'thickness = "0.6 mm"'), "what is left is meant"),
        (event("spar flange, at 325 mm", "lightening hole", 'across = "20 mm"'), "is worked in the web of the spar"),
        (event("stop", "stop arm other", 'arm = "50 mm"'), "has no stop of its own"),
        (event("surface", "gust on the ground", 'wind = "40 knots"', 'swung = "20 deg"'), "needs stop_gives"),
        (event("surface", "painted"), "needs mass"),
        (event("rib 3", "mass added", 'mass = "50 g"'), "needs behind"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_in_one_line(text: str, words: str, told) -> None:
    with pytest.raises(SurfaceError) as caught:
        columns_of(told(text))
    (fault,) = caught.value.faults
    assert words in fault.message
    assert "\n" not in fault.message
    assert (fault.file, fault.line, fault.key) == ("tried.toml", 3, "happened[1]")


MISSING = event("hinge middle, bracket rivets 2 and 3", "rivets missing")


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        (MISSING, event(RIVET, "hole too large", 'smallest = "4.5 mm"'), 'cannot be "hole too large" too'),
        (event(RIVET, "poor rivet"), MISSING, 'cannot be "poor rivet" too'),
        (event(RIVET, "hole too large", 'smallest = "4.5 mm"'), event(RIVET, "hole oval", 'largest = "4.6 mm"'),
         "tells its hole already"),
        (event(RIVET, "short edge", 'edges = { bracket = "6 mm" }'),
         event(RIVET, "short edge", 'edges = { bracket = "7 mm" }'), "tells its edge already"),
        (event(RIVET, "hole too large", 'smallest = "4.5 mm"', 'edge = "7 mm"', 'layers = ["bracket"]'),
         event(RIVET, "short edge", 'edges = { bracket = "7 mm" }'), "tells its edge already"),
        (event("left skin to spar", "pitch wrong", 'pitch = "30 mm"'),
         event("left skin to spar, rivet 12", "rivet missing"), "its rivets count anew"),
        (event("surface", "painted", 'mass = "0.2 kg"'), event("surface", "painted", 'mass = "0.3 kg"'),
         "tells its paint already"),
    ],
)  # fmt: skip
def test_events_that_contradict_each_other(first: str, second: str, words: str, told) -> None:
    with pytest.raises(SurfaceError) as caught:
        columns_of(told(first, second))
    (fault,) = caught.value.faults
    assert words in fault.message
    assert "happened[1] of tried.toml" in fault.message
    assert fault.key == "happened[2]"


def test_faults_of_all_events_come_together(told) -> None:
    with pytest.raises(SurfaceError) as caught:
        columns_of(told(event("nowhere", "poor rivet"), event(RIVET, "nothing known")))
    assert [fault.key for fault in caught.value.faults] == ["happened[1]", "happened[2]"]


def test_a_flat_half_has_words_of_its_own(told) -> None:
    """Out and in along the pins, top and bottom across; on the skin ahead and behind."""
    where = "hinge outer, bracket rivet 2"
    hole = ('smallest = "4.3 mm"', 'largest = "4.6 mm"', 'layers = ["spar"]')
    found = columns_of(told(event(where, "hole oval", *hole, 'largest_points = "out"'), base="elevator.toml"))
    (place,) = found[1].places
    assert found[1].fully.apart[place].along["spar"].said == "4.6 mm"
    with pytest.raises(SurfaceError, match=r'largest_points = "ahead": .* a hole goes bottom, in, out, top'):
        columns_of(told(event(where, "hole oval", *hole, 'largest_points = "ahead"'), base="elevator.toml"))
    edge = event("top skin to spar, rivet 3", "short edge", 'edges = { top_skin = "5 mm" }')
    assert columns_of(told(edge, base="elevator.toml"))[1].fully.apart["row.top_skin_to_spar.rivet-3"].edge.keys() == {
        "left_skin"
    }
