"""One spar, posed for three tools: four hinges, a tapered load, two cases.

1.6 m long with overhangs of 0.08 m, EI 8,514 N m2. Case 0: 3,000 to 1,200 N/m down; case 1: 800 to 2,000 N/m up.
Each function builds, solves both cases and samples shear, moment and deflection at about 200 stations, as somebody
would who uses the tool for this one spar. Invented for this comparison.
"""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

LENGTH, EI = 1.6, 8514.0
HINGES = (0.08, 0.56, 1.04, 1.52)
CASES = ((-3000.0, -1200.0), (800.0, 2000.0))
"""Load at root and tip, up positive [N/m]."""


class Spar(NamedTuple):
    """What every tool must agree on, case by case; and the sampled curves, on each tool's own stations."""

    reactions: NDArray[np.float64]
    largest_deflection: NDArray[np.float64]
    shear: NDArray[np.float64]
    moment: NDArray[np.float64]


def load(case: int, y: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the running load [N/m]."""
    root, tip = CASES[case]
    return root + (tip - root) * y / LENGTH


def ours() -> Spar:
    """Solve with surfacecheck: exact cells, 200 points."""
    from surfacecheck.statics import Supports, beam_stiffness, deflections, grid, solve, unloaded

    stations = grid([0.0, *HINGES, LENGTH], cells=(4, 14, 14, 14, 4))
    loads = unloaded(stations, cases=2, z=np.stack([load(0, stations.y), load(1, stations.y)]))
    beam = solve(stations, loads, beam_stiffness(EI, EI), Supports((1, 2, 3, 4)), coupled=False)
    moved = deflections(beam).w
    return Spar(beam.reactions[..., 2], np.abs(moved).max(axis=-1), beam.V_z, beam.M_x)


def scikit_fem() -> Spar:
    """Solve with scikit-fem: 200 Hermite elements; shear and moment by statics from its reactions."""
    import skfem
    from skfem.helpers import dd

    basis = skfem.Basis(skfem.MeshLine(np.linspace(0.0, LENGTH, 201)), skfem.ElementLineHermite())
    stiffness = skfem.BilinearForm(lambda u, v, _: EI * dd(u)[0][0] * dd(v)[0][0]).assemble(basis)
    y = basis.mesh.p[0]
    held = basis.nodal_dofs[0, np.searchsorted(y, np.asarray(HINGES) - 1e-9)]
    rows = []
    for case in range(len(CASES)):
        force = skfem.LinearForm(lambda v, w, case=case: load(case, w.x[0]) * v).assemble(basis)
        moved = skfem.solve(*skfem.condense(stiffness, force, D=held))
        reactions = (stiffness @ moved - force)[held]
        tip = CASES[case][1]
        arms = np.maximum(np.asarray(HINGES)[:, None] - y, 0.0)
        left = LENGTH - y
        shear = left * (load(case, y) + tip) / 2.0 + reactions @ (arms > 0.0)
        moment = left**2 * (load(case, y) + 2.0 * tip) / 6.0 + reactions @ arms
        rows.append((reactions, np.abs(moved[basis.nodal_dofs[0]]).max(), shear, moment))
    return Spar(*(np.array(column) for column in zip(*rows, strict=True)))


def pynite() -> Spar:
    """Solve with Pynite: a member a bay (a taper over several bays in one go loses it two digits), 40 stations each."""
    from Pynite import FEModel3D

    model = FEModel3D()
    model.add_material("metal", E=EI / 1e-6, G=EI / 1e-6, nu=0.3, rho=0.0)
    model.add_section("spar", A=1e-2, Iy=1e-6, Iz=1e-6, J=1e-6)
    places = (0.0, *HINGES, LENGTH)
    for node, y in enumerate(places):
        model.add_node(f"n{node}", y, 0.0, 0.0)
        hinge = 0 < node < len(places) - 1
        model.def_support(f"n{node}", node == 1, hinge, hinge, node == 1, False, False)
    for bay, ends in enumerate(pairwise(places)):
        model.add_member(f"m{bay}", f"n{bay}", f"n{bay + 1}", "metal", "spar")
        for case in range(len(CASES)):
            at_ends = load(case, np.asarray(ends))
            model.add_member_dist_load(f"m{bay}", "Fy", float(at_ends[0]), float(at_ends[1]), case=f"c{case}")
    for case in range(len(CASES)):
        model.add_load_combo(f"c{case}", {f"c{case}": 1.0})
    model.analyze_linear()
    rows = []
    for case in range(len(CASES)):
        reactions = [model.nodes[f"n{hinge + 1}"].RxnFY[f"c{case}"] for hinge in range(len(HINGES))]
        members = [model.members[f"m{bay}"] for bay in range(len(places) - 1)]
        curves = [
            np.concatenate([sample(40, f"c{case}")[1] for sample in samples])
            for samples in (
                [lambda n, c, m=m: m.shear_array("Fy", n, c) for m in members],
                [lambda n, c, m=m: m.moment_array("Mz", n, c) for m in members],
                [lambda n, c, m=m: m.deflection_array("dy", n, c) for m in members],
            )
        ]
        rows.append((reactions, np.abs(curves[2]).max(), curves[0], curves[1]))
    return Spar(*(np.array(column) for column in zip(*rows, strict=True)))
