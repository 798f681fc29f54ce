"""The tables of the comparison: rows of two designs side by side, under headings."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QItemSelectionModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFocusEvent, QFontMetrics, QKeyEvent, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from explorer.advice.compare import Difference
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of
from explorer.text import Text
from explorer.widgets.drawers.flat import FlatHeader
from explorer.widgets.paint import focus_pen, mix, paint_filling
from explorer.widgets.slim_scroll import SlimBar
from explorer.words.compare import Row

ROW_HEIGHT, HEADING_HEIGHT = 26, 30
LABEL, THIS, OTHER, TAKE = range(4)
_SHARES, _RESULT_SHARES = (40, 30, 30), (30, 35, 35)
_TAKE_WIDTH = 34
_PAD, _DOT = 8, 12
ROW_ROLE = int(Qt.ItemDataRole.UserRole)
Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()


class CompareModel(QAbstractTableModel):
    """Rows with what this design and the other one have."""

    def __init__(
        self, titles: tuple[str, str, str], *, takes: bool = False, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.titles = (*titles, "") if takes else titles
        self.rows: tuple[Row, ...] = ()

    def set_rows(self, rows: tuple[Row, ...]) -> None:
        """Show other rows; where their number stays, only the contents change."""
        if rows == self.rows:
            return
        if [r.is_heading for r in rows] == [r.is_heading for r in self.rows]:
            self.rows = rows
            last = self.index(len(rows) - 1, self.columnCount() - 1)
            self.dataChanged.emit(self.index(0, LABEL), last)
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index = _ROOT) -> int:
        """Headings and values."""
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = _ROOT) -> int:
        """The label, the two designs, and the arrow that takes a value over."""
        return 0 if parent.isValid() else len(self.titles)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Headings cannot be chosen."""
        if self.rows[index.row()].is_heading:
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Text of one cell, and what is spoken of it."""
        row = self.rows[index.row()]
        if index.column() == TAKE:
            return self._take_data(row, role)
        column = index.column()
        text = tr(row.label) if column == LABEL else _value((row.this, row.other)[column - 1])
        if role == ROW_ROLE:
            return row
        if role == Qt.ItemDataRole.DisplayRole:
            return text
        if role == Qt.ItemDataRole.ToolTipRole:
            return tr(row.tip) if row.tip else None
        if role == Qt.ItemDataRole.AccessibleTextRole and not row.is_heading:
            return text if column == LABEL else f"{tr(self.titles[column])}: {text}"
        return None

    @staticmethod
    def _take_data(row: Row, role: int) -> Any:
        if role == ROW_ROLE:
            return row
        if row.is_heading:
            return None
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return tr(
                "Take over {value} as {label} (Enter; undo takes it back)",
                value=row.other, label=row.label,
            )  # fmt: skip
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        """Titles of the columns."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return tr(self.titles[section])
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        return None


class CompareCells(QStyledItemDelegate):
    """Paints cells in the tokens of the theme; what is the same in both stands back."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one cell."""
        row: Row = index.data(ROW_ROLE)
        rect, tokens = option.rect, tokens_of(option.palette)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if chosen:
            painter.fillRect(rect, mix(tokens.color("accent"), tokens.color("card"), 0.16))
        painter.setPen(QPen(tokens.color("line"), 1.0))
        y = rect.bottom() + 0.5
        painter.drawLine(QPointF(rect.left(), y), QPointF(rect.right() + 1, y))
        if index.column() == TAKE:
            paint_take(painter, QRectF(rect).center(), tokens)
        inside = QRectF(rect).adjusted(_PAD, 0, -_PAD, 0)
        side = Qt.AlignmentFlag.AlignVCenter
        if row.is_heading:
            side = Qt.AlignmentFlag.AlignBottom
            inside.adjust(0, 0, 0, -5)
        state = {THIS: row.this_state, OTHER: row.other_state}.get(index.column())
        if state is not None:
            dot = QRectF(inside.left(), inside.center().y() - _DOT / 2, _DOT, _DOT)
            paint_filling(painter, dot, state, tokens)
            inside.setLeft(inside.left() + _DOT + 7)
        painter.setFont(theme.font("small" if row.is_heading else "body", bold=row.is_heading))
        strong = row.is_heading or (row.differs and index.column() != LABEL)
        painter.setPen(tokens.color("ink" if strong or row.difference else "soft"))
        text = painter.fontMetrics().elidedText(
            str(index.data() or ""), Qt.TextElideMode.ElideRight, int(inside.width()) + 1
        )
        painter.drawText(inside, side | Qt.AlignmentFlag.AlignLeft, text)
        if chosen and option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(rect).adjusted(1, 1, -1, -2))
        painter.restore()

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Room for the text."""
        width = QFontMetrics(theme.font("body")).horizontalAdvance(str(index.data()))
        height = HEADING_HEIGHT if index.data(ROW_ROLE).is_heading else ROW_HEIGHT
        return QSize(width + 2 * _PAD + 2, height)


class CompareTable(QTableView):
    """Two designs side by side; where values can be taken over, Enter takes the chosen ones."""

    taken = Signal()

    def __init__(
        self,
        titles: tuple[str, str, str],
        name: str,
        *,
        takes: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._takes = takes
        self.rows = CompareModel(titles, takes=takes, parent=self)
        self.setModel(self.rows)
        self.setItemDelegate(CompareCells(self))
        self.setFrameShape(QTableView.Shape.NoFrame)
        self.setShowGrid(False)
        header = FlatHeader(self)
        header.setMinimumSectionSize(24)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setHorizontalHeader(header)
        self.verticalHeader().hide()
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBar(SlimBar())
        self.setTabKeyNavigation(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setWordWrap(False)
        self.viewport().setAutoFillBackground(False)
        self.setAccessibleName(name)
        self.doubleClicked.connect(self._on_double)
        self.clicked.connect(self._on_clicked)

    def set_rows(self, rows: tuple[Row, ...]) -> None:
        """Show other rows, and keep the place where one was chosen."""
        place = self.currentIndex().row()
        shape = [row.is_heading for row in rows]
        if shape == [row.is_heading for row in self.rows.rows]:
            self.rows.set_rows(rows)
            return
        self.clearSpans()
        self.rows.set_rows(rows)
        for row, is_heading in enumerate(shape):
            self.setRowHeight(row, HEADING_HEIGHT if is_heading else ROW_HEIGHT)
            if is_heading:
                self.setSpan(row, LABEL, 1, self.rows.columnCount())
        if self._takes:
            self._choose_near(max(place, 0))

    def chosen(self) -> list[Difference]:
        """What can be taken over in the chosen rows, from the top down."""
        places = sorted(index.row() for index in self.selectionModel().selectedRows())
        rows = [self.rows.rows[place] for place in places]
        return [row.difference for row in rows if row.difference is not None]

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Choose the first row where none is, so that it shows where the keyboard is."""
        if not self.currentIndex().isValid():
            self._choose_near(0)
        super().focusInEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes; the rest is Qt's."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width among the columns."""
        super().resizeEvent(event)
        width = self.viewport().width() - (_TAKE_WIDTH if self._takes else 0)
        if self._takes:
            self.setColumnWidth(TAKE, _TAKE_WIDTH)
        shares = _SHARES if self._takes else _RESULT_SHARES
        for column, share in enumerate(shares):
            self.setColumnWidth(column, width * share // sum(shares))

    def _choose_near(self, place: int) -> None:
        """Choose the row at a place, or the nearest one that is no heading."""
        usable = [i for i, row in enumerate(self.rows.rows) if not row.is_heading]
        if usable:
            near = min(usable, key=lambda i: (abs(i - place), i))
            flags = QItemSelectionModel.SelectionFlag
            self.selectionModel().setCurrentIndex(
                self.rows.index(near, LABEL), flags.ClearAndSelect | flags.Rows
            )

    def _on_double(self, index: QModelIndex) -> None:
        if index.column() != TAKE:  # its first click has taken it already
            self.taken.emit()

    def _on_clicked(self, index: QModelIndex) -> None:
        if index.column() == TAKE:
            self.taken.emit()


def _value(text: str) -> str:
    """What a design has, in the language on show; what a person typed stays as it was typed."""
    return tr(text) if isinstance(text, Text) else text


def paint_take(painter: QPainter, at: QPointF, tokens: Tokens) -> None:
    """An arrow to the left: from the other design into this one."""
    pen = QPen(tokens.color("accent"), 1.8)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawLine(at + QPointF(-6, 0), at + QPointF(6, 0))
    painter.drawPolyline([at + QPointF(-2, -4), at + QPointF(-6, 0), at + QPointF(-2, 4)])
