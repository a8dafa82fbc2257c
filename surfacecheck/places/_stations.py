"""Places along the line of the pins: at a rib, between two, at a hinge, at so many millimetres."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Units
from surfacecheck.provenance import plain
from surfacecheck.quantities import parse, to_unit

if TYPE_CHECKING:
    from surfacecheck.model import Surface

__all__ = ["Station", "hinge_called", "rib_places", "station_of", "within"]


@dataclass(frozen=True, slots=True)
class Station:
    """A place along the line of the pins.

    Attributes
    ----------
    y : float
        From the lowest edge [m].
    words : str
        As the surface calls it.
    ribs : tuple of (int, float)
        Ribs that were named, from 0, each with its share [-].
    """

    y: float
    words: str
    ribs: tuple[tuple[int, float], ...] = ()


def rib_places(surface: Surface) -> list[float]:
    """Give the places of the ribs along the pins, in the order of the file [m]; those not known are left out."""
    return [plain(up) for up in surface.sheet.ribs.up if up.known]


def hinge_called(surface: Surface, asked: str) -> str:
    """Name the hinge of ``hinge top`` or ``top hinge``.

    Parameters
    ----------
    surface : Surface
        Whose hinges.
    asked : str
        In plain words.

    Returns
    -------
    str
        Its name in the file; empty where it is none, or its place is not known.
    """
    word = re.sub(r"^(the )?(hinge|pin) | (hinge|pin)$", "", asked)
    names = {re.sub(r"[_-]", " ", name.casefold()): name for name, h in surface.hinges.items() if h.up.known}
    return names.get(word, "") if word != asked else ""


def station_of(surface: Surface, asked: str, text: str) -> Station | None:
    """Find a place along the pins.

    Parameters
    ----------
    surface : Surface
        Whose place it is.
    asked : str
        In plain words: ``at rib 2``, ``between rib 2 and 3``, ``at hinge top``, ``at 325 mm``.
    text : str
        The whole as typed, for messages.

    Returns
    -------
    Station or None
        None for words that are no such place.

    Raises
    ------
    SurfaceError
        For a rib that is not there, two that are no neighbours, or a number that cannot be read.
    """
    ribs = rib_places(surface)
    between = re.fullmatch(r"between rib (\d+) and (?:rib )?(\d+)", asked)
    if between:
        a, b = sorted(int(n) for n in between.groups())
        _there(surface, text, a, b)
        if b != a + 1:
            message = f'"{text}": rib {a} and rib {b} are no neighbours. Write: between rib {a} and {a + 1}'
            raise SurfaceError(message)
        y = 0.5 * (ribs[a - 1] + ribs[b - 1])
        return Station(y, f"between rib {a} and {b}", ((a - 1, 0.5), (b - 1, 0.5)))
    rib = re.fullmatch(r"(?:at )?(?:the )?rib (\d+)", asked)
    if rib:
        at = int(rib[1])
        _there(surface, text, at)
        return Station(ribs[at - 1], f"at rib {at}", ((at - 1, 1.0),))
    asked = re.sub(r"^at (the )?", "", asked)
    hinge = hinge_called(surface, asked)
    if hinge:
        return Station(plain(surface.hinges[hinge].up), f"at hinge {hinge}")
    if not re.match(r"[0-9.+]", asked):
        return None
    y = parse(asked, "length")[0]
    return Station(y, f"at {y * 1e3:.0f} mm")


def within(surface: Surface, station: Station, text: str) -> Station:
    """Refuse a place beyond the ends of the surface, where both are known.

    Parameters
    ----------
    surface : Surface
        With its outline.
    station : Station
        A place along the pins.
    text : str
        The whole as typed, for the message.

    Returns
    -------
    Station
        The same.

    Raises
    ------
    SurfaceError
        Where it lies outside.
    """
    ends = [plain(p.up) for p in surface.outline.places if p.up.known]
    if len(ends) > 1 and not ends[0] - 1e-9 <= station.y <= ends[-1] + 1e-9:
        unit = "in" if surface.units is Units.INCH else "mm"
        at, low, high = (f"{to_unit(y, unit):.4g}" for y in (station.y, ends[0], ends[-1]))
        message = f'"{text}" is at {at} {unit}; the surface goes from {low} to {high} {unit}'
        raise SurfaceError(message)
    return station


def _there(surface: Surface, text: str, *numbers: int) -> None:
    ribs = rib_places(surface)
    for one in numbers:
        if not 1 <= one <= len(ribs):
            none = f"no rib has a place yet ({surface.in_file('sheet.ribs.up')})"
            here = f"there are rib 1 to rib {len(ribs)}" if ribs else none
            message = f'"{text}": there is no rib {one}; {here}'
            raise SurfaceError(message)
