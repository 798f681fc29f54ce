"""A plot of volts against time that can be zoomed and moved in both axes, by mouse and by keys."""

from __future__ import annotations

from dataclasses import dataclass

import pyqtgraph as pg
from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPen, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from explorer.state import theme
from explorer.state.spans import Window
from explorer.state.theme import tokens_of
from explorer.widgets.plots.number_axis import NumberAxis
from explorer.widgets.plots.time_axis import TimeAxis

ZOOM_STEP = 1.25
CLOSEST_S, CLOSEST_V = 1e-3, 1e-3
LEAST_BOX_PX = 6.0
"""A box that is drawn smaller than this was a click."""
ABOVE_PX = 8.0
"""Room above the axes, which a name may use."""
KEY_SHARE = 0.1
"""Share of what is on show that one key moves it by."""
_SHIFT, _CONTROL = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """From where to where an axis goes."""

    low: float
    high: float

    @property
    def length(self) -> float:
        """From end to end."""
        return self.high - self.low

    def zoomed(self, factor: float, around: float, whole: Reach, closest: float) -> Reach:
        """A part `factor` times shorter that keeps one place where it is, within the whole."""
        length = max(min(self.length / factor, whole.length), min(closest, whole.length))
        start = around - (around - self.low) / self.length * length
        return Reach(low=start, high=start + length).within(whole)

    def moved(self, by: float, whole: Reach) -> Reach:
        """A part as long elsewhere, within the whole."""
        return Reach(low=self.low + by, high=self.high + by).within(whole)

    def within(self, whole: Reach) -> Reach:
        """The part as long, no longer than the whole and inside it."""
        length = min(self.length, whole.length)
        low = min(max(self.low, whole.low), whole.high - length)
        return Reach(low=low, high=low + length)


class PlotView(pg.PlotWidget):
    """Says what is on show; those who inherit draw it.

    The wheel zooms in time around the pointer, with Ctrl or over the voltage axis in volts; a drag
    moves what is zoomed, a drag with Shift draws a box to zoom into. + and − zoom, with Ctrl in
    volts; Up, Down, Page Up and Page Down move; Home shows everything.
    """

    zoomed_changed = Signal(bool)
    """Whether less than the whole is on show."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self._time_axis, self._volt_axis = TimeAxis(), NumberAxis("left")
        self._whole_s, self._whole_v = Reach(low=0.0, high=1.0), Reach(low=0.0, high=1.0)
        self._shown_s, self._shown_v = self._whole_s, self._whole_v
        self._pan_from: tuple[QPointF, Reach, Reach] | None = None
        self._box: tuple[QPointF, QPointF] | None = None
        axes = {"bottom": self._time_axis, "left": self._volt_axis}
        super().__init__(parent, axisItems=axes, enableMenu=False)
        # The background holds what changes with every result, so it must not be cached.
        self.setCacheMode(self.CacheModeFlag.CacheNone)
        item = self.getPlotItem()
        # One of its menus is built all the same, without a parent it would outlive the plot.
        item.ctrlMenu.setParent(self, item.ctrlMenu.windowFlags())
        item.hideButtons()
        item.setMouseEnabled(False, False)
        item.layout.setContentsMargins(0, ABOVE_PX, 8, 0)
        for axis in (self._volt_axis, self._time_axis):
            axis.setStyle(tickFont=theme.font("small"), tickLength=-4)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.viewport().setMouseTracking(True)

    # --- what is on show ---

    @property
    def shown(self) -> Window:
        """The stretch of time on show."""
        return Window(from_s=self._shown_s.low, to_s=self._shown_s.high)

    @property
    def shown_volts(self) -> tuple[float, float]:
        """Ends of the voltage axis. [V]"""
        return self._shown_v.low, self._shown_v.high

    @property
    def is_zoomed(self) -> bool:
        """Whether less than the whole is on show."""
        return self._shown_s != self._whole_s or self._shown_v != self._whole_v

    def set_whole(self, window: Window) -> None:
        """Say which stretch there is; a zoom in time stays where it is while that is the same."""
        whole = Reach(low=window.from_s, high=window.to_s)
        if whole != self._whole_s:
            self._whole_s = whole
            self._show(whole, self._shown_v)

    def set_whole_volts(self, low: float, high: float) -> None:
        """Say how far the voltages go; a zoom in volts stays where it is."""
        whole = Reach(low=low, high=high)
        if whole != self._whole_v:
            all_of_it = self._shown_v == self._whole_v
            self._whole_v = whole
            self._show(self._shown_s, whole if all_of_it else self._shown_v.within(whole))

    def fit(self) -> None:
        """Show everything again."""
        self._show(self._whole_s, self._whole_v)

    def zoom(self, factor: float, around_s: float) -> None:
        """Show `factor` times less time, keeping one moment in its place."""
        self._show(
            self._shown_s.zoomed(factor, around_s, self._whole_s, CLOSEST_S), self._shown_v
        )

    def zoom_volts(self, factor: float, around_v: float) -> None:
        """Show `factor` times fewer volts, keeping one voltage in its place."""
        self._show(
            self._shown_s, self._shown_v.zoomed(factor, around_v, self._whole_v, CLOSEST_V)
        )

    def zoom_to(self, box: QRectF) -> None:
        """Show what lies in a box of pixels."""
        middle_s, middle_v = self.time_at(box.center().x()), self.volts_at(box.center().y())
        area = self.area()
        wide, high = area.width() / max(box.width(), 1.0), area.height() / max(box.height(), 1.0)
        seconds = self._shown_s.moved(
            middle_s - 0.5 * (self._shown_s.low + self._shown_s.high), _ANYWHERE
        )
        volts = self._shown_v.moved(
            middle_v - 0.5 * (self._shown_v.low + self._shown_v.high), _ANYWHERE
        )
        self._show(
            seconds.zoomed(wide, middle_s, self._whole_s, CLOSEST_S),
            volts.zoomed(high, middle_v, self._whole_v, CLOSEST_V),
        )

    def _show(self, seconds: Reach, volts: Reach) -> None:
        was, before = self.is_zoomed, (self._shown_s, self._shown_v)
        self._shown_s, self._shown_v = seconds, volts
        item = self.getPlotItem()
        if seconds != before[0]:
            item.setXRange(seconds.low, seconds.high, padding=0)
        if volts != before[1]:
            item.setYRange(volts.low, volts.high, padding=0)
        self.view_changed()
        self.viewport().update()
        if self.is_zoomed != was:
            self.zoomed_changed.emit(self.is_zoomed)

    def view_changed(self) -> None:
        """Called when another part is on show, or in another size."""

    # --- places ---

    def area(self) -> QRectF:
        """The inside of the axes. [px]"""
        box = self.getPlotItem().getViewBox()
        return QRectF(box.mapRectToScene(box.boundingRect()))

    def to_x(self, time_s: float) -> float:
        """Where a moment is drawn. [px]"""
        area = self.area()
        return area.left() + (time_s - self._shown_s.low) / self._shown_s.length * area.width()

    def to_y(self, volts: float) -> float:
        """Where a voltage is drawn. [px]"""
        area = self.area()
        return area.bottom() - (volts - self._shown_v.low) / self._shown_v.length * area.height()

    def time_at(self, x: float) -> float:
        """Moment at a pixel. [s]"""
        area = self.area()
        share = (x - area.left()) / max(area.width(), 1.0)
        return self._shown_s.low + min(max(share, 0.0), 1.0) * self._shown_s.length

    def volts_at(self, y: float) -> float:
        """Voltage at a pixel. [V]"""
        area = self.area()
        share = (area.bottom() - y) / max(area.height(), 1.0)
        return self._shown_v.low + min(max(share, 0.0), 1.0) * self._shown_v.length

    @property
    def box(self) -> QRectF | None:
        """The box that is being drawn. [px]"""
        if self._box is None:
            return None
        return QRectF(*self._box).normalized().intersected(self.area())

    # --- what a person does ---

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom around the pointer: in time, with Ctrl or over the voltage axis in volts."""
        turned = event.angleDelta().y() or event.angleDelta().x()
        factor, at = ZOOM_STEP ** (turned / 120), event.position()
        if turned and (event.modifiers() & _CONTROL or at.x() < self.area().left()):
            self.zoom_volts(factor, self.volts_at(at.y()))
        elif turned:
            self.zoom(factor, self.time_at(at.x()))
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the focus and begin to move what is on show, or with Shift a box."""
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        if event.button() == Qt.MouseButton.LeftButton:
            at = event.position()
            if event.modifiers() & _SHIFT:
                self._box = (at, at)
            else:
                self._pan_from = (at, self._shown_s, self._shown_v)
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """End of a move, or zoom into the box."""
        box, self._pan_from, self._box = self.box, None, None
        if box is not None and min(box.width(), box.height()) >= LEAST_BOX_PX:
            self.zoom_to(box)
        self.viewport().update()
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Nothing hides behind a double-click."""
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Draw the box or move what is on show; the pointer alone is told to `pointed`."""
        at = event.position()
        if self._box is not None:
            self._box = (self._box[0], at)
            self.viewport().update()
        elif self._pan_from is not None and self.is_zoomed:
            start, seconds, volts = self._pan_from
            area = self.area()
            by_s = (start.x() - at.x()) / max(area.width(), 1.0) * seconds.length
            by_v = (at.y() - start.y()) / max(area.height(), 1.0) * volts.length
            self._show(seconds.moved(by_s, self._whole_s), volts.moved(by_v, self._whole_v))
        elif self.area().contains(at):
            self.pointed(at)
        event.accept()

    def pointed(self, at: QPointF) -> None:
        """Called when the pointer moves over the inside of the axes."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """+ and − zoom, with Ctrl in volts; Up, Down and the page keys move; Home fits."""
        key = event.key()
        if key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal, Qt.Key.Key_Minus):
            factor = 1 / ZOOM_STEP if key == Qt.Key.Key_Minus else ZOOM_STEP
            if event.modifiers() & _CONTROL:
                self.zoom_volts(factor, 0.5 * (self._shown_v.low + self._shown_v.high))
            else:
                self.zoom(factor, self.zoom_centre_s())
        elif key in _MOVES:
            share_s, share_v = _MOVES[key]
            self._show(
                self._shown_s.moved(share_s * self._shown_s.length, self._whole_s),
                self._shown_v.moved(share_v * self._shown_v.length, self._whole_v),
            )
        elif key == Qt.Key.Key_Home:
            self.fit()
        else:
            event.ignore()

    def zoom_centre_s(self) -> float:
        """Moment that stays in its place when keys zoom. [s]"""
        return 0.5 * (self._shown_s.low + self._shown_s.high)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show the focus ring."""
        super().focusInEvent(event)
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Hide the focus ring."""
        super().focusOutEvent(event)
        self.viewport().update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another size shows other pixels."""
        super().resizeEvent(event)
        if hasattr(self, "_box"):
            self.view_changed()
            self.viewport().update()

    def retheme_axes(self) -> None:
        """Ground and axes in the colours of the theme: pyqtgraph does not do it by itself."""
        tokens = tokens_of(self.palette())
        self.setBackground(tokens.color("card"))
        for axis in (self._volt_axis, self._time_axis):
            axis.setPen(QPen(tokens.color("line"), 1.0))
            axis.setTextPen(tokens.color("soft"))


_ANYWHERE = Reach(low=-1e300, high=1e300)
_MOVES: dict[int, tuple[float, float]] = {
    Qt.Key.Key_Up: (0.0, KEY_SHARE),
    Qt.Key.Key_Down: (0.0, -KEY_SHARE),
    Qt.Key.Key_PageUp: (-0.8, 0.0),
    Qt.Key.Key_PageDown: (0.8, 0.0),
}
"""Shares of time and volts on show by which a key moves them."""
