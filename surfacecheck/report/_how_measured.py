"""With what each dimension is measured, and how well it needs to be known: common practice, no published figures."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.reading import Question

__all__ = ["how_measured"]

#: Place of the form, tool, and to what: in metric and in inch words. The first that fits counts. Common practice.
_TOOLS: tuple[tuple[str, str, str, str], ...] = (
    (r"load\.(pressure|total|shape|wind_at_tiedown)", "designer's letter", "as written", "as written"),
    (r"load\..*", "designer's letter: ask", "", ""),
    (r"aeroplane\.category", "flight manual", "", ""),
    (r"aeroplane\..*", "flight manual", "as written", "as written"),
    (r"controls\.horn_per_pilot", "two spring scales", "to a tenth of it", "to a tenth of it"),
    (r"controls\.rigging_pull", "tension gauge", "to a tenth of it", "to a tenth of it"),
    (r"(hinge|horn)\.up|sheet\.ribs\.up|outline\.at\.(up|fin_ahead)", "tape", "1 mm", "1/32 in"),
    (r"outline\.at\.edge_behind", "tape, square to the pins", "2 mm", "1/16 in"),
    (r"outline\.at\.nose_around", "strip of paper, then ruler", "1 mm", "1/32 in"),
    (r"outline\.at\.(nose_ahead|web_behind)", "ruler", "1 mm", "1/32 in"),
    (r"outline\.at\.spar_depth", "caliper", "0.5 mm", "0.02 in"),
    (r"outline\.(lap|pins_off_middle)", "ruler", "0.5 mm", "0.02 in"),
    (r"outline\.swings_.*", "template or angle gauge", "1 deg", "1 deg"),
    (r"hinge\.out_of_line.*", "thread on outer pins, feeler", "0.2 mm", "0.01 in"),
    (r"hinge\.gives_.*", "spring scale, dial gauge", "to a fifth of it", "to a fifth of it"),
    (r"hinge\.fin_bends|fin\..*", "designer: ask", "to a fifth of it", "to a fifth of it"),
    (r"horn\.(arm|bolt_behind)", "ruler", "0.5 mm", "0.02 in"),
    (r"horn\.plate\.bolt_(hole|edge)|horn\.fixed_with\.edge", "caliper", "0.1 mm", "0.005 in"),
    (r"horn\.plate\.thickness", "caliper", "0.05 mm", "0.002 in"),
    (r"horn\.(plate|fixed_with)\..*", "caliper or ruler", "0.5 mm", "0.02 in"),
    (r"sheet\..*\.thickness", "micrometer, bare metal", "0.01 mm", "0.0005 in"),
    (r"sheet\..*\.bend_inside|bracket\.bend_inside", "radius gauge, or drawing", "0.2 mm", "0.01 in"),
    (r"sheet\..*\.(flange|lip)", "caliper", "0.2 mm", "0.01 in"),
    (r"sheet\.nose_skin\.cut_at_hinge", "ruler", "1 mm", "1/32 in"),
    (r"rivet\.(diameter|head)", "packet, or caliper", "0.05 mm", "0.002 in"),
    (r"rivet\.hole", "drill that just goes in", "0.05 mm", "0.002 in"),
    (r"rivet\.(hole_range|grip|shear|pull)", "packet's data sheet", "as written", "as written"),
    (r"rivet\.one_weighs", "kitchen scale: weigh 50", "0.02 g each", "0.001 oz each"),
    (r"row\.pitch", "ruler over ten spaces", "1 mm", "1/32 in"),
    (r"row\.edge", "caliper, from hole centre", "0.2 mm", "0.01 in"),
    (r"row\..*", "ruler", "1 mm", "1/32 in"),
    (r"bracket\.(thickness|pin\.diameter)", "micrometer or caliper", "0.02 mm", "0.001 in"),
    (r"bracket\.pin\.gap", "feeler", "0.1 mm", "0.005 in"),
    (r"bracket\.pin\.(shear|crushing)_strength", "data sheet", "as written", "as written"),
    (r"bracket\.(edge|pin\.edge)", "caliper, from hole centre", "0.2 mm", "0.01 in"),
    (r"bracket\..*", "caliper", "0.2 mm", "0.01 in"),
    (r"weighed\.mass", "kitchen scale", "20 g", "1 oz"),
    (r"weighed\.tail_push", "scale under the edge", "5 g", "0.2 oz"),
    (r"weighed\.push_behind", "tape", "2 mm", "1/16 in"),
    (r"weighed\.paint", "scale, tin before and after", "20 g", "1 oz"),
    (r"balance_mass\.mass", "kitchen scale", "10 g", "0.5 oz"),
    (r"balance_mass\..*", "ruler", "1 mm", "1/32 in"),
)
_LOOKED = {"word": "look", "words": "look", "count": "count", "part_list": "look; ruler"}
_TOLD = {"alloy": "drawing, or stamp on the sheet", "leaves": "look; template"}


def how_measured(asked: Question, system: System) -> tuple[str, str]:
    """Say with what a line of the file is found out, and how well it needs to be known.

    Parameters
    ----------
    asked : Question
        A line of the starting file.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of str
        Tool, and to what; the second is empty for what is a word or a count. Both are common practice.

    Raises
    ------
    LookupError
        Where a new key of the form has no line here yet.
    """
    key = asked.where.rpartition(".")[2]
    if key in _TOLD:
        return _TOLD[key], ""
    letter = asked.where.startswith(("load.", "aeroplane."))
    if asked.spec.kind in _LOOKED and not letter:
        return _LOOKED[asked.spec.kind], ""
    if asked.spec.kind == "text":
        return "look", ""
    for pattern, tool, metric, inch in _TOOLS:
        if re.fullmatch(pattern, asked.where):
            return tool, inch if system == "inch" else metric
    message = f"{asked.where} has no tool: add it to the list"
    raise LookupError(message)
