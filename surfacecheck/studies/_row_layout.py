"""Where the rivets of a row on its own sit: spread evenly, or in the holes that are there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.checks import spread

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["layouts"]


def layouts(
    pitches: tuple[float, ...], length: float | None, drilled: float | None
) -> Iterator[tuple[float, float, int | None, str]]:
    """Lay a row out: asked and real pitch, rivets, and which holes stay empty.

    Parameters
    ----------
    pitches : tuple of float
        As asked for [m].
    length : float or None
        First rivet to last [m].
    drilled : float or None
        Pitch of the holes that are there [m].

    Yields
    ------
    tuple
        Pitch asked for [m], real pitch [m], rivets or None, words for the holes left empty.

    Examples
    --------
    >>> [(count, round(1e3 * real, 1)) for _, real, count, _ in layouts((0.025, 0.030), 1.060, None)]
    [(43, 25.2), (36, 30.3)]
    """
    if drilled is None:
        for one in pitches:
            count, real = spread(length, one) if length is not None else (None, one)
            yield one, real, count, ""
        return
    holes, real = spread(length, drilled) if length is not None else (None, drilled)
    for every in range(1, max(2, int(2.0 * max(pitches) / real + 1e-9)) + 1):
        words = "none" if every == 1 else ("every second" if every == 2 else f"all but every {_nth(every)}")
        if holes is None:
            yield every * real, every * real, None, words
            continue
        spaces, over = divmod(holes - 1, every)
        if spaces:
            if over:
                words += f", the last space {over} hole{'s' if over > 1 else ''} wide"
            yield every * real, every * real, spaces + 1 + bool(over), words


def _nth(number: int) -> str:
    return {3: "third", 4: "fourth", 5: "fifth", 6: "sixth"}.get(number, f"{number}th")
