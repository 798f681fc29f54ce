"""The guide: one question on each page, then the answer."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any, cast

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

from explorer.scenario.guide.answers import Answers, PlaceKey
from explorer.scenario.guide.questions import QUESTIONS, is_asked, question
from explorer.state import theme
from explorer.state.drawer_steps import guided
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.widgets.buttons import PillButton
from explorer.widgets.guide.light_page import LightPage
from explorer.widgets.guide.question_page import QuestionPage
from explorer.widgets.guide.region_page import RegionPage
from explorer.widgets.guide.result_page import ResultPage
from explorer.widgets.help.sizes import fit_screen
from explorer.words.plain_answer import PlainAnswer, WayOut, unanswerable

JOB = "guide"


class GuideDialog(QDialog):
    """Asks a few questions and shows what follows; the answers stay for the next time.

    Parameters
    ----------
    jobs : JobRunner
        Where the designs are tried.
    parts_folder : pathlib.Path, optional
        Parts of one's own, whose prices count.
    """

    chosen = Signal(object)
    """Carries the `Scenario` that somebody wants to open."""

    def __init__(
        self,
        jobs: JobRunner,
        parts_folder: Path | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._jobs, self._parts_folder = jobs, parts_folder
        self._found: PlainAnswer | None = None
        self._changing = False
        self.setWindowTitle(tr("Guide – Gloaming"))
        self.setSizeGripEnabled(True)
        self.progress = QLabel()
        self.progress.setFont(theme.font("small"))
        self.progress.setForegroundRole(self.progress.palette().ColorRole.PlaceholderText)
        self.stack = QStackedWidget()
        self.light, self.region = LightPage(question("light")), RegionPage(question("region"))
        own: dict[str, QuestionPage] = {"light": self.light, "region": self.region}
        self.pages = [own.get(q.key) or QuestionPage(q) for q in QUESTIONS]
        self.outcome = ResultPage()
        self.back, self.forward, self.close_button = (PillButton() for _ in range(3))
        self._build()
        for page in self.pages:
            page.changed.connect(self._refresh)
            page.picked.connect(self.on_forward)
        self.outcome.change_wanted.connect(self._on_change_wanted)
        self.outcome.way_wanted.connect(self._on_way_wanted)
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
        fit_screen(self, QSize(860, 640))
        back = QShortcut(QKeySequence("Alt+Left"), self)
        back.activated.connect(self.on_back)

    @property
    def given(self) -> dict[str, str]:
        """Key of the answer by key of each question that is asked; empty while it is open."""
        given: dict[str, str] = {}
        for page in self.pages:
            if is_asked(page.question.key, given):
                given[page.question.key] = page.answer
        return given

    @property
    def answers(self) -> Answers | None:
        """The answers; None while one is missing."""
        given: dict[str, Any] = dict(self.given)
        if not all(given.values()):
            return None
        figures = {**self.light.figures, **self.region.figures}
        return Answers(**given, **cast(dict[str, Any], figures))

    @property
    def asked(self) -> list[QuestionPage]:
        """The pages that make sense after the answers so far."""
        return [page for page in self.pages if page.question.key in self.given]

    @property
    def found(self) -> PlainAnswer | None:
        """The answer on show."""
        return self._found

    def begin(self) -> None:
        """Show the dialog at the first question, or at the answer that is there already."""
        if self.stack.currentWidget() is not self.outcome:
            self._go(self.pages[0])
        self.show()
        self.raise_()
        self.activateWindow()
        self._take_focus()

    def on_back(self) -> None:
        """Go to the page before."""
        page = self.stack.currentWidget()
        if isinstance(page, QuestionPage):
            page.take_back()
        at = self._at()
        if self._changing and self.answers is not None:
            self._show_result()
        elif at > 0:
            self._go(self.asked[at - 1])

    def on_forward(self) -> None:
        """Go to the next page, compute, or open what was found."""
        page = self.stack.currentWidget()
        if isinstance(page, QuestionPage):
            page.commit()
        self.forward.setChecked(self.forward.isEnabled())
        if page is self.outcome:
            if self._found is not None:
                self.chosen.emit(self._found.named(tr))
            return
        assert isinstance(page, QuestionPage)
        if not page.answer:
            page.take_focus()
            return
        following = self._following()
        if following is None:
            self._show_result()
        else:
            self._go(following)

    def _at(self) -> int:
        """Number of the page on show among those that are asked; their count for the outcome."""
        asked, page = self.asked, self.stack.currentWidget()
        return next((i for i, one in enumerate(asked) if one is page), len(asked))

    def _following(self) -> QuestionPage | None:
        """The page to go to next; None where the answer can be given."""
        asked, at = self.asked, self._at()
        if self._changing:  # what a changed answer asks anew comes first
            return next((page for page in asked if not page.answer), None)
        return asked[at + 1] if at + 1 < len(asked) else None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes on, where no button has the focus."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.on_forward()
        else:
            super().keyPressEvent(event)

    def _go(self, page: QuestionPage | ResultPage) -> None:
        if page is self.light:
            self.light.set_place(cast(PlaceKey, self.given["place"]))
            self.light.set_year("region" in self.given)
        self.stack.setCurrentWidget(page)
        self._refresh()
        self._take_focus()

    def _take_focus(self) -> None:
        page = self.stack.currentWidget()
        if isinstance(page, QuestionPage):
            page.take_focus()
        else:
            self.forward.setFocus()

    def _show_result(self) -> None:
        answers = self.answers
        assert answers is not None
        self._changing = False
        self.outcome.set_answers({page.question.key: page.told for page in self.asked})
        if self._found is None or self._found.answers != answers:
            self._found = None
            if reason := unanswerable(answers):
                self.outcome.show_unanswerable(reason)
            else:
                self.outcome.show_busy()
                self._jobs.submit(JOB, partial(guided, answers, self._parts_folder))
        self._go(self.outcome)

    def _on_change_wanted(self, key: str) -> None:
        self._changing = True
        self._go(next(page for page in self.pages if page.question.key == key))

    def _on_way_wanted(self, way: WayOut) -> None:
        """Take the answers that would make it run."""
        for page in self.asked:
            if page not in (self.light, self.region):
                page.set_answer(getattr(way.answers, page.question.key))
        if way.answers.lux is not None:
            self.light.set_lux(way.answers.lux)
        self._show_result()

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
        page = self.stack.currentWidget()
        if isinstance(page, QuestionPage):
            at = self._at()
            self.progress.setText(
                tr("Question {n} of {count}", n=at + 1, count=len(self.asked))
            )
            last = self._following() is None
            self.forward.setText(tr("Show the answer") if last else tr("Next"))
            ready, can_go_back = bool(page.answer), at > 0 or self._changing
        else:
            self.progress.setText(tr("The answer"))
            self.forward.setText(tr("Open in the main window"))
            ready, can_go_back = self._found is not None, True
        self.forward.setEnabled(ready)
        self.forward.setChecked(ready)  # filled: the button that goes on
        self.back.setEnabled(can_go_back)
