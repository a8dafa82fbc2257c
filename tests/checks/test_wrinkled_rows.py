"""The working of a row whose sheet wrinkles says where its figures come from."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.checks._wrinkling import skin_critical
from surfacecheck.reading import read_text

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def wrinkled(demo):
    """Findings of rows whose sheet wrinkles, each with its row, the case and the stations it may stand at."""
    rows = {f"row.{load.row.name}": load for load in demo.rows if load.wrinkle is not None}
    out = []
    for one in demo.findings:
        if "q_cr" in one.check.terms and one.check.place in rows:
            load = rows[one.check.place]
            spots = [i for i, name in enumerate(load.spots) if name == one.spot]  # a hinge stands there twice
            out.append((one, load, load.cases.index(one.case), spots))
    return out


def stands_among(value, wanted):
    return np.isclose(value, wanted, rtol=1e-12, atol=0.0).any()


def stations_of(load, spots):
    """Give the stations that spots of a row stand at; for a rib the one on the side of its skin."""
    if load.kind != "rib":
        return spots
    grid, ribs = load.effects.span.stations, load.effects.span.ribs
    first, last = min(ribs), max(ribs)
    assert all(ribs[i] in {first, last} for i in spots)
    return [grid.after(ribs[i]) if ribs[i] == first else grid.before(ribs[i]) for i in spots]


def test_both_flows_stand_in_the_working(wrinkled):
    assert len(wrinkled) > 10
    for finding, load, case, spots in wrinkled:
        shown = finding.check.proof or dict(finding.check.steps)["w"]
        assert "q / q_cr" in shown, finding.name
        ratio = finding.value("q") / finding.value("q_cr")
        assert stands_among(ratio, load.wrinkle.reshape(-1, *load.wrinkle.shape[-2:])[0, case, spots]), finding.name


def test_it_wrinkles_at_the_flow_of_the_panel_beside_it(wrinkled):
    """A row along the spar is beside one skin, a trailing edge between two: the weaker panel counts."""
    for finding, load, _, spots in wrinkled:
        critical = np.stack([np.ravel(skin_critical(load.effects, side)) for side in ("plus", "minus")])
        at = stations_of(load, spots)
        beside = critical[:, at].min(axis=0) if load.kind == "edge" else critical[:, at]
        assert stands_among(finding.value("q_cr"), beside), finding.name


def test_the_flow_of_the_sheet_is_what_the_section_gives(wrinkled):
    along = [one for one in wrinkled if one[1].kind in {"spar", "rib"}]
    assert {load.kind for _, load, _, _ in along} == {"spar", "rib"}
    for finding, load, case, spots in along:
        flows = np.stack([np.abs(load.effects.mean(f"skin_{side}")) for side in ("plus", "minus")])
        assert stands_among(finding.value("q"), flows[..., case, stations_of(load, spots)]), finding.name


def test_on_ribs_with_skin_on_both_sides_nothing_is_added(demo):
    """The skin ends at the first and the last rib; between them the row has the step of the flow alone."""
    rows = [load for load in demo.rows if load.kind == "rib" and "nose_skin" not in load.row.joins]
    assert len(rows) == 2
    for load in rows:
        ends = np.array(
            [b in {min(load.effects.span.ribs), max(load.effects.span.ribs)} for b in load.effects.span.ribs]
        )
        assert not load.wrinkle[..., ~ends].any()
        assert load.wrinkle[..., ends].any()


def test_the_horn_rib_by_hand():
    """Skin of the horn rib of the rudder: 5054.0 N/m at limit, which wrinkles at 5758.6 N/m; 149.32 N a rivet.

    At 2.6005 times limit, 1.725 times that: 4.4858 x 0.87765 = 3.9369, half its logarithm 0.29758, tanh 0.28910, so
    the rivet has 1.11969 times its shear: 4.4858 x 149.323 x 1.11969 = 750.0 N, all it has.
    """
    text = (DATA / "rudder.toml").read_text(encoding="utf-8")
    text = text.replace('shear = "?"', 'shear = "750 N"', 1)
    assessment = surfacecheck.assess(read_text(text, "rudder.toml", DATA))
    name = "row.left_skin_to_ribs.rib-1-at-0-mm:rivet-shear"
    (found,) = [one for one in assessment.margins if one.name == name]
    q, q_cr, S = (found.value(letter) for letter in ("q", "q_cr", "S"))
    assert [q, q_cr, S] == pytest.approx([5054.0, 5758.6, 149.323], rel=1e-4)
    assert found.margin + 1.0 == pytest.approx(2.6005, rel=1e-4)
    assert pytest.approx(750.0, rel=1e-3) == 4.4858 * 149.323 * (1.0 + 0.414 * 0.28910)
