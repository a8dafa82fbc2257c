"""Margins of one rivet, with one head, in every layout and at every edge distance of a row."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from surfacecheck.checks import between_rivets, factors_of, find_stack, joint_drafts, lowest_two, work
from surfacecheck.provenance import Value
from surfacecheck.studies.riveting._rivets_load import picked_joint

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from surfacecheck.checks import Joint, RowLoad
    from surfacecheck.model import Rivet, Row, Surface
    from surfacecheck.studies.riveting._rivets_load import Front

    Array = NDArray[np.float64]

__all__ = ["Margins", "Setting", "at_edges", "margins_of", "with_edge"]

CHUNK = 4000
"""Variants worked at a time: little enough to stay in the cache."""

_TRULY = {"rivet-shear": "must_shear", "rivet-pull": "must_pull"}


@dataclass(frozen=True, eq=False)
class Setting:
    """One rivet in a row, as the surface would have it.

    Attributes
    ----------
    surface : Surface
        With the rivet in part D, and the row with it.
    row : Row
        Of that surface.
    rivet : Rivet
        Of that surface.
    edges : tuple of float or None
        Edge distances to compare [m]; a single None for as drawn.
    """

    surface: Surface
    row: Row
    rivet: Rivet
    edges: tuple[float | None, ...]


@dataclass(frozen=True, eq=False)
class Margins:
    """L layouts, E edges, modes as in ``modes``.

    Attributes
    ----------
    lowest, then : ndarray, shape (L, E)
        The lowest margin, and the next of another way to give [-]; infinite where there is none.
    gives, next_ : ndarray of int, shape (L, E)
        Ways to give; -1 where there is none.
    spot : ndarray of int, shape (L, E)
        Which of the kept cases and spots decides.
    outside : ndarray of bool, shape (L, E)
        Whether the lowest lies outside its method.
    must_shear, must_pull : ndarray, shape (L,)
        What a rivet must be good for, factors in [N].
    shear_known, pull_known : bool
        Whether its strengths are.
    lifts : ndarray, shape (L,), or None
        Times limit load at which the skin edge buckles between rivets [-]; None for other rows.
    modes : tuple of (str, str)
        Short name and words of each way to give.
    """

    lowest: Array
    then: Array
    gives: NDArray[np.intp]
    next_: NDArray[np.intp]
    spot: NDArray[np.intp]
    outside: NDArray[np.bool_]
    must_shear: Array
    must_pull: Array
    shear_known: bool
    pull_known: bool
    lifts: Array | None
    modes: tuple[tuple[str, str], ...]


def with_edge(row: Row, edge: float | Array | None) -> Row:
    """Give a row another edge distance in every sheet of which one is given; in all where none is.

    Parameters
    ----------
    row : Row
        As it is.
    edge : float, ndarray of shape (V,), or None
        Hole centre to edge [m]; None leaves it.

    Returns
    -------
    Row
        Measured from the centre of the hole.
    """
    if edge is None:
        return row
    given = [
        name for name in row.joins if any(name in one and one[name].known for one in (row.edge, row.edge_from_rim))
    ]
    every = {name: Value(edge, "to compare", key=f"row.{row.name}.edge.{name}") for name in given or row.joins}
    return replace(row, edge=row.edge | every, edge_from_rim={})


def margins_of(front: Front, setting: Setting) -> Margins:
    """Work the margins of one rivet in every layout, at every edge.

    Parameters
    ----------
    front : Front
        What one rivet carries.
    setting : Setting
        Which rivet, in which row.

    Returns
    -------
    Margins
        Bit for bit those an assessment has of each.

    Raises
    ------
    SurfaceError
        Where a working gives no number.
    """
    surface, rivet = setting.surface, setting.rivet
    joint = front.joint(surface, setting.row, rivet)
    factors = factors_of(surface, rivet)
    drafts = {draft.mode: draft for draft in joint_drafts(surface, joint, factors)}
    must: dict[str, Any] = {name: np.zeros(len(joint.shear)) for name in _TRULY.values()}
    for mode, name in _TRULY.items():
        if mode in drafts:
            must[name] = work(drafts[mode].required, drafts[mode].terms).max(axis=(-1, -2))
    lifts = None
    for check in between_rivets(_over_pitch(front), rivet) if front.kind == "spar" else ():
        lifts = find_stack([check], len(front.plans)).margin[0] + 1.0
    return Margins(
        **_lowest(setting, joint),
        **must,
        shear_known=drafts["rivet-shear"].terms["P_s"].values is not None,
        pull_known="rivet-pull" not in drafts or drafts["rivet-pull"].terms["P_t"].values is not None,
        lifts=lifts,
    )


def _over_pitch(front: Front) -> RowLoad:
    load = front.loads[0]
    return replace(load, plan=replace(load.plan, pitch=front.pitch))


def _lowest(setting: Setting, joint: Joint) -> dict[str, Any]:
    """Find the two lowest margins in chunks, (L, E) each, and the ways to give."""
    edges = setting.edges
    layouts, every = len(joint.shear), len(edges)
    variants = layouts * every
    out: dict[str, NDArray[Any]] = {name: np.empty(variants) for name in ("lowest", "then")}
    out |= {name: np.empty(variants, dtype=np.intp) for name in ("gives", "next_", "spot")}
    out["outside"] = np.empty(variants, dtype=bool)
    factors, drafts = factors_of(setting.surface, setting.rivet), []
    for start in range(0, variants, CHUNK):
        part = slice(start, min(start + CHUNK, variants))
        layout, edge = np.divmod(np.arange(part.start, part.stop), every)
        some = at_edges(setting, picked_joint(joint, layout), edge)
        drafts = joint_drafts(setting.surface, some, factors)
        found = lowest_two(drafts, some)
        out["lowest"][part], out["then"][part] = found.margin
        out["gives"][part], out["next_"][part] = found.draft
        out["spot"][part], out["outside"][part] = found.spot[0], found.outside
    shaped = {name: values.reshape(layouts, every) for name, values in out.items()}
    return {**shaped, "modes": tuple((draft.mode, draft.gives) for draft in drafts)}


def at_edges(setting: Setting, joint: Joint, which: NDArray[np.intp]) -> Joint:
    """Give every variant of a joint its own edge distance.

    Parameters
    ----------
    setting : Setting
        With the edges to compare.
    joint : Joint
        Loads of shape (V, 1, K).
    which : ndarray of int, shape (V,)
        Edge of each [-].

    Returns
    -------
    Joint
        With edges of shape (V,); the same where they stay as drawn.
    """
    if setting.edges == (None,):
        return joint
    row = with_edge(setting.row, np.array(setting.edges, dtype=np.float64)[which])
    layers = (replace(layer, edge=row.edge.get(layer.name, layer.edge)) for layer in joint.layers)
    return replace(joint, layers=tuple(layers))
