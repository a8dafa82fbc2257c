"""The query sheet: one closed question to whoever decides, and what there is to answer it by."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.studies.deviating._query_blocks import assumed_block, numbers_block, path_block
from surfacecheck.studies.deviating._query_happened import happened_block, question_of
from surfacecheck.studies.deviating._query_kept import kept_of, since_words
from surfacecheck.studies.deviating._query_lines import DROPS, PICTURE, Block

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.deviating._deviation import Deviation, Way
    from surfacecheck.studies.deviating._query_kept import Kept

__all__ = ["REPLIES", "SHEET", "Query", "query"]

REPLIES = ("1 yes", "2 yes, if ...", "3 no, do ...", "4 send the part, or photos")
SHEET = "A builder's sanity check, static strength only, no approval. No flight on the strength of this page."


@dataclass(frozen=True)
class Query:
    """One query sheet, for paper and for an e-mail.

    Attributes
    ----------
    number : str
        Of the sheet, ``7F3A-2``: from the hash of the surface file, and a count.
    title : str
        Surface and drawing.
    question : str
        Closed: it can be answered by one number.
    head : tuple of str
        Who decides, what is new since the last sheet, the stage of the work.
    blocks : tuple of Block
        What happened, where it sits, numbers, what was assumed.
    dropped : tuple of str
        What was left out to fit one page, in the order in which it went.
    kept : Kept
        What a later sheet compares itself with.
    deviation : Deviation
        Behind it.
    """

    number: str
    title: str
    question: str
    head: tuple[str, ...]
    blocks: tuple[Block, ...]
    kept: Kept
    deviation: Deviation
    dropped: tuple[str, ...] = ()

    def numbered(self, number: str) -> Query:
        """Give it a number.

        Parameters
        ----------
        number : str
            Of the sheet.

        Returns
        -------
        Query
            The same with it.
        """
        return replace(self, number=number, kept=replace(self.kept, number=number))

    def without(self, drop: int) -> Query:
        """Leave out one kind of line.

        Parameters
        ----------
        drop : int
            Its number in ``DROPS``, from 1.

        Returns
        -------
        Query
            Without these lines; ``dropped`` names them where there were any.
        """
        blocks = tuple(replace(b, lines=tuple(line for line in b.lines if line.drop != drop)) for b in self.blocks)
        gone = blocks != self.blocks or drop == PICTURE
        return replace(self, blocks=blocks, dropped=(*self.dropped, DROPS[drop - 1])) if gone else self


def query(
    deviation: Deviation, number: str = "", earlier: Kept | None = None, option: int = 1, system: System = "metric"
) -> Query:
    """Write the query sheet of a deviation, with everything in it; fit it to a page afterwards.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    number : str
        Of the sheet; the first of this surface file where empty.
    earlier : Kept, optional
        What an earlier sheet kept.
    option : int
        Which of the options stands beside "as it is", from 1; 0 for none.
    system : {"metric", "inch"}
        Units of what is worked out; what was measured stands as it was written.

    Returns
    -------
    Query
        The sheet.

    Raises
    ------
    SurfaceError
        Where there is no such option.
    """
    surface = deviation.surface
    ways = _chosen(deviation, option)
    number = number or f"{surface.sha256[:4].upper()}-1"
    kept = kept_of(deviation, number, ways[-1].column.title if len(ways) > 2 else "", system)
    drawing = f", drawing {surface.drawing}" if surface.drawing else ""
    head = [f"Decides: {surface.who_decides or '________'}."]
    head += [] if earlier is None else [f"New since {earlier.number}: {since_words(kept, earlier)}."]
    head.append("Stage: open [ ] closed [ ] flown [ ] hours ____")
    blocks = (
        happened_block(deviation, system),
        path_block(deviation, system),
        numbers_block(deviation, ways, system),
        assumed_block(deviation, system),
    )
    title = f"{surface.name or 'no name given'}{drawing}"
    return Query(number, title, question_of(deviation), tuple(head), blocks, kept, deviation)


def _chosen(deviation: Deviation, option: int) -> tuple[Way, ...]:
    """As drawn, as it is now, and one option."""
    options = deviation.ways[2:]
    if not 0 <= option <= max(len(options), 1):
        here = "; ".join(f"{at} {one.column.title}" for at, one in enumerate(options, 1)) or "none is named"
        message = f"option {option} is not there. Options: {here}; 0 for none"
        raise SurfaceError(message)
    chosen = options[option - 1 : option] if option else ()
    return (*deviation.ways[:2], *chosen)
