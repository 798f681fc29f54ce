"""A measured log in hours and a few levels, for judging many designs at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from explorer.advice.case import Case
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario

FloatArray = NDArray[np.float64]

LOG_LEVELS = 7
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


def gathered(case: Case) -> Case:
    """The case under its log in hours, where there is a log."""
    if case.log is None:
        return case
    return Case(*with_gathered_log(case.scenario, case.log))
