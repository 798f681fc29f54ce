"""Recompute trace and verdict on every frame of a drag, and all else when the knobs rest."""

from __future__ import annotations

import logging
import time
from collections.abc import Hashable
from dataclasses import dataclass, replace
from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal

from explorer.advice.assess import Assessment, assess
from explorer.advice.case import Case
from explorer.engine.course import Unfinished
from explorer.scenario.model import Scenario
from explorer.state.at_rest import AtRest, at_rest_steps, no_steps
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.jobs import JobRunner
from explorer.state.pacer import FramePacer
from explorer.state.spans import SpanKey, Window, first_light_s, window_of
from explorer.text import say

LOG = logging.getLogger(__name__)
REST_MS = 150
"""Quiet time after which the knobs count as resting."""
ANSWERS_MS = 30
"""Quiet time after which the answers follow: none are worked out while a hand moves."""
JOB = "break_evens"
FRAME_JOB = "frame"
SLOW_S = 0.06
"""Where one assessment takes longer than this, such as over weeks of a measured log, the next
ones run in a worker: what takes a tenth of a second must not hold the window."""
MOST_EVENTS = 6000
"""Events of marches after which a frame is given up, and left to a worker: some 0.1 s."""
_BEFORE_CONNECT_S = 600.0


@dataclass(frozen=True, slots=True, kw_only=True)
class NotJudged:
    """A design that the model cannot follow."""

    scenario: Scenario
    why: str
    """A sentence."""


class Solver(QObject):
    """Turns every change of the document into an assessment.

    The model takes a few milliseconds, so it runs on the interface thread, at most once a
    frame and before that frame is painted (`catch_up`). The frame holds the trace, the verdict and
    its checks, all of one design; the answers follow once the hand pauses, the break-evens, which
    take longer, run in a worker when it rests.
    """

    result_ready = Signal(object)
    """Carries an `Assessment`, without answers where they are to follow."""
    pending_changed = Signal(bool)
    """Whether what is on show is of an earlier design than the document's: where one assessment
    takes long, trace and sign follow later than the knob."""
    ghost_ready = Signal(object)
    """Carries the `Assessment` of the pinned design, or None."""
    break_evens_ready = Signal(object)
    """Carries a dict from path to `BreakEven`."""
    not_judged = Signal(object)
    """Why the design has no assessment, as a `Text`: nothing of an earlier one may stay on show."""
    failed = Signal(object)
    """Why the pinned design has no assessment, as a `Text`."""

    def __init__(self, document: Document, jobs: JobRunner, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._jobs = jobs
        self._span: SpanKey = "week"
        self._window = window_of("week", None, 0.0)
        self._operation, self._held = 0, ""
        self._pinned: Case | None = None
        self.result: Assessment | None = None
        self.ghost: Assessment | None = None
        self._reach: dict[str, float] = {}
        self._took_s = 0.0
        self._again = False
        self._is_pending = False
        self._pacer = FramePacer(parent=self)
        self._pacer.due.connect(self._on_due)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(ANSWERS_MS)
        self._pause.timeout.connect(self._on_pause)
        self._edges = Feed(JOB, document, jobs, no_steps, rest_ms=REST_MS, parent=self)
        self._edges.arrived.connect(self._on_at_rest)
        self._edges.failed.connect(self._on_edges_failed)
        self._edges.set_open(True, at_once=False)
        document.changed.connect(self._on_changed)
        jobs.done.connect(self._on_done)

    @property
    def jobs(self) -> JobRunner:
        """Where its work runs; what belongs beside it may run there too."""
        return self._jobs

    @property
    def span(self) -> SpanKey:
        """Which span button is down."""
        return self._span

    @property
    def is_pending(self) -> bool:
        """Whether what is on show is of an earlier design than the document's."""
        return self._is_pending

    def window(self) -> Window:
        """The stretch of time on show."""
        return self._window

    def set_span(self, span: SpanKey, around_s: float | None = None) -> None:
        """Show another stretch of time, where it is short around a moment. [s]

        The stretch then stays while knobs move, so that a drag shows what changes in it.
        """
        window = window_of(span, around_s, self._first_event_s())
        if (span, window) != (self._span, self._window):
            self._span, self._window = span, window
            self.solve_now()
            self._solve_ghost()

    def _first_event_s(self) -> float:
        """First connect on show, else the first light. [s]"""
        marks = self.result.marks if self.result is not None else ()
        connects = [mark.time_s for mark in marks if mark.kind == "connect"]
        if connects:
            return max(connects[0] - _BEFORE_CONNECT_S, 0.0)
        return first_light_s(self._document.case)

    def set_operation(self, index: int, held: str = "") -> None:
        """Choose whose largest phase, or which phase, the load knob moves."""
        if (index, held) != (self._operation, self._held):
            self._operation, self._held = index, held
            self._ask_edges()

    def pin(self, case: Case | None) -> None:
        """Keep a design as the ghost curve; None takes it away."""
        self._pinned = case
        self._solve_ghost()

    def solve_now(self) -> None:
        """Assess the scenario at once, answers included; a year in a worker."""
        self._pacer.forget()
        if self._document.scenario.light.pattern.kind != "daylight":
            self._solve(with_answers=True)
        elif not self._solved_at_once(with_answers=True):
            self._wait_for_worker(with_answers=True)

    def catch_up(self) -> bool:
        """Assess what was edited since, if anything, and say so: a frame is about to be painted.

        So no frame holds a knob of one design beside the verdict of another. Where one assessment
        takes too long for that, what is on show becomes pending.
        """
        return self._pacer.catch_up()

    def _solve(self, *, with_answers: bool) -> None:
        self._show(self._timed(self._document.case, with_answers))

    def _timed(self, case: Case, with_answers: bool) -> Assessment | NotJudged:
        """Assess and remember how long it took; may run in a worker."""
        known = case.knows(_name(self.window().to_s, with_answers))
        begun = time.thread_time()  # that of others does not make the model slow
        assessment = self._assess(case, with_answers)
        if not known:
            self._took_s = time.thread_time() - begun
        return assessment

    def _is_quick(self, with_answers: bool) -> bool:
        """Whether an assessment is made before the next frame, as the last one was or is known."""
        name = _name(self.window().to_s, with_answers)
        return self._took_s < SLOW_S or self._document.case.knows(name)

    def _show(self, found: Assessment | NotJudged) -> None:
        late = found.scenario != self._document.scenario
        if isinstance(found, Assessment):
            if late:
                found = replace(found, answers={})
            elif found.answers and self._reach:  # another span of the same design
                found = replace(found, answers={**found.answers, **self._reach})
            self.result = found
            self.result_ready.emit(found)
        elif not late:
            self.result = None
            self.not_judged.emit(found.why)
        self._set_pending(late)

    def _set_pending(self, pending: bool) -> None:
        if pending != self._is_pending:
            self._is_pending = pending
            self.pending_changed.emit(pending)

    def _on_due(self) -> None:
        """One frame of a drag: at once where the model is quick, else in a worker."""
        if self._is_quick(False) and self._solved_at_once(with_answers=False):
            return
        self._wait_for_worker(with_answers=False)

    def _wait_for_worker(self, *, with_answers: bool) -> None:
        """Ask a worker, after the one that may be at work; what is on show is pending."""
        shown = self.result
        self._set_pending(shown is None or shown.scenario != self._document.scenario)
        self._again = self._jobs.busy(FRAME_JOB)
        if not self._again:
            self._submit(with_answers=with_answers)

    def _solved_at_once(self, *, with_answers: bool) -> bool:
        """Assess on the interface thread; False where that would hold the window too long."""
        try:
            with self._document.case.within(MOST_EVENTS):
                self._solve(with_answers=with_answers)
        except Unfinished:
            self._took_s = SLOW_S
            return False
        return True

    def _submit(self, *, with_answers: bool) -> None:
        work = partial(self._timed, self._document.case, with_answers)
        self._jobs.submit(FRAME_JOB, work)

    def _on_pause(self) -> None:
        """The hand pauses: the answers, where the frames left them out."""
        if self.result is None or self.result.answers or self._is_pending:
            return
        if self._is_quick(True) and self._solved_at_once(with_answers=True):
            return
        if not self._jobs.busy(FRAME_JOB):
            self._submit(with_answers=True)

    def request(self) -> None:
        """Assess within a frame, and the break-evens after the rest."""
        self._on_changed()

    def _on_changed(self, *_: object) -> None:
        self._reach = {}
        self._ask_edges()
        self._pacer.request()
        self._pause.start()

    def _assess(self, case: Case, with_answers: bool = True) -> Assessment | NotJudged:
        span_s = self.window().to_s
        return case.once(
            _name(span_s, with_answers), lambda: _assessed(case, span_s, with_answers)
        )

    def _solve_ghost(self) -> None:
        found = None if self._pinned is None else self._assess(self._pinned)
        if isinstance(found, NotJudged):
            self.failed.emit(found.why)
            found = None
        self.ghost = found
        self.ghost_ready.emit(self.ghost)

    def _ask_edges(self) -> None:
        """Whatever is under way belongs to an earlier design; ask again when the knobs rest."""
        self._edges.set_steps(partial(at_rest_steps, self._operation, self._held))

    def _on_at_rest(self, found: object) -> None:
        assert isinstance(found, AtRest)
        self.break_evens_ready.emit(found.break_evens)
        if not found.reach:
            return
        # Where the frame of this design is still being computed they wait for it.
        self._reach = found.reach
        if self.result is not None and self.result.scenario == self._document.scenario:
            self._show(self.result)

    def _on_done(self, key: str, result: object) -> None:
        if key == FRAME_JOB:
            # One that was known may be on show by now: an earlier design must not cover it.
            if isinstance(result, Assessment | NotJudged) and (
                self._is_pending or result.scenario == self._document.scenario
            ):
                self._show(result)
            if self._again:
                self._on_due()
            elif not self._is_pending:
                self._pause.start()

    def _on_edges_failed(self, sentence: object) -> None:
        LOG.warning("break-evens: %s", sentence)


def _name(span_s: float, with_answers: bool) -> Hashable:
    """Under which an assessment hangs on its case, while that is kept."""
    return "shown", span_s, with_answers


def _assessed(case: Case, span_s: float, with_answers: bool) -> Assessment | NotJudged:
    try:
        return assess(case, span_s=span_s, with_answers=with_answers)
    except (ValueError, ArithmeticError, OSError) as error:
        LOG.exception("the scenario could not be assessed")
        why = say("This scenario cannot be computed: {reason}", reason=str(error))
        return NotJudged(scenario=case.scenario, why=why)
