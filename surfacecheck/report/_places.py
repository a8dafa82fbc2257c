"""Where things lie in a picture: outline, spar, ribs, rivets, seen from the side or from behind. All in metres."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import plan_row, row_kind
from surfacecheck.model import FlangesPoint, Kind
from surfacecheck.sections.box import sides_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.checks import RowPlan
    from surfacecheck.model import Row, Surface
    from surfacecheck.provenance import Value

    Array = NDArray[np.float64]

__all__ = ["BehindView", "PlacedRow", "Plan", "behind_view", "number", "placed_rows", "plan_of", "side_view"]


def number(value: Value) -> float | None:
    """Give a known value as a float."""
    return None if value.si is None else float(value.si)


@dataclass(frozen=True, eq=False)
class Plan:
    """The planform; a line nobody measured is None.

    Attributes
    ----------
    y : ndarray, shape (P,)
        Places measured along the pins [m].
    edge, nose, web, depth : ndarray or None, shape (P,)
        Trailing edge and web aft of the pins, nose (negative: ahead), depth of the spar [m].
    """

    y: Array
    edge: Array | None
    nose: Array | None
    web: Array | None
    depth: Array | None

    def at(self, line: str, y: Array | float) -> Array | None:
        """Read a line at any place; None where it is not known."""
        values = getattr(self, line)
        return None if values is None else np.interp(y, self.y, values)


def plan_of(surface: Surface) -> Plan | None:
    """Read the planform; None while no two places are known."""
    places = [p for p in surface.outline.places if p.up.known]
    if len(places) < 2:
        return None
    places.sort(key=lambda p: number(p.up) or 0.0)

    def line(key: str, sign: float = 1.0) -> Array | None:
        values = [number(getattr(p, key)) for p in places]
        return None if None in values else sign * np.array(values, dtype=np.float64)

    return Plan(
        np.array([number(p.up) for p in places], dtype=np.float64),
        line("edge_behind"),
        line("nose_ahead", -1.0),
        line("web_behind"),
        line("spar_depth"),
    )


@dataclass(frozen=True, eq=False)
class PlacedRow:
    """A rivet row on the map.

    Attributes
    ----------
    row, plan, kind
        As the checks have them.
    x, y : ndarray
        One mark a rivet that can be seen from the side [m].
    first : tuple of float
        Place of the first rivet (x, y) [m].
    far : bool
        Whether it lies on the side turned away.
    hidden : bool
        Whether the rivets lie one behind the other, so that one mark stands for several.
    """

    row: Row
    plan: RowPlan
    kind: str
    x: Array
    y: Array
    far: bool
    hidden: bool


def placed_rows(surface: Surface) -> tuple[PlacedRow, ...]:
    """Place every row that is known well enough, in the order of the file."""
    plan = plan_of(surface)
    out = []
    for row in surface.rows.values() if plan is not None else ():
        laid, kind = plan_row(surface, row), row_kind(surface, row)
        if laid is None or not kind:
            continue
        place = {
            "spar": _along_spar,
            "edge": _along_edge,
            "rib": _on_ribs,
            "rib-spar": _rib_to_spar,
            "doubler": _on_doubler,
        }
        points = place[kind](surface, plan, row, laid)  # type: ignore[arg-type]
        if points is None:
            continue
        names = sides_of(surface)
        far = names["minus"] in row.joins and names["plus"] not in row.joins
        x, y = points
        out.append(PlacedRow(row, laid, kind, x, y, far, kind in {"rib-spar", "doubler"}))
    return tuple(out)


def _line(plan: RowPlan) -> Array:
    assert plan.start is not None and plan.end is not None  # noqa: S101, PT018 - rows along the span have both
    return np.linspace(plan.start, plan.end, plan.count)


def _along_spar(surface: Surface, plan: Plan, row: Row, laid: RowPlan) -> tuple[Array, Array] | None:
    y = _line(laid)
    web = plan.at("web", y)
    flange = number(surface.sheet.spar.flange)
    if web is None:
        return None
    if flange is None:
        return web, y
    edge = number(row.edge["spar"]) if "spar" in row.edge else None
    off = flange - edge if edge is not None else 0.5 * flange
    return web + (-off if surface.sheet.spar.flanges_point is FlangesPoint.AHEAD else off), y


def _along_edge(surface: Surface, plan: Plan, row: Row, laid: RowPlan) -> tuple[Array, Array] | None:
    y = _line(laid)
    edge = plan.at("edge", y)
    if edge is None:
        return None
    known = [number(value) for value in row.edge.values() if value.known]
    lap = number(surface.outline.lap) or 0.0
    return edge - (known[0] or 0.0 if known else 0.5 * lap), y


def _ribs(surface: Surface) -> Array:
    return np.array([float(up.si) for up in surface.sheet.ribs.up if up.known], dtype=np.float64)  # type: ignore[arg-type]


def _on_ribs(surface: Surface, plan: Plan, row: Row, laid: RowPlan) -> tuple[Array, Array] | None:
    ribs = _ribs(surface)
    web, edge, nose = (plan.at(line, ribs) for line in ("web", "edge", "nose"))
    if web is None:
        return None
    xs, ys = [], []
    if "nose_skin" in row.joins and not set(row.joins) & {"left_skin", "right_skin"}:
        if nose is None:
            return None
        near = max(1, (laid.count + 1) // 2)  # both sides together: half of them can be seen
        for i, y in enumerate(ribs):
            xs.append(web[i] + (nose[i] - web[i]) * (np.arange(near) + 0.5) / near)
            ys.append(np.full(near, y))
    else:
        first, last = number(row.first_behind_web), number(row.last_before_edge)
        if edge is None or first is None or last is None:
            return None
        for i, y in enumerate(ribs):
            xs.append(np.linspace(web[i] + first, edge[i] - last, int(laid.rib_count[i])))
            ys.append(np.full(int(laid.rib_count[i]), y))
    return np.concatenate(xs), np.concatenate(ys)


def _rib_to_spar(surface: Surface, plan: Plan, row: Row, laid: RowPlan) -> tuple[Array, Array] | None:
    ribs = _ribs(surface)
    web = plan.at("web", ribs)
    return None if web is None else (web, ribs)


def _on_doubler(surface: Surface, plan: Plan, row: Row, laid: RowPlan) -> tuple[Array, Array] | None:
    y = _line(laid)
    web = plan.at("web", y)
    return None if web is None else (web, y)


def side_view(surface: Surface) -> str:
    """Say where the planform is seen from: +z is turned to the reader, trailing edge right, root below."""
    if surface.kind is Kind.RUDDER:
        return "Seen from the left; trailing edge right, root below."
    where = "above" if surface.left_is > 0 else "below"
    return f"Seen from {where}; trailing edge right, inner end below."


@dataclass(frozen=True, slots=True)
class BehindView:
    """How something on the web is seen from behind.

    Attributes
    ----------
    flat : bool
        A half that lies flat: the line of the pins runs across the picture.
    y_sign, z_sign : int
        Which way on the page +y and +z run.
    words : str
        The view in words.
    """

    flat: bool
    y_sign: int
    z_sign: int
    words: str

    def place(self, y: Array, z: Array) -> tuple[Array, Array]:
        """Turn places or forces along (y, z) into the page's right and up."""
        return (self.y_sign * y, self.z_sign * z) if self.flat else (self.z_sign * z, self.y_sign * y)


def behind_view(surface: Surface) -> BehindView:
    """Choose how brackets are seen from behind, as a person stands there."""
    if surface.kind is Kind.RUDDER:
        return BehindView(False, 1, -1, "Seen from behind; up is up, left is left.")
    right = surface.left_is > 0
    out = "right" if right else "left"
    return BehindView(
        True, 1 if right else -1, 1 if right else -1, f"Seen from behind; top is up, out is to the {out}."
    )
