"""Does it match a measurement? The forecast held against a logged run, and values fitted to it."""

from __future__ import annotations

import itertools
from dataclasses import replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtGui import QHideEvent, QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from explorer.advice.bench.fit import Fit
from explorer.advice.bench.found_parts import kinds_of
from explorer.files.story import RunFile, Story
from explorer.files.table_reader.told import Told
from explorer.state import theme
from explorer.state.bench_steps import (
    BenchView,
    FitView,
    Refused,
    bench_steps,
    fit_steps,
    next_steps,
)
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import pill
from explorer.widgets.drawers.bench_empty import BEGIN, BenchEmpty
from explorer.widgets.drawers.bench_plot import BenchPlot
from explorer.widgets.drawers.bench_sources import BenchSources
from explorer.widgets.drawers.bench_story import BenchStory
from explorer.widgets.drawers.bench_values import BenchValues
from explorer.widgets.drawers.drawer import Drawer
from explorer.widgets.drawers.export import Picture
from explorer.widgets.drawers.meter_bar import MeterBar
from explorer.widgets.drawers.panel_drawer import WholeColumn
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.page_stack import PageStack
from explorer.words.bench import readings_table, values_table
from explorer.words.drawers import Table
from explorer.words.fit import agreement_sentences, band_sentence, fit_sentence
from explorer.words.outlook import drift_table, outlook_table
from explorer.words.readout import bind_units

QUESTION = say("Does it match a measurement?")
READINGS, VALUES = say("readings"), say("values")
NEXT, CHANGES = say("measurements"), say("changes")
NARROW, LIST_HEIGHT, AROUND = 600, 190, 66
"""Width below which the list stands under the plot, its height there, and what is around. [px]"""
PLACED_MS = 60
"""Time after which a text that has changed has its place. [ms]"""


class BenchDrawer(Drawer):
    """Shows logged runs over the forecast and fits chosen values to all of them.

    Parameters
    ----------
    document, jobs
        The design, and where the work runs.
    runs : pathlib.Path
        Folder in which runs are kept that are logged by the program itself.
    parts : pathlib.Path
        Folder of the parts of one's own, to which fitted values can go.
    """

    def __init__(
        self,
        document: Document,
        jobs: JobRunner,
        runs: Path,
        parts: Path,
        parent: QWidget | None = None,
    ) -> None:
        self._story = document.study.story
        feed = Feed("bench", document, jobs, partial(bench_steps, self._story))
        super().__init__(QUESTION, document, feed, (READINGS, VALUES, NEXT, CHANGES), parent)
        self._view: BenchView | None = None
        self._fit: FitView | None = None
        self._left_out: RunFile | None = None
        nothing = partial(bench_steps, Story())
        self.search = Feed("bench_fit", document, jobs, nothing, parent=self)
        self.plot, self.values = BenchPlot(), BenchValues()
        self.said, self.notes, self.more = QLabel(), QLabel(), QLabel()
        for label in (self.said, self.notes, self.more):
            label.setWordWrap(True)
            label.setFont(theme.font("small"))
            label.setContentsMargins(2, 0, 6, 0)
        self.notes.setForegroundRole(self.notes.palette().ColorRole.PlaceholderText)
        self.fault = FaultLine()
        self.sources = BenchSources(runs, document, self)
        self.story = BenchStory(document, parts, self)
        self.runs = self.story.runs
        self.empty = BenchEmpty(self.sources)
        self.hint, self.open_button = self.empty.hint, self.empty.open_button
        self.other_button = self.sources.another_button()
        self.meter_bar = MeterBar(self.sources.run)
        self.fit_button = pill(
            tr("Fit", "values"), tr("Search the values that follow the logs best")
        )
        self.take_button = pill(
            tr("Take over"), tr("Put the fitted values into the design; undo takes them back")
        )
        self.buttons = (
            self.fit_button, self.take_button, self.story.keep_button, self.other_button,
        )  # fmt: skip
        self.next_button = self.story.next_button
        self.next_button.clicked.connect(self._on_next)
        self.sources.chosen.connect(self.open_log)
        self.sources.added.connect(self.add_log)
        self.sources.offer(self.runs.add_button, adding=True)
        self.sources.grown.connect(self._on_grown)
        self.sources.told.connect(self._on_told)
        self.sources.rows_wanted.connect(self._on_rows_wanted)
        self.runs.shown.connect(self._show_run)
        self.story.changed.connect(self._on_story)
        self.story.kept.connect(self._say_more)
        self.fit_button.clicked.connect(self._on_fit)
        self.take_button.clicked.connect(self._on_take)
        self.sheets = PageStack()
        self.sheets.addWidget(self.empty)
        self.sheets.addWidget(self._build_sheet())
        layout = QVBoxLayout(self.body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.meter_bar)
        layout.addWidget(self.sheets, 1)
        self.values.ticked.connect(self._show_buttons)
        document.study_changed.connect(self._on_study)
        self.search.arrived.connect(self._on_fitted)
        self.search.finished.connect(self._on_search_ended)
        self.search.failed.connect(self._on_search_failed)
        self._show_buttons()
        if not self._story.runs:
            self._show_empty()

    def _build_sheet(self) -> QWidget:
        page = QWidget()
        buttons = QHBoxLayout()
        buttons.setSpacing(6)
        for button in self.buttons:
            buttons.addWidget(button)
        buttons.addStretch(1)
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, 4, 0)
        column.setSpacing(4)
        column.addWidget(self.runs)
        column.addWidget(self.fault)
        column.addWidget(self.said)
        column.addWidget(self.values)
        column.addLayout(self.story.ways())
        column.addWidget(self.more)
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
        beside = self.plot.minimumWidth() + sum(b.sizeHint().width() for b in self.buttons)
        narrow = self.width() < max(NARROW, beside + AROUND)
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        self._parts.setDirection(way)
        self.column.setMinimumHeight(LIST_HEIGHT if narrow else 0)

    # --- the logs ---

    def open_log(self, path: Path, told: Told | None = None) -> None:
        """Hold the forecast against a file alone; one that has only grown stays on show."""
        if [run.path for run in self._story.runs] != [path]:
            self._view = None
            self.say_nothing(tr("Working it out…"))
        self.fault.say("")
        run = next((r for r in self._story.runs if r.path == path), RunFile(path=path))
        run = replace(run, told=told or Told(), is_later=False)
        self._tell(replace(self._story, runs=(run,)))

    def add_log(self, path: Path, told: Told | None = None) -> None:
        """Another run of the same device, behind those that are open."""
        self.fault.say("")
        run = RunFile(path=path, told=told or Told())
        self._tell(self._story.with_run(len(self._story.runs), run))

    def _tell(self, story: Story) -> None:
        """Compare with other runs, or under other conditions."""
        self._stop_search()
        self._story, self._fit = story, None
        self.document.edit_study(replace(self.document.study, story=story))
        self.feed.set_steps(partial(bench_steps, story), rest_ms=0)

    def _on_study(self) -> None:
        """Another study was opened, or this one was kept with copies of its files."""
        story = self.document.study.story
        if story != self._story:
            self._view = None
            self.say_nothing(tr("Working it out…"))
            self._on_story(story)
            if not story.runs:
                self._begin_anew(tr(BEGIN))

    def _begin_anew(self, hint: str) -> None:
        """No run is open any more, and what to do about it."""
        self.say_answer("")
        self.hint.setText(hint)
        self._show_empty()

    def _on_story(self, story: Story) -> None:
        self.fault.say("")
        self._tell(story)

    def _on_told(self, path: Path, told: Told) -> None:
        """A file that was read in one of two ways: one that is open, or the one left out."""
        places = [i for i, run in enumerate(self._story.runs) if run.path == path]
        if self._left_out is not None and self._left_out.path == path:
            self._left_out = None
            self.add_log(path, told)
        elif len(self._story.runs) > 1 and places:
            run = self._story.runs[places[0]]
            self._tell(self._story.with_run(places[0], replace(run, told=told)))
        else:
            self.open_log(path, told)

    def _on_grown(self, path: Path, adding: bool) -> None:
        """More readings; a search that runs is about those that it began with."""
        if self.is_searching:
            return
        story = self._story.with_grown(path, adding=adding)
        if len(story.runs) == 1 and story != self._story:
            self.open_log(path)
        else:
            self._tell(story)

    def _on_rows_wanted(self) -> None:
        if self._story.runs:
            self.sources.show_rows(self._story.runs[self.runs.place].path)

    def _show_empty(self) -> None:
        self.sheets.setCurrentIndex(0)
        self.show_body()
        self.export.setEnabled(False)

    # --- the answer ---

    def show_step(self, step: object) -> None:
        """Show the runs beside the forecast, or why there is none."""
        if isinstance(step, Refused):
            self._on_refused(step)
            return
        assert isinstance(step, BenchView)
        before = len(self._view.agreements) if self._view is not None else 0
        self._view, self._fit = step, None
        count = len(step.agreements)
        self.runs.set_runs(
            self._story, step.agreements, count - 1 if count > before else self.runs.place
        )
        self.story.set_story(self._story, None)
        self.values.set_offered(step.offered)
        self._show_run(self.runs.place)
        # Their boxes are made only now, long after the tab order of the drawer.
        chain = [*self.buttons, *self.runs.controls, *self.values.boxes, self.story.known_button,
                 self.next_button]  # fmt: skip
        for one, after in itertools.pairwise([*chain, self.export]):
            QWidget.setTabOrder(one, after)
        self.sheets.setCurrentIndex(1)
        self.show_body()
        self._show_buttons()

    def _on_refused(self, step: Refused) -> None:
        """Say what is wrong with a run; the others stay."""
        run = self._story.runs[step.place]
        if len(self._story.runs) > 1:
            self._left_out = run
            self._tell(self._story.without(step.place))
            self.fault.say(step.why)
        else:
            self._view = None
            self._begin_anew(tr(step.why))
        if step.is_open:
            self.sources.show_rows(run.path)

    def _show_run(self, place: int) -> None:
        """Show one of the runs in words and in the plot."""
        if self._view is None or place >= len(self._view.agreements):
            return
        found = self._view.agreements[place]
        answer, numbers = map(bind_units, agreement_sentences(found))
        self.say_answer(answer)
        notes = (band_sentence(), *found.notes, *self.story.where_kept())
        self.notes.setText(" ".join(tr(note) for note in notes))
        self.plot.set_agreement(found, f"{tr(answer)} {tr(numbers)}")
        if self._fit is None:
            self.said.setText(tr(numbers))
            self._show_more()
        else:
            self._show_fitted()

    def _show_more(self) -> None:
        self._say_more(*self.story.more(self._fit))

    def _say_more(self, *lines: str) -> None:
        self.more.setText("\n".join(tr(bind_units(line)) for line in lines))
        self.more.setVisible(bool(lines))
        if lines:
            QTimer.singleShot(PLACED_MS, self, self._reveal_more)

    def _reveal_more(self) -> None:
        self.column.verticalScrollBar().setValue(self.more.y() - self.next_button.height() - 8)

    def _show_fitted(self) -> None:
        """The forecast with the fitted values, of the run on show."""
        assert self._fit is not None
        place, later = self.runs.place, self._story.runs[self.runs.place].is_later
        places = self._story.places(later=later)
        found: Fit | None = self._fit.fit
        if later and self._story.places(later=False):
            found = self._fit.later
        fits = found is not None and found.is_good
        self.plot.set_fitted(found.after[places.index(place)] if found and fits else None)

    def show_outdated(self) -> None:
        """A fit to an earlier design is no longer offered."""
        self._stop_search()
        self._fit = None
        self._show_more()
        self._show_buttons()

    def focus_body(self) -> None:
        """The button to begin with, or the first value."""
        if self.sheets.currentIndex() == 0:
            self.open_button.setFocus()
        else:
            self.values.boxes[0].setFocus()

    def table(self, name: str) -> Table:
        """The readings of the run on show, the values, what to measure next, or what has aged."""
        assert self._view is not None
        fit = self._fit.fit if self._fit is not None else None
        if name == VALUES:
            return values_table(self._view.offered, fit)
        if name == NEXT:
            return outlook_table(fit, self._fit.prospects if self._fit is not None else ())
        if name == CHANGES:
            return drift_table(self._fit.drift if self._fit is not None else None)
        return readings_table(self._view.agreements[self.runs.place])

    def picture(self) -> Picture:
        """The plot alone, large enough for its title: buttons and ticks are no picture."""
        return self.plot.picture(tr(self.question), self.subtitle())

    # --- the fit ---

    @property
    def is_searching(self) -> bool:
        """Whether a fit is on its way."""
        return self.search.is_open

    def _on_fit(self) -> None:
        if self.is_searching:
            self._stop_search()
            self.said.setText(tr("The search was stopped."))
            return
        self._fit = None
        self.values.set_fit(None)
        self.plot.set_fitted(None)
        self._show_more()
        self.search.set_steps(partial(fit_steps, self._story, self.values.chosen))
        self.search.set_open(True)
        self.said.setText(tr("Fitting…"))
        self._show_buttons()

    def _on_next(self) -> None:
        if self._fit is None or self.is_searching:
            return
        self.search.set_steps(partial(next_steps, self._story, self._fit))
        self.search.set_open(True)
        self._say_more(say("Looking at what could be measured next…"))
        self._show_buttons()

    def _stop_search(self) -> None:
        self.search.set_open(False)
        self._show_buttons()

    def _on_fitted(self, step: object) -> None:
        if isinstance(step, Refused):
            self.said.setText(tr(step.why))
            return
        assert isinstance(step, FitView)
        fit = step.fit
        self.said.setText(tr(fit_sentence(fit)))
        if not fit.done:
            place = self.runs.place
            if not self._story.runs[place].is_later:
                at = self._story.places(later=False).index(place)
                self.plot.set_fitted(fit.after[at])
            return
        self._fit = step
        self.values.set_fit(fit if fit.is_good else None)
        self.story.set_story(self._story, step.later or fit)
        self._show_fitted()
        self._show_more()

    def _on_search_ended(self) -> None:
        self._stop_search()

    def _on_search_failed(self, sentence: str) -> None:
        self._stop_search()
        self.said.setText(tr(sentence))

    def _on_take(self) -> None:
        if self._fit is not None:
            self.story.take_over(self._fit.fit)

    def _show_buttons(self) -> None:
        busy = self.is_searching
        self.fit_button.setText(tr("Stop") if busy else tr("Fit", "values"))
        self.fit_button.setAccessibleName(self.fit_button.text())
        self.fit_button.setEnabled(busy or bool(self.values.chosen))
        good = self._fit is not None and self._fit.fit.is_good
        self.take_button.setEnabled(good and not busy)
        self.next_button.setEnabled(good and not busy)
        told = self._fit is not None and bool(kinds_of(self._fit.later or self._fit.fit))
        self.story.keep_button.setEnabled(told and not busy)

    def hideEvent(self, event: QHideEvent) -> None:
        """A closed drawer computes nothing."""
        super().hideEvent(event)
        if not event.spontaneous():
            self._stop_search()
