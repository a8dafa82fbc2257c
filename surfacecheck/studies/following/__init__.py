"""One force alone, followed from where it is put to the pins."""

from surfacecheck.studies.following._follow import Following, follow
from surfacecheck.studies.following._follow_cuts import Cut
from surfacecheck.studies.following._follow_place import Place
from surfacecheck.studies.following._follow_shown import (
    cut_table,
    distinct_cuts,
    following_data,
    following_headline,
    following_html,
    following_text,
    load_words,
    step_table,
)
from surfacecheck.studies.following._follow_steps import PARTS, Handed, Step

__all__ = [
    "PARTS", "Cut", "Following", "Handed", "Place", "Step", "cut_table", "distinct_cuts", "follow",
    "following_data", "following_headline", "following_html", "following_text", "load_words", "step_table",
]  # fmt: skip
