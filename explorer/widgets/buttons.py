"""The buttons of the window: rounded, flat or outlined, filled when they are the chosen one."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QIcon, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QToolButton, QWidget

from explorer.state.theme import tokens_of
from explorer.widgets.icons import icon
from explorer.widgets.paint import focus_pen

_RADIUS = 6.0
_PAD, _FLAT_PAD, _GAP = 9, 6, 6


class PillButton(QToolButton):
    """A tool button that paints itself in the tokens of the theme.

    Parameters
    ----------
    outlined : bool
        Whether it has an outline at rest; flat ones show their ground under the pointer only.
    fills : bool
        Whether being checked fills it; a heading that opens something does not fill.
    pad : int, optional
        Least room at each side of its text, where the usual one is too much. [px]
    """

    def __init__(
        self,
        *,
        outlined: bool = True,
        fills: bool = True,
        pad: int | None = None,
        parent: QWidget | None = None,
    ) -> None:
        self._drawn = ""
        super().__init__(parent)
        self._outlined, self._fills = outlined, fills
        self._pad = (_PAD if outlined else _FLAT_PAD) if pad is None else pad
        self._centred = True
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setIconSize(QSize(16, 16))

    def show_icon(self, name: str) -> None:
        """Show one of the drawn icons, in every theme in its colours."""
        self._drawn = name
        self.setIcon(icon(name, self.palette()))

    def changeEvent(self, event: QEvent) -> None:
        """Draw the icon in the colours of a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and self._drawn:
            self.setIcon(icon(self._drawn, self.palette()))

    def align_left(self) -> None:
        """Begin at the left, as a heading does, and take all the width."""
        self._centred = False
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Icon, text and their margins."""
        width = 2 * self._pad + self.fontMetrics().horizontalAdvance(self._text())
        if self._shows_icon():
            width += self.iconSize().width() + (_GAP if self._text() else 0)
        smallest = self.minimumSize()
        return QSize(max(width, smallest.width()), max(26, smallest.height()))

    def minimumSizeHint(self) -> QSize:
        """Its text is never cut."""
        return self.sizeHint()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses it too."""
        if not pressed_by_enter(self, event):
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground, focus ring, icon and text."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        frame = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        filled = self._fills and self.isChecked()
        ground = "card" if self._outlined else None
        if filled:
            ground = "accent"
        elif self.isEnabled() and (self.isDown() or self.underMouse()):
            ground = "line" if self.isDown() else "paper"
        painter.setPen(Qt.PenStyle.NoPen)
        if self._outlined and not filled:
            painter.setPen(QPen(tokens.color("edge" if self.isEnabled() else "line"), 1.0))
        painter.setBrush(tokens.color(ground) if ground else Qt.BrushStyle.NoBrush)
        if ground or self._outlined:
            painter.drawRoundedRect(frame.adjusted(0.5, 0.5, -0.5, -0.5), _RADIUS, _RADIUS)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(frame, _RADIUS, _RADIUS)
            if filled:
                painter.setPen(QPen(tokens.color("on_accent"), 1.0))
                painter.drawRoundedRect(frame.adjusted(2, 2, -2, -2), _RADIUS - 2, _RADIUS - 2)
        self._paint_content(painter, "on_accent" if filled else "ink")
        painter.end()

    def _paint_content(self, painter: QPainter, role: str) -> None:
        tokens, text = tokens_of(self.palette()), self._text()
        metrics = self.fontMetrics()
        icon_width = self.iconSize().width() if self._shows_icon() else 0
        text_width = metrics.horizontalAdvance(text)
        gap = _GAP if text and icon_width else 0
        x = (self.width() - icon_width - gap - text_width) // 2 if self._centred else 2
        if icon_width:
            size = self.iconSize()
            mode = QIcon.Mode.Normal if self.isEnabled() else QIcon.Mode.Disabled
            if role == "on_accent":
                mode = QIcon.Mode.Selected
            where = QRect(x, (self.height() - size.height()) // 2, size.width(), size.height())
            self.icon().paint(painter, where, Qt.AlignmentFlag.AlignCenter, mode)
        painter.setPen(tokens.color(role if self.isEnabled() else "ghost"))
        inside = QRect(x + icon_width + gap, 0, self.width(), self.height())
        painter.drawText(
            inside,
            Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft,
            text,
        )

    def _text(self) -> str:
        icon_only = self.toolButtonStyle() == Qt.ToolButtonStyle.ToolButtonIconOnly
        if icon_only and not self.icon().isNull():
            return ""
        return self.text().replace("&", "")

    def _shows_icon(self) -> bool:
        return not self.icon().isNull() and (
            self.toolButtonStyle() != Qt.ToolButtonStyle.ToolButtonTextOnly
        )


def pressed_by_enter(button: QAbstractButton, event: QKeyEvent) -> bool:
    """Whether a key is Enter, which presses a button on every desktop; one that is held, once."""
    if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
        return False
    if not event.isAutoRepeat():
        button.click()
    return True


def pill(text: str, tip: str) -> PillButton:
    """An outlined button with a tip, reached with Tab; both texts are already translated."""
    button = PillButton()
    button.setText(text)
    button.setToolTip(tip)
    button.setAccessibleName(text.rstrip("…"))
    button.setAccessibleDescription(tip)
    button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    return button


def dialog_foot(fault: QWidget, *buttons: QWidget) -> QHBoxLayout:
    """The last row of a dialog: what is wrong at the left, its buttons at the right."""
    foot = QHBoxLayout()
    foot.addWidget(fault, 1)
    foot.addStretch(1)
    for button in buttons:
        foot.addWidget(button)
    return foot
