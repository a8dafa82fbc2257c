"""What the sections of a surface give the beam: compliance at every station."""

from __future__ import annotations

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.sections.box import Box
from surfacecheck.statics import BeamStiffness

__all__ = ["stiffness_of"]


def stiffness_of(box: Box) -> BeamStiffness:
    """Turn sections into compliances, with product of inertia, shear and torsion.

    Parameters
    ----------
    box : Box
        Sections along the span.

    Returns
    -------
    BeamStiffness
        Per station [1/(N m2)], [1/N], [m].

    Raises
    ------
    SurfaceError
        Where nothing carries bending in one of the planes.
    """
    one = box.closed
    if not np.all(one.chordwise_defined & one.lateral_defined):
        message = "nothing carries bending fore and aft: give the spar flanges, or the lap at the trailing edge"
        raise SurfaceError(message)
    E, G = box.modulus, box.shear_modulus
    return BeamStiffness(
        b_xx=one.gamma / E,
        b_xz=-one.beta / E,
        b_zz=one.alpha / E,
        s_xx=one.s_xx / G,
        s_xz=one.s_xz / G,
        s_zz=one.s_zz / G,
        torsion=1.0 / (G * one.J),
        x_s=one.x_s,
        z_s=one.z_s,
        x_c=one.x_c,
        z_c=one.z_c,
    )
