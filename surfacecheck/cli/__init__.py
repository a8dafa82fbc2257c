"""The command line: numbers first, the page after them, hints that can be typed as they stand.

Exit codes: 0 done; 1 only with ``--strict``; 2 bad input; 3 this computer.
"""

from surfacecheck.cli._main import main

__all__ = ["main"]
