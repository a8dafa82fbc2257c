"""``deviation`` and ``query``: the table, its page, the sheet for whoever decides; the same numbers in all of them."""

from __future__ import annotations

import contextlib
import io
import json
import re
import shutil
import time
from pathlib import Path

import pytest

from surfacecheck.assessment import CAUTION
from surfacecheck.cli import main

DATA = Path(__file__).parents[2] / "data"
FILES = ("rudder.toml", "rudder_oversize_hole.toml")


def fill(folder):
    for name in (*FILES, "rudder_pitch_30.toml"):
        shutil.copy(DATA / name, folder)
    return folder


@pytest.fixture
def here(tmp_path, monkeypatch):
    """A folder with some demo files, as the present one."""
    monkeypatch.chdir(fill(tmp_path))
    monkeypatch.delenv("SURFACECHECK_CALLED_AS", raising=False)
    return tmp_path


def run(*words):
    """Run a command; give its code, output and complaints."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = main(list(words))
    return code, out.getvalue(), err.getvalue()


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    """Every output for the demo's hole, and how long the computer was at it [s]."""
    folder = fill(tmp_path_factory.mktemp("demo"))
    with contextlib.chdir(folder):
        start = time.process_time()
        found = {command: run(command, *FILES) for command in ("deviation", "query")}
        found["seconds"] = time.process_time() - start
        found |= {f"{command} json": run(command, *FILES, "--json") for command in ("deviation", "query")}
    return found | {"folder": folder}


def fits(text, columns=80):
    return text.isascii() and max(map(len, text.split("\n"))) <= columns


def one_line(text):
    return " ".join(text.split())


def test_the_table_fits_a_terminal_and_stands_on_the_page(told):
    code, out, err = told["deviation"]
    assert (code, err) == (0, "")
    assert fits(out)
    for block in ("HERE, lowest margin", "ANYWHERE", "RULES that change", "BALANCE", "MEASURED, AS IT IS NOW"):
        assert block in out
    assert "WHOLE SURFACE" not in out
    assert CAUTION in one_line(out)
    page = (told["folder"] / "out" / "rudder_oversize_hole_deviation.html").read_text()
    for margin in re.findall(r"[+-][0-9]+\.[0-9]{2}\b", out.split("MEASURED")[0]):
        assert margin in page
    assert page.count("<svg") == 1
    assert CAUTION in page


def test_the_same_numbers_in_json_table_sheet_and_its_page(told):
    data, sheet = (json.loads(told[f"{command} json"][1]) for command in ("deviation", "query"))
    lines = [line for line in data["lines"] if line["group"] == "place" and line["quantity"] == "margin"]
    group = lines[-1]
    assert group["name"] == "middle hinge, bracket"
    texts = [["none" if one is None else f"{one:+.2f}" for one in way] for way in group["values"]]
    shown = [" / ".join(dict.fromkeys(way)) for way in texts]
    assert all(one in told["deviation"][1] for one in shown)
    said = f"as drawn {shown[0]}; as it is {texts[1][0]} if it holds fully, {texts[1][1]} if it holds nothing"
    assert said in one_line(sheet["text"])
    (page,) = told["folder"].glob("out/*_query_*.html")
    assert said in one_line(page.read_text())
    assert [way["kind"] for way in data["ways"][:2]] == ["drawn", "now"]
    assert data["ways"][1]["outcome"] in one_line(told["deviation"][1])
    assert data["ways"][1]["outcome"] in one_line(sheet["text"])


def test_a_sheet_is_a_page_an_e_mail_and_a_log_entry(told):
    code, out, err = told["query"]
    assert (code, err) == (0, "")
    assert fits(out)
    paths = dict(re.findall(r"^(PAGE|TEXT|LOG) +(\S+)", out, re.MULTILINE))
    texts = {what: (told["folder"] / path).read_text() for what, path in paths.items()}
    assert fits(texts["TEXT"], 64)
    assert texts["TEXT"].strip() in out
    number = re.search(r"QUERY ([0-9A-F]{4}-1) ", out)[1]
    assert all(number in text for text in texts.values())
    assert f"QUERY {number} " in told["query json"][1]  # the same sheet again keeps its number


def test_both_take_less_than_three_seconds(told):
    """Of the processor, picture and sheet with it; starting Python takes a quarter of a second beside it."""
    assert told["seconds"] < 3.0


def test_more_of_the_table_and_other_units(here):
    out = run("deviation", *FILES, "--no-page", "--units", "inch", "--all")[1]
    assert fits(out)
    assert " lbf " in out
    assert out.count("WHOLE SURFACE") == 1
    assert not (here / "out").exists()


def test_strict_is_about_the_surface_as_it_is_now(here):
    assert run("deviation", *FILES, "--no-page", "--strict")[0] == 1


def test_a_drawing_alone_is_refused(here):
    for command in ("deviation", "query"):
        code, _, err = run(command, "rudder.toml")
        assert code == 2
        assert "surfacecheck happened rudder.toml" in one_line(err)


def test_a_change_of_values_alone_is_judged_anywhere(here):
    code, out, _ = run("deviation", "rudder.toml", "rudder_pitch_30.toml", "--no-page")
    assert code == 0
    assert "HERE, lowest margin: none" in out
    assert "as it is now (leave it): anywhere +0.10, carries what is required" in one_line(out)


def test_check_and_compare_say_that_they_do_not_look_at_it(here):
    out = one_line(run("compare", *FILES)[1])
    assert "rudder_oversize_hole.toml: what happened is not in these numbers" in out
    assert "NEXT surfacecheck deviation rudder.toml rudder_oversize_hole.toml" in out
    out = one_line(run("check", FILES[1], "--no-page")[1])
    assert "NEXT surfacecheck deviation rudder_oversize_hole.toml" in out
    assert run("deviation", FILES[1], "--no-page")[0] == 0


def test_a_later_sheet_says_what_is_new(here):
    first = re.search(r"QUERY (\S+)", run("query", *FILES)[1])[1]
    change = here / FILES[1]
    change.write_text(change.read_text().replace("4.60 mm (caliper)", "4.70 mm (caliper, 3 tries)"))
    for named in (first, f"out/{change.stem}_query_{first}.html"):
        out = one_line(run("query", *FILES, "--earlier", named)[1])
        assert f"QUERY {first[:5]}2 " in out
        assert f"New since {first}: " in out
        assert "largest 4.70 mm (caliper, 3 tries) (was 4.60 mm (caliper))" in out


@pytest.mark.parametrize(
    ("more", "match"),
    [
        (("--option", "9"), "option 9 is not there. Options: 1 "),
        (("--earlier", "ABCD-7"), "no such sheet in out"),
        (("--earlier", "rudder.toml"), "rudder"),
    ],
)
def test_what_cannot_be_is_said_in_one_line(here, more, match):
    code, _, err = run("query", *FILES, *more)
    assert code == 2
    assert match in one_line(err)
    assert "Traceback" not in err
    assert not (here / "out").exists()
