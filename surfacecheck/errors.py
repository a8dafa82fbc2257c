"""The one error type, with every fault named by its place."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Fault", "SurfaceError"]


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong, where, and what to do about it.

    Attributes
    ----------
    message : str
        What was found and what is allowed, in a builder's words.
    file : str
        Name of the file, or empty where there is none.
    line : int
        Line in the file, counted from 1; 0 where it is not known.
    key : str
        Path of the key, such as ``sheet.left_skin.thickness``; may be empty.
    """

    message: str
    file: str = ""
    line: int = 0
    key: str = ""

    def __str__(self) -> str:
        """Give file, line, key and message in one line."""
        place = [part for part in (self.file, f"line {self.line}" if self.line else "", self.key) if part]
        return f"{', '.join(place)}: {self.message}" if place else self.message


class SurfaceError(ValueError):
    """Raised for anything the package cannot work with; carries its faults.

    Parameters
    ----------
    *faults : Fault or str
        What is wrong; a bare text becomes a fault without a place.

    Examples
    --------
    >>> raise SurfaceError("one hinge holds nothing sideways: give at least two")
    Traceback (most recent call last):
    ...
    surfacecheck.errors.SurfaceError: one hinge holds nothing sideways: give at least two
    """

    def __init__(self, *faults: Fault | str) -> None:
        self.faults: tuple[Fault, ...] = tuple(f if isinstance(f, Fault) else Fault(f) for f in faults)
        super().__init__(*self.faults)

    def __str__(self) -> str:
        """Give every fault on a line of its own."""
        return "\n".join(str(fault) for fault in self.faults)
