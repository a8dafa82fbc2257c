"""Nodes and walls of one surface, collected clockwise as seen from root to tip."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.axes import line_at
from surfacecheck.library import metal_of
from surfacecheck.model import FlangesPoint, SkinsCarry, TrailingEdge
from surfacecheck.provenance import Value, in_a_row, numbers, over_stations
from surfacecheck.sections._box import SIDES, Box, sides_of
from surfacecheck.sections._doubled import COVERS, LEFT_OUT, ON_FLANGES, ON_SKIN, laid_on, on_flange, on_skin
from surfacecheck.sections._flow import WallFlow
from surfacecheck.sections._section import Section, section
from surfacecheck.sections._topology import Topology

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Surface
    from surfacecheck.sections._doubled import Laid

    Array = NDArray[np.float64]


__all__ = ["Builder"]


NOT_CLOSED = 1.0e-12
"""Shear stiffness left to a nose wall where it closes no cell: numerically none, the same topology everywhere."""


FREE_EDGE_STRIP = 0.62
"""Effective width over t sqrt(E/f) beside a free edge (von Karman form, k = 0.43; buckling coefficient of a long plate
with one edge free, NACA TN 3781)."""


TWO_EDGE_STRIP = 1.90
"""Effective width over t sqrt(E/f), both sides of a fastener line (von Karman form, k = 4)."""


FOLD_STRIP = 15.0
"""Width over t that acts with a folded edge, each skin (common practice)."""


class Builder:
    """Collects nodes and walls of one surface."""

    def __init__(
        self, surface: Surface, y: Array, doubled: dict[str, NDArray[np.bool_]], closed: NDArray[np.bool_]
    ) -> None:
        self.surface, self.y, self.doubled, self.nose_closed = surface, y, doubled, closed
        self.sheet, self.outline = surface.sheet, surface.outline
        self.metal = metal_of(surface, self.sheet.spar.alloy, self.sheet.spar.thickness)
        self.modulus = over_stations(self.metal.modulus)
        self.shear_modulus = over_stations(self.metal.shear_modulus)
        self.nodes: dict[str, tuple[Array, Array]] = {}
        self.booms: dict[str, Array] = {}
        self.walls: dict[str, tuple[str, str, Array, Array, Array]] = {}
        self.curved: dict[str, tuple[Array, Array]] = {}
        self.assumptions: list[str] = []

    def line(self, key: str) -> Array:
        """Give a dimension of the outline at every station, straight between places."""
        places = self.outline.places
        up, line = (in_a_row([numbers(getattr(p, name)) for p in places]) for name in ("up", key))
        return line_at(up[..., None, :], line[..., None, :], self.y)

    def build(self) -> Box:
        spar = self.sheet.spar
        t = over_stations(spar.thickness)
        self.web_x, self.edge_x = self.line("web_behind"), self.line("edge_behind")
        self.height = self.line("spar_depth") - t
        off = self.outline.pins_off_middle
        self.middle_z = np.zeros_like(self.y) - self.surface.left_is * (over_stations(off) if off.known else 0.0)
        sign = 1.0 if spar.flanges_point is FlangesPoint.BEHIND else -1.0
        self.flange = over_stations(spar.flange) - 0.5 * t
        half = 0.5 * self.height
        self.nodes = {
            "corner_minus": (self.web_x, self.middle_z - half),
            "corner_plus": (self.web_x, self.middle_z + half),
        }
        doubler_t = self._web(t)
        on_flanges = self._laid("spar flange", self.modulus)
        flange_t = t + on_flange(self.flange, on_flanges)
        if on_flanges:
            self._say(ON_FLANGES)
        if any(d.on == "nose_skin" or d.on.startswith(("rib", "a rib")) for d in self.sheet.doublers.values()):
            self._say(LEFT_OUT)
        for side, s in (("minus", -1.0), ("plus", 1.0)):
            tip = f"tip_{side}"
            self.nodes[tip] = (self.web_x + sign * self.flange, self.middle_z + s * half)
            self._wall(f"flange_{side}", *self._clockwise(side, f"corner_{side}", tip), flange_t, flange_t)
            if spar.lip.known and not spar.lip.absent:
                lip = f"lip_end_{side}"
                self.nodes[lip] = (self.nodes[tip][0], self.middle_z + s * (half - over_stations(spar.lip) + 0.5 * t))
                self._wall(f"lip_{side}", *self._clockwise(side, tip, lip), t + 0 * self.y, t + 0 * self.y)
        skin_t = self._skins()
        nose = self._nose()
        shut = self.nose_closed
        states = [shut, *([np.zeros_like(shut)] if nose else [])]
        closed, *alone = self._sections(np.stack(states))
        return Box(
            walls=tuple(self.walls),
            nodes=tuple(self.nodes),
            closed=closed,
            rear_alone=alone[0] if alone else None,
            modulus=self.modulus,
            shear_modulus=self.shear_modulus,
            web_t=t,
            skin_t=skin_t,
            doubler_t=doubler_t,
            nose_around=self.curved["nose"][0] + 0 * self.y if nose else None,
            rear_closed=self.joined,
            height=self.height,
            web_x=self.web_x,
            edge_x=self.edge_x,
            middle_z=self.middle_z,
            flange=self.flange,
            assumptions=tuple(self.assumptions),
        )

    @staticmethod
    def _clockwise(side: str, inner: str, outer: str) -> tuple[str, str]:
        return (inner, outer) if side == "plus" else (outer, inner)

    def _wall(self, name: str, first: str, second: str, t: Array, direct: Array, g: Array | float = 1.0) -> None:
        self.walls[name] = (first, second, t + 0 * self.y, direct + 0 * self.y, np.asarray(g) + 0 * self.y)

    def _laid(self, on: str, modulus: Array) -> list[Laid]:
        return laid_on(self.surface, on, self.doubled, modulus)

    def _web(self, t: Array) -> Array:
        doublers, added = self._laid("spar web", self.modulus), np.zeros_like(self.y)
        for one in doublers:
            added = added + np.where(one.there, one.t, 0.0)
        widths = [one.wide for one in doublers if one.wide is not None]
        least = np.minimum.reduce(widths) if widths else np.asarray(np.inf)
        if bool(np.all(least >= COVERS * self.height)):
            self._wall("web", "corner_minus", "corner_plus", t + added, t + added)
            return added
        reach = np.minimum(0.5 * least, 0.49 * self.height)
        self.nodes["web_minus"] = (self.web_x, self.middle_z - reach)
        self.nodes["web_plus"] = (self.web_x, self.middle_z + reach)
        self._wall("web_minus", "corner_minus", "web_minus", t, t)
        self._wall("web", "web_minus", "web_plus", t + added, t + added)
        self._wall("web_plus", "web_plus", "corner_plus", t, t)
        return added

    def _skins(self) -> dict[str, Array]:
        edge = self.outline.trailing_edge
        names = sides_of(self.surface)
        skins = {side: getattr(self.sheet, names[side]) for side in SIDES}
        there = [side for side in SIDES if not skins[side].thickness.absent]
        self.joined = joined = edge is not TrailingEdge.OPEN and len(there) == 2
        out: dict[str, Array] = {}
        width = np.hypot(self.edge_x - self.web_x, 0.5 * self.height)
        for side in there:
            skin, s = skins[side], 1.0 if side == "plus" else -1.0
            metal = metal_of(self.surface, skin.alloy, skin.thickness)
            modulus = over_stations(metal.modulus)
            doublers = self._laid(names[side], modulus)
            if doublers:
                self._say(ON_SKIN)
            t, stiff = on_skin(over_stations(skin.thickness), width, doublers)
            weight, g = modulus / self.modulus, over_stations(metal.shear_modulus) / self.shear_modulus
            node = "edge" if joined else f"edge_{side}"
            self.nodes.setdefault(node, (self.edge_x, self.middle_z + (0.0 if joined else s * 0.5 * t)))
            self._wall(f"skin_{side}", *self._clockwise(side, f"corner_{side}", node), stiff, 0 * t, g)
            self._boom(node, weight * self._edge_strip(t, metal.compression_yield, modulus, joined))
            if self.surface.method.skins_carry is SkinsCarry.SHEAR_AND_STRIPS:
                strip = weight * _strip(TWO_EDGE_STRIP / 2, t, metal.compression_yield, modulus)
                self._boom(f"corner_{side}", strip)
            out[side] = t + 0 * self.y
        return out

    def _boom(self, node: str, area: Array) -> None:
        self.booms[node] = self.booms.get(node, np.zeros_like(self.y)) + area

    def _edge_strip(self, t: Array, f: Value, modulus: Array, joined: bool) -> Array:
        """Area of one skin that carries direct stress at the trailing edge."""
        if self.surface.method.skins_carry is SkinsCarry.SHEAR_ONLY:
            self._say("skins carry shear only: nothing at the trailing edge helps the spar fore and aft")
            return 0 * t
        if not joined:
            self._say(
                f"a strip {FREE_EDGE_STRIP} t sqrt(E/f) wide carries direct stress at each open edge (von Karman)"
            )
            return _strip(FREE_EDGE_STRIP, t, f, modulus)
        if self.outline.trailing_edge is TrailingEdge.FOLDED:
            self._say(f"{FOLD_STRIP:g} t of each skin carries direct stress at the folded edge (common practice)")
            return FOLD_STRIP * t * t
        self._say("the lap of the skins carries direct stress at the trailing edge; skins otherwise carry shear")
        lap = self.outline.lap
        return t * (over_stations(lap) if lap.known else 0.0)

    def _say(self, text: str) -> None:
        if text not in self.assumptions:
            self.assumptions.append(text)

    def _nose(self) -> bool:
        nose = self.sheet.nose_skin
        if nose.thickness.absent or not nose.thickness.known:
            return False
        if not all(p.nose_ahead.known for p in self.outline.places):
            self._say("the nose is left out of the sections: nose_ahead is not known everywhere")
            return False
        t = over_stations(nose.thickness)
        metal = metal_of(self.surface, nose.alloy, nose.thickness)
        g = over_stations(metal.shear_modulus) / self.shear_modulus if metal.shear_modulus.known else 1.0
        ahead = self.line("nose_ahead") + self.web_x
        semi = 0.5 * self.height
        round_ = np.pi * (3.0 * (ahead + semi) - np.sqrt((3.0 * ahead + semi) * (ahead + 3.0 * semi))) / 2.0
        if all(p.nose_around.known for p in self.outline.places):
            round_ = np.maximum(self.line("nose_around"), self.height)
        else:
            self._say("the nose is taken as half an ellipse through the flanges and the nose point")
        self._wall("nose", "corner_minus", "corner_plus", t + 0 * self.y, 0 * self.y, g)
        self.curved["nose"] = (round_, 0.5 * np.pi * ahead * semi)
        return True

    def _sections(self, nose_closed: NDArray[np.bool_]) -> list[Section]:
        """Work the sections for every state of the nose, (states, ..., S), all at once."""
        names = list(self.nodes)
        topology = Topology(len(names), tuple((names.index(w[0]), names.index(w[1])) for w in self.walls.values()))
        zero = np.zeros_like(self.y)
        # the stations of a stack may be the same for all of it: then the states still stand before its axis
        walls = [w[2:] for w in self.walls.values()]
        given = (*self.nodes.values(), *walls, *self.curved.values(), self.booms.values())
        deep = max(line.ndim for lines in given for line in lines)
        shut = nose_closed.reshape(len(nose_closed), *(1,) * (deep + 1 - nose_closed.ndim), *nose_closed.shape[1:])
        ratio = _last([np.where(shut, w[4], NOT_CLOSED) if n == "nose" else w[4] for n, w in self.walls.items()], shut)
        curved = {n: self.curved.get(n, (zero, zero)) for n in self.walls}
        both = section(
            topology,
            _last([self.nodes[n][0] for n in names], self.y),
            _last([self.nodes[n][1] for n in names], self.y),
            _last([w[2] for w in self.walls.values()], self.y),
            t_direct=_last([w[3] for w in self.walls.values()], self.y),
            boom=_last([self.booms.get(n, zero) for n in names], self.y),
            shear_ratio=ratio,
            length=_last([c[0] for c in curved.values()], self.y),
            swept=_last([c[1] for c in curved.values()], self.y),
            # a closed box by Bredt alone, as every hand calculation has it; an open one lives on its sheet's own twist
            open_torsion=0.0 if self.joined else 1.0,
        )
        return [_one_of(both, state) for state in range(len(nose_closed))]


def _one_of(both: Section, state: int) -> Section:
    """Take one state out of a stack of sections."""

    def part(value: Any) -> Any:
        if isinstance(value, WallFlow):
            return WallFlow(*(one[state] for one in value))
        return value[state] if isinstance(value, np.ndarray) else value

    return Section(**{field.name: part(getattr(both, field.name)) for field in fields(both)})


def _last(rows: list[Array], like: NDArray[Any]) -> Array:
    """Stack along a new last axis."""
    return np.stack(np.broadcast_arrays(*rows, like)[:-1], axis=-1)


def _strip(width: float, t: Array, f: Value, modulus: Array) -> Array:
    stress = over_stations(f) if f.known else modulus / 300.0
    return np.asarray(width * t * t * np.sqrt(modulus / stress))
