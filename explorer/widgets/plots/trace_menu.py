"""What can be done with the trace beside looking at it: measure, zoom, take it along."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import numpy as np
from PySide6.QtCore import QObject, QPoint, Signal
from PySide6.QtWidgets import QMenu

from explorer.files.disk import FileError
from explorer.files.tables import trace_table
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets import messages
from explorer.widgets.drawers import export
from explorer.widgets.drawers.export import widget_picture
from explorer.widgets.plots.plot_view import ZOOM_STEP
from explorer.widgets.plots.trace_plot import TracePlot

MOST_ROWS = 2000
STEPS = 3
"""Steps of the wheel that one choice in the menu stands for."""


class TraceMenu(QObject):
    """The menu of a trace, and its export.

    Parameters
    ----------
    plot : TracePlot
        The trace.
    document : Document
        Whose trace it is; its title stands over an exported picture.
    """

    reports = Signal(object, bool)
    """Carries a `Text` for the window to show, and whether it tells of a fault."""

    def __init__(self, plot: TracePlot, document: Document) -> None:
        super().__init__(plot)
        self._plot, self._document = plot, document
        plot.menu_wanted.connect(self.open)

    def open(self, at: QPoint) -> None:
        """Show the menu at a place on the screen."""
        menu = self.build()
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(at)

    def build(self) -> QMenu:
        """The menu as things stand."""
        plot = self._plot
        menu = QMenu(plot)
        here, mark = plot.cursor_s, plot.mark_s
        measure = menu.addAction(tr("&Measure from here\tM"))
        measure.setEnabled(here is not None)
        measure.triggered.connect(partial(plot.set_mark, here))
        stop = menu.addAction(tr("&Stop measuring\tEsc"))
        stop.setEnabled(mark is not None)
        stop.triggered.connect(partial(plot.set_mark, None))
        menu.addSeparator()
        factor = ZOOM_STEP**STEPS
        low, high = plot.shown_volts
        for text, zoom, times, around in (
            (tr("Zoom &in\t+"), plot.zoom, factor, plot.zoom_centre_s()),
            (tr("Zoom &out\t−"), plot.zoom, 1 / factor, plot.zoom_centre_s()),
            (tr("Zoom in on the &volts\tCtrl++"), plot.zoom_volts, factor, 0.5 * (low + high)),
            (tr("Zoom out of the v&olts\tCtrl+−"), plot.zoom_volts, 1 / factor, 0.5 * (low + high)),
        ):
            menu.addAction(text).triggered.connect(partial(zoom, times, around))
        fit = menu.addAction(tr("Show &everything\tHome"))
        fit.setEnabled(plot.is_zoomed)
        fit.triggered.connect(plot.fit)
        menu.addSeparator()
        for text, kind in (
            (tr("Picture, &PNG…"), "png"),
            (tr("Picture, &SVG…"), "svg"),
            (tr("Numbers, &CSV…"), "csv"),
        ):
            menu.addAction(text).triggered.connect(partial(self.export, kind))
        return menu

    def export(self, kind: str) -> None:
        """Ask for a place and write the picture or the numbers there."""
        if self._plot.assessment is None:
            return
        path = export.pick_file(self._plot, f"trace.{kind}", kind)
        if path is not None:
            self.save(kind, path)

    def save(self, kind: str, path: Path) -> bool:
        """Write picture or numbers of what is on show, and tell where that fails."""
        try:
            if kind == "csv":
                export.save_csv(self.table(), path)
            else:
                title = self._document.scenario.title or tr("Untitled")
                picture = widget_picture(title, tr("Store voltage, V"), self._plot)
                (export.save_svg if kind == "svg" else export.save_png)(picture, path)
        except FileError as error:
            messages.tell(self._plot, say("Nothing was exported"), str(error))
            return False
        self.reports.emit(export.written(path), False)
        return True

    def table(self) -> dict[str, list[float]]:
        """What is on show as rows of equal steps: each at its moment, means exact over its step."""
        assessment = self._plot.assessment
        assert assessment is not None
        trace, window = assessment.trace, self._plot.shown
        first, last = max(window.from_s, 0.0), min(window.to_s, trace.span_s)
        edges = np.linspace(first, last, MOST_ROWS + 1)
        return trace_table(trace.rows(edges[:-1], edges[1:]))
