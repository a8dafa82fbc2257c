"""A hinge off the line of the others: the force that it sets in at every pin, with or without load.

What is set in does not grow with the load: at ultimate it stands beside 1.5 times the load, once.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source, Value
from surfacecheck.sections.box import box_needs
from surfacecheck.sections.stiffness import stiffness_of
from surfacecheck.statics import solve_each, unloaded
from surfacecheck.statics.held import off_line, supports_of

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface
    from surfacecheck.statics import Beam

    Array = NDArray[np.float64]

__all__ = ["MILLIMETRE", "PLANES", "OffLine", "hinges_off_line", "thread_offsets"]

PLANES = ("sideways", "fore-and-aft")
MILLIMETRE = 1e-3
"""Displacement of the unit cases [m]: a size to look at, no tolerance."""


@dataclass(frozen=True, eq=False)
class OffLine:
    """What pins off line set in. Forces are those of the surface on its pins, along z and along x.

    Attributes
    ----------
    surface : Surface
        With the offsets.
    hinges : tuple of str
        From root to tip, H of them.
    up : ndarray, shape (H,)
        Along the pins [m].
    offset : ndarray, shape (H, 2)
        Off the line through the outer pins, along z and along x [m].
    bound : ndarray, shape (H, 2)
        By bending alone, fin and brackets stiff: an upper bound [N].
    stiff : ndarray, shape (H, 2)
        With shear and twist, fin and brackets stiff [N].
    given : ndarray, shape (H, 2)
        The same with fin and brackets as soft as the file says [N].
    gives : bool
        Whether the file says that any of them gives.
    each : ndarray, shape (H, 2, H, 2)
        Bound for a millimetre at one hinge in one plane: (hinge moved, plane, pin, direction) [N].
    alone, together : ndarray, shape (H,)
        Largest load of each pin at limit, all pins in line, and with the offsets [N].
    lowest : tuple of (float or None)
        Lowest margin anywhere with all pins in line, and with the offsets [-].
    """

    surface: Surface
    hinges: tuple[str, ...]
    up: Array
    offset: Array
    bound: Array
    stiff: Array
    given: Array
    gives: bool
    each: Array
    alone: Array
    together: Array
    lowest: tuple[float | None, float | None]

    @property
    def binding(self) -> tuple[Array, Array]:
        """Force across each pin, both planes together: upper bound, and as given [N], each of shape (H,)."""
        return np.hypot(*self.bound.T), np.hypot(*self.given.T)

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.losing._off_line_shown import off_line_text

        return off_line_text(self, "inch" if self.surface.units == "inch" else "metric")

    def _repr_html_(self) -> str:
        from surfacecheck.studies.losing._off_line_shown import off_line_html

        return off_line_html(self, "inch" if self.surface.units == "inch" else "metric")


def thread_offsets(up: ArrayLike, read: ArrayLike) -> Array:
    """Turn distances from a stretched thread into offsets from the line through the outer pins.

    ``d_i = r_i - (r_1 + (r_n - r_1) (y_i - y_1)/(y_n - y_1))``: the thread need not touch the outer pins.

    Parameters
    ----------
    up : array_like, shape (..., H)
        Places along the pins, rising [m].
    read : array_like, shape (..., H)
        Distance of each pin centre from the thread, all towards one side [m].

    Returns
    -------
    ndarray, shape (..., H)
        Offset of each, towards that side; zero at the first and the last [m].

    Raises
    ------
    SurfaceError
        For fewer than two pins, or places that do not rise.

    Examples
    --------
    A thread 5 mm beside the lowest pin and 6 mm beside the highest; the middle one reads 6.3 mm:

    >>> thread_offsets([0.09, 0.56, 1.01], [5.0e-3, 6.3e-3, 6.0e-3])
    array([0.      , 0.000789, 0.      ])
    """
    y, r = np.asarray(up, dtype=np.float64), np.asarray(read, dtype=np.float64)
    if y.shape[-1] < 2 or y.shape[-1] != r.shape[-1]:
        message = f"{r.shape[-1]} readings for {y.shape[-1]} pins: give one a pin, from root to tip, two at least"
        raise SurfaceError(message)
    if not (np.diff(y, axis=-1) > 0.0).all():
        message = "the places of the pins do not rise: give them from root to tip"
        raise SurfaceError(message)
    share = (y - y[..., :1]) / (y[..., -1:] - y[..., :1])
    return np.asarray(r - (r[..., :1] + (r[..., -1:] - r[..., :1]) * share))


def hinges_off_line(
    assessment: Assessment,
    sideways: ArrayLike | None = None,
    behind: ArrayLike | None = None,
    gives: float | None = None,
) -> OffLine:
    """Work the forces that pins off line set in.

    Parameters
    ----------
    assessment : Assessment
        Of the surface, its sheet known.
    sideways, behind : array_like, shape (H,), optional
        Offset of each pin from root to tip, to the left (top, where it lies flat) and behind; those of the file where
        not given [m].
    gives : float, optional
        How far fin and bracket spring at every hinge, in both planes; what the file says where not given [m/N].

    Returns
    -------
    OffLine
        Forces on the pins, for these offsets and for a millimetre at each.

    Raises
    ------
    SurfaceError
        Where the stiffness of the surface is not known, or another number of offsets is given than there are hinges.
    """
    box = assessment.effects.box
    if box is None:
        needs = ", ".join(box_needs(assessment.surface)[:3])
        message = f"pins off line: the stiffness of the surface is not known; give {needs}"
        raise SurfaceError(message)
    surface = _softened(_moved(assessment, sideways, behind), gives)
    span, H = assessment.span, len(assessment.span.hinges)
    offset = off_line(surface, span)
    units = MILLIMETRE * np.eye(2 * H).reshape(2 * H, H, 2)
    moved = np.concatenate([offset[None], units])
    stiffness = stiffness_of(box)
    held = supports_of(surface, span, [assessment.cases[0]] * len(moved), set_in=0.0)
    soft = replace(held, displacement=moved)
    loads = unloaded(span.stations, len(moved))
    refined, simple = solve_each(span.stations, loads, stiffness, replace(soft, compliance=None), (True, False))
    (given,) = solve_each(span.stations, loads, stiffness, soft, (True,))
    line = _softened(_moved(assessment, np.zeros(H), np.zeros(H)), gives)
    straight = assess(line, span=span, masses=assessment.masses)
    bent = assess(surface, span=span, masses=assessment.masses)
    return OffLine(
        surface=surface,
        hinges=tuple(span.hinges),
        up=span.breaks[list(span.hinges.values())],
        offset=offset,
        bound=_on_pins(simple)[0],
        stiff=_on_pins(refined)[0],
        given=_on_pins(given)[0],
        gives=held.compliance is not None,
        each=_on_pins(simple)[1:].reshape(H, 2, H, 2),
        alone=_largest(straight),
        together=_largest(bent),
        lowest=(_lowest(straight), _lowest(bent)),
    )


def _moved(assessment: Assessment, sideways: ArrayLike | None, behind: ArrayLike | None) -> Surface:
    """Put typed offsets in the place of the file's."""
    surface, names = assessment.surface, list(assessment.span.hinges)
    hinges = dict(surface.hinges)
    for key, typed in (("out_of_line", sideways), ("out_of_line_aft", behind)):
        if typed is None:
            continue
        values = np.asarray(typed, dtype=np.float64)
        if values.shape != (len(names),):
            message = f"{values.size} offsets for {len(names)} hinges ({', '.join(names)}): give one a hinge"
            raise SurfaceError(message)
        for name, value in zip(names, values.tolist(), strict=True):
            put = Value(value, f"{1e3 * value:.2f} mm", Source(Basis.AS_SAID), f"hinge.{name}.{key}")
            hinges[name] = replace(hinges[name], **{key: put})  # type: ignore[arg-type]
    return replace(surface, hinges=hinges)


def _softened(surface: Surface, gives: float | None) -> Surface:
    """Let fin and bracket spring at every hinge."""
    if gives is None:
        return surface
    if not gives >= 0.0:
        message = f"gives is {gives:g} m/N; how far fin and bracket spring is zero (stiff) or more: correct it"
        raise SurfaceError(message)
    put = Value(gives, f"{1e6 * gives:g} mm/kN", Source(Basis.AS_SAID))
    hinges = {name: replace(hinge, gives_sideways=put, gives_fore_aft=put) for name, hinge in surface.hinges.items()}
    return replace(surface, hinges=hinges)


def _on_pins(beam: Beam) -> Array:
    """Force of the surface on its pins along z and x, (cases, H, 2)."""
    return np.asarray(0.0 - beam.reactions[..., [2, 0]])


def _largest(assessment: Assessment) -> Array:
    return np.asarray(np.hypot(*assessment.beam.reactions[..., [0, 2]].transpose(2, 0, 1)).max(axis=0))


def _lowest(assessment: Assessment) -> float | None:
    return assessment.margins[0].margin if assessment.margins else None
