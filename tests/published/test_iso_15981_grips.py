"""ISO 15981:2002, Table 1: recommended grip ranges of open-end blind rivets, AlA/AlA. Millimetres.

The first pages are public; the columns 2.4, 3.0/3.2, 4.0, 4.8/5.0, 6.0/6.4 were read from running text, a dash where
a column has none, so a row with its dashes leaves no choice. The library ships 3.0 to 5.0.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.library import rivet_type
from surfacecheck.model import Rivet, RivetLength, RivetSet
from surfacecheck.provenance import Value
from surfacecheck.studies import rivet_length

NO = None
TABLE = {  # length: 3.0 and 3.2, 4.0, 4.8 and 5.0
    5: ((0.5, 1.5), NO, NO),
    6: ((1.5, 3.5), (1.0, 3.0), (1.5, 2.5)),
    8: ((3.5, 5.0), (3.0, 5.0), (2.5, 4.0)),
    10: ((5.0, 7.0), (5.0, 6.5), (4.0, 6.0)),
    12: ((7.0, 9.0), (6.5, 8.5), (6.0, 8.0)),
    16: ((9.0, 13.0), (8.5, 12.5), (8.0, 12.0)),
    20: ((13.0, 17.0), (12.5, 16.5), (12.0, 15.0)),
    25: ((17.0, 22.0), (16.5, 21.0), (15.0, 20.0)),
    30: (NO, NO, (20.0, 25.0)),
}
SIZES = {"3 mm": 0, "3.2 mm": 0, "4 mm": 1, "4.8 mm": 2, "5 mm": 2}


def column(size: str) -> dict[int, tuple[float, float]]:
    return {length: row[SIZES[size]] for length, row in TABLE.items() if row[SIZES[size]] is not None}


def described(size: str) -> Rivet:
    """The standard's rivet as a builder's packet would list it."""
    lengths = tuple(
        RivetLength(Value(length * 1e-3, f"{length} mm"), tuple(Value(end * 1e-3, f"{end} mm") for end in ends))
        for length, ends in column(size).items()
    )
    return Rivet(set=RivetSet.PULLED, lengths=lengths, name="iso")


@pytest.mark.parametrize("size", SIZES)
def test_every_entry_of_the_library(size: str) -> None:
    rivet = rivet_type(f"ISO 15981 {size}")
    found = {round(g.length * 1e3): (g.least * 1e3, g.most * 1e3) for g in rivet.grips}
    assert {length: pytest.approx(ends) for length, ends in column(size).items()} == found


@pytest.mark.parametrize("size", SIZES)
def test_the_lengths_follow_each_other_without_a_gap(size: str) -> None:
    """So that every stack from the thinnest to the thickest has a length, at the ends two."""
    ends = list(column(size).values())
    assert all(one[1] == other[0] for one, other in pairwise(ends))


@pytest.mark.parametrize("size", SIZES)
def test_the_body_sticks_out_behind_by_about_a_diameter(size: str) -> None:
    """Length less the thickest stack: 1 to 1.75 d from 8 mm on (a common rule says 1 d)."""
    d = float(rivet_type(f"ISO 15981 {size}").diameter.si) * 1e3
    for length, (_, most) in column(size).items():
        if length >= 8:
            assert 0.6 < (length - most) / d < 1.75


@pytest.mark.parametrize(
    ("size", "stack", "length", "others"),
    [
        ("4 mm", 2.0, 6, ()), ("4 mm", 3.0, 6, (8,)), ("4 mm", 3.001, 8, ()), ("4 mm", 5.0, 8, (10,)),
        ("4 mm", 1.0, 6, ()), ("4 mm", 21.0, 25, ()), ("3.2 mm", 1.0, 5, ()), ("4.8 mm", 25.0, 30, ()),
    ],
)  # fmt: skip
def test_choosing(size: str, stack: float, length: int, others: tuple[int, ...]) -> None:
    """The ends of a range belong to it; where two hold, the one whose middle is nearer, the other is named."""
    chosen = rivet_length(described(size), stack * 1e-3)
    assert chosen is not None
    assert chosen.length == pytest.approx(length * 1e-3)
    assert [one * 1e3 for one in chosen.others] == pytest.approx(list(others))


@pytest.mark.parametrize(("size", "stack"), [("4 mm", 0.999), ("4 mm", 21.001), ("4.8 mm", 1.4), ("3.2 mm", 0.4)])
def test_outside_every_grip_is_one_clear_line(size: str, stack: float) -> None:
    with pytest.raises(SurfaceError, match=r"rivet\.iso: no length holds a stack of") as error:
        rivet_length(described(size), stack * 1e-3)
    assert "\n" not in str(error.value)
    assert "6 mm (" in str(error.value)
    assert "Another length, another rivet" in str(error.value)


@pytest.mark.parametrize("stack", [0.0, -1e-3, float("nan"), float("inf")])
def test_no_stack(stack: float) -> None:
    with pytest.raises(SurfaceError, match="stack is"):
        rivet_length(described("4 mm"), stack)
