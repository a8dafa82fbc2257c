"""One BLAS thread, set before NumPy is imported: results must not depend on how many cores are free."""

import os

for _name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_name, "1")
