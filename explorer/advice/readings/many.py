"""Judge many variants of a scenario at once: for break-even values, maps and spreads.

The six checks are those of `explorer.advice.checks`, read from the batch engine, in which pulses
are averaged over their cycle. Verdicts agree with the exact ones except within some 5 % of a
limit; margins of designs that work agree within about 5 %, where single pulses are large against
the store within some 12 %. A first charge that just misses an evening may come a night later.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from explorer.advice import fleet_checks
from explorer.advice.case import Case
from explorer.advice.checks import NO_LIMIT, PULSE_MARGIN
from explorer.advice.verdict import CHECK_NAMES, State
from explorer.engine.many import prepare
from explorer.scenario.build import build
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario

FloatArray = NDArray[np.float64]
STATES: tuple[State, ...] = ("falls_short", "marginal", "runs")
LOG_LEVELS = 7
MET_OR_NOT = ("ratings", "service")
"""Checks whose margin says little once they pass."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fleet:
    """Verdicts of many variants; arrays of shape (variants,)."""

    margins: dict[str, FloatArray]
    """Available over needed for each of the six checks."""
    wanted: dict[str, FloatArray]
    """Margin that counts as a clean pass."""
    first_charge_s: FloatArray

    @property
    def reserve(self) -> FloatArray:
        """Smallest margin over the margin wanted: 1 or more runs.

        Ratings and service count only where they fail: they are met or not, and would hide what
        the other checks have to spare, as in `Verdict.governing`.
        """
        return np.asarray(self._telling_margins(over_wanted=True).min(axis=0))

    @property
    def telling(self) -> FloatArray:
        """Smallest reserve of those energy and pulse checks that tell the variants apart."""
        rows = [self.margins[n] / self.wanted[n] for n in ("starts", "balance", "dark", "pulse")]
        apart = [r for r in rows if np.ptp(r) > 0]
        return np.min(apart, axis=0) if apart else self.reserve

    @property
    def promise(self) -> FloatArray:
        """How near a variant is: mean over the checks of the reserve, none counted above 1."""
        table = np.array([self.margins[n] / self.wanted[n] for n in CHECK_NAMES])
        return np.asarray(np.minimum(table, 1.0).mean(axis=0))

    @property
    def margin(self) -> FloatArray:
        """Smallest margin: below 1 the variant falls short. Counted as in `reserve`."""
        return np.asarray(self._telling_margins(over_wanted=False).min(axis=0))

    def _telling_margins(self, *, over_wanted: bool) -> FloatArray:
        """Shape (checks, variants); no limit where ratings or service are met."""
        rows = []
        for name in CHECK_NAMES:
            row = self.margins[name]
            met = np.asarray(name in MET_OR_NOT) & (row >= 1.0)
            rows.append(np.where(met, NO_LIMIT, row / self.wanted[name] if over_wanted else row))
        return np.array(rows)

    @property
    def codes(self) -> NDArray[np.intp]:
        """0 falls short, 1 marginal, 2 runs."""
        return (self.margin >= 1.0).astype(np.intp) + (
            (self.margin >= 1.0) & (self.reserve >= 1.0)
        ).astype(np.intp)

    @property
    def governing(self) -> NDArray[np.intp]:
        """Index into CHECK_NAMES of the check that decides.

        One that fails goes before one that is marginal; of these the smallest reserve.
        """
        failing = self._telling_margins(over_wanted=False) < 1.0
        reserve = self._telling_margins(over_wanted=True)
        return np.asarray(np.argmin(np.where(failing, reserve - NO_LIMIT, reserve), axis=0))


def gathered_log(log: LightLog) -> LightLog:
    """A log in hours and a few levels, which keep the light of the hours they stand for."""
    hours = np.append(np.arange(0.0, log.duration_s, 3600.0), log.duration_s)
    total = np.concatenate([[0.0], np.cumsum(log.illuminance_lx * np.diff(log.time_s))])
    mean = np.diff(np.interp(hours, log.time_s, total)) / np.diff(hours)
    cuts = np.concatenate(
        [[1e-4], np.geomspace(0.02, 1.0, LOG_LEVELS)]
    ) * max(float(mean.max()), 1e-9)
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


def with_gathered_log(scenario: Scenario, log: LightLog) -> tuple[Scenario, LightLog]:
    """A scenario under the gathered log that receives the light it receives under the whole one."""
    lux = scenario.light.illuminance_lx
    lux = log.mean_lit_lx if lux is None else lux
    coarse = gathered_log(log)
    scale = coarse.mean_lit_lx / log.mean_lit_lx if log.mean_lit_lx > 0 else 1.0
    light = scenario.light.model_copy(update={"illuminance_lx": lux * scale})
    return scenario.model_copy(update={"light": light}), coarse


def judge_many(case: Case | Scenario, *changed: Any, only_runs: bool = False) -> Fleet:
    """`fleet`, also of a scenario, its log and the changes."""
    changes: Mapping[str, ArrayLike] = changed[-1]
    if not isinstance(case, Case):
        case = Case(case, changed[0])
    return fleet(case, changes, only_runs=only_runs)


def fleet(
    case: Case, changes: Mapping[str, ArrayLike], *, only_runs: bool = False
) -> Fleet:
    """Verdicts of the variants that `changes` describes.

    Parameters
    ----------
    case : Case
        The design that is varied, in its light.
    changes : mapping of str to array_like
        Values at dotted paths; arrays of one length, the number of variants.
    only_runs : bool
        Ask only whether the reserve is 1 or more, which takes less time; of a variant that does
        not run no more is known than that.
    """
    size = max((np.size(v) for v in changes.values()), default=1)
    several = case.varied(changes)
    many, log = several.scenario, several.log
    if log is not None:
        many, log = with_gathered_log(many, log)
    system = build(many, log)
    batch = prepare(system, size)
    margins, first = fleet_checks.margins(many, batch, only_runs=only_runs)
    plain = np.ones(size)
    asked = fleet_checks.column(many.design_margin, size)
    return Fleet(
        margins={k: np.clip(margins[k], 0.0, NO_LIMIT) for k in CHECK_NAMES},
        wanted={
            "starts": asked, "balance": asked, "dark": asked, "pulse": PULSE_MARGIN * plain,
            "ratings": plain, "service": plain,
        },
        first_charge_s=first,
    )


__all__ = ["STATES", "Fleet", "fleet", "gathered_log", "judge_many", "with_gathered_log"]
