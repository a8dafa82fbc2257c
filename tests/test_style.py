"""How the source looks: the linter, the formatter, the type checker, and a few habits no tool knows."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LONGEST, LONGEST_TEST = 300, 400
"""Lines of a source file; a longer one holds more than one idea."""
KINDS = {".py", ".md", ".toml", ".yml", ".ipynb", ".html", ".txt", ".cfg", ".css", ".json", ".tex"}
SKIPPED = {".git", "__pycache__", "out", "node_modules"}
PICTURE = re.compile(r"[A-Za-z0-9+/=]{200,}")
"""A stored picture, which holds any short word sooner or later."""
FORBIDDEN = {
    "an unfinished place": r"\b(TO" + r"DO|FIX" + r"ME|XX" + r"X|HA" + r"CK)\b",
    "a path of one computer": r"(/ho" + r"me/\w|/ro" + r"ot/|/Us" + r"ers/\w|/wo" + r"rk/\w|[A-Z]:\\\\?Us" + r"ers)",
    "a word that reads as permission": r"(?i)\bis (air" + r"worthy|safe to f" + r"ly)\b",
}


def sources() -> list[Path]:
    """Return the files people wrote, environments and caches left out."""
    found = []
    for path in sorted(ROOT.rglob("*")):
        parts = path.relative_to(ROOT).parts
        hidden = any(part.startswith(".") and part != ".ci" for part in parts)
        if not hidden and not SKIPPED.intersection(parts) and path.is_file():
            found.append(path)
    return found


SOURCES = sources()
PYTHON = [path for path in SOURCES if path.suffix == ".py"]


def tool(*words: str) -> subprocess.CompletedProcess[str]:
    """Run a tool of this environment on the whole project."""
    command = [sys.executable, "-m", *words]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=600, check=False)


@pytest.mark.parametrize("words", [("ruff", "check"), ("ruff", "format", "--check"), ("mypy",)], ids=" ".join)
def test_tools_have_nothing_to_say(words):
    places = () if words == ("mypy",) else ("start.py", "surfacecheck", "tests", "notebooks")
    found = tool(*words, *places)
    assert found.returncode == 0, found.stdout + found.stderr


def test_there_is_something_to_look_at():
    names = {path.relative_to(ROOT).as_posix() for path in SOURCES}
    assert {"start.py", "pyproject.toml", ".ci/run", "surfacecheck/__init__.py", "tests/test_style.py"} <= names


def test_files_are_short():
    """A source's examples stay together in one test file, so these may be longer."""
    lengths = {path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8").count("\n") for path in PYTHON}
    longest = {name: LONGEST_TEST if name.startswith("tests/") else LONGEST for name in lengths}
    assert {name: lines for name, lines in lengths.items() if lines > longest[name]} == {}


@pytest.mark.parametrize("what", FORBIDDEN)
def test_nothing_forbidden_is_left(what):
    found = {}
    for path in SOURCES:
        if path.suffix in KINDS or path.name == "run":
            text = PICTURE.sub("", path.read_text(encoding="utf-8"))
            hits = re.findall(FORBIDDEN[what], text)
            if hits:
                found[path.relative_to(ROOT).as_posix()] = hits
    assert found == {}


@pytest.mark.parametrize(
    ("what", "text"),
    [
        ("an unfinished place", "# TO" + "DO later"),
        ("a path of one computer", "/ho" + "me/ann/rudder.toml"),
        ("a word that reads as permission", "this rudder is air" + "worthy"),
    ],
)
def test_what_is_forbidden_is_found(what, text):
    assert re.search(FORBIDDEN[what], text)
