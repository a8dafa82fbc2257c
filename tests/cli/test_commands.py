"""The command line, run in this process: what is printed, and the exit code."""

from __future__ import annotations

import io
import json
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from surfacecheck.assessment import assess
from surfacecheck.cli import main
from surfacecheck.cli._parser import called_as
from surfacecheck.reading import read

DATA = Path(__file__).parents[2] / "data"
ROW = ["row", "--pitch", "25", "30", "--diameter", "3.2", "--sheet", "0.5", "--load-per-mm", "4.8"]


@pytest.fixture
def here(tmp_path, monkeypatch):
    """A folder with the demo files, as the present one."""
    for file in DATA.glob("*.toml"):
        shutil.copy(file, tmp_path)
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


def test_check_prints_the_summary(here, capsys):
    code, out, err = run(capsys, "check", "rudder.toml", "--no-page")
    assert (code, err) == (0, "")
    assert fits(out)
    assert "LOWEST" in out
    assert "NEXT   surfacecheck show rudder.toml 1" in out
    assert not (here / "out").exists()


def test_check_takes_a_change(here, capsys):
    code, out, _ = run(capsys, "check", "elevator_open_edge.toml", "--no-page")
    assert code == 0
    assert "Trailing edge open" in out
    assert "lbf" in out


def test_units_are_those_of_the_file_or_as_asked(here, capsys):
    assert " lbf" in run(capsys, "check", "elevator.toml", "--no-page")[1]
    assert " lbf" not in run(capsys, "check", "elevator.toml", "--no-page", "--units", "metric")[1]
    assert " lbf" in run(capsys, "--units", "inch", "check", "rudder.toml", "--no-page")[1]


def test_every_printed_hint_can_be_typed(here, capsys, monkeypatch):
    monkeypatch.setenv("SURFACECHECK_CALLED_AS", "python3 start.py")
    for words in (["check", "rudder.toml", "--no-page"], ["compare", "rudder.toml", "rudder_pitch_30.toml"],
                  ["new", "mine.toml"]):  # fmt: skip
        _, out, _ = run(capsys, *words)
        (hint,) = re.findall(r"NEXT   (.*?)(?:  .*)?$", out, re.MULTILINE)
        assert hint.startswith("python3 start.py ")
        typed = shlex.split(hint)[2:]
        if typed[0] == "show":
            assert run(capsys, *typed)[0] == 0
        else:
            assert typed == ["check", "mine.toml"]


@pytest.mark.parametrize("named", [None, "python3 start.py"])
def test_a_hint_begins_as_the_program_was_started(tmp_path, named):
    settings = {"PYTHONPATH": str(DATA.parent), "PATH": "/usr/bin:/bin"}
    settings |= {"SURFACECHECK_CALLED_AS": named} if named else {}
    command = [sys.executable, "-m", "surfacecheck", "new", "my.toml"]
    found = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, env=settings, check=True)
    (hint,) = re.findall(r"NEXT   (.*)", found.stdout)
    assert hint == f"{named or Path(sys.executable).name + ' -m surfacecheck'} check my.toml"


def examples():
    """Every example that any help shows."""
    found = []
    names = [
        "check",
        "new",
        "show",
        "compare",
        "row",
        "follow",
        "map",
        "card",
        "takeoff",
        "scatter",
        "deviation",
        "query",
    ]
    for words in ([], *([name] for name in names)):
        out = sys.stdout = io.StringIO()
        try:
            main([*words, "--help"])
        finally:
            sys.stdout = sys.__stdout__
        found += re.findall(rf"^  {re.escape(called_as())} (\S.*)$", out.getvalue(), re.MULTILINE)
    assert len(found) > 10
    return list(dict.fromkeys(found))


@pytest.mark.parametrize("example", examples())
def test_every_example_of_the_help_works(example, tmp_path, monkeypatch, capsys):
    shutil.copytree(DATA, tmp_path / "data")
    shutil.copy(DATA / "rudder.toml", tmp_path / "my.toml") if not example.startswith("new") else None
    monkeypatch.chdir(tmp_path)
    words = shlex.split(example)
    words += ["--no-page"] if words[0] == "check" else []
    code, out, err = run(capsys, *words)
    assert (code, err) == (0, "")
    assert out


def test_show_opens_numbers_names_and_tables(here, capsys):
    lowest = assess(read("rudder.toml")).lowest_by_part[0]
    for words in (["1"], [lowest.name], [lowest.part]):
        code, out, _ = run(capsys, "show", "rudder.toml", *words)
        assert (code, lowest.name in out) == (0, True)
        assert fits(out)
    for name, says in {"pins": "fore-aft", "balance": "left skin", "rules": "not covered", "gaps": "hides",
                       "row.left_skin_to_spar": "rivets at"}.items():  # fmt: skip
        code, out, _ = run(capsys, "show", "rudder.toml", name)
        assert (code, says in out) == (0, True), name
        assert fits(out)


def test_compare_says_before_and_after(here, capsys):
    code, out, _ = run(capsys, "compare", "rudder.toml", "rudder_pitch_30.toml", "rudder_oversize_hole.toml")
    assert code == 0
    assert fits(out)
    assert "before" in out
    assert re.search(r"rivets in rows +\d+ +\d+ +\d+", out)


def test_row_needs_no_file(capsys):
    code, out, _ = run(capsys, *ROW, "--length", "1060")
    assert code == 0
    assert fits(out)
    assert re.search(r"rivets, both ends in +43 +36", out)
    assert "x 1.20" in out
    assert "x 0.69" in out


def test_a_pitch_given_twice_gives_both(capsys):
    words = ["row", "--pitch", "25", "--pitch", "30", *ROW[4:]]
    assert run(capsys, *words) == run(capsys, *ROW)


def test_a_number_is_found_by_the_words_of_map_and_change_file(capsys):
    said = [run(capsys, "show", "data/rudder.toml", name) for name in (
        "hinge.bottom.bracket.rivet-3", "bottom hinge, bracket rivet 3", "hinge bottom, bracket rivet 3")]  # fmt: skip
    assert said[0][0] == 0
    assert said[0] == said[1] == said[2]


def test_a_name_that_is_not_there_brings_the_nearest(capsys):
    code, _, told = run(capsys, "show", "data/rudder.toml", "hinge.botom.bracket.rivet-3")
    assert code == 2
    assert "names are such as hinge.bottom.bracket.rivet-" in told


def test_row_in_inches_is_the_same_row(capsys):
    metric = json.loads(run(capsys, *ROW, "--json")[1])
    words = ["row", "--pitch", "25 mm", "30mm", "--diameter", "3.2 mm", "--sheet", "0.5 mm", "--units", "inch"]
    load = 4.8 * 25.4 / 4.4482216152605
    inch = json.loads(run(capsys, *words, "--load-per-in", repr(load), "--json")[1])
    for a, b in zip(metric["options"], inch["options"], strict=True):
        assert b["rivet_load"] == pytest.approx(a["rivet_load"], rel=1e-12)
    bare = run(capsys, "row", "--units", "inch", "--pitch", "1.25", "--diameter", "1/8", "--sheet", "0.02",
               "--load-per-in", "27", "--json")[1]  # fmt: skip
    assert json.loads(bare)["options"][0]["pitch"] == pytest.approx(1.25 * 0.0254, rel=1e-12)


def test_new_writes_and_never_overwrites(here, capsys):
    code, out, _ = run(
        capsys, "new", "mine.toml", "--kind", "elevator", "--half", "left", "--units", "inch", "--hinges", "2"
    )
    assert code == 0
    assert (here / "mine.toml").exists()
    assert "mine.toml" in out
    before = (here / "mine.toml").read_bytes()
    code, out, err = run(capsys, "new", "mine.toml")
    assert (code, out) == (2, "")
    assert "is there already" in err
    assert (here / "mine.toml").read_bytes() == before


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["chek", "rudder.toml"], "Nearest: check"),
        (["rudder.toml"], "surfacecheck check rudder.toml"),
        ([], "required: command"),
        (["check"], "required: file"),
        (["check", "none.toml"], "none.toml: cannot be read"),
        (["check", "rudder.toml", "--unit", "inch"], "unrecognized"),
        (["--units", "si", "check", "rudder.toml"], "metric"),
        (["show", "rudder.toml", "no-such-number"], "no number is called"),
        (["show", "rudder.toml", "9999"], "line 9999 is not in the list"),
        (["show", "rudder.toml", "--", "-1"], "line -1 is not in the list"),
        (["show", "rudder.toml", ""], 'no number is called ""'),
        (["show", "rudder.toml", "3."], 'no number is called "3."'),
        (["compare", "rudder.toml", "elevator_open_edge.toml"], "this change is of elevator.toml"),
        ([*ROW[:2], "0,5", *ROW[4:]], '--pitch: "0,5" has a comma'),
        ([*ROW, "--alloy", "2024T3"], 'Nearest: "2024-T3"'),
        ([*ROW, "--load-per-in", "3"], "not allowed with"),
        (["new", "x.toml", "--kind", "rudr"], "rudr"),
        (["new", "x.toml", "--hinges", "many"], "invalid int"),
        (["new", "."], '"." is a folder: name the file to write, such as my.toml'),
        (["new", ""], "is a folder: name the file to write"),
        (["new", ".."], '".." is a folder: name the file to write'),
    ],
)
def test_bad_input_is_two_and_says_what(here, capsys, words, says):
    code, out, err = run(capsys, *words)
    assert (code, out) == (2, "")
    assert says in err
    lines = err.rstrip("\n").split("\n")
    assert lines[-1] == "nothing was written"
    assert len(lines) <= 7
    assert "Traceback" not in err


def test_up_to_five_faults_with_file_line_and_key(here, capsys):
    text = (here / "rudder.toml").read_text(encoding="utf-8").replace('"0.50 mm', '"0,50 mm').replace("kPa", "kPo")
    text = text.replace("web_behind", "web_behnd").replace("[hinge.top]", "[hinge.top]\nupp = 3")
    (here / "bad.toml").write_text(text, encoding="utf-8")
    code, _, err = run(capsys, "check", "bad.toml")
    *faults, last = err.rstrip("\n").split("\n")
    assert (code, last) == (2, "nothing was written")
    assert 2 <= len(faults) <= 6
    assert all(re.match(r"bad\.toml, line \d+, [\w.\[\]]+: .+", fault) for fault in faults[:5])
    assert not (here / "out").exists()


def test_strict_is_one_only_where_something_is_wrong(here, capsys):
    found = assess(read("rudder.toml"))
    short = any(f.margin < 0.0 for f in found.margins)
    short |= any(rule.counts and rule.outcome == "does not meet" for rule in found.rules)
    assert run(capsys, "check", "rudder.toml", "--no-page")[0] == 0
    assert run(capsys, "check", "rudder.toml", "--no-page", "--strict")[0] == int(short)
    weak = [*ROW, "--shear", "100"]
    assert run(capsys, *weak)[0] == 0
    assert run(capsys, *weak, "--strict")[0] == 1
    assert run(capsys, *ROW, "--shear", "900", "--strict")[0] == 0
    assert run(capsys, *ROW, "--strict")[0] == 0  # not given never changes the code


FINDING = {
    "type": "object",
    "required": [
        "name",
        "part",
        "gives",
        "margin",
        "outcome",
        "case",
        "required",
        "formula",
        "letters",
        "factors",
        "source",
    ],
    "properties": {"name": {"type": "string"}, "margin": {"type": ["number", "null"]}, "letters": {"type": "object"}},
}
CHECK = {
    "type": "object",
    "required": ["form", "program", "version", "command", "units", "surface", "pins", "margins", "not_given", "rules",
                 "balance", "equilibrium", "gaps", "counts", "not_looked_at", "caution"],
    "properties": {
        "form": {"const": 1},
        "program": {"const": "surfacecheck"},
        "units": {"const": "SI"},
        "pins": {"type": "array", "items": {"required": ["name", "up", "sideways", "fore_aft", "along"]}},
        "margins": {"type": "array", "items": FINDING},
        "not_given": {"type": "array", "items": FINDING},
        "rules": {"type": "array", "items": {"required": ["name", "place", "outcome", "found", "asked", "field"]}},
    },
}  # fmt: skip


def test_json_has_the_digits_of_python(here, capsys):
    code, out, _ = run(capsys, "check", "rudder.toml", "--json")
    data = json.loads(out)
    jsonschema.validate(data, CHECK)
    found = assess(read("rudder.toml"))
    assert code == 0
    assert [one["margin"] for one in data["margins"]] == [f.margin for f in found.margins]
    assert data["pins"][0]["sideways"]["value"] == found.pins[0].sideways.value
    assert not (here / "out").exists()


def test_json_of_the_other_commands(here, capsys):
    shown = json.loads(run(capsys, "show", "rudder.toml", "1", "--json")[1])
    jsonschema.validate(shown, FINDING)
    compared = json.loads(run(capsys, "compare", "rudder.toml", "rudder_pitch_30.toml", "--json")[1])
    assert {"form", "command", "titles", "lines"} <= compared.keys()
    row = json.loads(run(capsys, *ROW, "--json")[1])
    assert [one["rivet_load"] for one in row["options"]] == pytest.approx([120.0, 144.0], rel=1e-12)
    for data in (shown, compared, row):
        assert (data["form"], data["program"]) == (1, "surfacecheck")
