"""The one array type of the engine."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
Ints: TypeAlias = NDArray[np.intp]
Bools: TypeAlias = NDArray[np.bool_]

Codes: TypeAlias = NDArray[np.int32]

GRAVITY_M_S2 = 9.80665  # standard gravity, BIPM, The International System of Units, 9th ed. 2019
