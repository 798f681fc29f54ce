"""The guide: one question on each page, then the answer."""

from __future__ import annotations

from functools import partial
from typing import cast

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from explorer.scenario.guide import (
    QUESTIONS,
    Answers,
    DarkKey,
    JobKey,
    MattersKey,
    OftenKey,
    PlaceKey,
    question,
)
from explorer.state import theme
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.widgets.buttons import PillButton
from explorer.widgets.guide.question_page import QuestionPage
from explorer.widgets.guide.result_page import ResultPage
from explorer.widgets.help.sizes import fit_screen
from explorer.words.plain_answer import PlainAnswer, answer

JOB = "guide"


class GuideDialog(QDialog):
    """Asks five questions and shows what follows; the answers stay for the next time.

    Parameters
    ----------
    jobs : JobRunner
        Where the designs are tried.
    """

    chosen = Signal(object)
    """Carries the `Scenario` that somebody wants to open."""

    def __init__(self, jobs: JobRunner, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._jobs = jobs
        self._found: PlainAnswer | None = None
        self._changing = False
        self.setWindowTitle(tr("Guide – Gloaming"))
        self.setSizeGripEnabled(True)
        self.progress = QLabel()
        self.progress.setFont(theme.font("small"))
        self.progress.setForegroundRole(self.progress.palette().ColorRole.PlaceholderText)
        self.stack = QStackedWidget()
        self.pages = [QuestionPage(q) for q in QUESTIONS]
        self.outcome = ResultPage()
        self.back, self.forward, self.close_button = (PillButton() for _ in range(3))
        self._build()
        for page in self.pages:
            page.changed.connect(self._refresh)
            page.picked.connect(self.on_forward)
        self.outcome.change_wanted.connect(self._on_change_wanted)
        jobs.done.connect(self._on_done)
        jobs.failed.connect(self._on_failed)
        self._refresh()

    def _build(self) -> None:
        for page in (*self.pages, self.outcome):
            self.stack.addWidget(page)
        self.back.setText(tr("Back"))
        self.close_button.setText(tr("Close"))
        self.forward.setCheckable(True)
        for button, handler in (
            (self.back, self.on_back),
            (self.close_button, self.reject),
            (self.forward, self.on_forward),
        ):
            button.setMinimumHeight(34)
            button.clicked.connect(handler)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.back)
        foot.addStretch(1)
        foot.addWidget(self.close_button)
        foot.addWidget(self.forward)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 18, 24, 18)
        layout.setSpacing(6)
        layout.addWidget(self.progress)
        layout.addWidget(self.stack, 1)
        layout.addSpacing(6)
        layout.addLayout(foot)
        self.setMinimumSize(420, 300)
        fit_screen(self, QSize(820, 580))
        back = QShortcut(QKeySequence("Alt+Left"), self)
        back.activated.connect(self.on_back)

    @property
    def answers(self) -> Answers | None:
        """The five answers; None while one is missing."""
        given = {page.question.key: page.answer for page in self.pages}
        if not all(given.values()):
            return None
        return Answers(
            place=cast(PlaceKey, given["place"]),
            job=cast(JobKey, given["job"]),
            often=cast(OftenKey, given["often"]),
            dark=cast(DarkKey, given["dark"]),
            matters=cast(MattersKey, given["matters"]),
        )

    @property
    def found(self) -> PlainAnswer | None:
        """The answer on show."""
        return self._found

    def begin(self) -> None:
        """Show the dialog at the first question, or at the answer that is there already."""
        if self.stack.currentWidget() is not self.outcome:
            self._go(0)
        self.show()
        self.raise_()
        self.activateWindow()
        self._take_focus()

    def on_back(self) -> None:
        """Go to the page before."""
        if self._changing:
            self._show_result()
        elif self.stack.currentIndex() > 0:
            self._go(self.stack.currentIndex() - 1)

    def on_forward(self) -> None:
        """Go to the next page, compute, or open what was found."""
        self.forward.setChecked(self.forward.isEnabled())
        if self.stack.currentWidget() is self.outcome:
            if self._found is not None:
                self.chosen.emit(self._found.scenario)
            return
        index = self.stack.currentIndex()
        if not self.pages[index].answer:
            return
        if self._changing or index == len(self.pages) - 1:
            self._show_result()
        else:
            self._go(index + 1)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses the button with the focus, or goes on."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            focused = self.focusWidget()
            if isinstance(focused, PillButton):
                focused.click()
            else:
                self.on_forward()
        else:
            super().keyPressEvent(event)

    def _go(self, index: int) -> None:
        self.stack.setCurrentIndex(index)
        self._refresh()
        self._take_focus()

    def _take_focus(self) -> None:
        page = self.stack.currentWidget()
        if isinstance(page, QuestionPage):
            page.take_focus()
        else:
            self.forward.setFocus()

    def _show_result(self) -> None:
        self._changing = False
        answers = self.answers
        assert answers is not None
        self.outcome.set_answers({
            page.question.key: next(
                c.title for c in page.question.choices if c.key == page.answer
            )
            for page in self.pages
        })  # fmt: skip
        if self._found is None or self._found.answers != answers:
            self._found = None
            self.outcome.show_busy()
            self._jobs.submit(JOB, partial(answer, answers))
        self._go(len(self.pages))

    def _on_change_wanted(self, key: str) -> None:
        self._changing = True
        self._go(QUESTIONS.index(question(key)))

    def _on_done(self, key: str, found: object) -> None:
        if key == JOB:
            assert isinstance(found, PlainAnswer)
            if found.answers == self.answers:
                self._found = found
                self.outcome.show_answer(found)
            self._refresh()
            if self.stack.currentWidget() is self.outcome:
                self._take_focus()

    def _on_failed(self, key: str, sentence: str) -> None:
        if key == JOB:
            self.outcome.show_failure(sentence)

    def _refresh(self) -> None:
        index = self.stack.currentIndex()
        if self.stack.currentWidget() is self.outcome:
            self.progress.setText(tr("The answer"))
            self.forward.setText(tr("Open it in the explorer"))
            ready, can_go_back = self._found is not None, True
        else:
            self.progress.setText(
                tr("Question {n} of {count}", n=index + 1, count=len(self.pages))
            )
            last = index == len(self.pages) - 1 or self._changing
            self.forward.setText(tr("Show the answer") if last else tr("Next"))
            ready = bool(self.pages[index].answer)
            can_go_back = index > 0 or self._changing
        self.forward.setEnabled(ready)
        self.forward.setChecked(ready)  # filled: the button that goes on
        self.back.setEnabled(can_go_back)
