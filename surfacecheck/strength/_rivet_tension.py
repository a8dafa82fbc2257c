"""A rivet in tension, and in shear and tension at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._numbers import at_least, floats, ratio

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "INTERACTION_SOURCE",
    "PULL_OVER_RANGE",
    "PULL_OVER_SOURCE",
    "SOLID_TENSION_SHARE",
    "interaction_en1993_1_8",
    "interaction_margin",
    "interaction_sum",
    "pull_over",
    "pull_over_covered",
    "tension_unwelcome",
]

PULL_OVER_RANGE = (0.5e-3, 1.5e-3)
"""Sheet under the head that the pull-over form was written for [m] (EN 1993-1-3:2006, Table 8.2, conditions)."""

SOLID_TENSION_SHARE = 0.20
"""Share of its shear strength above which tension in a solid rivet is remarked on."""

PULL_OVER_SOURCE = Source(
    Basis.PUBLISHED,
    "EN 1993-1-3:2006, Table 8.2, as quoted in secondary text: written for screws with a stiff washer in steel sheet, "
    "repeated wind load; borrowed for a rivet head",
)
INTERACTION_SOURCE = Source(Basis.FROM_MEMORY, "quadratic form Rs^2 + Rt^2 = 1, NASA RP-1228 (fastener design manual)")


def pull_over(F_tu: ArrayLike, head: ArrayLike, thickness: ArrayLike, *, repeated: bool = True) -> NDArray[np.float64]:
    """Give the load at which a thin sheet pulls over a rivet head.

    F_p = 0.5 x d_head x t x F_tu (repeated load), twice that for a steady one

    Parameters
    ----------
    F_tu : array_like
        Ultimate tensile stress of the sheet under the head [Pa].
    head : array_like
        Head diameter [m].
    thickness : array_like
        Thickness of the sheet under the head [m].
    repeated : bool
        Whether the load comes and goes (airload: yes).

    Returns
    -------
    ndarray
        Load of one rivet, without partial factors [N].

    Notes
    -----
    Written for self-tapping screws in steel sheet of 0.5 to 1.5 mm with a stiff washer; the same standard asks for
    tests where the fastener is a blind rivet. Borrowed for want of a rule for rivets: see :func:`pull_over_covered`.

    References
    ----------
    EN 1993-1-3:2006, Table 8.2 (F_p,Rd), as quoted in secondary text.

    Examples
    --------
    A 6.5 mm head on 0.5 mm sheet of 400 MPa:

    >>> float(pull_over(400e6, 6.5e-3, 0.5e-3))
    650.0
    """
    stress, d, t = at_least(0.0, F_tu=F_tu, head=head, thickness=thickness)
    return np.asarray((0.5 if repeated else 1.0) * d * t * stress)


def pull_over_covered(thickness: ArrayLike) -> NDArray[np.bool_]:
    """Say whether the sheet lies in the range of the pull-over form (0.5 to 1.5 mm).

    Parameters
    ----------
    thickness : array_like
        Thickness of the sheet under the head [m].

    Returns
    -------
    ndarray of bool
        True inside the range [-].

    References
    ----------
    EN 1993-1-3:2006, Table 8.2, conditions, as quoted in secondary text.

    Examples
    --------
    >>> pull_over_covered([0.0004, 0.0005, 0.0016]).tolist()
    [False, True, False]
    """
    t = floats(thickness)
    least, most = PULL_OVER_RANGE
    return np.asarray((t >= least * (1.0 - 1e-9)) & (t <= most * (1.0 + 1e-9)))


def tension_unwelcome(tension: ArrayLike, shear_strength: ArrayLike) -> NDArray[np.bool_]:
    """Say whether a solid rivet carries more tension than texts like: above 20 % of its shear strength.

    Parameters
    ----------
    tension : array_like
        Tension at ultimate load [N].
    shear_strength : array_like
        Ultimate shear strength of the rivet [N].

    Returns
    -------
    ndarray of bool
        True where a remark is due [-].

    References
    ----------
    Common practice (stress textbooks): above that the formed head deforms and clamping is lost.

    Examples
    --------
    >>> tension_unwelcome([50.0, 400.0], 1726.0).tolist()
    [False, True]
    """
    return np.asarray(floats(tension) > SOLID_TENSION_SHARE * floats(shear_strength))


def interaction_sum(
    R_s: ArrayLike, R_t: ArrayLike, shear_power: float = 2.0, tension_power: float = 2.0
) -> NDArray[np.float64]:
    """Give the left side of a shear and tension interaction.

    R_s^a + R_t^b (exhausted at 1)

    Parameters
    ----------
    R_s, R_t : array_like
        Effect over strength in shear and in tension, at the same state [-].
    shear_power, tension_power : float
        Powers a and b [-].

    Returns
    -------
    ndarray
        The sum [-]. It is no margin: use :func:`interaction_margin`.

    References
    ----------
    Powers 2, 2: NASA RP-1228 (from memory); 2.5, 1.5 and 1.2, 2: NASA-STD-5020 (from memory).

    Examples
    --------
    >>> float(interaction_sum(0.6, 0.5)), float(interaction_sum(0.6, 0.5, 2.5, 1.5))
    (0.61, 0.632)
    """
    s, t = at_least(0.0, R_s=R_s, R_t=R_t)
    return np.asarray(np.power(s, shear_power) + np.power(t, tension_power))


def interaction_margin(R_s: ArrayLike, R_t: ArrayLike) -> NDArray[np.float64]:
    """Give the margin of a rivet in shear and tension, quadratic form.

    margin = 1 / sqrt(R_s^2 + R_t^2) - 1

    Parameters
    ----------
    R_s, R_t : array_like
        Factored effect over strength in shear and in tension [-].

    Returns
    -------
    ndarray
        Multiplier of the load that just exhausts the rivet, minus one [-].

    References
    ----------
    NASA RP-1228 (fastener design manual), from memory.

    Examples
    --------
    >>> float(interaction_margin(0.6, 0.5))
    0.280
    """
    s, t = at_least(0.0, R_s=R_s, R_t=R_t)
    return np.asarray(np.where((s == 0.0) & (t == 0.0), np.inf, ratio(1.0, np.hypot(s, t))) - 1.0)


def interaction_en1993_1_8(R_s: ArrayLike, R_t: ArrayLike) -> NDArray[np.float64]:
    """Give the left side of the civil-engineering interaction, for comparison.

    R_s + R_t / 1.4 (exhausted at 1)

    Parameters
    ----------
    R_s, R_t : array_like
        Effect over resistance in shear and in tension [-].

    Returns
    -------
    ndarray
        The sum [-].

    References
    ----------
    EN 1993-1-8:2005, Table 3.4.

    Examples
    --------
    >>> float(interaction_en1993_1_8(0.6, 0.5))
    0.957
    """
    s, t = at_least(0.0, R_s=R_s, R_t=R_t)
    return np.asarray(s + t / 1.4)
