"""The place in the picture of a day: wall, window, lamp, bench and leaves."""

from __future__ import annotations

import math
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QLinearGradient, QPainter, QPainterPath, QPen, QPolygonF

from explorer.scenario.model import Scenario
from explorer.stand.day import Day
from explorer.state.theme import CONTRAST, DARK, LIGHT, SCENE, Tokens
from explorer.widgets.paint import mix
from explorer.words.panel import chosen_source

DAWN_H, DUSK_H, TWILIGHT_H = 7.0, 18.7, 1.2
"""Of an imagined day outside the window. [h]"""
NO_PEN = Qt.PenStyle.NoPen


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where the parts of the picture are. [px]"""

    window: QRectF
    bench: QRectF
    """Its top and front, over the whole width."""
    room: QRectF
    """Between the words and the bench."""
    ribbon: QRectF
    px: float
    """Size of the smallest text."""


class Scenery:
    """Paints the place of one scenario at any hour of its day.

    Parameters
    ----------
    scenario : Scenario
        The design.
    day : Day
        What its store does.
    high_contrast : bool
        Black ground and white outlines at every hour.
    """

    def __init__(self, scenario: Scenario, day: Day, *, high_contrast: bool = False) -> None:
        self.scenario, self.day, self.plain = scenario, day, high_contrast
        light = scenario.light
        source = chosen_source(light)
        self.by_lamp = light.daylight_share < 0.5 and not source.startswith("daylight")

    def tokens(self, hour: float) -> Tokens:
        """Colours in which words read on the wall at an hour."""
        if self.plain:
            return CONTRAST
        return LIGHT if self._wall_light(hour) > 0.5 else DARK

    def wall(self, hour: float) -> QColor:
        """Colour of the wall at an hour."""
        if self.plain:
            return CONTRAST.color("paper")
        night, dusk, day = map(color_of, (SCENE.wall_night, SCENE.wall_dusk, SCENE.wall_day))
        lit = self._wall_light(hour)
        if lit <= 0.5:  # words change their colour at the middle, where both read alike
            return mix(dusk, night, min(_daylight(hour) + 0.8 * lit, 1.0))
        return mix(day, dusk, 0.35 + 0.65 * min((lit - 0.5) / 0.25, 1.0))

    def _wall_light(self, hour: float) -> float:
        share = self.day.light_at(hour)
        return 1.0 if share > 0.25 else share * 2

    def shade(self, name: str, hour: float) -> QColor:
        """A colour of the scene, mixed into the wall while it is dark."""
        color = color_of(name)
        lit = max(self._wall_light(hour), 0.5 * _daylight(hour))
        return mix(color, self.wall(hour), 0.45 + 0.55 * min(lit, 1.0))

    def outline(self, painter: QPainter, tokens: Tokens, width: float) -> None:
        """Take the pen for outlines."""
        painter.setPen(QPen(tokens.color("edge"), width))

    # --- around it ---

    def paint_window(
        self, painter: QPainter, pane: QRectF, hour: float, tokens: Tokens
    ) -> None:
        """The sky with sun or moon, and the frame before it."""
        if pane.width() < 20:
            return
        day, width = _daylight(hour), max(3.0, pane.width() * 0.03)
        sky = QLinearGradient(pane.topLeft(), pane.bottomLeft())
        glow = max(0.0, 1.0 - abs(day - 0.5) * 2.0)
        for at, k in ((0.0, 0), (1.0, 1)):
            base = mix(color_of(SCENE.sky_day[k]), color_of(SCENE.sky_night[k]), day)
            sky.setColorAt(at, mix(color_of(SCENE.sky_dusk[k]), base, glow))
        painter.setPen(NO_PEN)
        painter.setBrush(sky)
        painter.drawRect(pane)
        painter.save()
        painter.setClipRect(pane)
        share = (hour - DAWN_H + TWILIGHT_H) / (DUSK_H - DAWN_H + 2 * TWILIGHT_H)
        if 0.0 < share < 1.0:
            self._paint_orb(painter, pane, share, SCENE.sun, 0.11)
        else:
            night = ((hour - DUSK_H - TWILIGHT_H) % 24.0) / (24.0 - (DUSK_H - DAWN_H) - 2.4)
            self._paint_stars(painter, pane)
            self._paint_orb(painter, pane, night, SCENE.moon, 0.08)
        hill = QPainterPath(QPointF(pane.left(), pane.bottom()))
        hill.lineTo(pane.left(), pane.top() + 0.80 * pane.height())
        hill.cubicTo(
            pane.left() + 0.35 * pane.width(), pane.top() + 0.66 * pane.height(),
            pane.left() + 0.6 * pane.width(), pane.top() + 0.92 * pane.height(),
            pane.right(), pane.top() + 0.74 * pane.height(),
        )  # fmt: skip
        hill.lineTo(pane.right(), pane.bottom())
        painter.setPen(NO_PEN)
        painter.setBrush(mix(color_of(SCENE.hill), color_of(SCENE.sky_night[0]), 0.15 + 0.85 * day))
        painter.drawPath(hill)
        painter.restore()
        pen = QPen(
            tokens.color("edge") if self.plain else self.shade(SCENE.metal, hour), width
        )
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(pane)
        pen.setWidthF(width * 0.6)
        painter.setPen(pen)
        middle = pane.center()
        painter.drawLine(QPointF(middle.x(), pane.top()), QPointF(middle.x(), pane.bottom()))
        painter.drawLine(QPointF(pane.left(), middle.y()), QPointF(pane.right(), middle.y()))

    def _paint_orb(
        self, painter: QPainter, pane: QRectF, share: float, name: str, size: float
    ) -> None:
        x = pane.left() + (0.12 + 0.76 * share) * pane.width()
        y = pane.top() + (0.82 - 0.62 * math.sin(math.pi * share)) * pane.height()
        radius = size * pane.width()
        painter.setPen(NO_PEN)
        painter.setBrush(color_of(name))
        painter.drawEllipse(QPointF(x, y), radius, radius)

    def _paint_stars(self, painter: QPainter, pane: QRectF) -> None:
        painter.setPen(NO_PEN)
        painter.setBrush(color_of(SCENE.moon))
        for k in range(12):
            x = pane.left() + ((k * 0.381966) % 1.0) * pane.width()
            y = pane.top() + (0.06 + 0.6 * ((k * 0.754878) % 1.0)) * pane.height()
            painter.drawEllipse(QPointF(x, y), pane.width() * 0.008, pane.width() * 0.008)

    def paint_bench(self, painter: QPainter, place: Place, hour: float, tokens: Tokens) -> None:
        """Top and front of the bench."""
        bench = place.bench
        edge = max(4.0, bench.height() * 0.1)
        painter.fillRect(bench, self.shade(SCENE.front, hour))
        painter.fillRect(
            QRectF(bench.left(), bench.top(), bench.width(), edge),
            tokens.color("edge") if self.plain else self.shade(SCENE.bench, hour),
        )

    def paint_lamp(
        self, painter: QPainter, room: QRectF, panel: QRectF, hour: float, tokens: Tokens
    ) -> None:
        """A lamp over the panel, with its cone while it is on."""
        light = self.day.light_at(hour)
        wide = room.width() * 0.26
        middle = panel.center().x()
        lamp = QRectF(middle - wide / 2, room.top(), wide, room.height() * 0.055)
        if light > 0.02:
            for k, spread in enumerate((1.9, 1.6, 1.3)):  # three flat steps, brightest inside
                glow = color_of(SCENE.glow)
                glow.setAlphaF(0.16 * light * (k + 1) / 2)
                painter.setPen(NO_PEN)
                painter.setBrush(glow)
                foot = wide * spread / 2
                painter.drawPolygon(QPolygonF([
                    lamp.bottomLeft(), lamp.bottomRight(),
                    QPointF(middle + foot, room.bottom()), QPointF(middle - foot, room.bottom()),
                ]))  # fmt: skip
        self.outline(painter, tokens, 1.5)
        painter.setBrush(self.shade(SCENE.metal, hour))
        painter.drawPolygon(QPolygonF([
            lamp.topLeft() + QPointF(wide * 0.07, 0), lamp.topRight() - QPointF(wide * 0.07, 0),
            lamp.bottomRight(), lamp.bottomLeft(),
        ]))  # fmt: skip
        tube = QRectF(
            lamp.left() + wide * 0.04, lamp.bottom(), wide * 0.92, room.height() * 0.022
        )
        painter.setBrush(mix(color_of(SCENE.glow), self.shade(SCENE.metal, hour), light))
        painter.drawRoundedRect(tube, tube.height() / 2, tube.height() / 2)

    def paint_sunbeam(
        self, painter: QPainter, pane: QRectF, panel: QRectF, hour: float
    ) -> None:
        """Daylight from the window to the panel."""
        light = self.day.light_at(hour)
        if light <= 0.02 or pane.width() < 20:
            return
        for k in (1, 2, 3):
            glow = color_of(SCENE.glow)
            glow.setAlphaF(0.10 * light)
            painter.setPen(NO_PEN)
            painter.setBrush(glow)
            out = panel.width() * 0.28 * k
            painter.drawPolygon(QPolygonF([
                pane.topLeft(), pane.bottomLeft(),
                QPointF(panel.center().x() + out * 0.4, panel.bottom() + out),
                QPointF(panel.center().x() - out, panel.bottom()),
            ]))  # fmt: skip

    def paint_leaves(self, painter: QPainter, room: QRectF, hour: float) -> None:
        """A pot at either side."""
        pot_wide = min(room.height() * 0.26, room.width() * 0.09)
        for share, grown in ((0.02, 1.0), (0.86, 0.85)):
            left, foot = room.left() + share * room.width(), room.bottom()
            pot = QPolygonF([
                QPointF(left, foot - pot_wide), QPointF(left + pot_wide, foot - pot_wide),
                QPointF(left + 0.8 * pot_wide, foot), QPointF(left + 0.2 * pot_wide, foot),
            ])  # fmt: skip
            painter.setPen(NO_PEN)
            painter.setBrush(self.shade(SCENE.leaf, hour))
            root = QPointF(left + pot_wide / 2, foot - pot_wide)
            for angle in (-0.9, -0.45, 0.0, 0.5, 0.95):
                painter.save()
                painter.translate(root)
                painter.rotate(math.degrees(angle))
                reach = pot_wide * grown * (1.25 - 0.35 * abs(angle))
                painter.drawEllipse(
                    QRectF(-0.13 * pot_wide, -reach, 0.26 * pot_wide, reach * 0.85)
                )
                painter.drawRect(
                    QRectF(-0.02 * pot_wide, -reach * 0.4, 0.04 * pot_wide, reach * 0.4)
                )
                painter.restore()
            painter.setBrush(self.shade(SCENE.pot, hour))
            painter.drawPolygon(pot)
            painter.drawRect(
                QRectF(left - 0.06 * pot_wide, foot - pot_wide, 1.12 * pot_wide, 0.2 * pot_wide)
            )


def color_of(text: str) -> QColor:
    """A colour of the scene, ready to paint with."""
    return QColor(text)


def _daylight(hour: float) -> float:
    """Daylight outside, 0 at night to 1 by day, with dawn and dusk between."""
    rise = (hour - DAWN_H + TWILIGHT_H) / (2 * TWILIGHT_H)
    sink = (DUSK_H + TWILIGHT_H - hour) / (2 * TWILIGHT_H)
    return min(max(min(rise, sink), 0.0), 1.0)
