"""A sentence in as many lines as it needs in its room, and no higher."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget


class WrappedLine(QLabel):
    """A label whose height follows from its width; a layout takes it for one of fixed height.

    Qt guesses the least height of a wrapped label from a width of its own choice, and a layout
    that holds one asks for room that is not needed.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def show_text(self, text: str) -> None:
        """Show a sentence and take the height for it."""
        self.setText(text)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the height for the new width."""
        super().resizeEvent(event)
        self._fit()

    def hasHeightForWidth(self) -> bool:
        """A layout needs to ask for no height: it is fixed."""
        return False

    def _fit(self) -> None:
        self.setFixedHeight(max(self.heightForWidth(self.width()), 0))
