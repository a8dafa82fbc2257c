"""Many variants of a surface, and numbers that scatter."""

from surfacecheck.studies.sweeping._carry_out import carry_out, processes
from surfacecheck.studies.sweeping._combinations import combinations
from surfacecheck.studies.sweeping._numbers import NumberPlace, number_places, with_numbers
from surfacecheck.studies.sweeping._scatter import SAMPLES, samples_of, scatter
from surfacecheck.studies.sweeping._scatter_data import scatter_data
from surfacecheck.studies.sweeping._scatter_result import Driver, MarginScatter, Scatter
from surfacecheck.studies.sweeping._scatter_rules import RuleScatter
from surfacecheck.studies.sweeping._scatter_shown import (
    driver_table,
    percent,
    rule_scatter_table,
    scatter_headline,
    scatter_html,
    scatter_notes,
    scatter_table,
    scatter_text,
    spread_table,
)
from surfacecheck.studies.sweeping._spreads import Tolerances, holds_tolerances, read_tolerances, spreads_of
from surfacecheck.studies.sweeping._sweep import CHUNK, Sweep, sweep
from surfacecheck.studies.sweeping._sweep_files import SweepFile, read_sweep, write_sweep
from surfacecheck.studies.sweeping._sweep_work import SweepPart
from surfacecheck.studies.sweeping._swept import Swept, swept
from surfacecheck.studies.sweeping._tolerances import Spread, spread_of

__all__ = [
    "CHUNK", "SAMPLES", "Driver", "MarginScatter", "NumberPlace", "RuleScatter", "Scatter", "Spread", "Sweep",
    "SweepFile", "SweepPart", "Swept", "Tolerances", "carry_out", "combinations", "driver_table",
    "holds_tolerances", "number_places", "percent", "processes", "read_sweep", "read_tolerances",
    "rule_scatter_table", "samples_of", "scatter", "scatter_data", "scatter_headline", "scatter_html",
    "scatter_notes", "scatter_table", "scatter_text", "spread_of", "spread_table", "spreads_of", "sweep",
    "swept", "with_numbers", "write_sweep",
]  # fmt: skip
