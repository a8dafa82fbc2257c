"""Which doubtful inputs decide a low margin: what is worth measuring better.

Each doubtful number is made a little larger by itself and the whole chain is worked again, so that what goes into the
load and into how the hinges share it counts as much as what stands in the formula. A number of the shipped tables that
is from memory is changed in the formula it stands in.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import assess
from surfacecheck.checks import find, names_in
from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source, Value
from surfacecheck.studies._values import walk_values, with_value
from surfacecheck.studies.asking._deciding import SHOWN, Decided, Deciding, Moved, in_order

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import Check, Finding
    from surfacecheck.model import Surface

__all__ = ["decides"]

SHARE = 0.01
"""Step of a number, as a share of itself."""
_HALVINGS = 50
"""Of an interval from half to twice a load multiplier: enough for its last digit."""
STEPS = {
    "gives_sideways": (1e-7, "compliance"),
    "gives_fore_aft": (1e-7, "compliance"),
    "out_of_line": (1e-3, "length"),
    "out_of_line_aft": (1e-3, "length"),
    "fin_bends": (1e-3, "length"),
    "pins_off_middle": (1e-3, "length"),
    "leg_off_rivets": (1e-3, "length"),
    "bolt_behind": (1e-3, "length"),
    "paint": (0.1, "mass"),
}
"""Step of a number that is nought, by the last word of its key [SI]: sizes to look at, no tolerances."""


@dataclass(frozen=True, slots=True)
class _Input:
    """Lines of a surface that say the same of the same thing, and where they stand."""

    value: Value
    paths: tuple[tuple[str | int, ...], ...]

    @property
    def key(self) -> str:
        return self.value.key

    def step(self) -> tuple[float, str] | None:
        """Give share or amount of a step, and the quantity of an amount; None where no step is stated."""
        if not isinstance(self.value.si, float):
            return STEPS.get(self.key.rsplit(".", 1)[-1]) if self.value.absent else None
        return (SHARE, "") if self.value.si else STEPS.get(self.key.rsplit(".", 1)[-1])


def decides(assessment: Assessment, most: int = 5, trials: int = 16) -> Decided:
    """Find which doubtful inputs decide the lowest margins, and how much.

    Doubtful is what is guessed, said without how it is known, or from memory.

    Parameters
    ----------
    assessment : Assessment
        Worked; of one surface, without stacks.
    most : int
        How many of the lowest margins, one a part, are looked at.
    trials : int
        How many inputs are tried, each with one more run of the whole chain; those in the workings first.

    Returns
    -------
    Decided
        Inputs that move these margins, and those that do not.
    """
    lowest = assessment.lowest_by_part[:most]
    if not lowest:
        return Decided((), (), (), ())
    named = {term.key for f in lowest for term in f.check.terms.values() if term.key}
    inputs = sorted(_doubtful(assessment.surface), key=lambda one: one.key not in named)
    found, untried = _from_memory(lowest), list[str]()
    for one in inputs:
        step = one.step()
        if step is None or trials == 0:
            untried.append(one.key)
            continue
        trials -= 1
        tried = _try(assessment.surface, lowest, one, *step)
        if tried is None:
            untried.append(one.key)
        else:
            found.append(replace(tried, named=one.key in named))
    moving = [one for one in found if any(abs(move.by) >= SHOWN for move in one.moves)]
    moving.sort(key=lambda one: (one.nearest, -abs(one.moves[0].by)))
    still = tuple(one.key for one in found if one not in moving)
    return Decided(tuple(f.name for f in lowest), tuple(moving), still, tuple(untried))


def _doubtful(surface: Surface) -> list[_Input]:
    """List doubtful numbers of a surface; lines with the same words for the same thing are one."""
    found: dict[tuple[str, str, Source], _Input] = {}
    for path, value in walk_values(surface):
        if not value.key or not value.source.doubtful or not (value.known or value.absent):
            continue
        word = value.key.rsplit(".", 1)[-1] if isinstance(value.si, float) and value.si else value.key
        key = (word, value.said, value.source)
        before = found.get(key)
        found[key] = _Input(value, (path,)) if before is None else replace(before, paths=(*before.paths, path))
    return list(found.values())


def _try(surface: Surface, lowest: tuple[Finding, ...], one: _Input, step: float, quantity: str) -> Deciding | None:
    """Work the chain with one step more of an input, or one less where more cannot be worked."""
    si = float(np.asarray(one.value.si)) if one.value.known else 0.0
    for way in (step, -step):
        changed = surface
        for path in one.paths:
            stepped = replace(one.value, si=si + way * (1.0 if quantity else si), absent=False)
            changed = with_value(changed, path, stepped)
        try:
            again = {_name(f): f.margin for f in assess(changed).findings if f.kind == "margin"}
        except SurfaceError:
            continue
        moves = _moves(lowest, again, quantity)
        if moves:
            said, source = one.value.said, one.value.source
            return Deciding(one.key, said, source, len(one.paths), way, quantity, True, moves)
    return None


def _name(finding: Finding) -> tuple[str, str]:
    return finding.check.place, finding.check.mode


def _moves(
    lowest: tuple[Finding, ...], again: dict[tuple[str, str], float | None], quantity: str = ""
) -> tuple[Moved, ...]:
    moves = []
    for finding in lowest:
        after = again.get(_name(finding))
        if after is not None and finding.margin is not None and np.isfinite(after):
            moves.append(Moved(finding.name, finding.part, finding.gives, finding.margin, after))
    return in_order(moves, quantity)


def _from_memory(lowest: tuple[Finding, ...]) -> list[Deciding]:
    """Change numbers of the shipped tables that are from memory, in the formulas of these margins."""
    found: dict[str, Deciding] = {}
    for finding in lowest:
        check = finding.check
        for name, term in check.terms.items():
            if term.source.basis is not Basis.FROM_MEMORY or term.values is None:
                continue
            if check.proof and name not in names_in(check.proof):
                continue
            key = term.key or term.means
            larger = term._replace(values=term.values * (1.0 + SHARE))
            after = find(_solved(replace(check, terms={**check.terms, name: larger}))).margin
            moves = _moves((finding,), {_name(finding): after})
            if moves:
                before = found[key].moves if key in found else ()
                every = in_order((*before, *moves), "")
                found[key] = Deciding(key, "", term.source, 1, SHARE, "", True, every)
    return list(found.values())


def _solved(check: Check) -> Check:
    """Search a load multiplier anew where a letter was changed a little; what is used up grows with the load."""
    if not check.proof:
        return check
    lam = check.terms["lam"]

    def at(multiple: NDArray[np.float64]) -> Check:
        return replace(check, terms={**check.terms, "lam": lam._replace(values=multiple)})

    low, high = 0.5 * np.asarray(lam.values), 2.0 * np.asarray(lam.values)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        over = at(middle).work(check.proof) > 1.0
        low, high = np.where(over, low, middle), np.where(over, middle, high)
    return at(high)
