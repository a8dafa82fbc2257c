"""The commands gone, thread and mixed: text, page, plain data, and one line where something is wrong."""

from __future__ import annotations

import json
import re
import shlex
import shutil
from pathlib import Path

import pytest

from surfacecheck.cli import main

DATA = Path(__file__).parents[2] / "data"
MIXED = ["mixed", "data/rudder.toml", "--row", "left_skin_to_spar", "--at", "11", "13"]


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


def test_gone_prints_and_writes_a_page(here, capsys):
    code, out, err = run(capsys, "gone", "data/rudder.toml")
    assert (code, err) == (0, "")
    assert fits(out)
    assert out.startswith("ONE GONE AT A TIME  Rudder, invented two-seater\n")
    assert f"PAGE   {Path('data', 'out', 'rudder_gone.html')}" in out
    assert (here / "data" / "out" / "rudder_gone.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    (hint,) = re.findall(r"^NEXT   surfacecheck (.*)$", out, re.MULTILINE)
    code, out, _ = run(capsys, *shlex.split(hint))
    assert (code, fits(out)) == (0, True)
    assert out.startswith("RIVETS OUT ONE BY ONE  horn, 8 rivets\n")


def test_gone_of_some(here, capsys):
    for words in (["--row", "trailing_edge", "--out", "9"], ["--group", "hinge.middle.bracket", "--out", "3", "4"]):
        code, out, err = run(capsys, "gone", "data/rudder.toml", *words, "--units", "inch")
        assert (code, err) == (0, "")
        assert fits(out)
        assert "lbf" in out
        assert not (here / "data" / "out").exists()
    _, short, _ = run(capsys, "gone", "data/rudder.toml", "--group", "hinge middle, bracket rivet 3")
    assert "middle hinge, bracket, rivet 3 out" in short
    _, rib, _ = run(capsys, "gone", "data/rudder.toml", "--row", "row.left_skin_to_ribs.rib-3.rivet-2", "--out", "5")
    assert "left skin to ribs, rib 3 at 325 mm, rivets 2 and 5 out" in rib


def test_thread(here, capsys):
    code, out, err = run(capsys, "thread", "data/rudder.toml", "--sideways", "5.0 mm", "5.8 mm", "5.0 mm",
                         "--behind", "1.0 mm", "0.5 mm", "1.0 mm", "--gives", "0.5 mm/kN")  # fmt: skip
    assert (code, err) == (0, "")
    assert fits(out)
    assert "0.80 mm" in out
    assert "ahead" in out
    same = run(capsys, "thread", "data/rudder.toml", "--sideways", "0 mm", "0.8 mm left", "0 mm",
               "--behind", "0 mm", "0.5 mm ahead", "0 mm", "--gives", "0.5 mm/kN")  # fmt: skip
    assert same[1] == out
    code, out, _ = run(capsys, "thread", "data/rudder.toml", "--sideways", "0 mm", "1 mm right", "0 mm", "--json")
    data = json.loads(out)
    assert data["command"] == "thread"
    assert data["pins"][1]["off_line"] == pytest.approx([-1e-3, 0.0])


def test_mixed(here, capsys):
    code, out, err = run(capsys, *MIXED, "--other", "large", "--slack", "0.02 mm")
    assert (code, err) == (0, "")
    assert fits(out)
    assert out.startswith("MIXED ROW  left skin to spar: large among small\n")
    assert (here / "data" / "out" / "rudder_mixed.html").exists()
    assert run(capsys, *MIXED, "--no-page")[0] == 0


@pytest.mark.parametrize(
    ("words", "keys"),
    [
        (["gone", "data/rudder.toml"], {"items", "drawn", "left_out"}),
        (["gone", "data/rudder.toml", "--row", "trailing_edge", "--out", "9"], {"neighbours", "gaps", "springs"}),
        (["gone", "data/rudder.toml", "--row", "ribs_to_spar"], {"removals", "rivets", "drawn"}),
        (["gone", "data/rudder.toml", "--group", "horn", "--out", "1"], {"rivets", "held", "lowest", "bound"}),
        (["thread", "data/rudder.toml"], {"pins", "millimetre", "lowest_margin"}),
        (MIXED, {"shares", "limit", "ultimate", "slack"}),
    ],
)
def test_json(here, capsys, words, keys):
    code, out, _ = run(capsys, *words, "--json")
    data = json.loads(out)
    assert code == 0
    assert (data["form"], data["program"], data["command"], data["units"]) == (1, "surfacecheck", words[0], "SI")
    assert keys <= set(data)
    assert "no approval" in data["caution"]
    assert not (here / "data" / "out").exists()


def test_strict(here, capsys):
    assert run(capsys, "gone", "data/rudder.toml", "--no-page", "--strict")[0] == 1
    assert run(capsys, "gone", "data/rudder.toml", "--group", "hinge.top.bracket", "--strict")[0] == 0
    assert run(capsys, "gone", "data/elevator.toml", "--group", "horn", "--out", "2", "--strict")[0] == 1
    assert run(capsys, "thread", "data/rudder.toml", "--strict")[0] == 0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["gone", "data/rudder.toml", "--row", "left_skin_to_spar", "--out", "99"], "there is no rivet 99"),
        (["gone", "data/rudder.toml", "--row", "left_skin_to_sparr"], "Nearest: left_skin_to_spar"),
        (["gone", "data/rudder.toml", "--group", "hinge.midle"], "Nearest: hinge.middle.bracket"),
        (["gone", "data/rudder.toml", "--out", "3"], "say which"),
        (["gone", "data/rudder.toml", "--row", "trailing_edge", "--group", "horn"], "not allowed with"),
        (["gone", "data/rudder.toml", "--row", "trailing_edge", "--out", "x"], "invalid int value"),
        (["gone", "data/rudder.toml", "--row", "ribs_to_spar", "--out", "1", "2"], "lies on 7 ribs, say which"),
        (["thread", "data/rudder.toml", "--sideways", "5 mm", "5 mm"], "2 readings for 3 hinges"),
        (["thread", "data/rudder.toml", "--behind", "5", "5 mm", "5 mm"], "--behind: 5 has no unit"),
        (["thread", "data/rudder.toml", "--gives", "3 mm"], "--gives"),
        ([*MIXED, "--other", "smal"], 'no rivet is called "smal"'),
        ([*MIXED, "--slack", "0,05 mm"], "--slack"),
        (["mixed", "data/rudder.toml", "--row", "trailing_edge"], "required: --at"),
    ],
)
def test_bad_input_is_two_and_one_line(here, capsys, words, says):
    code, out, err = run(capsys, *words)
    assert (code, out) == (2, "")
    assert says in err
    assert err.rstrip("\n").split("\n")[1:] == ["nothing was written"]
    assert not (here / "data" / "out").exists()


@pytest.mark.parametrize(("command", "count"), [("gone", 4), ("thread", 2), ("mixed", 2)])
def test_the_examples_of_the_help_work(here, capsys, command, count):
    main([command, "--help"])
    examples = re.findall(rf"^  surfacecheck ({command} .*)$", capsys.readouterr().out, re.MULTILINE)
    assert len(examples) == count
    for example in examples:
        code, out, err = run(capsys, *shlex.split(example))
        assert (code, err) == (0, "")
        assert fits(out)


def test_out_without_a_row_names_one_of_the_surface(here, capsys):
    assert main(["gone", "data/elevator.toml", "--out", "3"]) == 2
    assert '"--row top_skin_to_spar" or "--group horn"' in capsys.readouterr().err
