"""The flange of the spar at a single hole of a skin rivet that is larger than drawn."""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.axes import by_case
from surfacecheck.checks._check import Check, Term
from surfacecheck.checks._item import Item
from surfacecheck.checks._row_load import sides_on
from surfacecheck.checks._spar import AT_ONE_PLACE, NET, node_stress
from surfacecheck.library import metal_of
from surfacecheck.provenance import over_spots
from surfacecheck.strength import NET_SECTION_SOURCE, member

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._apart_rows import RowLine
    from surfacecheck.checks._row_load import RowLoad

    Array = NDArray[np.float64]

__all__ = ["flange_at_holes"]


def flange_at_holes(load: RowLoad, line: RowLine) -> Iterator[Check]:
    """Check what a larger hole leaves of the spar's flange in tension.

    Parameters
    ----------
    load : RowLoad
        Of a row on the spar.
    line : RowLine
        Its rivets.

    Yields
    ------
    Check
        One for each rivet whose hole in the spar is not as drawn.
    """
    effects, surface = load.effects.whole, load.effects.surface
    box, spar, side = effects.box, surface.sheet.spar, sides_on(surface, load.row)[0]
    assert box is not None  # noqa: S101 - rows are worked only where there are sections
    metal, factors = metal_of(surface, spar.alloy, spar.thickness), member()
    nodes = [node_stress(effects, n) for n in box.nodes if n in {f"corner_{side}", f"tip_{side}"}]
    drawn: Array = np.maximum(reduce(np.maximum, nodes), 0.0)
    each = line.read(drawn)
    for number, one in line.apart.items():
        if "spar" not in one.across:
            continue
        slot = line.slots.index(float(number % line.count))
        terms = {
            "F_tu": Term.of(metal.tension, "stress", f"tensile strength of {metal.name}"),
            "b": Term(by_case(box.flange), "length", "flange, middle of web to free edge", spar.flange.source),
            "d": Term.of(one.across["spar"], "length", "hole across the flange"),
            "FS": Term(factors.ultimate, "", "from limit load to ultimate", factors.source),
            "f": Term(each[..., [slot]], "stress", "tension of the flange there at limit"),
        }
        available, note = NET[True], "one hole across the flange"
        if line.lines > 1:
            terms["d_o"] = Term(_beside(load, line, number), "length", "holes of the other lines there, together")
            available, note = "F_tu * (b - d - d_o) / b", f"{line.lines} holes across the flange; {AT_ONE_PLACE}"
        words = (f"rivet {number + 1}",)
        item = Item(line.place, line.part, effects.cases, words, factors=factors.line, subject="the flange")
        gives = "flange of the spar tears through this hole"
        yield item.check(
            "flange-net", gives, available, "FS * f", terms, "f", NET_SECTION_SOURCE, notes=(note,),
        )  # fmt: skip


def _beside(load: RowLoad, line: RowLine, number: int) -> Array | None:
    """Sum up the holes that the other lines have beside a rivet, (..., 1, 1) or () [m]; None where one is not known."""
    rivet = load.effects.surface.rivets[load.row.rivet]
    drawn = rivet.hole if rivet.hole.known else rivet.diameter
    others = [line.apart.get(one * line.count + number % line.count) for one in range(line.lines)]
    others.pop(number // line.count)
    holes = [drawn if one is None else one.across.get("spar", drawn) for one in others]
    return reduce(np.add, [over_spots(hole) for hole in holes]) if all(hole.known for hole in holes) else None
