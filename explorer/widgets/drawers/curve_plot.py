"""What the small plots of curves share: their size, their font, axes from zero and round ticks."""

from __future__ import annotations

from typing import Generic, TypeVar

import numpy as np
from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QAccessible, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.state import theme
from explorer.state.theme import Tokens, tokens_of

CurveT = TypeVar("CurveT")
HEADROOM = 1.12
"""Height of an axis over the highest value on it."""


def ticks(top: float, about: int = 4) -> list[float]:
    """Round values from zero to a top, evenly spaced."""
    if top <= 0:
        return [0.0]
    raw = top / about
    power = 10.0 ** np.floor(np.log10(raw))
    step = next(m * power for m in (1.0, 2.0, 5.0, 10.0) if m * power >= raw * 0.999)
    return [float(i * step) for i in range(int(top / step + 1e-9) + 1)]


def paint_frame(painter: QPainter, area: QRectF, tokens: Tokens) -> None:
    """The axes below and at the left of an area."""
    painter.setPen(QPen(tokens.color("line"), 1.0))
    painter.drawLine(area.bottomLeft(), area.bottomRight())
    painter.drawLine(area.topLeft(), area.bottomLeft())


class CurvePlot(QWidget, Generic[CurveT]):
    """Paints what it was given last; empty until then.

    Parameters
    ----------
    name : str
        What a screen reader calls it, already translated.
    """

    spoken_role = QAccessible.Role.Graphic

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._curve: CurveT | None = None
        self.setAccessibleName(name)
        self.setMinimumSize(260, 140)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def spoken(self, curve: CurveT) -> str:
        """What a screen reader says of a curve."""
        raise NotImplementedError

    def paint_curve(self, painter: QPainter, curve: CurveT, tokens: Tokens) -> None:
        """Paint axes, curves, points."""
        raise NotImplementedError

    def set_curve(self, curve: CurveT) -> None:
        """Show a curve."""
        self._curve = curve
        self.setAccessibleDescription(self.spoken(curve))
        self.update()

    def sizeHint(self) -> QSize:
        """Room for labels."""
        return QSize(420, 220)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint what there is."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(theme.font("small"))
        if self._curve is not None:
            self.paint_curve(painter, self._curve, tokens_of(self.palette()))
        painter.end()
