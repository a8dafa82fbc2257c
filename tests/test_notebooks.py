"""What the comparison of stored outputs would not notice.

A cell that was never run passes it whatever it prints, and so does any figure.
"""

from __future__ import annotations

import re
from pathlib import Path

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_notebook, new_output

FOLDER = Path(__file__).parents[1] / "notebooks"
NOTEBOOKS = sorted(FOLDER.glob("*.ipynb"))
LARGEST = 500_000
LONGEST_CELL = 12
MACHINE = re.compile(
    r"(/ho" + r"me/|/ro" + r"ot/|/Us" + r"ers/|/wo" + r"rk/|/tmp/|[A-Z]:\\\\Us" + r"ers|\bat 0x[0-9a-f]{6,})"
)
ANSWER = "answer:"
"""JupyterLab shows the first line of what is folded: it must give nothing away."""
LEAST_WORDS = 20
"""Letters of the words of a picture: fewer name it and do not say what it shows."""
BALANCE = re.compile(r"(?m)^\s*assert\b|\bassert_\w+\(|\ballclose\(|\bisclose\(")


def shown(output) -> str:
    """Return what an output shows as text, pictures left out."""
    data = output.get("data", {})
    kept = [text for kind, text in data.items() if kind.startswith("text/") or kind == "image/svg+xml"]
    return "\n".join([output.get("text", ""), *kept])


def pictures(notebook) -> list[tuple[int, str, str]]:
    """Return of each stored picture its cell, its words for those who cannot see it, and what is drawn."""
    return [
        (number, output.metadata.get(kind, {}).get("alt", ""), data)
        for number, cell in enumerate(notebook.cells, 1)
        for output in cell.get("outputs", [])
        for kind, data in output.get("data", {}).items()
        if kind.startswith("image/")
    ]


def without_words(notebook) -> list[str]:
    """Return what is wrong with the words of the pictures: none, too few, or those of another picture."""
    wrong, said = [], {}
    for number, words, drawn in pictures(notebook):
        if len(words.strip()) < LEAST_WORDS:
            wrong.append(f"cell {number} shows a picture and does not say what it shows: {words!r}")
        elif said.setdefault(words, drawn) != drawn:
            wrong.append(f"cell {number} shows a picture with the words of another one: {words!r}")
    return wrong


def faults(notebook) -> list[str]:
    """Return what is wrong with a notebook."""
    code = [cell for cell in notebook.cells if cell.cell_type == "code"]
    wrong = []
    if [cell.execution_count for cell in code] != list(range(1, len(code) + 1)):
        wrong.append("not run from the top in one go")
    if notebook.metadata.get("kernelspec", {}).get("name") != "python3":
        wrong.append("the kernel is not python3")
    if "widgets" in notebook.metadata:
        wrong.append("the state of widgets is stored")
    for number, cell in enumerate(notebook.cells, 1):
        if cell.cell_type == "code" and len(cell.source.strip().split("\n")) > LONGEST_CELL:
            wrong.append(f"cell {number} is longer than {LONGEST_CELL} lines: that belongs in the package")
        folded = cell.metadata.get("jupyter", {}).get("outputs_hidden") and cell.get("outputs")
        if folded and not shown(cell.outputs[0]).startswith(ANSWER):
            wrong.append(f"cell {number} is folded, and its first line shows all the same: print({ANSWER!r}) first")
        for output in cell.get("outputs", []):
            if output.output_type == "error" or output.get("name") == "stderr":
                wrong.append(f"cell {number} stores an error or a complaint")
            if MACHINE.search(shown(output)):
                wrong.append(f"cell {number} shows a place on one computer: {MACHINE.search(shown(output)).group()}")
    wrong += without_words(notebook)
    end = code[-2:]
    if not any(BALANCE.search(cell.source) for cell in end):
        wrong.append("does not end on an assertion that the loads are in balance")
    if not re.search(r"(?i)not looked at", "\n".join(cell.source for cell in notebook.cells[-2:])):
        wrong.append("does not end on what was not looked at")
    return wrong


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.name)
def test_stored_as_it_should_be(path):
    assert faults(nbformat.read(path, as_version=4)) == []
    assert path.stat().st_size < LARGEST
    assert re.fullmatch(r"\d\d_\w+\.ipynb", path.name)


def test_each_has_pictures_with_words_of_their_own():
    """An empty list has no fault either; and the words are as long as the picture needs, not a label for all."""
    stored = {path.name: pictures(nbformat.read(path, as_version=4)) for path in NOTEBOOKS}
    assert [name for name, found in stored.items() if len({words for _, words, _ in found}) < 3] == []


def test_the_numbers_of_the_notebooks_have_no_gap():
    assert [int(path.name[:2]) for path in NOTEBOOKS] == list(range(1, len(NOTEBOOKS) + 1))


def test_no_rule_for_hiding_differences_hides_a_result():
    lines = (FOLDER / "sanitize.cfg").read_text(encoding="utf-8").splitlines()
    rules = [line.removeprefix("regex: ") for line in lines if line.startswith("regex:")]
    assert rules
    results = "top pin 793.7 N  +0.40  12:30  5e-3 m  2 x 3 mm  1274.8000  less than required  14 CFR 23.395"
    assert [rule for rule in rules if re.search(rule, results)] == []


def picture(drawn, words):
    """Return an output that shows a picture."""
    return new_output("display_data", {"image/png": drawn}, metadata={"image/png": {"alt": words}})


def sound():
    """Return a notebook without fault."""
    outputs = [
        new_output("stream", name="stdout", text="1\n"),
        picture("one", "Pull of the cable: guess 100 N, result 359 N."),
        picture("two", "Pull of the cable: guess 300 N, result 359 N."),
    ]
    cells = [
        new_code_cell("print(1)", execution_count=1, outputs=outputs),
        new_code_cell("assert 1 == 1", execution_count=2),
        nbformat.v4.new_markdown_cell("Not looked at: fatigue, flutter."),
    ]
    return new_notebook(cells=cells, metadata={"kernelspec": {"name": "python3", "display_name": "x"}})


def test_a_sound_one_has_no_fault():
    assert faults(sound()) == []


def spoil_count(notebook):
    notebook.cells[1].execution_count = None


def spoil_kernel(notebook):
    notebook.metadata.kernelspec.name = "mine"


def spoil_widgets(notebook):
    notebook.metadata.widgets = {}


def spoil_length(notebook):
    notebook.cells[0].source = "a = 1\n" * (LONGEST_CELL + 1)


def spoil_output(notebook):
    notebook.cells[0].outputs[0].name = "stderr"


def spoil_path(notebook):
    notebook.cells[0].outputs[0].text = "<Thing at 0x7f3a2b1c>"


def spoil_balance(notebook):
    notebook.cells[1].source = "print(2)"


def spoil_caution(notebook):
    notebook.cells[2].source = "The end."


def spoil_answer(notebook):
    notebook.cells[0].metadata = {"jupyter": {"outputs_hidden": True}}


def spoil_picture(notebook):
    notebook.cells[0].outputs[1].metadata = {}


def spoil_label(notebook):
    notebook.cells[0].outputs[1].metadata["image/png"]["alt"] = "picture"


def spoil_words(notebook):
    notebook.cells[0].outputs[2].metadata = notebook.cells[0].outputs[1].metadata


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (spoil_picture, "does not say what it shows"),
        (spoil_label, "does not say what it shows: 'picture'"),
        (spoil_words, "with the words of another one"),
        (spoil_answer, "shows all the same"),
        (spoil_count, "not run"),
        (spoil_kernel, "kernel"),
        (spoil_widgets, "widgets"),
        (spoil_length, "longer than"),
        (spoil_output, "complaint"),
        (spoil_path, "0x7f3a2b1c"),
        (spoil_balance, "balance"),
        (spoil_caution, "not looked at"),
    ],
)
def test_each_fault_is_seen(spoil, says):
    notebook = sound()
    spoil(notebook)
    (found,) = faults(notebook)
    assert says in found
