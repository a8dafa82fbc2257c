"""The map as a page of its own, for the wall of the workshop."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import CAUTION
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import write_whole
from surfacecheck.report._bracket_map import BRACKET_NEEDS, bracket_map, described_hinges
from surfacecheck.report._html import rendered
from surfacecheck.report._surface_map import surface_map
from surfacecheck.report._svg import to_svg
from surfacecheck.studies import place_names

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System

__all__ = ["map_needs", "map_page", "write_whole"]


def map_needs(surface: Surface) -> str:
    """Say what the map cannot be drawn without.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.

    Returns
    -------
    str
        Empty where it can be drawn.
    """
    try:
        surface_map(surface)
    except SurfaceError as error:
        return str(error)
    return ""


def map_page(surface: Surface, system: System = "metric") -> str:
    """Write the map of a surface.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled; what is not known is left out and named.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script, which prints on one sheet of A4 or Letter.

    Raises
    ------
    SurfaceError
        Where not even the outline is known.
    """
    drawings = [Markup(to_svg(surface_map(surface, system), "map"))]  # noqa: S704 - own SVG, names escaped
    missing = "" if described_hinges(surface) else BRACKET_NEEDS
    if not missing:
        drawings.append(Markup(to_svg(bracket_map(surface, system), "rivets")))  # noqa: S704
    names = place_names(surface, system)
    file = surface.path.replace("\\", "/").rsplit("/", 1)[-1]
    return rendered("map.html", surface=surface, file=file, sheet=surface.sha256[:4].upper(), drawings=drawings,
                    missing=missing, names=names, caution=CAUTION)  # fmt: skip
