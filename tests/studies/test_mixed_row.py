"""Unlike rivets in a row: by hand for two, limits for many, the order in which they begin to carry."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read
from surfacecheck.strength.flexibility import huth
from surfacecheck.studies import missing_row, mixed_data, mixed_row, mixed_table

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def rudder():
    return assess(read(DATA / "rudder.toml"))


@pytest.fixture(scope="module")
def elevator():
    return assess(read(DATA / "elevator.toml"))


def test_alike_rivets_share_evenly(rudder):
    row = mixed_row(rudder, "trailing_edge", [10, 11])
    for share in row.shares:
        assert share.at(row.limit) == pytest.approx(np.full(43, row.even), rel=1e-9)
        assert (share.pick_up == 0.0).all()


def test_two_of_a_rib_by_hand(rudder):
    """One snug, one loose by s: the first alone up to F = s k, from there half of what is added to each."""
    slack = 5e-6
    row = mixed_row(rudder, "ribs_to_spar.rib-2", [1], slack=slack)
    for share in row.shares:
        k = share.k[0]
        assert share.k[1] == k
        alone = slack * k
        force = row.ultimate * row.line.pitch * 2
        assert alone < force
        assert share.pick_up[0] * row.line.pitch * 2 == pytest.approx(alone, rel=1e-9)
        both = [(force - alone) / 2, (force + alone) / 2]
        assert share.at(row.ultimate) == pytest.approx(both, rel=1e-9)


def test_snug_ones_share_by_stiffness(rudder):
    """A 4.0 mm and a 3.2 mm rivet on one rib: by k_1 : k_2, and k by the formula."""
    row = mixed_row(rudder, "ribs_to_spar.rib-2", [1], other="large")
    huth_share = row.shares[0]
    E = 10.5e6 * 6894.757293168
    k = [1.0 / float(huth(0.5e-3, 0.8e-3, d, E, E, E)) for d in (4.0e-3, 3.2e-3)]
    assert huth_share.k == pytest.approx(k, rel=1e-9)
    assert huth_share.at(row.limit) == pytest.approx(2 * row.even * np.array(k) / sum(k), rel=1e-9)


def test_loads_add_up_at_every_event(rudder):
    row = mixed_row(rudder, "left_skin_to_spar", [11, 13, 15, 16], other="large", slack=0.02e-3)
    for share in row.shares:
        assert share.loads.sum(axis=-1) == pytest.approx(share.flows * 43 * row.line.pitch, rel=1e-9)
        assert (np.diff(share.loads, axis=0) >= -1e-9 * share.loads.max()).all()


def test_the_order_in_which_they_carry(rudder):
    """All unlike ones are loose by the same; the one between two of them is reached first."""
    row = mixed_row(rudder, "left_skin_to_spar", [11, 13, 15], slack=0.02e-3)
    for share in row.shares:
        touched = share.pick_up[[10, 12, 14]]
        assert touched[1] < touched[0] == pytest.approx(touched[2], rel=1e-6)
        assert (np.delete(share.pick_up, [10, 12, 14]) == 0.0).all()
        before = share.at(0.999 * touched[1])
        assert np.abs(before[[10, 12, 14]]).max() < 1e-9


def test_very_loose_is_missing(rudder):
    """Until it is touched the others carry what they do without it."""
    row = mixed_row(rudder, "trailing_edge", [20], slack=1e-3)
    study = missing_row(rudder, "trailing_edge", [20])
    beside = next(one for one in study.neighbours if one.number == 21)
    for share, gone in zip(row.shares, beside.springs, strict=False):
        assert gone.how == share.formula
        assert share.at(row.limit)[20] / row.even == pytest.approx(gone.growth, rel=1e-9)


def test_softer_is_between_full_and_nothing(elevator):
    full, soft, none = (
        mixed_row(elevator, "top_skin_to_spar", [20], softer=times).shares[0].loads[1] for times in (1.0, 3.0, 1e9)
    )
    assert (soft >= np.minimum(full, none) - 1e-9).all()
    assert (soft <= np.maximum(full, none) + 1e-9).all()
    assert 0.3 < soft[19] / full[19] < 1.0


def test_first_used_up(elevator):
    """Strengths are given: every second rivet three times softer, a snug one goes first, before its neighbours."""
    row = mixed_row(elevator, "top_skin_to_spar", range(2, 44, 2), softer=3.0, slack=0.1e-3)
    share = row.shares[0]
    number, flow = row.first_used_up(share)
    assert number % 2 == 1
    assert share.at(flow)[number - 1] == pytest.approx(170 * 4.4482216152605, rel=1e-9)
    assert share.at(flow).max() == pytest.approx(share.at(flow)[number - 1], rel=1e-9)


def test_words(rudder, elevator):
    rows = [
        mixed_row(rudder, "left_skin_to_spar", [11, 13, 15], other="large", slack=0.05e-3),
        mixed_row(elevator, "top_skin_to_spar", range(12, 20, 2), softer=3.0),
        mixed_row(rudder, "ribs_to_spar.rib-2", [1], slack=0.02e-3),
    ]
    for row in rows:
        text = str(row)
        assert text.isascii()
        assert "-0.00" not in text
        assert max(map(len, text.split("\n"))) <= 80
        assert "<table>" in row._repr_html_()
        data = mixed_data(row)
        assert data["shares"][0]["loads"] == row.shares[0].loads.tolist()
    assert "The loose ones carry nothing yet at ultimate" in str(rows[0])
    assert [line[0] for line in mixed_table(rows[2]).rows] == ["1", "2"]


@pytest.mark.parametrize(
    ("row", "at", "more", "says"),
    [
        ("trailing_edge", [99], {}, "there is no rivet 99"),
        ("trailing_edge", [3], {"other": "smal"}, 'no rivet is called "smal". In part D: small, large'),
        ("trailing_edge", [3], {"slack": -1e-5}, "slack is -0.01 mm"),
        ("trailing_edge", [3], {"slack": 0.05}, "is the unit right"),
        ("trailing_edge", [3], {"softer": 0.0}, "softer is 0"),
        ("doubler_to_spar", [3], {}, "stands in 2 lines side by side"),
        ("left_skin_to_ribs", [3, 30], {}, "lies on 7 ribs, say which"),
    ],
)
def test_refused(rudder, row, at, more, says):
    with pytest.raises(SurfaceError) as error:
        mixed_row(rudder, row, at, **more)
    assert says in str(error.value)
