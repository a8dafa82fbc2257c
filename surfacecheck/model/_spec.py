"""What each key of the file means: kept on the field itself, read by the reader, the schema and ``new``."""

from __future__ import annotations

from dataclasses import MISSING, Field, dataclass, field, fields
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from surfacecheck.provenance import UNKNOWN

if TYPE_CHECKING:
    from enum import StrEnum

__all__ = [
    "Spec",
    "counted",
    "measure",
    "measure_map",
    "measures",
    "number",
    "part",
    "part_list",
    "spec_of",
    "specs",
    "text",
    "texts",
    "word",
    "words",
]

Kind = Literal[
    "measure",
    "measures",
    "measure_map",
    "word",
    "words",
    "count",
    "text",
    "texts",
    "part",
    "part_list",
    "leaves",
    "moves",
    "shape",
]


@dataclass(frozen=True, slots=True)
class Spec:
    """What one key may hold.

    Attributes
    ----------
    kind : str
        The shape of the answer (``measure`` is one number with its unit, ``measures`` a list of them, ...).
    help : str
        The dimension in a builder's words.
    key : str
        The key in the file where it differs from the field's name (``from`` is the field ``start``).
    quantity : str
        Quantity name of :mod:`surfacecheck.quantities`; empty for a bare number.
    also : str
        A second quantity that is taken as well (a scale shows kilograms where a force is meant).
    low, high : float or None
        Usual range in SI units; outside is a remark, ten times outside is an error.
    hint : str
        The unit a message proposes.
    toward : tuple of str
        The word of the positive direction and of its opposite.
    none : bool
        Whether ``"none"`` is an answer here.
    raw : bool
        Whether a text is kept as it stands, brackets and all.
    optional : bool
        Whether leaving the line out is no gap.
    length : int
        Number of entries of a list; 0 for any.
    lone : bool
        Whether a list of one may be written without its brackets.
    each : bool
        Whether words of a list belong to things one by one, so that it tells nothing while one of them is not known.
    enum : type or None
        The words allowed.
    of : type or None
        The dataclass of a table or of its entries.
    """

    kind: Kind
    help: str = ""
    key: str = ""
    quantity: str = ""
    also: str = ""
    low: float | None = None
    high: float | None = None
    hint: str = ""
    toward: tuple[str, ...] = ()
    none: bool = False
    raw: bool = False
    optional: bool = False
    length: int = 0
    lone: bool = False
    each: bool = False
    enum: type[StrEnum] | None = None
    of: type[Any] | None = None


def _held(spec: Spec, default: Any = MISSING, factory: Any = MISSING) -> Any:
    if factory is not MISSING:
        return field(default_factory=factory, metadata={"spec": spec})
    return field(default=default, metadata={"spec": spec})


def measure(quantity: str, help: str, **more: Any) -> Any:
    """Declare a number with its unit; unknown until given."""
    return _held(Spec("measure", help, quantity=quantity, **more), UNKNOWN)


def measures(quantity: str, help: str, **more: Any) -> Any:
    """Declare a list of numbers with units; an empty tuple until given."""
    return _held(Spec("measures", help, quantity=quantity, **more), ())


def measure_map(quantity: str, help: str, **more: Any) -> Any:
    """Declare a table from the name of a part to a number with its unit."""
    return _held(Spec("measure_map", help, quantity=quantity, **more), factory=dict)


def word(enum: type[StrEnum], help: str, default: Any = None, **more: Any) -> Any:
    """Declare one word out of a few; None until given."""
    return _held(Spec("word", help, enum=enum, **more), default)


def words(enum: type[StrEnum], help: str, **more: Any) -> Any:
    """Declare a list of words out of a few; an empty tuple until given."""
    return _held(Spec("words", help, enum=enum, **more), ())


def number(help: str, low: int = 1, high: int = 1000, **more: Any) -> Any:
    """Declare a bare whole number; None until given."""
    return _held(Spec("count", help, low=low, high=high, **more), None)


def text(help: str, **more: Any) -> Any:
    """Declare free words; an empty text until given."""
    return _held(Spec("text", help, **more), "")


def texts(help: str, **more: Any) -> Any:
    """Declare a list of free words; an empty tuple until given."""
    return _held(Spec("texts", help, **more), ())


def part(of: type[Any], help: str, **more: Any) -> Any:
    """Declare a table; the part with nothing known until given, None where it is optional."""
    spec = Spec("part", help, of=of, **more)
    return _held(spec, None) if spec.optional else _held(spec, factory=of)


def part_list(of: type[Any], help: str, default: Any = None, **more: Any) -> Any:
    """Declare a list of tables; None until given, empty for ``"none"``."""
    return _held(Spec("part_list", help, of=of, **more), default)


def counted(kind: Kind, help: str, default: Any = None, **more: Any) -> Any:
    """Declare a key with a form of its own (``leaves`` of the horn, ``moves`` of the fin)."""
    return _held(Spec(kind, help, **more), default)


def spec_of(one: Field[Any]) -> Spec | None:
    """Give the specification a field carries, or None for a field that is not a key of the file."""
    return one.metadata.get("spec")


@cache
def specs(cls: type[Any]) -> dict[str, tuple[str, Spec]]:
    """List the keys of a table.

    Parameters
    ----------
    cls : type
        A dataclass of the model.

    Returns
    -------
    dict of str to (str, Spec)
        Key of the file to the name of the field and its specification, in the file's order.
    """
    found = ((one, spec_of(one)) for one in fields(cls))
    return {spec.key or one.name: (one.name, spec) for one, spec in found if spec is not None}
