"""The page is written whole or not at all, and the numbers come first."""

from __future__ import annotations

import errno
import html
import io
import json
import re
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


def rounded_as(shown, value):
    """Write a number with as many decimals as another text has."""
    return f"{value:.{len(shown.partition('.')[2])}f}"


def test_margins_pins_and_mass_of_the_page_are_those_of_the_plain_data(here, capsys):
    """In the same order under the same names; rounded, and nothing else."""
    main(["check", "rudder.toml", "--json"])
    data = json.loads(capsys.readouterr().out)
    main(["check", "rudder.toml"])
    text = html.unescape((here / "out" / "rudder.html").read_text(encoding="utf-8"))
    blocks = re.findall(
        r'<details id="margins-.*?<b>([+-][\d.]+)</b>.*?Name: <span class="keys">(.*?)</span>', text, re.S
    )
    assert [name for _, name in blocks] == [one["name"] for one in data["margins"]]
    for (shown, _), one in zip(blocks, data["margins"], strict=True):
        assert shown.lstrip("+") == rounded_as(shown, one["margin"])
    cell = r'<td class="r">([\d.]+) N (\w+)</td>'
    for pin in data["pins"]:
        row = re.search(rf'<th scope="row">{pin["name"]}</th><td class="r">[\d.]+ mm</td>{cell}{cell}', text)
        for (shown, way), key in zip((row.groups()[:2], row.groups()[2:]), ("sideways", "fore_aft"), strict=True):
            value = pin[key]["value"]
            assert shown == rounded_as(shown, abs(value))
            assert way in ({"left", "aft"} if value > 0 else {"right", "fwd"})
    mass = re.search(r"([\d.]+) kg, ([\d.]+) N m tail-heavy", text)
    assert mass[1] == rounded_as(mass[1], data["balance"]["mass"])
    assert mass[2] == rounded_as(mass[2], data["balance"]["tail_heavy_moment"])


def test_checking_needs_no_heavy_import():
    code = (
        "import sys; from surfacecheck.cli import main; main(['check', 'data/rudder.toml', '--no-page']);"
        "print(sorted({'pint', 'matplotlib', 'jinja2'} & set(sys.modules)), file=sys.stderr)"
    )
    found = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert found.stderr.strip() == "[]"
