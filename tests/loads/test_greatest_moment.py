"""Which case of a way has the greatest hinge moment: it goes with the stop and the least pilot force."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.loads import airload_totals, load_cases, planform_of
from surfacecheck.model import FadesAft, Over, Side, Stop, StopAt


def named(surface):
    return {case.name: case for case in load_cases(surface)[0]}


def over_fin(rudder, change, value, fades_aft, fin=(0.38, 0.27)):
    """The load over fin and rudder, and a stop on the surface."""
    places = [replace(one, fin_ahead=value(ahead)) for one, ahead in zip(rudder.outline.places, fin, strict=True)]
    stop = Stop(up=value(0.09), arm=value(0.06), side=Side.BOTH)
    return change(
        rudder,
        {
            "load.over": Over.FIN_AND_RUDDER,
            "load.fades_aft": fades_aft,
            "outline.at": tuple(places),
            "controls.stopped_at": StopAt.SURFACE,
            "controls.stop": stop,
        },
    )


@pytest.mark.parametrize(
    ("fades_aft", "fin", "name", "moment"),
    [
        # 1200 Pa over r = 0.42 to 0.30 m: integral of r^2 = 0.14388 m3. Even: half of it, 86.33 N m; the parabola a
        # quarter, 43.16. A7 at d' = 0.5: p r^2 (1/6 + E/3), with E = r/(r + fin) = 0.525 to 0.526: 59.0 N m
        ((FadesAft.STRAIGHT, FadesAft.CURVED, FadesAft.EVEN), (0.38, 0.27), "even", 86.33),
        ((FadesAft.STRAIGHT, FadesAft.CURVED), (0.38, 0.27), "middle", 59.0),
        # a fin four times as deep as the rudder: E = 0.2. A7 at d' = 0.5: 1/6 + 0.2/3 = 0.2333, less than the
        # parabola's 1/4; at d' = 0 the other way (1 - 0.2)/3 = 0.2667: 172.656 x 0.2667 = 46.04 N m
        ((FadesAft.STRAIGHT, FadesAft.CURVED), (1.68, 1.20), "front", 46.04),
        # three times: E = 0.25: all three a quarter; 2.9 times: E = 0.2564, d' = 0.5 gives 0.2521: 43.53 N m
        ((FadesAft.STRAIGHT, FadesAft.CURVED), (1.218, 0.87), "middle", 43.53),
    ],
)
def test_stop_and_least_pilot_force_take_the_greatest_hinge_moment(rudder, change, value, fades_aft, fin, name, moment):
    tail = over_fin(rudder, change, value, fades_aft, fin)
    cases = named(tail)
    on_stop = {one for one in cases if one.startswith("stop-") and "-side-" in one}
    assert on_stop == {f"stop-{a}-side-{b}-{name}" for a in ("left", "right") for b in ("left", "right")}
    about = float(airload_totals(cases[f"stop-left-side-left-{name}"].air, planform_of(tail))[1])
    assert abs(about) == pytest.approx(moment, rel=1e-3)
    assert cases["control-least-side-left"].title.endswith(cases[f"side-left-{name}"].title)


def test_a_stack_whose_variants_have_other_greatest_cases_is_refused(rudder, change, value):
    """Fins 0.9 and 4 times as deep as the rudder, as in the table above: d' = 0.5 leads in one, d' = 0 in the other."""
    fades = (FadesAft.STRAIGHT, FadesAft.CURVED)
    alike = over_fin(rudder, change, value, fades, (np.array([0.38, 0.40]), np.array([0.27, 0.28])))
    assert "stop-left-side-left-middle" in named(alike)
    apart = over_fin(rudder, change, value, fades, (np.array([0.38, 1.68]), np.array([0.27, 1.20])))
    with pytest.raises(SurfaceError, match="work them apart"):
        load_cases(apart)
