"""Rivets by their standard, every value with its source."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any, Literal

from surfacecheck.library._read import entry, known_keys, nearest, source, table
from surfacecheck.provenance import Source, Value

__all__ = ["Grip", "RivetType", "rivet_type", "rivets"]

_FILE = "rivets.toml"


@dataclass(frozen=True, slots=True)
class Grip:
    """Which stack a rivet of one length is meant for.

    Attributes
    ----------
    length : float
        Body length [m].
    least, most : float
        Stack it grips [m].
    """

    length: float
    least: float
    most: float


@dataclass(frozen=True, slots=True, eq=False)
class RivetType:
    """A rivet of one standard and size; what no table gives is unknown (``si`` is None).

    Attributes
    ----------
    name : str
        Such as ``"AD 1/8 in"`` or ``"ISO 15977 H 4 mm"``.
    set : str
        ``"solid"`` or ``"pulled"``.
    head_kind : str
        ``"protruding"`` or ``"countersunk"``.
    alloy : str
        Metal of the body (and the mandrel).
    diameter : Value
        Nominal diameter [m].
    hole : Value
        Listed hole, on which a solid rivet shears [m].
    hole_least, hole_most : Value
        Hole it may be set in [m].
    head : Value
        Head diameter, the least where the standard gives a range [m].
    shear, pull : Value
        Ultimate shear and tension load of one rivet, one plane [N].
    shear_stress : Value
        F_su of the driven rivet (solid) [Pa].
    modulus : Value
        E of the body [Pa].
    density, mandrel_density : Value
        Of body and mandrel [kg/m^3].
    mandrel : Value
        Mandrel diameter [m].
    grips : tuple of Grip
        Published grip ranges; empty where none is published.
    grips_source : Source or None
        Where they come from.
    """

    name: str
    set: Literal["solid", "pulled"]
    head_kind: str
    alloy: str
    diameter: Value
    hole: Value
    hole_least: Value
    hole_most: Value
    head: Value
    shear: Value
    pull: Value
    shear_stress: Value
    modulus: Value
    density: Value
    mandrel: Value
    mandrel_density: Value
    grips: tuple[Grip, ...] = ()
    grips_source: Source | None = None

    @property
    def values(self) -> dict[str, Value]:
        """Every property by name."""
        return {f.name: getattr(self, f.name) for f in fields(self) if isinstance(getattr(self, f.name), Value)}


_PROPERTIES = tuple(
    f.name for f in fields(RivetType) if f.name not in {"name", "set", "head_kind", "alloy", "grips", "grips_source"}
)
_KEYS = (*_PROPERTIES, "name", "also", "set", "head_kind", "alloy", "grips", "grips_from")


def _type(row: dict[str, Any], sources: dict[str, Any]) -> RivetType:
    known_keys(row, _KEYS, row["name"])
    grips = tuple(Grip(*(g[k] * 1e-3 for k in ("length", "least", "most"))) for g in row.get("grips", ()))
    return RivetType(
        name=row["name"],
        set=row["set"],
        head_kind=row["head_kind"],
        alloy=row["alloy"],
        grips=grips,
        grips_source=source(row.get("grips_from"), sources, f"{row['name']}.grips_from") if grips else None,
        **{key: entry(row.get(key), sources, f"{row['name']}.{key}") for key in _PROPERTIES},
    )


def rivets() -> dict[str, RivetType]:
    """Give every shipped rivet, by name.

    Returns
    -------
    dict of str to RivetType
        The rivets.

    References
    ----------
    Each value names its own, in ``rivets.toml``.

    Examples
    --------
    >>> list(rivets())[:4]
    ['AD 3/32 in', 'AD 1/8 in', 'AD 5/32 in', 'AD 3/16 in']
    """
    data = table(_FILE)
    return {row["name"]: _type(row, data["source"]) for row in data["rivet"]}


def rivet_type(name: str) -> RivetType:
    """Give a rivet by its name.

    Parameters
    ----------
    name : str
        Such as ``"AD 5/32"`` or ``"ISO 15977 H 4 mm"``.

    Returns
    -------
    RivetType
        The rivet.

    Raises
    ------
    SurfaceError
        Where the name is unknown, naming the nearest.

    References
    ----------
    Each value names its own, in ``rivets.toml``.

    Examples
    --------
    >>> r = rivet_type("AD 5/32")
    >>> r.shear.said, round(r.shear.si, 1), str(r.shear.source)
    ('596 lbf', 2651.1, 'published: MMPDS-09, Table 8.1.2(b), as quoted in secondary text')
    """
    data = table(_FILE)
    for row in data["rivet"]:
        if name.casefold().strip() in {word.casefold() for word in (row["name"], *row.get("also", ()))}:
            return _type(row, data["source"])
    raise nearest(name, "rivet", [row["name"] for row in data["rivet"]])
