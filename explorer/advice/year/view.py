"""What the picture of a year shows, as one value that can travel between processes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

import numpy as np

from explorer.advice.assess import Threshold, assess
from explorer.advice.case import Case
from explorer.advice.edges import Stopped
from explorer.advice.verdict import Verdict
from explorer.advice.year.answers import (
    MonthAnswers,
    YearCalendar,
    longest_dark,
    month_answers,
    working_days,
    year_calendar,
)
from explorer.advice.year.life import Life, Turn, Worn, life, verdict_turn, worn_after
from explorer.advice.year.readings import worst_months
from explorer.advice.year.study import year_study
from explorer.scenario.year_course import moment_of

TOLD_YEARS = 10.0
"""Age for which it is told what is left of the store. [a]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class YearView:
    """One settled year of a design."""

    calendar: YearCalendar
    months: tuple[MonthAnswers, ...]
    thresholds: tuple[Threshold, ...]
    verdict: Verdict
    worst: dict[str, int]
    """The month in which each check has the least to spare, from 0."""
    longest_dark: tuple[datetime, datetime] | None
    working: tuple[int, int]
    """First and last day of the longest stretch without an hour off, from 1; 0 for none."""
    hung_up: datetime
    notes: tuple[str, ...]
    """What was used for the light of the year."""
    settled: bool
    life: Life
    worn: Worn
    """After `TOLD_YEARS`."""
    years_in_service: float
    turn: Turn | None = None
    """None until it is known."""
    gives_out: bool = False
    """Whether the device runs until its store gives out: then it is off as it should be."""

    @property
    def off_days(self) -> int:
        """Days with an hour, or a cut-off, in which the device is off."""
        return int((~self.calendar.works).sum())


def year_view(case: Case) -> YearView:
    """What the picture of a year shows, but for when the verdict turns.

    ValueError where the design does not live in a year of daylight.
    """
    found = year_study(case)
    assessed = assess(case, with_answers=False)
    return YearView(
        gives_out=case.scenario.load.runs_until_empty and found.starts,
        calendar=year_calendar(case), months=month_answers(case),
        thresholds=assessed.thresholds, verdict=assessed.verdict, worst=worst_months(case),
        longest_dark=longest_dark(case), working=working_days(case),
        hung_up=moment_of(found.year, found.hung_s), notes=found.year.notes,
        settled=found.course.settled, life=life(case), worn=worn_after(case, TOLD_YEARS),
        years_in_service=float(np.asarray(case.scenario.store.years_in_service)),
    )


def year_views(case: Case, stopped: Stopped) -> Iterator[YearView | None]:
    """The year, then the same with the age at which the verdict turns; None without a year."""
    if case.year is None:
        yield None
        return
    found = year_view(case)
    yield found
    if not stopped():
        turn = verdict_turn(case, stopped)
        if not stopped():
            yield replace(found, turn=turn)
