"""The stand's one trace: a thick curve, lit hours, three named lines, days; nothing to operate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from math import isfinite

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment, Threshold
from explorer.engine.picture import MOST_COLUMNS, Picture
from explorer.stand.fit_label import sized_font
from explorer.stand.legibility import Sizes
from explorer.stand.phrases import thinned
from explorer.state.language import tr
from explorer.state.spans import WEEK_S, Window
from explorer.state.theme import Tokens, tokens_of
from explorer.text import figure, joined, say
from explorer.widgets.card import RADIUS, Card
from explorer.widgets.paint import paint_filling
from explorer.widgets.plots import overlay
from explorer.words import readout
from explorer.words.moments import time_ticks

HEADROOM = 1.06
_NAMES = {
    "connects": say("starts", "line of the trace"),
    "cuts off": say("stops", "line of the trace"),
}
"""Names of the lines in a visitor's words."""
_DAYS = 7
_LOOKS = 20
"""Places along a name at which is looked for the curve; one that is met is too much."""
_ON_BAND = 0.5
"""What it costs a name to lie on a band: it is better than none, and worse than the other end."""
GAP, SNUG = 0.3, 0.16
"""Room between a name and its line, and the least of it where another line is near. [capitals]"""


class Drawn:
    """The curve as it is painted: a line, and bands where it goes up and down too quickly. [px]"""

    def __init__(self, picture: Picture, view: overlay.View) -> None:
        self.view = view
        time_s, volts = picture.line(view.pixel_v)
        self._x, self._y = view.x(time_s), view.y(volts)
        self._bands = [
            (view.x(at), view.y(high), view.y(low)) for at, low, high in picture.bands(view.pixel_v)
        ]

    def crosses(self, box: QRectF) -> float:
        """Share of a box's width over which the line runs through it, also between its points."""
        x, y = self._x, self._y
        if not len(x):
            return 0.0
        met = np.interp(_even(box.left(), box.right()), x, y)
        share = float(np.mean((met >= box.top()) & (met <= box.bottom())))
        tips = (x >= box.left()) & (x <= box.right()) & (y >= box.top()) & (y <= box.bottom())
        return max(share, 1.0 / _LOOKS if tips.any() else 0.0)

    def shades(self, box: QRectF) -> bool:
        """Whether a band reaches into a box."""
        edges = self._edges(_even(box.left(), box.right()))
        return any(((low >= box.top()) & (high <= box.bottom())).any() for high, low in edges)

    def beside(self, height: float, left: float, right: float) -> tuple[float, float]:
        """Upper and lower edge of the bands around a height; itself twice where there are none."""
        top = bottom = height
        for high, low in self._edges(_even(left, right)):
            inside = (high < height) & (low > height)
            top = float(np.min(high[inside], initial=top))
            bottom = float(np.max(low[inside], initial=bottom))
        return top, bottom

    def _edges(self, x: np.ndarray) -> list[tuple[np.ndarray, np.ndarray]]:
        """Heights of each band at places; NaN where it is not."""
        return [
            (np.interp(x, at, top, np.nan, np.nan), np.interp(x, at, bottom, np.nan, np.nan))
            for at, top, bottom in self._bands
        ]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """Where a name may stand."""

    cost: float
    box: QRectF
    base: float
    on_band: bool


class StandTrace(Card):
    """Paints an assessment's store voltage over the span on show."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._assessment: Assessment | None = None
        self._bands: overlay.LitBands | None = None
        self._window = Window(from_s=0.0, to_s=WEEK_S)
        self._calendar = (True, 0.0)
        self._sizes: Sizes | None = None
        self._title = ""
        self._note = ""
        self._is_pending = False
        self._kept: tuple[tuple[Assessment, Window, int], Picture] | None = None
        self._line = (np.zeros(0), np.zeros(0))
        self.setAccessibleName(tr("Trace of the store voltage, V"))

    def set_title(self, title: str) -> None:
        """Name of the scenario, above the curve."""
        if title != self._title:
            self._title = title
            self.update()

    def set_note(self, note: str) -> None:
        """What is wrong although the curve may look well; empty where it shows by itself."""
        if note != self._note:
            self._note = note
            self.update()

    def set_pending(self, pending: bool) -> None:
        """Whether the curve is of an earlier design: it is grey then."""
        if pending != self._is_pending:
            self._is_pending = pending
            self.update()

    def set_calendar(self, weekdays: bool, offset_s: float) -> None:
        """Say whether the trace runs on a calendar week, and where in it it begins. [s]"""
        self._calendar = (weekdays, offset_s)

    def set_assessment(self, assessment: Assessment | None, window: Window) -> None:
        """Show another result; none where there is no trace to show."""
        self._assessment, self._window = assessment, window
        self._bands = None if assessment is None else overlay.LitBands(assessment.trace)
        said = "" if assessment is None else tr(readout.trace_summary(assessment))
        self.setAccessibleDescription(said)
        self.update()

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._sizes = sizes
        self.update()

    def _area(self, sizes: Sizes) -> QRectF:
        pad = sizes.gap
        top = sizes.reason * 1.5
        bottom = sizes.axis * 1.22
        return QRectF(self.rect()).adjusted(pad, top + pad * 0.5, -pad, -bottom)

    def _top_v(self) -> float:
        assert self._assessment is not None
        highest = max(t.volts for t in self._assessment.thresholds)
        return max(highest, self._assessment.trace.extremes().highest_store_v, 0.1) * HEADROOM

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground, shading, lines, curve and names."""
        super().paintEvent(event)
        found, sizes, bands = self._assessment, self._sizes, self._bands
        if found is None or sizes is None or bands is None:
            return
        area = self._area(sizes)
        if area.width() < 20 or area.height() < 20:
            return
        tokens = tokens_of(self.palette())
        view = overlay.View(
            area=area,
            from_s=self._window.from_s,
            to_s=self._window.to_s,
            low_v=0.0,
            high_v=self._top_v(),
        )
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_title(painter, sizes, tokens)
        painter.save()
        painter.setClipRect(area)
        bands.paint(painter, view, tokens)
        painter.restore()
        picture = self._picture_of(found, view)
        overlay.paint_dense(painter, picture, view, tokens)
        self._paint_lines(painter, view, found.thresholds, sizes, tokens)
        self._line = picture.line(view.pixel_v)
        self._paint_curve(painter, view, sizes, tokens)
        drawn = Drawn(picture, view)
        placed = self._paint_note(painter, drawn, sizes, tokens)
        self._paint_names(painter, drawn, found.thresholds, sizes, tokens, placed)
        self._paint_axis(painter, view, sizes, tokens)
        painter.end()

    def _paint_title(self, painter: QPainter, sizes: Sizes, tokens: Tokens) -> None:
        room = round(self.width() - 2 * sizes.gap - RADIUS)
        painter.setFont(sized_font(sizes.reason, bold=True))
        if painter.fontMetrics().horizontalAdvance(self._title) > room:
            painter.setFont(sized_font(sizes.near, bold=True))
        painter.setPen(tokens.color("ink"))
        metrics = painter.fontMetrics()
        text = metrics.elidedText(self._title, Qt.TextElideMode.ElideRight, room)
        box = QRectF(sizes.gap, sizes.gap * 0.4, room, sizes.reason * 1.5)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignVCenter.value), text)
        painter.setFont(sized_font(sizes.near))
        painter.setPen(tokens.color("soft"))
        label = tr("energy store, V")
        if metrics.horizontalAdvance(text) + len(label) * sizes.near < room:
            flags = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
            painter.drawText(box, int(flags.value), label)

    def _picture_of(self, found: Assessment, view: overlay.View) -> Picture:
        """What the span shows at this width; asked for anew only where one of them changed."""
        wanted = (found, self._window, round(view.area.width()))
        if self._kept is None or self._kept[0] != wanted:
            columns = min(wanted[2], MOST_COLUMNS)
            window = self._window
            picture = found.trace.picture(window.from_s, window.to_s, columns)
            self._kept = (wanted, picture)
        return self._kept[1]

    def _paint_curve(
        self, painter: QPainter, view: overlay.View, sizes: Sizes, tokens: Tokens
    ) -> None:
        x, y = view.x(self._line[0]).tolist(), view.y(self._line[1]).tolist()
        # Single strokes with round ends: a wide polyline takes ten times as long to join.
        strokes = [
            QLineF(x[i], y[i], x[i + 1], y[i + 1])
            for i in range(len(x) - 1)
            if isfinite(y[i]) and isfinite(y[i + 1])
        ]
        role = "ghost" if self._is_pending else "accent"
        pen = QPen(tokens.color(role), _curve_width(sizes))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.save()
        painter.setClipRect(view.area.adjusted(0, -4, 0, 4))
        painter.setPen(pen)
        painter.drawLines(strokes)
        painter.restore()

    def _paint_lines(
        self,
        painter: QPainter,
        view: overlay.View,
        lines: Sequence[Threshold],
        sizes: Sizes,
        tokens: Tokens,
    ) -> None:
        wide = max(2.0, sizes.axis * 0.045)
        pen = QPen(tokens.color("threshold"), wide, Qt.PenStyle.CustomDashLine)
        pen.setDashPattern([4, 3])
        painter.setPen(pen)
        for line in lines:
            y = float(view.y(np.array(line.volts)))
            painter.drawLine(QPointF(view.area.left(), y), QPointF(view.area.right(), y))

    def _paint_names(
        self,
        painter: QPainter,
        drawn: Drawn,
        lines: Sequence[Threshold],
        sizes: Sizes,
        tokens: Tokens,
        taken: list[QRectF],
    ) -> None:
        """Names at the right end, as many as there is height for; the lowest line counts most."""
        painter.setFont(sized_font(sizes.axis))
        metrics = QFontMetricsF(painter.font())
        view, capital, stroke = drawn.view, metrics.capHeight(), _curve_width(sizes) / 2.0
        area = view.area
        heights = [float(view.y(np.array(line.volts))) for line in lines]
        placed = list(taken)
        for line in _by_weight(lines):
            at = float(view.y(np.array(line.volts)))
            volts = figure(f"{line.volts:.3g} V")
            text = tr(joined(" ", (_NAMES.get(line.label, line.label), volts)))
            width = metrics.horizontalAdvance(text)
            below = max(metrics.tightBoundingRect(text).bottom(), 0.2 * capital)
            others = [h for h in heights if h != at]
            best: _Spot | None = None
            ends = (area.right() - sizes.gap - width, area.left() + sizes.gap)
            for (place, left), gap in product(enumerate(ends), (GAP, SNUG)):
                top, bottom = drawn.beside(at, left, left + width)
                under, over = (1.0 + gap) * capital, gap * capital
                for base in dict.fromkeys((bottom + under, top - over, at + under, at - over)):
                    box = QRectF(left, base - capital * 1.1, width, capital * 1.1 + below)
                    if not area.contains(box) or any(box.intersects(other) for other in placed):
                        continue
                    near = max(1.5 * gap * capital, _apart(at, base, capital))
                    nearer = [h for h in others if _apart(h, base, capital) < near]
                    grown = box.adjusted(-stroke, -stroke, stroke, stroke)
                    on_band = drawn.shades(grown)
                    cost = 0.2 * place + (GAP - gap) + _LOOKS * drawn.crosses(grown) + len(nearer)
                    cost += _ON_BAND * on_band
                    if best is None or cost < best.cost:
                        best = _Spot(cost=cost, box=box, base=base, on_band=on_band)
            # The line at which the device stops is always named, the others where they are clear.
            if best is not None and (best.cost < 1.0 or len(placed) == len(taken)):
                placed.append(best.box)
                if best.on_band:
                    _paint_ground(painter, best.box, stroke, tokens)
                start = QPointF(best.box.left(), best.base)
                _paint_haloed(painter, start, text, sizes, tokens)

    def _paint_note(
        self, painter: QPainter, drawn: Drawn, sizes: Sizes, tokens: Tokens
    ) -> list[QRectF]:
        """The note in a box, where the curve leaves room; says where it stands."""
        if not self._note or self._is_pending:
            return []
        area, px = drawn.view.area, max(sizes.near * 1.15, sizes.axis * 0.62)
        painter.setFont(sized_font(px, bold=True))
        metrics = QFontMetricsF(painter.font())
        widest = min(area.width() - 2 * px, 26 * px)
        free = QRectF(0, 0, widest, area.height())
        flags = int(Qt.TextFlag.TextWordWrap.value)
        needed = metrics.boundingRect(free, flags, self._note)
        wide, high = needed.width() + 2.6 * px, needed.height() + 0.8 * px
        places = [
            QRectF(area.left() + share * (area.width() - wide), top, wide, high)
            for top in (area.top() + 4, area.bottom() - high - 4, area.center().y() - high / 2)
            for share in (0.02, 0.5, 0.98)
        ]
        box = min(places, key=drawn.crosses)
        painter.setPen(QPen(tokens.color("falls_short"), max(2.0, px * 0.1)))
        painter.setBrush(tokens.color("card"))
        painter.drawRoundedRect(box, px * 0.4, px * 0.4)
        ring = QRectF(box.left() + 0.5 * px, box.center().y() - 0.5 * px, px, px)
        paint_filling(painter, ring, "falls_short", tokens)
        painter.setPen(tokens.color("ink"))
        text = box.adjusted(2.0 * px, 0, -0.5 * px, 0)
        middle = int((Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft).value)
        painter.drawText(text, flags | middle, self._note)
        return [box]

    def _paint_axis(
        self, painter: QPainter, view: overlay.View, sizes: Sizes, tokens: Tokens
    ) -> None:
        painter.setFont(sized_font(sizes.axis))
        metrics = QFontMetricsF(painter.font())
        weekdays, offset_s = self._calendar
        ticks = time_ticks(view.from_s, view.to_s, _DAYS, weekdays, offset_s)
        at = view.x(np.array([t.time_s for t in ticks])).tolist()
        painter.setPen(QPen(tokens.color("edge"), 1.5))
        for tick, x in zip(ticks, at, strict=True):
            if not tick.label:
                bottom = view.area.bottom()
                painter.drawLine(QPointF(x, bottom), QPointF(x, bottom + sizes.axis * 0.2))
        named = [(tr(t.label), x) for t, x in zip(ticks, at, strict=True) if t.label]
        widths = [metrics.horizontalAdvance(label) for label, _ in named]
        shown = thinned(widths, [x for _, x in named], sizes.axis * 0.3)
        painter.setPen(tokens.color("soft"))
        base = view.area.bottom() + sizes.axis * 0.98
        for index in shown:
            label, x = named[index]
            left = min(max(x - widths[index] / 2, 4.0), self.width() - 4.0 - widths[index])
            painter.drawText(QPointF(left, base), label)


def _by_weight(lines: Sequence[Threshold]) -> list[Threshold]:
    order = {"cuts off": 0, "full": 1, "connects": 2}
    return sorted(lines, key=lambda line: order.get(line.label, 3))


def _curve_width(sizes: Sizes) -> float:
    return max(4.0, sizes.axis * 0.11)


def _apart(height: float, base: float, capital: float) -> float:
    """How far a line lies from the capitals that stand on a base; below 0 it runs through them."""
    return max(height - base, base - capital - height)


def _even(left: float, right: float) -> np.ndarray:
    return np.linspace(left, right, _LOOKS)


def _paint_ground(painter: QPainter, box: QRectF, reach: float, tokens: Tokens) -> None:
    """A ground for a name that lies on a band."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(tokens.color("card"))
    painter.drawRoundedRect(box.adjusted(-reach, 0.0, reach, 0.0), reach, reach)


def _paint_haloed(
    painter: QPainter, start: QPointF, text: str, sizes: Sizes, tokens: Tokens
) -> None:
    """A text with a ground of its own, so that it reads across curves."""
    reach = max(1.5, sizes.axis * 0.06)
    painter.setPen(tokens.color("card"))
    for dx in (-reach, 0.0, reach):
        for dy in (-reach, 0.0, reach):
            if dx or dy:
                painter.drawText(start + QPointF(dx, dy), text)
    painter.setPen(tokens.color("threshold"))
    painter.drawText(start, text)
