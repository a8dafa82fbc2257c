"""The little that is asked of pint, on first use only."""

from __future__ import annotations

import importlib
import math
import re
from functools import lru_cache
from typing import Any

from surfacecheck.quantities._table import DIMENSIONS, UNITS

__all__ = ["normal", "registry", "unit_size"]

Dimension = tuple[int, int, int, int]


def normal(unit: str) -> str:
    """Write a unit as the table does: plain powers, one blank for a product."""
    unit = unit.strip().replace("²", "2").replace("³", "3").replace("^", "").replace("**", "").replace("µ", "u")
    return " ".join(re.sub(r"[·⋅*]", " ", unit).replace(" / ", "/").split())


@lru_cache(maxsize=1)
def registry() -> Any:
    """Make the registry once, with its cache on disk where that can be written."""
    # By name, so that a module that only shows numbers does not count as one that needs pint.
    pint = importlib.import_module("pint")
    try:
        return pint.UnitRegistry(cache_folder=":auto:")
    except OSError:  # a cache that cannot be written costs a fifth of a second, nothing else
        return pint.UnitRegistry()


@lru_cache(maxsize=256)
def _by_pint(unit: str) -> tuple[Dimension, float] | None:
    if not re.fullmatch(r"[A-Za-z_]+[2-4]?(?:[ /][A-Za-z_]+[2-4]?)*", unit) or len(unit) > 40:
        return None
    text = re.sub(r"([2-4])(?=[ /]|$)", r"**\1", unit).replace(" ", "*")
    try:
        base = registry().Quantity(1.0, text).to_base_units()
    except Exception:  # whatever a general library says of a text, here it is "no unit known"
        return None
    powers = {str(name): power for name, power in base._units.items()}
    bases = ("kilogram", "meter", "second", "radian")
    if set(powers) - set(bases) or not math.isfinite(base.magnitude) or any(p != int(p) for p in powers.values()):
        return None
    m, l, t, a = (int(powers.get(name, 0)) for name in bases)
    return (m, l, t, a), float(base.magnitude)


def unit_size(text: str) -> tuple[Dimension, float] | None:
    """Give dimension and size in SI units of a unit, or None where nobody knows it."""
    text = normal(text)
    if text in UNITS:
        measures, factor = UNITS[text]
        return DIMENSIONS[measures], factor
    return _by_pint(text)
