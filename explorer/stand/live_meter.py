"""A meter on the real device: its readings beside the forecast, and whether they part."""

from __future__ import annotations

import logging
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QObject, QTimer, Signal

from explorer.advice.bench.forecast import agreement
from explorer.advice.case import Case
from explorer.files.bench_log import read_bench_log
from explorer.files.disk import FileError
from explorer.files.run_keeper import ENDING, interrupted_run
from explorer.meters.meter import Meter, resource_name
from explorer.state.jobs import JobRunner
from explorer.state.meter_run import MeterRun
from explorer.text import figure, say
from explorer.words.figures import quantity_text

LOG = logging.getLogger(__name__)
FloatArray = NDArray[np.float64]
JOB = "live"
EVERY_S = 5.0
"""Time between two readings. [s]"""
REDRAW_MS = 2000
LEAST_READINGS = 3
PARTED_ROWS = 3
"""So many readings in a row outside of the band are no chance (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LiveView:
    """A run that is under way, beside its forecast; arrays of shape (n,)."""

    time_s: FloatArray
    """Since its first reading. [s]"""
    volts: FloatArray
    forecast_v: FloatArray
    low_v: FloatArray
    high_v: FloatArray
    """Between which the readings should lie. [V]"""
    has_parted: bool
    said: str
    """One plain sentence."""


def live_view(case: Case, path: Path) -> LiveView | None:
    """The run on disk beside the forecast; None where it is too short or cannot be followed.

    Parameters
    ----------
    case : Case
        The exhibit as it was before anybody moved a knob.
    path : pathlib.Path
        The run.
    """
    try:
        found = agreement(case, read_bench_log(path))
    except (FileError, ValueError, ArithmeticError) as error:
        LOG.info("no live view yet: %s", error)
        return None
    run = found.run
    parted = len(run.volts) >= PARTED_ROWS and bool(found.outside[-PARTED_ROWS:].all())
    now, due = (quantity_text(float(v[-1]), "V") for v in (run.volts, found.forecast_v))
    if parted:
        said = say("The real device has left its forecast: {now} instead of {due}.",
                   now=now, due=due)  # fmt: skip
    else:
        said = say("The real device agrees with its forecast: {now}, expected {due}.",
                   now=now, due=due)  # fmt: skip
    return LiveView(
        time_s=run.time_s - run.time_s[0], volts=run.volts, forecast_v=found.forecast_v,
        low_v=found.low_v, high_v=found.high_v, has_parted=parted, said=said,
    )  # fmt: skip


class LiveMeter(QObject):
    """Follows the meter of a stand into a file, and compares what came with the forecast.

    Parameters
    ----------
    case : Case
        The exhibit that the meter belongs to.
    folder : pathlib.Path
        Where runs are kept; one that a crash interrupted is taken up.
    jobs : JobRunner
        Where the comparison runs.
    """

    changed = Signal()
    """There is another view, or something else to say."""

    def __init__(
        self, case: Case, folder: Path, jobs: JobRunner, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._case, self._folder, self._jobs = case, folder, jobs
        self.view: LiveView | None = None
        self.said: str = ""
        """What is wrong with the meter, where something is; else empty."""
        self.run = MeterRun(self)
        self.run.grown.connect(self._on_grown)
        self.run.changed.connect(self._on_run)
        self._pace = QTimer(self)
        self._pace.setSingleShot(True)
        self._pace.setInterval(REDRAW_MS)
        self._pace.timeout.connect(self._compare)
        jobs.done.connect(self._on_done)

    def start(self, address: str, every_s: float = EVERY_S) -> None:
        """Follow the meter at an address; a wrong one is said and no more."""
        try:
            meter = Meter(address=resource_name(address), every_s=every_s)
            self._folder.mkdir(parents=True, exist_ok=True)
        except (ValueError, OSError) as error:
            self.said = str(error)
            LOG.warning("the meter of the stand: %s", error)
            return
        before = interrupted_run(self._folder)
        stamp = figure(f"{datetime.now():%Y-%m-%d %H-%M-%S}")
        path = before or self._folder / f"{stamp} {ENDING}"
        self.run.start(meter, path, go_on=before is not None)

    def stop(self) -> None:
        """End the run; its file is complete."""
        self._pace.stop()
        self.run.stop()

    def _on_grown(self) -> None:
        if self.run.count >= LEAST_READINGS and not self._pace.isActive():
            self._pace.start(0 if self.view is None else REDRAW_MS)

    def _on_run(self) -> None:
        lost = say("The meter is silent; it is sought again.") if self.run.is_lost else ""
        if lost != self.said:
            self.said = lost
            self.changed.emit()

    def _compare(self) -> None:
        if self.run.path is not None:
            self._jobs.submit(JOB, partial(live_view, self._case, self.run.path))

    def _on_done(self, key: str, found: object) -> None:
        if key == JOB and isinstance(found, LiveView):
            self.view = found
            self.changed.emit()
