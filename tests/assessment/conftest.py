"""Surfaces made of a demo surface and some changes, and what must hold of every one. Invented for the tests."""

from pathlib import Path

import numpy as np
import pytest

import surfacecheck
from surfacecheck.reading import read_text
from surfacecheck.working import evaluate

DATA = Path(__file__).parents[2] / "data"
ALLOY = 'alloy = "2024-T3 clad"'


def laid(changes, base="rudder.toml"):
    lines = "".join(f"{key} = {answer}\n" for key, answer in changes.items())
    text = f'based_on = "{base}"\ntitle = "tried"\n{lines}'
    return surfacecheck.assess(read_text(text, "tried.toml", folder=DATA))


def without(*rows):
    return {f"row.{row}.gone": '"yes"' for row in rows}


def sound(one):
    """Nothing that is worked out may be other than a finite number; a margin may be infinite where nothing acts."""
    for name in (
        "V_x",
        "V_z",
        "N",
        "M_x",
        "M_z",
        "T_0",
        "reactions",
        "horn_force",
        "spar_pull",
        "edge_pull",
        "rib_load",
        "rib_air",
    ):
        assert np.isfinite(getattr(one.effects, name)).all(), name
    if one.effects.flow is not None:
        assert all(np.isfinite(part).all() for part in one.effects.flow)
    for row in one.rows:
        assert np.isfinite(row.shear).all(), row.row.name
        assert np.isfinite(row.tension).all(), row.row.name
        assert (row.shear >= 0.0).all()
    for group in (*one.brackets, *([one.horn] if one.horn is not None else [])):
        assert np.isfinite(group.share).all()
    for finding in one.findings:
        assert finding.margin is None or not np.isnan(finding.margin), finding.name
        assert finding.required is None or np.isfinite(finding.required), finding.name
        redone(finding)
    assert max(rest.rest for rest in one.rests) < 1e-8
    assert all(np.isfinite([p.sideways.value, p.fore_aft.value, p.along.value]).all() for p in one.pins)


def redone(finding):
    """The working that is shown gives the number that is shown."""
    if finding.working is None or (finding.margin is not None and not np.isfinite(finding.margin)):
        return
    for shown in (finding.working, *finding.working.steps):
        value = evaluate(shown.formula, {one.name: one.si for one in shown.symbols})
        assert value == pytest.approx(shown.result, rel=1e-9, abs=1e-9), (finding.name, shown.formula)
