"""A layout of parts beside each other that puts them below each other where they are cut."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize
from PySide6.QtWidgets import QBoxLayout, QWidget


class SideBySide(QBoxLayout):
    """A row that becomes a column in a room that is narrower than its parts need."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(QBoxLayout.Direction.LeftToRight, parent)

    @property
    def is_column(self) -> bool:
        """Whether the parts stand below each other."""
        return self.direction() is QBoxLayout.Direction.TopToBottom

    def setGeometry(self, rect: QRect) -> None:
        """Turn before laying out."""
        margins = self.contentsMargins()
        widths = [self._least(place).width() for place in range(self.count())]
        needed = sum(widths) + self.spacing() * (self.count() - 1)
        fits = needed + margins.left() + margins.right() <= rect.width()
        way = QBoxLayout.Direction.LeftToRight if fits else QBoxLayout.Direction.TopToBottom
        if way is not self.direction():
            self.setDirection(way)
        super().setGeometry(rect)

    def minimumSize(self) -> QSize:
        """As wide as the widest part; as high as its parts stand now."""
        least = super().minimumSize()
        margins = self.contentsMargins()
        widest = max((self._least(place).width() for place in range(self.count())), default=0)
        return QSize(widest + margins.left() + margins.right(), least.height())

    def _least(self, place: int) -> QSize:
        item = self.itemAt(place)
        assert item is not None
        return item.minimumSize()
