"""The efficiency table of a converter: what the sheet says at the left, its curves at the right."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from explorer.advice.panel_curve import panel_curve
from explorer.scenario.efficiency_draft import JudgedTable, drafts_of, judged_table
from explorer.scenario.model import with_value
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.card import Card
from explorer.widgets.draft.draft_dialog import DraftDialog, heading, typed_card
from explorer.widgets.drawers.charger_plot import ChargerPlot
from explorer.widgets.efficiency.efficiency_table import EfficiencyTable
from explorer.widgets.fault_line import FaultLine
from explorer.words.panel import charger_spoken, unfinished_row

_PATH = "charger.efficiency_table"
_WHAT = say(
    "Take the curve of the panel's voltage. Where the sheet draws a curve for each output voltage, "
    "write that voltage into every row; else leave it empty."
)


class EfficiencyDialog(DraftDialog[EfficiencyTable, JudgedTable]):
    """Shows what the table passes on in the present light while it is typed."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        table = EfficiencyTable(drafts_of(document.get(_PATH)))
        super().__init__(document, table, tr("Efficiency of the converter – Gloaming"), parent)
        self.plot, self.fault = ChargerPlot(), FaultLine()
        halves = (self._table_half(), 0), (self._curve_half(), 1)
        self.lay_out(halves, QSize(760, 380), QSize(960, 540))
        self.judge()

    def _table_half(self) -> QWidget:
        hint = QLabel(tr(_WHAT))
        hint.setWordWrap(True)
        hint.setFont(theme.font("small"))
        hint.setForegroundRole(hint.palette().ColorRole.PlaceholderText)
        title = heading(tr("What the sheet says"))
        return typed_card((title, hint, self.table, self.sentence, self.fault))

    def _curve_half(self) -> QWidget:
        card = Card()
        layout = QVBoxLayout(card)
        layout.setContentsMargins(12, 14, 12, 10)
        layout.addWidget(heading(tr("Share that is passed on, over input power")))
        layout.addWidget(self.plot, 1)
        return card

    def judge(self) -> None:
        """Judge what has been typed, and show it."""
        drafts = self.table.drafts
        found = self.found = judged_table(drafts)
        said = [tr(unfinished_row(i, drafts[i])) for i in found.unfinished]
        self.sentence.setText("\n".join(said))
        self.sentence.setVisible(bool(said))
        self.fault.say(say("{fault}.", fault=found.fault) if found.fault else "")
        emptied = all(draft.is_empty for draft in drafts)
        had = bool(self._document.get(_PATH))
        self.offer(
            tr("Use no table") if emptied else tr("Use this table"),
            is_ready=found.is_ready and (bool(found.rows) or (emptied and had)),
        )
        if not found.fault:
            scenario = with_value(self._document.scenario, _PATH, found.rows)
            curve = panel_curve(self._document.case.with_scenario(scenario)).charger
            self.plot.set_curve(curve)
            self.foot.setText(tr(say("In the present light: {what}", what=charger_spoken(curve))))

    def take(self, found: JudgedTable) -> str:
        """Put the table into the document; the sentence why that cannot be, or nothing."""
        return self._document.attempt(_PATH, found.rows)

    def show_fault(self, sentence: str) -> None:
        """Say why the document did not take it."""
        self.fault.say(sentence)
