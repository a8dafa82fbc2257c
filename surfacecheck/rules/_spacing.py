"""Edge distance and pitch of rivets, in nominal diameters."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source
from surfacecheck.rules._result import DOES_NOT_MEET, judged, result

if TYPE_CHECKING:
    from surfacecheck.rules._result import RuleResult

__all__ = ["edge_distance", "edge_times", "least_pitch", "pitch_times", "row_gap"]

_EDGE = {
    "protruding": (2.0, Source(Basis.PUBLISHED, "AC 43.13-1B, 4-57: edge distance 2 D from the hole's centre")),
    "countersunk": (2.5, Source(Basis.PUBLISHED, "FAA-H-8083-31, rivet layout: edge distance 2.5 D, countersunk")),
}
_FLOOR = 1.5
_FLOOR_TEXT = "least ever 1.5 D: NASA RP-1228"
_SINGLE = Source(Basis.PUBLISHED, "AC 43.13-1B, 4-57: rivets not closer than 3 D")
_DOUBLE = Source(Basis.FROM_MEMORY, "AC 43.13-1B, figure 4-5: two rows 4 D apart in the row, three and more 3 D")
_GAP = Source(Basis.PUBLISHED, "FAA-H-8083-31, rivet layout: transverse pitch 75 % of the pitch, at least 2.5 D")

GAP_TIMES = 2.5
"""Least distance of two lines over the rivet's diameter [-]."""


def positive(**lengths: float) -> None:
    for name, value in lengths.items():
        if not value > 0.0:
            message = f"{name} is {value * 1e3:g} mm; it must be above 0: measure it again"
            raise SurfaceError(message)


def edge_times(head: str = "protruding") -> float:
    """Give the edge distance asked, in nominal diameters, for comparing whole stacks.

    Parameters
    ----------
    head : str
        ``"protruding"`` or ``"countersunk"``.

    Returns
    -------
    float
        Edge distance over diameter [-].

    Raises
    ------
    SurfaceError
        For a head that no rule names.

    References
    ----------
    AC 43.13-1B, 4-57; FAA-H-8083-31.

    Examples
    --------
    >>> edge_times(), edge_times("countersunk")
    (2.0, 2.5)
    """
    if head not in _EDGE:
        message = f'head "{head}" has no edge rule; allowed: {", ".join(_EDGE)}'
        raise SurfaceError(message)
    return _EDGE[head][0]


def pitch_times(lines: int = 1) -> float:
    """Give the least pitch asked, in nominal diameters, for comparing whole stacks.

    Parameters
    ----------
    lines : int
        Lines side by side [-].

    Returns
    -------
    float
        Pitch over diameter [-].

    References
    ----------
    AC 43.13-1B, 4-57 and figure 4-5.

    Examples
    --------
    >>> pitch_times(1), pitch_times(2), pitch_times(3)
    (3.0, 4.0, 3.0)
    """
    return 4.0 if lines == 2 else 3.0


def edge_distance(
    edge: float,
    diameter: float,
    *,
    head: str = "protruding",
    load_toward_edge: bool | None = None,
    place: str = "",
) -> RuleResult:
    """Compare an edge distance with the 2 D (protruding) or 2.5 D (countersunk) of the texts.

    Parameters
    ----------
    edge : float
        Hole centre to the edge of that sheet [m].
    diameter : float
        Nominal rivet diameter [m].
    head : str
        ``"protruding"`` or ``"countersunk"``.
    load_toward_edge : bool, optional
        Whether the load pulls toward this edge (tears out) or along it (net section); None where it is not known.
    place : str
        Where.

    Returns
    -------
    RuleResult
        With the figures [m]. Below 1.5 D the sentence says that no bearing table holds.

    Raises
    ------
    SurfaceError
        For a length not above zero or a head that no rule names.

    References
    ----------
    AC 43.13-1B, 4-57; FAA-H-8083-31; NASA RP-1228 for the floor of 1.5 D.

    Examples
    --------
    >>> edge_distance(7.0e-3, 3.2e-3).outcome
    'meets'
    >>> edge_distance(5.5e-3, 3.2e-3, load_toward_edge=True).sentence
    'edge 5.50 mm, the text asks 6.40 mm (2 D); the lower bearing value goes with it; the load pulls toward this edge'
    """
    positive(edge=edge, diameter=diameter)
    times, source = edge_times(head), _EDGE[head][1]
    outcome = judged(edge, times * diameter)
    words = [f"edge {{found}}, the text asks {{asked}} ({times:g} D)"]
    if judged(edge, _FLOOR * diameter) == DOES_NOT_MEET:
        words.append(f"no bearing table holds below 1.5 D ({_FLOOR_TEXT})")
    elif outcome == DOES_NOT_MEET:
        words.append("the lower bearing value goes with it")
    if load_toward_edge is not None:
        words.append("the load pulls toward this edge" if load_toward_edge else "the load runs along this edge")
    return result("edge distance", outcome, edge, times * diameter, "; ".join(words), source, place=place)


def least_pitch(pitch: float, diameter: float, *, lines: int = 1, place: str = "") -> RuleResult:
    """Compare a pitch with the least the texts ask: 3 D in one line, 4 D in each of two, 3 D in three and more.

    Parameters
    ----------
    pitch : float
        Distance of rivets in a line [m].
    diameter : float
        Nominal rivet diameter [m].
    lines : int
        Lines side by side [-].
    place : str
        Where.

    Returns
    -------
    RuleResult
        With the figures [m].

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    AC 43.13-1B, 4-57 and figure 4-5.

    Examples
    --------
    >>> least_pitch(9.5e-3, 3.2e-3).outcome, least_pitch(12.8e-3, 3.2e-3, lines=2).outcome
    ('does not meet', 'meets')
    """
    positive(pitch=pitch, diameter=diameter)
    times = pitch_times(lines)
    pattern = f"pitch {{found}}, the text asks at least {{asked}} ({times:g} D, {lines} line{'s' if lines > 1 else ''})"
    outcome = judged(pitch, times * diameter)
    return result(
        "least pitch", outcome, pitch, times * diameter, pattern, _DOUBLE if lines > 1 else _SINGLE, place=place
    )


def row_gap(gap: float, pitch: float, diameter: float, *, place: str = "") -> RuleResult:
    """Compare the gap between two lines with three quarters of the pitch, at least 2.5 D.

    Parameters
    ----------
    gap : float
        Distance of the lines [m].
    pitch : float
        Distance of rivets in a line [m].
    diameter : float
        Nominal rivet diameter [m].
    place : str
        Where.

    Returns
    -------
    RuleResult
        With 2.5 D as what is asked [m]; three quarters of the pitch is the usual figure and only named.

    Raises
    ------
    SurfaceError
        For a length not above zero.

    References
    ----------
    FAA-H-8083-31, rivet layout.

    Examples
    --------
    >>> row_gap(9.0e-3, 12.0e-3, 3.2e-3).outcome
    'meets'
    """
    positive(gap=gap, pitch=pitch, diameter=diameter)
    pattern = f"lines {{found}} apart, the text asks at least {{asked}} (2.5 D; usual {0.75 * pitch / diameter:.1f} D)"
    asked = GAP_TIMES * diameter
    return result("gap of lines", judged(gap, asked), gap, asked, pattern, _GAP, place=place)
