"""What happens on a stand over a day: attract, visit, warning, reset; without any widget."""

from __future__ import annotations

import logging
from typing import Literal

from PySide6.QtCore import QObject, QTimer, Signal

from explorer.advice.assess import Assessment
from explorer.files.disk import FileError
from explorer.scenario.localised import named_like
from explorer.scenario.model import Scenario, with_value
from explorer.stand.challenges import CLOSURE, RUN_WON, Challenge, challenged
from explorer.stand.counts import Counts
from explorer.stand.exhibits import Exhibit
from explorer.stand.parked import ParkedScenarios
from explorer.state.document import Document
from explorer.state.solver import Solver
from explorer.state.stand_plan import StandPlan

LOG = logging.getLogger(__name__)
Stage = Literal["attract", "visit", "warning"]
TICK_MS = 1000
PAUSE_S = 300
"""After this long the loop goes on by itself: whoever held it has left. [s]"""
SETTLED_MS = 600
"""A design must run this long before it counts as won: a drag passes over many. [ms]"""


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
    challenge_changed = Signal()
    """Another challenge, or the one on show begins or ends."""
    won = Signal(object)
    """Carries what to say, as a `Text`."""

    def __init__(
        self,
        plan: StandPlan,
        exhibits: tuple[Exhibit, ...],
        document: Document,
        solver: Solver,
        parked: ParkedScenarios,
        counts: Counts | None = None,
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
        self.counts = counts if counts is not None else Counts(None)
        self.challenge: Challenge | None = None
        """What can be won with the scenario on show, once it is known."""
        self._offers: dict[int, Challenge | None] = {}
        """What can be won with each scenario, by its place, as far as it was found out."""
        self.is_challenged = False
        self.wins: set[tuple[int, str]] = set()
        """What this visitor has won: place of the scenario, and key of the challenge or "run"."""
        self._begun_with: str = ""
        """State of the design on show before anybody moved it; empty until it is judged."""
        self._quiet_s = 0
        self._timer = QTimer(self)
        self._timer.setInterval(TICK_MS)
        self._timer.timeout.connect(self.tick)
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self._settle.setInterval(SETTLED_MS)
        self._settle.timeout.connect(self._on_settled)
        solver.result_ready.connect(self._on_result)

    @property
    def exhibit(self) -> Exhibit:
        """The scenario on show, as it was before anybody moved a knob."""
        return self.exhibits[self.index]

    @property
    def is_changed(self) -> bool:
        """Whether a visitor made something of their own."""
        return self._plain() != self._document.start

    @property
    def design(self) -> Scenario | None:
        """What a visitor made of the scenario on show; None where nobody changed it."""
        return self._plain() if self.is_changed else None

    def _plain(self) -> Scenario:
        """The design on show without the dark stretch of a challenge."""
        scenario, own = self._document.scenario, self._document.start.margins.closure_days
        if scenario.margins.closure_days == own:
            return scenario
        return with_value(scenario, CLOSURE, own)

    def start(self) -> None:
        """Show the first scenario and begin to count."""
        self._show(0)
        self._enter("attract")
        self._timer.start()

    def resume(self, index: int, scenario: Scenario | None) -> None:
        """Go on with a visit that another window began, at its scenario and design.

        Parameters
        ----------
        index : int
            Place of the scenario on show.
        scenario : Scenario or None
            The design made of it; None where nobody made one.
        """
        self._show(index)
        self._enter("visit")
        if scenario is not None:
            self._document.replace(named_like(scenario, self._document.start), "")

    def stop(self, *, keep: bool = True) -> None:
        """Keep what is on show, unless another window goes on with it, and count no more."""
        self._timer.stop()
        self._settle.stop()
        if keep:
            self._park()
        self.counts.save()

    # --- what a person does ---

    def touched(self) -> None:
        """Somebody is there: begins a visit, or takes the warning back."""
        if self.stage == "attract":
            self.wins.clear()
            self.counts.add(self.exhibit.name, "visits")
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

    def offer(self, challenge: Challenge | None) -> None:
        """What can be won with the scenario on show."""
        self._offers[self.index] = challenge
        if challenge != self.challenge:
            self.challenge = challenge
            self.challenge_changed.emit()

    def set_challenged(self, on: bool) -> None:
        """Take the challenge up, or go back to the plain question; the design stays."""
        self.touched()
        if self.challenge is None or on == self.is_challenged:
            return
        self.is_challenged = on
        self._begun_with = ""
        plain = self._plain()
        scenario = challenged(plain, self.challenge) if on else plain
        self._document.edit(CLOSURE, scenario.margins.closure_days)
        if on:
            self.counts.add(self.exhibit.name, "challenges")
        self.challenge_changed.emit()

    @property
    def may_challenge(self) -> bool:
        """Whether something can be won with any scenario, or that is not known of one yet."""
        known = self._offers.values()
        return len(known) < len(self.exhibits) or any(known)

    @property
    def goal(self) -> str:
        """Key of what is asked of the design on show."""
        return self.challenge.key if self.challenge and self.is_challenged else "run"

    def moved(self, knob: str) -> None:
        """Count that a visitor moved a knob."""
        self.counts.add(self.exhibit.name, knob)

    def taken_home(self) -> None:
        """Count that a design was taken home."""
        self.touched()
        self.counts.add(self.exhibit.name, "taken_home")

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
            if self.paused and self._quiet_s >= PAUSE_S:
                self.set_paused(False)
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
        self.counts.save()
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
        """Keep what was made here, if it was: a design of its own that has a verdict."""
        if not self.is_changed:
            return
        word = self._word()
        if word and self.parked.park(self._document.scenario, word):
            self.counts.add(self.exhibit.name, "designs")

    def _word(self) -> str:
        """The verdict of the design on show; empty where there is none."""
        result: Assessment | None = self._solver.result
        if result is None or result.scenario != self._document.scenario:
            self._solver.catch_up()
            result = self._solver.result
        same = result is not None and result.scenario == self._document.scenario
        return result.verdict.word if result is not None and same else ""

    def _on_result(self, found: Assessment) -> None:
        """See whether something was won."""
        if found.scenario != self._document.scenario:
            return
        state = found.verdict.state
        if not self._begun_with:
            self._begun_with = state
        fresh = state == "runs" != self._begun_with
        if self.stage == "visit" and fresh and (self.index, self.goal) not in self.wins:
            if not self._settle.isActive():
                self._settle.start()
        else:
            self._settle.stop()

    def _on_settled(self) -> None:
        key = (self.index, self.goal)
        if self.stage != "visit" or key in self.wins or self._word() != "Runs":
            return
        self.wins.add(key)
        self.counts.add(self.exhibit.name, "won")
        told = self.challenge.won if self.challenge and self.is_challenged else RUN_WON
        self.won.emit(told)

    def _show(self, index: int) -> None:
        self.index = min(max(index, 0), len(self.exhibits) - 1)
        exhibit = self.exhibit
        self._settle.stop()
        self._begun_with, self.is_challenged = "", False
        self.challenge = self._offers.get(self.index)
        try:
            self._document.open(exhibit.path)
        except (FileError, OSError) as error:
            # The file went away during the day; what was read in the morning still stands.
            LOG.warning("%s", error)
            self._document.new(exhibit.scenario)
        self.challenge_changed.emit()
        self.exhibit_changed.emit(self.index)
