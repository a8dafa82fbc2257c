"""A nick, a hole or a thin spot of the spar to scale: in its web or flange with what passes there, and enlarged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import case_words, in_system
from surfacecheck.model import Mark
from surfacecheck.report._deviation_near import fine
from surfacecheck.report._marks import arrow, dimension, scale_bar, shown
from surfacecheck.report._places import behind_view, number, placed_rows
from surfacecheck.report._style import DEEP, INK, PALE, WIDE, axes_at, drawing, styled

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface
    from surfacecheck.quantities import System
    from surfacecheck.report._style import Drawing
    from surfacecheck.studies import Deviation, Passing

    Array = NDArray[np.float64]

__all__ = ["spar_picture"]

_TALL, _BAR = 2.1, 0.36
"""Room of either drawing, and for a scale bar below [in]."""
_PIECE = 0.75
"""Half the piece of span that is drawn, in widths of the web or flange."""
_ROUND = np.linspace(0.0, 2.0 * np.pi, 61)


@dataclass(frozen=True)
class _Spot:
    """What is drawn: ``web`` or ``flange``, how wide it is, where along the span, what passes, what is there."""

    web: bool
    wide: float
    thickness: float
    up: float
    stress: float
    flat: bool
    mark: Mark

    @property
    def force(self) -> float:
        """Stress over the whole width [N]."""
        return self.stress * self.wide * self.thickness

    @property
    def hole(self) -> float | None:
        """Diameter of a hole [m]."""
        return number(self.mark.across)

    @property
    def depth(self) -> float | None:
        """Depth of a notch [m]."""
        return number(self.mark.depth)

    @property
    def radius(self) -> float | None:
        """Radius at the bottom of a notch [m]."""
        return number(self.mark.radius)

    @property
    def left(self) -> float | None:
        """Thickness left at a thin spot [m]."""
        return number(self.mark.left)

    def lay(self, across: Any, along: Any) -> tuple[Any, Any]:
        """Turn places across and along the strip into places on the page."""
        return (along, across) if self.flat else (across, along)


@styled
def spar_picture(
    deviation: Deviation, passes: Passing, system: System, foot: tuple[str, ...], *, brief: bool = False
) -> Drawing | None:
    """Draw a place of the spar.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    passes : Passing
        One of its places.
    system : {"metric", "inch"}
        Units.
    foot : tuple of str
        Lines at the bottom.
    brief : bool
        Without the words that the sheet says itself.

    Returns
    -------
    Drawing or None
        None where it is no place of the web or of a flange, or the sections could not be worked.
    """
    spot = _spot(deviation, passes)
    if spot is None:
        return None
    surface = deviation.now.fully.surface
    half, tall = _PIECE * spot.wide, (0.85 if brief else 1.0) * _TALL
    metres, close = 2.0 * half / tall, _reach(spot) / tall
    shape = "web" if spot.web else "flange"
    view = behind_view(surface).words if spot.web else "A flange laid flat; its bend dark, its free edge light."
    about = (
        f"{view} As drawn, at limit: {case_words(passes.case)}.",
        f"Left: the {shape} there. Right: what happened, larger.",
    )
    told = _told(spot, surface, system)
    title = in_system(f"{passes.part[:1].upper()}{passes.part[1:]}", system)
    words = f"{title}, to scale. {' '.join((*about, *told))}"
    lines = (view, *told[:1]) if brief else (*told, *foot)
    fig = drawing(tall + _BAR + 0.1, title, () if brief else about, lines, words)
    left = _axes(fig, 0.05, *spot.lay(spot.wide, 2.0 * half), metres)
    _strip(left, spot, surface, half, metres, system)
    right = _axes(fig, WIDE - tall - 0.05, _reach(spot), _reach(spot), close)
    _near(right, spot, 0.5 * _reach(spot), system)
    for ax, scale in ((left, metres), (right, close)):
        x, y = ax.get_xlim()[0], ax.get_ylim()[0]
        scale_bar(ax, x, y + (_BAR - 0.1) * scale, 0.9 * scale, system)
    return fig


def _axes(fig: Drawing, left: float, wide: float, tall: float, metres: float) -> Axes:
    """Add axes about the middle of a drawing of that size [m], with room for its bar below."""
    ax = axes_at(fig, left, fig.bottom, wide / metres, tall / metres + _BAR)
    ax.set_axis_off()
    ax.set_xlim(-0.5 * wide, 0.5 * wide)
    ax.set_ylim(-0.5 * tall - _BAR * metres, 0.5 * tall)
    return ax


def _spot(deviation: Deviation, passes: Passing) -> _Spot | None:
    """Find the mark or the hole, and how wide and thick the spar is there."""
    now, place = deviation.now.fully, passes.place
    mark = now.surface.marks.get(place)
    if mark is None and place.startswith("spar.hole-"):
        hole = dict(enumerate(now.surface.sheet.spar.holes or (), 1)).get(int(place.rpartition("-")[2]))
        mark = None if hole is None else Mark("hole", "spar web", hole.up, across=hole.across)
    up = None if mark is None or not mark.part.startswith("spar") else number(mark.up)
    terms = passes.lowest.check.terms
    letter = next((one for one in ("f_s", "f") if one in terms), "")
    stress = passes.lowest.value(letter) if letter else None
    if mark is None or up is None or stress is None or now.effects.box is None:
        return None
    web = mark.part == "spar web"
    wide, thick = _sizes(now, up, web=web)
    return _Spot(web, wide, thick, up, abs(stress), behind_view(now.surface).flat, mark)


def _sizes(now: Assessment, up: float, *, web: bool) -> tuple[float, float]:
    """Width and thickness of web, doubler with it, or flange at a place along the span [m]."""
    box, y = now.effects.box, now.span.y
    assert box is not None  # noqa: S101 - asked before

    def at(values: Array) -> float:
        return float(np.interp(up, y, np.broadcast_to(values, y.shape)))

    if web:
        return at(box.height), at(box.closed.t[..., box.wall("web")])
    return at(box.flange), at(box.web_t)


def _reach(spot: _Spot) -> float:
    """Width of the window that is enlarged [m]: what happened and as much again to both sides."""
    size = max(spot.hole or 0.0, 2.0 * (spot.depth or 0.0), 0.0 if spot.left is None else 0.25 * spot.wide)
    return min(max(3.0 * size, 0.012), spot.wide)


def _shape(spot: _Spot) -> tuple[Array, Array]:
    """Lay the outline of what happened about the middle of the web, or at the free edge of a flange [m]."""
    if spot.depth is not None:
        a = spot.depth
        b = np.sqrt(a * spot.radius) if spot.radius is not None else 0.5 * a  # half an ellipse has a bottom of b^2/a
        half = _ROUND[: _ROUND.size // 2 + 1] + 0.5 * np.pi
        return 0.5 * spot.wide + a * np.cos(half), b * np.sin(half)
    middle = 0.0 if spot.web else -0.25 * spot.wide  # of a flange between the bend and the rivets
    size = 0.5 * (spot.hole if spot.hole is not None else 0.25 * spot.wide)
    return middle + size * np.cos(_ROUND), size * np.sin(_ROUND)


def _filled(ax: Axes, spot: _Spot) -> None:
    shape = spot.lay(*_shape(spot))
    thin = spot.left is not None
    look: dict[str, Any] = {"hatch": "////", "linestyle": (0, (3, 2))} if thin else {}
    ax.fill(*shape, facecolor="white", edgecolor=INK, linewidth=1.8, zorder=3, gid="happened", **look)


def _strip(ax: Axes, spot: _Spot, surface: Surface, half: float, metres: float, system: System) -> None:
    """Draw the web or the flange over a piece of the span, ribs and rivets there, and what passes."""
    edge, across = 0.5 * spot.wide, np.array([-0.5 * spot.wide, 0.5 * spot.wide])
    ax.fill(*spot.lay([-edge, edge, edge, -edge], [-half, -half, half, half]), facecolor=PALE, zorder=0)
    for side, line in ((-edge, 2.6), (edge, 2.6 if spot.web else 1.0)):
        ax.plot(*spot.lay([side, side], [-half, half]), color=INK, linewidth=line, zorder=1, clip_on=False)
    for rib in _ribs(spot, surface):
        ax.plot(*spot.lay(across, [rib, rib]), color=DEEP, linewidth=1.0, linestyle=(0, (4, 2)), zorder=1)
    if not spot.web:
        _rivets(ax, spot, surface, half)
    _filled(ax, spot)
    text = shown(spot.force, "force", system)
    size: dict[str, Any] = {"fontweight": "bold", "zorder": 8, "ha": "center", "va": "center"}
    look: dict[str, Any] = {"zorder": 6, "gid": "passes", "arrowstyle": "<|-|>"}
    if spot.web:
        for way in (-0.62 * half, 0.62 * half):
            arrow(ax, spot.lay(-0.6 * edge, way), spot.lay(0.6 * edge, way), 2.0, **look)
        at = (0.8 * edge, 0.62 * half) if spot.flat else (0.0, 0.62 * half + 0.14 * metres)
        ax.text(*spot.lay(*at), text, **size)
        return
    for way in (-1.0, 1.0):
        arrow(ax, spot.lay(-0.2 * edge, 0.5 * way * half), spot.lay(-0.2 * edge, 0.96 * way * half), 2.0, **look)
    size |= {"va": "bottom"} if spot.flat else {"ha": "left"}
    ax.text(*spot.lay(-0.2 * edge + 0.12 * metres, 0.74 * half), text, **size)


def _ribs(spot: _Spot, surface: Surface) -> list[float]:
    """Ribs within the piece of span that is drawn, from its middle [m]."""
    known = [one - spot.up for up in surface.sheet.ribs.up if (one := number(up)) is not None]
    return [one for one in known if abs(one) < _PIECE * spot.wide]


def _rivets(ax: Axes, spot: _Spot, surface: Surface, half: float) -> None:
    """Draw the holes of the first row of skin on spar that lie near, at their distance from the free edge."""
    placed = next((one for one in placed_rows(surface) if one.kind == "spar" and "spar" in one.row.edge), None)
    edge = None if placed is None else number(placed.row.edge["spar"])
    across = None if placed is None else number(surface.rivets[placed.row.rivet].hole)
    if placed is None or edge is None or across is None:
        return
    for y in (float(y) - spot.up for y in placed.y if abs(float(y) - spot.up) < half):
        x = 0.5 * spot.wide - edge
        outline = spot.lay(x + 0.5 * across * np.cos(_ROUND), y + 0.5 * across * np.sin(_ROUND))
        ax.fill(*outline, facecolor="white", edgecolor=DEEP, linewidth=0.9, zorder=2, gid="rivet-hole")


def _near(ax: Axes, spot: _Spot, half: float, system: System) -> None:
    """Draw what happened larger, with its size."""
    shape = _shape(spot)
    middle = float(0.5 * (shape[0].min() + shape[0].max()))
    if spot.depth is not None:
        middle = 0.5 * spot.wide - 0.5 * half
    edge = 0.5 * spot.wide - middle
    right, low = min(half, edge), max(-half, -0.5 * spot.wide - middle)
    ax.fill(*spot.lay([low, right, right, low], [-half, -half, half, half]), facecolor=PALE, zorder=0)
    for side in (one for one in (right, low) if abs(one) < half - 1e-9):
        ax.plot(*spot.lay([side, side], [-half, half]), color=INK, linewidth=1.6, zorder=1)
    thin: dict[str, Any] = {"hatch": "////", "linestyle": (0, (3, 2))} if spot.left is not None else {}
    x, y = shape[0] - middle, shape[1]
    ax.fill(*spot.lay(x, y), facecolor="white", edgecolor=INK, linewidth=1.8, zorder=3, gid="happened-near", **thin)
    size = spot.depth if spot.depth is not None else spot.hole
    if size is None:
        return
    off = float(y.max()) + 0.14 * half
    start, end = spot.lay(float(x.min()), off), spot.lay(float(x.max()), off)
    dimension(ax, start, end, "")
    text = shown(size, "length", system)
    if spot.depth is not None:
        beside: dict[str, Any] = {"ha": "center", "va": "top"} if spot.flat else {"ha": "right", "va": "center"}
        ax.text(*spot.lay(float(x.min()) - 0.06 * half, off), text, zorder=8, **beside)
        return
    beside = {"va": "center"} if spot.flat else {"va": "bottom"}
    ax.text(*spot.lay(0.0, 0.0 if spot.flat else off + 0.05 * half), text, zorder=8, ha="center", **beside)


def _told(spot: _Spot, surface: Surface, system: System) -> tuple[str, ...]:
    """Say what is drawn, in numbers."""
    part = "web" if spot.web else "flange"
    way = "across the spar" if spot.web else "along the flange"
    stress, force = shown(spot.stress, "stress", system), shown(spot.force, "force", system)
    wide, thick = fine(spot.wide, system), fine(spot.thickness, system)
    lines = [f"At most {force} {way}, this way or that: {stress} over {wide} by {thick}."]
    if spot.depth is not None:
        radius = "radius not given" if spot.radius is None else f"radius {fine(spot.radius, system)}"
        lines.append(f"{fine(spot.depth, system)} deep, {radius}; drawn as half an ellipse.")
    elif spot.left is not None:
        lines.append(f"{fine(spot.left, system)} of {fine(spot.thickness, system)} left (hatched); its size not said.")
    elif spot.hole is not None:
        lines.append(f"Hole {fine(spot.hole, system)}.")
    if spot.depth is None:
        lines.append(f"Where across the {part} it lies is not said.")
    ribs = "Dashes: a rib." if _ribs(spot, surface) else ""
    rivets = "" if spot.web else "Thin rounds: rivet holes of the skin row."
    if ribs or rivets:
        lines.append(f"{ribs} {rivets}".strip())
    return tuple(lines)
