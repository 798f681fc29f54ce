"""Takes a light log into the design: from a file dialog or dropped on the window."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QWidget

from explorer.files.trust import TRUST
from explorer.resource_files import resource_path
from explorer.state.document import Document
from explorer.state.knobs import LIGHT_PATH
from explorer.state.language import tr
from explorer.widgets.log_progress import LogProgress

if TYPE_CHECKING:
    from explorer.files.table_reader.told import Told
    from explorer.widgets.table_dialog import TableDialog


class LogChooser(QObject):
    """Asks for a light log, shows how it is read, and puts it into the document.

    Parameters
    ----------
    document : Document
        Takes the log.
    parent : QWidget
        Over which dialogs stand.
    """

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self._document, self._over = document, parent
        self.dialog: TableDialog | None = None
        document.progress = LogProgress(parent)

    def choose(self) -> None:
        """Ask for a file."""
        path = self._document.path
        begin = str(path.parent if path is not None else resource_path("logs"))
        filters = tr("Tables (*.csv *.tsv *.txt)")
        name, _ = QFileDialog.getOpenFileName(self._over, tr("Open a light log"), begin, filters)
        if name:
            self.show_file(Path(name))

    def show_file(self, path: Path) -> None:
        """Show how a file is read; it is taken when a person says so."""
        from explorer.files.look import look_at_light
        from explorer.widgets.table_dialog import TableDialog

        if self.dialog is not None:
            self.dialog.reject()
        self.dialog = TableDialog(path, partial(look_at_light, path), self._over)
        self.dialog.taken.connect(self._on_taken)
        self.dialog.finished.connect(self._on_closed)
        self.dialog.open()

    def _on_taken(self, path: Path, told: Told) -> None:
        from explorer.state.table_look import log_name, pattern_of

        TRUST.allow(path)
        name = log_name(path, self._document.path, resource_path("logs"))
        self._document.begin_gesture()
        pattern = pattern_of(name, told, self._document.scenario.light.pattern)
        # As measured: a level that was set before would scale the log without a word.
        values = {"light.pattern": pattern, LIGHT_PATH: None}
        self._document.edit_together(values, "light log")

    def _on_closed(self) -> None:
        if self.dialog is not None:
            self.dialog.deleteLater()
            self.dialog = None
