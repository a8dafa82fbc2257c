"""Where the airload of a sheet-metal control surface goes, and what carries it.

A sanity check by and for builders, no approval: designer, rules and inspector decide.
"""

__version__ = "0.1.0"
