"""FAA AC 43.13-1B, 9/8/98 with change 1 of 9/27/01, chapter 4, pages 4-14 to 4-41. Inches.

Rivet tables 4-9 to 4-11 with their notes and worked examples, bends, edge and pitch; entries and notes as public
mirrors of the pages show them. 2024-T3 clad stands in two tables (4-9 and 4-10) with different counts: a known
inconsistency.
"""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.rules import (
    bend_allowance,
    bend_radius_range,
    diameter_for_sheet,
    edge_distance,
    greatest_pitches,
    least_pitch,
    rivet_count,
    rivets_by_notes,
    rivets_per_width,
    setback,
)

IN = 0.0254
LBF = 4.4482216152605
SIZES = {"3/32": (0.096, 217), "1/8": (0.1285, 388), "5/32": (0.159, 596), "3/16": (0.191, 862), "1/4": (0.257, 1555)}
GAUGES = (0.016, 0.020, 0.025, 0.032, 0.036, 0.040, 0.051, 0.064, 0.081, 0.091, 0.102, 0.128)
NO = None
TABLES = {  # rivets an inch, by gauge and size; as printed
    "2024-T3": (
        (6.5, 4.9, NO, NO, NO), (6.9, 4.9, 3.9, NO, NO), (8.6, 4.9, 3.9, NO, NO), (11.1, 6.2, 3.9, 3.3, NO),
        (12.5, 7.0, 4.5, 3.3, 2.4), (13.8, 7.7, 5.0, 3.5, 2.4), (NO, 9.8, 6.4, 4.5, 2.5), (NO, 12.3, 8.1, 5.6, 3.1),
        (NO, NO, 10.2, 7.1, 3.9), (NO, NO, 11.4, 7.9, 4.4), (NO, NO, 12.8, 8.9, 4.9), (NO, NO, NO, 11.2, 6.2),
    ),
    "2024-T3 clad": (
        (6.5, 4.9, NO, NO, NO), (6.5, 4.9, 3.9, NO, NO), (6.9, 4.9, 3.9, NO, NO), (8.9, 4.9, 3.9, 3.3, NO),
        (10.0, 5.6, 3.9, 3.3, 2.4), (11.1, 6.2, 4.0, 3.3, 2.4), (NO, 7.9, 5.1, 3.6, 2.4), (NO, 9.9, 6.5, 4.5, 2.5),
        (NO, 12.5, 8.1, 5.7, 3.1), (NO, NO, 9.1, 6.3, 3.5), (NO, NO, 10.3, 7.1, 3.9), (NO, NO, 12.9, 8.9, 4.9),
    ),
    "5052": (
        (6.3, 4.7, NO, NO, NO), (6.3, 4.7, 3.8, NO, NO), (6.3, 4.7, 3.8, NO, NO), (6.3, 4.7, 3.8, 3.2, NO),
        (7.1, 4.7, 3.8, 3.2, 2.4), (7.9, 4.7, 3.8, 3.2, 2.4), (10.1, 5.6, 3.8, 3.2, 2.4), (12.7, 7.0, 4.6, 3.2, 2.4),
        (NO, 8.9, 5.8, 4.0, 2.4), (NO, 10.0, 6.5, 4.5, 2.5), (NO, 11.2, 7.3, 5.1, 2.8), (NO, NO, 9.2, 6.4, 3.5),
    ),
}  # fmt: skip


MISPRINT = ("2024-T3", 0.032, "5/32")
"""3.9 is its bearing branch, 1/(1.6 x 0.159) = 3.93; shear asks 4.03, so the entry reads as if it stood one line higher
than the rule's own change-over. The only entry of the three tables that is more than 0.072 off."""


def entries() -> list[tuple[str, float, str, float]]:
    """Every printed entry: group, gauge, size, rivets an inch."""
    return [
        (group, gauge, size, printed)
        for group, table in TABLES.items()
        for gauge, row in zip(GAUGES, table, strict=True)
        for size, printed in zip(SIZES, row, strict=True)
        if printed is not None
    ]


def off(group: str, gauge: float, size: str, printed: float, *, by_notes: bool) -> float:
    hole, shear = SIZES[size]
    if by_notes:
        return float(rivets_by_notes(gauge * IN, hole * IN, group)) * IN - printed
    return float(rivets_per_width(gauge * IN, hole * IN, shear * LBF, group)) * IN - printed


def test_there_are_as_many_entries_as_printed() -> None:
    assert [sum(one[0] == group for one in entries()) for group in TABLES] == [41, 43, 47]


@pytest.mark.parametrize(
    ("by_notes", "largest"), [(True, 0.0687), (False, 0.0713)], ids=["by the notes", "by fitted stresses"]
)
@pytest.mark.parametrize("group", TABLES)
def test_the_rule_reproduces_every_entry(group: str, by_notes: bool, largest: float) -> None:
    """Tables 4-9, 4-10, 4-11: a tenth an inch is printed, so half of it is rounding; the largest rest is stated here.

    What is left beyond 0.05 is spread without a pattern (3/32 in up to 0.07 under, 5/32 in up to 0.07 over): the
    tables were worked with rounded holes or strengths that are not printed.
    """
    found = [(abs(off(*one, by_notes=by_notes)), one) for one in entries() if one[0] == group]
    rest = [(wide, one) for wide, one in found if one[:3] != MISPRINT]
    assert max(rest)[0] <= largest
    assert sum(wide > 0.05 + 1e-9 for wide, _ in rest) <= 8


def test_the_one_entry_that_is_off_in_both() -> None:
    entry = next(one for one in entries() if one[:3] == MISPRINT)
    assert off(*entry, by_notes=True) == pytest.approx(0.129, abs=5e-4)
    assert off(*entry, by_notes=False) == pytest.approx(0.127, abs=5e-4)
    assert pytest.approx(3.93, abs=5e-3) == 1.0 / (1.6 * 0.159)


@pytest.mark.parametrize(("group", "given"), [("2024-T3", 0.40), ("5052", 0.70)])
def test_the_shares_of_the_notes_are_those_that_fit(group: str, given: float) -> None:
    """Engineering note b: 40 per cent (4-9) and 70 (4-11); least squares over the entries critical in shear."""
    rows = [(g, s, n) for one, g, s, n in entries() if one == group and (one, g, s) != MISPRINT]
    rows = [(g, SIZES[s][0], n) for g, s, n in rows if n > 1.0 / (1.6 * SIZES[s][0]) + 0.1]
    model = np.array([gauge / (np.pi / 4.0 * hole**2) for gauge, hole, _ in rows])
    share = float(model @ model / (model @ np.array([n for *_, n in rows])))
    assert len(rows) > 15
    assert share == pytest.approx(given, abs=0.005)


def test_table_4_11_was_worked_with_165_not_160() -> None:
    """Its note says 160 per cent, which gives 4.9 and 3.9; printed are 4.7 and 3.8, as 165 gives."""
    for size, printed, by_note in (("1/8", 4.7, 4.9), ("5/32", 3.8, 3.9)):
        hole = SIZES[size][0]
        assert round(1.0 / (1.65 * hole), 1) == printed
        assert round(1.0 / (1.60 * hole), 1) == by_note


@pytest.mark.parametrize(
    ("bearing", "sheet", "bolts"),
    [
        (1.6, 70e3, {0.040: 3.3, 0.051: 3.3, 0.064: 3.3, 0.081: 3.3, 0.091: 3.3, 0.102: 3.4}),
        (1.6, 55e3, {0.051: 3.3, 0.064: 3.3, 0.081: 3.3, 0.091: 3.3, 0.102: 3.3, 0.128: 3.3}),
        (1.65, None, {0.081: 3.2, 0.091: 3.2, 0.102: 3.2, 0.128: 3.2}),
    ],
    ids=["4-9", "4-10", "4-11"],
)
def test_the_bolt_column_follows_the_same_rule(bearing: float, sheet: float | None, bolts: dict[float, float]) -> None:
    """AN-3, 0.190 in, 2126 lb: note d gives the sheet 70 000 psi (4-9) and 55 000 (4-10), none in 4-11.

    The last entry of 4-9 (0.128 in) reads 3.2 in the mirror at hand; the rule gives 4.2, so a digit is misread there.
    """
    for gauge, printed in bolts.items():
        by_shear = 0.0 if sheet is None else gauge * sheet / 2126.0
        assert max(1.0 / (bearing * 0.190), by_shear) == pytest.approx(printed, abs=0.05)
    assert pytest.approx(4.2, abs=0.05) == 0.128 * 70e3 / 2126.0


def test_no_table_for_other_metal() -> None:
    with pytest.raises(SurfaceError, match=r'no rivet table for "6061"; there is one for: 2024-T3, 2024-T3 clad, 5052'):
        rivets_by_notes(1e-3, 3e-3, "6061")


def test_the_worked_pattern_of_the_splice() -> None:
    """Paragraph 4-58g(2)(c): two rows at the least spacing over 10 in are 40 rivets; 37 are asked, so 19 a row.

    20 a row in 10 in is 0.5 in, which is 4 D of the 1/8 in rivet: least pitch of two lines.
    """
    asked = least_pitch(1.0, 0.125 * IN, lines=2).asked / IN
    assert 2 * round(10.0 / asked) == 40
    assert asked < 10.0 / 19


@pytest.mark.parametrize(
    ("width", "gauge", "joint", "rivets"),
    [(10.0, 0.032, "lap joint", 37), (0.6, 0.040, "stringer", 4), (2.0, 0.040, "stringer", 13)],
)
def test_worked_rivet_counts(width: float, gauge: float, joint: str, rivets: int) -> None:
    """Examples of paragraph 4-57 on, 1/8 in rivets in clad 2024: 4.9 x 0.75 x 10; 6.2 x 0.6; 6.2 x 2.0."""
    hole, shear = SIZES["1/8"]
    assert rivet_count(width * IN, gauge * IN, hole * IN, shear * LBF, "2024-T3 clad", joint) == rivets


def test_worked_counts_of_frames() -> None:
    """The examples take 60 % of the count already rounded up: 4 x 0.6 -> 3 and 13 x 0.6 -> 8."""
    hole, shear = SIZES["1/8"]
    for width, whole, frame in ((0.6, 4, 3), (2.0, 13, 8)):
        assert rivet_count(width * IN, 0.040 * IN, hole * IN, shear * LBF, "2024-T3 clad", "frame") == frame
        assert -(-whole * 6 // 10) == frame


@pytest.mark.parametrize(("degrees", "inches"), [(45.0, 0.130), (135.0, 0.758)])
def test_setback(degrees: float, inches: float) -> None:
    """t 0.064, R 0.25 in."""
    assert float(setback(0.25, 0.064, degrees)) == pytest.approx(inches, abs=5e-4)


def test_bend_allowance() -> None:
    """R 0.125, t 0.032, 90 degrees: 0.2186 in with 0.01743 (0.2171 with the 0.0173 of other texts)."""
    assert float(bend_allowance(0.125, 0.032, 90.0)) == pytest.approx(0.2186, abs=5e-5)


@pytest.mark.parametrize(
    ("alloy", "gauge", "low", "high"),
    [
        ("6061-T6", 0.032, 0.016, 0.048),
        ("6061-T6", 0.064, 0.064, 0.128),
        ("6061-T6", 0.016, 0.0, 0.016),
        ("2024-T3", 0.032, 0.064, 0.128),
        ("2024-T3 clad", 0.064, 0.192, 0.320),
        ("5052-H32", 0.064, 0.032, 0.064),
        ("5052-H34", 0.128, 0.192, 0.320),
        ("6061-T4", 0.032, 0.0, 0.032),
        ("7075-T6", 0.016, 0.032, 0.064),
    ],
)
def test_bend_radii(alloy: str, gauge: float, low: float, high: float) -> None:
    """Table 4-6 at its own thicknesses."""
    span = bend_radius_range(alloy, gauge * IN)
    assert span is not None
    assert [r / IN for r in span] == pytest.approx([low, high], abs=1e-9)


def test_bend_radii_end_with_the_table() -> None:
    assert bend_radius_range("6061-T6", 0.012 * IN) is None
    assert bend_radius_range("304", 0.032 * IN) is None


def test_edge_and_pitch_of_an_eighth() -> None:
    """1/8 in rivet: edge 0.250 (0.3125 countersunk), pitch 0.375, two lines 0.500 in."""
    d = 0.125 * IN
    asked = [
        edge_distance(1.0, d).asked, edge_distance(1.0, d, head="countersunk").asked,
        least_pitch(1.0, d).asked, least_pitch(1.0, d, lines=2).asked,
    ]  # fmt: skip
    assert [a / IN for a in asked] == pytest.approx([0.250, 0.3125, 0.375, 0.500])
    assert edge_distance(0.250 * IN, d).outcome == "meets"
    assert edge_distance(0.249 * IN, d).outcome == "does not meet"


def test_two_texts_disagree_on_the_diameter() -> None:
    """0.050 in: three times is 0.150, so 5/32 in (0.156) is one text's choice, above the other's most: a remark."""
    one = diameter_for_sheet(0.15625 * IN, 0.050 * IN)
    assert one.asked / IN == pytest.approx(0.150)
    assert one.outcome == "does not meet"
    assert not one.counts


@pytest.mark.parametrize(("gauge", "inches"), [(0.025, 0.600), (0.032, 0.768), (0.063, 1.512)])
def test_greatest_pitch_of_sealing_work(gauge: float, inches: float) -> None:
    """24 t of AISC 360, J3.5 (from memory): shown as a band, never counted."""
    sealing, civil = greatest_pitches(IN, gauge * IN)
    assert sealing.asked / IN == pytest.approx(inches)
    assert not sealing.counts
    assert not civil.counts
