"""Days of use in hours: does anything grow?

    python -m tests.soak --edits 100000
    python -m tests.soak --stand-hours 24

The first edits a design through all knobs with its windows open, and meanwhile opens and closes
windows and drawers, undoes, and changes theme and language. The second lets a stand run for so
long, its clock ticked as fast as it goes, with visitors who come and walk away. Both print memory,
Python objects, open files and threads as they go, and at the end the slope of each, by least
squares with its standard error, over all but the first fifth, where tables and fonts still fill.
Nothing is judged.
"""

from __future__ import annotations

import argparse
import gc
import os
import random
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("PYQTGRAPH_QT_LIB", "PySide6")

READINGS = 100
SETTLING = 0.2
"""Share of the readings that no slope counts."""
MOST_WAIT_S = 60.0
COLUMNS = ("memory_kB", "objects", "blocks", "handles", "threads")
DRAWERS = ("budget", "contest", "territory", "spread", "panel", "builds")
SCENARIOS = ("plant_label", "door_counter", "soil_probe", "watering_valve")


def reading() -> tuple[float, ...]:
    """What the process holds, in the order of `COLUMNS`."""
    from PySide6.QtCore import QEvent
    from PySide6.QtWidgets import QApplication

    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    status = Path("/proc/self/status").read_text(encoding="ascii")
    memory = next(line.split()[1] for line in status.splitlines() if line.startswith("VmRSS"))
    handles = len(os.listdir("/proc/self/fd"))
    return (
        float(memory), float(len(gc.get_objects())), float(sys.getallocatedblocks()),
        float(handles), float(threading.active_count()),
    )  # fmt: skip


def slope(x: Sequence[float], y: Sequence[float]) -> tuple[float, float]:
    """Rise of a straight line through points, and its standard error; at least three points.

    Least squares; the error from what is left over, with n - 2 degrees of freedom.
    """
    found, ground = np.asarray(x, float), np.asarray(y, float)
    away = found - found.mean()
    square = float(away @ away)
    rise = float(away @ ground) / square
    left = ground - ground.mean() - rise * away
    return rise, float(np.sqrt(float(left @ left) / (len(found) - 2) / square))


def watch(steps: Iterator[int], total: int, unit: str, rest: Callable[[], None]) -> None:
    """Go through the steps, each of which tells how far it came; read as it goes, and sum up."""
    rows: list[tuple[float, ...]] = []
    began = time.monotonic()
    print(f"{unit:>9} {'seconds':>9} " + " ".join(f"{name:>10}" for name in COLUMNS), flush=True)
    for at in steps:
        if at < len(rows) * total / READINGS:
            continue
        rest()
        rows.append((float(at), *reading()))
        print(f"{at:9d} {time.monotonic() - began:9.0f} "
              + " ".join(f"{value:10.0f}" for value in rows[-1][1:]), flush=True)  # fmt: skip
    kept = rows[round(SETTLING * len(rows)) :]
    for n, name in enumerate(COLUMNS, start=1):
        rise, error = slope([row[0] / 1000.0 for row in kept], [row[n] for row in kept])
        print(f"{name} per 1000 {unit}: {rise:+.3f} ± {error:.3f}")


def settle(busy: Callable[[], bool]) -> None:
    """Let the program run until nothing is at work; what works holds what it works on."""
    from PySide6.QtCore import QEventLoop, QTimer

    since = time.monotonic()
    while True:
        loop = QEventLoop()
        QTimer.singleShot(20, loop.quit)
        loop.exec()
        if not busy() or time.monotonic() - since > MOST_WAIT_S:
            return


class Person:
    """Somebody at the windows, the same for the same seed."""

    def __init__(self, windows: Any, seed: int) -> None:
        self.windows, self.dice, self.edits = windows, random.Random(seed), 0

    @property
    def window(self) -> Any:
        """The window that is open all the time."""
        return self.windows.open[0]

    def drag(self) -> None:
        """One gesture with a knob."""
        from PySide6.QtWidgets import QApplication

        row = self.dice.choice(self.window.knobs.rows)
        knob = row.knob
        at = self.dice.randrange(len(knob.stops))
        self.window.document.begin_gesture()
        for _ in range(self.dice.randint(1, 12)):
            at = min(max(at + self.dice.randint(-9, 9), 0), len(knob.stops) - 1)
            value = knob.stops[at]
            self.window.document.edit(knob.path, int(value) if knob.whole else value)
            self.edits += 1
            QApplication.processEvents()

    def other(self) -> None:
        """Something else that people do."""
        window = self.window
        what = self.dice.random()
        if what < 0.3:
            window.document.undo_stack.undo()
        elif what < 0.5:
            window.apply_theme(self.dice.choice(("light", "dark", "contrast")))
        elif what < 0.75:
            window.drawers.toggle(self.dice.choice(DRAWERS))
        elif what < 0.9 and len(self.windows.open) == 1:
            further = self.windows.add(window)
            further.begin()
            further.show()
            further.document.edit("panels.count", self.dice.randint(1, 9))
        elif len(self.windows.open) > 1:
            for further in tuple(self.windows.open[1:]):
                further.close_unasked()
        else:
            code = self.dice.choice(("en", "de"))
            for action in window.menus.languages.actions():
                if action.data() == code:
                    action.trigger()

    def busy(self) -> bool:
        """Whether a window still computes, or one that was closed has not gone yet."""
        from explorer.state.solver import FRAME_JOB, JOB

        return bool(self.windows.leaving) or any(
            window.jobs.busy(key) for window in self.windows.open for key in (FRAME_JOB, JOB)
        )


def soak_edits(edits: int, seed: int) -> None:
    """So many edits in the windows of the real program."""
    from PySide6.QtWidgets import QApplication

    from explorer import app
    from explorer.loaded import settle_down
    from explorer.state.settings import SettingsStore

    qt = QApplication([])
    with tempfile.TemporaryDirectory() as place:
        store = SettingsStore(Path(place) / "settings.ini")
        store.update(tour_seen=True, theme="light")
        windows = app.build_windows(qt, Path(place) / "settings.ini", settings=store)
        first = windows.add()
        app.open_first(first, None)
        first.resize(1280, 720)
        first.show()
        settle_down()
        person = Person(windows, seed)

        def steps() -> Iterator[int]:
            while person.edits < edits:
                person.drag()
                if person.dice.random() < 0.1:
                    person.other()
                yield person.edits

        watch(steps(), edits, "edits", lambda: settle(person.busy))
        for window in tuple(windows.open):
            window.close_unasked()
        settle(lambda: bool(windows.leaving))


def soak_stand(hours: float) -> None:
    """A stand for so many hours, with a visit of a minute or so every five."""
    from PySide6.QtWidgets import QApplication

    from explorer.loaded import settle_down
    from explorer.stand.exhibits import load_exhibits
    from explorer.stand.parked import ParkedScenarios
    from explorer.stand.window import StandWindow
    from explorer.state import theme
    from explorer.state.solver import FRAME_JOB, JOB
    from explorer.state.stand_plan import BUNDLED, StandPlan
    from tests.stand.visitors import Visitors

    qt = QApplication([])
    qt.setStyle("Fusion")
    qt.setFont(theme.font("body"))
    plan = StandPlan(scenarios=tuple(f"{BUNDLED}{name}" for name in SCENARIOS), idle_s=30)
    with tempfile.TemporaryDirectory() as place:
        parked = ParkedScenarios(Path(place) / "visitors.json")
        stand = StandWindow(plan, load_exhibits(plan.scenarios).exhibits, parked)
        stand.resize(1280, 800)
        stand.show()
        stand.start()
        stand.session._timer.stop()  # its seconds are counted here
        settle_down()
        visitors = Visitors(stand, drag=8, per_frame=4)
        seconds = round(3600 * hours)

        def steps() -> Iterator[int]:
            for second in range(seconds + 1):
                stand.session.tick()
                QApplication.processEvents()
                if second % 300 < 60 and second % 6 == 0:
                    visitors.act()
                yield second

        def busy() -> bool:
            return stand.jobs.busy(FRAME_JOB) or stand.jobs.busy(JOB)

        watch(steps(), seconds, "seconds", lambda: settle(busy))
        print(f"{visitors.moves} moves of {seconds // 300} visits")
        stand.leave()
        stand.deleteLater()
        qt.processEvents()


def main() -> None:
    """Do what was asked for."""
    options = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    options.add_argument("--edits", type=int, default=0)
    options.add_argument("--stand-hours", type=float, default=0.0)
    options.add_argument("--seed", type=int, default=1)
    given = options.parse_args()
    if given.stand_hours:
        soak_stand(given.stand_hours)
    else:
        soak_edits(given.edits or 100_000, given.seed)


if __name__ == "__main__":
    main()
