"""The verdict along the stops of one knob, and where it changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from explorer.advice.asked import seen_at
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.edges import Edges, Stopped, find_edges
from explorer.advice.fleet import STATES
from explorer.advice.verdict import State


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakEven:
    """Verdict at every stop of one knob, and where it changes."""

    path: str
    stops: tuple[float, ...]
    states: tuple[State, ...]
    best: float
    """The stop with the largest reserve; more than that may be worse."""
    works: Edges | None = None
    """Where it runs or is marginal; None while only the batch engine has looked."""
    runs: Edges | None = None

    @property
    def is_draft(self) -> bool:
        """Whether only the batch engine has looked."""
        return self.works is None


def draft(case: Case, path: str, stops: Sequence[float]) -> BreakEven:
    """The verdict at every stop by the batch engine alone, while the exact one looks."""
    found = seen_at(case, path, stops)
    return BreakEven(
        path=path,
        stops=tuple(float(v) for v in stops),
        states=tuple(STATES[code] for code in found.codes),
        best=float(stops[int(np.argmax(found.reserve))]),
    )


def break_even(
    case: Case, path: str, stops: Sequence[float], stopped: Stopped = lambda: False
) -> BreakEven:
    """Where the verdict changes along the stops of one knob, by the exact march.

    Parameters
    ----------
    case : Case
        The present design.
    path : str
        What the knob moves.
    stops : sequence of float
        The values that it can take, rising.
    stopped : callable
        Asked before every march.

    Raises
    ------
    Interrupted
        `stopped` said so.
    """
    works = find_edges(case, path, WORKS, stops, stopped=stopped)
    runs = find_edges(case, path, RUNS, stops, stopped=stopped)
    codes = np.array([works.holds(v) + (works.holds(v) and runs.holds(v)) for v in stops])
    reserve = np.where(codes == codes.max(), seen_at(case, path, stops).reserve, -np.inf)
    return BreakEven(
        path=path,
        stops=tuple(float(v) for v in stops),
        states=tuple(STATES[code] for code in codes),
        best=float(stops[int(np.argmax(reserve))]),
        works=works,
        runs=runs,
    )
