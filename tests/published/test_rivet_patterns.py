"""Rivet patterns of training and army texts: pitch, rows, edge, diameter, length. Diameters, inches.

NAVEDTRA 14018, chapter 13, rivet selection and spacing (page text seen); army TM 10-5410-229, 5-6, and TM 9-2320-303,
aluminium repair, figure of patterns (page text seen); MIL-R-47196, as quoted in secondary text.
"""

from __future__ import annotations

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Rivet, RivetSet
from surfacecheck.provenance import Value
from surfacecheck.rules import (
    chamfer_most,
    diameter_for_sheet,
    edge_distance,
    edge_texts,
    least_pitch,
    least_rivet,
    pitch_texts,
    repairs_in_row,
    row_gap,
)
from surfacecheck.studies import rivet_length

IN = 0.0254
D = 0.125 * IN


def outcomes(results):
    return {one.name: one.outcome for one in results}


@pytest.mark.parametrize(("times", "outcome"), [(2.99, "does not meet"), (3.0, "meets"), (4.0, "meets")])
def test_never_less_than_three_diameters(times: float, outcome: str) -> None:
    """NAVEDTRA 14018 and TM 10-5410-229, 5-6(3)(b): pitch at least three times the diameter."""
    assert least_pitch(times * D, D).outcome == outcome


@pytest.mark.parametrize(
    ("times", "outcome"), [(3.9, "does not meet"), (4.0, "meets"), (8.0, "meets"), (8.1, "does not meet")]
)
def test_seldom_less_than_four_nor_more_than_eight(times: float, outcome: str) -> None:
    """NAVEDTRA 14018: a habit, so it is shown and never counted."""
    usual = next(one for one in pitch_texts(times * D, D) if one.name == "usual pitch")
    assert usual.outcome == outcome
    assert not usual.counts


def test_double_row_of_the_army_figure() -> None:
    """TM 9-2320-303: two rows, 4 D in the row, 4 D apart, 2 D to the edge."""
    assert least_pitch(4 * D, D, lines=2).outcome == "meets"
    assert least_pitch(3.9 * D, D, lines=2).outcome == "does not meet"
    assert row_gap(4 * D, 4 * D, D).outcome == "meets"
    assert edge_distance(2 * D, D).outcome == "meets"


def test_three_rows_of_the_army_figure() -> None:
    """TM 9-2320-303: 6 D in a staggered row, 3 D along the diagonal: 3 D is the least anywhere."""
    assert least_pitch(3 * D, D, lines=3).outcome == "meets"


def test_rows_at_least_two_and_a_half_diameters_apart() -> None:
    """TM 10-5410-229, 5-6(3)(b). Its sister TM 10-7360-209 prints 1/2 for 2 1/2: a lost figure."""
    assert row_gap(2.5 * D, 4 * D, D).outcome == "meets"
    assert row_gap(2.4 * D, 4 * D, D).outcome == "does not meet"


def test_least_size_for_structure() -> None:
    """NAVEDTRA 14018, rule 5: not under 3/32 in."""
    assert least_rivet(3 / 32 * IN).outcome == "meets"
    assert least_rivet(2 / 32 * IN).outcome == "does not meet"


@pytest.mark.parametrize(("thickest", "outcome"), [(0.041, "does not meet"), (0.042, "meets"), (0.125, "meets"),
                                                   (0.126, "does not meet")])  # fmt: skip
def test_one_to_three_times_the_thickest_sheet(thickest: float, outcome: str) -> None:
    """NAVEDTRA 14018, rules 6 and 7, 1/8 in rivet: 0.0417 to 0.125 in."""
    assert diameter_for_sheet(D, thickest * IN).outcome == outcome


@pytest.mark.parametrize(
    ("diameter", "grip", "sixteenths"),
    [(0.125, 0.080, 5), (0.125, 0.0625, 4), (0.125, 0.064, 5), (0.15625, 0.080, 6), (0.09375, 0.040, 3)],
)
def test_length_is_grip_and_one_and_a_half_diameters(diameter: float, grip: float, sixteenths: int) -> None:
    """NAVEDTRA 14018, figure 13-43: 1 1/2 D + G = L, taken up to the next sixteenth, as part numbers go."""
    rivet = Rivet(set=RivetSet.SOLID, diameter=Value(diameter * IN), name="solid")
    chosen = rivet_length(rivet, grip * IN)
    assert chosen is not None
    assert chosen.length / IN == pytest.approx(sixteenths / 16)
    assert chosen.length >= grip * IN + 1.5 * diameter * IN - 1e-9
    assert chosen.length - (grip + 1.5 * diameter) * IN < IN / 16


def test_a_solid_rivet_of_unknown_size_says_so() -> None:
    with pytest.raises(SurfaceError, match=r"rivet\.mine\.diameter is not given"):
        rivet_length(Rivet(set=RivetSet.SOLID, name="mine"), 1e-3)


def test_texts_on_the_edge_disagree_and_all_are_shown() -> None:
    """1.7 D: below 2 D of AC 43.13-1B, above 1.5 D of NASA RP-1228 and of the civil text; 4.1 D is over the usual 4."""
    assert edge_distance(1.7 * D, D).outcome == "does not meet"
    assert outcomes(edge_texts(1.7 * D, D)) == {
        "least edge ever": "meets", "edge distance, civil": "meets", "greatest edge": "meets"
    }  # fmt: skip
    assert outcomes(edge_texts(4.1 * D, D))["greatest edge"] == "does not meet"
    assert not any(one.counts for one in edge_texts(1.7 * D, D))


def test_the_military_edge_of_the_smallest_rivet_lies_between_the_texts() -> None:
    """MIL-R-47196: 0.156 in for a 3/32 in universal head, 1.66 D."""
    d = 0.09375 * IN
    assert 0.156 * IN / d == pytest.approx(1.664)
    assert edge_distance(0.156 * IN, d).outcome == "does not meet"
    assert outcomes(edge_texts(0.156 * IN, d))["least edge ever"] == "meets"


@pytest.mark.parametrize(("sheet", "depth"), [(0.025, 0.0025), (0.5, 0.032), (0.320, 0.032)])
def test_chamfer(sheet: float, depth: float) -> None:
    """MIL-R-47196: a tenth of the sheet, 0.032 in at most."""
    assert chamfer_most(sheet * IN)[0] / IN == pytest.approx(depth)


@pytest.mark.parametrize(
    ("repaired", "total", "together", "outcome"),
    [(2, 10, 2, "meets"), (3, 10, 1, "does not meet"), (10, 100, 2, "meets"), (11, 100, 1, "does not meet"),
     (3, 43, 3, "does not meet")],
)  # fmt: skip
def test_repairs_of_a_pattern(repaired: int, total: int, together: int, outcome: str) -> None:
    """MIL-R-47196: 20 %, ten rivets, two side by side."""
    assert repairs_in_row(repaired, total, together).outcome == outcome
