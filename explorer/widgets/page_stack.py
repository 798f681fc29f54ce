"""Pages of which the one on show alone needs room."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QStackedWidget, QWidget


class PageStack(QStackedWidget):
    """As small as its present page may be; Qt's own is as large as its largest page."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.currentChanged.connect(self._on_turned)

    def minimumSizeHint(self) -> QSize:
        """Least size of the page on show."""
        if self.count() == 0:
            return QSize(0, 0)
        page = self.currentWidget()
        return page.minimumSizeHint().expandedTo(page.minimumSize())

    def sizeHint(self) -> QSize:
        """Size that the page on show would like."""
        return self.currentWidget().sizeHint() if self.count() else QSize(0, 0)

    def _on_turned(self, _: int) -> None:
        self.updateGeometry()
