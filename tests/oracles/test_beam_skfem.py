"""The beam against finite elements written out with scikit-fem: another method, another program.

Lateral plane only: Hermite elements for E I w'' with a stiffness that varies inside the elements, and a shear-flexible
form in w and theta with second-order elements. Reactions are the residuals at the supports.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from surfacecheck.statics import Supports, beam_stiffness, deflections, grid, solve, unloaded

skfem = pytest.importorskip("skfem", reason="scikit-fem is the second program of this test: install the test extra")
from skfem.helpers import dd, ddot  # noqa: E402

LENGTH = 1.2
HINGES = [0.1, 0.4, 0.7, 1.1]


def EI(y):
    return 1000.0 * (1.0 - 0.5 * y / LENGTH) ** 3


def load(y):
    return 480.0 - 150.0 * y


def mesh(elements):
    """Nodes on the hinges."""
    knots = [0.0, *HINGES, LENGTH]
    parts = [np.linspace(a, b, elements + 1)[:-1] for a, b in pairwise(knots)]
    return skfem.MeshLine(np.append(np.concatenate(parts), LENGTH))


def held(m, displacement):
    at = [int(np.argmin(np.abs(m.p[0] - y))) for y in HINGES]
    return at, dict(zip(at, displacement, strict=True))


def hermite(displacement):
    m = mesh(40)
    basis = skfem.Basis(m, skfem.ElementLineHermite(), intorder=8)
    K = skfem.BilinearForm(lambda u, v, q: EI(q.x[0]) * ddot(dd(u), dd(v))).assemble(basis)
    f = skfem.LinearForm(lambda v, q: load(q.x[0]) * v).assemble(basis)
    nodes, _ = held(m, displacement)
    dofs = basis.nodal_dofs[0, nodes]
    x = basis.zeros()
    x[dofs] = displacement
    x = skfem.solve(*skfem.condense(K, f, x=x, D=dofs))
    tip = basis.nodal_dofs[0, int(np.argmax(m.p[0]))]
    return (K @ x - f)[dofs], x[tip]


def shear_flexible(displacement, s_zz):
    m = mesh(80)
    w, turn = (skfem.Basis(m, skfem.ElementLineP2(), intorder=8) for _ in range(2))
    stiff = 1.0 / s_zz
    grad = skfem.helpers.grad
    ww = skfem.BilinearForm(lambda u, v, q: stiff * grad(u)[0] * grad(v)[0]).assemble(w)
    wt = skfem.BilinearForm(lambda u, v, q: -stiff * u * grad(v)[0]).assemble(turn, w)
    tt = skfem.BilinearForm(lambda u, v, q: EI(q.x[0]) * grad(u)[0] * grad(v)[0] + stiff * u * v).assemble(turn)
    f = np.concatenate([skfem.LinearForm(lambda v, q: load(q.x[0]) * v).assemble(w), turn.zeros()])
    K = skfem.utils.bmat([[ww, wt], [wt.T, tt]], "csr")
    nodes, _ = held(m, displacement)
    dofs = w.nodal_dofs[0, nodes]
    x = np.zeros(f.size)
    x[dofs] = displacement
    x = skfem.solve(*skfem.condense(K, f, x=x, D=dofs))
    return (K @ x - f)[dofs], x[w.nodal_dofs[0, int(np.argmax(m.p[0]))]]


def ours(displacement, s_zz, coupled):
    stations = grid([0.0, *HINGES, LENGTH], cells=4)
    section = beam_stiffness(EI(stations.y), EI(stations.y), s_zz=s_zz)
    moved = np.zeros((1, 4, 2))
    moved[0, :, 0] = displacement
    supports = Supports((1, 2, 3, 4), displacement=moved)
    beam = solve(stations, unloaded(stations, z=load(stations.y)), section, supports, coupled)
    return beam.reactions[0, :, 2], deflections(beam).w[0, -1]


@pytest.mark.parametrize("displacement", [np.zeros(4), np.array([0.0, 1e-3, 0.0, -5e-4])], ids=["in line", "off line"])
def test_varying_bending_stiffness(displacement):
    expected, tip = hermite(displacement)
    found, our_tip = ours(displacement, 0.0, coupled=False)
    assert found == pytest.approx(expected, rel=1e-6)
    assert our_tip == pytest.approx(tip, rel=1e-5)


@pytest.mark.parametrize("s_zz", [1e-6, 1e-5])
@pytest.mark.parametrize("displacement", [np.zeros(4), np.array([0.0, 1e-3, 0.0, -5e-4])], ids=["in line", "off line"])
def test_shear_flexible(displacement, s_zz):
    expected, tip = shear_flexible(displacement, s_zz)
    found, our_tip = ours(displacement, s_zz, coupled=True)
    assert found == pytest.approx(expected, rel=1e-6)
    assert our_tip == pytest.approx(tip, rel=1e-5)
    rigid, _ = ours(displacement, s_zz, coupled=False)
    assert np.abs(rigid - found).max() > 1e5 * s_zz  # it matters, so that the agreement means something
