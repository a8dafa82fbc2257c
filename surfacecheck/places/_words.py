"""Words of a place as a builder types them, and the nearest of those that are known."""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["nearest_of", "plain_words"]

_BETWEEN_WORDS = re.compile(r"[;:_]|,(?!\d)|(?<!\d)\.(?!\d)|(?<=[a-z])[.-](?=[a-z0-9])|(?<=\d)\.(?=[a-z])")
"""Signs that only part words; not the point, comma or minus of a number."""


def plain_words(text: str) -> str:
    """Take the signs between words out: ``hinge.middle.bracket.rivet-3`` becomes ``hinge middle bracket rivet 3``.

    Parameters
    ----------
    text : str
        As typed.

    Returns
    -------
    str
        Small letters, one blank between words.

    Examples
    --------
    >>> plain_words("Hinge middle, bracket rivet-3"), plain_words("spar, at 325.5 mm")
    ('hinge middle bracket rivet 3', 'spar at 325.5 mm')
    """
    return " ".join(_BETWEEN_WORDS.sub(" ", text.casefold()).split())


def nearest_of(asked: str, among: Iterable[str]) -> str:
    """Say which of some names comes nearest.

    Parameters
    ----------
    asked : str
        As typed.
    among : iterable of str
        The names there are.

    Returns
    -------
    str
        ``. Nearest: hinge middle``, or nothing where there is none.

    Examples
    --------
    >>> nearest_of("hinge mitle", ["hinge top", "hinge middle"])
    '. Nearest: hinge middle'
    """
    near = get_close_matches(asked.casefold(), list(among), n=1, cutoff=0.0)
    return f". Nearest: {near[0]}" if near else ""
