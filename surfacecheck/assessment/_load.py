"""Load cases put on the stations, held against turning, and solved in both idealisations."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import OverCases, side_by_side, variant_of
from surfacecheck.loads import CaseLoads, LoadCase, apply_ways, each_way, horn_line, horn_needs
from surfacecheck.masses import Masses
from surfacecheck.model import DrivenBy, LoadReachesSpar
from surfacecheck.provenance import in_a_row, numbers
from surfacecheck.sections.box import Box
from surfacecheck.sections.stiffness import stiffness_of
from surfacecheck.statics import Beam, beam_stiffness, solve_mixed
from surfacecheck.statics.held import hold_units, off_line, supports_of
from surfacecheck.statics.span import Span

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Surface

    Array = NDArray[np.float64]


__all__ = ["IN_LINE", "SLACK", "THROUGH_RIBS", "Loaded", "put_on"]


THROUGH_RIBS = ", through the ribs"


IN_LINE = ", pins as if in line"


SLACK = ", cables as if slack"


@dataclass(frozen=True, eq=False)
class Loaded:
    """Load cases put on the stations and held against turning: all evenly, then those with an airload by the ribs.

    Attributes
    ----------
    titles, cases : tuple
        C of them.
    evenly, by_ribs : ndarray of bool, shape (C,)
        Read where the airload comes to the spar evenly, or through the ribs; both where there is none.
    twin : ndarray of int, shape (C,)
        The same case spread evenly: itself, where it is not one through the ribs.
    counts : ndarray of bool, shape (C,)
        Read for margins.
    given, horn_force, horn_points
        Loads as put on, and what acts at the horn.
    ribs : OverCases
        ``load``, all that pushes a rib sideways, what holds the torque among it, and ``air``, the airload that comes to
        the spar through it alone, each of shape (..., C, R) [N].
    beams : tuple of Beam
        With shear flexibility and twist, as far as the sections are known; then, where it was asked for, of bending
        alone.
    """

    titles: tuple[str, ...]
    cases: tuple[LoadCase, ...]
    evenly: NDArray[np.bool_]
    by_ribs: NDArray[np.bool_]
    twin: NDArray[np.intp]
    counts: NDArray[np.bool_]
    given: CaseLoads
    beams: tuple[Beam, ...]
    horn_force: Array
    horn_points: Array
    ribs: OverCases

    def of(self, variant: int) -> Loaded:
        """Take one variant's beams and horn forces out of a stack; the rest stays a stack."""
        beams = tuple(
            replace(beam, reactions=variant_of(beam.reactions, variant, 3), inside=beam.inside.of(variant))
            for beam in self.beams
        )
        return replace(self, beams=beams, horn_force=variant_of(self.horn_force, variant, 3))

    def first(self, cases: int) -> Loaded:
        """Keep the first so many cases."""
        at = slice(cases)
        arrays = {name: getattr(self, name)[at] for name in ("evenly", "by_ribs", "twin", "counts")}
        return replace(
            self,
            titles=self.titles[at],
            cases=self.cases[at],
            given=self.given.of(at),
            beams=tuple(beam.first(cases) for beam in self.beams),
            horn_force=self.horn_force[..., at, :, :],
            ribs=self.ribs.only(at),
            **arrays,
        )


def put_on(
    surface: Surface, span: Span, cases: tuple[LoadCase, ...], masses: Masses, box: Box | None, *, bending_alone: bool
) -> tuple[Loaded, Loaded]:
    """Put the cases on the beam, spread evenly and through the ribs, and solve it, also in bending alone if asked.

    The second of the two is for what a pull of cables may relieve: brackets, pins and horn. It has every case once more
    with the cables as if slack, and the pins in line. Neither grows with the load, so what is there at ultimate load
    lies between both, each taken with the factor of safety.
    """
    ways = [False]
    every_rib = all(up.known for up in surface.sheet.ribs.up)  # what one of unknown place takes, its neighbours cannot
    if every_rib and len(span.ribs) > 1 and surface.method.load_reaches_spar is not LoadReachesSpar.EVENLY:
        ways.append(True)
    put = apply_ways(cases, surface, span.y, span.breaks, span.bay, ways=ways, masses=masses)
    lines = [True, False] if box is not None and off_line(surface, span).any() else [True]
    laid = each_way(cases, ways)
    states = [(line, True) for line in lines] + [(lines[-1], False)] * put.rigged
    given = put
    for _, taut in states[1:]:
        given = put.of(slice(None), slack=not taut).after(given)
    every = tuple(cases[c] for c, _ in laid) * len(states)
    titles = tuple(
        cases[c].title + (THROUGH_RIBS if way else "") + (SLACK if not taut else "" if line else IN_LINE)
        for line, taut in states
        for c, way in laid
    )
    set_in, pulled = (np.repeat(np.array(one, dtype=float), len(laid)) for one in zip(*states, strict=True))
    units, mix, force, side = hold_units(span.stations, given)
    points = np.ones(span.y.shape[-1])
    stiffness = beam_stiffness(points, points) if box is None else stiffness_of(box)
    supports = supports_of(surface, span, every, springs=box is not None, set_in=set_in)
    coupled = (box is not None, False) if bending_alone else (box is not None,)
    beams = solve_mixed(span.stations, units, mix, stiffness, supports, coupled)
    horn_force, points = _at_horn(surface, every, force, side, pulled)
    ribs = _on_ribs(span, given, units.force, mix)
    airless = np.array([case.air is None for case in every])
    handed = np.tile([way for _, way in laid], len(states))
    twin = np.array([state * len(laid) + c for state in range(len(states)) for c, _ in laid], dtype=np.intp)
    by_ribs = (handed | airless) & handed.any()
    asked = surface.method.load_reaches_spar
    counts = by_ribs if asked is LoadReachesSpar.THROUGH_RIBS and by_ribs.any() else np.ones_like(by_ribs)
    whole = Loaded(titles, every, ~handed, by_ribs, twin, counts, given, beams, horn_force, points, ribs)
    return whole.first(len(laid) * len(lines)) if put.rigged else whole, whole


def _on_ribs(span: Span, given: CaseLoads, force: Array, mix: Array) -> OverCases:
    """Give what pushes each rib sideways, of all unit loads, (..., K, B, 3), and of the airloads among them."""
    sideways = force[..., list(span.ribs), 2]
    air = np.zeros(force.shape[-3], dtype=np.bool_)
    air[: given.units.air.size] = given.units.air
    return OverCases({"load": sideways, "air": np.where(air[:, None], sideways, 0.0)}, mix)


def _at_horn(
    surface: Surface, cases: tuple[LoadCase, ...], force: Array, side: Array, taut: Array
) -> tuple[Array, Array]:
    """Sum at each bolt of the horn what holds the torque, rigging and feet; (..., C, P, 3), (..., P, 2)."""
    if horn_needs(surface) is not None:
        return np.zeros((len(cases), 0, 3)), np.zeros((0, 2))
    line = horn_line(surface)
    if line.driven_by is DrivenBy.TORQUE_TUBE:
        return np.zeros((len(cases), 0, 3)), np.zeros((0, 2))
    sides = (line.side,) if line.side else (1, -1)
    rigging = surface.controls.rigging_pull
    pull = numbers(rigging) if line.driven_by is DrivenBy.TWO_CABLES and rigging.known else np.asarray(0.0)
    closing = np.array([c.closing != "stop" for c in cases])
    every = []
    for s in sides:
        feet = in_a_row([c.pilot.pull if c.pilot is not None and s in c.pilot.sides else 0.0 for c in cases])
        own = (pull[..., None] * taut + feet)[..., None] * line.direction(np.asarray(float(s)))[..., None, :]
        every.append(np.where(((side == s) & closing)[..., None], force, 0.0) + own)
    points = [in_a_row([line.x, s * line.off]) for s in sides]
    return side_by_side(*every, axis=-2), side_by_side(*points, axis=-2)
