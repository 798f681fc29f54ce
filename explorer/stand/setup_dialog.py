"""The operator's page before the stand begins: what is shown, what may be moved, and when."""

from __future__ import annotations

from functools import partial
from typing import get_args

from PySide6.QtCore import QElapsedTimer, QLocale, QSize, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QPalette
from PySide6.QtWidgets import (
    QAbstractButton,
    QCheckBox,
    QDialog,
    QDoubleSpinBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QSpinBox,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from explorer.scenario.model import Scenario
from explorer.stand.counts import Counts
from explorer.stand.fairness import unfair
from explorer.stand.leave import LEAVE_TEXT
from explorer.stand.legibility import Fit, Sizes, fit_of, sizes_for
from explorer.stand.parked import MOST_KEPT, ParkedScenarios
from explorer.stand.phrases import parked_text
from explorer.stand.scenario_list import ScenarioList
from explorer.stand.setup_fields import HomeFields, KeepingFields
from explorer.state import theme
from explorer.state.jobs import JobRunner
from explorer.state.language import language, tr
from explorer.state.stand_plan import SHORTEST_WARNING_S, TITLE, KnobKey, StandPlan
from explorer.state.theme import ThemeChoice, tokens_of
from explorer.text import Text, say
from explorer.widgets.buttons import PillButton
from explorer.widgets.fields import CalmComboBox, Field, OutlinedCheckBox
from explorer.widgets.outlined_list import OutlinedList
from explorer.widgets.tabs import OutlinedTabs

_KNOB_NAMES: dict[KnobKey, str] = {
    "light": say("&Light", "knob"),
    "panels": say("&Panels", "knob"),
    "store": say("St&ore", "knob"),
    "pulse": say("Loa&d pulse", "knob"),
}
_THEME_NAMES: dict[ThemeChoice, str] = {
    "light": say("Light", "theme"),
    "dark": say("Dark", "theme"),
    "contrast": say("High contrast"),
    "system": say("As the system"),
}
FAIR_JOB = "fair"
STILL_HELD_MS = 1000
"""An Esc that comes within this time after another one, or after the stand, is still that one."""
_HINT = say(
    "Before leaving it unattended: switch off the screen saver and system notifications, "
    "and give visitors no keyboard that can switch programs."
)


class SetupDialog(QDialog):
    """Shows a plan and gives back another one; `started` says that the stand may begin."""

    started = Signal(object)
    """Carries the `StandPlan`."""
    open_wanted = Signal(object)
    """Carries a parked `Scenario`."""

    def __init__(
        self,
        plan: StandPlan,
        parked: ParkedScenarios,
        resolution: QSize | None = None,
        parent: QWidget | None = None,
        *,
        counts: Counts | None = None,
    ) -> None:
        super().__init__(parent)
        self._jobs = JobRunner(self)
        self._esc = QElapsedTimer()
        """Since when an Esc that ended the stand was last seen to be held; invalid for none."""
        self._jobs.arrived.connect(self._on_job)
        self.setWindowTitle(tr("Stand"))
        self._parked = parked
        screen = QGuiApplication.primaryScreen()
        size = resolution or screen.size()
        self._resolution = (size.width(), size.height())
        self.scenarios = ScenarioList(plan.scenarios)
        self.title = Field()
        # The program's own title in the language on show, an operator's as it is.
        self.title.setText(tr(plan.title) if isinstance(plan.title, Text) else plan.title)
        self.title.setMaxLength(120)
        self.contact = Field()
        self.contact.setText(plan.contact)
        self.contact.setMaxLength(160)
        self.idle = _seconds(plan.idle_s, 10, 3600, tr("Quiet time before the warning"))
        self.warning = _seconds(
            plan.warning_s, SHORTEST_WARNING_S, 300, tr("Countdown of the warning, 20 s at least")
        )
        self.cycle = _seconds(plan.cycle_s, 5, 600, tr("Time each scenario stays in the loop"))
        self.diagonal = _measure(
            plan.diagonal_in, 5, 150, tr(" in", "inches"), tr("Screen diagonal, inches")
        )
        self.distance = _measure(plan.distance_m, 0.3, 20, " m", tr("Viewing distance, metres"))
        self.theme_choice = CalmComboBox()
        for choice in get_args(ThemeChoice):
            self.theme_choice.addItem(tr(_THEME_NAMES[choice]), choice)
        self.theme_choice.setCurrentIndex(self.theme_choice.findData(plan.theme))
        self.reduced = OutlinedCheckBox(tr("No &motion between scenarios"))
        self.reduced.setChecked(plan.reduced_motion)
        self.movable = {key: OutlinedCheckBox(tr(name)) for key, name in _KNOB_NAMES.items()}
        for key, box in self.movable.items():
            box.setChecked(key in plan.movable)
            box.toggled.connect(self._check)
        self.home = HomeFields(plan)
        spins: dict[str, QSpinBox | QDoubleSpinBox] = {
            "idle": self.idle, "warning": self.warning, "cycle": self.cycle,
        }  # fmt: skip
        self.keeping = KeepingFields(plan, counts or Counts(None), spins)
        self.fair_text = _wrapped()
        self.fair_text.setFont(theme.font("small", bold=True))
        self.fair_text.hide()
        self.fit_text = _wrapped()
        self.fit_text.setObjectName("fit")
        self.problem_text = _wrapped()
        self.problem_text.setFont(theme.font("body", bold=True))
        self.parked_list = OutlinedList()
        self.parked_list.setAccessibleName(tr("Scenarios left by visitors, newest first"))
        self.parked_list.setMinimumHeight(96)
        self.open_parked = PillButton()
        self.open_parked.setText(tr("Open in the main window"))
        self.forget = PillButton()
        self.forget.setText(tr("Delete all"))
        self.start = PillButton()
        self.start.setText(tr("Start the stand"))
        self.start.setCheckable(True)
        self.start.setChecked(True)  # painted filled: the one thing to do
        self.close_button = PillButton()
        self.close_button.setText(tr("Close"))
        for button in (self.start, self.close_button):
            button.setMinimumHeight(32)
        self._build()
        self.scenarios.changed.connect(self._check)
        self.diagonal.valueChanged.connect(self._show_fit)
        self.distance.valueChanged.connect(self._show_fit)
        self.start.clicked.connect(self._on_start)
        self.close_button.clicked.connect(self.reject)
        self.open_parked.clicked.connect(self._on_open_parked)
        self.parked_list.itemDoubleClicked.connect(self._on_open_parked)
        self.forget.clicked.connect(self._on_forget)
        self.show_parked()
        self.show_problems(tuple(parked.problems))
        self._show_fit()
        self._check()

    def _build(self) -> None:
        left = QVBoxLayout()
        left.setSpacing(6)
        left.addWidget(self.scenarios, 3)
        left.addWidget(self.fair_text)
        left.addSpacing(8)
        heading = QLabel(tr("Left by visitors, the last {number}", number=MOST_KEPT))
        heading.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        left.addWidget(heading)
        left.addWidget(self.parked_list, 2)
        row = QHBoxLayout()
        row.addWidget(self.open_parked)
        row.addWidget(self.forget)
        row.addStretch(1)
        left.addLayout(row)
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.setVerticalSpacing(8)
        form.addRow(tr("&Title"), self.title)
        form.addRow(tr("Co&ntact line"), self.contact)
        form.addRow(tr("T&heme"), self.theme_choice)
        form.addRow("", self.reduced)
        knobs = QHBoxLayout()
        knobs.setSpacing(12)
        for box in self.movable.values():
            knobs.addWidget(box)
        knobs.addStretch(1)
        form.addRow(tr("Sliders for visitors"), knobs)
        form.addRow(tr("Screen dia&gonal"), self.diagonal)
        form.addRow(tr("&Viewing distance"), self.distance)
        form.addRow("", self.fit_text)
        form.setContentsMargins(12, 12, 12, 8)
        page = QWidget()
        page.setLayout(form)
        self.tabs = OutlinedTabs()
        self.tabs.addTab(page, tr("Page"))
        self.tabs.addTab(self.home, tr("Visitors"))
        self.tabs.addTab(self.keeping, tr("Keeping"))
        for arrow in self.tabs.tabBar().findChildren(QToolButton):
            arrow.setAccessibleName(tr("More pages"))  # Qt's own name knows only Qt's languages
        right = QVBoxLayout()
        right.setSpacing(6)
        right.addWidget(self.tabs, 1)
        leaving = _wrapped()
        leaving.setText(f"{tr(LEAVE_TEXT)}\n{tr(_HINT)}")
        right.addWidget(leaving)
        self.title.setAccessibleName(tr("Title"))
        self.contact.setAccessibleName(tr("Contact line"))
        self.theme_choice.setAccessibleName(tr("Theme"))
        columns = QHBoxLayout()
        columns.setSpacing(24)
        columns.addLayout(left, 4)
        columns.addLayout(right, 5)
        foot = QHBoxLayout()
        foot.addStretch(1)
        foot.addWidget(self.close_button)
        foot.addWidget(self.start)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 16, 16, 12)
        layout.addLayout(columns, 1)
        layout.addWidget(self.problem_text)
        layout.addLayout(foot)
        self.resize(940, 640)
        for part in self._drawn_by_the_style():
            outline(part)

    def _drawn_by_the_style(self) -> list[QWidget]:
        spins = [self.idle, self.warning, self.cycle, self.diagonal, self.distance]
        return [*spins, self.parked_list, self.scenarios.items]

    # --- what it shows ---

    def plan(self) -> StandPlan:
        """The plan as it is set now."""
        return StandPlan(
            scenarios=self.scenarios.names(),
            idle_s=self.idle.value(),
            warning_s=self.warning.value(),
            cycle_s=self.cycle.value(),
            movable=tuple(key for key in _KNOB_NAMES if self.movable[key].isChecked()),
            title=TITLE if self.title.text() == tr(TITLE) else self.title.text(),
            contact=self.contact.text(),
            diagonal_in=self.diagonal.value(),
            distance_m=self.distance.value(),
            theme=self.theme_choice.currentData(),
            reduced_motion=self.reduced.isChecked(),
            **self.home.values(),
            **self.keeping.values(),
        )

    def show_problems(self, problems: tuple[str, ...]) -> None:
        """Say what could not be used."""
        self.problem_text.setText("\n".join(tr(problem) for problem in problems))
        self.problem_text.setVisible(bool(problems))

    def show_parked(self) -> None:
        """List what visitors left."""
        self.parked_list.clear()
        for item in self._parked.items:
            text = parked_text(item.scenario.title, item.word, item.saved_at)
            self.parked_list.addItem(tr(text))
        some = bool(self._parked.items)
        if some:
            self.parked_list.setCurrentRow(0)
        self.open_parked.setEnabled(some)
        self.forget.setEnabled(some)

    def fit(self) -> Fit:
        """Whether the screen carries the page."""
        return fit_of(self._resolution, self.diagonal.value(), self.distance.value())

    def _show_fit(self) -> None:
        sizes: Sizes = sizes_for(self._resolution, self.diagonal.value(), self.distance.value())
        width, height = self._resolution
        drawn = tr(
            "At {width} × {height} the word is {word} px high, the number {number} px, the "
            "names {names} px, text within reach {near} px, buttons {target} px.",
            width=width,
            height=height,
            word=f"{sizes.word:.0f}",
            number=f"{sizes.number:.0f}",
            names=f"{sizes.axis:.0f}",
            near=f"{sizes.near:.0f}",
            target=sizes.target,
        )
        self.fit_text.setText(f"{tr(self.fit().sentence)}\n{drawn}")

    def _check(self) -> None:
        ready = bool(self.scenarios.names()) and any(b.isChecked() for b in self.movable.values())
        self.start.setEnabled(ready)
        missing = tr("Select at least one scenario and one slider for visitors.")
        self.start.setToolTip("" if ready else missing)
        if ready:
            movable = tuple(key for key, box in self.movable.items() if box.isChecked())
            self._jobs.ask(FAIR_JOB, partial(unfair, self.scenarios.names(), movable))

    def _on_job(self, key: str, found: object) -> None:
        """What was found out about the exhibits."""
        if key == FAIR_JOB and isinstance(found, tuple):
            self.fair_text.setText("\n".join(tr(sentence) for sentence in found))
            self.fair_text.setVisible(bool(found))

    def done(self, result: int) -> None:
        """Close; nothing that was asked arrives any more."""
        self._jobs.retire()
        self._jobs.finish()
        super().done(result)

    # --- what a person did ---

    def mind_held_esc(self) -> None:
        """Do not close for the Esc that ended the stand and is held on."""
        self._esc.start()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return starts the stand, unless the part in focus does something else with it."""
        if event.key() == Qt.Key.Key_Escape and self._esc_is_held(event):
            return
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif not event.isAutoRepeat():
            self._on_return()

    def _esc_is_held(self, event: QKeyEvent) -> bool:
        if not self._esc.isValid():
            return False
        held = event.isAutoRepeat() or self._esc.elapsed() < STILL_HELD_MS
        if held:
            self._esc.start()
        else:
            self._esc.invalidate()
        return held

    def _on_return(self) -> None:
        part = self.focusWidget()
        if isinstance(part, QAbstractButton) and not isinstance(part, QCheckBox):
            part.click()
        elif part is self.parked_list and self.open_parked.isEnabled():
            self._on_open_parked()
        else:
            self.start.click()

    def _on_start(self) -> None:
        self.start.setChecked(True)
        if not self.keeping.is_right():
            self.tabs.setCurrentWidget(self.keeping)
            return
        self.started.emit(self.plan())

    def _on_open_parked(self) -> None:
        row = self.parked_list.currentRow()
        if 0 <= row < len(self._parked.items):
            scenario: Scenario = self._parked.items[row].scenario
            self.open_wanted.emit(scenario)

    def _on_forget(self) -> None:
        self._parked.clear()
        self.show_parked()


def _seconds(value: int, low: int, high: int, name: str) -> QSpinBox:
    box = QSpinBox()
    box.setRange(low, high)
    box.setValue(value)
    box.setSuffix(" s")
    box.setKeyboardTracking(False)
    box.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    box.setAccessibleName(tr("{name}, seconds", name=name))
    box.setToolTip(name)
    box.setMaximumWidth(120)
    return box


def _measure(value: float, low: float, high: float, unit: str, name: str) -> QDoubleSpinBox:
    box = QDoubleSpinBox()
    box.setLocale(QLocale(language()))  # for its decimal mark
    box.setDecimals(1)
    box.setRange(low, high)
    box.setSingleStep(0.5)
    box.setValue(value)
    box.setSuffix(unit)
    box.setKeyboardTracking(False)
    box.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    box.setAccessibleName(name)
    box.setMaximumWidth(120)
    return box


def outline(widget: QWidget) -> None:
    """Give a widget that the style draws an outline that shows in every theme.

    The style derives it from the window's colour, darkened by 1.4; the widget itself paints no
    such ground.
    """
    palette = QPalette()
    edge = tokens_of(widget.palette()).color("edge")
    palette.setColor(QPalette.ColorRole.Window, edge.lighter(140))
    widget.setPalette(palette)


def _wrapped() -> QLabel:
    label = QLabel()
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setFont(theme.font("small"))
    return label
