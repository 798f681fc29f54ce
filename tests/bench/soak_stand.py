"""A long day on the stand with the real model: python tests/bench/soak_stand.py [MOVES].

Prints memory, references to None and living objects as it goes; asserts nothing.
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("PYQTGRAPH_QT_LIB", "PySide6")
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

SCENARIOS = ("plant_label", "door_counter", "soil_probe", "watering_valve")
REPORTS = 20


class Answers:
    """Counts answers and keeps none of them: a list would grow, and hide what else does."""

    def __init__(self) -> None:
        self.count = 0

    def add(self, _: object) -> None:
        """Count one."""
        self.count += 1


def main(moves: int) -> None:
    """Let visitors come until they moved the knobs `moves` times."""
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication

    from explorer.stand.exhibits import load_exhibits
    from explorer.stand.parked import ParkedScenarios
    from explorer.stand.window import StandWindow
    from explorer.state import theme
    from explorer.state.solver import FRAME_JOB, JOB
    from explorer.state.stand_plan import BUNDLED, StandPlan
    from tests.stand.visitors import Visitors, reading

    app = QApplication([])
    app.setStyle("Fusion")
    app.setFont(theme.font("body"))
    plan = StandPlan(scenarios=tuple(f"{BUNDLED}{name}" for name in SCENARIOS), idle_s=10)
    with tempfile.TemporaryDirectory() as folder:
        parked = ParkedScenarios(Path(folder) / "visitors.json")
        stand = StandWindow(plan, load_exhibits(plan.scenarios).exhibits, parked)
        stand.resize(1280, 800)
        stand.show()
        stand.start()
        stand.session._timer.stop()  # the visitors let the time pass
        answers = Answers()
        stand.solver.result_ready.connect(answers.add)
        visitors = Visitors(stand, drag=25, per_frame=25)
        began = time.perf_counter()
        print("moves  answers  seconds  resident_MiB  None_references  objects")
        for step in range(REPORTS + 1):
            while visitors.moves < step * moves / REPORTS:
                visitors.act()
            while stand.jobs.busy(FRAME_JOB) or stand.jobs.busy(JOB):
                QTest.qWait(100)  # a job at work holds what it works on
            found = reading(visitors.moves)
            print(
                f"{found.moves:6d} {answers.count:7d} {time.perf_counter() - began:8.1f} "
                f"{found.resident_kb / 1024:10.1f} {found.none_references:12d} "
                f"{found.objects:10d}",
                flush=True,
            )
        stand.leave()
        stand.deleteLater()
        app.processEvents()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
