"""Where a logged run comes from: a file, what a person writes down, or a meter."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtWidgets import QFileDialog, QMenu, QToolButton, QWidget

from explorer.files.look import look_at_run
from explorer.files.study import RUNS
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.state.meter_run import MeterRun
from explorer.widgets.buttons import PillButton, pill
from explorer.widgets.drawers.hand_dialog import HandDialog
from explorer.widgets.drawers.meter_dialog import MeterDialog
from explorer.widgets.table_dialog import TableDialog

LEAST_READINGS = 3
"""Readings from which a run can be compared."""
REDRAW_MS = 1000
"""Least time between two comparisons with a run that grows."""


def pick_log(parent: QWidget) -> Path | None:
    """Ask for a logged run."""
    filters = tr("Tables (*.csv *.tsv *.txt)")
    name, _ = QFileDialog.getOpenFileName(parent, tr("Open a logged run"), "", filters)
    return Path(name) if name else None


class BenchSources(QObject):
    """Opens what asks for a run, and says which run is to be compared.

    Parameters
    ----------
    runs : pathlib.Path
        Folder for what the program itself logs.
    document : Document
        Keeps the meter that is followed, so that windows may be built anew meanwhile. Where it is
        a study, its folder takes what is logged.
    parent : QWidget
        Over which dialogs stand.
    """

    chosen = Signal(object)
    """Carries the path of a run that is to be compared."""
    added = Signal(object)
    """Carries the path of a run of the same device, to be fitted together with those open."""
    grown = Signal(object, bool)
    """Carries the path of a run that has more readings than before, and whether it is to stand
    behind the runs that are open."""
    told = Signal(object, object)
    """Carries a path, and what a person told about the file."""
    rows_wanted = Signal()
    """Somebody wants to see how the file on show is read."""

    def __init__(self, runs: Path, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self._runs, self._document, self._over = runs, document, parent
        self._adding = False
        self.hand: HandDialog | None = None
        self.meter: MeterDialog | None = None
        self.rows: TableDialog | None = None
        found = document.findChild(MeterRun)
        self.run = found if isinstance(found, MeterRun) else MeterRun(document)
        self._redraw = QTimer(self)
        self._redraw.setSingleShot(True)
        self._redraw.setInterval(REDRAW_MS)
        self._redraw.timeout.connect(self._on_redraw)
        self.run.grown.connect(self._on_grown)

    @property
    def folder(self) -> Path:
        """Where the next run is kept."""
        study = self._document.folder
        return self._runs if study is None else study / RUNS

    def another_button(self) -> PillButton:
        """A button that offers every source in place of what is open."""
        button = pill(tr("Another…"), tr("Another run: from a file, by hand or from a meter"))
        menu = self.offer(button, adding=False)
        menu.addSeparator()
        menu.addAction(tr("First &rows…")).triggered.connect(self.rows_wanted)
        return button

    def offer(self, button: PillButton, *, adding: bool) -> QMenu:
        """Let a button offer every source, for a run alone or one behind those that are open."""
        button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        menu = QMenu(button)
        menu.addAction(tr("&Open log…")).triggered.connect(
            self.add_file if adding else self.open_file
        )
        menu.addAction(tr("&Write down…")).triggered.connect(
            self._add_by_hand if adding else self.write_down
        )
        menu.addAction(tr("Follow a &meter…")).triggered.connect(
            self._add_from_meter if adding else self.follow_meter
        )
        button.setMenu(menu)
        return menu

    def _add_by_hand(self) -> None:
        self.write_down()
        self._adding = True

    def _add_from_meter(self) -> None:
        self.follow_meter()
        self._adding = True

    def open_file(self) -> None:
        """Ask for a file."""
        path = pick_log(self._over)
        if path is not None:
            self.chosen.emit(path)

    def add_file(self) -> None:
        """Ask for a file of the same device."""
        path = pick_log(self._over)
        if path is not None:
            self.added.emit(path)

    def show_rows(self, path: Path) -> None:
        """Show how a file is read, and ask what it leaves open."""
        if self.rows is not None:
            return
        self.rows = TableDialog(path, partial(look_at_run, path), self._over)
        self.rows.taken.connect(self.told)
        self.rows.finished.connect(self._on_rows_closed)
        self.rows.open()

    def _on_rows_closed(self) -> None:
        if self.rows is not None:
            self.rows.deleteLater()
            self.rows = None

    def write_down(self) -> None:
        """Show the table for readings by hand; it may stay open beside the drawer."""
        self._adding = False
        if self.hand is None:
            self.hand = HandDialog(self.folder, self._over)
            self.hand.kept.connect(self._on_written)
            self.hand.finished.connect(self._on_hand_closed)
        self.hand.show()
        self.hand.raise_()
        self.hand.activateWindow()

    def _on_written(self, path: Path) -> None:
        self.grown.emit(path, self._adding)

    def _on_hand_closed(self) -> None:
        """The next table is a new run."""
        if self.hand is not None:
            self.hand.deleteLater()
            self.hand = None

    def follow_meter(self) -> None:
        """Ask which meter, and follow it."""
        self._adding = False
        if self.meter is not None:
            self.meter.raise_()
            return
        self.meter = MeterDialog(self.run, self.folder, self._over, remembered=self._runs)
        self.meter.finished.connect(self._on_meter_closed)
        self.meter.open()

    def _on_meter_closed(self) -> None:
        if self.meter is not None:
            self.meter.deleteLater()
            self.meter = None

    def _on_grown(self) -> None:
        if self.run.count >= LEAST_READINGS and not self._redraw.isActive():
            self._redraw.start(0 if self.run.count == LEAST_READINGS else REDRAW_MS)

    def _on_redraw(self) -> None:
        if self.run.path is not None:
            self.grown.emit(self.run.path, self._adding)
