"""Does it match a log? The forecast held against a logged run, and values fitted to it."""

from __future__ import annotations

import itertools
from functools import partial
from pathlib import Path

from PySide6.QtCore import QPointF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import QHideEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QHBoxLayout,
    QLabel,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from explorer.advice.bench.fit import Fit
from explorer.advice.bench.parameters import all_values
from explorer.files.table_reader.told import Told
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import BenchView, Refused, bench_steps, fit_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.theme import LIGHT
from explorer.text import say
from explorer.widgets.buttons import pill
from explorer.widgets.drawers.bench_plot import BenchPlot
from explorer.widgets.drawers.bench_sources import BenchSources
from explorer.widgets.drawers.bench_values import BenchValues
from explorer.widgets.drawers.drawer import Drawer
from explorer.widgets.drawers.export import Picture
from explorer.widgets.drawers.meter_bar import MeterBar
from explorer.widgets.drawers.panel_drawer import WholeColumn
from explorer.words.bench import readings_table, values_table
from explorer.words.drawers import Table
from explorer.words.fit import agreement_sentences, band_sentence, fit_sentence

QUESTION = say("Does it match a log?")
READINGS, VALUES = say("readings"), say("values")
PICTURE = QSize(960, 420)
"""Least size of an exported picture. [px]"""
NARROW, LIST_HEIGHT = 600, 190
"""Width below which the list stands under the plot, and how high it is there. [px]"""
KEPT, KEPT_TOLD = "bench_log", "bench_told"
"""Properties of the document that keep the log, and what was told of it, in a new window."""


class BenchDrawer(Drawer):
    """Shows a logged run over the forecast and fits chosen values to it.

    Parameters
    ----------
    document, jobs
        The design, and where the work runs.
    runs : pathlib.Path
        Folder in which runs are kept that are logged by the program itself.
    """

    def __init__(
        self, document: Document, jobs: JobRunner, runs: Path, parent: QWidget | None = None
    ) -> None:
        kept = document.property(KEPT)
        self._path = Path(kept) if kept else None
        told = document.property(KEPT_TOLD)
        self._told = told if isinstance(told, Told) else Told()
        feed = Feed("bench", document, jobs, partial(bench_steps, self._path, self._told))
        super().__init__(QUESTION, document, feed, (READINGS, VALUES), parent)
        self._view: BenchView | None = None
        self._fit: Fit | None = None
        nothing = partial(bench_steps, None, Told())
        self.search = Feed("bench_fit", document, jobs, nothing, parent=self)
        self.plot, self.values = BenchPlot(), BenchValues()
        self.said = QLabel()
        self.notes = QLabel()
        for label in (self.said, self.notes):
            label.setWordWrap(True)
            label.setFont(theme.font("small"))
        self.notes.setForegroundRole(self.notes.palette().ColorRole.PlaceholderText)
        self.sources = BenchSources(runs, document, self)
        self.open_button = pill(tr("Open log…"), tr("Open a logged run of the device"))
        self.hand_button = pill(tr("Write down…"), tr("Write down what a meter shows, by hand"))
        self.meter_button = pill(tr("Follow a meter…"), tr("Read a multimeter as it measures"))
        self.other_button = self.sources.menu_button()
        self.meter_bar = MeterBar(self.sources.run)
        self.fit_button = pill(
            tr("Fit", "values"), tr("Search the values that follow the log best")
        )
        self.take_button = pill(
            tr("Take over"), tr("Put the fitted values into the design; undo takes them back")
        )
        self.open_button.clicked.connect(self.sources.open_file)
        self.hand_button.clicked.connect(self.sources.write_down)
        self.meter_button.clicked.connect(self.sources.follow_meter)
        self.sources.chosen.connect(self.open_log)
        self.sources.grown.connect(self._on_grown)
        self.sources.told.connect(self.open_log)
        self.sources.rows_wanted.connect(self._on_rows_wanted)
        self.fit_button.clicked.connect(self._on_fit)
        self.take_button.clicked.connect(self._on_take)
        self.sheets = QStackedWidget()
        self.sheets.addWidget(self._build_empty())
        self.sheets.addWidget(self._build_sheet())
        layout = QVBoxLayout(self.body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.meter_bar)
        layout.addWidget(self.sheets, 1)
        self.values.ticked.connect(self._show_buttons)
        self.search.arrived.connect(self._on_fitted)
        self.search.finished.connect(self._on_search_ended)
        self.search.failed.connect(self._on_search_failed)
        self._show_buttons()
        if self._path is None:
            self._show_empty()

    def _build_empty(self) -> QWidget:
        page = QWidget()
        self.hint = QLabel(
            tr(
                "Open a table with the columns time and store_V (or store_mV), and lux where the "
                "light was logged too, or drop the file on the window. Or write down by hand "
                "what a meter shows, or let a meter be followed as it measures."
            )
        )
        self.hint.setWordWrap(True)
        self.hint.setAlignment(Qt.AlignmentFlag.AlignCenter)
        layout = QVBoxLayout(page)
        layout.addStretch(1)
        layout.addWidget(self.hint)
        layout.addSpacing(6)
        ways = QHBoxLayout()
        ways.setSpacing(6)
        ways.addStretch(1)
        for button in (self.open_button, self.hand_button, self.meter_button):
            ways.addWidget(button)
        ways.addStretch(1)
        layout.addLayout(ways)
        layout.addStretch(1)
        return page

    def _build_sheet(self) -> QWidget:
        page = QWidget()
        buttons = QHBoxLayout()
        buttons.setSpacing(6)
        for button in (self.fit_button, self.take_button, self.other_button):
            buttons.addWidget(button)
        buttons.addStretch(1)
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, 4, 0)
        column.setSpacing(4)
        column.addWidget(self.said)
        column.addWidget(self.values)
        column.addWidget(self.notes)
        column.addStretch(1)
        right = QVBoxLayout()
        right.setSpacing(4)
        right.addLayout(buttons)
        self.column = WholeColumn(inner)
        right.addWidget(self.column, 1)
        self._parts = QBoxLayout(QBoxLayout.Direction.LeftToRight, page)
        self._parts.setContentsMargins(0, 0, 0, 0)
        self._parts.setSpacing(12)
        self._parts.addWidget(self.plot, 1)
        self._parts.addLayout(right)
        return page

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Plot and list side by side, or one above the other where there is little room."""
        super().resizeEvent(event)
        narrow = self.width() < NARROW
        ways = QBoxLayout.Direction
        self._parts.setDirection(ways.TopToBottom if narrow else ways.LeftToRight)
        self.column.setMinimumHeight(LIST_HEIGHT if narrow else 0)

    # --- the log ---

    def open_log(self, path: Path, told: Told | None = None) -> None:
        """Hold the forecast against a file; one that has only grown stays on show meanwhile.

        Parameters
        ----------
        path : pathlib.Path
            A logged run.
        told : Told, optional
            What a person said about a file that can be read in two ways.
        """
        self._stop_search()
        if path != self._path or self._view is None:
            self._view = None
            self.say_nothing(tr("Working it out…"))
        self._path, self._fit, self._told = path, None, told or Told()
        self.document.setProperty(KEPT, str(path))
        self.document.setProperty(KEPT_TOLD, self._told)
        self.feed.set_steps(partial(bench_steps, path, self._told), rest_ms=0)

    def _on_grown(self, path: Path) -> None:
        """More readings; a search that runs is about those that it began with."""
        if not self.is_searching:
            self.open_log(path)

    def _on_rows_wanted(self) -> None:
        if self._path is not None:
            self.sources.show_rows(self._path)

    def _show_empty(self) -> None:
        self.sheets.setCurrentIndex(0)
        self.show_body()
        self.export.setEnabled(False)

    # --- the answer ---

    def show_step(self, step: object) -> None:
        """Show the run beside the forecast, or why there is none."""
        if isinstance(step, Refused):
            self._view = None
            self.say_answer("")
            self.hint.setText(tr(step.why))
            self._show_empty()
            if step.is_open and self._path is not None:
                self.sources.show_rows(self._path)
            return
        assert isinstance(step, BenchView)
        self._view, self._fit = step, None
        answer, numbers = agreement_sentences(step.agreement)
        self.say_answer(answer)
        self.said.setText(tr(numbers))
        notes = (band_sentence(), *step.agreement.notes)
        self.notes.setText(" ".join(tr(note) for note in notes))
        self.plot.set_agreement(step.agreement, f"{tr(answer)} {tr(numbers)}")
        self.values.set_offered(step.offered)
        # Their boxes are made only now, long after the tab order of the drawer.
        chain = [self.fit_button, self.take_button, self.other_button, *self.values.boxes]
        for before, after in itertools.pairwise([*chain, self.export]):
            QWidget.setTabOrder(before, after)
        self.sheets.setCurrentIndex(1)
        self.show_body()
        self._show_buttons()

    def show_outdated(self) -> None:
        """A fit to an earlier design is no longer offered."""
        self._stop_search()
        self._fit = None
        self._show_buttons()

    def focus_body(self) -> None:
        """The button to begin with, or the first value."""
        if self.sheets.currentIndex() == 0:
            self.open_button.setFocus()
        else:
            self.values.boxes[0].setFocus()

    def table(self, name: str) -> Table:
        """The readings, or the values."""
        assert self._view is not None
        if name == VALUES:
            return values_table(self._view.offered, self._fit)
        return readings_table(self._view.agreement)

    def picture(self) -> Picture:
        """The plot alone, large enough for its title: buttons and ticks are no picture."""
        size = self.plot.size().expandedTo(PICTURE)
        return Picture(
            title=tr(self.question), subtitle=self.subtitle(), size=size, paint=self._paint_picture
        )

    def _paint_picture(self, painter: QPainter) -> None:
        size = self.plot.size().expandedTo(PICTURE)
        self.plot.paint_on(painter, QRectF(QPointF(), QSizeF(size)), LIGHT)

    # --- the fit ---

    @property
    def is_searching(self) -> bool:
        """Whether a fit is on its way."""
        return self.search.is_open

    def _on_fit(self) -> None:
        if self.is_searching:
            self._stop_search()
            self.said.setText(tr("The fit was stopped."))
            return
        assert self._path is not None
        self._fit = None
        self.values.set_fit(None)
        self.plot.set_fitted(None)
        self.search.set_steps(partial(fit_steps, self._path, self._told, self.values.chosen))
        self.search.set_open(True)
        self.said.setText(tr("Fitting…"))
        self._show_buttons()

    def _stop_search(self) -> None:
        self.search.set_open(False)
        self._show_buttons()

    def _on_fitted(self, step: object) -> None:
        if isinstance(step, Refused):
            self.said.setText(tr(step.why))
            return
        assert isinstance(step, Fit)
        self.said.setText(tr(fit_sentence(step)))
        self.plot.set_fitted(step.after[0])
        if step.done:
            self._fit = step
            self.values.set_fit(step if step.is_good else None)
            if not step.is_good:
                self.plot.set_fitted(None)

    def _on_search_ended(self) -> None:
        self._stop_search()

    def _on_search_failed(self, sentence: str) -> None:
        self._stop_search()
        self.said.setText(tr(sentence))

    def _on_take(self) -> None:
        if self._fit is None or not self._fit.is_good:
            return
        found = {path: float(f"{value:.5g}") for path, value in self._fit.found.items()}
        self.document.begin_gesture()
        self.document.edit_together(
            all_values(self.document.scenario, found), "values fitted to a log"
        )
        self.document.begin_gesture()

    def _show_buttons(self) -> None:
        busy = self.is_searching
        self.fit_button.setText(tr("Stop") if busy else tr("Fit", "values"))
        self.fit_button.setAccessibleName(self.fit_button.text())
        self.fit_button.setEnabled(busy or bool(self.values.chosen))
        good = self._fit is not None and self._fit.is_good
        self.take_button.setEnabled(good and not busy)

    def hideEvent(self, event: QHideEvent) -> None:
        """A closed drawer computes nothing."""
        super().hideEvent(event)
        if not event.spontaneous():
            self._stop_search()
