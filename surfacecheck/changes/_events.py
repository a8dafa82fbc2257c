"""The kinds of event: what a builder types, and what it does to the surface. A further kind is one entry here."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.changes._controls import horn_other, stop_other, wind_took_hold
from surfacecheck.changes._edges import row_drifted, short_edge
from surfacecheck.changes._hinges import bracket_off, hinge_off_line
from surfacecheck.changes._holes import hole_too_large, stray_hole, two_holes
from surfacecheck.changes._marks import corner_sharp, dent_filed, lightening_hole, nick_filed
from surfacecheck.changes._masses import mass_added, painted
from surfacecheck.changes._rivets import poor_rivet, rivet_missing, wrong_grip, wrong_rivet
from surfacecheck.changes._rows import pitch_wrong, shim
from surfacecheck.changes._sheets import doubler_off, other_sheet
from surfacecheck.errors import SurfaceError
from surfacecheck.places import nearest_of, plain_words

if TYPE_CHECKING:
    from surfacecheck.changes._done import Done

__all__ = ["KINDS", "EventKind", "kind_of"]


@dataclass(frozen=True)
class EventKind:
    """One kind of event.

    Attributes
    ----------
    words : tuple of str
        What is typed for it; the first is its name.
    work : callable
        ``work(surface, spot, event, fully=...)`` gives :class:`Done`.
    tells : str
        What it tells of its place: two events that tell the same of one place contradict each other.
    such : str
        A place it can be at.
    asks : tuple of str
        Keys that belong to it, those it cannot go without first.
    offers : tuple of str
        Options that its nature offers beside "leave it"; what cannot be there is left out.
    """

    words: tuple[str, ...]
    work: Callable[..., Done]
    tells: str
    such: str
    asks: tuple[str, ...]
    offers: tuple[str, ...] = ("part replaced",)


RIVET, ROW = "hinge middle, bracket rivet 3", "left skin to spar"
OUT = ("next size", "rivet not there")
EITHER_SIDE = "extra rivets either side"

KINDS: tuple[EventKind, ...] = (
    EventKind(
        ("hole too large", "hole over-size", "hole oversize"), hole_too_large, "hole", RIVET,
        ("smallest", "largest", "largest_points", "layers", "rivet_in", "edge"), OUT,
    ),
    EventKind(
        ("hole oval", "hole wallowed out", "hole oblong"), hole_too_large, "hole", RIVET,
        ("smallest", "largest", "largest_points", "layers", "rivet_in", "edge"), OUT,
    ),
    EventKind(
        ("two holes touching", "figure eight", "double drilled"), two_holes, "hole", RIVET,
        ("spacing", "second_lies", "across", "smallest", "layers", "rivet_in"), (*OUT, EITHER_SIDE),
    ),
    EventKind(
        ("stray hole", "hole in the wrong place"), stray_hole, "stray hole", "spar web, at 325 mm",
        ("across", "spacing", "second_lies", "layers"),
    ),
    EventKind(
        ("short edge", "edge short"), short_edge, "edge", f"{ROW}, rivet 12",
        ("edges", "edge", "layers"), ("rivet not there", EITHER_SIDE, "part replaced"),
    ),
    EventKind(
        ("rivet missing", "rivets missing", "rivet forgotten"), rivet_missing, "there", f"{ROW}, rivets 12 and 13",
        (), ("rivet put in", EITHER_SIDE),
    ),
    EventKind(("wrong rivet", "other rivet"), wrong_rivet, "rivet", RIVET, ("rivet",), ("part replaced",)),
    EventKind(("wrong grip", "rivet too long", "rivet too short"), wrong_grip, "how it sits", RIVET, (), OUT[1:]),
    EventKind(
        ("poor rivet", "rivet looks poor", "rivet tipped"), poor_rivet, "how it sits", RIVET,
        (), ("holds half", "rivet not there"),
    ),
    EventKind(
        ("row drifted", "row runs off"), row_drifted, "edge", ROW, ("edge_first", "edge_last", "layers"),
    ),
    EventKind(
        ("pitch laid out wrong", "pitch wrong", "count wrong"), pitch_wrong, "pitch", ROW,
        ("pitch", "count"), ("rivets between",),
    ),
    EventKind(
        ("bracket off", "bracket off station", "bracket off height", "bracket rotated"), bracket_off, "place",
        "hinge middle, bracket", ("off_along", "off_sideways", "turned", "edges"),
    ),
    EventKind(
        ("hinge off line", "pin off line", "hinge not on the line"), hinge_off_line, "line", "hinge middle",
        ("out_of_line", "out_of_line_aft"), ("put in line",),
    ),
    EventKind(
        ("corner radius", "square corner", "sharp corner"), corner_sharp, "mark", "spar flange, at 325 mm",
        ("radius", "depth"),
    ),
    EventKind(("nick", "nick filed out"), nick_filed, "mark", "spar flange, at 325 mm", ("depth", "radius")),
    EventKind(
        ("dent filed out", "dent", "scratch filed out"), dent_filed, "mark", "left skin, at 325 mm", ("thickness",),
    ),
    EventKind(
        ("lightening hole", "extra lightening hole", "larger lightening hole"), lightening_hole, "lightening hole",
        "spar web, at 325 mm", ("across",),
    ),
    EventKind(
        ("doubler short", "doubler shifted", "doubler off"), doubler_off, "extent", "bottom doubler",
        ("from", "to", "wide", "lines"),
    ),
    EventKind(
        ("other gauge", "other alloy", "other sheet"), other_sheet, "sheet", "spar", ("thickness", "alloy"),
    ),
    EventKind(("shim", "shim under a flange"), shim, "shim", ROW, ("thickness",), ("shim taken out",)),
    EventKind(("horn arm other", "horn other"), horn_other, "horn", "horn", ("arm", "leaves")),
    EventKind(("stop arm other", "stop other"), stop_other, "stop", "stop", ("arm",)),
    EventKind(("painted", "paint", "filler"), painted, "paint", "surface", ("mass",), ()),
    EventKind(
        ("mass added", "tab added", "servo added", "filler at one place"), mass_added, "mass",
        "trailing edge, at 325 mm", ("mass", "behind"), ("taken off",),
    ),
    EventKind(
        ("gust on the ground", "over-travel", "storm"), wind_took_hold, "wind", "surface",
        ("wind", "swung", "stop_gives"), (),
    ),
)  # fmt: skip


def kind_of(what: str) -> EventKind:
    """Find a kind of event by what was typed.

    Parameters
    ----------
    what : str
        Such as ``hole too large``.

    Returns
    -------
    EventKind
        The kind.

    Raises
    ------
    SurfaceError
        For words nobody knows: the nearest and all kinds are named.
    """
    asked = plain_words(what)
    for kind in KINDS:
        if asked in map(plain_words, kind.words):
            return kind
    words = [word for kind in KINDS for word in kind.words]
    names = ", ".join(kind.words[0] for kind in KINDS)
    message = f'nobody knows what = "{what}"{nearest_of(asked, words)}. Kinds: {names}'
    raise SurfaceError(message)
