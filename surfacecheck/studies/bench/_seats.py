"""Where every rivet of a surface sits: rows, brackets, horn, line by line; what is not known is counted only."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import place_words
from surfacecheck.checks import edge_of, plan_row, row_kind
from surfacecheck.model import RibFlangesPoint
from surfacecheck.provenance import plain

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks import RowPlan
    from surfacecheck.model import Row, Surface
    from surfacecheck.provenance import Value

    Array = NDArray[np.float64]

__all__ = ["ACROSS", "ALONG", "AROUND", "BEHIND", "Line", "Seats", "known", "row_seats"]

ALONG = "along the pins"
BEHIND = "behind the web"
AROUND = "round the nose, from the spar row"
ACROSS = "across, from the middle"


@dataclass(frozen=True, eq=False)
class Line:
    """Rivets in one straight line.

    Attributes
    ----------
    label : str
        ``rib 3``, ``line 2``, ``column 1``, ``row 4`` of a pattern; empty for a row of a single line.
    measured : str
        What ``at`` is measured along.
    count : int
        Rivets [-].
    first : int
        Number of its first rivet in the row or pattern [-].
    at : ndarray, shape (count,), or None
        Places of the rivets, across to the left positive [m]; None where they are not known.
    up : float or None
        Place of the line along the pins, where it runs square to them: of the holes, or of the rib's web where it is
        not known how far from it they are (``at_web``) [m].
    across : float or None
        Offset of the line from the middle, to the left positive (top, where the surface lies flat) [m].
    behind : float or None
        Place of the line behind the pins, where that is the same for all of it [m].
    rib : int or None
        The rib it is on, from 0 [-].
    """

    label: str
    measured: str
    count: int
    first: int = 1
    at: Array | None = None
    up: float | None = None
    across: float | None = None
    behind: float | None = None
    rib: int | None = None
    at_web: bool = False

    @property
    def pitch(self) -> float | None:
        """Real distance from rivet to rivet [m]; None for one rivet or where it is not known."""
        if self.at is None or self.count < 2:
            return None
        return float(abs(self.at[-1] - self.at[0]) / (self.count - 1))

    @property
    def numbers(self) -> range:
        """Numbers of its rivets."""
        return range(self.first, self.first + self.count)


@dataclass(frozen=True, eq=False)
class Seats:
    """The rivets of one row, one bracket at its hinge, or the horn.

    Attributes
    ----------
    place : str
        ``row.left_skin_to_spar``, ``hinge.top.bracket``, ``horn``, ``balance_mass``.
    words : str
        The same in words.
    kind : str
        ``spar``, ``edge``, ``rib``, ``rib-spar``, ``doubler``, ``bracket``, ``horn``, ``arm``; empty for another row.
    rivet : str
        Name of the rivet in part D; empty where it is not given.
    joins : tuple of str
        Parts it goes through, from the rivet head inwards where the file says so.
    lines : tuple of Line
        Its rivets; empty where not even their number is known.
    missing : tuple of str
        Keys that hide their number or their places.
    """

    place: str
    words: str
    kind: str
    rivet: str
    joins: tuple[str, ...]
    lines: tuple[Line, ...]
    missing: tuple[str, ...] = ()

    @property
    def count(self) -> int:
        """Rivets, all lines together [-]."""
        return sum(line.count for line in self.lines)

    @property
    def placed(self) -> bool:
        """Whether the place of every rivet is known."""
        return bool(self.lines) and all(line.at is not None for line in self.lines)

    def name_of(self, number: int) -> str:
        """Give the name of a rivet as findings call it: on a rib its number there; of the horn under its rivets.

        Parameters
        ----------
        number : int
            Of the rivet, as in ``lines`` [-].

        Returns
        -------
        str
            ``row.left_skin_to_spar.rivet-12``, ``row.left_skin_to_ribs.rib-3.rivet-4``, ``horn.rivets.rivet-2``.
        """
        line = next(line for line in self.lines if number in line.numbers)
        place = "horn.rivets" if self.place == "horn" else self.place
        if line.rib is None:
            return f"{place}.rivet-{number}"
        first = min(one.first for one in self.lines if one.rib == line.rib)
        return f"{place}.rib-{line.rib + 1}.rivet-{number - first + 1}"


def known(value: Value) -> float | None:
    """Give a number that may not be known."""
    return plain(value) if value.known else None


def row_seats(surface: Surface) -> Iterator[Seats]:
    """Lay out every row.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.

    Yields
    ------
    Seats
        One a row, in the order of the file.
    """
    for row in surface.rows.values():
        kind = row_kind(surface, row)
        on_ribs = "ribs" in row.joins
        plan = plan_row(surface, row)
        if plan is not None:
            lines = tuple(_on_ribs(surface, row, plan) if on_ribs else _along(row, plan))
            missing: tuple[str, ...] = ()
        else:
            lines, missing = _counted(surface, row), _row_needs(surface, row)
        place = f"row.{row.name}"
        yield Seats(place, place_words(place, surface), kind, row.rivet, row.joins, lines, missing)


def _along(row: Row, plan: RowPlan) -> Iterator[Line]:
    """Lines along the pins, side by side."""
    if plan.start is None or plan.end is None:
        return
    at = np.linspace(plan.start, plan.end, plan.count)
    gap = known(row.line_gap)
    for number in range(plan.lines):
        across = None if gap is None or plan.lines == 1 else (0.5 * (plan.lines - 1) - number) * gap
        label = f"line {number + 1}" if plan.lines > 1 else ""
        yield Line(label, ALONG, plan.count, 1 + number * plan.count, at, None, across)


def _on_ribs(surface: Surface, row: Row, plan: RowPlan) -> Iterator[Line]:
    """Give a line on every rib whose place is known, or several side by side."""
    number = 1
    ribs = [(index, plain(up)) for index, up in enumerate(surface.sheet.ribs.up) if up.known]
    away = _from_web(surface, row)
    for (index, web), pitch, many in zip(ribs, plan.rib_pitch, plan.rib_count, strict=True):
        count = int(many)
        up = web if away is None else web + _sense(surface, index) * away
        at, measured = _rib_line(row, count, float(pitch))
        for side in range(plan.lines):
            label = f"rib {index + 1}" + (f", line {side + 1}" if plan.lines > 1 else "")
            yield Line(label, measured, count, number, at, up, rib=index, at_web=away is None)
            number += count


def _from_web(surface: Surface, row: Row) -> float | None:
    """How far the holes of a rib's flange are from the face of its web."""
    edge, flange = edge_of(surface, row, "ribs"), surface.sheet.ribs.flange
    return plain(flange) - plain(edge) if edge.known and flange.known and surface.sheet.ribs.flanges_point else None


def _sense(surface: Surface, rib: int) -> float:
    ways = surface.sheet.ribs.flanges_point
    return -1.0 if ways[min(rib, len(ways) - 1)] is RibFlangesPoint.DOWN else 1.0


def _rib_line(row: Row, count: int, pitch: float) -> tuple[Array | None, str]:
    steps = np.arange(count, dtype=np.float64)
    if "spar" in row.joins:
        at = (steps - 0.5 * (count - 1)) * pitch if row.gap.known or count == 1 else None
        return at, ACROSS
    if "nose_skin" in row.joins and not set(row.joins) & {"left_skin", "right_skin"}:
        return (steps + 0.5) * pitch, AROUND
    return plain(row.first_behind_web) + steps * pitch, BEHIND


def _counted(surface: Surface, row: Row) -> tuple[Line, ...]:
    """Lines of which only the number of rivets is known."""
    if row.count is None:
        return ()
    lines = row.lines or 1
    if "ribs" not in row.joins:
        return (Line("", ALONG, row.count * lines),)
    ribs, number = len(surface.sheet.ribs.up), row.count * lines
    return tuple(Line(f"rib {i + 1}", BEHIND, number, 1 + i * number, rib=i) for i in range(ribs))


def _row_needs(surface: Surface, row: Row) -> tuple[str, ...]:
    """Keys that hide where the rivets of a row are."""
    key = f"row.{row.name}"
    counted = "ribs" in row.joins and not set(row.joins) & {"left_skin", "right_skin"}
    needs = [] if row.count is not None or (row.pitch.known and not counted) else [f"{key}.pitch"]
    needs = [f"{key}.count"] if needs and counted else needs
    if "ribs" not in row.joins:
        return tuple([*needs, *(f"{key}.{k}" for k, v in (("from", row.start), ("to", row.to)) if not v.known)])
    if not any(up.known for up in surface.sheet.ribs.up):
        needs.append(f"sheet.ribs.{surface.said('up')}")
    if "spar" in row.joins:
        return tuple(needs)
    if "nose_skin" in row.joins and not set(row.joins) & {"left_skin", "right_skin"}:
        return tuple([*needs, "outline.at.nose_around"])
    ends = (("first_behind_web", row.first_behind_web), ("last_before_edge", row.last_before_edge))
    needs += [f"{key}.{k}" for k, v in ends if not v.known]
    return tuple(needs or ["outline.at"])
