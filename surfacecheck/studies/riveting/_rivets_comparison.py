"""A comparison of rivets: every alternative of every row, one by one and taken together."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.errors import SurfaceError
from surfacecheck.masses import GRAVITY
from surfacecheck.provenance import UNKNOWN, Value
from surfacecheck.quantities import show
from surfacecheck.studies.riveting._rivets_bench import Bought, bought
from surfacecheck.studies.riveting._rivets_best import unbeaten
from surfacecheck.studies.riveting._rivets_fill import with_rivet
from surfacecheck.studies.riveting._rivets_given import AXES, Alternatives, Space
from surfacecheck.studies.riveting._rivets_kinds import with_head
from surfacecheck.studies.riveting._rivets_together import Together, together
from surfacecheck.studies.riveting._rivets_work import with_edge

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.model import Row, Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies.bench._takeoff_basis import Work
    from surfacecheck.studies.riveting._rivets_row import RowTable

    Array = NDArray[np.float64]

__all__ = ["RivetComparison"]


@dataclass(frozen=True, eq=False, repr=False)
class RivetComparison:
    """Every alternative of one or several rows.

    Attributes
    ----------
    assessment : Assessment
        The surface as drawn.
    alternatives : Alternatives
        The lists.
    spaces : tuple of Space
        Spacings, those of holes that are there already among them.
    sheets : tuple of Assessment
        The surface with each thickness of sheet; that as drawn alone where none was asked for.
    rows : tuple of RowTable
        A alternatives each, in the order of ``AXES``, the last varying fastest.
    drawn : tuple of RowTable
        Each row as drawn, one alternative.
    drilled : bool
        Whether a row is drilled already.
    work : Work
        Minutes a hole and a rivet.
    apart : tuple of str
        Rows of which single rivets are not as the row says: they are taken as it says.
    stopped : bool
        Whether it was interrupted; then it holds what was finished.
    """

    assessment: Assessment
    alternatives: Alternatives
    spaces: tuple[Space, ...]
    sheets: tuple[Assessment, ...]
    rows: tuple[RowTable, ...]
    drawn: tuple[RowTable, ...]
    drilled: bool
    work: Work
    apart: tuple[str, ...] = ()
    stopped: bool = False
    _bought: dict[tuple[int, int, int], Bought | None] = field(default_factory=dict, repr=False)

    def __repr__(self) -> str:
        """Name the rows and the number of alternatives."""
        names = ", ".join(table.row.name.replace("_", " ") for table in self.rows)
        return f"<RivetComparison of {names}: {self.size} alternatives>"

    def said(self, alternative: int = 0, system: System = "metric") -> str:
        """Say what one alternative comes to.

        Parameters
        ----------
        alternative : int
            Which [-].
        system : {"metric", "inch"}
            Units.

        Returns
        -------
        str
            Rivets, real pitch, margin, what gives first; or why it cannot be.
        """
        from surfacecheck.studies.riveting._rivets_tables import alternative_words

        return alternative_words(self, alternative, system)

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.riveting._rivets_shown import rivets_text

        return rivets_text(self)

    def _repr_html_(self) -> str:
        from surfacecheck.studies.riveting._rivets_shown import rivets_html

        return rivets_html(self)

    @property
    def surface(self) -> Surface:
        """As drawn."""
        return self.assessment.surface

    @property
    def size(self) -> int:
        """Alternatives that are here [-]."""
        return int(self.rows[0].margin.size)

    @property
    def asked(self) -> int:
        """Alternatives that were asked for [-]; as many as are here where it was not stopped."""
        return math.prod(self.shape)

    @cached_property
    def choice(self) -> NDArray[np.intp]:
        """For each alternative the first that has the same but for the spacing, shape (A,)."""
        first = np.arange(self.asked).reshape(self.shape)[:, :, :, :, :1, :]
        return np.broadcast_to(first, self.shape).reshape(-1)[: self.size]

    @property
    def shape(self) -> tuple[int, ...]:
        """How many were asked for along each of ``AXES``."""
        given = dict(zip(AXES, self.alternatives.shape, strict=True))
        return tuple((given | {"space": len(self.spaces)}).values())

    @cached_property
    def whole(self) -> Together:
        """Every alternative, the same in all rows."""
        rivets_alone = self.together(np.arange(self.size)[:, None].repeat(len(self.rows), axis=1))
        mass, first = self._of_sheet()
        return replace(rivets_alone, mass=rivets_alone.mass + mass, moment=rivets_alone.moment + first * GRAVITY)

    def _of_sheet(self) -> tuple[Array, Array]:
        """Give what another sheet adds to each alternative: mass [kg], and its moment [kg m]."""
        was = _pieces(self.assessment)
        more = np.array([[now - then for now, then in zip(_pieces(one), was, strict=True)] for one in self.sheets])
        each = self.asked // self.shape[0]
        return tuple(np.repeat(more[:, i], each)[: self.size] for i in (0, 1))  # type: ignore[return-value]

    @cached_property
    def as_drawn(self) -> Together:
        """The rows as drawn, one way."""
        return together(self.drawn, np.zeros((1, len(self.drawn)), dtype=np.intp), self.work)

    @cached_property
    def best(self) -> NDArray[np.bool_]:
        """Alternatives that nothing else beats in all of :data:`CRITERIA`, shape (A,).

        What breaks more rules never beats what breaks fewer, nor does a rivet of unknown strength beat one of known.
        """
        return _unbeaten(self.whole)

    def together(self, chosen: NDArray[np.intp]) -> Together:
        """Take the rows together, each with an alternative of its own.

        Parameters
        ----------
        chosen : ndarray of int, shape (V, R)
            For every row which alternative [-].

        Returns
        -------
        Together
            V ways; at fixed loads rows are independent: margins are the least, numbers and masses sums.
        """
        return together(self.rows, chosen, self.work)

    def bought(self, alternative: int) -> Bought | None:
        """Give what an alternative is bought as; the same for all of one rivet, head and sheet.

        Parameters
        ----------
        alternative : int
            Which [-].

        Returns
        -------
        Bought or None
            None where no file can say the alternative.
        """
        at = self.index(alternative)
        key = at["sheet"], at["rivet"], at["head"]
        if self._bought.get(key) is None:
            self._bought[key] = bought(self, alternative)
        return self._bought[key]

    def index(self, alternative: int) -> dict[str, int]:
        """Give where an alternative stands along each of ``AXES``."""
        return dict(zip(AXES, (int(i) for i in np.unravel_index(alternative, self.shape)), strict=True))

    def surface_of(self, alternative: int) -> Surface:
        """Give the whole surface with an alternative, to be assessed or compared.

        Parameters
        ----------
        alternative : int
            Which [-].

        Returns
        -------
        Surface
            As drawn but for these rows, and the sheet under them where another was asked for.

        Raises
        ------
        SurfaceError
            Where it cannot be, or leaves rivets out in a way that no file can say.
        """
        at = self.index(alternative)
        surface = self.sheets[at["sheet"]].surface
        for table in self.rows:
            why = table.reasons[table.why[alternative]]
            if why:
                message = f"row.{table.row.name}: {why}"
                raise SurfaceError(message)
            surface = self._one_row(surface, table, alternative, at)
        return surface

    def _one_row(self, surface: Surface, table: RowTable, alternative: int, at: dict[str, int]) -> Surface:
        kind = table.blocks[at["sheet"], at["rivet"], at["head"]].kind
        assert kind.rivet is not None  # noqa: S101 - it can be
        head = self.alternatives.head
        row = surface.rows[table.row.name]
        lines = int(table.lines[alternative])
        row = with_edge(replace(row, lines=lines), (self.alternatives.edge or (None,))[at["edge"]])
        row = _spaced(row, self.spaces[at["space"]], table, alternative)
        return with_rivet(surface, row, with_head(kind.rivet, None if head is None else head[at["head"]]))[0]


def _pieces(assessment: Assessment) -> tuple[float, float]:
    pieces = assessment.masses.pieces
    return sum(float(one.mass) for one in pieces), sum(float(one.first) for one in pieces)


def _spaced(row: Row, space: Space, table: RowTable, alternative: int) -> Row:
    words = table.laid.words[table.layout[alternative]]
    if "wide" in words:
        message = f"row.{row.name}: with {words}, its rivets are not evenly spread; no file can say that"
        raise SurfaceError(message)
    if words or space.pitch is not None:
        pitch = float(table.pitch[alternative]) if words else float(space.pitch or 0.0)
        return replace(row, pitch=Value(pitch, show(pitch, "length"), key=f"row.{row.name}.pitch"), count=None)
    return row if space.count is None else replace(row, count=space.count, pitch=UNKNOWN)


def _unbeaten(whole: Together) -> NDArray[np.bool_]:
    margin = np.where(whole.possible, np.nan_to_num(whole.margin, nan=-np.inf), np.nan)
    mass = np.where(np.isnan(whole.mass), np.inf, whole.mass)
    return unbeaten(margin, -whole.count, -mass, whole.known, -whole.broken)
