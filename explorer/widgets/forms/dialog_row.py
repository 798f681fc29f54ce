"""Numbers too many for a form: what they say in one line, and a button that opens a dialog."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.document import Document
from explorer.widgets.buttons import pill


class DialogRow(QWidget):
    """Told by the form above when the document changes.

    Parameters
    ----------
    document : Document
        Holds the numbers.
    path : str
        Where they stand in the scenario.
    text, tip : str
        What the button says and does, already translated.
    """

    def __init__(
        self, document: Document, path: str, text: str, tip: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._path = document, path
        self.setObjectName(path)
        self.dialog: QDialog | None = None
        self.said = QLabel()
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setWordWrap(True)
        self.said.setFont(theme.font("small"))
        self.said.setForegroundRole(self.said.palette().ColorRole.PlaceholderText)
        self.said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.open_button = pill(text, tip)
        self.open_button.setObjectName(f"{path}.open")
        self.open_button.setMinimumHeight(26)
        self.open_button.clicked.connect(self.open)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.said)
        layout.addWidget(self.open_button)

    def refresh(self) -> None:
        """Show what the document holds."""
        raise NotImplementedError

    def made_dialog(self) -> QDialog:
        """A dialog that shows what the document holds now."""
        raise NotImplementedError

    def open(self) -> None:
        """Show the numbers in a dialog of their own."""
        if self.dialog is not None:
            self.dialog.deleteLater()
        self.dialog = self.made_dialog()
        self.dialog.open()
