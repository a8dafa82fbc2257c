"""Work the stored notebooks out again, so that the same code gives the same bytes.

    python3 start.py notebooks                      all of notebooks/
    python3 start.py notebooks notebooks/01_a.ipynb one of them

Outputs and execution counts are kept, because the tests compare them; time stamps, widget states and the version of the
Python that ran are not, because they differ from run to run. A notebook that fails or complains is left as it was.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
SLIDER = "slider"
"""Tag of a cell that shows something to pull at; its numbers stand in a plain cell."""
KEPT_IN_A_CELL = {"tags", "jupyter", "collapsed", "slideshow"}


class Complaint(Exception):
    """A notebook that must not be stored as it ran."""


def worked_out(path: Path) -> str:
    """Return the text of a notebook after running it from the top.

    Raises
    ------
    Complaint
        If a cell fails or writes to the error stream.
    """
    notebook = nbformat.read(path, as_version=4)
    for number, cell in enumerate(notebook.cells, 1):
        cell.metadata = {key: value for key, value in cell.metadata.items() if key in KEPT_IN_A_CELL}
        cell.setdefault("id", f"cell-{number:02d}")
    client = NotebookClient(
        notebook,
        timeout=300,
        kernel_name="python3",
        record_timing=False,
        extra_arguments=["--log-level=ERROR"],  # else each kernel explains how it talks to this script
        coalesce_streams=True,  # how a text is cut into pieces depends on the moment
        resources={"metadata": {"path": str(path.parent)}},
    )
    try:
        client.execute()
    except CellExecutionError as error:
        raise Complaint(str(error)) from None
    for number, cell in enumerate(notebook.cells, 1):
        if SLIDER in cell.metadata.get("tags", []):
            cell.outputs = []  # what stands there has a new name each time, and moves only where a kernel runs
        for output in cell.get("outputs", []):
            if output.get("name") == "stderr":
                message = f"cell {number} complains: {output['text']}"
                raise Complaint(message)
    notebook.metadata = {
        "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
        "language_info": {"name": "python"},
    }
    return nbformat.writes(notebook, version=4).rstrip("\n") + "\n"


def main(words: list[str]) -> int:
    """Work out the notebooks named, or all of them; return 1 if one could not be stored."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ.setdefault("PYTHONHASHSEED", "0")  # the order of a set is no result
    paths = [Path(word).resolve() for word in words] or sorted(NOTEBOOKS.glob("*.ipynb"))
    failed = False
    for path in paths:
        try:
            text = worked_out(path)
        except Complaint as complaint:
            print(f"{path.name}: not stored\n{complaint}", file=sys.stderr, flush=True)
            failed = True
            continue
        same = text == path.read_text(encoding="utf-8")
        if not same:
            path.write_text(text, encoding="utf-8", newline="\n")
        print(f"{path.name}: {'as it was' if same else 'written anew'}, {len(text) / 1000:.0f} kB", flush=True)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
