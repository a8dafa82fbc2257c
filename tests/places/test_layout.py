"""Spreading rivets evenly: how many spaces a length has."""

import numpy as np
import pytest

from surfacecheck.places import spread

HALVES = [(145, 10, 15), (290, 20, 15), (1060, 80, 13), (25, 10, 3), (435, 30, 15), (1005, 30, 34), (725, 50, 15)]
"""First to last [mm], pitch [mm], spaces: 14.5 and 14.5, 13.25, 2.5, 14.5, 33.5, 14.5."""


@pytest.mark.parametrize(("length", "pitch", "spaces"), HALVES)
def test_half_a_space_goes_up_whatever_metres_make_of_it(length, pitch, spaces):
    count, real = spread(length * 1e-3, pitch * 1e-3)
    assert count == spaces + 1
    assert real == length * 1e-3 / spaces


@pytest.mark.parametrize("start", [0.0, 0.02, 0.1, 0.3, 0.7])
def test_half_a_space_goes_up_where_the_length_is_a_difference(start):
    """14.5 spaces of 10 mm between any two ends: 16 rivets."""
    assert spread((start + 0.145) - start, 0.010)[0] == 16


def test_just_below_a_half_goes_down():
    """14.49 spaces are 14: a hundredth of a space is 0.1 mm, which a ruler shows."""
    assert spread(0.1449, 0.010)[0] == 15


def test_a_stack_has_the_counts_of_each_alone():
    length = np.array([one[0] for one in HALVES]) * 1e-3
    pitch = np.array([one[1] for one in HALVES]) * 1e-3
    counts, pitches = spread(length, pitch)
    alone = [spread(*one) for one in zip(length, pitch, strict=True)]
    assert counts.tolist() == [count for count, _ in alone]
    assert pitches.tolist() == [real for _, real in alone]
