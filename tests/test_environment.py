"""The two other lists of what is needed say the same as pyproject.toml."""

from __future__ import annotations

import re
import tomllib
from importlib.metadata import version
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
ASKED = [Requirement(line) for line in PROJECT["dependencies"]]
EXTRAS = [Requirement(line) for lines in PROJECT["optional-dependencies"].values() for line in lines]
CONDA_NAMES = {"matplotlib": "matplotlib-base"}  # the part without a window


def pins():
    """Return the exact versions by name, as many as differ by Python or system."""
    found: dict[str, list[str]] = {}
    for line in (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            pin = Requirement(line)
            (exact,) = pin.specifier
            assert exact.operator == "==", f"{line}: not an exact version"
            found.setdefault(canonicalize_name(pin.name), []).append(exact.version)
    return found


def test_conda_gets_the_same_ranges():
    text = (ROOT / "environment.yml").read_text(encoding="utf-8")
    listed = re.findall(r"(?m)^  - ([a-z0-9-]+)([<>=0-9.,]*)$", text)
    expected = [("python", PROJECT["requires-python"])]
    expected += re.findall(r"([a-z0-9-]+)([<>=0-9.,]+)", " ".join(PROJECT["dependencies"]))
    expected = [(CONDA_NAMES.get(name, name), wanted) for name, wanted in expected]
    assert [entry for entry in listed if entry not in (("conda-forge", ""), ("pip", ""))] == expected
    assert re.search(r"(?m)^  - pip:\n      - -e \.$", text)


@pytest.mark.parametrize("asked", ASKED + EXTRAS, ids=lambda asked: asked.name)
def test_every_range_holds_its_exact_version(asked):
    exact = pins().get(canonicalize_name(asked.name), [])
    assert exact, f"{asked.name} has no exact version in constraints.txt"
    assert all(asked.specifier.contains(one) for one in exact)


@pytest.mark.parametrize("asked", ASKED, ids=lambda asked: asked.name)
def test_what_runs_here_is_in_the_range(asked):
    assert asked.specifier.contains(version(asked.name))
