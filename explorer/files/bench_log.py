"""Logged runs of a device: CSV with a time, a voltage and perhaps a light column."""

from __future__ import annotations

from datetime import datetime
from functools import lru_cache
from pathlib import Path

import numpy as np

from explorer.files.held import LightReadings, hold
from explorer.files.logs import BRIGHTEST_LX
from explorer.files.table_reader.layout import Wanted, layout_of
from explorer.files.table_reader.reader import LIMIT_BYTES, read_readings
from explorer.files.table_reader.told import LogError, Told, Undecided
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.scenario.light_log import LightLog
from explorer.scenario.logged_run import BenchRun, joined_rows, thinned
from explorer.text import Text, say

LOWEST_V, HIGHEST_V = -0.5, 200.0
"""Readings taken; a meter on an empty store shows a little below zero."""
WANTED = (
    Wanted(
        quantity="voltage",
        lowest=LOWEST_V,
        highest=HIGHEST_V,
        without_unit=True,
        preferred=("terminal", "store"),  # the terminals first, as a meter is connected there
    ),
    Wanted(quantity="light", lowest=0.0, highest=BRIGHTEST_LX, needed=False),
)
MOST_ROWS = 20_000
"""Rows kept of a long log, each the mean of a stretch with its extremes."""
MOST_LEVELS = 20_000
GAP_STEPS = 10.0
"""A pause of more than this many steps is told of."""


def read_bench_log(path: Path | str, told: Told | None = None) -> BenchRun:
    """A logged run of the device.

    The file is a table with a time and a column of volts or millivolts, as `read_readings`
    understands it; of several the one at the terminals is taken, else the one at the store. A
    column of light is the light at the panel's place; empty cells in it hold the reading before.

    Parameters
    ----------
    path : path-like
        File to read.
    told : Told, optional
        What a person said about a file that leaves something open.

    Returns
    -------
    BenchRun
        At most `MOST_ROWS` rows; means, minima and maxima of what was joined are kept.

    Raises
    ------
    Undecided
        The file can be read in two ways.
    LogError
        The file cannot be read, lacks a column, or holds a value that is not allowed; the
        sentence names the line.
    """
    found = read_readings(Path(path), WANTED, told, what=say("log of a run"))
    volts, notes = found.values["voltage"], list(found.notes)
    if len(volts) < 3:
        raise LogError(
            say("{file} holds {n} readings; at least 3 are needed.", file=found.name, n=len(volts))
        )
    lux = found.values.get("light", np.full(len(volts), np.nan))
    light = _light(found.time_s, lux, found.start, notes)
    return _few_rows(found.name, found.time_s, volts, light, found.start, notes)


def cached_bench_log(path: Path, told: Told | None = None) -> BenchRun:
    """The same, read again only when the file changes: a drawer asks at every change of a knob.

    Raises
    ------
    LogError
        As `read_bench_log`.
    """
    try:
        found = path.stat()
    except OSError:
        return read_bench_log(path, told)  # says what is wrong
    return _cached(path, told, found.st_mtime_ns, found.st_size)


@lru_cache(maxsize=16)
def _cached(path: Path, told: Told | None, _changed_ns: int, _size: int) -> BenchRun:
    return read_bench_log(path, told)


def is_bench_log(path: Path) -> bool:
    """Whether a file looks like a logged run: a table with times and voltages."""
    try:
        layout_of(path, WANTED, Told(), timed=True, limit_bytes=LIMIT_BYTES, what="")
    except Undecided:
        return True
    except LogError:
        return False
    return True


def _light(
    time_s: FloatArray, lux: FloatArray, start: datetime | None, notes: list[Text]
) -> LightLog | None:
    """The light over the whole run; each reading holds until the next one."""
    has = np.flatnonzero(~np.isnan(lux))
    if has.size == 0:
        return None
    edges, level = time_s[has].copy(), lux[has]
    edges[0] = 0.0  # what was before the first reading is taken from it
    if len(edges) > MOST_LEVELS:
        first = joined_rows(edges, float(time_s[-1]), MOST_LEVELS)
        span = np.diff(np.append(edges, time_s[-1]))
        length = np.maximum(np.add.reduceat(span, first), 1e-9)
        level, edges = np.add.reduceat(level * span, first) / length, edges[first]
        notes.append(
            say(
                "{n} readings of the light were joined to {kept} means.",
                n=has.size,
                kept=first.size,
            )
        )
    if len(edges) == 1:
        edges, level = np.array([0.0, 0.5 * time_s[-1]]), np.repeat(level, 2)
    found = hold(
        LightReadings(time_s=edges, illuminance_lx=level, start=start, notes=[]), "hold"
    )
    # The run may go on after the last reading of the light.
    ends = found.time_s.copy()
    ends[-1] = max(ends[-1], time_s[-1] + 1.0)
    return LightLog(
        time_s=ends, illuminance_lx=found.illuminance_lx, start=start, step_s=found.step_s,
        gaps=found.gaps,
    )  # fmt: skip


def _few_rows(
    name: str,
    time_s: FloatArray,
    volts: FloatArray,
    light: LightLog | None,
    start: datetime | None,
    notes: list[Text],
) -> BenchRun:
    """The run with notes on its gaps, joined to means where it is long."""
    steps_s = np.diff(time_s)
    step_s = float(np.median(steps_s))
    long = steps_s > GAP_STEPS * step_s
    if long.any():
        since = show(float(time_s[:-1][long][0]), "s")
        total = show(float(steps_s[long].sum()), "s")
        notes.append(
            say(
                "The measurement has a gap of {time} after {since}; nothing is compared "
                "there.",
                time=total,
                since=since,
            )
            if long.sum() == 1
            else say(
                "The log pauses {n} times, together {time}, first after {since}; nothing is "
                "compared there.",
                n=int(long.sum()),
                time=total,
                since=since,
            )
        )
    if len(volts) > MOST_ROWS:
        notes.append(
            say(
                "{n} readings were joined to {kept} means; their extremes are kept.",
                n=len(volts),
                kept=MOST_ROWS,
            )
        )
    whole = BenchRun(
        name=name, time_s=time_s, volts=volts, low_v=volts, high_v=volts, step_s=step_s,
        readings=len(volts), light=light, start=start, notes=tuple(notes),
    )  # fmt: skip
    return thinned(whole, MOST_ROWS)
