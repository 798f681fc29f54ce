"""The one table of results: what happened at each moment of a trace."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Trace of a run; every array has shape (n,) and times never fall.

    Two rows may share a time where something jumps (a connect, a light that comes on).
    """

    time_s: FloatArray
    """Time since the beginning of the run. [s]"""
    store_v: FloatArray
    """Open-circuit voltage of the store, upper edge of the pulse envelope. [V]"""
    store_min_v: FloatArray
    """Lower edge of the envelope of the open-circuit voltage. [V]"""
    terminal_v: FloatArray
    """Terminal voltage of the store between pulses. [V]"""
    terminal_min_v: FloatArray
    """Lowest terminal voltage within the row's load cycle. [V]"""
    harvest_a: FloatArray
    """Charging current. [A]"""
    load_a: FloatArray
    """Current drawn by load and regulator, averaged over the load cycle. [A]"""
    connected: NDArray[np.bool_]
    """Whether the load is connected."""
    illuminance_lx: FloatArray
    """Light at the place. [lx]"""
