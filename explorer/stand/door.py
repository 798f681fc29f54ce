"""The way from the explorer to the stand: loads the stand only when somebody asks for it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from explorer.scenario.model import Scenario
from explorer.state.document import Document
from explorer.state.workers import Workers
from explorer.text import say

if TYPE_CHECKING:
    from explorer.stand.desk import StandDesk


class StandDoor(QObject):
    """Connects one action of the explorer with the stand's set-up.

    Parameters
    ----------
    action : QAction
        Opens the set-up.
    folder : pathlib.Path
        Where the stand keeps its set-up and what visitors leave.
    explorer : QWidget
        The main window, which also owns the door.
    document : Document
        Takes a parked scenario that the operator opens, as one undo step.
    workers : Workers, optional
        Processes that answer the stand's questions.
    """

    def __init__(
        self,
        action: QAction,
        folder: Path,
        explorer: QWidget,
        document: Document,
        workers: Workers | None = None,
    ) -> None:
        super().__init__(explorer)
        self._folder, self._explorer, self._document = folder, explorer, document
        self._workers = workers
        self._desk: QObject | None = None
        action.triggered.connect(self.open)

    def open(self) -> None:
        """Show the set-up of the stand."""
        self._at_desk().open_setup()

    def run_unasked(self, file: Path | None = None) -> None:
        """Begin the stand at once; see `StandDesk.run_unasked`."""
        self._at_desk().run_unasked(file)

    def _at_desk(self) -> StandDesk:
        from explorer.stand.desk import StandDesk

        if self._desk is None:
            self._desk = StandDesk(self._folder, self._explorer, self, workers=self._workers)
            self._desk.open_wanted.connect(self._on_open_wanted)
        assert isinstance(self._desk, StandDesk)
        return self._desk

    def _on_open_wanted(self, scenario: Scenario) -> None:
        self._document.replace(scenario, say("opening of a visitor's scenario"))
