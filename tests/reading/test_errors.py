"""Every error a builder meets first: it names the file, the line and the key, and says what to write."""
# ruff: noqa: E501 - one slip a line is how they are read

import os
import re
from pathlib import Path

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read, read_text

RUDDER = (Path(__file__).parent / "files" / "rudder.toml").read_text(encoding="utf-8")
ELEVATOR = (Path(__file__).parent / "files" / "elevator.toml").read_text(encoding="utf-8")
LEFT = 'left_skin = { thickness = "0.50 mm (micrometer)"'


def faults(text: str) -> tuple:
    with pytest.raises(SurfaceError) as caught:
        read_text(text, "my.toml")
    assert all(fault.file == "my.toml" for fault in caught.value.faults if not fault.message.startswith("and "))
    return caught.value.faults


def line_of(text: str, piece: str) -> int:
    return text[: text.index(piece)].count("\n") + 1


#: What is typed over, what is typed, the key that is named, the message.
SLIPS = [
    (LEFT, 'left_skin = { thickness = "0,5 mm"', "sheet.left_skin.thickness", '"0,5 mm" has a comma. Write "0.5 mm".'),
    (LEFT, "left_skin = { thickness = 0.5", "sheet.left_skin.thickness",
     '0.5 has no unit. Write "0.5 mm" or "0.020 in", with quotes.'),
    (LEFT, 'left_skin = { thickness = "0.5"', "sheet.left_skin.thickness",
     '0.5 has no unit. Write "0.5 mm" or "0.020 in", with quotes.'),
    (LEFT, 'left_skin = { thickness = "0.5 m"', "sheet.left_skin.thickness",
     '"0.5 m" is 500 mm thick; sheet is usually 0.3 to 1.2 mm. Did you mean "0.5 mm"?'),
    ('lap = "14 mm (ruler)"', 'lap = "1 1/8 in"', "outline.lap",
     '"1 1/8 in" is two numbers. Write "1.125 in" or "9/8 in".'),
    ('hole = "3.3 mm (drill)"', 'hole = "#30"', "rivet.small.hole",
     '"#30" is a drill, not a length: #30 is "3.26 mm" or "0.1285 in".'),
    ('hole = "3.3 mm (drill)"', 'hole = "20 ga (drill)"', "rivet.small.hole", '"20 ga" is a gauge number, not a length'),
    ('shear = "1250 N (sheet 7)"', 'shear = "150 lb"', "rivet.large.shear",
     '"150 lb" is a mass; a force is asked. Write "150 lbf" (or "667 N").'),
    (LEFT, 'left_skin = { thicknes = "0.50 mm"', "sheet.left_skin.thicknes",
     'unknown word "thicknes". Nearest: thickness. Allowed here: thickness, alloy.'),
    ('up = "1010 mm (tape)"', 'up = "1180 mm (tape)"', "hinge.top.up",
     "hinge.top is at 1180 mm, the surface ends at 1100 mm."),
    ('rivet = "small"', 'rivet = "smal"', "row.left_skin_to_spar.rivet",
     'rivet "smal" is not in [rivet]. Here: small, large. Own one: give diameter, hole, shear, pull and where from.'),
    ('edge = { left_skin = "7.0 mm", nose', 'edge = { left_skin = "1.5 mm", nose', "row.left_skin_to_spar.edge.left_skin",
     "edge 1.5 mm puts a 3.3 mm hole over the sheet edge. Centre to edge is meant; use edge_from_rim for rim to edge."),
    ('to = "190 mm"', 'to = "1080 mm"', "row.doubler_to_spar.to",
     'doubler_to_spar runs to 1080 mm; the doubler it joins ends at 200 mm: from there it joins nothing. Give "to" or'),
    ('from = "10 mm"', 'from = "0 mm"\nrivet_ = 1', "row.doubler_to_spar.rivet_", 'unknown word "rivet_". Nearest: rivet.'),
    ('up = "1100 mm", fin', 'up = "0 mm", fin', "outline.at[2].up", "0 mm comes after 0 mm: places go up"),
    ('web_behind = "25 mm", edge_behind = "420 mm"', 'web_behind = "200 mm", edge_behind = "180 mm"',
     "outline.at[1].edge_behind", "the trailing edge (180 mm) is not behind the web (200 mm)."),
    ('up = "560 mm (tape)"', 'up = "90 mm"', "hinge.middle.up", "both at 90 mm: two hinges at one place."),
    ('bracket = "plate"', 'bracket = "plat"', "hinge.bottom.bracket", 'bracket "plat" is not in [bracket]. Here: plate.'),
    ('alloy = "2024-T3 clad (drawing)"', 'alloy = "2024T3 clad"', "sheet.left_skin.alloy",
     'alloy "2024T3 clad" is not known. Nearest: "2024-T3 clad". Own one: [alloy.mine]'),
    ('joins = ["nose_skin", "ribs"]', 'joins = ["left_skin", "right_skin", "ribs"]', "row.nose_skin_to_ribs.joins",
     "left_skin and right_skin meet at the trailing edge only; ribs is not there. Give two rows."),
    ('joins = ["bottom_doubler", "spar"]', 'joins = ["bottom_doubler", "left_skin"]', "row.doubler_to_spar.joins",
     "bottom_doubler and left_skin do not meet. Give other parts, or leave the row out."),
    ('trailing_edge = "riveted shut"', 'trailing_edge = "open"', "row.trailing_edge.joins",
     'left_skin and right_skin do not meet: trailing_edge is "open"'),
    ('in_nose = "yes"', 'in_nose = "no"', "row.nose_skin_to_ribs.joins", 'nose_skin and ribs do not meet: in_nose is "no"'),
    ('joins = ["nose_skin", "ribs"]', 'joins = ["nose_skin", "rips"]', "row.nose_skin_to_ribs.joins",
     'unknown word "rips". Nearest: ribs.'),
    ('joins = ["nose_skin", "ribs"]', 'joins = ["ribs"]', "row.nose_skin_to_ribs.joins", "joins two parts or more"),
    ('joins = ["nose_skin", "ribs"]', 'joins = ["nose_skin", "ribs", "ribs"]', "row.nose_skin_to_ribs.joins", "twice"),
    ('out_of_line = "0 mm (thread)"', 'out_of_line = "0.8 mm"', "hinge.bottom.out_of_line",
     'which way? Write "0.8 mm left" or "0.8 mm right".'),
    ('out_of_line = "0 mm (thread)"', 'out_of_line = "0.8 mm up"', "hinge.bottom.out_of_line", '"up" is no way here'),
    ('out_of_line = "0 mm (thread)"', 'out_of_line = "-0.8 mm"', "hinge.bottom.out_of_line",
     '"-0.8 mm" has a minus. Write the side: "0.8 mm left" or "0.8 mm right".'),
    ('spar_depth = "60 mm"', 'spar_depth = "60 mm left"', "outline.at[1].spar_depth", 'no side is asked here. Write "60 mm".'),
    ('spar_depth = "60 mm"', 'spar_depth = "-60 mm"', "outline.at[1].spar_depth",
     '"-60 mm" is below zero; it is counted from zero up.'),
    ('spar_depth = "60 mm"', 'spar_depth = "none"', "outline.at[1].spar_depth", '"none" is no answer here'),
    ('spar_depth = "60 mm"', 'spar_depth = ""', "outline.at[1].spar_depth", 'empty: write "?"'),
    ('spar_depth = "60 mm"', "spar_depth = nan", "outline.at[1].spar_depth", "nan is no number"),
    ('spar_depth = "60 mm"', "spar_depth = inf", "outline.at[1].spar_depth", "inf is no number"),
    ('spar_depth = "60 mm"', "spar_depth = true", "outline.at[1].spar_depth", "true is no number with a unit"),
    ('spar_depth = "60 mm"', "spar_depth = 2024-01-01", "outline.at[1].spar_depth", "no number with a unit"),
    ('spar_depth = "60 mm"', 'spar_depth = ["60 mm"]', "outline.at[1].spar_depth", "one value is meant here"),
    ('spar_depth = "60 mm"', 'spar_depth = "1e300 mm"', "outline.at[1].spar_depth", "Is the unit right?"),
    ('spar_depth = "60 mm"', 'spar_depth = "0 mm"', "outline.at[1].spar_depth", '"0 mm" is nothing: write "?"'),
    ('lap = "14 mm (ruler)"', 'lap = "0 mm"', "outline.lap", '"0 mm" is nothing: write "none" if there is none.'),
    ("along = 3 ", 'along = "3" ', "bracket.plate.along", '"3" is counted: write a bare whole number, without quotes: 3'),
    ("along = 3 ", 'along = "three" ', "bracket.plate.along", '"three" is counted: write a bare whole number, such as 3'),
    ('rib_behind = "yes"', "rib_behind = true", "hinge.bottom.rib_behind", 'words in quotes are meant here, such as "yes"'),
    ('side = "both"   ', 'side = "left"   ', "horn.side",
     'this side does not go with driven_by = "two cables": two cables take hold on both sides ("both"), a rod on one.'),
    ('pitch = "25 mm (drawing)"', 'pitch = "1500 mm"', "row.left_skin_to_spar.pitch",
     '"1500 mm" is 1500 mm; it is usually 10 to 80 mm. Is the unit right?'),
    ("along = 3 ", "along = 3.5 ", "bracket.plate.along", "3.5 is counted"),
    ("along = 3 ", "along = 0 ", "bracket.plate.along", "0 is not a number of rivets along the line of the pins: 1 to 20"),
    ("along = 3 ", "along = true ", "bracket.plate.along", "write a bare whole number"),
    ("form = 1", "form = 2", "form", "form 2 is of a newer surfacecheck; this one reads 1: fetch the newer one"),
    ("form = 1", "form = 0", "form", "form is 1: the form this file is written in"),
    ("form = 1", 'form = "1"', "form", "form is 1: the form this file is written in"),
    ('kind = "rudder"', 'kind = "flap"', "kind", 'unknown word "flap". Allowed here: rudder, elevator, aileron.'),
    ('kind = "rudder"', 'kind = "?"', "kind", "kind decides what every word means"),
    ('half = "none"', 'half = "left"', "half", "a rudder has no halves"),
    ('level = "limit"', 'level = "limits"', "load.level", 'unknown word "limits". Nearest: limit. Allowed here: limit, ult'),
    ('level = "limit"', "level = 1", "load.level", "words in quotes are meant here"),
    ('hole_range = ["3.3 mm (packet)", "3.4 mm (packet)"]', 'hole_range = ["3.3 mm"]', "rivet.small.hole_range",
     "2 values are meant here (least and largest hole), not 1"),
    ('hole_range = ["3.3 mm (packet)", "3.4 mm (packet)"]', 'hole_range = "3.3 mm"', "rivet.small.hole_range",
     "a list in square brackets is meant here"),
    ('same_as = "middle"', 'same_as = "top"', "hinge.top.same_as", "top copies top: nobody has the lines."),
    ('same_as = "middle"', 'same_as = "mid"', "hinge.top.same_as", 'same_as "mid" is no neighbour of top. Here: bottom, mid'),
    ('same_as = "middle"', "same_as = 3", "hinge.top.same_as", "needs the name of a neighbour"),
    ('pitch = "25 mm (drawing)"', 'pitch = "3 mm"', "row.left_skin_to_spar.pitch", "would run together"),
    ('pitch = "25 mm (drawing)"', 'pitch = "25 mm"\ncount = 43', "row.left_skin_to_spar.count", "give one of them"),
    ('to = "1080 mm"', 'to = "1180 mm"', "row.left_skin_to_spar.to", "the surface ends at 1100 mm"),
    ('to = "1080 mm"', 'to = "10 mm"', "row.left_skin_to_spar.to", '"to" (10 mm) is not beyond "from" (20 mm).'),
    ('to = "200 mm"', 'to = "0 mm"', "sheet.bottom_doubler.to", 'is not beyond "from" (0 mm)'),
    ('on = "spar web"', 'on = "spar wed"', "sheet.bottom_doubler.on", "Nearest: spar web."),
    ("[sheet.bottom_doubler]", "[sheet.bottom_dubler]", "sheet.bottom_dubler", "Allowed here: left_skin"),
    ('joined_to = "bottom rib"', 'joined_to = "botom rib"', "horn.joined_to", "Nearest: bottom rib."),
    ('leaves = "straight ahead"', 'leaves = "sideways"', "horn.leaves", 'write "straight ahead", or an angle'),
    ('leaves = "straight ahead"', 'leaves = "95 deg up"', "horn.leaves", "0 to 89 deg"),
    ('leaves = "straight ahead"', 'leaves = "12 mm up"', "horn.leaves", "an angle is asked"),
    ('"90 mm", "325 mm"', '"325 mm", "90 mm"', "sheet.ribs.up[3]", "90 mm comes after 325 mm: ribs go up"),
    ('"1010 mm", "1100 mm"]', '"1010 mm", "1200 mm"]', "sheet.ribs.up[7]", "the surface ends at 1100 mm"),
    ('["up", "up", "up", "up", "up", "up", "down"]', '["up", "down"]', "sheet.ribs.flanges_point", "7 ribs and 2 words"),
    ('bending_stiffness = "?"', "moves = [[1.0, 0.5], [0.5, 2.0]]", "fin.moves", "2 lines for 3 hinges"),
    ('bending_stiffness = "?"', "moves = [[1, 2, 3], [9, 1, 1], [1, 1, 1]]", "fin.moves", "both are equal"),
    ('bending_stiffness = "?"', "moves = [[1, 2], [2]]", "fin.moves", "a line for each hinge"),
    ('pressure = "1.20 kPa (designer\'s letter)"', 'pressure = "1.2 kPa"\ntotal = "475 N"', "load.total", "more than once"),
    ('bolt_edge = "10 mm"', 'bolt_edge = "2.4 mm"', "horn.plate.bolt_edge", "over the sheet edge"),
    ('edge = "12 mm (caliper)"', 'edge = "2.5 mm"', "bracket.plate.pin.edge", "edge 2.5 mm puts a 6.0 mm hole"),
    ('edge = { bracket = "8.0 mm"', 'edge = { web = "8.0 mm"', "bracket.plate.edge", 'unknown word "web"'),
    ("[hinge.top]", '[hinge."to p"]', "hinge", "letters, figures, _ and - only"),
    ("[weighed]", "[weighted]", "weighted", "Nearest: weighed."),
    ("form = 1", 'form = 1\ntitle = "x"', "title", "title belongs to a change file"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "key", "message"), SLIPS, ids=[f"{new[:40]}" for _, new, _, _ in SLIPS])
def test_each_slip_is_named_with_line_and_key(old: str, new: str, key: str, message: str) -> None:
    text = RUDDER.replace(old, new, 1)
    assert text != RUDDER
    found = [fault for fault in faults(text) if fault.key == key]
    assert found, [str(fault) for fault in faults(text)]
    assert message in found[0].message
    line = text.splitlines()[found[0].line - 1]
    assert key.rpartition(".")[2].partition("[")[0] in line
    typed = range(line_of(RUDDER, old), line_of(RUDDER, old) + new.count("\n") + 1)
    elsewhere = key in {"row.trailing_edge.joins", "row.nose_skin_to_ribs.joins"}
    assert found[0].line in typed or elsewhere


def test_of_a_newer_form_nothing_else_is_judged() -> None:
    """Its words may be new ones: one line, not five."""
    newer = RUDDER.replace("form = 1", "form = 9").replace("[hinge.bottom]", '[glued]\nby = "hand"\n[hinge.bottom]')
    (found,) = faults(newer)
    assert found.key == "form"
    assert "newer surfacecheck" in found.message


def test_the_message_begins_with_file_line_and_key() -> None:
    text = RUDDER.replace(LEFT, 'left_skin = { thickness = "0,5 mm"')
    line = line_of(text, '"0,5 mm"')
    with pytest.raises(SurfaceError) as caught:
        read_text(text, "my.toml")
    assert str(caught.value) == (
        f'my.toml, line {line}, sheet.left_skin.thickness: "0,5 mm" has a comma. Write "0.5 mm".'
    )


@pytest.mark.parametrize(
    ("text", "line", "message"),
    [
        ("", 0, "the file is empty"),
        (" \n\n", 0, "the file is empty"),
        ("form = 1\n", 0, "kind is missing: write one of rudder, elevator, aileron"),
        ('kind = "rudder\nhalf = "none"\n', 1, 'quote missing: the line starts with " and never closes it.'),
        ('kind = "rudder"\nhalf = "none', 2, 'quote missing: the line starts with " and never closes it.'),
        ('kind = "rudder" # "\nhalf = none\n', 2, 'none needs quotes: "none".'),
        ("kind = rudder\n", 1, 'rudder needs quotes: "rudder".'),
        ('kind = "rudder"\n[sheet.spar]\nthickness = 0.5 mm\n', 3, '0.5 mm needs quotes: "0.5 mm".'),
        ('kind = "rudder"\n[sheet.spar]\nthickness = ?\n', 3, '? needs quotes: "?".'),
        ('kind = "rudder"\nkind = "rudder"\n', 2, "kind stands twice: keep one."),
        ('kind = "rudder"\n[load]\nlevel = "limit"\n[load]\n', 4, "stands twice"),
        ("kind = “rudder”\n", 1, "typographic quotes"),
        ('kind = "rudder"\nthis is a rudder\n', 2, "is no line of such a file"),
        ('kind = "rudder"\nx = [1, 2\n', 2, "not readable from here: a ] is missing, here or above."),
        ('kind = "rudder"\n[hinge.a]\nup = "3 mm"\n', 2, "one hinge holds nothing sideways: give at least two."),
        ('kind = "elevator"\n', 0, 'an elevator has halves: write half = "left" or half = "right"'),
        ('kind = "rudder"\n[outline]\nat = [{ up = "0 mm" }]\n', 3, "one place has no length"),
        ('kind = "rudder"\nhinge = 3\n', 2, "a table is meant here"),
        ('kind = "rudder"\nload = 3\n', 2, "a table is meant here"),
        ('kind = "rudder"\nsheet = 3\n', 2, "tables are meant here"),
        ('kind = "rudder"\n[[load]]\nlevel = "limit"\n', 2, "a table is meant here"),
        ('kind = "rudder"\nx = ' + "[" * 5000 + "]" * 5000, 0, "brackets within brackets without end"),
        ('kind = "rudder"\nx = ' + "{a=" * 30 + "1" + "}" * 30, 0, "brackets within brackets without end"),
        ('kind = "rudder"\nform = ' + "9" * 5000, 0, "a number in it is too long to be read"),
        ('based_on = "x.toml"\n', 1, "this is text without a folder"),
        ('kind = "rudder"\n[[happened]]\nwhat = "x"\n', 2, "happened belongs to a change file"),
    ],
)  # fmt: skip
def test_broken_files_say_where(text: str, line: int, message: str) -> None:
    found = faults(text)
    assert message in found[0].message
    assert found[0].line == line


def test_not_utf8_and_too_large(tmp_path: Path) -> None:
    path = tmp_path / "my.toml"
    path.write_bytes(b'kind = "rudder"\nname = "B\xfccher"\n')
    with pytest.raises(SurfaceError, match=r"my\.toml, line 2: not UTF-8"):
        read(path)
    path.write_bytes(b"#" * 1_000_001)
    with pytest.raises(SurfaceError, match=r"my\.toml: 1\.0 MB is too large"):
        read(path)
    with pytest.raises(SurfaceError, match="too large"):
        read_text("#" * 1_000_001)
    with pytest.raises(SurfaceError, match="half a character"):
        read_text('kind = "\ud800"')


def test_a_file_that_is_not_there_names_its_neighbours(tmp_path: Path) -> None:
    (tmp_path / "other.toml").write_text('kind = "rudder"\n')
    with pytest.raises(SurfaceError, match=r"my\.toml: cannot be read.* In that folder: other\.toml"):
        read(tmp_path / "my.toml")
    with pytest.raises(SurfaceError, match="is a folder, not a file"):
        read(tmp_path)
    with pytest.raises(SurfaceError):
        read(tmp_path / "a\0b.toml")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_no_file(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    with pytest.raises(SurfaceError, match="is a device or a pipe"):
        read(tmp_path / "pipe.toml")


def test_a_long_ring_of_neighbours_ends(tmp_path: Path) -> None:
    names = [f"h{at}" for at in range(3000)]
    ring = "".join(
        f'[hinge.{one}]\nsame_as = "{other}"\n' for one, other in zip(names, names[1:] + names[:1], strict=True)
    )
    with pytest.raises(SurfaceError):
        read_text('kind = "rudder"\n' + ring)


def test_many_faults_are_cut_at_five_in_the_order_of_the_file() -> None:
    text = RUDDER.replace(" mm", ",0 mm")
    found = faults(text)
    assert len(found) == 6
    assert found[-1].message.startswith("and ")
    assert [fault.line for fault in found[:5]] == sorted(fault.line for fault in found[:5])


def test_a_line_copied_by_same_as_is_at_fault_once() -> None:
    assert len(faults(RUDDER.replace(LEFT, 'left_skin = { thickness = "0,5 mm"'))) == 1


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('out = "38.0 in (tape)"', 'up = "38.0 in (tape)"', 'an elevator says "out" where another surface says "up".'),
        ("bottom_skin = {", "right_skin = {", 'an elevator says "bottom_skin" where another'),
        ("swings_top", "swings_left", 'an elevator says "swings_top"'),
        ('"out", "in"]', '"up", "in"]', 'an elevator says "out" where another surface says "up".'),
        ('side = "bottom"', 'side = "right"', 'an elevator says "bottom" where another surface says "right".'),
        (
            'leg_off_rivets = "0.25 in in"',
            'leg_off_rivets = "0.25 in"',
            'which way? Write "0.25 in out" or "0.25 in in".',
        ),
        ('leg_off_rivets = "0.25 in in"', 'leg_off_rivets = "0.25 in up"', '"up" is no way here'),
        ('half = "left"', 'half = "none"', 'an elevator has halves: write half = "left" or half = "right"'),
    ],
)
def test_a_flat_half_uses_its_own_words(old: str, new: str, message: str) -> None:
    text = ELEVATOR.replace(old, new, 1)
    assert text != ELEVATOR
    assert any(message in fault.message for fault in faults(text))


def test_a_rudder_does_not_say_out() -> None:
    text = RUDDER.replace('up = "1010 mm (tape)"', 'out = "1010 mm (tape)"')
    assert any('a rudder says "up" where another surface says "out".' in fault.message for fault in faults(text))


@pytest.mark.parametrize(("end", "count", "first"), [("1000 mm", 6, "hinge.top is at 1010 mm"),
                                                     ("110 mm", 12, "hinge.middle is at 560 mm")])  # fmt: skip
def test_one_wrong_end_of_the_surface_is_one_fault(end, count, first):
    """Hinges, ribs and rows that lie beyond it are its consequences, said on its line."""
    wrong = RUDDER.replace('{ up = "1100 mm', f'{{ up = "{end}')
    assert wrong != RUDDER
    with pytest.raises(SurfaceError) as caught:
        read_text(wrong)
    (fault,) = caught.value.faults
    assert fault.key == "outline.at[2].up"
    assert fault.line == next(i for i, line in enumerate(wrong.split("\n"), 1) if f'{{ up = "{end}' in line)
    assert fault.message.startswith(f"the surface ends at {end}, and {count} places lie outside: {first}")
    assert fault.message.endswith(f"and {count - 3} more. Is this place right?")


def test_two_things_beyond_the_end_are_two_faults():
    wrong = RUDDER.replace('up = "1010 mm', 'up = "1180 mm').replace('"1010 mm", "1100 mm"]', '"1010 mm", "1200 mm"]')
    with pytest.raises(SurfaceError) as caught:
        read_text(wrong)
    assert sorted(one.key for one in caught.value.faults) == ["hinge.top.up", "sheet.ribs.up[7]"]


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (
            'flanges_point = ["up"',
            'flanges_point = "up, up, down" # ["up"',
            'several words are a list: write ["up", "up", "down"]',
        ),
        ('hole_range = ["', 'hole_range = "4.1 to 4.2 mm" # ["', 'such as ["2.3 mm", "5.3 mm"]'),
        ('holes = "none"', 'holes = "one, 40 mm"', 'such as [{ up = "... mm", across = "... mm" }]'),
    ],
)
def test_a_list_is_shown_as_it_may_stand_there(old, new, told):
    assert old in RUDDER
    with pytest.raises(SurfaceError, match=re.escape(told)):
        read_text(RUDDER.replace(old, new, 1))


def test_a_rib_is_named_by_its_number_on_the_map_too():
    for number, place in ((1, "bottom rib"), (3, "rib at 325 mm"), (7, "top rib")):
        for word in (f"rib {number}", f"rib-{number}"):
            text = RUDDER.replace('joined_to = "bottom rib"', f'joined_to = "{word}"')
            assert read_text(text).horn.joined_to.startswith(place)
    with pytest.raises(SurfaceError, match='unknown word "rib 8"'):
        read_text(RUDDER.replace('joined_to = "bottom rib"', 'joined_to = "rib 8"'))


def test_a_copied_row_has_the_edges_of_its_own_parts():
    """same_as of the row on the other side, with its joins: each edge stands where its neighbour's stood."""
    cut = 'edge = { right_skin = "7.0 mm", nose_skin = "7.0 mm", spar = "7.0 mm" }'
    assert RUDDER.count(cut) == 1
    row = read_text(RUDDER.replace(cut, "")).rows["right_skin_to_spar"]
    other = read_text(RUDDER).rows["left_skin_to_spar"]
    assert set(row.edge) == {"right_skin", "nose_skin", "spar"}
    assert {part: value.si for part, value in row.edge.items()} == {
        "right_skin": other.edge["left_skin"].si,
        "nose_skin": other.edge["nose_skin"].si,
        "spar": other.edge["spar"].si,
    }
