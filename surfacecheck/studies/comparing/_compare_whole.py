"""Of a whole surface: how many rivets its rows have, and how stiff it is in twist."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from surfacecheck.assessment import box_at
from surfacecheck.checks import plan_row
from surfacecheck.masses import rivets_more
from surfacecheck.sections.box import box_needs
from surfacecheck.sections.stiffness import stiffness_of
from surfacecheck.statics.span import span_of

if TYPE_CHECKING:
    from surfacecheck.assessment import Assessment

__all__ = ["least_twist_stiffness", "rivet_count"]


def rivet_count(assessment: Assessment) -> int:
    """Count the rivets of every row that can be laid out.

    Parameters
    ----------
    assessment : Assessment
        Worked.

    Returns
    -------
    int
        Rivets of rows; those of brackets and horn are not among them.
    """
    surface = assessment.surface
    plans = (plan_row(surface, row) for row in surface.rows.values())
    return int(sum(plan.total for plan in plans if plan is not None)) + rivets_more(surface)


def least_twist_stiffness(assessment: Assessment) -> float | None:
    """Give the least twist stiffness along the span.

    Parameters
    ----------
    assessment : Assessment
        Worked.

    Returns
    -------
    float or None
        G J [N m^2]; None where the sections could not be worked.
    """
    surface = assessment.surface  # worked from it: an assessment that stood in a stack would be worked anew for this
    if box_needs(surface):
        return None
    return float(1.0 / np.max(stiffness_of(box_at(surface, span_of(surface))).torsion))
