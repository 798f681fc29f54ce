"""What the physics takes and gives: floats, or arrays of them that broadcast."""

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
Number = float | FloatArray
"""A value, or an array of values for many systems at once."""
