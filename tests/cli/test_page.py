"""The page is written whole or not at all, and the numbers come first."""

from __future__ import annotations

import errno
import io
import shutil
import subprocess
import sys
import types
from pathlib import Path

import pytest

from surfacecheck.cli import main

ROOT = Path(__file__).parents[2]
DATA = ROOT / "data"


@pytest.fixture
def here(tmp_path, monkeypatch):
    shutil.copy(DATA / "rudder.toml", tmp_path)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def report(monkeypatch):
    """A page writer of our own, to see when and how it is called."""

    def stand_in(write):
        module = types.ModuleType("surfacecheck.report")
        module.write_page = write
        monkeypatch.setitem(sys.modules, "surfacecheck.report", module)

    return stand_in


def test_the_numbers_are_on_the_screen_before_the_page_is_begun(here, report, capsys):
    seen = []

    def write(assessment, path, system):
        seen.append((capsys.readouterr().out, system))
        return Path(path).write_text("<html>page</html>", encoding="utf-8")

    report(write)
    assert main(["check", "rudder.toml"]) == 0
    (before, system), after = seen[0], capsys.readouterr().out
    assert "LOWEST" in before
    assert "no approval" in before
    assert "PAGE" not in before
    assert system == "metric"
    assert "PAGE   out/rudder.html  (0.00 MB" in after.replace("\\", "/")
    assert [path.name for path in (here / "out").iterdir()] == ["rudder.html"]


@pytest.mark.parametrize(
    ("error", "says"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), "No space left"),
        (PermissionError(errno.EACCES, "Permission denied"), "Permission denied"),
    ],
)
def test_a_full_disk_is_three_and_leaves_the_old_page(here, report, capsys, error, says):
    (here / "out").mkdir()
    (here / "out" / "rudder.html").write_text("the old page", encoding="utf-8")

    def write(assessment, path, system):
        Path(path).write_text("half a pa", encoding="utf-8")
        raise error

    report(write)
    assert main(["check", "rudder.toml"]) == 3
    out, err = capsys.readouterr()
    assert "LOWEST" in out
    assert says in err
    assert err.count("\n") == 1
    assert {path.name: path.read_text(encoding="utf-8") for path in (here / "out").iterdir()} == {
        "rudder.html": "the old page"
    }


def test_a_reader_that_has_seen_enough_is_no_error(here, monkeypatch):
    class Closed(io.StringIO):
        def write(self, text):
            raise BrokenPipeError(errno.EPIPE, "Broken pipe")

    monkeypatch.setattr(sys, "stdout", Closed())
    assert main(["check", "rudder.toml", "--no-page"]) == 0


def test_a_reader_that_closes_early_hears_nothing(here):
    command = f'"{sys.executable}" -m surfacecheck check rudder.toml --no-page | head -1'
    settings = {"PYTHONPATH": str(ROOT), "PATH": "/usr/bin:/bin"}
    found = subprocess.run(command, shell=True, capture_output=True, text=True, env=settings, check=False)  # noqa: S602
    assert found.stderr == ""
    assert found.stdout.count("\n") == 1


def test_the_real_page_is_one_file_under_a_megabyte(here, capsys):
    assert main(["check", "rudder.toml"]) == 0
    (page,) = (here / "out").iterdir()
    assert 1_000 < page.stat().st_size < 1_000_000
    assert "PAGE" in capsys.readouterr().out


def test_checking_needs_no_heavy_import():
    code = (
        "import sys; from surfacecheck.cli import main; main(['check', 'data/rudder.toml', '--no-page']);"
        "print(sorted({'pint', 'matplotlib', 'jinja2'} & set(sys.modules)), file=sys.stderr)"
    )
    found = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert found.stderr.strip() == "[]"
