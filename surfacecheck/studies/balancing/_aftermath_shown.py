"""The list after a storm in words: what happened, how large that was, what to look at first, what to look for."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from surfacecheck.assessment import CAUTION, in_system, place_words
from surfacecheck.masses import GRAVITY
from surfacecheck.quantities import show, to_unit, unit_of
from surfacecheck.studies.balancing._cautions import cautions_for
from surfacecheck.studies.balancing._look_for import ALSO_LOOK
from surfacecheck.tables import Table, escaped, wrapped

if TYPE_CHECKING:
    from surfacecheck.quantities import System
    from surfacecheck.studies.balancing._aftermath import Aftermath, Blow
    from surfacecheck.studies.balancing._looked import Looked

__all__ = [
    "NO_ALL_CLEAR",
    "ORDER",
    "aftermath_cautions",
    "aftermath_data",
    "aftermath_html",
    "aftermath_lines",
    "aftermath_table",
    "aftermath_text",
    "event_words",
    "part_words",
]

NO_ALL_CLEAR = (
    "A list for looking, never an all-clear: a number below 1 clears nothing, it only stands further down. Damage that "
    "cannot be seen is the point. Do not fly on a calculation."
)
"""On every list."""

ORDER = (
    "First what would need more than its strength, then by load over the largest limit load of the file, to a tenth; "
    "equal ones by the share of strength used. Of its strength: factors in; - where none is given."
)
"""In which order the parts stand."""

_LOCK = {"held": "lock held", "let go": "lock let go", "none": "no lock"}
_LB_FT = 0.45359237 * 0.3048
"""Of a pound dropped a foot, over standard gravity [kg m]."""
_ROUGH = "Orders of magnitude and upper bounds: the wind pushes the same at every angle, nothing brakes."


def event_words(found: Aftermath, system: System = "metric") -> str:
    """Say what happened.

    Parameters
    ----------
    found : Aftermath
        An event.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        A few words, for a heading.
    """
    event = found.event
    said = []
    if event.wind is not None:
        knots = f"{to_unit(event.wind, 'knots'):.3g} knots"
        speed = knots if system == "inch" else f"{knots} ({show(event.wind, 'speed')})"
        said.append(f"{speed} on the parked surface, {_LOCK[event.lock]}")
    if event.past_stop is not None:
        said.append(f"{_degrees(event.past_stop)} past its stop")
    return "; ".join(said)


def _degrees(angle: float) -> str:
    return f"{math.degrees(angle):.3g} deg"


def aftermath_lines(found: Aftermath, system: System = "metric") -> tuple[str, ...]:
    """Say how large the event was: hinge moment, energy of a swing, blow at the stop.

    Parameters
    ----------
    found : Aftermath
        An event.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    tuple of str
        Sentences.
    """
    said = []
    if found.steady is not None:
        said.append(f"Steady, that wind is a hinge moment of {_against(found, found.steady, system)}; K is assumed.")
    if found.energy is not None:
        said.append(f"A free swing before the stop: at most {found.energy:.2g} J, as {_dropped(found.energy, system)}.")
    said += [_blow(found, blow, system) for blow in found.blows]
    if found.blows:
        said.append(_ROUGH)
    if found.event.past_stop is not None and found.blows:
        said.append(f"The list is worked for {_about(found.counted, system)}.")
    elif found.blows:
        said.append("Nobody knows by how much the stop gave: the list is worked for the steady wind, and all of it can "
                    "be that many times more.")  # fmt: skip
    if found.missing:
        said.append(f"Not given: {found.missing}.")
    return tuple(said)


def _dropped(energy: float, system: System) -> str:
    """Say an energy as something dropped."""
    mass = energy / GRAVITY
    return f"{mass:.2g} kg dropped a metre" if system == "metric" else f"{mass / _LB_FT:.2g} lb dropped a foot"


def _about(moment: float, system: System) -> str:
    """Give a moment to two figures: a bound is no better known than that."""
    unit = unit_of("torque", system)
    return f"{float(f'{to_unit(moment, unit):.1e}'):g} {unit}"


def _against(found: Aftermath, moment: float, system: System) -> str:
    """Give a moment, and how many times the largest of the file that is."""
    said = show(moment, "torque", system)
    if not found.limit:
        return f"{said}; the file holds no load to hold it against"
    limit = show(found.limit, "torque", system)
    return f"{said}, {moment / found.limit:.2g} times the largest of the file ({limit}: {found.limit_case})"


def _blow(found: Aftermath, blow: Blow, system: System) -> str:
    bounds = (("its energy", blow.by_swing), ("the twist of the surface itself", blow.by_twist))
    said = []
    for name, bound in bounds:
        if bound is not None:
            times = f", {bound / found.limit:.2g} times that largest one" if found.limit else ""
            said.append(f"by {name} at most {_about(bound, system)}{times}")
    lower = "; the lower of them counts" if len(said) > 1 else ""
    return f"Stopped within {_degrees(blow.give)}: {'; '.join(said)}{lower}."


def aftermath_table(found: Aftermath, system: System = "metric") -> Table:
    """Put the parts in the order in which to look at them.

    Parameters
    ----------
    found : Aftermath
        An event.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    Table
        A row a part.
    """
    rows = []
    for at, one in enumerate(found.parts, 1):
        numbers = (_times(one.over_limit), _times(one.used), in_system(one.gives, system))
        rows.append((f"{at} {part_words(found, one, system)}", *numbers))
    return Table(("part", "of its limit load", "of its strength", "gives first"), tuple(rows), "lrrl", note=ORDER)


def part_words(found: Aftermath, one: Looked, system: System = "metric") -> str:
    """Name a part of the list in the surface's own words and in the units wanted."""
    return in_system(place_words(one.part, found.surface), system)


def _times(value: float | None) -> str:
    return "-" if value is None else f"{value:.2f}"


def aftermath_cautions(found: Aftermath) -> tuple[str, ...]:
    """Choose the cautions of an event."""
    return cautions_for("storm, over-travel; free play" if found.event.wind is not None else "over-travel; free play")


def aftermath_text(found: Aftermath, system: System = "metric", width: int = 80) -> str:
    """Write the list for a terminal.

    Parameters
    ----------
    found : Aftermath
        An event.
    system : {"metric", "inch"}
        Units.
    width : int
        Columns.

    Returns
    -------
    str
        ASCII lines.
    """
    head = f"AFTERMATH  {found.surface.name or 'no name given'}: {event_words(found, system)}"
    looks: dict[str, list[str]] = {}
    for at, one in enumerate(found.parts, 1):
        looks.setdefault(one.look, []).append(str(at))
    blocks = [
        wrapped(head, width, then="  "),
        wrapped(NO_ALL_CLEAR, width),
        "\n".join(wrapped(line, width, then="  ") for line in aftermath_lines(found, system)),
        "LOOK IN THIS ORDER\n" + aftermath_table(found, system).text(width),
        "LOOK FOR (common practice)\n"
        + "\n".join(wrapped(f"{', '.join(at)}: {says}", width, " ", "   ") for says, at in looks.items() if says),
        "LOOK ALSO, outside these numbers\n" + "\n".join(wrapped(one, width, " - ", "   ") for one in ALSO_LOOK),
        "\n".join(wrapped(one, width, then="  ") for one in aftermath_cautions(found)),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join(blocks)


def aftermath_html(found: Aftermath, system: System = "metric") -> str:
    """Write the list for a notebook.

    Parameters
    ----------
    found : Aftermath
        An event.
    system : {"metric", "inch"}
        Units.

    Returns
    -------
    str
        HTML, every text escaped.
    """
    said = "".join(f"<p>{escaped(line)}</p>" for line in (NO_ALL_CLEAR, *aftermath_lines(found, system)))
    return f"<div>{said}{aftermath_table(found, system).html()}<p><em>{escaped(CAUTION)}</em></p></div>"


def aftermath_data(found: Aftermath) -> dict[str, Any]:
    """Turn the list into plain data.

    Parameters
    ----------
    found : Aftermath
        An event.

    Returns
    -------
    dict
        ``form``, ``event``, moments and energy [SI], ``parts`` in order, ``look_also``, ``caution``.
    """
    event = found.event
    return {
        "form": 1,
        "units": "SI",
        "surface": found.surface.name,
        "event": {"wind": event.wind, "lock": event.lock, "swing": event.swing, "past_stop": event.past_stop},
        "hinge_moment": found.steady,
        "limit_hinge_moment": found.limit,
        "limit_case": found.limit_case,
        "swing_energy": found.energy,
        "blows": [{"give": b.give, "by_swing": b.by_swing, "by_twist": b.by_twist} for b in found.blows],
        "counted_hinge_moment": found.counted,
        "parts": [
            {"place": one.place, "part": one.part, "of_limit_load": one.over_limit, "of_strength": one.used,
             "gives": one.gives, "look_for": one.look}
            for one in found.parts
        ],
        "look_also": list(ALSO_LOOK),
        "missing": found.missing,
        "not_an_all_clear": NO_ALL_CLEAR,
        "caution": CAUTION,
    }  # fmt: skip
