"""Which numbers of a surface vary in a scatter, and how far: from the table, from brackets, from what is asked for."""

from __future__ import annotations

import tomllib
from difflib import get_close_matches
from fnmatch import fnmatchcase
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.model import StrengthIs
from surfacecheck.provenance import Basis, Source
from surfacecheck.reading import bracket_of, source_of
from surfacecheck.studies.sweeping._numbers import NumberPlace, number_places
from surfacecheck.studies.sweeping._tolerance_table import default_of
from surfacecheck.studies.sweeping._tolerances import Spread, said_in, spread_of

if TYPE_CHECKING:
    import os
    from collections.abc import Mapping

    from surfacecheck.model import Surface

__all__ = ["Tolerances", "holds_tolerances", "read_tolerances", "spreads_of"]


class Tolerances(NamedTuple):
    """A file of tolerances.

    Attributes
    ----------
    based_on : Path or None
        The surface file it is meant for.
    tolerances : dict of str to str
        By key or pattern.
    """

    based_on: Path | None
    tolerances: dict[str, str]


def holds_tolerances(path: str | os.PathLike[str]) -> bool:
    """Tell whether a file is one of tolerances, and not of a surface or a change.

    Parameters
    ----------
    path : str or path
        Any file, or none.

    Returns
    -------
    bool
        False also for what cannot be read.
    """
    try:
        return "tolerance" in tomllib.loads(Path(path).read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, OSError):
        return False


def read_tolerances(path: str | os.PathLike[str]) -> Tolerances:
    """Read a file of tolerances.

    Parameters
    ----------
    path : str or path
        TOML with ``based_on = "rudder.toml"`` and ``[tolerance]``: ``"sheet.*.thickness" = "0.02 mm (micrometer)"``.

    Returns
    -------
    Tolerances
        And the surface they are meant for.

    Raises
    ------
    SurfaceError
        For a file that is none, another table, or a tolerance that is no text.
    """
    file = Path(path)
    try:
        whole = tomllib.loads(file.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, OSError) as error:
        raise SurfaceError(Fault(f"not readable: {error}", file.name)) from error
    based = whole.pop("based_on", None)
    faults = [Fault("unknown; a file of tolerances holds 'based_on' and one table, [tolerance]", file.name, key=key)
              for key in whole if key != "tolerance"]  # fmt: skip
    if not isinstance(based, str | None):
        faults.append(Fault('write the name of the surface file as a text: based_on = "rudder.toml"', file.name))
    table = whole.get("tolerance")
    if not isinstance(table, dict) or not table:
        faults.append(Fault('holds no tolerance: write [tolerance], then "sheet.*.thickness" = "0.02 mm"', file.name))
    else:
        faults += [Fault('write the tolerance as a text in quotes, such as "0.02 mm"; a key with dots in quotes too',
                         file.name, key=key) for key, text in table.items() if not isinstance(text, str)]  # fmt: skip
    if faults:
        raise SurfaceError(*faults)
    return Tolerances(None if based is None else file.parent / based, dict(table or {}))


def spreads_of(surface: Surface, tolerances: Mapping[str, str] | None = None) -> tuple[Spread, ...]:
    """Find which numbers of a surface vary, and how far.

    Parameters
    ----------
    surface : Surface
        As read.
    tolerances : mapping of str to str, optional
        By key, or by a pattern such as ``row.*.edge.*``; a later entry wins, and any wins over a bracket and the table.

    Returns
    -------
    tuple of Spread
        In the order of the file.

    Raises
    ------
    SurfaceError
        For a key that is none of the surface, with the nearest; for a value that is not known; for a text that is no
        tolerance; where nothing varies.
    """
    places = {key: place for key, place in number_places(surface).items() if place.spec is not None}
    asked = _asked(tolerances or {}, places)
    found = []
    for key, place in places.items():
        spread = _told(place, asked[key]) if key in asked else _untold(surface, place)
        if spread is not None:
            found.append(spread)
    if not found:
        message = 'no number of this surface varies: give tolerances, such as "sheet.*.thickness" = "0.02 mm"'
        raise SurfaceError(message)
    return tuple(found)


def _asked(tolerances: Mapping[str, str], places: Mapping[str, NumberPlace]) -> dict[str, str]:
    """Give the tolerance of every key that was asked for."""
    asked: dict[str, str] = {}
    faults = []
    for pattern, text in tolerances.items():
        exact = pattern in places
        keys = [pattern] if exact else [key for key in places if fnmatchcase(key, pattern)]
        known = [key for key in keys if places[key].value.known and not places[key].value.absent]
        if not keys:
            near = get_close_matches(pattern, places, n=1, cutoff=0.4)
            hint = f" Nearest: {near[0]}." if near else ""
            faults.append(Fault(f"no number of this surface has that name.{hint}", key=pattern))
        elif not known:
            faults.append(Fault("is not known, so it cannot vary about a value: give one in the file", key=pattern))
        asked |= dict.fromkeys(known, text)
    if faults:
        raise SurfaceError(*faults)
    return asked


def _told(place: NumberPlace, text: str) -> Spread | None:
    bare, words = bracket_of(text)
    source = Source(Basis.AS_SAID, "asked for") if words is None else source_of(words)
    return spread_of(place.key, place.value, _quantity(place), bare, source)


def _untold(surface: Surface, place: NumberPlace) -> Spread | None:
    """Take the spread of the value's own bracket, or of the table."""
    default = default_of(place.key, place.value, _is_least(surface, place.key))
    if default is None:
        return None
    said = said_in(place.value)
    text, source = (said, place.value.source) if said else default
    return spread_of(place.key, place.value, _quantity(place), text, source)


def _is_least(surface: Surface, key: str) -> bool:
    """Whether a strength is the least value of its sheet; one of which that is not said counts as such."""
    rivet = surface.rivets.get(key.split(".")[1]) if key.startswith("rivet.") else None
    return rivet is not None and rivet.strength_is is not StrengthIs.TYPICAL


def _quantity(place: NumberPlace) -> str:
    return place.spec.quantity if place.spec is not None else "number"
