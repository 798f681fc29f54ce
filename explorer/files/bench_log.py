"""Logged runs of a device: CSV with a time, a voltage and perhaps a light column."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime
from functools import lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from explorer.files.disk import MEGABYTE, FileError, read_text
from explorer.files.log_table import (
    TIME_NAMES,
    LogError,
    LogTable,
    levels,
    numbers,
    read_table,
    rising,
    times,
)
from explorer.files.logs import LUX_NAMES, Readings, hold
from explorer.quantity import show
from explorer.scenario.light_log import LightLog
from explorer.scenario.logged_run import BenchRun, joined_rows, thinned
from explorer.text import figure, say

LIMIT_BYTES = 100 * MEGABYTE
"""Largest log that is read (own judgement: well over a million readings)."""
VOLT_NAMES = ("terminal_v", "store_v", "voltage_v", "v", "volt", "volts", "voltage")
"""The terminals come first, as that is where a meter is connected."""
MILLIVOLT_NAMES = ("terminal_mv", "store_mv", "voltage_mv", "mv", "millivolts")
LOWEST_V, HIGHEST_V = -0.5, 200.0
"""Readings taken; a meter on an empty store shows a little below zero."""
MOST_ROWS = 20_000
"""Rows kept of a long log, each the mean of a stretch with its extremes."""
MOST_LEVELS = 20_000
GAP_STEPS = 10.0
"""A pause of more than this many steps is told of."""

FloatArray = NDArray[np.float64]


def read_bench_log(path: Path | str) -> BenchRun:
    """A logged run of the device.

    The file is a table as for a light log: one line of column names, then one reading a line, with
    ISO dates or seconds that rise. The store's voltage is in V (`store_V`, `voltage_V`, `V`) or in
    mV (`store_mV`, `voltage_mV`, `mV`); units may stand in brackets. A column `lux` is the light
    at the panel's place; empty cells in it hold the reading before.

    Parameters
    ----------
    path : path-like
        File to read.

    Returns
    -------
    BenchRun
        At most `MOST_ROWS` rows; means, minima and maxima of what was joined are kept.

    Raises
    ------
    LogError
        The file cannot be read, lacks a column, or holds a value that is not allowed; the
        sentence names the line.
    """
    path = Path(path)
    try:
        text = read_text(path, limit_bytes=LIMIT_BYTES, what=say("log of a run"))
    except FileError as error:
        raise LogError(str(error)) from None
    return _run(_named_plainly(_table(text, path.name)))


def cached_bench_log(path: Path) -> BenchRun:
    """The same, read again only when the file changes: a drawer asks at every change of a knob.

    Raises
    ------
    LogError
        As `read_bench_log`.
    """
    try:
        found = path.stat()
    except OSError:
        return read_bench_log(path)  # says what is wrong
    return _cached(path, found.st_mtime_ns, found.st_size)


@lru_cache(maxsize=2)
def _cached(path: Path, _changed_ns: int, _size: int) -> BenchRun:
    return read_bench_log(path)


def is_bench_log(path: Path) -> bool:
    """Whether a file looks like a logged run: a table that has a column of voltages."""
    try:
        with path.open(encoding="utf-8-sig") as file:
            head = file.read(4096)
        table = _named_plainly(_table(head[: head.rfind("\n") + 1], path.name))
    except (OSError, UnicodeDecodeError, LogError):
        return False
    return table.find(VOLT_NAMES + MILLIVOLT_NAMES) is not None


def _table(text: str, name: str) -> LogTable:
    nothing = say("{file} holds only remarks; the log of a run was expected.", file=name)
    return read_table(text, name, nothing)


def _named_plainly(table: LogTable) -> LogTable:
    """The table with names such as ``Voltage [mV]`` written as ``voltage_mv``."""
    names = tuple(re.sub(r"[\s\[\]()/,]+", "_", name).strip("_") for name in table.columns)
    return LogTable(
        name=table.name, columns=names, numbered=table.numbered, decimal_comma=table.decimal_comma
    )


def _run(table: LogTable) -> BenchRun:
    name, comma = table.name, table.decimal_comma
    time_at = table.place_of(TIME_NAMES)
    in_millivolts = table.find(VOLT_NAMES) is None and table.find(MILLIVOLT_NAMES) is not None
    volt_at = table.place_of(MILLIVOLT_NAMES if in_millivolts else VOLT_NAMES)
    light_at = table.find((*LUX_NAMES, "lx"))
    table.check_width(max(time_at, volt_at, light_at or 0) + 1)
    notes: list[str] = []
    kept = [(n, row) for n, row in table.numbered if row[volt_at].strip()]
    if len(kept) < len(table.numbered):
        left_out = len(table.numbered) - len(kept)
        notes.append(say("{n} lines have no reading and were left out.", n=left_out))
    if len(kept) < 3:
        raise LogError(
            say("{file} holds {n} readings; at least 3 are needed.", file=name, n=len(kept))
        )
    lines = [n for n, _ in kept]
    volts = _volts([row[volt_at] for _, row in kept], lines, name, in_millivolts, comma=comma)
    time_s, start = times([row[time_at] for _, row in kept], lines, name, comma=comma)
    lux = np.full(len(volts), np.nan)
    if light_at is not None:
        lit = [i for i, (_, row) in enumerate(kept) if row[light_at].strip()]
        cells = [kept[i][1][light_at] for i in lit]
        lux[lit] = levels(cells, [lines[i] for i in lit], name, comma=comma)
    keep = rising(time_s, np.column_stack([volts, lux]), lines, name, notes)
    time_s, volts, lux = time_s[keep], volts[keep], lux[keep]
    if len(volts) < 3:
        raise LogError(
            say("{file} holds {n} readings; at least 3 are needed.", file=name, n=len(volts))
        )
    light = _light(time_s, lux, start, notes)
    return _few_rows(name, time_s, volts, light, start, notes)


def _volts(
    cells: Sequence[str], lines: Sequence[int], name: str, in_millivolts: bool, *, comma: bool
) -> FloatArray:
    """Voltages of every line, or the first that is not allowed is refused. [V]"""
    scale = 1e-3 if in_millivolts else 1.0
    found = numbers(cells, comma=comma)
    if found is None:
        place = next(i for i, cell in enumerate(cells) if numbers([cell], comma=comma) is None)
    else:
        volts = scale * found
        fits = (volts >= LOWEST_V) & (volts <= HIGHEST_V)  # NaN fits nowhere
        if fits.all():
            return volts
        place = int(np.argmin(fits))
    values = {
        "file": name,
        "line": lines[place],
        "found": repr(cells[place].strip()),
        "least": figure(f"{LOWEST_V / scale:g}"),
        "most": figure(f"{HIGHEST_V / scale:.0f}"),
    }
    if in_millivolts:
        raise LogError(
            say(
                "{file}, line {line}: the voltage is {found}; allowed is a number from {least} to "
                "{most} mV.",
                **values,
            )
        )
    raise LogError(
        say(
            "{file}, line {line}: the voltage is {found}; allowed is a number from {least} to "
            "{most} V. A column in millivolts is named store_mV.",
            **values,
        )
    )


def _light(
    time_s: FloatArray, lux: FloatArray, start: datetime | None, notes: list[str]
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
        Readings(time_s=edges, illuminance_lx=level, start=start, notes=[]), "hold"
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
    notes: list[str],
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
                "The log pauses for {time} after {since}; nothing is compared there.",
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
