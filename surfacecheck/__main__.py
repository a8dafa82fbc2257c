"""``python -m surfacecheck`` is the command ``surfacecheck``; its hints say so, and can be typed as they stand."""

import os
import sys
from pathlib import Path

from surfacecheck.cli import main

if __name__ == "__main__":
    os.environ.setdefault(
        "SURFACECHECK_CALLED_AS", f"{Path(sys.executable).name.removesuffix('.exe') or 'python'} -m surfacecheck"
    )
    sys.exit(main())
