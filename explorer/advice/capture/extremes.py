"""What of a capture can be seen: the lowest and the highest current of each column of pixels."""

from __future__ import annotations

import numpy as np

from explorer.advice.capture.record import Capture
from explorer.physics.arrays import FloatArray


def extremes(
    capture: Capture, from_s: float, to_s: float, columns: int
) -> tuple[FloatArray, FloatArray]:
    """Lowest and highest current of even stretches, shape (columns,) each. [A]

    Parameters
    ----------
    capture : Capture
        Ten million readings take a hundredth of a second.
    from_s, to_s : float
        Ends of what is seen, within the capture. [s]
    columns : int
        Stretches.
    """
    edges = np.linspace(from_s, to_s, columns + 1)
    # The reading that holds at each edge; a column shows the one of its end too.
    place = np.clip(
        np.searchsorted(capture.time_s, edges, side="right") - 1, 0, len(capture.time_s) - 1
    )
    amps, first, last = capture.current_a, place[:-1], place[1:]
    shown = amps[place[0] : place[-1] + 1]
    begins = first - place[0]
    low = np.minimum(np.minimum.reduceat(shown, begins), amps[last])
    high = np.maximum(np.maximum.reduceat(shown, begins), amps[last])
    return low, high
