"""A chordwise shape typed in the file."""

import tomllib
from pathlib import Path

import jsonschema
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.provenance import Basis
from surfacecheck.reading import read_text, starting_file, surface_schema

TEXT = (Path(__file__).parent / "files" / "rudder.toml").read_text(encoding="utf-8")
FADES = 'fades_aft = ["straight to zero", "curved to zero", "even"]'


def with_shape(shape: str, fades: str = '["as typed", "even"]') -> str:
    assert FADES in TEXT
    return TEXT.replace(FADES, f"fades_aft = {fades}\nshape = {shape}", 1)


def valid(text: str) -> bool:
    return jsonschema.Draft4Validator(surface_schema()).is_valid(tomllib.loads(text))


def test_points_become_fractions_of_the_loaded_chord() -> None:
    text = with_shape('[["0 %", "1 (letter)"], ["100/3 %", 1], ["100 % (ruler)", "0"]]')
    surface = read_text(text, "my.toml")
    points = surface.load.shape
    assert points is not None
    assert [(place.si, pressure.si) for place, pressure in points] == [
        (0.0, 1.0), (pytest.approx(1 / 3, rel=1e-15), 1.0), (1.0, 0.0)
    ]  # fmt: skip
    assert points[0][1].source.text == "letter"
    assert points[2][0].source.basis is Basis.MEASURED
    assert points[1][0].key == "load.shape[2][1]"
    assert surface.remarks == ()
    assert valid(text)


@pytest.mark.parametrize("shape", ['"?"', '[["0 %", "?"], ["100 %", "0"]]', '[["?", "1"], ["100 %", "0"]]'])
def test_a_shape_to_come_is_a_gap(shape: str) -> None:
    surface = read_text(with_shape(shape), "my.toml")
    assert surface.load.shape is None
    assert [gap for gap in surface.gaps if "shape" in gap] == ["load.shape"]
    assert valid(with_shape(shape))


def test_no_shape_is_asked_where_none_is_meant() -> None:
    assert "load.shape" not in read_text(TEXT, "my.toml").gaps
    assert "load.shape" not in read_text(with_shape('"?"', '"even"'), "my.toml").gaps
    assert "load.shape" in read_text(TEXT.replace(FADES, 'fades_aft = "as typed"', 1), "my.toml").gaps


def test_a_shape_that_nothing_asks_for_is_remarked_on() -> None:
    surface = read_text(with_shape('[["0 %", "1"], ["100 %", "0"]]', '"even"'), "my.toml")
    assert surface.remarks == ('load.shape is not used: write "as typed" in fades_aft.',)


#: What is typed, the key that is named, the message, whether the schema finds it too.
SLIPS = [
    ('[["0 %", "1"], ["60 %", "1"], ["40 %", "1"], ["100 %", "0"]]', "load.shape",
     '"40 %" comes after "60 %": points go from 0 % to 100 %, each beyond the one before.', False),
    ('[["0 %", "1"], ["0 %", "1"], ["100 %", "0"]]', "load.shape", '"0 %" comes after "0 %"', False),
    ('[["0 %", "1"], ["120 %", "0"]]', "load.shape[2][1]",
     '"120 %" is not on the loaded chord: 0 % is where the load begins, 100 % the trailing edge.', False),
    ('[["-5 %", "1"], ["100 %", "0"]]', "load.shape[1][1]", '"-5 %" is not on the loaded chord', True),
    ('[["0 %", "1"], ["90 %", "0"]]', "load.shape",
     'the shape ends at "90 %": give the pressure at "100 %" too; nothing is "0".', False),
    ('[["10 %", "1"], ["100 %", "0"]]', "load.shape",
     'the shape begins at "10 %": give the pressure at "0 %" too', False),
    ('[["0 %", "0"], ["100 %", "0"]]', "load.shape", "the pressure is 0 all along", False),
    ('[["0 %", "1"], ["100 %", "-1"]]', "load.shape[2][2]", '"-1" has a minus: a typed shape presses one way', True),
    ('[["0 %", 1], ["100 %", -0.5]]', "load.shape[2][2]", '"-0.5" has a minus', True),
    ('[["0 %", "1"]]', "load.shape", "one point is no shape: give two or more", True),
    ("[]", "load.shape", "one point is no shape: give two or more", True),
    ('["0 %", "1"]', "load.shape", 'points along the chord are meant here, in pairs: [["0 %", "1"]', True),
    ('[["0 %", "1", "2"], ["100 %", "0"]]', "load.shape", "in pairs", True),
    ('"triangle"', "load.shape", "in pairs", True),
    ("1.0", "load.shape", "in pairs", True),
    ('[["0.4", "1"], ["100 %", "0"]]', "load.shape[1][1]",
     '"0.4" is no place along the chord: write "40 %", with the % and with quotes', True),
    ('[[0, "1"], ["100 %", "0"]]', "load.shape[1][1]", '"0" is no place along the chord', True),
    ('[["33,3 %", "1"], ["100 %", "0"]]', "load.shape[1][1]", '"33,3" has a comma. Write "33.3".', True),
    ('[["0 %", "1 kPa"], ["100 %", "0"]]', "load.shape[1][2]", "a number is asked", True),
    ('[["0 %", true], ["100 %", "0"]]', "load.shape[1][2]", "true is no number", True),
]  # fmt: skip


@pytest.mark.parametrize(("shape", "key", "message", "in_schema"), SLIPS, ids=[slip[0] for slip in SLIPS])
def test_slips(shape: str, key: str, message: str, in_schema: bool) -> None:
    text = with_shape(shape)
    with pytest.raises(SurfaceError) as caught:
        read_text(text, "my.toml")
    fault = caught.value.faults[0]
    assert (fault.file, fault.key) == ("my.toml", key)
    assert message in fault.message
    assert fault.line == text[: text.index("\nshape = ")].count("\n") + 2
    assert valid(text) is not in_schema


def test_the_starting_file_shows_how_to_type_one() -> None:
    text = starting_file("rudder")
    line = next(line for line in text.splitlines() if line.startswith("shape ="))
    assert '[["0 %", "1"], ["40 %", "1"], ["100 %", "0"]]' in line
    assert "as typed" in next(line for line in text.splitlines() if line.startswith("fades_aft ="))
    surface = read_text(text, "new.toml")
    assert "load.shape" not in surface.gaps
