"""``happened``: answers in, a change file out; and what it names can be typed as it stands."""

from __future__ import annotations

import io
import json
import re
import shlex
import shutil
from pathlib import Path

import pytest

from surfacecheck.cli import main

DATA = Path(__file__).parents[2] / "data"
ANSWERS = ("1", "hinge middle bracket rivet 3", "4.45 mm (drill shank, 3 tries)", "4.60 mm (caliper)", "up",
           "all of them", "2", "8.0 mm (caliper)", "nothing", "both sides", "", "no", "")  # fmt: skip


@pytest.fixture
def here(tmp_path, monkeypatch):
    """A folder with the demo rudder, as the present one."""
    shutil.copy(DATA / "rudder.toml", tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SURFACECHECK_CALLED_AS", raising=False)
    return tmp_path


def run(capsys, *words):
    """Run a command; give its code, output and complaints."""
    code = main(list(words))
    out, err = capsys.readouterr()
    return code, out, err


def answer(monkeypatch, *lines):
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))


def one_line(text):
    return " ".join(text.split())


def test_from_the_first_question_to_the_query_sheet(here, capsys, monkeypatch):
    """Each command names the next one; it can be typed as it stands."""
    answer(monkeypatch, *ANSWERS)
    code, out, err = run(capsys, "happened", "rudder.toml")
    assert (code, err) == (0, "")
    assert out.isascii()
    assert max(map(len, out.split("\n"))) <= 80
    assert "FILE   rudder_happened.toml" in out
    for wanted in ("deviation", "query"):
        (hint,) = re.findall(r"^NEXT   surfacecheck (.*)$", out, re.MULTILINE)
        assert hint == f"{wanted} rudder.toml rudder_happened.toml"
        code, out, err = run(capsys, *shlex.split(hint))
        assert (code, err) == (0, "")
    assert re.findall(r"^(PAGE|TEXT|LOG) ", out, re.MULTILINE) == ["PAGE", "TEXT", "LOG"]
    assert "largest 4.60 mm (caliper, once, +-0.05 mm)" in one_line(out)


def test_nothing_is_ever_overwritten(here, capsys, monkeypatch):
    written = []
    for name in ("rudder_happened.toml", "rudder_happened_2.toml", "rudder_happened_3.toml"):
        answer(monkeypatch, *ANSWERS)
        assert f"FILE   {name}" in run(capsys, "happened", "rudder.toml")[1]
        written.append((here / name).read_text())
    assert len(set(written)) == 1


@pytest.mark.parametrize("end", [(), ("stop",), ("4.45 mm", "q")])
def test_an_interview_that_stops_writes_nothing(here, capsys, monkeypatch, end):
    before = set(here.iterdir())
    answer(monkeypatch, *ANSWERS[:2], *end)
    code, _, err = run(capsys, "happened", "rudder.toml")
    assert code == 2
    assert "stopped before the last question" in err
    assert set(here.iterdir()) == before


def test_a_bad_answer_is_told_and_asked_again_and_back_goes_back(here, capsys, monkeypatch):
    answer(monkeypatch, "hole to large", "1", "hinge upper", *ANSWERS[1:3], "4.6", "not measured", "back", *ANSWERS[3:])
    code, out, _ = run(capsys, "happened", "rudder.toml")
    assert code == 0
    assert out.count("What happened?") == out.count("Where?") == 2
    assert out.count("Largest size measured?") == 3
    assert len(re.findall(r"^> ! ", out, re.MULTILINE)) == 3
    assert 'largest = "4.60 mm (caliper)"' in out


def test_without_measurements_it_says_what_to_measure(here, capsys, monkeypatch):
    answer(monkeypatch, "two holes touching", "hinge middle, bracket rivet 3", *[""] * 9, "no", "")
    code, out, _ = run(capsys, "happened", "rudder.toml")
    assert code == 0
    assert 'TO BE MEASURED "two holes touching" needs spacing: write spacing' in one_line(out)
    code, _, err = run(capsys, "deviation", "rudder.toml", "rudder_happened.toml")
    assert code == 2
    assert "rudder_happened.toml, line 4" in err
    assert "needs spacing" in err


def test_an_interview_for_other_programs(here, capsys, monkeypatch):
    answer(monkeypatch, *ANSWERS)
    _, out, err = run(capsys, "happened", "rudder.toml", "--json")
    data = json.loads(out)
    assert data["file"] == "rudder_happened.toml"
    assert data["events"][0]["largest"] == "4.60 mm (caliper)"
    assert (here / data["file"]).read_text() == data["text"]
    assert data["wanted"] == []
    assert "What happened?" in err


def test_a_change_file_is_no_start_for_an_interview(here, capsys):
    shutil.copy(DATA / "rudder_oversize_hole.toml", here)
    code, _, err = run(capsys, "happened", "rudder_oversize_hole.toml")
    assert code == 2
    assert "name the surface file, rudder.toml" in err
