"""The line of every key, in every form TOML allows."""

import tomllib
from pathlib import Path

import pytest

from surfacecheck.reading._lines import lines_of

FILES = Path(__file__).parent / "files"
SURFACES = ("rudder.toml", "elevator.toml")
RUDDER, ELEVATOR = ((FILES / name).read_text(encoding="utf-8") for name in SURFACES)


def test_lines_are_found_in_every_form_of_toml() -> None:
    text = (
        '# c\n"a b" = 1\nc.d = "x = [" # [not]\n[t]\nk = """\nthree\nlines"""\n'
        'l = [\n  "p", # q\n  { m = 1, n = [2,\n3] },\n]\n'
        "[[s]]\nu = 1\n[[s]]\nu = 2\n[s.v]\nw = '''\n'''\nx = 2024-01-01T10:00:00\ny = true\n"
    )
    lines = lines_of(text)
    tomllib.loads(text)
    expected = {
        ("a b",): 2, ("c", "d"): 3, ("t",): 4, ("t", "k"): 5, ("t", "l"): 8, ("t", "l", 0): 9, ("t", "l", 1): 10,
        ("t", "l", 1, "m"): 10, ("t", "l", 1, "n", 1): 11, ("s", 0): 13, ("s", 0, "u"): 14, ("s", 1, "u"): 16,
        ("s", 1, "v"): 17, ("s", 1, "v", "w"): 18, ("s", 1, "v", "x"): 20, ("s", 1, "v", "y"): 21,
    }  # fmt: skip
    assert {path: lines[path] for path in expected} == expected


@pytest.mark.parametrize("text", [RUDDER, ELEVATOR], ids=SURFACES)
def test_every_key_of_the_demo_files_has_its_line(text: str) -> None:
    lines = lines_of(text)

    def walk(node: object, path: tuple) -> None:
        items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
        for key, inner in items:
            line = text.splitlines()[lines[(*path, key)] - 1]
            if isinstance(key, str):
                assert key in line
            walk(inner, (*path, key))

    walk(tomllib.loads(text), ())
