"""Ten classic mistakes of such a calculation, a test for each: the first five, of loads and flows."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.loads import Planform
from surfacecheck.reading import read, read_text
from surfacecheck.sections import flow

DATA = Path(__file__).parents[2] / "data"
HAND = Path(__file__).parents[1] / "hand"


def laid(changes, base="rudder.toml", folder=DATA):
    lines = "".join(f"{key} = {answer}\n" for key, answer in changes.items())
    text = f'based_on = "{base}"\ntitle = "tried"\n{lines}'
    return surfacecheck.assess(read_text(text, "tried.toml", folder=folder))


@cache
def by_hand():
    return surfacecheck.assess(read(HAND / "rudder_by_hand.toml"))


LEFT = "side load to the left, straight to zero"


# ---- 1: sign of the torque; a horn force that doubles instead of balancing


def test_1_plus_z_pressure_aft_turns_about_minus_y_and_the_horn_takes_it_away():
    """T_0 just outboard of the horn is minus the load times its arm; inboard of it nothing is left."""
    one = laid({"horn.up": '"90 mm"', "load.fades_aft": '["even"]'})
    case, stations = one.case_titles.index("side load to the left, even"), one.span.stations
    horn, T = one.span.horn, one.beam.T_0[case]

    def turning(y):
        """Of 1.2 kPa from y to the tip: half the chord squared, chord 420 to 300 mm over 1.1 m."""
        c = 0.42 - 0.12 * y / 1.1
        return -1200.0 / 2.0 * (c**3 - 0.30**3) / (3.0 * 0.12 / 1.1)

    assert T[stations.after(horn)] == pytest.approx(turning(0.090), rel=1e-9)
    assert T[stations.after(horn)] < 0.0
    assert T[stations.before(horn)] == pytest.approx(turning(0.090) - turning(0.0), rel=1e-9)
    assert T[0] == pytest.approx(0.0, abs=1e-9)


# ---- 2: torque about the hinge line taken for torque about the section


def test_2_flows_do_not_know_the_point_the_torque_is_given_about():
    one = by_hand()
    beam, section = one.beam, one.effects.box.closed
    direct = flow(section, beam.V_x.T, beam.V_z.T, beam.T_0.T, about=(0.0, 0.0)).mean
    for a, b in ((0.020, 0.0), (0.32, -0.07)):
        moved = beam.T_0 + a * beam.V_z - b * beam.V_x
        again = flow(section, beam.V_x.T, beam.V_z.T, moved.T, about=(a, b)).mean
        assert again == pytest.approx(direct, rel=1e-9, abs=1e-8)


def test_2_a_hinge_steps_the_torque_about_the_web_and_not_about_the_pins():
    one = by_hand()
    case, stations = one.case_titles.index(LEFT), one.span.stations
    for h, b in enumerate(one.span.hinges.values()):
        before, after = stations.before(b), stations.after(b)
        T, V = one.beam.T_0[case], one.beam.V_z[case]
        assert T[before] == pytest.approx(T[after], abs=1e-9)
        web = T + 0.020 * V
        assert web[before] - web[after] == pytest.approx(0.020 * one.beam.reactions[case, h, 2], rel=1e-9)
        assert abs(web[before] - web[after]) > 3.0


# ---- 3: mean chord where the chord squared is meant


def test_3_chord_squared_and_not_the_mean_chord_squared():
    """Chord 1.5 to 1.0 over 4: 6.3333 and not 6.25."""
    plan = Planform.of(y=np.array([0.0, 4.0]), edge=np.array([1.5, 1.0]), web=np.zeros(2), nose=np.zeros(2))
    assert plan.chord_squared("pins") == pytest.approx(4.0 * (1.5**2 + 1.5 + 1.0) / 3.0, rel=1e-12)
    assert plan.chord_squared("pins") == pytest.approx(6.3333, abs=5e-5)


# ---- 4: row load from VQ/I or the web's flow; the constant flow forgotten


def test_4_torque_alone_puts_the_same_flow_into_every_row():
    section = by_hand().effects.box.closed
    walls = by_hand().effects.box
    found = flow(section, 0.0, 0.0, 12.0, about=(0.0, 0.0)).mean[0]
    for wall in ("skin_plus", "skin_minus", "web"):
        assert found[..., walls.wall(wall)] == pytest.approx(12.0 / (2.0 * 0.0060), rel=1e-9)


def test_4_shear_through_the_closed_shear_centre_twists_nothing():
    section = by_hand().effects.box.closed
    walls = by_hand().effects.box
    about = (float(section.x_s[0]), float(section.z_s[0]))
    found = flow(section, 0.0, 100.0, 0.0, about=about).mean[0]
    names = ("web", "skin_plus", "skin_minus")
    length = dict(zip(names, (0.040, np.hypot(0.3, 0.02), np.hypot(0.3, 0.02)), strict=True))
    t = {"web": 0.8e-3, "skin_plus": 0.6e-3, "skin_minus": 0.6e-3}
    around = sum(found[..., walls.wall(n)] * length[n] / t[n] for n in names)
    assert around == pytest.approx(0.0, abs=1e-6 * abs(found).max() * 1000.0)


def test_4_rows_carry_the_flow_of_the_skin_that_ends_there():
    """q0 + q_v, q0 - q_v and q0 of the hand calculation at y = 0.05, times a pitch of 25 mm; never the web's."""
    one = by_hand()
    rows = {load.row.name: load for load in one.rows}
    case = rows["trailing_edge"].effects.cases.index(LEFT)
    here = one.span.bay == 0
    q0 = np.interp(0.05, one.span.y[here], rows["trailing_edge"].flow[case, here])
    upper = np.interp(0.05, one.span.y[here], rows["left_skin_to_spar"].flow[case, here])
    lower = np.interp(0.05, one.span.y[here], rows["right_skin_to_spar"].flow[case, here])
    assert (lower + upper) / 2.0 == pytest.approx(q0, rel=1e-9)
    assert lower - upper == pytest.approx(2.0 * 909.49, rel=1e-4)
    web = np.abs(one.effects.mean("web")[case, here])
    assert np.abs(web - rows["left_skin_to_spar"].flow[case, here]).min() > 100.0


# ---- 5: interpolating across a jump


def test_5_a_hinge_has_two_values_and_the_jump_is_its_reaction():
    one = by_hand()
    stations = one.span.stations
    for h, b in enumerate(one.span.hinges.values()):
        before, after = stations.before(b), stations.after(b)
        assert one.span.y[before] == one.span.y[after] == one.span.breaks[b]
        for name, axis in (("V_x", 0), ("V_z", 2)):
            V = getattr(one.beam, name)
            assert V[:, before] - V[:, after] == pytest.approx(one.beam.reactions[:, h, axis], abs=1e-9)
        for name in ("M_x", "M_z"):
            M = getattr(one.beam, name)
            assert M[:, before] == pytest.approx(M[:, after], abs=1e-9)
