"""Rivets of one or several rows compared: every alternative, worked at the loads of the surface as drawn."""

from __future__ import annotations

from dataclasses import replace
from difflib import get_close_matches
from typing import TYPE_CHECKING

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Surface
from surfacecheck.provenance import UNKNOWN, Value
from surfacecheck.quantities import show
from surfacecheck.studies.bench._takeoff_basis import Work
from surfacecheck.studies.riveting._rivets_all import drawn_tables, work_all
from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
from surfacecheck.studies.riveting._rivets_given import MOST, Alternatives, Space, looked_at
from surfacecheck.studies.riveting._rivets_laid import by_count, holes_of
from surfacecheck.studies.single_row._row_layout import most_left_out

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import RowPlan

__all__ = ["rivets"]


def rivets(
    surface: Surface | Assessment,
    rows: str | Sequence[str],
    alternatives: Alternatives,
    *,
    drilled_at: float | None = None,
    most: int = MOST,
    work: Work | None = None,
    progress: bool | None = None,
) -> RivetComparison:
    """Compare alternatives for the rivets of one or several rows.

    Parameters
    ----------
    surface : Surface or Assessment
        As drawn, perhaps half-filled.
    rows : str or sequence of str
        Names of rows, as in the file or in words. Each alternative is taken by all of them.
    alternatives : Alternatives
        Lists of pitch, rivet and more; the alternatives are their product.
    drilled_at : float, optional
        Pitch at which these rows are drilled already, where the file does not say so [m].
    most : int
        How many alternatives may be worked without asking [-].
    work : Work, optional
        Minutes a hole and a rivet; invented for the demo where they are not given.
    progress : bool, optional
        Whether a bar shows how far it is, from the first second on; where not said, on a terminal only.

    Returns
    -------
    RivetComparison
        Margins, rules, numbers and masses of every alternative; one that cannot be says why. Stopped from the
        keyboard, of those that were finished.

    Raises
    ------
    SurfaceError
        For a row or a rivet that is not there, an empty list, more alternatives than ``most``, holes at a pitch that
        the row cannot have.

    Notes
    -----
    The loads are those of the surface as drawn: rivets do not change where a load goes. What a rivet more or less
    weighs is not followed into the cases that read the mass. Where the sheet changes, loads do, and the whole surface
    is worked again for each thickness: all of them as stacks.

    References
    ----------
    Each check and each rule names its own.

    Examples
    --------
    >>> import surfacecheck
    >>> demo = surfacecheck.read("data/rudder.toml")  # doctest: +SKIP
    >>> found = rivets(demo, "left_skin_to_spar", Alternatives(pitch=(0.025, 0.030)))  # doctest: +SKIP
    >>> found.whole.count.tolist()  # doctest: +SKIP
    [43, 36]
    """
    given = surface if not isinstance(surface, Surface) else None
    drawn = surface if isinstance(surface, Surface) else surface.surface
    names = _rows(drawn, (rows,) if isinstance(rows, str) else rows)
    looked_at(alternatives, most, len(names))
    _look_at_counts(drawn, names, alternatives)
    alike, apart = _alike_rivets(drawn, names)
    filled = _with_a_pitch(alike, names, alternatives, drilled_at)
    base = given if given is not None and filled is drawn else assess(filled)
    holes = {name: holes_of(filled, filled.rows[name], drilled_at) for name in names}
    spaces = _spaces(alternatives, tuple(holes.values()))
    looked_at(alternatives, most, len(names), len(spaces) - len(alternatives.spaces))
    as_drawn = drawn_tables(base, alike, names)
    sheets, tables, stopped = work_all(base, holes, alternatives, spaces, progress)
    return RivetComparison(
        assessment=base,
        alternatives=alternatives,
        spaces=spaces,
        sheets=sheets,
        rows=tables,
        drawn=as_drawn,
        drilled=any(one is not None for one in holes.values()),
        work=work or Work(),
        apart=apart,
        stopped=stopped,
    )


def _rows(surface: Surface, asked: Sequence[str]) -> tuple[str, ...]:
    if not asked:
        message = f"no row is named; here: {', '.join(surface.rows) or 'none'}"
        raise SurfaceError(message)
    return tuple(dict.fromkeys(_row(surface, one) for one in asked))


def _row(surface: Surface, asked: str) -> str:
    plain = {name.replace("_", " ").casefold(): name for name in surface.rows}
    wanted = asked.removeprefix("row.").replace("_", " ").strip().casefold()
    if wanted in plain:
        return plain[wanted]
    near = get_close_matches(wanted, plain, n=1, cutoff=0.4)
    hint = f" Nearest: {plain[near[0]]}." if near else ""
    message = f'no row is called "{asked}".{hint} Here: {", ".join(surface.rows) or "none"}'
    raise SurfaceError(message)


def _look_at_counts(surface: Surface, names: Sequence[str], alternatives: Alternatives) -> None:
    """Refuse a list of pitches alone for a row that has none."""
    if alternatives.pitch is None or alternatives.count is not None:
        return
    for name in names:
        if by_count(surface, surface.rows[name]):
            message = f"row.{name} goes by a number of rivets on each rib, not by a pitch: give count instead of pitch"
            raise SurfaceError(message)


def _alike_rivets(surface: Surface, names: Sequence[str]) -> tuple[Surface, tuple[str, ...]]:
    """Take every rivet of the rows as the row says, and name the rows of which that leaves something out."""
    gone = {key: name for key in surface.apart for name in names if key.startswith((f"row.{name}.", f"row.{name}:"))}
    gone |= {f"row.{name}": name for name in names if f"row.{name}" in surface.apart}
    if not gone:
        return surface, ()
    left = {key: one for key, one in surface.apart.items() if key not in gone}
    return replace(surface, apart=left), tuple(dict.fromkeys(gone.values()))


def _with_a_pitch(
    surface: Surface, names: Sequence[str], alternatives: Alternatives, drilled_at: float | None
) -> Surface:
    """Give a row whose pitch nobody knows the first that is to be compared, so that its loads can be worked.

    It does not pass for the drawing: what the row is as drawn is worked without it.
    """
    rows = {}
    for name in names:
        row, first = surface.rows[name], alternatives.spaces[0]
        if not row.pitch.known and row.count is None and first != Space():
            if str(row.drilled_already or "") == "yes" and drilled_at is None:
                message = f"row.{name} is drilled already, at a pitch that is not given: give it, or say --drilled-at"
                raise SurfaceError(message)
            pitch = UNKNOWN if first.pitch is None else Value(first.pitch, show(first.pitch, "length"))
            rows[name] = replace(row, pitch=pitch, count=first.count)
    return replace(surface, rows=surface.rows | rows) if rows else surface


def _spaces(alternatives: Alternatives, holes: Sequence[RowPlan | None]) -> tuple[Space, ...]:
    """Add what leaving rivets out of holes that are there comes to."""
    there = [one for one in holes if one is not None and one.pitch > 0.0]
    found = list(alternatives.spaces if alternatives.spaces != (Space(),) or not there else ())
    asked = tuple(alternatives.pitch or ())
    for one in there:
        most = min(most_left_out(asked, one.pitch), int(one.count) - 1)
        every = (Space(pitch=k * one.pitch) for k in range(1, most + 1))
        found += [new for new in every if not any(_alike(new, old) for old in found)]
    return tuple(found) or (Space(),)


def _alike(one: Space, other: Space) -> bool:
    return one.pitch is not None and other.pitch is not None and abs(one.pitch / other.pitch - 1.0) < 0.02
