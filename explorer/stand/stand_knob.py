"""One knob of the stand: name and value, minus, slider, plus, and where the verdict changes."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.advice.break_even import BreakEven
from explorer.quantity import show
from explorer.stand.arrangement import slider_height
from explorer.stand.big_button import BigButton
from explorer.stand.big_slider import BigSlider
from explorer.stand.fit_label import FitLabel
from explorer.stand.legibility import Sizes
from explorer.stand.phrases import knob_label
from explorer.state.knobs import Knob
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.card import RADIUS, Card
from explorer.words.edges import break_even_text
from explorer.words.readout import bind_units

_REPEAT_AFTER_MS, _REPEAT_MS = 450, 140


class StandKnob(Card):
    """Shows one value; emits `edited` only for what a person did."""

    edited = Signal(float)
    gesture_started = Signal()
    reset_wanted = Signal()

    def __init__(self, knob: Knob, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._value = knob.stops[0]
        self._sizes: Sizes | None = None
        self._said = ""
        self.hint: float | None = None
        """Value to which the way forward leads; None where it does not lead over this knob."""
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        self.label = FitLabel(role="soft", parent=self)
        self.value = FitLabel(bold=True, align=right, parent=self)
        self.down = BigButton(sign="less", parent=self)
        self.slider = BigSlider(knob, self)
        self.up = BigButton(sign="more", parent=self)
        self.sentence = FitLabel(role="soft", wraps=True, parent=self)
        self.way = FitLabel(bold=True, parent=self)
        for button in (self.down, self.up):
            button.setAutoRepeat(True)
            button.setAutoRepeatDelay(_REPEAT_AFTER_MS)
            button.setAutoRepeatInterval(_REPEAT_MS)
        self.down.clicked.connect(self._on_down)
        self.up.clicked.connect(self._on_up)
        self.slider.picked.connect(self._on_picked)
        self.slider.gesture_started.connect(self.gesture_started)
        self.slider.reset_wanted.connect(self.reset_wanted)
        self.set_knob(knob)

    def set_knob(self, knob: Knob) -> None:
        """Move another value: its name, unit and stops."""
        self.knob = knob
        self.setObjectName(f"stand_knob_{knob.key}")
        label = tr(knob_label(knob))
        self.label.show_text(label)
        self.slider.set_knob(knob)
        self._said, self.hint = "", None
        self._show_sentence()
        spoken = f"{label}, {knob.unit}" if knob.unit else label
        self.slider.setAccessibleName(spoken)
        self.down.setAccessibleName(tr("{label}: one step down", label=label))
        self.up.setAccessibleName(tr("{label}: one step up", label=label))

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._sizes = sizes
        self.label.set_px(sizes.near)
        self.value.set_px(sizes.near * 1.35)
        self.sentence.set_px(sizes.near * 0.85)
        self.way.set_px(sizes.near * 1.15)
        self.slider.set_sizes(sizes)
        for button in (self.down, self.up):
            button.set_sizes(sizes.near, sizes.target)
        self._place()

    def set_value(self, value: float) -> None:
        """Show `value` without emitting."""
        self._value = value
        text = f"{value:g}" if self.knob.whole else tr(show(value, self.knob.unit))
        self.value.show_text(text)
        self.slider.set_exact(value, text)
        self.down.setEnabled(value > self.knob.stops[0])
        self.up.setEnabled(value < self.knob.stops[-1])

    def set_break_even(self, found: BreakEven) -> None:
        """Show where on the track the design runs, and say it."""
        self.slider.set_states(found.states)
        self.say(break_even_text(found, self.knob.unit))

    def say(self, sentence: str) -> None:
        """What stands below the track, unless the way forward does."""
        self._said = tr(bind_units(sentence))
        self._show_sentence()

    def set_hint(self, value: float | None) -> None:
        """Show that the way forward leads over this knob, and how far."""
        if value != self.hint:
            self.hint = value
            self.slider.set_target(value)
            self._show_sentence()
            self.update()

    def _show_sentence(self) -> None:
        value = self.hint
        self.sentence.show_text(self._said if value is None else "")
        shown = ""
        if value is not None:
            shown = f"{value:g}" if self.knob.whole else bind_units(show(value, self.knob.unit))
        self.way.show_text("→ " + tr("Try {value}", value=shown) if shown else "")

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the card, with a firm outline where the way forward leads over it."""
        super().paintEvent(event)
        if self.hint is not None:
            tokens = tokens_of(self.palette())
            painter = QPainter(self)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(tokens.color("accent"), 3.0))
            rect = QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5)
            painter.drawRoundedRect(rect, RADIUS, RADIUS)
            painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the parts in their places."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        sizes = self._sizes
        if sizes is None:
            return
        pad, target = sizes.gap, sizes.target
        inner = self.width() - 2 * pad
        line = round(sizes.near * 1.7)
        high = slider_height(sizes)
        self.label.setGeometry(pad, 4, round(inner * 0.58), line)
        self.value.setGeometry(pad + round(inner * 0.58), 4, round(inner * 0.42), line)
        top = 4 + line
        self.down.setGeometry(pad, top, target, target)
        self.up.setGeometry(self.width() - pad - target, top, target, target)
        between = round(sizes.gap * 0.7)
        left = pad + target + between
        self.slider.setGeometry(left, top, self.width() - 2 * left, high)
        below = top + high
        for label in (self.sentence, self.way):
            label.setGeometry(pad, below, inner, max(self.height() - below - 4, 0))

    def _on_picked(self, value: float) -> None:
        self._emit(value)

    def _on_down(self) -> None:
        self._step(-1)

    def _on_up(self) -> None:
        self._step(1)

    def _step(self, steps: int) -> None:
        self.gesture_started.emit()
        self._emit(self.knob.step(self._value, steps))

    def _emit(self, value: float) -> None:
        if value != self._value:
            self.edited.emit(value)
