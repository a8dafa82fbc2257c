"""Where a force is put, and which way: a builder's words to a point, and the ribs that bring it to the spar."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import horn_line, horn_needs
from surfacecheck.model import DrivenBy, Kind, Side
from surfacecheck.places import hinge_called, nearest_of, plain_words, rib_places, station_of, within
from surfacecheck.provenance import plain

if TYPE_CHECKING:
    from surfacecheck.model import Surface

__all__ = ["Place", "RibShare", "Way", "place_of", "side_words", "way_of"]

KINDS = "trailing edge, spar or nose: at rib 2, between rib 2 and 3, at 325 mm, at hinge NAME; hinge NAME; horn"
_LINES = {"trailing edge": "edge_behind", "spar": "web_behind", "nose": "nose_ahead"}
_SAME = {"edge": "trailing edge", "web": "spar", "leading edge": "nose"}


@dataclass(frozen=True, slots=True)
class Way:
    """Which way a force acts.

    Attributes
    ----------
    axis : str
        ``x``, ``y``, ``z`` or ``torque``.
    sign : int
        +1 or -1 along that axis.
    """

    axis: str
    sign: int


@dataclass(frozen=True, slots=True)
class RibShare:
    """What one rib brings of a force.

    Attributes
    ----------
    rib : int
        From 0, in the order of the file.
    share : float
        By the lever rule [-].
    y, x : float
        Where it takes hold: along the pins, aft of them [m].
    """

    rib: int
    share: float
    y: float
    x: float


@dataclass(frozen=True, slots=True)
class Place:
    """Where a force is put.

    Attributes
    ----------
    words : str
        As the surface calls it.
    y, x, z : float
        Along the pins, aft of them, out of the surface [m].
    ribs : tuple of RibShare
        Ribs that bring it to the spar; empty: straight onto the spar, or onto the horn.
    on_horn : bool
        Whether it is a bolt of the horn.
    """

    words: str
    y: float
    x: float
    z: float
    ribs: tuple[RibShare, ...] = ()
    on_horn: bool = False


def way_of(surface: Surface, direction: str) -> Way:
    """Read a direction.

    Parameters
    ----------
    surface : Surface
        For its words.
    direction : str
        ``sideways`` (to the left, or the top of a flat half), ``fore-and-aft`` (behind), ``along`` (up or out),
        ``torque`` (about the pins, root to tip), or one of the words left, right, up, down, ahead, behind; for a flat
        half top, bottom, out, in, ahead, behind.

    Returns
    -------
    Way
        Axis and sign.

    Raises
    ------
    SurfaceError
        For any other word.
    """
    z = surface.left_is
    words = {"sideways": ("z", z), "fore-and-aft": ("x", 1), "along": ("y", 1), "torque": ("torque", 1)}
    rudder = {"left": ("z", z), "right": ("z", -z), "up": ("y", 1), "down": ("y", -1)}
    words |= {surface.said(word): way for word, way in rudder.items()} | {"ahead": ("x", -1), "behind": ("x", 1)}
    asked = direction.strip().casefold().replace(" ", "-").replace("fore-aft", "fore-and-aft")
    if asked not in words:
        message = f'"{direction}" is no direction here{nearest_of(asked, list(words))}. Directions: {", ".join(words)}'
        raise SurfaceError(message)
    return Way(*words[asked])


def place_of(surface: Surface, text: str) -> Place:
    """Read a place.

    Parameters
    ----------
    surface : Surface
        Whose place it is.
    text : str
        Such as ``trailing edge, between rib 2 and 3``; ``spar, at 325 mm``; ``nose, at rib 2``; ``hinge top``;
        ``horn``.

    Returns
    -------
    Place
        The point, and the ribs that bring the force to the spar.

    Raises
    ------
    SurfaceError
        For a place that is not there (the nearest is named), or that needs a value which is not given.
    """
    asked = plain_words(text)
    asked = re.sub(r"\bribs\b", "rib", re.sub(r"^(on|at) (the )?", "", asked))
    if asked.split(" ")[0] == "horn":
        return _horn(surface, asked.removeprefix("horn").strip(), text)
    hinge = hinge_called(surface, asked)
    if hinge:
        y = plain(surface.hinges[hinge].up)
        return Place(f"spar at the bracket of hinge {hinge}", y, _line(surface, "spar", y), _middle(surface))
    for name in (*_LINES, *_SAME):
        if asked == name or asked.startswith(f"{name} "):
            return _along(surface, _SAME.get(name, name), asked.removeprefix(name).strip(), text)
    raise _unknown(surface, text)


def _unknown(surface: Surface, text: str) -> SurfaceError:
    count = len(rib_places(surface))
    spots = [f"at rib {i + 1}" for i in range(count)]
    spots += [f"between rib {i} and {i + 1}" for i in range(1, count)]
    spots += [f"at hinge {name}" for name in surface.hinges]
    names = [f"{line}, {spot}" for line in _LINES for spot in spots]
    names += [*(f"hinge {name}" for name in surface.hinges), "horn"]
    return SurfaceError(f'no place is called "{text}"{nearest_of(text, names)}. Places: {KINDS}')


def _middle(surface: Surface) -> float:
    off = surface.outline.pins_off_middle
    return 0.0 - surface.left_is * (plain(off) if off.known else 0.0)


def _line(surface: Surface, name: str, y: float) -> float:
    """Read trailing edge, web or nose at a place, aft of the pins [m]."""
    key = _LINES[name]
    places = surface.outline.places
    gaps = [f"outline.at[{i}].{one}" for i, p in enumerate(places) for one in ("up", key) if not getattr(p, one).known]
    if gaps:
        message = f"{gaps[0]} is not given: a force on the {name} needs it; give it, or put the force somewhere else"
        raise SurfaceError(message)
    found = float(np.interp(y, [plain(p.up) for p in places], [plain(getattr(p, key)) for p in places]))
    return 0.0 - found if name == "nose" else found


def _along(surface: Surface, line: str, spot: str, text: str) -> Place:
    """Find a place on the trailing edge, the spar or the nose."""
    station = station_of(surface, spot, text)
    if station is None:
        raise _unknown(surface, text)
    y = within(surface, station, text).y
    shares = () if line == "spar" else station.ribs or _lever(rib_places(surface), y)
    up = rib_places(surface)
    by_ribs = tuple(RibShare(i, share, up[i], _line(surface, line, up[i])) for i, share in shares)
    return Place(f"{line}, {station.words}", y, _line(surface, line, y), _middle(surface), by_ribs)


def _lever(ribs: list[float], y: float) -> tuple[tuple[int, float], ...]:
    """Share a force between its two ribs by the lever rule; beyond the last rib by the nearest two, prolonged."""
    order = sorted(range(len(ribs)), key=lambda i: ribs[i])
    for i in order:
        if abs(ribs[i] - y) < 1e-6:
            return ((i, 1.0),)
    pairs = [(a, b) for a, b in pairwise(order) if ribs[b] - ribs[a] > 1e-6]
    if not pairs:
        return ()
    a, b = next((pair for pair in pairs if y < ribs[pair[1]]), pairs[-1])
    share = (y - ribs[a]) / (ribs[b] - ribs[a])
    return ((a, 1.0 - share), (b, share))


def _horn(surface: Surface, side: str, text: str) -> Place:
    """Find the bolt of the horn."""
    gap = horn_needs(surface)
    if gap is not None:
        message = f"{gap} is not given: a force on the horn needs it"
        raise SurfaceError(message)
    line = horn_line(surface)
    if line.driven_by is DrivenBy.TORQUE_TUBE:
        return Place("torque tube", float(line.y), 0.0, 0.0)
    plus = surface.said("left" if surface.left_is > 0 else "right")
    words = {plus: 1, surface.said("right" if surface.left_is > 0 else "left"): -1}
    first = surface.said("right" if surface.horn is not None and surface.horn.side is Side.RIGHT else "left")
    at = side.removesuffix("bolt").strip() or first
    if at not in words or (line.side and words[at] != line.side):
        here = " or ".join(f"horn, {w}" for w, s in words.items() if line.side in {0, s})
        message = f'no place is called "{text}". Nearest: {here}. Places: {KINDS}'
        raise SurfaceError(message)
    what = "rod" if line.driven_by is DrivenBy.ROD else "cable"
    return Place(f"horn, {at} {what} bolt", float(line.y), float(line.x), words[at] * float(line.off), on_horn=True)


def side_words(surface: Surface) -> dict[str, tuple[str, str]]:
    """Words for plus and minus of each axis; of a torque, which way it turns the trailing edge."""
    left, right = surface.said("left"), surface.said("right")
    z = (left, right) if surface.left_is > 0 else (right, left)
    y = ("up", "down") if surface.kind is Kind.RUDDER else ("out", "in")
    return {"z": z, "x": ("aft", "fwd"), "y": y, "torque": (z[1], z[0])}
