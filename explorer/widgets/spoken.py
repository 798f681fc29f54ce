"""What a screen reader is told of the controls that Qt describes poorly.

A slider of Qt says the index of its stop, on Linux a combo box takes its value for its name, and a
widget that paints itself has no role at all. One factory gives each of them its own description.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, cast

import shiboken6
from PySide6.QtCore import QObject
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QAccessibleWidget, QComboBox, QSlider, QWidget

from explorer.state.language import tr

if TYPE_CHECKING:
    from explorer.widgets.knob_slider import KnobSlider

_LEAST_SWEEP = 256
_UP, _DOWN, _OPEN = "Increase", "Decrease", "ShowMenu"
"""Names of actions by Qt's own convention; a reader translates them."""
Role = QAccessible.Role


class Spoken(QAccessibleWidget):
    """Name and description as they were given, and the role that a painted widget plays.

    It has nothing of its own, since the binding never lets go of what a factory has made.
    """

    @property
    def _widget(self) -> QWidget:
        widget = self.object()
        assert isinstance(widget, QWidget)
        return widget

    def text(self, kind: QAccessible.Text) -> str:
        """Name, value, description."""
        if kind == QAccessible.Text.Name and (name := self._widget.accessibleName()):
            return name
        return super().text(kind)


class SpokenSlider(Spoken):
    """A slider over named stops: quantity, unit, and which of how many."""

    @property
    def _slider(self) -> KnobSlider:
        return cast("KnobSlider", self._widget)

    def text(self, kind: QAccessible.Text) -> str:
        """The value in words; it stands in the description too, where readers find it on Linux."""
        if kind == QAccessible.Text.Value:
            return self._slider.spoken_value()
        if kind == QAccessible.Text.Description:
            return ". ".join((self._slider.spoken_value(), self._slider.toolTip()))
        return super().text(kind)

    def actionNames(self) -> list[str]:
        """One stop up or down."""
        return [_UP, _DOWN]

    def doAction(self, action: str) -> None:
        """Carry one out."""
        if action in (_UP, _DOWN):
            self._slider.step(1 if action == _UP else -1)


class SpokenCombo(Spoken):
    """A choice is called by its label; what is chosen is its value."""

    @property
    def _combo(self) -> QComboBox:
        return cast("QComboBox", self._widget)

    def text(self, kind: QAccessible.Text) -> str:
        """Name, and the choice as value."""
        if kind == QAccessible.Text.Value:
            return self._combo.currentText()
        return super().text(kind)

    def actionNames(self) -> list[str]:
        """It opens."""
        return [_OPEN]

    def doAction(self, action: str) -> None:
        """Show the choices."""
        if action == _OPEN:
            self._combo.showPopup()


@cache
def install() -> None:
    """Let the program describe its controls from now on; Qt would ask each factory it is given."""
    QAccessible.installFactory(_described)


def stop_of(position: int, count: int, value: str) -> str:
    """A value on a slider, as it is spoken."""
    return tr("{value}, stop {n} of {count}", value=value, n=position + 1, count=count)


class _Kept:
    """Interfaces, held for as long as Qt uses them.

    Qt deletes an interface when its widget goes, and knows nothing of Python: whoever held one by
    the widget alone would delete it first where the collector takes both, and Qt once more.
    """

    def __init__(self) -> None:
        self._held: list[Spoken] = []
        self._sweep_at = _LEAST_SWEEP

    def hold(self, one: Spoken) -> None:
        """Keep one, and let those go that Qt has deleted."""
        self._held.append(one)
        if len(self._held) >= self._sweep_at:
            self._held = [held for held in self._held if shiboken6.isValid(held)]
            self._sweep_at = max(2 * len(self._held), _LEAST_SWEEP)

    def __len__(self) -> int:
        return len(self._held)


KEPT = _Kept()
_DESCRIBED = ("QComboBox",)
"""Classes of Qt's own that are described here; all others are classes of this program."""


def _described(of: str, thing: QObject) -> QAccessibleInterface | None:
    # Asked for every class that a widget is made of, and for a label that changes each time anew.
    if of[:1] == "Q" and of[1:2].isupper() and of not in _DESCRIBED:
        return None
    found = _interface(thing) if isinstance(thing, QWidget) else None
    if found is not None:
        KEPT.hold(found)
    return found


def _interface(widget: QWidget) -> Spoken | None:
    if isinstance(widget, QSlider):
        return SpokenSlider(widget, Role.Slider) if hasattr(widget, "spoken_value") else None
    if isinstance(widget, QComboBox):
        return None if widget.isEditable() else SpokenCombo(widget, Role.ComboBox)
    # Views that scroll keep Qt's own: they are asked about once more while they are deleted.
    role = getattr(widget, "spoken_role", None)
    return Spoken(widget, role) if role is not None else None
