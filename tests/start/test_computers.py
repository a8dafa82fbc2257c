"""What can be wrong with a computer: one line each that says what to do, and exit code 3."""

from __future__ import annotations

import errno
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

DEAD_REGISTRY = {
    "PIP_INDEX_URL": "http://127.0.0.1:9/simple",
    "PIP_CONFIG_FILE": os.devnull,
    "PIP_EXTRA_INDEX_URL": "",
    "PIP_FIND_LINKS": "",
    "PIP_NO_CACHE_DIR": "1",
    "PATH": os.defpath,  # no uv
}


@pytest.mark.parametrize("module", ["venv", "ensurepip"])
def test_no_venv_module(start, monkeypatch, capsys, module):
    monkeypatch.setitem(sys.modules, module, None)
    monkeypatch.setenv("PATH", "")
    assert start.main([]) == 3
    said = capsys.readouterr().err
    assert "no venv module" in said
    assert "sudo apt install python3-venv" in said
    assert said.count("\n") == 1
    assert not (Path(start.ROOT) / ".venv").exists()


@pytest.mark.parametrize("step", ["venv.create", "start.write", "start.run"])
@pytest.mark.parametrize(
    ("code", "says"),
    [
        (errno.ENOSPC, "the disk is full: make room"),
        (errno.EACCES, "copy the folder"),
        (errno.EROFS, "copy the folder"),
    ],
)
def test_full_disk_or_locked_folder_at_any_step(start, monkeypatch, capsys, step, code, says):
    import venv

    def fail(*_args, **_keywords):
        raise OSError(code, os.strerror(code), "some/file")

    owner = venv if step.startswith("venv") else start
    monkeypatch.setattr(owner, step.split(".")[1], fail)
    assert start.main([]) == 3
    said = capsys.readouterr().err
    assert says in said
    assert said.count("\n") == 1


@pytest.mark.parametrize(
    ("output", "says"),
    [
        ("Collecting x\nERROR: Could not install: [Errno 28] No space left on device\n", "the disk is full"),
        ("ERROR: Could not install: [Errno 13] Permission denied: '/x'\n", "copy the folder"),
        ("WARNING: Failed to establish a new connection\nERROR: No matching distribution found for x\n", "try again"),
        ("/usr/bin/python3: No module named ensurepip\n", "sudo apt install python3-venv"),
        (
            "ERROR: Cannot install a and b because they conflict.\nmore\nERROR: ResolutionImpossible\n",
            "Cannot install a",
        ),
        ("", "installing failed"),
    ],
)
def test_what_an_installer_says_becomes_one_line(start, monkeypatch, capsys, output, says):
    monkeypatch.setattr(start, "run", lambda command: (1, output))
    assert start.main([]) == 3
    said = capsys.readouterr().err
    assert says in said
    assert said.count("\n") == 1


def test_without_registry_what_is_here_still_works(command_of, start, monkeypatch, capsys, copy):
    command_of()
    monkeypatch.setattr(start, "run", lambda command: (1, "Failed to establish a new connection"))
    assert start.main(["test"]) == 3
    assert "what is installed still works" in capsys.readouterr().err
    assert command_of("check", "x.toml")[-1] == "x.toml"
    constraints = copy / "constraints.txt"
    constraints.write_text(constraints.read_text() + "new==1\n")
    assert command_of("check", "x.toml")[-1] == "x.toml"
    assert "going on with what is installed" in capsys.readouterr().out


def test_uv_that_fails_leaves_it_to_pip(command_of, start, monkeypatch):
    noted = []

    def only_pip_works(command):
        noted.append(Path(command[0]).name)
        return (2, "error: dns error") if noted[-1] == "uv" else (0, "")

    monkeypatch.setattr(start.shutil, "which", lambda name: f"/somewhere/{name}")
    monkeypatch.setattr(start, "run", only_pip_works)
    command_of()
    assert noted[0] == "uv"
    assert noted[1:] == [Path(command_of()[0]).name] * 2  # ensurepip, pip


def test_a_stopped_start_says_so(start, monkeypatch, capsys):
    def stop(command):
        raise KeyboardInterrupt

    monkeypatch.setattr(start, "run", stop)
    assert start.main([]) == 130
    assert "starting again" in capsys.readouterr().err
    assert not (Path(start.ROOT) / ".venv" / "made-for-core.txt").exists()


def test_half_an_archive(start, capsys, copy):
    (copy / "pyproject.toml").unlink()
    assert start.main([]) == 3
    assert "unpack the whole archive" in capsys.readouterr().err


# -- in earnest ------------------------------------------------------------------------------------------------------


def call(folder, *words, **variables):
    """Run start.py of a folder as a person would."""
    command = [sys.executable, "start.py", *words]
    return subprocess.run(
        command, cwd=folder, env={**os.environ, **variables}, capture_output=True, text=True, timeout=300, check=False
    )


def test_a_dead_registry_in_earnest_and_the_way_on(copy):
    found = call(copy, **DEAD_REGISTRY)
    assert found.returncode == 3
    assert found.stderr == "no connection to the package registry: try again when there is one\n"
    assert found.stdout.startswith("Into .venv, once: numpy")
    # with nothing to fetch the same half-made folder is completed, and the package's exit code comes through
    project = copy / "pyproject.toml"
    project.write_text(re.sub(r"(?ms)^dependencies = \[.*?^\]", "dependencies = ['pip']", project.read_text()))
    found = call(copy, "check", "a b.toml", **DEAD_REGISTRY)
    assert found.returncode == 2, found.stderr
    assert f"['check', 'a b.toml'] {copy}" in found.stdout
    assert found.stdout.rstrip().endswith("start.py")
    moved = copy.rename(copy.with_name(copy.name + "-moved"))
    found = call(moved, "show", **DEAD_REGISTRY)
    assert found.stdout.startswith(f"['show'] {moved}"), found.stderr
