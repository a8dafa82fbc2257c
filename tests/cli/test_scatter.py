"""The scatter command: text, page, plain data, every sample as a row, and one line where something is wrong."""

from __future__ import annotations

import json
import re
import shlex
import shutil
from pathlib import Path

import pytest

from surfacecheck.cli import main
from surfacecheck.reading import read
from surfacecheck.studies import CHUNK, read_sweep, scatter, scatter_data

DATA = Path(__file__).parents[2] / "data"
FEW = ["--samples", "64", "--tolerance", "*=none", "--tolerance", "sheet.ribs.thickness=0.05 mm"]


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


def test_it_prints_the_margins_and_writes_a_page(here, capsys):
    code, out, err = run(capsys, "scatter", "data/rudder.toml", *FEW)
    assert (code, err) == (0, "")
    assert out.isascii()
    assert max(map(len, out.split("\n"))) <= 80
    assert out.startswith("SCATTER  Rudder, invented two-seater")
    assert "no chance of failure" in " ".join(out.split())
    assert f"PAGE   {Path('data', 'out', 'rudder_scatter.html')}" in out
    assert [p.name for p in (here / "data" / "out").iterdir()] == ["rudder_scatter.html"]


def test_the_hint_can_be_typed(here, capsys, monkeypatch):
    monkeypatch.setenv("SURFACECHECK_CALLED_AS", "python3 start.py")
    _, out, _ = run(capsys, "scatter", "data/rudder.toml", *FEW, "--no-page")
    assert not (here / "data" / "out").exists()
    (hint,) = re.findall(r"^NEXT   (.*)$", out, re.MULTILINE)
    assert run(capsys, *shlex.split(hint)[2:])[0] == 0


def test_plain_data_is_that_of_the_study_whatever_the_number_of_processes(here, capsys):
    code, out, _ = run(capsys, "scatter", "data/rudder.toml", *FEW, "--seed", "7", "--workers", "2", "--json")
    expected = scatter(read("data/rudder.toml"), {"*": "none", "sheet.ribs.thickness": "0.05 mm"}, samples=64, seed=7)
    data = json.loads(out)
    assert code == 0
    assert data == json.loads(json.dumps({**data, **scatter_data(expected)}))
    assert (data["command"], data["seed"]) == ("scatter", 7)


def test_a_file_of_tolerances_names_its_surface_and_options_win(here, capsys):
    words = ["data/rudder_tolerances.toml", "--samples", "64", "--json", "--tolerance", "sheet.spar.thickness=0.05 mm"]
    code, out, _ = run(capsys, "scatter", *words)
    within = {one["key"]: one["within"] for one in json.loads(out)["varies"]}
    assert code == 0
    assert within["sheet.spar.thickness"] == "0.05 mm"
    assert within["sheet.left_skin.thickness"] == "0.02 mm"
    assert within["rivet.large.shear"] == "1180 N to 1390 N"


def test_every_sample_can_be_had_as_a_row(here, capsys):
    code, out, _ = run(capsys, "scatter", "data/rudder.toml", *FEW, "--table", "rows.csv", "--no-page")
    rows = read_sweep("rows.csv")
    assert code == 0
    assert "TABLE  rows.csv" in out
    assert len(rows["lowest"]) == 64
    assert rows["sheet.ribs.thickness"].min() >= 0.45e-3


def test_units_are_those_of_the_file_or_as_asked(here, capsys):
    words = ["scatter", "data/elevator.toml", "--samples", "64", "--no-page", "--tolerance", "*=none",
             "--tolerance", "sheet.ribs.thickness=0.001 in"]  # fmt: skip
    assert " in" in run(capsys, *words)[1]
    assert run(capsys, *words, "--units", "metric")[0] == 0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--tolerance", "sheet.spar.thicknes=1 mm"], "Nearest: sheet.spar.thickness"),
        (["--tolerance", "sheet.spar.thickness"], "is no tolerance of a key"),
        (["--tolerance", "sheet.spar.thickness=wide"], 'write "0.02 mm"'),
        (["--samples", "1000000000"], "1,000,000,000 variants"),
        (["--samples", "many"], "invalid int value"),
        (["--seed", "-3"], "seed -3 is below zero"),
        (["--workers", "0"], "0 is no number of processes"),
        (["--table", "rows.xls", *FEW], "must end with .csv or .parquet"),
    ],
)
def test_what_is_asked_wrongly_is_one_line_and_nothing_is_written(here, capsys, words, says):
    code, out, err = run(capsys, "scatter", "data/rudder.toml", *words)
    assert (code, out) == (2, "")
    assert says in err
    assert err.splitlines()[-1] == "nothing was written"
    assert len(err.splitlines()) == 2
    assert not (here / "data" / "out").exists()


def test_strictly_a_sample_that_does_not_meet_a_rule_is_exit_code_1(here, capsys):
    words = ["scatter", "data/rudder.toml", "--no-page", "--samples", "64", "--tolerance", "*=none"]
    edge = ["--tolerance", "bracket.plate.edge.bracket=0.5 mm"]
    assert run(capsys, *words, *edge)[0] == 0
    assert run(capsys, *words, *edge, "--strict")[0] == 1


def test_tolerances_for_no_surface_say_so(here, capsys):
    (here / "mine.toml").write_text('[tolerance]\n"*" = "1 %"\n', encoding="utf-8")
    code, _, err = run(capsys, "scatter", "mine.toml")
    assert code == 2
    assert "does not say which surface it is for" in err


def test_stopped_it_shows_what_was_finished(here, capsys, monkeypatch):
    """The keyboard interrupts while the second chunk is worked."""
    from surfacecheck.studies.sweeping import _sweep

    def interrupted(work, tasks, executor, lost):
        for count, task in enumerate(tasks):
            if count == 1:
                raise KeyboardInterrupt
            yield work(task)

    monkeypatch.setattr(_sweep, "carry_out", interrupted)
    code, out, _ = run(
        capsys, "scatter", "data/rudder.toml", *FEW[2:], "--samples", str(2 * CHUNK), "--table", "rows.csv"
    )
    assert code == 130
    assert f"Stopped: {CHUNK} of {2 * CHUNK} samples were finished" in " ".join(out.split())
    assert len(read_sweep("rows.csv")["lowest"]) == CHUNK


def test_stopped_before_anything_was_finished_it_says_so(here, capsys, monkeypatch):
    from surfacecheck.studies.sweeping import _sweep

    def interrupted(work, tasks, executor, lost):
        raise KeyboardInterrupt
        yield

    monkeypatch.setattr(_sweep, "carry_out", interrupted)
    code, out, err = run(capsys, "scatter", "data/rudder.toml", *FEW[2:], "--samples", "150")
    assert (code, out, err) == (130, "", "stopped: not one sample was finished\n")
