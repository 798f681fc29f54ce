"""What a screen reader is told of the controls that Qt describes poorly.

A slider of Qt says the index of its stop, on Linux a combo box takes its value for its name, and a
widget that paints itself has no role at all. One factory gives each of them its own description.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QAccessibleWidget, QComboBox, QSlider, QWidget

from explorer.state.language import tr

if TYPE_CHECKING:
    from explorer.widgets.knob_slider import KnobSlider

_KEPT = "_spoken_interface"
_UP, _DOWN, _OPEN = "Increase", "Decrease", "ShowMenu"
"""Names of actions by Qt's own convention; a reader translates them."""
Role = QAccessible.Role


class Spoken(QAccessibleWidget):
    """Name and description as they were given, and the role that a painted widget plays."""

    def __init__(self, widget: QWidget, role: Role) -> None:
        super().__init__(widget, role)
        self._widget = widget

    def text(self, kind: QAccessible.Text) -> str:
        """Name, value, description."""
        if kind == QAccessible.Text.Name and (name := self._widget.accessibleName()):
            return name
        return super().text(kind)


class SpokenSlider(Spoken):
    """A slider over named stops: quantity, unit, and which of how many."""

    _widget: KnobSlider

    def text(self, kind: QAccessible.Text) -> str:
        """The value in words; it stands in the description too, where readers find it on Linux."""
        if kind == QAccessible.Text.Value:
            return self._widget.spoken_value()
        if kind == QAccessible.Text.Description:
            return ". ".join((self._widget.spoken_value(), self._widget.toolTip()))
        return super().text(kind)

    def actionNames(self) -> list[str]:
        """One stop up or down."""
        return [_UP, _DOWN]

    def doAction(self, action: str) -> None:
        """Carry one out."""
        if action in (_UP, _DOWN):
            self._widget.step(1 if action == _UP else -1)


class SpokenCombo(Spoken):
    """A choice is called by its label; what is chosen is its value."""

    _widget: QComboBox

    def text(self, kind: QAccessible.Text) -> str:
        """Name, and the choice as value."""
        if kind == QAccessible.Text.Value:
            return self._widget.currentText()
        return super().text(kind)

    def actionNames(self) -> list[str]:
        """It opens."""
        return [_OPEN]

    def doAction(self, action: str) -> None:
        """Show the choices."""
        if action == _OPEN:
            self._widget.showPopup()


def install() -> None:
    """Let the program describe its controls from now on."""
    QAccessible.installFactory(_described)


def stop_of(position: int, count: int, value: str) -> str:
    """A value on a slider, as it is spoken."""
    return tr("{value}, stop {n} of {count}", value=value, n=position + 1, count=count)


def _described(_: str, thing: QObject) -> QAccessibleInterface | None:
    if not isinstance(thing, QWidget):
        return None
    kept = getattr(thing, _KEPT, None)
    if kept is not None:
        return kept  # type: ignore[no-any-return]
    found = _interface(thing)
    if found is not None:
        # Qt does not keep what Python made; it lives and dies with its widget.
        setattr(thing, _KEPT, found)
    return found


def _interface(widget: QWidget) -> Spoken | None:
    if isinstance(widget, QSlider):
        return SpokenSlider(widget, Role.Slider) if hasattr(widget, "spoken_value") else None
    if isinstance(widget, QComboBox):
        return None if widget.isEditable() else SpokenCombo(widget, Role.ComboBox)
    # Views that scroll keep Qt's own: they are asked about once more while they are deleted.
    role = getattr(widget, "spoken_role", None)
    return Spoken(widget, role) if role is not None else None
