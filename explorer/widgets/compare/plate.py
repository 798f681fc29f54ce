"""The name plates above the comparison: each design with its verdict and its line on the trace."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.advice.assess import Assessment
from explorer.advice.verdict import Verdict
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.paint import paint_filling, paint_hazard
from explorer.widgets.plain import plain_tip

_HEIGHT, _SIGN = 46, 22


class Plate(QWidget):
    """One design: verdict by shape, colour and word, whose it is, and how its curve is drawn."""

    spoken_role = QAccessible.Role.StaticText

    def __init__(self, *, dashed: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._dashed = dashed
        self._whose, self._title = "", ""
        self._verdict: Verdict | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Two lines of text."""
        return QSize(260, _HEIGHT)

    def show_design(self, whose: str, title: str, assessment: Assessment | None) -> None:
        """Show a design; without an assessment its verdict is still to come."""
        self._whose = whose
        self._title = title or tr("Untitled")
        self._verdict = None if assessment is None else assessment.verdict
        self.setAccessibleName(f"{self._whose}: {self._title}, {self._word()}")
        self.setToolTip(plain_tip(self.accessibleName()))
        self.update()

    def _word(self) -> str:
        if self._verdict is None:
            return tr("working…")
        hazards = [tr("Hazard: {title}", title=h.title) for h in self._verdict.hazards]
        return ". ".join([tr(self._verdict.word), *hazards])

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint sign, word, title and the stroke of the curve."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = self.height() / 2
        x = 2.0
        if self._verdict is not None:
            sign = QRectF(x, middle - _SIGN / 2, _SIGN, _SIGN)
            paint_filling(painter, sign, self._verdict.state, tokens)
        x += _SIGN + 10
        word = "…" if self._verdict is None else tr(self._verdict.word)
        font = theme.font("heading", bold=True)
        painter.setFont(font)
        painter.setPen(tokens.color("ink"))
        width = QFontMetrics(font).horizontalAdvance(word)
        painter.drawText(QRectF(x, 0, width + 2, self.height()), _MIDDLE, word)
        x += width + 12
        if self._verdict is not None and self._verdict.hazards:
            paint_hazard(painter, QRectF(x, middle - 9, 19, 18), tokens)
            x += 28
        small = theme.font("small")
        painter.setFont(small)
        painter.setPen(tokens.color("soft"))
        metrics = QFontMetrics(small)
        room = max(int(self.width() - x - 44), 0)
        whose = metrics.elidedText(self._whose, Qt.TextElideMode.ElideRight, room)
        painter.drawText(QRectF(x, 3, room + 2, 20), _MIDDLE, whose)
        stroke = QPen(tokens.color("ghost" if self._dashed else "accent"), 2.0)
        if self._dashed:
            stroke.setDashPattern([3, 2])
        end = x + metrics.horizontalAdvance(whose) + 8
        painter.setPen(stroke)
        painter.drawLine(QPointF(end, 13.5), QPointF(end + 26, 13.5))
        body = theme.font("body", bold=True)
        painter.setFont(body)
        painter.setPen(tokens.color("ink"))
        room = max(int(self.width() - x - 4), 0)
        title = QFontMetrics(body).elidedText(self._title, Qt.TextElideMode.ElideRight, room)
        painter.drawText(QRectF(x, 21, room + 2, 22), _MIDDLE, title)
        painter.end()


_MIDDLE = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
