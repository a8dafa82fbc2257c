"""The pictures of a page, each as SVG, or the sentence that says which value hides it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.checks import bracket_needs, horn_needs
from surfacecheck.errors import SurfaceError
from surfacecheck.model import DrivenBy
from surfacecheck.report._bracket_forces import bracket_forces
from surfacecheck.report._bracket_map import bracket_map
from surfacecheck.report._diagrams import diagrams
from surfacecheck.report._horn_forces import horn_forces
from surfacecheck.report._margin_bars import margin_bars
from surfacecheck.report._running_load import running_load
from surfacecheck.report._section_flow import section_flow
from surfacecheck.report._surface_map import surface_map
from surfacecheck.report._svg import to_svg
from surfacecheck.report._telling import telling_places
from surfacecheck.sections.box import box_needs

if TYPE_CHECKING:
    from collections.abc import Callable

    from surfacecheck.assessment import Assessment
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing

__all__ = ["Picture", "hidden_by", "pictures"]

BARS = 5


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture of a page.

    Attributes
    ----------
    svg : str
        Empty where it could not be drawn.
    hidden : str
        Then: which value hides it.
    """

    svg: str
    hidden: str


def hidden_by(keys: tuple[str, ...]) -> str:
    """Say which values hide something."""
    shown = ", ".join(dict.fromkeys(keys[:4]))
    more = f" and {len(keys) - 4} more" if len(keys) > 4 else ""
    return f"Not given: hidden by {shown}{more}." if keys else "Not given."


def pictures(assessment: Assessment, system: System) -> dict[str, Picture]:
    """Draw everything that can be drawn.

    Parameters
    ----------
    assessment : Assessment
        Perhaps of a half-filled surface.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    dict of str to Picture
        By name: map, margins, load, diagrams, section-1 and on, rivets, brackets, horn.
    """
    surface = assessment.surface
    no_box = hidden_by(box_needs(surface))
    brackets = tuple(dict.fromkeys(key for hinge in surface.hinges.values() for key in bracket_needs(surface, hinge)))
    tube = surface.horn is not None and surface.horn.driven_by is DrivenBy.TORQUE_TUBE
    no_horn = "A torque tube has no rivets that are looked at." if tube else hidden_by(horn_needs(surface))
    makers: list[tuple[str, Callable[[], Drawing], str]] = [
        ("map", lambda: surface_map(assessment, system, alone=False), "The map needs the outline."),
        (
            "margins",
            lambda: margin_bars(assessment, BARS, system, alone=False),
            "No margin yet: see what is not given.",
        ),
        ("load", lambda: running_load(assessment, system, alone=False), "No load case has an air load."),
        ("diagrams", lambda: diagrams(assessment, None, system, alone=False), ""),
        ("rivets", lambda: bracket_map(assessment, system, alone=False), hidden_by(brackets)),
        ("brackets", lambda: bracket_forces(assessment, None, system, alone=False), hidden_by(brackets)),
        ("horn", lambda: horn_forces(assessment, None, system, alone=False), no_horn),
    ]
    if assessment.effects.box is None:
        makers.append(("section-1", lambda: section_flow(assessment, None, None, system, alone=False), no_box))
    else:
        makers += [
            (f"section-{i + 1}", lambda at=at: section_flow(assessment, at, None, system, alone=False), no_box)  # type: ignore[misc]
            for i, at in enumerate(telling_places(assessment))
        ]
    return {name: _drawn(name, make, hidden) for name, make, hidden in makers}


def _drawn(name: str, make: Callable[[], Drawing], hidden: str) -> Picture:
    try:
        return Picture(to_svg(make(), name), "")
    except SurfaceError as err:
        return Picture("", hidden or f"Not given: {err}.")
