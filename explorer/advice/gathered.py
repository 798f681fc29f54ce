"""A measured log in hours and a few levels, for judging many designs at once."""

from __future__ import annotations

from datetime import timedelta

import numpy as np

from explorer.advice.case import Case
from explorer.advice.year.study import as_worn, wear_of
from explorer.engine.system import WEEK_S
from explorer.physics.arrays import FloatArray
from explorer.scenario.light import LogPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from explorer.scenario.year_light import YearLight, year_scale

LOG_LEVELS = 7
HARD_WEEKS = 4
"""Weeks of a year that stand for it where many designs are looked at together."""
SHORT_LOG = 64
"""Most stretches of a log that is taken as it is."""
DARK, DIM = 1e-4, 0.02
"""Shares of the brightest hour up to which readings are dark, or dim."""
MOST_DARK = 48
"""Stretches of darkness or of dim light that keep their own beginning and end, longest first."""


def gathered_log(log: LightLog) -> LightLog:
    """A log in hours and a few levels, which keep the light of the hours they stand for.

    A dark stretch is no share of an hour: the longest are cut out as they were read.
    """
    hours = np.append(np.arange(0.0, log.duration_s, 3600.0), log.duration_s)
    total = np.concatenate([[0.0], np.cumsum(log.illuminance_lx * np.diff(log.time_s))])
    mean = np.diff(np.interp(hours, log.time_s, total)) / np.diff(hours)
    brightest = max(float(mean.max()), 1e-9)
    hours = np.union1d(hours, _dark_edges(log, brightest))
    mean = np.diff(np.interp(hours, log.time_s, total)) / np.diff(hours)
    cuts = np.concatenate([[DARK], np.geomspace(DIM, 1.0, LOG_LEVELS)]) * brightest
    level = np.searchsorted(cuts, mean, side="left")
    value = np.array([
        np.average(mean[level == k], weights=np.diff(hours)[level == k])
        if np.any(level == k) else 0.0
        for k in range(level.max() + 1)
    ])
    parted = np.concatenate([[True], np.diff(level) != 0])
    return LightLog(
        time_s=np.append(hours[:-1][parted], log.duration_s),
        illuminance_lx=value[level[parted]],
        start=log.start,
        step_s=3600.0,
    )


def _dark_edges(log: LightLog, brightest_lx: float) -> FloatArray:
    """Where the longest stretches of darkness and of dim light begin and end. [s]"""
    found = []
    for share in (DARK, DIM):
        low = np.concatenate([[False], log.illuminance_lx <= share * brightest_lx, [False]])
        turns = np.flatnonzero(np.diff(low))
        found.append(log.time_s[turns].reshape(-1, 2))
    stretches = np.concatenate(found)
    length = stretches[:, 1] - stretches[:, 0]
    return np.asarray(stretches[np.argsort(-length, kind="stable")[:MOST_DARK]].ravel())


def is_short(log: LightLog) -> bool:
    """Whether a log has so few stretches of constant light that it needs no gathering."""
    return 1 + int(np.count_nonzero(np.diff(log.illuminance_lx))) <= SHORT_LOG


def with_gathered_log(scenario: Scenario, log: LightLog) -> tuple[Scenario, LightLog]:
    """A scenario under the gathered log that receives the light it receives under the whole one."""
    lux = scenario.light.illuminance_lx
    lux = log.mean_lit_lx if lux is None else lux
    if is_short(log):
        return scenario, log
    coarse = gathered_log(log)
    scale = coarse.mean_lit_lx / log.mean_lit_lx if log.mean_lit_lx > 0 else 1.0
    light = scenario.light.model_copy(update={"illuminance_lx": lux * scale})
    return scenario.model_copy(update={"light": light}), coarse


def with_darkest_weeks(scenario: Scenario, year: YearLight) -> tuple[Scenario, LightLog]:
    """A scenario in the darkest weeks of its year, which come again and again.

    No more than a first guess for many designs at once: what a store carries over from the weeks
    before is not seen, and how the year's other months suit the design neither.
    """
    per_week = round(WEEK_S / year.step_s)
    lux = year.daylight_lx + year.electric_lx
    total = np.concatenate([[0.0], np.cumsum(np.append(lux, lux[: HARD_WEEKS * per_week]))])
    begins = np.arange(0, len(lux), per_week // 7)
    sums = total[begins + HARD_WEEKS * per_week] - total[begins]
    some = (begins[int(np.argmin(sums))] + np.arange(HARD_WEEKS * per_week)) % len(lux)
    log = LightLog(
        time_s=year.step_s * np.arange(len(some) + 1.0), illuminance_lx=lux[some],
        start=year.start + timedelta(seconds=float(some[0]) * year.step_s), step_s=year.step_s,
    )
    source, daylight_share = year.spectrum(some)
    light = scenario.light.model_copy(update={
        "pattern": LogPattern(), "source": source, "daylight_share": daylight_share,
        "illuminance_lx": year_scale(scenario.light.illuminance_lx, year) * log.mean_lit_lx,
        "ambient_C": float(np.mean(year.temperature_c[some])),
    })
    return with_gathered_log(scenario.model_copy(update={"light": light}), log)


def gathered(case: Case, nominal: Case | None = None) -> Case:
    """The case under its log in hours, or in the darkest weeks of its year; else itself.

    Parameters
    ----------
    case : Case
        One design, or many as one case.
    nominal : Case, optional
        The one of which the many are variants.
    """
    if case.year is not None:
        nominal = nominal or case
        scenario, log = with_darkest_weeks(case.scenario, case.year)
        if np.ndim(scenario.store.years_in_service):
            return Case(scenario, log)
        return Case(as_worn(scenario, wear_of(nominal), nominal.scenario), log)
    if case.log is None:
        return case
    return Case(*with_gathered_log(case.scenario, case.log))
