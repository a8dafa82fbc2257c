"""How much one fastener gives under shear, by several published formulas, and how far they lie apart."""

from __future__ import annotations

from surfacecheck.strength._flexibility import FLEXIBILITY_SOURCES, huth, quadratic_grip, swift
from surfacecheck.strength._flexibility_spread import FlexibilitySpread, flexibility_spread
from surfacecheck.strength._flexibility_tate import tate_rosenfeld_double, tate_rosenfeld_single

__all__ = [
    "FLEXIBILITY_SOURCES",
    "FlexibilitySpread",
    "flexibility_spread",
    "huth",
    "quadratic_grip",
    "swift",
    "tate_rosenfeld_double",
    "tate_rosenfeld_single",
]
