"""What runs behind the drawers and the remedies: one question, asked anew when the knobs rest."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal

from explorer.advice.case import Case
from explorer.scenario.model import Scenario
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.text import say

REST_MS = 180
"""Quiet time before a question is asked again; a little after the break-evens."""
Stopped = Callable[[], bool]
Steps = Callable[[Case, Stopped], Iterator[object]]
"""Yields a growing answer, or its parts, and ends early once `stopped` says so."""
Same = Callable[[Scenario, Scenario], bool]


class Feed(QObject):
    """Answers one question about the document, off the interface thread, newest wins.

    While closed it computes nothing. A change of the document stops the work at its next step,
    and nothing that was found for an earlier scenario arrives afterwards.

    Parameters
    ----------
    key : str
        Name of the job.
    document : Document
        What the question is about.
    jobs : JobRunner
        Where the work runs.
    steps : callable
        The work: pure, touches no widget.
    same : callable, optional
        Whether the answer for one scenario also holds for another; equality when left out.
    """

    outdated = Signal()
    """What arrived so far belongs to an earlier scenario."""
    arrived = Signal(object)
    """Carries one step of the answer."""
    finished = Signal()
    failed = Signal(object)
    """Why there is no answer, as a sentence: a `Text`."""

    def __init__(
        self,
        key: str,
        document: Document,
        jobs: JobRunner,
        steps: Steps,
        *,
        same: Same | None = None,
        rest_ms: int = REST_MS,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._key, self._document, self._jobs = key, document, jobs
        self._steps, self._same, self._rest_ms = steps, same, rest_ms
        self._open = False
        self._for: Case | None = None
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.timeout.connect(self._ask)
        document.changed.connect(self._on_changed)
        jobs.arrived.connect(self._on_arrived)
        jobs.done.connect(self._on_done)
        jobs.failed.connect(self._on_failed)

    @property
    def is_open(self) -> bool:
        """Whether anybody looks."""
        return self._open

    @property
    def is_current(self) -> bool:
        """Whether what arrived, or is on its way, belongs to the scenario of the document."""
        return self._for is not None and self._holds_for(self._for)

    def set_open(self, is_open: bool, *, at_once: bool = True) -> None:
        """Begin to answer, at once or when the knobs rest, or stop."""
        if is_open == self._open:
            return
        self._open = is_open
        if not is_open:
            if self._jobs.busy(self._key) or self._rest.isActive():
                self._drop()
        elif not self.is_current:
            self._forget()
            self._rest.start(0 if at_once else self._rest_ms)

    def set_steps(self, steps: Steps, *, rest_ms: int | None = None) -> None:
        """Ask another question of the same kind; what runs is dropped."""
        self._steps = steps
        self._forget()
        if self._open:
            self._rest.start(self._rest_ms if rest_ms is None else rest_ms)

    def _holds_for(self, case: Case) -> bool:
        now, scenario = self._document.scenario, case.scenario
        if not case.is_beside(self._document.case):
            return False
        return scenario == now or (self._same is not None and self._same(scenario, now))

    def _on_changed(self, _: object) -> None:
        if not self._open:
            return
        if self._for is not None and self._holds_for(self._for):
            self._jobs.rest(self._key, self._rest_ms / 1000.0)
            return
        if self._for is not None:
            self._forget()
        self._rest.start(self._rest_ms)

    def _forget(self) -> None:
        """Nothing of what runs may arrive any more."""
        self._drop()
        self.outdated.emit()

    def _drop(self) -> None:
        self._rest.stop()
        self._for = None
        self._jobs.cancel(self._key)

    def _ask(self) -> None:
        if not self._open:
            return
        self._for = self._document.case
        self._jobs.ask(self._key, partial(self._steps, self._for))

    def _on_arrived(self, key: str, step: object) -> None:
        if key == self._key and self._for is not None:
            self.arrived.emit(step)

    def _on_done(self, key: str, _: object) -> None:
        if key == self._key and self._for is not None:
            self.finished.emit()

    def _on_failed(self, key: str, reason: str) -> None:
        if key == self._key and self._for is not None:
            self.failed.emit(say("This could not be computed: {reason}", reason=reason))
