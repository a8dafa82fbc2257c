"""What gives first at a touched place is named by the part that gives, not by another part of the same place."""

from __future__ import annotations

from pathlib import Path

import pytest

from surfacecheck.reading import read_text
from surfacecheck.studies import deviation, deviation_text, query, query_text

DATA = Path(__file__).parents[2] / "data"
OFF_LINE = 'where = "hinge middle"\nwhat = "hinge off line"\nout_of_line = "0.5 mm left (thread)"'
ARM = 'where = "horn"\nwhat = "horn arm other"\narm = "70 mm (ruler)"'
RIVET = 'where = "hinge middle, bracket rivet 3"\nwhat = "hole too large"\nsmallest = "4.3 mm"\nlayers = ["spar"]'


def worked(text: str):
    return deviation(read_text(f'based_on = "rudder.toml"\n[[happened]]\n{text}\n', "told.toml", DATA))


@pytest.mark.parametrize(("text", "part"), [(OFF_LINE, "middle hinge"), (ARM, "horn")])
def test_a_place_of_several_parts_names_the_one_that_gives(text: str, part: str) -> None:
    found = worked(text)
    margins = [one for one in found.here if one.quantity == "margin"]
    assert {one.name for one in margins} == {part}
    (line,) = margins
    for says, lowest in zip(line.says, (one for way in found.ways for one in way.here(found.places)), strict=True):
        own = lowest.check.part.removeprefix(part).removeprefix(", ")
        assert says == (f"{own}: {lowest.gives}" if own else lowest.gives)
    for words in (deviation_text(found), query_text(query(found))):
        assert f"{part}, pin: rivet" not in words
        assert "horn, plate: rivet" not in words


def test_a_rivet_keeps_its_own_words() -> None:
    names = {one.name for one in worked(RIVET).here}
    assert "middle hinge, bracket, rivet 3" in names
    assert "middle hinge, bracket" in names
