"""The guide's answer: sign, two sentences, what would turn it, and what was assumed."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QBoxLayout,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from explorer.advice.verdict import State
from explorer.scenario.guide.questions import QUESTIONS
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import texts
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card
from explorer.widgets.help.pages import PLANNING
from explorer.widgets.help.text_view import TextView
from explorer.widgets.paint import paint_filling, paint_unlit
from explorer.widgets.slim_scroll import SlimScroll
from explorer.words.plain_answer import PlainAnswer
from explorer.words.readout import bind_units

_SHORT = texts({
    "place": "Place",
    "season": "Season",
    "region": "Latitude",
    "light": "Light",
    "facing": "Facing",
    "job": "Job",
    "battery": "Battery",
    "lasts": "It lasts",
    "often": "How often",
    "when": "When",
    "dark": "Dark",
    "matters": "Matters",
})  # fmt: skip
_NARROW = 620


class Lamp(QWidget):
    """The verdict as one large filling; an outline while there is none."""

    spoken_role = QAccessible.Role.Graphic

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state: State | None = None
        self.setFixedSize(76, 76)

    def set_state(self, state: State | None) -> None:
        """Show a verdict, or none."""
        self._state = state
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the filling."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        rect, tokens = QRectF(self.rect()).adjusted(4, 4, -4, -4), tokens_of(self.palette())
        if self._state is None:
            paint_unlit(painter, rect, tokens)
        else:
            paint_filling(painter, rect, self._state, tokens)
        painter.end()


class ResultPage(QWidget):
    """Shows a `PlainAnswer`, or that one is being looked for."""

    change_wanted = Signal(str)
    """Key of the question whose answer somebody wants to change."""
    way_wanted = Signal(object)
    """Carries the `WayOut` that somebody wants to see."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.lamp = Lamp()
        self.word = QLabel()
        self.word.setFont(theme.font("display", bold=True))
        self.lead, self.reason, self.how_large = QLabel(), QLabel(), QLabel()
        self.warning, self.advice = QLabel(), QLabel()
        for label in (self.lead, self.reason, self.how_large, self.warning, self.advice):
            label.setWordWrap(True)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.lead.setFont(theme.font("body", bold=True))
        self.view = TextView(tr("What was assumed"))
        self.changes: dict[str, PillButton] = {}
        self.ways: list[PillButton] = []
        self._ways = QHBoxLayout()
        self._found: PlainAnswer | None = None
        self._body = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._build()
        self.show_busy()

    def _build(self) -> None:
        words = QVBoxLayout()
        words.setSpacing(6)
        for part in (self.word, self.lead, self.reason, self.how_large, self.warning, self.advice):
            words.addWidget(part)
        self._ways.setSpacing(8)
        words.addLayout(self._ways)
        words.addStretch(1)
        top = QWidget()
        head = QGridLayout(top)
        head.setContentsMargins(2, 0, 8, 0)
        head.setHorizontalSpacing(18)
        head.addWidget(self.lamp, 0, 0, Qt.AlignmentFlag.AlignTop)
        head.addLayout(words, 0, 1)
        head.setColumnStretch(1, 1)
        answers = Card()
        column = QVBoxLayout(answers)
        column.setContentsMargins(14, 12, 14, 12)
        column.setSpacing(2)
        column.addWidget(_heading(tr("Change an answer")))
        for question in QUESTIONS:
            button = PillButton(outlined=False)
            button.setObjectName(question.key)
            button.setText(tr(_SHORT[question.key]))
            button.setMinimumHeight(30)
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
            button.setIconSize(QSize(12, 12))
            button.show_icon("unfold")
            button.align_left()
            button.clicked.connect(self._on_change)
            self.changes[question.key] = button
            column.addWidget(button)
        column.addStretch(1)
        assumed = Card()
        column = QVBoxLayout(assumed)
        column.setContentsMargins(14, 12, 6, 12)
        column.setSpacing(4)
        column.addWidget(_heading(tr("What was assumed")))
        column.addWidget(self.view, 1)
        self.view.setMinimumHeight(120)
        self._body.setSpacing(12)
        self._body.addWidget(answers, 4)
        self._body.addWidget(assumed, 6)
        inner = QWidget()
        layout = QVBoxLayout(inner)
        layout.setContentsMargins(0, 0, 4, 0)
        layout.setSpacing(14)
        layout.addWidget(top)
        layout.addLayout(self._body, 1)
        top.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(SlimScroll(inner))

    def set_answers(self, titles: dict[str, str]) -> None:
        """Name the answers on the buttons that change them; the others were not asked."""
        for key, button in self.changes.items():
            button.setVisible(key in titles)
        for key, title in titles.items():
            short, answer = tr(_SHORT[key]), tr(title)
            self.changes[key].setText(f"{short}: {answer}")
            self.changes[key].setAccessibleName(
                tr("Change the answer: {question}, {answer}", question=short, answer=answer)
            )

    def show_busy(self) -> None:
        """Say that designs are being tried."""
        self.lamp.set_state(None)
        self.word.setText(tr("One moment"))
        self.lead.setText(tr("Trying panels and stores for this place…"))
        self.reason.setText("")
        self._show_ways(None)
        for label in (self.how_large, self.warning, self.advice):
            label.hide()
        self.view.show_html("")

    def show_failure(self, sentence: str) -> None:
        """Say that no answer came."""
        self.show_busy()
        self.word.setText(tr("No answer"))
        self.lead.setText(tr("This could not be computed: {reason}", reason=sentence))

    def show_unanswerable(self, reason: str) -> None:
        """Say that nobody can answer, and what to do first."""
        self.show_busy()
        self.word.setText(tr("No answer yet"))
        self.lead.setText(bind_units(tr(reason)))

    def show_answer(self, answer: PlainAnswer) -> None:
        """Show and speak the answer."""
        verdict = answer.assessment.verdict
        self.lamp.set_state(verdict.state)
        word = tr(verdict.word)
        sentences = [tr(sentence) for sentence in answer.sentences]
        self.lamp.setAccessibleName(tr("Verdict: {word}", word=word))
        self.word.setText(word)
        self.lead.setText(bind_units(sentences[0]))
        self.reason.setText(bind_units(sentences[1]))
        more = [tr(text) for text in (answer.size, answer.warning, answer.advice)]
        for label, text in zip((self.how_large, self.warning, self.advice), more, strict=True):
            label.setText(bind_units(text))
            label.setVisible(bool(text))
        self._show_ways(answer)
        items = "".join(f"<p>{_with_head(line)}</p>" for line in answer.assumptions)
        self.view.show_html(f"{items}<p>{escape(tr(PLANNING))}</p>")
        spoken = " ".join((f"{word}.", *sentences, *filter(None, more)))
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, spoken))

    def _show_ways(self, answer: PlainAnswer | None) -> None:
        """A button for each change that would make it run."""
        while item := self._ways.takeAt(0):
            if widget := item.widget():
                widget.hide()
                widget.deleteLater()
        self._found, self.ways = answer, []
        for way in answer.ways if answer else ():
            button = PillButton()
            button.setText(bind_units(tr(way.label)))
            button.setMinimumHeight(30)
            button.clicked.connect(self._on_way)
            self._ways.addWidget(button)
            self.ways.append(button)
        if self.ways:
            self._ways.addStretch(1)

    def _on_way(self) -> None:
        assert self._found is not None
        button = self.sender()
        assert isinstance(button, PillButton)
        self.way_wanted.emit(self._found.ways[self.ways.index(button)])

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the two cards below each other where there is little width."""
        super().resizeEvent(event)
        direction = QBoxLayout.Direction
        narrow = self.width() < _NARROW
        self._body.setDirection(direction.TopToBottom if narrow else direction.LeftToRight)

    def _on_change(self) -> None:
        self.change_wanted.emit(self.sender().objectName())


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setFont(theme.font("body", bold=True))
    return label


def _with_head(line: str) -> str:
    """A line with what stands before its colon in bold, where that is one word or two."""
    short = len(line.partition(":")[0]) < 16  # of the English, so that every language agrees
    shown = bind_units(tr(line))
    head, colon, rest = shown.partition(":")
    return f"<b>{escape(head)}</b>:{escape(rest)}" if colon and short else escape(shown)
