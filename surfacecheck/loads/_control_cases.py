"""Control system, stop, and both feet: read for horn, its rivets and rib, brackets and pins."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from surfacecheck.loads._airload import airload_totals
from surfacecheck.loads._case import LoadCase, MissingCase, PilotPull, kind_of
from surfacecheck.loads._controls import CONTROL_SYSTEM, pilot_force
from surfacecheck.loads._flight import section
from surfacecheck.loads._flight_cases import governing
from surfacecheck.loads._from_surface import number, side_word
from surfacecheck.loads._horn import horn_line, horn_needs
from surfacecheck.loads._planform import Planform
from surfacecheck.loads._units import GRAVITY
from surfacecheck.model import DrivenBy, PilotMoves, Side, StopAt, Surface
from surfacecheck.provenance import Basis, Source

__all__ = ["control_cases", "horn_force_of_pilot"]

Array = NDArray[np.float64]

_FEET = Source(Basis.COMMON_PRACTICE, "greatest pilot force on both pedals at once; no paragraph asks for it")
_TUBE = "it is a torque tube: how far off the pins the pilot turns it stands in no line, so this case is not worked"
_LIGHT = "weight not given: pilot forces as for 5,000 lb or less"


def horn_force_of_pilot(surface: Surface) -> tuple[Array, Array] | MissingCase:
    """Work out what the greatest and the least pilot force of the rule pull at the horn.

    Parameters
    ----------
    surface : Surface
        The surface.

    Returns
    -------
    tuple of ndarray, or MissingCase
        Greatest and least, shape (...) [N]; or the key that hides them.
    """
    controls = surface.controls
    name = "pilot force at the horn"
    if controls.pilot_moves is None:
        return MissingCase(name, "controls.pilot_moves", "what the pilot moves is not said")
    if controls.horn_per_pilot.si is None:
        key = controls.horn_per_pilot.key or "controls.horn_per_pilot"
        return MissingCase(name, key, "pilot forces act in the cockpit and reach the horn through the linkage")
    ratio, weight = number(controls.horn_per_pilot), surface.aeroplane.weight
    force = np.asarray(0.0) if weight.si is None else number(weight) * GRAVITY
    greatest, least = pilot_force(surface.kind.value, PilotMoves(controls.pilot_moves).value, force)
    return np.asarray(greatest * ratio), np.asarray(least * ratio)


def control_cases(
    surface: Surface, flight: list[LoadCase], planform: Planform | None
) -> Iterator[LoadCase | MissingCase]:
    """Build the control-system cases from the flight cases."""
    pilot = horn_force_of_pilot(surface)
    known_horn = horn_needs(surface) is None
    rod = known_horn and surface.horn is not None and surface.horn.driven_by is not DrivenBy.TORQUE_TUBE
    notes = (_LIGHT,) if surface.aeroplane.weight.si is None else ()
    pulls = _Pulls(surface, planform) if rod and planform is not None else None
    for case in flight:
        factor: Array | float = CONTROL_SYSTEM
        more: tuple[str, ...] = ()
        if pulls is not None and not isinstance(pilot, MissingCase):
            factor = np.asarray(np.minimum(CONTROL_SYSTEM, np.maximum(pilot[0] / pulls.of(case), 1.0)))
            more = (*notes, "need not exceed the greatest pilot force, nor fall below the airload itself")
        cut = "" if np.all(np.asarray(factor) == CONTROL_SYSTEM) else ", cut to the greatest pilot force"
        title = f"control system, 1.25 x{cut}: {case.title}"
        yield _scaled(case, factor, f"control-{case.name}", title, "23.395(a)", more)
    if not flight:
        return
    if not known_horn:
        yield MissingCase("least pilot force", str(horn_needs(surface)), "the horn is not known")
    elif isinstance(pilot, MissingCase):
        yield replace(pilot, name="least pilot force")
    elif pulls is not None and planform is not None:
        for case in governing(flight, planform):
            factor = np.asarray(np.maximum(pilot[1] / pulls.of(case), 1.0))
            way = case.name.rsplit("-", 1)[0]
            title = f"control system, least pilot force at the horn: {case.title}"
            yield _scaled(case, factor, f"control-least-{way}", title, "23.397(b)", notes)
    yield from _stop_cases(surface, flight, pilot, planform)
    yield from _both_feet(surface, pilot, notes)


def _scaled(
    case: LoadCase, factor: Array | float, name: str, title: str, paragraph: str, notes: tuple[str, ...]
) -> LoadCase:
    return replace(
        case,
        name=name,
        title=title,
        source=section(paragraph),
        group="control",
        factor=factor,
        fin=case.fin * factor,
        reads="control",
        notes=(*case.notes, *notes),
    )


class _Pulls:
    """Pull at the horn that holds the airload of a case; the torque of each kind of strip is worked once."""

    def __init__(self, surface: Surface, planform: Planform) -> None:
        self.line, self.planform = horn_line(surface), planform
        self.found: dict[tuple[object, ...], Array] = {}

    def of(self, case: LoadCase) -> Array:
        """Give the pull of a case, never zero."""
        if case.air is None:
            return np.asarray(np.inf)
        kind = kind_of(case.air)
        if kind not in self.found:
            self.found[kind] = airload_totals(replace(case.air, pressure=np.asarray(1.0)), self.planform)[1]
        torque = self.found[kind] * case.air.pressure
        lever = self.line.moment(self.line.side_for(torque))[..., 1]
        return np.asarray(np.maximum(np.abs(torque / lever), 1e-9))


def _stop_cases(
    surface: Surface, flight: list[LoadCase], pilot: tuple[Array, Array] | MissingCase, planform: Planform | None
) -> Iterator[LoadCase | MissingCase]:
    controls, name, horn = surface.controls, "against the stop", surface.horn
    if controls.stopped_at is None:
        yield MissingCase(name, "controls.stopped_at", "where the stops sit is not said")
        return
    if controls.stopped_at is not StopAt.SURFACE:
        return
    stop = controls.stop
    gap = None if stop is not None else "controls.stop"
    if stop is not None:
        gap = next((f"controls.stop.{key}" for key in ("up", "arm") if getattr(stop, key).si is None), None)
        gap = "controls.stop.side" if gap is None and stop.side is None else gap
    horn_gap = horn_needs(surface)
    for key, why in ((gap, "the stop is not described"), (horn_gap, "the horn is not known")):
        if key is not None:
            yield MissingCase(name, key, why)
            return
    if horn is not None and horn.driven_by is DrivenBy.TORQUE_TUBE:
        yield MissingCase(name, "horn.driven_by", _TUBE)
        return
    if isinstance(pilot, MissingCase):
        yield replace(pilot, name=name)
        return
    if stop is None or planform is None:
        return
    with_air: list[LoadCase | None] = [None, *governing(flight, planform)]
    line = horn_line(surface)
    for swing in (1, -1):
        side = side_word(surface, swing)
        if stop.side is not Side.BOTH and (stop.side is Side.LEFT) != (swing * surface.left_is > 0):
            continue
        # a swing towards +z needs a negative torque; a rod pushes where it cannot pull
        pull_side = line.side or int(line.side_for(np.asarray(float(swing))).reshape(-1)[0])
        turns = line.moment(np.asarray(float(pull_side)))[..., 1]
        pull = np.where(turns * swing < 0.0, pilot[0], -pilot[0])
        held = PilotPull(pull, (pull_side,))
        for case in with_air:
            if case is not None and not _on_stop(turns * pull, case, swing, planform):
                continue
            more = "" if case is None else f", with {case.title}"
            slug = f"stop-{side}" + ("" if case is None else f"-{case.name}")
            yield LoadCase(  # read for all of the surface: the couple runs from horn to stop inside it
                slug,
                f"swung to the {side} on its stop, greatest pilot force{more}",
                section("23.675(c)"),
                "control",
                air=None if case is None else case.air,
                pilot=held,
                fin=0.0 if case is None else case.fin,
                closing="stop",
                swing=swing,
                notes=("the stop pushes along the chord at its arm off the line of the pins",),
            )


def _on_stop(turns: Array, case: LoadCase, swing: int, planform: Planform) -> bool:
    """Whether the pilot holds the surface on its stop against the airload: the stop pushes, it cannot pull."""
    air = 0.0 if case.air is None else airload_totals(case.air, planform)[1]
    return bool(np.any((turns + air) * swing < 0.0))


def _both_feet(
    surface: Surface, pilot: tuple[Array, Array] | MissingCase, notes: tuple[str, ...]
) -> Iterator[LoadCase | MissingCase]:
    horn = surface.horn
    feet = surface.controls.pilot_moves is PilotMoves.PEDALS
    if not feet or horn is None or horn.driven_by is not DrivenBy.TWO_CABLES:
        return
    gap = horn_needs(surface)
    if gap is not None:
        yield MissingCase("both feet on the pedals", gap, "the horn is not known")
        return
    if isinstance(pilot, MissingCase):
        yield replace(pilot, name="both feet on the pedals")
        return
    yield LoadCase(
        "both-feet",
        "cable jammed, both feet on the pedals",
        _FEET,
        "hands",
        pilot=PilotPull(pilot[0], (1, -1)),
        reads="control",
        closing="pedals",
        notes=(*notes, "both cables pull alike: no torque"),
    )
