"""The metal of a part and the strength of a rivet: from the builder's file, else from the shipped tables."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.library._materials import Material, material
from surfacecheck.library._rivets import rivets
from surfacecheck.model import RivetSet
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value, numbers, plain

if TYPE_CHECKING:
    from surfacecheck.model import Alloy, Rivet, Surface

__all__ = ["SAME_SIZE", "by_handbook", "metal_of", "rivet_strength"]

ALUMINIUM_POISSON = 0.33
SAME_SIZE = 0.02
"""Share by which a typed diameter may miss the table's and still be that rivet (1/8 in is 3.175 mm, sold as 3.2)."""

NOT_NAMED = Material(
    name="metal not given",
    tension=UNKNOWN,
    tension_yield=UNKNOWN,
    compression_yield=UNKNOWN,
    shear=UNKNOWN,
    bearing_15=UNKNOWN,
    bearing_20=UNKNOWN,
    bearing_yield_15=UNKNOWN,
    bearing_yield_20=UNKNOWN,
    modulus=UNKNOWN,
    modulus_compression=UNKNOWN,
    shear_modulus=UNKNOWN,
    poisson=UNKNOWN,
    density=UNKNOWN,
)


@lru_cache(maxsize=256)
def _table(name: str, thickness: float | None) -> Material:
    return material(name, thickness)


@lru_cache(maxsize=256)
def _table_of_stack(name: str, thicknesses: bytes) -> Material:
    """Look a stack up once, by what is in it: a sheet is asked for its metal some fifty times."""
    return material(name, np.frombuffer(thicknesses))


def _own(alloy: Alloy, name: str) -> Material:
    """Make a metal of the builder's own lines, with G from E."""
    where = Source(alloy.stiffness.source.basis, alloy.where_from) if alloy.where_from else alloy.stiffness.source
    shear_modulus = UNKNOWN
    if alloy.stiffness.known:
        text = f"G = E / (2 (1 + {ALUMINIUM_POISSON}))"
        G = numbers(alloy.stiffness) / (2.0 * (1.0 + ALUMINIUM_POISSON))
        shear_modulus = Value(G if G.ndim else float(G), "", Source(Basis.WORKED_OUT, text))

    def sourced(value: Value) -> Value:
        return value if value.source.basis is not Basis.NOT_SAID else replace(value, source=where)

    return replace(
        NOT_NAMED,
        name=name,
        tension=sourced(alloy.tension),
        tension_yield=sourced(alloy.yield_),
        shear=sourced(alloy.shear),
        compression_yield=sourced(alloy.compression_yield if alloy.compression_yield.known else alloy.yield_),
        bearing_20=sourced(alloy.crushing),
        bearing_yield_20=sourced(alloy.crushing_yield),
        modulus=sourced(alloy.stiffness),
        modulus_compression=sourced(alloy.stiffness),
        shear_modulus=sourced(shear_modulus),
        density=sourced(alloy.density),
        poisson=Value(ALUMINIUM_POISSON, "", Source(Basis.ASSUMED, "as aluminium alloys")),
    )


def metal_of(surface: Surface, name: str, thickness: Value = UNKNOWN) -> Material:
    """Give the metal of a part.

    Parameters
    ----------
    surface : Surface
        For metals of its own.
    name : str
        Alloy as typed; ``"?"`` or empty is not known.
    thickness : Value
        Of the sheet, for the row of the table [m].

    Returns
    -------
    Material
        Properties; unknown ones have no ``si``.

    Raises
    ------
    SurfaceError
        For a name that neither the file nor the tables have.
    """
    if name in {"", "?"}:
        return NOT_NAMED
    if name in surface.alloys:
        return _own(surface.alloys[name], name)
    if not thickness.known or thickness.absent:
        return _table(name, None)
    t = numbers(thickness)
    return _table_of_stack(name, t.tobytes()) if t.ndim else _table(name, float(t))


@lru_cache(maxsize=128)
def _solid(alloy: str, diameter: float) -> tuple[Value, Value]:
    for one in rivets().values():
        same = one.diameter.known and abs(plain(one.diameter) / diameter - 1.0) < SAME_SIZE
        if one.set == "solid" and same and alloy and (alloy in one.alloy or one.name.split()[0] == alloy):
            return one.shear, one.pull
    return UNKNOWN, UNKNOWN


def rivet_strength(surface: Surface, rivet: Rivet) -> tuple[Value, Value]:
    """Give what one rivet carries: its data sheet, or the handbook for a solid rivet.

    Parameters
    ----------
    surface : Surface
        Any: nothing of it is read.
    rivet : Rivet
        From the file.

    Returns
    -------
    tuple of (Value, Value)
        Shear and pull strength of one rivet [N]; unknown for a pulled rivet without a data sheet.

    Notes
    -----
    A pulled rivet has no strength without a source; nothing is filled in for it.
    """
    shear, pull = rivet.shear, rivet.pull
    if rivet.set is RivetSet.SOLID and rivet.diameter.known and not shear.known:
        shear, table_pull = _solid(rivet.alloy, float(np.min(numbers(rivet.diameter))))
        pull = pull if pull.known else table_pull
    named = {"shear": shear, "pull": pull}
    shear, pull = (v if v.key else replace(v, key=f"rivet.{rivet.name}.{k}") for k, v in named.items())
    return shear, pull


@lru_cache(maxsize=1)
def _handbook() -> frozenset[Source]:
    """Give the sources from which the shipped table has the shear of its solid rivets."""
    return frozenset(one.shear.source for one in rivets().values() if one.set == "solid" and one.shear.known)


def by_handbook(surface: Surface, rivet: Rivet) -> bool:
    """Tell whether what a rivet carries in shear is the handbook's value for a solid rivet.

    Parameters
    ----------
    surface : Surface
        Any; kept for metals of its own.
    rivet : Rivet
        Of the file, or of the shipped table.

    Returns
    -------
    bool
        Not for a figure typed into the file, a pulled rivet, or a strength that nobody has given.
    """
    if rivet.set is not RivetSet.SOLID:
        return False
    shear, _ = rivet_strength(surface, rivet)
    return shear.known and shear.source in _handbook()
