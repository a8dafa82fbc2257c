"""An assessment as tables: pins, lowest margins, rivets of a row and of a bracket."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment._shown import margin_text
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Kind
from surfacecheck.quantities import show
from surfacecheck.tables import Table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.assessment._result import Assessment, Worst
    from surfacecheck.checks import Finding
    from surfacecheck.quantities import System

__all__ = [
    "APART",
    "bracket_table",
    "case_words",
    "finding_table",
    "in_system",
    "margin_table",
    "pin_table",
    "row_table",
]

APART = 0.1
"""Difference of the two idealisations, over the largest hinge load, from which it is said in capitals."""

_SENSE = re.compile(
    r"(, nose taken as open|, through the ribs|,? to the (left|right|top|bottom)|,? (up|down)(?=, taken))"
)
_NOISE = 0.5e-3  # N; what rounding leaves of a load that is not there
_PLACE = re.compile(r"\bat (-?[0-9]+) mm\b")


def case_words(title: str) -> str:
    """Shorten the title of a load case: without its sense, and without how it reaches the spar.

    Examples
    --------
    >>> case_words("wind at tie-down, to the left, straight to zero, through the ribs")
    'wind at tie-down, straight to zero'
    """
    return _SENSE.sub("", title)


def in_system(text: str, system: System = "metric") -> str:
    """Write the places in a text in the units wanted.

    Examples
    --------
    >>> in_system("rib 3 at 325 mm", "inch")
    'rib 3 at 12.8 in'
    """
    if system == "metric":
        return text
    return _PLACE.sub(lambda found: f"at {float(found[1]) / 25.4:.1f} in", text)


def _sides(assessment: Assessment) -> tuple[tuple[str, str], tuple[str, str], tuple[str, str]]:
    """Words for plus and minus of z, x, y."""
    surface = assessment.surface
    left, right = (surface.said(word) for word in ("left", "right"))
    z = (left, right) if surface.left_is > 0 else (right, left)
    y = ("up", "down") if surface.kind is Kind.RUDDER else ("out", "in")
    return z, ("aft", "fwd"), y


def _worst(worst: Worst, words: tuple[str, str], system: System) -> str:
    if abs(worst.value) < _NOISE:
        return "-"
    return f"{show(abs(worst.value), 'force', system)} {words[0] if worst.value > 0.0 else words[1]}"


def pin_table(assessment: Assessment, system: System = "metric") -> Table:
    """Give the loads at every pin and at the cable or rod, each the worst of all cases.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A row a pin, then cable, rod or torque tube.
    """
    z, x, y = _sides(assessment)
    rows = []
    for pin in reversed(assessment.pins):
        parts = (pin.sideways, pin.fore_aft, pin.along)
        largest = max(parts, key=lambda one: abs(one.value))
        texts = (_worst(part, words, system) for part, words in zip(parts, (z, x, y), strict=True))
        rows.append((pin.name, show(pin.up, "length", system), *texts, case_words(largest.case)))
    pull = assessment.horn_pull
    if pull is not None:
        size = show(abs(pull.pull.value), "torque" if pull.kind == "torque tube" else "force", system)
        rows.append((pull.kind, show(pull.up, "length", system), "", size, "", case_words(pull.pull.case)))
    heads = ("pin", y[0], "sideways", "fore-aft", "along", "case of the largest")
    note = ""
    if assessment.pins:
        words = ", ".join(
            f"{pin.name} {100 * pin.apart.value:.0f} %{' APART' if pin.apart.value > APART else ''}"
            for pin in reversed(assessment.pins)
        )
        note = f"2nd method (bending alone), apart by, of the largest pin load of that case: {words}"
        ways = [f"{pin.name} {100 * pin.ways.value:.0f} %" for pin in reversed(assessment.pins) if pin.ways is not None]
        if ways:
            note += f"; load through the ribs instead of evenly: {', '.join(ways)}"
    return Table(heads, tuple(rows), "lrrrrl", "Load on the pins, from the surface, at limit; the worst of each", note)


def margin_table(assessment: Assessment, system: System = "metric", count: int = 5) -> Table:
    """Give the lowest margin of each part, lowest first.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    system : {"metric", "inch"}
        Units of the places.
    count : int
        How many.

    Returns
    -------
    Table
        Number, part, margin, what gives first, load case.
    """
    return finding_table(assessment.lowest_by_part[:count], system)


def finding_table(findings: Sequence[Finding], system: System = "metric") -> Table:
    """Put findings in a table, in the order given."""
    rows = tuple(
        (str(at), in_system(f.part, system), margin_text(f.margin), f.gives, case_words(f.case))
        for at, f in enumerate(findings, 1)
        if f.margin is not None
    )
    return Table(("", "part", "margin", "gives first", "case"), rows, "rlrll")


def row_table(assessment: Assessment, name: str, system: System = "metric") -> Table:
    """Give the load of one rivet of a row, rib by rib or at the places where something changes.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    name : str
        Of the row, as in the file.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        Place, load a length of row, shear and pull of one rivet at limit, the case of that shear.

    Raises
    ------
    SurfaceError
        Where no such row was worked.
    """
    load = next((row for row in assessment.rows if row.row.name == name), None)
    if load is None:
        here = ", ".join(row.row.name for row in assessment.rows) or "none"
        message = f'row "{name}" was not worked; worked: {here}'
        raise SurfaceError(message)
    worst = np.argmax(load.shear, axis=0)
    spots: dict[str, int] = {}
    for at, spot in enumerate(load.spots):
        if spot not in spots or load.shear[worst[at], at] > load.shear[worst[spots[spot]], spots[spot]]:
            spots[spot] = at
    marks = {f"at {1e3 * y:.0f} mm" for y in assessment.span.breaks}
    wanted = {spot: at for spot, at in spots.items() if spot.startswith("rib") or spot in marks} or spots
    unit = "force" if load.kind == "rib-spar" else "line_load"
    rows = tuple(
        (
            in_system(spot, system),
            show(float(load.flow[worst[at], at]), unit, system),
            show(float(load.shear[worst[at], at]), "force", system),
            show(float(load.tension[worst[at], at]), "force", system),
            case_words(load.cases[int(worst[at])]),
        )
        for spot, at in wanted.items()
    )
    plan = f"{load.plan.total} rivets at {show(load.plan.pitch, 'length', system)}"
    caption = f"{name.replace('_', ' ')}: {plan}; one rivet at limit"
    return Table(("place", "row carries", "shear", "pull", "case"), rows, "lrrrl", caption, "; ".join(load.notes))


def bracket_table(assessment: Assessment, hinge: str, system: System = "metric") -> Table:
    """Give the load of each rivet of a hinge bracket, in the case in which it carries most.

    Parameters
    ----------
    assessment : Assessment
        Worked.
    hinge : str
        Name of the hinge.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        Rivet, sideways and along-the-pins part of its shear, shear, pull, the same with heel and prying, case.

    Raises
    ------
    SurfaceError
        Where that bracket was not worked.
    """
    load = next((one for one in assessment.brackets if one.hinge.name == hinge), None)
    if load is None:
        here = ", ".join(one.hinge.name for one in assessment.brackets) or "none"
        message = f'bracket of hinge "{hinge}" was not worked; worked: {here}'
        raise SurfaceError(message)
    z, _, y = _sides(assessment)
    rows = []
    for r in range(load.shear.shape[-1]):
        c = int(np.argmax(np.hypot(load.shear[:, r], load.tension[:, r])))
        _, along, side = (float(v) for v in load.share[c, r])
        noise = 1e-9 * float(np.abs(load.share).max())
        texts = [
            f"{show(abs(v), 'force', system)} {words[0] if v > 0.0 else words[1]}" if abs(v) > noise else "-"
            for v, words in ((side, z), (along, y))
        ]
        sizes = [show(float(v[c, r]), "force", system) for v in (load.shear, load.tension, load.bound)]
        rows.append((str(r + 1), *texts, *sizes, case_words(assessment.fittings.cases[c])))
    heads = ("rivet", "sideways", "along", "shear", "pull", "pull, heel", "case")
    caption = f"{hinge} hinge bracket, each rivet at limit; 1 is lowest left seen from behind"
    return Table(heads, tuple(rows), "lrrrrrl", caption)
