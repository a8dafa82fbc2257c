"""Inertia along the hinge line, and of the balance mass."""

from __future__ import annotations

from collections.abc import Iterator

from surfacecheck.loads._case import Inertia, LoadCase, MissingCase, PointInertia
from surfacecheck.loads._controls import ALONG_HINGE, BALANCE_MASS
from surfacecheck.loads._flight import section
from surfacecheck.loads._from_surface import number, side_word
from surfacecheck.masses import Masses
from surfacecheck.model import Surface, YesNo

__all__ = ["balance_cases", "inertia_cases"]

_ALONE = "a case of its own: the rules state separate conditions; not combining them is common practice"


def _thrust_hinges(surface: Surface, what: str) -> tuple[list[str], list[MissingCase]]:
    takes = [name for name, hinge in surface.hinges.items() if hinge.takes_along is YesNo.YES]
    why = "which hinge stops the surface sliding along the pins is not said"
    missing = [
        MissingCase(f"{what}, on {name}", f"hinge.{name}.takes_along", why)
        for name, hinge in surface.hinges.items()
        if hinge.takes_along is None
    ]
    if not takes and not missing:
        why = "no hinge has a face that stops the surface sliding along the pins: nothing would hold this load"
        first = next(iter(surface.hinges), "?")
        missing = [MissingCase(what, f"hinge.{first}.takes_along", why)]
    return takes, missing


def inertia_cases(surface: Surface, masses: Masses) -> Iterator[LoadCase | MissingCase]:
    """Build the load along the hinge line: each hinge that takes it in turn, both senses."""
    k = ALONG_HINGE[surface.kind.value]
    what = f"along the hinge line, {k:g} g"
    if not masses.known:
        gap = masses.left_out[0]
        yield MissingCase(what, gap.key, f"the mass of {gap.name} is not known, nor the whole weighed")
        return
    takes, missing = _thrust_hinges(surface, what)
    yield from missing
    for hinge in takes:
        for sense, way in ((1.0, surface.said("up")), (-1.0, surface.said("down"))):
            yield LoadCase(
                f"along-{way}-{hinge}",
                f"{what}, {way}, taken by {hinge}",
                section("23.393"),
                "inertia",
                inertia=Inertia(sense * k),
                thrust=hinge,
                notes=("spread along the span by mass, at the centre of each strip", _ALONE),
            )


def balance_cases(surface: Surface) -> Iterator[LoadCase | MissingCase]:
    """Build the balance mass, each direction alone, both senses; along the pins on each thrust hinge in turn."""
    one = surface.balance_mass
    if one.mass.absent:
        return
    for value, key in ((one.mass, "mass"), (one.up, "up"), (one.ahead, "ahead")):
        if value.si is None:
            yield MissingCase("balance mass", value.key or f"balance_mass.{key}", "its inertia needs mass and place")
            return
    mass, y, x = number(one.mass), number(one.up), -number(one.ahead)
    normal, fore, along = BALANCE_MASS.values()
    plus = (1.0, -1.0)
    pushes: list[tuple[str, str, tuple[float, float, float], str | None]] = []
    for s in plus:
        side = side_word(surface, int(s))
        pushes.append((f"balance-{side}", f"balance mass, {normal:g} g to the {side}", (0.0, 0.0, s * normal), None))
    for s, way in zip(plus, ("behind", "ahead"), strict=True):
        pushes.append((f"balance-{way}", f"balance mass, {fore:g} g {way}", (s * fore, 0.0, 0.0), None))
    what = f"balance mass, {along:g} g along the hinge line"
    takes, missing = _thrust_hinges(surface, what)
    for hinge in takes:
        for s, way in ((1.0, surface.said("up")), (-1.0, surface.said("down"))):
            title = f"{what}, {way}, taken by {hinge}"
            pushes.append((f"balance-{way}-{hinge}", title, (0.0, s * along, 0.0), hinge))
    for name, title, g, hinge_name in pushes:
        yield LoadCase(
            name,
            title,
            section("23.659"),
            "balance",
            point=PointInertia(mass, y, x, g),
            thrust=hinge_name,
            notes=(_ALONE,),
        )
    yield from missing
