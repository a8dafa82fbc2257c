"""Thin-walled sections: properties, shear flow, direct stress, warping, effective width."""

from surfacecheck.sections._effects import (
    WallForce,
    direct_stress,
    flow,
    open_torsion_stress,
    resultant,
    twist_rate,
    wall_force,
)
from surfacecheck.sections._flow import FlowPeak, WallFlow, flow_at, flow_ends, flow_peak
from surfacecheck.sections._section import Section, section
from surfacecheck.sections._topology import Topology

__all__ = [
    "FlowPeak",
    "Section",
    "Topology",
    "WallFlow",
    "WallForce",
    "direct_stress",
    "flow",
    "flow_at",
    "flow_ends",
    "flow_peak",
    "open_torsion_stress",
    "resultant",
    "section",
    "twist_rate",
    "wall_force",
]
