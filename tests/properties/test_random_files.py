"""Whatever is typed into a file, a Surface or a SurfaceError comes back, never anything else."""

import math
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from surfacecheck.errors import SurfaceError
from surfacecheck.model import Surface
from surfacecheck.provenance import Value
from surfacecheck.quantities import parse, quantity_names
from surfacecheck.reading import read, read_text

DATA = Path(__file__).parents[2] / "data"
TEXTS = [path.read_text(encoding="utf-8") for path in sorted(DATA.glob("*.toml")) if "based_on" not in path.read_text()]
SNIPPETS = (
    '"?"', '"none"', '"0,5 mm"', '"-3 mm"', '"1e308 m"', '"1/0 in"', '"nan"', "nan", "-inf", "0", "-1", "1e400", "true",
    "[]", "{}", "[[]]", "2024-01-01", '""', '"?(", "(?)"', "99999999999999999999", '"5 mm left"', '"0.5 m2/s"',
    '"none (x)"',     'same_as = "left_skin"\n', "[row.x]\n", "[[happened]]\n", 'gone = "yes"\n',
    '"\\u0000"', '"<b>"', "'''", '"""', "#",
    'based_on = "rudder.toml"\n', '"12 deg inward, 5 deg up"', "[hinge.top]\n", "= ", "\n", "\r", "\ufeff", "é",
)  # fmt: skip
CALM = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def values(node: object) -> list[Value]:
    """Collect every Value of a surface."""
    if isinstance(node, Value):
        return [node]
    if is_dataclass(node):
        return [one for part in fields(node) for one in values(getattr(node, part.name))]
    if isinstance(node, dict):
        return [one for part in node.values() for one in values(part)]
    if isinstance(node, tuple):
        return [one for part in node for one in values(part)]
    return []


def answered(call: Callable[[], Any]) -> Any:
    """Give the result, or the text of the error every caller expects; anything else passes through."""
    try:
        return call()
    except SurfaceError as err:
        return [str(fault) for fault in err.faults]


def sound(text: str) -> None:
    """Read a text: either every number of the surface is finite, or each fault says something."""
    found = answered(lambda: read_text(text, "my.toml", folder=DATA))
    if isinstance(found, Surface):
        assert all(one.si is None or math.isfinite(one.si) for one in values(found))
    else:
        assert found
        assert all(found)


@given(text=st.sampled_from(TEXTS), data=st.data())
@CALM
def test_pieces_typed_over(text: str, data: st.DataObject) -> None:
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text)))
        length = data.draw(st.integers(0, 30))
        piece = data.draw(st.one_of(st.sampled_from(SNIPPETS), st.text(max_size=6)))
        text = text[:start] + piece + text[start + length :]
    sound(text)


@given(text=st.sampled_from(TEXTS), data=st.data())
@CALM
def test_answers_typed_over(text: str, data: st.DataObject) -> None:
    """Whole answers are exchanged, so that the file stays readable as TOML most of the time."""
    lines = text.splitlines()
    for _ in range(data.draw(st.integers(1, 5))):
        at = data.draw(st.integers(0, len(lines) - 1))
        key, mark, _ = lines[at].partition(" = ")
        if mark:
            piece = data.draw(
                st.one_of(
                    st.sampled_from(SNIPPETS),
                    st.floats(width=32).map(lambda x: f'"{x} mm"'),
                    st.text(max_size=8).map(lambda x: '"' + x.replace("\\", "").replace('"', "") + '"'),
                )
            )
            lines[at] = f"{key} = {piece}"
    sound("\n".join(lines))


@given(text=st.sampled_from(TEXTS), data=st.data())
@CALM
def test_lines_lost_doubled_and_moved(text: str, data: st.DataObject) -> None:
    lines = text.splitlines()
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(lines) - 1))
        to = data.draw(st.integers(0, len(lines) - 1))
        match data.draw(st.sampled_from(["lost", "doubled", "moved"])):
            case "lost":
                lines[at] = ""
            case "doubled":
                lines.insert(to, lines[at])
            case _:
                lines.insert(to, lines.pop(at))
    sound("\n".join(lines))


@given(raw=st.binary(max_size=200))
@CALM
def test_any_bytes(raw: bytes, tmp_path_factory: pytest.TempPathFactory) -> None:
    path = tmp_path_factory.getbasetemp() / "bytes.toml"
    path.write_bytes(raw)
    with pytest.raises(SurfaceError):  # no such bytes are a whole surface: they would have to say kind = "rudder"
        read(path)


@given(text=st.text(max_size=30), quantity=st.sampled_from(quantity_names()))
@example(text="1" * 400 + " mm", quantity="length")
@example(text="5 yottaparsec", quantity="length")
@example(text="1e300 yottaparsec", quantity="length")
@CALM
def test_any_text_as_a_value(text: str, quantity: str) -> None:
    found = answered(lambda: parse(text, quantity))
    if isinstance(found, tuple):
        assert math.isfinite(found[0])
        assert found[1] in text
    else:
        assert all(found)


@given(
    number=st.floats(min_value=1e-3, max_value=1e3).map(lambda x: f"{x:.4g}"),
    unit=st.text(alphabet="mkNPagbdeirnftsco/ 234·*^", max_size=8),
    quantity=st.sampled_from(quantity_names()),
)
@CALM
def test_any_unit(number: str, unit: str, quantity: str) -> None:
    found = answered(lambda: parse(f"{number} {unit}", quantity))
    if isinstance(found, tuple):
        assert math.isfinite(found[0])
    else:
        assert all(found)


@given(
    edit=st.lists(
        st.tuples(
            st.sampled_from(["hinge.top", "row.left_skin_to_spar", "sheet.spar", "load", "horn.plate"]),
            st.sampled_from(["up", "pitch", "thickness", "gone", "same_as", "count", "pressure", "alloy", "new"]),
            st.sampled_from(['"yes"', '"?"', '"none"', '"30 mm"', "3", '"middle"', "{}", "[]", '"1 kPa"']),
        ),
        max_size=5,
    )
)
@CALM
def test_any_change(edit: list[tuple[str, str, str]]) -> None:
    sound('based_on = "rudder.toml"\n' + "".join(f"{table}.{key} = {answer}\n" for table, key, answer in edit))
