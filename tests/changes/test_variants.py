"""Changes laid over the demo surfaces, and over small files."""

from pathlib import Path

import pytest

from surfacecheck.changes import variants
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read

DATA = Path(__file__).parents[2] / "data"


def test_the_rudder_and_its_two_changes() -> None:
    names = ("rudder_pitch_30.toml", "rudder_oversize_hole.toml")
    found = variants(DATA / "rudder.toml", [DATA / name for name in names])
    assert [title for title, _ in found] == [
        "as drawn",
        "Pitch 30 instead of 25 mm, both skins to spar",
        "Hole drilled out oversize, middle hinge bracket",
    ]
    drawn, pitch, hole = (surface for _, surface in found)
    assert [one.rows["left_skin_to_spar"].pitch.si for one in (drawn, pitch, hole)] == pytest.approx(
        [0.025, 0.03, 0.025]
    )
    assert pitch.rows["trailing_edge"].pitch.said == "25 mm"
    assert pitch.rows["left_skin_to_spar"].drilled_already == "no"
    assert drawn.happened == ()
    (event,) = hole.happened
    assert (event.where, event.layers) == ("hinge middle, bracket rivet 3", ("bracket", "spar"))
    assert event.largest.si == pytest.approx(0.0046)
    assert event.largest_points == "up"
    assert event.options == ("leave it", "next size 4.8 mm", "rivet not there")
    assert len({one.sha256 for one in (drawn, pitch, hole)}) == 1
    assert hole.changes[0].path == "rudder_oversize_hole.toml"
    assert len(hole.changes[0].sha256) == 64


def test_the_elevator_opened() -> None:
    (_, closed), (title, opened) = variants(DATA / "elevator.toml", [DATA / "elevator_open_edge.toml"])
    assert title == "Trailing edge open"
    assert (closed.outline.trailing_edge, opened.outline.trailing_edge) == ("riveted shut", "open")
    assert set(closed.rows) - set(opened.rows) == {"trailing_edge"}


def test_changes_lie_on_one_another_in_order() -> None:
    both = read(DATA / "rudder.toml", DATA / "rudder_pitch_30.toml", DATA / "rudder_oversize_hole.toml")
    assert both.rows["left_skin_to_spar"].pitch.said == "30 mm"
    assert len(both.happened) == 1
    assert both.title.count(",") >= 1


def test_a_change_file_alone_brings_its_base() -> None:
    alone = read(DATA / "rudder_pitch_30.toml")
    assert alone.path == "rudder.toml"
    assert alone.title.startswith("Pitch 30")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "base.toml").write_text(
        'kind = "rudder"\n'
        '[hinge.a]\nup = "100 mm"\ntakes_along = "yes"\n[hinge.b]\nsame_as = "a"\nup = "900 mm"\n'
        '[hinge.c]\nup = "500 mm"\n'
        '[sheet]\nleft_skin = { thickness = "0.5 mm" }\nright_skin = { same_as = "left_skin" }\n'
        '[sheet.ribs]\nup = ["0 mm", "500 mm", "900 mm"]\n'
        '[load]\npressure = "1 kPa"\n[row.r]\njoins = ["left_skin", "spar"]\npitch = "25 mm"\n'
        'edge = { left_skin = "7 mm", spar = "7 mm" }\n'
    )
    return tmp_path


def changed(folder: Path, text: str, base: str = "base.toml"):
    (folder / "change.toml").write_text(f'based_on = "{base}"\n{text}')
    return read(folder / "change.toml")


def test_same_as_is_resolved_in_the_base_first(folder: Path) -> None:
    """The right skin was copied before the left one changed: it stays."""
    surface = changed(folder, '[sheet.left_skin]\nthickness = "0.8 mm"\n[hinge.a]\ntakes_along = "no"\n')
    assert (surface.sheet.left_skin.thickness.said, surface.sheet.right_skin.thickness.said) == ("0.8 mm", "0.5 mm")
    assert (surface.hinges["a"].takes_along, surface.hinges["b"].takes_along) == ("no", "yes")


def test_tables_merge_and_lists_are_replaced_whole(folder: Path) -> None:
    text = '[sheet.ribs]\nup = ["0 mm", "900 mm"]\n[row.r.edge]\nspar = "8 mm"\n'
    surface = changed(folder, text)
    assert [one.said for one in surface.sheet.ribs.up] == ["0 mm", "900 mm"]
    assert {part: one.said for part, one in surface.rows["r"].edge.items()} == {"left_skin": "7 mm", "spar": "8 mm"}


def test_an_item_goes_and_one_comes(folder: Path) -> None:
    text = '[hinge.c]\ngone = "yes"\n[hinge.d]\nsame_as = "a"\nup = "700 mm"\n[hinge.b]\ngone = "no"\nup = "880 mm"\n'
    surface = changed(folder, text)
    assert list(surface.hinges) == ["a", "d", "b"]
    assert surface.hinges["d"].takes_along == "yes"
    assert surface.hinges["b"].up.said == "880 mm"


def test_one_way_of_saying_it_takes_the_other_away(folder: Path) -> None:
    surface = changed(folder, '[row.r]\ncount = 12\n[load]\ntotal = "400 N"\n')
    assert (surface.rows["r"].pitch.known, surface.rows["r"].count) == (False, 12)
    assert (surface.load.pressure.known, surface.load.total.said) == (False, "400 N")


def test_a_change_of_a_change(folder: Path) -> None:
    (folder / "first.toml").write_text('based_on = "base.toml"\ntitle = "first"\n[load]\npressure = "1.1 kPa"\n')
    surface = changed(folder, 'title = "second"\n[row.r]\npitch = "30 mm"\n', base="first.toml")
    assert surface.title == "first, second"
    assert (surface.load.pressure.said, surface.rows["r"].pitch.said) == ("1.1 kPa", "30 mm")


def test_a_change_without_a_title_is_called_by_its_file(folder: Path) -> None:
    assert changed(folder, "").title == "change"


def test_two_changes_of_one_title_are_told_apart(folder: Path) -> None:
    for name in ("x.toml", "y.toml"):
        (folder / name).write_text('based_on = "base.toml"\ntitle = "same"\n')
    titles = [title for title, _ in variants(folder / "base.toml", [folder / "x.toml", folder / "y.toml"])]
    assert titles == ["as drawn", "same (x.toml)", "same (y.toml)"]


@pytest.mark.parametrize(
    ("text", "base", "line", "message"),
    [
        ('[hinge.x]\ngone = "yes"\n', "base.toml", 3, "x cannot go: it is not there. Here: a, b, c."),
        ('[hinge.c]\ngone = "perhaps"\n', "base.toml", 3, 'gone is "yes" or "no"'),
        ('[hinge.c]\ngone = "yes"\nup = "3 mm"\n', "base.toml", 3, "c is gone, and has lines too"),
        ("", "nothing.toml", 1, '"nothing.toml" is not there. In that folder: base.toml.'),
        ("", "../base.toml", 1, "leaves the folder of change.toml"),
        ("", "/etc/passwd", 1, "leaves the folder of change.toml"),
        ("", "change.toml", 1, "comes back to itself"),
        ('[row.r]\npich = "30 mm"\n', "base.toml", 3, 'unknown word "pich". Nearest: pitch.'),
        ('[hinge.d]\nsame_as = "z"\n', "base.toml", 3, 'same_as "z" is no neighbour of d. Here: a, b, c.'),
        ("title = 3\n", "base.toml", 2, "a title in quotes is meant"),
        ("happened = 3\n", "base.toml", 2, "double brackets"),
        ('[[happened]]\nlargest = "4,6 mm"\n', "base.toml", 3, '"4,6 mm" has a comma. Write "4.6 mm".'),
        ('[[happened]]\nlargest_points = "sideways"\n', "base.toml", 3, 'unknown word "sideways"'),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_change_is_named_there(folder: Path, text: str, base: str, line: int, message: str) -> None:
    with pytest.raises(SurfaceError) as caught:
        changed(folder, text, base)
    fault = caught.value.faults[0]
    assert (fault.file, fault.line) == ("change.toml", line)
    assert message in fault.message


def test_a_ring_of_changes(folder: Path) -> None:
    (folder / "one.toml").write_text('based_on = "two.toml"\n')
    (folder / "two.toml").write_text('based_on = "one.toml"\n')
    with pytest.raises(SurfaceError, match="comes back to itself"):
        read(folder / "one.toml")


def test_a_link_out_of_the_folder_is_out_of_the_folder(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    outside = tmp_path_factory.mktemp("outside") / "secret.toml"
    outside.write_text('kind = "rudder"\n')
    (folder / "link.toml").symlink_to(outside)
    with pytest.raises(SurfaceError, match="leaves the folder"):
        changed(folder, "", "link.toml")


def test_a_change_of_another_surface_is_refused() -> None:
    with pytest.raises(SurfaceError, match=r"this change is of elevator\.toml, not of rudder\.toml"):
        read(DATA / "rudder.toml", DATA / "elevator_open_edge.toml")
    with pytest.raises(SurfaceError, match="no change: a change file begins with based_on"):
        read(DATA / "rudder.toml", DATA / "elevator.toml")


def test_faults_of_all_changes_come_together(folder: Path) -> None:
    for name in ("x.toml", "y.toml"):
        (folder / name).write_text(f'based_on = "base.toml"\n[hinge.{name[0]}]\ngone = "yes"\n')
    with pytest.raises(SurfaceError) as caught:
        variants(folder / "base.toml", [folder / "x.toml", folder / "y.toml"])
    assert [one.file for one in caught.value.faults] == ["x.toml", "y.toml"]
