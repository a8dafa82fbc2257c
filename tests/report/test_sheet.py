"""What stands beside the load cases, the values as given, small outlines, and tables as files."""

from __future__ import annotations

import csv
import io
import re

import numpy as np
import pytest

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.loads import speed_rows, tube_torques
from surfacecheck.quantities import show
from surfacecheck.reading import read_text
from surfacecheck.report import page, page_tables, write_tables
from surfacecheck.report._case_sheet import deflection_table, speed_table, tube_table, turned_table
from surfacecheck.report._inputs import PARTS, given_values, input_tables
from surfacecheck.report._mini import mini_of
from surfacecheck.tables import plain

from .conftest import DATA, DEMO

ELEVATOR = (DATA / "elevator.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def by_rule():
    text = DEMO.replace('pressure = "1.20 kPa (designer\'s letter)"', 'rule = "Part 23 Appendix A"')
    assert text != DEMO
    return assess(read_text(text.replace('speed_cruise = "?"', 'speed_cruise = "30 m/s (manual)"')))


@pytest.fixture(scope="module")
def on_tube():
    start, end = ELEVATOR.index("[horn]"), ELEVATOR.index("# ---- C")
    horn = '[horn]\ndriven_by = "torque tube"\nturns_other_half = "yes"\nout = "0 in (tape)"\n\n'
    return assess(read_text(ELEVATOR[:start] + horn + ELEVATOR[end:]))


def test_speeds_stand_beside_the_load_where_the_rule_gives_it(by_rule, rudder):
    table = speed_table(by_rule, "metric")
    rows = {one.symbol: one for one in speed_rows(by_rule.surface)}
    assert [row[0].split(",")[0] for row in table.rows] == list(rows)
    cruise = next(row for row in table.rows if row[0].startswith("V_C"))
    assert cruise[1] == "30 m/s"
    assert cruise[2] == show(float(rows["V_C"].least), "speed", "metric")
    assert cruise[3].startswith("lower than the least of the rule: ask")
    assert "Design speeds" in page(by_rule)
    assert speed_table(rudder, "metric") is None
    assert "Design speeds" not in page(rudder)


def test_torque_of_a_tube_is_told_where_there_is_one(on_tube, elevator):
    table = tube_table(on_tube, "metric")
    found = tube_torques(on_tube.surface, on_tube.cases)
    assert len(table.rows) == len(found) > 0
    for row, one in zip(table.rows, found, strict=True):
        assert row[0] == one.case
        assert row[1] == show(abs(float(one.own)), "torque", "metric")
        assert row[3] == show(2.0 * abs(float(one.own)), "torque", "metric")
    assert "Torque in the tube from both halves" in page(on_tube)
    assert tube_table(elevator, "metric") is None


def test_turned_pin_loads_are_those_of_the_bracket(demo, bare):
    table = turned_table(demo, "metric")
    pins = {pin.name: pin for pin in demo.pins}
    for row in table.rows:
        pin = pins[row[0]]
        assert row[2].startswith(show(abs(pin.turned_sideways.value), "force", "metric"))
        assert row[3].startswith(show(abs(pin.turned_fore_aft.value), "force", "metric"))
        assert row[2].split()[-1] in {"left", "right", "top", "bottom"}
        assert row[3].split()[-1] == ("aft" if pin.turned_fore_aft.value > 0 else "fwd")
    assert turned_table(bare, "metric") is None  # no swing given


def test_a_soft_hinge_moves_by_what_it_gives():
    """1 mm/kN at every hinge, sideways: the movement there is the load of the pin times that."""
    text = DEMO.replace('gives_sideways = "none"', 'gives_sideways = "1.0 mm/kN (pull test)"')
    soft = assess(read_text(text))
    counts = ~soft.effects.control[: len(soft.case_titles)]
    want = 1e-6 * np.abs(soft.beam.reactions[counts][:, :, 2]).max(axis=0)
    np.testing.assert_allclose(np.abs(soft.deflections.hinge_w[counts]).max(axis=0), want, rtol=1e-9)
    rows = {row[0]: row for row in deflection_table(soft, "metric").rows}
    for h, name in enumerate(soft.span.hinges):
        assert rows[f"{name} hinge"][2].startswith(show(float(want[h]), "length", "metric", 2))


def test_how_far_it_moves(demo, no_sheet):
    table = deflection_table(demo, "metric")
    assert [row[0] for row in table.rows][0::len(table.rows) - 1] == ["tip", "root"]  # fmt: skip
    assert {f"{name} hinge" for name in demo.span.hinges} < {row[0] for row in table.rows}
    counts = ~demo.effects.control[: len(demo.case_titles)]
    assert table.rows[0][-1] == f"{np.rad2deg(np.abs(demo.deflections.twist[counts, -1]).max()):.3f} deg"
    assert all(len(line) <= 80 for line in table.text().split("\n"))
    text = page(demo)
    assert "23.683" in text
    assert 'id="moves"' in text
    assert deflection_table(no_sheet, "metric") is None
    assert 'id="moves"' not in page(no_sheet)


def test_every_value_of_the_file_stands_in_its_part(surface):
    tables = input_tables(surface)
    names = [name for name, _ in PARTS]
    assert [name.partition(":")[0] for name in tables] == [n for n in names if any(t.startswith(n) for t in tables)]
    shown = [row for table in tables.values() for row in table.rows]
    given = given_values(surface.surface)
    assert sorted(row[0] for row in shown) == sorted(value.key for value in given)
    assert not [row for row in tables.get("H how to calculate", ()) or ()]
    by_key = {row[0]: row for row in shown}
    for value in given:
        _, said, how, _ = by_key[value.key]
        assert (said, how) == (value.said, str(value.source.basis))


def test_values_say_with_what_they_are_known(rudder):
    rows = {row[0]: row for table in input_tables(rudder).values() for row in table.rows}
    assert rows["sheet.spar.thickness"][1:] == ("0.80 mm", "measured", "micrometer")
    assert rows["hinge.top.fin_bends"][1:] == ("none", "not said", "")
    text = page(rudder)
    assert re.search(r"<summary>C micrometer: \d+ measured", text)


def test_what_to_measure_better_stands_before_the_sources(rudder, bare):
    text = page(rudder)
    words = ("Measure this better", "fin_bends = none (not said)", "Guessed, or not said", "as given")
    at = [text.index(word, text.index('id="guesses"')) for word in words]
    assert at == sorted(at)
    assert "worth measuring better" in text[:9000]
    assert "Measure this better" not in page(bare)


def test_every_check_has_its_place_on_the_small_outline(demo):
    mini = mini_of(demo.surface)
    left, top, wide, tall = (float(part) for part in mini.box.split())
    for finding in demo.findings:
        x, y = mini.spot(finding)
        assert left < x < left + wide
        assert top < y < top + tall


@pytest.mark.parametrize(
    ("start", "x", "y"),
    [
        ("hinge.top.pin", 0, -1010),
        ("hinge.top.bracket.web", 25, -1010),
        ("horn.", 0, 0),
        ("row.trailing_edge.at-0", 420, 0),
    ],
)
def test_the_dot_lies_where_the_part_is(rudder, start, x, y):
    found = [f for f in rudder.findings if f.place.startswith(start)]
    assert found
    assert {mini_of(rudder.surface).spot(f) for f in found} == {(x, y)}


def test_small_outlines_share_one_drawing(rudder):
    text = page(rudder)
    assert text.count('id="mini"') == 1
    blocks = len(rudder.margins) + len(rudder.not_given) + len(rudder.bounds) + len(rudder.statements)
    assert text.count('<use href="#mini"/>') == blocks


def test_without_an_outline_there_is_no_small_one(rudder):
    from dataclasses import replace

    assert mini_of(replace(rudder.surface, outline=replace(rudder.surface.outline, at=None))) is None


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_tables_come_as_csv_and_as_text(rudder, tmp_path, system):
    written = write_tables(rudder, tmp_path / "letter" / "tables", system)
    assert sorted(written) == sorted((tmp_path / "letter" / "tables").iterdir())
    tables = page_tables(rudder, system)
    for name, table in tables.items():
        rows = list(csv.reader(io.StringIO((written[0].parent / f"{name}.csv").read_text(encoding="utf-8"))))
        assert rows[0] == list(table.heads)
        assert len(rows) == len(table.rows) + 2
        assert {len(row) for row in rows} == {len(table.heads)}
        assert rows[-1][0] == rudder.caution
        text = (written[0].parent / f"{name}.txt").read_text(encoding="utf-8")
        assert text.startswith(rudder.surface.name)
        assert "no approval" in text
        assert text.isascii()
        assert max(len(line) for line in text.split("\n")) <= 64
        held = [cell for row in table.rows for cell, side in zip(row, table.align, strict=True) if side == "r"]
        assert all(plain(cell) in text for cell in held if cell != "-")
    every = (written[0].parent / "every-margin.csv").read_text(encoding="utf-8")
    assert every.count("\n") == len(rudder.margins) + 2


def test_tables_do_not_go_over_a_file(rudder, tmp_path):
    (tmp_path / "tables").write_text("x")
    with pytest.raises(SurfaceError, match="is a file: tables go into a folder"):
        write_tables(rudder, tmp_path / "tables")
