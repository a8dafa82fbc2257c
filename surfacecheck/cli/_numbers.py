"""Numbers of options: with their unit, or bare in the unit the command names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.errors import Fault, SurfaceError

if TYPE_CHECKING:
    from surfacecheck.quantities import System

__all__ = ["bare_length", "number_of"]


def number_of(text: str, option: str, quantity: str, unit: str = "") -> float:
    """Read a number of an option; a bare one is in the unit given, or refused where none is given.

    Parameters
    ----------
    text : str
        As typed.
    option : str
        Name of the option, for the message.
    quantity, unit : str
        What is meant, and the unit of a bare number, if one may be bare.

    Returns
    -------
    float
        [SI unit of the quantity].

    Raises
    ------
    SurfaceError
        Where it is no such number, with the option.
    """
    from surfacecheck.quantities import parse, split

    try:
        return parse(text if not unit or split(text)[1] else f"{text} {unit}", quantity)[0]
    except SurfaceError as error:
        raise SurfaceError(Fault(str(error), key=f"--{option.replace('_', '-')}")) from error


def bare_length(system: System) -> str:
    """Give the unit of a length without one."""
    return "in" if system == "inch" else "mm"
