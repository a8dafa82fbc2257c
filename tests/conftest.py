"""One BLAS thread, set before NumPy is imported: results must not depend on how many cores are free."""

import os

for _name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_name, "1")

from pathlib import Path  # noqa: E402

import pytest  # noqa: E402
from hypothesis import settings  # noqa: E402

settings.register_profile("patient", deadline=None)  # a machine that is busy elsewhere is no fault
settings.load_profile("patient")

DATA = Path(__file__).parents[1] / "data"


@pytest.fixture(scope="session")
def told():
    """Lay events over a demo surface; each is the lines of one ``[[happened]]``."""
    from surfacecheck.reading import read_text

    def laid(*events, base="rudder.toml", more=""):
        lines = "".join(f"[[happened]]\n{event}\n" for event in events)
        return read_text(f'based_on = "{base}"\ntitle = "tried"\n{more}{lines}', "tried.toml", DATA)

    return laid
