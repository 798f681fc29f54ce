"""What a build may have at most, measure by measure, behind one button."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QToolButton, QWidget

from explorer.advice.build_front import Wanted
from explorer.state.language import tr
from explorer.text import capitalised, say
from explorer.widgets.buttons import PillButton
from explorer.words.builds import LIMIT_LABELS, limit_text, limits_text, parts_text

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
        self._parts: dict[str, QMenu] = {}
        self._most_parts = FEW_PARTS
        menu = QMenu(self)
        for name, stops in STOPS.items():
            self._parts[name] = menu.addMenu(tr(LIMIT_LABELS[name]))
            group = self._groups[name] = QActionGroup(self)
            for stop in (None, *stops):
                self._offer(name, stop)
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
            most_parts=self._most_parts if self.few.isChecked() else None, **limits,
        )  # fmt: skip

    def set_wanted(self, wanted: Wanted) -> None:
        """Show other limits, without emitting; any value may be one."""
        self._limits = {
            name: float(most) for name in STOPS if (most := getattr(wanted, name)) is not None
        }
        for name, group in self._groups.items():
            most = self._limits.get(name)
            if most is not None and most not in [a.data()[1] for a in group.actions()]:
                self._offer(name, most)
            for action in group.actions():
                action.setChecked(action.data()[1] == most)
        with QSignalBlocker(self.lithium), QSignalBlocker(self.few):
            self.lithium.setChecked(not wanted.lithium)
            self.few.setChecked(wanted.most_parts is not None)
        self._set_parts(wanted.most_parts or FEW_PARTS)
        self._show()

    def _set_parts(self, most: int) -> None:
        self._most_parts = most
        self.few.setText(tr(say("One panel only") if most == FEW_PARTS else (
            capitalised(parts_text(most))
        )))  # fmt: skip

    def _offer(self, name: str, stop: float | None) -> None:
        """One more choice of a measure."""
        action = self._parts[name].addAction(tr(limit_text(name, stop)))
        action.setCheckable(True)
        action.setChecked(stop is None)
        action.setData((name, stop))
        self._groups[name].addAction(action)

    def _on_toggled(self, _: bool) -> None:
        if not self.few.isChecked():
            self._set_parts(FEW_PARTS)
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
        count = len(self._limits) + self.lithium.isChecked() + self.few.isChecked()
        whole = limits_text(self.wanted) if count else say("No limits")
        # Several are told in the tip: the button stays short beside the axes.
        self.setText(tr(whole if count < 2 else say("{n} limits", n=count)))
        self.setAccessibleName(tr(say("Limits: {limits}", limits=whole)))
        self.setToolTip(tr(whole))
