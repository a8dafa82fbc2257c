"""The other half of an elevator on one torque tube: what the unsymmetric load of the tail means for this half.

The rule loads one half with all of its load and the other with part of it. Whichever half this is, its own airload is
then that of the symmetric case, or that part of it; and the tube brings it no torque of the other half, since both
halves only put torque into the tube, which is held beyond this half's end. So the torque of this half is that of the
symmetric case, and there is no case to solve: the flight cases carry a note, and :func:`tube_torques` tells what each
half puts into the tube, for whoever checks the tube.

One thing does change and is **not looked at**: a tube that holds this half's slope holds it fully only while both
halves bend alike. With a share s on the other half, the mirror image of this one, bending here is (1 + s)/2 of the
load with the slope held plus (1 - s)/2 of it with the slope free: for 65 % that is 82.5 % and 17.5 %. The note says
so. Nor is what the difference of the halves does to stabiliser and fuselage.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from surfacecheck.loads import appendix_a
from surfacecheck.loads._airload import airload_totals
from surfacecheck.loads._case import LoadCase, MissingCase
from surfacecheck.loads._from_surface import planform_of
from surfacecheck.model import DrivenBy, Kind, Surface, YesNo
from surfacecheck.provenance import Source

__all__ = ["TubeTorque", "tube_torques", "unsymmetric"]

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class TubeTorque:
    """What the two halves put into one torque tube in a flight case.

    Attributes
    ----------
    case : str
        Title of the case.
    own : ndarray, shape (...)
        Torque of this half's airload about the hinge line, limit [N m].
    share : float
        Of the other half while this one has all [-].
    other : ndarray, shape (...)
        Torque of the other half then, taken as the mirror image of this one [N m].
    both : ndarray, shape (...)
        Both, with all of the load on both: the most that comes together where the tube is driven [N m].
    source : Source
        Of the share.
    """

    case: str
    own: Array
    share: float
    other: Array
    both: Array
    source: Source


def _goes_on(surface: Surface) -> bool:
    horn = surface.horn
    if surface.kind is not Kind.ELEVATOR or horn is None:
        return False
    return horn.driven_by is DrivenBy.TORQUE_TUBE and horn.turns_other_half is YesNo.YES


def unsymmetric(surface: Surface, found: Iterable[LoadCase | MissingCase]) -> Iterator[LoadCase | MissingCase]:
    """Note on the flight cases of half an elevator what the unsymmetric load of the tail means for them.

    Parameters
    ----------
    surface : Surface
        The surface.
    found : iterable of LoadCase or MissingCase
        Its flight cases.

    Yields
    ------
    LoadCase or MissingCase
        The same, with a note where a torque tube goes on to the other half; and the key that hides the share.
    """
    if not _goes_on(surface):
        yield from found
        return
    category = surface.aeroplane.category
    if category is None:
        yield from found
        why = "how much the other half has while this one has all goes by category"
        yield MissingCase("unsymmetric load of the tail", "aeroplane.category", why)
        return
    share, source = appendix_a.OTHER_HALF[category.value]
    note = (
        f"unsymmetric load, all here and {share:.0%} on the other half ({source.basis}): the torque tube gets that "
        "part of this half's torque from the other half, and this half's own torque stays; that the tube then holds "
        "the slope of this half less than fully is not looked at"
    )
    for case in found:
        yield replace(case, notes=(*case.notes, note)) if isinstance(case, LoadCase) else case


def tube_torques(surface: Surface, cases: Iterable[LoadCase]) -> tuple[TubeTorque, ...]:
    """Tell what both halves of an elevator put into the torque tube that turns them, in each flight case.

    Parameters
    ----------
    surface : Surface
        The surface; values may be stacks of variants.
    cases : iterable of LoadCase
        Its cases; those that are no airload in flight are left out.

    Returns
    -------
    tuple of TubeTorque
        Empty where no torque tube goes on to another half, or the category is not given.

    References
    ----------
    14 CFR 23, Appendix A, A23.11(c)(2), Amdt 23-62 (acrobatic: 50 %); normal and utility, 65 %, from memory (Table 2).
    """
    category = surface.aeroplane.category
    if not _goes_on(surface) or category is None:
        return ()
    share, source = appendix_a.OTHER_HALF[category.value]
    planform = planform_of(surface)
    flight = [case for case in cases if case.group == "flight" and case.air is not None]
    own = [airload_totals(case.air, planform)[1] * case.factor for case in flight]  # type: ignore[arg-type]
    return tuple(
        TubeTorque(case.title, one, share, share * one, 2.0 * one, source)
        for case, one in zip(flight, own, strict=True)
    )
