"""The questions of the drawers as steps that a feed can run.

What they call loads when first asked: the window must be on the screen before.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import isclose
from pathlib import Path
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from explorer.scenario.model import Scenario, get_value, with_value
from explorer.scenario.storage import SIZE_PATHS

if TYPE_CHECKING:
    from explorer.advice.budget import Budget
    from explorer.advice.build_front import Builds, Wanted
    from explorer.advice.case import Case
    from explorer.advice.contest import Entry
    from explorer.advice.edges import Edges, Stopped
    from explorer.advice.elsewhere import Charged
    from explorer.advice.panel_curve import PanelCurve
    from explorer.advice.remedies import Remedies
    from explorer.advice.spread import Spread, Tolerance
    from explorer.advice.territory import Axis, Territory
    from explorer.advice.verdict import Verdict
    from explorer.advice.year.view import YearView
    from explorer.files.study_builds import BuildSearch
    from explorer.scenario.guide.answers import Answers
    from explorer.words.plain_answer import PlainAnswer

COARSE = 16
FEW, MANY = 1000, 10_000
FIRST_UNITS = 6
"""Units of a year that are judged before a first picture."""


def remedy_steps(
    parts_folder: Path, beside: Path | None, case: Case, stopped: Stopped
) -> Iterator[Remedies]:
    """Growing lists of remedies, with stores of one's own; the last is done."""
    from explorer.advice.remedies import find_remedies
    from explorer.files.shelf import Shelf

    return find_remedies(case, stopped, Shelf(parts_folder, beside).stores())


def elsewhere_steps(case: Case, stopped: Stopped) -> Iterator[tuple[Charged, ...]]:
    """The device at the other places of its scenario, at once."""
    from explorer.advice.elsewhere import elsewhere

    if not stopped():
        yield elsewhere(case)


def budget_steps(case: Case, stopped: Stopped) -> Iterator[Budget]:
    """The energies of one period, at once."""
    from explorer.advice.budget import budget

    if not stopped():
        yield budget(case)


def year_steps(case: Case, stopped: Stopped) -> Iterator[YearView | None]:
    """The year, then the same with the age at which the verdict turns; None without a year."""
    from explorer.advice.year.view import year_views

    yield from year_views(case, stopped)


def panel_steps(case: Case, stopped: Stopped) -> Iterator[PanelCurve]:
    """The panel's curves at the present light, at once."""
    from explorer.advice.panel_curve import panel_curve

    yield panel_curve(case)


def contest_steps(
    parts_folder: Path, beside: Path | None, case: Case, stopped: Stopped
) -> Iterator[Entry]:
    """The present store, those of one's own, and one generic kind after the other."""
    from explorer.advice.contest import contest, present_entry
    from explorer.files.shelf import Shelf

    yield present_entry(case)
    yield from contest(case, stopped, Shelf(parts_folder, beside).stores())


def builds_steps(
    parts_folder: Path, beside: Path | None, wanted: Wanted, kept: BuildSearch, case: Case,
    stopped: Stopped,
) -> Iterator[Builds]:
    """Builds that run, kind by kind, then their front as it is confirmed.

    The front that a study keeps for this design and these limits comes first, judged again.
    """
    from explorer.advice.builds import search
    from explorer.files.shelf import Shelf
    from explorer.files.study_builds import builds_again

    knows = bool(kept.front) and kept.limits == wanted and kept.is_of(case.scenario)
    if knows:
        yield builds_again(kept, case)
    own = tuple(one.part for one in Shelf(parts_folder, beside).kept() if one.part is not None)
    for found in search(case, own=own, wanted=wanted, stopped=stopped):
        if found.is_done or not knows:  # what was kept stays until there is as much again
            yield found


def guided(answers: Answers, parts_folder: Path | None) -> PlainAnswer:
    """The guide's answer, with the parts of one's own at hand."""
    from explorer.files.shelf import Shelf
    from explorer.words.plain_answer import answer

    kept = () if parts_folder is None else Shelf(parts_folder).kept()
    return answer(answers, own=tuple(one.part for one in kept if one.part is not None))


def territory_steps(x: Axis, y: Axis, case: Case, stopped: Stopped) -> Iterator[Territory]:
    """A coarse map, then the fine one, then its points near a limit by the exact march."""
    from explorer.advice.territory import coarse, refined, territory
    from explorer.advice.territory_year import territory_of_year

    if case.year is not None:
        yield from territory_of_year(case, x, y, stopped)
        return
    yield territory(case, coarse(x, COARSE), coarse(y, COARSE))
    if not stopped():
        found = territory(case, x, y)
        yield found
        yield from refined(case, found, stopped)


@dataclass(frozen=True, slots=True, kw_only=True)
class BothVerdicts:
    """What the present design does, and what another does; None where it cannot be judged."""

    now: Verdict
    then: Verdict | None


def both_steps(other: Scenario, case: Case, stopped: Stopped) -> Iterator[BothVerdicts]:
    """Both by the exact march, at once."""
    from explorer.advice.judge import judge

    if not stopped():
        try:
            then = judge(case.with_scenario(other))
        except (ValueError, ArithmeticError):  # not to be computed
            then = None
        yield BothVerdicts(now=judge(case), then=then)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowEdges:
    """Where along the first quantity of a map the present design works, and where it runs."""

    axis: Axis
    works: Edges
    runs: Edges


def row_steps(x: Axis, case: Case, stopped: Stopped) -> Iterator[RowEdges]:
    """The edges along the present row of a map, at once."""
    from explorer.advice.territory import row_of
    from explorer.engine.course import Interrupted

    try:
        works, runs = row_of(case, x, stopped)
    except Interrupted:
        return
    yield RowEdges(axis=x, works=works, runs=runs)


@dataclass(frozen=True, slots=True, kw_only=True)
class NewAndAged:
    """What tolerances do to new units and to those of some years."""

    new: Spread
    aged: Spread | None


def spread_steps(
    tolerances: tuple[Tolerance, ...],
    years: float,
    case: Case,
    stopped: Stopped,
) -> Iterator[NewAndAged]:
    """A quick look at few builds, then many, then as many of an age, then those near a limit."""
    from explorer.advice.spread import confirmed, spread
    from explorer.engine.course import Interrupted

    if case.year is not None:
        # What the darkest weeks say of many is no picture of a year.
        try:
            many = spread(case, tolerances, builds=FEW, years=0.0)
            yield NewAndAged(new=confirmed(many, stopped, most=FIRST_UNITS), aged=None)
            new = confirmed(many, stopped)
            yield NewAndAged(new=new, aged=None)
            aged = confirmed(spread(case, tolerances, builds=FEW, years=years), stopped)
            yield NewAndAged(new=new, aged=aged)
        except Interrupted:
            pass
        return
    few = spread(case, tolerances, builds=FEW, years=0.0)
    yield NewAndAged(new=few, aged=None)
    if stopped():
        return
    new = spread(case, tolerances, builds=MANY, years=0.0)
    yield NewAndAged(new=new, aged=None)
    if stopped():
        return
    aged = spread(case, tolerances, builds=MANY, years=years)
    yield NewAndAged(new=new, aged=aged)
    try:
        new = confirmed(new, stopped)
        yield NewAndAged(new=new, aged=aged)
        yield NewAndAged(new=new, aged=confirmed(aged, stopped))
    except Interrupted:
        return


def same_but_for(paths: tuple[str, ...], one: Scenario, other: Scenario) -> bool:
    """Whether two scenarios differ in the values at some paths only.

    A store's resistance and leakage, which follow its size, count as the same when they agree
    to rounding.
    """
    try:
        for path in sorted(paths, key=_is_size, reverse=True):
            value = get_value(one, path)
            if get_value(other, path) != value:
                other = with_value(other, path, value)
    except (KeyError, ValidationError):
        return False
    return one == other or _close(one.model_dump(), other.model_dump())


def _is_size(path: str) -> bool:
    return path in SIZE_PATHS


def _close(one: Any, other: Any) -> bool:
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(_close(one[k], other[k]) for k in one)
    if isinstance(one, tuple | list) and isinstance(other, tuple | list):
        return len(one) == len(other) and all(map(_close, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return isclose(one, other, rel_tol=1e-9)
    return bool(one == other)
