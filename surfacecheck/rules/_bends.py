"""Bends: radius for the metal, room for a rivet head, and the lengths of a flat pattern."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.rules._result import NOT_COVERED, judged, length, result
from surfacecheck.rules._spacing import positive

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.rules._result import RuleResult

__all__ = ["bend_allowance", "bend_clearance", "bend_radius", "bend_radius_range", "setback"]

_RADIUS = Source(Basis.PUBLISHED, "AC 43.13-1B, Table 4-6: recommended inside radii, 90-degree bends, cold")
_CLEARANCE = Source(Basis.COMMON_PRACTICE, "the head, or the tail, stands clear of the bend: a >= t + r + head/2")

SHEET_THICKNESS = np.array([0.016, 0.032, 0.064, 0.128, 0.182, 0.258]) * 0.0254
RADIUS_TIMES: dict[str, tuple[list[float], list[float]]] = {  # least and most, in thicknesses, for each thickness above
    "2024-T3": ([1.5, 2, 3, 4, 4, 5], [3, 4, 5, 6, 6, 7]),
    "5052-H32": ([0, 0, 0.5, 0.5, 0.5, 0.5], [0, 0, 1, 1.5, 1.5, 1.5]),
    "5052-H34": ([0, 0, 0.5, 1.5, 1.5, 2], [0, 0, 1.5, 2.5, 2.5, 3]),
    "6061-T4": ([0, 0, 0.5, 1, 1.5, 2.5], [1, 1, 1.5, 2, 3, 4]),
    "6061-T6": ([0, 0.5, 1, 1.5, 2, 3], [1, 1.5, 2, 3, 4, 4]),
    "7075-T6": ([2, 3, 4, 5, 5, 6], [4, 5, 6, 7, 7, 10]),
}


def bend_radius_range(alloy: str, thickness: float) -> tuple[float, float] | None:
    """Give the inside radii recommended for a 90-degree bend.

    Straight lines between the thicknesses of the table.

    Parameters
    ----------
    alloy : str
        Alloy and temper; clad counts as bare (a little smaller is allowed).
    thickness : float
        Sheet thickness [m].

    Returns
    -------
    tuple of float, or None
        Least and most inside radius [m]; None where alloy or thickness (0.016 to 0.258 in) is not in the table.

    References
    ----------
    AC 43.13-1B, Table 4-6.

    Examples
    --------
    6061-T6, 0.032 in, in inches:

    >>> [round(r / 0.0254, 3) for r in bend_radius_range("6061-T6", 0.032 * 0.0254)]
    [0.016, 0.048]
    """
    row = RADIUS_TIMES.get(alloy.removesuffix(" clad").removesuffix(" bare"))
    if row is None or not SHEET_THICKNESS[0] - 1e-9 <= thickness <= SHEET_THICKNESS[-1] + 1e-9:
        return None
    low, high = (float(np.interp(thickness, SHEET_THICKNESS, times)) * thickness for times in row)
    return low, high


def bend_radius(alloy: str, thickness: float, inside: float, *, place: str = "") -> RuleResult:
    """Compare an inside bend radius with the least one recommended.

    Parameters
    ----------
    alloy : str
        Alloy and temper.
    thickness : float
        Sheet thickness [m].
    inside : float
        Inside radius [m].
    place : str
        Where.

    Returns
    -------
    RuleResult
        With the figures [m]; ``"not covered"`` where alloy or thickness is not in the table.

    Raises
    ------
    SurfaceError
        For a thickness not above zero.

    References
    ----------
    AC 43.13-1B, Table 4-6.

    Examples
    --------
    >>> bend_radius("2024-T3 clad", 0.8e-3, 2.4e-3).outcome
    'meets'
    """
    positive(thickness=thickness)
    span = bend_radius_range(alloy, thickness)
    if span is None:
        pattern = f"inside radius {{found}} in {alloy} of {length(float(thickness))}, which the table does not hold"
        return result("bend radius", NOT_COVERED, inside, inside, pattern, _RADIUS, place=place)
    pattern = f"inside radius {{found}}; the table recommends {{asked}} to {length(float(span[1]))} for {alloy}"
    return result("bend radius", judged(inside, span[0]), inside, span[0], pattern, _RADIUS, place=place)


def bend_clearance(from_bend: float, thickness: float, inside: float, head: float, *, place: str = "") -> RuleResult:
    """Say whether a rivet head stands clear of a bend.

    a >= t + r + d_head/2

    Parameters
    ----------
    from_bend : float
        Hole centre to the outer face of the other leg [m].
    thickness : float
        Sheet thickness [m].
    inside : float
        Inside bend radius [m].
    head : float
        Diameter of the head or tail on the inner side [m].
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
    Common practice.

    Examples
    --------
    >>> bend_clearance(8.0e-3, 0.8e-3, 2.4e-3, 6.5e-3).sentence
    'hole centre 8.00 mm from the outer face of the bend; the head clears it from 6.45 mm'
    """
    positive(from_bend=from_bend, thickness=thickness, head=head)
    asked = thickness + inside + head / 2.0
    pattern = "hole centre {found} from the outer face of the bend; the head clears it from {asked}"
    return result(
        "head clear of the bend",
        judged(from_bend, asked),
        from_bend,
        asked,
        pattern,
        _CLEARANCE,
        field="aircraft",
        place=place,
    )


def setback(inside: ArrayLike, thickness: ArrayLike, degrees: ArrayLike) -> NDArray[np.float64]:
    """Give the setback of a bend.

    K (R + t), K = tan(A/2)

    Parameters
    ----------
    inside : array_like
        Inside radius [m].
    thickness : array_like
        Sheet thickness [m].
    degrees : array_like
        Bend angle, from flat [deg].

    Returns
    -------
    ndarray
        Mould line to tangent line [m].

    References
    ----------
    AC 43.13-1B, chapter 4, setback.

    Examples
    --------
    >>> setback(0.25, 0.064, [45.0, 135.0]).round(3).tolist()
    [0.13, 0.758]
    """
    half = np.deg2rad(np.asarray(degrees, dtype=np.float64)) / 2.0
    return np.asarray(np.tan(half) * (np.asarray(inside, dtype=np.float64) + np.asarray(thickness, dtype=np.float64)))


def bend_allowance(inside: ArrayLike, thickness: ArrayLike, degrees: ArrayLike) -> NDArray[np.float64]:
    """Give the flat length of a bend.

    (0.01743 R + 0.0078 t) A

    Parameters
    ----------
    inside : array_like
        Inside radius [m].
    thickness : array_like
        Sheet thickness [m].
    degrees : array_like
        Bend angle, from flat [deg].

    Returns
    -------
    ndarray
        Length along the bend [m].

    References
    ----------
    AC 43.13-1B, chapter 4, bend allowance.

    Examples
    --------
    >>> float(bend_allowance(0.125, 0.032, 90.0))
    0.2186
    """
    radius, t = np.asarray(inside, dtype=np.float64), np.asarray(thickness, dtype=np.float64)
    return np.asarray((0.01743 * radius + 0.0078 * t) * np.asarray(degrees, dtype=np.float64))
