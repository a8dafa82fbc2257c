"""Ctrl-C held back until what is in hand is put away or shown."""

from __future__ import annotations

import signal
import threading
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from types import FrameType

__all__ = ["undisturbed"]


@contextmanager
def undisturbed(*, second_stops: bool = False) -> Iterator[None]:
    """Hold an interrupt from the keyboard back until what is inside is done.

    Parameters
    ----------
    second_stops : bool
        Whether a second interrupt stops what is inside at once: for what may last [-].
    """
    before = signal.getsignal(signal.SIGINT)
    if threading.current_thread() is not threading.main_thread() or not callable(before):
        yield
        return
    held: list[tuple[int, FrameType | None]] = []

    def hold(number: int, frame: FrameType | None) -> None:
        held.append((number, frame))
        if second_stops:
            signal.signal(signal.SIGINT, before)

    signal.signal(signal.SIGINT, hold)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if held:
            before(*held[0])
