"""A year in four pictures over one axis of time: trace, light, store and energy by month."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QBrush,
    QColor,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.advice.year.view import YearView
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import LIGHT_STEPS, Tokens, tokens_of
from explorer.widgets.drawers.year_paint import (
    HEAD,
    LEGEND,
    Legend,
    fits,
    image,
    neat,
    paint_heading,
    paint_lines,
    ticks,
    up_to,
    with_room_above,
)
from explorer.widgets.paint import focus_pen, mix
from explorer.words.figures import quantity_text
from explorer.words.moments import SHORT_MONTHS
from explorer.words.year import date_flag, day_text

FloatArray = NDArray[np.float64]

HOURS = 24
LEFT, RIGHT, TOP = 46, 14, 22
FEET = 18, 5, 5, 18
"""Below each picture: months under the first and the last, as all have one axis. [px]"""
SHARES = 0.36, 0.19, 0.19, 0.26
"""Of the height that is left beside headings and months."""
LIGHT_SHARES = (1 / 30, 1 / 10, 1 / 3, 2 / 3)
"""Where the steps of the light's calendar lie, over its brightest hours."""
DARK_LX = 1.0
STORE_SHARES = (0.14, 0.34, 0.54, 0.76, 1.0)
"""How much of the accent colour each step of the store's calendar has."""
LEAST = QSize(330, 240)
"""Width of the whole, and height of the pictures without headings and months. [px]"""
SEASON = 0.8
"""Share of the lit colour in the ground of the brightest month."""
WEEK = 7
MOST_STACK = 1.9
"""Height of a bar with what was thrown away, over the largest without; taller ones are cut."""


class YearPicture(QWidget):
    """Paints one year; a line across all pictures marks a day that keys and pointer move."""

    spoken_role = QAccessible.Role.Graphic
    day_changed = Signal(int)
    """Carries the day on which the line stands, from 0."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.view: YearView | None = None
        self.day = 0
        self._light_lx: tuple[float, ...] = ()
        self._light_image = QImage()
        self._store_image = QImage()
        self._painted_for: str = ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._fit_height()
        self.setAccessibleName(tr("The year"))

    def set_view(self, view: YearView) -> None:
        """Show a year; the line begins on its lowest day."""
        fresh = self.view is None or len(self.view.calendar.works) != len(view.calendar.works)
        self.view = view
        self._painted_for = ""
        bright = max(float(np.percentile(view.calendar.illuminance_lx, 99)), 10.0)
        self._light_lx = (DARK_LX, *(max(neat(bright * s), DARK_LX) for s in LIGHT_SHARES))
        self._fit_height()
        if fresh:
            self.day = int(np.argmin(view.calendar.lowest_v))
        self._tell()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Headings need a second line where there is little width."""
        super().resizeEvent(event)
        self._fit_height()

    def _fit_height(self) -> None:
        self.setMinimumSize(LEAST + QSize(0, round(sum(self._around()))))

    def set_day(self, day: int) -> None:
        """Move the line."""
        if self.view is None:
            return
        day = min(max(day, 0), len(self.view.calendar.works) - 1)
        if day != self.day:
            self.day = day
            self._tell()

    def _tell(self) -> None:
        assert self.view is not None
        self.setAccessibleDescription(tr(day_text(self.view, self.day)))
        self.day_changed.emit(self.day)
        self.update()

    # --- hands ---

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The line follows the pointer."""
        if self.view is not None and event.position().x() >= LEFT:
            days = len(self.view.calendar.works)
            width = max(self.width() - LEFT - RIGHT, 1)
            self.set_day(int((event.position().x() - LEFT) / width * days))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move the day, with Shift a week; Home goes to the lowest day."""
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        if self.view is None:
            super().keyPressEvent(event)
        elif event.key() in steps:
            week = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self.set_day(self.day + steps[Qt.Key(event.key())] * (WEEK if week else 1))
        elif event.key() == Qt.Key.Key_Home:
            self.set_day(int(np.argmin(self.view.calendar.lowest_v)))
        else:
            super().keyPressEvent(event)

    # --- painting ---

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint all four pictures and the line."""
        if self.view is None:
            return
        tokens = tokens_of(self.palette())
        if self._painted_for != tokens.name:
            self._make_images(tokens)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(theme.font("small"))
        rooms = self._rooms()
        for room, (title, legend) in zip(rooms, self._headings(), strict=True):
            paint_heading(painter, room, tokens, title, legend)
        self._paint_trace(painter, rooms[0], tokens)
        self._paint_calendar(painter, rooms[1], self._light_image, tokens)
        self._paint_calendar(painter, rooms[2], self._store_image, tokens)
        self._hatch_off(painter, rooms[2], tokens)
        self._paint_bars(painter, rooms[3], tokens)
        self._paint_day(painter, rooms, tokens)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)
        painter.end()

    def _around(self) -> tuple[float, ...]:
        """Heights of what is not a picture: the flag, then each heading and what is below it."""
        room = self.width() - LEFT - RIGHT
        heads = [
            HEAD + LEGEND * (not fits(title, legend, room)) for title, legend in self._headings()
        ]
        return (TOP, *heads, *FEET)

    def _rooms(self) -> tuple[QRectF, QRectF, QRectF, QRectF]:
        """Where the four pictures lie, from above."""
        around = self._around()
        free = self.height() - sum(around)
        rooms, y = [], around[0]
        for share, head, foot in zip(SHARES, around[1:5], around[5:], strict=True):
            y += head
            rooms.append(QRectF(LEFT, y, self.width() - LEFT - RIGHT, share * free))
            y += share * free + foot
        return rooms[0], rooms[1], rooms[2], rooms[3]

    def _headings(self) -> list[tuple[str, Legend]]:
        """Title and legend of each picture; without a year the titles alone."""
        names = (
            tr("Store voltage, V"), tr("Light by day and hour, lx"),
            tr("Store by day and hour, V"), tr("Energy of each month, J"),
        )
        if self.view is None:
            return [(name, []) for name in names]
        tokens = tokens_of(self.palette())
        accent = tokens.color("accent")
        trace: Legend = [
            (
                QBrush(tokens.color("envelope")), tr("lowest to highest of the day"),
                tr("of the day"),
            ),
            (QBrush(tokens.color("falls_short"), Qt.BrushStyle.BDiagPattern), tr("off"), tr("off")),
        ]
        energy: Legend = [
            (QBrush(accent), tr("taken in"), tr("taken in")),
            (
                QBrush(accent, Qt.BrushStyle.BDiagPattern), tr("thrown away, store full"),
                tr("thrown away"),
            ),
            (QBrush(tokens.color("threshold")), tr("used"), tr("used")),
        ]
        legends = (trace, self._light_legend(), self._store_legend(tokens), energy)
        return list(zip(names, legends, strict=True))

    def _edges(self, room: QRectF) -> list[float]:
        """Where the months begin, and where the last one ends. [px]"""
        assert self.view is not None
        start, days = self.view.calendar.start, len(self.view.calendar.works)
        begins = [(m.begin - start).days for m in self.view.months]
        return [room.left() + room.width() * d / days for d in [*begins, days]]

    def _month_names(self, painter: QPainter, room: QRectF, tokens: Tokens) -> None:
        assert self.view is not None
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        edges = self._edges(room)
        painter.drawLine(QLineF(room.left(), room.bottom(), room.right(), room.bottom()))
        for x in edges:
            painter.drawLine(QLineF(x, room.bottom(), x, room.bottom() + 4))
        painter.setPen(tokens.color("soft"))
        names = [tr(SHORT_MONTHS[month.begin.month]) for month in self.view.months]
        metrics = painter.fontMetrics()
        if any(
            metrics.horizontalAdvance(name) > b - a - 2
            for name, (a, b) in zip(names, pairwise(edges), strict=True)
        ):
            names = [name[:1] for name in names]
        for name, (a, b) in zip(names, pairwise(edges), strict=True):
            painter.drawText(
                QRectF(a, room.bottom() + 2, b - a, FEET[0]), Qt.AlignmentFlag.AlignCenter, name
            )

    def _paint_trace(self, painter: QPainter, room: QRectF, tokens: Tokens) -> None:
        view = self.view
        assert view is not None
        calendar = view.calendar
        low, high = calendar.lowest_v, calendar.highest_v
        bottom = max(float(np.nanmin(low)) - 0.15 * float(np.ptp([low.min(), high.max()])), 0.0)
        highest = max(float(np.nanmax(high)), *(t.volts for t in view.thresholds))
        top = max(1.04 * highest, with_room_above(bottom, highest, room.height()))
        off = QBrush(tokens.color("falls_short"), Qt.BrushStyle.BDiagPattern)

        def y_of(volts: float) -> float:
            return room.bottom() - (volts - bottom) / (top - bottom) * room.height()

        # The seasons: the ground of a month has as much of the lit colour as it has light.
        edges = self._edges(room)
        lux = calendar.illuminance_lx.mean(axis=1)
        begins = [*((m.begin - calendar.start).days for m in view.months), len(lux)]
        means = [float(lux[a:b].mean()) for a, b in pairwise(begins)]
        for mean, (a, b) in zip(means, pairwise(edges), strict=True):
            share = mean / max(*means, 1e-9)
            painter.fillRect(
                QRectF(a, room.top(), b - a, room.height()),
                mix(tokens.color("lit"), tokens.color("card"), SEASON * share),
            )
        days = len(low)
        x = room.left() + room.width() * (np.arange(days) + 0.5) / days
        for day in np.flatnonzero(~calendar.works).tolist():
            left = room.left() + room.width() * day / days
            painter.fillRect(
                QRectF(left, room.top(), max(room.width() / days, 1.0), room.height()), off
            )
        upper = [QPointF(a, y_of(float(v))) for a, v in zip(x, high, strict=True)]
        lower = [QPointF(a, y_of(float(v))) for a, v in zip(x, low, strict=True)]
        painter.setPen(QPen(tokens.color("envelope"), 1.0))
        painter.setBrush(tokens.color("envelope"))
        painter.drawPolygon(QPolygonF(upper + lower[::-1]))
        painter.setPen(QPen(tokens.color("accent"), 1.6))
        middle = np.median(calendar.store_v, axis=1)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(
            QPolygonF([QPointF(a, y_of(float(v))) for a, v in zip(x, middle, strict=True)])
        )
        lines = [
            (y_of(t.volts), f"{tr(t.label)} {tr(quantity_text(t.volts, 'V'))}")
            for t in sorted(view.thresholds, key=lambda t: -t.volts)
            if bottom <= t.volts <= top
        ]
        curve = x, np.vectorize(y_of)(np.stack([low, high]))
        paint_lines(painter, room, tokens, lines, curve)
        self._scale(painter, room, tokens, [
            (y_of(v), quantity_text(v, "")) for v in ticks(bottom, top)
        ])
        self._month_names(painter, room, tokens)

    def _scale(
        self, painter: QPainter, room: QRectF, tokens: Tokens, marks: list[tuple[float, str]]
    ) -> None:
        painter.setPen(tokens.color("soft"))
        for y, text in marks:
            painter.drawText(
                QRectF(0, y - 7, LEFT - 6, 14),
                Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, tr(text),
            )

    def _paint_calendar(
        self, painter: QPainter, room: QRectF, shades: QImage, tokens: Tokens
    ) -> None:
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, False)
        painter.drawImage(room, shades)
        self._scale(painter, room, tokens, [
            (room.bottom() - room.height() * h / HOURS, f"{h}") for h in (6, 12, 18)
        ])
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        painter.drawLine(QLineF(room.left(), room.bottom(), room.right(), room.bottom()))

    def _hatch_off(self, painter: QPainter, room: QRectF, tokens: Tokens) -> None:
        """Hours in which the device is off are hatched: they are not told by hue alone."""
        assert self.view is not None
        off = ~self.view.calendar.connected
        brush = QBrush(tokens.color("card"), Qt.BrushStyle.BDiagPattern)
        wide, high = room.width() / len(off), room.height() / HOURS
        for day in np.flatnonzero(off.any(axis=1)).tolist():
            turns = np.flatnonzero(np.diff(np.concatenate([[0], off[day].astype(int), [0]])))
            for begin, end in turns.reshape(-1, 2).tolist():
                painter.fillRect(
                    QRectF(room.left() + day * wide, room.bottom() - end * high,
                           max(wide, 1.0), (end - begin) * high), brush,
                )

    def _paint_bars(self, painter: QPainter, room: QRectF, tokens: Tokens) -> None:
        assert self.view is not None
        months = self.view.months
        lost = QBrush(tokens.color("accent"), Qt.BrushStyle.BDiagPattern)
        largest = max(max(m.taken_in_j, m.used_j) for m in months)
        most = max(m.taken_in_j + m.thrown_away_j for m in months)
        top = max(min(most, MOST_STACK * largest), 1e-12)
        edges = self._edges(room)
        height = room.height() - 14
        for month, (a, b) in zip(months, pairwise(edges), strict=True):
            slot = b - a
            width = min(slot * 0.36, 40.0)
            left = QRectF(a + slot / 2 - width - 1, 0, width, 0)
            right = QRectF(a + slot / 2 + 1, 0, width, 0)
            taken = height * month.taken_in_j / top
            stack = height * min(month.taken_in_j + month.thrown_away_j, top) / top
            used = height * month.used_j / top
            base = room.bottom()
            painter.fillRect(QRectF(left.x(), base - stack, width, stack - taken), lost)
            painter.setPen(QPen(tokens.color("accent"), 1.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            if stack > taken + 1:
                painter.drawRect(QRectF(left.x(), base - stack, width, stack - taken))
            if month.taken_in_j + month.thrown_away_j > top * (1.0 + 1e-9):
                # Cut: a gap says that the bar goes on.
                painter.fillRect(
                    QRectF(left.x() - 2, base - stack + 5, width + 4, 3), tokens.color("card")
                )
            painter.fillRect(QRectF(left.x(), base - taken, width, taken), tokens.color("accent"))
            painter.fillRect(
                QRectF(right.x(), base - used, width, used), tokens.color("threshold")
            )
            painter.setPen(tokens.color("ink"))
            text = tr(quantity_text(month.used_j, ""))
            if painter.fontMetrics().horizontalAdvance(text) <= width + 4:
                painter.drawText(
                    QRectF(right.x() - 10, base - used - 14, width + 20, 13),
                    Qt.AlignmentFlag.AlignCenter, text,
                )
        self._scale(painter, room, tokens, [
            (room.bottom() - height * v / top, quantity_text(v, "")) for v in ticks(0.0, top)
        ])
        self._month_names(painter, room, tokens)

    def _paint_day(
        self, painter: QPainter, rooms: tuple[QRectF, ...], tokens: Tokens
    ) -> None:
        """The line of the chosen day, with its date in a flag."""
        assert self.view is not None
        days = len(self.view.calendar.works)
        x = rooms[0].left() + rooms[0].width() * (self.day + 0.5) / days
        painter.setPen(QPen(tokens.color("ink"), 1.2))
        for room in rooms:
            painter.drawLine(QLineF(x, room.top(), x, room.bottom()))
        text = tr(date_flag(self.view, self.day))
        width = painter.fontMetrics().horizontalAdvance(text) + 14
        left = min(max(x - width / 2, 2.0), self.width() - width - 2.0)
        flag = QRectF(left, 3, width, 18)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tokens.color("ink"))
        painter.drawRoundedRect(flag, 4, 4)
        painter.setPen(tokens.color("card"))
        painter.drawText(flag, Qt.AlignmentFlag.AlignCenter, text)

    # --- calendars ---

    def _make_images(self, tokens: Tokens) -> None:
        """One pixel for an hour: days across, hours up."""
        assert self.view is not None
        calendar = self.view.calendar
        self._painted_for = tokens.name
        steps = np.searchsorted(self._light_lx, calendar.illuminance_lx, side="right")
        self._light_image = image(steps, [QColor(c) for c in LIGHT_STEPS])
        volts = np.digitize(calendar.store_v, self._store_steps())
        volts = np.where(calendar.connected, np.clip(volts, 0, len(STORE_SHARES) - 1), -1)
        colors = [*self._store_colors(tokens), tokens.color("falls_short")]
        self._store_image = image(volts % len(colors), colors)

    def _store_steps(self) -> list[float]:
        """Volts at which the calendar's colour changes, from the cut-off to full."""
        assert self.view is not None
        volts = sorted(t.volts for t in self.view.thresholds)
        low, high = volts[0], volts[-1]
        count = len(STORE_SHARES)
        return [low + (high - low) * k / count for k in range(1, count)]

    def _store_colors(self, tokens: Tokens) -> list[QColor]:
        return [
            mix(tokens.color("accent"), tokens.color("card"), share) for share in STORE_SHARES
        ]

    def _light_legend(self) -> Legend:
        names = [(tr("dark"), tr("dark")), *map(up_to, self._light_lx[1:]), (tr("over"), "…")]
        return [
            (QBrush(QColor(c)), *name) for c, name in zip(LIGHT_STEPS, names, strict=True)
        ]

    def _store_legend(self, tokens: Tokens) -> Legend:
        names = [*map(up_to, self._store_steps()), (tr("over"), "…")]
        colors = self._store_colors(tokens)
        return [
            (QBrush(tokens.color("falls_short")), tr("off"), tr("off")),
            *((QBrush(c), *name) for c, name in zip(colors, names, strict=True)),
        ]


__all__ = ["YearPicture"]
