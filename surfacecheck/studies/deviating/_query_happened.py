"""First block of a query sheet: what happened, what the drawing says, what there is, with what it was measured."""

from __future__ import annotations

import re
from dataclasses import fields
from typing import TYPE_CHECKING

from surfacecheck.changes import chain_of
from surfacecheck.errors import SurfaceError
from surfacecheck.places import layers_at, plain_words
from surfacecheck.provenance import Value
from surfacecheck.quantities import show
from surfacecheck.studies._readings import reading_of
from surfacecheck.studies._values import walk_values
from surfacecheck.studies.deviating._bands_shown import called
from surfacecheck.studies.deviating._deviation_rows import listed
from surfacecheck.studies.deviating._here import group_name
from surfacecheck.studies.deviating._path import corner_of, prose_of
from surfacecheck.studies.deviating._query_lines import EVENTS, PHOTOS, Block, Line

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.changes import Link
    from surfacecheck.model import Happened, Rivet, Surface
    from surfacecheck.quantities import System
    from surfacecheck.studies.deviating._deviation import Deviation

__all__ = ["given_text", "happened_block", "measured_in_event", "question_of"]

DRAWING = "Drawing says"
_MOST_EVENTS = 3
PHOTO_LIST = "Photos: whole part [ ] place with ruler [ ] both faces [ ] edge-on [ ] light from the side [ ]"


def question_of(deviation: Deviation) -> str:
    """Ask the closed question: may it stay as it is.

    Parameters
    ----------
    deviation : Deviation
        Worked.

    Returns
    -------
    str
        One sentence.
    """
    surface, events = deviation.surface, deviation.surface.happened
    rivets = [place for place in deviation.places if group_name(place) != place]
    if len(rivets) == 1 and len(deviation.places) == 1:
        whole = [one.what for one in events if plain_words(one.where) == "surface"]
        after = f", after this: {listed(whole)}" if whole else ""
        return f"May {prose_of(surface, rivets[0])} stay as it is{after}?"
    if len(events) == 1:
        return f"May this deviation stay as it is: {events[0].where}, {events[0].what}?"
    what = f"these {len(events)} deviations" if events else "this change"
    return f"May {what} stay as {'they are' if events else 'it is'}: {surface.title}?"


def happened_block(deviation: Deviation, system: System = "metric") -> Block:
    """Say what happened.

    Parameters
    ----------
    deviation : Deviation
        Worked.
    system : {"metric", "inch"}
        Units of what a tool leaves open.

    Returns
    -------
    Block
        Event by event, then what the drawing says, then the list of photos.
    """
    lines: list[Line] = []
    for at, link in enumerate(chain_of(deviation.surface)):
        said = {line.text for line in lines if line.text.startswith(DRAWING)}  # once for several of a kind
        told = [text for text in _event(deviation, link, system) if text not in said]
        lines += [Line(told[0]), *(Line(text, EVENTS if at >= _MOST_EVENTS else 0) for text in told[1:])]
    if not lines:
        lines.append(Line(f"{deviation.surface.title}."))
    changed = tuple(_changed(deviation.ways[0].fully.surface, deviation.surface))
    lines[1:1] = [Line(f"{DRAWING}: {'; '.join(changed)}.")] if changed else []
    title = f"1 WHAT HAPPENED{': THE DEVIATION' if deviation.surface.happened else ''}"
    return Block(title, (*lines, Line(PHOTO_LIST, PHOTOS)))


def _event(deviation: Deviation, link: Link, system: System) -> Iterator[str]:
    surface, event = deviation.surface, link.event
    corners = [corner for place in deviation.places if (corner := corner_of(surface, place))]
    corner = f" ({corners[0]})" if len(corners) == 1 and len(surface.happened) == 1 else ""
    yield f"{event.where[:1].upper()}{event.where[1:]}{corner}: {event.what}."
    if event.note:
        yield f"{event.note[:1].upper()}{event.note[1:].rstrip('.')}."
    drawn = tuple(_drawing(surface, link))
    if drawn:
        yield f"{DRAWING}: {'; '.join(drawn)}."
    asks = link.kind.asks
    have = [given_text(key, value, system) for key, value in measured_in_event(event)]
    for word, way in (("the largest points", event.largest_points), ("the second lies", event.second_lies)):
        if way is not None and (way is event.second_lies or event.largest.known):
            have.append(f"{word} {surface.said(str(way))}")
    counted = {"a rivet of the kind": event.rivet, "alloy": event.alloy, "count": event.count, "lines": event.lines}
    have += [f"{name} {said}" for name, said in counted.items() if said]
    open_ = ", ".join(_not_measured(event))
    have += [f"not measured: {open_}"] if open_ and have else []
    if have or set(asks) - {"layers", "rivet_in"}:
        yield f"I have: {'; '.join(have)}." if have else "I have: not measured."
    told = {}
    if event.layers or ("layers" in asks and not event.edges and len(layers_at(surface, link.spot)) > 1):
        told["Layers"] = listed([surface.sheet_words(one) for one in event.layers]) or "not said"
    if event.rivet_in is not None or "rivet_in" in asks:
        told["Rivet still in"] = str(event.rivet_in or "not said")
    told |= {"Done since": event.done_since, "Reached from": event.reached_from}
    if any(told.values()):
        yield " ".join(f"{name}: {words}." for name, words in told.items() if words)


def _not_measured(event: Happened) -> Iterator[str]:
    """Go through what was asked of an event and answered with "not measured"."""
    for one in fields(event):
        value = getattr(event, one.name)
        if isinstance(value, Value) and value.key and not value.known and not value.absent:
            yield one.name.replace("_", " ")


def measured_in_event(event: Happened) -> Iterator[tuple[str, Value]]:
    """Go through what was measured of an event: the word of its key, and the value."""
    for one in fields(event):
        value = getattr(event, one.name)
        if isinstance(value, Value) and value.known:
            yield one.name.replace("_", " "), value
        if one.name == "edges":
            yield from ((f"edge in the {layer.replace('_', ' ')}", each) for layer, each in value.items() if each.known)


def given_text(name: str, value: Value, system: System = "metric") -> str:
    """Write a value as it was given, how it is known, and what its tool leaves open.

    Parameters
    ----------
    name : str
        What it is.
    value : Value
        From a file.
    system : {"metric", "inch"}
        Units of what the tool leaves open.

    Returns
    -------
    str
        ``largest 4.60 mm (caliper, +-0.05 mm)``.
    """
    reading = reading_of(value)
    how = value.source.text or str(value.source.basis)
    if reading is not None:
        half = show(reading.half, reading.tool.quantity or "number", system, 1)
        once = "" if reading.tries > 1 else ", once"
        how += f"{once}, +-{half}" if reading.tool.quantity else f"{once}, +-{100 * reading.tool.half:.0f} %"
    return f"{name} {value.said} ({how})"


def _drawing(base: Surface, link: Link) -> Iterator[str]:
    """Say what the drawing has where one event made it different."""
    try:
        done = link.kind.work(base, link.spot, link.event, fully=True)
    except SurfaceError:  # it can only be together with what happened before it
        return
    for place in done.places[:1]:
        apart, group = done.surface.apart.get(place), group_name(place)
        rivet = _rivet(base, group)
        if apart is None or rivet is None:
            continue
        if apart.rivet is not None and apart.rivet.name != rivet.name:
            size = f", {rivet.diameter.said}" if rivet.diameter.known else ""
            yield f"a rivet of the kind {rivet.name}{size}"
        if (apart.across or apart.along) and rivet.hole.known:
            yield f"hole {rivet.hole.said} ({_how(rivet.hole)})"
        edges: dict[tuple[str, str], list[str]] = {}
        for layer in apart.edge:
            edge = _edge(base, group, layer)
            if edge is not None and edge.known:
                edges.setdefault((edge.said, _how(edge)), []).append(base.sheet_words(layer))
        yield from (f"edge {said} in the {listed(layers)} ({how})" for (said, how), layers in edges.items())
    yield from _changed(base, done.surface)


def _changed(drawn: Surface, now: Surface) -> Iterator[str]:
    """Say what the drawing has of every value that is another one now."""
    before = dict(walk_values(drawn))
    for path, value in walk_values(now):
        was = before.get(path)
        if was is None or path[0] in {"apart", "changes", "weighed"} or was.si is None or was.said == value.said:
            continue
        name = re.sub(r"^(?:sheet|controls) |\[\d+\]", "", called(was.key))
        yield f"{name} {was.said} ({_how(was)})"


def _how(value: Value) -> str:
    return value.source.text or str(value.source.basis)


def _rivet(surface: Surface, group: str) -> Rivet | None:
    name = ""
    if group.startswith("horn") and surface.horn is not None:
        name = surface.horn.fixed_with.rivet
    elif group.startswith("row."):
        row = surface.rows.get(group.removeprefix("row."))
        name = "" if row is None else row.rivet
    else:
        hinge = next((h for h in surface.hinges.values() if group == f"hinge.{h.name}.bracket"), None)
        bracket = None if hinge is None else surface.brackets.get(hinge.bracket)
        name = "" if bracket is None else bracket.rivet
    return surface.rivets.get(name)


def _edge(surface: Surface, group: str, layer: str) -> Value | None:
    if group.startswith("horn") and surface.horn is not None:
        return surface.horn.fixed_with.edge
    if group.startswith("row."):
        row = surface.rows.get(group.removeprefix("row."))
        return None if row is None else row.edge.get(layer)
    hinge = next((h for h in surface.hinges.values() if group == f"hinge.{h.name}.bracket"), None)
    bracket = None if hinge is None else surface.brackets.get(hinge.bracket)
    return None if bracket is None else bracket.edge.get(layer)
