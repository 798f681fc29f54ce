"""A converter's efficiency table within a form: what it says in one line, and a button."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.buttons import pill
from explorer.words.panel import table_summary

if TYPE_CHECKING:
    from explorer.widgets.efficiency.efficiency_dialog import EfficiencyDialog


class EfficiencyRow(QWidget):
    """Told by the form above when the document changes."""

    def __init__(self, document: Document, path: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._path = document, path
        self.setObjectName(path)
        self.dialog: EfficiencyDialog | None = None
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setFont(theme.font("small"))
        self.said.setForegroundRole(self.said.palette().ColorRole.PlaceholderText)
        self.said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.open_button = pill(
            tr("Efficiency table…"), tr("Type the efficiencies of the converter's data sheet")
        )
        self.open_button.setObjectName(f"{path}.open")
        self.open_button.setMinimumHeight(26)
        self.open_button.clicked.connect(self.open)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.said)
        layout.addWidget(self.open_button)
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds."""
        self.said.setText(tr(table_summary(self._document.get(self._path))))

    def open(self) -> None:
        """Show the table in a dialog of its own."""
        from explorer.widgets.efficiency.efficiency_dialog import EfficiencyDialog

        if self.dialog is not None:
            self.dialog.deleteLater()
        self.dialog = EfficiencyDialog(self._document, self.window())
        self.dialog.open()
