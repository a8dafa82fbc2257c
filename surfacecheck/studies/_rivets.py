"""Rivets of one or several rows compared: every alternative, worked at the loads of the surface as drawn."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.masses import GRAVITY
from surfacecheck.model import Surface
from surfacecheck.provenance import UNKNOWN, Value
from surfacecheck.quantities import show
from surfacecheck.studies._rivets_bench import Bought, bought
from surfacecheck.studies._rivets_best import unbeaten
from surfacecheck.studies._rivets_fill import Watch, row_table, with_rivet
from surfacecheck.studies._rivets_given import AXES, MOST, Alternatives, Space, looked_at
from surfacecheck.studies._rivets_kinds import with_head
from surfacecheck.studies._rivets_laid import by_count, holes_of
from surfacecheck.studies._rivets_work import with_edge
from surfacecheck.studies._row_layout import most_left_out
from surfacecheck.studies._takeoff_basis import Work

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from surfacecheck.assessment import Assessment
    from surfacecheck.checks import RowPlan
    from surfacecheck.model import Row
    from surfacecheck.studies._rivets_row import RowTable

    Array = NDArray[np.float64]

__all__ = ["RivetComparison", "Together", "rivets"]


@dataclass(frozen=True, eq=False)
class Together:
    """Several rows taken together, V ways.

    Attributes
    ----------
    margin : ndarray, shape (V,)
        The lowest of the rows [-]; not a number where none is given, or one of them cannot be.
    row : ndarray of int, shape (V,)
        Which row that is.
    count : ndarray of int, shape (V,)
        Rivets.
    mass, moment : ndarray, shape (V,)
        Of the rivets, and what another sheet adds [kg]; about the pins, tail-heavy [N m].
    minutes : ndarray, shape (V,)
        Of drilling and setting these rows [min].
    known : ndarray of int, shape (V,)
        Strengths of the rivets that are given, of two for each row.
    broken : ndarray of int, shape (V,)
        Rules that are not met, counted row by row.
    possible : ndarray of bool, shape (V,)
        Whether every row can be.
    """

    margin: Array
    row: NDArray[np.intp]
    count: NDArray[np.intp]
    mass: Array
    moment: Array
    minutes: Array
    known: NDArray[np.intp]
    broken: NDArray[np.intp]
    possible: NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
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
    """

    assessment: Assessment
    alternatives: Alternatives
    spaces: tuple[Space, ...]
    sheets: tuple[Assessment, ...]
    rows: tuple[RowTable, ...]
    drawn: tuple[RowTable, ...]
    drilled: bool
    work: Work
    _bought: dict[tuple[int, int, int], Bought | None] = field(default_factory=dict, repr=False)

    @property
    def surface(self) -> Surface:
        """As drawn."""
        return self.assessment.surface

    @property
    def size(self) -> int:
        """Alternatives [-]."""
        return int(self.rows[0].margin.size)

    @property
    def shape(self) -> tuple[int, ...]:
        """How many there are along each of ``AXES``."""
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
        return tuple(np.repeat(more[:, i], self.size // len(self.sheets)) for i in (0, 1))  # type: ignore[return-value]

    @cached_property
    def as_drawn(self) -> Together:
        """The rows as drawn, one way."""
        return _together(self.drawn, np.zeros((1, len(self.drawn)), dtype=np.intp), self.work)

    @cached_property
    def best(self) -> NDArray[np.bool_]:
        """Alternatives that nothing else beats in margin, number and mass, shape (A,).

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
        return _together(self.rows, chosen, self.work)

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


def _together(rows: Sequence[RowTable], chosen: NDArray[np.intp], work: Work) -> Together:
    """Gather from the tables of the rows: the least margin, the sums of the rest."""
    at = list(zip(rows, chosen.T, strict=True))
    possible = np.logical_and.reduce([one.possible[i] for one, i in at])
    margins = np.stack([np.where(np.isnan(one.margin[i]), np.inf, one.margin[i]) for one, i in at])
    margin = margins.min(axis=0)
    masses = [one.mass[i] for one, i in at]
    return Together(
        margin=np.where(possible & np.isfinite(margin), margin, np.nan),
        row=margins.argmin(axis=0),
        count=np.add.reduce([one.total[i] for one, i in at]),
        mass=np.add.reduce(masses),
        moment=np.add.reduce([mass * one.arm[i] for mass, (one, i) in zip(masses, at, strict=True)]) * GRAVITY,
        minutes=np.add.reduce([work.hole * one.holes[i] + work.rivet * one.total[i] for one, i in at]),
        known=np.add.reduce([one.shear_known[i].astype(np.intp) + one.pull_known[i] for one, i in at]),
        broken=np.add.reduce([np.bitwise_count(one.not_met[i]).astype(np.intp) for one, i in at]),
        possible=possible,
    )


def _unbeaten(whole: Together) -> NDArray[np.bool_]:
    margin = np.where(whole.possible, np.nan_to_num(whole.margin, nan=-np.inf), np.nan)
    mass = np.where(np.isnan(whole.mass), np.inf, whole.mass)
    return unbeaten(margin, -whole.count, -mass, whole.known, -whole.broken)


def rivets(
    surface: Surface | Assessment,
    rows: str | Sequence[str],
    alternatives: Alternatives,
    *,
    drilled_at: float | None = None,
    most: int = MOST,
    work: Work | None = None,
    watch: Watch = iter,
) -> RivetComparison:
    """Compare alternatives for the rivets of one or several rows.

    Parameters
    ----------
    surface : Surface or Assessment
        As drawn, perhaps half-filled.
    rows : str or sequence of str
        Names of rows, as in the file or in words. Each alternative is taken by all of them.
    alternatives : Alternatives
        Lists of pitch, rivet and more; the alternatives are their product.
    drilled_at : float, optional
        Pitch at which these rows are drilled already, where the file does not say so [m].
    most : int
        How many alternatives may be worked without asking [-].
    work : Work, optional
        Minutes a hole and a rivet; invented for the demo where they are not given.
    watch : callable
        Told of every rivet, head and sheet of a row as it is worked, as ``tqdm`` is.

    Returns
    -------
    RivetComparison
        Margins, rules, numbers and masses of every alternative; one that cannot be says why.

    Raises
    ------
    SurfaceError
        For a row or a rivet that is not there, an empty list, more alternatives than ``most``.

    Notes
    -----
    The loads are those of the surface as drawn: rivets do not change where a load goes. What a rivet more or less
    weighs is not followed into the cases that read the mass. Where the sheet changes, loads do, and the whole surface
    is worked again for each thickness.

    References
    ----------
    Each check and each rule names its own.

    Examples
    --------
    >>> import surfacecheck
    >>> demo = surfacecheck.read("data/rudder.toml")  # doctest: +SKIP
    >>> found = rivets(demo, "left_skin_to_spar", Alternatives(pitch=(0.025, 0.030)))  # doctest: +SKIP
    >>> found.whole.count.tolist()  # doctest: +SKIP
    [43, 36]
    """
    given = surface if not isinstance(surface, Surface) else None
    drawn = surface if isinstance(surface, Surface) else surface.surface
    names = _rows(drawn, (rows,) if isinstance(rows, str) else rows)
    looked_at(alternatives, most)
    _look_at_counts(drawn, names, alternatives)
    filled = _with_a_pitch(drawn, names, alternatives)
    base = given if given is not None and filled is drawn else assess(filled)
    holes = {name: holes_of(filled, filled.rows[name], drilled_at) for name in names}
    spaces = _spaces(alternatives, tuple(holes.values()))
    looked_at(alternatives, most, len(spaces) - len(alternatives.spaces))
    sheets = tuple(assess(_with_sheet(filled, names, t)) for t in alternatives.sheet or ()) or (base,)
    as_drawn = Alternatives()
    return RivetComparison(
        assessment=base,
        alternatives=alternatives,
        spaces=spaces,
        sheets=sheets,
        rows=tuple(row_table(sheets, name, alternatives, spaces, holes[name], watch) for name in names),
        drawn=tuple(row_table((base,), name, as_drawn, (Space(),), None) for name in names),
        drilled=any(one is not None for one in holes.values()),
        work=work or Work(),
    )


def _rows(surface: Surface, asked: Sequence[str]) -> tuple[str, ...]:
    if not asked:
        message = f"no row is named; here: {', '.join(surface.rows) or 'none'}"
        raise SurfaceError(message)
    return tuple(dict.fromkeys(_row(surface, one) for one in asked))


def _row(surface: Surface, asked: str) -> str:
    plain = {name.replace("_", " ").casefold(): name for name in surface.rows}
    wanted = asked.removeprefix("row.").replace("_", " ").strip().casefold()
    if wanted in plain:
        return plain[wanted]
    near = get_close_matches(wanted, plain, n=1, cutoff=0.4)
    hint = f" Nearest: {plain[near[0]]}." if near else ""
    message = f'no row is called "{asked}".{hint} Here: {", ".join(surface.rows) or "none"}'
    raise SurfaceError(message)


def _look_at_counts(surface: Surface, names: Sequence[str], alternatives: Alternatives) -> None:
    """Refuse a list of pitches alone for a row that has none."""
    if alternatives.pitch is None or alternatives.count is not None:
        return
    for name in names:
        if by_count(surface, surface.rows[name]):
            message = f"row.{name} goes by a number of rivets on each rib, not by a pitch: give count instead of pitch"
            raise SurfaceError(message)


def _with_a_pitch(surface: Surface, names: Sequence[str], alternatives: Alternatives) -> Surface:
    """Give a row whose pitch nobody knows the first that is to be compared, so that its loads can be worked."""
    rows = {}
    for name in names:
        row, first = surface.rows[name], alternatives.spaces[0]
        if not row.pitch.known and row.count is None and first != Space():
            pitch = UNKNOWN if first.pitch is None else Value(first.pitch, show(first.pitch, "length"))
            rows[name] = replace(row, pitch=pitch, count=first.count)
    return replace(surface, rows=surface.rows | rows) if rows else surface


def _spaces(alternatives: Alternatives, holes: Sequence[RowPlan | None]) -> tuple[Space, ...]:
    """Add what leaving rivets out of holes that are there comes to."""
    there = [one for one in holes if one is not None and one.pitch > 0.0]
    found = list(alternatives.spaces if alternatives.spaces != (Space(),) or not there else ())
    asked = tuple(alternatives.pitch or ())
    for one in there:
        most = min(most_left_out(asked, one.pitch), int(one.count) - 1)
        every = (Space(pitch=k * one.pitch) for k in range(1, most + 1))
        found += [new for new in every if not any(_alike(new, old) for old in found)]
    return tuple(found) or (Space(),)


def _alike(one: Space, other: Space) -> bool:
    return one.pitch is not None and other.pitch is not None and abs(one.pitch / other.pitch - 1.0) < 0.02


def _with_sheet(surface: Surface, names: Sequence[str], thickness: float) -> Surface:
    """Change the sheet under the head of every row."""
    sheet = surface.sheet
    for name in dict.fromkeys(surface.rows[row].joins[0] for row in names if surface.rows[row].joins):
        value = Value(thickness, show(thickness, "length"), key=f"sheet.{name}.thickness")
        if name in sheet.doublers:
            doubler = replace(sheet.doublers[name], thickness=value)
            sheet = replace(sheet, doublers=sheet.doublers | {name: doubler})
        else:
            changed: dict[str, Any] = {name: replace(getattr(sheet, name), thickness=value)}
            sheet = replace(sheet, **changed)
    return replace(surface, sheet=sheet)
