"""A scatter against exact distributions, and what it says of itself."""

from __future__ import annotations

import json
import re
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from statistics import NormalDist

import numpy as np
import pytest
from scipy.stats import beta

import surfacecheck
from surfacecheck.errors import SurfaceError
from surfacecheck.stacks import one_of
from surfacecheck.studies import (
    driver_table,
    read_tolerances,
    samples_of,
    scatter,
    scatter_data,
    spreads_of,
    with_numbers,
)  # fmt: skip
from surfacecheck.studies.sweeping._drives import drives, least_share
from surfacecheck.studies.sweeping._scatter_rules import asked_of
from surfacecheck.studies.sweeping._scatter_shown import percent

MM = 1e-3
MANY = 512
BOLT = {"*": "none", "horn.plate.bolt_edge": "0.5 mm bell", "horn.plate.bolt_hole": "0.8 mm bell"}
"""The sheet beside a bolt hole tears at 2 F t (e - 0.383 D): linear in both, and nothing else hangs on the two."""


@pytest.fixture(scope="module")
def rudder():
    return surfacecheck.read("data/rudder.toml")


@pytest.fixture(scope="module")
def bolt(rudder):
    return scatter(rudder, BOLT, samples=MANY)


@pytest.fixture(scope="module")
def whole(rudder):
    return scatter(rudder, {"hinge.*.out_of_line_aft": "0.3 mm bell"}, samples=MANY)


def distance(values, exact):
    """Largest difference of the samples' distribution from the exact one (Kolmogorov and Smirnov)."""
    ordered, n = np.sort(values), values.size
    at = np.array([exact(value) for value in ordered])
    return max(np.abs(at - np.arange(n) / n).max(), np.abs(at - np.arange(1, n + 1) / n).max())


def test_one_even_number_gives_a_linear_margin_its_exact_distribution(rudder):
    """margin + 1 is in proportion to the shear strength: even between 0.9 and 1.1 times what is given."""
    found = scatter(rudder, {"*": "none", "rivet.large.shear": "10 %"}, samples=MANY).margin("horn.rivets:rivet-shear")
    low, high = 0.9 * (1.0 + found.given) - 1.0, 1.1 * (1.0 + found.given) - 1.0
    assert distance(found.values, lambda m: (m - low) / (high - low)) <= 1.0 / MANY + 1e-9  # one sample in each slice
    assert found.at(0.05) == pytest.approx(low + 0.05 * (high - low), abs=(high - low) / MANY)


def test_two_bells_give_a_linear_margin_its_exact_distribution(bolt):
    """e - 0.383 D of two normal numbers is normal."""
    found = bolt.margin("horn.bolt:tear-out")
    middle, sigma = 10.0 - 0.383 * 5.0, np.hypot(0.25, 0.383 * 0.4)
    exact = NormalDist(middle, sigma)
    assert distance((1.0 + found.values) / (1.0 + found.given) * middle, exact.cdf) < 0.04  # 1.36 / sqrt(512) is 0.06
    assert found.values.mean() == pytest.approx(found.given, abs=1e-3)


def test_what_drives_a_linear_margin_is_its_share_of_the_variance(bolt):
    found = bolt.margin("horn.bolt:tear-out")
    variances = {"horn.plate.bolt_edge": 0.25**2, "horn.plate.bolt_hole": (0.383 * 0.4) ** 2}
    assert [driver.key for driver in found.told] == list(variances)
    for driver in found.told:
        share = variances[driver.key] / sum(variances.values())
        assert driver.share == pytest.approx(share, abs=0.05)
        assert abs(driver.rank) == pytest.approx(6.0 / np.pi * np.arcsin(np.sqrt(share) / 2.0), abs=0.03)  # of normals
    assert [driver.way for driver in found.told] == ["raises", "lowers"]


def test_the_share_below_zero_is_the_exact_one(rudder):
    """The shear strength at which the margin is nought lies a quarter of the way from the lower limit."""
    zero = 1250.0 / (1.0 + surfacecheck.assess(rudder).find("horn.rivets").margin)
    low, high = zero - 200.0, zero + 600.0
    found = scatter(rudder, {"*": "none", "rivet.large.shear": f"{low:.6f} N to {high:.6f} N"}, samples=MANY)
    assert found.margin("horn.rivets:rivet-shear").below == pytest.approx(0.25, abs=1.0 / MANY)


def test_a_sample_has_the_margins_of_that_surface_alone(rudder, whole):
    sample = 137
    stack = with_numbers(rudder, whole.numbers)
    alone = {f"{f.check.place}:{f.check.mode}": f.margin
             for f in surfacecheck.assess(one_of(stack, sample)).findings if f.kind == "margin"}  # fmt: skip
    assert {one.name: one.values[sample] for one in whole.margins} == {
        one.name: alone[one.name] for one in whole.margins
    }
    assert whole.lowest.values[sample] == min(margin for margin in alone.values() if margin is not None)


def test_what_is_not_varied_leaves_each_margin_as_it_was(bolt):
    """All that hangs on the two numbers beside the bolt's own margins is the mass of the plate, some grams of it."""
    for one in bolt.margins:
        if not one.name.startswith("horn.bolt"):
            assert np.ptp(one.values) < 2e-3 * (1.0 + one.given), one.name
    assert np.ptp(bolt.margin("horn.bolt:tear-out").values) > 1.0


def test_the_same_seed_gives_the_same_samples_and_another_gives_others(rudder, bolt):
    again, other = scatter(rudder, BOLT, samples=MANY), samples_of(spreads_of(rudder, BOLT), MANY, 2)
    for key, values in bolt.numbers.items():
        assert np.array_equal(values, again.numbers[key])
        assert not np.array_equal(values, other[key])
    assert np.array_equal(bolt.lowest.values, again.lowest.values)
    assert (bolt.seed, again.seed) == (1, 1)


@pytest.mark.parametrize("variant", range(3))
def test_rules_of_samples_are_the_rules_of_each_surface(rudder, variant):
    """Each outcome that is counted, by name and place, as the assessment of that surface alone has it."""
    numbers = samples_of(
        spreads_of(rudder, {"row.*.edge.*": "1.5 mm", "row.*.pitch": "20 mm", "*.hole": "0.2 mm"}), 64, 5
    )
    stack = with_numbers(rudder, numbers)
    alone = {(r.name, r.place): r.outcome for r in surfacecheck.assess(one_of(stack, variant)).rules if r.counts}
    places = {place for _, place in alone}
    said = {}
    for one in asked_of(stack):
        broken, uncovered = (np.broadcast_to(flags, 64)[variant] for flags in (one.broken, one.uncovered))
        said[one.name, one.place] = "not covered" if uncovered else "does not meet" if broken else "meets"
    together = {key: outcome for key, outcome in said.items() if outcome == "not covered" or key[0] == "grip"}
    assert {key: said[key] for key in said if key not in together} == {
        key: outcome for key, outcome in alone.items() if "places" not in key[1] and outcome != "not covered"
        and key not in together
    }  # fmt: skip
    assert all(any(place in gathered for gathered in places) for _, place in together)


def test_how_often_a_rule_is_not_met_is_the_exact_share(whole):
    """Edges by ruler, 0.5 mm either way, even: 8.0 mm against 2 D = 8.0 mm, 6.0 against 6.4, 7.0 against 6.4."""
    broken = {one.rule.place: one.broken for one in whole.rules if one.rule.name == "edge distance"}
    assert broken["bracket.plate.edge.bracket"] == pytest.approx(0.5, abs=1.0 / MANY)
    assert broken["row.doubler_to_spar.edge.bottom_doubler"] == pytest.approx(0.9, abs=1.0 / MANY)
    assert broken["row.left_skin_to_spar.edge.left_skin"] == 0.0
    holes = {one.rule.place: one.broken for one in whole.rules if one.rule.name == "hole in its range"}
    assert holes == {"rivet.small.hole": 0.0, "rivet.large.hole": 0.0}


def test_what_it_says_of_the_demo(whole):
    text = str(whole)
    assert text.isascii()
    assert max(map(len, text.split("\n"))) <= 80
    said = " ".join(text.split())
    assert "no chance of failure" in said
    assert f"{MANY} samples, seed 1" in said
    assert "hinge.middle.out_of_line_aft" in said
    assert "bracket.plate.edge.bracket" in said
    assert "rivet.large.shear" in said  # does not vary: a least value
    assert "No flight on the strength of this page" in said
    html = whole._repr_html_()
    assert "no chance of failure" in html
    assert "hinge.middle.out_of_line_aft" in html


def test_a_number_whose_best_value_lies_between_is_told_to_be_one(whole):
    """Off line either way the middle hinge takes more: no rank correlation would see that."""
    (first, *_) = whole.margin("hinge.middle.pin:bearing").told
    assert (first.key, first.way) == ("hinge.middle.out_of_line_aft", "either way")
    assert first.rank**2 < 0.06 < 0.2 < first.share
    assert any("either way" in row for row in driver_table(whole).rows)


def test_an_input_that_does_nothing_is_told_from_one_that_does_by_chance():
    rng = np.random.default_rng(4)
    x, y = rng.random((200, 1024)), rng.random((3, 1024))
    rank, share = drives(x, y)
    assert share.max() < least_share(1024)
    assert np.abs(rank).max() < 0.15


@pytest.mark.parametrize("samples", [64, 128, 256, 1024, 4096])
def test_the_fewer_the_samples_the_more_a_driver_has_to_do(samples):
    """As many numbers and margins as a scatter looks at, none of which moves another: nothing is told."""
    rng = np.random.default_rng(samples)
    share = drives(rng.random((50, samples)), rng.random((140, samples)))[1]
    assert share.max() < least_share(samples)
    thousandth = float(np.quantile(share, 0.999))
    slices = max(2, min(32, samples // 32))
    asked = float(beta.isf(1e-3, 0.5 * (slices - 1), 0.5 * (samples - slices)))
    assert thousandth == pytest.approx(asked - (slices - 1) * (1.0 - asked) / (samples - slices), rel=0.25)


def test_what_does_not_move_a_margin_does_not_drive_it():
    """The horn plate breaks where its thickness says so; no edge distance of a skin is in it, 256 samples or not."""
    base, tolerances = read_tolerances(Path("data/rudder_tolerances.toml"))
    few = scatter(surfacecheck.read(base), tolerances, samples=256)
    told = [driver.key for driver in few.margin("horn.plate").told]
    assert told == ["horn.plate.thickness"]


def test_infinite_margins_are_ranked_and_constant_inputs_drive_nothing():
    x = np.stack([np.linspace(0.0, 1.0, 256), np.ones(256)])
    rank, share = drives(x, np.where(x[:1] > 0.9, np.inf, x[:1]))
    assert rank[0, 0] == pytest.approx(1.0, abs=1e-2)
    assert (rank[0, 1], share[0, 1]) == (0.0, 0.0)


def test_plain_data_is_json_and_says_how_it_was_got(whole):
    data = json.loads(json.dumps(scatter_data(whole), allow_nan=False))
    assert (data["form"], data["seed"], data["samples"], data["stopped"]) == (1, 1, MANY, False)
    assert len(data["varies"]) == len(whole.spreads)
    (aft,) = [one for one in data["varies"] if one["key"] == "hinge.middle.out_of_line_aft"]
    assert (aft["low"], aft["high"], aft["shape"]) == (-0.3 * MM, 0.3 * MM, "bell")
    lowest = data["lowest"]["at"]
    assert lowest["0 %"] <= lowest["5 %"] <= lowest["50 %"] <= lowest["100 %"]
    assert sum(data["governs"].values()) == pytest.approx(1.0)


def test_samples_that_cannot_exist_are_left_out_and_counted(rudder):
    """An edge of 2 mm, 0.5 mm either way, goes under half its hole of 3.3 mm in 0.15 of the samples."""
    surface = with_numbers(rudder, {"row.trailing_edge.edge.left_skin": 2.0 * MM})
    found = scatter(surface, {"*": "none", "row.trailing_edge.edge.left_skin": "0.5 mm"}, samples=200)
    assert len(found.why) == 30
    assert len(found) == 170
    assert "is under half its hole" in next(iter(found.why.values()))
    assert "30 samples cannot exist and are left out" in " ".join(str(found).split())
    surface = with_numbers(rudder, {"row.trailing_edge.edge.left_skin": 1.65 * MM})
    with pytest.raises(SurfaceError, match="not one of the samples can be worked"):
        scatter(surface, {"*": "none", "row.trailing_edge.edge.left_skin": "+0 mm -0.1 mm"}, samples=64)


class Interrupted(ThreadPoolExecutor):
    """An executor whose third result is waited for when the keyboard interrupts."""

    asked, at = 0, 3

    def submit(self, work, /, *words, **more):
        self.asked += 1
        future = super().submit(work, *words, **more)
        if self.asked == self.at:
            future = Future()
            future.result = self.interrupted
        return future

    @staticmethod
    def interrupted(timeout=None):
        raise KeyboardInterrupt


def test_stopped_it_tells_of_the_samples_that_were_finished(rudder, bolt):
    with Interrupted(1) as executor:
        found = scatter(rudder, BOLT, samples=MANY, executor=executor, chunk=64)
    assert found.stopped
    assert len(found) == 128
    assert np.array_equal(found.lowest.values, bolt.lowest.values[:128])
    assert f"Stopped: 128 of {MANY} samples were finished" in " ".join(str(found).split())


def test_stopped_before_anything_was_finished_it_tells_nothing(rudder):
    with Interrupted(1) as executor:
        executor.at = 1
        with pytest.raises(KeyboardInterrupt):
            scatter(rudder, BOLT, samples=64, executor=executor)


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"samples": 10}, "10 samples are too few"),
        ({"samples": 10**9}, "1,000,000,000 variants"),
        ({"seed": -1}, "seed -1 is below zero"),
        ({"tolerances": {"sheet.spar.thicknes": "1 mm"}}, "Nearest: sheet.spar.thickness"),
    ],
)
def test_what_is_asked_wrongly_is_refused(rudder, more, says):
    with pytest.raises(SurfaceError, match=says):
        scatter(rudder, **more)


def test_a_surface_without_a_margin_cannot_scatter():
    text = Path("data/rudder.toml").read_text(encoding="utf-8")
    bare = re.sub(r'(alloy|shear_strength|crushing_strength|shear|pull) = "[^"]*"', r'\1 = "?"', text)
    with pytest.raises(SurfaceError, match="no margin is known yet"):
        scatter(surfacecheck.read_text(bare), samples=64)


def test_a_margin_is_found_by_the_start_of_its_name(whole):
    assert whole.margin("hinge.bottom.pin").name == "hinge.bottom.pin:bearing"
    with pytest.raises(SurfaceError, match="Nearest"):
        whole.margin("hinge.botom")


@pytest.mark.parametrize(("share", "says"), [(0.0, "none"), (1.0, "all"), (0.002, "under 1 %"), (0.5, "50 %")])
def test_a_few_are_not_none(share, says):
    assert percent(share) == says
