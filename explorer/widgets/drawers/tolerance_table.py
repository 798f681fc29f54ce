"""Tolerances that can be edited, each with how much of the spread it causes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFocusEvent, QFontMetrics, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from explorer.advice.influence import Influence
from explorer.advice.spread import Tolerance
from explorer.quantity import parse
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import say, texts
from explorer.widgets.drawers.flat import FlatHeader
from explorer.widgets.paint import focus_pen, mix
from explorer.widgets.slim_scroll import SlimBar
from explorer.words.drawers import percent, tolerance_text
from explorer.words.figures import bind_units

ROW_HEIGHT = 30
WIDEST = 4.0
"""Largest relative tolerance that makes sense; a value cannot fall below zero."""
_LABEL, _AMOUNT, _SHARE = range(3)
_LEAST_SHARE = 76
"""Least width of the bars: names come first. [px]"""
_TITLES = texts(("What varies", "±", "Influence"))
Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()


def amount_from(text: str, tolerance: Tolerance) -> float:
    """The half-width that a person typed.

    Raises
    ------
    ValueError
        No such tolerance; the text says what is allowed.
    """
    if tolerance.kind == "relative":
        plain = text.strip().rstrip("%").strip()
        amount = parse(plain, "") / 100.0
        if not 0.0 <= amount <= WIDEST:
            raise ValueError(say("A tolerance takes 0 to {most} %.", most=f"{100 * WIDEST:g}"))
        return amount
    amount = parse(text, tolerance.unit)
    if amount < 0:
        raise ValueError(say("A tolerance takes 0 {unit} or more.", unit=tolerance.unit))
    return amount


class ToleranceModel(QAbstractTableModel):
    """Tolerances, strongest influence first."""

    edited = Signal(str, float)
    """Carries path and new half-width."""
    refused = Signal(object)
    """Carries why a half-width was not taken."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.rows: list[Tolerance] = []
        self.shares: dict[str, float] = {}
        self.changed: set[str] = set()
        """Paths whose half-width a person chose."""

    def set_tolerances(self, tolerances: Sequence[Tolerance], changed: set[str]) -> None:
        """Show other tolerances, in their present order where they are the same ones."""
        order = {t.path: i for i, t in enumerate(self.rows)}
        rows = sorted(tolerances, key=lambda t: order.get(t.path, len(order)))
        self.changed = set(changed)
        if [t.path for t in rows] == [t.path for t in self.rows]:
            self.rows = rows
            self._say_changed()
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def set_influences(self, influences: Sequence[Influence]) -> None:
        """Show shares, and the strongest first."""
        self.shares = {i.path: i.share for i in influences}
        self.layoutAboutToBeChanged.emit()
        before = [t.path for t in self.rows]
        old = self.persistentIndexList()
        self.rows.sort(key=self._weight)
        after = {t.path: row for row, t in enumerate(self.rows)}
        self.changePersistentIndexList(
            old, [self.index(after[before[i.row()]], i.column()) for i in old]
        )
        self.layoutChanged.emit()

    def _weight(self, tolerance: Tolerance) -> float:
        return -self.shares.get(tolerance.path, 0.0)

    def _say_changed(self) -> None:
        if self.rows:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.rows) - 1, _SHARE))

    def rowCount(self, parent: Index = _ROOT) -> int:
        """Tolerances."""
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = _ROOT) -> int:
        """Label, half-width, share."""
        return 0 if parent.isValid() else len(_TITLES)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Half-widths can be edited."""
        flags = super().flags(index)
        return flags | Qt.ItemFlag.ItemIsEditable if index.column() == _AMOUNT else flags

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Text of one cell; the share itself for the bar."""
        row, column = self.rows[index.row()], index.column()
        share = self.shares.get(row.path, 0.0)
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return tr((bind_units(row.label), tolerance_text(row), percent(share))[column])
        if role == Qt.ItemDataRole.UserRole:
            return share
        if role == Qt.ItemDataRole.FontRole:
            return theme.font("body", bold=column == _AMOUNT and row.path in self.changed)
        if role == Qt.ItemDataRole.ToolTipRole:
            values = {"label": row.label, "amount": tolerance_text(row)}
            if row.path in self.changed:
                return tr("{label} ±{amount}; changed from what is usual", **values)
            return tr("{label} ±{amount}", **values)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{tr(_TITLES[column])}: {self.data(index)}"
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column else Qt.AlignmentFlag.AlignLeft
            return int(side | Qt.AlignmentFlag.AlignVCenter)
        return None

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Take a half-width that a person typed, or say why not."""
        row = self.rows[index.row()]
        try:
            amount = amount_from(str(value), row)
        except ValueError as error:
            self.refused.emit(str(error))
            return False
        if tolerance_text(replace(row, amount=amount)) != tolerance_text(row):
            self.edited.emit(row.path, amount)
        return True

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        """Titles of the columns."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return tr(_TITLES[section])
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if section == 1 else Qt.AlignmentFlag.AlignLeft
            return int(side | Qt.AlignmentFlag.AlignVCenter)
        return None


def in_two_lines(text: str, metrics: QFontMetrics, width: int) -> str:
    """A text that takes two lines at most, its end left out where it must be."""
    if max(map(metrics.horizontalAdvance, text.split())) > width:
        return metrics.elidedText(text, Qt.TextElideMode.ElideRight, width)
    box, flags, room = QRect(0, 0, width, 1000), int(Qt.TextFlag.TextWordWrap), 2 * width
    found = text
    while metrics.boundingRect(box, flags, found).height() > 2 * metrics.lineSpacing():
        found = metrics.elidedText(text, Qt.TextElideMode.ElideRight, room)
        room -= 6
    return found


class ToleranceCells(QStyledItemDelegate):
    """Paints shares as bars, and fields that can be edited with an outline."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """One line."""
        hint = super().sizeHint(option, index)
        return QSize(hint.width(), ROW_HEIGHT)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one cell."""
        rect = QRectF(option.rect)
        state = option.state
        tokens = tokens_of(option.palette)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        selected = bool(state & QStyle.StateFlag.State_Selected)
        if selected:
            tint = mix(tokens.color("accent"), tokens.color("card"), 0.16)
            painter.fillRect(rect.toRect(), tint)
        painter.setPen(QPen(tokens.color("line"), 1.0))
        y = rect.bottom() - 0.5
        painter.drawLine(QPointF(rect.left(), y), QPointF(rect.right(), y))
        column, text = index.column(), str(index.data())
        inside = rect.adjusted(6, 0, -6, 0)
        painter.setFont(index.data(Qt.ItemDataRole.FontRole))
        metrics = painter.fontMetrics()
        if column == _SHARE:
            share = float(index.data(Qt.ItemDataRole.UserRole))
            number = metrics.horizontalAdvance("99.9 %") + 6
            room = inside.width() - number
            bar = QRectF(inside.left(), rect.top() + 8, max(room * share, 1.5), rect.height() - 17)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(tokens.color("accent"))
            painter.drawRoundedRect(bar, 2, 2)
            inside.setLeft(bar.right() + 6)
            painter.setPen(tokens.color("soft"))
            painter.drawText(inside, Qt.AlignmentFlag.AlignVCenter, text)
        else:
            if column == _AMOUNT:
                painter.setPen(QPen(tokens.color("edge"), 1.0))
                painter.drawRoundedRect(rect.adjusted(2.5, 2.5, -2.5, -3.5), 4, 4)
            painter.setPen(tokens.color("ink"))
            align = Qt.AlignmentFlag(index.data(Qt.ItemDataRole.TextAlignmentRole))
            if metrics.horizontalAdvance(text) > inside.width():
                # Two lines in small rather than half a name.
                painter.setFont(theme.font("small"))
                align |= Qt.TextFlag.TextWordWrap
                text = in_two_lines(text, painter.fontMetrics(), int(inside.width()))
            painter.drawText(inside, int(align), text)
        if selected and state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(rect.adjusted(1, 1, -1, -2))
        painter.restore()


class ToleranceTable(QTableView):
    """The table; typing edits the half-width of the row."""

    def __init__(self, model: ToleranceModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setModel(model)
        self._cells = ToleranceCells(self)
        self.setItemDelegate(self._cells)
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(
            triggers.DoubleClicked
            | triggers.SelectedClicked
            | triggers.EditKeyPressed
            | triggers.AnyKeyPressed
        )
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setFrameShape(QTableView.Shape.NoFrame)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBar(SlimBar())
        self.setAccessibleName(tr("Tolerances; type to change the chosen one"))
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(ROW_HEIGHT)
        header = FlatHeader(self)
        self.setHorizontalHeader(header)
        header.setSectionResizeMode(_LABEL, QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(_AMOUNT, QHeaderView.ResizeMode.Fixed)
        header.setSectionResizeMode(_SHARE, QHeaderView.ResizeMode.Fixed)
        self.setColumnWidth(_AMOUNT, 62)
        self.setColumnWidth(_SHARE, 92)
        self.viewport().setAutoFillBackground(False)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Choose the first amount where none is, so that it shows where the keyboard is."""
        if not self.currentIndex().isValid() and self.model().rowCount():
            self.setCurrentIndex(self.model().index(0, _AMOUNT))  # the view's own is not chosen
        super().focusInEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the bars a share of the room."""
        names = [self.model().index(row, _LABEL).data() for row in range(self.model().rowCount())]
        longest = max((self.fontMetrics().horizontalAdvance(n) for n in names), default=0)
        room = self.viewport().width() - self.columnWidth(_AMOUNT) - longest - 16
        self.setColumnWidth(_SHARE, max(_LEAST_SHARE, room))
        super().resizeEvent(event)
