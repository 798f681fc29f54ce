"""The curves that were laid through the points of a data sheet."""

from __future__ import annotations

from typing import Literal

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QWidget

from explorer.physics.arrays import FloatArray
from explorer.quantity import PREFIXES
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.paint import mix
from explorer.widgets.plots.number_axis import NumberAxis

View = Literal["current", "power"]


class SheetPlot(pg.PlotWidget):
    """Shows curves, points and the points that were left out; nothing in it can be moved."""

    def __init__(self, parent: QWidget | None = None) -> None:
        axes = {"left": NumberAxis("left"), "bottom": NumberAxis("bottom")}
        super().__init__(parent, axisItems=axes, enableMenu=False)
        item = self.getPlotItem()
        # One of its menus is built all the same, without a parent it would outlive the plot.
        item.ctrlMenu.setParent(self, item.ctrlMenu.windowFlags())
        item.hideButtons()
        item.setMouseEnabled(False, False)
        item.layout.setContentsMargins(0, 6, 12, 0)
        for side in ("left", "bottom"):
            axis = item.getAxis(side)
            axis.setStyle(tickFont=theme.font("small"), tickLength=-4)
        self._curves: tuple[tuple[str, FloatArray, FloatArray], ...] = ()
        self._points: tuple[tuple[int, float, float], ...] = ()
        self._left_out: tuple[tuple[float, float], ...] = ()
        self._measured: tuple[tuple[int, FloatArray, FloatArray], ...] = ()
        self._view: View = "current"
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(tr("Fitted curves through the points of the data sheet"))
        self.setMinimumSize(240, 200)
        self._draw()

    def set_curves(
        self,
        curves: tuple[tuple[str, FloatArray, FloatArray], ...],
        points: tuple[tuple[int, float, float], ...],
        left_out: tuple[tuple[float, float], ...],
        spoken: str,
        measured: tuple[tuple[int, FloatArray, FloatArray], ...] = (),
    ) -> None:
        """Show named curves, points by curve, points of none, and what was measured. [V, A]"""
        self._curves, self._points, self._left_out = curves, points, left_out
        self._measured = measured
        self.setAccessibleDescription(spoken)
        self._draw()

    def set_view(self, view: View) -> None:
        """Show current or power over voltage."""
        self._view = view
        self._draw()

    def swatch(self, index: int, count: int) -> QColor:
        """Colour of one curve: from pale to strong as the light grows."""
        tokens = tokens_of(self.palette())
        share = 0.45 + 0.55 * (index / max(count - 1, 1) if count > 1 else 1.0)
        return mix(tokens.color("accent"), tokens.color("soft"), share)

    def changeEvent(self, event: QEvent) -> None:
        """Take the colours of a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "_view"):
            self._draw()

    def _draw(self) -> None:
        tokens = tokens_of(self.palette())
        item = self.getPlotItem()
        item.clear()
        self.setBackground(tokens.color("card"))
        power = self._view == "power"
        drawn = [
            (name, volts, volts * amps if power else amps) for name, volts, amps in self._curves
        ]
        top = max([float(y.max()) for _, _, y in drawn] + [a for _, a in self._left_out], default=0)
        prefix = next((p for p in ("", "m", "µ", "n") if top >= PREFIXES[p]), "µ")
        scale = 1.0 / PREFIXES[prefix]
        end = max([float(v.max()) for _, v, _ in drawn] + [v for v, _ in self._left_out], default=1)
        for side, text in (
            ("left", f"{tr('Power') if power else tr('Current')}, {prefix}{'W' if power else 'A'}"),
            ("bottom", tr("Voltage, V")),
        ):
            axis = item.getAxis(side)
            axis.setPen(tokens.color("line"))
            axis.setTextPen(tokens.color("soft"))
            axis.setLabel(text, color=tokens.soft)
        for index, (name, x, y) in enumerate(drawn):
            color = self.swatch(index, len(drawn))
            curve = pg.PlotCurveItem(x, y * scale, pen=pg.mkPen(color, width=2))
            curve.setSegmentedLineMode("on")
            item.addItem(curve, ignoreBounds=True)
            label = pg.TextItem(name, color=tokens.ink, anchor=(0, 1))
            label.setFont(theme.font("small"))
            at = len(x) // 2 if power else int(np.searchsorted(x, 0.02 * end))
            label.setPos(float(x[at]), float(y[at]) * scale)
            item.addItem(label, ignoreBounds=True)
        for _, volts_v, amps_a in self._measured:
            item.addItem(pg.ScatterPlotItem(
                volts_v, (volts_v * amps_a if power else amps_a) * scale, size=5, pen=None,
                brush=tokens.color("threshold"),
            ), ignoreBounds=True)  # fmt: skip
        for index, volts, amps in self._points:
            self._dot(volts, (volts * amps if power else amps) * scale,
                      pg.mkPen(tokens.color("card"), width=1.5),
                      self.swatch(index, len(drawn)))  # fmt: skip
        for volts, amps in self._left_out:
            self._dot(volts, (volts * amps if power else amps) * scale,
                      pg.mkPen(tokens.color("falls_short"), width=2),
                      tokens.color("card"))  # fmt: skip
        item.setXRange(0.0, 1.04 * end if end > 0 else 1.0, padding=0)
        item.setYRange(0.0, 1.1 * top * scale if top > 0 else 1.0, padding=0)

    def _dot(self, x: float, y: float, pen: object, fill: QColor) -> None:
        dot = pg.ScatterPlotItem(
            np.array([x]), np.array([y]), size=9, pen=pen, brush=pg.mkBrush(fill)
        )
        self.getPlotItem().addItem(dot, ignoreBounds=True)
