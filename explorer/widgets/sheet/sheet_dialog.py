"""The data sheet of a panel: what it says at the left, the curves through it at the right."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from explorer.scenario.fields import describe
from explorer.scenario.sheet_draft import Judged, drafts_of, judged
from explorer.scenario.supply import Panels, Technology
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.state.shape import shape_of
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card
from explorer.widgets.draft.draft_dialog import DraftDialog, heading, typed_card
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fields import CalmComboBox
from explorer.widgets.sheet.sheet_plot import SheetPlot, View
from explorer.widgets.sheet.sheet_table import SheetTable
from explorer.words.options import option
from explorer.words.refusal import range_sentence
from explorer.words.sheet import (
    curves,
    fault_sentence,
    fit_rows,
    fit_sentence,
    light_name,
    measured_of,
    misfit_sentences,
    points_of,
    unfinished_sentence,
)

_VIEWS: tuple[tuple[View, str], ...] = (("current", say("Current")), ("power", say("Power")))
_WAITS = say("Give the light and the short-circuit current of one line; the rest may stay empty.")


class SheetDialog(DraftDialog[SheetTable, Judged]):
    """Fits the diode to the sheet while it is typed, and shows what the fit found."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        self._panels: Panels = document.scenario.panels
        table = SheetTable(drafts_of(self._panels))
        super().__init__(document, table, tr("Panel data sheet – Gloaming"), parent)
        self.plot = SheetPlot()
        self.technology = CalmComboBox()
        for word in shape_of(Panels, "technology").options:
            self.technology.addItem(tr(option(word)), word)
        self.cells = ExactField("", whole=True)
        self.cells.setFixedWidth(56)
        self._values: list[tuple[QLabel, QLabel]] = []
        halves = (self._sheet_half(), 16), (self._curve_half(), 10)
        self.lay_out(halves, QSize(860, 460), QSize(1260, 660))
        self.technology.setCurrentIndex(self.technology.findData(self._panels.technology))
        self.cells.set_value(self._panels.cells_in_series)
        self.technology.activated.connect(self._on_technology)
        self.cells.entered.connect(self._on_cells)
        self.cells.fault_changed.connect(self._on_cells_fault)
        self.judge()
        self.table.begin()

    def _sheet_half(self) -> QWidget:
        head = QHBoxLayout()
        head.setSpacing(8)
        for key, field in (("technology", self.technology), ("cells_in_series", self.cells)):
            told = describe(Panels, key)
            label = QLabel(tr(told.label))
            label.setBuddy(field)
            field.setAccessibleName(tr(told.label))
            field.setToolTip(tr(told.help))
            head.addWidget(label)
            head.addWidget(field)
        head.addStretch(1)
        self.technology.setMinimumContentsLength(17)
        self._fit_title = heading(tr("What the fit found"))
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(10)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(1, 1)
        self._grid.setColumnStretch(3, 1)
        title = heading(tr("What the sheet says"))
        return typed_card((title, head, self.table, self.sentence, self._fit_title, self._grid))

    def _curve_half(self) -> QWidget:
        card = Card()
        head = QHBoxLayout()
        head.addWidget(heading(tr("Curves through the points")), 1)
        self.views = QButtonGroup(self)
        for view, text in _VIEWS:
            button = PillButton(outlined=False)
            button.setText(tr(text))
            button.setCheckable(True)
            button.setChecked(view == "current")
            button.setObjectName(view)
            self.views.addButton(button)
            head.addWidget(button)
        self.views.buttonClicked.connect(self._on_view)
        layout = QVBoxLayout(card)
        layout.setContentsMargins(12, 10, 12, 10)
        layout.addLayout(head)
        layout.addWidget(self.plot, 1)
        return card

    def judge(self) -> None:
        """Judge what has been typed, and show it."""
        drafts = self.table.drafts
        found = judged(self._panels, drafts)
        self.found = found
        self.table.show_judgement(found.lines, found.fit, found.faults)
        said = [tr(fault_sentence(fault)) for fault in found.faults]
        said += [tr(unfinished_sentence(i, drafts[i])) for i in found.unfinished]
        if found.fit is not None:
            missed = misfit_sentences(found.panels, found.fit, found.lines)
            said += [tr(sentence) for sentence in missed]
        self.sentence.setText("\n".join(said))
        self.sentence.setVisible(bool(said))
        self._color_sentence(fault=bool(found.faults))
        self._show_fit(found)
        nothing = not found.lines and not any(not draft.is_empty for draft in drafts)
        self.foot.setText(tr(fit_sentence(found.panels, found.fit) if found.fit else _WAITS))
        emptied = nothing and bool(self._document.scenario.panels.data_sheet)
        self.offer(
            tr("Use no data sheet") if nothing else tr("Use this panel"),
            is_ready=found.is_ready and (bool(found.lines) or emptied),
        )

    def _show_fit(self, found: Judged) -> None:
        points = found.panels.data_sheet
        fit = found.fit
        rows = fit_rows(found.panels, fit) if fit is not None else ()
        self._fit_title.setVisible(bool(rows))
        while len(self._values) < len(rows):
            pair = QLabel(), QLabel()
            place = len(self._values)
            for column, label in enumerate(pair):
                self._grid.addWidget(label, place // 2, 2 * (place % 2) + column)
            pair[0].setForegroundRole(pair[0].palette().ColorRole.PlaceholderText)
            pair[1].setFont(theme.font("body", bold=True))
            self._values.append(pair)
        for place, pair in enumerate(self._values):
            for text, label in zip(rows[place] if place < len(rows) else ("", ""), pair,
                                   strict=True):  # fmt: skip
                label.setText(tr(text))
        several = len({point.source for point in points}) > 1
        names = [
            tr(light_name(p.illuminance_lx, p.source, with_source=several)) for p in points
        ]
        order = sorted(range(len(points)), key=lambda i: points[i].short_circuit_A)
        drawn = curves(fit) if fit is not None else ()
        self.plot.set_curves(
            tuple((names[i], *drawn[i]) for i in order),
            tuple(
                (place, volts, amps)
                for place, i in enumerate(order) for _, volts, amps in points_of(points[i])
            ),
            tuple(
                (volts, amps)
                for place in {fault.line for fault in found.faults} - set(found.lines)
                for _, volts, amps in points_of(self.table.drafts[place])
            ),
            "; ".join(f"{tr(a)} {tr(b)}" for a, b in rows),
            tuple(
                (order.index(i), *measured_of(point))
                for i, point in enumerate(points) if point.measured_V
            ),
        )

    def _color_sentence(self, *, fault: bool) -> None:
        palette = self.palette()
        role = "falls_short" if fault else "soft"
        palette.setColor(palette.ColorRole.WindowText, theme.tokens_of(palette).color(role))
        self.sentence.setPalette(palette)

    def on_use(self) -> None:
        """Take the sheet into the document, if that can be."""
        self.cells.clearFocus()
        super().on_use()

    def take(self, found: Judged) -> str:
        """Put the sheet into the document; the sentence why that cannot be, or nothing."""
        panels = self._document.scenario.panels.model_copy(update={
            "technology": self._panels.technology,
            "cells_in_series": self._panels.cells_in_series,
            "data_sheet": found.panels.data_sheet,
        })  # fmt: skip
        return self._document.attempt("panels", panels)

    def show_fault(self, sentence: str) -> None:
        """Say why the document did not take it."""
        self.sentence.setText(tr(sentence))
        self.sentence.show()
        self._color_sentence(fault=True)

    def _on_view(self, button: QWidget) -> None:
        self.plot.set_view("power" if button.objectName() == "power" else "current")

    def _on_technology(self, index: int) -> None:
        chosen: Technology = self.technology.itemData(index)
        self._panels = self._panels.model_copy(update={"technology": chosen})
        self.judge()

    def _on_cells(self, value: object) -> None:
        field = describe(Panels, "cells_in_series")
        assert isinstance(value, float)
        if not field.low <= value <= field.high:
            self.cells.refuse(range_sentence(field))
            return
        self._panels = self._panels.model_copy(update={"cells_in_series": int(value)})
        self.cells.set_value(value)
        self.judge()

    def _on_cells_fault(self, sentence: str) -> None:
        self.sentence.setText(tr(sentence) if sentence else "")
        self.sentence.setVisible(bool(sentence))
        self._color_sentence(fault=True)
