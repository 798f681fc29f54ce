"""One big answer of the guide: icon, title and a short line."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QIcon, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QRadioButton, QSizePolicy, QWidget

from explorer.scenario.guide.questions import Choice
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.icons import icon
from explorer.widgets.paint import focus_pen, mix

HEIGHT = 58
_ICON, _LEFT = 26, 52


class ChoiceCard(QRadioButton):
    """A radio button as large as a card; the arrow keys walk through its neighbours."""

    picked = Signal()
    """Chosen for good: by a click or by Enter, not by walking past."""

    def __init__(self, choice: Choice, icon_name: str = "", parent: QWidget | None = None) -> None:
        super().__init__(tr(choice.title), parent)
        self.choice = choice
        self._icon_name = icon_name
        self.setObjectName(f"choice_{choice.key}")
        self.setAccessibleName(self.text())
        self.set_line(tr(choice.line))
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_line(self, line: str) -> None:
        """Say what the choice stands for."""
        self._line = line
        self.setAccessibleDescription(line)
        self.setToolTip(line)
        self.update()

    def sizeHint(self) -> QSize:
        """Two lines of text and their margins."""
        return QSize(240, HEIGHT)

    def minimumSizeHint(self) -> QSize:
        """The lines are cut with dots below this."""
        return QSize(180, HEIGHT)

    def hitButton(self, pos: QPoint) -> bool:
        """The whole card takes the click."""
        return self.rect().contains(pos)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click chooses for good."""
        inside = self.isDown() and self.hitButton(event.position().toPoint())
        super().mouseReleaseEvent(event)
        if inside and event.button() == Qt.MouseButton.LeftButton:
            self.picked.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter chooses for good."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.setChecked(True)
            self.picked.emit()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground, mark, icon and the two lines."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        frame = QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5)
        chosen = self.isChecked()
        ground = tokens.color("card")
        if chosen:
            ground = mix(tokens.color("accent"), ground, 0.1)
        elif self.isDown() or self.underMouse():
            ground = tokens.color("paper")
        painter.setBrush(ground)
        painter.setPen(QPen(tokens.color("accent" if chosen else "edge"), 2.0 if chosen else 1.0))
        painter.drawRoundedRect(frame, 8, 8)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(focus_pen(tokens))
            painter.drawRoundedRect(frame.adjusted(3, 3, -3, -3), 6, 6)
        self._paint_mark(painter, chosen)
        left = 16
        if self._icon_name:
            left = _LEFT
            where = QRect(14, (self.height() - _ICON) // 2, _ICON, _ICON)
            icon(self._icon_name, self.palette()).paint(
                painter, where, Qt.AlignmentFlag.AlignCenter, QIcon.Mode.Normal
            )
        room = self.rect().adjusted(left, 8, -34, -8)
        self._paint_line(painter, room, self.text(), "body", "ink", bold=True, top=True)
        self._paint_line(painter, room, self._line, "small", "soft", bold=False, top=False)
        painter.end()

    def _paint_mark(self, painter: QPainter, chosen: bool) -> None:
        tokens = tokens_of(self.palette())
        ring = QRectF(self.width() - 30, self.height() / 2 - 8, 16, 16)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(tokens.color("accent" if chosen else "edge"), 1.5))
        painter.drawEllipse(ring)
        if chosen:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(tokens.color("accent"))
            painter.drawEllipse(ring.adjusted(4, 4, -4, -4))

    def _paint_line(
        self, painter: QPainter, room: QRect, text: str, size: str, role: str,
        *, bold: bool, top: bool,
    ) -> None:  # fmt: skip
        painter.setFont(theme.font(size, bold=bold))
        painter.setPen(tokens_of(self.palette()).color(role))
        elided = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, room.width())
        where = Qt.AlignmentFlag.AlignTop if top else Qt.AlignmentFlag.AlignBottom
        painter.drawText(room.adjusted(0, 2, 0, -2), int(where.value), elided)
