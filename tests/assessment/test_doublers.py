"""What a doubler on a skin or on the flanges does to margins, sections and mass, by its width. Invented throughout."""

import numpy as np
import pytest

import surfacecheck
from surfacecheck.assessment import assess_stack

from .conftest import laid


def doubled(on, wide, to=560):
    """The demo, laid with one more doubler of half a millimetre, from the root."""
    lies = f'from = "0 mm", to = "{to} mm", wide = "{wide}"'
    return laid({"sheet.patch_doubler": f'{{ on = "{on}", thickness = "0.5 mm", alloy = "2024-T3 clad", {lies} }}'})


@pytest.fixture(scope="module")
def bare():
    return laid({})


def lowest(one, place, gives):
    return min(f.margin for f in one.findings if f.name.startswith(place) and f.name.endswith(gives))


@pytest.mark.parametrize("wide", ["20 mm", "200 mm"])
def test_beside_a_narrow_doubler_the_bare_skin_decides(bare, wide):
    one = doubled("left_skin", wide)
    assert lowest(one, "panel.left_skin", ":shear") == pytest.approx(lowest(bare, "panel.left_skin", ":shear"))
    # at 90 mm nothing but torque: closed by one cell, its flow asks for no stiffness; with the nose little
    assert lowest(one, "panel.left_skin", ":wrinkles") == pytest.approx(
        lowest(bare, "panel.left_skin", ":wrinkles"), abs=0.003
    )
    assert any("the bare skin decides" in said for said in one.assumptions)


def test_a_narrow_doubler_stiffens_by_its_share_of_the_width():
    """Root: 395 mm aft, half of 60 - 0.8 mm up: b = 396.11 mm; b / (20 / 1.0 + 376.11 / 0.5) = 0.51295 mm."""
    box = doubled("left_skin", "20 mm").effects.box
    assert box.closed.t[0, box.wall("skin_plus")] == pytest.approx(0.51295e-3, rel=1e-5)
    assert box.closed.t[-1, box.wall("skin_plus")] == 0.5e-3
    assert (box.skin_t["plus"] == 0.5e-3).all()


def test_a_doubler_from_spar_to_edge_doubles_the_skin_and_each_leaf_wrinkles_alone(bare):
    """Two leaves of 0.5 mm: twice the flow of one, not the eight times of a plate of 1.0 mm."""
    one = doubled("left_skin", "390 mm", to=1100)
    box = one.effects.box
    assert (box.skin_t["plus"] == 1.0e-3).all()
    assert (box.closed.t[:, box.wall("skin_plus")] == 1.0e-3).all()
    before, after = (next(f for f in a.findings if f.name == "panel.left_skin.at-90-mm:wrinkles") for a in (bare, one))
    assert after.available == pytest.approx(2.0 * before.available, rel=1e-12)
    assert lowest(one, "panel.left_skin", ":shear") > 1.9 * lowest(bare, "panel.left_skin", ":shear")


def test_a_doubler_that_the_taper_brings_to_both_edges_counts_from_there():
    """340 mm: 0.98 b up to b = 346.9 mm; b = 0.395 - 0.12 y / 1.1 and the slope: from y = 0.4476 m."""
    one = doubled("left_skin", "340 mm", to=1100)
    thick = one.effects.box.skin_t["plus"] > 0.6e-3
    b = np.hypot(0.395 - 0.12 * one.span.y / 1.1, 0.5 * (0.0592 - 0.015 * one.span.y / 1.1))
    assert (thick == (0.98 * b <= 0.340)).all()
    assert thick.any()
    assert not thick.all()


def test_a_doubler_of_unknown_width_lends_nothing(bare):
    one = doubled("left_skin", "?")
    assert lowest(one, "panel.left_skin", ":shear") == lowest(bare, "panel.left_skin", ":shear")
    assert "sheet.patch_doubler" in {gap.key.rsplit(".", 1)[0] for gap in one.gaps}


def test_one_on_each_flange_in_stiffness_and_in_mass(bare):
    """Flange 18 - 0.4 = 17.6 mm: 10 mm of 0.5 mm is 0.28409 mm over it; two weigh 2 x 0.5 x 10 x 560 mm x rho."""
    one = doubled("spar flange", "10 mm")
    box = one.effects.box
    for wall in ("flange_plus", "flange_minus"):
        assert box.closed.t[0, box.wall(wall)] == pytest.approx(1.08409e-3, rel=1e-5)
    more = next(piece for piece in one.masses.pieces if piece.name == "patch_doubler")
    rho = float(next(piece for piece in bare.masses.pieces if piece.name == "bottom_doubler").mass) / (0.8e-3 * 0.01)
    assert float(more.mass) == pytest.approx(2.0 * 0.5e-3 * 0.010 * 0.560 * rho)
    assert any("one on each flange" in said for said in one.assumptions)
    whole = doubled("spar flange", "30 mm").effects.box
    assert whole.closed.t[0, box.wall("flange_plus")] == pytest.approx(1.3e-3)


def test_widths_in_a_stack_give_what_each_gives_alone():
    alone = [doubled("left_skin", f"{wide} mm", to=1100) for wide in (20, 340, 390)]
    stack = surfacecheck.stacks.stacked([one.surface for one in alone])
    found = assess_stack(stack, 3).findings
    for v, one in enumerate(alone):
        assert [(f.name, f.margin) for f in found.of(v)] == [(f.name, f.margin) for f in one.findings]
