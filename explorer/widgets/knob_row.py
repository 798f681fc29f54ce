"""One knob: label, exact field with its steps, slider, and the sentence on where it breaks even."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.knobs import Knob
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.knob_slider import KnobSlider
from explorer.widgets.pending import PendingLabel
from explorer.words.edges import break_even_text
from explorer.words.readout import bind_units

if TYPE_CHECKING:
    from explorer.advice.break_even import BreakEven

_TIP = say(
    "Arrow keys move one step, digits go into the field, Delete or a double-click on the handle "
    "restores the start value."
)


_FIELD, _BARE_FIELD = 84, 78
"""Widths of the number beside its steps and without them. [px]"""


class ResetLabel(QLabel):
    """A label whose double-click asks for the starting value."""

    reset_wanted = Signal()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Ask for the starting value."""
        self.reset_wanted.emit()
        event.accept()


class KnobRow(QWidget):
    """Shows one value; emits `edited` only for what a person did."""

    edited = Signal(float)
    gesture_started = Signal()
    reset_wanted = Signal()
    def __init__(self, knob: Knob, mnemonic: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._mnemonic = mnemonic
        self._value = knob.stops[0]
        self._told = False
        """Whether the sentence belongs to the design on show."""
        self.label = ResetLabel()
        self.label.setFont(theme.font("body", bold=True))
        self.slider = KnobSlider(knob)
        self.field = ExactField(knob.unit, whole=knob.whole)
        self.field.setFont(theme.font("body", bold=True))
        self.field.setFixedWidth(_FIELD)
        self.down = self._step_button("remove")
        self.up = self._step_button("add")
        self._bare = False
        self._keep_room(True)
        self.sentence = PendingLabel()
        self.sentence.setFont(theme.font("small"))
        self.sentence.setWordWrap(True)
        self.sentence.setForegroundRole(self.sentence.palette().ColorRole.PlaceholderText)
        self.label.setBuddy(self.slider)
        self.label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        head = QHBoxLayout()
        head.setSpacing(1)
        head.addWidget(self.label, 1)
        for part in (self.down, self.field, self.up):
            head.addWidget(part)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        self.fault = FaultLine()
        self._typed = False
        layout.addLayout(head)
        layout.addWidget(self.fault)
        layout.addWidget(self.slider)
        layout.addWidget(self.sentence)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.slider.picked.connect(self._on_picked)
        self.slider.gesture_started.connect(self.gesture_started)
        self.slider.reset_wanted.connect(self.reset_wanted)
        self.slider.typed.connect(self._on_typed)
        self.label.reset_wanted.connect(self.reset_wanted)
        self.field.entered.connect(self._on_entered)
        self.field.stepped.connect(self._on_stepped)
        self.field.fault_changed.connect(self._on_fault)
        self.down.clicked.connect(self._on_down)
        self.up.clicked.connect(self._on_up)
        self.set_knob(knob)

    def set_knob(self, knob: Knob) -> None:
        """Move another value: its name, unit and stops."""
        self.knob = knob
        self.setObjectName(f"knob_{knob.key}")
        label, unit = tr(knob.label), tr(knob.unit)
        at = label.lower().find(self._mnemonic.lower()) if self._mnemonic else -1
        self.label.setText(f"{label[:at]}&{label[at:]}" if at >= 0 else label)
        self._told = False
        self.sentence.set_pending()
        self.slider.set_knob(knob)
        self.field.set_unit(knob.unit)
        spoken = f"{label}, {unit}" if unit else label
        for part in (self.slider, self.field):
            part.setAccessibleName(spoken)
            part.setToolTip(f"{tr(knob.help)}\n{tr(_TIP)}")
        self.down.setAccessibleName(tr("{label}: one step down", label=label))
        self.up.setAccessibleName(tr("{label}: one step up", label=label))
        self._make_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave the steps out where the name would be cut; keys and slider do the same."""
        super().resizeEvent(event)
        self._make_room()

    @property
    def is_crowded(self) -> bool:
        """Whether the name is cut even where the steps are left out but for their room."""
        needed = self.label.sizeHint().width() + _FIELD + self.up.width() + 3
        return needed > self.width()

    def set_bare(self, bare: bool) -> None:
        """Leave out the steps and their room; all rows of a column alike, so that they line up."""
        if bare != self._bare:
            self._bare = bare
            self._keep_room(not bare)
            self.field.setFixedWidth(_BARE_FIELD if bare else _FIELD)
            self._make_room()

    def _keep_room(self, keep: bool) -> None:
        policy = self.up.sizePolicy()
        policy.setRetainSizeWhenHidden(keep)  # so that the fields of all rows stay in line
        self.up.setSizePolicy(policy)

    def _make_room(self) -> None:
        steps = self.down.width() + self.up.width() + 3
        needed = self.label.sizeHint().width() + self.field.width() + steps
        room = needed <= self.width() and not self._bare
        if room is self.down.isHidden():
            for button in (self.down, self.up):
                button.setVisible(room)
            # Within a resize of this row Qt leaves the name as narrow as it was with them.
            layout = self.layout()
            assert layout is not None
            layout.activate()

    def set_value(self, value: float) -> None:
        """Show `value` without emitting."""
        if self.field.shows(value) and self.slider.shows(value):
            return
        self._value = value
        self.field.set_value(value)
        self.slider.set_exact(value, self.field.shown)
        self.field.setAccessibleDescription(self.field.shown)

    def refuse(self, sentence: str) -> bool:
        """Say beside a typed value why it was not taken; False where nothing was typed."""
        if self._typed:
            self.field.refuse(sentence)
        return self._typed

    def set_break_even(self, found: BreakEven) -> None:
        """Show where on the track the design runs, and say it.

        A draft changes no sentence that still holds.
        """
        if found.is_draft and self._told:
            return
        self._told = not found.is_draft
        self.slider.set_states(found.states, found.best)
        self.sentence.show_text(bind_units(tr(break_even_text(found, self.knob.unit))))

    def set_pending(self) -> None:
        """The break-even on show holds no longer, and another is on its way."""
        self._told = False
        self.slider.set_pending()
        self.sentence.set_pending()

    def _step_button(self, name: str) -> PillButton:
        button = PillButton(outlined=False)
        button.show_icon(name)
        button.setIconSize(QSize(12, 12))
        button.setFixedSize(24, 26)
        button.setAutoRepeat(True)
        button.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the field's arrow keys do the same
        return button

    def _on_typed(self, digit: str) -> None:
        """What is typed over the handle goes into the field."""
        self.field.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.field.selectAll()
        self.field.insert(digit)

    def _on_picked(self, value: float) -> None:
        self._emit(value)

    def _on_entered(self, value: object) -> None:
        assert isinstance(value, float | int)
        self.gesture_started.emit()
        self._typed = True
        self._emit(float(value))
        self._typed = False

    def _on_stepped(self, steps: int) -> None:
        self.gesture_started.emit()
        self._emit(self.knob.step(self._value, steps))

    def _on_fault(self, sentence: str) -> None:
        self.fault.say(sentence)

    def _on_down(self) -> None:
        self._on_stepped(-1)

    def _on_up(self) -> None:
        self._on_stepped(1)

    def _emit(self, value: float) -> None:
        if value != self._value:
            self.edited.emit(value)
