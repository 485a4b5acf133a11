"""Let the checks of the benchmarks' peers import ``benchmarks``, however pytest was started."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).resolve().parents[2]))
