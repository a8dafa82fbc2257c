"""What a newcomer meets first: one command, handed over to the package in an environment made once."""

from __future__ import annotations

import ast
import os
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


# -- an old Python ---------------------------------------------------------------------------------------------------


def test_an_old_python_can_parse_it():
    # Python 3.5 has neither f-strings nor annotated names, and ast itself goes back to 3.7 only in newer Pythons
    tree = ast.parse((ROOT / "start.py").read_text(encoding="ascii"), feature_version=(3, 7))
    newer = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.Match, ast.AsyncFunctionDef)
    assert not [node for node in ast.walk(tree) if isinstance(node, newer)]
    arguments = [node.args for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    assert not [one for one in arguments if one.kwonlyargs or one.posonlyargs]


@pytest.mark.parametrize("version", [(2, 7, 18), (3, 5, 0), (3, 9, 18), (3, 10, 13)])
def test_an_old_python_is_told_in_one_line(start, monkeypatch, capsys, version):
    monkeypatch.setattr(start.sys, "version_info", version)
    monkeypatch.setenv("PATH", "")
    assert start.main([]) == 3
    said = capsys.readouterr().err
    assert said.startswith(f"Python {version[0]}.{version[1]} found, 3.11 needed; install one")
    assert said.count("\n") == 1


@pytest.mark.skipif(os.name == "nt", reason="the stand-in for a newer Python is a shell script")
@pytest.mark.parametrize(("starts", "hint"), [("0", "start with: python3.12 start.py"), ("127", "install one")])
def test_a_newer_python_is_named_if_it_starts(start, monkeypatch, capsys, tmp_path, starts, hint):
    newer = tmp_path / "bin" / "python3.12"
    newer.parent.mkdir()
    newer.write_text(f"#!/bin/sh\nexit {starts}\n")
    newer.chmod(0o755)
    monkeypatch.setenv("PATH", str(newer.parent))
    monkeypatch.setattr(start.sys, "version_info", (3, 9, 18))
    assert start.main([]) == 3
    assert f"3.11 needed; {hint}" in capsys.readouterr().err


# -- what is handed over ---------------------------------------------------------------------------------------------


def test_without_words_the_demo_is_checked(command_of, start):
    python, *words = command_of()
    assert Path(python).is_relative_to(start.ROOT)
    assert words == ["-m", "surfacecheck", "check", os.path.join("data", "rudder.toml")]


def test_from_elsewhere_the_demo_is_still_found(command_of, start, monkeypatch, tmp_path_factory):
    monkeypatch.chdir(tmp_path_factory.mktemp("elsewhere"))
    assert command_of()[-1] == os.path.join(start.ROOT, "data", "rudder.toml")


@pytest.mark.parametrize(
    "words",
    [("check", "my rudder.toml", "--strict"), ("new", "a.toml"), ("row", "25 mm"), ("--version",), ("nonsense",)],
)
def test_words_pass_through_unchanged(command_of, words):
    assert command_of(*words)[1:] == ["-m", "surfacecheck", *words]


def test_help_names_the_words_of_start_itself(command_of, capsys):
    assert command_of("--help")[1:] == ["-m", "surfacecheck", "--help"]
    said = capsys.readouterr().out
    assert all(f"python3 start.py {word} " in said for word in ("check", "test", "lab", "notebooks", "bench"))


def test_every_test_runs_from_the_project_folder(command_of, start, monkeypatch, tmp_path_factory):
    monkeypatch.chdir(tmp_path_factory.mktemp("elsewhere"))
    assert command_of("test", "-k", "hinge")[1:] == ["-m", "pytest", "-k", "hinge"]
    assert Path.cwd() == Path(start.ROOT).resolve()


@pytest.mark.parametrize("word", ["bench", "notebooks"])
def test_tools_are_where_they_are_said_to_be(command_of, start, word):
    script = Path(command_of(word)[1])
    assert (ROOT / script.relative_to(start.ROOT)).is_file()


def test_lab_lives_apart_and_asks_for_no_news(command_of, start):
    python, *words = command_of("lab")
    folder = Path(start.ROOT) / ".venv-lab"
    assert Path(python).is_relative_to(folder)
    assert words[:2] == ["-m", "jupyterlab"]
    (added,) = [Path(word.partition("=")[2]) for word in words if "extra_labextensions_path" in word]
    assert list((ROOT / added.relative_to(start.ROOT)).glob("*/package.json"))
    assert '"fetchNews": "false"' in (folder / "share/jupyter/lab/settings/overrides.json").read_text()
    assert not (Path(start.ROOT) / ".venv").exists()


def test_the_childs_variables(handed, monkeypatch):
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", "1")
    monkeypatch.setenv("PYTHONPATH", "somewhere")
    monkeypatch.delenv("OPENBLAS_NUM_THREADS", raising=False)
    variables = handed("check", "x.toml").variables
    assert "PYTHONDONTWRITEBYTECODE" not in variables
    assert "PYTHONPATH" not in variables
    assert variables["OPENBLAS_NUM_THREADS"] == "1"
    assert re.fullmatch(r"python[0-9.]* start\.py", variables["SURFACECHECK_CALLED_AS"])


# -- the environment -------------------------------------------------------------------------------------------------


def asked_for(start, monkeypatch):
    """Return the list in which every later installation is noted."""
    noted = []
    monkeypatch.setattr(start, "run", lambda command: (noted.append(command), (0, ""))[1])
    return noted


def test_the_second_start_makes_nothing(command_of, start, monkeypatch, capsys):
    command_of()
    assert "Into .venv, once: numpy" in capsys.readouterr().out
    noted = asked_for(start, monkeypatch)
    command_of()
    assert not noted
    assert capsys.readouterr().out == ""


def test_the_core_comes_without_test_tools_and_only_ready_made(command_of, start, monkeypatch):
    noted = asked_for(start, monkeypatch)
    command_of()
    (install,) = [command for command in noted if "install" in command]
    assert install[install.index("--only-binary") + 1] == ":all:"
    assert "constraints.txt" in install[install.index("-c") + 1]
    assert any(word.startswith("numpy") for word in install)
    assert not any(word.startswith(("pytest", "jupyterlab")) for word in install)


def test_the_tests_add_theirs_to_the_core_and_the_core_stays(command_of, start, monkeypatch):
    command_of()
    kept = Path(start.ROOT) / ".venv" / "kept"
    kept.touch()
    noted = asked_for(start, monkeypatch)
    command_of("test")
    assert any(word.startswith("pytest") for word in noted[-1])
    noted.clear()
    command_of("check", "x.toml")
    command_of("test")
    assert not noted
    assert kept.exists()


def test_a_browser_that_is_here_gets_its_driver(command_of, start, monkeypatch):
    command_of("test")
    noted = asked_for(start, monkeypatch)
    command_of("test")
    assert not noted
    monkeypatch.setattr(start.shutil, "which", lambda name: f"/usr/bin/{name}")
    assert command_of("test", "-x")[1:] == ["-m", "pytest", "-x"]
    (install,) = [command for command in noted if "install" in command]
    assert any(word.startswith("playwright") for word in install)
    noted.clear()
    command_of("test")
    command_of("check", "x.toml")
    assert not noted


def test_a_driver_that_cannot_be_fetched_stops_no_test(command_of, start, monkeypatch, capsys):
    monkeypatch.setattr(start.shutil, "which", lambda name: f"/usr/bin/{name}")
    dead = "ERROR: No matching distribution found for playwright (from versions: none)"
    fails = {True: (1, dead), False: (0, "")}
    monkeypatch.setattr(start, "run", lambda command: fails[any(word.startswith("playwright") for word in command)])
    assert command_of("test")[1:] == ["-m", "pytest"]
    assert "without it the tests in a browser are skipped" in capsys.readouterr().out


def test_a_half_made_environment_is_made_anew(command_of, start, monkeypatch):
    command_of()
    left = Path(start.ROOT) / ".venv" / "left"
    left.touch()
    (Path(start.ROOT) / ".venv" / "made-for-core.txt").unlink()
    noted = asked_for(start, monkeypatch)
    command_of()
    assert noted
    assert not left.exists()


def test_another_python_makes_it_anew(command_of, start, monkeypatch):
    command_of()
    left = Path(start.ROOT) / ".venv" / "left"
    left.touch()
    monkeypatch.setattr(start, "THIS_PYTHON", "Python 3.99")
    command_of()
    assert not left.exists()


@pytest.mark.parametrize("name", ["constraints.txt", "pyproject.toml"])
def test_a_changed_version_is_fetched_a_changed_comment_is_not(command_of, start, monkeypatch, copy, name):
    command_of()
    noted = asked_for(start, monkeypatch)
    text = (copy / name).read_text()
    (copy / name).write_text(text + "\n# a remark\n")
    command_of()
    assert not noted
    (copy / name).write_text(re.sub(r"(?i)(tqdm[=>]=)4\.", r"\g<1>4.0.", text))
    command_of()
    assert noted
