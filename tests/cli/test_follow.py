"""The follow command: text, page, plain data, and one line where something is wrong."""

from __future__ import annotations

import json
import re
import shlex
import shutil
from pathlib import Path

import pytest

from surfacecheck.cli import main
from surfacecheck.reading import read
from surfacecheck.studies import follow, following_data

DATA = Path(__file__).parents[2] / "data"
FROM = ["--from", "trailing edge, between rib 2 and 3", "--load", "100 N"]


@pytest.fixture
def here(tmp_path, monkeypatch):
    """A folder with the demo files in ``data``, as the present one."""
    shutil.copytree(DATA, tmp_path / "data", ignore=shutil.ignore_patterns("out"))
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SURFACECHECK_CALLED_AS", raising=False)
    return tmp_path


def run(capsys, *words):
    """Run a command; give its code, output and complaints."""
    code = main(list(words))
    out, err = capsys.readouterr()
    return code, out, err


def fits(text):
    return text.isascii() and max(map(len, text.split("\n"))) <= 80


def test_it_prints_the_path_and_writes_a_page(here, capsys):
    code, out, err = run(capsys, "follow", "data/rudder.toml", *FROM)
    assert (code, err) == (0, "")
    assert fits(out)
    assert out.startswith("FOLLOW  100 N to the left: trailing edge, between rib 2 and 3\n")
    assert "hinge.bottom.pin" in out
    assert f"PAGE   {Path('data', 'out', 'rudder_follow.html')}" in out
    page = (here / "data" / "out" / "rudder_follow.html").read_text(encoding="utf-8")
    assert page.startswith("<!DOCTYPE html>")
    assert [p.name for p in (here / "data" / "out").iterdir()] == ["rudder_follow.html"]


def test_the_hint_can_be_typed(here, capsys, monkeypatch):
    monkeypatch.setenv("SURFACECHECK_CALLED_AS", "python3 start.py")
    _, out, _ = run(capsys, "follow", "data/rudder.toml", *FROM, "--no-page")
    assert not (here / "data" / "out").exists()
    (hint,) = re.findall(r"^NEXT   (.*)$", out, re.MULTILINE)
    assert hint.startswith("python3 start.py ")
    assert run(capsys, *shlex.split(hint)[2:])[0] == 0


def test_names_it_prints_can_be_shown(here, capsys):
    _, out, _ = run(capsys, "follow", "data/rudder.toml", *FROM, "--no-page")
    names = set(re.findall(r"^ *\d+  ((?:row|hinge|horn|panel|spar)\b[\w.]*)", out, re.MULTILINE))
    assert {"row.left_skin_to_ribs", "hinge.top.pin", "horn.rivets", "spar.web", "panel.left_skin"} <= names
    for name in sorted(names):
        assert run(capsys, "show", "data/rudder.toml", name)[0] == 0, name


def test_units_and_parts(here, capsys):
    _, out, _ = run(capsys, "follow", "data/rudder.toml", *FROM, "--no-page", "--units", "inch", "--only", "torque")
    assert "22.5 lbf" in out
    assert "torque apart" in out
    assert "lbf in" in out
    assert "Sums outboard of a cut: sideways" not in out
    assert fits(out)


def test_json_has_the_digits_of_python(here, capsys):
    code, out, _ = run(capsys, "follow", "data/elevator.toml", "--from", "spar, at 20 in", "--load", "22 lbf",
                       "--direction", "bottom", "--json")  # fmt: skip
    data = json.loads(out)
    assert code == 0
    assert (data["form"], data["program"], data["command"]) == (1, "surfacecheck", "follow")
    one = follow(read("data/elevator.toml"), "spar, at 20 in", "22 lbf", "bottom")
    assert {key: data[key] for key in following_data(one)} == json.loads(json.dumps(following_data(one)))
    assert not (here / "data" / "out").exists()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--from", "wing tip", "--load", "100 N"], 'place: no place is called "wing tip". Nearest: '),
        (["--from", "trailing edge, rib 12", "--load", "100 N"], "there is no rib 12"),
        (["--from", "horn", "--load", "100"], 'load: 100 has no unit. Write "100 N" or "22 lbf"'),
        (["--from", "horn", "--load", "10 kg"], "is a mass; a force is asked"),
        (["--from", "horn", "--load", "1 N", "--direction", "diagonal"], 'direction: "diagonal" is no direction'),
        (["--from", "horn"], "required: --load"),
        (["--load", "100 N"], "required: --from"),
        (["--from", "horn", "--load", "1 N", "--only", "lift"], "invalid choice"),
    ],
)
def test_bad_input_is_two_and_one_line(here, capsys, words, says):
    code, out, err = run(capsys, "follow", "data/rudder.toml", *words)
    assert (code, out) == (2, "")
    assert says in err
    assert err.rstrip("\n").split("\n")[1:] == ["nothing was written"]
    assert not (here / "data" / "out").exists()


def test_the_examples_of_the_help_work(here, capsys):
    main(["follow", "--help"])
    examples = re.findall(r"^  surfacecheck (follow .*)$", capsys.readouterr().out, re.MULTILINE)
    assert len(examples) == 2
    for example in examples:
        code, out, err = run(capsys, *shlex.split(example))
        assert (code, err) == (0, "")
        assert "It ends at" in out
