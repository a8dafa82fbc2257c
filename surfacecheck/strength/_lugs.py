"""The eye of a bracket: tearing out, net section, load across, load aslant."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.provenance import Basis, Source
from surfacecheck.strength._bearing import shear_out
from surfacecheck.strength._numbers import at_least, floats, ratio

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "LUG_SOURCE",
    "lug_axial",
    "lug_axial_coefficient",
    "lug_mean_ligament",
    "lug_net",
    "lug_oblique_margin",
    "lug_transverse",
]

LUG_SOURCE = Source(
    Basis.PUBLISHED,
    "AFFDL-TR-69-42, Stress Analysis Manual, ch. 9, forms as quoted in secondary text; the curve K is replaced by "
    "2 (F_su/F_tu)(e/D - 0.383), common practice",
)


def lug_axial_coefficient(e_over_D: ArrayLike, F_su: ArrayLike, F_tu: ArrayLike) -> NDArray[np.float64]:
    """Give the closed form that stands in for the shear-bearing curve of a lug.

    K = 2 (F_su / F_tu)(e/D - (cos 40 deg)/2)

    Parameters
    ----------
    e_over_D : array_like
        Pin centre to the end of the lug over pin diameter [-].
    F_su, F_tu : array_like
        Ultimate shear and tensile stress [Pa].

    Returns
    -------
    ndarray
        K, so that P = K F_tu D t [-].

    Notes
    -----
    Lies below the curve (two digitised readings at e/D 1.25 give 1.18 and 1.24), so it errs to the low side.

    References
    ----------
    Common practice: 40-degree shear-out planes; AFFDL-TR-69-42, ch. 9, for the form P = K F_tu D t.

    Examples
    --------
    >>> float(lug_axial_coefficient(2.0, 27.0, 42.0))
    2.0789
    """
    (tensile,) = at_least(0.0, above=True, F_tu=F_tu)
    return np.asarray(shear_out(F_su, e_over_D, 1.0, 1.0) / tensile)


def lug_axial(
    F_su: ArrayLike, F_bru: ArrayLike, edge: ArrayLike, pin: ArrayLike, thickness: ArrayLike
) -> NDArray[np.float64]:
    """Give the load along a lug at which the pin tears out or crushes its way.

    P = min(2 F_su t (e - 0.383 D), F_bru D t)

    Parameters
    ----------
    F_su, F_bru : array_like
        Ultimate shear and bearing stress of the lug [Pa].
    edge : array_like
        Pin centre to the end of the lug [m].
    pin : array_like
        Hole diameter [m].
    thickness : array_like
        Lug thickness [m].

    Returns
    -------
    ndarray
        Ultimate load, bearing strength without the factor of a hinge that turns [N].

    References
    ----------
    AFFDL-TR-69-42, ch. 9 (form), with the closed form of :func:`lug_axial_coefficient`.

    Examples
    --------
    >>> float(lug_axial(27000.0, 88000.0, 0.375, 0.1875, 0.063))
    1031.4
    """
    crush, d, t = at_least(0.0, F_bru=F_bru, pin=pin, thickness=thickness)
    return np.asarray(np.minimum(shear_out(F_su, edge, d, t), crush * d * t))


def lug_net(
    F_tu: ArrayLike, width: ArrayLike, pin: ArrayLike, thickness: ArrayLike, K_t: ArrayLike = 1.0
) -> NDArray[np.float64]:
    """Give the load at which a lug parts beside its hole.

    P = K_t F_tu (w - D) t

    Parameters
    ----------
    F_tu : array_like
        Ultimate tensile stress [Pa].
    width : array_like
        Width of the lug at the hole [m].
    pin : array_like
        Hole diameter [m].
    thickness : array_like
        Lug thickness [m].
    K_t : array_like
        Efficiency of the net section; about 0.90 to 0.95 at w/D = 2 for aluminium sheet and plate [-].

    Returns
    -------
    ndarray
        Ultimate load, 0 where the hole is as wide as the lug [N].

    References
    ----------
    AFFDL-TR-69-42, ch. 9, net tension, as quoted in secondary text.

    Examples
    --------
    D 2 in, w 4 in, t 1.5 in, 71 ksi, K_t 0.90, in pounds:

    >>> float(lug_net(71000.0, 4.0, 2.0, 1.5, 0.90))
    191700.0
    """
    stress, w, d, t = at_least(0.0, F_tu=F_tu, width=width, pin=pin, thickness=thickness)
    return np.asarray(floats(K_t) * stress * np.maximum(w - d, 0.0) * t)


def lug_mean_ligament(h1: ArrayLike, h2: ArrayLike, h3: ArrayLike, h4: ArrayLike) -> NDArray[np.float64]:
    """Give the mean ligament of a lug loaded across.

    h_av = 6 / (3/h1 + 1/h2 + 1/h3 + 1/h4)

    Parameters
    ----------
    h1, h2, h3, h4 : array_like
        Metal left round the hole; h1 is the ligament that the load bears towards [m].

    Returns
    -------
    ndarray
        Mean ligament [m].

    References
    ----------
    AFFDL-TR-69-42, ch. 9, transverse load, from memory.

    Examples
    --------
    >>> float(lug_mean_ligament(0.3, 0.3, 0.3, 0.3))
    0.3
    """
    a, b, c, d = at_least(0.0, above=True, h1=h1, h2=h2, h3=h3, h4=h4)
    return np.asarray(6.0 / (3.0 / a + 1.0 / b + 1.0 / c + 1.0 / d))


def lug_transverse(K: ArrayLike, F_tu: ArrayLike, pin: ArrayLike, thickness: ArrayLike) -> NDArray[np.float64]:
    """Give the load across a lug.

    P = K F_tu D t

    Parameters
    ----------
    K : array_like
        Read from the published curve at h_av/D; there is no closed form, so no default [-].
    F_tu : array_like
        Ultimate tensile stress across the grain [Pa].
    pin : array_like
        Hole diameter [m].
    thickness : array_like
        Lug thickness [m].

    Returns
    -------
    ndarray
        Ultimate load [N].

    References
    ----------
    AFFDL-TR-69-42, ch. 9, transverse load, as quoted in secondary text.

    Examples
    --------
    >>> float(lug_transverse(0.7875, 66000.0, 2.0, 2.5))
    259875.0
    """
    k, stress, d, t = at_least(0.0, K=K, F_tu=F_tu, pin=pin, thickness=thickness)
    return np.asarray(k * stress * d * t)


def lug_oblique_margin(R_a: ArrayLike, R_tr: ArrayLike) -> NDArray[np.float64]:
    """Give the margin of a lug loaded along and across at once.

    margin = 1 / (R_a^1.6 + R_tr^1.6)^0.625 - 1

    Parameters
    ----------
    R_a : array_like
        Factored load along, over the smaller of tearing out and net section [-].
    R_tr : array_like
        Factored load across, over its strength [-].

    Returns
    -------
    ndarray
        The margin [-]; infinite where nothing acts.

    References
    ----------
    AFFDL-TR-69-42, ch. 9, oblique load, as quoted in secondary text.

    Examples
    --------
    >>> float(lug_oblique_margin(0.36463, 0.72198))
    0.156
    """
    a, b = at_least(0.0, R_a=R_a, R_tr=R_tr)
    total = np.power(np.power(a, 1.6) + np.power(b, 1.6), 0.625)
    return np.asarray(np.where(total == 0.0, np.inf, ratio(1.0, total)) - 1.0)
