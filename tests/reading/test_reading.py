"""What a sound file becomes."""

import math
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Around, DrivenBy, Half, Kind, RibFlangesPoint, RivetSet, StrengthIs, Units, YesNo
from surfacecheck.provenance import Basis
from surfacecheck.reading import (
    read,
    read_text,
    source_of,
)

FILES = Path(__file__).parent / "files"
RUDDER = (FILES / "rudder.toml").read_text(encoding="utf-8")
ELEVATOR = (FILES / "elevator.toml").read_text(encoding="utf-8")


def changed(old: str, new: str, text: str = RUDDER):
    assert old in text
    return read_text(text.replace(old, new, 1), "my.toml")


def test_the_rudder() -> None:
    rudder = read(FILES / "rudder.toml")
    assert (rudder.kind, rudder.half, rudder.units) == (Kind.RUDDER, Half.NONE, Units.METRIC)
    assert (rudder.drawing, rudder.who_decides, rudder.path) == ("R-10 issue B", "designer", "rudder.toml")
    assert list(rudder.hinges) == ["bottom", "middle", "top"]
    assert [one.up.si for one in rudder.hinges.values()] == pytest.approx([0.09, 0.56, 1.01])
    assert [one.takes_along for one in rudder.hinges.values()] == [YesNo.YES, YesNo.NO, YesNo.NO]
    assert rudder.load.pressure.si == pytest.approx(1200.0)
    assert rudder.load.wind_at_tiedown.si == pytest.approx(65 * 1852 / 3600)
    assert rudder.load.fades_aft == ("straight to zero", "curved to zero", "even")
    assert rudder.sheet.right_skin.thickness.si == rudder.sheet.left_skin.thickness.si == pytest.approx(0.0005)
    assert rudder.sheet.right_skin.thickness.key == "sheet.right_skin.thickness"
    assert rudder.sheet.nose_skin.cut_at_hinge.si == pytest.approx(0.07)
    assert (rudder.sheet.spar.lip.absent, rudder.sheet.spar.lip.si, rudder.sheet.spar.holes) == (True, 0.0, ())
    assert rudder.sheet.doublers["bottom_doubler"].start.si == 0.0
    assert rudder.sheet.ribs.flanges_point[-1] is RibFlangesPoint.DOWN
    assert rudder.rivets["small"].set is RivetSet.PULLED
    assert rudder.rivets["large"].strength_is is StrengthIs.LEAST
    assert rudder.rows["doubler_to_spar"].lines == 2
    assert list(rudder.rows["right_skin_to_spar"].edge) == ["right_skin", "nose_skin", "spar"]
    plate = rudder.brackets["plate"]
    assert (plate.along, plate.leg_off_rivets.si) == (3, pytest.approx(-0.006))
    assert rudder.horn is not None
    assert rudder.horn.driven_by is DrivenBy.TWO_CABLES
    assert rudder.horn.leaves is not None
    assert (rudder.horn.leaves.ahead, rudder.horn.leaves.inward.si, rudder.horn.leaves.up.si) == (True, 0.0, 0.0)
    assert rudder.remarks == ()


def test_what_is_not_known_is_listed() -> None:
    gaps = read(FILES / "rudder.toml").gaps
    assert {"rivet.small.shear", "rivet.small.grip[1]", "weighed.mass", "bracket.plate.pin.shear_strength"} <= set(gaps)
    assert "load.total" not in gaps
    assert "controls.wheel_across" not in gaps
    assert len(set(gaps)) == len(gaps)


def test_the_elevator_uses_its_own_words() -> None:
    elevator = read(FILES / "elevator.toml")
    assert (elevator.kind, elevator.half, elevator.units) == (Kind.ELEVATOR, Half.LEFT, Units.INCH)
    assert elevator.left_is == -1
    assert elevator.hinges["outer"].up.si == pytest.approx(38 * 0.0254)
    assert elevator.sheet.left_skin.thickness.key == "sheet.top_skin.thickness"
    assert elevator.rows["bottom_skin_to_spar"].joins == ("right_skin", "nose_skin", "spar")
    assert elevator.rows["bottom_skin_to_spar"].edge["right_skin"].key == "row.bottom_skin_to_spar.edge.bottom_skin"
    assert elevator.horn is not None
    assert (elevator.horn.side, elevator.horn.joined_to) == ("right", "bottom rib")
    assert elevator.brackets["plate"].leg_off_rivets.si == pytest.approx(-0.25 * 0.0254)
    assert elevator.sheet.ribs.holes is not None
    assert elevator.sheet.ribs.holes[0].across.si == pytest.approx(0.75 * 0.0254)
    assert elevator.gaps == ()
    pin = elevator.brackets["plate"].pin
    assert (pin.crushing_strength.known, pin.bearing_load.si) == (False, pytest.approx(900 * 4.4482216152605))
    assert elevator.weighed.tail_push.si == pytest.approx(1.5 * 4.4482216152605)


@pytest.mark.parametrize(
    ("words", "basis"),
    [
        ("micrometer", Basis.MEASURED), ("tape", Basis.MEASURED), ("drill shank, 3 tries", Basis.MEASURED),
        ("spring scale", Basis.MEASURED), ("pull test", Basis.MEASURED), ("paper strip", Basis.MEASURED),
        ("scale, 50 of them", Basis.MEASURED), ("drawing", Basis.DRAWING), ("drawing R-10, scale 1:5", Basis.DRAWING),
        ("Drawing", Basis.DRAWING), ("guess, from a photo", Basis.GUESS), ("guess: caliper was broken", Basis.GUESS),
        ("sheet 7", Basis.AS_SAID), ("packet", Basis.AS_SAID), ("designer's letter", Basis.AS_SAID),
        ("letter, not by caliper", Basis.AS_SAID), ("", Basis.NOT_SAID), (None, Basis.NOT_SAID),
    ],
)  # fmt: skip
def test_how_a_value_is_known(words: str | None, basis: Basis) -> None:
    assert source_of(words).basis is basis


def test_brackets_of_values_and_of_words() -> None:
    rudder = read(FILES / "rudder.toml")
    thickness = rudder.sheet.left_skin.thickness
    assert (thickness.said, str(thickness.source)) == ("0.50 mm", "measured: micrometer")
    assert rudder.sources["sheet.left_skin.alloy"].basis is Basis.DRAWING
    assert rudder.outline.pins_off_middle.source.basis is Basis.NOT_SAID
    assert changed('level = "limit"', 'level = "limit (letter)"').sources["load.level"].text == "letter"


def test_sides_get_a_sign() -> None:
    one = changed('out_of_line = "0 mm (thread)"', 'out_of_line = "0.8 mm right (thread)"').hinges["bottom"].out_of_line
    assert (one.si, one.said) == (pytest.approx(-0.0008), "0.8 mm right")
    assert changed('pins_off_middle = "0 mm"', 'pins_off_middle = "12 mm left"').outline.pins_off_middle.si > 0
    surface = changed('web_behind = "25 mm"', 'web_behind = "8 mm ahead"')
    assert surface.outline.places[0].web_behind.si == pytest.approx(-0.008)
    assert surface.outline.places[0].nose_ahead.si == pytest.approx(0.035)
    assert changed('bolt_behind = "0 mm"', 'bolt_behind = "8 mm ahead"').horn.bolt_behind.si == pytest.approx(-0.008)


@pytest.mark.parametrize(
    ("words", "ahead", "inward", "up"),
    [
        ("straight ahead", True, 0, 0), ("straight behind", False, 0, 0), ("12 deg inward", True, 12, 0),
        ("12 deg outward", True, -12, 0), ("5 deg up", True, 0, 5), ("5 deg down (template)", True, 0, -5),
        ("12 deg inward, 5 deg up", True, 12, 5), ("behind, 3 deg down and 2 deg inward", False, 2, -3),
    ],
)  # fmt: skip
def test_how_the_cable_leaves(words: str, ahead: bool, inward: float, up: float) -> None:
    leaves = changed('leaves = "straight ahead"', f'leaves = "{words}"').horn.leaves
    assert leaves.ahead is ahead
    assert math.degrees(leaves.inward.si) == pytest.approx(inward)
    assert math.degrees(leaves.up.si) == pytest.approx(up)
    assert {leaves.inward.said, leaves.up.said} == {words.partition(" (")[0]}  # the page lists it as it stands


def test_the_fin_as_a_matrix() -> None:
    moves = changed(
        'bending_stiffness = "?"', 'moves = [[1.0, 0.4, 0.1], [0.4, "0.8 mm/kN (pull test)", 0], [0.1, 0, 2]]'
    )
    assert moves.fin.moves is not None
    assert [[one.si for one in row] for row in moves.fin.moves] == [
        pytest.approx([1e-6, 4e-7, 1e-7]), pytest.approx([4e-7, 8e-7, 0]), pytest.approx([1e-7, 0, 2e-6]),
    ]  # fmt: skip
    assert moves.fin.moves[1][1].source.basis is Basis.MEASURED


def test_a_distance_from_the_rim_becomes_one_from_the_centre() -> None:
    old = 'edge = { left_skin = "7.0 mm", nose_skin = "7.0 mm", spar = "7.0 mm" }'
    new = 'edge = { nose_skin = "7.0 mm", spar = "7.0 mm" }\nedge_from_rim = { left_skin = "5.0 mm (ruler)" }'
    row = changed(old, new)
    edge = row.rows["left_skin_to_spar"].edge["left_skin"]
    assert edge.si == pytest.approx(0.005 + 0.00165)
    assert (edge.said, edge.source.basis) == ("5.0 mm from the rim", Basis.MEASURED)


def test_one_word_for_all_ribs() -> None:
    ways = changed('["up", "up", "up", "up", "up", "up", "down"]', '"down"').sheet.ribs.flanges_point
    assert ways == (RibFlangesPoint.DOWN,) * 7


def test_usual_ranges_give_remarks_and_no_error() -> None:
    surface = changed('left_skin = { thickness = "0.50 mm (micrometer)"', 'left_skin = { thickness = "1.6 mm"')
    assert surface.remarks[0] == "sheet.left_skin.thickness is 1.6 mm; sheet is usually 0.3 to 1.2 mm."
    inch = changed('spar_depth = "60 mm"', 'spar_depth = "8 in"')
    assert inch.remarks == ("outline.at[1].spar_depth is 8 in; it is usually 0.8 to 5.5 in.",)
    none = changed('takes_along = "yes"', 'takes_along = "no"')
    assert any("sliding along" in one for one in none.remarks)


def test_parts_a_and_b_alone_are_enough_to_read() -> None:
    head = RUDDER[: RUDDER.index("# ---- C  MICROMETER")]
    surface = read_text(head)
    assert len(surface.hinges) == 3
    assert {"sheet", "rivet", "row", "bracket", "bracket.plate", "rivet.large"} <= set(surface.gaps)
    assert not surface.sheet.spar.thickness.known


def test_the_smallest_file() -> None:
    surface = read_text('kind = "rudder"\n')
    assert surface.gaps == (
        "load",
        "controls",
        "outline",
        "horn",
        "weighed",
        "hinge",
        "rivet",
        "row",
        "bracket",
        "sheet",
    )
    assert surface.horn is None


def test_gaps_that_matter_only_sometimes() -> None:
    rule = changed('pressure = "1.20 kPa (designer\'s letter)"', 'rule = "Part 23 Appendix A"')
    assert rule.load.rule == "Part 23 Appendix A"
    weightless = changed('weight = "600 kg (manual)"', 'weight = "?"')
    assert "aeroplane.weight" in weightless.gaps
    wheel = changed('pilot_moves = "pedals"', 'pilot_moves = "wheel"')
    assert "controls.wheel_across" in wheel.gaps
    stop = changed('stopped_at = "pedals"', 'stopped_at = "surface"')
    assert "controls.stop" in stop.gaps
    text = RUDDER[: RUDDER.index("plate = {")] + RUDDER[RUDDER.index("fixed_with = {") :]
    tube = text.replace('driven_by = "two cables"', 'driven_by = "torque tube"').replace('arm = "100 mm (ruler)"', "")
    assert "horn.turns_other_half" in read_text(tube).gaps
    assert "horn.arm" not in read_text(tube).gaps
    text = RUDDER.replace('"nose_skin", ', "").replace('nose_skin = "7.0 mm", ', "")
    rows = text.replace("[row.", "\0[row.").split("\0")
    text = "".join(row for row in rows if "nose_skin_to_ribs" not in row)
    old = 'nose_skin = { same_as = "left_skin", cut_at_hinge = "70 mm (tape)" }'
    noseless = changed(old, 'nose_skin = { thickness = "none" }', text)
    assert noseless.sheet.nose_skin.thickness.absent
    assert "sheet.nose_skin.alloy" not in noseless.gaps
    lead = changed('mass = "none"             # lead', 'mass = "1.1 kg"\n#')
    assert {"balance_mass.up", "balance_mass.ahead", "balance_mass.arm"} <= set(lead.gaps)


def test_an_own_metal_and_a_stop_and_holes() -> None:
    own = '[alloy.mine]\ntension = "400 MPa"\nyield = "270 MPa"\nshear = "240 MPa"\ncrushing = "700 MPa"\n'
    own += 'stiffness = "71 GPa"\nfrom = "mill sheet (4711)"\n'
    text = RUDDER.replace('alloy = "2024-T3 clad (drawing)"', 'alloy = "mine"').replace("[sheet]", own + "[sheet]")
    text = text.replace(
        'stopped_at = "pedals"', 'stopped_at = "surface"\nstop = { up = "0 mm", arm = "60 mm", side = "both" }#'
    )
    text = text.replace('holes = "none"               #', 'holes = [{ up = "300 mm", across = "25 mm" }] #')
    surface = read_text(text)
    assert surface.alloys["mine"].yield_.si == pytest.approx(270e6)
    assert surface.alloys["mine"].where_from == "mill sheet (4711)"
    assert surface.controls.stop is not None
    assert surface.controls.stop.side == "both"
    assert surface.sheet.spar.holes is not None
    assert surface.sheet.spar.holes[0].up.si == pytest.approx(0.3)


def test_html_in_a_name_is_text() -> None:
    surface = changed('name = "Rudder, invented two-seater"', 'name = "<script>alert(1)</script> (left)"')
    assert surface.name == "<script>alert(1)</script> (left)"


def test_a_byte_order_mark_and_windows_line_ends_are_read(tmp_path: Path) -> None:
    path = tmp_path / "my.toml"
    path.write_bytes(b"\xef\xbb\xbf" + RUDDER.replace("\n", "\r\n").encode())
    assert len(read(path).hinges) == 3
    path.write_bytes(RUDDER.replace('lap = "14 mm', 'lap = "1,4 mm').replace("\n", "\r\n").encode())
    with pytest.raises(SurfaceError) as caught:
        read(path)
    assert caught.value.faults[0].line == RUDDER[: RUDDER.index('lap = "14')].count("\n") + 1


def test_the_hash_is_of_the_bytes() -> None:
    import hashlib

    assert read(FILES / "rudder.toml").sha256 == hashlib.sha256((FILES / "rudder.toml").read_bytes()).hexdigest()


def test_happened_words_of_a_flat_half(tmp_path: Path) -> None:
    (tmp_path / "e.toml").write_text(ELEVATOR)
    (tmp_path / "c.toml").write_text(
        'based_on = "e.toml"\n[[happened]]\nwhere = "x"\nwhat = "y"\nlargest_points = "out"\n'
    )
    assert read(tmp_path / "c.toml").happened[0].largest_points is Around.UP


def test_reading_is_quick_and_needs_no_pint() -> None:
    code = f"import sys; from surfacecheck.reading import read; read({str(FILES / 'rudder.toml')!r}); " \
           "assert not {'pint', 'scipy', 'matplotlib'} & set(sys.modules)"  # fmt: skip
    subprocess.run(
        [sys.executable, "-c", code], check=True, env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    )
    start = time.perf_counter()
    read(FILES / "rudder.toml")
    assert time.perf_counter() - start < 0.5


def test_a_large_wrong_file_is_answered_in_time() -> None:
    text = 'kind = "rudder"\n' + "".join(f"strange_{at} = 1\n" for at in range(30_000))
    start = time.perf_counter()
    with pytest.raises(SurfaceError):
        read_text(text)
    assert time.perf_counter() - start < 10
