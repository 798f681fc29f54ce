"""Under which conditions a run was logged: its light, what was connected, how it began."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialog, QGridLayout, QLabel, QVBoxLayout, QWidget

from explorer.files.story import RunFile
from explorer.quantity import show
from explorer.scenario.logged_run import BRIGHTEST_LX, MOST_A, Conditions, Draw
from explorer.scenario.weekdays import WEEKDAYS
from explorer.state import theme
from explorer.state.language import tr
from explorer.text import capitalised, say, texts
from explorer.widgets.buttons import dialog_foot, pill
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.fields import CalmComboBox, OutlinedCheckBox
from explorer.words.conditions import DRAW_NAMES
from explorer.words.options import option

_LIGHTS = texts(("As in the design, or as logged", "Dark", "Steady, known"))
_DESIGN, _DARK, _STEADY = range(3)
_BEGINNINGS = texts(("As the readings say", "The device was on", "The device was off"))
_ON: tuple[bool | None, ...] = (None, True, False)
_DRAWS: tuple[Draw, ...] = ("design", "asleep", "off", "current")
USUAL_LX, USUAL_A = 500.0, 0.01
LIGHT_PERCENT = 15.0
"""How well a lux meter at the panel tells the light."""
_SAFE = say(
    "Empty a supercapacitor or a cell only through a load that it is made for; short circuits burn."
)


class RunDialog(QDialog):
    """Asks what was otherwise than in the design while one run was logged.

    Parameters
    ----------
    run : RunFile
        As it is known so far.
    same_meter : bool
        Whether later runs were logged with the meters of the others.
    dated : bool
        Whether the log says when it began.
    """

    taken = Signal(object, bool)
    """Carries the run with its conditions, and whether the meters were the same."""

    def __init__(
        self, run: RunFile, *, same_meter: bool, dated: bool, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._run, self._dated = run, dated
        self.setWindowTitle(tr("Conditions of {name}", name=run.path.name))
        told = run.conditions
        self.light = _choice(_LIGHTS, tr("Light"))
        self.level, self.level_known = ExactField("lx"), ExactField("%")
        self.draw = _choice([capitalised(DRAW_NAMES[d]) for d in _DRAWS], tr("Connected"))
        self.current, self.current_known = ExactField("A"), ExactField("%")
        self.first = _choice(_BEGINNINGS, tr("At the first reading"))
        self.day = _choice(["–", *(option(day) for day in WEEKDAYS)], tr("Begins on"))
        self.hour = ExactField("h")
        self.later = OutlinedCheckBox(tr("Logged months after the others: tell what has aged"))
        self.meter = OutlinedCheckBox(tr("Later runs were logged with the same meters"))
        self.fault = FaultLine()
        for field, name in (
            (self.level, tr("Illuminance")),
            (self.level_known, tr("Illuminance known to, per cent")),
            (self.current, tr("Current drawn")),
            (self.current_known, tr("Current known to, per cent")),
            (self.hour, tr("Hour of the day at which it begins")),
        ):
            field.setAccessibleName(name)
            field.fault_changed.connect(self.fault.say)
        lit = told.light_lx not in (None, 0.0)
        self.light.setCurrentIndex(_STEADY if lit else _DARK if told.light_lx == 0 else _DESIGN)
        self.level.set_value(told.light_lx if lit else USUAL_LX)
        share = told.light_share
        self.level_known.set_value(LIGHT_PERCENT if share is None else 100 * share)
        self.draw.setCurrentIndex(_DRAWS.index(told.draw))
        self.current.set_value(told.current_A or USUAL_A)
        self.current_known.set_value(100 * told.current_share)
        self.first.setCurrentIndex(_ON.index(told.connected))
        if told.begins_s is not None:
            self.day.setCurrentIndex(1 + int(told.begins_s // 86_400.0))
        self.hour.set_value((told.begins_s or 0.0) % 86_400.0 / 3600.0)
        self.later.setChecked(run.is_later)
        self.meter.setChecked(same_meter)
        self._wire()
        self._lay_out()
        self._show()

    def _wire(self) -> None:
        for field, most in (
            (self.level, BRIGHTEST_LX), (self.level_known, 100.0), (self.current, MOST_A),
            (self.current_known, 100.0), (self.hour, 24.0),
        ):  # fmt: skip
            field.setProperty("most", most)
            field.entered.connect(self._on_entered)
        self.light.currentIndexChanged.connect(self._show)
        self.draw.currentIndexChanged.connect(self._show)
        self.day.currentIndexChanged.connect(self._show)
        self.later.toggled.connect(self._show)

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(8)
        grid.setColumnStretch(1, 1)
        rows: tuple[tuple[str, tuple[QWidget, ...]], ...] = (
            (tr("Light"), (self.light, self.level, QLabel("±"), self.level_known)),
            (tr("Connected"), (self.draw, self.current, QLabel("±"), self.current_known)),
            (tr("At the first reading"), (self.first,)),
            (tr("Begins on"), (self.day, self.hour)),
        )
        for row, (text, widgets) in enumerate(rows):
            label = QLabel(text)
            label.setBuddy(widgets[0])
            grid.addWidget(label, row, 0)
            for column, widget in enumerate(widgets, 1):
                grid.addWidget(widget, row, column)
        for field in (self.level_known, self.current_known):
            field.setFixedWidth(70)
        self.safe = QLabel(tr(_SAFE))
        self.safe.setWordWrap(True)
        self.safe.setFont(theme.font("small"))
        self.take_button = pill(tr("Use"), tr("Compare under these conditions"))
        self.cancel_button = pill(tr("Cancel"), tr("Leave everything as it is"))
        self.take_button.clicked.connect(self._on_take)
        self.cancel_button.clicked.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 14, 16, 14)
        layout.setSpacing(10)
        layout.addLayout(grid)
        layout.addWidget(self.later)
        layout.addWidget(self.meter)
        layout.addWidget(self.safe)
        layout.addStretch(1)
        layout.addLayout(dialog_foot(self.fault, self.cancel_button, self.take_button))
        self.setMinimumWidth(560)

    def _show(self) -> None:
        """Only what the choices made need."""
        steady = self.light.currentIndex() == _STEADY
        current = _DRAWS[self.draw.currentIndex()] == "current"
        self.level.setEnabled(steady)
        self.level_known.setEnabled(steady)
        self.current.setEnabled(current)
        self.current_known.setEnabled(current)
        self.day.setEnabled(not self._dated)
        self.hour.setEnabled(not self._dated and self.day.currentIndex() > 0)
        if self._dated:
            self.day.setToolTip(tr("The log has dates."))
        self.meter.setEnabled(self.later.isChecked())
        self.safe.setVisible(current)

    @property
    def conditions(self) -> Conditions:
        """What stands in the dialog."""
        told = Conditions()
        chosen = self.light.currentIndex()
        if chosen == _DARK:
            told = replace(told, light_lx=0.0)
        elif chosen == _STEADY:
            told = replace(told, light_lx=self.level.value, light_share=_share(self.level_known))
        draw = _DRAWS[self.draw.currentIndex()]
        if draw == "current":
            told = replace(
                told, draw=draw, current_A=self.current.value or USUAL_A,
                current_share=_share(self.current_known),
            )  # fmt: skip
        else:
            told = replace(told, draw=draw)
        day = self.day.currentIndex()
        if day > 0 and not self._dated:
            told = replace(told, begins_s=(day - 1) * 86_400.0 + 3600.0 * (self.hour.value or 0.0))
        return replace(told, connected=_ON[self.first.currentIndex()])

    def _on_entered(self, value: object) -> None:
        field = self.sender()
        assert isinstance(field, ExactField)
        most = float(field.property("most"))
        low_open = field in (self.level, self.current)
        if not isinstance(value, float) or not 0.0 <= value <= most or (low_open and value == 0):
            end = show(most, field.unit)
            field.refuse(
                say("Allowed is above 0 and up to {most}.", most=end) if low_open
                else say("Allowed is 0 to {most}.", most=end)
            )  # fmt: skip
            return
        field.set_value(value)

    def _on_take(self) -> None:
        if (typing := self.focusWidget()) is not None:
            typing.clearFocus()  # what is being typed counts
        if self.fault.text():
            return
        run = replace(self._run, conditions=self.conditions, is_later=self.later.isChecked())
        self.taken.emit(run, self.meter.isChecked())
        self.accept()


def _choice(names: Sequence[str], spoken: str) -> CalmComboBox:
    box = CalmComboBox()
    for name in names:
        box.addItem(tr(name))
    box.setAccessibleName(spoken)
    return box


def _share(field: ExactField) -> float:
    return 0.01 * (field.value or 0.0)
