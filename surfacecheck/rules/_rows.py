"""Texts beside a row: greatest pitches written for other work, and how many repairs a row may hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source
from surfacecheck.rules._result import DOES_NOT_MEET, MEETS, judged, result
from surfacecheck.rules._spacing import positive

if TYPE_CHECKING:
    from surfacecheck.rules._result import RuleResult

__all__ = ["greatest_pitches", "repairs_in_row"]

_SEALING = Source(Basis.FROM_MEMORY, "AISC 360, J3.5: 24 t of the thinner part, at most 12 in")
_CIVIL = Source(Basis.FROM_MEMORY, "Aluminum Design Manual, built-up members: 75 mm + 20 t (3 in + 20 t)")
_REPAIRS = Source(
    Basis.PUBLISHED, "MIL-R-47196, repairs a pattern: 20 %, 10 rivets, two side by side; as quoted in secondary text"
)


def greatest_pitches(pitch: float, thinnest: float, *, place: str = "") -> tuple[RuleResult, RuleResult]:
    """Show a pitch beside the greatest pitches of texts written for other work; neither counts.

    Parameters
    ----------
    pitch : float
        Distance of rivets in a line [m].
    thinnest : float
        Thinner sheet [m].
    place : str
        Where.

    Returns
    -------
    tuple of RuleResult
        24 t (sealing; at most 12 in), and 75 mm + 20 t (civil) [m]; ``counts`` is False.

    Raises
    ------
    SurfaceError
        For a length not above zero.

    Notes
    -----
    In an aircraft skin the sheet buckling between rivets bounds the pitch: ``strength.inter_rivet_pitch``.

    References
    ----------
    AISC 360, J3.5; Aluminum Design Manual; both from memory.

    Examples
    --------
    >>> [(r.field, round(r.asked * 1e3, 1), r.outcome) for r in greatest_pitches(25e-3, 0.5e-3)]
    [('sealing', 12.0, 'does not meet'), ('civil', 85.0, 'meets')]
    """
    positive(pitch=pitch, thinnest=thinnest)
    sealing, civil = min(24.0 * thinnest, 12.0 * 0.0254), 0.075 + 20.0 * thinnest
    words = "pitch {found}; a text for %s work ends at {asked} (%s)"
    return (
        result(
            "greatest pitch, sealing",
            judged(pitch, sealing, most=True),
            pitch,
            sealing,
            words % ("sealed steel", "24 t, 12 in"),
            _SEALING,
            field="sealing",
            place=place,
            counts=False,
        ),
        result(
            "greatest pitch, civil",
            judged(pitch, civil, most=True),
            pitch,
            civil,
            words % ("civil aluminium", "75 mm + 20 t"),
            _CIVIL,
            field="civil",
            place=place,
            counts=False,
        ),
    )


def repairs_in_row(repaired: int, total: int, side_by_side: int, *, place: str = "") -> RuleResult:
    """Compare repaired rivets of a pattern with the most a process specification allows.

    Parameters
    ----------
    repaired : int
        Rivets replaced or oversize so far [-].
    total : int
        Rivets of the pattern [-].
    side_by_side : int
        Most repaired ones next to each other [-].
    place : str
        Where.

    Returns
    -------
    RuleResult
        With the count; the least of 20 % and 10 [-].

    Raises
    ------
    SurfaceError
        Where the counts do not fit each other.

    References
    ----------
    MIL-R-47196 (solid rivets), as quoted in secondary text.

    Examples
    --------
    >>> repairs_in_row(3, 43, 1).outcome, repairs_in_row(3, 43, 3).outcome
    ('meets', 'does not meet')
    """
    if not 0 <= side_by_side <= repaired <= total:
        message = (
            f"{side_by_side} side by side of {repaired} repaired of {total}: each must hold the one before; count again"
        )
        raise SurfaceError(message)
    most = min(0.2 * total, 10.0)
    outcome = MEETS if repaired <= most + 1e-9 and side_by_side <= 2 else DOES_NOT_MEET
    pattern = f"{{found}} repaired of {total}, {side_by_side} side by side; the text allows {{asked}} and 2"
    return result("repairs in a row", outcome, float(repaired), most, pattern, _REPAIRS, place=place, quantity="")
