"""Tasks done by whatever executor there is, in their order, with nothing lost when a worker is."""

from __future__ import annotations

import signal
import sys
from collections import deque
from concurrent.futures import BrokenExecutor
from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from concurrent.futures import Executor, Future, ProcessPoolExecutor

__all__ = ["carry_out", "processes"]

T = TypeVar("T")
R = TypeVar("R")

AHEAD = 32
"""Tasks that are handed to an executor before the first of them is back: enough for as many workers, and bounded."""


def carry_out(
    work: Callable[[T], R], tasks: Iterable[T], executor: Executor | None = None, lost: list[str] | None = None
) -> Iterator[R]:
    """Do tasks, and give the results in the order of the tasks.

    A task that the executor loses is done again in this process; an executor that breaks, as a pool of processes does
    when one of them is killed, is left: what it has done is kept, and the rest is done in this process.

    Parameters
    ----------
    work : callable
        A function of one task that another process can import, with the same result wherever it runs.
    tasks : iterable
        Taken as they are needed.
    executor : concurrent.futures.Executor, optional
        Who does them; this process where there is none. It stays open.
    lost : list of str, optional
        Takes a line for whatever the executor lost.

    Yields
    ------
    object
        One result a task.
    """
    if executor is None:
        yield from map(work, tasks)
        return
    others = _Others(work, executor, [] if lost is None else lost)
    waiting: deque[tuple[T, Future[R] | None]] = deque()
    try:
        for task in tasks:
            waiting.append((task, others.take(task)))
            if len(waiting) > AHEAD:
                yield others.give(*waiting.popleft())
        while waiting:
            yield others.give(*waiting.popleft())
    finally:
        for _, future in waiting:
            if future is not None:
                future.cancel()


class _Others(Generic[T, R]):
    """An executor for as long as it holds, this process from then on."""

    def __init__(self, work: Callable[[T], R], executor: Executor, lost: list[str]) -> None:
        self.work, self.executor, self.lost, self.broken = work, executor, lost, False

    def take(self, task: T) -> Future[R] | None:
        """Hand a task over; None where it is to be done here."""
        if self.broken:
            return None
        try:
            return self.executor.submit(self.work, task)
        except (BrokenExecutor, RuntimeError) as error:  # broken, or shut down by its owner
            self._leave(error)
            return None

    def give(self, task: T, future: Future[R] | None) -> R:
        """Give the result of a task, from wherever."""
        if future is None:
            return self.work(task)
        try:
            return future.result()
        except BrokenExecutor as error:
            self._leave(error)
        except Exception as error:  # a fault of the work itself comes again just below
            self.lost.append(f"a chunk came back without its result and was done again here ({_words(error)})")
        return self.work(task)

    def _leave(self, error: Exception) -> None:
        if not self.broken:
            self.lost.append(f"the executor broke off ({_words(error)}): what it had not done was done here")
        self.broken = True


def _words(error: Exception) -> str:
    return f"{type(error).__name__}: {str(error).splitlines()[0]}" if str(error) else type(error).__name__


def processes(count: int) -> ProcessPoolExecutor:
    """Open a pool of fresh processes for a sweep.

    Parameters
    ----------
    count : int
        How many [-].

    Returns
    -------
    ProcessPoolExecutor
        To be used in a ``with``; an interrupt from the keyboard is left to this process, so that the workers finish
        what they have in hand.
    """
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    executor = ProcessPoolExecutor(count, mp_context=get_context("spawn"), initializer=_ignore_the_keyboard)
    if sys.platform != "win32":  # what is blocked here while they start is blocked in them from their first moment
        before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
        try:
            executor.submit(int)
        finally:
            signal.pthread_sigmask(signal.SIG_SETMASK, before)
    return executor


def _ignore_the_keyboard() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)
