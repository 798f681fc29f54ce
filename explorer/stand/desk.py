"""Between the explorer and the stand: set-up, the run, and back again."""

from __future__ import annotations

import logging
from pathlib import Path

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication, QScreen
from PySide6.QtWidgets import QWidget

from explorer.files.disk import FileError
from explorer.scenario.model import Scenario
from explorer.stand.counts import Counts
from explorer.stand.exhibits import Exhibit, load_exhibits
from explorer.stand.parked import ParkedScenarios
from explorer.stand.running import RunningMark
from explorer.stand.setup_dialog import SetupDialog
from explorer.stand.window import StandWindow
from explorer.state.language import Code, language, set_language
from explorer.state.stand_plan import StandPlan, bundled_names, default_plan, load_plan, save_plan
from explorer.state.workers import Workers
from explorer.text import say

LOG = logging.getLogger(__name__)
PLAN_FILE = "stand.json"
PARKED_FILE = "visitors.json"
COUNTS_FILE = "counts.json"
RUNS = "stand-runs"
"""Folder of what the meter of a stand has read."""


class StandDesk(QObject):
    """Opens the set-up, runs the stand, and comes back to the explorer.

    Parameters
    ----------
    folder : pathlib.Path
        Where the set-up and what visitors leave are kept.
    explorer : QWidget
        The main window; out of sight while the stand runs.
    """

    open_wanted = Signal(object)
    """Carries a parked `Scenario` that the operator wants to see in the explorer."""

    def __init__(
        self,
        folder: Path,
        explorer: QWidget,
        parent: QObject | None = None,
        *,
        workers: Workers | None = None,
    ) -> None:
        super().__init__(parent)
        self._folder, self._explorer, self._workers = folder, explorer, workers
        self.parked = ParkedScenarios(folder / PARKED_FILE)
        self.counts = Counts(folder / COUNTS_FILE)
        self.dialog: SetupDialog | None = None
        self.window: StandWindow | None = None
        self._mark = RunningMark(folder)
        self._language: Code = language()
        """Of the explorer; visitors may choose another one for the stand."""

    def open_setup(self) -> None:
        """Show the operator's page."""
        if self.window is not None or self.dialog is not None:
            return
        plan, problems = self._plan()
        screen = self._explorer.screen().size()
        dialog = SetupDialog(plan, self.parked, screen, self._explorer, counts=self.counts)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.show_problems((*problems, *self.parked.problems))
        dialog.started.connect(self.run)
        dialog.open_wanted.connect(self._on_open_wanted)
        dialog.finished.connect(self._on_finished)
        self.dialog = dialog
        dialog.open()

    def run(self, plan: StandPlan) -> None:
        """Begin the stand, unless none of its scenarios can be used."""
        problems = list(self._save(plan))
        found = load_exhibits(plan.scenarios)
        problems += found.problems
        if not found.exhibits:
            problems.append(say("No scenario is left to show; tick another one."))
        for problem in problems:
            LOG.warning("%s", problem)
        if not found.exhibits:
            if self.dialog is not None:
                self.dialog.show_problems(tuple(problems))
            return
        self.parked.problems[:] = problems  # shown to the operator at the next set-up
        if self.dialog is not None:
            self.dialog.accept()
        self._language = language()
        self._mark.begin()
        self._show(plan, found.exhibits)

    def run_unasked(self, file: Path | None = None) -> None:
        """Begin the stand as it was set up last, or as a file says, without any dialog.

        Whatever cannot be used is left out; where nothing is left, the bundled scenarios show.

        Parameters
        ----------
        file : pathlib.Path, optional
            A set-up of a stand.

        Raises
        ------
        FileError
            The file that was named cannot be used.
        """
        plan = load_plan(file) if file is not None else self._plan()[0]
        if not load_exhibits(plan.scenarios).exhibits:
            plan = plan.model_copy(update={"scenarios": bundled_names()})
        self.run(plan)

    def _show(
        self, plan: StandPlan, exhibits: tuple[Exhibit, ...], before: StandWindow | None = None
    ) -> None:
        """Put a window up; one that a visitor had in another language hands its visit over."""
        window = StandWindow(
            plan, exhibits, self.parked, counts=self.counts, workers=self._workers,
            runs=self._folder / RUNS,
        )  # fmt: skip
        window.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        window.left.connect(self._on_left)
        window.language_wanted.connect(self._on_language)
        self.window = window
        screen = screen_of(plan) or self._explorer.screen()
        window.setScreen(screen)
        # Without a window manager nobody else makes it as large as the screen.
        window.setGeometry(screen.geometry())
        window.showFullScreen()
        self._explorer.hide()
        window.start()
        if before is not None and before.session.stage != "attract":
            window.session.resume(before.session.index, before.session.design)

    def _on_language(self, code: Code) -> None:
        """Build the page anew in the language that a visitor wants."""
        before = self.window
        assert before is not None
        before.left.disconnect(self._on_left)
        set_language(code)
        plan = before.session.plan
        self._show(plan, load_exhibits(plan.scenarios).exhibits, before)
        before.leave(keep=False)

    def _plan(self) -> tuple[StandPlan, tuple[str, ...]]:
        path = self._folder / PLAN_FILE
        if not path.exists():
            return default_plan(), ()
        try:
            return load_plan(path), ()
        except FileError as error:
            problem = say("The last set-up could not be used. {error}", error=str(error))
            return default_plan(), (problem,)

    def _save(self, plan: StandPlan) -> tuple[str, ...]:
        try:
            save_plan(self._folder / PLAN_FILE, plan)
        except FileError as error:
            return (str(error),)
        return ()

    def _on_finished(self, _: int) -> None:
        self.dialog = None

    def _on_left(self) -> None:
        self.window = None
        self._mark.end()
        if language() != self._language:
            set_language(self._language)
        self._explorer.show()
        self._explorer.activateWindow()
        self.open_setup()
        if self.dialog is not None:
            self.dialog.mind_held_esc()

    def _on_open_wanted(self, scenario: Scenario) -> None:
        if self.dialog is not None:
            self.dialog.reject()
        self.open_wanted.emit(scenario)


def screen_of(plan: StandPlan) -> QScreen | None:
    """The screen that a plan names; None where it names none, or one that is not there."""
    for screen in QGuiApplication.screens():
        if plan.screen and screen.name() == plan.screen:
            return screen
    return None
