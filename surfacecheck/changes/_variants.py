"""A surface as drawn, and the same with each change."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.model import Surface
from surfacecheck.reading import read

__all__ = ["variants"]


def variants(base: str | Path, changes: Iterable[str | Path] = ()) -> list[tuple[str, Surface]]:
    """Read a surface as drawn, and again with each change laid over it alone.

    Parameters
    ----------
    base : str or Path
        The surface file (or a change file: then with that change).
    changes : iterable of str or Path
        Change files, each based on the same surface file.

    Returns
    -------
    list of (str, Surface)
        Title and surface; the base comes first. Two changes with one title are told apart by their file.

    Raises
    ------
    SurfaceError
        With the faults of every file that cannot be read.

    Notes
    -----
    Changes that belong together are laid over one another by ``read(base, first, second)``, or by a change file that
    is based on a change file.
    """
    found: list[tuple[str, Surface]] = []
    faults: list[Fault] = []
    for laid in ((), *((one,) for one in changes)):
        try:
            surface = read(base, *laid)
        except SurfaceError as err:
            if not laid:
                raise
            faults += err.faults
            continue
        found.append((surface.title, surface))
    if faults:
        raise SurfaceError(*dict.fromkeys(faults))
    return _told_apart(found)


def _told_apart(found: list[tuple[str, Surface]]) -> list[tuple[str, Surface]]:
    titles = [title for title, _ in found]
    return [
        (f"{title} ({surface.changes[-1].path})" if titles.count(title) > 1 and surface.changes else title, surface)
        for title, surface in found
    ]
