"""``check --earlier`` and ``check --tables``."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest

from surfacecheck.cli import main

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture
def here(tmp_path, monkeypatch, capsys):
    """A folder with a rudder that was checked before and changed since."""
    for name in ("rudder.toml", "elevator.toml"):
        shutil.copy(DATA / name, tmp_path)
    monkeypatch.chdir(tmp_path)
    assert main(["check", "rudder.toml"]) == 0
    file = tmp_path / "rudder.toml"
    file.write_text(file.read_text(encoding="utf-8").replace('"1.20 kPa', '"1.30 kPa'), encoding="utf-8")
    capsys.readouterr()
    return tmp_path


def test_the_page_that_is_there_is_read_before_it_is_replaced(here, capsys):
    old = (here / "out" / "rudder.html").read_bytes()
    assert main(["check", "rudder.toml", "--earlier", "out/rudder.html"]) == 0
    out = capsys.readouterr().out
    assert "SINCE  the earlier page" in out
    assert "1.20 kPa" in out
    assert out.index("SINCE") < out.index("PAGE")
    new = (here / "out" / "rudder.html").read_bytes()
    assert new != old
    assert b'<h2 id="since">' in new
    assert len(new) < 1_000_000


def test_it_is_in_the_plain_data_and_needs_no_page(here, capsys):
    assert main(["check", "rudder.toml", "--json", "--earlier", "out/rudder.html"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert [one["name"] for one in data["since"]["inputs"]] == ["load.pressure"]
    assert main(["check", "rudder.toml", "--json"]) == 0
    assert "since" not in json.loads(capsys.readouterr().out)


@pytest.mark.parametrize(
    ("file", "earlier", "says"),
    [
        ("elevator.toml", "out/rudder.html", 'rudder.html: is the page of "Rudder'),
        ("rudder.toml", "rudder.toml", "rudder.toml: holds no numbers of a page"),
        ("rudder.toml", "out/none.html", "none.html: is no file"),
    ],
)
def test_another_page_is_two_and_one_clear_line(here, capsys, file, earlier, says):
    before = {path.name for path in (here / "out").iterdir()}
    assert main(["check", file, "--earlier", earlier]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(says)
    assert err.split("\n")[1:] == ["nothing was written", ""]
    assert {path.name for path in (here / "out").iterdir()} == before


def test_tables_are_written_and_told(here, capsys):
    assert main(["check", "rudder.toml", "--no-page", "--tables", "letter", "--units", "inch"]) == 0
    out = capsys.readouterr().out
    files = list((here / "letter").iterdir())
    assert f"TABLES letter  ({len(files)} files" in out
    assert "lbf" in (here / "letter" / "pins.csv").read_text(encoding="utf-8")
    assert main(["check", "rudder.toml", "--no-page", "--tables", "letter", "--earlier", "out/rudder.html"]) == 0
    assert (here / "letter" / "since-inputs.csv").exists()


@pytest.mark.parametrize(
    "words",
    [
        ["check", "rudder.toml", "--earlier", "out/rudder.html"],
        ["show", "rudder.toml", "1"],
        ["compare", "rudder.toml", "pitch.toml"],
        ["row", "--pitch", "25", "--diameter", "3.2", "--sheet", "0.5", "--load-per-mm", "4.8"],
    ],
    ids=lambda words: words[0],
)
def test_every_key_of_the_plain_data_is_written_down(here, capsys, words):
    """The table in DEVELOPERS.md names the keys of each command, all of them and no others."""
    shutil.copy(DATA / "rudder_pitch_30.toml", here / "pitch.toml")
    assert main([*words, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    text = (DATA.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    form, said = re.search(rf"^\| `{words[0]}` \| (\d+) \| (.*) \|$", text, re.MULTILINE).groups()
    named = set(re.findall(r"`(\w+)`", re.sub(r"`lines` \([^)]*\)", "`lines`", said)))
    named -= {"margins"} if words[0] == "show" else {"check"}
    assert data["form"] == int(form)
    assert named == set(data) - {"form", "program", "version", "command", "units"}


def test_a_folder_for_tables_that_is_a_file_is_two(here, capsys):
    assert main(["check", "rudder.toml", "--no-page", "--tables", "rudder.toml"]) == 2
    assert "is a file: tables go into a folder" in capsys.readouterr().err
