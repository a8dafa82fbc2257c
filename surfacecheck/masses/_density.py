"""Densities of the metals that builders name."""

from __future__ import annotations

from functools import lru_cache

from surfacecheck.errors import SurfaceError
from surfacecheck.library import material
from surfacecheck.masses._parts import Unknown
from surfacecheck.model import Surface
from surfacecheck.provenance import Basis, Source, Value

__all__ = ["density"]

_POUND_PER_CUBIC_INCH = 0.45359237 / 0.0254**3
_MEMORY = Source(Basis.FROM_MEMORY, "density of the rivet metal, handbook value")
_STEEL = Source(Basis.COMMON_PRACTICE, "density of steel, 7850 kg/m3")

_OTHERS = {
    "2117": (0.099 * _POUND_PER_CUBIC_INCH, _MEMORY),
    "5056": (0.095 * _POUND_PER_CUBIC_INCH, _MEMORY),
    "1100": (0.098 * _POUND_PER_CUBIC_INCH, _MEMORY),
    "2017": (0.101 * _POUND_PER_CUBIC_INCH, _MEMORY),
    "steel": (7850.0, _STEEL),
}
"""Metals that are no sheet of the library."""


@lru_cache(maxsize=256)
def _shipped(alloy: str) -> Value:
    return material(alloy).density


def density(surface: Surface, alloy: str, key: str) -> tuple[float, Source]:
    """Find the density of a metal by the name in the file.

    Parameters
    ----------
    surface : Surface
        For the builder's own metals, which come first.
    alloy : str
        Name, such as "2024-T3 clad"; empty where it is not known.
    key : str
        Key of the file that holds the name.

    Returns
    -------
    density : float
        [kg/m^3].
    source : Source
        Where it comes from.

    Raises
    ------
    Unknown
        Where the metal is not named, or its density is not known.
    """
    own = surface.alloys.get(alloy)
    if own is not None and own.density.si is not None:
        return float(own.density.si), own.density.source
    for word, entry in _OTHERS.items():
        if alloy.lower().startswith(word):
            return entry
    if own is not None or not alloy:
        raise Unknown(key=f"alloy.{alloy}.density" if own is not None else key)
    try:
        shipped = _shipped(alloy)
    except SurfaceError:
        raise Unknown(key=key) from None
    if shipped.si is None:
        raise Unknown(key=key)
    return float(shipped.si), shipped.source
