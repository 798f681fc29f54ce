"""The trace: store voltage against time, with everything it is read against."""

from __future__ import annotations

from datetime import datetime

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QAccessible, QContextMenuEvent, QKeyEvent, QPainter
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
from explorer.widgets.plots.free_place import Line, free_place
from explorer.widgets.plots.plot_view import ABOVE_PX, PlotView
from explorer.words import readout
from explorer.words.light_log import scale_text

PINNED = say("pinned")
NAME_TRIES = 32
"""Columns of pixels, from the one with the most room on, at which a name is tried."""
HEADROOM = 1.1
ZOOMED_AXIS_SHARE = 0.55
"""A trace that stays above this share of its top gets an axis that does not begin at zero."""


class TracePlot(PlotView):
    """Shows an assessment; the mouse and the arrow keys move one time cursor over all curves.

    A mark holds a second moment: what lies between it and the cursor is told beside them.
    """

    cursor_moved = Signal(object)
    """Carries the time under the cursor, or None. [s]"""
    menu_wanted = Signal(object)
    """Carries the place on the screen at which a menu is asked for."""

    def __init__(self, parent: QWidget | None = None, *, ghost_name: str = PINNED) -> None:
        self._ghost_name = ghost_name
        self._bands: overlay.LitBands | None = None
        self._assessment: Assessment | None = None
        self._ghost: Assessment | None = None
        self._picture: Picture | None = None
        self._ghost_picture: Picture | None = None
        self._cursor_s: float | None = None
        self._mark_s: float | None = None
        self._weekdays, self._offset_s = True, 0.0
        super().__init__(parent)
        self._volt_axis.setWidth(34)
        self._ghost_curve = pg.PlotCurveItem()
        self._curve = pg.PlotCurveItem(antialias=True)
        self._curve.setSegmentedLineMode("on")
        for part in (self._ghost_curve, self._curve):
            self.addItem(part, ignoreBounds=True)
        self._frame = FramePacer(parent=self)
        self._frame.due.connect(self._take_picture)
        self.setAccessibleName(tr("Trace of the store voltage, V"))
        self.setMinimumSize(240, 96)
        self._retheme()

    # --- what it shows ---

    def set_calendar(
        self, weekdays: bool, offset_s: float = 0.0, begins: datetime | None = None
    ) -> None:
        """Say whether the trace runs on a calendar week, where in it, and on what date it begins.

        Parameters
        ----------
        weekdays : bool
            Whether days carry their names.
        offset_s : float
            Time from Monday 00:00 to the beginning. [s]
        begins : datetime, optional
            Date of the beginning, of a year of daylight.
        """
        self._weekdays, self._offset_s = weekdays, offset_s
        self._time_axis.set_calendar(weekdays, offset_s, begins)

    @property
    def calendar(self) -> tuple[bool, float]:
        """Whether the trace runs on a calendar week, and where in it it begins. [s]"""
        return self._weekdays, self._offset_s

    def set_assessment(self, assessment: Assessment, window: Window) -> None:
        """Show another result; a zoom stays where it is while the span is the same."""
        self._assessment = assessment
        self._bands = overlay.LitBands(assessment.trace)
        self.set_whole(window)
        self._show_volts()
        self._take_picture()
        # Frames of a drag have no answers yet; the one that has them follows when the hand pauses.
        if assessment.answers or QAccessible.isActive() or not self.accessibleDescription():
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
    def mark_s(self) -> float | None:
        """The moment that is held beside the cursor; None where there is none. [s]"""
        return self._mark_s

    @property
    def assessment(self) -> Assessment | None:
        """What is on show."""
        return self._assessment

    def set_mark(self, time_s: float | None) -> None:
        """Hold a moment, from which the cursor measures, or let it go."""
        self._mark_s = time_s
        self.viewport().update()

    def set_cursor(self, time_s: float | None) -> None:
        """Put the time cursor somewhere, or hide it."""
        if time_s is not None:
            time_s = min(max(time_s, self._shown_s.low), self._shown_s.high)
        if time_s != self._cursor_s:
            self._cursor_s = time_s
            self.viewport().update()
            self.cursor_moved.emit(time_s)

    def cursor_lines(self) -> tuple[readout.Line, ...]:
        """What the cursor reads, and what lies between it and the mark."""
        if self._assessment is None or self._cursor_s is None:
            return ()
        trace, pixel_s = self._assessment.trace, self.pixel_s
        lines = readout.cursor_lines(
            trace,
            self._cursor_s,
            None if self._ghost is None else self._ghost.trace,
            self._weekdays,
            self._offset_s,
            self._ghost_name,
            pixel_s,
            scale_text(self._assessment.case),
        )
        if self._mark_s is None:
            return lines
        return lines + readout.between_lines(trace, self._mark_s, self._cursor_s)

    @property
    def pixel_s(self) -> float:
        """Time in one pixel column. [s]"""
        return self._shown_s.length / max(self.area().width(), 1.0)

    def view_changed(self) -> None:
        """Ask within a frame what the part on show looks like."""
        if hasattr(self, "_frame"):
            self._frame.request()

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
        self.set_whole_volts(low, low + (top - low) * HEADROOM)

    def _take_picture(self) -> None:
        """Ask what is visible of the trace, and of the pinned one, at this width."""
        if self._assessment is None or self.getPlotItem() is None:  # closed meanwhile
            return
        view = self._view()
        width, pixel_v = min(max(round(view.area.width()), 2), MOST_COLUMNS), view.pixel_v
        span = self._shown_s.low, self._shown_s.high
        self._picture = self._assessment.trace.picture(*span, width)
        self._curve.setData(*self._picture.line(pixel_v), connect="finite")
        self._ghost_picture = None
        if self._ghost is not None:
            self._ghost_picture = self._ghost.trace.picture(*span, width)
            self._ghost_curve.setData(*self._ghost_picture.line(pixel_v), connect="finite")
        self._ghost_curve.setVisible(self._ghost is not None)
        self.viewport().update()

    # --- what a person does ---

    def pointed(self, at: QPointF) -> None:
        """The cursor follows the pointer."""
        self.set_cursor(self.time_at(at.x()))

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Right button and menu key ask for the same menu."""
        by_key = event.reason() == QContextMenuEvent.Reason.Keyboard
        area = self.area()
        x = self.to_x(self._cursor_s) if self._cursor_s is not None else area.center().x()
        at = QPointF(x, area.center().y()).toPoint() if by_key else event.pos()
        self.menu_wanted.emit(self.viewport().mapToGlobal(at))
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        """Take the cursor along, unless the keyboard put it there."""
        if not self.hasFocus():
            self.set_cursor(None)
        super().leaveEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move the cursor, M holds or lets go a mark there, Esc hides cursor and mark."""
        key, here = event.key(), self._cursor_s
        steps = 10 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            by = self.pixel_s * 2 * steps
            start = self.zoom_centre_s()
            self.set_cursor(start + (by if key == Qt.Key.Key_Right else -by))
        elif key == Qt.Key.Key_M:
            self.set_mark(here if self._mark_s is None or here != self._mark_s else None)
        elif key == Qt.Key.Key_Escape and (here is not None or self._mark_s is not None):
            self.set_cursor(None)
            self.set_mark(None)
        else:
            super().keyPressEvent(event)

    def zoom_centre_s(self) -> float:
        """Keys zoom around the cursor where there is one. [s]"""
        return super().zoom_centre_s() if self._cursor_s is None else self._cursor_s

    # --- what it looks like ---

    def drawBackground(self, painter: QPainter, rect: QRectF) -> None:
        """Ground, lit hours and pulse envelope, behind the curves."""
        super().drawBackground(painter, rect)
        if self._bands is None or self._picture is None:
            return
        tokens, view = tokens_of(self.palette()), self._view()
        self._bands.paint(painter, view, tokens)
        overlay.paint_envelope(painter, self._picture, view, tokens)
        overlay.paint_dense(painter, self._picture, view, tokens)

    def _view(self) -> overlay.View:
        return overlay.View(
            area=self.area(),
            from_s=self._shown_s.low,
            to_s=self._shown_s.high,
            low_v=self._shown_v.low,
            high_v=self._shown_v.high,
        )

    def _lines_px(self, view: overlay.View) -> list[Line]:
        """What is drawn of the curves. [px]"""
        lines = []
        for picture in (self._picture, self._ghost_picture):
            if picture is not None:
                middle = 0.5 * (picture.edge_s[:-1] + picture.edge_s[1:])
                edges = np.stack([picture.low_v, picture.high_v])
                lines.append((view.x(middle), view.y(edges)))
                if picture.dense(view.pixel_v).any():  # the curve runs between these edges there
                    time_s, volts = picture.line(view.pixel_v)
                    lines.append((view.x(time_s), view.y(volts)))
        return lines

    def drawForeground(self, painter: QPainter, rect: QRectF) -> None:
        """Thresholds, marks, cursor and focus ring, in front of the curves."""
        super().drawForeground(painter, rect)
        if self._assessment is None:
            return
        tokens, view = tokens_of(self.palette()), self._view()
        area = view.area
        painter.save()
        painter.setClipRect(area.adjusted(-6, -ABOVE_PX, 6, 2))
        lines = self._lines_px(view)
        names = overlay.paint_thresholds(
            painter, view, self._assessment.thresholds, tokens, lines
        )
        overlay.paint_marks(painter, view, self._assessment.marks, tokens)
        self._paint_notes(painter, area, lines, names)
        if self._mark_s is not None:
            overlay.paint_mark_line(painter, area, self.to_x(self._mark_s), tokens)
        if self._cursor_s is not None:
            self._paint_cursor(painter, area)
        if self.box is not None:
            overlay.paint_box(painter, self.box, tokens)
        painter.restore()
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.viewport().rect()).adjusted(1, 1, -1, -1), 4, 4)

    def _paint_notes(
        self, painter: QPainter, area: QRectF, lines: list[Line], names: list[QRectF]
    ) -> None:
        tokens = tokens_of(self.palette())
        painter.setFont(theme.font("small"))
        if self._ghost_picture is not None:
            self._paint_ghost_name(painter, area, self._ghost_picture, (lines, names))
        if self._shown_v.low > 0:
            text = tr("axis begins at {volts}", volts=figure(f"{self._shown_v.low:.3g} V"))
            base = self._free_of_thresholds(area.bottom() - 6)
            overlay.paint_beside(painter, area, base, text, "soft", tokens, (lines, names))

    def _free_of_thresholds(self, y: float) -> float:
        """The nearest height above one at which no threshold runs through a line of text. [px]"""
        assert self._assessment is not None
        lines = [self.to_y(one.volts) for one in self._assessment.thresholds]
        for line in sorted(lines, reverse=True):  # from the lowest on the screen up
            if y - theme.TEXT_SIZES["small"] - 1 <= line <= y + 3:
                y = line - 5
        return y

    def _paint_ghost_name(
        self, painter: QPainter, area: QRectF, ghost: Picture,
        others: tuple[list[Line], list[QRectF]],
    ) -> None:
        """Where the pinned curve is far from the other one and nothing runs through its name."""
        assert self._picture is not None
        here, pinned = self._picture.typical_v, ghost.typical_v
        n = len(here)
        apart = np.abs(pinned - here)
        columns = np.arange(int(0.08 * n), int(0.75 * n))
        columns = columns[np.isfinite(apart[columns])]
        if not len(columns):
            return
        text, metrics = tr(self._ghost_name), painter.fontMetrics()
        every, width = -(-len(columns) // NAME_TRIES), metrics.horizontalAdvance(text)
        furthest = columns[np.argsort(-apart[columns], kind="stable")][::every]
        places = []
        for column in furthest.tolist():
            y = self.to_y(float(pinned[column])) + (-6 if pinned[column] >= here[column] else 14)
            y = min(max(y, area.top() + 12), area.bottom() - 4)
            x = self.to_x(float(ghost.edge_s[column])) - 18
            places.append(QRectF(x, y - metrics.ascent() + 2, width, metrics.ascent()))
        best = places[free_place(places, *others)]
        at = QPointF(best.left(), best.bottom() - 2)
        overlay.paint_label(painter, at, text, "ghost", tokens_of(self.palette()))

    def _paint_cursor(self, painter: QPainter, area: QRectF) -> None:
        assert self._assessment is not None
        assert self._cursor_s is not None
        time_s, width_s = self._cursor_s, self.pixel_s
        dots = []
        row = readout.spot(self._assessment.trace, time_s, width_s)
        if row is not None:
            dots.append((self.to_y(float(row.store_v[0])), "accent"))
            dots.append((self.to_y(float(row.terminal_min_v[0])), "soft"))
        if self._ghost is not None:
            pinned = readout.spot(self._ghost.trace, time_s, 0.0)
            if pinned is not None:
                dots.append((self.to_y(float(pinned.store_v[0])), "ghost"))
        overlay.paint_cursor(
            painter, area, self.to_x(time_s), dots, self.cursor_lines(), tokens_of(self.palette())
        )

    def changeEvent(self, event: QEvent) -> None:
        """Take the colours of a new theme: pyqtgraph does not do it by itself."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "_curve"):
            self._retheme()

    def _retheme(self) -> None:
        tokens = tokens_of(self.palette())
        self.retheme_axes()
        self._curve.setPen(pg.mkPen(tokens.color("accent"), width=2))
        self._ghost_curve.setPen(pg.mkPen(tokens.color("ghost"), width=1.5, dash=[4, 3]))
        self.viewport().update()
