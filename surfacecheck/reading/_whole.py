"""Files written whole or not at all: first beside their place, then in one step to it."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from pathlib import Path

from surfacecheck.errors import SurfaceError

__all__ = ["not_there", "write_whole"]


def not_there(target: Path) -> None:
    """Refuse a file that is there already."""
    if target.exists() or target.is_symlink():
        message = f"{target.name} is there already and stays as it is: give another name."
        raise SurfaceError(message)


def write_whole(target: Path, text: str, *, fresh: bool = False) -> int:
    """Write a file whole or not at all; what is there stays until the new one is complete.

    Parameters
    ----------
    target : Path
        File to write; its folder is made.
    text : str
        What stands in it; every line ends as it does here, on every computer.
    fresh : bool
        Whether a file that is there already is an error.

    Returns
    -------
    int
        Size in bytes.

    Raises
    ------
    SurfaceError
        Where it is to be fresh and is there already.
    OSError
        Where this computer cannot write it (disk full, not yours).
    """
    data = text.encode("utf-8")
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, beside = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        Path(beside).chmod(0o644)
        if fresh:
            not_there(target)
        Path(beside).replace(target)
    finally:
        with suppress(FileNotFoundError):
            Path(beside).unlink()
    return len(data)
