"""The left column: the four knobs, each with its details below."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QVBoxLayout, QWidget

from explorer.advice.cautions import Where
from explorer.scenario.model import Scenario, get_value
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import ConverterCharger, DirectCharger
from explorer.state.document import Document
from explorer.state.knobs import Knob, knob_value, knobs_for, operation_name
from explorer.state.language import tr
from explorer.state.solver import Solver
from explorer.text import joined, say
from explorer.widgets.card import Card
from explorer.widgets.fields import CalmComboBox
from explorer.widgets.fold import Fold
from explorer.widgets.glance import Glance
from explorer.widgets.knob_row import KnobRow
from explorer.widgets.log_chooser import LogChooser
from explorer.widgets.log_level import LogLevel
from explorer.widgets.slim_scroll import SlimScroll
from explorer.words.glance import GLIMPSES, Glimpse

if TYPE_CHECKING:
    from explorer.advice.break_even import BreakEven
    from explorer.scenario.part import PartKind
    from explorer.widgets.forms.pulse_timing import PulseTiming
    from explorer.widgets.help.caution_line import CautionLine
    from explorer.widgets.parts.part_line import PartLine

TABLES, APART = 360, 760
"""Widths from which closed folds show labels and values apart, and from which the knobs stand in
two columns. [px]"""
_BETWEEN = 28
KNOBS_WIDE = 300
"""Width below which the margins give way. [px]"""
_MNEMONICS = (
    say("l", "letter of the light knob's label, for Alt"),
    say("p", "letter of the panel knob's label, for Alt"),
    say("c", "letter of the store knob's labels, for Alt"),
    say("d", "letter of the pulse knob's label, for Alt"),
)


class KnobPanel(Card):
    """Shows the four knobs of the document and passes on what a person does with them."""

    cautions_wanted = Signal(object)
    """Carries the cautions that somebody wants to read in full."""
    parts_wanted = Signal(str)
    """Carries the kind of part that somebody wants to see on the shelf."""

    def __init__(self, document: Document, solver: Solver, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._solver = document, solver
        self.logs = LogChooser(document, self)
        self.operation = 0
        self._held = ""
        """Path of the phase that the load knob was last used on; empty for the largest."""
        self._editing: KnobRow | None = None
        self._found: dict[str, BreakEven] = {}
        inner = QWidget()
        self._halves = QBoxLayout(QBoxLayout.Direction.TopToBottom, inner)
        self._halves.setContentsMargins(16, 12, 14, 12)
        self._halves.setSpacing(0)
        columns = QVBoxLayout(), QVBoxLayout()
        for half, column in enumerate(columns):
            column.setSpacing(2)
            self._halves.addLayout(column, half)
        self._apart = False
        self._unfolded: list[Fold] = []
        """Folds that are open because there is room, and close with it."""
        self._scroll = SlimScroll(inner)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.addWidget(self._scroll)

        self._timing: PulseTiming | None = None
        self.rows: list[KnobRow] = []
        self.folds: list[Fold] = []
        self._tables = False
        self._glances: list[tuple[Glance, Glimpse]] = []
        self._glanced: Scenario | None = None
        """Whose values the closed folds show."""
        self._operations = CalmComboBox()
        self._operations.setAccessibleName(tr("Operation that the load slider changes"))
        self._operations.activated.connect(self._on_operation)
        builders = (
            (tr("Light and place"), self._build_light, GLIMPSES["light"]),
            (tr("Panels and charger"), self._build_supply, GLIMPSES["supply"]),
            (tr("Store"), self._build_store, GLIMPSES["store"]),
            (tr("Load and operations"), self._build_load, GLIMPSES["load"]),
        )
        for index, knob in enumerate(self._knobs()):
            row = KnobRow(knob, tr(_MNEMONICS[index]))
            row.edited.connect(self._on_edited)
            row.gesture_started.connect(document.begin_gesture)
            row.reset_wanted.connect(self._on_reset)
            row.slider.sliderReleased.connect(self.refresh)
            self.rows.append(row)
            column = columns[index // 2]
            column.addWidget(row)
            if knob.key == "light":
                column.addWidget(LogLevel(document))
            if knob.key == "pulse":
                column.addWidget(self._operations)
            column.addWidget(self._fold(*builders[index]))
            if index < 3:
                column.addSpacing(8)
        columns[1].addSpacing(4)
        margins = self._fold(tr("What must be reached"), self._build_margins, GLIMPSES["margins"])
        columns[1].addWidget(margins)
        for column in columns:
            column.addStretch(1)
        document.changed.connect(self._on_changed)
        document.file_changed.connect(self._on_file_changed)
        solver.break_evens_ready.connect(self._on_break_evens)
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds."""
        scenario = self._document.scenario
        operations = scenario.load.operations
        self.operation = min(self.operation, max(len(operations) - 1, 0))
        self._solver.set_operation(self.operation, self._held)
        if self._timing is not None:
            self._timing.set_operation(self.operation, self._held)
        for row, knob in zip(self.rows, self._knobs(), strict=True):
            if knob != row.knob:
                row.set_knob(knob)
                if knob.path in self._found:
                    row.set_break_even(self._found[knob.path])
            row.set_value(knob_value(self._document.case, row.knob))
        for glance, told in self._glances:
            if self._glanced is None or not told.holds_for(scenario, self._glanced):
                glance.set_lines(told.lines(scenario))
        self._glanced = scenario
        self._operations.setVisible(len(operations) > 1)
        # Joined, for a name that a person gave is never looked up.
        names = [tr(joined("", (operation_name(op, k),))) for k, op in enumerate(operations)]
        with QSignalBlocker(self._operations):
            if names != [self._operations.itemText(k) for k in range(self._operations.count())]:
                self._operations.clear()
                self._operations.addItems(names)
            self._operations.setCurrentIndex(self.operation)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show what closed folds hold as tables where there is room."""
        super().resizeEvent(event)
        side = 16 if self.width() >= KNOBS_WIDE else 4
        self._halves.setContentsMargins(side, 12, side - 2, 12)
        # Not within the layout that is under way, which would keep the heights of before.
        QTimer.singleShot(0, self, self._fit_glances)

    def _set_apart(self, apart: bool) -> None:
        """Store and load in a column of their own, and all open, where there is room for that."""
        if apart == self._apart:
            return
        self._apart = apart
        way = QBoxLayout.Direction
        self._halves.setDirection(way.LeftToRight if apart else way.TopToBottom)
        self._halves.setSpacing(_BETWEEN if apart else 0)
        self._halves.setStretch(0, int(apart))
        for fold in self.folds if apart else self._unfolded:
            if apart and not fold.button.isChecked():
                self._unfolded.append(fold)
            fold.set_open(apart)
        if apart:
            self._scroll.verticalScrollBar().setValue(0)
        else:
            self._unfolded = []
        self._halves.invalidate()
        self._halves.activate()

    def _fit_glances(self) -> None:
        apart = self.width() >= APART
        if apart != self._apart:  # rows have their widths a turn later
            self._set_apart(apart)
            QTimer.singleShot(0, self, self._fit_glances)
        crowded = any(row.is_crowded for row in self.rows)
        for row in self.rows:
            row.set_bare(crowded)
        wide = self.width() >= TABLES and not self._apart
        if wide == self._tables:
            return
        self._tables = wide
        for glance, _ in self._glances:
            glance.set_wide(wide)
        for fold in self.folds:
            fold.refit()
        self._halves.invalidate()
        self._halves.activate()

    def _knobs(self) -> tuple[Knob, ...]:
        return knobs_for(self._document.scenario, self.operation, self._held)

    def _fold(
        self,
        title: str,
        build: Callable[[], QWidget],
        told: Glimpse,
    ) -> Fold:
        glance = Glance()
        self._glances.append((glance, told))
        fold = Fold(title, build, glance=glance)
        self.folds.append(fold)
        return fold

    def succeed(self, other: KnobPanel) -> None:
        """Look like another panel: the same operation in hand, the same folds open."""
        self.operation, self._held = other.operation, other._held
        for fold, old in zip(self.folds, other.folds, strict=True):
            fold.set_open(old.button.isChecked())
        self.refresh()

    # --- what a person did ---

    def _on_edited(self, value: float) -> None:
        row = self.sender()
        assert isinstance(row, KnobRow)
        self._editing = row
        if row.knob.key == "pulse":
            # What somebody sets stays in the hand, even where another phase is now larger.
            self._held = row.knob.path
        fault = self._document.attempt(row.knob.path, int(value) if row.knob.whole else value)
        self._editing = None
        if fault and not row.refuse(fault):
            self._document.refused.emit(fault)
            self.refresh()

    def _on_reset(self) -> None:
        row = self.sender()
        assert isinstance(row, KnobRow)
        try:
            value = get_value(self._document.start, row.knob.path)
        except KeyError:  # the store or the phases are of another kind than at the start
            return
        self._document.begin_gesture()
        self._document.edit(row.knob.path, value)

    def _on_operation(self, index: int) -> None:
        self.operation, self._held = index, ""
        self.refresh()

    # --- what the program did ---

    def _on_changed(self, _: Scenario) -> None:
        self._found = {}
        for row in self.rows:
            # A knob's own value does not move its break-even, a change of anything else does.
            if row is not self._editing:
                row.set_pending()
        self.refresh()

    def _on_file_changed(self) -> None:
        self.operation, self._held = 0, ""
        self.refresh()

    def _on_break_evens(self, found: dict[str, BreakEven]) -> None:
        self._found = found
        for row in self.rows:
            if row.knob.path in found:
                row.set_break_even(found[row.knob.path])

    # --- details, loaded and built when first opened ---

    def _build_light(self) -> QWidget:
        from explorer.widgets.forms.section_form import SectionForm
        from explorer.widgets.light_log_note import LightLogNote
        from explorer.widgets.source_note import SourceNote

        return _Pages(
            SectionForm(self._document, "", keys=("place",)),
            SourceNote(self._document),
            LightLogNote(self._document, self.logs),
            SectionForm(self._document, "light", hidden=frozenset({"illuminance_lx"})),
        )

    def _build_supply(self) -> QWidget:
        from explorer.widgets.forms.section_form import SectionForm, heading

        return _Pages(
            self._part_line("panel"),
            SectionForm(self._document, "panels", hidden=frozenset({"count"})),
            self._caution_line("panel"),
            heading(tr("Charger")),
            self._part_line("charger"),
            self._caution_line("charger"),
            SectionForm(
                self._document, "charger", kinds=(ConverterCharger, DirectCharger), title=tr("Kind")
            ),
        )

    def _build_store(self) -> QWidget:
        from explorer.widgets.forms.section_form import SectionForm

        return _Pages(
            self._part_line("store"),
            self._caution_line("store"),
            SectionForm(
                self._document,
                "store",
                kinds=(CapacitorStore, SupercapacitorStore, CellStore),
                title=tr("Kind"),
                hidden=frozenset({"capacitance_F", "capacity_mAh"}),
            )
        )

    def _build_load(self) -> QWidget:
        from explorer.widgets.cut_off_note import CutOffNote
        from explorer.widgets.forms.pulse_timing import PulseTiming
        from explorer.widgets.forms.section_form import SectionForm

        self._timing = PulseTiming(self._document)
        self._timing.set_operation(self.operation, self._held)
        return _Pages(
            self._part_line("load"),
            self._timing,
            SectionForm(self._document, "load", keys=_LOAD_FIRST),
            CutOffNote(self._document),
            SectionForm(self._document, "load", keys=_LOAD_ORDER),
            self._caution_line("load"),
        )

    def _part_line(self, kind: PartKind) -> PartLine:
        from explorer.widgets.parts.part_line import PartLine

        line = PartLine(self._document, kind)
        line.wanted.connect(self.parts_wanted)
        return line

    def _caution_line(self, where: Where) -> CautionLine:
        from explorer.widgets.help.caution_line import CautionLine

        line = CautionLine(self._document, where)
        line.wanted.connect(self.cautions_wanted)
        return line

    def _build_margins(self) -> QWidget:
        from explorer.widgets.forms.section_form import SectionForm

        return _Pages(
            SectionForm(self._document, "margins"), SectionForm(self._document, "", keys=("notes",))
        )


_LOAD_FIRST = ("operations", "connect_V", "disconnect_V")
_LOAD_ORDER = (
    "minimum_V",
    "sleep_A",
    "bulk_capacitance_F",
    "start_up",
    "regulator",
    "retry_delay_s",
    "output_limit_A",
    "indicator_V",
    "indicator_share",
    "reserve_J",
    "actuator",
)


class _Pages(QWidget):
    """Forms and headings one below the other."""

    def __init__(self, *parts: QWidget) -> None:
        from explorer.widgets.forms.section_form import SectionForm

        super().__init__()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 2, 0, 10)
        layout.setSpacing(6)
        for part in parts:
            layout.addWidget(part)
            if isinstance(part, SectionForm):
                part.connect_to_document()
