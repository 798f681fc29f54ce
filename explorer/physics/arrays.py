"""What the physics takes and gives: floats, or arrays of them that broadcast."""

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]
BoolArray = NDArray[np.bool_]
Number = float | FloatArray
"""A value, or an array of values for many systems at once."""


def distinct(values: FloatArray) -> FloatArray:
    """Values in order, each once; `numpy.unique` first imports masked arrays, which takes long."""
    ordered = np.sort(values)
    return np.asarray(ordered[np.append(True, np.diff(ordered) > 0.0)])
