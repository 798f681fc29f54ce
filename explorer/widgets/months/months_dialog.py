"""Skies and temperatures of the twelve months, typed in a table."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QLabel, QWidget

from explorer.scenario.months_draft import JudgedMonths, judged_months, month_drafts
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.draft.draft_dialog import DraftDialog, heading, typed_card
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.months.months_table import MonthsTable
from explorer.words.daylight import months_fault, months_summary

_WHAT = say(
    "Days that are neither clear nor partly cloudy count as overcast. Nought in both columns is "
    "the cautious choice: measured months had two to four times as much light."
)
_AROUND = 80
"""Margins of the dialog and of its card, and the bar of the card: no column is cut. [px]"""


class MonthsDialog(DraftDialog[MonthsTable, JudgedMonths]):
    """Keeps what is typed to itself until it is used."""

    def __init__(self, document: Document, path: str, parent: QWidget | None = None) -> None:
        self._path = path
        table = MonthsTable(month_drafts(document.get(path)))
        super().__init__(document, table, tr("Skies of the year – Gloaming"), parent)
        self.fault = FaultLine()
        hint = QLabel(tr(_WHAT))
        hint.setWordWrap(True)
        hint.setFont(theme.font("small"))
        hint.setForegroundRole(hint.palette().ColorRole.PlaceholderText)
        title = heading(tr("Skies and temperatures by month"))
        card = typed_card((title, hint, self.table, self.sentence, self.fault))
        wide = self.table.minimumSizeHint().width() + _AROUND
        self.lay_out(((card, 1),), QSize(wide, 380), QSize(wide, 640))
        self.judge()

    def judge(self) -> None:
        """Judge what has been typed, and show it."""
        found = self.found = judged_months(self.table.drafts)
        fault = months_fault(found)
        self.sentence.setText(tr(fault) if fault else "")
        self.sentence.setVisible(bool(fault))
        self.foot.setText(tr(months_summary(found.months)) if found.is_ready else "")
        self.offer(tr("Use these months"), is_ready=found.is_ready)

    def take(self, found: JudgedMonths) -> str:
        """Put the months into the document; the sentence why that cannot be, or nothing."""
        return self._document.attempt(self._path, found.months)

    def show_fault(self, sentence: str) -> None:
        """Say why the document did not take them."""
        self.fault.say(sentence)
