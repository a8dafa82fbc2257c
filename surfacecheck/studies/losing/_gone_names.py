"""Rows, groups and rivets by the names a person types, and what is said where there is none."""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import TYPE_CHECKING

from surfacecheck.checks import bracket_needs, horn_needs, plan_row
from surfacecheck.errors import SurfaceError
from surfacecheck.model import DrivenBy
from surfacecheck.studies.losing._row_lines import lines_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import BracketLoad, HornLoad, RowLoad
    from surfacecheck.studies.losing._row_lines import RowLine

__all__ = ["group_named", "line_named", "numbers_of", "row_named"]


def _plain(name: str) -> str:
    return re.sub(r"[\s_.,-]+", "_", name.strip().casefold())


def _nearest(name: str, names: Iterable[str], what: str, typed: str = "") -> SurfaceError:
    known = {_plain(one): one for one in names}
    near = [known[one] for one in get_close_matches(_plain(name), known, n=2, cutoff=0.4)]
    hint = f". Nearest: {', '.join(near)}" if near else ""
    return SurfaceError(f'no {what} is called "{typed or name}"{hint}. Here: {", ".join(known.values()) or "none"}')


def row_named(assessment: Assessment, name: str) -> tuple[RowLoad, int]:
    """Find a row whose rivet loads were worked.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    name : str
        ``left_skin_to_spar``, ``row.left_skin_to_spar`` or ``left skin to spar``; of a row on the ribs with the rib,
        ``row.left_skin_to_ribs.rib-3``.

    Returns
    -------
    tuple of (RowLoad, int)
        The row, and the number of the rib; 0 where none was named.

    Raises
    ------
    SurfaceError
        Where there is none, naming the nearest; where its loads are not known, with what hides them.
    """
    asked = re.fullmatch(r"(?:row_)?(.*?)(?:_rib_(\d+))?", _plain(name))
    assert asked is not None  # noqa: S101 - the pattern fits any text
    wanted, rib = asked[1], int(asked[2] or 0)
    for load in assessment.rows:
        if _plain(load.row.name) == wanted:
            if load.row.rivet not in assessment.surface.rivets:
                message = f"row.{load.row.name}: its rivet is not known; give row.{load.row.name}.rivet first"
                raise SurfaceError(message)
            return load, rib
    row = next((row for row in assessment.surface.rows.values() if _plain(row.name) == wanted), None)
    if row is None:
        raise _nearest(wanted, assessment.surface.rows, "row", name)
    what = "where its rivets are" if plan_row(assessment.surface, row) is None else "the sheets, or what it joins"
    message = f"row.{row.name}: its rivet loads are not known; {what} must be given first (see: show FILE gaps)"
    raise SurfaceError(message)


def line_named(assessment: Assessment, name: str) -> RowLine:
    """Find a line of rivets: a row along the pins, or what lies on one rib.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    name : str
        As :func:`row_named` takes it; of a row on the ribs the rib must be named.

    Returns
    -------
    RowLine
        The line.

    Raises
    ------
    SurfaceError
        Where there is no such row or rib, or it is not said which rib.
    """
    load, rib = row_named(assessment, name)
    lines = lines_of(load)
    if not lines[0].rib:
        if rib:
            message = f"row.{load.row.name} runs along the pins and not on ribs: leave the rib out"
            raise SurfaceError(message)
        return lines[0]
    if 1 <= rib <= len(lines):
        return lines[rib - 1]
    found = f"there is no rib {rib}" if rib else "say which"
    message = f"row.{load.row.name} lies on {len(lines)} ribs, {found}: such as {lines[len(lines) // 2].place}"
    raise SurfaceError(message)


def group_named(assessment: Assessment, name: str) -> BracketLoad | HornLoad:
    """Find a group of rivets, a hinge bracket or the horn.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    name : str
        ``hinge.middle.bracket``, ``hinge middle`` or ``horn``.

    Returns
    -------
    BracketLoad or HornLoad
        With the load of each rivet, in the cases of ``assessment.fittings``.

    Raises
    ------
    SurfaceError
        Where there is none, naming the nearest; where its loads are not known, with what hides them.
    """
    surface = assessment.surface
    wanted = _plain(name).removesuffix("_bracket").removesuffix("_rivets")
    if wanted == "horn" and surface.horn is not None:
        if surface.horn.driven_by is DrivenBy.TORQUE_TUBE:
            message = "horn: a torque tube has no plate whose rivets are checked here; ask for a bracket or a row"
            raise SurfaceError(message)
        if assessment.horn is None:
            raise _hidden(wanted, horn_needs(surface))
        return assessment.horn
    for load in assessment.brackets:
        if _plain(load.hinge.name) == wanted.removeprefix("hinge_"):
            return load
    hinge = next((h for h in surface.hinges.values() if _plain(h.name) == wanted.removeprefix("hinge_")), None)
    if hinge is None:
        here = [f"hinge.{one}.bracket" for one in surface.hinges] + (["horn"] if surface.horn is not None else [])
        raise _nearest(name, here, "group of rivets")
    place = f"hinge.{hinge.name}.bracket"
    raise _hidden(place, bracket_needs(surface, hinge))


def _hidden(place: str, needs: tuple[str, ...]) -> SurfaceError:
    why = f"give {', '.join(needs[:3])}" if needs else "one line of rivets holds no couple without a heel"
    return SurfaceError(f"{place}: its rivet loads are not known: {why}")


def numbers_of(out: Sequence[int], total: int, place: str) -> tuple[int, ...]:
    """Look at the numbers of rivets that are to be gone.

    Parameters
    ----------
    out : sequence of int
        From 1.
    total : int
        Rivets there are.
    place : str
        Where.

    Returns
    -------
    tuple of int
        Rising, each once.

    Raises
    ------
    SurfaceError
        Where one of them is not there, or all of them are meant, or none.
    """
    gone = tuple(sorted(set(out)))
    if not gone:
        message = f"{place}: no rivet is named; give one number at least, 1 to {total}"
        raise SurfaceError(message)
    odd = [n for n in gone if not 1 <= n <= total]
    if odd:
        message = f"{place} has rivets 1 to {total}; there is no rivet {odd[0]}: take a number from the map"
        raise SurfaceError(message)
    if len(gone) == total:
        message = f"{place}: all {total} rivets are out, so that nothing holds it: leave one at least"
        raise SurfaceError(message)
    return gone
