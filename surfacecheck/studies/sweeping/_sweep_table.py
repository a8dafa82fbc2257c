"""The rows of a sweep as columns by name, and the two kinds of file they go into."""

from __future__ import annotations

import csv
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np

from surfacecheck.assessment import CAUTION
from surfacecheck.errors import SurfaceError
from surfacecheck.studies.sweeping._chunks import taken
from surfacecheck.studies.sweeping._sweep_work import WAYS

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from numpy.typing import NDArray

    from surfacecheck.studies.sweeping._sweep import Sweep
    from surfacecheck.studies.sweeping._sweep_work import SweepPart

    Columns: TypeAlias = "dict[str, NDArray[Any] | list[str]]"

__all__ = ["CsvFile", "ParquetFile", "read_csv", "read_parquet", "row_columns"]

WORDS = ("governs", "case", "why")
SAYS = f"{CAUTION} SI units: m, N, kg, N m, Pa; a margin is a number."
_ROWS = 4096
"""Variants in a group of rows of a Parquet file at least: one chunk in each would be slow to read."""


def row_columns(sweep: Sweep, part: SweepPart) -> Columns:
    """Give the rows of a chunk, column by column.

    Parameters
    ----------
    sweep : Sweep
        What was asked.
    part : SweepPart
        What a chunk gave.

    Returns
    -------
    dict of str to (ndarray or list of str), each of length v
        ``variant``, the numbers varied by their keys, ``lowest``, ``governs``, ``case``, each margin, each pin's
        loads, ``mass``, ``tail_heavy``, ``why`` [SI].
    """
    pins = {
        f"pin.{hinge}.{way}": part.pins[:, h, w] for h, hinge in enumerate(sweep.hinges) for w, way in enumerate(WAYS)
    }
    return {
        "variant": part.variants,
        **taken(sweep.numbers, part.variants),
        "lowest": part.lowest,
        "governs": part.governs,
        "case": part.case,
        **{f"margin.{name}": values for name, values in part.margins.items()},
        **pins,
        "mass": part.mass,
        "tail_heavy": part.tail_heavy,
        "why": [part.why.get(v, "") for v in part.variants.tolist()],
    }


class CsvFile:
    """Rows as text: every digit of a number, nothing where there is none, the caution in the first line."""

    def __init__(self, path: Path) -> None:
        self.file = path.open("w", encoding="utf-8", newline="")
        self.file.write(f"# {SAYS}\n")
        self.form = ""

    def write(self, columns: Columns) -> None:
        """Write rows, all of them in one go."""
        if not self.form:
            self.file.write(",".join(columns) + "\n")
            self.form = ",".join(["%s"] * len(columns)) + "\n"
        lists = [_quoted(values) if isinstance(values, list) else _bare(values) for values in columns.values()]
        self.file.write("".join([self.form % row for row in zip(*lists, strict=True)]))
        self.file.flush()

    def close(self) -> None:
        """End the file."""
        self.file.close()


def _bare(values: NDArray[Any]) -> list[Any]:
    """Give numbers to be written with every digit, and nothing where there is none."""
    numbers: list[Any] = values.tolist()
    return ["" if number != number else number for number in numbers] if np.isnan(values).any() else numbers


def _quoted(words: Iterable[str]) -> list[str]:
    return ['"' + " ".join(one.split()).replace('"', '""') + '"' if one else "" for one in words]


class ParquetFile:
    """Rows as a Parquet file, where pyarrow is installed; whole only when it is closed."""

    def __init__(self, path: Path) -> None:
        try:
            import pyarrow.parquet  # noqa: F401
        except ImportError as error:
            message = "Parquet needs pyarrow, which is not installed: write .csv, or install surfacecheck[sweep]"
            raise SurfaceError(message) from error
        self.path, self.waiting = path, list[Any]()
        self.writer: Any = None

    def write(self, columns: Columns) -> None:
        """Take rows; they go into the file by thousands."""
        import pyarrow as pa

        arrays = {name: pa.array(values, from_pandas=True) for name, values in columns.items()}
        self.waiting.append(pa.table(arrays).replace_schema_metadata({"caution": SAYS}))
        if sum(table.num_rows for table in self.waiting) >= _ROWS:
            self._write()

    def _write(self) -> None:
        import pyarrow as pa
        import pyarrow.parquet as pq

        if self.writer is None:
            self.writer = pq.ParquetWriter(self.path, self.waiting[0].schema, compression="zstd")
        self.writer.write_table(pa.concat_tables(self.waiting))
        self.waiting = []

    def close(self) -> None:
        """Write what waits, and end the file."""
        if self.waiting:
            self._write()
        if self.writer is not None:
            self.writer.close()


def read_csv(path: Path) -> Columns:
    """Read back what :class:`CsvFile` wrote."""
    with path.open(encoding="utf-8", newline="") as file:
        if not file.readline().startswith("#"):
            message = f"{path.name}: no file of a sweep; its first line must be the caution"
            raise SurfaceError(message)
        heads, *rows = csv.reader(file)
    columns: Columns = {}
    for head, cells in zip(heads, zip(*rows, strict=True), strict=True):
        if head in WORDS:
            columns[head] = list(cells)
        else:
            columns[head] = np.array([cell or "nan" for cell in cells], dtype=np.float64)
    return columns


def read_parquet(path: Path) -> Columns:
    """Read back what :class:`ParquetFile` wrote."""
    import pyarrow.parquet as pq

    table = pq.read_table(path)
    return {
        name: column.to_pylist() if name in WORDS else column.to_numpy().astype(np.float64)
        for name, column in zip(table.column_names, table.columns, strict=True)
    }
