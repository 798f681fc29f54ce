"""Days of use in hours: does anything grow?

    python -m tests.soak --edits 100000
    python -m tests.soak --stand-hours 24

The first edits a design through all knobs with its windows open, several edits to a frame as a fast
hand makes them, and meanwhile opens and closes windows and drawers, undoes, opens examples, and
changes theme and language. The second lets a stand run for so long, its clock ticked as fast as it
goes, with visitors who come and walk away. Both print memory, Python objects, open files and
threads as they go, and at the end the slope of each, by least squares with its standard error, over
all but the first fifth, where tables and fonts still fill. For each reading the hand rests, with
further windows and the drawer closed. `c_used_kB` is what is in use of the C library's memory and
`blocks` what is in use of Python's: where `memory_kB` alone grows, it lies about in free pieces,
and `--trim` gives those of the C library back before each reading. Nothing is judged.
"""

from __future__ import annotations

import argparse
import ctypes
import gc
import os
import random
import signal
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

import numpy as np

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("PYQTGRAPH_QT_LIB", "PySide6")

READINGS = 100
SETTLING = 0.2
"""Share of the readings that no slope counts."""
MOST_WAIT_S = 30.0
QUIET_S = 5
"""Seconds of a stand without visitors between two looks at what happens."""
REST_S = 1.0
"""How long the hand rests for a reading, so that questions are asked of the workers."""
COLUMNS = (
    "memory_kB", "c_taken_kB", "c_used_kB", "objects", "blocks", "handles", "threads", "workers_kB",
)  # fmt: skip
DRAWERS = ("budget", "contest", "territory", "spread", "panel", "builds")
SCENARIOS = ("plant_label", "door_counter", "soil_probe", "watering_valve")


class _Heap(ctypes.Structure):
    """`struct mallinfo2` of the GNU C library, from 2.33."""

    _fields_ = tuple(
        (name, ctypes.c_size_t)
        for name in (
            "arena", "ordblks", "smblks", "hblks", "hblkhd", "usmblks", "fsmblks", "uordblks",
            "fordblks", "keepcost",
        )
    )  # fmt: skip


def c_heap_kb() -> tuple[float, float]:
    """What the C library has taken from the system and what is in use of it.

    Both 0 where it does not say. [KiB]
    """
    try:
        ask = ctypes.CDLL(None).mallinfo2
    except AttributeError:
        return 0.0, 0.0
    ask.restype = _Heap
    found = ask()
    large = found.hblkhd
    return (found.arena + large) / 1024.0, (found.uordblks + large) / 1024.0


def trim() -> None:
    """Give back what the C library keeps of freed memory."""
    with suppress(AttributeError):
        ctypes.CDLL(None).malloc_trim(0)


def resident_kb(process: int | str) -> float:
    """Memory of a process, 0 where it is gone. [KiB]"""
    try:
        status = Path(f"/proc/{process}/status").read_text(encoding="ascii")
    except OSError:
        return 0.0
    lines = (line.split() for line in status.splitlines())
    return next((float(line[1]) for line in lines if line and line[0] == "VmRSS:"), 0.0)


def reading(workers: Callable[[], Sequence[int]]) -> tuple[float, ...]:
    """What the process holds, in the order of `COLUMNS`."""
    from PySide6.QtCore import QEvent
    from PySide6.QtWidgets import QApplication

    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    handles = len(os.listdir("/proc/self/fd"))
    return (
        resident_kb("self"), *c_heap_kb(), float(len(gc.get_objects())),
        float(sys.getallocatedblocks()), float(handles), float(threading.active_count()),
        sum(resident_kb(one) for one in workers()),
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


def watch(
    steps: Iterator[int], total: int, unit: str, rest: Callable[[], None],
    workers: Callable[[], Sequence[int]] = tuple, *, trims: bool = False,
) -> None:
    """Go through the steps, each of which tells how far it came; read as it goes, and sum up.

    Who ends it early by Ctrl-C gets the sum of what there is.
    """
    rows: list[tuple[float, ...]] = []
    began, wanted = time.monotonic(), [True]
    signal.signal(signal.SIGINT, lambda *_: wanted.clear())  # no exception within a slot
    print(f"{unit:>9} {'seconds':>9} {'computing':>9} "
          + " ".join(f"{name:>10}" for name in COLUMNS), flush=True)  # fmt: skip
    for at in steps:
        if not wanted:
            break
        if at < len(rows) * total / READINGS:
            continue
        rest()
        if trims:
            trim()
        rows.append((float(at), *reading(workers)))
        print(f"{at:9d} {time.monotonic() - began:9.0f} {time.process_time():9.0f} "
              + " ".join(f"{value:10.0f}" for value in rows[-1][1:]), flush=True)  # fmt: skip
    if len(rows) < 4:
        return
    kept = rows[round(SETTLING * len(rows)) :]
    for n, name in enumerate(COLUMNS, start=1):
        rise, error = slope([row[0] / 1000.0 for row in kept], [row[n] for row in kept])
        print(f"{name} per 1000 {unit}: {rise:+.3f} ± {error:.3f}")


def settle(busy: Callable[[], bool], least_s: float = 0.0) -> None:
    """Let the program run until nothing is at work; what works holds what it works on."""
    from PySide6.QtCore import QEventLoop, QTimer

    since = time.monotonic()
    while True:
        loop = QEventLoop()
        QTimer.singleShot(20, loop.quit)
        loop.exec()
        passed_s = time.monotonic() - since
        if (passed_s >= least_s and not busy()) or passed_s > MOST_WAIT_S:
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
        """One gesture with a knob, from where it stands or from where somebody clicks.

        A mouse tells of its moves up to some hundred times a second, so that a frame holds several.
        """
        from PySide6.QtWidgets import QApplication

        window, dice = self.window, self.dice
        knob = dice.choice(window.knobs.rows).knob
        at = knob.position(window.document.get(knob.path))
        if dice.random() < 0.3:
            at = dice.randrange(len(knob.stops))
        window.document.begin_gesture()
        for _ in range(dice.randint(1, 8)):
            for _ in range(dice.randint(1, 8)):
                at = min(max(at + dice.randint(-9, 9), 0), len(knob.stops) - 1)
                value = knob.stops[at]
                window.document.edit(knob.path, int(value) if knob.whole else value)
                self.edits += 1
            QApplication.processEvents()

    def other(self) -> None:
        """Something else that people do."""
        window = self.window
        what = self.dice.random()
        if what < 0.3:
            window.document.undo_stack.undo()
        elif what < 0.45:
            window.apply_theme(self.dice.choice(("light", "dark", "contrast")))
        elif what < 0.7:
            window.drawers.toggle(self.dice.choice(DRAWERS))
        elif what < 0.9 and len(self.windows.open) == 1:
            further = self.windows.add(window)
            further.begin()
            further.show()
            further.document.edit("panels.count", self.dice.randint(1, 9))
        elif what < 0.9:
            self.close_others()
        elif what < 0.95:
            window.open_path(self.dice.choice(example_paths()), example=True)
        else:
            code = self.dice.choice(("en", "de"))
            for action in window.menus.languages.actions():
                if action.data() == code:
                    action.trigger()

    def close_others(self) -> None:
        """Close all windows but the one."""
        for further in tuple(self.windows.open[1:]):
            further.close_unasked()

    def rest(self) -> None:
        """Put things away and wait a little, until nothing is at work."""
        self.close_others()
        if self.window.drawers.open_key:
            self.window.drawers.toggle(self.window.drawers.open_key)
        settle(self.busy, REST_S)

    def busy(self) -> bool:
        """Whether a window still computes, or one that was closed has not gone yet.

        A question is not waited for: it is worked at in another process.
        """
        from explorer.state.solver import FRAME_JOB

        return bool(self.windows.leaving) or any(
            window.jobs.busy(FRAME_JOB) for window in self.windows.open
        )


def example_paths() -> list[Path]:
    """Designs to open, the first of which is that of a first start."""
    from explorer.resource_files import scenario_folder

    return [scenario_folder() / f"{name}.json" for name in SCENARIOS]


def soak_edits(edits: int, seed: int, *, trims: bool) -> None:
    """So many edits in the windows of the real program."""
    from PySide6.QtWidgets import QApplication

    from explorer import app
    from explorer.loaded import settle_down
    from explorer.state.collector import CollectorRounds
    from explorer.state.settings import SettingsStore
    from explorer.state.workers import Workers

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
        CollectorRounds(qt)  # as in the program
        person, workers = Person(windows, seed), windows.findChild(Workers)

        def steps() -> Iterator[int]:
            while person.edits < edits:
                person.drag()
                if person.dice.random() < 0.25:
                    person.other()
                yield person.edits

        watch(steps(), edits, "edits", person.rest, lambda: workers.process_ids, trims=trims)
        for window in tuple(windows.open):
            window.close_unasked()
        settle(lambda: bool(windows.leaving))


def soak_stand(hours: float, *, trims: bool) -> None:
    """A stand for so many hours, with a visit of a minute or so every five."""
    from PySide6.QtWidgets import QApplication

    from explorer.loaded import settle_down
    from explorer.stand.exhibits import load_exhibits
    from explorer.stand.parked import ParkedScenarios
    from explorer.stand.window import StandWindow
    from explorer.state import theme
    from explorer.state.collector import CollectorRounds
    from explorer.state.solver import FRAME_JOB
    from explorer.state.stand_plan import BUNDLED, StandPlan
    from explorer.state.workers import Workers
    from tests.stand.visitors import Visitors

    qt = QApplication([])
    qt.setStyle("Fusion")
    qt.setFont(theme.font("body"))
    plan = StandPlan(scenarios=tuple(f"{BUNDLED}{name}" for name in SCENARIOS), idle_s=30)
    with tempfile.TemporaryDirectory() as place:
        parked, workers = ParkedScenarios(Path(place) / "visitors.json"), Workers(qt)
        exhibits = load_exhibits(plan.scenarios).exhibits
        stand = StandWindow(plan, exhibits, parked, workers=workers)
        stand.resize(1280, 800)
        stand.show()
        stand.start()
        stand.session._timer.stop()  # its seconds are counted here
        settle_down()
        CollectorRounds(qt)  # as in the program
        visitors = Visitors(stand, drag=8, per_frame=4)
        seconds = round(3600 * hours)

        def steps() -> Iterator[int]:
            for second in range(seconds + 1):
                stand.session.tick()
                visited = second % 300 < 60
                if visited or second % QUIET_S == 0:
                    QApplication.processEvents()
                if visited and second % 6 == 0:
                    visitors.act()
                yield second

        def rest() -> None:
            settle(lambda: stand.jobs.busy(FRAME_JOB), REST_S)

        watch(steps(), seconds, "seconds", rest, lambda: workers.process_ids, trims=trims)
        print(f"{visitors.moves} moves of visitors")
        stand.leave()
        stand.deleteLater()
        workers.close()
        qt.processEvents()


def main() -> None:
    """Do what was asked for."""
    options = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    options.add_argument("--edits", type=int, default=0)
    options.add_argument("--stand-hours", type=float, default=0.0)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--trim", action="store_true")
    given = options.parse_args()
    if given.stand_hours:
        soak_stand(given.stand_hours, trims=given.trim)
    else:
        soak_edits(given.edits or 100_000, given.seed, trims=given.trim)


if __name__ == "__main__":
    main()
