"""The picture of a day: the device under its light, and its store as a jar that fills."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen, QPolygonF

from explorer.stand.fit_label import sized_font
from explorer.stand.scenery import NO_PEN, Place, Scenery, color_of
from explorer.state.theme import SCENE, Tokens
from explorer.widgets.paint import mix

MOST_CELLS = 16


class Scene(Scenery):
    """Paints one scenario, its device and its store, at any hour of its day."""

    def paint(self, painter: QPainter, size: QRectF, place: Place, hour: float) -> None:
        """Paint all but the words.

        Parameters
        ----------
        painter : QPainter
            Where to.
        size : QRectF
            The whole page. [px]
        place : Place
            Where its parts are.
        hour : float
            Time of day. [h]
        """
        tokens = self.tokens(hour)
        painter.fillRect(size, self.wall(hour))
        self.paint_window(painter, place.window, hour, tokens)
        self.paint_bench(painter, place, hour, tokens)
        room = place.room
        high = room.height()
        jar_wide = min(high * 0.56, room.width() * 0.2)
        jar_high = min(high * 0.78, jar_wide * 1.5)
        jar = QRectF(
            room.left() + room.width() * 0.56, room.bottom() - jar_high, jar_wide, jar_high
        )
        body = QRectF(
            room.left() + room.width() * 0.14, room.bottom() - high * 0.3,
            min(high * 0.62, room.width() * 0.26), high * 0.3,
        )  # fmt: skip
        panel = self._panel_place(body, high)
        if self.by_lamp:
            self.paint_lamp(painter, room, panel, hour, tokens)
        else:
            self.paint_sunbeam(painter, place.window, panel, hour)
        self.paint_leaves(painter, room, hour)
        self._paint_cable(painter, body, jar, hour, tokens)
        self._paint_device(painter, body, panel, hour, tokens)
        self._paint_jar(painter, jar, hour, tokens)
        self._paint_ribbon(painter, place.ribbon, hour, tokens)

    # --- the device ---

    def _panel_place(self, body: QRectF, high: float) -> QRectF:
        wide = body.width() * 1.16
        return QRectF(body.center().x() - wide / 2, body.top() - high * 0.3, wide, high * 0.26)

    def _paint_device(
        self, painter: QPainter, body: QRectF, panel: QRectF, hour: float, tokens: Tokens
    ) -> None:
        line = max(1.5, body.height() * 0.02)
        post = QRectF(
            body.center().x() - body.width() * 0.05, panel.bottom() - 2, body.width() * 0.1,
            body.top() - panel.bottom() + 4,
        )  # fmt: skip
        self.outline(painter, tokens, line)
        painter.setBrush(self.shade(SCENE.metal, hour))
        painter.drawRect(post)
        painter.setBrush(self.shade(SCENE.pale, hour))
        painter.drawRoundedRect(body, body.height() * 0.12, body.height() * 0.12)
        self._paint_panels(painter, panel, hour, tokens)
        runs = self.day.runs_at(hour)
        lamp = QPointF(body.left() + body.width() * 0.14, body.top() + body.height() * 0.24)
        painter.setBrush(tokens.color("runs") if runs else self.wall(hour))
        painter.drawEllipse(lamp, body.height() * 0.08, body.height() * 0.08)
        self._paint_motif(painter, body, hour, runs)
        if runs:
            self._paint_waves(painter, panel, hour, tokens)

    def _paint_panels(
        self, painter: QPainter, panel: QRectF, hour: float, tokens: Tokens
    ) -> None:
        count = min(self.scenario.panels.count, MOST_CELLS)
        rows = 1 if count <= 4 else 2
        columns = -(-count // rows)
        gap = panel.width() * 0.02
        wide = (panel.width() - gap * (columns + 1)) / columns
        wide = min(wide, panel.height() * 1.3)
        left = panel.center().x() - (columns * (wide + gap) + gap) / 2
        high = (panel.height() - gap * (rows + 1)) / rows
        frame = QRectF(left, panel.top(), columns * (wide + gap) + gap, panel.height())
        self.outline(painter, tokens, 1.5)
        painter.setBrush(self.shade(SCENE.pale, hour))
        painter.drawRoundedRect(frame, gap, gap)
        for k in range(count):
            row, column = divmod(k, columns)
            cell = QRectF(
                left + gap + column * (wide + gap), panel.top() + gap + row * (high + gap),
                wide, high,
            )  # fmt: skip
            painter.setPen(NO_PEN)
            shine = 0.3 * self.day.light_at(hour)
            glint = mix(color_of(SCENE.cell_line), color_of(SCENE.cell), shine)
            painter.setBrush(glint)
            painter.drawRect(cell)
            painter.setPen(QPen(color_of(SCENE.cell_line), 1.0))
            for stripe in range(1, 5):
                x = cell.left() + cell.width() * stripe / 5
                painter.drawLine(QPointF(x, cell.top()), QPointF(x, cell.bottom()))

    def _paint_motif(self, painter: QPainter, body: QRectF, hour: float, runs: bool) -> None:
        """What it does: a dial, or the thing that it moves, turned while it runs."""
        middle = QPointF(body.left() + body.width() * 0.62, body.center().y())
        size = body.height() * 0.3
        pen = QPen(self.shade(SCENE.cell, hour), max(2.5, size * 0.14))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        turn = (hour * 3.0) % 1.0 * 2 * math.pi if runs else 0.0
        if self.scenario.load.actuator == "none":
            painter.drawArc(
                QRectF(middle.x() - size, middle.y() - size, 2 * size, 2 * size), 0, 180 * 16
            )
            angle = math.pi * (0.5 + 0.3 * math.sin(turn))
            tip = QPointF(math.cos(angle) * size * 0.8, -math.sin(angle) * size * 0.8)
            painter.drawLine(middle, middle + tip)
            return
        painter.drawEllipse(middle, size, size)
        for k in range(3):
            angle = turn + 2 * math.pi * k / 3
            painter.drawLine(
                middle, middle + QPointF(math.cos(angle) * size, math.sin(angle) * size)
            )

    def _paint_waves(
        self, painter: QPainter, panel: QRectF, hour: float, tokens: Tokens
    ) -> None:
        """Arcs that go out while it runs; their pace is the picture's, not the device's."""
        beat = (hour * 1.5) % 1.0
        foot = QPointF(panel.right() + panel.width() * 0.04, panel.top() + panel.height() * 0.2)
        pen = QPen(tokens.color("accent"), max(3.0, panel.height() * 0.06))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for k in range(3):
            if beat * 4 < k + 0.5:
                break
            radius = panel.height() * (0.25 + 0.2 * k)
            box = QRectF(foot.x() - radius, foot.y() - radius, 2 * radius, 2 * radius)
            painter.drawArc(box, -10 * 16, 80 * 16)

    def _paint_cable(
        self, painter: QPainter, body: QRectF, jar: QRectF, hour: float, tokens: Tokens
    ) -> None:
        """Cable with arrow heads: to the store while it fills, from it while it empties."""
        begin = QPointF(body.right(), body.top() + body.height() * 0.4)
        end = QPointF(jar.left() + jar.width() * 0.3, jar.top())
        path = QPainterPath(begin)
        path.cubicTo(
            begin + QPointF((end.x() - begin.x()) * 0.5, body.height() * 0.7),
            QPointF(end.x() - jar.width() * 0.5, end.y() - body.height() * 0.1), end,
        )  # fmt: skip
        painter.setPen(QPen(self.shade(SCENE.metal, hour), max(2.5, jar.width() * 0.02)))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)
        rate = self.day.rate_at(hour)
        if abs(rate) < 1e-4:
            return
        painter.setPen(NO_PEN)
        painter.setBrush(tokens.color("accent"))
        size = max(7.0, jar.width() * 0.06)
        shift = (hour * 2.0) % 1.0
        for k in range(5):
            share = (k + (shift if rate > 0 else 1.0 - shift)) / 5
            at, angle = path.pointAtPercent(share), math.radians(-path.angleAtPercent(share))
            if rate < 0:
                angle += math.pi
            along = QPointF(math.cos(angle), math.sin(angle))
            across = QPointF(-along.y(), along.x())
            painter.drawPolygon(QPolygonF([
                at + along * size, at - along * size + across * size * 0.8,
                at - along * size * 0.4, at - along * size - across * size * 0.8,
            ]))  # fmt: skip

    def _paint_jar(self, painter: QPainter, jar: QRectF, hour: float, tokens: Tokens) -> None:
        level = self.day.level_at(hour)
        radius = jar.width() * 0.12
        glass = QPainterPath()
        glass.addRoundedRect(jar, radius, radius)
        painter.setPen(NO_PEN)
        painter.setBrush(tokens.color("card"))
        painter.drawPath(glass)
        painter.save()
        painter.setClipPath(glass)
        top = jar.bottom() - level * jar.height() * 0.94
        painter.fillRect(
            QRectF(jar.left(), top, jar.width(), jar.bottom() - top), tokens.color("accent")
        )
        wave = jar.height() * 0.02
        painter.fillRect(QRectF(jar.left(), top, jar.width(), wave), tokens.color("envelope"))
        painter.restore()
        self.outline(painter, tokens, max(3.0, jar.width() * 0.025))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(glass)
        lid = QRectF(
            jar.left() + jar.width() * 0.14, jar.top() - jar.height() * 0.06, jar.width() * 0.72,
            jar.height() * 0.08,
        )  # fmt: skip
        painter.setBrush(self.shade(SCENE.metal, hour))
        painter.drawRoundedRect(lid, 4, 4)
        px = min(jar.width() * 0.34, jar.height() * 0.3)
        painter.setFont(sized_font(px, bold=True))
        # A full jar has the longest number, which must not reach its glass.
        widest = painter.fontMetrics().horizontalAdvance("100\u2009%")
        px *= min(0.86 * jar.width() / widest, 1.0)
        painter.setFont(sized_font(px, bold=True))
        box = QRectF(jar.left(), jar.bottom() - px * 1.9, jar.width(), px * 1.5)
        under = top < box.center().y() - px * 0.35
        painter.setPen(tokens.color("on_accent" if under else "ink"))
        if not under:
            box.moveBottom(top - px * 0.1)
        centre = int(Qt.AlignmentFlag.AlignCenter.value)
        painter.drawText(box, centre, f"{100 * level:.0f}\u2009%")

    def _paint_ribbon(
        self, painter: QPainter, ribbon: QRectF, hour: float, tokens: Tokens
    ) -> None:
        """The day so far: lit hours, and the level as a line that grows."""
        painter.setPen(NO_PEN)
        painter.setBrush(tokens.color("card"))
        painter.drawRoundedRect(ribbon, 6, 6)
        inner = ribbon.adjusted(ribbon.height() * 0.1, 4, -ribbon.height() * 0.1, -4)
        steps = len(self.day.light) - 1
        step = inner.width() / steps
        lit, card = tokens.color("lit"), tokens.color("card")
        for k in range(steps):
            share = float(self.day.light[k])
            if share > 0.02:
                painter.fillRect(
                    QRectF(inner.left() + k * step, inner.top(), step + 1, inner.height()),
                    mix(lit, card, 0.25 + 0.75 * share),
                )
        now = min(int(hour / 24 * steps), steps)
        points = [
            QPointF(
                inner.left() + k * step,
                inner.bottom() - 4 - float(self.day.level[k]) * (inner.height() - 8),
            )
            for k in range(now + 1)
        ]
        pen = QPen(tokens.color("accent"), max(4.0, ribbon.height() * 0.07))
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(QPolygonF(points))
        painter.setBrush(tokens.color("card"))
        painter.drawEllipse(points[-1], ribbon.height() * 0.1, ribbon.height() * 0.1)
