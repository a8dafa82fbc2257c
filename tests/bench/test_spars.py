"""The three tools of the benchmark solve the same spar, or comparing their times would mean nothing."""

from __future__ import annotations

import importlib.util
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

_SPEC = importlib.util.spec_from_file_location("spars", Path(__file__).with_name("spars.py"))
spars = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(spars)


def three_moments(root, tip):
    """Reactions (up) under a load that runs from root to tip (up), by the theorem of three moments, in fractions.

    ``m1 + 4 m2 + m3 = l^2 (7 q1 + 16 q2 + 7 q3) / 60`` for equal spans l, load q down and hogging moments m:
    Timoshenko, S.: Strength of Materials, part I, chapter on continuous beams, with the end slopes of a span under a
    load that runs from p to q, ``l^3 (8 p + 7 q) / 360 EI`` and ``l^3 (7 p + 8 q) / 360 EI``.
    """
    at = [Fraction(place).limit_denominator(1000) for place in (0.0, *spars.HINGES, spars.LENGTH)]
    q = [-Fraction(root) - (Fraction(tip) - Fraction(root)) * y / at[-1] for y in at]
    first, span, last = at[1], at[2] - at[1], at[5] - at[4]
    m1, m4 = first**2 * (2 * q[0] + q[1]) / 6, last**2 * (q[4] + 2 * q[5]) / 6
    two, three = (span**2 * (7 * q[i - 1] + 16 * q[i] + 7 * q[i + 1]) / 60 for i in (2, 3))
    two, three = two - m1, three - m4
    m = [m1, (4 * two - three) / 15, (4 * three - two) / 15, m4]
    forces = [first * (q[0] + q[1]) / 2, Fraction(0), Fraction(0), last * (q[4] + q[5]) / 2]
    for i in range(3):
        forces[i] += span * (2 * q[i + 1] + q[i + 2]) / 6 + (m[i] - m[i + 1]) / span
        forces[i + 1] += span * (q[i + 1] + 2 * q[i + 2]) / 6 + (m[i + 1] - m[i]) / span
    return [float(force) for force in forces]


EXACT = np.array([three_moments(*case) for case in spars.CASES])


def test_the_theorem_balances_the_load():
    loads = [spars.LENGTH * sum(case) / 2 for case in spars.CASES]
    np.testing.assert_allclose(EXACT.sum(axis=1), [-load for load in loads], rtol=1e-14)
    turns = [spars.LENGTH**2 * (root + 2 * tip) / 6 for root, tip in spars.CASES]
    np.testing.assert_allclose(EXACT @ spars.HINGES, [-turn for turn in turns], rtol=1e-14)


@pytest.mark.parametrize(
    ("tool", "package", "close"),
    [("ours", "surfacecheck", 1e-12), ("scikit_fem", "skfem", 1e-7), ("pynite", "Pynite", 1e-10)],
)
def test_reactions(tool, package, close):
    pytest.importorskip(package, reason=f"{package} is compared with, and is not here")
    found = getattr(spars, tool)()
    np.testing.assert_allclose(found.reactions, EXACT, rtol=close)


@pytest.mark.parametrize(("tool", "package"), [("scikit_fem", "skfem"), ("pynite", "Pynite")])
def test_curves(tool, package):
    pytest.importorskip(package, reason=f"{package} is compared with, and is not here")
    found, here = getattr(spars, tool)(), spars.ours()
    # the largest shear and moment stand at hinges, where every tool has a station; deflections between stations
    np.testing.assert_allclose(np.abs(found.moment).max(axis=-1), np.abs(here.moment).max(axis=-1), rtol=1e-7)
    np.testing.assert_allclose(found.largest_deflection, here.largest_deflection, rtol=1e-3)
    assert all(curve.shape[-1] >= 200 for curve in (found.shear, found.moment, here.shear, here.moment))
