"""What a query sheet keeps of itself, and what is new on a later one."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from surfacecheck.errors import SurfaceError
from surfacecheck.studies.deviating._deviation_rows import rows_of, title_of
from surfacecheck.studies.deviating._query_happened import measured_in_event

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.deviating._deviation import Deviation

__all__ = ["FORM", "Kept", "kept_data", "kept_from", "kept_of", "since_words"]

FORM = 1
"""Version of what a sheet keeps; it grows by new keys only."""
_MOST = 4


@dataclass(frozen=True)
class Kept:
    """What a sheet keeps.

    Attributes
    ----------
    number : str
        Of the sheet.
    surface : tuple of str
        Name, kind and half.
    sha256 : str
        Of the surface file.
    given : dict of str to str
        What was written down of every event, by its place and word.
    found : dict of str to str
        Margins here and anywhere as shown, by way and name.
    """

    number: str
    surface: tuple[str, str, str]
    sha256: str
    given: dict[str, str]
    found: dict[str, str]


def kept_of(deviation: Deviation, number: str, option: str = "", system: System = "metric") -> Kept:
    """Gather what a sheet keeps.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    number : str
        Of the sheet.
    option : str
        Which option stands on it.
    system : {"metric", "inch"}
        Units of what is worked out.

    Returns
    -------
    Kept
        As a later sheet reads it.
    """
    surface = deviation.surface
    given = {"title": surface.title} | ({"option shown": option} if option else {})
    for event in surface.happened:
        given[f"{event.where}: what"] = event.what
        given |= {f"{event.where}: {key}": f"{v.said} ({v.source.text})" for key, v in measured_in_event(event)}
        told = {
            "layers": " and ".join(event.layers),
            "rivet in": str(event.rivet_in or ""),
            "largest points": str(event.largest_points or ""),
            "done since": event.done_since,
            "reached from": event.reached_from,
        }
        given |= {f"{event.where}: {key}": words for key, words in told.items() if words}
    found = {
        f"{title_of(way)}: {row.name}": row.cells[at]
        for group in ("place", "anywhere")
        for row in rows_of(deviation, group, system)
        for at, way in enumerate(deviation.ways)
    }
    return Kept(number, (surface.name, str(surface.kind), str(surface.half)), surface.sha256, given, found)


def since_words(now: Kept, earlier: Kept) -> str:
    """Say what is new since an earlier sheet.

    Parameters
    ----------
    now, earlier : Kept
        Of both sheets.

    Returns
    -------
    str
        What was measured or said since, then numbers that moved; "nothing" where nothing is.
    """
    told = [
        f"{_short(key)} {now.given.get(key, 'taken back')}{_was(earlier.given, key)}"
        for key in dict.fromkeys((*now.given, *earlier.given))
        if now.given.get(key) != earlier.given.get(key)
    ]
    told += ["the surface file changed"] if now.sha256 != earlier.sha256 else []
    for key, text in now.found.items():
        if earlier.found.get(key, text) != text:
            told.append(f"{key} {text}{_was(earlier.found, key)}")
    if not told:
        return "nothing"
    return "; ".join(told[:_MOST]) + (f"; and {len(told) - _MOST} more" if len(told) > _MOST else "")


def _was(before: dict[str, str], key: str) -> str:
    return f" (was {before[key]})" if key in before else ""


def _short(key: str) -> str:
    return key.rpartition(": ")[2]


def kept_data(kept: Kept) -> dict[str, Any]:
    """Write it as plain data."""
    return {"form": FORM, **asdict(kept)}


def kept_from(data: dict[str, Any], surface: tuple[str, str, str]) -> Kept:
    """Read it from plain data.

    Parameters
    ----------
    data : dict
        As a sheet keeps it.
    surface : tuple of str
        Name, kind and half of the surface of now.

    Returns
    -------
    Kept
        What the earlier sheet kept.

    Raises
    ------
    SurfaceError
        Where it is damaged, of a newer form, or of another surface.
    """
    form = data.get("form")
    if isinstance(form, (int, float)) and form > FORM:
        message = f"was written by a newer surfacecheck (form {form}; this one reads up to {FORM}): fetch the newer one"
        raise SurfaceError(message)
    try:
        then = tuple(_text(one) for one in data["surface"])
        kept = Kept(_text(data["number"]), (then[0], then[1], then[2]), _text(data["sha256"]),
                    *({_text(k): _text(v) for k, v in data[name].items()} for name in ("given", "found")))  # fmt: skip
    except (KeyError, TypeError, ValueError, IndexError, AttributeError) as err:
        message = "what it kept is damaged: give a sheet as query wrote it"
        raise SurfaceError(message) from err
    if kept.surface != surface:
        message = (
            f'is a sheet of "{kept.surface[0]}"; this is "{surface[0]}": give an earlier sheet of the same surface'
        )
        raise SurfaceError(message)
    return kept


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError
    return value
