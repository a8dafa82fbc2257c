"""The web of the spar: shear, and what holes leave of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.checks._check import Check, Term
from surfacecheck.library import metal_of
from surfacecheck.provenance import Basis, Source
from surfacecheck.strength import NET_SECTION_SOURCE, member

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from surfacecheck.checks._effects import Effects

    Array = NDArray[np.float64]


__all__ = ["web_checks"]


FLOW = Source(Basis.PUBLISHED, "shear flow of thin-walled beams; Megson, chapters 17 to 20")


def web_checks(effects: Effects) -> Iterator[Check]:
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101
    spar = surface.sheet.spar
    metal = metal_of(surface, spar.alloy, spar.thickness)
    factors = member()
    bare = [name for name in box.walls if name.startswith("web")]
    thickness = {n: box.closed.t[:, box.wall(n)] for n in bare}
    stress = np.stack([np.abs(effects.peak(n)) / thickness[n] for n in bare]).max(axis=0)
    terms = {
        "F_su": Term.of(metal.shear, "stress", f"shear strength of {metal.name}"),
        "FS": Term(factors.ultimate, "", "from limit load to ultimate", factors.source),
        "f_s": Term(stress, "stress", "greatest shear stress of the web at limit"),
    }
    settings = {"cases": effects.cases, "spots": effects.places, "factors": factors.line, "subject": "the web"}
    yield Check(
        "spar.web",
        "shear",
        "web of the spar",
        "tears in shear",
        "F_su",
        "FS * f_s",
        terms,
        "f_s",
        source=FLOW,
        **settings,
    )  # type: ignore[arg-type]
    yield from _bracket_holes(effects, stress, terms, settings)
    yield from _web_holes(effects, stress, terms, settings)


def _bracket_holes(
    effects: Effects, stress: Array, terms: dict[str, Term], settings: dict[str, object]
) -> Iterator[Check]:
    """Web at the rivet holes of each bracket, on the net depth."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101
    stations = effects.span.stations
    for name, b in effects.span.hinges.items():
        bracket = surface.brackets.get(surface.hinges[name].bracket)
        rivet = None if bracket is None else surface.rivets.get(bracket.rivet)
        if bracket is None or rivet is None or bracket.sideways is None:
            continue
        at = [*([stations.before(b)] if b > 0 else []), *([stations.after(b)] if b < len(stations.cells) else [])]
        more = terms | {
            "f_s": Term(
                stress[:, at].max(axis=-1, keepdims=True),
                "stress",
                "greatest shear stress of the whole web there at limit",
            ),
            "h": Term(box.height[at[:1]], "length", "depth of the web"),
            "n": Term(float(bracket.sideways), "", "holes across the web"),
            "D": Term.of(rivet.hole, "length", "hole of the bracket's rivets"),
        }
        own = {**settings, "spots": ("",)}
        yield Check(
            f"hinge.{name}.bracket.web",
            "net-shear",
            f"{name} hinge, web at the bracket",
            "tears through the rivet holes",
            "F_su * (h - n * D) / h",
            "FS * f_s",
            more,
            "f_s",
            source=NET_SECTION_SOURCE,
            **own,
        )  # type: ignore[arg-type]


def _web_holes(effects: Effects, stress: Array, terms: dict[str, Term], settings: dict[str, object]) -> Iterator[Check]:
    """Web beside a lightening hole, on the net depth."""
    box, surface = effects.box, effects.surface
    assert box is not None  # noqa: S101
    for i, hole in enumerate(surface.sheet.spar.holes or ()):
        if not (hole.up.known and hole.across.known):
            continue
        at = int(np.argmin(np.abs(effects.span.y - float(np.min(hole.up.si)))))  # type: ignore[arg-type]
        more = terms | {
            "f_s": Term(stress[:, [at]], "stress", "greatest shear stress of the whole web there at limit"),
            "h": Term(box.height[[at]], "length", "depth of the web"),
            "D": Term.of(hole.across, "length", "lightening hole"),
        }
        own = {**settings, "spots": (effects.places[at],)}
        yield Check(
            f"spar.hole-{i + 1}",
            "net-shear",
            "web at a lightening hole",
            "tears beside the hole",
            "F_su * (h - D) / h",
            "FS * f_s",
            more,
            "f_s",
            source=NET_SECTION_SOURCE,
            notes=("net depth only; a plain or flanged hole also lets the web buckle sooner: not looked at",),
            **own,
        )  # type: ignore[arg-type]
