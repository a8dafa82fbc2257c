"""Fill the tables of one row, block by block: a sheet, a rivet, a head."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.masses import rivet_mass
from surfacecheck.model import HeadKind
from surfacecheck.provenance import UNKNOWN, plain
from surfacecheck.rules import length, short_of
from surfacecheck.studies.bench._takeoff import takeoff
from surfacecheck.studies.riveting._rivets_kinds import kinds_of, with_head
from surfacecheck.studies.riveting._rivets_laid import lay_out
from surfacecheck.studies.riveting._rivets_load import front_of
from surfacecheck.studies.riveting._rivets_mass import arms_of
from surfacecheck.studies.riveting._rivets_room import impossible
from surfacecheck.studies.riveting._rivets_row import Block, RowTable
from surfacecheck.studies.riveting._rivets_rules import judge
from surfacecheck.studies.riveting._rivets_work import Setting, margins_of
from surfacecheck.studies.riveting._rivets_zero import zero_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import RowPlan
    from surfacecheck.model import Rivet, Row, Surface
    from surfacecheck.provenance import Value
    from surfacecheck.studies.riveting._rivets_given import Alternatives, Space
    from surfacecheck.studies.riveting._rivets_kinds import Kind
    from surfacecheck.studies.riveting._rivets_load import Front

    Array = NDArray[np.float64]

__all__ = ["RowFilling", "with_rivet"]

_FIGURES = (
    "margin", "then", "must_shear", "must_pull", "lifts", "pitch", "ruling", "closest", "mass", "arm", "zero_pitch",
    "zero_count",
)  # fmt: skip
_NUMBERS = ("count", "total", "lines", "layout", "spot", "why")
_WAYS = ("gives", "next_", "zero_gives")
_BITS = ("not_met", "not_covered")
SHEET_STAYS = "its holes are there already: the sheet is what it is"
NOT_WORKED = "its load cannot be worked: the sheets it joins, or their places, are not given"


SAME_SHEET = 1e-6
"""Share by which two thicknesses may differ and be the same sheet: no more than how they were typed [-]."""


class _Filling:
    """Tables of shape (T, K, H, N, P, E) while they are being filled."""

    def __init__(self, shape: tuple[int, ...]) -> None:
        self.tables: dict[str, NDArray[Any]] = {name: np.full(shape, np.nan) for name in _FIGURES}
        self.tables |= {name: np.zeros(shape, dtype=np.intp) for name in _NUMBERS}
        self.tables |= {name: np.full(shape, -1) for name in _WAYS}
        self.tables |= {name: np.zeros(shape, dtype=np.uint16) for name in _BITS}
        self.tables |= {name: np.zeros(shape, dtype=bool) for name in ("outside", "shear_known", "pull_known")}
        self.modes: dict[tuple[str, str], int] = {}
        self.reasons: dict[str, int] = {"": 0}

    def because(self, at: tuple[Any, ...], reason: str, those: NDArray[np.bool_] | bool = True) -> None:
        """Write down why some cannot be, or of these those, where no reason stands yet."""
        why = self.tables["why"][at]
        self.tables["why"][at] = np.where((why == 0) & those, self.reasons.setdefault(reason, len(self.reasons)), why)

    def ways(self, modes: Sequence[tuple[str, str]], which: NDArray[np.intp]) -> NDArray[np.intp]:
        """Turn ways to give of one block into those of the whole table."""
        return np.array([*(self.modes.setdefault(one, len(self.modes)) for one in modes), -1])[which]

    def put(self, at: tuple[int, int, int], laid: NDArray[np.intp], **values: Any) -> None:
        """Write figures over (layouts, edges), or over layouts, where the alternatives can be; ``laid`` is (N, P)."""
        here = self.tables["why"][at] == 0
        n, p, e = np.nonzero(here)
        for name, value in values.items():
            array = np.asarray(value)
            picked = array[laid[n, p], e] if array.ndim == 2 else array[laid[n, p]] if array.ndim else array
            self.tables[name][at][n, p, e] = picked


def with_rivet(surface: Surface, row: Row, rivet: Rivet) -> tuple[Surface, Row]:
    """Put a rivet into part D and into a row.

    Parameters
    ----------
    surface : Surface
        As drawn.
    row : Row
        Of that surface, perhaps changed already.
    rivet : Rivet
        Which one, by its own name.

    Returns
    -------
    tuple of (Surface, Row)
        With it.
    """
    one = replace(row, rivet=rivet.name)
    return replace(surface, rivets=surface.rivets | {rivet.name: rivet}, rows=surface.rows | {row.name: one}), one


class RowFilling:
    """One row, worked block by block.

    Parameters
    ----------
    drawn : Surface
        With the first thickness of sheet.
    name : str
        Of the row.
    alternatives : Alternatives
        Lists to compare.
    spaces : sequence of Space
        Spacings; of a row that is drilled, those of its holes among them.
    holes : RowPlan or None
        Where it is drilled already.
    """

    def __init__(
        self, drawn: Surface, name: str, alternatives: Alternatives, spaces: Sequence[Space], holes: RowPlan | None
    ) -> None:
        row = drawn.rows[name]
        self.row, self.alternatives = row, alternatives
        self.laid = lay_out(drawn, row, spaces, alternatives.lines or (row.lines or 1,), holes)
        self.kinds, self.heads = kinds_of(drawn, row, alternatives), alternatives.head or (None,)
        sheets, edges = len(alternatives.sheet or (None,)), len(alternatives.edge or (None,))
        self.filling = _Filling((sheets, len(self.kinds), len(self.heads), *self.laid.at.shape, edges))
        for (n, p), why in self.laid.why.items():
            self.filling.because((slice(None), slice(None), slice(None), n, p), why)
        self.fronts: dict[int, Front | None] = {}
        self.arms, self.layers = arms_of(drawn, row, self.laid.plans), _layers(drawn, row)
        self.blocks: dict[tuple[int, int, int], Block] = {}
        self.holes, self.drilled = holes, None if holes is None else drawn.rivets.get(row.rivet)

    def sheet_stays(self, drawn: Surface) -> None:
        """Refuse another sheet under the head of a row that is drilled already.

        Parameters
        ----------
        drawn : Surface
            With the sheet that is there.
        """
        was = _sheet(drawn, self.row.joins[0]) if self.row.joins else UNKNOWN
        for t, thickness in enumerate(self.alternatives.sheet or () if self.holes is not None else ()):
            if not (was.known and abs(plain(was) / thickness - 1.0) < SAME_SHEET):
                self.filling.because((t,), SHEET_STAYS)

    def block(self, assessment: Assessment, at: tuple[int, int, int]) -> None:
        """Work one sheet, rivet and head.

        Parameters
        ----------
        assessment : Assessment
            With that thickness of sheet, otherwise as drawn.
        at : tuple of (int, int, int)
            Which sheet, rivet and head.
        """
        t, k, h = at
        surface, laid = assessment.surface, self.laid
        setting = _setting(surface, self.row.name, self.kinds[k], self.heads[h], self.alternatives)
        self.blocks[at] = Block(self.kinds[k], setting)
        if not laid.plans:
            return
        if t not in self.fronts:
            self.fronts[t] = front_of(assessment, surface.rows[self.row.name], laid.plans)
        front = self.fronts[t]
        if setting is None or front is None:
            self.filling.because(at, self.kinds[k].why or NOT_WORKED)
            return
        _refuse(self.filling, at, setting, front, laid.closest, laid.at, self.drilled)
        _fill(self.filling, at, setting, front, assessment, laid.closest, laid.at, self.arms)

    def table(self, blocks: Sequence[tuple[int, int, int]]) -> RowTable:
        """Give what was worked.

        Parameters
        ----------
        blocks : sequence of (int, int, int)
            The first that were finished, in the order of ``AXES``.

        Returns
        -------
        RowTable
            Their alternatives; one that cannot be says why.
        """
        tables = self.filling.tables
        some = len(blocks) * tables["why"][0, 0, 0].size
        return RowTable(
            row=self.row, laid=self.laid, kinds=self.kinds, blocks={at: self.blocks[at] for at in blocks},
            modes=tuple(self.filling.modes), reasons=tuple(self.filling.reasons), layers=self.layers,
            **{key: values.reshape(-1)[:some] for key, values in tables.items()},
        )  # fmt: skip


def _sheet(surface: Surface, name: str) -> Value:
    """Give the thickness of a sheet or a doubler."""
    part = surface.sheet.doublers.get(name) or getattr(surface.sheet, name, None)
    return UNKNOWN if part is None else part.thickness


def _layers(surface: Surface, row: Row) -> float:
    """Give the sheets a rivet goes through, on the mean of the row as drawn."""
    here = [one for one in takeoff(surface).rows if one.stretch.seats.place == f"row.{row.name}"]
    count = sum(one.count for one in here)
    return sum(one.holes for one in here) / count if count else float(len(row.joins))


def _setting(surface: Surface, name: str, kind: Kind, head: str | None, alternatives: Alternatives) -> Setting | None:
    if kind.rivet is None:
        return None
    inside, row = with_rivet(surface, surface.rows[name], with_head(kind.rivet, head))
    return Setting(inside, row, inside.rivets[row.rivet], tuple(alternatives.edge or (None,)))


def _refuse(
    filling: _Filling,
    at: tuple[int, int, int],
    setting: Setting,
    front: Front,
    closest: Array,
    layout: NDArray[np.intp],
    drilled: Rivet | None,
) -> None:
    """Say of one rivet where it cannot go."""
    shape = len(front.plans), len(setting.edges)
    for those, why in impossible(setting, front, closest):
        filling.because(at, why, np.broadcast_to(those, shape)[layout])
    if drilled is not None and (why := _not_in_holes(setting, drilled)):
        filling.because(at, why)


def _not_in_holes(setting: Setting, was: Rivet | None) -> str:
    """Say that a rivet is too thin for the holes that are there, or that an edge or a sunk hole is what it is.

    A larger rivet can be, holes are drilled up; so can a sunk head in a plain hole, which is cut or dimpled.
    """
    if was is not None and was.sunk and setting.rivet.head_kind is not was.head_kind:
        head = setting.rivet.head_kind or HeadKind.PROTRUDING
        return f"its holes are {was.head_kind} already, no {head} head"
    if setting.edges != (None,):
        return "its holes are there already: the edge distance is what it is"
    rivet = setting.rivet
    widest = rivet.hole_range[-1] if rivet.hole_range else rivet.hole
    if was is None or not (was.hole.known and widest.known) or not short_of(plain(widest), plain(was.hole)):
        return ""
    return f"its holes of {length(plain(was.hole))} are there already; {rivet.name} goes into {length(plain(widest))}"


def _fill(
    filling: _Filling,
    at: tuple[int, int, int],
    setting: Setting,
    front: Front,
    assessment: Assessment,
    closest: Array,
    layout: NDArray[np.intp],
    arms: Array,
) -> None:
    """Work the figures of one rivet."""
    if (filling.tables["why"][at] != 0).all():
        return
    found, judged, plans = margins_of(front, setting), judge(setting, front, closest), front.plans
    zero = zero_of(assessment, front, setting, [max(line, default=-1) for line in layout.tolist()])
    total = np.array([plan.total for plan in plans])
    sunk = setting.rivet.head_kind is HeadKind.COUNTERSUNK  # what its sheet bears may be the lowest
    filling.put(
        at, layout,
        margin=np.where(np.isinf(found.lowest) & (found.gives < 0), np.nan, found.lowest),
        then=np.where(found.next_ < 0, np.nan, found.then),
        gives=filling.ways(found.modes, found.gives), next_=filling.ways(found.modes, found.next_),
        outside=found.outside | sunk, shear_known=found.shear_known, pull_known=found.pull_known, spot=found.spot,
        must_shear=found.must_shear, must_pull=found.must_pull,
        lifts=np.full(len(plans), np.nan) if found.lifts is None else found.lifts,
        pitch=front.pitch, ruling=front.ruling(found.spot), closest=closest,
        count=np.array([plan.count for plan in plans]), total=total, lines=np.array([plan.lines for plan in plans]),
        layout=np.arange(len(plans)),
        mass=total * _one_weighs(setting), arm=arms, not_met=judged.not_met, not_covered=judged.not_covered,
    )  # fmt: skip
    shape = filling.tables["why"][at].shape
    for name in ("pitch", "count", "gives"):
        value = getattr(zero, name)
        value = filling.ways(found.modes, value) if name == "gives" else value
        filling.tables[f"zero_{name}"][at] = np.broadcast_to(value[:, None, :], shape)


def _one_weighs(setting: Setting) -> float:
    one = rivet_mass(setting.surface, setting.rivet.name)
    return plain(one) if one.known else float("nan")
