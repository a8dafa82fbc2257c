"""What was taken for granted, and what to look at twice."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from surfacecheck.assessment._load import IN_LINE, Loaded
from surfacecheck.library import metal_of
from surfacecheck.model import DrivenBy
from surfacecheck.sections import restraint_matters, warping, warping_parameter
from surfacecheck.sections.box import Box
from surfacecheck.statics.span import Span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from surfacecheck.model import Bracket, Doubler, HornPlate, NoseSkin, Ribs, Skin, Spar, Surface

    Cut: TypeAlias = Bracket | Doubler | HornPlate | NoseSkin | Ribs | Skin | Spar

__all__ = ["assumptions_of", "remarks_of"]


def assumptions_of(surface: Surface, box: Box | None, loaded: Loaded) -> tuple[str, ...]:
    out = ["margins use the beam with shear flexibility and twist; bending alone stands beside it at the pins"]
    if box is None:
        out = ["pin loads of a beam of constant stiffness, bending alone, stiff hinges: the sheet is not known yet"]
    else:
        out += box.assumptions
        out.append("middle lines; skins meet the spar at its corners; no help from the taper of the spar")
    if loaded.by_ribs.any():
        out.append("every case is worked twice, the load spread evenly and handed over at the ribs; the worse counts")
    out.append("all of the net pressure pulls on either skin in turn; skins rest on spar and trailing edge as strips")
    out.append("what brackets and horn push fore and aft into web and ribs is not followed into the ribs' rivets")
    out.append("a thin skin hangs between its rows and pulls them towards each other: that pull is not looked at")
    if any(title.endswith(IN_LINE) for title in loaded.titles):
        out.append(
            "pins off line do not push harder when the load grows: every case is worked with and without it, "
            "and the worse counts, which bounds the ultimate state"
        )
    if surface.controls.rigging_pull.known:
        out.append(
            "the rigging pull of the cables acts in every case and takes the factors of safety with it; where that "
            "would relieve a bracket, a pin or the horn, the case with the cables as if slack and pins in line counts"
        )
    out += _not_said(surface)
    notes = dict.fromkeys(note for case in loaded.cases for note in case.notes)
    return tuple([*out, *notes])


def _not_said(surface: Surface) -> list[str]:
    """Name what goes in as nothing because the file does not say."""
    out, hinges = [], surface.hinges.values()
    if not all(one.known for hinge in hinges for one in (hinge.out_of_line, hinge.out_of_line_aft)):
        out.append("where out_of_line of a pin is not given, it is taken as in line")
    gives = [hinge.gives_fore_aft for hinge in hinges]
    fin = surface.fin
    if fin.moves is None and (fin.bending_stiffness.absent or not fin.bending_stiffness.known):
        gives += [one for hinge in hinges for one in (hinge.gives_sideways, hinge.fin_bends)]
    if not all(one.known for one in gives):
        out.append("where it is not said how hinges and fin give, they are taken as stiff, and the fin as straight")
    return out


def _open_box(box: Box, span: Span) -> str:
    """Say what an open box means, and whether restrained warping makes this theory a poor guide."""
    text = "the skins do not close the box: it twists hundreds of times more easily than a closed one"
    length = float(span.breaks[span.tip] - span.breaks[span.root])
    J, C_w = float(np.median(box.closed.J)), float(np.median(warping(box.closed).C_w))
    mu = float(warping_parameter(float(box.shear_modulus), J, float(box.modulus), C_w))
    if restraint_matters(mu, length):
        text += "; where ribs, horn or brackets hold its warping, direct stresses arise that are not worked out: ask"
    return text


def _metal_parts(surface: Surface) -> Iterator[tuple[str, Cut]]:
    """Give everything cut from sheet or plate, with the builder's word for it."""
    sheet = surface.sheet
    named = ("left_skin", "right_skin", "nose_skin", "spar", "ribs")
    yield from ((surface.sheet_words(name), getattr(sheet, name)) for name in named)
    yield from ((surface.sheet_words(name), doubler) for name, doubler in sheet.doublers.items())
    yield from ((f"bracket {name}", bracket) for name, bracket in surface.brackets.items())
    if surface.horn is not None:
        yield "plate of the horn", surface.horn.plate


def _metals(surface: Surface) -> list[str]:
    """Say where a sheet's metal is not taken from the row of the table for its thickness: each text once."""
    found: dict[str, list[str]] = {}
    for words, part in _metal_parts(surface):
        text = "" if part.thickness.absent else metal_of(surface, part.alloy, part.thickness).remark
        if text:
            found.setdefault(text, []).append(words)
    return [f"{', '.join(parts)}: {text}" for text, parts in found.items()]


def remarks_of(surface: Surface, span: Span, box: Box | None, loaded: Loaded) -> tuple[str, ...]:
    out = list(surface.remarks)
    out += [
        f"{one.where}: {one.what}: not in these numbers; the command deviation sets it beside the drawing"
        for one in surface.happened
    ]
    out += _metals(surface)
    if surface.horn is not None and not span.ribs:
        out.append("no rib is known: rib rows, and the horn's path into the box, are not looked at")
    out += [
        f"{name} hinge: whether a rib stands behind its bracket is not said; without one the web must be checked"
        for name in span.hinges
        if surface.hinges[name].rib_behind is None
    ]
    bends = any(h.fin_bends.known and h.fin_bends.si for h in surface.hinges.values())
    if bends and any(not np.any(c.fin) for c in loaded.cases):
        out.append("the fin's bending is known for the load of [load] alone: in all other cases the fin stays straight")
    if any(h.how == "not given" for h in loaded.given.holds):
        out.append(
            "the horn is not known: its torque is taken off as a couple at the root; fore-and-aft loads are missing"
        )
    if box is not None and not box.rear_closed:
        out.append(_open_box(box, span))
    if surface.horn is not None and surface.horn.driven_by is DrivenBy.TORQUE_TUBE:
        out.append("the torque tube is taken to hold pure torque; its own flange and bolts are not looked at")
    if surface.balance_mass.mass.known and not surface.balance_mass.mass.absent:
        out.append("arm and rivets of the balance mass: not looked at; its load is followed from there to the horn")
    out.append("near the horn, for about one chord, this theory is a guide only")
    return tuple(out)
