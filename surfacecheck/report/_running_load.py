"""The air load along the span, and where it lies behind the pins: one line for every load that differs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.report._diagrams import span_axis
from surfacecheck.report._marks import bare, line_key, units
from surfacecheck.report._style import DASHES, FONT, INK, LINE, RAMP, WIDE, axes_at, broken, drawing, foot_of, styled

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

    Array = NDArray[np.float64]

__all__ = ["load_shapes", "running_load"]

_MOST = 6
_PANEL, _LEFT, _RIGHT = 1.4, 0.16, 0.26


def load_shapes(assessment: Assessment) -> tuple[tuple[int, str], ...]:
    """List the cases whose air load differs from those before, mirror images apart, largest first.

    Returns
    -------
    tuple of (int, str)
        Index along the C axis of ``assessment.beam.loads``, and title.
    """
    loads, effects = assessment.beam.loads, assessment.effects
    count = len(assessment.case_titles)
    found: list[tuple[int, str]] = []
    for c in range(count):
        if not effects.evenly[c] or effects.control[c] or not np.abs(loads.z[c]).max() > 0.0:
            continue
        sign = np.sign(loads.z[c].sum()) or 1.0
        for other, _ in found:
            flip = sign * (np.sign(loads.z[other].sum()) or 1.0)
            if np.allclose(loads.z[c], flip * loads.z[other], rtol=1e-6) and np.allclose(
                loads.torque[c], flip * loads.torque[other], rtol=1e-6
            ):
                break
        else:
            found.append((c, assessment.case_titles[c]))
    return tuple(sorted(found, key=lambda one: -float(np.abs(loads.torque[one[0]]).max())))[:_MOST]


@styled
def running_load(assessment: Assessment, system: System = "metric", *, alone: bool = True) -> Drawing:
    """Draw the air load for each length of span, and its moment about the pins.

    Parameters
    ----------
    assessment : Assessment
        Any.
    system : {"metric", "inch"}
        Units.
    alone : bool
        With file name and caution at the foot.

    Returns
    -------
    Drawing
        One line for each air load that differs; those to the other side are mirror images.

    Raises
    ------
    SurfaceError
        Where no case has an air load.
    """
    shapes = load_shapes(assessment)
    if not shapes:
        message = "no load case has an air load to draw"
        raise SurfaceError(message)
    loads, span = assessment.beam.loads, assessment.span
    names = [broken(title, 42) for _, title in shapes]
    key = LINE * (sum(len(lines) for lines in names) + 0.3)
    tall = 2 * (_PANEL + 0.36) + 0.8 + key
    view = ("At limit, spread evenly. The other way is the mirror image.",)
    fig = drawing(
        tall,
        "Air load along the span",
        view,
        foot_of(assessment, alone),
        f"Running load and its moment about the pins for {len(shapes)} air loads.",
    )
    panels = (
        ("w", loads.z, "Load along the span", "line_load"),
        ("t", loads.torque, "Its moment about the pins", "line_torque"),
    )
    for i, (gid, values, name, quantity) in enumerate(panels):
        ax = axes_at(fig, _LEFT, fig.top - (i + 1) * (_PANEL + 0.36), WIDE - _LEFT - _RIGHT, _PANEL)
        unit, factor = units(quantity, system)
        per = {"N": "N m/m", "lbf": "lbf in/in"}.get(unit, unit)
        _panel(ax, span.y, [np.abs(values[c]) * factor for c, _ in shapes], gid)
        ax.set_title(f"{name}, {per}", loc="left", pad=4, fontsize=FONT)
        span_axis(ax, assessment, system, written=i == 1)
    line_key(fig, fig.bottom, key, names, [_look(i) for i in range(len(names))])
    return fig


def _look(i: int) -> dict[str, Any]:
    """Give the look of one load's line, in both diagrams and in their key."""
    return {"color": RAMP[i % 2], "linestyle": DASHES[i % len(DASHES)], "linewidth": 1.5}


def _panel(ax: Axes, y: Array, lines: list[Array], gid: str) -> None:
    most = max(float(line.max()) for line in lines) or 1.0
    for i, line in enumerate(lines):
        ax.plot(y, line, gid=f"{gid}-{i + 1}", **_look(i))
    ax.set_ylim(0.0, 1.18 * most)
    top = max(range(len(lines)), key=lambda i: float(lines[i].max()))
    at = int(np.argmax(lines[top]))
    right = y[at] > 0.5 * (y[0] + y[-1])
    ax.annotate(
        bare(most, "number", "metric"),
        (float(y[at]), most),
        (0, 3),
        textcoords="offset points",
        ha="right" if right else "left",
    )
    ax.axhline(0.0, color=INK, linewidth=0.8)
