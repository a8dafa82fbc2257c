"""Usual ranges are written in round figures, and never promise more than is looked for."""

from __future__ import annotations

import math
import re

from hypothesis import given
from hypothesis import strategies as st

from surfacecheck.model import Kind
from surfacecheck.quantities import to_unit
from surfacecheck.reading import starting_file
from surfacecheck.reading._usual import usual_range

RANGE = re.compile(r"\(([0-9.]+) to ([0-9.]+) ?([^)]*)\)")


@given(
    st.floats(1e-6, 1e6),
    st.floats(1.5, 1e3),
    st.sampled_from(["knots", "in", "psi", "lbf", ""]),
)
def test_what_is_outside_the_range_is_outside_its_figures(low, times, unit):
    ends = [to_unit(one, unit) if unit else one for one in (low, low * times)]
    shown = [float(one) for one in usual_range(low, low * times, unit)]
    assert ends[0] <= shown[0] * (1 + 1e-8)
    assert shown[1] <= ends[1] * (1 + 1e-8)
    for end, figure in zip(ends, shown, strict=True):
        assert math.isclose(end, figure, rel_tol=0.17)  # a step of 5 where the second figure begins at 3


def test_every_range_of_a_starting_file_is_round():
    for units in ("metric", "inch"):
        ranges = RANGE.findall(starting_file(Kind.RUDDER, units=units))
        assert len(ranges) > 90
        figures = [one.replace(".", "").strip("0") for low, high, _ in ranges for one in (low, high)]
        assert [one for one in figures if len(one) > 2] == []
