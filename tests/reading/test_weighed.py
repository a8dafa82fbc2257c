"""Lines for the scales: read, refused in one line, and no gap where they are left out."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import jsonschema
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read_text, surface_schema

RUDDER = (Path(__file__).parent / "files" / "rudder.toml").read_text(encoding="utf-8")
FLAT = (Path(__file__).parent / "files" / "elevator.toml").read_text(encoding="utf-8")


def rudder(*lines, **answers):
    """Return the rudder with answers of part G replaced and lines put in."""
    text = RUDDER
    for key, answer in answers.items():
        before = {"paint": '"none"'}.get(key, '"?"')
        head, part, rest = text.partition("[weighed]")
        assert f"{key} = {before}" in rest
        text = head + part + rest.replace(f"{key} = {before}", f'{key} = "{answer}"', 1)
    return text.replace("[weighed]\n", "[weighed]\n" + "".join(f"{line}\n" for line in lines), 1)


def test_what_is_left_out_is_no_gap():
    gaps = {one for one in read_text(RUDDER).gaps if one.startswith("weighed")}
    assert gaps == {"weighed.mass", "weighed.tail_push", "weighed.push_behind"}


def test_everything_the_sheet_asks_is_read():
    text = rudder(
        'rising = ["11.2 N (scale)", "1.15 kg (scale)"]',
        'sinking = "10.8 N (scale)"',
        'edge = "2 deg low (level)"',
        'tipped = { edge = "20 deg high (level)", rising = "10.3 N", sinking = "9.9 N" }',
        'scale_step = "1 g"',
        'maker_allows = ["20 lb in nose-heavy (manual)", "1.0 N m tail-heavy (manual)"]',
        'paint_by_area = "0.2 kg/m2 (plate weighed)"',
        'added = [{ what = "tab", mass = "120 g (scale)", behind = "395 mm", up = "300 mm" }, '
        '{ what = "lead", mass = "80 g", behind = "30 mm ahead" }]',
        'swing_time = "1.25 s (20 swings)"',
        'free_play = "1.5 mm (ruler)"',
        'gamma_allowed = "0.9 (figure 3)"',
        push_behind="360 mm (tape)",
    )
    jsonschema.Draft4Validator(surface_schema()).validate(tomllib.loads(text))
    found = read_text(text).weighed
    assert [one.si for one in found.rising] == [11.2, pytest.approx(1.15 * 9.80665)]
    assert [one.si for one in found.sinking] == [10.8]
    assert found.edge.si == pytest.approx(-math.radians(2.0))
    assert found.tipped.edge.si == pytest.approx(math.radians(20.0))
    assert [one.si for one in found.maker_allows] == [pytest.approx(-20 * 4.4482216 * 0.0254), 1.0]
    assert [(one.what, one.mass.si, one.behind.si) for one in found.added] == [
        ("tab", 0.12, pytest.approx(0.395)), ("lead", 0.08, pytest.approx(-0.03)),
    ]  # fmt: skip
    assert found.paint_by_area.source.text == "plate weighed"
    assert read_text(text).remarks == ()


def test_a_flat_half_says_out_for_up():
    line = 'added = [{ what = "tab", mass = "0.2 lb", behind = "9 in", out = "10 in" }]\n[balance_mass]'
    assert read_text(FLAT.replace("[balance_mass]", line, 1)).weighed.added[0].up.si == pytest.approx(0.254)


def test_one_reading_of_a_pair_asks_for_the_other():
    assert "weighed.sinking" in read_text(rudder('rising = "11.2 N"', push_behind="360 mm")).gaps
    tipped = 'tipped = { edge = "20 deg high", sinking = "9 N" }'
    assert "weighed.tipped.rising" in read_text(rudder(tipped, push_behind="360 mm")).gaps


PAIR = ('rising = "11.2 N"', 'sinking = "10.8 N"')


@pytest.mark.parametrize(
    ("lines", "answers", "message"),
    [
        (('rising = "10.8 N"', 'sinking = "11.4 N"'), {}, r"weighed\.sinking: sinking 11\.4 N is above rising 10\.8 N"),
        ((*PAIR, 'tipped = { edge = "20 deg high", rising = "9 N", sinking = "9.5 N" }'), {}, "Are the two swapped"),
        (('edge = "90 deg high"',), {}, r'weighed\.edge: "90 deg high" is too steep.*Allowed below 60 deg'),
        (('edge = "20 deg"',), {}, 'which way\\? Write "20 deg high" or "20 deg low"'),
        ((*PAIR, 'tipped = { edge = "3 deg low", rising = "9 N", sinking = "8 N" }'), {}, "hardly another tilt than"),
        ((), {"mass": "2.1 kg", "paint": "3 kg"}, r'weighed\.paint: "3 kg" of paint on a surface of 2\.1 kg'),
        (('paint_by_area = "0.2 kg/m2"',), {"paint": "0.2 kg"}, "the paint is given twice. Keep one"),
        (('paint_by_area = "20 kg/m2"',), {}, "usually 0.12 to 0.3 kg/m2"),
        ((), {"push_behind": "5 mm"}, "nothing but friction"),
        (('maker_allows = ["1 N m tail-heavy"]',), {}, "2 values are meant here"),
        (('maker_allows = ["1 N m", "2 N m tail-heavy"]',), {}, 'Write "1 N m tail-heavy" or "1 N m nose-heavy"'),
        (('added = [{ what = "tab", mass = "50 kg", behind = "0.3 m" }]',), {}, "usually 0.001 to 2 kg"),
        (('added = "tab"',), {}, "a list in square brackets"),
    ],
    ids=lambda one: "" if not isinstance(one, str) else one[:24],
)  # fmt: skip
def test_what_cannot_be_is_one_clear_line(lines, answers, message):
    with pytest.raises(SurfaceError, match=message) as caught:
        read_text(rudder(*lines, **answers))
    assert len(caught.value.faults) == 1
    assert caught.value.faults[0].line > 0


def test_equal_readings_are_taken():
    text = rudder('rising = "11.0 N"', 'sinking = "11.0 N"', push_behind="360 mm")
    assert [one.si for one in read_text(text).weighed.sinking] == [11.0]
