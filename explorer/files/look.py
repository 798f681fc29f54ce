"""The first rows of a table as they were understood, for a person to judge before it is used."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import numpy as np

from explorer.files.bench_log import HIGHEST_V, LOWEST_V
from explorer.files.bench_log import WANTED as RUN
from explorer.files.logs import BRIGHTEST_LX, LIGHT
from explorer.files.table_reader.headings import QUANTITY_NAMES, SI_UNITS, Column, Quantity
from explorer.files.table_reader.layout import Wanted
from explorer.files.table_reader.reader import Readings, read_readings
from explorer.files.table_reader.told import LogError, Told
from explorer.quantity import show
from explorer.text import Text, capitalised, figure, say

ROWS = 6
"""Rows that are shown (own judgement: they fill no screen and show a step and its size)."""
_MOST_A, _MOST_W = 1e4, 1e6
ANYTHING = (
    Wanted(quantity="light", lowest=0.0, highest=BRIGHTEST_LX, needed=False),
    Wanted(
        quantity="voltage",
        lowest=LOWEST_V,
        highest=HIGHEST_V,
        needed=False,
        without_unit=True,
        preferred=("terminal", "store"),
    ),
    Wanted(quantity="current", lowest=-_MOST_A, highest=_MOST_A, needed=False),
    Wanted(quantity="power", lowest=-_MOST_W, highest=_MOST_W, needed=False),
    Wanted(quantity="temperature", lowest=-273.15, highest=1000.0, needed=False),
)
"""Every quantity that a table may hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A table as it was understood."""

    sentence: Text
    """How many readings, from when, over what time."""
    columns: tuple[Text, ...]
    """What each column was taken for, one sentence each."""
    heads: tuple[Text, ...]
    """Over the columns of `rows`."""
    rows: tuple[tuple[str, ...], ...]
    """Line in the file, time and values of the first readings."""
    notes: tuple[Text, ...]
    """What was assumed, repaired or left out."""


def look(path: Path, told: Told | None = None) -> Look:
    """What a table of readings of any kind is understood to hold.

    Parameters
    ----------
    path : pathlib.Path
        Table with a column of times.
    told : Told, optional
        What a person said about a file that leaves something open.

    Raises
    ------
    Undecided, LogError
        As `read_readings`.
    """
    what = say("table of readings")
    return look_of(read_readings(path, ANYTHING, told, what=what, first_only=True))


def look_of(readings: Readings) -> Look:
    """The first rows of readings, with where they came from.

    Raises
    ------
    LogError
        There are no readings.
    """
    if not readings.time_s.size:
        raise LogError(say("{file} holds names and no readings.", file=readings.name))
    taken = [c for c in readings.columns if c.quantity in readings.values]
    return Look(
        sentence=_sentence(readings),
        columns=tuple(_meaning(c) for c in readings.columns),
        heads=(
            say("Line"),
            say("Time"),
            *(capitalised(QUANTITY_NAMES[str(c.quantity)]) for c in taken),
        ),
        rows=tuple(_row(readings, taken, n) for n in range(min(ROWS, readings.time_s.size))),
        notes=readings.notes,
    )


def _sentence(readings: Readings) -> Text:
    span_s, n = float(readings.time_s[-1]), readings.time_s.size
    if not readings.is_whole:
        return say("{file}: the first {n} readings.", file=readings.name, n=n)
    if n < 2:
        return say("{file}: 1 reading.", file=readings.name)
    step = show(float(np.median(np.diff(readings.time_s))), "s")
    if readings.start is None:
        return say(
            "{file}: {n} readings over {span}, one about every {step}.",
            file=readings.name,
            n=n,
            span=show(span_s, "s"),
            step=step,
        )
    return say(
        "{file}: {n} readings from {start} over {span}, one about every {step}.",
        file=readings.name,
        n=n,
        start=f"{readings.start:%Y-%m-%d %H:%M:%S}",
        span=show(span_s, "s"),
        step=step,
    )


def _meaning(column: Column) -> Text:
    said = {"n": column.place + 1, "heading": column.heading}
    quantity = QUANTITY_NAMES[str(column.quantity)]
    if column.unit is None:
        return say("Column {n}, “{heading}”: {quantity}.", quantity=quantity, **said)
    return say(
        "Column {n}, “{heading}”: {quantity} in {unit}.",
        quantity=quantity,
        unit=column.unit,
        **said,
    )


def _row(readings: Readings, taken: list[Column], n: int) -> tuple[str, ...]:
    seconds = float(readings.time_s[n])
    if readings.start is None:
        time: str = figure(f"{seconds:.10g} s")
    else:
        moment = readings.start + timedelta(seconds=seconds)
        time = f"{moment:%Y-%m-%d %H:%M:%S}" + (f".{moment:%f}"[:4] if moment.microsecond else "")
    values = [_value(readings, c.quantity, n) for c in taken if c.quantity is not None]
    return (str(int(readings.lines[n])), time, *values)


def _value(readings: Readings, quantity: Quantity, n: int) -> str:
    value = float(readings.values[quantity][n])
    return "–" if np.isnan(value) else show(value, SI_UNITS[quantity], 4)


def look_at_light(path: Path, told: Told) -> Look:
    """What a light log is understood to hold.

    Raises
    ------
    Undecided, LogError
        As `read_readings`.
    """
    return look_of(read_readings(path, (LIGHT,), told, what=say("light log"), first_only=True))


def look_at_run(path: Path, told: Told) -> Look:
    """What a logged run is understood to hold.

    Raises
    ------
    Undecided, LogError
        As `read_readings`.
    """
    return look_of(read_readings(path, RUN, told, what=say("log of a run"), first_only=True))
