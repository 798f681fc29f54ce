"""A small celebration: a banner and a burst of shapes over the picture; it holds no hand up."""

from __future__ import annotations

import math

from PySide6.QtCore import QEasingCurve, QPointF, QRectF, Qt, QTimer, QVariantAnimation
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from explorer.stand.big_button import star
from explorer.stand.fit_label import sized_font
from explorer.stand.legibility import Sizes
from explorer.state.language import tr
from explorer.state.theme import tokens_of

BURST_MS = 1400
SHOWN_MS = 4000
_RAYS = 18


class Celebration(QWidget):
    """Says what was won; the burst only where motion is welcome.

    Word and star tell it without any colour; nothing flashes.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.text = ""
        self._px = 48.0
        self._burst = QVariantAnimation(self)
        self._burst.setDuration(BURST_MS)
        self._burst.setStartValue(0.0)
        self._burst.setEndValue(1.0)
        self._burst.setEasingCurve(QEasingCurve.Type.OutCubic)
        self._burst.valueChanged.connect(self._on_value)
        self._end = QTimer(self)
        self._end.setSingleShot(True)
        self._end.setInterval(SHOWN_MS)
        self._end.timeout.connect(self.end)
        self.hide()

    @property
    def moves(self) -> bool:
        """Whether shapes are under way."""
        return self._burst.state() == QVariantAnimation.State.Running

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._px = max(sizes.caption, sizes.near * 1.6)

    def begin(self, text: str, *, with_motion: bool) -> None:
        """Show what was won, and say it."""
        self.text = tr(text)
        self.setAccessibleName(self.text)
        self._burst.stop()
        if with_motion:
            self._burst.start()
        self._end.start()
        self.show()
        self.raise_()
        self.update()
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, self.text))

    def end(self) -> None:
        """Take it away."""
        self._burst.stop()
        self._end.stop()
        self.hide()

    def _on_value(self, _: object) -> None:
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint shapes and banner."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        px = self._px
        painter.setFont(sized_font(px, bold=True))
        metrics = painter.fontMetrics()
        badge = 1.9 * px
        while px > 14 and metrics.horizontalAdvance(self.text) + badge + 2 * px > self.width():
            px *= 0.94
            badge = 1.9 * px
            painter.setFont(sized_font(px, bold=True))
            metrics = painter.fontMetrics()
        wide = metrics.horizontalAdvance(self.text) + badge + 2 * px
        middle = QPointF(self.width() / 2, self.height() * 0.6)
        banner = QRectF(middle.x() - wide / 2, middle.y() - 1.3 * px, wide, 2.6 * px)
        share = float(self._burst.currentValue()) if self.moves else 1.0
        reach = QPointF(self.width() * 0.46, self.height() * 0.42)
        pen = QPen(tokens.color("ink"), max(2.0, px * 0.05))
        for k in range(_RAYS):
            angle = 2 * math.pi * (k + 0.5 * (k % 2)) / _RAYS
            out = share * (0.72 + 0.28 * ((7 * k) % 5) / 4)
            at = middle + QPointF(
                math.cos(angle) * reach.x() * out, math.sin(angle) * reach.y() * out
            )
            size = px * (0.34 + 0.14 * (k % 3))
            painter.setPen(pen)
            painter.setBrush(tokens.color(("hazard", "accent", "card", "runs")[k % 4]))
            if k % 2:
                painter.drawPolygon(star(at, size, turn=2.0 * share * (k % 5)))
            else:
                painter.drawEllipse(at, size * 0.6, size * 0.6)
        painter.setPen(QPen(tokens.color("ink"), max(3.0, px * 0.07)))
        painter.setBrush(tokens.color("card"))
        painter.drawRoundedRect(banner, px * 0.5, px * 0.5)
        painter.setBrush(tokens.color("hazard"))
        spot = QPointF(banner.left() + 0.5 * px + badge / 2, middle.y())
        painter.drawPolygon(star(spot, badge * 0.5))
        painter.setPen(tokens.color("ink"))
        rest = banner.adjusted(badge + px, 0, 0, 0)
        left = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        painter.drawText(rest, int(left.value), self.text)
        painter.end()
