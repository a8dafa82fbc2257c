"""The two lowest margins of a joint for every variant, without working what cannot be one of them.

The multiple of the load that uses up a wrinkled sheet is the costly part of a joint. It lies between that of a flat
sheet and that of one that hands on 1.414 times its shear; where even the less of these is above the two lowest margins
there are, it is not worked.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import names_in, quiet, work
from surfacecheck.errors import SurfaceError
from surfacecheck.strength import ROW_SHARE, wrinkled_row_margin

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.checks._layers import Joint
    from surfacecheck.checks._sheared import Draft

    Array = NDArray[np.float64]

__all__ = ["LowestTwo", "given_of", "lowest_two"]

BOTH = "rivet-both"
"""The one way to give that reads shear and pull together."""
_ROUNDING = 1e-9
"""Share by which a bound is taken wider than worked [-]; hundreds of thousands of times the rounding of a few steps."""


@dataclass(frozen=True, eq=False)
class LowestTwo:
    """The lowest margin of every variant, and the next lowest of another way to give.

    Attributes
    ----------
    margin : ndarray, shape (2, V)
        [-]; infinite where there is none.
    draft : ndarray of int, shape (2, V)
        Which draft each is of; -1 where there is none.
    spot : ndarray of int, shape (2, V)
        Where it is least.
    outside : ndarray of bool, shape (V,)
        Whether the lowest lies outside its method.
    """

    margin: Array
    draft: NDArray[np.intp]
    spot: NDArray[np.intp]
    outside: NDArray[np.bool_]


def given_of(drafts: Sequence[Draft]) -> list[int]:
    """Find the drafts of which every value is given.

    Parameters
    ----------
    drafts : sequence of Draft
        Of a joint.

    Returns
    -------
    list of int
        Their places [-].
    """
    return [i for i, one in enumerate(drafts) if all(_given(one, text) for text in (one.available, one.required))]


def _given(draft: Draft, text: str) -> bool:
    return all(draft.terms[name].values is not None for name in names_in(text) if name in draft.terms)


def lowest_two(drafts: Sequence[Draft], joint: Joint) -> LowestTwo:
    """Find the two lowest margins of a joint, of two ways to give, for every variant.

    Parameters
    ----------
    drafts : sequence of Draft
        From :func:`joint_drafts`.
    joint : Joint
        Its loads, of shape (V, 1, K).

    Returns
    -------
    LowestTwo
        Bit for bit the two lowest of all checks of each variant.

    Raises
    ------
    SurfaceError
        Where a working gives no number although something is required.
    """
    given = given_of(drafts)
    variants = len(joint.shear)
    if not given:
        none = np.full((2, variants), -1)
        return LowestTwo(np.full((2, variants), np.inf), none, np.zeros_like(none), np.zeros(variants, dtype=bool))
    chosen = [drafts[i] for i in given]
    with quiet():
        margins = _margins(chosen, joint)
    spots = margins.argmin(axis=-1)
    least = np.take_along_axis(margins, spots[..., None], axis=-1)[..., 0]
    if np.isnan(least).any():
        message = f"{joint.part}: a working gives no number although something is required"
        raise SurfaceError(message)
    row = np.arange(variants)
    first = least.argmin(axis=0)
    outside = _outside(chosen, first, variants)
    lowest = least[first, row]
    least[first, row] = np.inf
    both = np.stack([first, least.argmin(axis=0)])
    found = np.stack([lowest, least.min(axis=0)])
    return LowestTwo(found, np.where(np.isinf(found), -1, np.asarray(given)[both]), spots[both, row], outside)


def _outside(drafts: Sequence[Draft], which: NDArray[np.intp], variants: int) -> NDArray[np.bool_]:
    if not any(np.any(draft.outside) for draft in drafts):
        return np.zeros(variants, dtype=bool)
    every = [np.broadcast_to(np.asarray(draft.outside).reshape(-1), (variants,)) for draft in drafts]
    return np.asarray(np.stack(every)[which, np.arange(variants)])


def _margins(drafts: Sequence[Draft], joint: Joint) -> Array:
    """Give the margins of all drafts, (M, V, K); infinite where they cannot be one of the two lowest."""
    shape = joint.shear.shape[0], joint.shear.shape[-1]
    margins = np.empty((len(drafts), *shape))
    least = np.full((len(drafts), *shape), np.nan)  # of those without a multiple to find: never below anything
    for draft, most, low in zip(drafts, margins, least, strict=True):
        if draft.wrinkled is None:
            most[:] = _over(_plain(draft), shape)
        else:
            most[:], low[:] = _bounds(draft, shape)
    if joint.wrinkle is not None:
        which = min(1, len(drafts) - 1)
        cap = np.partition(margins.min(axis=-1), which, axis=0)[which]
        open_ = least <= cap[:, None] + (np.abs(cap[:, None]) + 1.0) * _ROUNDING
        worked = _worked(drafts, joint, np.nonzero(open_))
        margins[[draft.wrinkled is not None for draft in drafts]] = np.inf
        margins[open_] = worked
    return margins


def _plain(draft: Draft) -> Array:
    available, required = (work(text, draft.terms) for text in (draft.available, draft.required))
    return np.where(required == 0.0, np.inf, available / required - 1.0)


def _bounds(draft: Draft, shape: tuple[int, int]) -> tuple[Array, Array]:
    """Give the margin of a flat sheet, and of a sheet that hands on all that a fully wrinkled one does."""
    assert draft.wrinkled is not None  # noqa: S101 - asked only of those
    s, t, factor = draft.wrinkled.sheared, draft.wrinkled.pulled, draft.wrinkled.factor
    used = s * factor, s * ((1.0 + ROW_SHARE) * factor)
    if draft.mode == BOTH:
        pulled = (t * factor) ** 2
        used = np.sqrt(used[0] ** 2 + pulled), np.sqrt(used[1] ** 2 + pulled)
    return _over(1.0 / used[0] - 1.0, shape), _over(1.0 / used[1] - 1.0, shape)


def _worked(drafts: Sequence[Draft], joint: Joint, at: tuple[NDArray[np.intp], ...]) -> Array:
    """Work margins of wrinkled sheet at some drafts, variants and spots, as ``_sheared.finished`` does at all."""
    draft, variant, spot = at
    ends = np.searchsorted(draft, np.arange(len(drafts) + 1))
    shape = joint.shear.shape[0], joint.shear.shape[-1]
    s, t, factor = (np.empty(draft.size) for _ in range(3))
    for m, one in enumerate(drafts):
        part = slice(ends[m], ends[m + 1])
        if one.wrinkled is not None and ends[m] < ends[m + 1]:
            where = variant[part], spot[part]
            s[part], t[part] = (_over(v, shape)[where] for v in (one.wrinkled.sheared, one.wrinkled.pulled))
            factor[part] = one.wrinkled.factor
    assert joint.wrinkle is not None  # noqa: S101 - asked only of those
    return np.asarray(wrinkled_row_margin(s, t, _over(joint.wrinkle, shape)[variant, spot], factor) + 1.0 - 1.0)


def _over(values: Array, shape: tuple[int, int]) -> Array:
    """Lay something of shape (..., 1, K) over variants and spots."""
    return np.asarray(np.broadcast_to(values[..., 0, :] if values.ndim > 1 else values, shape))
