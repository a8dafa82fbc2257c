"""``weigh`` and ``aftermath`` on the command line: text, sheets, plain data, and one line for what is wrong."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest

from surfacecheck.cli import main
from surfacecheck.reading import starting_file

DATA = Path(__file__).parents[2] / "data"
STORM = ("--wind", "65 knots", "--lock", "let go", "--swing", "30 deg", "--past-stop", "3 deg")


@pytest.fixture
def here(tmp_path, monkeypatch):
    for file in DATA.glob("*.toml"):
        shutil.copy(file, tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SURFACECHECK_CALLED_AS", raising=False)
    return tmp_path


def run(capsys, *words):
    code = main(list(words))
    out, err = capsys.readouterr()
    return code, out, err


def fits(text):
    return text.isascii() and max(map(len, text.split("\n"))) <= 80


def test_weigh_prints_and_writes_a_sheet(here, capsys):
    code, out, err = run(capsys, "weigh", "rudder.toml", "rudder_weighed.toml", "rudder_painted.toml")
    assert (code, err) == (0, "")
    assert fits(out)
    assert "BEFORE AND AFTER, paid twice" in out
    page = (here / "out" / "rudder_weighing.html").read_text(encoding="utf-8")
    for wanted in ("Weighing sheet of Rudder", "F rising", "F sinking", "paint_by_area", "no approval", "2.36 kg"):
        assert wanted in page
    assert [one.name for one in (here / "out").iterdir()] == ["rudder_weighing.html"]


@pytest.mark.parametrize("words", [("rudder",), ("elevator", "left"), ("aileron", "right")])
def test_a_new_file_has_a_sheet_to_weigh_by(here, capsys, words):
    (here / "my.toml").write_text(starting_file(*words), encoding="utf-8")
    code, out, err = run(capsys, "weigh", "my.toml")
    assert (code, err) == (0, "")
    assert fits(out)
    assert "Mass not given" in out
    page = (here / "out" / "my_weighing.html").read_text(encoding="utf-8")
    assert "Nothing read yet" in page
    assert ("This half alone" in page) == (words != ("rudder",))


def test_weigh_as_plain_data_and_without_a_page(here, capsys):
    data = json.loads(run(capsys, "weigh", "rudder_weighed.toml", "--json")[1])
    assert (data["form"], data["command"], data["units"]) == (1, "weigh", "SI")
    assert data["states"][0]["readings"]["behind"] == pytest.approx(0.36)
    run(capsys, "weigh", "rudder.toml", "--no-page", "--units", "inch")
    assert not (here / "out").exists()


def test_strict_looks_at_the_rules_of_the_bench(here, capsys):
    text = (here / "rudder_weighed.toml").read_text(encoding="utf-8")
    (here / "stiff.toml").write_text(text.replace('sinking = ["742 g', 'sinking = ["600 g', 1), encoding="utf-8")
    assert run(capsys, "weigh", "rudder_weighed.toml", "--strict", "--no-page")[0] == 0
    code, out, _ = run(capsys, "weigh", "stiff.toml", "--strict", "--no-page")
    assert code == 1
    assert "does not meet" in out
    assert run(capsys, "weigh", "stiff.toml", "--no-page")[0] == 0


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('rising = ["766 g (kitchen scale)", "768', 'rising = ["666 g (kitchen scale)", "668', "Are the two swapped"),
        ('edge = "20 deg high', 'edge = "90 deg high', "too steep"),
        ('scale_step = "2 g', 'paint = "3 kg (guess)"\nscale_step = "2 g', "paint on a surface of 2.12 kg"),
    ],
)
def test_bad_readings_are_one_line(here, capsys, old, new, message):
    text = (here / "rudder_weighed.toml").read_text(encoding="utf-8")
    assert old in text
    (here / "bad.toml").write_text(text.replace(old, new, 1), encoding="utf-8")
    code, out, err = run(capsys, "weigh", "bad.toml")
    assert (code, out) == (2, "")
    first, last = err.strip().split("\n")
    assert message in first
    assert re.match(r"bad\.toml, line \d+, weighed\.", first)
    assert last == "nothing was written"


def test_paint_heavier_than_its_parts_is_one_line(here, capsys):
    text = (here / "rudder.toml").read_text(encoding="utf-8")
    (here / "fat.toml").write_text(text.replace('paint = "none"', 'paint = "2.5 kg"', 1), encoding="utf-8")
    for command in ("weigh", "check"):
        code, out, err = run(capsys, command, "fat.toml", "--no-page")
        assert (code, out) == (2, "")
        assert "weighed.paint: 2.5 kg of paint on a surface of 2 kg" in err


def test_aftermath_prints_and_writes_a_list(here, capsys):
    code, out, err = run(capsys, "aftermath", "rudder.toml", *STORM)
    assert (code, err) == (0, "")
    assert fits(out)
    assert "1 horn" in out
    page = (here / "out" / "rudder_aftermath.html").read_text(encoding="utf-8")
    for wanted in ("never an all-clear", "Do not fly on a calculation", "bottom hinge, pin", "no approval", "found"):
        assert wanted in page
    data = json.loads(run(capsys, "aftermath", "elevator.toml", *STORM, "--json")[1])
    assert (data["form"], data["command"]) == (1, "aftermath")
    assert data["parts"][0]["part"] == "horn"
    run(capsys, "aftermath", "elevator.toml", "--past-stop", "2 deg", "--units", "metric", "--no-page")
    assert [one.name for one in (here / "out").iterdir()] == ["rudder_aftermath.html"]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ((), "say what happened"),
        (("--wind", "75 knots"), "--lock: what the lock did: not said"),
        (("--wind", "75", "--lock", "held"), "--wind: 75 has no unit"),
        (("--wind", "750 knots", "--lock", "held"), "--wind: 386 m/s"),
        (("--past-stop", "0 deg"), "--past-stop: 0 deg"),
        (("--wind", "75 knots", "--lock", "gone"), "invalid choice: 'gone'"),
    ],
)
def test_an_event_that_cannot_be_is_one_line(here, capsys, words, message):
    code, out, err = run(capsys, "aftermath", "rudder.toml", *words)
    assert (code, out) == (2, "")
    assert message in err
    assert err.strip().split("\n")[1:] == ["nothing was written"]
    assert not (here / "out").exists()
