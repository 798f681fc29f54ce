"""What a build may have at most, measure by measure, behind one button."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QToolButton, QWidget

from explorer.advice.builds import Wanted
from explorer.state.language import tr
from explorer.text import Text, joined, say
from explorer.widgets.buttons import PillButton
from explorer.words.builds import LIMIT_LABELS, limit_text

STOPS: dict[str, tuple[float, ...]] = {
    "price": (2.0, 5.0, 10.0, 20.0, 50.0, 100.0),
    "panel_cm2": (5.0, 10.0, 20.0, 50.0, 100.0, 200.0),
    "volume_cm3": (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0),
    "mass_g": (5.0, 10.0, 20.0, 50.0, 100.0, 200.0),
    "height_mm": (5.0, 10.0, 15.0, 20.0, 30.0, 50.0),
}
"""Limits to choose from; the command takes any."""


FEW_PARTS = 3
"""One panel, charger and store."""


class LimitsMenu(PillButton):
    """A button that says which limits hold, and a menu with one list for each measure."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent=parent)
        self._limits: dict[str, float] = {}
        self._groups: dict[str, QActionGroup] = {}
        menu = QMenu(self)
        for name, stops in STOPS.items():
            part = menu.addMenu(tr(LIMIT_LABELS[name]))
            group = self._groups[name] = QActionGroup(self)
            for stop in (None, *stops):
                action = part.addAction(tr(limit_text(name, stop)))
                action.setCheckable(True)
                action.setChecked(stop is None)
                action.setData((name, stop))
                group.addAction(action)
            group.triggered.connect(self._on_chosen)
        menu.addSeparator()
        self.lithium = menu.addAction(tr("Without lithium cells"))
        self.few = menu.addAction(tr("One panel only"))
        for action in (self.lithium, self.few):
            action.setCheckable(True)
            action.toggled.connect(self._on_toggled)
        self.setMenu(menu)
        self.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.setMinimumHeight(26)
        self._show()

    def actions_of(self, name: str) -> list[QAction]:
        """The choices of one measure, the one without a limit first."""
        return self._groups[name].actions()

    @property
    def wanted(self) -> Wanted:
        """What a build may have at most."""
        limits: dict[str, Any] = dict(self._limits)
        return Wanted(
            lithium=not self.lithium.isChecked(),
            most_parts=FEW_PARTS if self.few.isChecked() else None, **limits,
        )  # fmt: skip

    def _on_toggled(self, _: bool) -> None:
        self._show()
        self.changed.emit()

    def _on_chosen(self, action: QAction) -> None:
        name, stop = action.data()
        if stop is None:
            self._limits.pop(name, None)
        else:
            self._limits[name] = stop
        self._show()
        self.changed.emit()

    def _show(self) -> None:
        told: list[Text] = [limit_text(name, stop) for name, stop in self._limits.items()]
        told += [say("no lithium")] * self.lithium.isChecked()
        told += [say("one panel")] * self.few.isChecked()
        whole = joined(", ", told) if told else say("No limits")
        # Several are told in the tip: the button stays short beside the axes.
        self.setText(tr(whole if len(told) < 2 else say("{n} limits", n=len(told))))
        self.setAccessibleName(tr(say("Limits: {limits}", limits=whole)))
        self.setToolTip(tr(whole))
