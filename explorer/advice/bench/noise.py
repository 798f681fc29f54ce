"""The noise of single readings."""

from __future__ import annotations

from math import hypot

import numpy as np

from explorer.physics.arrays import FloatArray


def noise_of(volts: FloatArray) -> float:
    """Noise of single readings, from their second differences. [V]

    The median of their size, which pulses do not move, over that of a normal distribution (0.6745),
    and over the root of the sum of squares of 1, 2, 1.
    """
    if len(volts) < 4:
        return 0.0
    bends = np.abs(np.diff(volts, 2))
    return float(np.median(bends) / 0.6745 / hypot(1.0, 2.0, 1.0))
