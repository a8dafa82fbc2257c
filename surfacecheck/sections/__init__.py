"""Thin-walled sections: properties, shear flow, direct stress, warping, effective width."""

from surfacecheck.sections._axial import AxialFlow, axial_flow
from surfacecheck.sections._effects import (
    WallForce,
    direct_stress,
    flow,
    open_torsion_stress,
    resultant,
    twist_rate,
    wall_force,
)
from surfacecheck.sections._flow import FlowPeak, WallFlow, flow_at, flow_ends, flow_peak, flow_size, flow_spread
from surfacecheck.sections._section import Section, section
from surfacecheck.sections._topology import Topology
from surfacecheck.sections._warping import (
    RESTRAINT_SHARE,
    Warping,
    restraint_matters,
    restraint_share,
    warping,
    warping_parameter,
)
from surfacecheck.sections._width import edge_width, newell_width, von_karman_width, winter_width

__all__ = [
    "RESTRAINT_SHARE",
    "AxialFlow",
    "FlowPeak",
    "Section",
    "Topology",
    "WallFlow",
    "WallForce",
    "Warping",
    "axial_flow",
    "direct_stress",
    "edge_width",
    "flow",
    "flow_at",
    "flow_ends",
    "flow_peak",
    "flow_size",
    "flow_spread",
    "newell_width",
    "open_torsion_stress",
    "restraint_matters",
    "restraint_share",
    "resultant",
    "section",
    "twist_rate",
    "von_karman_width",
    "wall_force",
    "warping",
    "warping_parameter",
    "winter_width",
]
