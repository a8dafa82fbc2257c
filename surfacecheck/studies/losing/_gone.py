"""One gone at a time: each hinge, each rib's rivets, each rivet of a bracket and the horn; what the rest carries.

A hinge that is gone is a beam on the others, solved again. A rib that is gone hands nothing over: its neighbours take
its load and the panels beside it are one. A rivet that is gone leaves its load to the others of its group.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import pretty_place
from surfacecheck.errors import SurfaceError
from surfacecheck.studies.losing._gone_item import GoneItem, Growth, OneGone
from surfacecheck.studies.losing._gone_parts import hinges_before, renumbered, without_hinge, without_rib
from surfacecheck.studies.losing._rivet_group import group_of, without

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Finding
    from surfacecheck.studies.losing._rivet_group import Group

__all__ = ["one_gone"]

CHANGED = 0.01
"""Change of what a part is worth, as a share, from which its margin counts as changed [-]; our own choice."""
LEAST = 1.0
"""Load below which a growth says nothing [N]; our own choice."""


Watch = Callable[[Iterable[Callable[[], list[GoneItem]]]], Iterable[Callable[[], list[GoneItem]]]]


def one_gone(assessment: Assessment, watch: Watch = iter) -> OneGone:
    """Take each hinge, each rib's rivets, and each rivet of a bracket and of the horn away in turn.

    Parameters
    ----------
    assessment : Assessment
        Of the surface as drawn.
    watch : callable
        Told of every step as it is taken, as ``tqdm`` is.

    Returns
    -------
    OneGone
        One item for each.
    """
    left_out: list[str] = []
    steps = [*_steps(assessment, left_out)]
    items = [one for step in watch(steps) for one in step()]
    return OneGone(assessment, tuple(items), tuple(left_out))


def _steps(assessment: Assessment, left_out: list[str]) -> Iterator[Callable[[], list[GoneItem]]]:
    surface, span = assessment.surface, assessment.span
    for name in span.hinges:
        yield lambda name=name: [_hinge(assessment, name)]  # type: ignore[misc]
    if assessment.effects.box is None:
        left_out.append("ribs: the sheet of spar and skins is not known yet")
    else:
        for rib in range(len(span.ribs)):
            yield lambda rib=rib: [_rib(assessment, rib)]  # type: ignore[misc]
    groups = [f"hinge.{name}.bracket" for name in span.hinges] + (["horn"] if surface.horn is not None else [])
    for name in groups:
        try:
            group = group_of(assessment, name)
        except SurfaceError as error:
            left_out.append(str(error))
        else:
            yield lambda group=group: [*_rivets(assessment, group)]  # type: ignore[misc]


def _hinge(assessment: Assessment, name: str) -> GoneItem:
    item = GoneItem("hinge", f"hinge.{name}", f"{name} hinge", 0)
    hinges = assessment.surface.hinges
    if len(assessment.span.hinges) < 3:
        return replace(item, free="turns: one hinge alone does not hold it, a mechanism")
    try:
        left = without_hinge(assessment, name)
    except SurfaceError as error:
        return replace(item, free=str(error))
    thrust = [one for one, hinge in hinges.items() if hinge.takes_along == "yes"]
    free = "slides along the pins: no other hinge stops it" if thrust == [name] else ""
    notes = ("loads along the pins are not in the margin",) if free else ()
    return replace(_found(item, assessment, left), free=free, growth=_pins(assessment, left), notes=notes)


def _pins(before: Assessment, after: Assessment) -> Growth | None:
    """Find the pin whose load grows most, by the worst of all cases."""

    def worst(assessment: Assessment) -> dict[str, float]:
        beam = np.sqrt((assessment.beam.reactions**2).sum(axis=-1)).max(axis=0)
        return {name: float(beam[i]) for i, name in enumerate(assessment.span.hinges)}

    was = worst(before)
    grown = [Growth(f"{name} pin", was[name], now) for name, now in worst(after).items()]
    return _largest(grown)


def _largest(grown: list[Growth]) -> Growth | None:
    told = [one for one in grown if one.after > max(one.before, LEAST) * (1.0 + 1e-9)]
    return max(told, key=lambda one: one.times, default=None)


def _rib(assessment: Assessment, rib: int) -> GoneItem:
    span = assessment.span
    words = f"rib {rib + 1} {pretty_place(float(span.breaks[span.ribs[rib]]))}"
    item = GoneItem("rib", f"rib-{rib + 1}", words, rib + 1)
    if len(span.ribs) < 3:
        return replace(item, free="two ribs at least must hand the load to the spar")
    try:
        left = without_rib(assessment, rib)
    except SurfaceError as error:
        return replace(item, free=str(error))
    found = _found(item, assessment, left)
    ends = {span.root, span.tip}
    notes = []
    if bare := hinges_before(assessment.surface, rib):
        notes.append(f"then no rib stands behind the {' and '.join(bare)} bracket")
    if span.ribs[rib] in ends:
        notes.append("the box is open at this end then: its last panel is worked as held there, a bound from above")
    named = [_named(one, rib) for one in (found.lowest, found.here)]
    return replace(
        found, lowest=named[0], here=named[1], growth=_neighbours(assessment, left, rib), notes=tuple(notes),
        lost=tuple(f for one in found.lost for f in (_named(one, rib),) if f is not None),
    )  # fmt: skip


def _named(finding: Finding | None, rib: int) -> Finding | None:
    """Give ribs the numbers of the file."""
    if finding is None:
        return None
    return replace(finding, place=renumbered(finding.place, rib), part=renumbered(finding.part, rib))


def _neighbours(before: Assessment, after: Assessment, rib: int) -> Growth | None:
    """Find the rib that collects most more of the airload."""
    was = np.abs(before.effects.rib_air).max(axis=0)
    now = np.abs(after.effects.rib_air).max(axis=0)
    kept = [r for r in range(was.size) if r != rib]
    return _largest([Growth(f"rib {r + 1} collects", float(was[r]), float(now[i])) for i, r in enumerate(kept)])


def _found(item: GoneItem, before: Assessment, after: Assessment) -> GoneItem:
    """Fill in the lowest margins, and what the method then cannot answer."""
    was = {(f.check.place, f.check.mode): f.margin for f in before.findings}

    def changed(f: Finding) -> bool:
        old = was.get((f.check.place, f.check.mode))
        return old is None or f.margin is None or f.margin + 1.0 < (old + 1.0) * (1.0 - CHANGED)

    here = next((f for f in after.margins if changed(f)), None)
    old = {f.check.place for f in before.outside}
    lost = tuple(f for f in after.outside if f.check.place not in old)
    return replace(item, lowest=next(iter(after.margins), None), here=here, asks=_asks(before, after), lost=lost)


def _asks(before: Assessment, after: Assessment) -> Growth | None:
    """Find the strength that is not given and must be good for more."""

    def worst(assessment: Assessment) -> dict[str, float]:
        out: dict[str, float] = {}
        for f in assessment.not_given:
            if f.check.mode in {"rivet-shear", "rivet-pull"} and f.required is not None:
                out[f.missing[0]] = max(out.get(f.missing[0], 0.0), f.required)
        return out

    was = worst(before)
    return _largest([Growth(key, was[key], now) for key, now in worst(after).items() if key in was])


def _rivets(assessment: Assessment, group: Group) -> Iterator[GoneItem]:
    kind = "horn" if group.place == "horn" else "bracket"
    own = {group.place, f"{group.place}.web", "horn.rivets"} if kind == "horn" else {group.place, f"{group.place}.web"}
    rest = next((f for f in assessment.margins if f.check.place not in own), None)
    before = group.load.shear.max(axis=0)
    for i in range(group.count):
        item = GoneItem(kind, f"{group.place}.rivet-{i + 1}", f"{group.part}, rivet {i + 1}", i + 1)
        left = without(group, (i + 1,))
        if left is None:
            yield replace(item, free="the rivets that are left stand in one line: no couple without a heel")
            continue
        after = left.shear.max(axis=0)
        grown = [Growth(f"rivet {r + 1}", float(before[r]), float(after[r])) for r in range(group.count) if r != i]
        here = left.lowest
        both = [f for f in (rest, here) if f is not None and f.margin is not None]
        lowest = min(both, key=lambda f: f.margin, default=None)  # type: ignore[arg-type, return-value]
        yield replace(item, lowest=lowest, here=here, growth=_largest(grown), notes=_heel(left.heel))


def _heel(bound: Finding | None) -> tuple[str, ...]:
    if bound is None or bound.margin is None or bound.margin >= 0.0:
        return ()
    return (f"with heel and prying {bound.margin:+z.2f}: ask",)
