"""The questions of the bench drawer as steps that a feed can run.

What they call loads when first asked: the window must be on the screen before.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from explorer.files.story import Story

if TYPE_CHECKING:
    from explorer.advice.bench.drift import Drift
    from explorer.advice.bench.fit import Fit
    from explorer.advice.bench.forecast import Agreement
    from explorer.advice.bench.outlook import Prospect
    from explorer.advice.bench.parameters import Parameter
    from explorer.advice.case import Case
    from explorer.advice.edges import Stopped
    from explorer.scenario.logged_run import BenchRun


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchView:
    """Logged runs beside the forecast, and what may be fitted to them."""

    agreements: tuple[Agreement, ...]
    offered: tuple[Parameter, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Why a log is not shown, as a sentence."""

    why: str
    place: int = 0
    """Which of the runs it is."""
    is_open: bool = False
    """Whether the file can be read in two ways, and a person can tell which."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitView:
    """A search as far as it has come."""

    fit: Fit
    later: Fit | None = None
    """Of the runs of months later."""
    drift: Drift | None = None
    prospects: tuple[Prospect, ...] = ()
    """What other measurements would bring, the best first."""


def run_of(story: Story, place: int) -> BenchRun:
    """One of the runs, read.

    Raises
    ------
    FileError
        As `read_bench_log`.
    """
    from explorer.files.bench_log import cached_bench_log

    one = story.runs[place]
    return replace(cached_bench_log(one.path, one.told), conditions=one.conditions)


def bench_steps(story: Story, case: Case, stopped: Stopped) -> Iterator[BenchView | Refused]:
    """The forecast beside every run, at once; nothing where no log is open."""
    from explorer.advice.bench.forecast import agreement
    from explorer.advice.bench.parameters import candidates
    from explorer.files.disk import FileError
    from explorer.files.table_reader.told import Undecided

    runs = []
    for place in range(len(story.runs)):
        try:
            runs.append(run_of(story, place))
        except FileError as error:
            yield Refused(why=str(error), place=place, is_open=isinstance(error, Undecided))
            return
    found = []
    for run in runs:
        if stopped():
            return
        found.append(agreement(case, run))
    offered = {p.path: p for run in runs for p in candidates(case.scenario, run)}
    if runs:
        yield BenchView(agreements=tuple(found), offered=tuple(offered.values()))


def fit_steps(
    story: Story, paths: tuple[str, ...], case: Case, stopped: Stopped
) -> Iterator[FitView | Refused]:
    """A search for the values at some paths, growing; then what has aged."""
    from explorer.advice.bench.drift import drift
    from explorer.advice.bench.fit import fit
    from explorer.advice.bench.parameters import parameter

    try:
        chosen = [parameter(case.scenario, p) for p in paths]
        known = dict(story.known)
        first, second = (
            [run_of(story, place) for place in story.places(later=later)]
            for later in (False, True)
        )
        view = None
        for found in fit(case, first or second, chosen, stopped, known):
            view = FitView(fit=found)
            yield view
        if view is None or not view.fit.is_good or not (first and second):
            return
        for found in fit(case, second, chosen, stopped, known):
            view = replace(view, later=found)
        if view.later is not None:
            if view.later.is_good:
                told = drift(view.fit, view.later, same_meter=story.same_meter)
                view = replace(view, drift=told)
            yield view
    except ValueError as error:
        yield Refused(why=str(error))


def next_steps(
    story: Story, view: FitView, case: Case, stopped: Stopped
) -> Iterator[FitView | Refused]:
    """The same fit with what other measurements would bring, at once."""
    from explorer.advice.bench.outlook import outlook

    try:
        places = story.places(later=False) or story.places(later=True)
        runs = [run_of(story, place) for place in places]
        found = outlook(case, runs, view.fit, stopped, dict(story.known))
        if not stopped():
            yield replace(view, prospects=found)
    except ValueError as error:
        yield Refused(why=str(error))
