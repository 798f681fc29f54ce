"""A capture on its way into the open scenario: read, cut to a cycle, reduced, taken."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from explorer.advice.capture.habit import Habit, habit
from explorer.advice.capture.operation import taken
from explorer.advice.capture.phases import Reduced, reduced
from explorer.advice.capture.record import Capture
from explorer.files.captures import read_capture
from explorer.files.table_reader.told import LogError, Question, Told, Undecided
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.text import say
from explorer.words.refusal import refusal

_READ, _REDUCE = "capture", "capture cycle"
_WATCH_MS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A capture and what it repeats."""

    capture: Capture
    habit: Habit


@dataclass(frozen=True, slots=True, kw_only=True)
class Cycle:
    """The chosen stretch of a capture and its phases."""

    from_s: float
    to_s: float
    capture: Capture
    """The stretch alone, its time counted from 0."""
    reduced: Reduced


@dataclass(frozen=True, slots=True)
class _Fault:
    """Why a job has no result: a sentence, and what may be told so that it has one."""

    sentence: str
    question: Question | None = None


class _Reading:
    """One reading of a file: how far it is, and whether it is still wanted."""

    def __init__(self) -> None:
        self.share = 0.0
        self.stopped = False

    def __call__(self, share: float) -> None:
        """Note how far it is; called off the interface thread."""
        if self.stopped:
            raise LogError(say("The reading of the capture was stopped."))
        self.share = share


class CaptureSession(QObject):
    """Reads one capture and reduces its cycle off the interface thread.

    Parameters
    ----------
    document : Document
        Takes the operation.
    jobs : JobRunner
        Runs the work.
    """

    opened = Signal(object)
    """Carries an `Opened`."""
    cycle_ready = Signal(object)
    """Carries a `Cycle`."""
    progressed = Signal(float)
    """Share of the file that has been read."""
    refused = Signal(object)
    """Why a file or a stretch cannot be used, as a `Text`."""
    asked = Signal(object, object)
    """A sentence and the `Question` that a file leaves open."""

    def __init__(
        self, document: Document, jobs: JobRunner, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._jobs = document, jobs
        self.path: Path | None = None
        self.told = Told()
        self.found: Opened | None = None
        self.cycle: Cycle | None = None
        self._reading = _Reading()
        self._watch = QTimer(self)
        self._watch.setInterval(_WATCH_MS)
        self._watch.timeout.connect(self._on_watch)
        jobs.done.connect(self._on_done)
        jobs.failed.connect(self._on_failed)

    def open(self, path: Path, told: Told | None = None) -> None:
        """Read a file."""
        self.path, self.told = path, told or Told()
        self.found = self.cycle = None
        self._reading.stopped = True
        given, reading = self.told, _Reading()
        self._reading = reading
        self._watch.start()

        def work() -> Opened | _Fault:
            try:
                capture = read_capture(path, given, reading)
                return Opened(capture=capture, habit=habit(capture))
            except Undecided as fault:
                return _Fault(fault.args[0], fault.question)
            except (ValueError, ArithmeticError) as fault:
                return _Fault(fault.args[0])

        self._jobs.submit(_READ, work)

    def answer(self, about: str, choice: str) -> None:
        """Read the file again with one thing told."""
        assert self.path is not None
        told: dict[str, Any] = {about: choice}
        self.open(self.path, replace(self.told, **told))

    def choose(self, from_s: float, to_s: float) -> None:
        """Reduce a stretch of the capture."""
        if self.found is None:
            return
        whole, known = self.found.capture, self.found.habit

        def work() -> Cycle | _Fault:
            try:
                part = whole.between(from_s, to_s)
                return Cycle(
                    from_s=from_s, to_s=to_s, capture=part, reduced=reduced(part, known)
                )
            except (ValueError, ArithmeticError) as fault:
                return _Fault(fault.args[0])

        self._jobs.submit(_REDUCE, work)

    def take(self, name: str, place: int | None, *, keeps_schedule: bool = False) -> str:
        """Put the operation into the scenario as one undo step; returns why that failed.

        Parameters
        ----------
        name : str
            Of the operation.
        place : int or None
            Operation that it stands for, the number of operations to stand beside them all, or
            None to stand for all of them.
        keeps_schedule : bool
            Whether it runs when the operation ran for which it stands.
        """
        if self.cycle is None:
            return say("No cycle is chosen.")
        scenario = self._document.scenario
        try:
            load = taken(
                scenario.load, self.cycle.reduced, name, place, keeps_schedule=keeps_schedule
            )
        except ValueError as fault:
            return refusal(scenario, "load", fault)
        self._document.begin_gesture()
        return self._document.attempt("load", load)

    def drop(self) -> None:
        """Forget what is being read or reduced."""
        self._reading.stopped = True
        self._watch.stop()
        self._jobs.cancel(_READ)
        self._jobs.cancel(_REDUCE)

    def _on_done(self, key: str, result: object) -> None:
        if key not in (_READ, _REDUCE):
            return
        if key == _READ:
            self._watch.stop()
        if isinstance(result, Opened):
            self.found = result
            self.opened.emit(result)
            self.choose(result.habit.from_s, result.habit.to_s)
        elif isinstance(result, Cycle):
            self.cycle = result
            self.cycle_ready.emit(result)
        elif isinstance(result, _Fault):
            if result.question is not None:
                self.asked.emit(result.sentence, result.question)
            else:
                self.refused.emit(result.sentence)

    def _on_watch(self) -> None:
        self.progressed.emit(self._reading.share)

    def _on_failed(self, key: str, why: object) -> None:
        if key in (_READ, _REDUCE):
            self.refused.emit(str(why))
