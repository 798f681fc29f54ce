"""What the readers of logs share: a table with a line of names, times that rise, clear refusals."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import NoReturn

import numpy as np
from numpy.typing import NDArray

from explorer.files.disk import FileError
from explorer.quantity import show
from explorer.text import Text, joined, say

TIME_NAMES = ("time", "time_s", "timestamp")
LATEST_S = 1e11
"""Latest time taken, some three thousand years, so that dates given in seconds pass."""
BRIGHTEST_LX = 200_000.0
"""Brightest reading taken; full sun gives 100 000 to 130 000 lx (common practice, no source)."""
_TOO_LONG = say("field larger than field limit (131072)")
"""What Python's reader of CSV says of a cell that never ends, word for word."""

FloatArray = NDArray[np.float64]


class LogError(FileError):
    """A log cannot be used; the text is a sentence that names the line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogTable:
    """Cells of a log as they stand in the file."""

    name: str
    """Of the file."""
    columns: tuple[str, ...]
    """Names in small letters."""
    numbered: tuple[tuple[int, list[str]], ...]
    """Every line with its number in the file, remarks and the line of names left out."""
    decimal_comma: bool
    """Whether a decimal comma is taken too."""

    def place_of(self, allowed: tuple[str, ...]) -> int:
        """Place of the column that has one of the names allowed, the first of them first.

        Raises
        ------
        LogError
            There is no such column.
        """
        place = self.find(allowed)
        if place is None:
            raise LogError(
                say(
                    "{file} has no column named {allowed}; its columns are {names}.",
                    file=self.name,
                    allowed=joined(say(" or "), allowed),
                    names=", ".join(self.columns)[:120],
                )
            )
        return place

    def find(self, allowed: tuple[str, ...]) -> int | None:
        """Place of the column that has one of the names allowed; None where there is none."""
        return next((self.columns.index(a) for a in allowed if a in self.columns), None)

    def check_width(self, wanted: int) -> None:
        """Refuse a line with fewer columns than wanted."""
        for number, row in self.numbered:
            if len(row) < wanted:
                raise LogError(
                    say(
                        "{file}, line {line}: {n} columns found, at least {wanted} are needed.",
                        file=self.name,
                        line=number,
                        n=len(row),
                        wanted=wanted,
                    )
                )


def read_table(text: str, name: str, only_remarks: Text) -> LogTable:
    """Cells of a text with columns parted by a comma, a semicolon or a tab.

    Parameters
    ----------
    text : str
        Lines that begin with ``#`` are remarks; the first other line holds the names.
    name : str
        Of the file.
    only_remarks : Text
        What to say where nothing else is there.

    Raises
    ------
    LogError
        It holds only remarks, or is no table.
    """
    numbered = [
        (number, line)
        for number, line in enumerate(text.splitlines(), start=1)
        if line.strip() and not line.startswith("#")
    ]
    if not numbered:
        raise LogError(only_remarks)
    header = numbered[0][1]
    delimiter = max(",;\t", key=header.count)
    columns = tuple(cell.strip().strip('"').lower() for cell in header.split(delimiter))
    lines = [number for number, _ in numbered[1:]]
    try:
        rows = list(csv.reader((line for _, line in numbered[1:]), delimiter=delimiter))
    except csv.Error as error:
        why = say(str(error))
        raise LogError(say("{file} is not a table: {why}.", file=name, why=why)) from None
    if len(rows) != len(lines):
        raise LogError(say("{file} has a quotation mark that is never closed.", file=name))
    return LogTable(
        name=name,
        columns=columns,
        numbered=tuple(zip(lines, rows, strict=True)),
        decimal_comma=delimiter != ",",
    )


def levels(cells: Sequence[str], lines: Sequence[int], name: str, *, comma: bool) -> FloatArray:
    """Light of every line, or the first that is not allowed is refused. [lx]"""
    lux = numbers(cells, comma=comma)
    if lux is None:
        place = next(i for i, cell in enumerate(cells) if numbers([cell], comma=comma) is None)
    else:
        fits = (lux >= 0.0) & (lux <= BRIGHTEST_LX)  # NaN fits nowhere
        if fits.all():
            return lux
        place = int(np.argmin(fits))
    raise LogError(
        say(
            "{file}, line {line}: the light is {found}; allowed is a number from 0 to {most} lx.",
            file=name,
            line=lines[place],
            found=repr(cells[place].strip()),
            most=f"{BRIGHTEST_LX:.0f}",
        )
    )


def numbers(cells: Sequence[str], *, comma: bool) -> FloatArray | None:
    """Numbers of a column; None where one of them is none."""
    try:
        return np.array([float(c.replace(",", ".") if comma else c) for c in cells])
    except ValueError:
        return None


def times(
    cells: Sequence[str], lines: Sequence[int], name: str, *, comma: bool
) -> tuple[FloatArray, datetime | None]:
    """Seconds from the first reading, and its date where the log has dates."""
    if (seconds := numbers(cells, comma=comma)) is not None:
        fits = np.abs(seconds) <= LATEST_S  # NaN fits nowhere
        if not fits.all():
            _refuse_time(cells, lines, name, int(np.argmin(fits)))
        return seconds - seconds[0], None
    moments: list[datetime] = []
    for place, cell in enumerate(cells):
        try:
            moments.append(datetime.fromisoformat(cell.strip()))
        except ValueError:
            _refuse_time(cells, lines, name, place)
    start = moments[0]
    try:
        return np.array([(moment - start).total_seconds() for moment in moments]), start
    except TypeError:
        raise LogError(
            say("{file} has times with and without a time zone; use one kind.", file=name)
        ) from None


def _refuse_time(cells: Sequence[str], lines: Sequence[int], name: str, place: int) -> NoReturn:
    raise LogError(
        say(
            "{file}, line {line}: the time is {found}; allowed is a date such as "
            "2015-02-02 14:19:00, or seconds in every line.",
            file=name,
            line=lines[place],
            found=repr(cells[place].strip()),
        )
    )


def rising(
    time_s: FloatArray, values: FloatArray, lines: Sequence[int], name: str, notes: list[str]
) -> NDArray[np.bool_]:
    """Which readings stay: all but exact repetitions; what does not rise otherwise is refused.

    Parameters
    ----------
    time_s : ndarray
        Shape (n,). [s]
    values : ndarray
        Readings, shape (n,) or (n, columns); not a number counts as itself.
    lines : sequence of int
        Where each stands in the file.
    name : str
        Of the file.
    notes : list of str
        Takes a sentence about what is left out.
    """
    steps_s = np.diff(time_s)
    rows = values.reshape(len(values), -1)
    same = (rows[1:] == rows[:-1]) | (np.isnan(rows[1:]) & np.isnan(rows[:-1]))
    repeated = (steps_s == 0.0) & same.all(axis=1)
    wrong = (steps_s <= 0.0) & ~repeated
    if wrong.any():
        place = int(np.argmax(wrong)) + 1
        raise LogError(_not_rising(name, lines[place], float(steps_s[place - 1])))
    if repeated.any():
        notes.append(
            say("{n} lines repeat the line before and were left out.", n=int(repeated.sum()))
        )
    keep: NDArray[np.bool_] = np.concatenate(([True], ~repeated))
    if keep.sum() < 2:
        raise LogError(
            say("{file} holds one reading again and again; at least 2 times are needed.", file=name)
        )
    return keep


def _not_rising(name: str, line: int, step_s: float) -> Text:
    if step_s == 0.0:
        return say(
            "{file}, line {line}: its time repeats the time of the line before with another "
            "reading; times must rise. Sort the log, or split it where the logger began again.",
            file=name,
            line=line,
        )
    return say(
        "{file}, line {line}: its time lies {time} before the line above; times must rise. Sort "
        "the log, or split it where the logger began again.",
        file=name,
        line=line,
        time=show(-step_s, "s"),
    )
