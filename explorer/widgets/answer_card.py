"""The answers below the trace: three groups, each value with its unit in a column of its own."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from explorer.advice.verdict import State
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.card import Card
from explorer.widgets.elided_label import ElidedLabel
from explorer.widgets.paint import focus_pen, paint_filling
from explorer.widgets.pending import PendingLabel
from explorer.words.answer_groups import Answer, AnswerGroup, spoken

ROW, TOLD, FEW, MANY = 23, 42, 4, 5
"""Heights of a row without and with its meaning [px], and how many a group shows at most where
room is short and where it is not."""
_THREE, _TWO = 560, 380
"""Widths from which three and two groups stand side by side. [px]"""
_SIGN, _PAD, _EDGE, _GAP = 11, 16, 2, 4


class AnswerRow(QWidget):
    """One answer; takes the keyboard, so that F1 explains it and a reader speaks it."""

    spoken_role = QAccessible.Role.StaticText

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.answer: Answer | None = None
        self._state: State | None = None
        self.label, self.number, self.unit = ElidedLabel(), PendingLabel(), QLabel()
        self.meaning = ElidedLabel()
        self.meaning.setFont(theme.font("small"))
        self.meaning.setForegroundRole(self.meaning.palette().ColorRole.PlaceholderText)
        self.meaning.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.meaning.hide()
        self.label.setForegroundRole(self.label.palette().ColorRole.PlaceholderText)
        self.unit.setForegroundRole(self.unit.palette().ColorRole.PlaceholderText)
        self.number.setFont(theme.font("body", bold=True))
        self.number.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row = QHBoxLayout()
        row.setSpacing(_GAP)
        row.addWidget(self.label, 1)
        row.addWidget(self.number)
        row.addWidget(self.unit)
        column = QVBoxLayout(self)
        column.setContentsMargins(_PAD, 0, _EDGE, 0)
        column.setSpacing(0)
        column.addLayout(row, 1)
        column.addWidget(self.meaning, 1)
        self.setFixedHeight(ROW)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)

    def show_answer(self, answer: Answer, state: State) -> None:
        """Show an answer that holds; one behind the verdict bears its sign."""
        changed = answer != self.answer or self._state != (state if answer.decides else None)
        self.answer, self._state = answer, state if answer.decides else None
        self.number.show_text(_split(answer.value)[0] if changed else self.number.text())
        if changed:
            self.unit.setText(_split(answer.value)[1])
            self.setObjectName(f"answer_{answer.key}")
            said = tr(spoken(answer))
            self.setAccessibleName(said)
            self.setAccessibleDescription(tr(answer.meaning))
            self.number.setAccessibleName(said)
            self.setToolTip(f"{tr(answer.label)}. {tr(answer.meaning)}")
            self.meaning.setText(tr(answer.meaning))
            self.meaning.setToolTip(tr(answer.meaning))
            self._name()
            self.update()

    def set_told(self, told: bool) -> None:
        """Whether the meaning stands below, where there is room for all of them."""
        self.meaning.setVisible(told)
        for part in (self.number, self.label):
            bold = part is self.number
            part.setFont(theme.font("heading" if told and bold else "body", bold=bold))
        role = QPalette.ColorRole
        self.label.setForegroundRole(role.WindowText if told else role.PlaceholderText)
        self.setFixedHeight(TOLD if told else ROW)

    def set_unit_width(self, width: int) -> None:
        """Leave the units of a group a column of their own. [px]"""
        if width != self.unit.minimumWidth():
            self.unit.setFixedWidth(width)
            self._name()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The short name where the whole one would be cut."""
        super().resizeEvent(event)
        self._name()

    def _name(self) -> None:
        if self.answer is None:
            return
        whole, short = tr(self.answer.label), tr(self.answer.short)
        number, brief = _split(self.answer.value)[0], _split(self.answer.brief)[0]
        # By what the unit will take: it is laid out only after this.
        beside = self.unit.minimumWidth() + 2 * _GAP
        wide = self.width() - _PAD - _EDGE - beside
        told = self.number.fontMetrics().horizontalAdvance
        name = self.fontMetrics().horizontalAdvance
        text = whole if name(whole) <= wide - told(number) else short
        if not self.number.is_pending:
            self.number.show_text(number if name(text) <= wide - told(number) else brief)
        if self.label.text() != text:
            self.label.setText(text)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Draw the ring."""
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Take the ring away."""
        super().focusOutEvent(event)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the sign of what decides, and the focus ring."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._state is not None:
            middle = self.label.geometry().center().y()
            where = QRectF(1, middle - _SIGN / 2, _SIGN, _SIGN)
            paint_filling(painter, where, self._state, tokens)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 5, 5)
        painter.end()


class Group(QWidget):
    """A heading and its rows."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = ElidedLabel()
        self.title.setFont(theme.font("body", bold=True))
        self.title.setContentsMargins(_PAD, 0, 0, 0)
        self.title.setFixedHeight(ROW)
        self.rows = [AnswerRow() for _ in range(MANY)]
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.title)
        for row in self.rows:
            column.addWidget(row)

    def show_group(self, group: AnswerGroup, state: State, count: int) -> None:
        """Show the first answers of a group."""
        if self.title.text() != tr(group.title):
            self.title.setText(tr(group.title))
            self.title.setToolTip(tr(group.title))
        shown = group.answers[:count]
        for index, row in enumerate(self.rows):
            if index < len(shown):
                row.show_answer(shown[index], state)
            row.setVisible(index < len(shown))
        used = [row.unit for row in self.rows if row.unit.text()]
        width = max((unit.sizeHint().width() for unit in used), default=0)
        for row in self.rows:
            row.set_unit_width(width)


class AnswerCard(Card):
    """All groups; arrow keys walk the answers, Tab enters and leaves them as one."""

    changed = Signal()
    """Other answers are on show, which may take another height."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Answers"))
        self.note = QLabel()
        self.note.setWordWrap(True)
        self.note.setFont(theme.font("small"))
        self.note.setContentsMargins(_PAD, 0, 0, 2)
        self.note.hide()
        self.groups = [Group() for _ in range(3)]
        self._found: tuple[tuple[AnswerGroup, ...], State] | None = None
        self._count, self._told = FEW, False
        self._columns = 0
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(24)
        self._grid.setVerticalSpacing(8)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 8, 14, 10)
        column.setSpacing(2)
        column.addWidget(self.note)
        column.addLayout(self._grid)
        column.addStretch(1)
        self.rows[0].setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._lay_out(3)

    @property
    def rows(self) -> list[AnswerRow]:
        """All rows in reading order, also those that show nothing."""
        return [row for group in self.groups for row in group.rows]

    def set_count(self, count: int) -> None:
        """How many answers a group shows."""
        if count != self._count:
            self._count = count
            self._show()

    def set_told(self, told: bool) -> None:
        """Say what each answer means below it, the groups below each other."""
        if told != self._told:
            self._told = told
            for row in self.rows:
                row.set_told(told)
            self._grid.setVerticalSpacing(14 if told else 8)
            self._lay_out(self._columns_in(self.width()))

    def set_groups(
        self, groups: tuple[AnswerGroup, ...], state: State, note: str | None = None
    ) -> None:
        """Show answers; a note says what they hold for, where that is not the beginning."""
        self._found = groups, state
        self.note.setText("" if note is None else tr(note))
        self.note.setVisible(note is not None)
        self._show()

    def set_pending(self) -> None:
        """What is on show is of an earlier design; the answers for this one are on their way."""
        for row in self.rows:
            if not row.isHidden():
                row.number.set_pending()

    def _show(self) -> None:
        if self._found is not None:
            groups, state = self._found
            for part, group in zip(self.groups, groups, strict=True):
                part.show_group(group, state, self._count)
            self.changed.emit()

    def height_at(self, width: int) -> int:
        """Height of the note and of all groups; fewer side by side are higher. [px]"""
        columns = self._columns_in(width)
        each = TOLD if self._told else ROW
        high = [
            ROW + each * sum(not row.isHidden() for row in group.rows) for group in self.groups
        ]
        rows = [max(high[i : i + columns]) for i in range(0, 3, columns)]
        note = 0 if self.note.isHidden() else self.note.heightForWidth(width - 22) + 2
        return 18 + note + sum(rows) + self._grid.verticalSpacing() * (len(rows) - 1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """As many groups beside each other as there is room for."""
        super().resizeEvent(event)
        self._lay_out(self._columns_in(self.width()))

    def _columns_in(self, width: int) -> int:
        return 1 if self._told or width < _TWO else 3 if width >= _THREE else 2

    def _lay_out(self, columns: int) -> None:
        if columns == self._columns:
            return
        self._columns = columns
        for index, group in enumerate(self.groups):
            self._grid.removeWidget(group)
            where = Qt.AlignmentFlag.AlignTop
            self._grid.addWidget(group, index // columns, index % columns, where)
        for index in range(3):
            self._grid.setColumnStretch(index, 1 if index < columns else 0)
            self._grid.setColumnMinimumWidth(index, 0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down walk the answers."""
        step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()))
        shown = [row for row in self.rows if not row.isHidden()]
        at = next((i for i, row in enumerate(shown) if row.hasFocus()), None)
        if step is None or at is None:
            super().keyPressEvent(event)
            return
        self._go_to(shown[min(max(at + step, 0), len(shown) - 1)])

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A click on an answer gives it the keyboard."""
        super().mousePressEvent(event)
        row = self.focusWidget()
        if isinstance(row, AnswerRow):
            self._go_to(row)

    def _go_to(self, row: AnswerRow) -> None:
        for other in self.rows:
            policy = Qt.FocusPolicy.StrongFocus if other is row else Qt.FocusPolicy.ClickFocus
            other.setFocusPolicy(policy)
        row.setFocus(Qt.FocusReason.TabFocusReason)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the card, and a hairline between groups that stand side by side."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setPen(QPen(tokens_of(self.palette()).color("line"), 1.0))
        for group in self.groups[1 : self._columns]:
            x = group.x() - self._grid.horizontalSpacing() // 2 + 4
            painter.drawLine(x, group.y() + 4, x, group.geometry().bottom() - 2)
        painter.end()


def _split(value: str) -> tuple[str, str]:
    """A value apart from its unit; words and ratios have none."""
    shown = tr(value)
    number, _, unit = shown.rpartition(" ")
    is_unit = number and number[-1].isdigit() and len(unit) <= 3 and not unit[:1].isdigit()
    return (number, unit) if is_unit else (shown, "")
