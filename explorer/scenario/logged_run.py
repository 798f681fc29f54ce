"""A logged run of a device on the bench: the store's voltage over time, perhaps with the light."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from explorer.physics.arrays import FloatArray
from explorer.scenario.light_log import LightLog

Draw = Literal["design", "asleep", "off", "current"]
"""What is connected: the device as designed, without its operations, nothing, a steady current."""
BRIGHTEST_LX, MOST_A = 200_000.0, 1000.0
"""Most that may be told of the light, and of a steady current."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """What was otherwise than in the design while a run was logged."""

    light_lx: float | None = None
    """Steady light at the panel; 0 is the dark, None the light of the design or of the log. [lx]"""
    light_share: float | None = None
    """How well it is known, as a half-width over the level; None as a meter at the panel tells."""
    draw: Draw = "design"
    current_A: float = 0.0
    """Where a steady current is drawn. [A]"""
    current_share: float = 0.01
    """How well it is known, as a half-width over the current (own judgement)."""
    connected: bool | None = None
    """Whether the device was on at the first reading; None leaves it to the readings."""
    begins_s: float | None = None
    """Of a log without dates: from Monday 00:00 to its first reading. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BenchRun:
    """Readings of the voltage at the store's terminals; arrays of shape (n,).

    A row is one reading, or the mean of several with the lowest and the highest of them.
    """

    name: str
    """Of the file."""
    time_s: FloatArray
    """Since the first reading, rising; of joined readings their mean. [s]"""
    volts: FloatArray
    """Reading, or mean of the joined ones. [V]"""
    low_v: FloatArray
    """Lowest of the joined readings. [V]"""
    high_v: FloatArray
    """Highest of the joined readings. [V]"""
    step_s: float
    """Median time between two readings in the file. [s]"""
    readings: int
    """Readings in the file."""
    light: LightLog | None = None
    """Light logged beside the voltage."""
    start: datetime | None = None
    """Date and time of the first reading; None where the log only counts seconds."""
    notes: tuple[str, ...] = ()
    """What was repaired or must be known, one sentence each."""
    conditions: Conditions = Conditions()
    """Under which it was logged."""

    @property
    def span_s(self) -> float:
        """Time from the first row to the last. [s]"""
        return float(self.time_s[-1])

    @property
    def start_of_week_s(self) -> float:
        """Time from Monday 00:00 to the first reading; 0 where nobody told. [s]"""
        if self.start is None:
            return self.conditions.begins_s or 0.0
        midnight = self.start.replace(hour=0, minute=0, second=0, microsecond=0)
        return self.start.weekday() * 86_400.0 + (self.start - midnight).total_seconds()


def joined_rows(time_s: FloatArray, span_s: float, most: int) -> NDArray[np.intp]:
    """First row of each of at most `most` stretches of equal length; empty ones are left out.

    Examples
    --------
    >>> joined_rows(np.array([0.0, 1.0, 2.0, 9.0]), 9.0, 3).tolist()
    [0, 3]
    """
    place = np.minimum((time_s / max(span_s, 1e-9) * most).astype(np.intp), most - 1)
    return np.flatnonzero(np.diff(place, prepend=-1))


def thinned(run: BenchRun, most: int) -> BenchRun:
    """A run of at most `most` rows: means of stretches of equal length, with their extremes.

    Parameters
    ----------
    run : BenchRun
        Left as it is where it is short enough.
    most : int
        Rows at most. The first reading stays alone, as the run begins there.
    """
    if len(run.time_s) <= most:
        return run
    rest = joined_rows(run.time_s[1:], run.span_s, most - 1) + 1
    first = np.concatenate([[0], rest])
    size = np.diff(np.append(first, len(run.time_s)))
    return replace(
        run,
        time_s=np.add.reduceat(run.time_s, first) / size,
        volts=np.add.reduceat(run.volts, first) / size,
        low_v=np.minimum.reduceat(run.low_v, first),
        high_v=np.maximum.reduceat(run.high_v, first),
    )
