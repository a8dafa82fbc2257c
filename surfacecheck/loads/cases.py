"""Every load case that a surface file gives data for."""

from __future__ import annotations

from surfacecheck.loads._case import LoadCase, MissingCase
from surfacecheck.loads._control_cases import control_cases
from surfacecheck.loads._flight_cases import flight_cases
from surfacecheck.loads._from_surface import outline_of
from surfacecheck.loads._ground_cases import ground_cases
from surfacecheck.loads._inertia_cases import balance_cases, inertia_cases
from surfacecheck.loads._tube import unsymmetric
from surfacecheck.masses import Masses, weigh
from surfacecheck.model import Surface

__all__ = ["load_cases"]


def load_cases(surface: Surface, masses: Masses | None = None) -> tuple[list[LoadCase], list[MissingCase]]:
    """Build every case the file gives data for, and list those it does not.

    Air loads with each shape and both signs; the control system's cases from them; ground gust and tie-down wind;
    inertia along the hinge line; the balance mass. Rigging pull acts in all of them (see :func:`apply_ways`).

    Parameters
    ----------
    surface : Surface
        The surface; values may be stacks of variants.
    masses : Masses, optional
        Its masses, if they are known already.

    Returns
    -------
    cases : list of LoadCase
        In the order of the page; each name once.
    missing : list of MissingCase
        Cases that wait for a value, each with its key.
    """
    weighed = weigh(surface) if masses is None else masses
    found = list(unsymmetric(surface, list(flight_cases(surface))))
    flight = [case for case in found if isinstance(case, LoadCase)]
    every = [
        *found,
        *control_cases(surface, flight, outline_of(surface).planform),
        *ground_cases(surface),
        *inertia_cases(surface, weighed),
        *balance_cases(surface),
    ]
    cases = [case for case in every if isinstance(case, LoadCase)]
    return cases, [case for case in every if isinstance(case, MissingCase)]
