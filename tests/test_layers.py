"""One way down: who may import whom, as pyproject.toml says, and what a light import must not bring."""

from __future__ import annotations

import json
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]
LAYERS = SETTINGS["contracts"][0]["layers"]
LINT = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(sys.argv[1], no_cache=True))"
HEAVY = ("scipy", "pint", "matplotlib", "jinja2", "tqdm")


def there(module):
    """Tell whether a part of the package has been written."""
    path = ROOT / module.replace(".", "/")
    return path.with_suffix(".py").exists() or (path / "__init__.py").exists()


def lint(contracts, tmp_path):
    """Run the linter on a list of contracts."""
    lines = [
        "[importlinter]",
        f"root_package = {SETTINGS['root_package']}",
        f"include_external_packages = {SETTINGS['include_external_packages']}",
    ]
    for number, contract in enumerate(contracts):
        lines.append(f"[importlinter:contract:{number}]")
        for key, value in contract.items():
            text = value
            if isinstance(value, list):
                text = "\n  ".join(value)
            lines.append(f"{key} = {text}")
    settings = tmp_path / "importlinter.ini"
    settings.write_text("\n".join(lines))
    return run(LINT, str(settings))


def run(code, *words):
    """Run code in a process of its own."""
    command = [sys.executable, "-X", "utf8", "-c", code, *words]
    return subprocess.run(command, cwd=ROOT, capture_output=True, encoding="utf-8", timeout=120, check=False)


def test_the_contracts_are_kept(tmp_path):
    found = lint(SETTINGS["contracts"], tmp_path)
    assert found.returncode == 0, found.stdout + found.stderr
    assert f"Contracts: {len(SETTINGS['contracts'])} kept, 0 broken" in found.stdout


def test_the_linter_sees_the_wrong_way(tmp_path):
    found = lint([SETTINGS["contracts"][0] | {"layers": LAYERS[::-1]}], tmp_path)
    assert found.returncode == 1, found.stdout + found.stderr
    assert "0 kept, 1 broken" in found.stdout


def test_no_part_of_the_package_is_left_out():
    package = ROOT / "surfacecheck"
    parts = {path.name for path in package.iterdir() if (path / "__init__.py").exists()}
    parts |= {path.stem for path in package.glob("*.py")} - {"__init__", "__main__"}
    assert {f"surfacecheck.{part}" for part in parts} <= set(LAYERS)


@pytest.mark.parametrize(
    ("names", "kept_out"),
    [
        (["surfacecheck"], HEAVY),
        (["surfacecheck.statics", "surfacecheck.sections", "surfacecheck.strength", "surfacecheck.loads"], HEAVY),
        (
            ["surfacecheck.reading", "surfacecheck.assessment", "surfacecheck.cli"],
            ("matplotlib", "pint", "scipy.stats"),
        ),
    ],
)
def test_an_import_stays_light(names, kept_out):
    present = ["surfacecheck", *(name for name in names if there(name))]
    found = run(f"import sys, json, {', '.join(present)}; print(json.dumps(sorted(sys.modules)))")
    assert found.returncode == 0, found.stderr
    assert set(json.loads(found.stdout)).isdisjoint(kept_out)
