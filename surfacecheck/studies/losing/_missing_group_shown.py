"""A group with rivets out, in words and tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import CAUTION, case_words, margin_text
from surfacecheck.checks import Outcome
from surfacecheck.quantities import show
from surfacecheck.studies.losing._missing_row_shown import NOT_IN, numbers_words, study_html
from surfacecheck.tables import Table, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.losing._missing_group import MissingGroup

__all__ = ["group_rivet_table", "missing_group_headline", "missing_group_html", "missing_group_text"]


def group_rivet_table(study: MissingGroup, system: System = "metric") -> Table:
    """Put the rivets that are left of a group in a table.

    Parameters
    ----------
    study : MissingGroup
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        Shear and pull of each at limit, as drawn and now, and the growth of the shear.
    """
    rows = tuple(
        (
            str(one.number),
            *(show(v, "force", system) for v in (one.drawn_shear, one.shear)),
            f"{one.growth:.2f}",
            *(show(v, "force", system) for v in (one.drawn_pull, one.pull)),
            case_words(one.case),
        )
        for one in study.rivets
    )
    heads = ("rivet", "shear drawn", "now", "times", "pull drawn", "now", "case of the shear")
    return Table(heads, rows, "lrrrrrl", "Each rivet at limit, the largest of all cases")


def missing_group_headline(study: MissingGroup) -> str:
    """Say in a sentence what rivets out of a group come to."""
    if study.now is None:
        return f"What is left stands in one line or alone: it holds no couple without a heel; {Outcome.OUTSIDE}."
    lowest, drawn = study.now.lowest, study.drawn.lowest
    if lowest is None or lowest.margin is None:
        asks = study.now.asks
        return "Margins are not given." if asks is None else f"No strength given: each must be good for {asks:.0f} N."
    said = f"Lowest margin {margin_text(lowest.margin)} ({lowest.part}: {lowest.gives})"
    if drawn is not None and drawn.margin is not None:
        said += f", {margin_text(drawn.margin)} as drawn"
        if lowest.margin > drawn.margin + 1e-9:
            said += "; by the elastic method a group can gain by a rivet that took its share early"
    bound = _bound(study)
    depends = bound is not None and bound < 0.0 <= lowest.margin
    return f"{said}: {Outcome.DEPENDS if depends else lowest.outcome}."


def _bound(study: MissingGroup) -> float | None:
    """Give the lowest margin with heel and prying; None where none is worked."""
    found = None if study.now is None else study.now.heel
    return None if found is None else found.margin


def _group_notes(study: MissingGroup) -> tuple[str, ...]:
    bound = _bound(study)
    heel = () if bound is None else (f"bound, with heel and prying: {margin_text(bound)}",)
    return (*heel, "elastic: a rigid plate on equal rivets, no heel; the plate keeps its holes", NOT_IN)


def missing_group_text(study: MissingGroup, system: System = "metric", width: int = 80) -> str:
    """Write a group with rivets out for a terminal.

    Parameters
    ----------
    study : MissingGroup
        Worked.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines.
    """
    blocks = [
        wrapped(f"GROUP WITH RIVETS OUT  {study.group.part}, {numbers_words(study.out)} out", width, then="  "),
        wrapped(missing_group_headline(study), width),
        *([group_rivet_table(study, system).text(width)] if study.rivets else []),
        "\n".join(wrapped(note, width, then="  ") for note in _group_notes(study)),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join(blocks)


def missing_group_html(study: MissingGroup, system: System = "metric") -> str:
    """Write a group with rivets out for a notebook or a page.

    Parameters
    ----------
    study : MissingGroup
        Worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    title = f"{study.group.part}, {numbers_words(study.out)} out"
    return study_html(title, missing_group_headline(study), group_rivet_table(study, system), _group_notes(study))
