"""Headers of the tables, as quiet as the rest of the window."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QHeaderView, QWidget

from explorer.state import theme
from explorer.state.theme import tokens_of

_HEIGHT, _PAD, _ARROW = 26, 8, 12


class FlatHeader(QHeaderView):
    """Titles above a hairline; the sorted column shows a small arrow."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setHighlightSections(False)
        self.setSectionsClickable(False)
        self.setMinimumSectionSize(36)
        self.setFixedHeight(_HEIGHT)

    def sectionSizeFromContents(self, logicalIndex: int) -> QSize:
        """Room for the title and an arrow."""
        text = str(self.model().headerData(logicalIndex, Qt.Orientation.Horizontal))
        self.setFont(theme.font("small"))
        width = self.fontMetrics().horizontalAdvance(text) + 2 * _PAD
        return QSize(width + (_ARROW if self.isSortIndicatorShown() else 0), _HEIGHT)

    def paintSection(self, painter: QPainter, rect: QRect, logicalIndex: int) -> None:
        """Paint one title."""
        tokens = tokens_of(self.palette())
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(rect, tokens.color("card"))
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        y = rect.bottom() + 0.5
        painter.drawLine(QPointF(rect.left(), y), QPointF(rect.right() + 1, y))
        model, across = self.model(), Qt.Orientation.Horizontal
        text = str(model.headerData(logicalIndex, across))
        align = model.headerData(logicalIndex, across, Qt.ItemDataRole.TextAlignmentRole)
        sorts = self.isSortIndicatorShown() and self.sortIndicatorSection() == logicalIndex
        painter.setFont(theme.font("small", bold=sorts))
        painter.setPen(tokens.color("ink" if sorts else "soft"))
        inside = QRectF(rect).adjusted(_PAD, 0, -_PAD, 0)
        right = bool(Qt.AlignmentFlag(align) & Qt.AlignmentFlag.AlignRight)
        if sorts:
            width = painter.fontMetrics().horizontalAdvance(text)
            x = inside.right() - width - 9 if right else inside.left() + width + 9
            self._paint_arrow(painter, QPointF(x, inside.center().y()))
        room = int(inside.width()) + 1
        text = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, room)
        if len(text) > 2:  # of a column that shows marks alone nothing is left but dots
            painter.drawText(inside, Qt.AlignmentFlag(align), text)
        painter.restore()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground beyond the last title too."""
        painter = QPainter(self.viewport())
        painter.fillRect(self.viewport().rect(), tokens_of(self.palette()).color("card"))
        painter.end()
        super().paintEvent(event)

    def _paint_arrow(self, painter: QPainter, at: QPointF) -> None:
        up = self.sortIndicatorOrder() == Qt.SortOrder.AscendingOrder
        tip = -3.0 if up else 3.0
        painter.save()
        painter.setBrush(painter.pen().color())
        painter.setPen(Qt.PenStyle.NoPen)
        points = [QPointF(0, tip), QPointF(4, -tip), QPointF(-4, -tip)]
        painter.drawPolygon(QPolygonF([at + p for p in points]))
        painter.restore()
