"""The skin round the nose in shear: when it wrinkles, taken as flat, and when it tears."""

from __future__ import annotations

import pytest

from surfacecheck.assessment import summary

from .conftest import laid, without


def nose_of(assessment):
    return {f.name.rsplit(":", 1)[1]: f for f in assessment.findings if f.check.place == "panel.nose_skin"}


def test_panel_of_the_nose_by_hand():
    """Ribs at 90 and 325 mm: a = 235 mm; round the nose 145 - 20 y / 1100: 143.36 and 139.09 mm, b = 141.23 mm.

    (b / a)^2 = 0.36117, k = 6.688 + (0.36117 - 0.30864) / (0.39063 - 0.30864) x 0.219 = 6.828;
    q_cr = 6.828 x 0.92297 x 72.395 GPa x (0.5 / 141.23)^2 x 0.5 mm = 2.859 N/mm.
    F_s = 406.79 / 2 = 203.40 MPa: 203.40 x 0.5 = 101.70 N/mm.
    """
    nose = nose_of(laid({}))
    assert nose["wrinkles"].available == pytest.approx(2859.4, rel=2e-4)
    assert nose["shear"].available == pytest.approx(101.70e3, rel=1e-4)
    assert nose["shear"].required == pytest.approx(1.5 * nose["wrinkles"].required, rel=1e-12)
    assert (nose["wrinkles"].kind, nose["shear"].kind) == ("statement", "margin")
    assert any("taken as flat" in note for note in nose["wrinkles"].check.notes)


def test_the_flow_is_that_of_the_nose_wall_with_the_nose_as_it_is():
    one = laid({})
    flow = abs(one.effects.only(~one.effects.control).flow.mean[..., one.effects.box.wall("nose")])
    assert nose_of(one)["wrinkles"].required == pytest.approx(flow.max(), rel=1e-12)


def test_without_ribs_in_the_nose_its_panel_is_as_long_as_the_surface():
    """145 to 125 mm round, mean 135 mm, over 1100 mm: (b / a)^2 = 0.015062.

    Table at 10: 1/100 and 5.388, at 8: 1/64 and 5.415: k = 5.388 + (0.015062 - 0.01) / 0.005625 x 0.027 = 5.4123;
    q_cr = 5.4123 x 0.92297 x 72.395 GPa x (0.5 / 135)^2 x 0.5 mm = 2.480 N/mm.
    """
    nose = nose_of(laid(without("nose_skin_to_ribs") | {"sheet.ribs.in_nose": '"no"'}))
    assert nose["wrinkles"].available == pytest.approx(2480.4, rel=3e-4)
    assert any("as long as the surface" in note for note in nose["wrinkles"].check.notes)


def test_webs_of_ribs_are_named_as_not_looked_at():
    said = laid({}).not_looked_at
    assert {"shear in the webs of the ribs", "ribs crippling at hinges and horn"} <= set(said)


def test_the_summary_does_not_say_that_rows_hold_what_the_nose_adds():
    """In the demo the nose, taken as flat, wrinkles at 0.96 of limit; without a nose skin nothing is said of it."""
    one = laid({})
    assert nose_of(one)["wrinkles"].margin == pytest.approx(2859.4 / nose_of(one)["wrinkles"].required - 1.0, abs=1e-4)
    assert "adds, but for the nose" in " ".join(summary(one).split())
