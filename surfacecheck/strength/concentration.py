"""Elastic stress concentration at holes and shoulder fillets, each factor with its nominal stress and its range."""

from __future__ import annotations

from surfacecheck.strength._concentration import (
    ELLIPSE_SOURCE,
    HOLE_SOURCE,
    ellipse_concentration,
    hole_concentration,
    hole_concentration_gross,
    hole_edge_stress,
)
from surfacecheck.strength._fillet import FILLET_RANGE, FILLET_SOURCE, fillet_bending, fillet_covered, fillet_tension

__all__ = [
    "ELLIPSE_SOURCE",
    "FILLET_RANGE",
    "FILLET_SOURCE",
    "HOLE_SOURCE",
    "ellipse_concentration",
    "fillet_bending",
    "fillet_covered",
    "fillet_tension",
    "hole_concentration",
    "hole_concentration_gross",
    "hole_edge_stress",
]
