"""Text fields and choices with an outline that shows in every theme."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QLineEdit,
    QSizePolicy,
    QStyle,
    QStyleOptionButton,
    QStyleOptionComboBox,
    QStylePainter,
    QWidget,
)

from explorer.state.theme import tokens_of
from explorer.widgets.paint import focus_pen

HEIGHT = 26


class UndoingLine(QLineEdit):
    """A line of text that keeps the keys of undo and redo only while somebody types in it."""

    def event(self, event: QEvent) -> bool:
        """Leave undo and redo to the window once what was typed is taken over."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and not self.isModified()
            and (
                event.matches(QKeySequence.StandardKey.Undo)
                or event.matches(QKeySequence.StandardKey.Redo)
            )
        ):
            event.ignore()
            return False
        return super().event(event)


class Field(UndoingLine):
    """A line of text with an outline."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._at_fault = False
        self.setFrame(False)
        self.setMinimumHeight(HEIGHT)
        self.setTextMargins(4, 0, 4, 0)

    @property
    def at_fault(self) -> bool:
        """Whether it holds a text that was not taken."""
        return self._at_fault

    def set_at_fault(self, at_fault: bool) -> None:
        """Mark what stands here as not taken, or take the mark away."""
        self._at_fault = at_fault
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the text, then the outline over its edge."""
        super().paintEvent(event)
        paint_outline(self, at_fault=self._at_fault)


class CalmComboBox(QComboBox):
    """A combo box that the wheel changes only where the focus is."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumHeight(HEIGHT)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(8)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Scroll past unless focused."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the choice, shortened with a mark where it is too long, and an outline."""
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        control = QStyle.ComplexControl.CC_ComboBox
        field = self.style().subControlRect(
            control, option, QStyle.SubControl.SC_ComboBoxEditField, self
        )
        option.currentText = self.fontMetrics().elidedText(
            self.currentText(), Qt.TextElideMode.ElideRight, field.width() - 4
        )
        painter = QStylePainter(self)
        painter.drawComplexControl(control, option)
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)
        painter.end()
        paint_outline(self)


class OutlinedCheckBox(QCheckBox):
    """A check box whose box shows on any ground; the style's own is black on black in one theme."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint box and text, the outline over the box's edge, and a ring with the focus."""
        super().paintEvent(event)
        option = QStyleOptionButton()
        self.initStyleOption(option)
        box = self.style().subElementRect(
            QStyle.SubElement.SE_CheckBoxIndicator, option, self
        )
        painter = QPainter(self)
        painter.setPen(QPen(tokens_of(self.palette()).color("edge"), 1.0))
        painter.drawRect(QRectF(box).adjusted(0.5, 0.5, -0.5, -0.5))
        if self.hasFocus():
            painter.setPen(focus_pen(tokens_of(self.palette())))
            painter.drawRect(QRectF(self.rect()).adjusted(1.0, 1.0, -1.0, -1.0))
        painter.end()


def paint_outline(widget: QWidget, *, at_fault: bool = False) -> None:
    """An outline with three to one against its ground, two pixels wide with the focus.

    One in the colour of a fault, of two pixels, where what stands inside was not taken.
    """
    tokens = tokens_of(widget.palette())
    painter = QPainter(widget)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    focused = widget.hasFocus()
    thin = QPen(tokens.color("edge"), 1.0)
    painter.setPen(
        QPen(tokens.color("falls_short"), 2.0) if at_fault
        else focus_pen(tokens) if focused else thin
    )
    inset = 1.0 if focused or at_fault else 0.5
    painter.drawRoundedRect(QRectF(widget.rect()).adjusted(inset, inset, -inset, -inset), 4, 4)
    painter.end()
