"""The middle of the window: span buttons, the trace, the zoomed pulse and the key numbers."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QLabel,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from explorer.advice.answers import held_for
from explorer.advice.assess import Assessment
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.state.solver import Solver
from explorer.state.spans import SPAN_KEYS, SpanKey, calendar_of
from explorer.text import Text, texts
from explorer.widgets.answer_card import AnswerCard
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card
from explorer.widgets.elided_label import ElidedLabel
from explorer.widgets.pending import Veil
from explorer.widgets.plots.pulse_inset import PulseInset
from explorer.widgets.plots.trace_menu import TraceMenu
from explorer.widgets.plots.trace_plot import TracePlot
from explorer.words.answer_groups import answer_groups, course_note

_NARROW, _LOW = 440, 200
"""Width below which the heading gives way to the spans, and height below which there is no room
for what is said of the course. [px]"""
_SPANS: dict[SpanKey, tuple[str, str]] = texts({
    "pulse": ("Pulse", "Show one pulse"),
    "hour": ("Hour", "Show one hour"),
    "day": ("Day", "Show one day"),
    "week": ("Week", "Show one week"),
    "month": ("Month", "Show one month"),
    "year": ("Year", "Show one year"),
})  # fmt: skip
"""Each span on its button, and what the button does."""


class TraceCard(Card):
    """Shows what the solver found and lets a person choose the span.

    `pulse_card` and `answers` are cards of their own, for the window to place.
    """

    judged = Signal(bool)
    """Whether there is a pulse and there are answers, from now on."""

    def __init__(self, document: Document, solver: Solver, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._solver = document, solver
        self.plot = TracePlot()
        self.setFocusProxy(self.plot)
        self.menu = TraceMenu(self.plot, document)
        self.inset = PulseInset()
        self.pulse = PulseInset()
        self._pages = QStackedWidget()
        self._pages.addWidget(self.plot)
        self._pages.addWidget(self.pulse)
        self.refusal = QLabel()
        self.refusal.setWordWrap(True)
        self.refusal.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.refusal.setContentsMargins(40, 0, 40, 0)
        self._pages.addWidget(self.refusal)
        self.answers = AnswerCard()
        self.pulse_card = Card()
        inside = QVBoxLayout(self.pulse_card)
        inside.setContentsMargins(8, 6, 8, 4)
        inside.addWidget(self.inset)
        self._veil = Veil(self._pages)
        self.course = ElidedLabel()
        self.course.setFont(theme.font("small"))
        self.course.setIndent(4)
        self.course.setForegroundRole(self.course.palette().ColorRole.PlaceholderText)
        self.course.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 10, 10, 10)
        layout.setSpacing(6)
        layout.addLayout(self._build_head())
        layout.addWidget(self.course)
        layout.addWidget(self._pages, 1)
        self.plot.zoomed_changed.connect(self.fit.setVisible)
        solver.result_ready.connect(self._on_result)
        solver.not_judged.connect(self._on_not_judged)
        solver.pending_changed.connect(self._veil.set_drawn)
        solver.ghost_ready.connect(self.plot.set_ghost)
        if solver.result is not None:
            self._on_result(solver.result)
        self.plot.set_ghost(solver.ghost)

    def _build_head(self) -> QHBoxLayout:
        self._title = QLabel(tr("Store voltage, V"))
        self._title.setFont(theme.font("body", bold=True))
        self._title.setIndent(4)
        self.fit = PillButton()
        self.fit.setText(tr("Fit"))
        self.fit.setToolTip(tr("Show everything again (Home)"))
        self.fit.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.fit.setMinimumHeight(26)
        self.fit.setVisible(False)
        self.fit.clicked.connect(self.plot.fit)
        self.fit.show_icon("fit")
        self.spans = QButtonGroup(self)
        head = QHBoxLayout()
        head.setSpacing(1)
        head.addWidget(self._title)
        head.addStretch(1)
        head.addWidget(self.fit)
        for index, key in enumerate(SPAN_KEYS):
            button = PillButton(outlined=False)
            name, does = _SPANS[key]
            button.setText(tr(name))
            button.setObjectName(f"span_{key}")
            button.setAccessibleName(tr(does))
            button.setCheckable(True)
            button.setChecked(key == self._solver.span)
            button.setShortcut(f"Alt+{index + 1}")
            button.setToolTip(f"{tr(does)} (Alt+{index + 1})")
            self.spans.addButton(button, index)
            head.addWidget(button)
        self.spans.idClicked.connect(self._on_span)
        return head

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the trace the room where there is little."""
        super().resizeEvent(event)
        self._title.setVisible(self.width() >= _NARROW)
        self.course.setVisible(bool(self.course.text()) and self.height() >= _LOW)
        style = Qt.ToolButtonStyle
        self.fit.setToolButtonStyle(
            style.ToolButtonTextBesideIcon
            if self.width() >= _NARROW
            else style.ToolButtonIconOnly
        )

    def _on_span(self, index: int) -> None:
        key = SPAN_KEYS[index]
        self._show_page()
        self.fit.setVisible(key != "pulse" and self.plot.is_zoomed)
        self._solver.set_span(key, self.plot.cursor_s)

    def _show_page(self) -> None:
        """Trace or pulse, by the button that is down."""
        self._pages.setCurrentIndex(1 if SPAN_KEYS[self.spans.checkedId()] == "pulse" else 0)

    def _on_not_judged(self, sentence: str) -> None:
        """There is no trace to show, and none of an earlier design."""
        self.refusal.setText(tr(sentence))
        self._pages.setCurrentWidget(self.refusal)
        self._show_course(None)
        self.judged.emit(False)

    def _on_result(self, assessment: Assessment) -> None:
        if self._pages.currentWidget() is self.refusal:
            self._show_page()
            self.judged.emit(True)
        self.plot.set_calendar(*calendar_of(assessment.case))
        self.plot.set_assessment(assessment, self._solver.window())
        self.inset.set_assessment(assessment)
        self.pulse.set_assessment(assessment)
        if assessment.answers:
            self.answers.set_groups(
                answer_groups(assessment), assessment.verdict.state, held_for(assessment.case)
            )
            self._show_course(course_note(assessment))
        else:  # they follow once the hand pauses
            self.answers.set_pending()

    def _show_course(self, note: Text | None) -> None:
        """Say what the trace shows, where answers and checks speak of another stretch."""
        text = "" if note is None else tr(note)
        self.course.setText(text)
        self.course.setToolTip(text)
        self.course.setVisible(note is not None and self.height() >= _LOW)
