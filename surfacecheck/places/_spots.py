"""A place as a builder types it, found on the surface; a place nobody knows names the nearest."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.places._numbered import numbered, rivets_of_bracket, rivets_of_horn, rivets_of_row
from surfacecheck.places._stations import Station, rib_places, station_of, within
from surfacecheck.places._words import nearest_of, plain_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from surfacecheck.model import Surface

__all__ = ["Spot", "spot_of"]

PLACES = (
    "hinge NAME; hinge NAME, bracket rivet 3; horn; horn rivet 2; ROW, rivet 12; ROW, rib 3, rivet 2; rib 3; "
    "spar, at 325 mm; PART, at rib 2; trailing edge or nose, at 325 mm; stop; surface"
)
_LINES = ("trailing edge", "nose")


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on a surface.

    Attributes
    ----------
    sort : str
        ``bracket``, ``horn``, ``row``, ``hinge``, ``rib``, ``part``, ``line``, ``stop`` or ``surface``.
    owner : str
        Name of the hinge, the row, the part or the line.
    rivets : tuple of int
        Numbers of its rivets, from 1; empty for the whole.
    rib : int
        Number of the rib, from 1; 0 for none.
    station : Station or None
        Where along the pins, if that was said.
    side : str
        ``web`` or ``flange`` of the spar, if that was said.
    called : str
        What this surface calls the part, where that differs from its name: ``top_skin``.
    """

    sort: str
    owner: str = ""
    rivets: tuple[int, ...] = ()
    rib: int = 0
    station: Station | None = None
    side: str = ""
    called: str = ""

    @property
    def whole(self) -> str:
        """Name of what the rivets belong to, as findings call it."""
        rib = f".rib-{self.rib}" if self.rib and self.sort == "row" else ""
        return {
            "bracket": f"hinge.{self.owner}.bracket",
            "horn": "horn.rivets" if self.rivets else "horn",
            "row": f"row.{self.owner}{rib}",
            "hinge": f"hinge.{self.owner}",
            "rib": f"rib-{self.rib}",
            "part": f"{self.owner}.{self.side}" if self.side else self.owner,
            "line": self.owner.replace(" ", "_"),
            "stop": "stop",
            "surface": "surface",
        }[self.sort]

    @property
    def names(self) -> tuple[str, ...]:
        """Name of every rivet, or of the place itself: ``hinge.middle.bracket.rivet-3``, ``spar.at-325-mm``."""
        if self.rivets:
            return tuple(f"{self.whole}.rivet-{one}" for one in self.rivets)
        if self.station is not None and self.sort != "rib":
            return (f"{self.whole}.at-{self.station.y * 1e3:.0f}-mm",)
        return (self.whole,)

    @property
    def words(self) -> tuple[str, ...]:
        """The names in words: ``middle hinge, bracket rivet 3``, ``spar at 325 mm``."""
        owner = (self.called or self.owner).replace("_", " ")
        rib = f", rib {self.rib}" if self.rib and self.sort == "row" else ""
        whole = {
            "bracket": f"{owner} hinge, bracket",
            "hinge": f"{owner} hinge",
            "horn": "horn",
            "rib": f"rib {self.rib}",
            "stop": "stop",
            "surface": "whole surface",
        }.get(self.sort, f"{owner}{f' {self.side}' if self.side else ''}{rib}")
        if self.rivets:
            comma = "," if self.sort == "row" else ""
            return tuple(f"{whole}{comma} rivet {one}" for one in self.rivets)
        at = f" {self.station.words}" if self.station is not None and self.sort != "rib" else ""
        return (f"{whole}{at}",)


def spot_of(surface: Surface, text: str) -> Spot:
    """Find a place.

    Parameters
    ----------
    surface : Surface
        Whose place it is.
    text : str
        Such as ``hinge middle, bracket rivet 3``; ``left skin to spar, rivet 12``; ``row.left_skin_to_spar.rivet-12``;
        ``rib 3``; ``spar, at 325 mm``; ``horn rivet 2``; ``bottom doubler``.

    Returns
    -------
    Spot
        With its rivets counted.

    Raises
    ------
    SurfaceError
        For a place that is not there: the nearest is named.
    """
    asked = re.sub(r"^(?:on|at) (?:the )?(?=[a-z])|^the ", "", plain_words(text))
    for find in (_hinge, _horn, _row, _rib, _part, _line):
        found = find(surface, asked, text)
        if found is not None:
            return found
    if asked in {"stop", "stops"}:
        return Spot("stop")
    if asked in {"surface", "whole surface", "everywhere", "anywhere"}:
        return Spot("surface")
    raise _unknown(surface, asked, text)


def _unknown(surface: Surface, asked: str, text: str) -> SurfaceError:
    return SurfaceError(f'no place is called "{text}"{nearest_of(asked, _known(surface))}. Places: {PLACES}')


def _after(asked: str, names: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Split a text into one of some names, the longest first, and what follows it."""
    for name in sorted(names, key=len, reverse=True):
        word = plain_words(name)
        if asked == word or asked.startswith(f"{word} "):
            yield name, asked.removeprefix(word).strip()


def _hinge(surface: Surface, asked: str, text: str) -> Spot | None:
    for name in sorted(surface.hinges, key=len, reverse=True):
        word = re.escape(plain_words(name))
        found = re.fullmatch(rf"(?:(?:hinge|pin) {word}|{word} (?:hinge|pin))(?: (.+))?", asked)
        if found is None:
            continue
        rest = found[1] or ""
        if rest in {"", "pin"}:
            return Spot("hinge", name)
        rivets = re.fullmatch(r"(?:bracket ?)?(?:rivets? (.+))?", rest)
        if rivets is None:
            break
        return Spot("bracket", name, numbered(rivets[1], rivets_of_bracket(surface, name), text))
    return None


def _horn(surface: Surface, asked: str, text: str) -> Spot | None:
    found = re.fullmatch(r"horn(?: (?:arm|plate|bolt|rivets))?(?:(?: rivets?)? (\d.*))?", asked)
    if found is None or surface.horn is None:
        return None
    return Spot("horn", "", numbered(found[1], rivets_of_horn(surface), text))


def _row(surface: Surface, asked: str, text: str) -> Spot | None:
    for name, rest in _after(asked.removeprefix("row "), surface.rows):
        found = re.fullmatch(r"(?:(?:at |on )?rib (\d+))? ?(?:rivets? (.+))?", rest)
        if found is None:
            if asked.startswith("row "):
                raise _unknown(surface, asked, text)
            continue
        rib = int(found[1] or 0)
        if rib and not found[2] and not asked.startswith("row ") and "ribs" not in surface.rows[name].joins:
            continue  # a line of the outline at a rib
        if rib and not 1 <= rib <= len(rib_places(surface)):
            station_of(surface, f"rib {rib}", text)  # says which ribs there are
        return Spot("row", name, numbered(found[2], rivets_of_row(surface, name, rib, text, found[2]), text), rib)
    return None


def _rib(surface: Surface, asked: str, text: str) -> Spot | None:
    found = re.fullmatch(r"rib (\d+)", asked)
    if found is None:
        return Spot("part", "ribs") if asked == "ribs" else None
    station = station_of(surface, asked, text)
    return Spot("rib", "ribs", (), int(found[1]), station)


def _part(surface: Surface, asked: str, text: str) -> Spot | None:
    sheet = surface.sheet
    named = {surface.said(one): one for one in ("left_skin", "right_skin")}
    named |= {one: one for one in ("nose_skin", "spar", *sheet.doublers)} | {"spar web": "spar", "spar flange": "spar"}
    for word, rest in _after(asked, named):
        station = station_of(surface, rest, text) if rest else None
        if station is None and rest:
            continue
        side = word.removeprefix("spar").strip() if word.startswith("spar ") else ""
        there = None if station is None else within(surface, station, text)
        called = word if named[word] != word and not side else ""
        return Spot("part", named[word], station=there, side=side, called=called)
    return None


def _line(surface: Surface, asked: str, text: str) -> Spot | None:
    for name, rest in _after(asked, _LINES):
        station = station_of(surface, rest, text) if rest else None
        if station is not None:
            return Spot("line", name, station=within(surface, station, text))
        if not rest:
            return Spot("line", name)
    return None


def _known(surface: Surface) -> Iterator[str]:
    """Names of every place, in plain words."""
    for name in surface.hinges:
        yield f"hinge {name}"
        yield from (f"hinge {name}, bracket rivet {i + 1}" for i in range(rivets_of_bracket(surface, name)))
    if surface.horn is not None:
        yield "horn"
        yield from (f"horn rivet {i + 1}" for i in range(rivets_of_horn(surface)))
    for name in surface.rows:
        yield name.replace("_", " ")
        yield f"{name.replace('_', ' ')}, rivet 1"
    ribs = [f"rib {i + 1}" for i in range(len(rib_places(surface)))]
    yield from ribs
    parts = [surface.said(one).replace("_", " ") for one in ("left_skin", "right_skin")]
    parts += ["nose skin", "spar", *(one.replace("_", " ") for one in surface.sheet.doublers)]
    for part in (*parts, *_LINES):
        yield part
        yield from (f"{part}, at {rib}" for rib in ribs)
