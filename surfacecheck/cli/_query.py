"""``query``: one page for whoever decides, the same as text for an e-mail, and an entry for the log."""

from __future__ import annotations

import argparse
import re
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.cli._deviation import stem_of, worked
from surfacecheck.cli._say import say, say_data
from surfacecheck.errors import SurfaceError
from surfacecheck.tables import wrapped

if TYPE_CHECKING:
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies import Kept, Query

__all__ = ["run_query"]


def run_query(options: argparse.Namespace) -> int:
    """Print the text of the query sheet, and write page, text and log entry.

    Parameters
    ----------
    options : argparse.Namespace
        Of the command line.

    Returns
    -------
    int
        Exit code.
    """
    from surfacecheck.studies import DROPS, fitted, kept_data, log_text, query, query_text

    found, system = worked(options)
    stem = stem_of(options)
    earlier = None if options.earlier is None else _earlier(options.earlier, stem.parent, found.surface)
    sheet = query(found, "", earlier, options.option, system)
    sheet = fitted(sheet.numbered(_number(sheet.kept, stem.parent, earlier, found.surface)))
    text = query_text(sheet)
    written = _write(sheet, stem, text, log_text(sheet), system)
    if options.json:
        blocks = [{"title": b.title, "lines": [line.text for line in b.lines]} for b in sheet.blocks]
        files = {name: str(path) for name, path in written.items()}
        say_data({"form": 1, "number": sheet.number, "question": sheet.question, "head": list(sheet.head),
                  "blocks": blocks, "left_out": list(sheet.dropped), "files": files,
                  "kept": kept_data(sheet.kept), "text": text}, "query")  # fmt: skip
        return 0
    say(text)
    if sheet.dropped:
        rule = "one page is full; lines go in this order, and what then still fits comes back, the last first"
        order = f"{rule}: {', '.join(DROPS)}; gone: {len(sheet.dropped)}"
        say(wrapped(order, then="  "))
    sys.stdout.flush()
    say(f"PAGE   {written['page']}  (A4, Letter)")
    say(f"TEXT   {written['text']}  (e-mail)")
    say(f"LOG    {written['log']}")
    return 0


def _sheets(folder: Path, mark: str) -> dict[str, Path]:
    """Sheets that were written, by number."""
    found = {}
    for page in sorted(folder.glob(f"*_query_{mark}*.html")):
        name = re.search(r"_query_([0-9A-F]{4}-[0-9]+)$", page.stem)
        if name is not None:
            found[name[1]] = page
    return found


def _earlier(named: str, folder: Path, surface: Surface) -> Kept:
    """Read an earlier sheet, named by its file or its number."""
    from surfacecheck.report import read_sheet

    here = _sheets(folder, "")
    if not Path(named).exists() and named.upper() in here:
        return read_sheet(here[named.upper()], surface)
    if not Path(named).exists() and re.fullmatch(r"[0-9A-Fa-f]{4}-[0-9]+", named):
        message = f"--earlier {named}: no such sheet in {folder}. There: {', '.join(here) or 'none'}"
        raise SurfaceError(message)
    return read_sheet(Path(named), surface)


def _number(now: Kept, folder: Path, earlier: Kept | None, surface: Surface) -> str:
    """Count the sheets of this surface file on; the same sheet again keeps its number."""
    from surfacecheck.report import read_sheet

    mark = surface.sha256[:4].upper()
    counts = [0]
    for number, page in _sheets(folder, mark).items():
        counts.append(int(number.rpartition("-")[2]))
        try:
            kept = read_sheet(page, surface)
        except SurfaceError:  # a file of that name that is no sheet of this surface only takes up its number
            continue
        if kept == replace(now, number=number) and (earlier is None or number != earlier.number):
            return number
    if earlier is not None:
        counts.append(int(earlier.number.rpartition("-")[2]))
    return f"{mark}-{max(counts) + 1}"


def _write(sheet: Query, stem: Path, text: str, log: str, system: System) -> dict[str, Path]:
    from surfacecheck.report import query_page, write_whole

    name = f"{stem.name}_query_{sheet.number}"
    files = {"page": f"{name}.html", "text": f"{name}.txt", "log": f"{name}_log.txt"}
    texts = {"page": query_page(sheet, system), "text": text, "log": log}
    for what, file in files.items():
        write_whole(stem.with_name(file), texts[what])
    return {what: stem.with_name(file) for what, file in files.items()}
