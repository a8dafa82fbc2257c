"""What the readings in the file come to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.masses._bench import level_moment, mean_and_friction
from surfacecheck.masses._parts import Array

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.model import Tipped, Weighed
    from surfacecheck.provenance import Source, Value

__all__ = ["Readings", "read_scales"]


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """The bench, worked out.

    Attributes
    ----------
    rising, sinking : ndarray, shape (...), or None
        Means of the readings each way [N]; None where only one level reading was taken.
    push : ndarray, shape (...)
        Without friction [N].
    friction : ndarray, shape (...), or None
        At the scale [N].
    arm : ndarray, shape (...)
        Scale behind the pins; ahead of them it is negative [m].
    tilt : ndarray, shape (...)
        Trailing edge above level [rad].
    moment : ndarray, shape (...)
        Tail-heavy, level [N m].
    height : ndarray, shape (...), or None
        Weight times height of the centre of gravity above the chord, as it lay [N m]; None without a second tilt.
    source : Source
        How the first reading is known.
    """

    rising: Array | None
    sinking: Array | None
    push: Array
    friction: Array | None
    arm: Array
    tilt: Array
    moment: Array
    height: Array | None
    source: Source

    @property
    def friction_share(self) -> Array | None:
        """Friction over the push without friction, shape (...) [-]; None where it is not known."""
        if self.friction is None or not bool(np.all(self.push != 0.0)):
            return None
        return np.asarray(self.friction / np.abs(self.push))

    @property
    def friction_moment(self) -> Array | None:
        """Friction times arm, shape (...) [N m]; None where it is not known."""
        return None if self.friction is None else np.asarray(self.friction * np.abs(self.arm))


def read_scales(weighed: Weighed) -> Readings | None:
    """Work out the readings of a file.

    Parameters
    ----------
    weighed : Weighed
        Part G of the file.

    Returns
    -------
    Readings or None
        None where the scale's place is not known, or neither a level reading nor a pair is.
    """
    arm = _number(weighed.push_behind)
    pair = _pair(weighed)
    if arm is None or (pair is None and weighed.tail_push.si is None):
        return None
    tilt = np.asarray(0.0 if weighed.edge.si is None else weighed.edge.si, dtype=np.float64)
    if pair is None:
        push, friction, rising, sinking = np.asarray(weighed.tail_push.si, dtype=np.float64), None, None, None
        source = weighed.tail_push.source
    else:
        rising, sinking = pair
        push, friction = mean_and_friction(rising, sinking)
        source = next(one.source for one in weighed.rising if one.known)
    moment, height = np.asarray(push * arm), None
    tipped = weighed.tipped
    again = None if tipped is None else _pair(tipped)
    if tipped is not None and again is not None and tipped.edge.si is not None:
        second, _ = mean_and_friction(*again)
        moment, height = level_moment(push, tilt, second, tipped.edge.si, arm)
    return Readings(rising, sinking, push, friction, arm, tilt, moment, height, source)


def _number(value: Value) -> Array | None:
    return None if value.si is None else np.asarray(value.si, dtype=np.float64)


def _pair(one: Weighed | Tipped) -> tuple[Array, Array] | None:
    rising, sinking = _mean(one.rising), _mean(one.sinking)
    return None if rising is None or sinking is None else (rising, sinking)


def _mean(values: Sequence[Value]) -> Array | None:
    known = [np.asarray(one.si, dtype=np.float64) for one in values if one.si is not None]
    return np.asarray(sum(known[1:], known[0]) / len(known)) if known else None
