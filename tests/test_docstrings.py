"""The documentation of public functions keeps up with them: names, units, sources.

Units stand in square brackets beside each number or array that goes in or comes out, ``[-]`` where there is none.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator

import pytest

KERNELS = ("loads", "statics", "sections", "strength", "rules", "masses", "quantities")
"""Packages whose public functions are read."""
SOURCED = ("surfacecheck.loads.part23", "surfacecheck.loads.appendix_a", "surfacecheck.strength", "surfacecheck.rules")
"""Where every function follows a published text and names it."""
NO_TEXT = {"ratio", "filled_in", "length", "short_of"}
"""Plain arithmetic among those, for which there is no text to name."""
NUMBER = re.compile(r"\b(float|Array|ArrayLike|NDArray\[np\.float64\])")
"""Annotation of something that has a unit."""
UNIT = re.compile(r"\[[^\]]+\]")


def public_functions() -> Iterator[tuple[str, str]]:
    """Yield where a public function is found, and its name."""
    for kernel in KERNELS:
        name = f"surfacecheck.{kernel}"
        if importlib.util.find_spec(name) is None:
            continue
        package = importlib.import_module(name)
        inside = [found.name for found in pkgutil.iter_modules(getattr(package, "__path__", []))]
        for place in (name, *(f"{name}.{module}" for module in inside if not module.startswith("_"))):
            module = importlib.import_module(place)
            for public in getattr(module, "__all__", ()):
                if inspect.isfunction(inspect.unwrap(getattr(module, public))):
                    yield place, public


FUNCTIONS = sorted(set(public_functions()))


def sections(text: str) -> dict[str, str]:
    """Split a docstring at its underlined headings; what stands before them is under the empty name."""
    parts = re.split(r"(?m)^(\w[\w ]*)\n-{3,}\n", text)
    return {"": parts[0]} | dict(zip(parts[1::2], parts[2::2], strict=True))


def entries(section: str) -> dict[str, str]:
    """Split a section at the lines that are not indented; the name goes to its type and description."""
    found = {}
    for entry in re.split(r"(?m)^(?=\S)", section):
        names, _, rest = entry.partition(" : ")
        if entry.strip():
            found |= {name.strip().lstrip("*"): rest or entry for name in names.split("\n")[0].split(",")}
    return found


def faults(function, must_name_source: bool) -> list[str]:
    """Return what is wrong with a function's docstring."""
    parts = sections(inspect.getdoc(function) or "")
    summary = parts[""].strip().split("\n\n")[0]
    wrong = [] if summary.endswith((".", ":")) else ["no summary sentence"]
    parameters = inspect.signature(function).parameters
    documented = entries(parts.get("Parameters", ""))
    if set(documented) != set(parameters):
        wrong.append(f"documents {list(documented)}, takes {list(parameters)}")
    for name, parameter in parameters.items():
        if NUMBER.search(str(parameter.annotation)) and not UNIT.search(documented.get(name, "")):
            wrong.append(f"{name} has no unit in brackets")
    returned = str(inspect.signature(function).return_annotation)
    says = parts.get("Returns", parts.get("Yields", ""))
    if NUMBER.search(returned) and not UNIT.search(says):
        wrong.append("the result has no unit in brackets")
    elif parameters and returned not in ("None", "bool") and not says.strip():
        wrong.append("does not say what it returns")
    if must_name_source and returned != "Source" and not parts.get("References", "").strip():
        wrong.append("no References")
    return wrong


@pytest.mark.parametrize(("place", "name"), FUNCTIONS, ids=lambda word: word.removeprefix("surfacecheck."))
def test_documented_as_it_is(place, name):
    function = inspect.unwrap(getattr(importlib.import_module(place), name))
    assert faults(function, place.startswith(SOURCED) and name not in NO_TEXT) == []


def test_every_kernel_has_public_functions():
    there = {place.split(".")[1] for place, _ in FUNCTIONS}
    assert there == set(KERNELS)


def good(width: float, *, count: int = 1) -> float:
    """Give an area.

    Parameters
    ----------
    width : float
        How wide [m].
    count : int
        How many.

    Returns
    -------
    float
        The area [m2].

    References
    ----------
    A book.
    """
    return width * count


def bad(width: float, depth: float) -> float:
    """Give an area

    Parameters
    ----------
    width : float
        How wide.
    """
    return width * depth


def test_the_reader_of_docstrings_sees_faults():
    assert faults(good, must_name_source=True) == []
    assert faults(bad, must_name_source=True) == [
        "no summary sentence",
        "documents ['width'], takes ['width', 'depth']",
        "width has no unit in brackets",
        "depth has no unit in brackets",
        "the result has no unit in brackets",
        "no References",
    ]
