"""Single findings of an assessment: loads at pins and horn, equilibrium, gaps."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Gap", "HornPull", "PinLoad", "Rest", "Worst"]


@dataclass(frozen=True, slots=True)
class Worst:
    """The largest of something over the load cases, with its sign and its case."""

    value: float
    case: str


@dataclass(frozen=True, slots=True)
class PinLoad:
    """Load at one pin, from the surface on the pin's bracket.

    Attributes
    ----------
    name : str
        Hinge.
    up : float
        Place along the pins [m].
    sideways, fore_aft, along : Worst
        Largest force of the surface on the pin, along z, x (positive aft) and y [N].
    turned_sideways, turned_fore_aft : Worst
        The same in the axes of the fixed bracket, with the surface at its greatest swing [N].
    apart : Worst
        Largest difference of the two idealisations, over the largest hinge load of that case [-].
    ways : Worst or None
        Largest difference between load spread evenly and load handed over at the ribs, over the same [-]; None where
        only one of the two was worked.
    """

    name: str
    up: float
    sideways: Worst
    fore_aft: Worst
    along: Worst
    turned_sideways: Worst
    turned_fore_aft: Worst
    apart: Worst
    ways: Worst | None = None


@dataclass(frozen=True, slots=True)
class HornPull:
    """Largest pull at the horn.

    Attributes
    ----------
    kind : str
        cable, rod or torque tube.
    up : float
        Place along the pins [m].
    pull : Worst
        Largest pull of one cable or of the rod [N]; torque of a torque tube [N m].
    """

    kind: str
    up: float
    pull: Worst


@dataclass(frozen=True, slots=True)
class Rest:
    """Equilibrium of one load case: what goes in, and what is left over when all hinges and cables push back.

    Attributes
    ----------
    case : str
        Name of the case.
    applied : tuple of float
        Force in, (x, y, z) [N].
    held : tuple of float
        Force back at pins and horn, (x, y, z) [N].
    rest : float
        Largest force left over, moments divided by the span among them [N].
    """

    case: str
    applied: tuple[float, float, float]
    held: tuple[float, float, float]
    rest: float


@dataclass(frozen=True, slots=True)
class Gap:
    """A value that is not given, and what it hides."""

    key: str
    hides: str
