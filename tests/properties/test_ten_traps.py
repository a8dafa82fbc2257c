"""Ten classic mistakes of such a calculation, a test for each, through the surface file wherever a file can pose it."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.checks import Check, Finding, Term, find
from surfacecheck.loads import Planform
from surfacecheck.provenance import Basis, Source
from surfacecheck.reading import read, read_text
from surfacecheck.sections import flow
from surfacecheck.strength import fitting, interaction_margin

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


# ---- 6: an envelope that mixes cases

PLAIN = Source(Basis.WORKED_OUT)


def both(S, T, cases):
    """Shear and pull together, 1000 N each, over cases and one spot."""
    terms = {
        "S": Term(np.asarray(S, dtype=float)[:, None], "force", "shear"),
        "T": Term(np.asarray(T, dtype=float)[:, None], "force", "pull"),
        "P": Term(1000.0, "force", "strength"),
    }
    return find(
        Check("here", "both", "rivet", "gives", "1", "sqrt((S / P)**2 + (T / P)**2)", terms, "S", cases, ("",), PLAIN)
    )


def test_6_each_case_keeps_its_own_companions():
    """One case of pure shear, one of pure pull: the smaller of the two margins, not both at once."""
    two = both([600.0, 0.0], [0.0, 500.0], ("shear", "pull"))
    assert two.margin == pytest.approx(1.0 / 0.6 - 1.0)
    assert two.case == "shear"
    assert two.margin == min(both([600.0], [0.0], ("a",)).margin, both([0.0], [500.0], ("b",)).margin)
    assert both([600.0], [500.0], ("c",)).margin < two.margin


def test_6_what_a_bracket_rivet_is_judged_by_comes_from_one_case():
    one = laid({"bracket.plate.pin.crushing_strength": '"?"'})
    seen = 0
    for finding in one.findings:
        if not finding.check.mode.startswith("rivet-both") or finding.margin is None or finding.check.spot_cases:
            continue
        case, spot = finding.index
        assert finding.case == finding.check.cases[case]
        for letter in ("S", "T"):
            assert finding.value(letter) == finding.check.terms[letter].values[case, spot]
        seen += 1
    assert seen >= 3


def test_6_what_a_row_is_judged_by_comes_from_one_case():
    """After cases are reduced too: shear, pull and wrinkling of the worst spot are those of the case that is named."""
    one = laid({"rivet.small.shear": '"900 N"', "rivet.small.pull": '"700 N"'})
    rows = {load.row.name: load for load in one.rows}
    seen = 0
    for finding in one.findings:
        if finding.check.mode != "rivet-both" or not finding.check.place.startswith("row."):
            continue
        load = rows[finding.check.place.removeprefix("row.")]
        case = load.effects.cases.index(finding.case)
        at = [i for i, spot in enumerate(load.spots) if spot == finding.spot]
        pairs = [(load.shear[case, i], load.tension[case, i]) for i in at]
        assert (finding.value("S"), finding.value("T")) in pairs
        seen += 1
    assert seen >= 3


# ---- 7: factors on top of each other


@pytest.mark.parametrize("at_yield", ["yes", "no"])
def test_7_a_pin_that_turns_has_its_factor_alone(at_yield):
    """F / (6.67 P) - 1, whatever the fitting factor."""
    one = laid({"method.fitting_factor_at_yield": f'"{at_yield}"'}, "rudder_by_hand.toml", HAND)
    finding = next(f for f in one.findings if f.name == "hinge.a.pin:bearing")
    P = np.hypot(*one.beam.reactions[:, 0, ::2].T).max()
    assert finding.margin == pytest.approx(250e6 * 5e-3 * 6e-3 / (6.67 * P) - 1.0, rel=1e-9)


def test_7_the_switch_moves_yield_and_nothing_else():
    both_ways = [laid({"method.fitting_factor_at_yield": f'"{way}"'}).findings for way in ("yes", "no")]
    found = [{f.name: f.margin for f in findings if f.margin is not None} for findings in both_ways]
    moved = {name for name in found[0] if found[0][name] != found[1].get(name)}
    assert moved
    assert all("yield" in name or "strip" in name for name in moved)


def test_7_the_highest_special_factor_and_never_a_product():
    assert fitting(casting=1.25).ultimate == 1.875
    assert fitting().ultimate == pytest.approx(1.5 * 1.15)


# ---- 8: a margin that is no multiplier of the load


def test_8_interaction_as_a_multiplier():
    assert float(interaction_margin(0.6, 0.5)) == pytest.approx(1.0 / np.hypot(0.6, 0.5) - 1.0, rel=1e-12)
    assert float(interaction_margin(0.6, 0.5)) == pytest.approx(0.280, abs=5e-4)


ALONE = {  # so that nothing acts but the airload
    "load.wind_at_tiedown": '"none"',
    "controls.horn_per_pilot": '"?"',
    "controls.rigging_pull": '"none"',
    "aeroplane.weight": '"?"',
    "rivet.small.shear": '"900 N"',
    "rivet.small.pull": '"700 N"',
}
RUDDER = ALONE | {"hinge.bottom.takes_along": '"no"'}
ELEVATOR = ALONE | {"hinge.inner.takes_along": '"no"'}


def worst(one) -> dict[str, Finding]:
    """Findings with a number, by check."""
    finite = [f for f in one.findings if f.margin is not None and np.isfinite(f.margin)]
    return {f"{f.check.place}:{f.check.mode}": f for f in finite}


@pytest.mark.parametrize(
    ("base", "changes", "pressure"), [("rudder.toml", RUDDER, 1200.0), ("elevator.toml", ELEVATOR, 1150.0)]
)
def test_8_the_load_times_one_plus_the_margin_just_exhausts(base, changes, pressure):
    """Every margin, bound and statement of the demos: at p (1 + margin) that very check has margin 0."""
    one = worst(laid(changes | {"load.pressure": f'"{pressure!r} Pa"'}, base))
    tried = 0
    for name, finding in one.items():
        grown = pressure * (1.0 + finding.margin)
        if not 60.0 < grown < 24000.0:  # what a file takes without asking whether the unit is right
            continue
        again = worst(laid(changes | {"load.pressure": f'"{grown!r} Pa"'}, base))[name]
        assert again.margin == pytest.approx(0.0, abs=1e-12), name
        tried += 1
    assert tried > 60


# ---- 9: displacements scaled with the load; kilograms for weight


def test_9_a_displacement_set_in_does_not_grow_with_the_load():
    off, true = {"hinge.middle.out_of_line": '"0.7 mm left"'}, {}
    steps = []
    for p in (0.8, 1.6):
        one, other = (laid({"load.pressure": f'"{p} kPa"', **way}) for way in (off, true))
        case = "side load to the left, even"
        steps.append(
            one.beam.reactions[one.case_titles.index(case)] - other.beam.reactions[other.case_titles.index(case)]
        )
    assert steps[1] == pytest.approx(steps[0], rel=1e-9, abs=1e-8)
    assert np.abs(steps[0]).max() > 10.0


def test_9_ultimate_with_a_displacement_lies_inside_what_is_checked():
    """1.5 x load + 1.0 x set-in is no worse than 1.5 x the worse of with and without: both are among the cases."""
    extra = {"hinge.middle.out_of_line": '"0.7 mm left"'}
    one = laid(extra)
    title = "side load to the left, even"
    with_, without = (one.case_titles.index(title + end) for end in ("", ", pins as if in line"))
    load, set_in = one.beam.reactions[without], one.beam.reactions[with_] - one.beam.reactions[without]
    ultimate = np.abs(1.5 * load + set_in)
    checked = 1.5 * np.maximum(np.abs(load), np.abs(load + set_in))
    assert (ultimate <= checked + 1e-9).all()


def test_9_weight_is_mass_times_g():
    """2.5 kg and 24 g: 588.40 N along the hinge line, on the one hinge that stops it."""
    one = laid({"weighed.mass": '"2.5 kg"', "weighed.paint": '"none"'})
    along = next(pin.along for pin in one.pins if pin.name == "bottom")
    assert abs(along.value) == pytest.approx(588.40, abs=5e-3)
    assert all(pin.along.value == 0.0 for pin in one.pins if pin.name != "bottom")


# ---- 10: mirror errors


def test_10_tension_moves_to_the_other_rivet_when_the_load_turns_round():
    """Only rivet 6 of the hand calculation is pulled (28.3125 N); with the load reversed only its mirror image is."""
    one = by_hand()
    load = one.brackets[0]
    left, right = (one.case_titles.index(f"side load to the {way}, straight to zero") for way in ("left", "right"))
    at = {(round(1e3 * a), round(1e3 * b)): i for i, (a, b) in enumerate(zip(load.a, load.b, strict=True))}
    for case, pulled in ((left, (10, 12)), (right, (10, -12))):
        expected = np.zeros(6)
        expected[at[pulled]] = 28.3125
        assert load.tension[case] == pytest.approx(expected, abs=1e-6)


def test_10_products_of_inertia_change_sign_with_the_mirror():
    def box(left, right):
        skins = {"left_skin": left, "right_skin": right, "nose_skin": "0.4 mm"}
        sheet = {f"sheet.{name}.thickness": f'"{t}"' for name, t in skins.items()}
        return laid(sheet | {"method.skins_carry": '"shear and a strip at each row"'}).effects.box.closed

    one, other = box("0.8 mm", "0.4 mm"), box("0.4 mm", "0.8 mm")
    assert np.abs(one.I_xz).min() > 1e-3 * np.abs(one.I_xx).max()
    assert other.I_xz == pytest.approx(-one.I_xz, rel=1e-9)
    assert other.z_c == pytest.approx(-one.z_c, rel=1e-9)
    assert other.z_s == pytest.approx(-one.z_s, rel=1e-9)
    assert other.x_s == pytest.approx(one.x_s, rel=1e-9)
    assert np.abs(one.z_s).min() > 1e-4
