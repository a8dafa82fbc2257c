"""Scatter: how far making and measuring move every margin, which number drives it, and how often a rule is not met.

Samples are a Latin hypercube with a stated seed: of each number by itself far more even than random ones, and the same
every time. (Scrambled Sobol points were tried: a thousand of them over fifty numbers tie some pairs of numbers so
closely together that one passes for what the other does.)
"""

from __future__ import annotations

from contextlib import closing, nullcontext
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.studies.sweeping._combinations import MOST, too_many
from surfacecheck.studies.sweeping._drives import drives
from surfacecheck.studies.sweeping._numbers import number_places, with_numbers
from surfacecheck.studies.sweeping._scatter_result import Driver, MarginScatter, Scatter
from surfacecheck.studies.sweeping._scatter_rules import rule_scatter
from surfacecheck.studies.sweeping._spreads import spreads_of
from surfacecheck.studies.sweeping._sweep import CHUNK, sweep
from surfacecheck.studies.sweeping._sweep_files import sweep_file
from surfacecheck.studies.sweeping._sweep_table import row_columns
from surfacecheck.studies.sweeping._swept import swept
from surfacecheck.studies.sweeping._tolerance_table import kind_of

if TYPE_CHECKING:
    import os
    from collections.abc import Mapping, Sequence
    from concurrent.futures import Executor

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Surface
    from surfacecheck.studies.sweeping._swept import Swept
    from surfacecheck.studies.sweeping._tolerances import Spread

    Array = NDArray[np.float64]

__all__ = ["SAMPLES", "samples_of", "scatter"]

SAMPLES = 4096
LEAST = 64
"""Fewer samples than this say nothing of a twentieth of them."""
TWENTIETH = 0.05
NOTHING = "stopped: not one sample was finished"


def samples_of(spreads: Sequence[Spread], samples: int, seed: int) -> dict[str, Array]:
    """Draw samples of the numbers that vary, each by itself.

    Parameters
    ----------
    spreads : sequence of Spread
        What varies.
    samples : int
        How many [-].
    seed : int
        The same seed gives the same samples [-].

    Returns
    -------
    dict of str to ndarray, shape (n,)
        By key [SI].

    Raises
    ------
    SurfaceError
        For too few or too many samples, or a seed below zero.

    References
    ----------
    McKay, M. D., Beckman, R. J., Conover, W. J., "A comparison of three methods for selecting values of input variables
    in the analysis of output from a computer code", Technometrics 21 (1979), by SciPy's ``stats.qmc.LatinHypercube``.
    """
    if samples < LEAST:
        message = f"{samples} samples are too few to say anything of a twentieth of them: take {LEAST} at least"
        raise SurfaceError(message)
    if seed < 0:
        message = f"seed {seed} is below zero: take any whole number from 0 on"
        raise SurfaceError(message)
    too_many(samples, MOST, "samples")
    from scipy.stats import qmc

    points = qmc.LatinHypercube(len(spreads), rng=seed).random(samples)
    return {spread.key: spread.at(chance) for spread, chance in zip(spreads, points.T, strict=True)}


def scatter(
    surface: Surface,
    tolerances: Mapping[str, str] | None = None,
    *,
    samples: int = SAMPLES,
    seed: int = 1,
    executor: Executor | None = None,
    chunk: int = CHUNK,
    progress: bool | None = None,
    table: str | os.PathLike[str] | None = None,
) -> Scatter:
    """Work a surface again and again with its numbers varied within their tolerances.

    Parameters
    ----------
    surface : Surface
        As read.
    tolerances : mapping of str to str, optional
        By key or pattern: ``{"sheet.*.thickness": "0.02 mm", "rivet.large.shear": "8 % bell"}``. What is not named has
        the tolerance in its bracket, or that of a small table: sheet thickness, holes, edges and pitches vary.
    samples : int
        How many [-].
    seed : int
        The same seed gives the same samples [-].
    executor : concurrent.futures.Executor, optional
        Who works them; this process where there is none.
    chunk : int
        Samples a chunk at most; changes no number [-].
    progress : bool, optional
        Whether a bar shows how far it is; where not said, on a terminal only.
    table : str or path, optional
        File that takes every sample as a row, as :func:`write_sweep` writes it.

    Returns
    -------
    Scatter
        A distribution of margins is no chance of failure: loads, strengths and the method do not vary.

    Raises
    ------
    SurfaceError
        As :func:`spreads_of` and :func:`samples_of`; where no margin is known, or not one sample can exist.
    """
    given = assess(surface)
    spreads = spreads_of(surface, tolerances)
    numbers = samples_of(spreads, samples, seed)
    if not given.margins:
        message = "no margin is known yet, so none can scatter: give the strengths that the list of gaps names"
        raise SurfaceError(message)
    study = sweep(surface, numbers, "all")
    with nullcontext() if table is None else closing(sweep_file(table)) as out:
        each = None if out is None else lambda part: out.write(row_columns(study, part))
        found = swept(study, executor, chunk=chunk, progress=progress, each=each)
    good = _finished(found)
    if found.stopped and not good.any():
        raise KeyboardInterrupt(NOTHING)
    if not good.any():
        message = f"not one of the samples can be worked ({found.why[0]}): are the tolerances right?"
        raise SurfaceError(message)
    numbers = {key: values[good] for key, values in numbers.items()}
    lowest, *margins = _margins(given, found, good, numbers)
    return Scatter(
        surface=surface,
        spreads=spreads,
        seed=seed,
        asked=good.size,
        numbers=numbers,
        margins=tuple(sorted(margins, key=lambda one: one.at(TWENTIETH))),
        lowest=lowest,
        governs=_governs(found, good),
        rules=rule_scatter(given.rules, with_numbers(surface, numbers)),
        why={v: why for v, why in found.why.items() if v < good.size},
        not_varied=_not_varied(surface, spreads),
        stopped=found.stopped,
    )


def _finished(found: Swept) -> NDArray[np.bool_]:
    """Tell which samples can be used: worked, and before the first that was left when it was stopped."""
    good: NDArray[np.bool_] = np.logical_and.accumulate(found.done)
    good[[v for v in found.why if v < good.size]] = False
    return good


def _margins(
    given: Assessment, found: Swept, good: NDArray[np.bool_], numbers: Mapping[str, Array]
) -> list[MarginScatter]:
    """Give the lowest margin anywhere, then every margin, each with what drives it."""
    base = {f"{f.check.place}:{f.check.mode}": f.margin for f in given.findings if f.kind == "margin"}
    first = given.margins[0].margin
    rows = [("lowest margin anywhere", "", "", first, found.lowest[good])]
    for column in found.sweep.columns:
        values, now = found.margins[column.name][good], base.get(column.name)
        if now is not None and np.isfinite(values).any():
            rows.append((column.name, column.part, column.gives, now, values))
    keys = list(numbers)
    ranks, shares = drives(np.array(list(numbers.values())), np.array([values for *_, values in rows]))
    out = []
    for (name, part, gives, now, values), rank, share in zip(rows, ranks, shares, strict=True):
        order = np.argsort(-share, kind="stable")
        drivers = tuple(Driver(keys[k], float(share[k]), float(rank[k])) for k in order if share[k] > 0.0)
        out.append(MarginScatter(name, part, gives, float(now or 0.0), values, drivers))
    return out


def _governs(found: Swept, good: NDArray[np.bool_]) -> dict[str, float]:
    """Share of the samples in which each check has the lowest margin, largest first; spots of a part together."""
    names, counts = np.unique(found.governs[good].astype(str), return_counts=True)
    shares: dict[str, float] = {}
    for name, count in zip(names.tolist(), counts.tolist(), strict=True):
        place, _, mode = name.partition(":")
        fits = [c.name for c in found.sweep.columns if c.mode == mode and f"{place}.".startswith(f"{c.place}.")]
        check = max(fits, key=len, default=name)
        shares[check] = shares.get(check, 0.0) + count / int(good.sum())
    return dict(sorted(shares.items(), key=lambda one: -one[1]))


def _not_varied(surface: Surface, spreads: Sequence[Spread]) -> tuple[str, ...]:
    """Strengths of rivets that are known and stay what they are."""
    varied = {spread.key for spread in spreads}
    places = number_places(surface).items()
    return tuple(key for key, p in places if kind_of(key) == "strength" and p.value.known and key not in varied)
