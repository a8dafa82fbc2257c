"""A force that was followed, in words: the steps in order, the sums at every cut, plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import CAUTION, in_system
from surfacecheck.quantities import show, to_unit, unit_of
from surfacecheck.studies.following._follow_cuts import COMPONENTS, Cut
from surfacecheck.studies.following._follow_place import side_words
from surfacecheck.studies.following._follow_steps import PARTS, Handed, Step
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.following._follow import Following

__all__ = [
    "cut_table",
    "distinct_cuts",
    "following_data",
    "following_headline",
    "following_html",
    "following_text",
    "handed_words",
    "load_words",
    "step_table",
]

_AXIS = {"sideways": "z", "fore-aft": "x", "along": "y", "torque": "torque"}
_WALL = {"sideways": 1, "fore-aft": 0, "torque": 2}
"""Which of a wall's three sums belongs to a part."""


def load_words(one: Following, system: System = "metric") -> str:
    """Say what was put on and which way: ``100 N to the left``."""
    signed = one.way.sign * one.load
    words = side_words(one.surface)[one.way.axis][0 if signed > 0.0 else 1]
    size = show(abs(one.load), "torque" if one.way.axis == "torque" else "force", system)
    if one.way.axis == "torque":
        return f"{size}, turning the trailing edge to the {words}"
    return f"{size} to the {words}" if one.way.axis == "z" else f"{size} {words}"


def handed_words(one: Following, handed: Handed, system: System = "metric") -> str:
    """Write a value with its way: ``sideways 50.0 N left``."""
    size = show(abs(handed.value), handed.quantity, system)
    axis = _AXIS.get(handed.what)
    if axis is None:
        return f"{handed.what} {size}"
    way = side_words(one.surface)[axis][0 if handed.value > 0.0 else 1]
    return f"{handed.what} {size}, edge {way}" if axis == "torque" else f"{handed.what} {size} {way}"


def following_headline(one: Following, system: System = "metric") -> str:
    """Say in a sentence or two where the force ends."""
    said = []
    for stage in ("pin", "hold"):
        for step in one.steps:
            if step.stage == stage:
                parts = [handed_words(one, h, system) for h in step.handed if stage == "pin" or h.what != "torque"]
                parts = parts or [handed_words(one, h, system) for h in step.handed]
                said.append(f"{step.words}: {', '.join(parts)}")
    return "It ends at: " + "; ".join(said) + "." if said else "It ends nowhere: no pin takes part of it."


def _label(step: Step, system: System, named: bool) -> str:
    name = (step.name or step.words) if named else step.words
    return in_system(f"{name}{' ' if named else ', '}{step.spot}" if step.spot else name, system)


def step_table(one: Following, system: System = "metric", *, named: bool = True) -> Table:
    """Put the steps in a table, in order.

    Parameters
    ----------
    one : Following
        A force, followed.
    system : {"metric", "inch"}
        Units.
    named : bool
        With the names that ``show`` knows, instead of plain words.

    Returns
    -------
    Table
        Number, what it passes through, what is handed on.
    """
    rows = tuple(
        (str(at), _label(step, system, named), "; ".join(handed_words(one, h, system) for h in step.handed))
        for at, step in enumerate(one.steps, 1)
    )
    return Table(("", "passes through", "hands on"), rows, "rll")


def distinct_cuts(one: Following, part: str) -> tuple[tuple[Cut, float], ...]:
    """Give one cut for each stretch over which nothing goes in or out, with the end of that stretch [m]."""
    out: list[tuple[Cut, float]] = []
    close = 1e-9 * max(1.0, abs(one.load))
    for cut in one.cuts:
        if out and np.allclose(out[-1][0].of(part), cut.of(part), rtol=0.0, atol=close):
            out[-1] = (out[-1][0], cut.y)
        else:
            out.append((cut, cut.y))
    return tuple(out)


def cut_table(one: Following, part: str, system: System = "metric") -> Table:
    """Put the sums at the cuts in a table: went in = across + held outboard.

    Parameters
    ----------
    one : Following
        A force, followed.
    part : {"sideways", "fore-aft", "along", "torque"}
        Which sums.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A row for each stretch between places where something goes in or out; where the sheet is known, with what web
        and skins make of what is across, at the tip end of the first bay of the stretch.
    """
    quantity = "torque" if part == "torque" else "force"
    unit, length = unit_of(quantity, system), unit_of("length", system)
    plus = side_words(one.surface)[_AXIS[part]][0]
    walls = part in _WALL and bool(one.cuts) and bool(one.cuts[0].walls)
    ends, values = [], []
    for cut, end in distinct_cuts(one, part):
        ends.append(" to ".join(f"{to_unit(y, length):.1f}".removesuffix(".0") for y in (cut.start, end)))
        shares: tuple[float, ...] = ()
        if walls:
            web, plus_skin, minus_skin, rest = _by_wall(cut, part)
            skins = (plus_skin, minus_skin) if one.surface.left_is > 0 else (minus_skin, plus_skin)
            shares = (web, *skins, rest)
        values.append([float(to_unit(v, unit)) for v in (*cut.of(part), *shares)])
    most = max((abs(v) for row in values for v in row), default=0.0)
    places = int(np.clip(3.0 - np.floor(np.log10(most)), 0.0, 3.0)) if most > 0.0 else 0
    nothing = 0.5 * 10.0**-places
    rows = tuple(
        (name, *(f"{v:.{places}f}" if abs(v) >= nothing else "0" for v in row))
        for name, row in zip(ends, values, strict=True)
    )
    heads = [f"cut, {length}", "went in", "= across", "+ held"]
    if walls:
        heads += ["web", *(f"{one.surface.said(side)} skin" for side in ("left", "right")), "other"]
    way = f"plus turns the edge to the {plus}" if part == "torque" else f"plus is {plus}"
    caption = f"Sums outboard of a cut: {part}, {unit}; {way}"
    return Table(tuple(heads), rows, caption=caption)


def _by_wall(cut: Cut, part: str) -> tuple[float, float, float, float]:
    """Share what is across: web, +z skin, -z skin, everything else (nose, flanges, the walls' own twisting)."""
    i, names = _WALL[part], cut.walls
    web = sum(float(force[i]) for name, force in names.items() if name.startswith("web"))
    skins = [float(names[name][i]) if name in names else 0.0 for name in ("skin_plus", "skin_minus")]
    return web, skins[0], skins[1], cut.of(part)[1] - web - sum(skins)


def _wanted(one: Following) -> tuple[str, ...]:
    return tuple(part for part in one.parts if one.part in {"", part})


def following_text(one: Following, system: System = "metric", width: int = 80) -> str:
    """Write a followed force for a terminal.

    Parameters
    ----------
    one : Following
        A force, followed.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines.
    """
    head = f"FOLLOW  {load_words(one, system)}: {in_system(one.place.words, system)}"
    head += f"; {one.part} apart" if one.part else ""
    blocks = [wrapped(head, width, then="  "), wrapped(following_headline(one, system), width, then="  ")]
    blocks.append(step_table(one, system).text(width))
    blocks += [cut_table(one, part, system).text(width) for part in _wanted(one)]
    blocks.append("\n".join(wrapped(f"taken for granted: {note}", width, then="  ") for note in one.notes))
    blocks.append(wrapped(CAUTION, width))
    return "\n\n".join(blocks)


def following_html(one: Following, system: System = "metric") -> str:
    """Write a followed force for a notebook.

    Parameters
    ----------
    one : Following
        A force, followed.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    said = f"{load_words(one, system)}: {in_system(one.place.words, system)}. {following_headline(one, system)}"
    tables = [step_table(one, system, named=False), *(cut_table(one, part, system) for part in _wanted(one))]
    notes = escaped("; ".join(one.notes))
    body = "".join(table.html() for table in tables)
    return f"<div><p>{escaped(said)}</p>{body}<p>{notes}</p><p><em>{escaped(CAUTION)}</em></p></div>"


def following_data(one: Following) -> dict[str, Any]:
    """Turn a followed force into plain data.

    Parameters
    ----------
    one : Following
        A force, followed.

    Returns
    -------
    dict
        ``form``, ``place``, ``load``, ``steps`` in order, ``cuts`` from root to tip, SI units, every digit.
    """
    return {
        "form": 1,
        "units": "SI",
        "place": {"words": one.place.words, "y": one.place.y, "x": one.place.x, "z": one.place.z},
        "load": {"axis": one.way.axis, "sign": one.way.sign, "value": one.load},
        "part": one.part or None,
        "steps": [
            {
                "stage": step.stage,
                "name": step.name or None,
                "words": step.words,
                "spot": step.spot or None,
                "y": step.y,
                "hands_on": [{"what": h.what, "value": h.value, "quantity": h.quantity} for h in step.handed],
            }
            for step in one.steps
        ],
        "cuts": [
            {
                "from": cut.start,
                "to": cut.y,
                "went_in": dict(zip(COMPONENTS, cut.went_in.tolist(), strict=True)),
                "across": dict(zip(COMPONENTS, cut.across.tolist(), strict=True)),
                "held": dict(zip(COMPONENTS, cut.held.tolist(), strict=True)),
                "walls": {
                    name: dict(zip(("fore-aft", "sideways", "torque"), force.tolist(), strict=True))
                    for name, force in cut.walls.items()
                },
            }
            for cut in one.cuts
        ],
        "parts": [part for part in PARTS if part in one.parts],
        "notes": list(one.notes),
        "caution": CAUTION,
    }
