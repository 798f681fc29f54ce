"""The table of a line-up: a column for each design, rows of what differs and what comes of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    Qt,
)
from PySide6.QtGui import QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import Text
from explorer.widgets.compare.line_up_plot import paint_number, stroke_pen
from explorer.widgets.drawers.flat import FlatHeader
from explorer.widgets.paint import focus_pen, mix, paint_filling
from explorer.widgets.slim_scroll import SlimBar
from explorer.words.line_up import LineUpRow

ROW, HEADING, HEADER = 25, 30, 46
_LABEL_SHARE, _LEAST_LABEL, _LEAST = 0.2, 170, 130
_PAD, _DOT = 8, 12
_ROW_ROLE = int(Qt.ItemDataRole.UserRole)
Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()


class LineUpModel(QAbstractTableModel):
    """Rows with what every design has."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.names: tuple[str, ...] = ()
        self.rows: tuple[LineUpRow, ...] = ()

    def set_rows(self, names: Sequence[str], rows: tuple[LineUpRow, ...]) -> None:
        """Show other designs or other values."""
        if tuple(names) == self.names and rows == self.rows:
            return
        self.beginResetModel()
        self.names, self.rows = tuple(names), rows
        self.endResetModel()

    def rowCount(self, parent: Index = _ROOT) -> int:
        """Headings and values."""
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = _ROOT) -> int:
        """The label and every design."""
        return 0 if parent.isValid() else len(self.names) + 1

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Text of one cell, and what is spoken of it."""
        row, column = self.rows[index.row()], index.column()
        if role == _ROW_ROLE:
            return row
        text = tr(row.label)
        if column and not row.is_heading:
            value = row.values[column - 1]
            text = tr(value) if isinstance(value, Text) else value
        elif column:
            text = ""
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return text
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{column}: {text}" if column else text
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        """Names of the designs."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        name = "" if section == 0 else self.names[section - 1]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return tr(name) if isinstance(name, Text) else name
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        return None


class LineUpHeader(FlatHeader):
    """Number, name and stroke of each design."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedHeight(HEADER)

    def paintSection(self, painter: QPainter, rect: QRect, logicalIndex: int) -> None:
        """Paint one design."""
        tokens = tokens_of(self.palette())
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(rect, tokens.color("card"))
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        y = rect.bottom() + 0.5
        painter.drawLine(QPointF(rect.left(), y), QPointF(rect.right() + 1, y))
        if logicalIndex:
            left = float(rect.left() + _PAD)
            middle = rect.top() + 14.0
            painter.setPen(stroke_pen(logicalIndex - 1, tokens))
            painter.drawLine(QPointF(left + 20, middle), QPointF(left + 54, middle))
            paint_number(painter, QPointF(left + 8, middle), logicalIndex - 1, tokens)
            painter.setFont(theme.font("body", bold=True))
            painter.setPen(tokens.color("ink"))
            room = QRectF(left, rect.top() + 24, rect.width() - 2 * _PAD, 18)
            text = str(self.model().headerData(logicalIndex, Qt.Orientation.Horizontal))
            shown = painter.fontMetrics().elidedText(
                text, Qt.TextElideMode.ElideMiddle, int(room.width())
            )
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, shown)
        painter.restore()


class LineUpCells(QStyledItemDelegate):
    """What all agree on stands back."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one cell."""
        row: LineUpRow = index.data(_ROW_ROLE)
        rect, tokens, column = option.rect, tokens_of(option.palette), index.column()
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if chosen:  # what the style fills beneath would hide the names of the rows
            share = 0.12 if column else 0.0
            painter.fillRect(rect, mix(tokens.color("accent"), tokens.color("card"), share))
        painter.setPen(QPen(tokens.color("line"), 1.0))
        y = rect.bottom() + 0.5
        painter.drawLine(QPointF(rect.left(), y), QPointF(rect.right() + 1, y))
        inside = QRectF(rect).adjusted(_PAD, 0, -_PAD, 0)
        if column and row.states and row.states[column - 1] is not None:
            dot = QRectF(inside.left(), inside.center().y() - _DOT / 2, _DOT, _DOT)
            paint_filling(painter, dot, row.states[column - 1], tokens)  # type: ignore[arg-type]
            inside.setLeft(inside.left() + _DOT + 7)
        painter.setFont(theme.font("small" if row.is_heading else "body", bold=row.is_heading))
        strong = row.is_heading or row.differs
        painter.setPen(tokens.color("ink" if strong else "soft"))
        text = painter.fontMetrics().elidedText(
            str(index.data()), Qt.TextElideMode.ElideRight, int(inside.width()) + 1
        )
        painter.drawText(inside, Qt.AlignmentFlag.AlignVCenter, text)
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(focus_pen(tokens))
            painter.drawRect(QRectF(rect).adjusted(1, 1, -1, -2))
        painter.restore()


class LineUpTable(QTableView):
    """A whole column is chosen at a time."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.designs = LineUpModel(self)
        self.setModel(self.designs)
        self.setItemDelegate(LineUpCells(self))
        self.setFrameShape(QTableView.Shape.NoFrame)
        self.setShowGrid(False)
        header = LineUpHeader(self)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        header.setSectionsClickable(True)
        self.setHorizontalHeader(header)
        self.verticalHeader().hide()
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectColumns)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollBar(SlimBar())
        self.setHorizontalScrollBar(SlimBar(Qt.Orientation.Horizontal))
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.viewport().setAutoFillBackground(False)
        self.setAccessibleName(tr("Designs side by side, one a column"))

    def set_rows(self, names: Sequence[str], rows: tuple[LineUpRow, ...]) -> None:
        """Show designs; the chosen one stays chosen."""
        column = self.currentIndex().column()
        self.designs.set_rows(names, rows)
        for place, row in enumerate(rows):
            self.setRowHeight(place, HEADING if row.is_heading else ROW)
        if 0 < column < self.designs.columnCount():
            self.setCurrentIndex(self.designs.index(0, column))
        self._share_out()

    def chosen(self) -> int:
        """Place of the chosen design; 0 is the open one, -1 none."""
        return self.currentIndex().column() - 1 if self.currentIndex().isValid() else -1

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width among the designs."""
        super().resizeEvent(event)
        self._share_out()

    def _share_out(self) -> None:
        count = len(self.designs.names)
        if not count:
            return
        width = self.viewport().width()
        label = max(round(_LABEL_SHARE * width), _LEAST_LABEL)
        self.setColumnWidth(0, label)
        for column in range(1, count + 1):
            self.setColumnWidth(column, max((width - label) // count, _LEAST))
