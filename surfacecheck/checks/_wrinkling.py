"""Shear flow at which panels of sheet wrinkle, and what the skins carry of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._effects import Effects
from surfacecheck.library import metal_of
from surfacecheck.provenance import Basis, Source, Value, over_stations
from surfacecheck.sections.box import sides_of
from surfacecheck.strength import shear_coefficient

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.model import Skin

    Array = NDArray[np.float64]

__all__ = ["TN_3781", "bay_edges", "panel_critical", "poisson_of", "skin_critical", "skin_of", "skin_wrinkle"]

TN_3781 = Source(
    Basis.WORKED_OUT, "plate buckling, k_s of a simply supported panel, NACA TN 3781 form; k by Ritz series"
)


def bay_edges(effects: Effects) -> tuple[Array, Array]:
    """Ribs on either side of every station.

    Parameters
    ----------
    effects : Effects
        For ribs and stations.

    Returns
    -------
    tuple of ndarray, each of shape (..., S)
        Place of the rib below and above [m]; the ends of the surface where there is none.
    """
    marks, upper = _marks(effects)
    edges = effects.span.breaks[..., marks]
    return edges[..., upper - 1], edges[..., upper]


def _marks(effects: Effects, *, ribs: bool = True) -> tuple[list[int], NDArray[np.intp]]:
    """Give the breaks at which a panel may end, and for every station which of them stands above it."""
    span = effects.span
    marks = sorted({span.root, *(span.ribs if ribs else ()), span.tip})
    return marks, np.clip(np.searchsorted(marks, span.bay, side="right"), 1, len(marks) - 1)


def panel_critical(
    effects: Effects, width: Array, t: Array, modulus: Array, poisson: Array, *, ribs: bool = True
) -> Array:
    """Shear flow at which a panel from rib to rib wrinkles, simply supported, its mean width in the bay."""
    stations = effects.span.stations
    marks, upper = _marks(effects, ribs=ribs)
    edges = effects.span.breaks[..., marks]
    length = edges[..., upper] - edges[..., upper - 1]
    at_mark = width[..., [stations.after(b) if b < len(stations.cells) else -1 for b in marks]]
    mean = 0.5 * (at_mark[..., upper - 1] + at_mark[..., upper])
    short, long_ = np.minimum(length, mean), np.maximum(length, mean)
    k, short = shear_coefficient(long_, short)
    plate = np.pi**2 / (12.0 * (1.0 - poisson**2))
    return np.asarray(k * plate * modulus * (t / short) ** 2 * t)


def skin_critical(effects: Effects, side: str) -> Array:
    """Give the shear flow at which the panels of a skin wrinkle.

    Parameters
    ----------
    effects : Effects
        With flows.
    side : str
        ``plus`` or ``minus``.

    Returns
    -------
    ndarray, shape (..., S)
        At every station [N/m].
    """
    return effects.once(f"critical of {side}", lambda: _skin_critical(effects, side))


def _skin_critical(effects: Effects, side: str) -> Array:
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101 - callers ask for flows only where there are sections
    skin = skin_of(effects, side)
    metal = metal_of(surface, skin.alloy, skin.thickness)
    width = np.hypot(box.edge_x - box.web_x, 0.5 * box.height)
    t = over_stations(skin.thickness)
    leaf = panel_critical(effects, width, t, over_stations(metal.modulus), poisson_of(metal.poisson))
    return np.asarray(leaf * (box.skin_t[side] / t))  # a doubler takes its share, and wrinkles alone


def skin_of(effects: Effects, side: str) -> Skin:
    """Give the skin of a side, ``plus`` or ``minus``, as the file describes it."""
    skin: Skin = getattr(effects.surface.sheet, sides_of(effects.surface)[side])
    return skin


def poisson_of(value: Value) -> Array:
    """Give Poisson's ratio over stations, shape (..., 1) or () [-]; 0.33, that of aluminium, where it is not known."""
    return over_stations(value) if value.known else np.asarray(0.33)


def skin_wrinkle(effects: Effects, side: str, flow: Array | None = None) -> Array:
    """Shear flow at limit over the flow at which the skin panel wrinkles.

    Parameters
    ----------
    effects : Effects
        With flows.
    side : str
        ``plus`` or ``minus``.
    flow : ndarray, shape (..., C, S), optional
        Flow to compare [N/m]; the skin's own where not given.

    Returns
    -------
    ndarray, shape (..., C, S)
        Ratio [-].
    """
    crossing = effects.mean(f"skin_{side}") if flow is None else flow
    return np.asarray(np.abs(crossing) / by_case(skin_critical(effects, side)))
