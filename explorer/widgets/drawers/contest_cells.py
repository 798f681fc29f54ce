"""How the cells of the contest are painted: outcomes as fillings, traces as small curves."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from explorer.advice.contest import Curve, Entry
from explorer.state import theme
from explorer.state.theme import Tokens, tokens_of
from explorer.widgets.drawers.contest_model import ENTRY_ROLE, STALE_ROLE
from explorer.widgets.paint import focus_pen, mix, paint_filling, paint_hazard
from explorer.widgets.pending import paint_bar
from explorer.words.contest import CONTEST_COLUMNS

ROW_HEIGHT = 30
_PAD, _LEAST_WORD = 8, 30
_KEEP = 64
Index = QModelIndex | QPersistentModelIndex


class ContestCells(QStyledItemDelegate):
    """Paints every cell in the tokens of the theme; curves are kept as pictures."""

    def __init__(self, parent: QObject | None = None, *, keep_curves: bool = True) -> None:
        super().__init__(parent)
        self._keep_curves = keep_curves
        self._fonts = {bold: theme.font("body", bold=bold) for bold in (False, True)}
        self._curves: dict[tuple[int, int, int, str, float], QPixmap] = {}

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Room for the text."""
        key = CONTEST_COLUMNS[index.column()][0]
        metrics = QFontMetrics(self._fonts[key == "verdict"])
        width = metrics.horizontalAdvance(str(index.data())) + 2 * _PAD + 2
        if key == "verdict":
            width += 22
        elif key == "trace":
            width = 104
        entry: Entry = index.data(ENTRY_ROLE)
        if key == "cautions":
            width = min(width, 420) + (22 if _hazards(entry) else 0)
        return QSize(width, ROW_HEIGHT)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one cell."""
        rect = option.rect
        state = option.state
        tokens = tokens_of(option.palette)
        key = CONTEST_COLUMNS[index.column()][0]
        entry: Entry = index.data(ENTRY_ROLE)
        stale = bool(index.data(STALE_ROLE))
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        selected = bool(state & QStyle.StateFlag.State_Selected)
        if selected:
            painter.fillRect(rect, mix(tokens.color("accent"), tokens.color("card"), 0.16))
        painter.setPen(QPen(tokens.color("line"), 1.0))
        y = rect.bottom() + 0.5
        painter.drawLine(QPointF(rect.left(), y), QPointF(rect.right() + 1, y))
        inside = QRectF(rect).adjusted(_PAD, 0, -_PAD, 0)
        if stale and key != "store":
            paint_bar(painter, inside.adjusted(0, 0, -inside.width() / 3, 0), tokens)
        elif key == "trace" and entry.curve is not None:
            self._paint_curve(painter, inside.adjusted(0, 3, 0, -3), entry, tokens)
        else:
            if key == "verdict" and entry.verdict is not None:
                dot = QRectF(inside.left(), inside.center().y() - 6.5, 13, 13)
                paint_filling(painter, dot, entry.verdict.state, tokens)
                inside.setLeft(inside.left() + 20)
            if key == "cautions" and _hazards(entry):
                sign = QRectF(inside.left(), inside.center().y() - 8, 17, 16)
                paint_hazard(painter, sign, tokens)
                inside.setLeft(inside.left() + 24)
            painter.setFont(self._fonts[key == "verdict"])
            unsuited = entry.verdict is None
            painter.setPen(tokens.color("soft" if stale or unsuited else "ink"))
            is_mark = key == "verdict" and inside.width() < _LEAST_WORD
            text = "" if is_mark else painter.fontMetrics().elidedText(
                str(index.data()), Qt.TextElideMode.ElideRight, int(inside.width()) + 1
            )
            align = Qt.AlignmentFlag(index.data(Qt.ItemDataRole.TextAlignmentRole))
            painter.drawText(inside, align, text)
        if selected and state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(rect).adjusted(1, 1, -1, -2))
        painter.restore()

    def _paint_curve(
        self, painter: QPainter, area: QRectF, entry: Entry, tokens: Tokens
    ) -> None:
        assert entry.curve is not None
        assert entry.scenario is not None
        full = entry.scenario.charger.full_V
        off = entry.scenario.load.disconnect_V
        if not self._keep_curves:
            paint_curve(painter, area, entry.curve, full, off, tokens)
            return
        ratio = painter.device().devicePixelRatioF()
        key = (id(entry), int(area.width()), int(area.height()), tokens.name, ratio)
        if key not in self._curves:
            if len(self._curves) > _KEEP:
                self._curves.clear()
            picture = QPixmap(int(area.width() * ratio), int(area.height() * ratio))
            picture.setDevicePixelRatio(ratio)
            picture.fill(Qt.GlobalColor.transparent)
            inner = QPainter(picture)
            inner.setRenderHint(QPainter.RenderHint.Antialiasing)
            size = QRectF(0, 0, int(area.width()), int(area.height()))
            paint_curve(inner, size, entry.curve, full, off, tokens)
            inner.end()
            self._curves[key] = picture
        painter.drawPixmap(area.topLeft(), self._curves[key])


def _hazards(entry: Entry) -> bool:
    return entry.verdict is not None and bool(entry.verdict.hazards)


def paint_curve(
    painter: QPainter, area: QRectF, curve: Curve, full_v: float, off_v: float, tokens: Tokens
) -> None:
    """Store voltage from zero to the full threshold, with the cut-off as a dashed line."""
    top = max(full_v, curve.highest_v, 0.1) * 1.04
    time_s, volts = curve.picture.line(top / max(area.height(), 1.0))
    drawn = np.isfinite(volts)
    x = area.left() + time_s[drawn] / max(curve.span_s, 1e-9) * area.width()
    y = area.bottom() - np.clip(volts[drawn] / top, 0.0, 1.0) * area.height()
    dashes = QPen(tokens.color("threshold"), 1.0, Qt.PenStyle.CustomDashLine)
    dashes.setDashPattern([3, 3])
    painter.setPen(dashes)
    level = area.bottom() - off_v / top * area.height()
    painter.drawLine(QPointF(area.left(), level), QPointF(area.right(), level))
    points = [QPointF(a, b) for a, b in zip(x.tolist(), y.tolist(), strict=True)]
    ground = QPolygonF([*points, area.bottomRight(), area.bottomLeft()])
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(mix(tokens.color("envelope"), tokens.color("card"), 0.55))
    painter.drawPolygon(ground)
    painter.setPen(QPen(tokens.color("accent"), 1.25))
    painter.drawPolyline(QPolygonF(points))
