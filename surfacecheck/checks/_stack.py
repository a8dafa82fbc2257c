"""The worst of every check for every variant of a stack."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from surfacecheck.checks._check import Check, quiet
from surfacecheck.checks._finding import Finding, outcome_of, value_at
from surfacecheck.checks._names import called, name_at

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["StackFindings", "find_stack"]


class _Plain(NamedTuple):
    """What :class:`StackFindings` holds, as lists of lists."""

    margin: list[list[float]]
    required: list[list[float]]
    available: list[list[float]]
    at: list[list[tuple[int, int]]]


@dataclass(frozen=True, eq=False)
class StackFindings:
    """Every check of a stack, reduced to its worst case and spot; M checks, V variants.

    Attributes
    ----------
    checks : tuple of Check
        M of them.
    margin : ndarray, shape (M, V)
        [-]; infinite where nothing is required, not a number where a value is not given.
    required, available : ndarray, shape (M, V)
        Both sides of each formula there [its unit]; not a number where not given.
    index : ndarray of int, shape (M, V, 2)
        Case and spot that decide.
    """

    checks: tuple[Check, ...]
    margin: Array
    required: Array
    available: Array
    index: NDArray[np.intp]

    @property
    def counted(self) -> NDArray[np.bool_]:
        """Which checks are margins (bounds and statements are not), shape (M,)."""
        return np.array([check.kind == "margin" for check in self.checks])

    def lowest(self) -> tuple[Array, NDArray[np.intp]]:
        """Give the lowest margin of every variant.

        Returns
        -------
        margin : ndarray, shape (V,)
            [-]; infinite where there is none.
        check : ndarray of int, shape (V,)
            Which check it is of.
        """
        margins = np.where(self.counted[:, None] & ~np.isnan(self.margin), self.margin, np.inf)
        which = margins.argmin(axis=0)
        return margins[which, np.arange(margins.shape[1])], which

    def decided_by(self, case: str) -> bool:
        """Tell whether a load case decides any check of any variant, as such or in one of its ways.

        Parameters
        ----------
        case : str
            Title of the case.

        Returns
        -------
        bool
            True where it does.
        """
        for check, (cases, spots) in zip(self.checks, self.index.swapaxes(-1, -2), strict=True):
            by_spot = len(check.spot_cases) > 0
            if called(check.spot_cases if by_spot else check.cases, spots if by_spot else cases, case).any():
                return True
        return False

    def finding(self, check: int, variant: int) -> Finding:
        """Give one check of one variant as a finding.

        Parameters
        ----------
        check, variant : int
            Which [-].

        Returns
        -------
        Finding
            As the variant alone has it, but that notes and words are those of the stack.
        """
        one, (case, spot) = self.checks[check], self._plain.at[check][variant]
        name = name_at(one.spots, variant, spot)
        margin, required, available = (
            None if value[check][variant] != value[check][variant] else value[check][variant]  # not a number
            for value in (self._plain.margin, self._plain.required, self._plain.available)
        )
        outside = one.outside is not False and bool(value_at(one.outside, (case, spot), variant))
        return Finding(
            check=one,
            place=f"{one.place}.{name.replace(' ', '-')}" if name else one.place,
            part=f"{one.part}, {name}" if name else one.part,
            margin=margin,
            outcome=outcome_of(one, margin, outside),
            case=name_at(one.spot_cases, variant, spot) if len(one.spot_cases) else one.cases[case],
            spot=name,
            required=required,
            available=available,
            missing=one.missing,
            index=(case, spot),
            variant=variant,
        )

    @cached_property
    def _plain(self) -> _Plain:
        """The arrays as lists: findings are made one by one."""
        arrays = (self.margin, self.required, self.available, self.index)
        return _Plain(*(array.tolist() for array in arrays))

    def of(self, variant: int) -> tuple[Finding, ...]:
        """Give every finding that one variant has alone, in the order of the checks."""
        there = (check.there is None or bool(check.there[variant]) for check in self.checks)
        return tuple(self.finding(m, variant) for m, has in enumerate(there) if has)


def find_stack(checks: Sequence[Check], variants: int) -> StackFindings:
    """Reduce every check to its worst case and spot, variant by variant.

    Parameters
    ----------
    checks : sequence of Check
        Of a stack.
    variants : int
        How many [-].

    Returns
    -------
    StackFindings
        Bit for bit the margins that each variant has alone.

    Raises
    ------
    SurfaceError
        Where a working gives no number although something is required.
    """
    shape = len(checks), variants
    margin, required, available = (np.full(shape, np.nan) for _ in range(3))
    index = np.zeros((*shape, 2), dtype=np.intp)
    every = np.arange(variants)
    with quiet():
        for m, check in enumerate(checks):
            given, asked = check.sides()
            margins = None if given is None or asked is None else check.margins_of(given, asked)
            deciding = margins if margins is not None else None if asked is None else -asked
            if deciding is not None:
                index[m] = _worst(deciding)
            case, spot = index[m].T
            for values, out in ((margins, margin), (asked, required), (given, available)):
                if values is not None:
                    out[m] = _at(values, every, case, spot)
            if margins is not None and np.isnan(margin[m]).any():
                raise check.no_number()
    return StackFindings(tuple(checks), margin, required, available, index)


def _worst(values: Array) -> NDArray[np.intp]:
    """Case and spot of the least, (V, 2) or (2,)."""
    if values.ndim < 2:
        return np.array([0, int(values.argmin()) if values.ndim else 0])
    cases, spots = values.shape[-2:]
    flat = values.reshape(*values.shape[:-2], -1).argmin(axis=-1)
    found = np.zeros((*flat.shape, 2), dtype=np.intp)
    if cases == 1:
        found[..., 1] = flat
    else:
        found[..., 0], found[..., 1] = np.divmod(flat, spots)
    return found


def _at(values: Array, every: NDArray[np.intp], case: NDArray[np.intp], spot: NDArray[np.intp]) -> Array | float:
    """Read something over cases and spots at each variant's own, (V,)."""
    if values.ndim == 0:
        return float(values)
    array = values if values.ndim == 3 else values.reshape(*(1,) * (3 - values.ndim), *values.shape)
    many, cases, spots = array.shape
    return np.asarray(array[every if many > 1 else 0, case if cases > 1 else 0, spot if spots > 1 else 0])
