"""Measured curves of a panel: CSV with a voltage and a current, at one light."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from explorer.files.bench_log import HIGHEST_V
from explorer.files.logs import BRIGHTEST_LX
from explorer.files.table_reader.layout import Wanted
from explorer.files.table_reader.reader import read_readings
from explorer.files.table_reader.told import LogError, Told
from explorer.physics.arrays import FloatArray
from explorer.physics.measured_curve import Landmarks, landmarks, ordered_curve
from explorer.text import say

MOST_A = 100.0
STEADY = 0.05
"""Share by which the light may vary along a curve (own judgement)."""
_WANTED = (
    Wanted(quantity="voltage", lowest=-HIGHEST_V, highest=HIGHEST_V),
    Wanted(quantity="current", lowest=-MOST_A, highest=MOST_A),
    Wanted(quantity="light", lowest=0.0, highest=BRIGHTEST_LX, needed=False),
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredCurve:
    """A curve at one light; arrays of shape (n,), by rising voltage."""

    name: str
    """Of the file."""
    voltage_v: FloatArray
    current_a: FloatArray
    landmarks: Landmarks
    illuminance_lx: float | None
    """Where the file has a column of it. [lx]"""


def read_curve(path: Path | str, told: Told | None = None) -> MeasuredCurve:
    """A measured curve and what it says in the words of a data sheet.

    Raises
    ------
    Undecided
        The file can be read in two ways; its `question` says what to tell.
    LogError
        The file cannot be used, or its curve is too short; the sentence says why.
    """
    path = Path(path)
    found = read_readings(path, _WANTED, told, what=say("curve of a panel"), timed=False)
    volts, amps = ordered_curve(found.values["voltage"], found.values["current"])
    try:
        marks = landmarks(volts, amps)
    except ValueError as fault:
        raise LogError(say("{file}: {fault}.", file=found.name, fault=fault.args[0])) from None
    return MeasuredCurve(
        name=found.name, voltage_v=volts, current_a=amps, landmarks=marks,
        illuminance_lx=_light(found.values.get("light"), found.name),
    )


def _light(lux: FloatArray | None, name: str) -> float | None:
    """Mean light of a curve, which must not vary along it. [lx]"""
    if lux is None or np.isnan(lux).all():
        return None
    mean = float(np.nanmean(lux))
    if mean > 0.0 and float(np.nanmax(np.abs(lux - mean))) > STEADY * mean:
        raise LogError(
            say(
                "{file}: the light changes from {low} to {high} lx along the curve; keep the rows "
                "of one light.",
                file=name, low=f"{np.nanmin(lux):.4g}", high=f"{np.nanmax(lux):.4g}",
            )
        )  # fmt: skip
    return mean or None
