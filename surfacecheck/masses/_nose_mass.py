"""Where a balance mass would sit."""

from __future__ import annotations

import numpy as np

from surfacecheck.model import Surface

__all__ = ["nose_arm"]


def nose_arm(surface: Surface) -> float:
    """Give how far ahead of the pins a balance mass would sit: as given, else as far as the nose goes everywhere.

    Parameters
    ----------
    surface : Surface
        Of a stack the nearest to the pins counts.

    Returns
    -------
    float
        [m]; 0 while neither is known.
    """
    given = surface.balance_mass.ahead
    if given.si is not None:
        return float(np.min(given.si))
    noses = [float(np.min(one.nose_ahead.si)) for one in surface.outline.places if one.nose_ahead.si is not None]
    return min(noses, default=0.0)
