"""The weighing sheet: lines to pencil the readings on, and what the file says so far."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import CAUTION
from surfacecheck.errors import SurfaceError
from surfacecheck.report._balance_picture import balance_picture
from surfacecheck.report._bench_drawing import bench_drawing
from surfacecheck.report._html import rendered
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import (
    NOT_WEIGHED,
    balance_headline,
    bench_table,
    cautions_for,
    criteria_table,
    group_table,
    paint_line,
    reading_lines,
    rules_of_thumb,
    state_table,
)

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies import BalanceColumn, BalanceStudy
    from surfacecheck.tables import Table

__all__ = ["weighing_sheet"]

_BEFORE = (
    "Everything that moves is on: horn, half of the pushrod, tab and its servo; cables and springs are off.",
    "Free on its pins, or on knife edges or two thin wires in their line; no draught.",
    "Held at three points or more, so that it cannot bow.",
    "Scale at nought, its place r taped from the line of the pins, chord level by a spirit level.",
    "Lift the edge slowly and read while it rises; let it down slowly and read while it sinks. Three times.",
    "Then once with the edge 10 to 30 deg high: that tells how high the centre of gravity lies.",
)
"""Common practice of weighing control surfaces; the three points and both ways from sailplane maintenance forms."""

_HALVES = "This half alone, at its own pins; the tube between the halves and the other half are weighed by themselves."


def weighing_sheet(study: BalanceStudy, system: System = "metric") -> str:
    """Write the weighing sheet of a surface.

    Parameters
    ----------
    study : BalanceStudy
        A surface on the scales, and after changes.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script; the same every time. It prints on two sheets of A4 or Letter:
        lines to fill in, then the numbers.
    """
    surface, last = study.columns[-1].surface, study.columns[-1]
    many = len(study.columns) > 1
    before = (*_BEFORE, *((_HALVES,) if surface.half != "none" else ()))
    return rendered(
        "weighing.html",
        surface=surface,
        file=surface.path.replace("\\", "/").rsplit("/", 1)[-1],
        sheet=surface.sha256[:4].upper(),
        drawing=Markup(to_svg(bench_drawing(), "bench")),  # noqa: S704 - own SVG, names escaped
        before=before,
        expected=_expected(last, system),
        by_hand=_by_hand(system),
        states=_states(study, system),
        beside=state_table(study, system) if many else None,
        picture=_picture(last, system),
        parts=group_table(last, system),
        paint=paint_line(last, system),
        thumb=rules_of_thumb(last, system),
        criteria=criteria_table(last.criteria, system),
        cautions=cautions_for("mass"),
        not_looked_at=NOT_WEIGHED,
        caution=CAUTION,
    )


def _expected(column: BalanceColumn, system: System) -> str:
    if column.readings is not None:
        return "Readings are in the file already: see below. The lines are for the next time."
    said = reading_lines(column, system)[0]
    return f"{said[0].upper()}{said[1:]}."


def _by_hand(system: System) -> tuple[tuple[str, str], ...]:
    g = "9.81 N/kg" if system == "metric" else "1 lbf/lb"
    return (
        ("mean push F", "= (rising + sinking) / 2"),
        ("friction", "= (rising - sinking) / 2"),
        ("moment", "= F x r; tail-heavy where the edge lies on the scale"),
        ("friction over F", "asked: below 2.5 % of the greatest moment allowed (common practice)"),
        ("height x weight", "= r (F level - F tipped) / tan(tilt)"),
        ("nose mass", f"= moment / ({g} x its distance ahead of the pins)"),
        ("what holds it, at limit", "24 g sideways, 12 g fore and aft, 12 g along, each alone (14 CFR 23.659)"),
        ("page of the log, signed", ""),
    )


def _states(study: BalanceStudy, system: System) -> list[tuple[str, str, tuple[str, ...], Table | None]]:
    """Heading, sentences, readings and rules of each state; readings that are those of an earlier one once."""
    out, seen = [], set[tuple[str, ...]]()
    for column in study.columns:
        readings = () if column.readings is None else reading_lines(column, system)
        shown = () if readings in seen else readings
        seen.add(readings)
        rules = bench_table(column.rules, system) if column.rules and shown else None
        said = balance_headline(column, system, held=column is study.columns[-1])
        out.append((column.surface.title, said, shown, rules))
    return out


def _picture(column: BalanceColumn, system: System) -> Markup | None:
    try:
        drawn = balance_picture(column, system, alone=False)
    except SurfaceError:  # without an outline there is nothing to draw; the tables stand by themselves
        return None
    return Markup(to_svg(drawn, "mass"))  # noqa: S704 - own SVG, names escaped
