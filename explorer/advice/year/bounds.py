"""Bounds that no course of a year passes: they rule a design out without a march through it."""

from __future__ import annotations

import numpy as np

from explorer.advice.case import Case, kept
from explorer.advice.checks import asked_of
from explorer.advice.year.readings import tightest
from explorer.advice.year.study import first_charge, seasons_of, year_gaps
from explorer.engine.course import Standing, StopAt
from explorer.engine.keys import On
from explorer.engine.march import Engine
from explorer.scenario.year_course import hung_up_s

HOPELESS = 0.8
"""Ratio of a balance below which no course serves all that is wanted: balances are taken at the
level that suits them best, and are good to some per cent."""


def falls_short_by(case: Case, *, cleanly: bool) -> float | None:
    """How near a design comes to what is asked where a bound says that it is not; else None."""
    found = ruled_out(case, cleanly=cleanly)
    return None if found is None else found[1]


def ruled_out(case: Case, *, cleanly: bool) -> tuple[str, float] | None:
    """The check by which a bound rules a design out, and how near it comes; None where none does.

    Parameters
    ----------
    case : Case
        A design in a year of daylight.
    cleanly : bool
        Whether it is asked to run, and not merely to work.
    """
    if seasons_of(case)[1].all_in_vain:
        return "starts", 0.0
    # What the light does not bring cannot be served; close to it a course may show that it is.
    balance = tightest(case).ratio
    if balance < HOPELESS:
        return "balance", balance
    least, connected = outlasted(case)
    asked = asked_of(case.scenario, 1)
    if least < 1.0 and (cleanly or connected < float(asked.served_share[0])):
        return "dark", least
    wanted = float(asked.margin[0]) if cleanly else 1.0
    margin = float(asked.start_within_s[0]) / max(first_ready_s(case), 1e-9)
    return ("starts", margin / wanted) if margin < wanted else None


def outlasted(case: Case) -> tuple[float, float]:
    """The least that a full store that only sleeps lasts, over a dark stretch, and how long it can.

    Returns
    -------
    tuple of float
        Time that it lasts over the length of the stretch, where that is least; and the most of the
        year, as a share, in which the device can be connected.
    """
    year, seasons = case.year, seasons_of(case)[1]
    assert year is not None
    lasts = [_sleeps_for(engine) for engine in seasons.engines]
    least, off_s = np.inf, 0.0
    for gap in year_gaps(case):
        # It may pass into the next month, in which the store may last longer.
        month = seasons.month_at(gap.begin_s)
        longest = max(lasts[month], lasts[(month + 1) % len(lasts)])
        least = min(least, longest / gap.length_s)
        off_s += max(min(gap.length_s, seasons.year_s) - longest, 0.0)
    return float(least), 1.0 - off_s / seasons.year_s


def _sleeps_for(engine: Engine) -> float:
    """Longest that a full store may last in the dark: nothing is drawn but what sleep takes. [s]"""
    motion = engine.motion(0.0, False, On())
    full_c = min(engine.field.full_c, float(engine.field.charge_c[-1]))
    if full_c <= motion.off_c:
        return 0.0
    return motion.flow.time_to(full_c, motion.off_c)


@kept
def first_ready_s(case: Case) -> float:
    """From an empty store on the day of hanging-up to the end of the first start-up. [s]"""
    year, seasons = case.year, seasons_of(case)[1]
    assert year is not None
    hung_s = hung_up_s(case.scenario, year)
    run = seasons.march(
        seasons.year_s, Standing(charge_c=0.0, connected=False), begin_s=hung_s,
        stop_at=StopAt.FIRST_OPERATION,
    )
    return first_charge(seasons, hung_s, run).seconds


__all__ = ["falls_short_by", "first_ready_s", "outlasted", "ruled_out"]
