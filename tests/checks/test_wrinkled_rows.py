"""The working of a row whose sheet wrinkles says where its figures come from."""

from __future__ import annotations

import numpy as np
import pytest

from surfacecheck.checks._panels import skin_critical


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
        beside = critical[:, spots].min(axis=0) if load.kind == "edge" else critical[:, spots]
        assert stands_among(finding.value("q_cr"), beside), finding.name


def test_the_flow_of_the_sheet_is_what_the_section_gives(wrinkled):
    along = [one for one in wrinkled if one[1].kind == "spar"]
    assert along
    for finding, load, case, spots in along:
        flows = np.stack([np.abs(load.effects.mean(f"skin_{side}")) for side in ("plus", "minus")])
        assert stands_among(finding.value("q"), flows[..., case, spots]), finding.name
