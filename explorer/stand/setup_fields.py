"""Parts of the set-up page: what visitors take home, and how the stand is kept."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDoubleSpinBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QSpinBox,
    QWidget,
)

from explorer.files.disk import FileError, write_text
from explorer.stand.counts import Counts
from explorer.stand.exhibits import name_in_list
from explorer.stand.staff_code import LONGEST, hashed
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.stand_plan import StandPlan, bundled_names
from explorer.widgets import messages
from explorer.widgets.buttons import PillButton
from explorer.widgets.fields import CalmComboBox, Field, OutlinedCheckBox


class PictureField(QWidget):
    """A file of a picture: its name, a button to choose it, and one to take it away."""

    changed = Signal()

    def __init__(self, file: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._label = label
        self.name = QLabel()
        self.pick = PillButton()
        self.pick.setText(tr("Choose…"))
        self.pick.setAccessibleName(tr("{label}: choose a file", label=label))
        self.drop = PillButton()
        self.drop.setText(tr("None"))
        self.drop.setAccessibleName(tr("{label}: none", label=label))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.name, 1)
        layout.addWidget(self.pick)
        layout.addWidget(self.drop)
        self.pick.clicked.connect(self._on_pick)
        self.drop.clicked.connect(self._on_drop)
        self.set_file(file)

    def set_file(self, file: str) -> None:
        """Show a file; an empty name shows none."""
        self.file = file
        self.name.setText(Path(file).name if file else tr("none", "picture"))
        self.name.setToolTip(file)
        self.drop.setEnabled(bool(file))

    def _on_pick(self) -> None:
        found, _ = QFileDialog.getOpenFileName(
            self, self._label, str(Path(self.file).parent) if self.file else "",
            tr("Pictures") + " (*.png *.jpg *.jpeg *.svg *.webp)",
        )  # fmt: skip
        if found:
            self.set_file(found)
            self.changed.emit()

    def _on_drop(self) -> None:
        self.set_file("")
        self.changed.emit()


class HomeFields(QWidget):
    """What visitors take home, and what of the keeper's own they see."""

    def __init__(self, plan: StandPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.link = Field()
        self.link.setText(plan.link)
        self.link.setMaxLength(300)
        self.link.setAccessibleName(tr("Own link"))
        self.link.setToolTip(
            tr("The code leads there, with the design in it. Empty: it holds a short text.")
        )
        self.logo = PictureField(plan.logo, tr("Logo"))
        self.picture = PictureField(plan.picture, tr("Picture"))
        self.may_print = OutlinedCheckBox(tr("P&rint a sheet, on the printer of the system"))
        self.may_print.setChecked(plan.may_print)
        self.may_save = OutlinedCheckBox(tr("Save on a &USB stick"))
        self.may_save.setChecked(plan.may_save)
        self.switch = OutlinedCheckBox(tr("S&witch between English and German"))
        self.switch.setChecked(len(plan.languages) > 1)
        form = QFormLayout(self)
        form.setContentsMargins(12, 12, 12, 8)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.addRow(tr("Own lin&k"), self.link)
        form.addRow(tr("Logo"), self.logo)
        form.addRow(tr("Picture"), self.picture)
        form.addRow(tr("Visitors may"), self.may_print)
        form.addRow("", self.may_save)
        form.addRow("", self.switch)

    def values(self) -> dict[str, Any]:
        """What is set, by the keys of the plan."""
        link = self.link.text().strip()
        if link and not link.startswith(("https://", "http://")):
            link = f"https://{link}"
        return {
            "link": link,
            "logo": self.logo.file,
            "picture": self.picture.file,
            "may_print": self.may_print.isChecked(),
            "may_save": self.may_save.isChecked(),
            "languages": ("en", "de") if self.switch.isChecked() else (),
        }


class KeepingFields(QWidget):
    """Times, screen, staff code and counts."""

    def __init__(
        self, plan: StandPlan, counts: Counts, spins: dict[str, QSpinBox | QDoubleSpinBox],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._counts, self._kept = counts, plan.code_hash
        self.screen_choice = CalmComboBox()
        self.screen_choice.setAccessibleName(tr("Screen"))
        self.screen_choice.addItem(tr("Where this window is"), "")
        for screen in QGuiApplication.screens():
            size = screen.size()
            label = f"{screen.name()} ({size.width()} × {size.height()})"
            self.screen_choice.addItem(label, screen.name())
        if plan.screen and self.screen_choice.findData(plan.screen) < 0:
            self.screen_choice.addItem(tr("{name} (away)", name=plan.screen), plan.screen)
        self.screen_choice.setCurrentIndex(max(self.screen_choice.findData(plan.screen), 0))
        self.code = Field()
        self.code.setEchoMode(QLineEdit.EchoMode.Password)
        self.code.setMaxLength(LONGEST)
        self.code.setAccessibleName(tr("Staff code, 4 to 8 digits"))
        self.code.setPlaceholderText(tr("as before") if plan.code_hash else tr("4 to 8 digits"))
        self.no_code = OutlinedCheckBox(tr("No staff &code"))
        self.no_code.setChecked(not plan.code_hash)
        self.code.textEdited.connect(self._on_code)
        self.fault = QLabel()
        self.fault.setFont(theme.font("small", bold=True))
        self.fault.hide()
        self.meter = Field()
        self.meter.setText(plan.meter)
        self.meter.setAccessibleName(tr("Address of a meter"))
        self.meter.setPlaceholderText(tr("none", "meter"))
        self.meter.setToolTip(
            tr(
                "A meter at the store of the real device, such as 192.0.2.7 or /dev/ttyUSB0: its "
                "readings are drawn over the forecast."
            )
        )
        self.device = CalmComboBox()
        self.device.setAccessibleName(tr("Scenario of the device that the meter reads"))
        for name in dict.fromkeys((*plan.scenarios, *bundled_names())):
            self.device.addItem(name_in_list(name), name)
        self.device.setCurrentIndex(max(self.device.findData(plan.meter_scenario), 0))
        self.count_text = QLabel(tr(counts.sentence))
        self.count_text.setWordWrap(True)
        self.count_text.setMinimumHeight(2 * self.count_text.fontMetrics().lineSpacing())
        self.save_counts = PillButton()
        self.save_counts.setText(tr("Save the counts…"))
        self.save_counts.clicked.connect(self._on_save)
        form = QFormLayout(self)
        form.setContentsMargins(12, 12, 12, 8)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.addRow(tr("&Idle time"), spins["idle"])
        form.addRow(tr("&Warning"), spins["warning"])
        form.addRow(tr("C&ycle time"), spins["cycle"])
        form.addRow(tr("Sc&reen"), self.screen_choice)
        code = QHBoxLayout()
        code.addWidget(self.code, 1)
        code.addWidget(self.no_code)
        form.addRow(tr("Staff code"), code)
        form.addRow("", self.fault)
        meter = QHBoxLayout()
        meter.addWidget(self.meter, 1)
        meter.addWidget(self.device, 1)
        form.addRow(tr("Meter"), meter)
        form.addRow(tr("Counted"), self.count_text)
        row = QHBoxLayout()
        row.addWidget(self.save_counts)
        row.addStretch(1)
        form.addRow("", row)

    def values(self) -> dict[str, Any]:
        """What is set, by the keys of the plan."""
        kept = "" if self.no_code.isChecked() else self._kept
        if self.code.text() and not self.no_code.isChecked():
            kept = hashed(self.code.text())
        address = self.meter.text().strip()
        return {
            "screen": self.screen_choice.currentData(),
            "code_hash": kept,
            "meter": address,
            "meter_scenario": self.device.currentData() if address else "",
        }

    def is_right(self) -> bool:
        """Whether the code can be used; if not, it says why."""
        try:
            self.values()
        except ValueError:
            self.fault.setText(tr("A staff code has 4 to 8 digits."))
            self.fault.show()
            return False
        self.fault.hide()
        return True

    def _on_code(self, text: str) -> None:
        if text:
            self.no_code.setChecked(False)

    def _on_save(self) -> None:
        found, _ = QFileDialog.getSaveFileName(
            self, tr("Save the counts"), "counts.csv", "CSV (*.csv)"
        )
        if not found:
            return
        try:
            write_text(Path(found), self._counts.csv())
        except FileError as error:
            messages.tell(self, tr("The counts were not saved"), tr(str(error)))


