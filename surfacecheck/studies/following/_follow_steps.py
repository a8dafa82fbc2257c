"""What a force passes through, in order: edge, ribs, skins and spar, brackets and pins, horn and cable."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.model import DrivenBy
from surfacecheck.statics import point_force

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks import RowLoad
    from surfacecheck.studies.following._follow import Following

    Array = NDArray[np.float64]

__all__ = ["PARTS", "Handed", "Step", "steps_of"]

PARTS = ("sideways", "fore-aft", "along", "torque")
_WALLS = {"web": "spar.web", "nose": "panel.nose_skin"}


@dataclass(frozen=True, slots=True)
class Handed:
    """A value handed on.

    Attributes
    ----------
    what : str
        A part (``sideways``, ``fore-aft``, ``along``, ``torque``), ``bending sideways``, ``bending fore-aft``,
        ``flow``, ``one rivet``, ``pull of one rivet`` or ``force``.
    value : float
        With its sign where it has a way; of flows and rivets the size [N], [N m], [N/m].
    quantity : str
        ``force``, ``torque`` or ``line_load``.
    """

    what: str
    value: float
    quantity: str = "force"


@dataclass(frozen=True, slots=True)
class Step:
    """One thing the force passes through.

    Attributes
    ----------
    stage : str
        ``in``, ``rib``, ``rib rivets``, ``box``, ``spar``, ``other ribs``, ``bracket``, ``pin``, ``horn`` or ``hold``.
    name : str
        As ``show`` knows it; empty where it has no margin.
    words : str
        In plain words.
    spot : str
        Where of it: ``rib 2``, ``rivet 1``, ``at 325 mm``; empty where it is all of it.
    y : float
        Along the pins [m].
    handed : tuple of Handed
        What it hands on.
    """

    stage: str
    name: str
    words: str
    spot: str
    y: float
    handed: tuple[Handed, ...]


def steps_of(one: Following) -> tuple[Step, ...]:
    """List the steps, without those that carry nothing.

    Parameters
    ----------
    one : Following
        A force, followed; perhaps one part of it.

    Returns
    -------
    tuple of Step
        In order.
    """
    least = 1e-9 * abs(one.load)
    out = []
    order = [_put, _ribs_in, _box, _spar, _ribs_out, _brackets, _pins, _horn, _hold]
    if one.place.on_horn:
        order = [_put, _horn, *(make for make in order if make not in {_put, _horn})]
    for make in order:
        for step in make(one):
            kept = tuple(h for h in step.handed if abs(h.value) > least and _shown(one, h))
            if kept:
                out.append(replace(step, handed=kept))
    return tuple(out)


def _shown(one: Following, handed: Handed) -> bool:
    """Whether a value belongs to the part that is shown."""
    if not one.part or not any(handed.what.endswith(part) for part in PARTS):
        return True
    return handed.what.removeprefix("bending ") == one.part


def _force(force: Array | tuple[float, float, float]) -> tuple[Handed, ...]:
    x, y, z = (float(f) for f in force)
    return Handed("sideways", z), Handed("fore-aft", x), Handed("along", y)


def _at(y: float) -> str:
    return f"at {y * 1e3:.0f} mm"


def _put(one: Following) -> Iterator[Step]:
    """Give what is put on, and what each rib brings of it to the spar."""
    put = one.carried.put
    force = np.sum([p.force for p in put], axis=0)
    torque = sum(float(point_force(p.force, p.x, p.z)[1]) + p.couple[1] for p in put)
    yield Step("in", "", one.place.words, "", one.place.y, (*_force(force), Handed("torque", torque, "torque")))
    for p in put:
        if p.rib is not None:
            turned = float(point_force(p.force, p.x, p.z)[1]) + p.couple[1]
            words = f"rib {p.rib + 1}"
            yield Step("rib", "", words, _at(p.y), p.y, (*_force(p.force), Handed("torque", turned, "torque")))


def _ribs_in(one: Following) -> Iterator[Step]:
    """Rivets of the ribs that bring the force."""
    for i in sorted({p.rib for p in one.carried.put if p.rib is not None}):
        yield from _rib_rows(one, i, "rib rivets")


def _ribs_out(one: Following) -> Iterator[Step]:
    """Rivets of the other ribs, those at hinges and horn first of all: there it leaves skins and spar again."""
    brought = {p.rib for p in one.carried.put}
    for i in range(len(one.carried.span.ribs)):
        if i not in brought:
            yield from _rib_rows(one, i, "other ribs")


def _rib_rows(one: Following, i: int, stage: str) -> Iterator[Step]:
    y = float(one.carried.span.breaks[one.carried.span.ribs[i]])
    for load in one.rows:
        if load.kind not in {"rib", "rib-spar"}:
            continue
        amount = Handed("force", float(load.flow[0, i]))
        if load.kind == "rib":
            amount = Handed("flow", float(load.flow[0, i]), "line_load")
        rivet = Handed("one rivet", float(load.shear[0, i]))
        name = load.row.name
        yield Step(stage, f"row.{name}", name.replace("_", " "), f"rib {i + 1}", y, (amount, rivet))


def _box(one: Following) -> Iterator[Step]:
    """Flow of skins and web, and what their rows carry of it, each where it is largest."""
    box = one.effects.box
    if box is None:
        return
    y = one.carried.span.y
    sides = {"skin_plus": "left_skin", "skin_minus": "right_skin"}
    if one.surface.left_is < 0:
        sides = {"skin_plus": "right_skin", "skin_minus": "left_skin"}
    for wall in ("skin_plus", "skin_minus", "nose", "web"):
        if not box.has(wall):
            continue
        flow = np.abs(one.effects.size(wall) if wall == "web" else one.effects.mean(wall))[0]
        at = int(np.argmax(flow))
        skin = sides.get(wall)
        words = {"web": "web of the spar", "nose": "nose skin"}.get(wall) or one.surface.said(str(skin))
        name = f"panel.{one.surface.said(skin)}" if skin else _WALLS[wall]
        yield Step("box", name, words.replace("_", " "), _at(y[at]), float(y[at]),
                   (Handed("flow", float(flow[at]), "line_load"),))  # fmt: skip
    for load in one.rows:
        if load.kind in {"spar", "edge", "doubler"}:
            yield _along(load, y)


def _along(load: RowLoad, y: Array) -> Step:
    """Row along the pins, where one rivet carries most."""
    at = int(np.argmax(load.shear[0]))
    spot = load.spots[at]
    place = float(y[at]) if len(load.spots) == y.size else float(spot.split()[1]) * 1e-3  # a doubler: at 90 mm
    flow = Handed("flow", float(load.flow[0, at]), "line_load")
    rivet = Handed("one rivet", float(load.shear[0, at]))
    name = load.row.name
    return Step("box", f"row.{name}", name.replace("_", " "), spot, place, (flow, rivet))


def _spar(one: Following) -> Iterator[Step]:
    """Largest shear, bending and torque that the spar and the box round it pass on."""
    effects, y = one.effects, one.carried.span.y
    for words, name, parts in (
        ("shear", "spar.web", (("V_z", "sideways"), ("V_x", "fore-aft"))),
        ("along", "spar", (("N", "along"),)),
        ("bending", "spar", (("M_x", "bending sideways"), ("M_z", "bending fore-aft"))),
        ("torque", "spar.web", (("T_0", "torque"),)),
    ):
        for key, what in parts:
            values = getattr(effects, key)[0]
            at = int(np.argmax(np.abs(values)))
            quantity = "torque" if key[0] in "MT" else "force"
            yield Step("spar", name, "spar and box", f"{words} {_at(y[at])}", float(y[at]),
                       (Handed(what, float(values[at]), quantity),))  # fmt: skip


def _brackets(one: Following) -> Iterator[Step]:
    """Rivet that carries most shear, and the one that is pulled most, of every bracket."""
    breaks = one.carried.span.breaks
    for load in one.brackets:
        y = float(breaks[one.carried.span.hinges[load.hinge.name]])
        name = f"hinge.{load.hinge.name}.bracket"
        for what, values in (("one rivet", load.shear[0]), ("pull of one rivet", load.tension[0])):
            at = int(np.argmax(values))
            words, rivet = f"{load.hinge.name} hinge, bracket", f"rivet {at + 1}"
            yield Step("bracket", name, words, rivet, y, (Handed(what, float(values[at])),))


def _pins(one: Following) -> Iterator[Step]:
    """Force of the surface on each pin."""
    span = one.carried.span
    for h, (name, b) in enumerate(span.hinges.items()):
        words = f"{name} hinge, pin"
        yield Step("pin", f"hinge.{name}.pin", words, "", float(span.breaks[b]), _force(-one.effects.reactions[0, h]))


def _horn(one: Following) -> Iterator[Step]:
    """Rivet of the horn that carries most."""
    if one.horn is None or one.carried.span.horn is None:
        return
    y = float(one.carried.span.breaks[one.carried.span.horn])
    for what, values in (("one rivet", one.horn.shear[0]), ("pull of one rivet", one.horn.tension[0])):
        at = int(np.argmax(values))
        yield Step("horn", "horn.rivets", "horn", f"rivet {at + 1}", y, (Handed(what, float(values[at])),))


def _hold(one: Following) -> Iterator[Step]:
    """Force of the surface on cable or rod, or the couple that holds."""
    span, horn = one.carried.span, one.surface.horn
    y = float(span.breaks[max(one.carried.hold.at_break, 0)])
    what = "rod" if horn is not None and horn.driven_by is DrivenBy.ROD else "cable"
    plus = one.surface.said("left" if one.surface.left_is > 0 else "right")
    minus = one.surface.said("right" if one.surface.left_is > 0 else "left")
    for p, (x, z) in enumerate(one.carried.effects.horn_points):
        force = -one.carried.pull[p]
        turned = float(point_force(force, x, z)[1])
        words = f"{plus if z > 0.0 else minus} {what}"
        yield Step("hold", "horn.bolt", words, "", y, (*_force(force), Handed("torque", turned, "torque")))
    words = "torque tube" if one.carried.hold.how == "couple" else "what turns the surface (not given)"
    yield Step("hold", "", words, "", y, (Handed("torque", -one.carried.couple, "torque"),))
