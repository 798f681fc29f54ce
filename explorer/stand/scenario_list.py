"""The set-up's list of scenarios: which ones, and in which order; the first one comes back."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidgetItem,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from explorer.stand.exhibits import name_in_list
from explorer.state.language import tr
from explorer.state.stand_plan import BUNDLED, bundled_names
from explorer.widgets import messages
from explorer.widgets.buttons import PillButton
from explorer.widgets.outlined_list import OutlinedList

_NAME = Qt.ItemDataRole.UserRole


class ScenarioList(QWidget):
    """Bundled scenarios and files; ticked ones are shown."""

    changed = Signal()

    def __init__(self, names: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._folder = ""
        self.items = OutlinedList()
        self.items.setAccessibleName(tr("Scenarios on the stand, in order"))
        self.items.setMinimumHeight(150)
        for name in (*names, *(n for n in bundled_names() if n not in names)):
            self._add(name, name in names)
        label = QLabel(
            tr("S&cenarios, ticked ones in this order; the first comes back after a visit")
        )
        label.setBuddy(self.items)
        label.setWordWrap(True)
        label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.up = self._button(tr("Up"), tr("Show the chosen scenario earlier"))
        self.down = self._button(tr("Down"), tr("Show the chosen scenario later"))
        self.add = self._button(tr("Add a file…"), tr("Add a scenario file of your own"))
        self.remove = self._button(tr("Remove"), tr("Take the chosen file off the list"))
        row = QHBoxLayout()
        for button in (self.up, self.down, self.add, self.remove):
            row.addWidget(button)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(label)
        layout.addWidget(self.items, 1)
        layout.addLayout(row)
        self.up.clicked.connect(self._on_up)
        self.down.clicked.connect(self._on_down)
        self.add.clicked.connect(self._on_add)
        self.remove.clicked.connect(self._on_remove)
        self.items.itemChanged.connect(self._on_changed)
        self.items.currentRowChanged.connect(self._on_row)
        self.items.setCurrentRow(0)

    def names(self) -> tuple[str, ...]:
        """The ticked scenarios, in order."""
        return tuple(
            str(item.data(_NAME))
            for item in (self.items.item(row) for row in range(self.items.count()))
            if item.checkState() == Qt.CheckState.Checked
        )

    def add_file(self, path: Path) -> None:
        """Put a file at the end, ticked; one that is there already is ticked."""
        name = str(path.resolve())
        for row in range(self.items.count()):
            if self.items.item(row).data(_NAME) == name:
                self.items.item(row).setCheckState(Qt.CheckState.Checked)
                return
        self._add(name, True)
        self.items.setCurrentRow(self.items.count() - 1)
        self.changed.emit()

    def _add(self, name: str, ticked: bool) -> None:
        item = QListWidgetItem(name_in_list(name))
        item.setData(_NAME, name)
        item.setToolTip(tr("Comes with the program") if name.startswith(BUNDLED) else name)
        item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
        item.setCheckState(Qt.CheckState.Checked if ticked else Qt.CheckState.Unchecked)
        self.items.addItem(item)

    def _button(self, text: str, tip: str) -> PillButton:
        button = PillButton()
        button.setText(text)
        button.setToolTip(tip)
        button.setAccessibleName(tip)
        return button

    def _move(self, by: int) -> None:
        row = self.items.currentRow()
        if 0 <= row + by < self.items.count() and row >= 0:
            item = self.items.takeItem(row)
            self.items.insertItem(row + by, item)
            self.items.setCurrentRow(row + by)
            self.changed.emit()

    def _on_up(self) -> None:
        self._move(-1)

    def _on_down(self) -> None:
        self._move(1)

    def _on_add(self) -> None:
        path = messages.pick_open(self, self._folder)
        if path is not None:
            self._folder = str(path.parent)
            self.add_file(path)

    def _on_remove(self) -> None:
        row = self.items.currentRow()
        if row >= 0 and not str(self.items.item(row).data(_NAME)).startswith(BUNDLED):
            self.items.takeItem(row)
            self.changed.emit()

    def _on_changed(self, _: QListWidgetItem) -> None:
        self.changed.emit()

    def _on_row(self, row: int) -> None:
        own = row >= 0 and not str(self.items.item(row).data(_NAME)).startswith(BUNDLED)
        self.remove.setEnabled(own)
        self.up.setEnabled(row > 0)
        self.down.setEnabled(0 <= row < self.items.count() - 1)
