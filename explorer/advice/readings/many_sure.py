"""Where the readings of the batch engine may decide by themselves."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from explorer.advice.checks import asked_of, dark, pulse, ratings_margin, service, starts
from explorer.advice.readings import Readings
from explorer.advice.readings.many_levels import (
    LOWEST_OF,
    cut_charge,
    full_charge,
    lowest_charge,
    together_charge,
)
from explorer.engine import many_run as run
from explorer.engine.many import Batch
from explorer.engine.system import WEEK_S, Periodic, WhenReady
from explorer.physics.arrays import BoolArray, FloatArray, IntArray
from explorer.physics.store import Cell
from explorer.scenario.model import Scenario

TOLERANCE = {
    "starts": 0.1, "balance": 0.05, "dark": 0.15, "pulse": 0.15, "ratings": 0.01, "service": 0.05,
}
"""Most by which the margin of a check may differ from the exact one, as a share of it, where a
reading is `sure`; of a ratio above 3 no more is known than that."""
UNLOGGED = {"starts": 0.02, "balance": 0.01}
"""The same in light that is taken as it is, not gathered from a log."""
PROMPT = 0.005
"""Tolerance of a first charge of a bank that ends well within its light, and while it goes on: of
some 240 that were drawn two parted by more, by 0.9 and 1.2 %."""
FALTERS = 0.5
"""Current at the connect, as a share of that at `NEARLY` of its charge, below which the charge has
all but come to an end."""
NEARLY = 0.875
FINE, OF_COARSE = 0.02, 2.0
"""Tolerance of Dark and Pulse with nothing coarse about a store, and for each share of it that the
largest run or the band at full takes."""
RUN_WAITS = 0.3
"""Largest run that waits for a charge, as a share of what the store then holds."""
LARGE = 0.15
"""Largest run, as a share of what the store holds above its cut-off, that may be averaged; also the
widest band between full and resume in which a store may stand anywhere."""
WIDE = 0.5
"""The same where the store is read at both ends of where it may stand."""
HOPELESS = 0.8
"""Share of what is needed below which the light decides, whatever else is read."""
FAILS, ENDS = 0.85, 0.5
"""Margin below which a late start or what is not served decides, and a night that is not survived,
of a device that is cut off;"""
TWICE = 2.0
"""or a night of the course by so many times its tolerance, where that is told from the store: a
course that does not last it has a cut-off, and nothing saves it."""
MOST_RUNS = 10_000
"""Runs that wait for a charge of which a course is marched to its end."""


def sure(
    batch: Batch, course: run.Rows, settled: BoolArray, ready_s: FloatArray
) -> BoolArray:
    """Where readings agree with the exact ones within `TOLERANCE`.

    Pulses are averaged here, and one period stands for the course: a device that is cut off, a
    start-up that leaves too little to go on, runs that are large against the store and several
    operations that wait are better marched.
    """
    start_c = _start_charge(batch)
    plain = settled & (course.lost == 0) & (course.connected_s > 0)
    plain &= (start_c > cut_charge(batch)) & (batch.connect_c >= batch.start.need_c)
    plain &= np.isfinite(ready_s) & ~course.at_most & (course.ran < MOST_RUNS)
    # Operations coincide: after every start-up, and where their beats fall together.
    plain &= np.minimum(lowest_charge(batch, course), start_c) > together_charge(batch)
    return np.asarray(plain & _fine(batch, WIDE))


def within(
    batch: Batch, connect_s: FloatArray, *, logged: bool
) -> dict[str, FloatArray]:
    """Share by which the margin of each check may differ from the exact one, (systems,) each.

    Where a store stands as the dark begins, and what its terminals fall to, is known but for its
    largest run and the band at full. Where something waits for a charge, or a store is read at both
    ends of where it may stand, nothing better is known than `TOLERANCE`, and so of a cell, whose
    voltage says little of its charge.

    Parameters
    ----------
    batch : Batch
        The systems.
    connect_s : ndarray
        Time within the light's course at which each first connects; not finite where it never
        does, (systems,). [s]
    logged : bool
        Whether the light was gathered from a log.
    """
    known = TOLERANCE | ({} if logged else UNLOGGED)
    grain, band = _coarse(batch)
    fine = np.minimum(FINE + OF_COARSE * np.maximum(grain, band), TOLERANCE["dark"])
    cell = isinstance(batch.system.store, Cell)
    vague = wide(batch) | np.isfinite(batch.waits.ready_c) | cell
    either = np.where(vague, TOLERANCE["dark"], fine)
    found = {name: np.full(batch.size, share) for name, share in known.items()}
    if not (logged or cell):
        found["starts"][_goes_on(batch, connect_s)] = PROMPT
    return found | {"dark": either, "pulse": either}


def _goes_on(batch: Batch, connect_s: FloatArray) -> BoolArray:
    """Whether a store still fills well as its device connects.

    A charge that dies away there ends at any time.
    """
    level = batch.stretches.level[_stretch_at(batch, connect_s)]
    rows, motion = np.arange(batch.size), np.array([batch.off[k] for k in range(len(batch.off))])
    connect_c = np.where(np.isfinite(connect_s), batch.connect_at_c[rows, level], 0.0)
    _, there = batch.flows.begin(motion[level], rows, connect_c)
    _, before = batch.flows.begin(motion[level], rows, NEARLY * connect_c)
    return np.asarray(np.isfinite(connect_s) & (there > FALTERS * before))


def _stretch_at(batch: Batch, at_s: FloatArray) -> IntArray:
    """Stretch of light at a time within its course."""
    edges = batch.stretches.edges_s
    at = np.where(np.isfinite(at_s), at_s, 0.0) % edges[-1]
    return np.asarray(np.searchsorted(edges[1:-1], at, side="right"))


def _start_charge(batch: Batch) -> FloatArray:
    """Least charge with which a device starts, (systems,): light lifts the terminals. [C]"""
    return np.asarray(np.min(batch.connect_at_c, axis=1) - batch.start.taken_c)


def _fine(batch: Batch, widest: float, waiting: float = RUN_WAITS) -> BoolArray:
    """Where single runs, and the band at full, are small against what the store holds."""
    system = batch.system
    waits = sum(isinstance(op.schedule, WhenReady) for op in system.load.operations)
    # After a log of less than a week the hours of the operations go on: of them only a mean is had.
    hours = any(
        isinstance(op.schedule, Periodic) and not op.schedule.always
        for op in system.load.operations
    )
    if waits > 1 or (hours and batch.stretches.edges_s[-1] % WEEK_S > 1.0):
        return np.zeros(batch.size, bool)
    most = np.minimum(batch.nodes_c[:, -1], batch.waits.ready_c)
    runs = batch.waits.run_c < waiting * (most - cut_charge(batch))
    grain, band = _coarse(batch)
    return np.asarray(
        (runs | np.isinf(batch.waits.ready_c)) & (grain < widest) & (band < widest)
    )


def _coarse(batch: Batch) -> tuple[FloatArray, FloatArray]:
    """Largest run, and the band at full, as shares of what the store holds, (systems,) each."""
    full, cut = batch.nodes_c[:, -1], cut_charge(batch)
    floor = np.max(list(batch.floor_c.values()), axis=0)
    band_c = full - full_charge(batch, LOWEST_OF)
    with np.errstate(divide="ignore", invalid="ignore"):
        grain = np.where(full > cut, batch.grain_c / (full - cut), np.inf)
        band = np.where(full > floor, band_c / (full - floor), np.inf)
    return grain, band


def wide(batch: Batch) -> BoolArray:
    """Which stores may stand so far apart that they are read at both ends, (systems,)."""
    grain, band = _coarse(batch)
    worst = np.maximum(grain, band)
    return np.asarray((worst >= LARGE) & (worst < WIDE))


def falls(
    scenario: Scenario, batch: Batch, course: run.Rows, found: Readings, earliest_s: FloatArray
) -> BoolArray:
    """What is past saving: by its ratings, its light, its start or its cut-offs.

    A device that no level of light takes past its start-up, and whose pulses fail without light,
    never runs.
    A course that begins with a full store and is cut off all the same falls short wherever it
    begins.
    """
    asked = asked_of(scenario, batch.size)
    past = (found.brought_w < HOPELESS * found.taken_w) | (
        ratings_margin(found.ratings, batch.size) < 1.0
    )
    connects = (_start_charge(batch) > cut_charge(batch)) & np.isfinite(found.ready_s)
    late = starts(replace(found, ready_s=earliest_s), asked).margin < FAILS
    never = ~np.isfinite(found.ready_s) & (pulse(found).margin < FAILS)
    grain, _ = _coarse(batch)
    lost = found.repeats & (course.lost > 0) & (grain < LARGE) & _fine(batch, np.inf, LARGE)
    short = service(found, asked).margin < FAILS
    night = dark(found.dark, asked).margin
    spare = found.within["dark"]
    known = (spare < TOLERANCE["dark"]) & ~found.dark.closure
    short |= night < np.where(known, np.maximum(1.0 / (1.0 + TWICE * spare), ENDS), ENDS)
    return np.asarray(past | never | (connects & late) | (lost & short))


__all__ = ["TOLERANCE", "falls", "sure", "wide", "within"]
