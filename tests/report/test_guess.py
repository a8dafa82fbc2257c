"""A guess and its result on one line: both at their own place, in words too, and a guess that is none is refused."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError

pytest.importorskip("matplotlib", reason="pictures need it")

from surfacecheck.report import guess_among, guess_line


def place(picture, gid):
    """Return where a mark stands along the line [in]."""
    (line,) = (one for one in picture.axes[0].lines if one.get_gid() == gid)
    return float(line.get_xdata()[0])


def test_places_are_in_proportion_from_zero():
    half, whole = (place(guess_line(guess, 100.0), "guess") for guess in (50.0, 100.0))
    nought = place(guess_line(0.0, 100.0), "guess")
    assert np.isclose(half - nought, 0.5 * (whole - nought))


def test_a_guess_that_is_right_lies_on_the_result():
    picture = guess_line(49.0, 49.0, "%")
    assert place(picture, "guess") == place(picture, "result")
    assert picture.words == "Guess and result: guess 49 %, result 49 %."


def test_far_apart_it_counts_in_tens():
    picture = guess_line(20.0, 5000.0, "times")
    lines = [one.get_xdata() for one in picture.axes[0].lines]
    ticks = sorted(float(x[0]) for x in lines if len(x) == 2 and x[0] == x[1])
    assert len(ticks) == 4  # 10, 100, 1000, 10000
    apart = (place(picture, "result") - place(picture, "guess")) / (ticks[1] - ticks[0])
    assert np.isclose(apart, np.log10(5000.0 / 20.0))


@pytest.mark.parametrize("guess", [-30.0, 0.0, 1e6])
def test_every_guess_stays_inside_the_picture(guess):
    picture = guess_line(guess, 120.0, "N")
    assert 0.0 <= place(picture, "guess") <= picture.get_figwidth()
    assert picture.png().startswith(b"\x89PNG")


def test_among_names_the_guessed_one_whatever_its_case():
    picture = guess_among("Middle", {"bottom": 437.0, "middle": 87.2, "top": 9.44}, "N", "Pins")
    assert picture.words == "Pins: top 9.44 N; guess: middle 87.2 N; bottom 437 N."
    assert place(picture, "answer-1") < place(picture, "answer-2") < place(picture, "answer-3")


@pytest.mark.parametrize("guess", ["about half", None, float("nan")])
def test_no_number_is_refused(guess):
    with pytest.raises(SurfaceError, match=r"guess = .* is no number"):
        guess_line(guess, 1.0)


def test_no_name_is_refused_with_the_names():
    with pytest.raises(SurfaceError, match='guess = "rib" is none of the answers: write one of rivet, sheet'):
        guess_among("rib", {"rivet": 1.0, "sheet": 2.0})
