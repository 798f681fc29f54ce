"""One day of a design's settled course, for the picture that moves while nobody is there."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.advice.assess import Assessment
from explorer.engine.trace import Trace

DAY_S = 86_400.0
STEPS = 288
"""Moments of the day that are asked for: every five minutes."""
FADE_STEPS = 4
"""Over so many of them light comes and goes, so that nothing jumps."""
FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Day:
    """What a day brings; arrays of shape (STEPS + 1,), from midnight to midnight."""

    level: FloatArray
    """Charge in the store over that of a full one, 0 to 1."""
    light: FloatArray
    """Light over the brightest of the day, softened, 0 to 1."""
    connected: NDArray[np.bool_]
    """Whether the device runs."""

    def level_at(self, hour: float) -> float:
        """Level at an hour of the day."""
        return float(np.interp(hour, _HOURS, self.level))

    def light_at(self, hour: float) -> float:
        """Light at an hour of the day."""
        return float(np.interp(hour, _HOURS, self.light))

    def runs_at(self, hour: float) -> bool:
        """Whether the device runs at an hour of the day."""
        return bool(self.connected[min(round(hour / 24 * STEPS), STEPS)])

    def rate_at(self, hour: float) -> float:
        """Change of the level in an hour; more than 0 while the store fills."""
        step = 24 / STEPS
        return (self.level_at(hour + step) - self.level_at(hour - step)) / (2 * step)


_HOURS = np.linspace(0.0, 24.0, STEPS + 1)


def day_of(found: Assessment, offset_s: float = 0.0) -> Day:
    """The day on which the store fills and empties most, of its settled course.

    Parameters
    ----------
    found : Assessment
        What the model says of a design.
    offset_s : float
        Time of day at which its trace begins. [s]
    """
    # Where it never starts, its settled course would show a store that somebody had filled.
    starts = next(check.value for check in found.verdict.checks if check.name == "starts")
    trace = found.trace if np.isinf(starts) else found.repeating
    whole = max(int((trace.span_s - (DAY_S - offset_s) % DAY_S) // DAY_S), 1)
    midnights = (DAY_S - offset_s) % DAY_S + DAY_S * np.arange(whole)
    grid = np.linspace(0.0, DAY_S, STEPS + 1)
    moments = np.minimum(midnights[:, None] + grid, trace.span_s)
    charge, connected = trace.charge_at(moments.ravel())
    charge, connected = charge.reshape(moments.shape), connected.reshape(moments.shape)
    lit = _light_at(trace, moments)
    # A day without any light shows nothing; among the others the one that moves most.
    best = int(np.argmax(np.ptp(charge, axis=1) * (lit.max(axis=1) > 0)))
    full = trace.engine.field.charge_at(found.scenario.charger.full_V)
    empty = trace.engine.field.charge_at(0.0)
    level = np.clip((charge[best] - empty) / max(float(full - empty), 1e-12), 0.0, 1.0)
    light = lit[best] / max(float(lit[best].max()), 1e-9)
    kernel = np.ones(2 * FADE_STEPS + 1) / (2 * FADE_STEPS + 1)
    soft = np.convolve(np.pad(light, FADE_STEPS, mode="edge"), kernel, mode="valid")
    return Day(level=level, light=soft, connected=connected[best])


def _light_at(trace: Trace, moments: FloatArray) -> FloatArray:
    """Light at moments, in the shape asked for. [lx]"""
    edges, lux = trace.light()
    if not len(lux):
        return np.zeros(moments.shape)
    place = np.searchsorted(edges, moments, side="right") - 1
    return np.asarray(lux[np.clip(place, 0, len(lux) - 1)])
