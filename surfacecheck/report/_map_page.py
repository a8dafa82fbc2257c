"""The map as a page of its own, for the wall of the workshop."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from markupsafe import Markup

from surfacecheck.assessment import CAUTION
from surfacecheck.errors import SurfaceError
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


def write_whole(target: Path, text: str) -> int:
    """Write a page whole or not at all; what is there stays until the new one is complete.

    Parameters
    ----------
    target : Path
        File to write; its folder is made.
    text : str
        The page.

    Returns
    -------
    int
        Size in bytes.

    Raises
    ------
    OSError
        Where this computer cannot write it.
    """
    data = text.encode("utf-8")
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, beside = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
        Path(beside).chmod(0o644)
        Path(beside).replace(target)
    finally:
        with suppress(FileNotFoundError):
            Path(beside).unlink()
    return len(data)
