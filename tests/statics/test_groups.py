"""Fastener groups: balance with any load, lines and single rivets, and what is refused."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.statics import heel_bound, prying_bound, share_group, share_in_plane, shear_and_tension

ONE, COLUMN = ([0.01], [0.02]), ([0.0, 0.0, 0.0], [-0.02, 0.0, 0.02])


def test_one_rivet():
    assert share_group(*ONE, [[3.0, 4.0, 5.0]], offset=(0.0, 0.01, 0.02))[0, 0] == pytest.approx([3, 4, 5], abs=1e-15)
    with pytest.raises(SurfaceError, match="one rivet holds no moment"):
        share_group(*ONE, [[3.0, 0.0, 0.0]])
    with pytest.raises(SurfaceError, match=r"cannot hold the plate from turning: a moment of 0.06 N m"):
        share_in_plane(*ONE, [[3.0, 0.0]])


@pytest.mark.parametrize("angle", [0.0, 0.4, 1.2])
def test_one_column(angle):
    """Moments across the line are held; one about the line is not, and is named."""
    _, b = COLUMN
    e_a, e_b = np.cos(angle), np.sin(angle)
    turned = -np.array(b) * e_b, np.array(b) * e_a
    line = np.array([0.0, -e_b, e_a])
    across = np.array([0.0, e_a, e_b])
    shares = share_group(*turned, [[0.0, 0.0, 0.0]], moment=across * 2.0)[0]
    places = np.stack([np.zeros(3), *turned], axis=-1)
    assert np.cross(places, shares).sum(axis=0) == pytest.approx(2 * across, abs=1e-13)
    with pytest.raises(SurfaceError, match="in one line cannot hold a moment about that line: 2 N m"):
        share_group(*turned, [[0.0, 0.0, 0.0]], moment=line * 2.0)
    with pytest.raises(SurfaceError, match="heel"):
        share_group(*turned, [[5.0, 0.0, 0.0]], offset=(0.0, e_a * 0.01, e_b * 0.01))


def test_any_group_returns_force_and_couple():
    """Weights and a product of second moments included."""
    rng = np.random.default_rng(5)
    a, b = rng.uniform(-0.05, 0.05, (2, 7))
    F, r, M, w = rng.normal(0, 100, (3, 3)), rng.normal(0, 0.1, (3, 3)), rng.normal(0, 9, (3, 3)), rng.uniform(0, 2, 7)
    shares = share_group(a, b, F, r, M, w)
    assert shares.sum(axis=1) == pytest.approx(F, rel=1e-11, abs=1e-9)
    places = np.stack([np.zeros(7), a, b], axis=-1)
    assert np.cross(places, shares).sum(axis=1) == pytest.approx(np.cross(r, F) + M, rel=1e-10, abs=1e-10)


def test_a_rivet_of_weight_zero_is_not_there():
    a, b = np.array([0.0, 1.0, 0.0, 1.0, 5.0]), np.array([0.0, 0.0, 1.0, 1.0, 9.0])
    with_it = share_group(a, b, [[1.0, 2.0, 3.0]], (4.0, 5.0, 6.0), weight=[1, 1, 1, 1, 0])
    assert with_it[0, :4] == pytest.approx(share_group(a[:4], b[:4], [[1.0, 2.0, 3.0]], (4.0, 5.0, 6.0))[0], rel=1e-12)
    assert with_it[0, 4] == pytest.approx(np.zeros(3), abs=0)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: share_group([], [], [[0, 0, 0]]), "at least one rivet"),
        (lambda: share_group([np.nan], [0.0], [[0, 0, 0]]), "no finite place"),
        (lambda: share_group(*COLUMN, [[0, 0, 0]], weight=[1, -1, 1]), "the least is -1"),
        (lambda: share_group(*COLUMN, [[0, 0, 0]], weight=[0, 0, 0]), "not all 0"),
        (lambda: share_group(*COLUMN, [0.0, 0.0, 0.0]), r"must end in \(cases, 3\)"),
        (lambda: share_group(*COLUMN, [[0.0, 0.0, 0.0]], offset=(0.0, 0.0)), "must hold 3 distances"),
        (lambda: share_in_plane(*COLUMN, [[np.nan, 0.0]]), "not a finite number"),
        (lambda: shear_and_tension(np.zeros((1, 3)), 0), "nothing else"),
        (lambda: heel_bound(*COLUMN, [[1, 0, 0]], (0, 0, 0), (0.0, 0.05), (0, 1), 1), "in front of the heel"),
        (lambda: heel_bound(*COLUMN, [[1, 0, 0]], (0, 0, 0), (0.0, -0.05), (0, 0), 1), "must point"),
        (lambda: heel_bound(*COLUMN, [[np.nan, 0, 0]], (0, 0, 0), (0.0, -0.05), (0, 1), 1), "not a finite number"),
        (lambda: prying_bound(1.0, 0.01, 0.0), "longer than 0"),
    ],
)
def test_groups_refuse(call, words):
    with pytest.raises(SurfaceError, match=words):
        call()


def test_heel_bound_contact_is_negative_where_the_bracket_is_pulled_off_bodily():
    _, contact = heel_bound([0.02, 0.04], [0, 0], [[100.0, 0, 0]], (0.0, 0.02, 0.0), (0.0, 0.0), (1.0, 0.0), 1)
    assert contact[0] == pytest.approx(100 * 0.02 * 0.06 / 0.002 - 100, rel=1e-12)
    _, contact = heel_bound([0.02, 0.04], [0, 0], [[100.0, 0, 0]], (0.0, 0.01, 0.0), (0.0, 0.0), (1.0, 0.0), 1)
    assert contact[0] < 0.0


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("inward", [(1.0, 0.0), (0.0, -2.0), (0.6, 0.8)])
def test_heel_bound_is_in_balance_about_the_edge_with_any_load(side, inward):
    """Moment of load and rivets about the edge, by r x F; a pull on the side of the bracket counts as lifting."""
    rng = np.random.default_rng(11)
    a, b, w = rng.uniform(-0.02, 0.02, 6), rng.uniform(-0.02, 0.02, 6), rng.uniform(0.5, 2.0, 6)
    F, r, M = rng.normal(0, 100, (40, 3)), rng.normal(0, 0.05, (40, 3)), rng.normal(0, 5, (40, 3))
    i = np.array(inward) / np.hypot(*inward)
    heel = -0.06 * i
    tension, contact = heel_bound(a, b, F, r, tuple(heel), inward, side, M, w)
    about = np.array([0.0, *heel])
    along = side * np.array([0.0, i[1], -i[0]])
    lift = (np.cross(r - about, F) + M) @ along
    places = np.stack([np.zeros(6), a, b], axis=-1) - about
    held = np.array([np.cross(places, np.outer(t, [side, 0, 0])).sum(axis=0) @ along for t in tension])
    assert held == pytest.approx(np.maximum(lift, 0.0), rel=1e-10, abs=1e-10)
    assert contact == pytest.approx(tension.sum(axis=1) - side * F[:, 0], rel=1e-10, abs=1e-10)
    assert 0 < (lift > 0).sum() < 40
    assert tension[:, 0] * w[1] * (places[1, 1:] @ i) == pytest.approx(tension[:, 1] * w[0] * (places[0, 1:] @ i))
