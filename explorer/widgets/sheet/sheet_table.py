"""The lines of a data sheet as they are typed: any order, judged when a line is complete."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import get_args

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QLabel, QWidget

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
from explorer.widgets.buttons import pill
from explorer.widgets.draft.draft_table import DraftTable, NumberColumn, NumberRow
from explorer.widgets.fields import CalmComboBox
from explorer.words.options import option
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


class SheetLine(NumberRow[DraftLine]):
    """One line: its numbers, its lamp, and how far the fit is off."""

    def __init__(self, draft: DraftLine, parent: QWidget) -> None:
        super().__init__(draft, SheetPoint, [_number_column(key) for key in NUMBERS], parent)
        self._marked: frozenset[str] = frozenset()
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
        self.parts = (
            self.cells["illuminance_lx"], self.lamp,
            *(self.cells[key] for key in NUMBERS[1:]), self.off, self.remove,
        )  # fmt: skip

    def cell_name(self, number: int, label: str) -> str:
        """What a screen reader calls a cell, without its unit."""
        return tr("Point {n}: {label}", n=number, label=label)

    def removal(self, number: int) -> str:
        """What the button that takes the line away does."""
        return tr("Remove point {n}", n=number)

    def set_number(self, number: int) -> None:
        """Say which line this is."""
        super().set_number(number)
        self.lamp.setAccessibleName(tr("Point {n}: lamp", n=number))

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

    def _on_lamp(self, index: int) -> None:
        self.draft = replace(self.draft, source=self.lamp.itemData(index))
        self.lamp.setToolTip(self.lamp.currentText())
        self.changed.emit()


class SheetTable(DraftTable[DraftLine, SheetLine]):
    """Begins with one empty line where there are none; a line may come from a measured curve."""

    def __init__(self, lines: tuple[DraftLine, ...], parent: QWidget | None = None) -> None:
        heads = [_head(*_TITLES[key]) for key in _COLUMNS]
        super().__init__(heads, tr("Add point"), MOST_LINES, parent)
        self._grid.setHorizontalSpacing(6)
        self._grid.setColumnStretch(_COLUMNS.index("source"), 1)
        self.curve_button = pill(
            tr("Measured curve…"), tr("Take a line from a table of voltage and current")
        )
        self.curve_button.clicked.connect(self._on_curve)
        self._buttons.insertWidget(1, self.curve_button)
        self.adding.append(self.curve_button)
        for line in lines or (self.next_draft(),):
            self.append(line)

    def row_of(self, draft: DraftLine) -> SheetLine:
        """A line for a draft."""
        return SheetLine(draft, self)

    def next_draft(self) -> DraftLine:
        """A line under the lamp of the last one."""
        return DraftLine(source=self._source())

    def _source(self) -> Source:
        source: Source = describe(SheetPoint, "source").default
        return self.rows[-1].draft.source if self.rows else source

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

    def add_curve(self, curve: MeasuredCurve) -> None:
        """A line that says what a measured curve says, and keeps its points."""
        marks = curve.landmarks
        numbers = {
            "illuminance_lx": curve.illuminance_lx,
            "short_circuit_A": marks.short_circuit_a, "open_circuit_V": marks.open_circuit_v,
            "max_power_A": marks.max_power_a, "max_power_V": marks.max_power_v,
        }  # fmt: skip
        volts, amps = thinned(curve.voltage_v, curve.current_a, MOST_MEASURED)
        line = DraftLine(
            source=self._source(),
            **{key: None if value is None else _neat(value) for key, value in numbers.items()},
            measured_V=tuple(map(_neat, volts.tolist())),
            measured_A=tuple(map(_neat, amps.tolist())),
        )
        if len(self.rows) == 1 and self.rows[0].draft.is_empty:
            self.drop(self.rows[0])
        row = self.append(line)
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


def _number_column(key: str) -> NumberColumn:
    unit = describe(SheetPoint, key).unit
    width = _LIGHT_WIDTH if key == NUMBERS[0] else _WIDTH
    return NumberColumn(key=key, unit=unit, width=width, bare="µ" if unit == "A" else "")


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
