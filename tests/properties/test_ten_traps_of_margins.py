"""Ten classic mistakes of such a calculation, a test for each: the last five, of envelopes, factors and margins."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.checks import Check, Finding, Term, find
from surfacecheck.provenance import Basis, Source
from surfacecheck.reading import read, read_text
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
