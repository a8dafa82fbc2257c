"""What the checks read: internal loads, flows and pulls of every case, at every station."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import OverCases, by_case
from surfacecheck.checks import Effects
from surfacecheck.provenance import numbers
from surfacecheck.sections.box import Box, box_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.assessment._load import Loaded
    from surfacecheck.model import Surface
    from surfacecheck.statics.span import Span

    Array = NDArray[np.float64]

__all__ = ["box_at", "effects_of"]


def box_at(surface: Surface, span: Span) -> Box:
    """Work the sections at every station.

    Parameters
    ----------
    surface : Surface
        With everything :func:`box_needs` asks for.
    span : Span
        Its stations [m].

    Returns
    -------
    Box
        With doublers where they lie.
    """
    doubled = {
        name: span.between(numbers(d.start) - 1e-9, numbers(d.to) + 1e-9)
        for name, d in surface.sheet.doublers.items()
        if d.start.known and d.to.known
    }
    return box_of(surface, span.y, doubled, span.nose_closed)


def effects_of(surface: Surface, span: Span, box: Box | None, loaded: Loaded) -> Effects:
    """Gather what the checks read.

    Parameters
    ----------
    surface : Surface
        As described.
    span : Span
        Its stations [m].
    box : Box or None
        Its sections, where they can be worked.
    loaded : Loaded
        Its load cases, solved.

    Returns
    -------
    Effects
        Internal loads, flows and pulls [N], [N m], [N/m].
    """
    beam = loaded.beams[0]
    return Effects(
        surface=surface,
        span=span,
        box=box,
        cases=loaded.titles,
        control=np.array([c.reads == "control" for c in loaded.cases]),
        evenly=loaded.evenly,
        by_ribs=loaded.by_ribs,
        nose_open_too=box is not None and box.rear_alone is not None,
        inside=beam.inside,
        pulls=_pulls(box, loaded),
        ribs=loaded.ribs,
        reactions=beam.reactions,
        horn_force=loaded.horn_force,
        horn_points=loaded.horn_points,
    )


def _pulls(box: Box | None, loaded: Loaded) -> OverCases:
    """Edge reactions of the skin as a strip from spar to trailing edge, all pressure on one skin, no help from ribs.

    The pressure is the same however the load then comes to the spar: read from the evenly spread twin of each case.
    """
    air, mix = loaded.given.units, loaded.given.mix[..., loaded.twin, :]
    web = by_case(box.web_x) if box is not None else np.asarray(0.0)
    edge = by_case(box.edge_x) if box is not None else np.asarray(1.0)
    at_edge = (-air.torque - web * air.z) / (edge - web)
    return OverCases({"spar": air.z - at_edge, "edge": at_edge}, mix)
