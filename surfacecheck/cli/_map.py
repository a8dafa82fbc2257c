"""``map``: where everything is and what it is called."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._parser import called_as
from surfacecheck.cli._say import quoted, say, say_data
from surfacecheck.tables import wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System

__all__ = ["run_map"]


def run_map(options: argparse.Namespace) -> int:
    """Print every name, and write the map of the surface as one page.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code.
    """
    from surfacecheck.reading import read
    from surfacecheck.studies import place_names, place_table

    surface, file = read(options.file), Path(options.file)
    system: System = options.units or ("inch" if str(surface.units) == "inch" else "metric")
    names = place_names(surface, system)
    if not options.json:
        say(wrapped(f"{surface.name or 'no name given'}: names for show, change files and pages", then="  "))
        say(place_table(names).text())
        say()
    from surfacecheck.report import map_needs, map_page, write_whole

    needs = map_needs(surface)
    page = file.parent / "out" / f"{file.stem}_map.html"
    if not needs:
        write_whole(page, map_page(surface, system))
    if options.json:
        places = [{"name": one.name, "what": one.what} for one in names]
        say_data({"form": 1, "map": None if needs else str(page), "needs": needs, "places": places}, "map")
    elif needs:
        say(wrapped(f"MAP    not drawn yet: {needs}", then="       "))
        say(f"NEXT   {called_as()} check {quoted(options.file)}")
    else:
        say(f"MAP    {page}  (to scale, one sheet; open it, print it)")
    return 0
