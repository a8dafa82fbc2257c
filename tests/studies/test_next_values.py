"""The order in which filling in pays: from the file as ``new`` writes it to pin loads, and on to margins."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path

import pytest

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.reading import read, read_text, starting_file
from surfacecheck.studies import next_values, nothing_told

DATA = Path(__file__).parents[2] / "data"
KINDS = [("rudder", "none", "metric"), ("elevator", "left", "inch"), ("aileron", "right", "metric")]
FIRST = {
    "load.pressure": "1.20 kPa", "load.over": "behind pins", "load.level": "limit", "load.begins_at": "pins",
    "load.fades_aft": ["even"],
}  # fmt: skip
UP = {"bottom": "90 mm", "inner": "90 mm", "middle": "560 mm", "top": "1010 mm", "outer": "1010 mm"}


def inline(value):
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {inline(one)}" for key, one in value.items()) + " }"
    return f"[{', '.join(map(inline, value))}]" if isinstance(value, list) else json.dumps(value)


def toml(tree, path=()):
    """Write a file again."""
    lines = [f"{key} = {inline(value)}" for key, value in tree.items() if not isinstance(value, dict) or key == "edge"]
    for key, value in tree.items():
        if isinstance(value, dict) and key != "edge":
            lines += [f"[{'.'.join((*path, key))}]", toml(value, (*path, key))]
    return "\n".join(lines)


def steps(key):
    """Split ``outline.at[1].up`` into what leads there; numbers are from 0."""
    return [int(one) - 1 if one.isdigit() else one for one in re.findall(r"[^.\[\]]+", key)]


def put(tree, key, answer):
    *way, last = steps(key)
    for one in way:
        tree = tree[one]
    if isinstance(last, int):
        tree[last] = answer
    else:
        tree[last] = answer


def found(tree, key):
    """Give what another file says at a key; None where it does not."""
    try:
        for one in steps(key):
            tree = tree[one]
    except (KeyError, IndexError, TypeError):
        return None
    return None if tree == "?" else tree


def answered(tree, key, up):
    """Give the first answers of a builder."""
    if key == "outline.at":
        for place, along, chord in zip(tree["outline"]["at"], ("0 mm", "1100 mm"), ("420 mm", "300 mm"), strict=True):
            place |= {up: along, "edge_behind": chord}
    elif key.startswith("hinge."):
        put(tree, key, UP[key.split(".")[1]])
    else:
        put(tree, key, FIRST[key])


@pytest.mark.parametrize(("kind", "half", "units"), KINDS, ids=[one[0] for one in KINDS])
def test_the_named_values_lead_from_the_empty_file_to_pin_loads(kind, half, units):
    tree = tomllib.loads(starting_file(kind, half, units))
    up = "up" if kind == "rudder" else "out"
    asked = []
    for _ in range(5):
        surface = read_text(toml(tree))
        if not nothing_told(surface):
            break
        with pytest.raises(SurfaceError):
            assess(surface)
        named = next_values(surface)
        assert 1 <= len(named) <= 3
        for one in named:
            assert one.key not in asked
            answered(tree, one.key, up)
            asked.append(one.key)
            after = next_values(read_text(toml(tree)))
            assert one.key not in [other.key for other in after]
    assert len(asked) == 9  # five lines of the load, the outline, three hinges
    assessment = assess(read_text(toml(tree)))
    assert len(assessment.pins) == 3
    assert all(abs(pin.sideways.value) > 1.0 for pin in assessment.pins)


@pytest.mark.parametrize(("kind", "half", "units"), KINDS, ids=[one[0] for one in KINDS])
def test_not_one_of_the_first_values_could_be_left_out(kind, half, units):
    """Each is named first because without it nothing is told."""
    blank = tomllib.loads(starting_file(kind, half, units))
    up = "up" if kind == "rudder" else "out"
    first = [one.key for one in next_values(read_text(toml(blank)), most=99)]
    for missing in first:
        tree = tomllib.loads(starting_file(kind, half, units))
        for key in first:
            if key != missing:
                answered(tree, key, up)
        surface = read_text(toml(tree))
        assert nothing_told(surface)
        assert missing in [one.key for one in next_values(surface)]
        with pytest.raises(SurfaceError):
            assess(surface)


@pytest.mark.parametrize("missing", [("up",), ("edge_behind",), ("up", "edge_behind")], ids=" and ".join)
def test_a_third_place_of_the_outline_that_is_begun_is_asked_for(missing):
    demo = tomllib.loads((DATA / "rudder.toml").read_text(encoding="utf-8"))
    asked = dict.fromkeys(missing, "?")
    place = {"up": "500 mm", "edge_behind": "370 mm"} | asked
    for begun in (place, {key: answer for key, answer in place.items() if answer != "?"}):
        demo["outline"]["at"][1:-1] = [begun]
        surface = read_text(toml(demo))
        assert nothing_told(surface)
        assert [one.key for one in next_values(surface)] == [f"outline.at[2].{key}" for key in missing]


@pytest.mark.parametrize("name", ["bottom", "middle", "top"])
def test_a_hinge_without_a_place_is_not_worked_as_if_it_were_gone(name):
    """On two of its three pins a surface gives loads that are far off: none is told, the place is asked for."""
    demo = tomllib.loads((DATA / "rudder.toml").read_text(encoding="utf-8"))
    put(demo, f"hinge.{name}.up", "?")
    surface = read_text(toml(demo))
    assert nothing_told(surface)
    assert [one.key for one in next_values(surface)] == [f"hinge.{name}.up"]
    with pytest.raises(SurfaceError, match=rf"^hinge\.{name}\.up: its place is not known"):
        assess(surface)


def told(assessment):
    """Everything that is told, without what is said of gaps."""
    return (
        assessment.case_titles,
        tuple((pin.name, pin.sideways, pin.fore_aft, pin.along) for pin in assessment.pins),
        tuple((one.name, one.margin, one.required) for one in assessment.findings if one.required is not None),
        tuple((one.place, one.name, one.outcome) for one in assessment.rules),
        tuple(load.row.name for load in assessment.rows),
        tuple((one.name, float(one.mass)) for one in assessment.masses.pieces),
    )


def test_every_step_from_pin_loads_to_margins_tells_more():
    """Answers are those of the demo, which has the names a new file has; what it does not know stays unknown."""
    demo = tomllib.loads((DATA / "rudder.toml").read_text(encoding="utf-8"))
    tree = tomllib.loads(starting_file())
    for one in next_values(read_text(toml(tree)), most=99):
        answered(tree, one.key, "up")
    sheet, rows = demo["sheet"], demo["row"]
    for table, name, like in ((sheet, "right_skin", "left_skin"), (sheet, "nose_skin", "left_skin"),
                              (rows, "right_skin_to_spar", "left_skin_to_spar"),
                              (rows, "right_skin_to_ribs", "left_skin_to_ribs")):  # fmt: skip
        table[name] = table[like] | table[name]  # same_as, as the reader does it
    counts = []
    unanswered: set[str] = set()
    for _ in range(60):
        assessment = assess(read_text(toml(tree)))
        named = [one for one in next_values(assessment.surface, assessment, 30) if one.key not in unanswered]
        if not named or len(assessment.margins) > 80:
            break
        keys = {key: found(demo, key) for key in (named[0].key, *named[0].together)}
        known = {key: answer for key, answer in keys.items() if answer is not None}
        unanswered |= keys.keys() - known.keys()
        if not known:
            continue
        for key, answer in known.items():
            put(tree, key, answer)
        after = assess(read_text(toml(tree)))
        still = {one.key for one in next_values(after.surface, after, 99)}
        assert not known.keys() & still
        if len(known) == len(keys):
            assert told(after) != told(assessment), named[0]
        counts.append(len(after.margins))
    assert counts[-1] > 80
    assert len(counts) < 40


def test_the_whole_box_stands_together_and_opens_together():
    bare = (DATA / "rudder.toml").read_text(encoding="utf-8")
    text = re.sub(r'(\[sheet\.spar\]\s*thickness = )"[^"]*"', r'\1"?"', bare)
    text = re.sub(r'(?m)^flanges_point = "behind"', 'flanges_point = "?"', text)
    surface = read_text(text)
    assert not assess(surface).rows
    box = next(one for one in next_values(surface) if "shear flows" in one.gives)
    assert {box.key, *box.together} == {"sheet.spar.thickness", "sheet.spar.flanges_point"}
    assert "with" in box.said


def test_a_place_of_the_outline_is_named_as_the_file_counts_it():
    text = (DATA / "rudder.toml").read_text(encoding="utf-8").replace('"45 mm (tape)"', '"?"')
    named = [key for one in next_values(read_text(text), most=9) for key in (one.key, *one.together)]
    assert "outline.at[2].spar_depth" in named


def test_what_hides_nothing_is_not_asked_for():
    assessment = assess(read(DATA / "rudder.toml"))
    every = next_values(assessment.surface, assessment, 99)
    gaps = set(assessment.surface.gaps)
    assert {one.key for one in every} <= gaps
    assert all("nothing that is worked out" not in one.gives for one in every)
    assert every[0].key == "rivet.small.shear"  # it hides most
    assert next_values(assessment.surface, assessment) == every[:3]


def test_a_flat_half_is_asked_in_its_own_words():
    text = starting_file("aileron", "right")
    every = next_values(read_text(text), most=99)
    keys = [one.key for one in every]
    assert "hinge.inner.out" in keys
    assert not [key for key in keys if key.endswith(".up")]
    assert "two places with out and edge_behind" in next(one for one in every if one.key == "outline.at").gives


def test_no_value_is_named_twice():
    """The metal of the spar hides the box, and checks of its own."""
    demo = tomllib.loads((DATA / "rudder.toml").read_text(encoding="utf-8"))
    for key in ("sheet.spar.alloy", "rivet.large.shear", "horn.plate.alloy", "horn.plate.thickness"):
        put(demo, key, "?")
    keys = [one.key for one in next_values(read_text(toml(demo)), most=99)]
    assert len(set(keys)) == len(keys) > 3
