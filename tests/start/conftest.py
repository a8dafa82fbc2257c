"""A copy of start.py that can be started without doing harm."""

from __future__ import annotations

import importlib.util
import os
import shutil
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


class HandedOver(Exception):
    """In place of becoming another program: what would have run, with which variables."""

    def __init__(self, command, variables):
        super().__init__(command)
        self.command, self.variables = command, variables


@pytest.fixture
def copy(tmp_path):
    """A folder with what start.py reads, and a package that says how it was called."""
    for name in ("start.py", "pyproject.toml", "constraints.txt"):
        shutil.copy(ROOT / name, tmp_path / name)
    (tmp_path / "surfacecheck").mkdir()
    (tmp_path / "surfacecheck" / "__init__.py").touch()
    talk = "import os, sys\nprint(sys.argv[1:], os.getcwd(), os.environ['SURFACECHECK_CALLED_AS'])\nsys.exit(2)\n"
    (tmp_path / "surfacecheck" / "__main__.py").write_text(talk)
    return tmp_path


@pytest.fixture
def start(copy, monkeypatch):
    """start.py of the copy as a module, with a registry that has everything and installs nothing."""
    spec = importlib.util.spec_from_file_location("start_of_the_copy", copy / "start.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)

    which = shutil.which

    def become(_path, command, variables):
        raise HandedOver(command, variables)

    monkeypatch.setattr(os, "execve", become)
    monkeypatch.setattr(module.shutil, "which", lambda name: None if name == "chromium" else which(name))
    monkeypatch.setattr(module, "run", lambda command: (0, ""))
    monkeypatch.setattr(sys, "argv", ["start.py"])
    monkeypatch.chdir(copy)
    (copy / "notebooks").mkdir()
    return module


@pytest.fixture
def handed(start):
    """A call of start.py that gets as far as the package: its command and the variables it would run with."""

    def call(*words):
        with pytest.raises(HandedOver) as found:
            start.main(list(words))
        return found.value

    return call


@pytest.fixture
def command_of(handed):
    """A call of start.py that gets as far as the package: its command."""
    return lambda *words: handed(*words).command
