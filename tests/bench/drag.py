"""A knob swept by a hand, as in use: the loop runs under `exec()`, a timer is the hand.

`QTest.qWait` and a loop of `processEvents` would not let go of the interpreter, so that whatever
runs in threads would stand still and cost nothing.
"""

from __future__ import annotations

import itertools
import time
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QEventLoop, QObject, Qt, QTimer

STEP_MS = 16
"""Sixty steps a second."""
STOPS = 12
"""The knob is swept over so many of its stops, to and fro."""
PATIENCE_MS = 20_000
ONWARDS = 1e-4
"""Share by which every step of a sweep that shows no design twice goes beyond its stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """What was painted while a knob was swept."""

    seconds: float
    steps: int
    gaps_s: tuple[float, ...]
    """Between painted frames that show a new design, smallest first. [s]"""
    cpu_s: float
    """Processor time of the window's thread. [s]"""

    @property
    def frames(self) -> int:
        """Frames that showed a new design."""
        return len(self.gaps_s) + 1

    @property
    def a_second(self) -> float:
        """Frames a second."""
        return self.frames / self.seconds

    def gap_s(self, share: float) -> float:
        """Gap that so large a share of all is not above. [s]"""
        return self.gaps_s[round(share * (len(self.gaps_s) - 1))] if self.gaps_s else self.seconds


class Painted(QObject):
    """Notes when a trace with a new result was painted."""

    def __init__(self, window) -> None:
        super().__init__(window)
        self._window, self._last = window, window.solver.result
        self.at_s: list[float] = []
        window.trace.plot.viewport().installEventFilter(self)

    def eventFilter(self, _, event) -> bool:
        """Look at every paint of the trace."""
        if event.type() == QEvent.Type.Paint and self._window.solver.result is not self._last:
            self._last = self._window.solver.result
            self.at_s.append(time.perf_counter())
        return False

    def end(self) -> None:
        """Look no more."""
        self._window.trace.plot.viewport().removeEventFilter(self)


def wait(milliseconds: int) -> None:
    """Let the loop run, and with it the workers."""
    loop = QEventLoop()
    QTimer.singleShot(milliseconds, loop.quit)
    loop.exec()


def settle(window) -> None:
    """Until no worker has anything to do, or patience ends."""
    until = time.monotonic() + PATIENCE_MS / 1000.0
    wait(400)
    while not window.jobs.is_idle and time.monotonic() < until:
        wait(50)


def sweep(window, key: str, seconds: float, *, anew: bool = False) -> Sweep:
    """Sweep one knob to and fro, sixty steps a second.

    Parameters
    ----------
    window : MainWindow
        On the screen, its trace built.
    key : str
        Which knob, such as ``"light"``.
    seconds : float
        For how long. [s]
    anew : bool
        Whether every step shows a design that was not on show before: else the way back costs a
        look-up, as in use.
    """
    row = next(row for row in window.knobs.rows if row.knob.key == key)
    stops = row.knob.stops
    here = row.knob.position(row._value)
    first = max(0, min(here - STOPS // 2, len(stops) - 1 - STOPS))
    there = list(range(first, min(first + STOPS, len(stops) - 1) + 1))
    ring = there + there[-2:0:-1]
    steps = 0
    painted, timer = Painted(window), QTimer()

    def hand() -> None:
        nonlocal steps
        steps += 1
        beyond = 1.0 + ONWARDS * steps if anew else 1.0
        row.slider.picked.emit(beyond * stops[ring[steps % len(ring)]])

    timer.setTimerType(Qt.TimerType.PreciseTimer)
    timer.timeout.connect(hand)
    row.slider.gesture_started.emit()
    begun, cpu = time.perf_counter(), time.thread_time()
    timer.start(STEP_MS)
    wait(round(1000 * seconds))
    timer.stop()
    painted.end()
    at = painted.at_s
    gaps = sorted(b - a for a, b in itertools.pairwise(at))
    return Sweep(
        seconds=time.perf_counter() - begun,
        steps=steps,
        gaps_s=tuple(gaps),
        cpu_s=time.thread_time() - cpu,
    )
