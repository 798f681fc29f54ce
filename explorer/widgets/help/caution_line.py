"""One line beside a choice that can hurt someone; a press shows the cautions in full."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from explorer.advice.cautions import Caution, Where, cautions
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import joined
from explorer.widgets.buttons import pressed_by_enter
from explorer.widgets.paint import focus_pen, paint_hazard


class CautionLine(QAbstractButton):
    """Names the cautions of one part of the scenario; hidden where there is none.

    Parameters
    ----------
    document : Document
        What is judged.
    where : str
        Part of the scenario: ``store``, ``load``, ``panel`` or ``charger``.
    """

    wanted = Signal(object)
    """Carries the tuple of `Caution`."""

    def __init__(self, document: Document, where: Where, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._where = document, where
        self.found: tuple[Caution, ...] | None = None
        """What it calls for; None before it was first looked for."""
        self.setObjectName(f"cautions_{where}")
        self.setFont(theme.font("small"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.clicked.connect(self._on_clicked)
        document.changed.connect(self._on_changed)
        self.refresh()

    def refresh(self) -> None:
        """Show what the document calls for."""
        found = tuple(c for c in cautions(self._document.scenario) if c.where == self._where)
        if found == self.found:
            return
        self.found = found
        titles = [c.title for c in found]
        listed = joined(", ", [*titles[:1], *(t.lower() for t in titles[1:])])
        self.setText(tr("Caution: {titles}", titles=listed) if found else "")
        self.setAccessibleName(tr("{text}. Press to read.", text=self.text()) if found else "")
        self.setToolTip(tr("Read the cautions in full"))
        if self.parentWidget() is not None:  # else it would open a window of its own
            self.setVisible(bool(found))
        elif not found:
            self.hide()
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """A line or two of small text."""
        return QSize(200, self.heightForWidth(260))

    def minimumSizeHint(self) -> QSize:
        """It wraps to any width of the column."""
        return QSize(120, 28)

    def hasHeightForWidth(self) -> bool:
        """Its text wraps."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Height of the wrapped text."""
        flags = int(Qt.TextFlag.TextWordWrap.value)
        room = self.fontMetrics().boundingRect(0, 0, max(width - 38, 60), 1000, flags, self.text())
        return max(28, room.height() + 10)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses it too."""
        if not pressed_by_enter(self, event):
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint triangle and words."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        frame = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        if self.underMouse() or self.isDown():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(tokens.color("paper"))
            painter.drawRoundedRect(frame, 5, 5)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(frame, 5, 5)
        paint_hazard(painter, QRectF(5, 6, 18, 16), tokens)
        painter.setPen(tokens.color("ink"))
        font = painter.font()
        font.setUnderline(self.underMouse())
        painter.setFont(font)
        painter.drawText(
            self.rect().adjusted(30, 5, -8, -5),
            int(Qt.AlignmentFlag.AlignVCenter.value) | int(Qt.TextFlag.TextWordWrap.value),
            self.text(),
        )
        painter.end()

    def _on_clicked(self) -> None:
        self.wanted.emit(self.found)

    def _on_changed(self, _: object) -> None:
        self.refresh()
