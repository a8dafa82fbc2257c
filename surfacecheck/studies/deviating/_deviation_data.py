"""A deviation as plain data, for other programs: SI units, every digit, form 1."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from surfacecheck.assessment import CAUTION
from surfacecheck.studies.deviating._deviation_rows import SHOWN, heads_of, rows_of

if TYPE_CHECKING:
    from surfacecheck.studies.comparing._compare import Changed
    from surfacecheck.studies.deviating._bands import Bands
    from surfacecheck.studies.deviating._deviation import Deviation
    from surfacecheck.studies.deviating._passing import Passing

__all__ = ["deviation_data"]


def deviation_data(deviation: Deviation) -> dict[str, Any]:
    """Turn a deviation into plain data.

    Parameters
    ----------
    deviation : Deviation
        Worked.

    Returns
    -------
    dict
        ``form``, ``units``, ``surface``, ``happened``, ``places``, ``passing``, ``ways`` (title, kind, outcome, what
        was done to the model), ``lines`` (each with one list of values a way: the value, or those of both bounds),
        ``shown`` (the table as it is printed), ``bands``, ``cautions`` (by topic), ``caution``.
    """
    surface = deviation.surface
    return {
        "form": 1,
        "units": "SI",
        "surface": {
            "name": surface.name,
            "title": surface.title,
            "file": surface.path,
            "sha256": surface.sha256,
            "changes": [{"title": c.title, "file": c.path, "sha256": c.sha256} for c in surface.changes],
        },
        "happened": [{"where": one.where, "what": one.what} for one in surface.happened],
        "places": list(deviation.places),
        "passing": [_passing(one) for one in deviation.passing],
        "ways": [
            {
                "title": head,
                "kind": way.column.kind,
                "bounds": ["holds fully", "holds nothing"][: len(way.bounds)] if way.nothing is not None else [],
                "outcome": deviation.outcome(way),
                "does_not_meet": [{"name": r.name, "place": r.place, "says": r.sentence} for r in way.broken],
                "says": list(way.column.says),
            }
            for head, way in zip(heads_of(deviation), deviation.ways, strict=True)
        ],
        "lines": [_line(deviation, one) for one in (*deviation.here, *deviation.comparison.lines)],
        "shown": {group: [list(row[:1] + row[1]) for row in rows_of(deviation, group)] for group in SHOWN},
        "bands": _bands(deviation.bands),
        "cautions": list(deviation.cautions),
        "caution": CAUTION,
    }


def _line(deviation: Deviation, line: Changed) -> dict[str, Any]:
    return {
        "group": line.group,
        "name": line.name,
        "quantity": line.quantity,
        "values": [list(values) for values in deviation.by_way(line)],
        "says": list(line.says),
        "moved": line.moved,
    }


def _passing(one: Passing) -> dict[str, Any]:
    return {
        "place": one.place,
        "part": one.part,
        "case": one.case,
        "shear": one.shear,
        "pull": one.pull,
        "ways": [{"words": words, "force": force} for words, force in one.ways],
        "brought": [{"by": by, "force": dict(ways), "off_middle": dict(at)} for by, ways, at in one.brought],
        "path": list(one.path),
        "others": one.others,
        "most_of_others": one.most,
    }


def _bands(found: Bands) -> dict[str, Any]:
    return {
        "margins": [
            {
                "where": one.where,
                "bound": one.bound,
                "margin": one.margin,
                "first_order": list(one.first),
                "worst_corner": list(one.corner),
            }
            for one in found.margins
        ],
        "measured": [
            {
                "key": one.value.key,
                "said": one.value.said,
                "source": str(one.value.source),
                "may_be_off": one.reading.half,
                "tries": one.reading.tries,
                "moves": list(one.moves),
            }
            for one in found.measured
        ],
        "not_in_the_band": list(found.untried),
        "rules": [
            {"rule": rule, "as_measured": was, "otherwise": otherwise, "key": key}
            for rule, was, otherwise, key in found.rules
        ],
    }
