"""Cautions by topic: what a deviation smells of that no static margin looks at, said beside the number.

Each sentence is common practice of sheet-metal work unless it names its text. None of them is a finding.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

__all__ = ["CAUTIONS", "TOPICS", "Caution", "cautions_for", "topics_for"]

TOPICS = ("fatigue", "flutter", "corrosion", "workmanship")
"""What the checks never look at, and these cautions speak of."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution.

    Attributes
    ----------
    topic : str
        One of ``TOPICS``.
    words : str
        Pattern of the words that smell of it.
    says : str
        The sentence.
    """

    topic: str
    words: str
    says: str


CAUTIONS = (
    Caution(
        "fatigue",
        r"crack|stop.?drill",
        "A crack is fatigue or overload at work: no margin here clears it. Stop-drilling delays, it does not mend; "
        "the maker's bulletin and the designer come first.",
    ),
    Caution(
        "fatigue",
        r"nick|notch|scratch|gouge|corner|relief|sharp|burr|filed|dent|crease|stray hole|figure.?eight|slot",
        "A notch tells where a crack would start, not when: edge smooth to the touch, no cutting marks, and looked at "
        "again at each inspection.",
    ),
    Caution(
        "fatigue",
        r"\bhole|oval|oblong|too large|oversize|edge (distance|short)|short edge|drilled|missing|forgotten|not there"
        r"|drifted|runs off",
        "A static margin says nothing of thousands of small loads: holes, short edges and the rivets beside a gap are "
        "where cracks are found.",
    ),
    Caution(
        "fatigue",
        r"doubler|\bpatch|stiffener|thicker",
        "A doubler moves the place where a crack would start to its own first rivet row; it does not remove the load.",
    ),
    Caution(
        "fatigue",
        r"alloy|temper|2024|7075|6061",
        'A "stronger" metal can crack sooner from a notch or a bend, and it is no stiffer.',
    ),
    Caution(
        "fatigue",
        r"bracket|no rib|rib behind",
        "Webs at hinge brackets without a rib behind them are where real surfaces crack; look at the bend radius too.",
    ),
    Caution(
        "fatigue",
        r"oil.?can|\bpop|wrinkle|loose skin|pillow",
        "A skin that pops in and out works its end rivets: cracks begin at the ends of stiffeners.",
    ),
    Caution(
        "flutter",
        r"paint|filler|mass|weight|heavy|balance|\btab\b|servo|trim|repair|\bpatch|doubler|thicker|gauge|lightening",
        "Mass behind the pins, and stiffness taken or given, change flutter behaviour; balance again after it "
        "(AC 43.13-1B, paragraph 4-36). Balanced does not mean free of flutter.",
    ),
    Caution(
        "flutter",
        r"free play|slop|worn|loose|rattle|play of|backlash|clearance",
        "Free play is a flutter matter before it is a strength matter: only the maker's limit counts.",
    ),
    Caution(
        "flutter",
        r"cut.?out|open edge|unclosed|trailing edge|skin off|bay open|slit",
        "An opened box loses nearly all its stiffness in twist, and with it what holds flutter off.",
    ),
    Caution(
        "corrosion",
        r"dissimilar|steel|stainless|monel|copper|brass|\blead\b|galvanic|carbon",
        "Two metals with water between them: the smaller part of the baser metal goes first. Primer or sealant "
        "between, drained, looked at; salt air decides.",
    ),
    Caution(
        "corrosion",
        r"wrong rivet|other rivet|another rivet",
        "A rivet of another kind may be of another metal: look up body and stem, and what they lie against.",
    ),
    Caution(
        "corrosion",
        r"scratch|\bbare\b|filed|burr|clad|paint|filler|stripper|\bshim|\bpatch|doubler",
        "Bare metal and shut gaps hold water: clean, treat and prime before it is closed.",
    ),
    Caution(
        "workmanship",
        r"rivet look|smiley|\bhead|seated|\bstem|\btipped|clinched|proud|\bgrip|too long|too short|gap under|poor",
        "What a rivet looks like is judged on the part and by the maker's sheet; a number cannot see it. Drilling it "
        "out often does more harm than it did.",
    ),
    Caution(
        "workmanship",
        r"\bhole|drilled|oval|oblong|\bream|burr|\bchip|oversize|next size",
        "Drill last in place and backed up, deburr between the layers, no chips left in: each further size leaves "
        "less edge.",
    ),
    Caution(
        "workmanship",
        r"off line|not in line|\bbind|forced|pulled straight|warped|twist|\bshim|preload",
        "A part pulled into place is loaded before the first flight, and that load does not show.",
    ),
    Caution(
        "workmanship",
        r"\bgust|storm|\bwind\b|over.?travel|swung|tie.?down|stop hit|ground handling|hangar",
        "Damage that cannot be seen is the point: take it off and look. Do not fly on a calculation.",
    ),
)
"""In the order of what is asked most."""


def cautions_for(what: str) -> tuple[str, ...]:
    """Choose the cautions that go with a deviation.

    Parameters
    ----------
    what : str
        What happened or was changed, in any words: the kind of an event, a title, a place.

    Returns
    -------
    tuple of str
        Sentences, each once and led by its topic; empty where nothing is told apart.

    Examples
    --------
    >>> for one in cautions_for("free play at the middle hinge"):
    ...     print(one)
    Flutter: Free play is a flutter matter before it is a strength matter: only the maker's limit counts.
    >>> cautions_for("")
    ()
    """
    return tuple(f"{one.topic.capitalize()}: {one.says}" for one in _found(what))


def topics_for(what: str) -> tuple[str, ...]:
    """Name the topics that a deviation smells of.

    Parameters
    ----------
    what : str
        As for :func:`cautions_for`.

    Returns
    -------
    tuple of str
        In the order of ``TOPICS``.

    Examples
    --------
    >>> topics_for("filler and paint"), topics_for("hole too large")
    (('flutter', 'corrosion'), ('fatigue', 'workmanship'))
    """
    found = {one.topic for one in _found(what)}
    return tuple(topic for topic in TOPICS if topic in found)


def _found(what: str) -> tuple[Caution, ...]:
    words = re.sub(r"[_\s]+", " ", what.casefold())
    return tuple(one for one in CAUTIONS if re.search(one.words, words))
