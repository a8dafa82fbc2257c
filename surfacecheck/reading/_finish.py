"""The last touches: what a bracketed word or a second quantity means, and which gaps are none."""

from __future__ import annotations

from dataclasses import replace

from surfacecheck.errors import SurfaceError
from surfacecheck.model import (
    Bracket,
    DrivenBy,
    FadesAft,
    Horn,
    Load,
    PilotMoves,
    Row,
    StopAt,
    Surface,
    TrailingEdge,
    Weighed,
)
from surfacecheck.provenance import UNKNOWN, Value
from surfacecheck.quantities import parse
from surfacecheck.reading._context import Context
from surfacecheck.reading._names import rib_number

__all__ = ["finished"]


def finished(surface: Surface, context: Context) -> Surface:
    """Give the surface as it is handed out.

    Parameters
    ----------
    surface : Surface
        As read, without faults.
    context : Context
        Its gaps are put right.

    Returns
    -------
    Surface
        Distances from a rim turned into distances from a centre, a bearing's load apart from a crushing strength,
        one word for all ribs written out, the rib under the horn by its place.
    """
    _gaps(surface, context)
    ribs = surface.sheet.ribs
    if len(ribs.flanges_point) == 1 and len(ribs.up) > 1:
        ribs = replace(ribs, flanges_point=ribs.flanges_point * len(ribs.up))
    return replace(
        surface,
        horn=_horn(surface),
        sheet=replace(surface.sheet, ribs=ribs),
        rows={name: _from_rim(row, surface) for name, row in surface.rows.items()},
        brackets={name: _bearing(one) for name, one in surface.brackets.items()},
    )


def _horn(surface: Surface) -> Horn | None:
    """Name the rib under the horn by its place, where it was named by its number."""
    horn = surface.horn
    number = None if horn is None else rib_number(horn.joined_to, surface)
    if horn is None or number is None:
        return horn
    ribs = surface.sheet.ribs.up
    place = "bottom rib" if number == 1 else "top rib" if number == len(ribs) else f"rib at {ribs[number - 1].said}"
    return replace(horn, joined_to=place)


def _from_rim(row: Row, surface: Surface) -> Row:
    rivet = surface.rivets.get(row.rivet)
    if not row.edge_from_rim or rivet is None or rivet.hole.si is None:
        return row
    half = 0.5 * rivet.hole.si
    centre = {
        part: replace(rim, si=rim.si + half, said=f"{rim.said} from the rim")
        for part, rim in row.edge_from_rim.items()
        if rim.si is not None
    }
    return replace(row, edge={**row.edge, **centre})


def _bearing(bracket: Bracket) -> Bracket:
    given = bracket.pin.crushing_strength
    if not given.known or not _is_force(given):
        return bracket
    pin = replace(bracket.pin, crushing_strength=replace(UNKNOWN, key=given.key), bearing_load=given)
    return replace(bracket, pin=pin)


def _is_force(value: Value) -> bool:
    try:
        parse(value.said, "force")
    except SurfaceError:
        return False
    return True


def _gaps(surface: Surface, context: Context) -> None:
    void: list[str] = []
    wanted: list[str] = []
    _of_load(surface.load, surface, context, wanted)
    if surface.outline.trailing_edge in {TrailingEdge.OPEN, TrailingEdge.FOLDED}:
        void.append("outline.lap")
    if surface.controls.pilot_moves is PilotMoves.WHEEL and not surface.controls.wheel_across.known:
        wanted.append("controls.wheel_across")
    if surface.controls.stopped_at is StopAt.SURFACE and surface.controls.stop is None:
        wanted.append("controls.stop")
    horn = surface.horn
    if horn is not None and horn.driven_by is DrivenBy.TORQUE_TUBE:
        names = ("arm", "side", "bolt_behind", "leaves", "joined_to", "plate")
        void += [f"horn.{one}" for one in names]
        if horn.turns_other_half is None:
            wanted.append("horn.turns_other_half")
    nose = surface.sheet.nose_skin
    if nose.thickness.absent:
        void += ["sheet.nose_skin.alloy", "sheet.nose_skin.cut_at_hinge"]
    for name, skin in (("left_skin", surface.sheet.left_skin), ("right_skin", surface.sheet.right_skin)):
        if skin.thickness.absent:
            void.append(f"sheet.{context.said(name)}.alloy")
    _of_balance(surface, wanted)
    _of_readings(surface.weighed, void, wanted)
    _of_rows(surface, wanted)
    if surface.fin.moves is not None or surface.fin.bending_stiffness.known:
        void += [f"hinge.{name}.{one}" for name in surface.hinges for one in ("gives_sideways", "gives_fore_aft")]
    explicit = {one for one in context.gaps if _asked(one, context)}
    context.gaps[:] = [one for one in context.gaps if one in explicit or not _under(one, void)]
    context.gaps += wanted


def _under(key: str, tops: list[str]) -> bool:
    return any(key == one or key.startswith(f"{one}.") for one in tops)


def _asked(key: str, context: Context) -> bool:
    """Whether the file itself holds this key with a question mark."""
    return context.place_of(key) != context.place_of(key.rpartition(".")[0])


def _of_load(load: Load, surface: Surface, context: Context, wanted: list[str]) -> None:
    given = [name for name in ("pressure", "total") if getattr(load, name).known]
    if load.rule is not None:
        given.append("rule")
        wanted += [
            f"aeroplane.{name}"
            for name in ("weight", "wing_area", "load_factor")
            if not getattr(surface.aeroplane, name).known
        ]
    if "load" in context.gaps:
        return
    _of_shape(load, context, wanted)
    alternatives = {"load.pressure", "load.total", "load.rule"}
    context.gaps[:] = [one for one in context.gaps if one not in alternatives]
    if not given:
        wanted.append("load.pressure")


def _of_shape(load: Load, context: Context, wanted: list[str]) -> None:
    context.gaps[:] = [one for one in context.gaps if one != "load.shape"]
    if FadesAft.AS_TYPED in load.fades_aft:
        if load.shape is None:
            wanted.append("load.shape")
    elif load.shape is not None:
        context.remarks.append(f'load.shape is not used: write "{FadesAft.AS_TYPED}" in fades_aft.')


def _of_balance(surface: Surface, wanted: list[str]) -> None:
    balance = surface.balance_mass
    if balance.mass.known and not balance.mass.absent:
        wanted += [f"balance_mass.{one}" for one in ("up", "ahead") if not getattr(balance, one).known]
        wanted += [f"balance_mass.{one}" for one in ("arm", "fixed_with") if getattr(balance, one) is None]


def _of_readings(weighed: Weighed, void: list[str], wanted: list[str]) -> None:
    """Ask for the other half of a pair of readings; a pair makes one level reading needless."""
    keys = ("rising", "sinking")
    for path, one in (("weighed", weighed), ("weighed.tipped", weighed.tipped)):
        given = [key for key in keys if one is not None and getattr(one, key)]
        if len(given) == 1:
            wanted += [f"{path}.{key}" for key in keys if key not in given]
        elif given and path == "weighed":
            void.append("weighed.tail_push")
    if weighed.paint_by_area.known:
        void.append("weighed.paint")


def _of_rows(surface: Surface, wanted: list[str]) -> None:
    for name, row in surface.rows.items():
        if not row.pitch.known and row.count is None:
            wanted.append(f"row.{name}.pitch")
        along = "ribs" not in row.joins
        if along and row.joins:
            keys = (("from", row.start), ("to", row.to))
            wanted += [f"row.{name}.{key}" for key, value in keys if not value.known]
        if row.lines is not None and row.lines > 1 and not row.line_gap.known:
            wanted.append(f"row.{name}.line_gap")
        if not row.edge and not row.edge_from_rim:
            wanted.append(f"row.{name}.edge")
