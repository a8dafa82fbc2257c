"""A lip is checked to the lesser of yield and its own buckling, as a plate with one free edge."""

import numpy as np
import pytest

import surfacecheck

CHANGE = 'based_on = "rudder.toml"\ntitle = "lip"\nsheet.spar.lip = "{}"\n'


def lipped(height, root):
    return surfacecheck.assess(surfacecheck.read_text(CHANGE.format(height), folder=root / "data"))


def test_lip_buckles_as_a_plate_with_a_free_edge(request):
    """0.425 pi^2 / (12 (1 - 0.33^2)) E (t/b)^2 of a long plate, one edge free (NACA TN 3781), here below yield."""
    finding = lipped("20 mm", request.config.rootpath).find("spar:lip-buckles")
    b, t, E = 20e-3 - 0.4e-3, 0.8e-3, finding.value("E")
    by_hand = finding.value("k") * np.pi**2 / (12 * (1 - 0.33**2)) * E * (t / b) ** 2
    assert finding.available == pytest.approx(by_hand, rel=1e-9)
    assert finding.available < finding.value("F_cy")


def test_without_a_lip_there_is_no_such_check(request):
    drawn = surfacecheck.assess(surfacecheck.read(request.config.rootpath / "data" / "rudder.toml"))
    assert not [finding for finding in drawn.findings if finding.check.mode == "lip-buckles"]
    assert drawn.find("spar:flange-buckles").check.mode == "flange-buckles"
