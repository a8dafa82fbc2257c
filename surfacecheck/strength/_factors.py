"""Factors from limit load to the state a strength belongs to, one line of them a row."""

from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source

__all__ = [
    "FITTING",
    "SAFETY",
    "TWO_HINGES",
    "Factors",
    "fitting",
    "highest_special",
    "joint_by_test",
    "member",
    "turning_bearing",
]

SAFETY = 1.5
"""Factor of safety, 14 CFR 23.303 (Amdt 23-62)."""
FITTING = 1.15
"""Fitting factor, 14 CFR 23.625 (Amdt 23-62)."""
TWO_HINGES = 1.5
"""Multiplier of the factor of hinges where a surface hangs on two only, CS 22.625(e) (sailplanes)."""

_TURNING = {
    "hinge": (6.67, "14 CFR 23.657(b) (Amdt 23-62), plain hinge"),
    "push-pull joint": (3.33, "14 CFR 23.693 (Amdt 23-62), push-pull control joint"),
    "cable joint": (2.0, "14 CFR 23.693 (Amdt 23-62), cable control joint"),
}


@dataclass(frozen=True, slots=True)
class Factors:
    """The factors of one row.

    Attributes
    ----------
    ultimate : float
        From limit load to ultimate [-].
    yield_ : float or None
        From limit load to yield [-]; None where the text asks for no yield check.
    line : str
        Which, why, and on what, in one line.
    source : Source
        The rule.
    """

    ultimate: float
    yield_: float | None
    line: str
    source: Source


def highest_special(*special: float) -> float:
    """Give the factor of safety times the highest special factor, never their product.

    1.5 x max(special factors, 1)

    Parameters
    ----------
    *special : float
        Every special factor that applies to the part (fitting, casting, bearing) [-].

    Returns
    -------
    float
        Ultimate factor [-].

    References
    ----------
    14 CFR Part 23 (Amdt 23-62), 23.619.

    Examples
    --------
    A cast fitting, 1.25 and 1.15:

    >>> highest_special(1.25, 1.15)
    1.875
    """
    return SAFETY * max(1.0, *special) if special else SAFETY


def member() -> Factors:
    """Give the factors of a plain member: 1.5 at ultimate, 1.0 at yield.

    Returns
    -------
    Factors
        The factors [-] and their line.

    References
    ----------
    14 CFR Part 23 (Amdt 23-62), 23.303 and 23.305.

    Examples
    --------
    >>> member().ultimate, member().yield_
    (1.5, 1.0)
    """
    return Factors(
        SAFETY,
        1.0,
        "1.5 on ultimate (factor of safety); 1.0 on yield",
        Source(Basis.PUBLISHED, "14 CFR 23.303, 23.305 (Amdt 23-62)"),
    )


def joint_by_test() -> Factors:
    """Give the factors of a riveted row whose strength rests on comprehensive joint tests: no fitting factor.

    Returns
    -------
    Factors
        The factors [-] and their line.

    References
    ----------
    14 CFR Part 23 (Amdt 23-62), 23.303 and 23.625.

    Examples
    --------
    >>> joint_by_test().ultimate
    1.5
    """
    return Factors(
        SAFETY,
        1.0,
        "1.5 on ultimate (factor of safety); no fitting factor: strength from joint tests; 1.0 on yield",
        Source(Basis.PUBLISHED, "14 CFR 23.303, 23.625 (Amdt 23-62)"),
    )


def fitting(*, at_yield: bool = True, casting: float | None = None, two_hinges: bool = False) -> Factors:
    """Give the factors of a fitting, its fasteners, and joints whose strength does not rest on joint tests.

    1.5 x max(1.15, casting factor), x 1.5 more by the sailplane rule for two hinges

    Parameters
    ----------
    at_yield : bool
        Whether 1.15 is put on limit load (yield) too.
    casting : float, optional
        Casting factor, if the fitting is cast [-].
    two_hinges : bool
        Whether the sailplane rule for a surface on two hinges is asked for.

    Returns
    -------
    Factors
        The factors [-] and their line.

    Notes
    -----
    23.619 multiplies the 1.5 only; 23.2265(c) of later editions multiplies limit and ultimate loads. Hence the switch,
    on by default.

    References
    ----------
    14 CFR Part 23 (Amdt 23-62), 23.303, 23.619, 23.621, 23.625; CS 22.625(e).

    Examples
    --------
    >>> f = fitting()
    >>> f.ultimate, f.yield_
    (1.725, 1.15)
    >>> fitting(casting=1.25, at_yield=False).ultimate
    1.875
    """
    if casting is not None and not casting >= 1.0:
        message = f"casting factor is {casting:g}; it must be at least 1: give the factor of the rule"
        raise SurfaceError(message)
    special = FITTING if casting is None else max(FITTING, casting)
    more = TWO_HINGES if two_hinges else 1.0
    words = [f"1.5 x {special:g} on ultimate ({'casting' if special > FITTING else 'fitting'} factor)"]
    words.append(f"{FITTING:g} on yield" if at_yield else "1.0 on yield")
    if two_hinges:
        words.append("both x 1.5 (two hinges only)")
    text = "14 CFR 23.303, 23.619, 23.625 (Amdt 23-62)" + ("; CS 22.625(e)" if two_hinges else "")
    return Factors(
        highest_special(special) * more,
        (FITTING if at_yield else 1.0) * more,
        "; ".join(words),
        Source(Basis.PUBLISHED, text),
    )


def turning_bearing(kind: str = "hinge", *, two_hinges: bool = False) -> Factors:
    """Give the factor on bearing where a pin turns; it stands alone.

    6.67 (plain hinge), 3.33 (push-pull joint) or 2.0 (cable joint), from limit load to ultimate bearing strength

    Parameters
    ----------
    kind : str
        ``"hinge"``, ``"push-pull joint"`` or ``"cable joint"``.
    two_hinges : bool
        Whether the sailplane rule for a surface on two hinges is asked for (hinges only).

    Returns
    -------
    Factors
        The factor [-] and its line; no yield row.

    Raises
    ------
    SurfaceError
        For a kind that is not listed.

    Notes
    -----
    Taken as the whole factor, in place of 1.5 and 1.15. That reading is an interpretation (the text calls it a
    factor of safety, and 23.619 does not list it). It belongs to the faces that turn; a clamped face is a fitting.

    References
    ----------
    14 CFR Part 23 (Amdt 23-62), 23.657(b), 23.693; CS 22.625(e).

    Examples
    --------
    >>> turning_bearing().ultimate
    6.67
    """
    if kind not in _TURNING:
        message = f'"{kind}" is not a bearing that turns; allowed: {", ".join(_TURNING)}'
        raise SurfaceError(message)
    value, text = _TURNING[kind]
    line = f"{value:g} on ultimate bearing, alone ({kind}); no yield check asked"
    if two_hinges:
        line += "; x 1.5 (two hinges only)"
        text += "; CS 22.625(e)"
    return Factors(value * (TWO_HINGES if two_hinges else 1.0), None, line, Source(Basis.PUBLISHED, text))
