"""Where two bounds lie on either side of what is required, the answer depends, and says on what. Invented."""

from pathlib import Path

import pytest

import surfacecheck
from surfacecheck.checks import Outcome
from surfacecheck.reading import read_text

DATA = Path(__file__).parents[2] / "data"


def pulled(strength):
    """Bracket rivets of the bottom hinge in pull: the margin, and the bound with heel and prying."""
    lines = (
        'bracket.plate.legs = 1\nbracket.plate.leg_off_rivets = "6 mm down"\n'
        f'rivet.large.shear = "9000 N"\nrivet.large.pull = "{strength!r} N"\n'
    )
    one = surfacecheck.assess(read_text(f'based_on = "rudder.toml"\ntitle = "tried"\n{lines}', "t.toml", folder=DATA))
    found = {f.check.mode: f for f in one.findings if f.check.place == "hinge.bottom.bracket"}
    return found["rivet-pull"], found["rivet-pull-heel"]


def test_margin_and_bound_on_either_side():
    margin, bound = pulled(3000.0)
    assert bound.margin < margin.margin
    assert bound.kind == "bound"
    least, most = (3000.0 / (f.margin + 1.0) for f in (margin, bound))  # what just does, without and with heel
    assert most > 1.2 * least
    for strength, outcome in (
        (0.9 * least, Outcome.LESS),
        (0.5 * (least + most), Outcome.DEPENDS),
        (1.1 * most, Outcome.CARRIES),
    ):
        margin, bound = pulled(strength)
        assert margin.outcome == outcome
        assert margin.margin == pytest.approx(strength / least - 1.0, rel=1e-9)
        assert bound.margin == pytest.approx(strength / most - 1.0, rel=1e-9)
