"""What a tolerance says, where one comes from that nobody said, and what is wrong with one."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis, Source, Value
from surfacecheck.reading import source_of
from surfacecheck.studies import holds_tolerances, read_tolerances, spread_of, spreads_of
from surfacecheck.studies.sweeping._tolerance_table import default_of, kind_of, tries_factor

MM = 1e-3
SAID = Source(Basis.AS_SAID, "asked for")


@pytest.fixture(scope="module")
def rudder():
    return surfacecheck.read("data/rudder.toml")


def limits(text, si=0.8 * MM, quantity="length", source=SAID):
    spread = spread_of("sheet.spar.thickness", Value(si), quantity, text, source)
    return None if spread is None else (pytest.approx(spread.low), pytest.approx(spread.high), spread.bell)


@pytest.mark.parametrize(
    ("text", "low", "high", "bell"),
    [
        ("0.02 mm", 0.78, 0.82, False),
        ("+-0.02 mm", 0.78, 0.82, False),
        ("± 0.02 mm", 0.78, 0.82, False),
        ("0.02 mm even", 0.78, 0.82, False),
        ("0.02 mm bell", 0.78, 0.82, True),
        ("+0.1 mm -0 mm", 0.80, 0.90, False),
        ("+0 -0.03 mm", 0.77, 0.80, False),
        ("+0.001 in / -0.02 mm", 0.78, 0.8254, False),
        ("5 %", 0.76, 0.84, False),
        ("+10 % -5 % bell", 0.76, 0.88, True),
        ("0.78 mm to 0.82 mm", 0.78, 0.82, False),
        ("0.78 to 0.82 mm", 0.78, 0.82, False),
        ("0.031 in to 0.032 in", 0.7874, 0.8128, False),
    ],
)
def test_what_is_written(text, low, high, bell):
    assert limits(text) == (pytest.approx(low * MM), pytest.approx(high * MM), bell)


@pytest.mark.parametrize("text", ["none", "0 mm", "+0 mm -0 mm", "0 %"])
def test_nothing_either_way_does_not_vary(text):
    assert limits(text) is None


def test_a_range_of_a_few_tries_is_the_spread_it_speaks_for():
    """5 tries that lie 0.04 mm apart: a standard deviation of 0.04 / 2.326, and 95 % within two of them."""
    spread = spread_of("k", Value(0.8 * MM), "length", "0.78 to 0.82 mm", Source(Basis.MEASURED, "micrometer, 5 tries"))
    assert spread is not None
    assert spread.bell
    assert (spread.high - spread.low) / 4.0 == pytest.approx(0.04 * MM / 2.326)
    assert 0.5 * (spread.high + spread.low) == pytest.approx(0.8 * MM)


def test_the_range_of_many_draws_has_the_mean_the_table_says():
    draws = np.random.default_rng(3).standard_normal((20_000, 7))
    assert np.ptp(draws, axis=-1).mean() * tries_factor(7) == pytest.approx(1.0, abs=0.01)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0,02 mm", "has a comma"),
        ("0.02", "has no unit"),
        ("0.02 N", "length"),
        ("-0.02 mm", "is no tolerance"),
        ("0.90 mm to 0.95 mm", "the value given does not lie in that range"),
        ("wide", "is no tolerance"),
        ("", "is no tolerance"),
    ],
)
def test_what_is_no_tolerance_is_refused_with_what_to_write(text, says):
    with pytest.raises(SurfaceError) as error:
        limits(text)
    assert "sheet.spar.thickness" in str(error.value)
    assert says in str(error.value)
    assert 'write "0.02 mm"' in str(error.value)


def test_samples_of_even_and_bell_lie_as_they_say():
    chance = (np.arange(100_000) + 0.5) / 100_000
    even = spread_of("k", Value(0.8 * MM), "length", "0.02 mm", SAID).at(chance)
    bell = spread_of("k", Value(0.8 * MM), "length", "0.02 mm bell", SAID).at(chance)
    assert (even.min(), even.max()) == (pytest.approx(0.78 * MM, rel=1e-5), pytest.approx(0.82 * MM, rel=1e-5))
    assert even.std() == pytest.approx(0.02 * MM / np.sqrt(3.0), rel=1e-6)  # GUM 4.3.7: a / sqrt 3
    assert bell.std() == pytest.approx(0.01 * MM, rel=2e-3)
    assert np.mean((bell > 0.78 * MM) & (bell < 0.82 * MM)) == pytest.approx(0.9545, abs=2e-4)
    assert np.abs(bell - 0.8 * MM).max() <= 0.0401 * MM


def default(key, si, words, least=True):
    found = default_of(key, Value(si, source=source_of(words), key=key), least)
    return None if found is None else (found.text, str(found.source.basis))


@pytest.mark.parametrize(
    ("key", "mm", "words", "expected"),
    [
        ("sheet.spar.thickness", 0.8, "micrometer", ("0.01 mm", "common practice")),
        ("sheet.spar.thickness", 0.8, "caliper, 3 tries", ("0.05 mm", "common practice")),
        ("sheet.spar.thickness", 0.8, "drawing", ("0.07 mm", "published")),  # EN 485-4: over 0.6 to 0.8
        ("sheet.spar.thickness", 0.81, "drawing", ("0.08 mm", "published")),  # over 0.8 to 1.0
        ("sheet.ribs.thickness", 0.4, "drawing", ("0.05 mm", "published")),
        ("bracket.plate.thickness", 3.2, None, ("0.17 mm", "published")),
        ("horn.plate.thickness", 8.0, "drawing", None),  # beyond the table
        ("sheet.spar.thickness", 0.8, "guess", ("10 %", "assumed")),
        ("rivet.large.hole", 4.1, "drill", ("+0.1 mm -0 mm", "common practice")),
        ("rivet.large.hole", 4.1, "caliper", ("0.05 mm", "common practice")),
        ("row.trailing_edge.edge.left_skin", 7.0, "ruler", ("0.5 mm", "common practice")),
        ("row.trailing_edge.pitch", 25.0, "drawing", ("0.5 mm", "common practice")),
        ("hinge.top.up", 1010.0, "tape", None),
        ("weighed.tipped.edge", 30.0, "protractor", None),  # an angle
        ("bracket.plate.pin.gap", 0.5, "feeler", None),
    ],
)
def test_the_table_gives_what_nobody_said(key, mm, words, expected):
    assert default(key, mm * MM, words) == expected


def test_a_least_strength_is_not_varied_and_a_typical_one_is():
    assert kind_of("rivet.large.shear") == "strength"
    assert default("rivet.large.shear", 1250.0, "sheet 7", least=True) is None
    assert default("rivet.large.shear", 1250.0, "sheet 7", least=False) == ("10 % bell", "common practice")


def test_what_varies_in_the_demo_is_sheet_holes_edges_and_pitches(rudder):
    found = {spread.key: spread for spread in spreads_of(rudder)}
    assert {kind_of(key) for key in found} == {"thickness", "hole", "edge", "pitch"}
    assert "row.left_skin_to_ribs.edge.left_skin" not in found  # not known
    assert "rivet.large.shear" not in found  # the least value of its sheet


def test_a_later_pattern_wins_and_a_bracket_wins_over_the_table(rudder):
    text = {
        "*": "none",
        "sheet.*.thickness": "0.03 mm",
        "sheet.spar.thickness": "0.02 mm bell (micrometer, whole sheet)",
    }
    found = {spread.key: spread for spread in spreads_of(rudder, text)}
    assert all(key.endswith("thickness") and key.startswith("sheet") for key in found)
    assert (found["sheet.spar.thickness"].text, found["sheet.ribs.thickness"].text) == ("0.02 mm bell", "0.03 mm")
    assert str(found["sheet.spar.thickness"].source) == "measured: micrometer, whole sheet"
    told = Path("data/rudder.toml").read_text(encoding="utf-8").replace(
        'thickness = "0.80 mm (micrometer)"\nalloy = "2024-T3 clad (drawing)"\nflange',
        'thickness = "0.80 mm (micrometer, 0.79 to 0.82 mm)"\nalloy = "2024-T3 clad (drawing)"\nflange',
    )  # fmt: skip
    own = {spread.key: spread for spread in spreads_of(surfacecheck.read_text(told))}["sheet.spar.thickness"]
    assert (own.low, own.high) == (pytest.approx(0.79 * MM), pytest.approx(0.82 * MM))
    assert own.source.text == "micrometer, 0.79 to 0.82 mm"


@pytest.mark.parametrize(
    ("tolerances", "says"),
    [
        ({"sheet.spar.thicknes": "0.02 mm"}, "sheet.spar.thicknes: no number of this surface has that name. Nearest: "
                                             "sheet.spar.thickness."),
        ({"row.*.egde.*": "0.5 mm"}, "no number of this surface has that name"),
        ({"rivet.small.shear": "5 %"}, "rivet.small.shear: is not known, so it cannot vary"),
        ({"*": "none"}, "no number of this surface varies"),
    ],
)  # fmt: skip
def test_a_key_that_is_none_names_the_nearest(rudder, tolerances, says):
    with pytest.raises(SurfaceError) as error:
        spreads_of(rudder, tolerances)
    assert says in str(error.value)


def test_the_demo_file_of_tolerances_fits_the_demo(rudder):
    assert holds_tolerances("data/rudder_tolerances.toml")
    assert not holds_tolerances("data/rudder.toml")
    based_on, tolerances = read_tolerances("data/rudder_tolerances.toml")
    assert based_on is not None
    assert based_on.name == "rudder.toml"
    assert {"rivet.large.shear", "hinge.middle.out_of_line"} <= {
        spread.key for spread in spreads_of(rudder, tolerances)
    }


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[tolerance", "not readable"),
        ("[tolerance]\n", "holds no tolerance"),
        ('[tolerances]\na = "1 mm"\n', "unknown"),
        ("[tolerance]\nsheet.spar.thickness = 0.02\n", "write the tolerance as a text in quotes"),
        ('based_on = 3\n[tolerance]\na = "1 mm"\n', "write the name of the surface file as a text"),
    ],
)
def test_a_file_of_tolerances_says_what_is_wrong_with_it(tmp_path, text, says):
    file = tmp_path / "mine.toml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(SurfaceError, match=says):
        read_tolerances(file)
    with pytest.raises(SurfaceError, match="not readable"):
        read_tolerances(tmp_path / "none.toml")
