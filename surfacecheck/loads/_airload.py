"""Running load and torque of an airload at points, and its exact totals."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from surfacecheck.loads._case import FigureA7Load, Strip
from surfacecheck.loads._chordwise import STRAIGHT, running_torque
from surfacecheck.loads._planform import Planform

__all__ = ["airload", "airload_totals"]

Array = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(8)


def airload(air: Strip, planform: Planform, y: Array, bay: NDArray[np.intp]) -> tuple[Array, Array]:
    """Work out running load and running torque at points.

    Figure A7 with E = r/c at each station: w = P2 r / 2 = p ((3 d' - 1) r + r^2 / c), r behind the pins, c over fin
    and rudder; arm r/3.

    Parameters
    ----------
    air : AirLoad or FigureA7Load
        The load.
    planform : Planform
        The outline, leading axes (...).
    y : ndarray, shape (..., S)
        Points [m].
    bay : ndarray of int, shape (S,) or (..., S)
        Bay of the outline for each point.

    Returns
    -------
    load : ndarray, shape (..., S)
        Towards +z [N/m].
    torque : ndarray, shape (..., S)
        About the hinge line, +y [N m/m].

    References
    ----------
    14 CFR 23, Appendix A, A23.11(c)(1)(i) (load goes with the local chord) and Figure A7, Amdt 23-62.
    """
    edge = planform.at(planform.edge, y, bay)
    p = np.asarray(air.pressure)[..., None]
    if isinstance(air, FigureA7Load):
        whole = edge - planform.at(planform.front("fin"), y, bay)
        load = p * ((3.0 * air.d - 1.0) * edge + edge * edge / whole)
        return np.asarray(load), running_torque(load, np.zeros_like(edge), edge, STRAIGHT)
    over = planform.at(planform.front(air.over), y, bay)
    start = over if air.start == air.over else planform.at(planform.front(air.start), y, bay)
    load = p * (edge - over)
    return np.asarray(load), running_torque(load, start, edge, air.shape)


def airload_totals(air: Strip, planform: Planform) -> tuple[Array, Array, Array]:
    """Sum an airload over the span.

    Parameters
    ----------
    air : AirLoad or FigureA7Load
        The load.
    planform : Planform
        The outline.

    Returns
    -------
    force : ndarray, shape (...)
        Towards +z [N].
    torque : ndarray, shape (...)
        About the hinge line; the hinge moment is minus this [N m].
    moment : ndarray, shape (...)
        First moment of the force about y = 0, so that moment over force is its centre [N m].
    """
    low, length = planform.y[..., :-1, None], np.diff(planform.y)[..., None]
    y = (low + length * (1.0 + _NODES) / 2.0).reshape(*planform.y.shape[:-1], -1)
    weight = (length * _WEIGHTS / 2.0).reshape(y.shape)
    bay = np.repeat(np.arange(planform.y.shape[-1] - 1), len(_NODES))
    load, torque = airload(air, planform, y, bay)
    return (
        np.asarray(np.sum(load * weight, axis=-1)),
        np.asarray(np.sum(torque * weight, axis=-1)),
        np.asarray(np.sum(load * y * weight, axis=-1)),
    )
