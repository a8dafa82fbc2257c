"""Variants that share a layout are worked together, and no others."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import surfacecheck
from surfacecheck.errors import SurfaceError
from surfacecheck.sections.box import web_covered
from surfacecheck.stacks import one_of
from surfacecheck.statics.span import layout_of, span_of
from surfacecheck.studies import with_numbers
from surfacecheck.studies.sweeping._chunks import WINDOW, chunks_of

SURFACE = surfacecheck.read("data/rudder.toml")
BETWEEN = {
    "hinge.middle.up": (0.2, 0.9),
    "sheet.ribs.up[4]": (0.4, 0.7),
    "sheet.bottom_doubler.to": (0.1, 1.2),  # inside the surface or beyond its tip
    "outline.at[2].up": (1.1, 1.15),
    "sheet.nose_skin.cut_at_hinge": (0.02, 0.3),  # openings that meet
}


@given(st.lists(st.tuples(*(st.floats(*ends) for ends in BETWEEN.values())), min_size=2, max_size=6))
def test_one_layout_is_one_set_of_stations_and_two_are_two(rows):
    numbers = dict(zip(BETWEEN, np.array(rows).T, strict=True))
    stack = with_numbers(SURFACE, numbers)
    layout = layout_of(stack)
    assert layout.shape[0] == len(rows)
    for v in range(len(rows)):
        assert layout[v].tolist() == layout_of(one_of(stack, v)).tolist()
    for v in range(1, len(rows)):
        pair = {key: values[[0, v]] for key, values in numbers.items()}
        if (layout[0] == layout[v]).all():
            both, alone = span_of(with_numbers(SURFACE, pair)), span_of(one_of(stack, v))
            assert both.stations.cells == alone.stations.cells
            assert both.breaks[1].tolist() == alone.breaks.tolist()
            assert both.y[1].tolist() == alone.y.tolist()
        else:
            ends = layout[[0, v], -2:]  # whether the doubler ends inside: a break that the other has not
            if (ends[0] == ends[1]).all():
                with pytest.raises(SurfaceError, match="share one order"):
                    span_of(with_numbers(SURFACE, pair))


def test_a_number_that_is_no_place_leaves_one_layout():
    assert layout_of(with_numbers(SURFACE, {"sheet.spar.thickness": np.array([0.8e-3, 1e-3])})).ndim == 1


def test_a_doubler_that_covers_the_web_has_walls_of_its_own():
    wide = np.array([0.05, 0.0575, 0.0585, 0.07])
    stack = with_numbers(SURFACE, {"sheet.bottom_doubler.wide": wide})
    assert web_covered(stack).tolist() == [False, False, True, True]  # 0.98 of 60 - 0.8 mm is 58.02
    walls = [surfacecheck.assess(one_of(stack, v)).effects.box.walls for v in (1, 2)]
    assert len(walls[0]) == len(walls[1]) + 2
    assert not web_covered(surfacecheck.read("data/elevator.toml"))


def test_every_variant_is_in_one_chunk_and_no_chunk_is_too_long():
    many = WINDOW + 70
    rng = np.random.default_rng(1)
    numbers = {
        "hinge.middle.up": rng.choice([0.55, 0.57, 2.0], many),
        "sheet.bottom_doubler.wide": rng.choice([0.05, 0.06], many),
    }
    chunks = list(chunks_of(SURFACE, numbers, 100))
    assert sorted(v for chunk in chunks for v in (*chunk.variants.tolist(), *chunk.refused)) == list(range(many))
    for chunk in chunks:
        assert 0 < chunk.variants.size <= 100
        assert all((np.diff(values) == 0).all() for values in chunk.numbers.values())
        assert np.array_equal(chunk.numbers["hinge.middle.up"], numbers["hinge.middle.up"][chunk.variants])


def test_a_window_of_nothing_but_impossible_variants_is_still_told():
    chunks = list(chunks_of(SURFACE, {"hinge.middle.up": np.full(3, 2.0)}, 100))
    assert [chunk.variants.size for chunk in chunks] == [0]
    assert sorted(chunks[0].refused) == [0, 1, 2]
