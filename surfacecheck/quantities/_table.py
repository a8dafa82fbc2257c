"""Units and quantities: what each measures, its size, and the units it is shown and worked in.

Conversion factors: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg (international yard and pound agreement, 1959), standard
gravity 9.806 65 m/s2 and the knot of 1852 m/h (BIPM, The International System of Units, 9th edition, 2019).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from surfacecheck.errors import SurfaceError

__all__ = ["DIMENSIONS", "GRAVITY", "QUANTITIES", "UNITS", "Quantity", "quantity_names", "quantity_of"]

GRAVITY = 9.80665
"""Standard gravity [m/s^2] (BIPM, The International System of Units, 9th edition, 2019)."""

_IN, _FT, _LB = 0.0254, 0.3048, 0.45359237
_LBF = _LB * GRAVITY

#: Exponents of kg, m, s, rad.
DIMENSIONS: dict[str, tuple[int, int, int, int]] = {
    "number": (0, 0, 0, 0), "length": (0, 1, 0, 0), "area": (0, 2, 0, 0), "volume": (0, 3, 0, 0),
    "second moment of area": (0, 4, 0, 0), "angle": (0, 0, 0, 1), "twist": (0, -1, 0, 1), "curvature": (0, -1, 0, 0),
    "force": (1, 1, -2, 0), "pressure": (1, -1, -2, 0), "load per length": (1, 0, -2, 0), "torque": (1, 2, -2, 0),
    "bending stiffness": (1, 3, -2, 0), "movement per force": (-1, 0, 2, 0), "mass": (1, 0, 0, 0),
    "mass per length": (1, -1, 0, 0), "mass per area": (1, -2, 0, 0), "density": (1, -3, 0, 0),
    "mass moment": (1, 1, 0, 0), "speed": (0, 1, -1, 0), "acceleration": (0, 1, -2, 0), "time": (0, 0, 1, 0),
}  # fmt: skip

#: Every unit read without pint: what it measures, its size in SI units.
UNITS: dict[str, tuple[str, float]] = {
    "": ("number", 1.0),
    "mm": ("length", 1e-3), "cm": ("length", 1e-2), "m": ("length", 1.0), "in": ("length", _IN),
    "inch": ("length", _IN), '"': ("length", _IN), "thou": ("length", _IN / 1000), "ft": ("length", _FT),
    "mm2": ("area", 1e-6), "cm2": ("area", 1e-4), "m2": ("area", 1.0), "in2": ("area", _IN**2),
    "ft2": ("area", _FT**2), "sq ft": ("area", _FT**2),
    "mm3": ("volume", 1e-9), "m3": ("volume", 1.0), "in3": ("volume", _IN**3),
    "mm4": ("second moment of area", 1e-12), "m4": ("second moment of area", 1.0),
    "in4": ("second moment of area", _IN**4),
    "deg": ("angle", math.pi / 180), "°": ("angle", math.pi / 180), "rad": ("angle", 1.0),
    "rad/m": ("twist", 1.0), "rad/mm": ("twist", 1e3), "rad/in": ("twist", 1 / _IN),
    "deg/m": ("twist", math.pi / 180), "deg/ft": ("twist", math.pi / 180 / _FT),
    "1/m": ("curvature", 1.0), "1/mm": ("curvature", 1e3), "1/in": ("curvature", 1 / _IN),
    "N": ("force", 1.0), "daN": ("force", 10.0), "kN": ("force", 1e3), "lbf": ("force", _LBF),
    "kgf": ("force", GRAVITY),
    "Pa": ("pressure", 1.0), "kPa": ("pressure", 1e3), "KPa": ("pressure", 1e3), "MPa": ("pressure", 1e6),
    "GPa": ("pressure", 1e9), "N/m2": ("pressure", 1.0), "N/mm2": ("pressure", 1e6), "bar": ("pressure", 1e5),
    "psi": ("pressure", _LBF / _IN**2), "ksi": ("pressure", 1e3 * _LBF / _IN**2),
    "psf": ("pressure", _LBF / _FT**2), "lbf/in2": ("pressure", _LBF / _IN**2),
    "lbf/ft2": ("pressure", _LBF / _FT**2),
    "N/m": ("load per length", 1.0), "N/mm": ("load per length", 1e3), "kN/m": ("load per length", 1e3),
    "kN/mm": ("load per length", 1e6), "lbf/in": ("load per length", _LBF / _IN),
    "lbf/ft": ("load per length", _LBF / _FT),
    "N m": ("torque", 1.0), "Nm": ("torque", 1.0), "kN m": ("torque", 1e3), "N mm": ("torque", 1e-3),
    "Nmm": ("torque", 1e-3), "lbf in": ("torque", _LBF * _IN), "lbf ft": ("torque", _LBF * _FT),
    "N m2": ("bending stiffness", 1.0), "Nm2": ("bending stiffness", 1.0), "kN m2": ("bending stiffness", 1e3),
    "N mm2": ("bending stiffness", 1e-6), "lbf in2": ("bending stiffness", _LBF * _IN**2),
    "lbf ft2": ("bending stiffness", _LBF * _FT**2),
    "m/N": ("movement per force", 1.0), "mm/N": ("movement per force", 1e-3), "mm/kN": ("movement per force", 1e-6),
    "in/lbf": ("movement per force", _IN / _LBF),
    "kg": ("mass", 1.0), "Kg": ("mass", 1.0), "g": ("mass", 1e-3), "mg": ("mass", 1e-6), "lb": ("mass", _LB),
    "lbs": ("mass", _LB), "oz": ("mass", _LB / 16),
    "kg/m": ("mass per length", 1.0), "kg/mm": ("mass per length", 1e3), "lb/in": ("mass per length", _LB / _IN),
    "lb/ft": ("mass per length", _LB / _FT),
    "kg/m2": ("mass per area", 1.0), "kg/mm2": ("mass per area", 1e6), "lb/ft2": ("mass per area", _LB / _FT**2),
    "lb/in2": ("mass per area", _LB / _IN**2),
    "kg/m3": ("density", 1.0), "g/cm3": ("density", 1e3), "kg/mm3": ("density", 1e9),
    "lb/in3": ("density", _LB / _IN**3), "lb/ft3": ("density", _LB / _FT**3),
    "N s2/mm4": ("density", 1e12), "lbf s2/in4": ("density", _LBF / _IN**4),
    "kg m": ("mass moment", 1.0), "kg mm": ("mass moment", 1e-3), "lb in": ("mass moment", _LB * _IN),
    "m/s": ("speed", 1.0), "mm/s": ("speed", 1e-3), "in/s": ("speed", _IN), "ft/s": ("speed", _FT),
    "km/h": ("speed", 1 / 3.6), "knots": ("speed", 1852 / 3600), "knot": ("speed", 1852 / 3600),
    "kt": ("speed", 1852 / 3600), "mph": ("speed", 5280 * _FT / 3600),
    "m/s2": ("acceleration", 1.0), "N/kg": ("acceleration", 1.0), "ft/s2": ("acceleration", _FT),
    "lbf/lb": ("acceleration", GRAVITY),
    "s": ("time", 1.0),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Quantity:
    """What it measures, and the units it is shown and worked in."""

    measures: str
    metric: str
    inch: str
    work_metric: str
    work_inch: str


#: The working units of one system belong together (N, mm, s, kg with N/kg; lbf, in, s, lb with lbf/lb), so that a
#: formula can be redone from values in them. A density that meets a speed is ``air_density``.
QUANTITIES: dict[str, Quantity] = {
    "number": Quantity("number", "", "", "", ""),
    "length": Quantity("length", "mm", "in", "mm", "in"),
    "area": Quantity("area", "m2", "ft2", "mm2", "in2"),
    "section_area": Quantity("area", "mm2", "in2", "mm2", "in2"),
    "section_modulus": Quantity("volume", "mm3", "in3", "mm3", "in3"),
    "volume": Quantity("volume", "mm3", "in3", "mm3", "in3"),
    "second_moment": Quantity("second moment of area", "mm4", "in4", "mm4", "in4"),
    "angle": Quantity("angle", "deg", "deg", "rad", "rad"),
    "twist": Quantity("twist", "deg/m", "deg/ft", "rad/mm", "rad/in"),
    "curvature": Quantity("curvature", "1/m", "1/in", "1/mm", "1/in"),
    "force": Quantity("force", "N", "lbf", "N", "lbf"),
    "pressure": Quantity("pressure", "kPa", "psf", "MPa", "psi"),
    "stress": Quantity("pressure", "MPa", "psi", "MPa", "psi"),
    "line_load": Quantity("load per length", "N/mm", "lbf/in", "N/mm", "lbf/in"),
    "stiffness": Quantity("load per length", "N/mm", "lbf/in", "N/mm", "lbf/in"),
    "torque": Quantity("torque", "N m", "lbf in", "N mm", "lbf in"),
    "line_torque": Quantity("force", "N", "lbf", "N", "lbf"),
    "bending_stiffness": Quantity("bending stiffness", "N m2", "lbf in2", "N mm2", "lbf in2"),
    "compliance": Quantity("movement per force", "mm/kN", "in/lbf", "mm/N", "in/lbf"),
    "mass": Quantity("mass", "kg", "lb", "kg", "lb"),
    "line_mass": Quantity("mass per length", "kg/m", "lb/ft", "kg/mm", "lb/in"),
    "area_mass": Quantity("mass per area", "kg/m2", "lb/ft2", "kg/mm2", "lb/in2"),
    "density": Quantity("density", "kg/m3", "lb/in3", "kg/mm3", "lb/in3"),
    "air_density": Quantity("density", "kg/m3", "lb/ft3", "N s2/mm4", "lbf s2/in4"),
    "mass_moment": Quantity("mass moment", "kg m", "lb in", "kg mm", "lb in"),
    "speed": Quantity("speed", "m/s", "knots", "mm/s", "in/s"),
    "acceleration": Quantity("acceleration", "m/s2", "ft/s2", "N/kg", "lbf/lb"),
    "time": Quantity("time", "s", "s", "s", "s"),
}
_ALIASES = {"": "number", "stiffness_bending": "bending_stiffness", "stiffness_torsion": "bending_stiffness"}


def quantity_of(name: str) -> Quantity:
    """Look a quantity up by its name."""
    key = name.replace(" ", "_")
    found = QUANTITIES.get(_ALIASES.get(key, key))
    if found is None:
        message = f'"{name}" is no quantity; the quantities are {", ".join(QUANTITIES)}'
        raise SurfaceError(message)
    return found


def quantity_names() -> tuple[str, ...]:
    """Give the names of every quantity."""
    return tuple(QUANTITIES)
