"""The efficiency table of a converter: what the sheet says at the left, its curves at the right."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from explorer.advice.case import Case
from explorer.advice.panel_curve import panel_curve
from explorer.scenario.efficiency_draft import JudgedTable, drafts_of, judged_table
from explorer.scenario.model import with_value
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card
from explorer.widgets.drawers.charger_plot import ChargerPlot
from explorer.widgets.efficiency.efficiency_table import EfficiencyTable
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.help.sizes import fit_screen
from explorer.widgets.slim_scroll import SlimScroll
from explorer.words.panel import charger_spoken, unfinished_row

_PATH = "charger.efficiency_table"
_WHAT = say(
    "Take the curve of the panel's voltage. Where the sheet draws a curve for each output voltage, "
    "write that voltage into every row; else leave it empty."
)


class EfficiencyDialog(QDialog):
    """Keeps what is typed to itself until it is used, which is one step of undo."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.found: JudgedTable | None = None
        self.setWindowTitle(tr("Efficiency of the converter – Gloaming"))
        self.setSizeGripEnabled(True)
        self.table = EfficiencyTable(drafts_of(document.get(_PATH)))
        self.plot = ChargerPlot()
        self.sentence, self.fault, self.foot = QLabel(), FaultLine(), QLabel()
        self.cancel, self.use = PillButton(), PillButton()
        self._build()
        self.table.changed.connect(self.judge)
        self.judge()

    def _build(self) -> None:
        for button, text, handler in (
            (self.cancel, tr("Cancel"), self.reject),
            (self.use, tr("Use this table"), self.on_use),
        ):
            button.setText(text)
            button.setMinimumHeight(34)
            button.clicked.connect(handler)
        self.use.setCheckable(True)
        for label in (self.sentence, self.foot):
            label.setWordWrap(True)
        halves = QHBoxLayout()
        halves.setSpacing(12)
        halves.addWidget(self._table_half())
        halves.addWidget(self._curve_half(), 1)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.foot, 1)
        foot.addWidget(self.cancel)
        foot.addWidget(self.use)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 12)
        layout.setSpacing(10)
        layout.addLayout(halves, 1)
        layout.addLayout(foot)
        self.setMinimumSize(820, 380)
        fit_screen(self, QSize(960, 540))

    def _table_half(self) -> QWidget:
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(16, 14, 14, 14)
        column.setSpacing(10)
        column.addWidget(_heading(tr("What the sheet says")))
        hint = QLabel(tr(_WHAT))
        hint.setWordWrap(True)
        hint.setFont(theme.font("small"))
        hint.setForegroundRole(hint.palette().ColorRole.PlaceholderText)
        column.addWidget(hint)
        column.addWidget(self.table)
        column.addWidget(self.sentence)
        column.addWidget(self.fault)
        column.addStretch(1)
        card = Card()
        layout = QVBoxLayout(card)
        layout.setContentsMargins(1, 1, 1, 1)
        scroll = SlimScroll(inner)
        scroll.setMinimumWidth(inner.minimumSizeHint().width() + 12)
        layout.addWidget(scroll)
        return card

    def _curve_half(self) -> QWidget:
        card = Card()
        layout = QVBoxLayout(card)
        layout.setContentsMargins(12, 14, 12, 10)
        layout.addWidget(_heading(tr("Share that is passed on, over input power")))
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
        self.use.setText(tr("Use no table") if emptied else tr("Use this table"))
        self.use.setEnabled(found.is_ready and (bool(found.rows) or (emptied and had)))
        self.use.setChecked(self.use.isEnabled())
        if not found.fault:
            scenario = with_value(self._document.scenario, _PATH, found.rows)
            curve = panel_curve(Case(scenario, self._document.log)).charger
            self.plot.set_curve(curve)
            self.foot.setText(tr(say("In the present light: {what}", what=charger_spoken(curve))))

    def on_use(self) -> None:
        """Take the table into the document."""
        focused = self.focusWidget()
        if focused is not None:
            focused.clearFocus()  # what is being typed counts
        if self.found is None or not self.found.is_ready or not self.table.is_typed_out:
            self.use.setChecked(self.use.isEnabled())
            return
        self._document.begin_gesture()
        if fault := self._document.attempt(_PATH, self.found.rows):
            self.fault.say(fault)
            return
        self.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes over what is typed; it never closes the dialog."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            focused = self.focusWidget()
            if isinstance(focused, PillButton):
                focused.click()
        else:
            super().keyPressEvent(event)


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setFont(theme.font("body", bold=True))
    return label
