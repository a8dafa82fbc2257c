"""Tools, rivet lengths and the side of the heads in the file: read, missed without a gap, refused in one line."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import jsonschema
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Face
from surfacecheck.reading import read, read_text, starting_file, surface_schema

DATA = Path(__file__).parents[2] / "data"
RUDDER = (DATA / "rudder.toml").read_text(encoding="utf-8")


def without(text: str) -> str:
    """The demo without anything of tools, lengths and heads."""
    text = re.sub(r"(?s)# what sets them.*?\n\n(?=# ---- E)", "\n", text)
    text = re.sub(r"(?s)lengths = \[.*?\n\]\n", "", text)
    return re.sub(r"heads = .*\n", "", text)


def test_the_demo_has_two_sizes_of_nose_with_their_tips() -> None:
    surface = read(DATA / "rudder.toml")
    noses = {name: tool.nose_radius.si for name, tool in surface.tools.items()}
    assert noses == {"puller": pytest.approx(0.005), "slim_puller": pytest.approx(0.004)}
    assert [[tip.said for tip in tool.tips] for tool in surface.tools.values()] == [["3.2 mm", "4.0 mm"]] * 2
    large = surface.rivets["large"].lengths
    assert large is not None
    assert [(one.length.said, *(end.said for end in one.grip)) for one in large] == [
        ("8 mm", "1.2 mm", "4.4 mm"), ("10 mm", "3.8 mm", "6.3 mm")
    ]  # fmt: skip
    assert surface.brackets["plate"].heads is Face.BEHIND


def test_leaving_them_out_is_no_gap() -> None:
    bare = without(RUDDER)
    assert "tool" not in bare.replace("[tool", "tool")[bare.index("[rivet.small]") :].split("# ---- E")[0]
    surface, whole = read_text(bare), read_text(RUDDER)
    assert surface.gaps == whole.gaps
    assert surface.tools == {}
    assert surface.rivets["large"].lengths is None
    assert surface.brackets["plate"].heads is None


def test_half_a_tool_is_no_gap_unless_it_is_asked() -> None:
    half = without(RUDDER) + '\n[tool.mine]\nnose_radius = "5 mm (caliper)"\n'
    assert not [key for key in read_text(half).gaps if key.startswith("tool")]
    asked = half + 'nose_long = "?"\n'
    assert [key for key in read_text(asked).gaps if key.startswith("tool")] == ["tool.mine.nose_long"]


@pytest.mark.parametrize("kind", ["rudder", "elevator"])
def test_the_starting_file_shows_a_tool_as_comment(kind: str) -> None:
    half = "none" if kind == "rudder" else "left"
    text = starting_file(kind, half)
    assert "# [tool.puller]" in text
    assert read_text(text).tools == {}
    opened = re.sub(r"(?m)^# (\[tool\.puller\]|nose_|body_radius|tips)", r"\1", text)
    surface = read_text(opened)
    assert set(surface.tools) == {"puller"}
    jsonschema.Draft4Validator(surface_schema()).validate(tomllib.loads(opened))
    filled = opened.replace('nose_radius = "?"', 'nose_radius = "5 mm"').replace(
        'tips = ["?", "?"]', 'tips = ["3.2 mm"]'
    )
    assert read_text(filled).tools["puller"].tips[0].si == pytest.approx(0.0032)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('nose_radius = "5.0 mm (caliper)"', 'nose_radius = "5,0 mm"', 'has a comma. Write "5.0 mm"'),
        ('nose_radius = "5.0 mm (caliper)"', 'nose_radius = "5 m"', "usually 2 to 15 mm"),
        ('nose_radius = "5.0 mm (caliper)"', 'nose_radus = "5 mm"', 'unknown word "nose_radus". Nearest: nose_radius'),
        ('tips = ["3.2 mm (marked)", "4.0 mm (marked)"]', 'tips = "3.2 mm"', "a list in square brackets is meant here"),
        ('heads = "behind"', 'heads = "left"', 'unknown word "left"'),
        ('{ length = "8 mm (sheet 7)", grip = ["1.2 mm (sheet 7)", "4.4 mm (sheet 7)"] }',
         '{ length = "8 mm", grip = ["1.2 mm"] }', "2 values are meant here"),
        ("[tool.puller]", "[tol.puller]", 'unknown word "tol". Nearest: tool'),
    ],
)  # fmt: skip
def test_slips(old: str, new: str, message: str) -> None:
    assert old in RUDDER
    with pytest.raises(SurfaceError) as error:
        read_text(RUDDER.replace(old, new, 1))
    assert message in str(error.value)
