"""The data sheet of the panel within a form: what it says in one line, and a button to open it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.scenario.sheet_draft import drafts_of, judged
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.buttons import pill
from explorer.words.sheet import summary

if TYPE_CHECKING:
    from explorer.widgets.sheet.sheet_dialog import SheetDialog


class SheetRow(QWidget):
    """Told by the form above when the document changes."""

    def __init__(self, document: Document, path: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.setObjectName(path)
        self.dialog: SheetDialog | None = None
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setFont(theme.font("small"))
        self.said.setForegroundRole(self.said.palette().ColorRole.PlaceholderText)
        self.said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.open_button = pill(
            tr("Data sheet…"), tr("Type what the panel's data sheet says, and see its curves")
        )
        self.open_button.setObjectName(f"{path}.open")
        self.open_button.setMinimumHeight(26)
        self.open_button.clicked.connect(self.open)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.said)
        layout.addWidget(self.open_button)
        self._shown: object = None
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds; a sheet is judged only where it has changed."""
        panels = self._document.scenario.panels
        key = (panels.data_sheet, panels.technology, panels.cells_in_series)
        if key != self._shown:
            self._shown = key
            found = judged(panels, drafts_of(panels)) if panels.data_sheet else None
            self.said.setText(tr(summary(panels, found)))

    def open(self) -> None:
        """Show the sheet in a dialog of its own."""
        from explorer.widgets.sheet.sheet_dialog import SheetDialog

        if self.dialog is not None:
            self.dialog.deleteLater()
        self.dialog = SheetDialog(self._document, self.window())
        self.dialog.open()
