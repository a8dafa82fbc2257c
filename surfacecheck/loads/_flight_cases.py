"""Airloads in flight: typed by the designer, or by Appendix A."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import appendix_a
from surfacecheck.loads._airload import airload_totals
from surfacecheck.loads._case import AirLoad, FigureA7Load, LoadCase, MissingCase, Strip, kind_of
from surfacecheck.loads._chordwise import CURVED, Shape
from surfacecheck.loads._flight import FACTOR_OF_SAFETY, section
from surfacecheck.loads._from_surface import Outline, load_word, number, outline_of, side_word
from surfacecheck.loads._planform import Planform, Start
from surfacecheck.loads._typed_shape import shape_of
from surfacecheck.loads._units import GRAVITY
from surfacecheck.model import FadesAft, Kind, Level, Over, Surface
from surfacecheck.provenance import Basis, Source, Value

__all__ = ["flight_cases", "governing", "load_factor"]

Array = NDArray[np.float64]
GREATEST = "the variants of a stack do not share one case of the greatest hinge moment: work them apart"
_STRIP: dict[Over, Start] = {
    Over.BEHIND_PINS: "pins",
    Over.BEHIND_WEB: "web",
    Over.WHOLE_SURFACE: "nose",
    Over.FIN_AND_RUDDER: "fin",
}


def flight_cases(surface: Surface) -> Iterator[LoadCase | MissingCase]:
    """Build the flight cases that the file gives data for, both signs of each."""
    load = surface.load
    said = False
    for value, kind in ((load.pressure, "pressure"), (load.total, "total")):
        if value.known and not value.absent:
            said = True
            yield from _typed(surface, value, kind)
    if load.rule is not None:
        said = True
        yield from _by_rule(surface)
    if not said:
        yield MissingCase("airload in flight", "load.pressure", "no pressure, total load or rule is given")


def _hidden(outline: Outline, strips: tuple[Start, ...]) -> str | None:
    for line in ("y", "edge", *strips):
        if line in outline.hidden:
            return outline.hidden[line]
    return None


def _typed(surface: Surface, value: Value, kind: str) -> Iterator[LoadCase | MissingCase]:
    load = surface.load
    name = "airload in flight"
    for answer, key, why in (
        (load.over, "load.over", "a mean pressure or a total belongs to an area, and it is not said which"),
        (load.level, "load.level", "limit or ultimate is not said"),
        (load.begins_at, "load.begins_at", "where the load begins along the chord is not said"),
        (load.fades_aft or None, "load.fades_aft", "how the load falls off behind is not said"),
    ):
        if answer is None:
            yield MissingCase(name, key, why)
            return
    over = _STRIP[Over(load.over)]  # type: ignore[arg-type]
    start: Start = str(load.begins_at)  # type: ignore[assignment]
    outline = outline_of(surface)
    gap = _hidden(outline, (over,) if over == "fin" else (over, start))
    if gap is not None or outline.planform is None:
        yield MissingCase(name, gap or "outline.at", "the outline that the load lies on is not known")
        return
    share = 1.0 / FACTOR_OF_SAFETY if load.level is Level.ULTIMATE else 1.0
    mean = number(value) * share
    if kind == "total":
        mean = mean / outline.planform.area(over)
    notes = ("typed as ultimate: divided by 1.5 to get limit",) if load.level is Level.ULTIMATE else ()
    strips = _tail_strips(surface, mean) if over == "fin" else _strips(surface, mean, over, start)
    word = load_word(surface)
    slug = "total" if kind == "total" and surface.load.pressure.known else word.split()[0]
    yield from _both_signs(surface, word, slug, strips, value.source, notes, share)
    yield from _shape_to_come(surface)


_Named = tuple[str, str, Strip]


def _shapes(surface: Surface) -> list[tuple[str, Shape]]:
    """List the shapes of the letter that are known, each with its slug."""
    found = [(fade, shape_of(surface.load, fade)) for fade in surface.load.fades_aft]
    return [(_slug(fade), shape) for fade, shape in found if shape is not None]


def _slug(fade: FadesAft) -> str:
    return "typed" if fade is FadesAft.AS_TYPED else fade.value.split()[0]


def _shape_to_come(surface: Surface) -> Iterator[MissingCase]:
    if any(shape_of(surface.load, fade) is None for fade in surface.load.fades_aft):
        name = f"airload in flight, {FadesAft.AS_TYPED}"
        yield MissingCase(name, "load.shape", "the load is to lie along the chord as typed, and nothing is typed")


def _strips(surface: Surface, mean: Array, over: Start, start: Start) -> list[_Named]:
    return [(slug, shape.name, AirLoad(mean, over, start, shape)) for slug, shape in _shapes(surface)]


def _tail_strips(surface: Surface, mean: Array) -> list[_Named]:
    """Give the rudder's part of a mean over fin and rudder, by the shapes that the letter lists."""
    found: list[_Named] = []
    for slug, shape in _shapes(surface):
        if slug == "straight":
            found.extend(_figure_a7(mean))
        else:
            found.append((slug, shape.name, AirLoad(mean, "pins", "pins", shape)))
    return found


def _figure_a7(mean: Array) -> list[_Named]:
    words = ("front", "centre of pressure at the leading edge"), ("middle", "centre of pressure at half chord")
    return [(slug, text, FigureA7Load(mean, d)) for (slug, text), d in zip(words, appendix_a.D_RANGE, strict=True)]


def _both_signs(
    surface: Surface,
    word: str,
    slug: str,
    strips: list[_Named],
    source: Source,
    notes: tuple[str, ...],
    fin: float,
) -> Iterator[LoadCase]:
    for short, text, air in strips:
        for sign in (1, -1):
            side = side_word(surface, sign)
            signed = (
                FigureA7Load(sign * air.pressure, air.d)
                if isinstance(air, FigureA7Load)
                else AirLoad(sign * air.pressure, air.over, air.start, air.shape)
            )
            more = ("Figure A7 gives the rudder's part, from the pins aft",) if isinstance(air, FigureA7Load) else ()
            title = f"{word} to the {side}, {text}"
            name = f"{slug}-{side}-{short}"
            yield LoadCase(name, title, source, "flight", air=signed, fin=sign * fin, notes=(*notes, *more))


def load_factor(surface: Surface) -> tuple[Array, str] | str:
    """Give n1 and what to say of it, or the key that hides it."""
    plane = surface.aeroplane
    if plane.category is None and plane.load_factor.si is None:
        return "aeroplane.category"
    least = appendix_a.LOAD_FACTORS[plane.category.value][0] if plane.category is not None else 0.0
    if plane.load_factor.si is None:
        return np.asarray(least), f"n1 = {least:g}, Table 1"
    typed = number(plane.load_factor)
    raised = bool(np.any(typed < least))
    return np.maximum(typed, least), f"load factor raised to {least:g}, the least of Table 1" if raised else ""


def _by_rule(surface: Surface) -> Iterator[LoadCase | MissingCase]:
    name = "airload by Appendix A"
    plane, outline = surface.aeroplane, outline_of(surface)
    why = "the mean pressure of Appendix A goes by load factor and wing loading"
    for value, key in ((plane.weight, "aeroplane.weight"), (plane.wing_area, "aeroplane.wing_area")):
        if value.si is None:
            yield MissingCase(name, value.key or key, why)
            return
    factor = load_factor(surface)
    if isinstance(factor, str):
        yield MissingCase(name, factor, why)
        return
    loading = number(plane.weight) * GRAVITY / number(plane.wing_area)
    mean = appendix_a.mean_loading(surface.kind.value, factor[0], loading)
    notes = (*((factor[1],) if factor[1] else ()), "mean pressure from memory: check Figures A5 and A6")
    if surface.kind is Kind.AILERON:
        yield from _aileron(surface, outline, mean, notes)
        return
    gap = _hidden(outline, ("fin",))
    if gap is not None or outline.planform is None:
        yield MissingCase(name, gap or "outline.at", "the rule's mean pressure is over fin and rudder together")
        return
    strips = [*_figure_a7(mean), ("curved", "curved to zero", AirLoad(mean, "pins", "pins", CURVED))]
    source = Source(Basis.FROM_MEMORY, f"{section('A23.11(c)').text}: Figure A7 and (c)(1)(v); mean from Figure A5")
    yield from _both_signs(surface, "Appendix A", "appendix-a", strips, source, notes, 0.0)


def _aileron(
    surface: Surface, outline: Outline, mean: Array, notes: tuple[str, ...]
) -> Iterator[LoadCase | MissingCase]:
    name, load = "airload by Appendix A", surface.load
    why = "the rule's chordwise shape of ailerons is a picture: the shape must be typed"
    for given, key in ((load.fades_aft, "load.fades_aft"), (load.begins_at, "load.begins_at")):
        if not given:
            yield MissingCase(name, key, why)
            return
    over = _STRIP[load.over] if load.over is not None and load.over is not Over.FIN_AND_RUDDER else "pins"
    start: Start = str(load.begins_at)  # type: ignore[assignment]
    gap = _hidden(outline, (over, start))
    if gap is not None:
        yield MissingCase(name, gap, "the outline that the load lies on is not known")
        return
    source = Source(Basis.FROM_MEMORY, f"{section('A23.11(c)').text}: mean from Figure A6; shape as typed")
    yield from _both_signs(surface, "Appendix A", "appendix-a", _strips(surface, mean, over, start), source, notes, 0.0)
    yield from _shape_to_come(surface)


def governing(flight: list[LoadCase], planform: Planform) -> list[LoadCase]:
    """Pick, for each way of the load, the case with the greatest hinge moment.

    Parameters
    ----------
    flight : list of LoadCase
        Flight cases, both signs of each; pressures may be stacks of variants.
    planform : Planform
        The outline that they lie on.

    Returns
    -------
    list of LoadCase
        One for each way, whichever sense its hinge moment has: the same case of the other way has the other sense.

    Raises
    ------
    SurfaceError
        Where another case is the greatest in one variant of a stack than in another: they have other load cases.
    """
    kinds: dict[tuple[object, ...], Array] = {}

    def moment(air: Strip) -> Array:
        kind = kind_of(air)
        if kind not in kinds:
            kinds[kind] = airload_totals(replace(air, pressure=np.asarray(1.0)), planform)[1]
        return np.asarray(np.abs(kinds[kind] * air.pressure))

    ways: dict[str, list[tuple[Array, LoadCase]]] = {}
    for case in flight:
        if case.air is not None:
            ways.setdefault(case.name.rsplit("-", 1)[0], []).append((moment(case.air), case))
    return [_greatest(cases) for cases in ways.values()]


def _greatest(cases: list[tuple[Array, LoadCase]]) -> LoadCase:
    """Give the case that is the greatest in every variant, the first of several."""
    for size, case in cases:
        if all(bool((size >= other).all()) for other, _ in cases):
            return case
    raise SurfaceError(*(GREATEST,))
