"""From a captured load current to an operation: choose a cycle, compare, take it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from explorer.files.table_reader.told import Question
from explorer.state import theme
from explorer.state.capture_session import CaptureSession, Cycle, Opened
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.widgets.buttons import PillButton, pill
from explorer.widgets.capture.capture_plot import CapturePlot
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.fields import CalmComboBox, Field, OutlinedCheckBox
from explorer.widgets.help.sizes import fit_screen
from explorer.words import capture as words
from explorer.words.readout import bind_units

_COLUMN = 300
_CYCLES_SHOWN = 6.0
"""Periods that are shown at first, so that the handles can be taken."""
_BEYOND = 0.15
"""Share of the operation that is shown behind it."""


def pick_capture(parent: QWidget, folder: str) -> Path | None:
    """Ask for a captured current."""
    filters = tr("Tables (*.csv *.tsv *.txt)")
    name, _ = QFileDialog.getOpenFileName(parent, tr("Open a captured current"), folder, filters)
    return Path(name) if name else None


class CaptureDialog(QDialog):
    """Shows a capture, one cycle of it with its phases, and what is kept of charge and droop."""

    def __init__(
        self, document: Document, jobs: JobRunner, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.session = CaptureSession(document, jobs, self)
        self._document = document
        self.setWindowTitle(tr("Load from a captured current"))
        self.whole = CapturePlot(tr("Captured current in A against time"), tr("Captured current"))
        self.cycle = CapturePlot(
            tr("Current of the chosen cycle in A against time, captured and as phases"),
            tr("Chosen cycle"),
        )
        self.begin, self.end = ExactField("s"), ExactField("s")
        self.name = Field()
        self.name.setText(tr("captured"))
        self.place = CalmComboBox()
        self.keeps = OutlinedCheckBox(tr("Runs when that operation ran"))
        self.keeps.setToolTip(tr("Else it begins anew with every cycle"))
        self.log = OutlinedCheckBox(tr("Current in decades"))
        self.facts, self.notes, self.kept = QLabel(), QLabel(), QLabel()
        self.fault = FaultLine()
        self._choices = QHBoxLayout()
        self.open_button = pill(tr("Another file…"), tr("Open another captured current"))
        self.take_button = pill(
            tr("Take it"), tr("Put the operation and the sleep current into the scenario")
        )
        self.close_button = pill(tr("Cancel"), tr("Leave the scenario as it is"))
        self.take_button.setCheckable(True)
        self._lay_out()
        self._fill_places()
        self._set_ready(False)
        self.setMinimumSize(760, 420)
        fit_screen(self, QSize(1060, 620))
        self.open_button.clicked.connect(self._on_another)
        self.take_button.clicked.connect(self.take)
        self.close_button.clicked.connect(self.reject)
        self.name.returnPressed.connect(self.take_button.click)
        self.log.toggled.connect(self._on_log)
        self.place.currentIndexChanged.connect(self._on_place)
        for field in (self.begin, self.end):
            field.entered.connect(self._on_typed)
            field.fault_changed.connect(self.fault.say)
        self.whole.handles_moved.connect(self._on_handles)
        session = self.session
        session.opened.connect(self._on_opened)
        session.cycle_ready.connect(self._on_cycle)
        session.progressed.connect(self._on_progressed)
        session.refused.connect(self._on_refused)
        session.asked.connect(self._on_asked)

    def open_file(self, path: Path) -> None:
        """Read a capture."""
        self._set_ready(False)
        self._ask(None)
        self.fault.say("")
        for plot in (self.whole, self.cycle):
            plot.set_capture(None)
        self.notes.hide()
        self.kept.setText("")
        self.facts.setText(tr("Reading {file}…", file=path.name))
        self.session.open(path)

    def take(self) -> None:
        """Put the operation into the scenario, and close; not past a wrong number."""
        wrong = next((field for field in (self.begin, self.end) if field.refusal), None)
        if wrong is not None:
            self._set_takeable(True)
            wrong.setFocus()
            return
        fault = self.session.take(
            self.name.text().strip(), self.place.currentData(),
            keeps_schedule=self.keeps.isEnabled() and self.keeps.isChecked(),
        )  # fmt: skip
        if fault:
            self._set_takeable(True)
            self.fault.say(fault)
        else:
            self.accept()

    def done(self, result: int) -> None:
        """Forget what is under way."""
        self.session.drop()
        super().done(result)

    # --- making ---

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setHorizontalSpacing(10)
        form.setVerticalSpacing(6)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        for label, field in (
            (tr("From"), self.begin),
            (tr("To"), self.end),
            (tr("Name"), self.name),
            (tr("Stands for"), self.place),
        ):
            form.addRow(label, field)
            field.setAccessibleName(label)
        self.notes.setFont(theme.font("small"))
        self.notes.setForegroundRole(self.notes.palette().ColorRole.PlaceholderText)
        column = QVBoxLayout()
        column.setSpacing(8)
        for said in (self.facts, self.notes, self.kept):
            said.setWordWrap(True)
        column.addWidget(_heading(tr("What is in it")))
        column.addWidget(self.facts)
        column.addWidget(self.notes)
        column.addLayout(self._choices)
        column.addSpacing(6)
        column.addWidget(_heading(tr("One cycle, as an operation")))
        column.addLayout(form)
        column.addWidget(self.keeps)
        column.addWidget(self.kept)
        column.addWidget(self.fault)
        column.addStretch(1)
        column.addWidget(self.log)
        side = QWidget()
        side.setFixedWidth(_COLUMN)
        side.setLayout(column)
        column.setContentsMargins(0, 0, 0, 0)
        plots = QVBoxLayout()
        plots.setSpacing(8)
        plots.addWidget(self.whole, 2)
        plots.addWidget(self.cycle, 3)
        body = QHBoxLayout()
        body.setSpacing(16)
        body.addLayout(plots, 1)
        body.addWidget(side)
        buttons = QHBoxLayout()
        buttons.setSpacing(6)
        buttons.addWidget(self.open_button)
        buttons.addStretch(1)
        buttons.addWidget(self.close_button)
        buttons.addWidget(self.take_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.setSpacing(10)
        layout.addLayout(body, 1)
        layout.addLayout(buttons)

    def _fill_places(self) -> None:
        operations = self._document.scenario.load.operations
        if len(operations) != 1:
            self.place.addItem(tr("all operations"), None)
        for index, operation in enumerate(operations):
            self.place.addItem(f"“{operation.name}”", index)
        self.place.addItem(tr("a further operation"), len(operations))
        self._on_place()

    def _set_ready(self, on: bool) -> None:
        for field in (self.begin, self.end):
            field.setEnabled(on)
        self._set_takeable(on)

    def _set_takeable(self, on: bool) -> None:
        """Filled, as the button that is meant, while there is something to take."""
        self.take_button.setEnabled(on)
        self.take_button.setChecked(on)

    # --- what comes ---

    def _on_progressed(self, share: float) -> None:
        path = self.session.path
        if path is not None and share > 0.0:
            percent = f"{100 * share:.0f}"
            self.facts.setText(tr("Reading {file}… {share} %", file=path.name, share=percent))

    def _on_opened(self, found: Opened) -> None:
        known = found.habit
        self.whole.set_capture(found.capture)
        if known.period_s is not None:
            begin = known.from_s - 0.5 * known.period_s
            self.whole.set_span(begin, begin + _CYCLES_SHOWN * known.period_s)
        self.facts.setText(
            _lines(words.found_sentences(found.capture, known))
        )
        notes = [*found.capture.notes, *words.side_note(self._document.scenario.load)]
        self.notes.setText(_lines(notes))
        self.notes.setVisible(bool(notes))
        self.keeps.setChecked(known.period_s is None)
        self.whole.set_handles(known.from_s, known.to_s)
        self.whole.setAccessibleDescription(self.facts.text())

    def _on_cycle(self, found: Cycle) -> None:
        self.fault.say("")
        self.whole.set_handles(found.from_s, found.to_s)
        self.begin.set_value(found.from_s)
        self.end.set_value(found.to_s)
        edges, amps = found.reduced.steps()
        self.cycle.set_capture(found.capture)
        self.cycle.set_span(0.0, (1.0 + _BEYOND) * float(edges[-2]))
        self.cycle.set_steps(edges, amps)
        self.kept.setText(_lines(words.kept_sentences(found.reduced)))
        self.cycle.setAccessibleDescription(self.kept.text())
        self._set_ready(True)

    def _on_refused(self, sentence: str) -> None:
        if self.session.found is None:
            self.facts.setText("")
        self._set_takeable(False)
        self.fault.say(sentence)

    def _on_asked(self, sentence: str, question: Question) -> None:
        self.facts.setText(tr(sentence))
        self._ask(question)

    def _ask(self, question: Question | None) -> None:
        """Offer what can be told about a file, a button each."""
        while (item := self._choices.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        if question is None:
            return
        for value, meaning in question.choices:
            button = PillButton()
            button.setText(tr(meaning))
            button.setProperty("told", (question.about, value))
            button.clicked.connect(self._on_told)
            self._choices.addWidget(button)
        self._choices.addStretch(1)

    # --- what a person does ---

    def _on_told(self) -> None:
        about, value = self.sender().property("told")
        self._ask(None)
        self.session.answer(about, value)

    def _on_another(self) -> None:
        path = pick_capture(self, str(self.session.path.parent) if self.session.path else "")
        if path is not None:
            self.open_file(path)

    def _on_handles(self, from_s: float, to_s: float) -> None:
        self.session.choose(from_s, to_s)

    def _on_typed(self, value: object) -> None:
        cycle = self.session.cycle
        if cycle is None or not isinstance(value, float):
            return
        from_s, to_s = cycle.from_s, cycle.to_s
        if self.sender() is self.begin:
            from_s = value
        else:
            to_s = value
        self.session.choose(from_s, to_s)

    def _on_place(self) -> None:
        """Only an operation that is there has a schedule to keep."""
        place = self.place.currentData()
        self.keeps.setEnabled(place is not None and place < self.place.count() - 1)

    def _on_log(self, on: bool) -> None:
        self.whole.set_log(on)
        self.cycle.set_log(on)


def _lines(sentences: Sequence[str]) -> str:
    """A line each; a number keeps its unit beside it."""
    return "\n".join(bind_units(tr(sentence)) for sentence in sentences)


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setFont(theme.font("body", bold=True))
    label.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom)
    return label
