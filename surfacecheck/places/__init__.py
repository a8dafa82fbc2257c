"""Where things are on a surface, and what the places are called."""

from surfacecheck.places._at import (
    apart_at,
    drawn_edge,
    drawn_rivet,
    edge_of,
    gap_along,
    layer_thickness,
    layers_at,
    least_edge,
    rivet_at,
    with_apart,
)
from surfacecheck.places._bare import BARE, Stretch, bare_stretches, unheld
from surfacecheck.places._layout import RowPlan, plan_row, reach, spread
from surfacecheck.places._numbered import numbered, rivets_of_bracket, rivets_of_horn, rivets_of_row
from surfacecheck.places._spots import Spot, spot_of
from surfacecheck.places._stations import Station, hinge_called, rib_places, station_of, within
from surfacecheck.places._words import nearest_of, plain_words

__all__ = [
    "BARE",
    "RowPlan",
    "Spot",
    "Station",
    "Stretch",
    "apart_at",
    "bare_stretches",
    "drawn_edge",
    "drawn_rivet",
    "edge_of",
    "gap_along",
    "hinge_called",
    "layer_thickness",
    "layers_at",
    "least_edge",
    "nearest_of",
    "numbered",
    "plain_words",
    "plan_row",
    "reach",
    "rib_places",
    "rivet_at",
    "rivets_of_bracket",
    "rivets_of_horn",
    "rivets_of_row",
    "spot_of",
    "spread",
    "station_of",
    "unheld",
    "with_apart",
    "within",
]
