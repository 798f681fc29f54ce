"""The open design beside up to five others, each assessed in a worker."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from explorer.advice.assess import Assessment, assess
from explorer.advice.case import Case
from explorer.advice.reach import reach
from explorer.files.beside import resolve_case
from explorer.files.disk import FileError
from explorer.files.study import Laid
from explorer.scenario.study import MOST_DESIGNS
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.solver import Solver
from explorer.text import say

_JOB = "line up "


@dataclass(slots=True, kw_only=True)
class Design:
    """One of the others."""

    case: Case
    name: str
    job: str
    path: Path | None = None
    """Where its light log is looked for; None for shipped ones alone."""
    result: Assessment | None = None
    """None until it is there."""


class LineUp(QObject):
    """Holds designs to be laid over each other; the open one is always the first.

    Parameters
    ----------
    document, solver : Document and Solver
        The open design and what judges it; the others are assessed over the same time.
    jobs : JobRunner
        Where the others are assessed.
    """

    changed = Signal()
    """Another design, or another result."""
    failed = Signal(object)
    """Why a design is not taken or cannot be computed: a `Text`."""

    def __init__(
        self, document: Document, solver: Solver, jobs: JobRunner, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._solver, self._jobs = document, solver, jobs
        self.others: list[Design] = []
        self._count = 0
        self._span_s = solver.window().to_s
        self._show_study()
        document.study_changed.connect(self._show_study)
        solver.result_ready.connect(self._on_result)
        jobs.done.connect(self._on_done)
        jobs.failed.connect(self._on_failed)

    @property
    def cases(self) -> list[Case]:
        """All designs, the open one first."""
        return [self._document.case, *(design.case for design in self.others)]

    @property
    def results(self) -> list[Assessment | None]:
        """What is known of each."""
        return [self._solver.result, *(design.result for design in self.others)]

    @property
    def names(self) -> list[str]:
        """What each is called."""
        this = self._document.scenario.title or say("Untitled")
        return [this, *(design.name for design in self.others)]

    def add(self, case: Case, name: str, path: Path | None = None) -> bool:
        """Lay another design beside the open one; False where there is no room for it.

        Parameters
        ----------
        case, name : Case and str
            The design, and what it is called.
        path : pathlib.Path, optional
            Where its light log lies beside.
        """
        if len(self.others) >= MOST_DESIGNS - 1:
            self.failed.emit(
                say("{n} designs can be compared; take one out first.", n=MOST_DESIGNS)
            )
            return False
        self._lay(case, name, path)
        self._keep()
        self.changed.emit()
        return True

    def remove(self, index: int) -> None:
        """Take a design out, counted from the first of the others."""
        del self.others[index]
        self._keep()
        self.changed.emit()

    def _lay(self, case: Case, name: str, path: Path | None) -> None:
        self._count += 1
        design = Design(case=case, name=name, job=f"{_JOB}{self._count}", path=path)
        self.others.append(design)
        self._assess(design)

    def _laid(self) -> tuple[Laid, ...]:
        return tuple(
            Laid(name=one.name, scenario=one.case.scenario, path=one.path) for one in self.others
        )

    def _keep(self) -> None:
        """The document keeps them, on disk where it is a study."""
        self._document.edit_study(replace(self._document.study, designs=self._laid()))

    def _show_study(self) -> None:
        """Show the designs that a study holds."""
        wanted = self._document.study.designs
        if wanted == self._laid():
            return
        self.others.clear()
        for one in wanted:
            try:
                case = resolve_case(one.scenario, one.path)
            except FileError as error:
                self.failed.emit(str(error))
                continue
            self._lay(case, one.name, one.path)
        self.changed.emit()

    def _assess(self, design: Design) -> None:
        self._jobs.submit(design.job, partial(_work, design.case, self._span_s))

    def _on_result(self, _: object) -> None:
        span_s = self._solver.window().to_s
        if span_s != self._span_s:
            self._span_s = span_s
            for design in self.others:
                self._assess(design)
        if self.others:
            self.changed.emit()

    def _of(self, key: str) -> Design | None:
        return next((design for design in self.others if design.job == key), None)

    def _on_done(self, key: str, result: object) -> None:
        design = self._of(key)
        if design is not None and isinstance(result, Assessment):
            design.result = result
            self.changed.emit()

    def _on_failed(self, key: str, reason: str) -> None:
        design = self._of(key)
        if design is not None:
            self.failed.emit(
                say("{name} cannot be computed: {reason}", name=design.name, reason=reason)
            )


def _work(case: Case, span_s: float) -> Assessment:
    found = assess(case, span_s=span_s)
    return replace(found, answers={**found.answers, **reach(case)})
