"""Opens the shelf of parts for a main window."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from explorer.state.document import Document
from explorer.widgets.knob_panel import KnobPanel

if TYPE_CHECKING:
    from explorer.widgets.parts.parts_dialog import PartsDialog


class PartsDesk(QObject):
    """Makes the dialog when it is first wanted.

    Parameters
    ----------
    window : QWidget
        Over which the shelf opens.
    document : Document
        What parts are taken into and kept from.
    folder : pathlib.Path
        Where the parts lie.
    knobs, action : KnobPanel and QAction
        What asks for the shelf.
    """

    def __init__(
        self,
        window: QWidget,
        *,
        document: Document,
        folder: Path,
        knobs: KnobPanel,
        action: QAction,
    ) -> None:
        super().__init__(window)
        self._window, self._document, self._folder = window, document, folder
        self._dialog: PartsDialog | None = None
        knobs.parts_wanted.connect(self.open)
        action.triggered.connect(self._on_action)

    @property
    def dialog(self) -> PartsDialog:
        """The shelf as a dialog."""
        if self._dialog is None:
            from explorer.files.shelf import Shelf
            from explorer.widgets.parts.parts_dialog import PartsDialog

            self._dialog = PartsDialog(self._document, Shelf(self._folder), self._window)
        return self._dialog

    def open(self, kind: str) -> None:
        """Show the parts of a kind, those beside the open scenario too."""
        from explorer.scenario.part import KINDS

        path = self._document.path
        self.dialog.shelf.beside = None if path is None else path.parent
        self.dialog.begin(next(one for one in KINDS if one == kind))

    def take_in(self, path: Path) -> None:
        """Copy a part file to the shelf, and show it there."""
        self.open(self.dialog.kind)
        self.dialog.take_in(path)

    def _on_action(self) -> None:
        self.open(self.dialog.kind)
