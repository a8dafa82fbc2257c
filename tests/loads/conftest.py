"""A rudder for load cases, invented: outline, horn with two cables, three hinges, ribs; no sheet."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from surfacecheck.model import (
    Aeroplane,
    BalanceMass,
    BeginsAt,
    Category,
    Controls,
    DrivenBy,
    FadesAft,
    Hinge,
    Horn,
    Leaves,
    Level,
    Load,
    Outline,
    OutlinePlace,
    Over,
    PilotMoves,
    Ribs,
    Sheet,
    Side,
    StopAt,
    Surface,
    Weighed,
    YesNo,
)
from surfacecheck.provenance import Basis, Source, Value

INVENTED = Source(Basis.INVENTED)


def v(si, key=""):
    return Value(si, str(si), INVENTED, key)


NONE = Value(None, "none", INVENTED, absent=True)


def place(up, fin, nose, web, edge, depth):
    return OutlinePlace(
        up=v(up), fin_ahead=v(fin), nose_ahead=v(nose), web_behind=v(web), edge_behind=v(edge), spar_depth=v(depth)
    )


@pytest.fixture
def value():
    return v


@pytest.fixture
def rudder():
    hinges = {
        name: Hinge(up=v(up), takes_along=takes, name=name)
        for name, up, takes in (("bottom", 0.09, YesNo.YES), ("middle", 0.56, YesNo.NO), ("top", 1.01, YesNo.NO))
    }
    return Surface(
        load=Load(
            pressure=v(1200.0),
            over=Over.BEHIND_PINS,
            level=Level.LIMIT,
            begins_at=BeginsAt.PINS,
            fades_aft=(FadesAft.STRAIGHT, FadesAft.CURVED, FadesAft.EVEN),
            wind_at_tiedown=v(65.0 * 1852.0 / 3600.0),
        ),
        aeroplane=Aeroplane(weight=v(600.0), wing_area=v(12.0), category=Category.NORMAL, load_factor=v(3.8)),
        controls=Controls(
            pilot_moves=PilotMoves.PEDALS,
            horn_per_pilot=v(1.4),
            rigging_pull=v(120.0),
            locked_at=StopAt.PEDALS,
            stopped_at=StopAt.PEDALS,
        ),
        outline=Outline(at=(place(0.0, 0.38, 0.035, 0.025, 0.42, 0.06), place(1.1, 0.27, 0.03, 0.025, 0.30, 0.045))),
        hinges=hinges,
        horn=Horn(
            driven_by=DrivenBy.TWO_CABLES, up=v(0.0), arm=v(0.1), side=Side.BOTH, bolt_behind=v(0.0), leaves=Leaves()
        ),
        sheet=Sheet(ribs=Ribs(up=tuple(v(up) for up in (0.0, 0.09, 0.325, 0.56, 0.785, 1.01, 1.1)))),
        weighed=Weighed(mass=v(3.0)),
        balance_mass=BalanceMass(mass=NONE),
    )


@pytest.fixture
def change():
    """Change fields of parts by dotted names: change(surface, {"load.over": ...})."""

    def changed(surface, fields):
        for path, new in fields.items():
            names = path.split(".")
            parts = [surface]
            for name in names[:-1]:
                parts.append(getattr(parts[-1], name))
            made = new
            for part, name in zip(reversed(parts), reversed(names), strict=True):
                made = replace(part, **{name: made})
            surface = made
        return surface

    return changed


BREAKS = np.array([0.0, 0.09, 0.325, 0.56, 0.785, 1.01, 1.1])
LOBATTO = np.array([0.0, (1.0 - 1.0 / math.sqrt(5.0)) / 2.0, (1.0 + 1.0 / math.sqrt(5.0)) / 2.0, 1.0])
WEIGHTS = np.array([1.0, 5.0, 5.0, 1.0]) / 12.0


class Stations:
    """Four Lobatto points a bay, as the beam lays them."""

    breaks = BREAKS
    bay = np.repeat(np.arange(len(BREAKS) - 1), 4)
    y = (BREAKS[:-1, None] + np.diff(BREAKS)[:, None] * LOBATTO).reshape(-1)
    weight = (np.diff(BREAKS)[:, None] * WEIGHTS).reshape(-1)

    def sums(self, loads):
        """Force (3), and moment about the origin (M_x, M_y, M_z), of each case."""
        run = {name: np.sum(getattr(loads, name) * self.weight, axis=-1) for name in ("x", "y", "z", "torque")}
        at = {name: np.sum(getattr(loads, name) * self.y * self.weight, axis=-1) for name in ("x", "z")}
        couple = {name: np.sum(getattr(loads, name) * self.weight, axis=-1) for name in ("moment_x", "moment_z")}
        force = np.stack([run["x"], run["y"], run["z"]], axis=-1) + np.sum(loads.force, axis=-2)
        points = np.sum(self.breaks * loads.force[..., 2], axis=-1), np.sum(self.breaks * loads.force[..., 0], axis=-1)
        own = np.sum(loads.moment, axis=-2)
        moment = np.stack(
            [
                at["z"] + points[0] + couple["moment_x"] + own[..., 0],
                run["torque"] + own[..., 1],
                -at["x"] - points[1] + couple["moment_z"] + own[..., 2],
            ],
            axis=-1,
        )
        return force, moment


@pytest.fixture
def stations():
    return Stations()
