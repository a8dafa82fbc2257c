"""In which order the rivets of a line are pinned and set."""

from __future__ import annotations

from dataclasses import dataclass

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source

__all__ = ["ORDER", "Setting", "setting_order", "setting_source"]

ORDER = Source(
    Basis.COMMON_PRACTICE,
    "pin every second hole and both ends, set from the middle outward; a tight hole is cleaned, not enlarged",
)


@dataclass(frozen=True)
class Setting:
    """In which order the rivets of a line are pinned and set.

    Attributes
    ----------
    pins : tuple of int
        Holes that are pinned first.
    open : tuple of int
        Holes set first, in this order: those without a pin.
    under_pins : tuple of int
        Then each pin is taken out and its hole set, in this order.
    """

    pins: tuple[int, ...]
    open: tuple[int, ...]
    under_pins: tuple[int, ...]


def setting_order(count: int) -> Setting:
    """Give the order of setting of a line.

    Parameters
    ----------
    count : int
        Rivets [-].

    Returns
    -------
    Setting
        Numbers from 1 [-].

    Raises
    ------
    SurfaceError
        For fewer than one rivet.

    References
    ----------
    Common practice.

    Examples
    --------
    >>> setting_order(7)
    Setting(pins=(1, 3, 5, 7), open=(4, 2, 6), under_pins=(3, 5, 1, 7))
    """
    if count < 1:
        message = f"{count} rivets: a line has at least one"
        raise SurfaceError(message)
    pins = sorted({*range(1, count + 1, 2), count})
    middle = 0.5 * (count + 1)

    def outward(holes: list[int]) -> tuple[int, ...]:
        return tuple(sorted(holes, key=lambda one: (abs(one - middle), one)))

    return Setting(tuple(pins), outward([one for one in range(1, count + 1) if one not in pins]), outward(pins))


def setting_source() -> str:
    """Say by what the order of setting is given."""
    return str(ORDER)
