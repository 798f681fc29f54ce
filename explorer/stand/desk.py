"""Between the explorer and the stand: set-up, the run, and back again."""

from __future__ import annotations

import logging
from pathlib import Path

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QWidget

from explorer.files.disk import FileError
from explorer.scenario.model import Scenario
from explorer.stand.exhibits import load_exhibits
from explorer.stand.parked import ParkedScenarios
from explorer.stand.setup_dialog import SetupDialog
from explorer.stand.window import StandWindow
from explorer.state.stand_plan import StandPlan, default_plan, load_plan, save_plan
from explorer.state.workers import Workers
from explorer.text import say

LOG = logging.getLogger(__name__)
PLAN_FILE = "stand.json"
PARKED_FILE = "visitors.json"


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
        self.dialog: SetupDialog | None = None
        self.window: StandWindow | None = None

    def open_setup(self) -> None:
        """Show the operator's page."""
        if self.window is not None or self.dialog is not None:
            return
        plan, problems = self._plan()
        screen = self._explorer.screen().size()
        dialog = SetupDialog(plan, self.parked, screen, self._explorer)
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
        window = StandWindow(plan, found.exhibits, self.parked, workers=self._workers)
        window.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        window.left.connect(self._on_left)
        self.window = window
        window.setScreen(self._explorer.screen())
        # Without a window manager nobody else makes it as large as the screen.
        window.setGeometry(self._explorer.screen().geometry())
        window.showFullScreen()
        self._explorer.hide()
        window.start()

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
        self._explorer.show()
        self._explorer.activateWindow()
        self.open_setup()

    def _on_open_wanted(self, scenario: Scenario) -> None:
        if self.dialog is not None:
            self.dialog.reject()
        self.open_wanted.emit(scenario)
