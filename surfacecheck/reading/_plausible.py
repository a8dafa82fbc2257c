"""Values far from what is usual: a remark, and an error ten times outside.

The ranges stand on the fields of the model. They are for two-seat light aeroplanes and catch a wrong unit; they are
no limits of any method (common practice, and from memory).
"""

from __future__ import annotations

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Spec
from surfacecheck.provenance import Value
from surfacecheck.quantities import parse, show_number, system_of, to_unit, unit_of
from surfacecheck.reading._context import Context
from surfacecheck.reading._usual import usual_range

__all__ = ["judged"]

_SLIPS = {
    "length": ("mm", "in", "cm", "m", "ft", "thou"),
    "force": ("N", "lbf", "kN"),
    "pressure": ("kPa", "Pa", "psf", "psi"),
    "stress": ("MPa", "N/mm2", "GPa", "psi", "ksi"),
    "mass": ("g", "kg", "lb", "oz"),
    "speed": ("knots", "m/s", "km/h", "mph"),
    "angle": ("deg", "rad"),
    "compliance": ("mm/kN", "mm/N", "in/lbf"),
    "area": ("m2", "ft2"),
    "bending_stiffness": ("N m2", "kN m2", "lbf in2"),
    "density": ("kg/m3", "g/cm3", "lb/in3"),
}


def judged(value: Value, unit: str, spec: Spec, context: Context) -> None:
    """Remark on a value outside the usual range; refuse one ten times outside.

    Parameters
    ----------
    value : Value
        As read.
    unit : str
        Its unit as typed.
    spec : Spec
        What is asked, with the usual range.
    context : Context
        Takes the remark.

    Raises
    ------
    SurfaceError
        Ten times outside.
    """
    if spec.low is None or spec.high is None or value.si is None or _other_quantity(unit, spec):
        return
    low, high, si = spec.low, spec.high, float(value.si)
    if low <= si <= high:
        return
    if low > 0 and si == 0:
        message = f'"{value.said}" is nothing: write '
        raise SurfaceError(message + ('"none" if there is none.' if spec.none else '"?" if it is not known yet.'))
    reach = max(abs(low), abs(high))
    if abs(si) > 10 * reach or (low > 0 and si < low / 10):
        raise SurfaceError(_refusal(value, unit, spec))
    context.remarks.append(f"{value.key} is {value.said}; {_usual(spec, unit)}.")


def _other_quantity(unit: str, spec: Spec) -> bool:
    if not spec.also or spec.also == "mass":
        return False
    try:
        parse(f"1 {unit}", spec.quantity)
    except SurfaceError:
        return True
    return False


def _shown_in(spec: Spec, unit: str) -> str:
    if unit and system_of(unit) == "inch":
        return unit_of(spec.quantity, "inch")
    return spec.hint or unit_of(spec.quantity)


def _thing(spec: Spec) -> str:
    return "sheet" if spec.help.startswith("bare metal") else "it"


def _usual(spec: Spec, unit: str) -> str:
    shown = _shown_in(spec, unit)
    low, high = usual_range(spec.low or 0.0, spec.high or 0.0, shown)
    return f"{_thing(spec)} is usually {low} to {high} {shown}".rstrip()


def _short(number: str) -> str:
    return number.rstrip("0").rstrip(".") if "." in number else number


def _refusal(value: Value, unit: str, spec: Spec) -> str:
    shown = _shown_in(spec, unit)
    number = abs(to_unit(float(value.si or 0.0), shown)) if shown else abs(float(value.si or 0.0))
    size = show_number(number, 4) if number < 1e7 else f"{number:.1e}"
    noun = " thick" if "thickness" in value.key else ""
    message = f'"{value.said}" is {_short(size)} {shown}'.rstrip() + f"{noun}; {_usual(spec, unit)}."
    figure = value.said.split(" ")[0].removesuffix(unit)
    for other in _SLIPS.get(spec.quantity, ()):
        if other == "thou" and system_of(unit) != "inch":  # nobody who writes mm slips into thousandths of an inch
            continue
        try:
            si = parse(f"{figure} {other}", spec.quantity)[0]
        except SurfaceError:
            continue
        if other != unit and (spec.low or 0.0) <= si <= (spec.high or 0.0):
            return f'{message} Did you mean "{figure} {other}"?'
    return f"{message} Is the unit right?"
