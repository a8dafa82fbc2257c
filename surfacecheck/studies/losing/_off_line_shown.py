"""Pins off line, in words, tables, plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import CAUTION, margin_text
from surfacecheck.quantities import show
from surfacecheck.studies.losing._off_line import MILLIMETRE, PLANES
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.losing._off_line import OffLine

__all__ = ["millimetre_table", "off_line_data", "off_line_headline", "off_line_html", "off_line_table", "off_line_text"]

_NOISE = 0.5e-3
"""Force that rounding leaves where there is none [N]."""
NOTES = (
    "bound: bending alone, fin and brackets stiff, so that nothing gives but the spar",
    "as given: with shear and twist of the box, and with what fin and brackets give",
    "set in once: at ultimate it stands beside 1.5 times the load, not 1.5 times itself",
    "not looked at: play of the pins, friction, wear, what the fin itself carries",
)


def off_line_headline(found: OffLine, system: System = "metric") -> str:
    """Say in a few sentences what pins off line come to.

    Parameters
    ----------
    found : OffLine
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        The pin that binds most, and the lowest margin with and without.
    """
    if len(found.hinges) < 3:
        return "A line through two pins is always straight: with two hinges nothing is set in."
    bound, given = found.binding
    if not np.abs(found.offset).any():
        return "All pins are in line by the file: nothing is set in. What a millimetre would do stands below."
    at = int(np.argmax(bound))
    most, now = show(float(bound[at]), "force", system), show(float(given[at]), "force", system)
    said = f"Without any load the {found.hinges[at]} pin binds with {most} at most"
    said += f", {now} with what fin and brackets give." if found.gives else f"; {now} with shear and twist of the box."
    if not found.gives:
        said += " The file lets fin and brackets give nothing: real ones do, and lower it."
    before, after = found.lowest
    if before is not None and after is not None:
        said += f" Lowest margin anywhere: {margin_text(before)} in line, {margin_text(after)} so."
    return said


def _sides(found: OffLine) -> tuple[tuple[str, str], tuple[str, str]]:
    surface = found.surface
    left, right = surface.said("left"), surface.said("right")
    return ((left, right) if surface.left_is > 0 else (right, left)), ("aft", "fwd")


def _force(value: float, words: tuple[str, str], system: System) -> str:
    return "-" if abs(value) < _NOISE else f"{show(abs(value), 'force', system)} {words[0 if value > 0.0 else 1]}"


def _off(value: float, words: tuple[str, str], system: System) -> str:
    """Write an offset with its side; empty for none."""
    return "" if abs(value) < 1e-9 else f"{show(abs(value), 'length', system, 2)} {words[value < 0.0]}"


def off_line_table(found: OffLine, system: System = "metric") -> Table:
    """Put the pins in a table.

    Parameters
    ----------
    found : OffLine
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        From tip to root: how far off line; force on the pin in each direction and across it, bound and as given;
        largest load at limit in line and so.
    """
    z, x = _sides(found)
    bound, given = found.binding
    rows = []
    for i in reversed(range(len(found.hinges))):
        z_off, x_off = found.offset[i].tolist()
        moved = [_off(z_off, z, system), _off(x_off, ("behind", "ahead"), system)]
        rows.append(
            (
                found.hinges[i],
                "; ".join(one for one in moved if one) or "-",
                _force(float(found.given[i, 0]), z, system),
                _force(float(found.given[i, 1]), x, system),
                show(float(given[i]), "force", system),
                show(float(bound[i]), "force", system),
                show(float(found.alone[i]), "force", system),
                show(float(found.together[i]), "force", system),
            )
        )
    heads = ("pin", "off line", "sideways", "fore-aft", "binds", "bound", "limit, in line", "limit, so")
    caption = "What is set in at every pin, without load; and its largest load at limit"
    return Table(heads, tuple(rows), "llrrrrrr", caption)


def millimetre_table(found: OffLine, system: System = "metric") -> Table:
    """Put what a millimetre at each inner pin sets in in a table, the upper bound.

    Parameters
    ----------
    found : OffLine
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A row for each inner pin and plane, a column for each pin, from root to tip.
    """
    rows = []
    for i in range(1, len(found.hinges) - 1):
        for p, plane in enumerate(PLANES):
            forces = found.each[i, p, :, p]
            rows.append((f"{found.hinges[i]}, {plane}", *(show(abs(float(v)), "force", system) for v in forces)))
    size = show(MILLIMETRE, "length", system)
    caption = f"{size} off line at one pin: force at each, bound; the outer ones push the other way"
    return Table(("moved", *found.hinges), tuple(rows), caption=caption)


def off_line_text(found: OffLine, system: System = "metric", width: int = 80) -> str:
    """Write it for a terminal.

    Parameters
    ----------
    found : OffLine
        Worked.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines.
    """
    several, moved = len(found.hinges) > 2, bool(np.abs(found.offset).any())
    blocks = [
        wrapped(f"PINS OFF LINE  {found.surface.name or 'no name given'}", width, then="  "),
        wrapped(off_line_headline(found, system), width),
        *([off_line_table(found, system).text(width)] if several and moved else []),
        *([millimetre_table(found, system).text(width)] if several else []),
        *(["\n".join(wrapped(note, width, then="  ") for note in NOTES)] if several else []),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join(blocks)


def off_line_html(found: OffLine, system: System = "metric") -> str:
    """Write it for a notebook.

    Parameters
    ----------
    found : OffLine
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    tables = off_line_table(found, system).html() + millimetre_table(found, system).html()
    lines = "".join(f"<li>{escaped(note)}</li>" for note in NOTES)
    head = f"<p>{escaped(off_line_headline(found, system))}</p>"
    return f"<div>{head}{tables}<ul>{lines}</ul><p><em>{escaped(CAUTION)}</em></p></div>"


def off_line_data(found: OffLine) -> dict[str, Any]:
    """Turn it into plain data.

    Parameters
    ----------
    found : OffLine
        Worked.

    Returns
    -------
    dict
        ``form``; one entry of ``pins`` for each, root to tip, forces along z and x; ``millimetre``.
    """
    bound, given = found.binding
    return {
        "form": 1,
        "units": "SI",
        "pins": [
            {
                "name": name,
                "up": float(found.up[i]),
                "off_line": found.offset[i].tolist(),
                "force_bound": found.bound[i].tolist(),
                "force_stiff": found.stiff[i].tolist(),
                "force_given": found.given[i].tolist(),
                "binds_bound": float(bound[i]),
                "binds_given": float(given[i]),
                "limit_in_line": float(found.alone[i]),
                "limit_so": float(found.together[i]),
            }
            for i, name in enumerate(found.hinges)
        ],
        "gives": found.gives,
        "millimetre": found.each.tolist(),
        "lowest_margin": list(found.lowest),
        "notes": list(NOTES),
        "caution": CAUTION,
    }
