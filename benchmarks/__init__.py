"""Ratios against named peers, in one run on one core. Linear algebra has one thread, set before NumPy."""

from __future__ import annotations

import os

for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[name] = "1"
