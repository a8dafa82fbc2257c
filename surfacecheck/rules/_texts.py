"""What further texts say of edge, pitch and diameter: shown beside the rule that counts, each with its field."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.provenance import Basis, Source
from surfacecheck.rules._result import DOES_NOT_MEET, MEETS, judged, length, result
from surfacecheck.rules._spacing import positive

if TYPE_CHECKING:
    from surfacecheck.rules._result import RuleResult

__all__ = ["chamfer_most", "edge_texts", "least_rivet", "pitch_texts"]

_NASA = Source(Basis.PUBLISHED, "NASA RP-1228, pages 21 and 34, as quoted in secondary text")
_REVIEW = Source(Basis.PUBLISHED, "aviation maintenance press, riveting review, March 1999, pattern layout")
_EN = Source(Basis.FROM_MEMORY, "EN 1993-1-3:2006, Table 8.1: blind rivets in steel sheet")
_NAVY = Source(Basis.PUBLISHED, "NAVEDTRA 14018, chapter 13, rivet spacing")
_NAVY_LEAST = Source(Basis.PUBLISHED, "NAVEDTRA 14018, chapter 13, rivet selection, rule 5")
_CHAMFER = "MIL-R-47196, deburring, as quoted in secondary text"


def edge_texts(edge: float, diameter: float, *, place: str = "") -> tuple[RuleResult, ...]:
    """Hold an edge distance against further texts; none of them counts.

    Parameters
    ----------
    edge : float
        Hole centre to the edge of that sheet [m].
    diameter : float
        Nominal rivet diameter [m].
    place : str
        Where.

    Returns
    -------
    tuple of RuleResult
        Least ever 1.5 D (aircraft), least 1.5 D (civil), at most 4 D (training) [m]; ``counts`` is False.

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    NASA RP-1228; EN 1993-1-3:2006, Table 8.1 (from memory); a riveting review of the aviation maintenance press, 1999.

    Examples
    --------
    >>> [(r.field, r.outcome) for r in edge_texts(6.0e-3, 3.2e-3)]
    [('aircraft', 'meets'), ('civil', 'meets'), ('training', 'meets')]
    """
    positive(edge=edge, diameter=diameter)
    floor, most = 1.5 * diameter, 4.0 * diameter
    held = judged(edge, floor)
    rows = (
        ("least edge ever", held, floor, "edge {found}; least ever {asked} (1.5 D), usual 2 D", _NASA, "aircraft"),
        ("edge distance, civil", held, floor, "edge {found}; a civil text asks {asked} (1.5 D)", _EN, "civil"),
        ("greatest edge", judged(edge, most, most=True), most, "edge {found}; usual up to {asked} (4 D)", _REVIEW,
         "training"),
    )  # fmt: skip
    return tuple(
        result(name, outcome, edge, asked, pattern, source, field=field, place=place, counts=False)
        for name, outcome, asked, pattern, source, field in rows
    )


def pitch_texts(pitch: float, diameter: float, *, place: str = "") -> tuple[RuleResult, ...]:
    """Hold a pitch against further texts; none of them counts.

    Parameters
    ----------
    pitch : float
        Distance of rivets in a line [m].
    diameter : float
        Nominal rivet diameter [m].
    place : str
        Where.

    Returns
    -------
    tuple of RuleResult
        Usual 4 to 8 D (training), at most 10 D (training), least 3 D (civil) [m]; ``counts`` is False.

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    NAVEDTRA 14018, chapter 13; a riveting review of the aviation maintenance press, 1999; EN 1993-1-3:2006, Table 8.1
    (from memory).

    Examples
    --------
    25 mm of a 3.2 mm rivet is 7.8 D:

    >>> [(r.name, r.outcome) for r in pitch_texts(25e-3, 3.2e-3)]
    [('usual pitch', 'meets'), ('greatest pitch, review', 'meets'), ('least pitch, civil', 'meets')]
    """
    positive(pitch=pitch, diameter=diameter)
    low, high, review = 4.0 * diameter, 8.0 * diameter, 10.0 * diameter
    below = judged(pitch, low) == DOES_NOT_MEET
    usual = DOES_NOT_MEET if below or judged(pitch, high, most=True) == DOES_NOT_MEET else MEETS
    words = f"pitch {{found}}; seldom under {length(low)} (4 D) or over {length(high)} (8 D)"
    rows = (
        ("usual pitch", usual, low if below else high, words, _NAVY, "training"),
        ("greatest pitch, review", judged(pitch, review, most=True), review,
         "pitch {found}; normally up to {asked} (10 D)", _REVIEW, "training"),
        ("least pitch, civil", judged(pitch, 3.0 * diameter), 3.0 * diameter,
         "pitch {found}; a civil text asks {asked} (3 D)", _EN, "civil"),
    )  # fmt: skip
    return tuple(
        result(name, outcome, pitch, asked, pattern, source, field=field, place=place, counts=False)
        for name, outcome, asked, pattern, source, field in rows
    )


def least_rivet(diameter: float, *, place: str = "") -> RuleResult:
    """Hold a rivet against the least size for structure and control parts.

    Parameters
    ----------
    diameter : float
        Nominal rivet diameter [m].
    place : str
        Where.

    Returns
    -------
    RuleResult
        With 3/32 in as what is asked [m]; ``counts`` is False.

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    NAVEDTRA 14018, chapter 13, rivet selection.

    Examples
    --------
    >>> least_rivet(3.2e-3).outcome, least_rivet(2.0e-3).outcome
    ('meets', 'does not meet')
    """
    positive(diameter=diameter)
    asked = 3.0 / 32.0 * 0.0254
    words = "rivet {found}; for structure and control parts not under {asked} (3/32 in)"
    held = judged(diameter, asked)
    return result("least rivet", held, diameter, asked, words, _NAVY_LEAST, field="training", place=place, counts=False)


def chamfer_most(thickness: float) -> tuple[float, Source]:
    """Give how deep the edge of a hole may be broken when it is deburred.

    min(t / 10, 0.032 in)

    Parameters
    ----------
    thickness : float
        Of the sheet [m].

    Returns
    -------
    tuple of (float, Source)
        Depth [m], and the text.

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    MIL-R-47196, as quoted in secondary text.

    Examples
    --------
    0.025 in sheet, in inches:

    >>> (chamfer_most(0.025 * 0.0254)[0] / 0.0254).__round__(5)
    0.0025
    """
    positive(thickness=thickness)
    return min(0.1 * thickness, 0.032 * 0.0254), Source(Basis.PUBLISHED, _CHAMFER)
