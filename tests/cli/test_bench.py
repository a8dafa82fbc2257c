"""``card`` and ``takeoff`` on the command line: text, page, tables, plain data, faults, exit codes."""

from __future__ import annotations

import csv
import json
import re
import shutil
from pathlib import Path

import pytest

from surfacecheck.cli import main
from surfacecheck.reading import starting_file

DATA = Path(__file__).parents[2] / "data"


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


def changed(here, old, new, name="other.toml", base="rudder.toml"):
    text = (here / base).read_text(encoding="utf-8")
    assert old in text
    (here / name).write_text(text.replace(old, new), encoding="utf-8")
    return name


@pytest.mark.parametrize("file", ["rudder.toml", "elevator.toml"])
def test_takeoff_prints_and_leaves_a_page(here, capsys, file):
    code, out, err = run(capsys, "takeoff", file)
    assert (code, err) == (0, "")
    assert fits(out)
    for words in (
        "To buy, by size",
        "Row by row",
        "Drills",
        "Can it be set?",
        "Holes of every part",
        "Order of setting",
    ):
        assert words in out
    assert "No flight on the strength of this page." in out
    page = Path(re.search(r"PAGE   (\S+)", out)[1])
    assert page == Path(f"out/{Path(file).stem}_takeoff.html")
    text = page.read_text(encoding="utf-8")
    assert "<script" not in text
    assert text.count("no approval") == 2
    hint = re.search(r"NEXT   surfacecheck (.*)", out)[1].split()
    assert run(capsys, *hint)[0] == 0


def test_holes_of_one_part(here, capsys):
    code, out, _ = run(capsys, "takeoff", "rudder.toml", "--part", "rib 3")
    assert code == 0
    assert out.startswith("RIB 3: 28 holes")
    assert fits(out)
    assert not (here / "out").exists()


def test_tables_are_written_twice_and_end_with_the_caution(here, capsys):
    code, out, _ = run(capsys, "takeoff", "rudder.toml", "--tables", "lists", "--no-page")
    assert code == 0
    assert "TABLES lists  (14 files" in out
    names = {"buy", "take-off", "drills", "access", "parts", "holes", "setting"}
    assert {one.name for one in (here / "lists").iterdir()} == {f"{n}.{end}" for n in names for end in ("csv", "txt")}
    for file in (here / "lists").iterdir():
        assert "No flight on the strength of this page." in " ".join(file.read_text(encoding="utf-8").split())
    with (here / "lists" / "holes.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == 798 + 1
    first = [row for row in rows if (row["part"], row["row"]) == ("left skin", "left skin to spar")]
    assert (first[0]["mm"], first[0]["in"], first[-1]["mm"]) == ("20.0", "0.79", "1080.0")


def test_own_spares_and_minutes(here, capsys):
    words = ("takeoff", "rudder.toml", "--no-page", "--spares", "15 %", "--practice", "30")
    _, out, _ = run(capsys, *words, "--minutes-hole", "1", "--minutes-rivet", "2")
    assert "order: 15 % more than needed; for practice 30 of each size on top (as said" in " ".join(out.split())
    assert f"about {(798 + 2 * 351) / 60:.1f} hours" in out
    assert "your own figures" in out
    half = run(capsys, *words, "--minutes-hole", "1")[1]
    assert "invented for the demo" in half


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["takeoff", "rudder.toml", "--spares", "many"], '--spares: "many" is no number'),
        (["takeoff", "rudder.toml", "--spares", "-5"], "give 0 to 500 %"),
        (["takeoff", "rudder.toml", "--minutes-hole", "nan"], "nan minutes a hole"),
        (["takeoff", "rudder.toml", "--part", "wing"], 'no part with holes is called "wing"'),
        (["takeoff", "rudder.toml", "--tables", "rudder.toml", "--no-page"], "is a file: tables go into a folder"),
        (["takeoff", "nothing.toml"], "cannot be read"),
        (["card", "rudder.toml", "no", "such"], 'no row is called "no such"'),
    ],
)
def test_faults_are_one_line_each(here, capsys, words, message):
    code, out, err = run(capsys, *words)
    assert code == 2
    assert message in err
    assert err.strip().endswith("nothing was written")
    assert len(err.strip().split("\n")) == 2
    assert "Traceback" not in out + err


def ribs_apart(here):
    """The demo with no rib near a bracket."""
    ups = '"0 mm (tape)", "90 mm (tape)", "325 mm (tape)", "560 mm (tape)", "785 mm (tape)", "1010 mm (tape)"'
    return changed(here, ups, ups.replace('"90', '"50').replace('"560', '"520').replace('"1010', '"970'))


def test_a_grip_outside_the_range_counts_under_strict(here, capsys):
    apart = ribs_apart(here)
    assert run(capsys, "takeoff", apart, "--no-page", "--strict")[0] == 0
    thick = changed(here, 'thickness = "3.2 mm (caliper)"', 'thickness = "6.0 mm (caliper)"', apart, apart)
    code, out, _ = run(capsys, "takeoff", thick, "--no-page", "--strict")
    assert code == 1
    assert fits(out)
    assert "no length holds a stack of 6.80 mm" in " ".join(out.split())


def test_a_rivet_out_of_reach_counts_under_strict(here, capsys):
    """Rivets 8 mm from the rib's outer face, 0.5 mm thick and bent round 1.6 mm: a nose over 5.9 mm finds no flat."""
    apart = ribs_apart(here)
    assert json.loads(run(capsys, "takeoff", apart, "--json")[1])["cannot_be_reached"] == []
    fat = changed(here, 'nose_radius = "5.0 mm (caliper)"', 'nose_radius = "6.0 mm (caliper)"', apart, apart)
    fat = changed(here, 'nose_radius = "4.0 mm (caliper)"', 'nose_radius = "6.0 mm (caliper)"', fat, fat)
    assert run(capsys, "takeoff", fat, "--no-page", "--strict")[0] == 1
    assert run(capsys, "takeoff", fat, "--no-page")[0] == 0
    names = json.loads(run(capsys, "takeoff", fat, "--json")[1])["cannot_be_reached"]
    assert names == [f"row.ribs_to_spar.rivet-{number}" for number in range(1, 15)]


def test_a_tool_without_dimensions_is_one_line(here, capsys):
    half = changed(here, 'nose_long = "12 mm (caliper)"     # from the sheet to where the body begins\n', "")
    code, out, _ = run(capsys, "takeoff", half, "--no-page")
    assert code == 0
    assert "  puller: left out, not given: tool.puller.nose_long\n" in out


def test_plain_data(here, capsys):
    data = json.loads(run(capsys, "takeoff", "rudder.toml", "--json")[1])
    assert (data["form"], data["command"], data["units"]) == (1, "takeoff", "SI")
    assert {"buy", "rows", "drills", "parts", "access", "look", "minutes", "caution"} <= set(data)
    cards = json.loads(run(capsys, "card", "rudder.toml", "--json")[1])
    assert (cards["form"], cards["command"], len(cards["cards"])) == (1, "card", 12)
    one = json.loads(run(capsys, "card", "rudder.toml", "trailing edge", "--json")[1])
    assert [card["place"] for card in one["cards"]] == ["row.trailing_edge"]


def test_card_of_one_row_and_of_all(here, capsys):
    code, out, err = run(capsys, "card", "rudder.toml", "hinge", "top")
    assert (code, err) == (0, "")
    assert out.startswith("top hinge bracket: 6 rivets, large 4.0 mm.")
    assert fits(out)
    every = run(capsys, "card", "rudder.toml", "--units", "inch")[1]
    assert fits(every)
    assert every.count("shown only\n") + every.count("shown\nonly") >= 12
    assert run(capsys, "card", "rudder.toml", "trailing_edge", "--strict")[0] == 0
    assert run(capsys, "card", "rudder.toml", "doubler_to_spar", "--strict")[0] == 1


@pytest.mark.parametrize("command", ["card", "takeoff"])
def test_a_file_with_nothing_in_it(here, capsys, command):
    (here / "my.toml").write_text(starting_file(), encoding="utf-8")
    code, out, err = run(capsys, command, "my.toml")
    assert (code, err) == (0, "")
    assert fits(out)
    assert "not given" in out
    assert not (here / "out").exists()
    (here / "bare.toml").write_text('kind = "rudder"\n', encoding="utf-8")
    assert run(capsys, command, "bare.toml")[0] == 0


def test_a_change_file_has_its_own_take_off(here, capsys):
    out = run(capsys, "takeoff", "rudder_pitch_30.toml", "--no-page")[1]
    assert re.search(r"left skin to spar +36 +30\.3 mm", out)
