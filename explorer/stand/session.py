"""What happens on a stand over a day: attract, visit, warning, reset; without any widget."""

from __future__ import annotations

import logging
from typing import Literal

from PySide6.QtCore import QObject, QTimer, Signal

from explorer.advice.assess import Assessment
from explorer.files.disk import FileError
from explorer.scenario.model import Scenario
from explorer.stand.exhibits import Exhibit
from explorer.stand.parked import ParkedScenarios
from explorer.state.document import Document
from explorer.state.solver import Solver
from explorer.state.stand_plan import StandPlan

LOG = logging.getLogger(__name__)
Stage = Literal["attract", "visit", "warning"]
TICK_MS = 1000


class StandSession(QObject):
    """Counts quiet seconds, decides the stage, keeps what visitors leave behind.

    Nothing times out while the attract loop runs: it only shows the next scenario, unless
    a person paused it.
    """

    stage_changed = Signal(str)
    countdown_changed = Signal(int)
    """Seconds left before the page starts again. [s]"""
    exhibit_changed = Signal(int)
    paused_changed = Signal(bool)

    def __init__(
        self,
        plan: StandPlan,
        exhibits: tuple[Exhibit, ...],
        document: Document,
        solver: Solver,
        parked: ParkedScenarios,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        if not exhibits:
            raise ValueError("a stand needs at least one scenario")
        self.plan, self.exhibits, self.parked = plan, exhibits, parked
        self._document, self._solver = document, solver
        self.stage: Stage = "attract"
        self.index = 0
        self.paused = False
        self._quiet_s = 0
        self._timer = QTimer(self)
        self._timer.setInterval(TICK_MS)
        self._timer.timeout.connect(self.tick)

    @property
    def exhibit(self) -> Exhibit:
        """The scenario on show, as it was before anybody moved a knob."""
        return self.exhibits[self.index]

    @property
    def is_changed(self) -> bool:
        """Whether a visitor made something of their own."""
        return self._document.scenario != self._document.start

    def start(self) -> None:
        """Show the first scenario and begin to count."""
        self._show(0)
        self._enter("attract")
        self._timer.start()

    def stop(self) -> None:
        """Keep what is on show and count no more."""
        self._timer.stop()
        self._park()

    # --- what a person does ---

    def touched(self) -> None:
        """Somebody is there: begins a visit, or takes the warning back."""
        if self.stage != "visit":
            self._enter("visit")
        self._quiet_s = 0

    def choose(self, index: int) -> None:
        """Show another scenario of the set; what was made of the last one is kept."""
        self.touched()
        self._park()
        self._show(index)

    def start_again(self) -> None:
        """Put the scenario on show back to its beginning; what was made of it is kept."""
        self.touched()
        self._park()
        self._show(self.index)

    def set_paused(self, paused: bool) -> None:
        """Hold the attract loop, or let it go on."""
        if paused != self.paused:
            self.paused = paused
            self._quiet_s = 0
            self.paused_changed.emit(paused)

    # --- what time does ---

    def tick(self) -> None:
        """One second passed."""
        self._quiet_s += 1
        if self.stage == "attract":
            if self._quiet_s >= self.plan.cycle_s and not self.paused:
                self._quiet_s = 0
                if len(self.exhibits) > 1:
                    self._show((self.index + 1) % len(self.exhibits))
        elif self.stage == "visit":
            if self._quiet_s >= self.plan.idle_s:
                self._enter("warning")
        else:
            left = self.plan.warning_s - self._quiet_s
            if left > 0:
                self.countdown_changed.emit(left)
            else:
                self._reset()

    def _reset(self) -> None:
        self._park()
        self._show(0)
        self.set_paused(False)
        self._enter("attract")

    def _enter(self, stage: Stage) -> None:
        self.stage = stage
        self._quiet_s = 0
        if self._timer.isActive():
            self._timer.start()  # so that the first second of a countdown is a whole one
        self.stage_changed.emit(stage)
        if stage == "warning":
            self.countdown_changed.emit(self.plan.warning_s)

    def _park(self) -> None:
        if self.is_changed:
            self.parked.park(self._document.scenario, self._word())

    def _word(self) -> str:
        result: Assessment | None = self._solver.result
        scenario: Scenario = self._document.scenario
        return result.verdict.word if result is not None and result.scenario == scenario else "–"

    def _show(self, index: int) -> None:
        self.index = min(max(index, 0), len(self.exhibits) - 1)
        exhibit = self.exhibit
        try:
            self._document.open(exhibit.path)
        except (FileError, OSError) as error:
            # The file went away during the day; what was read in the morning still stands.
            LOG.warning("%s", error)
            self._document.new(exhibit.scenario)
        self.exhibit_changed.emit(self.index)
