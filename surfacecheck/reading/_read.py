"""A file, and the changes laid over it, become a Surface."""

from __future__ import annotations

import hashlib
import stat
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.model import ChangeLaid, Drawn, Happened, Kind, Surface
from surfacecheck.reading._assemble import assembled
from surfacecheck.reading._context import Context
from surfacecheck.reading._fields import build
from surfacecheck.reading._merge import laid_over, resolved
from surfacecheck.reading._mistyped import refuse_mistyped
from surfacecheck.reading._toml import LARGEST, tree_of
from surfacecheck.reading._tree import Leaf, Rows, Table

__all__ = ["read", "read_text"]

_LONGEST_CHAIN = 10


@dataclass(frozen=True)
class _Stack:
    """A base file with changes laid over it, not yet a Surface."""

    tree: Table
    path: str
    sha256: str
    base: Path | None
    drawn: Table
    changes: tuple[ChangeLaid, ...] = ()


def read(path: str | Path, *changes: str | Path) -> Surface:
    """Read a surface file, or a change file with the file it is based on.

    Parameters
    ----------
    path : str or Path
        The surface file, or a change file (``based_on = ...``).
    *changes : str or Path
        Change files to lay over it, in this order; each must be based on the same surface file.

    Returns
    -------
    Surface
        With its gaps, remarks and sources.

    Raises
    ------
    SurfaceError
        With up to five faults, each with file, line and key.
    """
    try:
        stack = _stack(Path(path), ())
        for change in changes:
            stack = _with(stack, Path(change))
        return _surface(stack)
    except RecursionError as err:
        raise SurfaceError(Fault("names that lead on to names without end", Path(path).name)) from err


def read_text(text: str, name: str = "surface.toml", folder: str | Path | None = None) -> Surface:
    """Read a surface from text.

    Parameters
    ----------
    text : str
        What a file would hold.
    name : str
        Its name, for messages.
    folder : str or Path, optional
        Where ``based_on`` of a change is looked for.

    Returns
    -------
    Surface
        As :func:`read` gives it.

    Raises
    ------
    SurfaceError
        With up to five faults, each with file, line and key.
    """
    try:
        home = None if folder is None else Path(folder) / name
        return _surface(_stacked(_encoded(text, name), name, home, ()))
    except RecursionError as err:
        raise SurfaceError(Fault("names that lead on to names without end", name)) from err


def _encoded(text: str, name: str) -> bytes:
    try:
        return text.encode("utf-8")
    except UnicodeEncodeError as err:
        raise SurfaceError(Fault("holds half a character: no text that could be saved", name)) from err


def _surface(stack: _Stack) -> Surface:
    surface = _of_tree(stack.tree, stack)
    if not stack.changes:
        return surface
    return replace(surface, changes=stack.changes, drawn=Drawn(partial(_of_tree, stack.drawn, stack)))


def _of_tree(tree: Table, stack: _Stack) -> Surface:
    return replace(assembled(tree), path=stack.path, sha256=stack.sha256)


def _bytes(path: Path) -> bytes:
    try:
        found = path.stat()
        if not stat.S_ISREG(found.st_mode) and not stat.S_ISDIR(found.st_mode):  # a pipe would wait without end
            raise SurfaceError(Fault("is a device or a pipe, not a file", path.name))
        if found.st_size > LARGEST:
            raise SurfaceError(Fault(f"{found.st_size / 1e6:.1f} MB is too large; such a file is a few kB", path.name))
        return path.read_bytes()
    except (OSError, ValueError) as err:
        if isinstance(err, SurfaceError):
            raise
        there = sorted(one.name for one in path.parent.glob("*.toml"))[:8] if path.parent.is_dir() else []
        here = f" In that folder: {', '.join(there)}." if there else ""
        what = "is a folder, not a file" if path.is_dir() else "cannot be read: no such file, or not yours to open"
        raise SurfaceError(Fault(f"{what}.{here}", path.name or str(path))) from err


def _stack(path: Path, seen: tuple[Path, ...]) -> _Stack:
    return _stacked(_bytes(path), path.name, path, seen)


def _stacked(data: bytes, name: str, home: Path | None, seen: tuple[Path, ...]) -> _Stack:
    tree = tree_of(data, name)
    digest = hashlib.sha256(data).hexdigest()
    if "based_on" not in tree:
        whole = resolved(tree)
        return _Stack(whole, name, digest, home.resolve() if home else None, whole)
    base = _base(tree, name, home)
    here = home.resolve() if home else None
    if base in (*seen, here) or len(seen) >= _LONGEST_CHAIN:
        chain = " is based on ".join(one.name for one in (*seen, here, base) if one is not None)
        raise _wrong(tree, "based_on", f"{chain}: it comes back to itself, or never ends.")
    return _laid(_stack(base, (*seen, *([here] if here else []))), tree, digest)


def _base(tree: Table, name: str, home: Path | None) -> Path:
    leaf = tree["based_on"]
    wanted = leaf.value if isinstance(leaf, Leaf) else None
    if not isinstance(wanted, str) or not wanted.strip() or "\0" in wanted:
        raise _wrong(tree, "based_on", 'write the name of the file it changes: based_on = "rudder.toml"')
    if home is None:
        raise _wrong(tree, "based_on", f'"{wanted}" is looked for beside the file; this is text without a folder')
    folder = home.parent.resolve()
    base = (folder / wanted).resolve()
    if Path(wanted).is_absolute() or not base.is_relative_to(folder):
        raise _wrong(tree, "based_on", f'"{wanted}" leaves the folder of {name}: put both files in one folder')
    if not base.is_file():
        there = [one.name for one in sorted(folder.glob("*.toml")) if one.name != name][:8]
        raise _wrong(tree, "based_on", f'"{wanted}" is not there. In that folder: {", ".join(there) or "nothing"}.')
    return base


def _with(stack: _Stack, path: Path) -> _Stack:
    data = _bytes(path)
    tree = tree_of(data, path.name)
    if "based_on" not in tree:
        message = 'no change: a change file begins with based_on = "the file it changes"'
        raise SurfaceError(Fault(message, path.name))
    root = _stack(_base(tree, path.name, path), (path.resolve(),)).base
    if root != stack.base:
        base = stack.base.name if stack.base else stack.path
        raise _wrong(tree, "based_on", f"this change is of {root.name if root else '?'}, not of {base}")
    return _laid(stack, tree, hashlib.sha256(data).hexdigest())


def _laid(stack: _Stack, tree: Table, digest: str) -> _Stack:
    name = tree.place.file
    rest = Table(tree.place)
    rest.update({key: node for key, node in tree.items() if key not in {"based_on", "title", "happened"}})
    title = tree.get("title")
    said = title.value if isinstance(title, Leaf) else Path(name).stem
    if not isinstance(said, str):
        raise _wrong(tree, "title", 'a title in quotes is meant: title = "Pitch 30 instead of 25 mm"')
    laid = ChangeLaid(said.strip() or Path(name).stem, name, digest, _happened(tree, stack.tree))
    change = resolved(rest, stack.tree)
    refuse_mistyped(stack.tree, change)
    over = laid_over(stack.tree, change)
    return replace(stack, tree=over, changes=(*stack.changes, laid))


def _happened(tree: Table, base: Table) -> tuple[Happened, ...]:
    node = tree.get("happened")
    if node is None:
        return ()
    if not isinstance(node, Rows):
        raise _wrong(tree, "happened", "write it in double brackets, one for each thing that happened: [[happened]]")
    kind = base.get("kind")
    named = kind.value if isinstance(kind, Leaf) else None
    context = Context(tree, Kind(named) if named in list(Kind) else Kind.RUDDER)
    found = tuple(
        build(Happened, one, f"happened[{at}]", context, line=one.place.line) for at, one in enumerate(node, 1)
    )
    if context.faults:
        raise SurfaceError(*context.faults[:5])
    return found


def _wrong(tree: Table, key: str, message: str) -> SurfaceError:
    place = tree[key].place
    return SurfaceError(Fault(message, place.file, place.line, key))
