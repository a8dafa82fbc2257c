"""Pins off line on a whole surface: superposition, what gives, what a load does on top."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read, read_text
from surfacecheck.studies import hinges_off_line, millimetre_table, off_line_data, off_line_table

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def rudder():
    return assess(read(DATA / "rudder.toml"))


@pytest.fixture(scope="module")
def found(rudder):
    return hinges_off_line(rudder, [0.0, 0.8e-3, 0.0], [0.0, -0.5e-3, 0.0])


def test_forces_are_in_balance(found):
    """Nothing is put on: forces add up to none, and turn about no point."""
    for forces in (found.bound, found.stiff, found.given):
        assert np.abs(forces.sum(axis=0)).max() < 1e-9 * np.abs(forces).max()
        assert np.abs((forces * found.up[:, None]).sum(axis=0)).max() < 1e-9 * np.abs(forces).max()


def test_offsets_add_up(rudder, found):
    """So much of each unit case; planes apart where bending alone is taken and nothing couples them."""
    each = found.each[1] * (found.offset[1] / 1e-3)[:, None, None]
    assert each.sum(axis=0) == pytest.approx(found.bound, abs=1e-9 * np.abs(found.bound).max())
    twice = hinges_off_line(rudder, 2.0 * np.array([0.0, 0.8e-3, 0.0]), 2.0 * np.array([0.0, -0.5e-3, 0.0]))
    assert twice.given == pytest.approx(2.0 * found.given, rel=1e-9)


def test_what_gives_lowers_it(rudder, found):
    soft = hinges_off_line(rudder, [0.0, 0.8e-3, 0.0], [0.0, -0.5e-3, 0.0], gives=1e-6)
    assert (np.abs(found.stiff) <= np.abs(found.bound) * (1 + 1e-12)).all()
    assert (np.abs(soft.given) < np.abs(found.stiff)).all()
    assert soft.bound == pytest.approx(found.bound, rel=1e-12)
    assert (soft.gives, found.gives) == (True, False)
    assert found.given == pytest.approx(found.stiff, rel=1e-12)


def test_a_line_that_is_only_moved_or_turned_sets_nothing_in(rudder):
    up = hinges_off_line(rudder).up
    nothing = hinges_off_line(rudder, 1e-3 + 2e-3 * up, -2e-3 + 1e-3 * up)
    assert np.abs(nothing.bound).max() < 1e-6
    assert np.abs(nothing.given).max() < 1e-6


def test_left_is_towards_plus_z_on_this_side(rudder, found):
    """The middle pin is pushed the way it is off line, the surface on it the other way."""
    assert found.offset[1] == pytest.approx([rudder.surface.left_is * 0.8e-3, -0.5e-3])
    assert np.sign(found.given[1, 0]) == -np.sign(found.offset[1, 0])
    assert np.sign(found.given[1, 1]) == -np.sign(found.offset[1, 1])


def test_offsets_of_the_file_are_those_typed(rudder, found):
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    typed = text.replace('[hinge.middle]\nsame_as = "bottom"\n',
                         '[hinge.middle]\nsame_as = "bottom"\nout_of_line = "0.8 mm left (thread)"\n'
                         'out_of_line_aft = "0.5 mm ahead (thread)"\n')  # fmt: skip
    typed = typed.replace('[hinge.top]\nsame_as = "middle"\n', '[hinge.top]\nsame_as = "bottom"\ntakes_along = "no"\n')
    by_file = hinges_off_line(assess(read_text(typed, "off.toml", DATA)))
    assert by_file.given == pytest.approx(found.given, rel=1e-12)
    assert by_file.lowest == pytest.approx(found.lowest)
    assert by_file.together == pytest.approx(found.together)


def test_it_does_not_grow_with_the_load(rudder, found):
    """Reactions of every case with the pins off line, less those in line: the same in every case."""

    def moved(surface, z, x):
        hinges = dict(surface.hinges)
        for key, value in (("out_of_line", z), ("out_of_line_aft", x)):
            now = getattr(hinges["middle"], key)
            hinges["middle"] = replace(hinges["middle"], **{key: replace(now, si=value, absent=False)})
        return replace(surface, hinges=hinges)

    straight, bent = assess(rudder.surface), assess(moved(rudder.surface, 0.8e-3, -0.5e-3))
    cases = len(straight.case_titles)
    change = bent.beam.reactions[:cases] - straight.beam.reactions
    assert change == pytest.approx(np.broadcast_to(change[0], change.shape), abs=1e-6)
    assert -change[0][:, [2, 0]] == pytest.approx(found.given, abs=1e-6)


def test_two_hinges_are_always_in_line():
    found = hinges_off_line(assess(read(DATA / "elevator.toml")), [0.0, 1e-3], [1e-3, 0.0])
    assert np.abs(found.bound).max() < 1e-9
    assert "two hinges nothing is set in" in str(found)
    assert millimetre_table(found).rows == ()


def test_words(found, rudder):
    text = str(found)
    assert text.isascii()
    assert max(map(len, text.split("\n"))) <= 80
    assert "real ones do, and lower it" in " ".join(text.split())
    assert len(off_line_table(found).rows) == 3
    assert [row[0] for row in millimetre_table(found).rows] == ["middle, sideways", "middle, fore-and-aft"]
    data = off_line_data(found)
    assert data["pins"][1]["force_bound"] == found.bound[1].tolist()
    assert "<table>" in found._repr_html_()
    assert "All pins are in line by the file" in str(hinges_off_line(rudder))


def test_refused(rudder):
    with pytest.raises(SurfaceError, match=r"2 offsets for 3 hinges \(bottom, middle, top\)"):
        hinges_off_line(rudder, [0.0, 1e-3])
    with pytest.raises(SurfaceError, match="is zero"):
        hinges_off_line(rudder, gives=-1e-6)
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    no_sheet = assess(read_text(text.replace('thickness = "0.80 mm (micrometer)"', 'thickness = "?"')))
    with pytest.raises(SurfaceError, match=r"stiffness of the surface is not known; give sheet\.spar\.thickness"):
        hinges_off_line(no_sheet)
