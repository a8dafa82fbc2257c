"""The checks of a row on its own: what the rivet and its sheets are asked for at one pitch."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.checks import Check, Term
from surfacecheck.provenance import UNKNOWN, Basis, Source, Value
from surfacecheck.strength import BEARING_SOURCE, SHEAR_OUT_SOURCE, bearing_covered, bearing_stress

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.library import Material
    from surfacecheck.strength import Factors

__all__ = ["TYPED", "Row", "row_checks"]

FLOW = Source(Basis.WORKED_OUT, "load per length of row times pitch")
TYPED = Source(Basis.AS_SAID, "typed")


@dataclass(frozen=True, eq=False)
class Row:
    """What does not change with the pitch."""

    diameter: float
    flow: float
    pull_flow: float
    edge: float | None
    shear: Value
    pull: Value
    sheets: tuple[tuple[str, float, Material | None], ...]


def row_checks(row: Row, factors: Factors, pitch: float) -> Iterator[Check]:
    """Give the checks of a row at one pitch.

    Parameters
    ----------
    row : Row
        Rivet, sheets, load.
    factors : Factors
        From limit load.
    pitch : float
        Real pitch [m].

    Yields
    ------
    Check
        Rivet sheared and pulled, each sheet crushed, pressed oval, torn to its edge.
    """
    q = Term(row.flow, "line_load", "load per length of row at limit", TYPED)
    p = Term(pitch, "length", "pitch", FLOW)
    FS = Term(factors.ultimate, "", "from limit load to ultimate", factors.source)
    common = {"place": "row", "part": "row", "effect": "q", "cases": ("the load typed in",), "spots": ("",),
              "factors": factors.line, "subject": "the row"}  # fmt: skip
    terms = {"FS": FS, "q": q, "p": p}
    P_s = Term(row.shear.si, "force", "shear strength of one rivet", row.shear.source, "shear")
    yield Check(
        mode="rivet-shear", gives="rivet shears", available="P_s", required="FS * q * p",
        terms={"P_s": P_s, **terms}, source=FLOW, **common,  # type: ignore[arg-type]
    )  # fmt: skip
    if row.pull_flow > 0.0:
        s = Term(row.pull_flow, "line_load", "pull per length of row at limit", TYPED)
        P_t = Term(row.pull.si, "force", "pull strength of one rivet", row.pull.source, "pull")
        yield Check(
            mode="rivet-pull", gives="rivet pulls out", available="P_t", required="FS * s * p",
            terms={"P_t": P_t, "FS": FS, "s": s, "p": p}, source=FLOW, **common | {"effect": "s"},  # type: ignore[arg-type]
        )  # fmt: skip
    for sheet in row.sheets:
        yield from _sheet(row, sheet, factors, terms, common)


def _sheet(
    row: Row,
    sheet: tuple[str, float, Material | None],
    factors: Factors,
    terms: dict[str, Term],
    common: dict[str, Any],
) -> Iterator[Check]:
    name, thickness, metal = sheet
    mode = name.replace(" ", "-")
    FY = Term(factors.yield_, "", "from limit load to yield", factors.source)
    D = Term(row.diameter, "length", "rivet", TYPED)
    t = Term(thickness, "length", f"thickness of the {name}", TYPED)
    e_over_D = 2.0 if row.edge is None else row.edge / row.diameter
    outside = np.asarray(not bearing_covered(e_over_D))
    loads = {"q": terms["q"], "p": terms["p"], "D": D, "t": t}
    for state, gives, kind, letter, factor in (
        ("crush", "crushes", "bearing", "FS", terms["FS"]),
        ("crush-yield", "is pressed oval", "bearing_yield", "FY", FY),
    ):
        value, source = _bearing(metal, kind, e_over_D)
        F = Term(value, "stress", f"{kind.replace('_', ' ')} strength of the {name}", source, "alloy")
        yield Check(
            mode=f"{mode}-{state}", gives=f"{name} {gives}", available="F_br", required=f"{letter} * q * p / (D * t)",
            terms={"F_br": F, letter: factor, **loads}, source=BEARING_SOURCE, outside=outside, **common,
        )  # fmt: skip
    if row.edge is not None and metal is not None:
        e = Term(row.edge, "length", "hole centre to edge", TYPED)
        F_su = Term(metal.shear.si, "stress", f"shear strength of {metal.name}", metal.shear.source, "alloy")
        yield Check(
            mode=f"{mode}-tear-out", gives=f"{name} tears to its edge", available="2 * F_su * t * (e - 0.383 * D)",
            required="FS * q * p", terms={"F_su": F_su, "e": e, "D": D, "t": t, **terms}, source=SHEAR_OUT_SOURCE,
            outside=outside, **common,
        )  # fmt: skip


def _bearing(metal: Material | None, kind: str, e_over_D: float) -> tuple[float | None, Source]:
    if metal is None:
        return None, UNKNOWN.source
    low, high = metal.values[f"{kind}_15"], metal.values[f"{kind}_20"]
    if low.si is None or high.si is None:
        return None, high.source
    return float(bearing_stress(max(e_over_D, 1.5), float(low.si), float(high.si))), high.source
