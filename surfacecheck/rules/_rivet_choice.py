"""Is it the right rivet: diameter against sheet, hole, grip."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from surfacecheck.provenance import Basis, Source
from surfacecheck.rules._result import DOES_NOT_MEET, MEETS, NOT_COVERED, judged, length, result
from surfacecheck.rules._spacing import positive
from surfacecheck.strength import LEAST_T_OVER_D

if TYPE_CHECKING:
    from surfacecheck.rules._result import Outcome, RuleResult

__all__ = ["countersink_depth", "diameter_for_sheet", "grip_range", "hole_range", "sheet_range"]

_SHEET = Source(Basis.PUBLISHED, "MIL-HDBK-5J (2003), 8.1.2.1: t/D at least 0.18, as quoted in secondary text")
_DIAMETER = Source(
    Basis.PUBLISHED, "NAVEDTRA 14018: between 1 and 3 times the thickest sheet; AC 43.13-1B, 4-58: about 3"
)
_SOLID_HOLE = Source(Basis.PUBLISHED, "MIL-HDBK-5J (2003), Table 8.1.2(a), listed hole, as quoted in secondary text")
_COUNTERSINK = Source(Basis.COMMON_PRACTICE, "a countersink no deeper than two thirds of the sheet, else a knife edge")
_HEAD_ANGLE = {"solid": 100.0, "pulled": 120.0}  # degrees; MS20426 and ISO 15978, from memory
_SHEET_OF_RIVET = Source(Basis.AS_SAID, "the rivet's data sheet or packet")


def sheet_range(thinnest: float, diameter: float, *, place: str = "") -> RuleResult:
    """Say whether the rivet tables cover a sheet: t/D from 0.18.

    Parameters
    ----------
    thinnest : float
        Thinner sheet [m].
    diameter : float
        Nominal rivet diameter [m].
    place : str
        Where.

    Returns
    -------
    RuleResult
        ``"meets"`` or ``"not covered"``, never ``"does not meet"``; least sheet as what is asked [m].

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    MIL-HDBK-5J (2003), 8.1.2.1, as quoted in secondary text.

    Examples
    --------
    >>> sheet_range(0.5e-3, 3.2e-3).sentence
    'sheet 0.50 mm under a 3.20 mm rivet; the tables start at 0.58 mm (t/D 0.18)'
    """
    positive(thinnest=thinnest, diameter=diameter)
    least = LEAST_T_OVER_D * diameter
    outcome: Outcome = NOT_COVERED if judged(thinnest, least) == DOES_NOT_MEET else MEETS
    pattern = (
        f"sheet {{found}} under a {length(float(diameter))} rivet; "
        f"the tables start at {{asked}} (t/D {LEAST_T_OVER_D:g})"
    )
    return result("sheet for this rivet", outcome, thinnest, least, pattern, _SHEET, place=place)


def diameter_for_sheet(diameter: float, thickest: float, *, place: str = "") -> RuleResult:
    """Show a rivet diameter beside the one to three times the thickest sheet of the texts; a remark, never counted.

    Parameters
    ----------
    diameter : float
        Nominal rivet diameter [m].
    thickest : float
        Thickest sheet of the stack [m].
    place : str
        Where.

    Returns
    -------
    RuleResult
        With the bound that is nearest as what is asked [m]; ``counts`` is False.

    Raises
    ------
    SurfaceError
        For a length not above zero.

    Notes
    -----
    The texts disagree at the upper end: one takes about 3 t as the size to choose, the other as the most allowed, so
    the next standard size up is chosen by one and refused by the other. Hence a remark.

    References
    ----------
    NAVEDTRA 14018; AC 43.13-1B, 4-58.

    Examples
    --------
    0.050 in sheet, 5/32 in rivet:

    >>> r = diameter_for_sheet(0.15625 * 0.0254, 0.050 * 0.0254)
    >>> r.outcome, r.counts
    ('does not meet', False)
    """
    positive(diameter=diameter, thickest=thickest)
    low, high = thickest, 3.0 * thickest
    below = judged(diameter, low) == DOES_NOT_MEET
    above = judged(diameter, high, most=True) == DOES_NOT_MEET
    bound = "least {asked} (1 t)" if below else "most {asked} (3 t)"
    pattern = f"rivet {{found}} for a thickest sheet of {length(float(thickest))}; the text says {bound}"
    outcome = DOES_NOT_MEET if below or above else MEETS
    asked = low if below else high
    return result(
        "diameter for the sheet",
        outcome,
        diameter,
        asked,
        pattern,
        _DIAMETER,
        field="training",
        place=place,
        counts=False,
    )


def countersink_depth(
    head: float, diameter: float, thickness: float, *, set: str = "solid", place: str = ""
) -> RuleResult:
    """Compare the depth of a machine countersink with two thirds of the sheet it is cut into.

    h = (d_head - D) / (2 tan(A/2)) <= 2/3 t

    Parameters
    ----------
    head : float
        Diameter of the flush head [m].
    diameter : float
        Nominal rivet diameter [m].
    thickness : float
        Sheet under the head [m].
    set : str
        ``"solid"`` (a head of 100 degrees) or ``"pulled"`` (120 degrees, ISO 15978); both from memory.
    place : str
        Where.

    Returns
    -------
    RuleResult
        With the depth and the greatest one [m]. A deeper one leaves a knife edge: thin sheet is dimpled instead.

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    Common practice.

    Examples
    --------
    A 1/8 in solid rivet with a head of 0.225 in is 0.042 in deep, so it asks for 0.063 in of sheet:

    >>> inch = 0.0254
    >>> deep = countersink_depth(0.225 * inch, 0.125 * inch, 0.040 * inch)
    >>> deep.outcome, round(deep.found / inch, 3)
    ('does not meet', 0.042)
    >>> countersink_depth(0.225 * inch, 0.125 * inch, 0.064 * inch).outcome
    'meets'
    """
    positive(head=head, diameter=diameter, thickness=thickness)
    half = math.radians(0.5 * _HEAD_ANGLE["solid" if set == "solid" else "pulled"])
    depth, most = max(0.5 * (head - diameter), 0.0) / math.tan(half), 2.0 / 3.0 * thickness
    pattern = f"countersink {{found}} deep in {length(thickness)} of sheet; two thirds of it are {{asked}}"
    outcome = judged(depth, most, most=True)
    return result("depth of the countersink", outcome, depth, most, pattern, _COUNTERSINK, place=place)


def _between(
    name: str, found: float, least: float | None, most: float | None, what: str, source: Source, field: str, place: str
) -> RuleResult:
    """Compare with a range of which either end may be unknown."""
    positive(**{f"{word} of {name}": end for word, end in (("least", least), ("most", most)) if end is not None})
    low = least is not None and judged(found, least) == DOES_NOT_MEET
    high = most is not None and judged(found, most, most=True) == DOES_NOT_MEET
    if low or high:
        outcome: Outcome = DOES_NOT_MEET
    else:
        outcome = NOT_COVERED if least is None or most is None else MEETS
    asked = least if least is not None and (low or most is None) else most
    if asked is None:
        return result(
            name, outcome, found, found, f"{what} {{found}}; its range is not given", source, field=field, place=place
        )
    ends = " to ".join("?" if end is None else length(float(end)) for end in (least, most))
    side = "at least" if low or most is None else "at most"
    pattern = f"{what} {{found}}; range {ends}, {side} {{asked}}"
    return result(name, outcome, found, asked, pattern, source, field=field, place=place)


def hole_range(
    hole: float,
    least: float | None,
    most: float | None,
    *,
    set: str = "pulled",
    source: Source | None = None,
    place: str = "",
) -> RuleResult:
    """Compare a hole with the range its rivet may be set in.

    Parameters
    ----------
    hole : float
        Hole as measured; of an oval one, each diameter in turn [m].
    least, most : float or None
        Range of the rivet; None where it is not given [m].
    set : str
        ``"pulled"`` (the rivet does not fill the hole) or ``"solid"``.
    source : Source, optional
        Where the range comes from.
    place : str
        Where.

    Returns
    -------
    RuleResult
        With the figures [m]; ``"not covered"`` where the end that matters is not given.

    Raises
    ------
    SurfaceError
        For a hole not above zero.

    References
    ----------
    Pulled: the rivet's data sheet (ISO tables: 0.1 to 0.2 mm over nominal). Solid: MIL-HDBK-5J (2003), Table 8.1.2(a).

    Examples
    --------
    >>> hole_range(4.45e-3, 4.1e-3, 4.2e-3).outcome
    'does not meet'
    >>> hole_range(4.1e-3, None, None).outcome
    'not covered'
    """
    positive(hole=hole)
    solid = set == "solid"
    where = source or (_SOLID_HOLE if solid else _SHEET_OF_RIVET)
    what = "hole" if solid else "hole of a rivet that does not fill it"
    return _between("hole in its range", hole, least, most, what, where, "aircraft" if solid else "data sheet", place)


def grip_range(
    stack: float, least: float | None, most: float | None, *, source: Source | None = None, place: str = ""
) -> RuleResult:
    """Compare a stack of sheets with the grip of its rivet.

    Parameters
    ----------
    stack : float
        All layers with their coatings [m].
    least, most : float or None
        Grip of the rivet; None where it is not given [m].
    source : Source, optional
        Where the grip comes from.
    place : str
        Where.

    Returns
    -------
    RuleResult
        With the figures [m]; ``"not covered"`` where the end that matters is not given.

    Raises
    ------
    SurfaceError
        For a stack not above zero.

    References
    ----------
    The rivet's data sheet; ISO 15981:2002 prints such ranges.

    Examples
    --------
    A 4.0 mm rivet of 8 mm length grips 3.0 to 5.0 mm:

    >>> grip_range(2.0e-3, 3.0e-3, 5.0e-3).outcome
    'does not meet'
    """
    positive(stack=stack)
    return _between("grip", stack, least, most, "stack", source or _SHEET_OF_RIVET, "data sheet", place)
