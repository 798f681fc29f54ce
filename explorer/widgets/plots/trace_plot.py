"""The trace: store voltage against time, with everything it is read against."""

from __future__ import annotations

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment
from explorer.engine.picture import MOST_COLUMNS, Picture
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.pacer import FramePacer
from explorer.state.spans import Window
from explorer.state.theme import tokens_of
from explorer.text import figure, say
from explorer.widgets.paint import focus_pen
from explorer.widgets.plots import overlay
from explorer.widgets.plots.time_axis import TimeAxis
from explorer.widgets.plots.volt_axis import VoltAxis
from explorer.words import readout

PINNED = say("pinned")
ZOOM_STEP = 1.25
CLOSEST_S = 1.0
HEADROOM = 1.1
ZOOMED_AXIS_SHARE = 0.55
"""A trace that stays above this share of its top gets an axis that does not begin at zero."""


class TracePlot(pg.PlotWidget):
    """Shows an assessment; the mouse and the arrow keys move one time cursor over all curves."""

    zoomed_changed = Signal(bool)
    """Whether less than the whole span is on show."""
    cursor_moved = Signal(object)
    """Carries the time under the cursor, or None. [s]"""

    def __init__(self, parent: QWidget | None = None, *, ghost_name: str = PINNED) -> None:
        self._ghost_name = ghost_name
        self._time_axis = TimeAxis()
        self._bands: overlay.LitBands | None = None
        self._assessment: Assessment | None = None
        self._ghost: Assessment | None = None
        self._picture: Picture | None = None
        self._ghost_picture: Picture | None = None
        self._whole = Window(from_s=0.0, to_s=1.0)
        self._shown = self._whole
        self._volts = (0.0, 1.0)
        self._cursor_s: float | None = None
        self._pan_from: tuple[float, Window] | None = None
        self._weekdays, self._offset_s = True, 0.0
        volts = VoltAxis()
        super().__init__(parent, axisItems={"bottom": self._time_axis, "left": volts})
        # The background holds what changes with every result, so it must not be cached.
        self.setCacheMode(self.CacheModeFlag.CacheNone)
        item = self.getPlotItem()
        item.setMenuEnabled(False)
        # The menu is built all the same, without a parent it would outlive the plot.
        item.ctrlMenu.setParent(self, item.ctrlMenu.windowFlags())
        item.hideButtons()
        item.setMouseEnabled(False, False)
        item.layout.setContentsMargins(0, 2, 8, 0)
        volts.setWidth(34)
        for axis in (volts, self._time_axis):
            axis.setStyle(tickFont=theme.font("small"), tickLength=-4)
        self._ghost_curve = pg.PlotCurveItem()
        self._curve = pg.PlotCurveItem(antialias=True)
        self._curve.setSegmentedLineMode("on")
        for part in (self._ghost_curve, self._curve):
            self.addItem(part, ignoreBounds=True)
        self._frame = FramePacer(parent=self)
        self._frame.due.connect(self._take_picture)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.viewport().setMouseTracking(True)
        self.setAccessibleName(tr("Trace of the store voltage, V"))
        self.setMinimumSize(240, 140)
        self._retheme()

    # --- what it shows ---

    def set_calendar(self, weekdays: bool, offset_s: float = 0.0) -> None:
        """Say whether the trace runs on a calendar week, and where in it it begins. [s]"""
        self._weekdays, self._offset_s = weekdays, offset_s
        self._time_axis.set_calendar(weekdays, offset_s)

    @property
    def calendar(self) -> tuple[bool, float]:
        """Whether the trace runs on a calendar week, and where in it it begins. [s]"""
        return self._weekdays, self._offset_s

    def set_assessment(self, assessment: Assessment, window: Window) -> None:
        """Show another result; a zoom stays where it is while the span is the same."""
        self._assessment = assessment
        self._bands = overlay.LitBands(assessment.trace)
        if window != self._whole:
            self._whole = window
            self._show(window)
        self._show_volts()
        self._take_picture()
        self.setAccessibleDescription(tr(readout.trace_summary(assessment)))
        self.viewport().update()

    def set_ghost(self, ghost: Assessment | None) -> None:
        """Show another design behind the curve, or none."""
        self._ghost = ghost
        self._show_volts()
        self._take_picture()
        self.viewport().update()

    @property
    def cursor_s(self) -> float | None:
        """Time under the cursor; None where it is hidden. [s]"""
        return self._cursor_s

    @property
    def shown(self) -> Window:
        """The stretch of time on show."""
        return self._shown

    @property
    def is_zoomed(self) -> bool:
        """Whether less than the whole span is on show."""
        return self._shown != self._whole

    def fit(self) -> None:
        """Show the whole span again."""
        self._show(self._whole)

    def zoom(self, factor: float, around_s: float) -> None:
        """Show `factor` times less time, keeping one moment in its place."""
        low, high = self._whole.from_s, self._whole.to_s
        length = max(min(self._shown.length_s / factor, high - low), CLOSEST_S)
        share = (around_s - self._shown.from_s) / self._shown.length_s
        start = min(max(around_s - share * length, low), high - length)
        self._show(Window(from_s=start, to_s=start + length))

    def set_cursor(self, time_s: float | None) -> None:
        """Put the time cursor somewhere, or hide it."""
        if time_s is not None:
            time_s = min(max(time_s, self._shown.from_s), self._shown.to_s)
        if time_s != self._cursor_s:
            self._cursor_s = time_s
            self.viewport().update()
            self.cursor_moved.emit(time_s)

    def cursor_lines(self) -> tuple[readout.Line, ...]:
        """What the cursor reads."""
        if self._assessment is None or self._cursor_s is None:
            return ()
        return readout.cursor_lines(
            self._assessment.trace,
            self._cursor_s,
            None if self._ghost is None else self._ghost.trace,
            self._weekdays,
            self._offset_s,
            self._ghost_name,
            self._shown.length_s / max(self.area().width(), 1.0),
        )

    def _show(self, window: Window) -> None:
        was = self.is_zoomed
        self._shown = window
        self.getPlotItem().setXRange(window.from_s, window.to_s, padding=0)
        self._frame.request()
        self.viewport().update()
        if self.is_zoomed != was:
            self.zoomed_changed.emit(self.is_zoomed)

    def _show_volts(self) -> None:
        if self._assessment is None:
            return
        shown = [self._assessment, *([self._ghost] if self._ghost else [])]
        top = max(
            *(t.volts for t in self._assessment.thresholds),
            *(a.trace.extremes().highest_store_v for a in shown),
            0.1,
        )
        bottom = min(
            *(t.volts for t in self._assessment.thresholds),
            *(a.trace.extremes().lowest_ever_v for a in shown),
            *(a.trace.extremes().lowest_store_v for a in shown),
        )
        low = 0.0 if bottom < ZOOMED_AXIS_SHARE * top else bottom - 0.06 * (top - bottom)
        wanted = (low, low + (top - low) * HEADROOM)
        if wanted != self._volts:
            self._volts = wanted
            self.getPlotItem().setYRange(*wanted, padding=0)

    def _take_picture(self) -> None:
        """Ask what is visible of the trace, and of the pinned one, at this width."""
        if self._assessment is None or self.getPlotItem() is None:  # closed meanwhile
            return
        width, pixel_v = min(max(round(self.area().width()), 2), MOST_COLUMNS), self._view().pixel_v
        span = self._shown.from_s, self._shown.to_s
        self._picture = self._assessment.trace.picture(*span, width)
        self._curve.setData(*self._picture.line(pixel_v), connect="finite")
        self._ghost_picture = None
        if self._ghost is not None:
            self._ghost_picture = self._ghost.trace.picture(*span, width)
        line = ([], []) if self._ghost_picture is None else self._ghost_picture.line(pixel_v)
        self._ghost_curve.setData(*line, connect="finite")
        self.viewport().update()

    # --- what a person does ---

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom in time around the pointer."""
        steps = event.angleDelta().y() / 120
        if steps:
            self.zoom(ZOOM_STEP**steps, self._time_at(event.position().x()))
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the focus and begin to pan."""
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        if event.button() == Qt.MouseButton.LeftButton:
            self._pan_from = (event.position().x(), self._shown)
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """End the pan."""
        self._pan_from = None
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Nothing hides behind a double-click."""
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Pan with the button down, move the cursor without."""
        x = event.position().x()
        if self._pan_from is not None and self.is_zoomed:
            at, window = self._pan_from
            area = self.area()
            shift = (at - x) / max(area.width(), 1.0) * window.length_s
            start = min(
                max(window.from_s + shift, self._whole.from_s), self._whole.to_s - window.length_s
            )
            self._show(Window(from_s=start, to_s=start + window.length_s))
        elif self.area().contains(event.position()):
            self.set_cursor(self._time_at(x))
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        """Take the cursor along, unless the keyboard put it there."""
        if not self.hasFocus():
            self.set_cursor(None)
        super().leaveEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move the cursor, + and − zoom, Home fits, Esc hides the cursor."""
        key = event.key()
        here = self._cursor_s
        middle = (self._shown.from_s + self._shown.to_s) / 2
        steps = 10 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            pixel = self._shown.length_s / max(self.area().width(), 1.0) * 2 * steps
            start = middle if here is None else here
            self.set_cursor(start + (pixel if key == Qt.Key.Key_Right else -pixel))
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal, Qt.Key.Key_Minus):
            factor = 1 / ZOOM_STEP if key == Qt.Key.Key_Minus else ZOOM_STEP
            self.zoom(factor, middle if here is None else here)
        elif key == Qt.Key.Key_Home:
            self.fit()
        elif key == Qt.Key.Key_Escape and here is not None:
            self.set_cursor(None)
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show the focus ring."""
        super().focusInEvent(event)
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Hide the focus ring."""
        super().focusOutEvent(event)
        self.viewport().update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fewer labels on a low plot."""
        super().resizeEvent(event)
        if hasattr(self, "_frame"):
            self._frame.request()
            self.viewport().update()

    # --- what it looks like ---

    def area(self) -> QRectF:
        """The inside of the axes. [px]"""
        box = self.getPlotItem().getViewBox()
        return QRectF(box.mapRectToScene(box.boundingRect()))

    def _to_x(self, time_s: float) -> float:
        area = self.area()
        return area.left() + (time_s - self._shown.from_s) / self._shown.length_s * area.width()

    def _to_y(self, volts: float) -> float:
        area, (low, high) = self.area(), self._volts
        return area.bottom() - (volts - low) / (high - low) * area.height()

    def _time_at(self, x: float) -> float:
        area = self.area()
        share = (x - area.left()) / max(area.width(), 1.0)
        return self._shown.from_s + min(max(share, 0.0), 1.0) * self._shown.length_s

    def drawBackground(self, painter: QPainter, rect: QRectF) -> None:
        """Ground, lit hours and pulse envelope, behind the curves."""
        super().drawBackground(painter, rect)
        if self._bands is None or self._picture is None:
            return
        tokens, area = tokens_of(self.palette()), self.area()
        self._bands.paint(painter, area, self._to_x, tokens)
        overlay.paint_envelope(painter, self._picture, self._view(), tokens)
        overlay.paint_dense(painter, self._picture, self._view(), tokens)

    def _view(self) -> overlay.View:
        return overlay.View(
            area=self.area(),
            from_s=self._shown.from_s,
            to_s=self._shown.to_s,
            low_v=self._volts[0],
            high_v=self._volts[1],
        )

    def drawForeground(self, painter: QPainter, rect: QRectF) -> None:
        """Thresholds, marks, cursor and focus ring, in front of the curves."""
        super().drawForeground(painter, rect)
        if self._assessment is None:
            return
        tokens, area = tokens_of(self.palette()), self.area()
        painter.save()
        painter.setClipRect(area.adjusted(-6, -2, 6, 2))
        overlay.paint_thresholds(painter, area, self._assessment.thresholds, self._to_y, tokens)
        overlay.paint_marks(
            painter,
            area,
            self._assessment.marks,
            self._to_x,
            self._to_y,
            tokens,
        )
        self._paint_notes(painter, area)
        if self._cursor_s is not None:
            self._paint_cursor(painter, area)
        painter.restore()
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.viewport().rect()).adjusted(1, 1, -1, -1), 4, 4)

    def _paint_notes(self, painter: QPainter, area: QRectF) -> None:
        tokens = tokens_of(self.palette())
        painter.setFont(theme.font("small"))
        if self._ghost_picture is not None:
            self._paint_ghost_name(painter, area, self._ghost_picture)
        if self._volts[0] > 0:
            at = QPointF(area.left() + 8, area.bottom() - 6)
            text = tr("axis begins at {volts}", volts=figure(f"{self._volts[0]:.2g} V"))
            overlay.paint_label(painter, at, text, "soft", tokens)

    def _paint_ghost_name(self, painter: QPainter, area: QRectF, ghost: Picture) -> None:
        """Where the pinned curve is furthest from the other one, its name reads best."""
        assert self._picture is not None
        here, pinned = self._picture.typical_v, ghost.typical_v
        n = len(here)
        apart = np.abs(pinned - here)[int(0.08 * n) : int(0.75 * n)]
        if not np.isfinite(apart).any():
            return
        place = int(0.08 * n) + int(np.nanargmax(apart))
        y = self._to_y(float(pinned[place])) + (-6 if pinned[place] >= here[place] else 14)
        y = min(max(y, area.top() + 12), area.bottom() - 4)
        at = QPointF(self._to_x(float(ghost.edge_s[place])) - 18, y)
        tokens = tokens_of(self.palette())
        overlay.paint_label(painter, at, tr(self._ghost_name), "ghost", tokens)

    def _paint_cursor(self, painter: QPainter, area: QRectF) -> None:
        assert self._assessment is not None
        assert self._cursor_s is not None
        time_s, width_s = self._cursor_s, self._shown.length_s / max(area.width(), 1.0)
        dots = []
        row = readout.spot(self._assessment.trace, time_s, width_s)
        if row is not None:
            dots.append((self._to_y(float(row.store_v[0])), "accent"))
            dots.append((self._to_y(float(row.terminal_min_v[0])), "soft"))
        if self._ghost is not None:
            pinned = readout.spot(self._ghost.trace, time_s, 0.0)
            if pinned is not None:
                dots.append((self._to_y(float(pinned.store_v[0])), "ghost"))
        overlay.paint_cursor(
            painter, area, self._to_x(time_s), dots, self.cursor_lines(), tokens_of(self.palette())
        )

    def changeEvent(self, event: QEvent) -> None:
        """Take the colours of a new theme: pyqtgraph does not do it by itself."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "_curve"):
            self._retheme()

    def _retheme(self) -> None:
        tokens = tokens_of(self.palette())
        self.setBackground(tokens.color("card"))
        for axis in (self.getAxis("left"), self._time_axis):
            axis.setPen(QPen(tokens.color("line"), 1.0))
            axis.setTextPen(tokens.color("soft"))
        self._curve.setPen(pg.mkPen(tokens.color("accent"), width=2))
        self._ghost_curve.setPen(pg.mkPen(tokens.color("ghost"), width=1.5, dash=[4, 3]))
        self.viewport().update()
