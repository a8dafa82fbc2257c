"""One force followed: sums at every cut, the lever arms of the rudder worked by hand, superposition, mirror."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.reading import read_text
from surfacecheck.studies import PARTS, follow

DATA = Path(__file__).parents[2] / "data"
DIGITS = 1.1e-4
"""The hand figures are given to five digits and must agree to one in the last."""
CELL, SHEAR_CENTRE, ARM = 6000.0e-6, 5.6471e-3, 0.300
"""Of that rudder: area of the cell [m^2], shear centre of the channel ahead of the web, edge behind the web [m]."""
STAGES = ("in", "rib", "rib rivets", "box", "spar", "other ribs", "bracket", "pin", "horn", "hold")


@pytest.fixture(scope="module")
def pushed(surfaces):
    """100 N to the left on the trailing edge of the rudder worked by hand, half-way up."""
    return follow(surfaces["by hand"], "trailing edge, between rib 2 and 3", "100 N")


def handed(one, stage, what, words=""):
    """The value of every step of a stage."""
    return [h.value for s in one.steps if s.stage == stage and words in s.words for h in s.handed if h.what == what]


def at(one, values, y):
    """A value inside a bay, where it is constant."""
    return values[int(np.searchsorted(one.carried.span.y, y))]


PLACES = (
    "trailing edge, between rib 4 and 5",
    "trailing edge, at rib 2",
    "trailing edge, at 333 mm",
    "spar, at 401 mm",
    "nose, at 205 mm",
    "trailing edge, at 3 mm",
    "horn",
)


@pytest.mark.parametrize("direction", ["sideways", "fore-and-aft", "along", "torque"])
@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("name", ["rudder", "elevator", "open edge", "kinked"])
def test_what_went_in_is_across_the_cut_or_held_outboard(surfaces, name, place, direction):
    """Two ways to each number: the beam's own loads inside, and the forces one by one."""
    if place == "horn" and (direction == "torque" or "torque tube" in str(surfaces[name].horn.driven_by)):
        place = "spar, at 10 mm"
    one = follow(surfaces[name], place, "10 N m" if direction == "torque" else "100 N", direction)
    assert max(cut.rest for cut in one.cuts) < 1e-9
    whole = one.cuts[0]
    assert len(one.cuts) == one.carried.span.breaks.size - 1
    assert any(np.abs(cut.went_in).max() > 1.0 for cut in one.cuts) or one.place.y <= whole.y


@pytest.mark.parametrize("name", ["by hand", "rudder", "kinked"])
def test_walls_make_up_what_is_across(surfaces, name):
    """Forces exactly; the torque less the sliver that the walls' own twisting takes of a closed cell."""
    one = follow(surfaces[name], "trailing edge, at rib 3", "100 N", "left")
    for cut in one.cuts:
        F_x, F_z, T = np.sum(list(cut.walls.values()), axis=0)
        assert [F_x, F_z] == pytest.approx(cut.across[[0, 2]], abs=1e-8)
        assert pytest.approx(cut.across[4], rel=1e-3, abs=1e-8) == T


@pytest.mark.parametrize("place", PLACES[:6])
def test_force_moment_and_torque_are_handed_over_whole(surfaces, place):
    """The lever rule keeps them, also where the edge has a corner between its two ribs."""
    for axis, direction in enumerate(("behind", "up", "left")):
        one = follow(surfaces["kinked"], place, "100 N", direction)
        p, force = one.place, 100.0 * np.eye(3)[axis]
        put = one.carried.put
        r = np.array([p.x, p.y, p.z])
        moment = sum(np.cross([q.x, q.y, q.z], q.force) + q.couple for q in put)
        assert np.sum([q.force for q in put], axis=0) == pytest.approx(force, abs=1e-12)
        assert moment == pytest.approx(np.cross(r, force), abs=1e-12)


def test_pins_by_the_lever_rule(pushed):
    """Two hinges at 100 and 700 mm, 100 N at 450 mm: 100 x 250/600 and 100 x 350/600."""
    assert handed(pushed, "pin", "sideways") == pytest.approx([100 * 250 / 600, 100 * 350 / 600], rel=1e-12)


def test_cable_by_its_arm(pushed):
    """100 N at 320 mm, cable at 90 mm; that pull at 0 mm goes to the pins at 100 and 700 mm."""
    pull = 100 * 320 / 90
    assert handed(pushed, "hold", "fore-aft", "right cable") == pytest.approx([pull], rel=1e-12)
    assert handed(pushed, "pin", "fore-aft") == pytest.approx([-pull * 700 / 600, pull * 100 / 600], rel=1e-12)
    assert handed(pushed, "hold", "torque") == pytest.approx([-32.0], rel=1e-12)


def test_step_of_the_skin_flow_at_a_rib(surfaces, pushed):
    """F (x + e) / 2 A on each skin; rivets at 30 mm."""
    step = 100 * (ARM + SHEAR_CENTRE) / (2 * CELL)
    assert handed(pushed, "rib rivets", "flow", "left skin") == pytest.approx([step / 2, step / 2], rel=DIGITS)
    whole = follow(surfaces["by hand"], "trailing edge, at rib 3", "100 N")
    assert handed(whole, "rib rivets", "flow") == pytest.approx([step], rel=DIGITS)
    assert handed(whole, "rib rivets", "one rivet") == pytest.approx([0.030 * step], rel=DIGITS)
    skin = whole.effects.mean("skin_plus")[0]
    assert at(whole, skin, 0.65) - at(whole, skin, 0.55) == pytest.approx(step, rel=DIGITS)


def test_skin_flows_by_hand(pushed):
    """q0 +- q_v at 500 mm by the formulas of the rudder worked by hand: V_z and V_x of the outer pin, and of 50 N."""
    V_z, V_x, T_0 = 50 - 100 * 350 / 600, -100 * 320 / 90 * 100 / 600, -50 * 0.320
    q_0 = (T_0 + 0.020 * V_z - SHEAR_CENTRE * V_z) / (2 * CELL)
    q_v = 1.6842 * V_x
    got = [at(pushed, pushed.effects.mean(f"skin_{side}")[0], 0.5) for side in ("plus", "minus")]
    assert got == pytest.approx([q_0 + q_v, q_0 - q_v], rel=DIGITS)


def test_a_rivet_is_flow_times_pitch(pushed):
    row = {s.name: s for s in pushed.steps if s.stage == "box"}["row.right_skin_to_spar"]
    flow, rivet = (h.value for h in row.handed)
    assert rivet == pytest.approx(0.025 * flow, rel=1e-12)


def test_steps_come_in_the_order_of_the_path(surfaces):
    for name in ("by hand", "rudder", "elevator"):
        one = follow(surfaces[name], "trailing edge, at rib 3", "100 N")
        order = [STAGES.index(step.stage) for step in one.steps]
        assert order == sorted(order)
        assert {"in", "rib", "rib rivets", "box", "spar", "pin"} <= {step.stage for step in one.steps}


def test_names_are_those_of_the_checks(surfaces):
    known = {finding.check.place for finding in assess(surfaces["rudder"]).findings}
    one = follow(surfaces["rudder"], "trailing edge, between rib 2 and 3", "100 N")
    assert {step.name for step in one.steps if step.name} <= known
    assert {step.stage for step in one.steps if not step.name} <= {"in", "rib", "box"}  # a nose skin has no margin


def test_two_forces_add_up(surfaces):
    """Half the force on each of two ribs is the force between them; three times the force is three times all."""
    surface = surfaces["rudder"]
    whole, third = (follow(surface, "trailing edge, between rib 2 and 3", f"{f} N") for f in (100, 300))
    ribs = [follow(surface, f"trailing edge, at rib {i}", "50 N") for i in (2, 3)]
    for wall in ("skin_plus", "skin_minus", "nose", "web"):
        got = whole.effects.mean(wall)
        assert sum(one.effects.mean(wall) for one in ribs) == pytest.approx(got, abs=1e-8)
        assert third.effects.mean(wall) == pytest.approx(3.0 * got, abs=1e-8)
    assert sum(one.effects.reactions for one in ribs) == pytest.approx(whole.effects.reactions, abs=1e-9)
    assert sum(one.effects.horn_force for one in ribs) == pytest.approx(whole.effects.horn_force, abs=1e-9)


def test_parts_add_up(surfaces):
    """Sideways, fore-aft, along and torque, each apart, make the whole."""
    one = follow(surfaces["kinked"], "trailing edge, at rib 3", "100 N")
    parts = [one.only(part) for part in PARTS]
    for wall in one.effects.box.walls:
        total = sum(part.effects.mean(wall) for part in parts)
        assert total == pytest.approx(one.effects.mean(wall), abs=1e-8)
    assert sum(part.effects.reactions for part in parts) == pytest.approx(one.effects.reactions, abs=1e-12)
    torque = one.only("torque")
    assert handed(torque, "pin", "sideways") == handed(torque, "pin", "fore-aft") == []
    assert handed(torque, "hold", "torque") == handed(one, "hold", "torque") != []
    assert {h.what for s in one.only("sideways").steps for h in s.handed} <= {
        "sideways", "bending sideways", "flow", "one rivet", "pull of one rivet", "force"
    }  # fmt: skip


def test_the_mirror(surfaces):
    """To the other side: the other cable, the same fore and aft, everything sideways reversed, skins exchanged."""
    left, right = (follow(surfaces["by hand"], "trailing edge, at 333 mm", "100 N", way) for way in ("left", "right"))
    assert right.effects.reactions * [1, 1, -1] == pytest.approx(left.effects.reactions, abs=1e-9)
    assert right.carried.pull[::-1] == pytest.approx(left.carried.pull, abs=1e-9)
    assert right.effects.mean("skin_minus") == pytest.approx(-left.effects.mean("skin_plus"), abs=1e-8)


def test_sideways_on_a_flat_half_is_to_the_top(surfaces):
    one = follow(surfaces["elevator"], "trailing edge, at rib 2", "100 N")
    assert one.way == follow(surfaces["elevator"], "trailing edge, at rib 2", "100 N", "top").way
    assert one.way.sign == surfaces["elevator"].left_is


def test_a_force_on_a_bracket_goes_to_that_pin_almost_alone(surfaces):
    """On the spar at a hinge: by the lever rule all of it, with two hinges."""
    one = follow(surfaces["by hand"], "hinge b", "100 N")
    assert handed(one, "pin", "sideways", "b hinge") == pytest.approx([100.0], rel=1e-12)
    assert handed(one, "pin", "sideways", "a hinge") == []


def test_a_pull_on_one_cable_bolt_is_held_by_the_cable(surfaces):
    """Pulled aft, its own cable holds; pulled ahead, the other one, and the pins hold both."""
    aft = follow(surfaces["rudder"], "horn, left", "100 N", "behind")
    assert handed(aft, "hold", "fore-aft", "left cable") == pytest.approx([100.0], rel=1e-9)
    assert handed(aft, "pin", "fore-aft") == handed(aft, "horn", "one rivet") == []
    ahead = follow(surfaces["rudder"], "horn, left", "100 N", "ahead")
    assert handed(ahead, "hold", "fore-aft", "right cable") == pytest.approx([100.0], rel=1e-9)
    assert sum(handed(ahead, "pin", "fore-aft")) == pytest.approx(-200.0, rel=1e-9)
    assert ahead.effects.horn_force[0].sum(axis=0) == pytest.approx([-200.0, 0.0, 0.0], abs=1e-9)
    assert [step.stage for step in ahead.steps][:2] == ["in", "horn"]


def test_rigging_and_pins_off_line_are_left_out(surfaces):
    """Of nothing but the force: a rigging pull and a pin drilled off line change nothing."""
    change = 'based_on = "rudder.toml"\ntitle = "off"\n[hinge.middle]\nout_of_line = "1 mm left"\n'
    change += '[controls]\nrigging_pull = "400 N"\n'
    other = follow(read_text(change, "off.toml", DATA), "trailing edge, at rib 3", "100 N")
    same = follow(surfaces["rudder"], "trailing edge, at rib 3", "100 N")
    assert np.array_equal(other.effects.reactions, same.effects.reactions)
    assert np.array_equal(other.effects.horn_force, same.effects.horn_force)


def test_a_soft_bracket_counts(surfaces):
    change = 'based_on = "rudder.toml"\ntitle = "soft"\n[hinge.middle]\ngives_sideways = "5 mm/kN"\n'
    soft = follow(read_text(change, "soft.toml", DATA), "trailing edge, at hinge middle", "100 N")
    stiff = follow(surfaces["rudder"], "trailing edge, at hinge middle", "100 N")
    middle = [handed(one, "pin", "sideways", "middle")[0] for one in (soft, stiff)]
    assert 0.0 < middle[0] < 0.9 * middle[1]


def test_half_filled_gives_the_pins(surfaces):
    """Outline and two hinges: pins by the lever rule, and a line that says what holds the torque is not given."""
    one = follow(surfaces["bare"], "trailing edge, at 550 mm", "100 N")
    assert handed(one, "pin", "sideways") == pytest.approx([50.0, 50.0], rel=1e-12)
    assert handed(one, "hold", "torque") == pytest.approx([-36.0], rel=1e-12)
    assert one.rows == ()
    assert max(cut.rest for cut in one.cuts) < 1e-9
    assert "sheet not known" in " ".join(one.notes)
    assert "horn.driven_by is not given" in " ".join(one.notes)
    assert str(one).isascii()


def test_an_assessment_is_as_good_as_its_surface(surfaces):
    one = follow(assess(surfaces["by hand"]), "spar, at 450 mm", 100.0)
    assert one.carried.beam.reactions == pytest.approx(
        follow(surfaces["by hand"], "spar, at 45 cm", "100 N").carried.beam.reactions, abs=1e-12
    )
