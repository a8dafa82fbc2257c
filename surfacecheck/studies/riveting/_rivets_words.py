"""Words for the alternatives of a comparison: what each has, why one cannot be, where the limits of a pitch lie."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.library import rivet_strength
from surfacecheck.provenance import plain
from surfacecheck.quantities import show
from surfacecheck.rules import filled_in
from surfacecheck.studies.riveting._rivets_given import AXES, Space
from surfacecheck.studies.riveting._rivets_rules import RULES

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.riveting._rivets_comparison import RivetComparison
    from surfacecheck.studies.riveting._rivets_row import RowTable
    from surfacecheck.studies.riveting._rivets_work import Setting

__all__ = ["axis_head", "axis_words", "bits", "choice_words", "grams", "reason_words", "row_words", "strength_lines",
           "varying"]  # fmt: skip

_HEADS = {
    "sheet": "sheet", "rivet": "rivet", "head": "head", "lines": "lines", "space": "asked", "edge": "edge",
}  # fmt: skip


def row_words(table: RowTable) -> str:
    """Write the name of a row."""
    return table.row.name.replace("_", " ")


def grams(mass: float, system: System = "metric", *, sign: bool = False) -> str:
    """Write the mass of rivets [kg]: grams, or ounces of 28.35 g."""
    if np.isnan(mass):
        return "not given"
    value, unit = (mass * 1e3, "g") if system == "metric" else (mass / 0.028349523125, "oz")
    digits = 1 if system == "metric" else 2
    return f"{value:+z.{digits}f} {unit}" if sign else f"{value:.{digits}f} {unit}"


def bits(mask: int) -> list[str]:
    """Name the rules of a mask.

    Examples
    --------
    >>> bits(3)
    ['edge distance', 'least pitch']
    """
    return [name for i, name in enumerate(RULES) if mask >> i & 1]


def varying(comparison: RivetComparison) -> tuple[str, ...]:
    """List the axes along which there is more than one; the spacing where there is none."""
    found = tuple(axis for axis, size in zip(AXES, comparison.shape, strict=True) if size > 1)
    return found or ("space",)


def axis_head(axis: str) -> str:
    """Give the head of the column of an axis."""
    return _HEADS[axis]


def axis_words(comparison: RivetComparison, axis: str, at: int, system: System = "metric") -> str:
    """Say what an alternative has along one axis.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    axis : str
        One of ``AXES``.
    at : int
        Where along it [-].
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        Such as ``25.0 mm`` or ``large``.
    """
    given = comparison.alternatives
    if axis == "rivet":
        return _rivet(comparison, at, system)
    if axis == "space":
        space = comparison.spaces[at]
        if space.pitch is not None:
            return show(space.pitch, "length", system)
        return "as drawn" if space.count is None else f"{space.count} rivets"
    found = getattr(given, axis)
    if found is None:
        return "as drawn"
    return show(found[at], "length", system) if axis in {"sheet", "edge"} else str(found[at])


def _rivet(comparison: RivetComparison, at: int, system: System) -> str:
    """Name the rivet; by its size where the rows have different ones."""
    kinds = [table.kinds[at] for table in comparison.rows]
    names = list(dict.fromkeys(kind.name for kind in kinds))
    sizes = comparison.alternatives.diameter
    if sizes is not None and (len(names) > 1 or kinds[0].rivet is None):
        size = show(sizes[at % len(sizes)], "length", system)
        return f"{names[0]} {size}" if len(names) == 1 and len(comparison.alternatives.rivet or ()) > 1 else size
    return ", ".join(names) or "not given"


def choice_words(comparison: RivetComparison, alternative: int, system: System = "metric", *skip: str) -> str:
    """Say what an alternative has along every axis with more than one.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    alternative : int
        Which [-].
    system : {"metric", "inch"}
        Units.
    *skip : str
        Axes to leave out.

    Returns
    -------
    str
        Such as ``large, 25.0 mm``; of what there is one of where there is nothing to tell apart, empty where all is as
        drawn.
    """
    at = comparison.index(alternative)
    words = {axis: axis_words(comparison, axis, at[axis], system) for axis in varying(comparison) if axis not in skip}
    if not words:  # nothing to tell apart: what there is one of
        given = comparison.alternatives
        one = [axis for axis in AXES if axis not in skip and (axis == "space" or getattr(given, axis) is not None)]
        one = [axis for axis in one if axis != "space" or comparison.spaces != (Space(),)]
        one += ["rivet"] if given.diameter is not None and "rivet" not in one else []
        words = {axis: axis_words(comparison, axis, at[axis], system) for axis in one}
    named = {"edge": "edge {}", "sheet": "sheet {}", "lines": "{} lines", "head": "{} head"}
    said = ", ".join(named.get(axis, "{}").format(word) for axis, word in words.items())
    return said.replace("1 lines", "1 line")


def reason_words(reason: str, system: System = "metric") -> str:
    """Write why an alternative cannot be, in the units wanted."""
    return filled_in(reason, lambda si, quantity: show(si, quantity, system))


def strength_lines(comparison: RivetComparison, system: System = "metric") -> list[str]:
    """Say where the strength of every rivet comes from, and which is not given.

    Parameters
    ----------
    comparison : RivetComparison
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        A line a rivet.
    """
    lines: dict[str, None] = {}
    for table in comparison.rows:
        for block in table.blocks.values():
            if block.setting is not None:
                lines[_strength(block.setting, system)] = None
    return list(lines)


def _strength(setting: Setting, system: System) -> str:
    values = dict(zip(("shear", "pull"), rivet_strength(setting.surface, setting.rivet), strict=True))
    said = [
        f"{name} {show(plain(value), 'force', system)}, {value.source}" if value.known else f"{name} not given"
        for name, value in values.items()
    ]
    rivet = setting.rivet
    size = show(plain(rivet.diameter), "length", system) if rivet.diameter.known else "size not given"
    hole = f"hole {show(plain(rivet.hole), 'length', system)}" if rivet.hole.known else ""
    words = [rivet.name, size, hole, str(rivet.set or ""), f"{rivet.head_kind} head" if rivet.head_kind else ""]
    return f"{', '.join(one for one in words if one)}: {'; '.join(said)}"
