"""The lines of a data sheet as they are typed: any order, judged when a line is complete."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import get_args

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QFileDialog,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from explorer.files.disk import FileError
from explorer.files.measured_curves import MeasuredCurve, read_curve
from explorer.physics.measured_curve import thinned
from explorer.physics.panel_fit import MOST_LINES, QUANTITIES, PanelFit, SheetFault
from explorer.quantity import show
from explorer.scenario.fields import describe
from explorer.scenario.light import Source
from explorer.scenario.sheet_draft import NUMBERS, DraftLine
from explorer.scenario.supply import MOST_MEASURED, SheetPoint
from explorer.state import theme
from explorer.state.language import tr
from explorer.text import Text, say, texts
from explorer.widgets.buttons import PillButton, pill
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.fields import CalmComboBox
from explorer.widgets.icons import icon
from explorer.widgets.tab_order import splice_tabs
from explorer.words.options import option
from explorer.words.refusal import range_sentence
from explorer.words.sheet import line_off, percent_off

_TITLES = texts({
    "illuminance_lx": ("Light", "lx"),
    "source": ("Lamp", ""),
    "short_circuit_A": ("Short circuit", "µA"),
    "open_circuit_V": ("Open circuit", "V"),
    "max_power_A": ("Current at best", "µA"),
    "max_power_V": ("Voltage at best", "V"),
    "off": ("Off by", ""),
})  # fmt: skip
_COLUMNS = ("illuminance_lx", "source", *NUMBERS[1:], "off")
_LIGHT_WIDTH, _WIDTH = 74, 84
_OFF_FROM = 0.05
"""Misfit from which a line stands out (own judgement: rounding makes some per cent)."""


class SheetTable(QWidget):
    """Rows of fields; tells what stands in them."""

    changed = Signal()
    """Something that can be judged has changed."""

    def __init__(self, lines: tuple[DraftLine, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: list[SheetLine] = []
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(6)
        self._grid.setColumnStretch(_COLUMNS.index("source"), 1)
        self._off = _COLUMNS.index("off")
        for column, key in enumerate(_COLUMNS):
            self._grid.addWidget(_head(*_TITLES[key]), 0, column)
        self.add_button = PillButton()
        self.add_button.setText(tr("Add light level"))
        self.add_button.setIcon(icon("add", self.palette()))
        self.add_button.setIconSize(QSize(12, 12))
        self.add_button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.add_button.clicked.connect(self._on_add)
        self._fault = FaultLine()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addLayout(self._grid)
        layout.addWidget(self._fault)
        self.curve_button = pill(
            tr("Measured curve…"), tr("Take a line from a table of voltage and current")
        )
        self.curve_button.clicked.connect(self._on_curve)
        buttons = QHBoxLayout()
        buttons.setSpacing(6)
        buttons.addWidget(self.add_button)
        buttons.addWidget(self.curve_button)
        buttons.addStretch(1)
        layout.addLayout(buttons)
        for line in lines:
            self._append(line)
        if not lines:
            self._append(DraftLine(source=describe(SheetPoint, "source").default))

    @property
    def drafts(self) -> tuple[DraftLine, ...]:
        """What stands in the lines."""
        return tuple(row.draft for row in self.rows)

    @property
    def is_typed_out(self) -> bool:
        """Whether no field holds a text that was not taken."""
        return not any(cell.refusal for row in self.rows for cell in row.cells.values())

    def begin(self) -> None:
        """Give the keyboard to the first field that is empty, or to the first."""
        cells = [row.cells[key] for row in self.rows for key in NUMBERS]
        if cells:
            next((cell for cell in cells if not cell.text()), cells[0]).setFocus()

    def show_judgement(
        self, lines: tuple[int, ...], fit: PanelFit | None, faults: tuple[SheetFault, ...]
    ) -> None:
        """Mark cells with a fault, and show what the fit makes of every line."""
        for place, row in enumerate(self.rows):
            marked = {f.quantity for f in faults if f.line == place}
            at = lines.index(place) if place in lines else None
            row.show_fit(None if at is None else fit, at or 0, marked)

    def _append(self, line: DraftLine) -> SheetLine:
        row = SheetLine(line, self)
        row.changed.connect(self.changed)
        row.faulted.connect(self._on_faulted)
        row.remove.clicked.connect(self._on_remove)
        self.rows.append(row)
        self._place()
        for part in row.parts:
            part.show()
        self._renumber()
        splice_tabs(self)
        return row

    def _place(self) -> None:
        for at, row in enumerate(self.rows, start=1):
            for column, part in enumerate(row.parts):
                self._grid.addWidget(part, at, column)

    def _renumber(self) -> None:
        for number, row in enumerate(self.rows, start=1):
            row.set_number(number)
        for button in (self.add_button, self.curve_button):
            button.setEnabled(len(self.rows) < MOST_LINES)

    def _on_add(self) -> None:
        row = self._append(DraftLine(source=self.rows[-1].draft.source if self.rows else
                                     describe(SheetPoint, "source").default))  # fmt: skip
        row.cells["illuminance_lx"].setFocus(Qt.FocusReason.TabFocusReason)

    def add_curve(self, curve: MeasuredCurve) -> None:
        """A line that says what a measured curve says, and keeps its points."""
        marks = curve.landmarks
        numbers = {
            "illuminance_lx": curve.illuminance_lx,
            "short_circuit_A": marks.short_circuit_a, "open_circuit_V": marks.open_circuit_v,
            "max_power_A": marks.max_power_a, "max_power_V": marks.max_power_v,
        }  # fmt: skip
        source = self.rows[-1].draft.source if self.rows else describe(SheetPoint, "source").default
        volts, amps = thinned(curve.voltage_v, curve.current_a, MOST_MEASURED)
        line = DraftLine(
            source=source,
            **{key: None if value is None else _neat(value) for key, value in numbers.items()},
            measured_V=tuple(map(_neat, volts.tolist())),
            measured_A=tuple(map(_neat, amps.tolist())),
        )
        if len(self.rows) == 1 and self.rows[0].draft.is_empty:
            self._drop(self.rows[0])
        row = self._append(line)
        row.cells["illuminance_lx"].setFocus(Qt.FocusReason.TabFocusReason)
        self.changed.emit()

    def _on_curve(self) -> None:
        filters = tr("Tables (*.csv *.tsv *.txt)")
        name, _ = QFileDialog.getOpenFileName(self, tr("Open a measured curve"), "", filters)
        if name:
            self.open_curve(Path(name))

    def open_curve(self, path: Path) -> None:
        """Read a measured curve, or say why that cannot be."""
        try:
            self.add_curve(read_curve(path))
        except FileError as fault:
            self._fault.say(fault.args[0])
        else:
            self._fault.say("")

    def _drop(self, gone: SheetLine) -> None:
        self.rows.remove(gone)
        for part in gone.parts:
            self._grid.removeWidget(part)
            part.hide()
            part.deleteLater()
        gone.deleteLater()

    def _on_remove(self) -> None:
        gone = next(row for row in self.rows if row.remove is self.sender())
        place = self.rows.index(gone)
        self._drop(gone)
        self._place()
        self._renumber()
        after = self.rows[min(place, len(self.rows) - 1)].remove if self.rows else self.add_button
        after.setFocus()
        self.changed.emit()

    def _on_faulted(self, sentence: str) -> None:
        self._fault.say(sentence)


class SheetLine(QWidget):
    """One line: the fields are laid out by the table, this widget only holds them together."""

    changed = Signal()
    faulted = Signal(object)
    """Why what was typed was not taken; empty once that no longer stands there."""

    def __init__(self, draft: DraftLine, parent: QWidget) -> None:
        super().__init__(parent)
        self.hide()
        self.draft = draft
        self._marked: frozenset[str] = frozenset()
        self.cells: dict[str, ExactField] = {}
        for key in NUMBERS:
            unit = describe(SheetPoint, key).unit
            cell = ExactField(unit, optional=True, bare="µ" if unit == "A" else "", parent=parent)
            cell.setFixedWidth(_LIGHT_WIDTH if key == NUMBERS[0] else _WIDTH)
            cell.set_value(getattr(draft, key))
            cell.setObjectName(key)
            cell.entered.connect(self._on_entered)
            cell.fault_changed.connect(self.faulted)
            self.cells[key] = cell
        self.lamp = CalmComboBox(parent)
        for source in get_args(Source):
            self.lamp.addItem(tr(option(source)), source)
        self.lamp.setMinimumContentsLength(7)
        self.lamp.view().setMinimumWidth(self.lamp.view().sizeHintForColumn(0) + 24)
        self.lamp.setCurrentIndex(self.lamp.findData(draft.source))
        self.lamp.setToolTip(self.lamp.currentText())
        self.lamp.activated.connect(self._on_lamp)
        self.off = QLabel(parent)
        self.off.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.off.setMinimumWidth(48)
        self.remove = PillButton(outlined=False, parent=parent)
        self.remove.setIcon(icon("delete", self.palette()))
        self.remove.setFixedSize(26, 26)
        self.parts: tuple[QWidget, ...] = (
            self.cells["illuminance_lx"], self.lamp,
            *(self.cells[key] for key in NUMBERS[1:]), self.off, self.remove,
        )  # fmt: skip

    def set_number(self, number: int) -> None:
        """Say which line this is."""
        for key, cell in self.cells.items():
            field = describe(SheetPoint, key)
            cell.setAccessibleName(
                tr("Point {n}: {label}", n=number, label=field.label) + f", {field.unit}"
            )
            cell.setToolTip(tr(field.help))
        self.lamp.setAccessibleName(tr("Point {n}: lamp", n=number))
        words = tr("Remove point {n}", n=number)
        self.remove.setAccessibleName(words)
        self.remove.setToolTip(words)

    def show_fit(self, fit: PanelFit | None, row: int, marked: set[str]) -> None:
        """Show what the curve gives where nothing was typed, and how far it is off."""
        for key, cell in self.cells.items():
            if key in self._marked or key in marked:
                cell.set_at_fault(key in marked)
            given: Text | str = ""
            if fit is not None and key in QUANTITIES and getattr(self.draft, key) is None:
                value = float(fit.model[row][QUANTITIES.index(key)])
                given = say("fit {value}", value=show(value, describe(SheetPoint, key).unit))
            cell.setPlaceholderText(tr(given))
        self._marked = frozenset(marked)
        share = line_off(fit, row) if fit is not None else 0.0
        self.off.setText(tr(percent_off(share)) if fit is not None else "")
        self.off.setFont(theme.font("body", bold=abs(share) >= _OFF_FROM))

    def _on_entered(self, value: object) -> None:
        cell = self.sender()
        assert isinstance(cell, ExactField)
        key = cell.objectName()
        field = describe(SheetPoint, key)
        if isinstance(value, float) and not field.low <= value <= field.high:
            cell.refuse(range_sentence(field))
            return
        self.draft = self.draft.having(key, value if isinstance(value, float) else None)
        cell.set_value(getattr(self.draft, key))
        self.changed.emit()

    def _on_lamp(self, index: int) -> None:
        self.draft = replace(self.draft, source=self.lamp.itemData(index))
        self.lamp.setToolTip(self.lamp.currentText())
        self.changed.emit()


def _neat(value: float) -> float:
    """As many digits as a meter has."""
    return float(f"{value:.5g}")


def _head(title: str, unit: str) -> QWidget:
    label = QLabel(f"{tr(title)}\n{tr(unit)}")
    label.setFont(theme.font("small"))
    label.setWordWrap(False)
    side = Qt.AlignmentFlag.AlignRight if title != "Lamp" else Qt.AlignmentFlag.AlignLeft
    label.setAlignment(side | Qt.AlignmentFlag.AlignBottom)
    label.setForegroundRole(label.palette().ColorRole.PlaceholderText)
    return label
