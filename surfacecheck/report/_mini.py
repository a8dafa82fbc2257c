"""The place of a check as a dot on a small outline that all checks of a page share."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import row_kind
from surfacecheck.report._places import number, plan_of

if TYPE_CHECKING:
    from surfacecheck.checks import Finding
    from surfacecheck.model import Surface
    from surfacecheck.report._places import Plan

__all__ = ["Mini", "mini_of", "place_on"]

_AT = re.compile(r"\bat-(-?[0-9]+)-mm\b")
_RIM = 25.0
"""Free rim round the outline [mm]."""
_DOT = 0.035
"""Radius of the dot, as a share of the height."""


@dataclass(frozen=True, slots=True)
class Mini:
    """A small outline in millimetres: trailing edge right, root below.

    Attributes
    ----------
    box : str
        View box.
    outline, lines : str
        Path of the rim; path of web, ribs and line of the pins.
    dot : float
        Radius of a dot.
    wide, tall : int
        Size on the page [px].
    plan : Plan
        Where the lines lie.
    surface : Surface
        Whose.
    """

    box: str
    outline: str
    lines: str
    dot: float
    wide: int
    tall: int
    plan: Plan
    surface: Surface

    def spot(self, finding: Finding) -> tuple[int, int] | None:
        """Find the place of a check.

        Parameters
        ----------
        finding : Finding
            Any.

        Returns
        -------
        tuple of int or None
            Place in the view box; None where it has none.
        """
        found = _place(self.surface, self.plan, finding.place)
        return None if found is None else (round(1e3 * found[0]), -round(1e3 * found[1]))


def mini_of(surface: Surface) -> Mini | None:
    """Draw the small outline.

    Parameters
    ----------
    surface : Surface
        Perhaps half-filled.

    Returns
    -------
    Mini or None
        None while the outline is not known.
    """
    plan = plan_of(surface)
    if plan is None or plan.edge is None:
        return None
    front = plan.nose if plan.nose is not None else plan.web if plan.web is not None else 0.0 * plan.y
    rim = [*zip(front, plan.y, strict=True), *zip(plan.edge[::-1], plan.y[::-1], strict=True)]
    lines = [_path([(0.0, plan.y[0]), (0.0, plan.y[-1])])]
    if plan.web is not None:
        lines.append(_path(list(zip(plan.web, plan.y, strict=True))))
    ups = (number(value) for value in surface.sheet.ribs.up)
    ends = (front, plan.edge)
    lines += [_path([(np.interp(up, plan.y, line), up) for line in ends]) for up in ups if up is not None]
    left, right = min(0.0, 1e3 * float(front.min())) - _RIM, 1e3 * float(plan.edge.max()) + _RIM
    low, high = 1e3 * float(plan.y[0]) - _RIM, 1e3 * float(plan.y[-1]) + _RIM
    box = f"{left:.0f} {-high:.0f} {right - left:.0f} {high - low:.0f}"
    tall = 110
    wide = round(tall * (right - left) / (high - low))
    return Mini(box, _path(rim) + "z", "".join(lines), round(_DOT * (high - low)), wide, tall, plan, surface)


def place_on(surface: Surface, place: str) -> tuple[float, float] | None:
    """Find a place on the outline: aft of the pins and along them [m]; None where it has none."""
    plan = plan_of(surface)
    return None if plan is None or plan.edge is None else _place(surface, plan, place)


def _path(points: list[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{1e3 * x:.0f} {-1e3 * y:.0f}" for x, y in points)


def _place(surface: Surface, plan: Plan, place: str) -> tuple[float, float] | None:
    """Aft of the pins and along them [m]."""
    words = place.split(".")
    at = _AT.search(place)
    y = None if at is None else 1e-3 * float(at[1])
    web = None if y is None else plan.at("web", y)
    if words[0] == "hinge":
        hinge = next((h for name, h in surface.hinges.items() if f"{place}.".startswith(f"hinge.{name}.")), None)
        y = None if hinge is None else number(hinge.up)
        web = None if y is None or place.endswith(".pin") else plan.at("web", y)
        return None if y is None else (0.0 if web is None else float(web), y)
    if words[0] == "horn":
        horn = surface.horn
        y = None if horn is None else number(horn.up)
        return None if y is None else (0.0, y)
    if y is None or web is None:
        return None
    edge, nose = plan.at("edge", y), plan.at("nose", y)
    assert edge is not None  # noqa: S101 - a mini has one
    middle, ahead = 0.5 * float(web + edge), float(web) if nose is None else 0.5 * float(web + nose)
    if words[0] == "panel":
        return {"web": float(web), "nose_skin": ahead}.get(words[1], middle), y
    row = surface.rows.get(words[1]) if words[0] == "row" else None
    if row is None:
        return float(web), y
    if "nose_skin" in row.joins and row_kind(surface, row) == "rib":
        return ahead, y
    return {"edge": float(edge), "rib": middle}.get(row_kind(surface, row) or "", float(web)), y
