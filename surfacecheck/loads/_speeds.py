"""Least design speeds of Appendix A beside those that are typed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from surfacecheck.loads import appendix_a
from surfacecheck.loads._flight_cases import load_factor
from surfacecheck.loads._from_surface import number
from surfacecheck.loads._units import GRAVITY, KNOT, PSF
from surfacecheck.model import Rule, Surface
from surfacecheck.provenance import Source, Value
from surfacecheck.working import Symbol, Working

__all__ = ["SpeedRow", "speed_rows"]

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class SpeedRow:
    """One design speed.

    Attributes
    ----------
    name : str
        In plain words.
    symbol : str
        V_A, V_C or V_D.
    typed : Value or None
        As the builder gave it [m/s]; None where it is not given.
    least : ndarray of shape (...), or None
        Least by the rule, equivalent airspeed [m/s]; None while ``needs`` is not given.
    remark : str
        What to look at where the typed speed is lower, in any variant; empty otherwise.
    needs : str
        Key that hides the least speed; empty where it is known.
    source : Source
        Of the least speed.
    working : Working or None
        How the least speed comes about; None for a stack of variants.
    """

    name: str
    symbol: str
    typed: Value | None
    least: Array | None
    remark: str
    needs: str
    source: Source
    working: Working | None


_LOWER = "lower than the least of the rule: ask"
_ROWS = (
    ("V_A", "speed_full_controls", "full controls allowed up to", appendix_a.SPEEDS, _LOWER),
    (
        "V_C",
        "speed_cruise",
        "design cruising speed",
        appendix_a.SPEEDS,
        f"{_LOWER} (it need not exceed 0.9 of the greatest level speed at sea level, which is not asked here)",
    ),
    (
        "V_D",
        "speed_dive",
        "design diving speed",
        appendix_a.SPEED_DIVE,
        f"{_LOWER} (the least is from memory: check Figure A3)",
    ),
)


def speed_rows(surface: Surface) -> tuple[SpeedRow, ...]:
    """Work out the least design speeds of Appendix A, beside those that are typed.

    They are shown and do not enter the mean pressure, which goes by load factor and wing loading alone.

    V_A >= 15.0 sqrt(n1 W/S) knots, need not exceed the V_C used; V_C >= 17.0 sqrt(n1 W/S); V_D >= 24.0 sqrt(n1 W/S),
    need not exceed 1.4 sqrt(n1/3.8) V_C min (both from memory); W/S in psf, n1 not below 3.8.

    Parameters
    ----------
    surface : Surface
        The surface; values may be stacks of variants.

    Returns
    -------
    tuple of SpeedRow
        V_A, V_C, V_D; empty where the load is not by this rule.

    References
    ----------
    14 CFR 23, Appendix A, A23.7(e)(2) and Figure A3, Amdt 23-62; V_D and its cap from memory.
    """
    if surface.load.rule is not Rule.APPENDIX_A:
        return ()
    plane = surface.aeroplane
    factor = load_factor(surface)
    given = ((plane.weight, "aeroplane.weight"), (plane.wing_area, "aeroplane.wing_area"))
    needs = next((value.key or key for value, key in given if value.si is None), "")
    needs = needs or (factor if isinstance(factor, str) else "")
    n1 = None if needs or isinstance(factor, str) else np.maximum(factor[0], 3.8)  # A23.7(e)(2)
    return tuple(_row(surface, row, n1, needs) for row in _ROWS)


def _row(surface: Surface, row: tuple[str, str, str, Source, str], n1: Array | None, needs: str) -> SpeedRow:
    symbol, field, name, source, lower = row
    value: Value = getattr(surface.aeroplane, field)
    typed = value if value.known else None
    if n1 is None:
        return SpeedRow(name, symbol, typed, None, "", needs, source, None)
    least = _least(surface, symbol, n1)
    short = typed is not None and bool(np.any(number(typed) < least))
    working = _working(surface, symbol, name, n1, least, source) if np.ndim(least) == 0 else None
    return SpeedRow(name, symbol, typed, least, lower if short else "", "", source, working)


def _least(surface: Surface, symbol: str, n1: Array) -> Array:
    plane = surface.aeroplane
    speeds = appendix_a.least_speeds(n1, number(plane.weight) * GRAVITY / number(plane.wing_area))
    if symbol == "V_D":
        return np.minimum(speeds["V_D"], speeds["V_D_cap"])
    if symbol == "V_A" and plane.speed_cruise.known:
        return np.minimum(speeds["V_A"], number(plane.speed_cruise))
    return speeds[symbol]


def _working(surface: Surface, symbol: str, name: str, n1: Array, least: Array, source: Source) -> Working:
    plane = surface.aeroplane
    k = appendix_a.SPEED_FACTORS
    symbols = [
        Symbol("k", k[symbol] * KNOT, "speed", f"{k[symbol]:g} knots", source),
        Symbol("n_1", float(n1), "", "positive limit load factor, not below 3.8", plane.load_factor.source),
        Symbol("W", float(number(plane.weight)) * GRAVITY, "force", "greatest take-off weight", plane.weight.source),
        Symbol("S", float(number(plane.wing_area)), "area", "area of the wing", plane.wing_area.source),
        Symbol("p_1", PSF, "pressure", "one pound on a square foot, the unit of the rule", appendix_a.SPEEDS),
    ]
    formula = "k * sqrt(n_1 * W / (S * p_1))"
    if symbol == "V_A" and plane.speed_cruise.known:
        formula = f"min({formula}, V_C)"
        cruise = float(number(plane.speed_cruise))
        symbols.append(Symbol("V_C", cruise, "speed", "cruising speed used", plane.speed_cruise.source))
    if symbol == "V_D":
        formula = f"min({formula}, 1.4 * sqrt(n_1 / 3.8) * k_C * sqrt(n_1 * W / (S * p_1)))"
        symbols.append(Symbol("k_C", k["V_C"] * KNOT, "speed", f"{k['V_C']:g} knots", appendix_a.SPEEDS))
    sentence = f"least by Appendix A: {name}"
    return Working(sentence, formula, tuple(symbols), float(least), f"{symbol}_least", "speed", source)
