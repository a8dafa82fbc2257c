"""The words of the interview: one question for each key of an event."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.changes._asked import sheet_words
from surfacecheck.changes._events import KINDS
from surfacecheck.changes._examples import size_example
from surfacecheck.model import Happened, specs
from surfacecheck.places import layers_at

if TYPE_CHECKING:
    from surfacecheck.changes._events import EventKind
    from surfacecheck.model import Spec, Surface
    from surfacecheck.places import Spot

__all__ = ["ALL_LAYERS", "NOT_MEASURED", "Question", "question_for"]

NOT_MEASURED = "?"
ALL_LAYERS = "all of them"


@dataclass(frozen=True)
class Question:
    """One question.

    Attributes
    ----------
    key : str
        What the answer is stored under.
    words : str
        The question.
    hint : str
        How to answer, with an example.
    choices : tuple of str
        Answers to choose from; empty where it is typed.
    unknown : bool
        Whether "not measured" is written down as such; otherwise no answer leaves the line out.
    must : bool
        Whether it cannot be left out.
    free : bool
        Whether other words than the choices are taken.
    several : bool
        Whether several are taken, with a semicolon between them.
    """

    key: str
    words: str
    hint: str = ""
    choices: tuple[str, ...] = ()
    unknown: bool = False
    must: bool = False
    free: bool = False
    several: bool = False


def question_for(surface: Surface, key: str, kind: EventKind | None, spot: Spot | None, title: str) -> Question:
    """Give the question for one key.

    Parameters
    ----------
    surface : Surface
        As drawn.
    key : str
        What is asked.
    kind : EventKind or None
        What happened, once that is told.
    spot : Spot or None
        Where, once that is told.
    title : str
        A title made of what was told.

    Returns
    -------
    Question
        In words.
    """
    if key == "what":
        kinds = tuple(one.words[0] for one in KINDS)
        return Question(key, "What happened?", "its number, or its words", kinds, must=True)
    if key == "where":
        such = "" if kind is None else " ".join(surface.said(word) for word in kind.such.split())
        return Question(key, "Where? A name of the printed map.", f"such as: {such}", must=True)
    if key == "layers":
        layers = tuple(sheet_words(surface, one) for one in layers_at(surface, spot)) if spot is not None else ()
        words = "One layer or all? Which sheet has it?"
        return Question(key, words, "a number, or several: 1; 2", (*layers, ALL_LAYERS), several=True)
    if key == "try":
        offers = () if kind is None else kind.offers
        hint = (
            f"several: 1; 2; or your own words, such as: {size_example(surface)}; no answer: all of these that can be"
        )
        words = 'What might be done? "Leave it" always stands beside it.'
        return Question(key, words, hint, offers, free=True, several=True)
    if key == "rivet":
        hint = "its number; one that is not there: write it into part D of the surface file first"
        return Question(key, "Which rivet is in there? A name of part D.", hint, tuple(surface.rivets), must=True)
    if key == "more":
        return Question(key, "Did anything else happen to it?", "yes or no", ("yes", "no"), must=True)
    if key == "title":
        return Question(key, "A title for it?", f"nothing: {title}")
    return _plain(surface, key, specs(Happened)[key][1])


_WORDS = {
    "rivet_in": "Is the rivet still in?",
    "largest_points": "Which way does the largest size point?",
    "second_lies": "Which way does the second hole lie from the first?",
    "done_since": "What has been done to it since?",
    "reached_from": "From where can it be reached?",
}
_SUCH = {
    "smallest": ("4.45 mm (drill shank, 3 tries)", "0.175 in (drill shank, 3 tries)"),
    "pitch": ("30 mm (ruler)", "1.25 in (ruler)"),
    "radius": ("0.5 mm (drill shank)", "1/32 in (drill shank)"),
    "thickness": ("0.45 mm (micrometer, 3 tries)", "0.018 in (micrometer, 3 tries)"),
    "mm": ("4.6 mm (caliper, 2 tries)", "0.181 in (caliper, 2 tries)"),
    "deg": ("3 deg (template)", "3 deg (template)"),
    "kg": ("0.25 kg (scale)", "9 oz (scale)"),
    "knots": ("55 knots (guess)", "55 knots (guess)"),
}
"""Answers as examples: of a key, or of a unit."""
_FROM_THREAD = ("0.3 mm (thread, 3 tries)", "0.012 in (thread, 3 tries)")
_BY_RULER = ("150 mm (ruler)", "6 in (ruler)")
_SUCH |= dict.fromkeys(("out_of_line", "out_of_line_aft"), _FROM_THREAD)
_SUCH |= dict.fromkeys(("from", "to", "wide", "arm", "behind"), _BY_RULER)
_SUCH |= dict.fromkeys(("edge", "edge_first", "edge_last"), ("7.5 mm (caliper, 3 tries)", "0.30 in (caliper, 3 tries)"))
_SUCH |= dict.fromkeys(("off_along", "off_sideways"), ("2 mm (ruler)", "0.08 in (ruler)"))
_HINTS = {
    "leaves": "such as: straight ahead; 12 deg inward; 5 deg up; or: not measured",
    "done_since": "such as: nothing",
    "reached_from": "such as: both sides",
}


def _plain(surface: Surface, key: str, spec: Spec) -> Question:
    """Ask for a key of the file by the words that the file's own help has."""
    words = _WORDS.get(key, f"{spec.help[:1].upper()}{spec.help[1:]}?")
    if spec.enum is not None:
        choices = tuple(dict.fromkeys(surface.said(str(one)) for one in spec.enum))
        return Question(key, words, "its number", choices, unknown=key != "rivet_in")
    if spec.kind == "measure":
        metric, inch = _SUCH.get(key) or _SUCH[spec.hint]
        number, bracket, how = (inch if surface.units == "inch" else metric).partition(" (")
        ways = [surface.said(one) for one in spec.toward]
        such = f"{number}{f' {ways[0]}' if ways else ''}{bracket}{how}"
        other = f", or {ways[1]}" if ways else ""
        return Question(key, words, f"such as: {such}{other}; or: not measured", unknown=True)
    if spec.kind == "count":
        return Question(key, words, "a whole number; or: not measured")
    return Question(key, words, _HINTS.get(key, ""), unknown=spec.kind == "leaves")
