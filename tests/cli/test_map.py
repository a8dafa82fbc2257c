"""``map`` and ``new`` on the command line; what ``check`` says of a file with nothing in it."""

from __future__ import annotations

import errno
import json
import re
import shutil
from pathlib import Path

import pytest

from surfacecheck.assessment import assess
from surfacecheck.cli import main
from surfacecheck.reading import read, starting_file

DATA = Path(__file__).parents[2] / "data"
KINDS = [(kind, half) for kind in ("rudder", "elevator", "aileron") for half in ("none", "left", "right")
         if (kind == "rudder") == (half == "none")]  # fmt: skip


@pytest.fixture
def here(tmp_path, monkeypatch):
    for file in DATA.glob("*.toml"):
        shutil.copy(file, tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SURFACECHECK_CALLED_AS", raising=False)
    return tmp_path


def run(capsys, *words):
    code = main(list(words))
    out, err = capsys.readouterr()
    return code, out, err


def fits(text):
    return text.isascii() and max(map(len, text.split("\n"))) <= 80


@pytest.mark.parametrize("file", ["rudder.toml", "elevator.toml"])
def test_every_name_of_the_map_is_one_that_show_knows(here, capsys, file):
    code, out, err = run(capsys, "map", file)
    assert (code, err) == (0, "")
    assert fits(out)
    names = [one["name"] for one in json.loads(run(capsys, "map", file, "--json")[1])["places"]]
    assert all(re.search(rf"(?m)^{re.escape(name)}\b", out) for name in names)
    assessment = assess(read(file))
    for name in names:
        if not name.startswith("rib-"):
            assert assessment.find(name).name.startswith(name), name
    surface = assessment.surface
    assert {f"hinge.{name}" for name in surface.hinges} <= set(names)
    assert {f"row.{name}" for name in surface.rows} <= set(names)


@pytest.mark.parametrize("file", ["rudder.toml", "elevator.toml"])
def test_the_names_say_which_rivet_of_the_horn_is_the_first(here, capsys, file):
    """The place of the first of those whose loads are worked; z of a left half points down."""
    (one,) = [one for one in json.loads(run(capsys, "map", file, "--json")[1])["places"] if one["name"] == "horn"]
    assessment = assess(read(file))
    x, z = assessment.horn.x, assessment.horn.z
    assert (x[0], z[0]) == (x.min(), z.min())
    assert x[1] == x[0] < x[-1]
    sides = {"rudder.toml": ("right", "left"), "elevator.toml": ("top", "bottom")}[file]
    told = "rivet-1 to rivet-{}; 1 is foremost at the {}, count to the {}, then the next aft"
    assert one["what"].endswith(told.format(x.size, *sides))


def test_the_map_is_one_page_with_every_label(here, capsys):
    _, out, _ = run(capsys, "map", "rudder.toml")
    page = Path(re.search(r"MAP    (\S+)", out)[1])
    assert page == Path("out/rudder_map.html")
    text = page.read_text(encoding="utf-8")
    assert "<script" not in text
    surface = read("rudder.toml")
    drawn = " ".join(re.findall(r"<text[^>]*>([^<]*)</text>", text))
    for name in (*surface.hinges, *(row.replace("_", " ") for row in surface.rows)):
        assert name in drawn
    assert drawn.count("rib ") >= len(surface.sheet.ribs.up)
    assert "Seen from the left" in drawn
    assert "Seen from behind" in drawn
    assert "no approval" in text
    assert [one.name for one in (here / "out").iterdir()] == ["rudder_map.html"]


def test_a_half_filled_file_has_a_map_and_says_what_is_not_on_it(here, capsys):
    text = (here / "rudder.toml").read_text(encoding="utf-8")
    text = re.sub(r"(?m)^along = 3", 'along = "?"', text)
    text = re.sub(r'(\[row\.trailing_edge\][^\[]*?\[[^\]]*\][^\[]*?pitch = )"[^"]*"', r'\1"?"', text)
    (here / "half.toml").write_text(text, encoding="utf-8")
    code, out, _ = run(capsys, "map", "half.toml")
    assert code == 0
    assert "bracket.plate.along" in out
    assert re.search(r"row\.trailing_edge .*not\s+known yet where", out)
    page = (here / "out" / "half_map.html").read_text(encoding="utf-8")
    assert "Bracket rivets are not drawn yet: give along, sideways" in page


def test_what_is_missing_is_said_once(here, capsys):
    (here / "my.toml").write_text(starting_file("rudder"), encoding="utf-8")
    _, out, _ = run(capsys, "map", "my.toml")
    assert out.count("bracket.plate.along") == 1
    assert out.count("rivets not known yet") == 3
    assert "at ?; at ?" not in out
    text = (here / "rudder.toml").read_text(encoding="utf-8")
    (here / "half.toml").write_text(re.sub(r"(?m)^along = 3", 'along = "?"', text), encoding="utf-8")
    run(capsys, "map", "half.toml")
    page = (here / "out" / "half_map.html").read_text(encoding="utf-8")
    assert page.count("not drawn") == 1
    assert page.count("bracket.plate.along") == 1


def test_an_empty_file_has_names_and_no_map_yet(here, capsys):
    (here / "my.toml").write_text(starting_file("elevator", "left"), encoding="utf-8")
    code, out, err = run(capsys, "map", "my.toml")
    assert (code, err) == (0, "")
    assert fits(out)
    assert "MAP    not drawn yet: outline.at" in out
    assert "hinge.outer" in out
    assert "row.top_skin_to_spar" in out
    assert not (here / "out").exists()


def test_the_map_of_a_change_and_in_the_other_units(here, capsys):
    _, out, _ = run(capsys, "map", "rudder_pitch_30.toml", "--units", "inch")
    assert re.search(r"row\.left_skin_to_spar.*36\s+rivets", out)
    assert " in apart" in out
    assert "Pitch 30" in (here / "out" / "rudder_pitch_30_map.html").read_text(encoding="utf-8")


def test_names_of_a_builder_are_escaped(here, capsys):
    text = (here / "rudder.toml").read_text(encoding="utf-8")
    text = re.sub(r"(?m)^name = .*", 'name = "<script>x</script>"', text)
    (here / "odd.toml").write_text(text, encoding="utf-8")
    assert run(capsys, "map", "odd.toml")[0] == 0
    assert "<script" not in (here / "out" / "odd_map.html").read_text(encoding="utf-8")


def test_a_full_disk_leaves_the_old_map(here, capsys, monkeypatch):
    run(capsys, "map", "rudder.toml")
    before = (here / "out" / "rudder_map.html").read_bytes()

    def full(self, target):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    code, _, err = run(capsys, "map", "rudder.toml")
    assert code == 3
    assert "No space left" in err
    assert [one.name for one in (here / "out").iterdir()] == ["rudder_map.html"]
    assert (here / "out" / "rudder_map.html").read_bytes() == before


@pytest.mark.parametrize("units", ["metric", "inch"])
@pytest.mark.parametrize(("kind", "half"), KINDS)
def test_new_writes_file_and_sheet_for_every_kind(tmp_path, capsys, kind, half, units):
    file = tmp_path / "my.toml"
    code, out, _ = run(capsys, "new", str(file), "--kind", kind, "--half", half, "--units", units)
    assert code == 0
    assert f"For: {kind}" in out
    assert "3 hinges, 5 ribs" in out
    surface = read(file)
    assert (surface.kind, surface.half, len(surface.hinges), len(surface.sheet.ribs.up)) == (kind, half, 3, 5)
    sheet = (tmp_path / "my_measuring.html").read_text(encoding="utf-8")
    assert "Measuring sheet for my.toml" in sheet
    assert (" in)" in sheet) == (units == "inch")
    code, out, err = run(capsys, "check", str(file))
    assert (code, err) == (0, "")
    assert "Nothing can be told yet; these come first." in out
    assert len(re.findall(r"(?m)^ [123] \S+:", out)) == 3
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("there", ["my.toml", "my_measuring.html"])
def test_new_overwrites_neither_file_nor_sheet(tmp_path, monkeypatch, capsys, there):
    monkeypatch.chdir(tmp_path)
    (tmp_path / there).write_text("mine", encoding="utf-8")
    code, out, err = run(capsys, "new", "my.toml")
    assert (code, out) == (2, "")
    assert f"{there} is there already and stays as it is" in err
    assert {one.name: one.read_text(encoding="utf-8") for one in tmp_path.iterdir()} == {there: "mine"}


def test_new_leaves_nothing_half_written(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    move = Path.replace

    def full(self, target):
        if Path(target).name == "my.toml":
            raise OSError(errno.ENOSPC, "No space left on device")
        return move(self, target)

    monkeypatch.setattr(Path, "replace", full)
    code, _, err = run(capsys, "new", "my.toml")
    assert code == 3
    assert "No space left" in err
    assert {one.name for one in tmp_path.iterdir()} == {"surface.schema.json", "change.schema.json"}


def test_check_says_what_to_fill_in_next(here, capsys):
    _, out, _ = run(capsys, "check", "rudder.toml", "--no-page")
    assert fits(out)
    assert re.search(r"FILL IN NEXT, and what it gives\n 1 rivet\.small\.shear: ", out)
    told = json.loads(run(capsys, "new", "new.toml", "--json")[1])
    assert told["sheet"] == "new_measuring.html"
    empty = json.loads(run(capsys, "check", "new.toml", "--json")[1])
    assert empty["told"] is False
    assert empty["next"][0]["key"] == "load.pressure"
