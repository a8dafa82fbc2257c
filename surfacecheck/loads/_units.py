"""The few unit factors that rules written in pounds, feet and knots need.

The kernel works in SI; these constants turn a rule's own coefficients into SI once, where the rule is written.
All are exact by definition (NIST Special Publication 811, 2008 edition, appendix B.8), except the density.
"""

from __future__ import annotations

__all__ = ["FOOT", "GRAVITY", "KNOT", "POUND_FORCE", "PSF", "RHO_0"]

FOOT = 0.3048
"""One foot [m]."""

KNOT = 1852.0 / 3600.0
"""One knot [m/s]."""

GRAVITY = 9.80665
"""Standard acceleration of gravity [m/s^2]."""

POUND_FORCE = 0.45359237 * GRAVITY
"""One pound-force [N]."""

PSF = POUND_FORCE / FOOT**2
"""One pound-force per square foot [Pa]."""

RHO_0 = 1.225
"""Density of air at sea level [kg/m^3]: ICAO Doc 7488/3 (1993), Manual of the ICAO Standard Atmosphere, table 1."""
