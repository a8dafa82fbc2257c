"""How many rivets a repair table asks a width of sheet to have, from a closed form that reproduces the table."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["COUNT_SHARES", "COUNT_SOURCE", "rivet_count", "rivets_by_notes", "rivets_per_width"]

COUNT_SOURCE = Source(
    Basis.WORKED_OUT,
    "closed form fitted to AC 43.13-1B, Tables 4-9 to 4-11 (2117 rivets, single lap), within 0.13 an inch",
)

COUNT_SHARES = {"stringer": 1.0, "lap joint": 0.75, "upper stringer": 0.80, "frame": 0.60}
"""Share of the table that its notes ask for, by what is joined [-] (AC 43.13-1B, notes to Tables 4-9 to 4-11)."""

_KSI = 6.894757293168361e6
_GROUPS = {  # bearing over 1.6 or 1.65 hole, and the sheet stress matched
    "2024-T3": (1.6, 75.0 * _KSI),
    "2024-T3 clad": (1.6, 60.0 * _KSI),
    "5052": (1.65, 30.0 / 0.70 * _KSI),
}


_NOTES = {  # bearing over, and rivet shear over, the tensile stress of the sheet
    "2024-T3": (1.6, 0.40),
    "2024-T3 clad": (1.6, 0.50),
    "5052": (1.65, 0.70),
}


def rivets_by_notes(thickness: ArrayLike, hole: ArrayLike, group: str) -> NDArray[np.float64]:
    """Give the rivets a unit of width of sheet is to have, by what the notes under the repair tables say of them.

    N/W = max(1/(b d), t/(s pi/4 d^2)): a strip as strong as its rivets; b and s are the bearing stress and the rivet's
    shear stress over the tensile stress of the sheet, which itself falls out

    Parameters
    ----------
    thickness : array_like
        Sheet thickness [m].
    hole : array_like
        Nominal hole [m].
    group : str
        ``"2024-T3"`` (Table 4-9), ``"2024-T3 clad"`` (4-10) or ``"5052"`` (4-11).

    Returns
    -------
    ndarray
        Rivets [1/m].

    Raises
    ------
    SurfaceError
        For a group that has no table.

    Notes
    -----
    The notes give s as 40 per cent under Table 4-9 and 70 under 4-11; under 4-10 the figure is missing in print, and 50
    is what its entries give. They give b as 160 per cent under all three; the entries of 4-11 give 165.

    References
    ----------
    AC 43.13-1B, Tables 4-9, 4-10, 4-11, engineering notes a and b.

    Examples
    --------
    5052, 0.064 in, 3/16 in rivets: the table gives 3.2 an inch

    >>> float(rivets_by_notes(0.064 * 0.0254, 0.191 * 0.0254, "5052")) * 0.0254
    3.19
    """
    if group not in _NOTES:
        message = f'no rivet table for "{group}"; there is one for: {", ".join(_NOTES)}'
        raise SurfaceError(message)
    bearing, shear = _NOTES[group]
    t, d = np.asarray(thickness, dtype=np.float64), np.asarray(hole, dtype=np.float64)
    return np.asarray(np.maximum(1.0 / (bearing * d), t / (shear * np.pi / 4.0 * d**2)))


def rivets_per_width(thickness: ArrayLike, hole: ArrayLike, shear: ArrayLike, group: str) -> NDArray[np.float64]:
    """Give the rivets a unit of width of sheet is to have, as the repair tables do.

    N/W = max(1/(b d_hole), t F/P_s)

    Parameters
    ----------
    thickness : array_like
        Sheet thickness [m].
    hole : array_like
        Listed hole [m].
    shear : array_like
        Shear strength of one rivet [N].
    group : str
        ``"2024-T3"`` (Table 4-9), ``"2024-T3 clad"`` (4-10) or ``"5052"`` (4-11).

    Returns
    -------
    ndarray
        Rivets, both halves of nothing taken off [1/m].

    Raises
    ------
    SurfaceError
        For a group that has no table.

    Notes
    -----
    There is no table for 6061; 5052's is the nearest and a little on the safe side.

    References
    ----------
    AC 43.13-1B, Tables 4-9, 4-10, 4-11.

    Examples
    --------
    Clad 2024, 0.064 in, 1/8 in rivets of 388 lbf: the table gives 9.9 an inch

    >>> float(rivets_per_width(0.064 * 0.0254, 0.1285 * 0.0254, 388 * 4.4482216, "2024-T3 clad")) * 0.0254
    9.90
    """
    if group not in _GROUPS:
        message = f'no rivet table for "{group}"; there is one for: {", ".join(_GROUPS)}'
        raise SurfaceError(message)
    times, stress = _GROUPS[group]
    t, d, p = (np.asarray(v, dtype=np.float64) for v in (thickness, hole, shear))
    return np.asarray(np.maximum(1.0 / (times * d), t * stress / p))


def rivet_count(width: float, thickness: float, hole: float, shear: float, group: str, joint: str = "stringer") -> int:
    """Give the number of rivets the repair tables ask for over a width.

    N = ceil(W x table x share), the table rounded to its tenth an inch

    Parameters
    ----------
    width : float
        Width of the sheet that is joined [m].
    thickness, hole, shear : float
        As in :func:`rivets_per_width` [m, m, N].
    group : str
        As in :func:`rivets_per_width`.
    joint : str
        A key of :data:`COUNT_SHARES`.

    Returns
    -------
    int
        Rivets [-].

    Raises
    ------
    SurfaceError
        For a joint that the notes do not name.

    References
    ----------
    AC 43.13-1B, Tables 4-9 to 4-11, notes and worked examples.

    Examples
    --------
    Clad 2024, 0.032 in, 10 in wide, 1/8 in rivets: 37

    >>> rivet_count(0.254, 0.032 * 0.0254, 0.1285 * 0.0254, 388 * 4.4482216, "2024-T3 clad", "lap joint")
    37
    """
    if joint not in COUNT_SHARES:
        message = f'no share for "{joint}"; the notes name: {", ".join(COUNT_SHARES)}'
        raise SurfaceError(message)
    inch = 0.0254
    tabled = round(float(rivets_per_width(thickness, hole, shear, group)) * inch, 1)
    return math.ceil(round(COUNT_SHARES[joint] * tabled * width / inch, 9))
