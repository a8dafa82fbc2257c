"""A sweep streamed to a file, chunk by chunk: a CSV, or a Parquet file where pyarrow is installed."""

from __future__ import annotations

from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecheck.errors import SurfaceError
from surfacecheck.interrupts import undisturbed
from surfacecheck.studies.sweeping._sweep import CHUNK
from surfacecheck.studies.sweeping._sweep_table import CsvFile, ParquetFile, read_csv, read_parquet, row_columns

if TYPE_CHECKING:
    import os
    from concurrent.futures import Executor

    from surfacecheck.studies.sweeping._sweep import Sweep
    from surfacecheck.studies.sweeping._sweep_table import Columns

__all__ = ["SweepFile", "read_sweep", "sweep_file", "write_sweep"]

_FILES: dict[str, type[CsvFile] | type[ParquetFile]] = {".csv": CsvFile, ".parquet": ParquetFile}


@dataclass(frozen=True)
class SweepFile:
    """What was written of a sweep.

    Attributes
    ----------
    path : Path
        The file.
    rows, variants : int
        Rows written, and how many there would be; the file is whole up to the last chunk that was finished.
    refused : int
        Rows that say why their variant has no numbers.
    lost : tuple of str
        What the executor lost on the way and was done again in this process.
    stopped : bool
        Whether it was interrupted.
    """

    path: Path
    rows: int
    variants: int
    refused: int
    lost: tuple[str, ...]
    stopped: bool

    def __str__(self) -> str:
        """Say it in one line."""
        said = f"{self.path}: {self.rows:,} variants, a row each"
        if self.stopped:
            said = f"{self.path}: stopped; {self.rows:,} of {self.variants:,} variants are written, a row each"
        return f"{said}; {self.refused:,} of them cannot be worked, and say why" if self.refused else said


def write_sweep(
    sweep: Sweep,
    path: str | os.PathLike[str],
    executor: Executor | None = None,
    *,
    chunk: int = CHUNK,
    progress: bool | None = None,
) -> SweepFile:
    """Work a sweep and write every variant as a row of a file as soon as its chunk is finished.

    Parameters
    ----------
    sweep : Sweep
        From :func:`sweep`.
    path : str or path
        Ends with ``.csv`` or ``.parquet``; what is there is replaced. Rows stand in the order of the chunks, each with
        the number of its variant.
    executor : concurrent.futures.Executor, optional
        Who works the chunks; this process where there is none.
    chunk : int
        Variants a chunk at most; changes no number [-].
    progress : bool, optional
        As for :meth:`Sweep.parts`.

    Returns
    -------
    SweepFile
        What was written; stopped from the keyboard, up to the last chunk that was finished.

    Raises
    ------
    SurfaceError
        For another ending, and for Parquet where pyarrow is not installed.
    OSError
        Where this computer cannot write it.
    """
    lost = list[str]()
    rows = refused = 0
    stopped = False
    with closing(sweep_file(path)) as out:
        try:
            for part in sweep.parts(executor, chunk=chunk, progress=progress, lost=lost):
                with undisturbed():
                    out.write(row_columns(sweep, part))
                    rows, refused = rows + part.variants.size, refused + len(part.why)
        except KeyboardInterrupt:
            stopped = True
    return SweepFile(Path(path), rows, len(sweep), refused, tuple(lost), stopped)


def sweep_file(path: str | os.PathLike[str]) -> CsvFile | ParquetFile:
    """Open a file for the rows of a sweep.

    Parameters
    ----------
    path : str or path
        Ends with ``.csv`` or ``.parquet``; what is there is replaced.

    Returns
    -------
    CsvFile or ParquetFile
        To be closed.

    Raises
    ------
    SurfaceError
        For another ending, and for Parquet where pyarrow is not installed.
    OSError
        Where this computer cannot write it.
    """
    target = Path(path)
    if target.suffix not in _FILES:
        message = f'"{target.name}" must end with .csv or .parquet, so that it is known what to write'
        raise SurfaceError(message)
    return _FILES[target.suffix](target)


def read_sweep(path: str | os.PathLike[str]) -> Columns:
    """Read a file of a sweep back.

    Parameters
    ----------
    path : str or path
        From :func:`write_sweep`.

    Returns
    -------
    dict of str to (ndarray or list of str)
        Its columns, by name; numbers to the last bit [SI].

    Raises
    ------
    SurfaceError
        For another ending, or a CSV file of something else.
    """
    target = Path(path)
    if target.suffix not in _FILES:
        message = f'"{target.name}" must end with .csv or .parquet: only such files hold a sweep'
        raise SurfaceError(message)
    return read_csv(target) if target.suffix == ".csv" else read_parquet(target)
