"""Bands in words: how far the measurements leave each margin open, and which one to make better."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import margin_text, place_words
from surfacecheck.quantities import show
from surfacecheck.studies._readings import REPEATS
from surfacecheck.studies.deviating._bands import MOVES
from surfacecheck.studies.deviating._deviation_rows import line_name, listed

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.deviating._bands import MarginBand
    from surfacecheck.studies.deviating._deviation import Deviation
    from surfacecheck.studies.deviating._measured import Measured

__all__ = ["SCOPE", "band_lines", "band_text", "called", "range_text", "reading_text"]

SCOPE = (
    "in the band: what was measured of what happened and of this place, of the outline where the web lies; "
    "not what is guessed"
)


def reading_text(one: Measured, system: System = "metric") -> str:
    """Say what was measured, with what, and how far it may be off.

    Parameters
    ----------
    one : Measured
        A measurement.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        ``largest 4.60 mm (caliper, +-0.05 mm)``.
    """
    reading = one.reading
    half = show(reading.half, reading.tool.quantity, system, 1) if reading.tool.quantity else _share(one)
    tries = f", {reading.tries} tries" if reading.tries > 1 else ""
    return f"{called(one.value.key)} {one.value.said} ({tool_words(one.value.source.text)}{tries}, +-{half})"


def _share(one: Measured) -> str:
    return f"{100.0 * one.reading.tool.half:.0f} %"


def tool_words(text: str) -> str:
    """Give the tool of a bracket without the count of tries.

    Examples
    --------
    >>> tool_words("drill shank, 3 tries")
    'drill shank'
    """
    return text.partition(",")[0].strip()


def called(key: str) -> str:
    """Name a measurement: the last word of an event's key, the whole key of any other.

    Examples
    --------
    >>> called("happened[1].largest"), called("bracket.plate.gap_along"), called("outline.at[2].web_behind")
    ('largest', 'bracket plate gap along', 'outline, web behind')
    >>> called("happened[3].edges.bracket")
    'edge in the bracket'
    """
    table, _, last = key.rpartition(".")
    word = last.replace("_", " ")
    if table.startswith("happened["):
        return f"edge in the {word}" if table.endswith(".edges") else word
    return f"outline, {word}" if table.startswith("outline.at[") else place_words(key)


def band_text(band: MarginBand) -> str:
    """Write a band: ``+4.85, +4.80 to +4.90; all off at once +4.79 to +4.91``."""
    return f"{margin_text(band.margin)}, {range_text(band.first)}; all off at once {range_text(band.corner)}"


def range_text(ends: tuple[float, float]) -> str:
    """Write lowest and highest: ``+4.80 to +4.90``; once where they read the same."""
    return " to ".join(dict.fromkeys(margin_text(one) for one in ends))


def band_lines(deviation: Deviation, system: System = "metric") -> list[str]:
    """Say what the measurements leave open.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    list of str
        A sentence a margin that moves, the measurement to make better, rules that change, and the rule of the band.
    """
    found = deviation.bands
    if not found.measured:
        return ["nothing that goes into these margins was measured with a tool that is listed: no band"]
    moving = [band for band in found.margins if band.wide]
    lines = [f"{band.where}{f', {band.bound}' if band.bound else ''}: {band_text(band)}" for band in moving]
    if len(moving) < len(found.margins):
        lines.append(f"no margin{' else' if moving else ' here or anywhere'} moves by {MOVES:g}")
    if found.better is not None:
        by = found.better.moves[0]
        lines.append(
            f"measure this better: {reading_text(found.better, system)}; it moves the margin here by {by:+z.2f}"
        )
    told: dict[tuple[str, str, str, str], list[str]] = {}
    for rule, was, otherwise, key in found.rules:
        head, comma, sheet = line_name(deviation, rule).rpartition(", ")
        told.setdefault((head if comma else sheet, was, otherwise, called(key)), []).extend([sheet] if comma else [])
    for (head, was, otherwise, key), sheets in told.items():
        name = f"{head}, {listed(sheets)}" if sheets else head
        lines.append(f"{name}: {was}, but {otherwise} if {key} is off by its tool")
    tried = "; ".join(reading_text(one, system) for one in found.measured)
    lines.append(f"measured: {tried}")
    if found.untried:
        lines.append(f"not in the band: {', '.join(called(key) for key in found.untried)}")
    return [*lines, f"{REPEATS}; {SCOPE}"]
