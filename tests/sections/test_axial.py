"""Load along the span: hand cases, stacks, refusals."""

import numpy as np
import pytest

from surfacecheck.errors import SurfaceError
from surfacecheck.sections import Topology, axial_flow, flow_ends, section

WEB = Topology(3, ((0, 1), (1, 2)))


def web(**changed):
    return section(WEB, 0.0, [-0.02, 0.0, 0.02], 8e-4, **{"t_direct": 0.0, "boom": [1e-5, 0.0, 3e-5], **changed})


def test_what_enters_at_a_boom_of_two_stays_there():
    """Statics alone: two booms, load on the line of one of them."""
    assert axial_flow(web(), [1.0, 0.0, 0.0]).flow.mean == pytest.approx([0.0, 0.0], abs=1e-15)


def test_between_two_booms_it_goes_by_the_lever_whatever_their_areas():
    assert axial_flow(web(), [0.0, 1.0, 0.0]).flow.mean == pytest.approx([0.5, -0.5])
    low = section(WEB, 0.0, [-0.02, -0.01, 0.02], 8e-4, t_direct=0.0, boom=[1e-5, 0.0, 3e-5])
    assert axial_flow(low, [0.0, 1.0, 0.0]).flow.mean == pytest.approx([0.75, -0.25])


def test_shares_by_area_need_no_flow():
    assert axial_flow(web(), [0.25, 0.0, 0.75]).flow.mean == pytest.approx([0.0, 0.0], abs=1e-15)


def test_plate_loaded_at_its_middle():
    """Even plate, load in the middle: each half takes 1/2, linearly out to nothing at the edges."""
    plate = section(WEB, 0.0, [-0.02, 0.0, 0.02], 8e-4)
    start, end = flow_ends(axial_flow(plate, [0.0, 1.0, 0.0]).flow)
    assert start == pytest.approx([0.0, -0.5], abs=1e-15)
    assert end == pytest.approx([0.5, 0.0], abs=1e-15)


def test_stack_equals_single():
    booms = np.random.default_rng(3).uniform(1e-5, 3e-5, (50, 5))
    ring = Topology(5, ((0, 1), (1, 2), (2, 3), (3, 4), (4, 0)))
    place = {"x": [0.0, 0.1, 0.3, 0.2, -0.05], "z": [0.05, 0.06, 0.0, -0.05, -0.02]}
    stack = axial_flow(section(ring, **place, t=5e-4, boom=booms), [0.1, 0.2, 0.3, 0.4, 0.0])
    for n in (0, 17, 49):
        single = axial_flow(section(ring, **place, t=5e-4, boom=booms[n]), [0.1, 0.2, 0.3, 0.4, 0.0])
        for one, many in zip(single.flow, stack.flow, strict=True):
            assert one.tobytes() == many[n].tobytes()
        assert single.torque.tobytes() == stack.torque[n].tobytes()


def test_refusals():
    with pytest.raises(SurfaceError, match=r"sum to 0.9: they must sum to 1"):
        axial_flow(web(), [0.5, 0.4, 0.0])
    with pytest.raises(SurfaceError, match="share of node 1 is nan"):
        axial_flow(web(), [0.5, np.nan, 0.5])
    with pytest.raises(SurfaceError, match="share has shape"):
        axial_flow(web(), [0.5, 0.5])
    with pytest.raises(SurfaceError, match="nowhere to go"):
        axial_flow(web(boom=None), [1.0, 0.0, 0.0])
