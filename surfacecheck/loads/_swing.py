"""A surface swung against its stop by the wind: energy and moment, as upper bounds.

Orders of magnitude. What is taken for granted, each on the high side:

- the wind turns the surface with the same moment H at every angle (a real one fades as the surface turns);
- no damping, no friction, no give of lock, cable or pedal on the way;
- all the work of the wind ends in the stop and what stands behind it;
- that gives like a spring, with its greatest moment at its greatest angle, and the wind goes on pushing meanwhile.

The mass of the surface does not enter: a heavier one comes slower with the same energy.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError

__all__ = ["stop_moment", "swing_energy"]

Array = NDArray[np.float64]


def swing_energy(moment: ArrayLike, swing: ArrayLike) -> Array:
    """Work of the wind over a free swing, E = H theta.

    Parameters
    ----------
    moment : array_like
        Hinge moment of the wind [N m].
    swing : array_like
        From where it stood to its stop [rad].

    Returns
    -------
    ndarray
        At most [J].

    References
    ----------
    Work of a moment over an angle; assumptions on top of this module.

    Examples
    --------
    >>> swing_energy(73.2, np.radians(30.0))
    array(38.328)
    """
    return np.asarray(np.asarray(moment, dtype=np.float64) * np.asarray(swing, dtype=np.float64))


def stop_moment(energy: ArrayLike, give: ArrayLike, moment: ArrayLike = 0.0) -> Array:
    """Greatest moment at a stop that takes up an energy while it gives.

    M give / 2 = E + H give,  so  M = 2 E / give + 2 H

    Parameters
    ----------
    energy : array_like
        Of the swing before the stop [J].
    give : array_like
        Angle by which stop, horn, cables and pedals give together [rad].
    moment : array_like
        Of the wind, which goes on pushing over that angle; 0 leaves its work out [N m].

    Returns
    -------
    ndarray
        At most [N m].

    Raises
    ------
    SurfaceError
        For a stop that gives nothing, or less.

    References
    ----------
    Work of a spring; assumptions on top of this module. Without swing a load put on suddenly counts twice, as in any
    textbook of mechanics.

    Examples
    --------
    >>> stop_moment(38.33, np.radians(3.0)), stop_moment(0.0, 0.1, 1.0)
    (array(1464.1), array(2.0))
    """
    angle = np.asarray(give, dtype=np.float64)
    if not bool(np.all(angle > 0.0)):
        message = "a stop that gives nothing would need a moment without end: say by how many degrees it gave"
        raise SurfaceError(message)
    push = np.asarray(moment, dtype=np.float64)
    return np.asarray(2.0 * np.asarray(energy, dtype=np.float64) / angle + 2.0 * push)
