"""A notebook worked out twice is the same file, and one that complains is not stored."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook


@pytest.fixture(scope="module")
def tool():
    """The script as a module."""
    spec = importlib.util.spec_from_file_location("execute_notebooks", Path(__file__).with_name("execute_notebooks.py"))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def stored(path, *sources):
    """Write a notebook that has not been run."""
    cells = [new_markdown_cell("# A question"), *(new_code_cell(source) for source in sources)]
    notebook = new_notebook(cells=cells)
    notebook.cells[1].metadata = {"tags": ["guess"], "execution": {"iopub.status.busy": "2026-11-25T17:31:46Z"}}
    nbformat.write(notebook, path)
    return path


def test_twice_gives_the_same_bytes(tool, tmp_path, capsys):
    figure = "import matplotlib.pyplot as plt\nplt.plot([1, 2], [3, 4])\nplt.show()"
    path = stored(tmp_path / "01_a.ipynb", "for i in range(3):\n    print(i, flush=True)", "40 + 2", figure)
    assert tool.main([str(path)]) == 0
    first = path.read_bytes()
    assert tool.main([str(path)]) == 0
    assert path.read_bytes() == first
    said = capsys.readouterr().out
    assert "written anew" in said
    assert "as it was" in said
    cells = json.loads(first)["cells"]
    assert [cell["execution_count"] for cell in cells[1:]] == [1, 2, 3]
    assert [len(cell["outputs"]) for cell in cells[1:]] == [1, 1, 1]
    assert "".join(cells[1]["outputs"][0]["text"]) == "0\n1\n2\n"
    assert cells[1]["metadata"] == {"tags": ["guess"]}
    assert json.loads(first)["metadata"]["language_info"] == {"name": "python"}


@pytest.mark.parametrize("source", ["1 / 0", "import sys\nprint('oh', file=sys.stderr)"])
def test_one_that_complains_is_left_as_it_was(tool, tmp_path, capsys, source):
    path = stored(tmp_path / "01_a.ipynb", source)
    before = path.read_bytes()
    assert tool.main([str(path)]) == 1
    assert path.read_bytes() == before
    assert "not stored" in capsys.readouterr().err


def test_a_cell_to_pull_at_is_stored_without_what_it_shows(tool, tmp_path):
    path = stored(tmp_path / "01_a.ipynb", "print(1)", "print(2)")
    notebook = nbformat.read(path, as_version=4)
    notebook.cells[2].metadata = {"tags": ["slider"]}
    nbformat.write(notebook, path)
    assert tool.main([str(path)]) == 0
    assert [len(cell["outputs"]) for cell in json.loads(path.read_bytes())["cells"][1:]] == [1, 0]
