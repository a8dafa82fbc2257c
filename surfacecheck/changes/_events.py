"""The kinds of event: what a builder types, and what it does to the surface."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.changes._holes import hole_too_large
from surfacecheck.errors import SurfaceError
from surfacecheck.places import nearest_of, plain_words

if TYPE_CHECKING:
    from surfacecheck.changes._done import Done

__all__ = ["KINDS", "EventKind", "kind_of"]


@dataclass(frozen=True)
class EventKind:
    """One kind of event.

    Attributes
    ----------
    words : tuple of str
        What is typed for it; the first is its name.
    work : callable
        ``work(surface, spot, event, fully=...)`` gives :class:`Done`.
    offers : tuple of str
        Options that its nature offers beside "leave it".
    """

    words: tuple[str, ...]
    work: Callable[..., Done]
    offers: tuple[str, ...] = ()


KINDS: tuple[EventKind, ...] = (
    EventKind(("hole too large", "hole over-size", "hole oval"), hole_too_large, ("rivet not there",)),
)


def kind_of(what: str) -> EventKind:
    """Find a kind of event by what was typed.

    Parameters
    ----------
    what : str
        Such as ``hole too large``.

    Returns
    -------
    EventKind
        The kind.

    Raises
    ------
    SurfaceError
        For words nobody knows: the nearest and all kinds are named.
    """
    asked = plain_words(what)
    for kind in KINDS:
        if asked in map(plain_words, kind.words):
            return kind
    names = [word for kind in KINDS for word in kind.words]
    message = f'what = "{what}" is not known{nearest_of(asked, names)}. Kinds: {", ".join(k.words[0] for k in KINDS)}'
    raise SurfaceError(message)
