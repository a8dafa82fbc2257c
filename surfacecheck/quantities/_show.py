"""Values out: text in the units asked for, working units, pint quantities."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any, Literal, TypeVar

from surfacecheck.errors import SurfaceError
from surfacecheck.quantities._pint import registry, unit_size
from surfacecheck.quantities._table import UNITS, quantity_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["System", "as_quantity", "show", "show_number", "system_of", "to_unit", "unit_of", "working_unit"]

System = Literal["metric", "inch"]
_Number = TypeVar("_Number", "float", "NDArray[np.float64]")
_INCH_WORDS = re.compile(r"\b(in|inch|ft|lbf?|lbs|oz|psi|ksi|psf|thou|mph)(?![A-Za-z])|\"")


def system_of(unit: str) -> System:
    """Tell whether a unit belongs to the inch or to the metric system.

    Parameters
    ----------
    unit : str
        As typed.

    Returns
    -------
    {"metric", "inch"}
        The system; metric where a unit belongs to both.
    """
    return "inch" if _INCH_WORDS.search(unit) else "metric"


def unit_of(quantity: str, system: System = "metric") -> str:
    """Give the unit a quantity is shown in.

    Parameters
    ----------
    quantity : str
        A name of :func:`quantity_names`.
    system : {"metric", "inch"}
        Units wanted.

    Returns
    -------
    str
        The unit; empty for a plain number.
    """
    one = quantity_of(quantity)
    return one.inch if system == "inch" else one.metric


def working_unit(quantity: str, system: System = "metric") -> tuple[str, float]:
    """Give the unit a quantity is worked in, of a set that belongs together.

    Parameters
    ----------
    quantity : str
        A name of :func:`quantity_names`.
    system : {"metric", "inch"}
        N, mm, MPa, N/mm, N mm; or lbf, in, psi, lbf/in, lbf in.

    Returns
    -------
    tuple of (str, float)
        The unit, and its size [SI unit of the quantity]: ``shown = si / size``.

    Examples
    --------
    >>> working_unit("torque"), working_unit("stress", "metric")
    (('N mm', 0.001), ('MPa', 1000000.0))
    """
    one = quantity_of(quantity)
    unit = one.work_inch if system == "inch" else one.work_metric
    return unit, UNITS[unit][1]


def to_unit(si: _Number, unit: str) -> _Number:
    """Convert SI values to a unit.

    Parameters
    ----------
    si : float or ndarray
        Value [SI unit].
    unit : str
        Any unit :func:`parse` reads.

    Returns
    -------
    float or ndarray
        Value [that unit].

    Raises
    ------
    SurfaceError
        Where nobody knows the unit.
    """
    found = unit_size(unit)
    if found is None:
        message = f'"{unit}" is no unit known here'
        raise SurfaceError(message)
    return si / found[1]


def show_number(value: float, digits: int = 3) -> str:
    """Write a number with so many significant digits and no exponent.

    Parameters
    ----------
    value : float
        Number to write [-].
    digits : int
        Significant digits.

    Returns
    -------
    str
        The number.

    Raises
    ------
    SurfaceError
        Where it is no finite number.

    Examples
    --------
    >>> show_number(1250.4), show_number(0.0199), show_number(-0.0)
    ('1250', '0.0199', '0')
    """
    if not math.isfinite(value):
        message = f"{value} cannot be shown: it is no number"
        raise SurfaceError(message)
    if value == 0.0:
        return "0"
    rounded = float(f"{value:.{digits - 1}e}")
    places = max(0, digits - 1 - math.floor(math.log10(abs(rounded))))
    return f"{value:z.{places}f}"


def show(si: float, quantity: str, system: System = "metric", digits: int = 3) -> str:
    """Show an SI value with its unit.

    Parameters
    ----------
    si : float
        Value [SI unit of the quantity].
    quantity : str
        A name of :func:`quantity_names`.
    system : {"metric", "inch"}
        Units wanted.
    digits : int
        Significant digits.

    Returns
    -------
    str
        Number and unit.

    Examples
    --------
    >>> show(0.00063, "length"), show(0.00063, "length", "inch"), show(475.2, "force")
    ('0.630 mm', '0.0248 in', '475 N')
    """
    unit = unit_of(quantity, system)
    return f"{show_number(si / UNITS[unit][1], digits)} {unit}".rstrip()


def as_quantity(si: Any, quantity: str, system: System = "metric") -> Any:
    """Give an SI value as a pint quantity in the unit it is shown in.

    Parameters
    ----------
    si : float or ndarray
        Value [SI unit of the quantity].
    quantity : str
        A name of :func:`quantity_names`.
    system : {"metric", "inch"}
        Units wanted.

    Returns
    -------
    pint.Quantity
        The same value.
    """
    unit = unit_of(quantity, system)
    text = re.sub(r"(?<=[a-z])([2-4])", r"**\1", unit).replace(" ", "*").replace("psf", "lbf/ft**2")
    return registry().Quantity(si / UNITS[unit][1], text)
