"""The outline as stacked arrays, for weighing."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from surfacecheck.axes import line_at
from surfacecheck.masses._parts import Array, Unknown
from surfacecheck.model import Surface
from surfacecheck.provenance import Value, in_a_row

__all__ = ["Lines", "lines_of"]


@dataclass(frozen=True, slots=True, eq=False)
class Lines:
    """Chord lines at the measured places, shape (..., K) [m]; a line nobody gave raises its key when asked for."""

    y: Array
    given: dict[str, Array]
    hidden: dict[str, str]
    found: dict[tuple[str, tuple[int, ...], bytes], Array] = field(default_factory=dict)

    def __call__(self, name: str) -> Array:
        """Give a line by the name of its key."""
        if name in self.hidden:
            raise Unknown(key=self.hidden[name])
        return self.given[name]

    def at(self, name: str, y: Array) -> Array:
        """Give a line at one place."""
        y = np.asarray(y, dtype=np.float64)
        key = (name, y.shape, y.tobytes())
        if key not in self.found:
            self.found[key] = line_at(self.y, self(name), y)
        return self.found[key]

    def along(self, name: str, y: Array) -> Array:
        """Give a line at many places at once, shape (..., N)."""
        key = (name, y.shape, y.tobytes())
        if key not in self.found:
            self.found[key] = line_at(self.y[..., None, :], self(name)[..., None, :], y)
        return self.found[key]


_NAMES = ("up", "nose_ahead", "nose_around", "web_behind", "edge_behind", "spar_depth")


def lines_of(surface: Surface) -> Lines:
    """Stack the outline.

    Parameters
    ----------
    surface : Surface
        With at least two places measured.

    Returns
    -------
    Lines
        Root to tip.

    Raises
    ------
    Unknown
        Where there are not two places, or their place along the pins is not known.
    """
    places = surface.outline.places
    if len(places) < 2:
        raise Unknown(key="outline.at")
    given: dict[str, Array] = {}
    hidden: dict[str, str] = {}
    for name in _NAMES:
        values: list[Value] = [getattr(place, name) for place in places]
        missing = [i for i, value in enumerate(values) if value.si is None]
        if missing:
            hidden[name] = values[missing[0]].key or f"outline.at[{missing[0] + 1}].{name}"
        else:
            given[name] = in_a_row([v.si for v in values if v.si is not None])
    if "up" in hidden:
        raise Unknown(key=hidden["up"])
    order = np.argsort(given["up"], axis=-1, kind="stable")
    lead = np.broadcast_shapes(*(line.shape for line in given.values()))
    full = {name: np.broadcast_to(line, lead) for name, line in given.items()}
    rank = np.broadcast_to(order, lead)
    ranked = {name: np.take_along_axis(line, rank, axis=-1) for name, line in full.items()}
    return Lines(ranked["up"], ranked, hidden)
