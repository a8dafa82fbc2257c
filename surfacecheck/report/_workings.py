"""Every working on a few sheets of paper: a formula once, and under it one line of numbers for each check."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from surfacecheck.assessment import IN_LINE, SLACK, THROUGH_RIBS
from surfacecheck.checks import NOSE_OPEN

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from surfacecheck.assessment import Letter
    from surfacecheck.loads import LoadCase
    from surfacecheck.report._blocks import CheckBlock

__all__ = ["SharedFormula", "WorkingLine", "Workings", "workings"]

GRANTED = "taken for granted: "
ADDED = ((THROUGH_RIBS, "r"), (NOSE_OPEN, "o"), (IN_LINE, "l"), (SLACK, "s"))
"""What is added to the title of a case, and the letter that stands for it behind the number of the case."""

Key = tuple[tuple[str, str, tuple[tuple[str, str], ...]], ...]


@dataclass(frozen=True, slots=True)
class WorkingLine:
    """The numbers of one check.

    Attributes
    ----------
    name : str
        Path and mode, as ``show`` takes it.
    values : tuple of str
        One for each letter in ``heads``, with the mark of its source where the letter has several.
    result : str
        What the formula gives.
    case : str
        Number of the load case in the table of cases, with a letter of ``ADDED`` for what is added to its title.
    notes : str
        Marks of what was taken for granted.
    """

    name: str
    values: tuple[str, ...]
    result: str
    case: str
    notes: str


@dataclass(frozen=True, slots=True)
class SharedFormula:
    """One formula, what its letters mean, and the checks that are worked with it.

    Attributes
    ----------
    texts : tuple of str
        Such as ``margin = P_s / (FS * S) - 1``; a second one where the first is a multiple of the load.
    heads : tuple of str
        Letters that differ from check to check, with their units.
    means : tuple of str
        A line for each letter: its value where all have the same, what it is, and the marks of its sources.
    source : str
        Where the formula comes from.
    outcome : str
        Words of outcome of the checks below; where another's is different, its note tells.
    result : str
        What it gives: ``margin``, ``must carry``, ``times limit load``.
    lines : tuple of WorkingLine
        The lowest first.
    """

    texts: tuple[str, ...]
    heads: tuple[str, ...]
    means: tuple[str, ...]
    source: str
    outcome: str
    result: str
    lines: tuple[WorkingLine, ...]


@dataclass(frozen=True, slots=True)
class Workings:
    """All of them.

    Attributes
    ----------
    formulas : tuple of SharedFormula
        The one with the lowest margin first.
    sources, notes : tuple of (str, str)
        Mark and text.
    idle : tuple of str
        Names of the checks of which nothing is required, or which cannot be worked at all.
    """

    formulas: tuple[SharedFormula, ...]
    sources: tuple[tuple[str, str], ...]
    notes: tuple[tuple[str, str], ...]
    idle: tuple[str, ...]


class _Marks:
    """Gives every text a mark, the same text the same one."""

    def __init__(self, letters: bool) -> None:
        self._letters = letters
        self._marks: dict[str, str] = {}

    def of(self, text: str) -> str:
        """Return the mark of a text."""
        number = len(self._marks)
        return self._marks.setdefault(text, _lettered(number) if self._letters else str(number + 1))

    def listed(self) -> tuple[tuple[str, str], ...]:
        """Return marks and texts."""
        return tuple((mark, text) for text, mark in self._marks.items())


def workings(blocks: Iterable[CheckBlock], cases: Sequence[LoadCase]) -> Workings:
    """Put the checks that are worked with one formula together.

    Parameters
    ----------
    blocks : iterable of CheckBlock
        The lowest margin first.
    cases : sequence of LoadCase
        In the order of their table.

    Returns
    -------
    Workings
        Every block once.
    """
    groups: defaultdict[tuple[str, Key], list[CheckBlock]] = defaultdict(list)
    idle = []
    for block in blocks:
        if block.formulas:
            key = tuple((one.name, one.formula, tuple((x.name, x.unit) for x in one.letters)) for one in block.formulas)
            groups[(block.anchor.rpartition("-")[0], key)].append(block)
        else:
            idle.append(block.name)
    sources, notes = _Marks(letters=False), _Marks(letters=True)
    numbers = {case.title: str(number + 1) for number, case in enumerate(cases)}
    formulas = tuple(_shared(group, sources, notes, numbers) for group in groups.values())
    return Workings(formulas, sources.listed(), notes.listed(), tuple(idle))


def _shared(group: list[CheckBlock], sources: _Marks, notes: _Marks, numbers: dict[str, str]) -> SharedFormula:
    first = group[0].formulas
    columns = [_column(letters, sources) for letters in zip(*(_letters(block) for block in group), strict=True)]
    differing = [column for column in columns if len(group) == 1 or not column.same]
    outcomes = tuple(dict.fromkeys(block.outcome for block in group))
    lines = []
    for i, block in enumerate(group):
        told = [notes.of(note.removeprefix(GRANTED)) for note in block.notes if note.startswith(GRANTED)]
        told += [notes.of(f"outcome: {block.outcome}")] * (block.outcome != outcomes[0])
        values = tuple(column.cells[i] for column in differing)
        lines.append(
            WorkingLine(block.name, values, block.formulas[0].result, _case(block.case, numbers), " ".join(told))
        )
    return SharedFormula(
        tuple(f"{one.name} = {one.formula}" for one in first),
        tuple(column.head for column in differing),
        tuple(column.means for column in columns),
        first[-1].source,
        outcomes[0],
        f"{first[0].name} [{first[0].unit}]" if first[0].unit else first[0].name,
        tuple(lines),
    )


@dataclass(frozen=True, slots=True)
class _Column:
    """One letter over the checks of a formula; ``same`` where value and source are those of every check."""

    head: str
    means: str
    cells: tuple[str, ...]
    same: bool


def _column(letters: Sequence[Letter], sources: _Marks) -> _Column:
    one = letters[0]
    marks = [sources.of(letter.source) for letter in letters]
    several = tuple(dict.fromkeys(marks))
    beside = ", beside its value" if len(several) > 1 else ""
    cells = tuple(
        f"{letter.text} ({mark})" if len(several) > 1 else letter.text
        for letter, mark in zip(letters, marks, strict=True)
    )
    same = len(set(cells)) == 1
    value = f" = {one.text}{f' {one.unit}' if one.unit else ''}" if same and len(letters) > 1 else ""
    means = f"{one.name}{value}: {_common([letter.means for letter in letters])} ({', '.join(several)}{beside})"
    return _Column(f"{one.name} [{one.unit}]" if one.unit else one.name, means, cells, same)


def _letters(block: CheckBlock) -> list[Letter]:
    """List the letters of all formulas of a check, each once."""
    return list({one.name: one for formula in block.formulas for one in formula.letters}.values())


def _common(texts: Sequence[str]) -> str:
    """Keep the words in which texts begin and end alike.

    Examples
    --------
    >>> _common(["thickness of left skin", "thickness of rib"])
    'thickness of ...'
    """
    words = [text.split() for text in dict.fromkeys(texts)]
    if len(words) == 1:
        return texts[0]
    ahead = _alike(words)
    behind = _alike([one[ahead:][::-1] for one in words])
    return " ".join([*words[0][:ahead], "...", *words[0][len(words[0]) - behind :]])


def _alike(words: list[list[str]]) -> int:
    """Count the words in which lists begin alike."""
    return next((i for i, at in enumerate(zip(*words, strict=False)) if len(set(at)) > 1), min(map(len, words)))


def _case(title: str, numbers: dict[str, str]) -> str:
    """Give the number of a case by its title; what is added to a title stands as a letter behind it."""
    whole = max((one for one in numbers if title.startswith(one)), key=len, default="")
    if not whole:
        return title
    rest = title[len(whole) :]
    for words, letter in ADDED:
        rest = rest.replace(words, letter)
    return numbers[whole] + rest


def _lettered(number: int) -> str:
    """Count in letters: a to z, aa, ab."""
    head, last = divmod(number, 26)
    return (_lettered(head - 1) if head else "") + chr(ord("a") + last)
