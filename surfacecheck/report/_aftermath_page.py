"""The list after a storm as a page to print and to pencil on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from surfacecheck.assessment import CAUTION, in_system
from surfacecheck.report._html import rendered
from surfacecheck.studies import (
    ALSO_LOOK,
    NO_ALL_CLEAR,
    ORDER,
    aftermath_cautions,
    aftermath_lines,
    event_words,
    part_words,
)

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies import Aftermath, Looked

__all__ = ["aftermath_page"]


def aftermath_page(found: Aftermath, system: System = "metric") -> str:
    """Write the list of an event.

    Parameters
    ----------
    found : Aftermath
        An event, worked.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        One self-contained HTML document without script, with room for what was found.
    """
    surface = found.surface
    return rendered(
        "aftermath.html",
        surface=surface,
        file=surface.path.replace("\\", "/").rsplit("/", 1)[-1],
        sheet=surface.sha256[:4].upper(),
        what=event_words(found, system),
        no_all_clear=NO_ALL_CLEAR,
        lines=aftermath_lines(found, system),
        parts=_parts(found, system),
        order=ORDER,
        also=ALSO_LOOK,
        cautions=aftermath_cautions(found),
        caution=CAUTION,
    )


def _parts(found: Aftermath, system: System) -> list[tuple[str, str, str]]:
    """Name, figures and what to look for of each part; mirror parts with the same figures stand together."""
    out: dict[tuple[str, str], list[Looked]] = {}
    for one in found.parts:
        out.setdefault((_shares(one), one.look), []).append(one)
    return [
        (
            " and ".join(part_words(found, one, system) for one in parts),
            "; ".join(filter(None, (shares, *dict.fromkeys(in_system(one.gives, system) for one in parts)))),
            look,
        )
        for (shares, look), parts in out.items()
    ]


def _shares(one: Looked) -> str:
    shares = [(one.over_limit, "of its limit load"), (one.used, "of its strength")]
    return ", ".join(f"{share:.2f} {of}" for share, of in shares if share is not None)
