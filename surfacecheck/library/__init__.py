"""Shipped tables of sheet metals, rivets and drills, every value with its source."""

from surfacecheck.library._drills import (
    Drill,
    drill_gauges,
    drills_within,
    nearest_drills,
    number_drill,
)
from surfacecheck.library._materials import Material, material, materials
from surfacecheck.library._rivets import Grip, RivetType, rivet_type, rivets
from surfacecheck.library.metals import by_handbook, metal_of, rivet_strength

__all__ = [
    "Drill",
    "Grip",
    "Material",
    "RivetType",
    "by_handbook",
    "drill_gauges",
    "drills_within",
    "material",
    "materials",
    "metal_of",
    "nearest_drills",
    "number_drill",
    "rivet_strength",
    "rivet_type",
    "rivets",
]
