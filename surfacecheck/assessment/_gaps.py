"""What is not given, and what each value hides."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from surfacecheck.assessment._result import Gap
from surfacecheck.checks import Outcome, bracket_needs, horn_needs
from surfacecheck.model import DrivenBy
from surfacecheck.sections.box import box_needs

if TYPE_CHECKING:
    from collections.abc import Iterable

    from surfacecheck.checks import Finding
    from surfacecheck.loads import MissingCase
    from surfacecheck.model import Surface

__all__ = ["find_gaps"]

CASE = "load case"

ELSE = (
    (r"row\.[^.]+\.edge.*", "edge distance, and whether that sheet tears to its edge"),
    (r"row\..*", "rivet loads and margins of that row"),
    (r"rivet\.[^.]+\.grip.*", "the grip rule"),
    (r"rivet\.[^.]+\.hole_range.*", "the hole rule"),
    (r"rivet\.[^.]+\.lengths.*", "which length a stack takes"),
    (r"tool\..*", "whether that tool reaches its rivets"),
    (r"rivet\.[^.]+\.one_weighs", "mass of the rivets"),
    (r"rivet\.[^.]+\.strength_is", "whether its figures are least or typical ones"),
    (r"fin\..*", "how a fin that gives shifts load from pin to pin"),
    (r"weighed\..*", "the balance as weighed"),
    (r"aeroplane\.speed_.*", "whether the typed pressure suits those speeds"),
    (r"rivet\.[^.]+\.(diameter|hole|head|shear|pull)", "margins of what this rivet holds"),
    (r"sheet\.nose_skin\.cut_at_hinge", "where the nose closes a cell: it is taken as closed, and as open, throughout"),
    (r"sheet\.nose_skin\..*|outline\.at.*\.nose_ahead", "the cell of the nose and its rows"),
    (r"sheet\.ribs\.(up|out)(\[\d+\])?", "rib rows, load handed over at ribs, the horn's path into the box"),
    (r"sheet\..*\.bend_inside", "bend radius, and rivets clear of the bend"),
    (r"(bracket\..*|horn\.fixed_with)\.edge.*", "edge distance, and whether that sheet tears to its edge"),
    (r"hinge\..*\.out_of_line(_aft)?", "what a pin off the line sets in: without it the pins are taken as in line"),
    (r"hinge\..*\.gives_.*", "how a hinge that gives shifts load to the others: without it, it is taken as stiff"),
    (r"hinge\..*\.fin_bends", "what the bending of the fin sets in: without it the fin is taken as straight"),
    (r"hinge\..*\.rib_behind", "whether the bracket bends the web: not looked at without it"),
    (r"controls\.rigging_pull", "the pull of the cables at rest: every case is worked without it"),
    (r"outline\.at.*\.nose_around", "the length of sheet round the nose: half an ellipse is taken"),
    (r"outline\.pins_off_middle", "how far the pins are off the spar: without it they are taken in its middle"),
    (r"outline\.swings_.*", "loads in the axes of the fixed bracket, the surface swung that way"),
    (r"bracket\.[^.]+\.bend_inside", "bend radius"),
    (r"bracket\..*\.turns_in", "what crushes where the pin turns, and whether the rule for bearings holds"),
    (r"bracket\.[^.]+\.leg_wide", "margins of the leg of that bracket"),
    (r"(bracket\..*|horn\.plate)\.alloy", "margins of that part"),
    (r"balance_mass\.(up|ahead|out)", "the balance, and what that mass does when it is shaken"),
    (r"sheet\.(spar|ribs)\.holes", "what lightening holes take away: without it there are none"),
    (r"sheet\.ribs\.in_nose", "the ribs ahead of the web: without it they are taken to go on there"),
    (r"rivet\.[^.]+\.set", "whether it fills its hole: without it, it is taken as pulled"),
    (r"controls\.locked_at", "what holds the surface in the wind: without it, whoever holds the horn"),
    (r"horn\.joined_to", "what the horn is riveted to: length and access of its rivets"),
    (r"load\.fades_aft", "load cases of the shapes that are not named"),
    (r"aeroplane\.wing_area", "the wing loading, by which gust and rule go"),
)
"""What a gap hides that no check names, by its key; the first that fits."""


def find_gaps(
    surface: Surface, findings: Iterable[Finding], missing: Iterable[MissingCase], no_box: bool
) -> tuple[Gap, ...]:
    """List every value that is not given, each with what it hides.

    Parameters
    ----------
    surface : Surface
        With its own list of gaps.
    findings : iterable of Finding
        Checks; those not given name their keys.
    missing : iterable of MissingCase
        Load cases that wait for a value.
    no_box : bool
        Whether sections could not be worked [-].

    Returns
    -------
    tuple of Gap
        Those that hide most first.
    """
    hides: dict[str, list[str]] = {}

    def note(key: str, what: str) -> None:
        key = surface.in_file(key)
        if what not in hides.setdefault(key, []):
            hides[key].append(what)

    if no_box:
        for key in box_needs(surface):
            note(key, "shear flows, rivet rows, spar margins, load sharing by stiffness")
    for name, hinge in surface.hinges.items():
        for key in bracket_needs(surface, hinge):
            note(key, f"rivets of the {name} hinge bracket")
    if surface.horn is not None and surface.horn.driven_by is not DrivenBy.TORQUE_TUBE:
        for key in horn_needs(surface):
            note(key, "rivets of the horn")
    for case in missing:
        note(case.needs, f"{CASE}: {case.name}")
    for finding in findings:
        for key in finding.missing if finding.outcome == Outcome.NOT_GIVEN else ():
            note(key, f"{finding.check.part}: {finding.gives}")
    for key in surface.gaps:
        if all(what.startswith(CASE) for what in hides.setdefault(key, [])):
            hides[key][:0] = [what for pattern, what in ELSE if re.fullmatch(pattern, key)][:1]
    ordered = sorted(hides.items(), key=lambda item: -len(item[1]))
    return tuple(Gap(key, _short(what)) for key, what in ordered)


def _short(what: list[str]) -> str:
    if not what:
        return "nothing that is worked out here"
    shown = "; ".join(what[:3])
    return shown if len(what) <= 3 else f"{shown}; and {len(what) - 3} more"
