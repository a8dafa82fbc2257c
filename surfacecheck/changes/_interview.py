"""An interview: what happened, asked one question at a time; every answer may be "not measured" or "go back".

The state is the answers alone: the next question follows from them, so that going back is leaving the last one out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.changes._columns_of import columns_of
from surfacecheck.changes._events import EventKind, kind_of
from surfacecheck.changes._examples import example_of
from surfacecheck.changes._interview_file import change_file
from surfacecheck.changes._interview_words import ALL_LAYERS, NOT_MEASURED, Question, question_for
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Happened, specs
from surfacecheck.places import plain_words, spot_of
from surfacecheck.reading import read_text

if TYPE_CHECKING:
    from surfacecheck.model import Surface

__all__ = ["Interview"]

MOST_MEASURED = 3
"""Measurements that are asked for of one event."""
_MEASURES = {"measure", "measure_map", "count"}
_AFTER = ("done_since", "reached_from", "try", "more")
Answers = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Interview:
    """Questions and answers so far.

    Attributes
    ----------
    surface : Surface
        As drawn.
    file : Path
        The surface file; the change file goes beside it.
    answers : tuple of (str, str)
        Key and answer, in the order in which they were given.
    """

    surface: Surface
    file: Path
    answers: Answers = ()

    @cached_property
    def events(self) -> tuple[dict[str, str], ...]:
        """What was told of each event so far, by key."""
        found: list[dict[str, str]] = [{}]
        for key, text in self.answers:
            if key == "more":
                found += [{}] if text == "yes" else []
            elif key != "title":
                found[-1][key] = text
        return tuple(found)

    @property
    def question(self) -> Question | None:
        """The next question; None where everything was asked."""
        key = self._next()
        if key is None:
            return None
        told = self.events[-1]
        spot = spot_of(self.surface, told["where"]) if "where" in told else None
        kind = kind_of(told["what"]) if "what" in told else None
        if kind is not None:
            kind = replace(kind, such=example_of(self.surface, kind.such))
        return question_for(self.surface, key, kind, spot, self._title())

    def answered(self, text: str) -> Interview:
        """Take an answer.

        Parameters
        ----------
        text : str
            As typed; the number of a choice stands for it, ``?`` or "not measured" for what is not known.

        Returns
        -------
        Interview
            With it, and what follows from it.

        Raises
        ------
        SurfaceError
            Where it is no answer to the question: what was found, what is allowed.
        """
        question = self.question
        if question is None:
            message = "everything was asked: nothing is left to answer"
            raise SurfaceError(message)
        said = self._said(question, text.strip())
        after = replace(self, answers=(*self.answers, (question.key, said)))
        after.look(question.key)
        return after

    def _said(self, question: Question, text: str) -> str:
        """Turn what was typed into an answer; of several, each."""
        if not question.several:
            return _chosen(question, text)
        parts = [_chosen(question, one.strip()) for one in text.split(";")]
        if ALL_LAYERS in parts:
            parts = list(question.choices[:-1])
        return ";".join(one.replace(" ", "_") if question.key == "layers" else one for one in parts if one)

    def back(self) -> Interview:
        """Take the last answer back; nothing changes where none was given."""
        return replace(self, answers=self.answers[:-1])

    def look(self, key: str) -> None:
        """Look whether the last answer goes with what was told before.

        Parameters
        ----------
        key : str
            What was asked.

        Raises
        ------
        SurfaceError
            For a place, a number or an option that cannot be.
        """
        told = self.events[-1]
        if key == "where":
            spot_of(self.surface, told["where"])
            self._look_at_place(told["what"])
        elif key not in {"what", "title", "more"} and told.get(key) != NOT_MEASURED:
            try:
                surface = read_text(self.text(), "happened.toml", self.file.parent)
                if key in {"try", self._asked()[-1] if self._asked() else ""} and not self.wanted:
                    columns_of(surface)
            except SurfaceError as err:
                raise SurfaceError(*(fault.message for fault in err.faults)) from err

    def _look_at_place(self, what: str) -> None:
        """Refuse a place where such a thing cannot be, before anything is asked of it."""
        try:
            columns_of(read_text(self.text(), "happened.toml", self.file.parent))
        except SurfaceError as err:
            asks = tuple(fault.message for fault in err.faults if f'"{what}" needs ' not in fault.message)
            if asks:
                raise SurfaceError(*asks) from err

    @cached_property
    def wanted(self) -> tuple[str, ...]:
        """What has to be measured before the deviation can be worked; empty where nothing that is needed is missing."""
        if not any(text == NOT_MEASURED for event in self.events for text in event.values()):
            return ()
        bare = [{key: text for key, text in event.items() if key != "try"} for event in self._whole]
        try:
            columns_of(read_text(change_file(self.file.name, "", bare), "happened.toml", self.file.parent))
        except SurfaceError as err:
            return tuple(fault.message for fault in err.faults)
        return ()

    @property
    def _whole(self) -> list[dict[str, str]]:
        """Events of which at least kind and place are told."""
        return [event for event in self.events if "what" in event and "where" in event]

    def text(self) -> str:
        """Write the change file as far as it was told.

        Returns
        -------
        str
            TOML.
        """
        title = next((text for key, text in self.answers if key == "title"), "") or self._title()
        return change_file(self.file.name, title, self._whole)

    def _title(self) -> str:
        return "; ".join(f"{event['what']}, {event['where']}" for event in self._whole)

    def _asked(self) -> list[str]:
        """Keys that the kind of the present event asks for, three measurements at most."""
        kind = kind_of(self.events[-1]["what"])
        wanted, measured = [], 0
        for key in _without_doubles(kind, self.events[-1]):
            if specs(Happened)[key][1].kind in _MEASURES:
                measured += 1
                if measured > MOST_MEASURED:
                    continue
            wanted.append(key)
        return wanted

    def _next(self) -> str | None:
        if self.answers and self.answers[-1] == ("more", "no"):
            return "title"
        if self.answers and self.answers[-1][0] == "title":
            return None
        told = self.events[-1]
        order = ["what", "where", *(self._asked() if "what" in told else ()), *_AFTER]
        return next((key for key in order if key not in told), None)


def _without_doubles(kind: EventKind, told: dict[str, str]) -> tuple[str, ...]:
    """Leave out what another answer says already: edges for the edge, a count for the pitch, the way of no size."""
    out = {"edges"} if "edge" in kind.asks else set()
    out |= {"count"} if told.get("pitch", NOT_MEASURED) != NOT_MEASURED else set()
    out |= {"largest_points"} if told.get("largest") == NOT_MEASURED else set()
    return tuple(key for key in kind.asks if key not in out)


def _chosen(question: Question, text: str) -> str:
    """Turn what was typed into an answer: the number or the words of a choice."""
    plain = plain_words(text)
    if plain in {"", "?", "not measured", "not known", "do not know", "skip"}:
        if question.must:
            message = f"an answer is needed here: {question.hint}"
            raise SurfaceError(message)
        return NOT_MEASURED if question.unknown else ""
    if not question.choices:
        return text
    if plain.isdigit() and 1 <= int(plain) <= len(question.choices):
        return question.choices[int(plain) - 1]
    named = {plain_words(one): one for one in question.choices}
    if plain in named:
        return named[plain]
    if question.free:
        return text
    near = get_close_matches(plain, named, n=1, cutoff=0.3)
    hint = f". Nearest: {named[near[0]]}" if near else ""
    message = f'"{text}" is none of these{hint}. Type its number, 1 to {len(question.choices)}'
    raise SurfaceError(message)
