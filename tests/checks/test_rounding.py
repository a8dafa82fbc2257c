"""What rounding leaves of a load that is nought is no load: no margin of millions of millions is printed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.checks._row_load import ROUNDING
from surfacecheck.reading import read, read_text
from surfacecheck.studies import deviation, deviation_text

DATA = Path(__file__).parents[2] / "data"
EVENT = 'what = "short edge"\nlayers = ["ribs"]\nedge = "4 mm (caliper)"\n'


@pytest.fixture(scope="module", params=["rudder.toml", "elevator.toml"])
def worked(request):
    return assess(read(DATA / request.param))


def test_every_load_of_a_rivet_is_nought_or_counts(worked):
    for load in worked.rows:
        least = ROUNDING * load.effects.largest
        for one in (load.shear, load.tension, load.flow, *load.layers.values()):
            size = np.abs(one)
            assert ((size == 0.0) | (size >= least)).all()


def test_what_counts_stays_as_it_was(worked):
    """A load a thousand times the threshold is kept to the last digit, one of a thousandth is nought."""
    load = worked.rows[0]
    least = ROUNDING * load.effects.largest * np.ones_like(load.shear)
    assert (replace(load, shear=1e3 * least).shear == 1e3 * least).all()
    assert not replace(load, shear=1e-3 * least).shear.any()


def test_no_margin_of_a_row_is_of_rounding(worked):
    """Real margins of rows go to thousands where a rivet has little to carry, not to millions of millions."""
    margins = [one.check.margins() for one in worked.findings if one.check.place.startswith("row.")]
    finite = np.concatenate([one[np.isfinite(one)] for one in margins if one is not None])
    assert finite.max() < 1e7


def test_a_rivet_of_an_open_nose_carries_nothing_and_says_so():
    text = f'based_on = "rudder.toml"\n[[happened]]\nwhere = "nose skin to ribs, rib 2, rivet 1"\n{EVENT}'
    found = deviation(read_text(text, "short.toml", DATA))
    assert [one.values for one in found.here] == [(None,) * len(found.here[0].values)] * len(found.here)
    shown = deviation_text(found)
    assert "Nothing is required of this rivet here" in shown
    assert "e+" not in shown
    assert "0.0000000" not in shown
