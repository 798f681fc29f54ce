"""The budget as bars, one below the other, each beginning where the one before ended."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QAccessible, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import Text
from explorer.widgets.buttons import pressed_by_enter
from explorer.widgets.paint import focus_pen, mix
from explorer.words.drawers import BudgetLine

_HEIGHT = 25
_LABEL_SHARE, _MOST_SHARE, _WIDEST_LABEL = 0.42, 0.55, 320
"""Of a row its label has the first share, up to the second where one of them needs it."""
_VALUE, _SHARE = 60, 62


class BudgetRow(QAbstractButton):
    """One end of the energy; a press goes to what governs it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line: BudgetLine | None = None
        self.longest = 0
        """Width of the longest label of all rows. [px]"""
        self.setAccessibleName(tr("Working it out…"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def set_line(self, line: BudgetLine) -> None:
        """Show one row."""
        if line != self.line:
            self.line = line
            self.setAccessibleName(tr(line.spoken))
            tip = tr(
                "{label}: {value}, {share}. Click to change it",
                label=line.label, value=line.value, share=line.share,
            )  # fmt: skip
            self.setToolTip(tip)
            self.update()

    @property
    def label_width(self) -> float:
        """Where the bar begins. [px]"""
        usual = min(self.width() * _LABEL_SHARE, _WIDEST_LABEL)
        return max(usual, min(self.longest + 21.0, self.width() * _MOST_SHARE))

    def shown_label(self) -> str:
        """The label, shortened where there is no room for all of it."""
        assert self.line is not None
        return _metrics(self.line).elidedText(
            _label(self.line), Qt.TextElideMode.ElideRight, int(self.label_width) - 20
        )

    def sizeHint(self) -> QSize:
        """One line."""
        return QSize(420, _HEIGHT)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses it too."""
        if not pressed_by_enter(self, event):
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint label, bar, value and share."""
        line = self.line
        if line is None:
            return
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        frame = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        if self.underMouse() or self.isDown():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(tokens.color("paper"))
            painter.drawRoundedRect(frame, 5, 5)
        align = Qt.AlignmentFlag
        label_width = self.label_width
        text = QRectF(8, 0, label_width - 20, self.height())
        painter.setFont(theme.font("body", bold=line.useful))
        painter.setPen(tokens.color("ink"))
        painter.drawText(text, align.AlignVCenter | align.AlignLeft, self.shown_label())
        right = self.width() - 8.0
        share = QRectF(right - _SHARE, 0, _SHARE, self.height())
        value = QRectF(right - _SHARE - _VALUE, 0, _VALUE, self.height())
        painter.drawText(share, align.AlignVCenter | align.AlignRight, tr(line.share))
        painter.setFont(theme.font("body"))
        painter.setPen(tokens.color("soft"))
        painter.drawText(value, align.AlignVCenter | align.AlignRight, tr(line.value))
        track = QRectF(label_width, 0, value.left() - label_width - 4, self.height())
        self._paint_bar(painter, track, line)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(frame, 5, 5)
        painter.end()

    def _paint_bar(self, painter: QPainter, track: QRectF, line: BudgetLine) -> None:
        tokens = tokens_of(self.palette())
        painter.setPen(Qt.PenStyle.NoPen)
        # What is still on its way when this row begins, as a faint ground.
        rest = track.adjusted(track.width() * line.start, 6, 0, -6)
        painter.setBrush(mix(tokens.color("line"), tokens.color("card"), 0.45))
        painter.drawRect(rest)
        width = max(track.width() * line.length, 2.0)
        left = min(rest.left(), track.right() - width)
        bar = QRectF(left, track.top() + 5, width, track.height() - 10)
        painter.setBrush(tokens.color("runs" if line.useful else "threshold"))
        painter.drawRoundedRect(bar, 2, 2)
        if line.useful and width > 6:  # not by colour alone: work has a light core
            painter.setPen(QPen(tokens.color("card"), 2.0))
            middle = bar.center().y()
            painter.drawLine(QLineF(bar.left() + 3, middle, bar.right() - 3, middle))


def _label(line: BudgetLine) -> str:
    """Where the energy ends, in the language on show; names of operations are the person's own."""
    return tr(line.label) if isinstance(line.label, Text) else line.label


def _metrics(line: BudgetLine) -> QFontMetrics:
    return QFontMetrics(theme.font("body", bold=line.useful))


class BudgetBars(QWidget):
    """All rows; up and down walk them."""

    spoken_role = QAccessible.Role.Graphic

    chosen = Signal(str)
    """Carries the path of the knob that governs the pressed row."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: list[BudgetRow] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(0)
        self._layout.addStretch(1)
        self.setAccessibleName(tr("Energy by where it ends"))
        self._add()
        self.rows[0].setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def set_lines(self, lines: tuple[BudgetLine, ...]) -> None:
        """Show other rows; they are built once and afterwards only written to."""
        while len(self.rows) < len(lines):
            self._add()
        longest = max((_metrics(line).horizontalAdvance(_label(line)) for line in lines), default=0)
        for index, row in enumerate(self.rows):
            row.longest = longest
            if index < len(lines):
                row.set_line(lines[index])
            row.setVisible(index < len(lines))

    def _add(self) -> None:
        row = BudgetRow(self)
        row.clicked.connect(self._on_clicked)
        self._layout.insertWidget(len(self.rows), row)
        self.rows.append(row)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk the rows; the first one alone is a stop of the Tab key."""
        step = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()))
        shown = [row for row in self.rows if not row.isHidden()]
        at = next((i for i, row in enumerate(shown) if row.hasFocus()), None)
        if step is None or at is None:
            super().keyPressEvent(event)
            return
        shown[min(max(at + step, 0), len(shown) - 1)].setFocus()

    def _on_clicked(self) -> None:
        row = self.sender()
        assert isinstance(row, BudgetRow)
        if row.line is not None:
            self.chosen.emit(row.line.path)
