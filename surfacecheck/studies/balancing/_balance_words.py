"""A weighing in sentences: what it weighs, what would level it, what the readings come to, what paint would."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.masses import GRAVITY, PAINT_RANGE, painted
from surfacecheck.quantities import show

if TYPE_CHECKING:
    from surfacecheck.masses import Readings
    from surfacecheck.quantities import System
    from surfacecheck.studies.balancing._balance import BalanceColumn

__all__ = ["balance_headline", "heavy", "paint_line", "push_words", "reading_lines", "rules_of_thumb"]

_WHAT_MOVES = "Everything that moves must be on: horn, half of the pushrod, tab, servo; cables off."
_WAY = {"normal to the surface": "square to the surface", "fore and aft": "fore and aft",
        "along the hinge line": "along the pins"}  # fmt: skip
_SIDEWAYS = 0.01
"""Height of a centre of gravity for which an unknown height is spelled out [m]."""


def push_words(push: float, system: System = "metric") -> str:
    """Say a push as a spring balance and as a kitchen scale show it.

    Parameters
    ----------
    push : float
        [N].
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        Force, and the mass of that weight.

    Examples
    --------
    >>> push_words(11.0), push_words(11.0, "inch")
    ('11.0 N (1122 g)', '2.47 lbf (39.6 oz)')
    """
    mass = push / GRAVITY
    scale = f"{1e3 * mass:z.0f} g" if system == "metric" else f"{mass / 0.45359237 * 16.0:z.1f} oz"
    return f"{show(push, 'force', system)} ({scale})"


def heavy(moment: float, system: System = "metric") -> str:
    """Say a moment as tail-heavy or nose-heavy."""
    word = "tail-heavy" if moment > 0.0 else "nose-heavy"
    return f"{show(abs(moment), 'torque', system)} {word}" if moment else "level"


def balance_headline(column: BalanceColumn, system: System = "metric", *, held: bool = True) -> str:
    """Say what one state weighs, how heavy its tail is, and what would level it.

    Parameters
    ----------
    column : BalanceColumn
        One state.
    system : {"metric", "inch"}
        Units.
    held : bool
        Whether to say also what would have to hold a nose mass.

    Returns
    -------
    str
        Sentences; what is not known is named by its key.
    """
    mass, moment = column.mass, column.moment
    left = ", ".join(dict.fromkeys(gap.key for gap in column.masses.left_out[:4]))
    if mass is None or moment is None:
        told = "Mass not given" if mass is None else show(mass, "mass", system)
        told += "" if moment is None else f", {heavy(moment, system)}"
        return f"{told}; not given: {left or 'weighed.mass'}."
    said = [f"{show(mass, 'mass', system)}, {heavy(moment, system)}"]
    if mass:
        said[0] += f", centre of gravity {_place(moment / mass / GRAVITY, system)}"
    if column.masses.left_out and not column.masses.known:
        said.append(f"not in it: {', '.join(gap.name.replace('_', ' ') for gap in column.masses.left_out)}")
    if not column.own:
        said.append("not weighed again: the parts that changed are added to what the scale said before")
    return "; ".join(said) + f". {_levelling(column, system, held)}".rstrip()


def _place(x: float, system: System) -> str:
    return f"{show(abs(x), 'length', system)} {'behind' if x >= 0.0 else 'ahead of'} the pins"


def _levelling(column: BalanceColumn, system: System, held: bool) -> str:
    found = column.levelling
    if found is None:
        return "" if column.moment is None or column.moment <= 0.0 else "Where a nose mass would sit is not given."
    more, what = (" more", "all of it") if found.whole != found.mass else ("", "it")
    said = f"{show(found.mass, 'mass', system)}{more} at the nose, {show(found.ahead, 'length', system)} ahead of the "
    said += "pins, would level it."
    whole, each = what, found.loads
    if found.mass > (column.mass or 0.0):
        said += " That is more than the surface itself: so near the pins nothing levels it."
        whole, weight = ("a kilogram there", 1.0) if system == "metric" else ("a pound there", 0.45359237)
        each = tuple((way, load * weight / found.whole) for way, load in found.loads)
    if not held:
        return said
    loads = ", ".join(f"{_WAY[way]} {show(load, 'force', system)}" for way, load in each)
    said += f" What holds {whole} must carry at limit, each alone: {loads} (24, 12, 12 g: 14 CFR 23.659, Amdt 23-62)."
    return f"{said} Where it goes and how it is held is the designer's to say."


def reading_lines(column: BalanceColumn, system: System = "metric") -> tuple[str, ...]:
    """Say what the readings of one state come to.

    Parameters
    ----------
    column : BalanceColumn
        One state.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of str
        Sentences; what the scale should show where nothing was read.
    """
    found = column.readings
    if found is None:
        return _expected(column, system)
    push, moment = float(np.mean(found.push)), float(np.mean(found.moment))
    said = [_read(found, system)]
    if found.friction is not None and found.friction_moment is not None:
        there, about = show(float(np.mean(found.friction)), "force", system), float(np.mean(found.friction_moment))
        said.append(
            f"mean {push_words(push, system)}; half the difference is friction: {there} at the scale, "
            f"{show(about, 'torque', system)} about the pins"
        )
    said.append(f"moment, level: {heavy(moment, system)}")
    said.append(_height(column, found, system))
    if column.by_parts is not None:
        said.append(f"by the parts alone it would be {heavy(column.by_parts, system)}: "
                    f"{_against(moment - column.by_parts, column.by_parts, system)}. {_WHAT_MOVES}")  # fmt: skip
    return tuple(line for line in said if line)


def _expected(column: BalanceColumn, system: System) -> tuple[str, ...]:
    arm, moment = column.surface.weighed.push_behind, column.by_parts
    if moment is None:
        return ("nothing read yet",)
    if arm.si is None:
        return (f"nothing read yet; by the parts {heavy(moment, system)}: over r, that is what the scale should show",)
    push = moment / float(np.mean(arm.si))
    where = _place(float(np.mean(arm.si)), system)
    return (f"nothing read yet; by the parts the scale should show {push_words(push, system)}, {where}",)


def _read(found: Readings, system: System) -> str:
    tilt = math.degrees(float(np.mean(found.tilt)))
    level = "level" if tilt == 0.0 else f"edge {abs(tilt):.3g} deg {'high' if tilt > 0 else 'low'}"
    where = f"{_place(float(np.mean(found.arm)), system)}, {level}"
    if found.rising is None or found.sinking is None:
        return f"one reading {push_words(float(np.mean(found.push)), system)}, {where}: friction is in it, unknown"
    up, down = (push_words(float(np.mean(one)), system) for one in (found.rising, found.sinking))
    return f"rising {up}, sinking {down}, {where}"


def _height(column: BalanceColumn, found: Readings, system: System) -> str:
    weight = None if column.bare_mass is None else column.bare_mass * GRAVITY
    if found.height is not None:
        return _high(float(np.mean(found.height)), weight, system)
    if not weight:
        return ""
    tilt = float(np.mean(found.tilt)) or math.radians(1.0)
    off = show(weight * _SIDEWAYS * abs(math.tan(tilt)), "torque", system)
    much, high = f"{abs(math.degrees(tilt)):.3g} deg off level", show(_SIDEWAYS, "length", system)
    return f"height of the centre of gravity not known: each {high} of it, {much}, is {off}; a second tilt tells it"


def _high(height: float, weight: float | None, system: System) -> str:
    if not weight:
        return f"weight times height of the centre of gravity: {show(height, 'torque', system)}"
    high = height / weight
    where = "above" if high >= 0.0 else "below"
    said = f"centre of gravity {show(abs(high), 'length', system)} {where} the chord as it lay"
    return said + ("; near balance such a surface falls either way: weigh it turned over too" if high > 0.0 else "")


def _against(more: float, parts: float, system: System) -> str:
    if more == 0.0:
        return "the scale says the same"
    share = f", {abs(100.0 * more / parts):.0f} %" if parts else ""
    return f"the scale says {show(abs(more), 'torque', system)} more {'tail' if more > 0.0 else 'nose'}-heavy{share}"


def paint_line(column: BalanceColumn, system: System = "metric") -> str:
    """Say what paint comes to, from thin to thick; and what was counted.

    Parameters
    ----------
    column : BalanceColumn
        One state.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One sentence; empty where the outline is not known.
    """
    try:
        on = painted(column.surface)
    except SurfaceError:
        return ""
    area, first = float(np.mean(on.area)), float(np.mean(on.first))
    masses = " to ".join(show(coat * area, "mass", system) for coat in PAINT_RANGE)
    moments = " to ".join(show(coat * first * GRAVITY, "torque", system) for coat in PAINT_RANGE)
    coats = " to ".join(show(coat, "area_mass", system) for coat in PAINT_RANGE)
    counted = float(np.mean(column.masses.paint))
    said = (
        f"{show(area, 'area', system)} of outer side; {coats} a side (common practice, a wide band) would be {masses}, "
    )
    said += f"{moments}. Weigh a painted plate. "
    return said + (f"Counted here: {show(counted, 'mass', system)}." if counted else "None counted here.")


def rules_of_thumb(column: BalanceColumn, system: System = "metric") -> tuple[str, ...]:
    """Give what people who balance surfaces keep to: common practice, none of it a rule.

    Parameters
    ----------
    column : BalanceColumn
        One state.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of str
        Sentences.
    """
    try:
        where = f", {_place(float(np.mean(painted(column.surface).x)), system)}"
    except SurfaceError:
        where = ""
    return (
        "Weigh bare, primed and painted.",
        f"Before the nose is closed, hang a dummy weight for the paint at its centre{where}.",
        "Leave a balance mass a little heavy, and take off what is too much last.",
        "Weigh the mirror part by itself: two halves differ.",
    )
