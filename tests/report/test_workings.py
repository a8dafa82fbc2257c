"""The workings as they are printed: every check is there once, and its line gives its result again."""

from __future__ import annotations

import re

import pytest

from surfacecheck.report import page
from surfacecheck.report._blocks import check_blocks
from surfacecheck.report._workings import workings
from surfacecheck.working import evaluate

VALUE = re.compile(r"(-?[\d.]+(?:e[+-]?\d+)?)(?: \(\d+\))?")
SAID_ONCE = re.compile(r"(\w+) = (-?[\d.]+(?:e[+-]?\d+)?)")


@pytest.fixture(scope="module", params=["metric", "inch"])
def printed(request, demo):
    """Blocks of the demo as they stand on the page, and the same put together for paper."""
    blocks = [one for kind in check_blocks(demo, request.param).values() for one in kind]
    return blocks, workings(blocks, demo.cases)


def numbers(shared, line):
    """Read the letters of one printed line, those said once for all lines included."""
    once = {found[1]: float(found[2]) for one in shared.means if (found := SAID_ONCE.match(one))}
    own = {
        head.split(" [")[0]: float(VALUE.fullmatch(value)[1])
        for head, value in zip(shared.heads, line.values, strict=True)
    }
    assert not once.keys() & own.keys()
    return once | own


def test_every_check_stands_there_once(printed):
    blocks, put = printed
    names = [line.name for shared in put.formulas for line in shared.lines]
    assert sorted([*names, *put.idle]) == sorted(block.name for block in blocks)
    assert len(names) > 100


def test_every_line_gives_its_result_again(printed):
    """The first formula gives the result, a multiple of the load uses the part up, a step gives its own letter."""
    _, put = printed
    for shared in put.formulas:
        for line in shared.lines:
            letters = numbers(shared, line)
            for text in shared.texts:
                name, formula = text.split(" = ", 1)
                said = {"used": "1.000", shared.result.split(" [")[0]: line.result}.get(name) or str(letters[name])
                places = len(said.partition(".")[2])
                assert f"{evaluate(formula, letters):.{places}f}" == f"{float(said):.{places}f}", (line.name, text)


def test_every_mark_is_explained(printed):
    blocks, put = printed
    sources, notes = (dict(one) for one in (put.sources, put.notes))
    told = {note.removeprefix("taken for granted: ") for block in blocks for note in block.notes if "granted" in note}
    assert told <= set(notes.values())
    assert {letter.source for block in blocks for one in block.formulas for letter in one.letters} == set(
        sources.values()
    )
    for shared in put.formulas:
        for means in shared.means:
            inside = re.search(r"\(([\d, ]+)(, beside its value)?\)$", means)
            assert set(inside[1].split(", ")) <= set(sources)
        assert {mark for line in shared.lines for mark in line.notes.split()} <= set(notes)


def test_a_case_is_found_by_its_number(printed, demo):
    blocks, put = printed
    case = {line.name: line.case for shared in put.formulas for line in shared.lines}
    for block in blocks:
        if block.name in case:
            number, added = re.fullmatch(r"(\d+)([rols]*)", case[block.name]).groups()
            title = demo.cases[int(number) - 1].title
            assert block.case.startswith(title)
            assert ("through the ribs" in block.case[len(title) :]) is ("r" in added)


def test_the_page_holds_them_for_paper_alone(demo, printed):
    text = page(demo)
    (inside,) = re.findall(r'(?s)<div class="onpaper">(.*?)<h3>Known from', text)
    _, put = printed
    for shared in put.formulas:
        for line in shared.lines:
            assert f">{line.name}</th>" in inside
    assert ".onpaper{display:none}" in text
