"""Shipped tables of sheet metals and rivets, every value with its source."""

from surfacecheck.library._materials import Material, material, materials
from surfacecheck.library._rivets import Grip, RivetType, rivet_type, rivets
from surfacecheck.library.metals import metal_of, rivet_strength

__all__ = [
    "Grip",
    "Material",
    "RivetType",
    "material",
    "materials",
    "metal_of",
    "rivet_strength",
    "rivet_type",
    "rivets",
]
