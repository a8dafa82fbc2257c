"""The grammar of a number with its unit, and what to say where a text does not follow it."""

from __future__ import annotations

import math
import re

from surfacecheck.errors import SurfaceError
from surfacecheck.quantities._pint import normal, unit_size
from surfacecheck.quantities._show import show_number
from surfacecheck.quantities._table import DIMENSIONS, GRAVITY, UNITS, Quantity, quantity_of

__all__ = ["number_of", "parse", "split", "without_unit"]

_DECIMAL = r"[0-9]+(?:\.[0-9]*)?(?:[eE][+-]?[0-9]+)?|\.[0-9]+"
_TEXT = re.compile(rf"(?P<number>[0-9]+/[0-9]+|[+-]?(?:{_DECIMAL}))(?![0-9.,/])\s*(?P<unit>[^\s0-9.,+#/\-].*)?")

_GAUGE = re.compile(r"[0-9]+\s*(ga|gauge|gage|swg|awg)\.?", re.IGNORECASE)

#: Number drills, in: ASME B94.11M, Twist Drills, sizes from memory.
_DRILLS = {10: 0.1935, 11: 0.1910, 19: 0.1660, 20: 0.1610, 21: 0.1590, 27: 0.1440, 28: 0.1405, 29: 0.1360, 30: 0.1285,
           40: 0.0980}  # fmt: skip


def _a(what: str) -> str:
    return f"{'an' if what[0] in 'aeiou' else 'a'} {what}"


def number_of(text: str) -> float:
    """Read a bare decimal or one fraction.

    Parameters
    ----------
    text : str
        Such as ``"0.5"`` or ``"9/8"``.

    Returns
    -------
    float
        The number [-].

    Raises
    ------
    SurfaceError
        Where it divides by zero or is too large.

    Examples
    --------
    >>> number_of("9/8"), number_of("0.5")
    (1.125, 0.5)
    """
    upper, slash, lower = text.partition("/")
    if slash and not float(lower):
        message = f'"{text}" divides by zero'
        raise SurfaceError(message)
    value = float(upper) / float(lower) if slash else float(upper)
    if not math.isfinite(value):
        message = f'"{text[:20]}" is too large a number'
        raise SurfaceError(message)
    return value


def split(text: str, like: str = "0.63 mm") -> tuple[str, str]:
    """Split a text into its number and its unit.

    Parameters
    ----------
    text : str
        Such as ``"0.63 mm"``.
    like : str
        An example of what is asked, for the message.

    Returns
    -------
    tuple of str
        Number and unit as typed; the unit may be empty.

    Raises
    ------
    SurfaceError
        With what to write, for a comma, two numbers, a drill, a gauge, a minus, or no number at all.

    Examples
    --------
    >>> split("9/8 in")
    ('9/8', 'in')
    >>> split("0,5 mm")
    Traceback (most recent call last):
    ...
    surfacecheck.errors.SurfaceError: "0,5 mm" has a comma. Write "0.5 mm".
    """
    text = text.strip()
    found = _TEXT.fullmatch(text) if len(text) <= 120 and not _GAUGE.fullmatch(text) else None
    if found is None:
        raise SurfaceError(_why_not(text, like))
    return found["number"], found["unit"] or ""


def _why_not(text: str, like: str) -> str:
    shown = text if len(text) <= 40 else text[:37] + "..."
    if drill := re.fullmatch(r"#\s*([0-9]{1,2})(\s*drill)?", text):
        size = _DRILLS.get(int(drill[1]))
        told = (
            f': #{drill[1]} is "{size * 25.4:.2f} mm" or "{size:.4f} in"'
            if size
            else '. Write its size in "mm" or "in"'
        )
        return f'"{shown}" is a drill, not a length{told}.'
    if _GAUGE.fullmatch(text):
        return f'"{shown}" is a gauge number, not a length; it differs from metal to metal. Measure it: "0.63 mm".'
    if two := re.fullmatch(r"([0-9]+)[ -]([0-9]+)/([0-9]+)\s*(\D*)", text):
        whole, upper, lower = int(two[1]), int(two[2]), int(two[3])
        if lower:
            rest = f" {two[4]}" if two[4] else ""
            decimal = f"{whole + upper / lower:.6g}"
            return f'"{shown}" is two numbers. Write "{decimal}{rest}" or "{whole * lower + upper}/{lower}{rest}".'
    if re.match(r"[+-]?[0-9]+,[0-9]", text):
        point = text.replace(",", ".", 1)
        thousands = re.match(r"[1-9][0-9]{0,2},[0-9]{3}(?![0-9])", text)
        return f'"{shown}" has a comma. Write "{point}"' + (f' or "{text.replace(",", "")}".' if thousands else ".")
    if re.match(r"[−–—‐‑-]\s*[0-9]", text):
        return f'"{shown}" has a minus. A place on the other side gets its word: "8 mm ahead".'
    if re.match(r"[0-9.]+\s*(-|–|to|\.\.)\s*[0-9]", text):
        return f'"{shown}" is two numbers. Write one, the one you would trust.'
    return f'"{shown}" does not begin with one plain number. Write it like "{like}".'


def without_unit(number: str, quantity: str) -> str:
    """Tell how a number without a unit should be written.

    Parameters
    ----------
    number : str
        As typed.
    quantity : str
        What is asked: a name of :func:`quantity_names`.

    Returns
    -------
    str
        A sentence with two examples.

    Examples
    --------
    >>> without_unit("0.5", "length")
    '0.5 has no unit. Write "0.5 mm" or "0.020 in", with quotes.'
    """
    one = quantity_of(quantity)
    if not one.metric:
        return f'{number} is a plain number: write it in quotes, "{number}".'
    if "/" in number and one.inch != one.metric:  # fractions are written of inches
        return f'{number} has no unit. Write "{number} {one.inch}", with quotes.'
    si = number_of(number) * UNITS[one.metric][1]
    other = show_number(si / UNITS[one.inch][1], 2)
    inch = f' or "{other} {one.inch}"' if one.inch != one.metric else ""
    return f'{number} has no unit. Write "{number} {one.metric}"{inch}, with quotes.'


def parse(text: str, quantity: str) -> tuple[float, str]:
    """Read a number with its unit.

    Parameters
    ----------
    text : str
        Such as ``"0.63 mm"``; one decimal or one fraction with a dot, then a unit.
    quantity : str
        What is asked: a name of :func:`quantity_names`.

    Returns
    -------
    tuple of (float, str)
        The value [SI unit of the quantity], and the unit as typed.

    Raises
    ------
    SurfaceError
        With what to write instead.

    Examples
    --------
    >>> parse("0.025 in", "length")
    (0.000635, 'in')
    >>> parse("150 lb", "force")
    Traceback (most recent call last):
    ...
    surfacecheck.errors.SurfaceError: "150 lb" is a mass; a force is asked. Write "150 lbf" (or "667 N").
    """
    asked = quantity_of(quantity)
    like = "0.63 mm" if asked.metric == "mm" else f"12 {asked.metric}".strip()
    number, typed = split(text, like)
    value = number_of(number)
    unit = normal(typed)
    if not unit and asked.measures != "number":
        raise SurfaceError(without_unit(number, quantity))
    if unit == "mil":
        message = f'"{text}": a mil is read in two ways. Write "{show_number(value / 1000, 3)} in".'
        raise SurfaceError(message)
    found = unit_size(unit)
    same = [one for one, (what, _) in UNITS.items() if one and what == asked.measures]
    near = [one for one in same if one.casefold() == unit.casefold()]
    if near and unit not in UNITS:
        message = f'"{unit}" is no unit here. Did you mean "{number} {near[0]}"?'
        raise SurfaceError(message)
    if found is None and unit.count("(") > unit.count(")"):
        message = f'a bracket is opened and not closed: "{text[:40]}". Write the ")" before the last quote.'
        raise SurfaceError(message)
    if found is None:
        message = f'"{unit[:20]}" is no unit known here. {_a(asked.measures).capitalize()} is asked, such as'
        message += f' "{number} {asked.metric}" or "{number} {asked.inch}".' if asked.metric else f' "{number}".'
        raise SurfaceError(message)
    dimension, factor = found
    if dimension != DIMENSIONS[asked.measures]:
        raise SurfaceError(_wrong(text.strip(), number, unit, value * factor, dimension, asked))
    if not math.isfinite(value * factor):
        message = f'"{text[:20]}" is too large a number'
        raise SurfaceError(message)
    return value * factor, typed


def _wrong(text: str, number: str, unit: str, si: float, dimension: tuple[int, ...], asked: Quantity) -> str:
    names = [name for name, one in DIMENSIONS.items() if one == dimension]
    found = f"is {_a(names[0])}" if names and names[0] != "number" else "is something else"
    message = f'"{text}" {found}; {_a(asked.measures)} is asked.'
    if asked.measures == "number":
        return f'{message} Write "{number}".'
    if asked.measures == "force" and names == ["mass"]:
        newton = show_number(si * GRAVITY, 3)
        pounds = f'"{number} lbf" (or "{newton} N")' if unit in {"lb", "lbs"} else f'"{newton} N"'
        return f"{message} Write {pounds}."
    if asked.measures == "pressure" and unit in {"lb/in2", "lb/ft2"}:
        return f'{message} Write "{number} {"psi" if unit == "lb/in2" else "psf"}".'
    return f'{message} Write it in "{asked.metric}" or "{asked.inch}".'
