"""What must fit together: outline, hinges, ribs, doublers, holes, the fin."""

from __future__ import annotations

from itertools import pairwise

from surfacecheck.model import Hinge, RibFlangesPoint, Surface
from surfacecheck.provenance import Value
from surfacecheck.reading._context import Context, Outside

__all__ = ["check_layout", "length_of"]

_CLOSEST = 1e-3
"""Pins nearer to each other than this are one pin [m]: the shares of two would be decided by rounding."""
_SLACK = 1e-6


def length_of(value: Value) -> float | None:
    """Give a value in metres, or None where it is not known."""
    return None if value.si is None else float(value.si)


def check_layout(surface: Surface, context: Context) -> None:
    """Note every place that does not fit the outline.

    Parameters
    ----------
    surface : Surface
        As read so far.
    context : Context
        Takes the faults.
    """
    span = _outline(surface, context)
    _load(surface, context)
    _hinges(surface, span, context)
    _ribs(surface, span, context)
    for name, doubler in surface.sheet.doublers.items():
        _from_to(f"sheet.{name}", doubler.start, doubler.to, span, context)
    for hole in surface.sheet.spar.holes or ():
        _inside("hole", hole.up, span, context)
    _fin(surface, context)
    if surface.horn is not None:
        _inside("horn", surface.horn.up, span, context, below=0.2)
        if fault := surface.horn.against_itself:
            context.wrong(fault, "horn.side")


def _outline(surface: Surface, context: Context) -> tuple[Value, Value] | None:
    at = surface.outline.at
    if at is None:
        return None
    key = f"outline.at[{max(len(at), 1)}]"
    if len(at) < 2:
        context.wrong("one place has no length: measure at two places or more", key)
        return None
    ups = [one.up for one in at]
    up = context.said("up")
    for count, (below, above) in enumerate(pairwise(ups), 2):
        low, high = length_of(below), length_of(above)
        if low is not None and high is not None and high <= low:
            message = f"{above.said} comes after {below.said}: places go {up}, each beyond the one before."
            context.wrong(message, f"outline.at[{count}].{up}")
            return None
    for count, one in enumerate(at, 1):
        web, edge = length_of(one.web_behind), length_of(one.edge_behind)
        if web is not None and edge is not None and edge <= web:
            message = f"the trailing edge ({one.edge_behind.said}) is not behind the web ({one.web_behind.said})."
            context.wrong(message, f"outline.at[{count}].edge_behind")
    return ups[0], ups[-1]


def _load(surface: Surface, context: Context) -> None:
    load = surface.load
    given = [name for name in ("pressure", "total") if getattr(load, name).known]
    given += ["rule"] if load.rule is not None else []
    if len(given) > 1:
        message = f"{' and '.join(given)}: the load is given more than once. Keep one."
        context.wrong(message, f"load.{given[-1]}")


def _inside(
    name: str, value: Value, span: tuple[Value, Value] | None, context: Context, below: float = 0.0, verb: str = "is at"
) -> None:
    place = length_of(value)
    if span is None or place is None:
        return
    low, high = length_of(span[0]), length_of(span[1])
    if high is not None and place > high + _SLACK:
        context.outside.append(Outside(name, value, verb, span[1], above=True))
    elif low is not None and place < low - below - _SLACK:
        context.outside.append(Outside(name, value, verb, span[0], above=False))


def _from_to(name: str, start: Value, to: Value, span: tuple[Value, Value] | None, context: Context) -> None:
    low, high = length_of(start), length_of(to)
    if low is not None and high is not None and high <= low:
        context.wrong(f'"to" ({to.said}) is not beyond "from" ({start.said}).', to.key)
    _inside(name, start, span, context, verb="begins at")
    _inside(name, to, span, context, verb="ends at")


def _hinges(surface: Surface, span: tuple[Value, Value] | None, context: Context) -> None:
    hinges = surface.hinges
    if len(hinges) == 1:
        message = "one hinge holds nothing sideways: give at least two."
        context.wrong(message, f"hinge.{next(iter(hinges))}")
    known = [(name, one) for name, one in hinges.items() if one.up.known]
    for name, one in known:
        _inside(f"hinge.{name}", one.up, span, context)
    for (below, low), (above, high) in pairwise(known):
        if float(high.up.si or 0.0) - float(low.up.si or 0.0) < _CLOSEST:
            message = f"hinge.{below} and hinge.{above} are both at {high.up.said}: two hinges at one place."
            context.wrong(message, high.up.key)
    if known:
        for other, end in ((known[-1][0], ("top", "outer")), (known[0][0], ("bottom", "inner"))):
            context.remarks += [
                f"hinge.{other} lies beyond hinge.{name}: are the two places swapped?"
                for name in end
                if name in dict(known) and name != other
            ]
    _thrust(hinges, context)


def _thrust(hinges: dict[str, Hinge], context: Context) -> None:
    answers = [one.takes_along for one in hinges.values()]
    if answers and all(one == "no" for one in answers):
        context.remarks.append("no hinge stops the surface sliding along the pins (takes_along).")


def _ribs(surface: Surface, span: tuple[Value, Value] | None, context: Context) -> None:
    ribs = surface.sheet.ribs
    for number, one in enumerate(ribs.up, 1):
        _inside(f"rib {number}", one, span, context)
    known = [one for one in ribs.up if one.known]
    for below, above in pairwise(known):
        if float(above.si or 0.0) <= float(below.si or 0.0):
            context.wrong(
                f"{above.said} comes after {below.said}: ribs go {context.said('up')}, one by one.", above.key
            )
            break
    ways, count = ribs.flanges_point, len(ribs.up)
    if ways and count and len(ways) not in {1, count}:
        up, down = (context.said(str(one)) for one in RibFlangesPoint)
        message = f'{count} ribs and {len(ways)} words: one "{up}" or "{down}" for each rib.'
        context.wrong(message, "sheet.ribs.flanges_point")


def _fin(surface: Surface, context: Context) -> None:
    moves, count = surface.fin.moves, len(surface.hinges)
    if moves is not None and count and len(moves) != count:
        context.wrong(f"{len(moves)} lines for {count} hinges: a line for each hinge.", "fin.moves")
