"""``same_as``, ``gone``, and a change laid over a file: all on the raw tree."""

from __future__ import annotations

from surfacecheck.errors import Fault, SurfaceError
from surfacecheck.reading._tree import Leaf, Node, Place, Rows, Table

__all__ = ["laid_over", "resolved"]

#: Lines of which one makes the others void: a change that gives one takes the others away.
_ALTERNATIVES = (
    frozenset({"pressure", "total", "rule"}),
    frozenset({"pitch", "count"}),
    frozenset({"edge", "edge_from_rim"}),
    frozenset({"bending_stiffness", "moves"}),
)
#: Tables with a fixed set of keys: beside ``same_as`` they win key by key. Any other table wins whole.
_KEY_BY_KEY = frozenset({"pin", "plate", "fixed_with", "arm"})


def _at(place: Place, key: str, message: str) -> Fault:
    return Fault(message, place.file, place.line, key)


def resolved(tree: Table, within: Table | None = None, path: str = "") -> Table:
    """Copy the lines of the neighbour each ``same_as`` names.

    Parameters
    ----------
    tree : Table
        The file, or one table of it.
    within : Table, optional
        The file the neighbours may also stand in (the base, for a change).
    path : str
        Path of ``tree``, for messages.

    Returns
    -------
    Table
        The same without ``same_as``.

    Raises
    ------
    SurfaceError
        Where a neighbour does not exist, or two copy each other.
    """
    out = Table(tree.place)
    for key, node in tree.items():
        out[key] = _copied(key, tree, within, (), path) if isinstance(node, Table) else node
    for key, node in out.items():
        if isinstance(node, Table):
            inner = within.get(key) if within is not None else None
            out[key] = resolved(node, inner if isinstance(inner, Table) else None, f"{path}{key}.")
    return out


def _copied(key: str, family: Table, within: Table | None, seen: tuple[str, ...], path: str) -> Table:
    node: Node | None = family.get(key)
    if not isinstance(node, Table):
        node = within[key] if within is not None else node
        assert isinstance(node, Table)  # noqa: S101 - the caller has looked
    if "same_as" not in node:
        return node
    leaf = node["same_as"]
    wanted = leaf.value if isinstance(leaf, Leaf) else None
    place = leaf.place
    if not isinstance(wanted, str):
        raise SurfaceError(_at(place, f"{path}{key}.same_as", "same_as needs the name of a neighbour in quotes"))
    if wanted == key or wanted in seen:
        chain = " copies ".join((*seen, key, wanted))
        message = f"{chain}: nobody has the lines. Write them out once."
        raise SurfaceError(_at(place, f"{path}{key}.same_as", message))
    neighbours: dict[str, Node] = {**(within or {}), **family}
    if not isinstance(neighbours.get(wanted), Table):
        tables = [name for name, one in neighbours.items() if name != key and isinstance(one, Table)]
        here = f" Here: {', '.join(tables)}." if tables else ""
        message = f'same_as "{wanted}" is no neighbour of {key}.{here}'
        raise SurfaceError(_at(place, f"{path}{key}.same_as", message))
    source = _copied(wanted, family, within, (*seen, key), path)
    out = Table(node.place)
    for name, line in source.items():
        out[name] = line
    for name, line in node.items():
        if name == "same_as":
            continue
        below = out.get(name)
        if name in _KEY_BY_KEY and isinstance(below, Table) and isinstance(line, Table):
            out[name] = laid_over(below, line, f"{path}{key}.{name}.")
        else:
            _without_alternatives(out, name, node)
            out[name] = line
    _renamed_edges(out, source, node)
    return out


def _renamed_edges(out: Table, source: Table, node: Table) -> None:
    """Give copied edges of a row the names of its own parts: each stands where its neighbour's stood."""
    theirs, own = (_words(one.get("joins")) for one in (source, node))
    if not own or len(own) != len(theirs):
        return
    for name in {"edge", "edge_from_rim"} - set(node):
        copied = out.get(name)
        if isinstance(copied, Table):
            renamed = Table(copied.place)
            renamed.update({dict(zip(theirs, own, strict=True)).get(part, part): line for part, line in copied.items()})
            out[name] = renamed


def _words(node: Node | None) -> list[str]:
    return [str(one.value) for one in node if isinstance(one, Leaf)] if isinstance(node, Rows) else []


def _without_alternatives(out: Table, name: str, beside: Table) -> None:
    for group in _ALTERNATIVES:
        if name in group:
            for other in group - {name} - set(beside):
                out.pop(other, None)


def laid_over(base: Table, change: Table, path: str = "") -> Table:
    """Lay a change over a file: only what it names changes.

    Tables merge key by key, lists are replaced whole, ``gone = "yes"`` takes an item away.

    Parameters
    ----------
    base : Table
        The file, ``same_as`` already resolved.
    change : Table
        The change.
    path : str
        Path of both, for messages.

    Returns
    -------
    Table
        A new tree; neither argument is touched.

    Raises
    ------
    SurfaceError
        Where something is to go that is not there.
    """
    out = Table(base.place)
    out.update(base)
    for key, node in change.items():
        if isinstance(node, Table) and "gone" in node:
            _taken_away(out, key, node, path)
            continue
        below = out.get(key)
        if isinstance(node, Table) and isinstance(below, Table):
            out[key] = laid_over(below, node, f"{path}{key}.")
        else:
            _without_alternatives(out, key, change)
            out[key] = _without_gone(node, f"{path}{key}.")
    return out


def _without_gone(node: Node, path: str) -> Node:
    return laid_over(Table(node.place), node, path) if isinstance(node, Table) else node


def _taken_away(out: Table, key: str, node: Table, path: str) -> None:
    leaf = node["gone"]
    place = leaf.place
    answer = leaf.value if isinstance(leaf, Leaf) else None
    if answer not in {"yes", "no"}:
        raise SurfaceError(_at(place, f"{path}{key}.gone", 'gone is "yes" or "no"'))
    if answer == "yes":
        if key not in out:
            here = ", ".join(out)
            raise SurfaceError(_at(place, f"{path}{key}", f"{key} cannot go: it is not there. Here: {here}."))
        if len(node) > 1:
            raise SurfaceError(_at(place, f"{path}{key}", f"{key} is gone, and has lines too: one or the other"))
        del out[key]
        return
    rest = Table(node.place)
    rest.update({name: line for name, line in node.items() if name != "gone"})
    below = out.get(key)
    out[key] = laid_over(below, rest, f"{path}{key}.") if isinstance(below, Table) else rest
