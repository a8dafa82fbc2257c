"""Drills: ASME B94.11M number sizes and BS 328 tenths; holes of MIL-HDBK-5J Table 8.1.2(a), ISO and trade tables."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.library import drill_gauges, drills_within, nearest_drills, number_drill, rivet_type
from surfacecheck.quantities._grammar import _DRILLS
from surfacecheck.rules import hole_range

IN = 0.0254


@pytest.mark.parametrize(
    ("number", "inches", "mm"),
    [
        (51, 0.0670, 1.70), (41, 0.0960, 2.44), (40, 0.0980, 2.49), (30, 0.1285, 3.26), (29, 0.1360, 3.45),
        (28, 0.1405, 3.57), (27, 0.1440, 3.66), (22, 0.1570, 3.99), (21, 0.1590, 4.04), (20, 0.1610, 4.09),
        (19, 0.1660, 4.22), (12, 0.1890, 4.80), (11, 0.1910, 4.85), (10, 0.1935, 4.91), (1, 0.2280, 5.79),
    ],
)  # fmt: skip
def test_number_sizes(number: int, inches: float, mm: float) -> None:
    assert number_drill(number).size / IN == pytest.approx(inches, abs=1e-9)
    assert number_drill(number).size * 1e3 == pytest.approx(mm, abs=0.006)


def test_the_numbers_fall_all_the_way() -> None:
    sizes = [number_drill(number).size for number in range(1, 52)]
    assert all(one > other for one, other in pairwise(sizes))


def test_the_drills_an_error_message_knows_are_the_same() -> None:
    for number, inches in _DRILLS.items():
        assert number_drill(number).size / IN == pytest.approx(inches)


@pytest.mark.parametrize(("rivet", "number"), [("AD 3/32", 41), ("AD 1/8", 30), ("AD 5/32", 21), ("AD 3/16", 11)])
def test_solid_rivets_take_the_listed_drill(rivet: str, number: int) -> None:
    """MIL-HDBK-5J, Table 8.1.2(a), as quoted in secondary text: each listed hole is a number drill."""
    assert nearest_drills(rivet_type(rivet).hole.si)[1] == number_drill(number)
    assert rivet_type(rivet).hole.si == pytest.approx(number_drill(number).size)


@pytest.mark.parametrize(
    ("low", "high", "inside", "nearest"),
    [  # inches; recommended holes of IFI-114 (from memory) and what trade tables call the nearest drill
        (0.097, 0.100, ["#40", "2.5 mm", "#39"], "#40"), (0.129, 0.133, ["3.3 mm"], "#30"),
        (0.160, 0.164, ["#20", "4.1 mm"], "#20"), (0.192, 0.196, ["4.9 mm", "#10", "#9"], "#10"),
    ],
)  # fmt: skip
def test_blind_rivets_of_inch_sizes(low: float, high: float, inside: list[str], nearest: str) -> None:
    """#30 is the drill everybody takes for 1/8 in, and half a thousandth below the least hole: said, not hidden."""
    found = [one.name for one in drills_within(low * IN, high * IN)]
    assert [one for one in found if one in inside] == inside
    number = nearest_drills((low + 0.0005) * IN)[1]
    assert number.name == nearest
    thirty = number_drill(30).size / IN
    assert 0.129 - thirty == pytest.approx(0.0005)


@pytest.mark.parametrize(
    ("d", "drill", "go", "stays_out"),
    [(3.0, "3.1 mm", "3.1 mm", "#30"), (3.2, "3.3 mm", "3.3 mm", "#29"), (4.0, "4.1 mm", "4.1 mm", "#19"),
     (4.8, "4.9 mm", "4.9 mm", "#8")],
)  # fmt: skip
def test_blind_rivets_of_metric_sizes(d: float, drill: str, go: str, stays_out: str) -> None:
    """ISO: the hole is 0.1 to 0.2 mm over the nominal diameter, one drill by tenths at either end."""
    low, high = (d + 0.1) * 1e-3, (d + 0.2) * 1e-3
    assert nearest_drills(low)[0].name == drill
    assert [one.name for one in drill_gauges(low, high) if one is not None] == [go, stays_out]
    assert hole_range(nearest_drills(low)[0].size, low, high).outcome == "meets"


def test_a_28_in_an_eighth_hole() -> None:
    """#30 opened to #28: 19.5 % more hole, and over the most a 1/8 in or 3.2 mm blind rivet may be set in."""
    small, large = (math.pi / 4 * number_drill(n).size ** 2 for n in (30, 28))
    assert large / small - 1 == pytest.approx(0.195, abs=5e-4)
    assert hole_range(number_drill(28).size, 3.3e-3, 3.4e-3).outcome == "does not meet"


def test_two_eighths_against_one_5_32() -> None:
    """Areas of two 0.1285 in holes over one of 0.159 in: 1.306."""
    assert 2 * number_drill(30).size ** 2 / number_drill(21).size ** 2 == pytest.approx(1.306, abs=5e-4)


@pytest.mark.parametrize("hole", [0.5e-3, 14.0e-3, 3.3, float("nan")])
def test_where_the_lists_end(hole: float) -> None:
    with pytest.raises(SurfaceError, match=r"no drill for a hole of .* mm: drills of 1 to 13.9 mm are listed"):
        nearest_drills(hole)


def test_other_bad_input() -> None:
    with pytest.raises(SurfaceError, match="drill #99 is not in the table: it holds #1 to #51"):
        number_drill(99)
    with pytest.raises(SurfaceError, match="turn them round"):
        drills_within(3.4e-3, 3.3e-3)
    assert drills_within(3.31e-3, 3.32e-3) == ()
    assert drill_gauges(1.0e-3, 1.0e-3)[0].name == "1 mm"
