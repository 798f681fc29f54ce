"""The one table of results: what happened at each moment of a run."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.physics.arrays import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Voltages:
    """Rows of a run without its currents; every array has shape (n,) and times never fall.

    Voltages, light and load switch of a row are those of its moment, minima those of the step that
    begins there; a step without length has its moment's. Where something jumps at the moment, the
    row is after the jump, but the store is before it loses an inrush.
    """

    time_s: FloatArray
    """Time since the beginning of the run. [s]"""
    store_v: FloatArray
    """Open-circuit voltage of the store. [V]"""
    store_min_v: FloatArray
    """Lowest open-circuit voltage of the step. [V]"""
    terminal_v: FloatArray
    """Terminal voltage of the store. [V]"""
    terminal_min_v: FloatArray
    """Lowest terminal voltage of the step. [V]"""
    connected: NDArray[np.bool_]
    """Whether the load is connected."""
    illuminance_lx: FloatArray
    """Light at the place. [lx]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns(Voltages):
    """Rows of a run; currents are means of the step that begins at the row's moment."""

    harvest_a: FloatArray
    """Mean charging current. [A]"""
    load_a: FloatArray
    """Mean current drawn by load and regulator, and the inrush of the bulk capacitance. [A]"""
    leakage_a: FloatArray
    """Mean current through the store's leakage and balancing, and the charger's own. [A]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extremes:
    """Lowest and highest points of a run."""

    lowest_store_v: float
    highest_store_v: float
    lowest_terminal_v: float
    """While connected; infinite when never connected. [V]"""
    lowest_ever_v: float
    """At the terminals, connected or not. [V]"""
