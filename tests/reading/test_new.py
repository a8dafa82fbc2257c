"""A file to start from."""

import tomllib
from pathlib import Path

import jsonschema
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.reading import (
    read,
    read_text,
    starting_file,
    surface_schema,
    write_new,
)

NEW = [
    {},
    {"kind": "elevator", "half": "left", "units": "inch", "hinges": 2},
    {"kind": "aileron", "half": "right", "hinges": 5, "ribs": 9, "name": 'A "quoted" \\ <b>\n\x07'},
]


@pytest.mark.parametrize("choices", NEW, ids=["rudder", "elevator", "aileron"])
def test_a_new_file_is_valid_at_once(choices: dict) -> None:
    text = starting_file(**choices)
    surface = read_text(text, "new.toml")
    assert len(surface.hinges) == choices.get("hinges", 3)
    assert surface.kind == choices.get("kind", "rudder")
    assert surface.remarks == ()
    assert {"load.pressure", "outline.lap"} <= set(surface.gaps)
    jsonschema.Draft4Validator(surface_schema()).validate(tomllib.loads(text))
    assert text.startswith("#:schema ./surface.schema.json\n")
    if "name" in choices:
        assert surface.name == choices["name"].strip()


@pytest.mark.parametrize(
    ("choices", "message"),
    [
        ({"hinges": 1}, "1 hinges: 2 to 8"), ({"ribs": 0}, "0 ribs"),
        ({"kind": "flap"}, '^kind "flap": rudder, elevator, aileron, and no other$'),
        ({"kind": "elevator"}, "^an elevator has halves, and this file is of one: say --half left or --half right$"),
        ({"kind": "aileron", "half": "upper"}, '^half "upper": none, left, right, and no other$'),
        ({"half": "left"}, '^half "left": a rudder has none, leave it out$'),
        ({"units": "si"}, '^units "si": metric, inch, and no other$'),
    ],
)  # fmt: skip
def test_a_new_file_of_what_is_not_possible(choices: dict, message: str) -> None:
    with pytest.raises(SurfaceError, match=message):
        starting_file(**choices)


def test_new_writes_the_schema_beside_and_never_overwrites(tmp_path: Path) -> None:
    target = write_new(tmp_path / "my.toml", hinges=4)
    assert sorted(one.name for one in tmp_path.iterdir()) == ["change.schema.json", "my.toml", "surface.schema.json"]
    assert len(read(target).hinges) == 4
    before = target.read_bytes()
    with pytest.raises(SurfaceError, match=r"my\.toml is there already and stays as it is"):
        write_new(target)
    with pytest.raises(SurfaceError, match="there is no folder"):
        write_new(tmp_path / "none" / "my.toml")
    with pytest.raises(SurfaceError, match="1 hinges"):
        write_new(tmp_path / "other.toml", hinges=1)
    assert target.read_bytes() == before
    assert len(list(tmp_path.iterdir())) == 3


@pytest.mark.parametrize("choices", NEW, ids=["rudder", "elevator", "aileron"])
def test_a_new_file_says_how_each_line_is_answered(choices: dict) -> None:
    """Lists, stops, metals and ribs have a form of their own; the right side is as the left until it is written out."""
    text = starting_file(**choices)
    for told in ("none, or [{ ", "; surface: add the line stop = { ", "2024-T3 clad", "or 12 deg inward", "rib 2",
                 "number of rivets on each rib"):  # fmt: skip
        assert told in text
    sheets = tomllib.loads(text)["sheet"]
    one, other = (
        ("left_skin", "right_skin") if choices.get("kind", "rudder") == "rudder" else ("top_skin", "bottom_skin")
    )
    assert sheets[other] == {"same_as": one}
    filled = text.replace('thickness = "?"', 'thickness = "0.5 mm"', 2)
    skins = read_text(filled).sheet
    assert skins.left_skin.thickness.si == skins.right_skin.thickness.si == 0.5e-3


def test_a_half_that_lies_flat_is_asked_in_its_own_words() -> None:
    flat, upright = starting_file("elevator", "left"), starting_file("rudder")
    assert "inner rib, outer rib" in flat
    assert "fin = what it hangs on: tailplane or wing" in flat
    for word in ("bottom rib", "top rib", "lowest edge", "to the left"):
        assert word in upright
        assert word not in flat
    assert read_text(flat.replace('joined_to = "?"', 'joined_to = "inner rib"')).horn.joined_to


def test_an_example_of_the_file_can_be_typed_as_it_stands() -> None:
    """What a comment offers is read without a fault."""
    text = starting_file("rudder")
    text = text.replace('stopped_at = "?"', 'stopped_at = "surface"\nstop = { up = "?", arm = "80 mm", side = "left" }')
    text = text.replace('leaves = "?"', 'leaves = "12 deg inward"').replace('joined_to = "?"', 'joined_to = "rib 2"')
    text = text.replace('holes = "?"', 'holes = [{ up = "300 mm", across = "25 mm" }]', 1)
    surface = read_text(text)
    assert surface.controls.stop.arm.si == 0.08
    assert surface.sheet.spar.holes[0].across.si == 0.025
