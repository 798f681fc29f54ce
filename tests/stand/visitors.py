"""Simulated visitors: they move knobs, choose scenarios, walk away; memory is watched."""

from __future__ import annotations

import gc
import random
import sys
import time
from dataclasses import dataclass

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from explorer.stand.window import StandWindow

PATIENCE_S = 1.0
LEFT = Qt.MouseButton.LeftButton


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """State of the process after some moves."""

    moves: int
    resident_kb: int
    none_references: int
    objects: int


def resident_kb() -> int:
    """Memory of the process, or 0 where the system does not say. [KiB]"""
    try:
        with open("/proc/self/status", encoding="ascii") as status:
            for line in status:
                if line.startswith("VmRSS:"):
                    return int(line.split()[1])
    except OSError:
        pass
    return 0


def reading(moves: int) -> Reading:
    """Read the process once."""
    QApplication.sendPostedEvents(None, 52)  # DeferredDelete
    return Reading(
        moves=moves,
        resident_kb=resident_kb(),
        none_references=sys.getrefcount(None),
        objects=len(gc.get_objects()),
    )


class Visitors:
    """A stream of visitors on one stand, the same one for the same seed.

    Parameters
    ----------
    stand : StandWindow
        A running stand; its clock stands still unless a visitor lets it run.
    drag : int
        Moves of a finger in one drag.
    per_frame : int
        Moves that arrive before the page gets to answer, as those of a fast finger do.
    seed : int
        Of the dice.
    """

    def __init__(self, stand: StandWindow, *, drag: int, per_frame: int, seed: int = 1) -> None:
        self._stand, self._dice = stand, random.Random(seed)
        self._drag_moves, self._per_frame = drag, per_frame
        self.moves = 0

    def act(self) -> None:
        """One thing that a visitor does: mostly a drag."""
        stand, dice = self._stand, self._dice
        if stand.session.stage != "visit":
            stand.session.touched()
        what = dice.random()
        if what < 0.02:
            dice.choice(stand.page.cards.cards).click()
        elif what < 0.03:
            stand.page.cards.again.click()
        elif what < 0.035:
            for _ in range(stand.session.plan.idle_s + stand.session.plan.warning_s):
                stand.session.tick()
            for _ in range(2 * stand.session.plan.cycle_s):
                stand.session.tick()
        elif what < 0.3:
            knob = dice.choice(stand.page.knobs)
            dice.choice((knob.down, knob.up)).click()
            self.moves += 1
        elif what < 0.4:
            slider = dice.choice(stand.page.knobs).slider
            QTest.keyClick(slider, dice.choice((Qt.Key.Key_Left, Qt.Key.Key_Right)))
            self.moves += 1
        else:
            self._drag()
        self._look()

    def _look(self) -> None:
        """Wait for the answer, as long as a visitor would."""
        began = time.monotonic()
        while time.monotonic() - began < PATIENCE_S:
            QApplication.processEvents()
            result = self._stand.solver.result
            if result is not None and result.scenario == self._stand.document.scenario:
                break
            time.sleep(0.002)

    def _drag(self) -> None:
        slider = self._dice.choice(self._stand.page.knobs).slider
        at = self._dice.randint(8, slider.width() - 8)
        QTest.mousePress(slider, LEFT, pos=QPoint(at, 12))
        for number in range(self._drag_moves):
            at = min(max(at + self._dice.randint(-60, 60), 8), slider.width() - 8)
            QTest.mouseMove(slider, QPoint(at, 12))
            if number % self._per_frame == 0:
                QApplication.processEvents()
            self.moves += 1
        QTest.mouseRelease(slider, LEFT, pos=QPoint(at, 12))
