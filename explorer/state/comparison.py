"""The open design beside another one: what differs, and what the other one does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from pydantic import ValidationError
from PySide6.QtCore import QObject, Signal

from explorer.advice.assess import Assessment, assess
from explorer.advice.case import Case
from explorer.advice.compare import Difference, differences, taken_over
from explorer.advice.reach import reach
from explorer.scenario.model import Scenario
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.pacer import FramePacer
from explorer.state.solver import Solver
from explorer.text import say
from explorer.words.refusal import refusal

JOB = "compare"


class Comparison(QObject):
    """Holds the other design, assesses it in a worker, and takes values over from it.

    Parameters
    ----------
    document : Document
        The design that values are taken over into.
    solver : Solver
        Assesses that design; the other one is assessed over the same time.
    jobs : JobRunner
        Where the other design is assessed.
    """

    changed = Signal()
    """What differs has changed; at most once a frame."""
    assessed = Signal()
    """One of the two designs was assessed."""
    failed = Signal(object)
    """Why the other design cannot be assessed, or a value not be taken over: a `Text`."""

    def __init__(
        self, document: Document, solver: Solver, jobs: JobRunner, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._solver, self._jobs = document, solver, jobs
        self._other: Case | None = None
        self._span_s = 0.0
        self.name = ""
        """What the other design is called."""
        self.found: tuple[Difference, ...] = ()
        self.result: Assessment | None = None
        """Of the other design; None until it is there."""
        self._pacer = FramePacer(parent=self)
        self._pacer.due.connect(self._look)
        document.changed.connect(self._pacer.request)
        document.refused.connect(self.failed)
        solver.result_ready.connect(self._on_result)
        jobs.done.connect(self._on_done)
        jobs.failed.connect(self._on_failed)

    @property
    def other(self) -> Scenario | None:
        """The other design."""
        return None if self._other is None else self._other.scenario

    @property
    def this(self) -> Assessment | None:
        """Of the open design."""
        return self._solver.result

    def set_other(self, case: Case, name: str) -> None:
        """Compare with another design."""
        self._other, self.name, self.result = case, name, None
        self._look()
        self._assess()

    def take_over(self, chosen: Sequence[Difference]) -> bool:
        """Put the other design's values for some differences in place, as one undo step."""
        if not chosen:
            return False
        scenario = self._document.scenario
        try:
            new = taken_over(scenario, chosen)
        except ValidationError as error:
            self.failed.emit(refusal(scenario, chosen[0].path, error))
            return False
        what = chosen[0].label if len(chosen) == 1 else f"{len(chosen)} values"
        return self._document.replace(new, f"taking over of {what}")

    def _look(self) -> None:
        if self._other is not None:
            self.found = differences(self._document.scenario, self._other.scenario)
            self.changed.emit()

    def _assess(self) -> None:
        if self._other is None:
            return
        window = self._solver.window()
        self._span_s = window.to_s
        self._jobs.submit(JOB, partial(_work, self._other, window.to_s))

    def _on_result(self, _: object) -> None:
        if self._other is not None:
            if self._solver.window().to_s != self._span_s:
                self._assess()
            self.assessed.emit()

    def _on_done(self, key: str, result: object) -> None:
        if key == JOB:
            assert isinstance(result, Assessment)
            self.result = result
            self.assessed.emit()

    def _on_failed(self, key: str, reason: str) -> None:
        if key == JOB:
            self.failed.emit(say("The other design cannot be computed: {reason}", reason=reason))


def _work(case: Case, span_s: float) -> Assessment:
    found = assess(case, span_s=span_s)
    return replace(found, answers={**found.answers, **reach(case)})
