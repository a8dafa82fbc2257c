"""One rivet row on its own, without a file: flow times pitch, and what carries it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks import find_all
from surfacecheck.errors import SurfaceError
from surfacecheck.library import material
from surfacecheck.provenance import UNKNOWN, Value
from surfacecheck.rules import diameter_for_sheet, edge_distance, greatest_pitches, least_pitch, sheet_range
from surfacecheck.strength import fitting, inter_rivet
from surfacecheck.studies.single_row._row_checks import TYPED, Row, row_checks
from surfacecheck.studies.single_row._row_layout import layouts, look_apart

if TYPE_CHECKING:
    from collections.abc import Sequence

    from surfacecheck.checks import Finding
    from surfacecheck.library import Material
    from surfacecheck.rules import RuleResult
    from surfacecheck.strength import Factors

__all__ = ["FIXITY_RANGE", "LARGE", "RowOption", "RowStudy", "row_alone"]

FIXITY_RANGE = (2.0, 3.0)
"""End fixity c of the sheet between rivets [-]: nothing is published for blind rivets; 2 is the low end of practice,
3 the value of snap heads (ESDU 02.01.09, as quoted in secondary text)."""
LARGE = 1.0
"""Margin from which strength is said not to set a pitch: it would bear a pitch twice as wide [-]; our own choice."""

_MIN_LENGTH, _MAX_LENGTH = 0.2e-3, 1.0


@dataclass(frozen=True, eq=False)
class RowOption:
    """The row at one pitch.

    Attributes
    ----------
    asked : float
        Pitch asked for [m].
    pitch : float
        Real pitch [m].
    count : int or None
        Rivets, first and last included; None where no length was given.
    left_out : str
        Which holes stay empty, where the row is drilled already.
    load : float
        One rivet at limit [N].
    buckling : tuple of float, or None
        Compression along the row at which the sheet buckles between rivets, for c = 2 and 3 [Pa]; None without metal.
    strain : tuple of float
        The same as a strain [-], for any metal.
    findings : tuple of Finding
        Rivet and sheets.
    rules : tuple of RuleResult
        Edge, pitches, diameter, each with the field of its text.
    """

    asked: float
    pitch: float
    count: int | None
    left_out: str
    load: float
    buckling: tuple[float, float] | None
    strain: tuple[float, float]
    findings: tuple[Finding, ...]
    rules: tuple[RuleResult, ...]

    @property
    def lowest(self) -> Finding | None:
        """The finding with the lowest margin; None where no strength was given."""
        known = [f for f in self.findings if f.margin is not None]
        return min(known, key=lambda f: f.margin, default=None)  # type: ignore[arg-type, return-value]

    @property
    def must_carry(self) -> float:
        """What one rivet must be good for at ultimate [N]."""
        shear = next(f for f in self.findings if f.check.mode == "rivet-shear")
        assert shear.required is not None  # noqa: S101 - load and factor are always given here
        return shear.required

    def finding(self, mode: str) -> Finding | None:
        """Give the finding of a mode, ``rivet-shear`` or ``sheet-crush``; None where it was not looked at."""
        return next((f for f in self.findings if f.check.mode == mode), None)


@dataclass(frozen=True, eq=False)
class RowStudy:
    """A rivet row on its own, at one or several pitches.

    Attributes
    ----------
    options : tuple of RowOption
        Real pitches, in the order asked.
    diameter, sheet, load_per_length : float
        As given [m], [m], [N/m].
    length, drilled_at : float or None
        As given [m].
    alloy : str
        Metal of the sheet; empty where none was given.
    shear_given : bool
        Whether the strength of the rivet is known.
    factors : str
        The line of factors.
    assumptions : tuple of str
        What was taken for granted.
    """

    options: tuple[RowOption, ...]
    diameter: float
    sheet: float
    load_per_length: float
    length: float | None
    drilled_at: float | None
    alloy: str
    shear_given: bool
    factors: str
    assumptions: tuple[str, ...]

    def margins(self, mode: str) -> np.ndarray[tuple[int], np.dtype[np.float64]] | None:
        """Give the margin of one mode over the pitches, for a plot.

        Parameters
        ----------
        mode : str
            Such as ``rivet-shear`` or ``sheet-crush``.

        Returns
        -------
        ndarray, shape (pitches,), or None
            [-]; None where it is not given.
        """
        found = [option.finding(mode) for option in self.options]
        known = [f.margin for f in found if f is not None and f.margin is not None]
        return np.array(known) if len(known) == len(self.options) else None

    def __str__(self) -> str:
        """Write it for a terminal."""
        from surfacecheck.studies.single_row._row_shown import row_study_text

        return row_study_text(self)

    def _repr_html_(self) -> str:
        from surfacecheck.studies.single_row._row_shown import row_study_html

        return row_study_html(self)


def row_alone(
    pitch: float | Sequence[float],
    diameter: float,
    sheet: float,
    load_per_length: float,
    *,
    length: float | None = None,
    drilled_at: float | None = None,
    alloy: str | None = None,
    shear: float | None = None,
    edge: float | None = None,
    inner_sheet: float | None = None,
    inner_alloy: str | None = None,
    pull: float | None = None,
    pull_per_length: float = 0.0,
) -> RowStudy:
    """Look at one row of pulled rivets on its own.

    P = q p, to be carried with 1.5 x 1.15

    Parameters
    ----------
    pitch : float or sequence of float
        Pitch, or several to compare [m].
    diameter : float
        Of the rivet [m].
    sheet : float
        Thickness of the sheet under the head [m].
    load_per_length : float
        What a length of row carries at limit (shear flow) [N/m].
    length : float, optional
        From the first rivet to the last; both stay, the rest spread evenly [m].
    drilled_at : float, optional
        Pitch at which the holes are drilled already: then only leaving rivets out is real [m].
    alloy : str, optional
        Metal of the sheet, from the shipped table.
    shear, pull : float, optional
        What one rivet carries, from its data sheet [N].
    edge : float, optional
        Hole centre to the sheet's edge [m].
    inner_sheet : float, optional
        Thickness of the sheet behind [m].
    inner_alloy : str, optional
        Its metal; the same as ``alloy`` where it is not given.
    pull_per_length : float
        Pull along the rivets' axes at limit, such as suction on the skin [N/m].

    Returns
    -------
    RowStudy
        One option for each pitch; where the row is drilled, one for every spacing those holes allow up to twice the
        widest pitch asked.

    Raises
    ------
    SurfaceError
        For a length far from any rivet row, holes that run into each other, or a metal that no table has.

    References
    ----------
    14 CFR 23.303, 23.625 (Amdt 23-62) for the factors; each check names its own.

    Examples
    --------
    25 or 30 mm in 0.5 mm sheet, 4.8 N/mm:

    >>> study = row_alone((0.025, 0.030), 0.0032, 0.0005, 4800.0)
    >>> [round(option.load) for option in study.options]
    [120, 144]
    """
    pitches = tuple(np.atleast_1d(np.asarray(pitch, dtype=float)).tolist())
    named = {"diameter": diameter, "sheet": sheet, "length": length, "drilled_at": drilled_at, "edge": edge,
             "inner_sheet": inner_sheet}  # fmt: skip
    _look([("pitch", p) for p in pitches] + [(name, value) for name, value in named.items() if value is not None])
    if not (np.isfinite(load_per_length) and load_per_length > 0.0):
        message = f"load per length is {load_per_length:g} N/m; it must be above 0: shear flow of the row at limit"
        raise SurfaceError(message)
    metals, factors = _metals(sheet, alloy, inner_sheet, inner_alloy), fitting()
    row = Row(diameter, load_per_length, pull_per_length, edge, _value(shear, "shear"), _value(pull, "pull"), metals)
    options = tuple(
        _option(row, factors, asked, real, count, left)
        for asked, real, count, left in layouts(pitches, length, drilled_at)
    )
    return RowStudy(
        options, diameter, sheet, load_per_length, length, drilled_at, alloy or "", shear is not None, factors.line,
        _assumptions(alloy, inner_sheet, inner_alloy, edge),
    )  # fmt: skip


def _look(lengths: list[tuple[str, float]]) -> None:
    for name, value in lengths:
        if not (np.isfinite(value) and value > 0.0):
            message = f"{name} is {value * 1e3:g} mm; it must be above 0: measure it again"
            raise SurfaceError(message)
        low, high = (_MIN_LENGTH, 10.0 if name == "length" else _MAX_LENGTH)
        if not low <= value <= high:
            message = (
                f"{name} is {value * 1e3:g} mm; {low * 1e3:g} to {high * 1e3:g} mm is looked at. Is the unit right?"
            )
            raise SurfaceError(message)


def _value(si: float | None, name: str) -> Value:
    if si is not None and not (np.isfinite(si) and si > 0.0):
        message = f"{name} is {si:g} N; it must be above 0: what one rivet carries, by its data sheet"
        raise SurfaceError(message)
    return UNKNOWN if si is None else Value(si, source=TYPED, key=name)


def _metals(
    sheet: float, alloy: str | None, inner: float | None, inner_alloy: str | None
) -> tuple[tuple[str, float, Material | None], ...]:
    sheets = [("sheet", sheet, material(alloy, sheet) if alloy else None)]
    if inner is not None:
        name = inner_alloy or alloy
        sheets.append(("inner sheet", inner, material(name, inner) if name else None))
    return tuple(sheets)


def _assumptions(
    alloy: str | None, inner: float | None, inner_alloy: str | None, edge: float | None
) -> tuple[str, ...]:
    out = ["pulled rivets; the load is taken as limit; every rivet of the row carries alike"]
    if inner is not None and alloy and not inner_alloy:
        out.append(f"the inner sheet is {alloy} too")
    if alloy and edge is None:
        out.append("edge not given: taken as two diameters or more")
    if alloy:
        out.append("the hole is taken as wide as the rivet")
    return tuple(out)


def _option(row: Row, factors: Factors, asked: float, pitch: float, count: int | None, left_out: str) -> RowOption:
    look_apart(pitch, row.diameter)
    strain = tuple(float(inter_rivet(c, 1.0, row.sheets[0][1], pitch)) for c in FIXITY_RANGE)
    metal = row.sheets[0][2]
    modulus = None if metal is None else (metal.modulus_compression.si or metal.modulus.si)
    buckling = None if modulus is None else (strain[0] * float(modulus), strain[1] * float(modulus))
    findings = find_all(row_checks(row, factors, pitch))
    thin, thick = min(s[1] for s in row.sheets), max(s[1] for s in row.sheets)
    rules = [least_pitch(pitch, row.diameter), *greatest_pitches(pitch, thin), sheet_range(thin, row.diameter),
             diameter_for_sheet(row.diameter, thick)]  # fmt: skip
    if row.edge is not None:
        rules.insert(0, edge_distance(row.edge, row.diameter))
    return RowOption(
        asked, pitch, count, left_out, row.flow * pitch, buckling, (strain[0], strain[1]), findings, tuple(rules)
    )
