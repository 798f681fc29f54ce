"""What is said of a case with some of its values changed, exactly or by the batch engine."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

import numpy as np

from explorer.advice.case import Case
from explorer.advice.criteria import Criterion
from explorer.advice.fleet import Fleet, fleet
from explorer.advice.judge import judge
from explorer.advice.stops import WHOLE
from explorer.advice.verdict import Verdict
from explorer.physics.arrays import FloatArray
from explorer.scenario.model import with_values

T = TypeVar("T")


def judged_at(
    case: Case, path: str, value: float, criterion: Criterion
) -> tuple[bool, float]:
    """Whether a design with one value changed is as asked, and how near; exactly.

    A verdict is made only where nothing less says so, and once for every criterion.
    """

    def verdict_of(other: Case) -> Verdict:
        return case.once(("verdict at", path, value), lambda: judge(other))

    def question(other: Case) -> tuple[bool, float]:
        found = criterion.at_once(other)
        if found is not None:
            return found
        verdict = verdict_of(other)
        return criterion.holds(verdict), criterion.level(verdict)

    if case.knows(("verdict at", path, value)):
        verdict = verdict_of(case)
        return criterion.holds(verdict), criterion.level(verdict)
    return asked_with(case, {path: value}, question, (False, 0.0))


def verdict_with(case: Case, changes: Mapping[str, float]) -> Verdict | None:
    """The exact verdict with some values changed; None where that is no design."""
    return asked_with(case, changes, judge, None)


def asked_with(
    case: Case, changes: Mapping[str, float], question: Callable[[Case], T], otherwise: T
) -> T:
    """What is said of a case with some values changed, or of what is no design."""
    other = case
    try:
        other = _changed(case, changes)
        return question(other)
    except (ValueError, ArithmeticError):  # refused by the scenario, or not to be computed
        return otherwise
    finally:
        if other is not case:
            other.forget()


def _changed(case: Case, changes: Mapping[str, float]) -> Case:
    """A case with some values changed, counts as whole numbers."""
    whole = {
        path: int(value) if path.rpartition(".")[2] in WHOLE else value
        for path, value in changes.items()
    }
    return case.with_scenario(with_values(case.scenario, whole))


def seen_at(case: Case, path: str, values: Sequence[float] | FloatArray) -> Fleet:
    """What the batch engine says of several values of one quantity, computed once."""
    kept = tuple(float(v) for v in values)
    return case.once(("seen at", path, kept), lambda: fleet(case, {path: np.array(kept)}))
