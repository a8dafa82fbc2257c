"""What the beam is made of and what holds it: stiffness at the points, hinges, the redundants that go with them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate

import numpy as np
from numpy.typing import ArrayLike, NDArray

from surfacecheck.errors import SurfaceError
from surfacecheck.statics._grid import POINTS_A_CELL, Array, Grid

__all__ = ["LEAST_GAP", "BeamStiffness", "Supports", "beam_stiffness"]

LEAST_GAP = 1.0e-3
"""Least distance of two hinges [m]; closer ones share by their play and not by the beam: 1 mm, common practice."""


@dataclass(frozen=True, slots=True, eq=False)
class BeamStiffness:
    """Compliance of the section at each point; a plain number stands for a whole beam.

    Attributes
    ----------
    b_xx, b_xz, b_zz : ndarray, shape (..., S)
        Curvature per moment about the centroid, ``theta_x' = b_xx M_x + b_xz M_z`` and
        ``theta_z' = b_xz M_x + b_zz M_z`` [1/(N m2)].
    s_xx, s_xz, s_zz : ndarray, shape (..., S)
        Shear strain per force through the shear centre, ``gamma_x = s_xx V_x + s_xz V_z`` and so on [1/N].
    torsion : ndarray, shape (..., S)
        Twist rate per torque, 1/(G J) [1/(N m2)].
    x_s, z_s : ndarray, shape (..., S)
        Shear centre from the hinge line [m].
    x_c, z_c : ndarray, shape (..., S)
        Centroid of what carries direct stress, from the hinge line [m].
    """

    b_xx: Array
    b_xz: Array
    b_zz: Array
    s_xx: Array
    s_xz: Array
    s_zz: Array
    torsion: Array
    x_s: Array
    z_s: Array
    x_c: Array
    z_c: Array


def beam_stiffness(EI_x: ArrayLike, EI_z: ArrayLike, EI_xz: ArrayLike = 0.0, **other: ArrayLike) -> BeamStiffness:
    """Turn bending stiffness into compliance.

    ``[b] = inverse of [[EI_x, -EI_xz], [-EI_xz, EI_z]]`` with ``EI_x = E integral z2 dA``, ``EI_z = E integral x2 dA``,
    ``EI_xz = E integral x z dA`` about the centroid.

    Parameters
    ----------
    EI_x, EI_z : array_like, shape (..., S)
        Bending stiffness against lateral and chordwise load [N m2].
    EI_xz : array_like, shape (..., S)
        Stiffness of the product of inertia [N m2].
    **other : array_like
        Other fields of :class:`BeamStiffness`; zero where not given [1/N], [1/(N m2)], [m].

    Returns
    -------
    BeamStiffness
        Compliances.

    Raises
    ------
    SurfaceError
        If the stiffness is not positive, or for a name that is no field.

    Examples
    --------
    >>> beam_stiffness(1000.0, 4000.0).b_zz
    array([0.00025])
    """
    x, z, xz = (np.atleast_1d(np.asarray(v, dtype=np.float64)) for v in (EI_x, EI_z, EI_xz))
    det = x * z - xz * xz
    if not ((x > 0.0).all() and (z > 0.0).all() and (det > 0.0).all()):
        message = (
            f"bending stiffness must be positive: least EI_x {x.min():.4g}, EI_z {z.min():.4g} N m2, "
            f"least EI_x EI_z - EI_xz^2 {det.min():.4g}"
        )
        raise SurfaceError(message)
    rest = {k: np.zeros(1) for k in BeamStiffness.__dataclass_fields__ if not k.startswith("b_")}
    if unknown := set(other) - set(rest):
        message = f"{', '.join(sorted(unknown))}: no such property; there are {', '.join(rest)}"
        raise SurfaceError(message)
    rest |= {k: np.atleast_1d(np.asarray(v, dtype=np.float64)) for k, v in other.items()}
    return BeamStiffness(b_xx=z / det, b_xz=xz / det, b_zz=x / det, **rest)


@dataclass(frozen=True, slots=True, eq=False)
class Supports:
    """Hinges, from root to tip.

    Attributes
    ----------
    hinges : tuple of int
        Break of each hinge; each holds both lateral and chordwise.
    compliance : ndarray, shape (..., 2H, 2H), or None
        Displacement of the supports per force on them, lateral (z) of all hinges first, then chordwise (x) [m/N];
        None is rigid. A fin that bends couples its hinges: off-diagonal entries.
    displacement : ndarray, shape (..., C, H, 2), or None
        Displacement of each support (z, x) that is there beside that, set in or made by the load case [m].
    thrust : ndarray of int, shape (C,), or None
        Which hinge (index into ``hinges``) takes the load along the hinge line; None is the first for every case.
    slopes_held : tuple of int
        Breaks, of those in ``hinges``, that hold the slope in both planes too, as a flanged torque tube does.
    """

    hinges: tuple[int, ...]
    compliance: Array | None = None
    displacement: Array | None = None
    thrust: NDArray[np.intp] | None = None
    slopes_held: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """What depends on numbers of cells and on which breaks are hinges, and on nothing else.

    A run is the stretch between two knots; knots are the root, the hinges, the tip. A redundant is the moment at one
    end of an inner run or at a hinge between two; ``at_start`` and ``at_end`` say what it makes of each run's ends.
    """

    run: NDArray[np.intp]
    knots: NDArray[np.intp]
    starts: tuple[int, ...]
    at_start: Array
    at_end: Array
    start_at_point: Array
    end_at_point: Array
    run_mask: Array
    held: tuple[int, ...]


@lru_cache(maxsize=256)
def plan(cells: tuple[int, ...], hinges: tuple[int, ...], slopes_held: tuple[int, ...]) -> Plan:
    """Lay out the redundants (once per topology)."""
    n, last = len(hinges), len(cells)
    _check_topology(last, hinges, slopes_held)
    held = tuple(hinges.index(b) for b in slopes_held)
    first_point = (0, *accumulate(POINTS_A_CELL * c for c in cells))
    bounds = [0, *(first_point[b] for b in hinges), first_point[-1]]
    run = np.repeat(np.arange(n + 1), np.diff(bounds))
    pairs: list[tuple[int | None, int | None]] = []  # (run that ends, run that starts) with the redundant's moment
    for i in range(n):
        ends, starts = (i if i > 0 else None), (i + 1 if i < n - 1 else None)
        if i in held:
            pairs += [(ends, None)] if ends is not None else []
            pairs += [(None, starts)] if starts is not None else []
        elif ends is not None and starts is not None:
            pairs.append((ends, starts))
    at_start, at_end = np.zeros((2, len(pairs), n + 1))
    for row, (ends, starts) in enumerate(pairs):
        if ends is not None:
            at_end[row, ends] = 1.0
        if starts is not None:
            at_start[row, starts] = 1.0
    mask = (run[:, None] == np.arange(1, n)).astype(np.float64)
    return Plan(
        run=run,
        knots=np.array([0, *hinges, last]),
        starts=tuple(first_point[b] for b in hinges[:-1]),
        at_start=at_start,
        at_end=at_end,
        start_at_point=at_start[:, run],
        end_at_point=at_end[:, run],
        run_mask=mask,
        held=held,
    )


def _check_topology(last: int, hinges: tuple[int, ...], slopes_held: tuple[int, ...]) -> None:
    if any(not 0 <= b <= last for b in hinges):
        message = f"hinges = {hinges}: a hinge lies outside the span; breaks are numbered 0 to {last}"
        raise SurfaceError(message)
    if list(hinges) != sorted(set(hinges)):
        message = f"hinges = {hinges}: each must stand at a break of its own, in order from root to tip"
        raise SurfaceError(message)
    if any(b not in hinges for b in slopes_held) or len(set(slopes_held)) != len(slopes_held):
        message = f"slopes_held = {slopes_held}: only hinges, each once, can hold a slope; they are {hinges}"
        raise SurfaceError(message)
    if len(hinges) < 2 and not slopes_held:
        count = "one hinge lets the surface swing sideways" if hinges else "with no hinge nothing holds the surface"
        message = f"{count}: at least two hinges, or one end that holds slope, are needed"
        raise SurfaceError(message)


def gaps(stations: Grid, layout: Plan) -> Array:
    """Length of each run, both overhangs included [m], shape (..., H + 1); hinges too close are refused."""
    at = stations.breaks[..., layout.knots]
    out: Array = at[..., 1:] - at[..., :-1]
    inner = out[..., 1:-1]
    if not (inner >= LEAST_GAP).all():
        message = (
            f"two hinges stand {inner.min() * 1e3:.4g} mm apart; under {LEAST_GAP * 1e3:g} mm their play, and not the "
            "beam, shares the load: make one hinge of them"
        )
        raise SurfaceError(message)
    return out


def check_stiffness(stiffness: BeamStiffness, coupled: bool) -> None:
    """Refuse compliances with which the beam would be a mechanism, or rigid."""
    xx, xz, zz = stiffness.b_xx, stiffness.b_xz, stiffness.b_zz
    if not ((xx > 0.0).all() and (zz > 0.0).all() and (xx * zz > xz * xz).all()):
        message = (
            f"bending compliance must be positive: least b_xx {np.min(xx):.4g}, b_zz {np.min(zz):.4g} 1/(N m2), least "
            f"b_xx b_zz - b_xz^2 {np.min(xx * zz - xz * xz):.4g}; is something there that carries direct stress?"
        )
        raise SurfaceError(message)
    if coupled and not (
        (stiffness.s_xx >= 0.0).all() and (stiffness.s_zz >= 0.0).all() and (stiffness.torsion >= 0.0).all()
    ):
        message = (
            f"shear and torsion compliance must not be negative: least s_xx {np.min(stiffness.s_xx):.4g}, s_zz "
            f"{np.min(stiffness.s_zz):.4g} 1/N, torsion {np.min(stiffness.torsion):.4g} 1/(N m2)"
        )
        raise SurfaceError(message)


def check_supports(supports: Supports, cases: int) -> None:
    """Refuse support matrices and thrust hinges that no structure has."""
    n = len(supports.hinges)
    if (c := supports.compliance) is not None:
        if c.shape[-2:] != (2 * n, 2 * n):
            message = f"support compliance has shape {c.shape}: it must end in ({2 * n}, {2 * n}) for {n} hinges"
            raise SurfaceError(message)
        size = np.abs(c).max(axis=(-2, -1), keepdims=True)
        if not np.isfinite(size).all():
            message = "Supports.compliance has a value that is not a finite number: give every value, 0 is rigid"
            raise SurfaceError(message)
        if not (np.abs(c - np.swapaxes(c, -2, -1)) <= 1.0e-9 * size).all():
            message = "support compliance is not symmetric: what hinge i gives under a force at j, j gives under i"
            raise SurfaceError(message)
        own = np.einsum("...ii->...i", c)
        if not (own >= 0.0).all():
            message = f"support compliance of a hinge is {own.min():.4g} m/N: zero is rigid, less is not possible"
            raise SurfaceError(message)
        if not (c * c <= own[..., :, None] * own[..., None, :] + (1.0e-9 * size) ** 2).all():
            message = "support compliance: two hinges are coupled more than each gives by itself (c_ij^2 > c_ii c_jj)"
            raise SurfaceError(message)
    if (d := supports.displacement) is not None and d.shape[-2:] != (n, 2):
        message = f"displacement of the supports has shape {d.shape}: it must end in ({n}, 2), (z, x) a hinge"
        raise SurfaceError(message)
    if (t := supports.thrust) is not None and not (t.shape == (cases,) and ((t >= 0) & (t < n)).all()):
        message = f"thrust = {t}: for each of the {cases} cases the number of a hinge, 0 to {n - 1}, is needed"
        raise SurfaceError(message)
