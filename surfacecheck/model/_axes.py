"""The one place where a builder's word becomes an axis with a sign.

Kernel axes: ``y`` along the line of the pins from root to tip, ``x`` aft, ``z`` = x cross y.
In the model every number with a side is positive towards the key's own word: *up* (out), *behind*, *left* (top).

* Rudder: y points up, so z points to the **left** (seen from behind).
* Right half, lying flat: y points out to the right, so z points to the **top**.
* Left half, lying flat: y points out to the left, so z points to the **bottom**.
"""

from __future__ import annotations

from surfacecheck.errors import SurfaceError
from surfacecheck.model._words import Half, Kind

__all__ = ["FLAT_WORDS", "axis_of", "left_is", "opposite", "plus_z_word", "said"]

#: What an elevator or aileron half says for the word a rudder uses.
FLAT_WORDS = {
    "up": "out",
    "down": "in",
    "left": "top",
    "right": "bottom",
    "left_skin": "top_skin",
    "right_skin": "bottom_skin",
    "swings_left": "swings_top",
    "swings_right": "swings_bottom",
    "bottom rib": "inner rib",
    "top rib": "outer rib",
}

_OPPOSITE = {"up": "down", "left": "right", "behind": "ahead", "inward": "outward"}
_OPPOSITE |= {minus: plus for plus, minus in _OPPOSITE.items()}


def left_is(kind: Kind, half: Half) -> int:
    """Give the sign of z for a number that is positive to the left (to the top of a flat half).

    Parameters
    ----------
    kind : Kind
        Rudder, elevator or aileron.
    half : Half
        Which half; a rudder has none.

    Returns
    -------
    int
        +1 or -1: ``z = left_is(kind, half) * value.si``.

    Raises
    ------
    SurfaceError
        Where an elevator or aileron does not say which half it is.

    Examples
    --------
    >>> left_is(Kind.RUDDER, Half.NONE), left_is(Kind.ELEVATOR, Half.RIGHT), left_is(Kind.ELEVATOR, Half.LEFT)
    (1, 1, -1)
    """
    if kind is not Kind.RUDDER and half is Half.NONE:
        message = f'half is "none" for an {kind}: write half = "left" or half = "right"'
        raise SurfaceError(message)
    return -1 if kind is not Kind.RUDDER and half is Half.LEFT else 1


def axis_of(word: str, kind: Kind, half: Half) -> tuple[str, int]:
    """Tell the axis and the sign of a direction word.

    Parameters
    ----------
    word : str
        up, down, out, in, behind, ahead, left, right, top or bottom.
    kind : Kind
        Rudder, elevator or aileron.
    half : Half
        Which half; a rudder has none.

    Returns
    -------
    tuple of (str, int)
        ``"x"``, ``"y"`` or ``"z"``, and +1 or -1.

    Raises
    ------
    SurfaceError
        For any other word.

    Examples
    --------
    >>> axis_of("ahead", Kind.RUDDER, Half.NONE), axis_of("top", Kind.AILERON, Half.LEFT)
    (('x', -1), ('z', -1))
    """
    side = left_is(kind, half)
    table = {
        "up": ("y", 1), "out": ("y", 1), "down": ("y", -1), "in": ("y", -1),
        "behind": ("x", 1), "ahead": ("x", -1),
        "left": ("z", side), "top": ("z", side), "right": ("z", -side), "bottom": ("z", -side),
    }  # fmt: skip
    if word not in table:
        message = f'"{word}" is no direction; the directions are {", ".join(table)}'
        raise SurfaceError(message)
    return table[word]


def plus_z_word(kind: Kind, half: Half) -> str:
    """Give the builder's word for +z: left, top or bottom."""
    return said("left" if left_is(kind, half) > 0 else "right", kind)


def said(word: str, kind: Kind) -> str:
    """Give the word this surface uses for a rudder's word.

    Examples
    --------
    >>> said("left", Kind.ELEVATOR), said("up", Kind.AILERON), said("left_skin", Kind.RUDDER)
    ('top', 'out', 'left_skin')
    """
    return word if kind is Kind.RUDDER else FLAT_WORDS.get(word, word)


def opposite(word: str) -> str:
    """Give the other way: up and down, left and right, behind and ahead, inward and outward."""
    return _OPPOSITE[word]
