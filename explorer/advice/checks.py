"""The six checks: one function for each, on the readings of one design or of many."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import reduce

import numpy as np

from explorer.advice.readings import (
    FARTHEST,
    DarkReading,
    Readings,
    times,
)
from explorer.advice.readings.balance import Balance
from explorer.advice.readings.pulse import flat, spare
from explorer.advice.readings.runs import Served
from explorer.advice.verdict import NO_LIMIT
from explorer.physics.arrays import BoolArray, FloatArray
from explorer.scenario.model import Scenario
from explorer.scenario.ratings import Rating

PULSE_MARGIN = 1.1
"""Margin wanted for the dip of a pulse, which follows from part data (own judgement)."""
HALF_A_RUN = 0.5
"""Runs are whole and a course cuts one in two: half a run is not missed."""
SHARE = ""
"""Unit of a share; a count has the unit 1."""
ALL_BUT_A_RUN = 1.0 - 1e-6
"""Without a cut-off every run that is due is served, though a course may hold one less than the
mean rate: 9 or 10 at a rate of 9.8."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What n designs must reach; arrays of shape (n,)."""

    start_within_s: FloatArray
    margin: FloatArray
    """Design margin: available over needed that counts as a clean pass."""
    served_share: FloatArray
    reserve_j: FloatArray
    waits: BoolArray
    """Whether each operation waits for a voltage, shape (operations,)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One check of n designs; arrays of shape (n,)."""

    value: FloatArray
    """What the design reaches."""
    limit: FloatArray
    """What it must reach or must not pass."""
    unit: str
    margin: FloatArray
    """Available over needed, at most `NO_LIMIT`; below 1 the check fails."""
    wanted: FloatArray
    """The margin that counts as a clean pass."""
    holds: BoolArray
    """Whether the course shows that the device works all the same: then it does not fail."""

    @property
    def counted(self) -> FloatArray:
        """The margin that the verdict counts: no less than 1 where the course holds."""
        return np.where(self.holds, np.maximum(self.margin, 1.0), self.margin)


def asked_of(scenario: Scenario, size: int) -> Asked:
    """What a design asks for, or a batch whose numbers are columns."""
    margins = scenario.margins
    return Asked(
        start_within_s=flat(margins.start_within_h, size) * 3600.0,
        margin=flat(scenario.design_margin, size),
        served_share=flat(margins.served_share, size),
        reserve_j=flat(scenario.load.reserve_J, size),
        waits=np.array(
            [op.schedule.kind != "every" for op in scenario.load.operations], bool
        ),
    )


def judged(found: Readings, asked: Asked) -> dict[str, Judged]:
    """All six checks in their fixed order, with the rule that what is seen to work works.

    A design whose course repeats and serves everything, in time, within its ratings and through
    the declared dark with its reserve kept, never falls short: what its balance, its pulses or
    its nights lack makes it marginal at worst. The other rule, that none runs whose course has a
    cut-off or misses an operation, is in `service`.
    """
    checks = {
        "starts": starts(found, asked),
        "balance": balance(found, asked),
        "dark": dark(found.dark, asked),
        "pulse": pulse(found),
        "ratings": ratings(found),
        "service": service(found, asked),
    }
    survives = (checks["dark"].margin >= 1.0) | ~(found.dark.closure | (asked.reserve_j > 0))
    works = found.repeats & ~found.falls & serves_all(found, asked) & survives
    for name in ("starts", "ratings"):
        works = works & (checks[name].margin >= 1.0)
    return {
        name: replace(check, holds=works) if name in ("balance", "dark", "pulse") else check
        for name, check in checks.items()
    }


def starts(found: Readings, asked: Asked) -> Judged:
    """Time allowed over time from empty to the end of the first start-up."""
    with np.errstate(divide="ignore"):
        margin = asked.start_within_s / found.ready_s
    return _judged(found.ready_s, asked.start_within_s, "s", margin, asked.margin)


def balance(found: Readings | Balance, asked: Asked) -> Judged:
    """Mean power brought over mean power taken, the store held where that suits best."""
    some = found.taken_w > 0
    margin = np.where(some, found.brought_w / np.where(some, found.taken_w, 1.0), NO_LIMIT)
    return _judged(found.brought_w, found.taken_w, "W", margin, asked.margin)


def dark(d: DarkReading, asked: Asked) -> Judged:
    """Time to the cut-off over the worst dark stretch; without any it cannot fail."""
    margin = times(d.lasts_s, d.needed_s)
    return _judged(d.lasts_s, d.needed_s, "s", margin, asked.margin)


def more_than(found: Readings) -> BoolArray:
    """Whether a dark stretch was followed to the end of the search, shape (n,)."""
    d = found.dark
    return (d.needed_s > 0) & (d.lasts_s >= FARTHEST * d.needed_s * (1.0 - 1e-9))


def pulse(found: Readings) -> Judged:
    """Drop available over drop taken, of the pulse that has the least to spare.

    Value and limit are the lowest terminal voltage and what is needed: from the voltage with
    which the pulse begins it is (begin - limit) / (begin - value).
    """
    n, p = found.size, found.pulse
    wanted = np.full(n, PULSE_MARGIN)
    if p is None:
        return _judged(np.full(n, np.inf), np.zeros(n), "V", np.full(n, NO_LIMIT), wanted)
    return _judged(p.lowest_v, p.need_v, "V", spare(p), wanted)


def ratings(found: Readings) -> Judged:
    """Rated over seen, of the limit that is nearest or farthest overstepped."""
    n = found.size
    table = np.array([flat(row.margin, n) for row in found.ratings])
    worst = np.argmin(table, axis=0), np.arange(n)
    seen = np.array([flat(row.seen, n) for row in found.ratings])[worst]
    rated = np.array([flat(row.rated, n) for row in found.ratings])[worst]
    unit = found.ratings[int(worst[0][0])].unit
    return _judged(seen, rated, unit, table[worst], np.ones(n))


def ratings_margin(rows: Sequence[Rating], size: int) -> FloatArray:
    """Smallest rated over seen, shape (n,)."""
    least = reduce(np.minimum, (flat(row.margin, size) for row in rows))
    return np.asarray(np.clip(least, 0.0, NO_LIMIT))


def service(found: Readings, asked: Asked) -> Judged:
    """Share served over share asked for, or an amount asked beside it that fares worse.

    An amount is met or not: what it asks for is what a person wants, margins included.
    """
    course = course_service(found, asked)
    if not found.required:
        return course
    clean = np.ones(found.size)
    rows = [course] + [
        _judged(one.value, one.limit, one.unit, one.margin, clean) for one in found.required
    ]
    worst = np.argmin([row.margin / row.wanted for row in rows], axis=0), np.arange(found.size)
    value, limit, margin, wanted = (
        np.array([np.broadcast_to(getattr(row, name), found.size) for row in rows])[worst]
        for name in ("value", "limit", "margin", "wanted")
    )
    return replace(
        course, value=value, limit=limit, unit=rows[int(worst[0][0])].unit, margin=margin,
        wanted=wanted,
    )


def course_service(found: Readings | Served, asked: Asked) -> Judged:
    """Share served over share asked for; all of it is a clean pass, less is not.

    A device is served while it sleeps, too: the share of time in which it is connected counts
    like one more operation, so a course with a cut-off never is a clean pass.
    """
    share = np.min(shares(found, asked), axis=1)
    whole = serves_all(found, asked)
    some = asked.served_share > 0
    wanted = np.where(some, 1.0 / np.where(some, asked.served_share, 1.0), NO_LIMIT)
    margin = np.where(some, share * wanted, 1.0)
    margin = np.where(whole, wanted, np.minimum(margin, wanted * (1.0 - 1e-6)))
    return _judged(share, asked.served_share, SHARE, margin, wanted)


def shares(found: Readings | Served, asked: Asked) -> FloatArray:
    """Served over wanted of every operation, then the share connected, (n, operations + 1)."""
    slack = np.where((found.served > 0) | ~asked.waits, HALF_A_RUN, 0.0)
    stays = (found.connected >= 1.0) & (found.cut_offs == 0)
    slack = np.where(stays[:, None] & ~asked.waits, ALL_BUT_A_RUN, slack)
    whole = found.served + slack >= found.wanted
    some = found.wanted > 0
    part = np.where(some, found.served / np.where(some, found.wanted, 1.0), 1.0)
    runs = np.where(whole, 1.0, np.minimum(part, 1.0))
    return np.concatenate([runs, found.connected[:, None]], axis=1)


def serves_all(found: Readings | Served, asked: Asked) -> BoolArray:
    """Whether the course has no cut-off and misses no operation, shape (n,)."""
    all_of_it = np.min(shares(found, asked), axis=1) >= 1.0
    return np.asarray(all_of_it & (found.cut_offs == 0))


def _judged(
    value: FloatArray, limit: FloatArray, unit: str, margin: FloatArray, wanted: FloatArray
) -> Judged:
    return Judged(
        value=value, limit=limit, unit=unit, margin=np.clip(margin, 0.0, NO_LIMIT),
        wanted=wanted, holds=np.zeros(len(value), bool),
    )


__all__ = [
    "PULSE_MARGIN",
    "SHARE",
    "Asked",
    "Judged",
    "asked_of",
    "balance",
    "course_service",
    "dark",
    "judged",
    "more_than",
    "pulse",
    "ratings",
    "ratings_margin",
    "serves_all",
    "service",
    "shares",
    "starts",
]
