"""The words of the file, each once."""

from __future__ import annotations

from enum import StrEnum

__all__ = [
    "Around",
    "BeginsAt",
    "Category",
    "DrivenBy",
    "Face",
    "FadesAft",
    "FlangesPoint",
    "Half",
    "HeadKind",
    "Held",
    "Kind",
    "Level",
    "LoadReachesSpar",
    "Over",
    "PilotMoves",
    "RibFlangesPoint",
    "RivetSet",
    "Rule",
    "Side",
    "SkinsCarry",
    "StopAt",
    "StrengthIs",
    "TrailingEdge",
    "TurnsIn",
    "Units",
    "YesNo",
]


class Kind(StrEnum):
    """What is drawn."""

    RUDDER = "rudder"
    ELEVATOR = "elevator"
    AILERON = "aileron"


class Half(StrEnum):
    """Which half of the aeroplane; a rudder has none."""

    NONE = "none"
    LEFT = "left"
    RIGHT = "right"


class Units(StrEnum):
    """The system of units the file is mostly written in."""

    METRIC = "metric"
    INCH = "inch"


class YesNo(StrEnum):
    """A plain question."""

    YES = "yes"
    NO = "no"


class Rule(StrEnum):
    """A published rule that gives the mean pressure."""

    APPENDIX_A = "Part 23 Appendix A"


class Over(StrEnum):
    """The area the pressure is the mean of."""

    BEHIND_PINS = "behind pins"
    BEHIND_WEB = "behind web"
    WHOLE_SURFACE = "whole surface"
    FIN_AND_RUDDER = "fin and rudder"


class Level(StrEnum):
    """Limit or ultimate."""

    LIMIT = "limit"
    ULTIMATE = "ultimate"


class BeginsAt(StrEnum):
    """Where the load starts along the chord."""

    NOSE = "nose"
    PINS = "pins"
    WEB = "web"


class FadesAft(StrEnum):
    """How the pressure falls off behind."""

    STRAIGHT = "straight to zero"
    CURVED = "curved to zero"
    EVEN = "even"
    AS_TYPED = "as typed"


class Category(StrEnum):
    """Category of the aeroplane."""

    NORMAL = "normal"
    UTILITY = "utility"
    ACROBATIC = "acrobatic"


class PilotMoves(StrEnum):
    """What is in the pilot's hands or under the feet."""

    PEDALS = "pedals"
    STICK = "stick"
    WHEEL = "wheel"


class StopAt(StrEnum):
    """Where a lock or a stop sits."""

    SURFACE = "surface"
    PEDALS = "pedals"
    STICK = "stick"
    NONE = "none"


class Side(StrEnum):
    """A side seen from behind; top and bottom of a flat half are left and right here."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


class TrailingEdge(StrEnum):
    """How the skins meet behind."""

    RIVETED = "riveted shut"
    FOLDED = "folded"
    OPEN = "open"


class DrivenBy(StrEnum):
    """What turns the surface."""

    TWO_CABLES = "two cables"
    ROD = "rod"
    TORQUE_TUBE = "torque tube"


class FlangesPoint(StrEnum):
    """Which way the flanges of the spar point from its web."""

    AHEAD = "ahead"
    BEHIND = "behind"


class RibFlangesPoint(StrEnum):
    """Which way the flanges of a rib point; out and in of a flat half are up and down here."""

    UP = "up"
    DOWN = "down"


class RivetSet(StrEnum):
    """How the rivet is set."""

    PULLED = "pulled"
    SOLID = "solid"


class HeadKind(StrEnum):
    """The head of a rivet."""

    PROTRUDING = "protruding"
    COUNTERSUNK = "countersunk"
    DIMPLED = "dimpled"


class StrengthIs(StrEnum):
    """What the figures of the data sheet are."""

    LEAST = "least"
    TYPICAL = "typical"


class Face(StrEnum):
    """The face of the web a bracket sits on."""

    AHEAD = "ahead"
    BEHIND = "behind"


class TurnsIn(StrEnum):
    """What the pin turns in."""

    BRACKET = "bracket"
    BUSH = "bush"
    BEARING = "bearing"


class Held(StrEnum):
    """How the fin holds the pin."""

    BOTH = "both ends"
    ONE = "one end"


class LoadReachesSpar(StrEnum):
    """How the load of the skins comes to the spar."""

    EVENLY = "evenly"
    THROUGH_RIBS = "through ribs"
    BOTH = "both"


class SkinsCarry(StrEnum):
    """What the skins do in bending."""

    SHEAR_AND_LAP = "shear, and the lap"
    SHEAR_ONLY = "shear only"
    SHEAR_AND_STRIPS = "shear and a strip at each row"


class Around(StrEnum):
    """A direction on the surface, as in ``largest_points``."""

    UP = "up"
    DOWN = "down"
    AHEAD = "ahead"
    BEHIND = "behind"
    LEFT = "left"
    RIGHT = "right"
