"""A way forward for somebody who may move a few quantities only: the smallest change that runs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations

import numpy as np

from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.advice.remedy_search import (
    Lever,
    Remedy,
    Stopped,
    changed,
    effort_of,
    hopeful,
    runs,
    single,
)
from explorer.physics.arrays import FloatArray
from explorer.scenario.fields import describe
from explorer.scenario.model import owner_class

MOST_TRIES = 6
"""Settings of several quantities that the exact march is asked about."""
MOST_ROWS = 1000
"""Settings of several quantities that the batch engine looks at together, about."""


def levers_of(
    case: Case, stops: Mapping[str, Sequence[float]], now: Mapping[str, float]
) -> list[Lever]:
    """The quantities that may be moved, as levers, the store's size first.

    Parameters
    ----------
    case : Case
        The design.
    stops : mapping of str to sequence of float
        Path of each quantity, with the rising values that it may take.
    now : mapping of str to float
        What each stands at; a log's level has no value of its own in the scenario.
    """
    found = []
    for path, some in stops.items():
        info = describe(owner_class(case.scenario, path), path.rpartition(".")[2])
        values = np.array([s for s in some if s != now[path]])
        near = np.argsort([effort_of(now[path], v) for v in values], kind="stable")
        found.append(
            Lever(
                path=path, label=info.label, unit=info.unit, now=now[path], stops=tuple(some),
                values=values[near],
            )
        )  # fmt: skip
    return sorted(found, key=lambda lever: not lever.path.startswith("store."))


def way_to_run(
    case: Case, levers: Sequence[Lever], stopped: Stopped = lambda: False
) -> Remedy | None:
    """The smallest change of what may be moved with which a design runs; None where none is.

    One quantity is looked at stop by stop, several in a grid of their stops. The batch engine
    looks at all settings, the exact march has the last word.

    Raises
    ------
    Interrupted
        `stopped` said so.
    """
    found: Remedy | None = None
    for lever, effort in hopeful(case, levers)[0]:
        if found is not None and effort >= found.effort:
            break
        one = single(case, lever, stopped)
        if one is not None and (found is None or one.effort < found.effort):
            found = one
    for count in range(2, len(levers) + 1):
        if found is not None:
            return found
        found = _several(case, levers, count, stopped)
    return found


def _several(
    case: Case, levers: Sequence[Lever], count: int, stopped: Stopped
) -> Remedy | None:
    """So many quantities changed at once, the nearest setting that runs."""
    options: list[tuple[float, tuple[Lever, ...], tuple[float, ...]]] = []
    chosen = list(combinations(levers, count))
    points = max(int((MOST_ROWS / len(chosen)) ** (1 / count)), 3)
    for some in chosen:
        if stopped():
            return None
        grids = [g.ravel() for g in np.meshgrid(*(_some(lever, points) for lever in some))]
        good = fleet(
            case, {q.path: g for q, g in zip(some, grids, strict=True)}, only_runs=True
        ).reserve >= 1.0
        for i in np.flatnonzero(good).tolist():
            values = tuple(float(g[i]) for g in grids)
            effort = sum(effort_of(q.now, v) for q, v in zip(some, values, strict=True))
            options.append((effort, some, values))
    options.sort(key=lambda option: option[0])
    for effort, some, values in options[:MOST_TRIES]:
        tried: Case | None = case
        for lever, value in zip(some, values, strict=True):
            tried = None if tried is None else changed(tried, lever.path, value)
        if stopped():
            return None
        if tried is not None and runs(tried):
            return Remedy(
                changes=tuple(q.change_to(v) for q, v in zip(some, values, strict=True)),
                effort=effort, scenario=tried.scenario,
            )  # fmt: skip
    return None


def _some(lever: Lever, count: int) -> FloatArray:
    """A few of a quantity's values, over the whole of its range."""
    rising = np.sort(lever.values)
    picked = np.unique(np.linspace(0, len(rising) - 1, count).round().astype(int))
    return np.asarray(rising[picked])
