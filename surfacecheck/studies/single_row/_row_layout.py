"""Where the rivets of a row on its own sit: spread evenly, or in the holes that are there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.checks import spread
from surfacecheck.errors import SurfaceError

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["layouts", "left_out", "look_apart", "most_left_out"]


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
    for every in range(1, most_left_out(pitches, real) + 1):
        if holes is None or every < holes:
            count, words = left_out(holes, every)
            yield every * real, every * real, count, words


def look_apart(pitch: float, diameter: float) -> None:
    """Refuse a pitch at which the holes run into each other.

    Parameters
    ----------
    pitch : float
        Real pitch [m].
    diameter : float
        Of the rivet; its hole is no smaller [m].

    Raises
    ------
    SurfaceError
        For a pitch not above the diameter.
    """
    if pitch <= diameter:
        holes = f"holes of {diameter * 1e3:.4g} mm run into each other"
        message = f"pitch {pitch * 1e3:.4g} mm cannot be: {holes}; give a wider pitch"
        raise SurfaceError(message)


def most_left_out(pitches: tuple[float, ...], real: float) -> int:
    """Give how far apart holes are looked at: up to twice the widest pitch asked for, two spaces at least [-].

    Parameters
    ----------
    pitches : tuple of float
        As asked for [m].
    real : float
        Pitch of the holes [m].

    Returns
    -------
    int
        Spaces of the holes.
    """
    return max(2, int(2.0 * max(pitches, default=real) / real + 1e-9))


def left_out(holes: int | None, every: int) -> tuple[int | None, str]:
    """Count the rivets where only every so many holes have one, and the ends stay.

    Parameters
    ----------
    holes : int or None
        Holes that are there; None where their number is not known.
    every : int
        Spaces from rivet to rivet [-].

    Returns
    -------
    tuple of (int or None, str)
        Rivets, and words for the holes left empty.

    Examples
    --------
    >>> left_out(43, 2), left_out(6, 2)
    ((22, 'every second'), (4, 'every second, the last space 1 hole wide'))
    """
    words = "none" if every == 1 else ("every second" if every == 2 else f"all but every {_nth(every)}")
    if holes is None:
        return None, words
    spaces, over = divmod(holes - 1, every)
    if over:
        words += f", the last space {over} hole{'s' if over > 1 else ''} wide"
    return spaces + 1 + bool(over), words


def _nth(number: int) -> str:
    return {3: "third", 4: "fourth", 5: "fifth", 6: "sixth"}.get(number, f"{number}th")
