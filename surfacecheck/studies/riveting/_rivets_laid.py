"""Where the rivets of every alternative sit: spread evenly between the ends, or in the holes that are there."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import RowPlan, plan_row, row_kind
from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.provenance import UNKNOWN, Value, plain
from surfacecheck.quantities import show
from surfacecheck.rules import filled_in, length
from surfacecheck.studies.riveting._rivets_given import LENGTHS, Space
from surfacecheck.studies.single_row._row_layout import left_out

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.model import Row, Surface

    Array = NDArray[np.float64]

__all__ = ["BY_COUNT", "Laid", "by_count", "holes_of", "lay_out"]

BY_COUNT = "this row goes by a number of rivets, not by a pitch: give count"
_NEAR = 0.02  # share by which a pitch asked for may miss one that the holes allow


@dataclass(frozen=True, eq=False)
class Laid:
    """Every different layout of a row, and which of them each alternative has; L layouts, N lines, P spacings.

    Attributes
    ----------
    plans : tuple of RowPlan
        L of them.
    closest : ndarray, shape (L,)
        Least distance from rivet to rivet [m]; 0 where a single rivet stands.
    words : tuple of str
        Of each layout the holes that stay empty, where the row is drilled.
    at : ndarray of int, shape (N, P)
        Layout of each; -1 where there is none.
    why : dict of (int, int) to str
        Then: why not.
    """

    plans: tuple[RowPlan, ...]
    closest: Array
    words: tuple[str, ...]
    at: NDArray[np.intp]
    why: dict[tuple[int, int], str]


def by_count(surface: Surface, row: Row) -> bool:
    """Tell whether a row goes by a number of rivets on each rib, and has no pitch to choose."""
    nose = "nose_skin" in row.joins and not set(row.joins) & {"left_skin", "right_skin"}
    return row_kind(surface, row) == "rib-spar" or ("ribs" in row.joins and nose)


def holes_of(surface: Surface, row: Row, at: float | None) -> RowPlan | None:
    """Give the holes of a row that is drilled already.

    Parameters
    ----------
    surface : Surface
        For its ribs.
    row : Row
        From the file.
    at : float or None
        Pitch it is drilled at, where that was said apart from the file [m].

    Returns
    -------
    RowPlan or None
        None where nothing is drilled.

    Raises
    ------
    SurfaceError
        For a pitch that no row has, or one longer than this row.
    """
    if at is None and str(row.drilled_already or "") != "yes":
        return None
    if at is None:
        return plan_row(surface, row)
    low, high = LENGTHS["pitch"]
    if not (np.isfinite(at) and at > 0.0):
        message = f"{at * 1e3:g} mm; it must be above 0: measure it again, from hole to hole"
        raise SurfaceError(Fault(message, key="drilled_at"))
    if not low <= at <= high:
        message = f"{at * 1e3:g} mm; {low * 1e3:g} to {high * 1e3:g} mm is looked at. Is the unit right?"
        raise SurfaceError(Fault(message, key="drilled_at"))
    if by_count(surface, row):
        return plan_row(surface, row)
    plan = plan_row(surface, _spaced(row, at))
    why = "" if plan is None else _too_wide(row, plan, Space(pitch=at))
    if why:
        message = f"row.{row.name}: {filled_in(why, show)}. Measure it again, from hole to hole"
        raise SurfaceError(Fault(message, key="drilled_at"))
    return plan


def _spaced(row: Row, pitch: float) -> Row:
    return replace(row, pitch=Value(pitch, show(pitch, "length")), count=None)


def lay_out(surface: Surface, row: Row, spaces: Sequence[Space], lines: Sequence[int], holes: RowPlan | None) -> Laid:
    """Lay a row out in every way asked for.

    Parameters
    ----------
    surface : Surface
        For its ribs.
    row : Row
        From the file.
    spaces : sequence of Space
        P spacings.
    lines : sequence of int
        N numbers of lines.
    holes : RowPlan or None
        Those that are there already.

    Returns
    -------
    Laid
        The different layouts, each once.
    """
    plans: list[RowPlan] = []
    words: list[str] = []
    known: dict[tuple[object, ...], int] = {}
    at = np.full((len(lines), len(spaces)), -1, dtype=np.intp)
    why: dict[tuple[int, int], str] = {}
    for n, p in product(range(len(lines)), range(len(spaces))):
        found = _plan(surface, row, spaces[p], lines[n], holes)
        if isinstance(found, str):
            why[n, p] = found
            continue
        plan, empty = found
        key = (plan.lines, plan.count, plan.pitch, plan.rib_count.tobytes(), plan.rib_pitch.tobytes())
        at[n, p] = known.setdefault(key, len(plans))
        if at[n, p] == len(plans):
            plans.append(plan)
            words.append(empty)
    return Laid(tuple(plans), np.array([_closest(plan) for plan in plans]), tuple(words), at, why)


def _closest(plan: RowPlan) -> float:
    if plan.count < 2:
        return 0.0
    return float(plan.rib_pitch.min()) if plan.rib_pitch.size else float(plan.pitch)


def _plan(surface: Surface, row: Row, space: Space, lines: int, holes: RowPlan | None) -> tuple[RowPlan, str] | str:
    """Lay it out one way, with words for holes left empty; or say why it cannot be."""
    if space.pitch is not None and by_count(surface, row):
        return BY_COUNT
    if holes is not None:
        return _in_holes(holes, space, lines)
    one = replace(row, lines=lines)
    if space.pitch is not None:
        one = _spaced(one, space.pitch)
    elif space.count is not None:
        one = replace(one, count=space.count, pitch=UNKNOWN)
    plan = plan_row(surface, one)
    if plan is not None:
        return _too_wide(row, plan, space) or (plan, "")
    if space.count == 1:
        return "one rivet is no row: two at least"
    if space == Space() and not row.pitch.known and row.count is None:
        return f"the drawing's {'number of rivets' if by_count(surface, row) else 'pitch'} is not given"
    return f"row.{row.name}: where it begins and ends, or its pitch or count, is not given"


def _too_wide(row: Row, plan: RowPlan, space: Space) -> str:
    """Say that the pitch asked for is longer than the row."""
    if space.pitch is None:
        return ""
    if plan.rib_pitch.size:
        longest = float((plan.rib_pitch * np.maximum(plan.rib_count - 1.0, 1.0)).max())
        where = "on its longest rib, from first rivet to last"
    else:
        longest, where = plain(row.to) - plain(row.start), "from first rivet to last"
    if space.pitch <= longest * (1.0 + 1e-9):
        return ""
    return f"a pitch of {length(space.pitch)} is longer than the row, {length(longest)} {where}"


def _in_holes(holes: RowPlan, space: Space, lines: int) -> tuple[RowPlan, str] | str:
    """Leave out all but every so many rivets of the holes that are there; the ends stay."""
    said = "its holes are there already: only leaving rivets out is real"
    if lines != holes.lines:
        return f"{said}, in {holes.lines} line{'s' if holes.lines > 1 else ''}"
    every = 1 if space.pitch is None else max(1, round(space.pitch / holes.pitch))
    near = space.pitch is None or abs(space.pitch / (every * holes.pitch) - 1.0) <= _NEAR
    if space.count is not None or not near:
        return f"{said}, at {', '.join(length(k * holes.pitch) for k in (1, 2, 3))} ..."
    if every >= holes.count:
        return f"its {holes.count} holes do not reach {every} spaces"
    empty = left_out(int(holes.count), every)[1]
    if not holes.rib_count.size:
        count = left_out(int(holes.count), every)[0] or 0
        return replace(holes, pitch=holes.pitch * every, count=count, total=count * holes.lines), empty
    left = np.array([left_out(int(n), every)[0] for n in holes.rib_count], dtype=np.float64)
    pitch, total = holes.rib_pitch * every, int(left.sum()) * holes.lines
    most = float(pitch.max())
    return replace(holes, pitch=most, count=int(left.max()), rib_pitch=pitch, rib_count=left, total=total), empty
