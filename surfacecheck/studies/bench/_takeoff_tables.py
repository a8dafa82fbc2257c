"""A take-off as tables: what to buy, row by row, drills, holes of every part, order of setting."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from surfacecheck.assessment import place_words
from surfacecheck.errors import SurfaceError
from surfacecheck.quantities import show, to_unit
from surfacecheck.studies.bench._access_shown import numbers_words
from surfacecheck.studies.bench._crowded import crowded
from surfacecheck.studies.bench._drilling import PartHoles, drilling
from surfacecheck.studies.bench._setting_order import setting_order
from surfacecheck.studies.bench._shank import shank
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from surfacecheck.model import Rivet, Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies.bench._takeoff import Purchase, Taken, TakeOff

__all__ = ["buy_table", "drill_table", "look_lines", "part_table", "row_take_table", "setting_table"]

NOT_GIVEN = "not given"
_MM = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?) mm\b")


def _length(si: float | None, system: System) -> str:
    return NOT_GIVEN if si is None else show(si, "length", system)


def _mass(si: float | None, system: System) -> str:
    if si is None:
        return NOT_GIVEN
    return f"{si * 1e3:.1f} g" if system == "metric" else f"{to_unit(si, 'oz'):.2f} oz"


def _kind(kind: Rivet, system: System) -> str:
    words = [str(kind.set) if kind.set is not None else "set not given", kind.alloy, str(kind.head_kind or "")]
    size = "size not given" if not kind.diameter.known else show(float(kind.diameter.si or 0.0), "length", system)
    return " ".join([size, *(one for one in words if one)])


def buy_table(taken: TakeOff, system: System = "metric") -> Table:
    """Lay out what to order, by size and length.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A line a purchase.
    """
    low, high = taken.spares.share
    rows = []
    for line in taken.lines:
        order = f"{line.spare[0]}" if line.spare[0] == line.spare[1] else f"{line.spare[0]} to {line.spare[1]}"
        rows.append(
            (line.rivet, _kind(line.kind, system), _bought(line, system), f"{line.needed}", order,
             _mass(line.mass, system), ", ".join(line.rows))
        )  # fmt: skip
    least, most = taken.spares.practice
    practice = f"{least}" if least == most else f"{least} to {most}"
    share = f"{100 * low:g} %" if low == high else f"{100 * low:g} to {100 * high:g} %"
    note = f"order: {share} more than needed; for practice {practice} of each size on top ({taken.spares.source})"
    heads = ("rivet", "size, kind", "length", "needed", "order", "mass", "for")
    return Table(heads, tuple(rows), "lllrrrl", "To buy, by size: the nosepiece must match the size", note)


def _bought(line: Purchase, system: System) -> str:
    if line.length is not None:
        return show(line.length, "length", system)
    return NOT_GIVEN if line.stack is None else f"for a grip of {show(line.stack, 'length', system)}"


def row_take_table(taken: TakeOff, system: System = "metric", *, short: bool = False) -> Table:
    """Lay out every row by its stack.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units.
    short : bool
        Without the sheets and the holes, for a terminal.

    Returns
    -------
    Table
        A line a stack; a row that crosses two has two lines.
    """
    rows = []
    for row in taken.rows:
        stack = row.stretch.stack
        length = "" if row.chosen is None else show(row.chosen.length, "length", system)
        cells = [_of_row(row), f"{row.count}", _length(row.stretch.pitch, system), row.stretch.rivet or NOT_GIVEN]
        cells += [] if short else [_layers(row, taken.surface)]
        cells += [
            _length(stack.thickness, system),
            length,
            *([] if short else [f"{row.holes}"]),
            _mass(row.mass, system),
        ]
        rows.append(tuple(cells))
    heads = ("row", "rivets", "pitch", "rivet", "through", "stack", "length", "holes", "mass")
    align = "lrrllrrrr"
    if short:
        heads, align = ("row", "rivets", "pitch", "rivet", "stack", "length", "mass"), "lrrlrrr"  # type: ignore[assignment]
    return Table(heads, tuple(rows), align, "Row by row; the real pitch, both ends stay")


def _of_row(row: Taken) -> str:
    words = row.stretch.seats.words
    if not row.stretch.split:
        return words
    whole = all(len(numbers) == line.count and line.rib is not None for line, numbers in row.stretch.lines)
    if not whole:
        return f"{words}, rivets {numbers_words(row.stretch.numbers, whole=False)}"
    ribs = sorted({line.rib + 1 for line, _ in row.stretch.lines if line.rib is not None})
    return f"{words}, rib {numbers_words(ribs, whole=False)}"


def _layers(row: Taken, surface: Surface) -> str:
    return " + ".join(surface.said(name).replace("_", " ") for name in row.stretch.stack.layers)


def drill_table(taken: TakeOff, system: System = "metric") -> Table:
    """Lay out the drill of every rivet that is used.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A line a rivet: hole, range, drills, and the shanks that go in and must not.
    """
    rows: list[tuple[str, ...]] = []
    for name in dict.fromkeys(line.rivet for line in taken.lines):
        kind = taken.surface.rivets[name]
        try:
            found = shank(kind)
        except SurfaceError as error:
            rows.append((name, str(error), "", "", "", ""))
            continue
        if found is None:
            rows.append((name, f"{NOT_GIVEN}: rivet.{name}.hole", "", "", "", ""))
            continue
        low_high = NOT_GIVEN if found.range is None else " to ".join(_length(one, system) for one in found.range)
        told = [f"{one.said}{_within(found.within(one))}" for one in (found.metric, found.number)]
        goes = (
            "" if found.go is None or found.stays_out is None else f"{found.go.name} goes, {found.stays_out.name} not"
        )
        rows.append((name, _length(found.hole, system), low_high, *told, goes))
    heads = ("rivet", "hole", "its range", "drill, mm", "drill, number", "gauge")
    return Table(heads, tuple(rows), "llllll", "Drills; final size in place, with the parts clamped")


def _within(words: str) -> str:
    return f", {words}" if words else ""


def part_table(taken: TakeOff, system: System = "metric") -> Table:
    """Count the holes of every part.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A line a part, a column a rivet.
    """
    parts = drilling(taken)
    kinds = list(dict.fromkeys(run.rivet for part in parts for run in part.runs))
    rows = tuple(
        (part.words, f"{part.count}", *(_count(part, kind) for kind in kinds), _broken(part, system)) for part in parts
    )
    note = "edge broken: at most a tenth of the sheet (MIL-R-47196, as quoted in secondary text)"
    return Table(
        ("part", "holes", *(kind or NOT_GIVEN for kind in kinds), "edge broken"), rows, "", "Holes of every part", note
    )


def _broken(part: PartHoles, system: System) -> str:
    return "" if part.chamfer is None else show(part.chamfer, "length", system, 2)


def _count(part: PartHoles, kind: str) -> str:
    return str(sum(run.count for run in part.runs if run.rivet == kind) or "")


def setting_table(taken: TakeOff) -> Table:
    """Say in which order lines are pinned and set, one line for each number of rivets.

    Parameters
    ----------
    taken : TakeOff
        Worked.

    Returns
    -------
    Table
        Rivets of a line, pins, then the order.
    """
    lengths: dict[int, list[str]] = {}
    for row in taken.rows:
        for line, _ in row.stretch.lines:
            words = row.stretch.seats.words
            if words not in lengths.setdefault(line.count, []):
                lengths[line.count].append(words)
    rows = []
    for count in sorted((one for one in lengths if one > 1), reverse=True):
        order = setting_order(count)
        rows.append(
            (f"{count}", _short(order.pins), _short(order.open), _short(order.under_pins), ", ".join(lengths[count]))
        )
    heads = ("in a line", "pin first", "set, in this order", "then out with each pin", "lines of")
    return Table(heads, tuple(rows), "rllll", "Order of setting, from the middle outward")


def _short(numbers: Sequence[int]) -> str:
    if len(numbers) < 8:
        return ", ".join(map(str, numbers))
    return f"{', '.join(map(str, numbers[:4]))} ... {', '.join(map(str, numbers[-2:]))}"


def look_lines(taken: TakeOff, system: System = "metric") -> Iterator[str]:
    """Say what stands against the list, and what to look at.

    Parameters
    ----------
    taken : TakeOff
        Worked.
    system : {"metric", "inch"}
        Units.

    Yields
    ------
    str
        A line each.
    """
    yield from (_units(line, system) for line in _looked_at(taken))
    for place, missing in taken.waiting:
        keys = ", ".join(key.removeprefix(f"{place}.") for key in missing)
        yield f"{place_words(place, taken.surface)}: {NOT_GIVEN}: {keys}"


def _units(line: str, system: System) -> str:
    """Write the millimetres of a line in inches."""
    return line if system == "metric" else _MM.sub(lambda found: f"{float(found[1]) / 25.4:.3f} in", line)


def _looked_at(taken: TakeOff) -> Iterator[str]:
    yield from taken.problems
    for row in taken.rows:
        if row.stretch.stack.thickness is None:
            yield f"{row.stretch.seats.words}: stack {NOT_GIVEN}: {', '.join(row.stretch.stack.missing)}"
        for note in row.notes:
            yield f"{_of_row(row)}: {note}"
    yield from crowded(taken.surface, tuple(dict.fromkeys(row.stretch.seats for row in taken.rows)))
