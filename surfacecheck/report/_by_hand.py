"""Sums that a person can redo with a pocket calculator, beside what the package gives."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import in_system
from surfacecheck.loads import AirLoad
from surfacecheck.model import Level, Over
from surfacecheck.quantities import show
from surfacecheck.report._marks import bare, shown
from surfacecheck.report._places import plan_of

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System

__all__ = ["HandSum", "by_hand"]


@dataclass(frozen=True, slots=True)
class HandSum:
    """One sum.

    Attributes
    ----------
    what : str
        In words.
    sum : str
        With numbers.
    by_hand, here : float
        What the sum gives, and what the package gives [SI].
    result, given : str
        The same with units.
    """

    what: str
    sum: str
    by_hand: float
    here: float
    result: str
    given: str


def by_hand(assessment: Assessment, system: System) -> tuple[HandSum, ...]:
    """Work total load, balance at the pins and one rivet by hand.

    Parameters
    ----------
    assessment : Assessment
        Any; sums that do not apply to it are left out.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of HandSum
        At most three.
    """
    sums = (_total(assessment, system), _pins(assessment, system), _rivet(assessment, system))
    return tuple(one for one in sums if one is not None)


def _total(assessment: Assessment, system: System) -> HandSum | None:
    """Mean pressure times the area behind the pins, as the letter gives it."""
    load, plan = assessment.surface.load, plan_of(assessment.surface)
    first = assessment.cases[0]
    if (
        load.pressure.si is None
        or load.over is not Over.BEHIND_PINS
        or plan is None
        or plan.edge is None
        or not isinstance(first.air, AirLoad)
    ):
        return None
    factor = 1.5 if load.level is Level.ULTIMATE else 1.0
    width = np.diff(plan.y)
    area = float((0.5 * (plan.edge[1:] + plan.edge[:-1]) * width).sum())
    pressure = float(np.mean(load.pressure.si)) / factor
    here = float(abs((assessment.beam.loads.z[0] * assessment.span.stations.weight).sum()))
    lines = (width, plan.edge[:-1], plan.edge[1:])
    parts = " + ".join(
        f"{h} × ({a} + {b}) / 2"
        for h, a, b in zip(*([bare(float(v), "length", system) for v in line] for line in lines), strict=True)
    )
    shown_area = show(area, "section_area", system, 6)
    what = f"Total air load, {first.title}: mean pressure times area behind the pins ({parts} = {shown_area})"
    return HandSum(
        what,
        f"{show(pressure, 'pressure', system)} × {show(area, 'area', system, 4)}",
        pressure * area,
        here,
        show(pressure * area, "force", system),
        show(here, "force", system),
    )


def _pins(assessment: Assessment, system: System) -> HandSum | None:
    """Add up the forces at the pins: what was put on."""
    index = int(np.argmax([abs(rest.applied[2]) for rest in assessment.rests]))
    rest = assessment.rests[index]
    parts = assessment.beam.reactions[index, :, 2]
    text = " + ".join(
        f"({bare(float(-part), 'force', system)})" if part > 0 else bare(float(-part), "force", system)
        for part in parts
    )
    total = float(-parts.sum())
    what = f"Sideways at the pins, {rest.case}: all together give back what was put on"
    return HandSum(
        what, text, total, rest.applied[2], show(total, "force", system), show(rest.applied[2], "force", system)
    )


def _rivet(assessment: Assessment, system: System) -> HandSum | None:
    """Load a length of a row along the spar, times pitch."""
    load = next((row for row in assessment.rows if row.kind in {"spar", "edge"} and row.plan.lines == 1), None)
    if load is None:
        return None
    case, spot = np.unravel_index(int(np.argmax(load.shear)), load.shear.shape)
    flow, shear = float(load.flow[case, spot]), float(load.shear[case, spot])
    where = f"{load.row.name.replace('_', ' ')}, {in_system(load.spots[int(spot)], system)}"
    what = f"One rivet of {where}, {load.cases[int(case)]}: load of the row times pitch"
    text = f"{show(flow, 'line_load', system)} × {shown(load.plan.pitch, 'length', system)}"
    return HandSum(
        what,
        text,
        flow * load.plan.pitch,
        shear,
        show(flow * load.plan.pitch, "force", system),
        show(shear, "force", system),
    )
