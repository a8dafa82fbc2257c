"""The command ``rivets``: what is printed and written, the small file, and bad input."""

from __future__ import annotations

import importlib
import json
import shutil
import signal
from pathlib import Path

import pytest

from surfacecheck.cli import main
from surfacecheck.reading import read_study

DATA = Path(__file__).parents[2] / "data"
EDGE = 'based_on = "rudder.toml"\nrows = ["trailing_edge"]\n'
SPAR = ["rivets", "rudder.toml", "--row", "left_skin_to_spar"]


@pytest.fixture
def here(tmp_path, monkeypatch):
    for name in ("rudder.toml", "elevator.toml", "rudder_rivets.toml", "rudder_pitch_30.toml"):
        shutil.copy(DATA / name, tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SURFACECHECK_CALLED_AS", raising=False)
    return tmp_path


def run(capsys, *words):
    code = main(list(words))
    out, err = capsys.readouterr()
    return code, out, err


def fits(text):
    return text.isascii() and max(map(len, text.split("\n"))) <= 80


@pytest.mark.parametrize("more", [
    ["--pitch", "20", "25", "30", "--rivet", "small", "large", "AD 1/8", "ISO 15977 H", "--edge", "6", "7"],
    ["--units", "inch", "--pitch", "1", "1.25", "30 mm", "--lines", "1", "2", "--head", "protruding", "countersunk"],
    ["--row", "trailing_edge", "--row", "right_skin_to_ribs", "--diameter", "3.2", "4.0", "4.8", "--pitch", "900"],
    ["--drilled-at", "25", "--pitch", "30", "--sheet", "0.5", "0.63"],
])  # fmt: skip
def test_the_text_fits_a_terminal_and_says_what_it_rests_on(here, capsys, more):
    code, out, err = run(capsys, *SPAR, *more, "--no-page")
    assert (code, err) == (0, "")
    assert fits(out)
    for word in ("RIVETS COMPARED", "LIMITS OF A PITCH", "Options are shown, none is recommended", "no approval"):
        assert word in out
    lowered = out.casefold()
    assert not any(f" {word} " in lowered for word in ("safe", "ok", "pass", "fine", "approved", "best"))


def test_the_first_line_says_where_strength_does_not_set_the_pitch(here, capsys):
    out = run(capsys, *SPAR, "--pitch", "25", "--rivet", "large", "--no-page")[1]
    said = " ".join(out.split("\n\n")[1].split())
    assert said.startswith(
        "By what is given, strength does not set this pitch: as drawn, with small, it would carry 150 mm;"
    )


def test_the_first_line_speaks_of_the_weakest_of_the_list_too(here, capsys):
    out = run(capsys, "rivets", "rudder_rivets.toml", "--no-page")[1]
    said = " ".join(out.split("\n\n")[1].split())
    weakest = "of the list ISO 15977 H 3.2 mm, edge 7.00 mm would carry the least, 81.8 mm. What sets it:"
    assert f"as drawn, with small, it would carry 150 mm; {weakest}" in said
    alone = run(capsys, *SPAR, "--pitch", "25", "--no-page")[1]
    assert "of the list" not in " ".join(alone.split("\n\n")[1].split())


def test_a_page_with_a_picture_is_written(here, capsys):
    code, out, _ = run(capsys, *SPAR, "--pitch", "20", "30", "--rivet", "small", "large")
    page = (here / "out" / "rudder_rivets.html").read_text(encoding="utf-8")
    assert code == 0
    assert "PAGE   out/rudder_rivets.html" in out.replace("\\", "/")
    assert "<svg" in page
    assert "<script" not in page
    assert "Checks, does not approve." in page
    assert "tail-heavy by" in page
    assert "sealing, shown only" in page
    assert len(page) < 1_000_000
    hint = out.rstrip().rsplit("NEXT   surfacecheck ", 1)[1].partition("  (")[0]
    assert run(capsys, *hint.split())[0] == 0


def test_every_digit_as_data(here, capsys):
    code, out, _ = run(capsys, *SPAR, "--pitch", "25", "1200", "--rivet", "small", "large", "--json")
    data = json.loads(out)
    assert (code, data["form"], data["command"], data["rows"]) == (0, 1, "rivets", ["left_skin_to_spar"])
    one, wide, other, _ = data["alternatives"]
    assert one["has"]["rivet"] == "small"
    assert one["rivets"] == 43
    assert other["rows"]["left_skin_to_spar"]["does_not_meet"] == ["edge distance"]
    assert "longer than the row" in wide["cannot_be"]["left_skin_to_spar"]
    row = one["rows"]["left_skin_to_spar"]
    assert row["shear_known"] is False
    assert row["margin"] == data["drawn"]["rows"]["left_skin_to_spar"]["margin"] == one["margin"]
    assert data["caution"]


def test_strictly_it_is_short_where_a_rule_is_not_met(here, capsys):
    assert run(capsys, *SPAR, "--rivet", "large", "--strict", "--no-page")[0] == 1
    assert run(capsys, *SPAR, "--rivet", "large", "--edge", "8", "--strict", "--no-page")[0] == 0


def test_the_small_file(here, capsys):
    code, out, _ = run(capsys, "rivets", "rudder_rivets.toml", "--no-page")
    assert code == 0
    assert "RIVETS COMPARED  left skin to spar, right skin to spar" in out
    assert "32 alternatives" in out
    wider = run(capsys, "rivets", "rudder_rivets.toml", "--pitch", "50", "--row", "trailing_edge", "--no-page")[1]
    assert "RIVETS COMPARED  trailing edge" in wider
    assert "8 alternatives" in wider


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('rows = ["a"]\n', 'study.toml, based_on: needs based_on = "rudder.toml"'),
        (f'{EDGE}pich = ["25 mm"]\n', 'study.toml, line 3, pich: unknown word "pich". Nearest: pitch.'),
        (f'{EDGE}pitch = ["25"]\n', "study.toml, line 3, pitch: 25 has no unit"),
        (f'{EDGE}lines = ["2"]\n', "a bare whole number is meant here"),
        (f"{EDGE}pitch = []\n", "study.toml, line 3, pitch: the list is empty"),
        (f'{EDGE}drilled_at = "0 mm"\n', "study.toml, line 3, drilled_at: 0 mm; it must be above 0: measure it again"),
        (f'{EDGE}drilled_at = "2 m"\n', "drilled_at: row.trailing_edge: a pitch of 2000 mm is longer than the row"),
        ('based_on = "gone.toml"\nrows = ["trailing_edge"]\n', "gone.toml"),
    ],
)  # fmt: skip
def test_a_small_file_that_is_wrong(here, capsys, text, says):
    (here / "study.toml").write_text(text, encoding="utf-8")
    code, out, err = run(capsys, "rivets", "study.toml")
    assert (code, out) == (2, "")
    assert says in err
    assert err.endswith("nothing was written\n")
    assert "Traceback" not in err


def test_other_files_are_no_such_file(here):
    assert read_study("rudder.toml") is None
    assert read_study("rudder_pitch_30.toml") is None
    assert read_study("nowhere.toml") is None


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["rivets", "rudder.toml", "--pitch", "25"], "say which row, --row NAME, several times"),
        ([*SPAR, "--pitch"], "argument --pitch: expected at least one argument"),
        ([*SPAR, "--pitch", "2,5"], '--pitch: "2,5" has a comma. Write "2.5".'),
        ([*SPAR, "--lines", "two"], '--lines: "two" is no whole number'),
        ([*SPAR, "--rivet", "smal"], 'no rivet is called "smal". Nearest: "small".'),
        ([*SPAR, "--pitch", "20", "25", "--edge", "6", "7", "--most", "3"], "4 alternatives (2 pitch, 2 edge); 3"),
        ([*SPAR, "--drilled-at", "0"], "drilled_at: 0 mm; it must be above 0: measure it again, from hole to hole"),
        ([*SPAR, "--drilled-at", "-5"], "drilled_at: -5 mm; it must be above 0"),
        ([*SPAR, "--drilled-at", "2000"], "row.left_skin_to_spar: a pitch of 2000 mm is longer than the row"),
        ([*SPAR, "--drilled-at", "20000"], "drilled_at: 20000 mm; 1 to 10000 mm is looked at. Is the unit right?"),
        (["rivets", "nowhere.toml", "--row", "a"], "nowhere.toml"),
    ],
)  # fmt: skip
def test_bad_input_is_one_clear_line(here, capsys, words, says):
    code, out, err = run(capsys, *words)
    assert (code, out) == (2, "")
    assert says in err
    assert len(err.strip().split("\n")) == 2


FOUR = [*SPAR, "--pitch", "20", "30", "--rivet", "small", "large"]


def interrupt_at(monkeypatch, block):
    """Let the keyboard interrupt while a rivet of the lists is worked."""
    from surfacecheck.studies.riveting._rivets_fill import RowFilling

    work = RowFilling.block

    def one(self, assessment, where):
        if self.alternatives.pitch is not None and where == block:
            raise KeyboardInterrupt
        work(self, assessment, where)

    monkeypatch.setattr(RowFilling, "block", one)


def test_stopped_it_shows_what_was_finished(here, capsys, monkeypatch):
    """Table and page, and the code of a stopped command."""
    interrupt_at(monkeypatch, (0, 1, 0))
    code, out, err = run(capsys, *FOUR)
    assert (code, err) == (130, "")
    assert fits(out.split("PAGE")[0])
    said = "Stopped: 2 of 4 alternatives were finished, and only they are here."
    assert said in " ".join(out.split())
    assert said in (here / "out" / "rudder_rivets.html").read_text(encoding="utf-8")
    code, out, _ = run(capsys, *FOUR, "--json")
    assert code == 130
    assert [one["has"]["rivet"] for one in json.loads(out)["alternatives"]] == ["small", "small"]


def test_stopped_before_anything_was_finished_it_says_so(here, capsys, monkeypatch):
    interrupt_at(monkeypatch, (0, 0, 0))
    code, out, err = run(capsys, *FOUR)
    assert (code, out, err) == (130, "", "stopped: not one alternative was finished\n")
    assert not (here / "out").exists()


@pytest.mark.parametrize(
    ("where", "more", "said"),
    [
        ("studies.rivets_text", (), "stopped: what was finished is shown, no page was written\n"),
        ("studies.rivets_data", ("--json",), "stopped: what was finished is shown\n"),
        ("report.rivets_page", (), "stopped: what was finished is shown, no page was written\n"),
    ],
)
def test_stopped_after_all_was_worked_it_is_shown_first(here, capsys, monkeypatch, where, more, said):
    """Ctrl-C while the table or the page is made: the table is there whole."""
    module, name = where.split(".")
    place = importlib.import_module(f"surfacecheck.{module}")
    make = getattr(place, name)

    def one(*given):
        signal.raise_signal(signal.SIGINT)
        return make(*given)

    whole = run(capsys, *FOUR, "--no-page", *more)[1].rpartition("NEXT")[0]
    monkeypatch.setattr(place, name, one)
    code, out, err = run(capsys, *FOUR, *more)
    assert (code, err) == (130, said)
    assert out.startswith(whole.rstrip())
    assert out.rstrip()
    assert not (here / "out").exists()
