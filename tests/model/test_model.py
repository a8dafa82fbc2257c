"""The dataclasses carry what reader, schema and blank file need; words become axes in one place."""

import dataclasses
import importlib
import typing
from enum import StrEnum

import numpy as np
import pytest

import surfacecheck.model as model
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Half, Hinge, Kind, Surface, axis_of, left_is, opposite, plus_z_word, said, specs
from surfacecheck.provenance import UNKNOWN, Value
from surfacecheck.quantities import parse, quantity_names

CLASSES = [one for name in model.__all__ if dataclasses.is_dataclass(one := getattr(model, name)) and specs(one)]
FIELDS = [(cls, key, spec) for cls in CLASSES for key, (_, spec) in specs(cls).items()]


@pytest.mark.parametrize(("cls", "key", "spec"), FIELDS, ids=[f"{cls.__name__}.{key}" for cls, key, _ in FIELDS])
def test_every_key_says_what_it_is(cls: type, key: str, spec: model.Spec) -> None:
    assert spec.help, "a key without words for the builder"
    if spec.quantity:
        assert spec.quantity in quantity_names()
    if spec.hint:
        parse(f"1 {spec.hint}", spec.quantity)
    if spec.low is not None:
        assert spec.high is not None
        assert spec.low < spec.high
    if spec.kind in {"word", "words"}:
        assert spec.enum is not None
        assert issubclass(spec.enum, StrEnum)
    if spec.kind in {"part", "parts", "part_list"}:
        assert dataclasses.is_dataclass(spec.of)


@pytest.mark.parametrize("cls", CLASSES, ids=lambda cls: cls.__name__)
def test_each_dataclass_is_frozen_and_starts_unknown(cls: type) -> None:
    one = cls()
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.anything = 1  # type: ignore[attr-defined]
    for name, spec in specs(cls).values():
        if spec.kind == "measure":
            assert getattr(one, name) is UNKNOWN


def test_annotations_resolve() -> None:
    for cls in CLASSES:
        module = importlib.import_module(cls.__module__)
        hints = typing.get_type_hints(cls, vars(module))
        assert set(hints) == {one.name for one in dataclasses.fields(cls)}


@pytest.mark.parametrize(
    ("kind", "half", "sign", "word"),
    [
        (Kind.RUDDER, Half.NONE, 1, "left"),
        (Kind.ELEVATOR, Half.RIGHT, 1, "top"),
        (Kind.ELEVATOR, Half.LEFT, -1, "bottom"),
        (Kind.AILERON, Half.LEFT, -1, "bottom"),
    ],
)
def test_z_is_x_cross_y(kind: Kind, half: Half, sign: int, word: str) -> None:
    """Write every direction in axes of the aeroplane (ahead, right, down), in which ahead x right = down."""
    aft = np.array([-1.0, 0.0, 0.0])
    out = {"none": [0, 0, -1], "left": [0, -1, 0], "right": [0, 1, 0]}[half]
    z = np.cross(aft, out)
    ways = {"left": [0, -1, 0], "top": [0, 0, -1], "bottom": [0, 0, 1]}
    np.testing.assert_array_equal(z, ways[word])
    assert left_is(kind, half) == sign
    assert plus_z_word(kind, half) == word
    assert axis_of(word, kind, half) == ("z", 1)
    assert axis_of("ahead", kind, half) == ("x", -1)
    assert axis_of(said("up", kind), kind, half) == ("y", 1)


def test_words_of_the_other_kind() -> None:
    assert [said(one, Kind.ELEVATOR) for one in ("up", "down", "left", "right", "behind")] == [
        "out", "in", "top", "bottom", "behind",
    ]  # fmt: skip
    assert (opposite("left"), opposite("ahead"), opposite("inward")) == ("right", "behind", "outward")
    with pytest.raises(SurfaceError, match='"sideways" is no direction'):
        axis_of("sideways", Kind.RUDDER, Half.NONE)
    with pytest.raises(SurfaceError, match="half"):
        left_is(Kind.ELEVATOR, Half.NONE)


def test_a_value_may_hold_a_stack_of_variants() -> None:
    stack = Value(np.array([0.1, 0.2]))
    hinge = dataclasses.replace(Hinge(), up=stack)
    assert hinge.up.known
    np.testing.assert_array_equal(hinge.up.si, [0.1, 0.2])


def test_a_surface_without_anything() -> None:
    surface = Surface()
    assert surface.title == "as drawn"
    assert surface.happened == ()
    assert surface.left_is == 1
    assert surface.said("left") == "left"
    assert surface.outline.places == ()
    assert not surface.sheet.spar.thickness.known
