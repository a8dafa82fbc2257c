"""Where a value comes from: no number in the package goes without it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["UNKNOWN", "Basis", "Source", "Value"]


class Basis(StrEnum):
    """How a value is known."""

    PUBLISHED = "published"
    COMMON_PRACTICE = "common practice"
    FROM_MEMORY = "from memory"
    INVENTED = "invented for the demo"
    MEASURED = "measured"
    DRAWING = "drawing"
    GUESS = "guess"
    AS_SAID = "as said"
    NOT_SAID = "not said"
    ASSUMED = "assumed"
    WORKED_OUT = "worked out"


@dataclass(frozen=True, slots=True)
class Source:
    """A basis, and the title, table, instrument or words that go with it.

    Examples
    --------
    >>> str(Source(Basis.MEASURED, "micrometer"))
    'measured: micrometer'
    """

    basis: Basis
    text: str = ""

    def __str__(self) -> str:
        return f"{self.basis}: {self.text}" if self.text else str(self.basis)

    @property
    def doubtful(self) -> bool:
        """Whether a reader should be told that this may be wrong."""
        return self.basis in {Basis.GUESS, Basis.NOT_SAID, Basis.FROM_MEMORY}


@dataclass(frozen=True, slots=True, eq=False)
class Value:
    """A number as the builder gave it, or the mark that it is not known.

    Attributes
    ----------
    si : float, ndarray or None
        The value in SI units (an array is a stack of variants); None is "not known yet".
    said : str
        The text as typed, with its unit.
    source : Source
        How it is known.
    key : str
        Path of the key it came from, such as ``sheet.left_skin.thickness``.
    absent : bool
        True for ``"none"``: looked for and not there (``si`` is then 0 or None, as the key says).
    """

    si: float | NDArray[np.float64] | None
    said: str = ""
    source: Source = Source(Basis.NOT_SAID)
    key: str = ""
    absent: bool = False

    @property
    def known(self) -> bool:
        """Whether there is a number."""
        return self.si is not None


UNKNOWN = Value(None, "?")
"""A value nobody has given."""
