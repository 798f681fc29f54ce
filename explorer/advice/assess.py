"""One assessment of a scenario: verdict, answers and what the window draws."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.advice.verdict import Verdict
from explorer.engine.columns import Columns
from explorer.scenario.model import Scenario

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Something that happened at a moment of the trace."""

    time_s: float
    kind: str
    """`connect`, `disconnect`, `brown_out` or `full`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Threshold:
    """A voltage that the trace is read against."""

    label: str
    volts: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PulseView:
    """The deepest pulse at the lowest store voltage, split into its step and its ramp."""

    title: str
    time_s: FloatArray
    store_v: FloatArray
    terminal_v: FloatArray
    minimum_v: float
    step_v: float
    """Droop across the series resistance. [V]"""
    ramp_v: float
    """Fall of the store's own voltage. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment:
    """All that one evaluation of the model says."""

    scenario: Scenario
    verdict: Verdict
    answers: dict[str, float]
    """Numbers with a unit suffix; infinite means never or without end."""
    trace: Columns
    marks: tuple[Mark, ...]
    thresholds: tuple[Threshold, ...]
    pulse: PulseView | None
    period_s: float
    """Time after which the light repeats. [s]"""
