"""Sheet metals, every property with its source."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.library._read import entry, known_keys, nearest, source, table
from surfacecheck.provenance import Value

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["Material", "material", "materials"]

_FILE = "materials.toml"
_INCH = 0.0254
_SLACK = 1e-9  # metres: a thickness typed in millimetres may miss the inch value by rounding


@dataclass(frozen=True, slots=True, eq=False)
class Material:
    """A sheet metal; a property that no table gives is unknown (``si`` is None).

    Attributes
    ----------
    name : str
        Alloy and temper.
    tension, tension_yield, compression_yield, shear : Value
        F_tu, F_ty, F_cy, F_su [Pa].
    bearing_15, bearing_20 : Value
        F_bru at e/D 1.5 and 2.0 [Pa].
    bearing_yield_15, bearing_yield_20 : Value
        F_bry at e/D 1.5 and 2.0 [Pa].
    modulus, modulus_compression, shear_modulus : Value
        E, E_c, G [Pa]; the tables give G by itself, it need not equal E/(2(1 + nu)).
    poisson : Value
        Poisson's ratio [-].
    density : Value
        Density [kg/m^3].
    thickness_range : tuple of float, or None
        Least and greatest thickness the row holds for [m]; None where the table is quoted without one.
    remark : str
        What a reader must know: outside the range, thickness not given.
    """

    name: str
    tension: Value
    tension_yield: Value
    compression_yield: Value
    shear: Value
    bearing_15: Value
    bearing_20: Value
    bearing_yield_15: Value
    bearing_yield_20: Value
    modulus: Value
    modulus_compression: Value
    shear_modulus: Value
    poisson: Value
    density: Value
    thickness_range: tuple[float, float] | None = None
    remark: str = ""

    @property
    def values(self) -> dict[str, Value]:
        """Every property by name."""
        return {f.name: getattr(self, f.name) for f in fields(self) if isinstance(getattr(self, f.name), Value)}


_PROPERTIES = tuple(f.name for f in fields(Material) if f.name not in {"name", "thickness_range", "remark"})
_KEYS = (*_PROPERTIES, "name", "also", "thickness")


def _row(row: dict[str, Any], sources: dict[str, Any]) -> Material:
    known_keys(row, _KEYS, row["name"])
    span = row.get("thickness")
    values: dict[str, Any] = {key: entry(row.get(key), sources, f"{row['name']}.{key}") for key in _PROPERTIES}
    if span is not None:
        source(
            span.get("from"), sources, f"{row['name']}.thickness"
        )  # a range without a source is a fault of the table
    low_high = None if span is None else (span["in"][0] * _INCH, span["in"][1] * _INCH)
    return Material(name=row["name"], thickness_range=low_high, **values)


@cache
def _rows() -> dict[str, list[Material]]:
    data = table(_FILE)
    found: dict[str, list[Material]] = {}
    for row in data["material"]:
        found.setdefault(row["name"], []).append(_row(row, data["source"]))
    return found


@cache
def _also() -> dict[str, str]:
    rows = table(_FILE)["material"]
    return {word.casefold(): row["name"] for row in rows for word in (row["name"], *row.get("also", ()))}


def _least(rows: list[Material]) -> Material:
    """Take the lowest of each property over the thickness ranges."""

    def size(row: Material, key: str) -> float:
        si = row.values[key].si
        return float("inf") if si is None else float(si)

    best: dict[str, Any] = {key: min(rows, key=lambda row: size(row, key)).values[key] for key in _PROPERTIES}
    return replace(rows[0], thickness_range=None, remark="thickness not given: the lowest of all ranges", **best)


def _remark(name: str, rows: list[Material], thickness: NDArray[np.float64]) -> str:
    """Say where a thickness, or one of a stack, lies outside what the table holds."""
    first, last = rows[0].thickness_range, rows[-1].thickness_range
    if first is None or last is None:
        return ""
    low, high = first[0], last[1]
    shown = f"{low * 1e3:.2f} to {high * 1e3:.2f} mm ({low / _INCH:.3f} to {high / _INCH:.3f} in)"
    found = []
    if np.any(thickness < low - _SLACK):
        found.append(f"thinner than the table of {name}, {shown}: its thinnest row is used")
    if np.any(thickness > high + _SLACK):
        found.append(f"thicker than the table of {name}, {shown}: its thickest row is used")
    return "; ".join(found)


def _taken(rows: list[Material], which: NDArray[np.intp]) -> Material:
    """Gather a stack: each property an array over the stack where its rows differ."""

    def gather(key: str) -> Value:
        cells = [row.values[key] for row in rows]
        if len({cell.si for cell in cells}) == 1 or any(cell.si is None for cell in cells):
            return next((cell for cell in cells if cell.si is None), cells[0])
        array = np.array([cell.si for cell in cells], dtype=np.float64)[which]
        return replace(cells[0], si=array, said=" or ".join(cell.said for cell in cells) + ", by thickness")

    gathered: dict[str, Any] = {key: gather(key) for key in _PROPERTIES}
    return replace(rows[0], thickness_range=None, **gathered)


def materials() -> dict[str, Material]:
    """Give every shipped metal, by name; where there are several thickness ranges, the lowest of each value.

    Returns
    -------
    dict of str to Material
        The metals.

    References
    ----------
    Each value names its own, in ``materials.toml``.

    Examples
    --------
    >>> list(materials())[:3]
    ['6061-T6', '6061-T4', '2024-T3']
    """
    return {name: rows[0] if len(rows) == 1 else _least(rows) for name, rows in _rows().items()}


def material(name: str, thickness: ArrayLike | None = None) -> Material:
    """Give a metal by its name, for a thickness.

    Parameters
    ----------
    name : str
        Alloy and temper, such as ``"6061-T6"``.
    thickness : array_like, optional
        Sheet thickness, or a stack of them [m].

    Returns
    -------
    Material
        Properties for that thickness; without one, the lowest over all ranges. Outside the ranges the nearest row,
        with a remark.

    Raises
    ------
    SurfaceError
        Where the name is unknown, naming the nearest, or the thickness is not above zero.

    References
    ----------
    Each value names its own, in ``materials.toml``.

    Examples
    --------
    >>> m = material("6061-T6", 0.032 * 0.0254)
    >>> m.tension.said, round(m.tension.si / 1e6, 1), str(m.tension.source)
    ('42 ksi', 289.6, 'published: MIL-HDBK-5J (2003), Table 3.6.2.0(b1), as quoted in secondary text; A basis')
    >>> material("6061T6")
    Traceback (most recent call last):
    ...
    surfacecheck.errors.SurfaceError: material "6061T6" is not in the table. Nearest: "6061-T6". Here: ...
    """
    known = _also()
    if name.casefold().strip() not in known:
        raise nearest(name, "material", list(_rows()))
    rows = _rows()[known[name.casefold().strip()]]
    if thickness is None:
        return rows[0] if len(rows) == 1 else _least(rows)
    t = np.asarray(thickness, dtype=np.float64)
    if not np.all(t > 0.0):
        message = f"thickness of {name} is {float(np.min(t)):g} m; it must be above 0: give the bare metal's thickness"
        raise SurfaceError(message)
    tops = np.array([row.thickness_range[1] for row in rows[:-1] if row.thickness_range is not None]) + _SLACK
    which = np.searchsorted(tops, t, side="left")
    used = sorted(set(which.ravel().tolist()))
    chosen = rows[used[0]] if len(used) == 1 else _taken(rows, which)
    return replace(chosen, remark=_remark(name, rows, t))
