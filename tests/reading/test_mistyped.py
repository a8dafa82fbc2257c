"""A change that mistypes the name of a table is refused; one that adds a table is taken."""

from __future__ import annotations

from pathlib import Path

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read_text
from surfacecheck.reading._mistyped import refuse_mistyped
from surfacecheck.reading._toml import tree_of

DATA = Path(__file__).parents[2] / "data"


def laid(lines: str, base: str = "rudder.toml"):
    return read_text(f'based_on = "{base}"\n{lines}\n', "change.toml", DATA)


@pytest.mark.parametrize(
    ("base", "lines", "words"),
    [
        ("rudder.toml", '[row.left_skin_to_spr]\npitch = "30 mm"', ('row "left_skin_to_spr"', "left_skin_to_spar")),
        ("rudder.toml", '[row.left_skin_to_spr]\nrivet = "large"', ('row "left_skin_to_spr"', "left_skin_to_spar")),
        ("elevator.toml", '[row.left_skin_to_spar]\npitch = "30 mm"', ('row "left_skin_to_spar"', "top_skin_to_spar")),
        ("rudder.toml", '[rivet.smal]\nshear = "700 N"', ('rivet "smal"', "small")),
        ("rudder.toml", '[bracket.plat]\nthickness = "4 mm"', ('bracket "plat"', "plate")),
        ("rudder.toml", '[hinge.midle]\nup = "600 mm"', ('hinge "midle"', "middle")),
        ("rudder.toml", '[sheet.spra]\nthickness = "1 mm"', ('sheet "spra"', "spar")),
        ("rudder.toml", '[sheet.bottom_doubbler]\nto = "150 mm"', ('sheet "bottom_doubbler"', "bottom_doubler")),
    ],
)
def test_a_mistyped_table_is_refused(base: str, lines: str, words: tuple[str, str]) -> None:
    with pytest.raises(SurfaceError) as caught:
        laid(lines, base)
    (fault,) = caught.value.faults
    assert fault.message.startswith(f"unknown {words[0]}. Nearest: {words[1]}. Here: ")
    assert (fault.file, fault.line) == ("change.toml", 2)


def test_what_a_new_one_needs_is_said_in_the_words_of_the_surface() -> None:
    with pytest.raises(SurfaceError, match="A new hinge needs out, bracket, rib_behind"):
        laid('[hinge.iner]\nout = "700 mm"', "elevator.toml")


def test_each_mistyped_table_is_named() -> None:
    with pytest.raises(SurfaceError) as caught:
        laid('[rivet.smal]\nshear = "700 N"\n[hinge.midle]\nup = "600 mm"')
    assert {fault.key for fault in caught.value.faults} == {"rivet.smal", "hinge.midle"}


def test_a_new_table_is_taken_however_like_its_name_is() -> None:
    row = 'joins = ["left_skin", "ribs"]\nrivet = "small"\npitch = "30 mm"'
    surface = laid(f'[row.left_skin_to_ribs_2]\n{row}\n[hinge.middle_2]\nsame_as = "middle"\nup = "700 mm"')
    assert surface.rows["left_skin_to_ribs_2"].joins == ("left_skin", "ribs")
    assert surface.hinges["middle_2"].bracket == surface.hinges["middle"].bracket


def test_a_part_the_file_leaves_out_is_no_mistyped_one() -> None:
    spar = tree_of(b'[sheet.nose_skins]\nthickness = "1 mm"', "rudder.toml")
    refuse_mistyped(spar, tree_of(b'[sheet.nose_skin]\nthickness = "1 mm"', "change.toml"))
