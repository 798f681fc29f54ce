"""A measured light log, ready to drive a scenario."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

import numpy as np

from explorer.physics.arrays import FloatArray

GapRule = Literal["dark", "hold"]

DARK_BELOW_LX = 1.0
"""Light below this counts as dark (own judgement: no indoor panel does useful work there)."""
_DAY_S = 86_400.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LightLog:
    """Light that is constant between edges.

    Interval ``i`` lasts from ``time_s[i]`` to ``time_s[i + 1]`` at ``illuminance_lx[i]``.
    Two logs are equal only when they are the same object, so a log may be the key of a cache.
    """

    time_s: FloatArray
    """Edges of the held intervals, shape (n + 1,), rising, the first at 0. [s]"""
    illuminance_lx: FloatArray
    """Light in each interval, shape (n,). [lx]"""
    start: datetime | None
    """Date and time of the first reading; None when the log only counts seconds."""
    step_s: float
    """Nominal time between readings. [s]"""
    gaps: tuple[tuple[float, float], ...] = ()
    """Stretches without a reading, (from, to) on the scale of `time_s`. [s]"""
    notes: tuple[str, ...] = ()
    """What was repaired or must be known, one sentence each."""
    name: str = ""
    """Of the file."""
    readings: int = 0
    """Readings in the file that are used."""
    floor_lx: float = 0.0
    """Lowest reading of a log that never goes dark; 0 where it does, or is too short. [lx]"""

    def __post_init__(self) -> None:
        if self.time_s.shape != (self.illuminance_lx.size + 1,) or self.illuminance_lx.size == 0:
            raise ValueError(
                f"a light log needs one more edge than levels and at least one level, found "
                f"{self.time_s.size} edges and {self.illuminance_lx.size} levels"
            )
        if self.time_s[0] != 0.0 or np.any(np.diff(self.time_s) <= 0.0):
            raise ValueError("the edges of a light log must start at 0 s and rise")

    @property
    def duration_s(self) -> float:
        """Length of the whole log. [s]"""
        return float(self.time_s[-1])

    @property
    def weekday(self) -> int:
        """Weekday on which the log begins: 0 is Monday, also where the log has no date."""
        return 0 if self.start is None else self.start.weekday()

    @property
    def start_of_day_s(self) -> float:
        """Time from midnight to the beginning of the log; 0 where the log has no date. [s]"""
        if self.start is None:
            return 0.0
        midnight = self.start.replace(hour=0, minute=0, second=0, microsecond=0)
        return (self.start - midnight).total_seconds()

    @property
    def start_of_week_s(self) -> float:
        """Time from Monday 00:00 to the beginning of the log. [s]"""
        return self.weekday * _DAY_S + self.start_of_day_s

    @property
    def lux_hours(self) -> float:
        """Light summed over time. [lx·h]"""
        return float(self.illuminance_lx @ np.diff(self.time_s)) / 3600.0

    @property
    def dark_s(self) -> float:
        """Time below `DARK_BELOW_LX`, gaps that count as dark included. [s]"""
        return float(np.diff(self.time_s)[self.illuminance_lx < DARK_BELOW_LX].sum())

    @property
    def mean_lit_lx(self) -> float:
        """Mean illuminance over the time that is not dark; 0 where it is always dark. [lx]"""
        lit = self.illuminance_lx >= DARK_BELOW_LX
        span_s = np.diff(self.time_s)[lit]
        total_s = float(span_s.sum())
        return float(self.illuminance_lx[lit] @ span_s) / total_s if total_s else 0.0
