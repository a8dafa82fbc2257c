"""``python -m surfacecheck`` is the command ``surfacecheck``."""

import sys

from surfacecheck.cli import main

if __name__ == "__main__":
    sys.exit(main())
