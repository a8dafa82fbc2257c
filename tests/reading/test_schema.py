"""The schema for editors: sound, current, and as strict as it can be."""

import tomllib
from pathlib import Path

import jsonschema
import pytest

from surfacecheck.reading import (
    change_schema,
    read,
    schema_text,
    study_schema,
    surface_schema,
)

DATA = Path(__file__).parents[2] / "data"
RUDDER = (Path(__file__).parent / "files" / "rudder.toml").read_text(encoding="utf-8")
SURFACES = ("rudder.toml", "elevator.toml")
EVENTS = tuple(sorted(path.name for path in DATA.glob("happened_*.toml")))
CHANGES = (
    "rudder_pitch_30.toml", "rudder_oversize_hole.toml", "elevator_open_edge.toml", "rudder_weighed.toml",
    "rudder_painted.toml", *EVENTS,
)  # fmt: skip


SCHEMAS = [("surface", surface_schema), ("change", change_schema), ("rivets", study_schema)]


@pytest.mark.parametrize(("name", "schema"), SCHEMAS)
def test_the_schemas_are_sound_and_the_stored_ones_are_current(name: str, schema) -> None:
    jsonschema.Draft4Validator.check_schema(schema())
    text = schema_text(schema())
    assert '"$defs"' not in text
    assert '"const"' not in text
    assert (DATA / f"{name}.schema.json").read_text(encoding="utf-8") == text


@pytest.mark.parametrize("name", [*SURFACES, *CHANGES])
def test_demo_files_keep_to_their_schema_and_read_without_remarks(name: str) -> None:
    schema = surface_schema() if name in SURFACES else change_schema()
    text = (DATA / name).read_text(encoding="utf-8")
    jsonschema.Draft4Validator(schema).validate(tomllib.loads(text))
    assert "nvented for the demo" in text
    assert text.startswith(f"#:schema ./{'surface' if name in SURFACES else 'change'}.schema.json\n")
    assert read(DATA / name).remarks == ()


def test_the_demo_study_keeps_to_its_schema() -> None:
    text = (DATA / "rudder_rivets.toml").read_text(encoding="utf-8")
    whole, validator = tomllib.loads(text), jsonschema.Draft4Validator(study_schema())
    validator.validate(whole)
    assert "nvented for the demo" in text
    assert text.startswith("#:schema ./rivets.schema.json\n")
    for wrong in ({"pitch": ["25"]}, {"pitch": []}, {"lines": ["2"]}, {"pich": ["25 mm"]}, {"head": ["round"]}):
        assert not validator.is_valid(whole | wrong), wrong


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('thickness = "0.80 mm (micrometer)"', "thickness = 0.8"),
        ('thickness = "0.80 mm (micrometer)"', 'thickness = "0,8 mm"'),
        ('thickness = "0.80 mm (micrometer)"', 'thicknes = "0.8 mm"'),
        ('level = "limit"', 'level = "limits"'),
        ("along = 3", 'along = "3"'),
    ],
)
def test_the_schema_finds_slips_too(old: str, new: str) -> None:
    text = RUDDER.replace(old, new, 1)
    assert not jsonschema.Draft4Validator(surface_schema()).is_valid(tomllib.loads(text))
