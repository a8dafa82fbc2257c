"""Checks: effect and allowable to margin, each with its working."""

from surfacecheck.checks._apart_group import rivet_weights
from surfacecheck.checks._bracket_loads import BracketLoad, bracket_loads, bracket_needs, rivet_places
from surfacecheck.checks._brackets import bracket_checks
from surfacecheck.checks._check import Check, Term, names_in, work
from surfacecheck.checks._effects import NOSE_OPEN, Effects, pretty_place
from surfacecheck.checks._finding import Finding, Outcome, find, find_all, find_at
from surfacecheck.checks._horn import horn_checks
from surfacecheck.checks._horn_loads import HornLoad, horn_load, horn_needs
from surfacecheck.checks._joint import joint_checks, joint_drafts
from surfacecheck.checks._layers import Joint, Layer, factors_of
from surfacecheck.checks._lowest import LowestTwo, given_of, lowest_two
from surfacecheck.checks._marks import mark_checks
from surfacecheck.checks._names import name_at
from surfacecheck.checks._panels import panel_checks
from surfacecheck.checks._pins import pin_checks
from surfacecheck.checks._reduce import Kept, front
from surfacecheck.checks._row_loads import RowLoad, row_kind, row_load, row_loads, sides_on
from surfacecheck.checks._rows import between_rivets, row_checks, row_joint, row_kept
from surfacecheck.checks._spar import NET, node_stress, spar_checks
from surfacecheck.checks._stack import StackFindings, find_stack
from surfacecheck.checks._wrinkling import bay_edges, skin_wrinkle
from surfacecheck.places import RowPlan, edge_of, plan_row, spread

__all__ = [
    "NET",
    "NOSE_OPEN",
    "BracketLoad",
    "Check",
    "Effects",
    "Finding",
    "HornLoad",
    "Joint",
    "Kept",
    "Layer",
    "LowestTwo",
    "Outcome",
    "RowLoad",
    "RowPlan",
    "StackFindings",
    "Term",
    "bay_edges",
    "between_rivets",
    "bracket_checks",
    "bracket_loads",
    "bracket_needs",
    "edge_of",
    "factors_of",
    "find",
    "find_all",
    "find_at",
    "find_stack",
    "front",
    "given_of",
    "horn_checks",
    "horn_load",
    "horn_needs",
    "joint_checks",
    "joint_drafts",
    "lowest_two",
    "mark_checks",
    "name_at",
    "names_in",
    "node_stress",
    "panel_checks",
    "pin_checks",
    "plan_row",
    "pretty_place",
    "rivet_places",
    "rivet_weights",
    "row_checks",
    "row_joint",
    "row_kept",
    "row_kind",
    "row_load",
    "row_loads",
    "sides_on",
    "skin_wrinkle",
    "spar_checks",
    "spread",
    "work",
]
