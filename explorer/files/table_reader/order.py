"""Times that rise: clock changes, several readings in one stamp, repeated lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from explorer.files.table_reader.told import LogError
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.text import Text, say

_HOUR_S, _DAY_S = 3600.0, 86_400.0
_ROUNDED, _MANY = 0.1, 100
"""Share and number of equal neighbours from which times count as rounded and not as doubled by a
mistake (own judgement)."""
_CHANGE_MONTHS = frozenset({3, 4, 9, 10, 11})
"""Months in which clocks change, north and south of the equator (common practice, no source)."""
_LATEST_CHANGE_H = 4
_CHANGES_NAMED = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordered:
    """Readings whose times rise."""

    time_s: FloatArray
    """Of every reading, also of those that are left out; shape (n,). [s]"""
    keep: NDArray[np.bool_]
    """Which readings stay, shape (n,)."""
    notes: list[Text] = field(default_factory=list)
    repeated: int = 0
    """Lines that repeat the line before."""


def ordered(
    time_s: FloatArray,
    values: FloatArray,
    lines: Sequence[int] | NDArray[np.int64],
    name: str,
    *,
    start: datetime | None,
    is_clock: bool,
) -> Ordered:
    """Times that rise, and which readings stay; what cannot be explained is refused.

    Parameters
    ----------
    time_s : ndarray
        As they stand in the file, shape (n,). [s]
    values : ndarray
        Readings beside them, shape (n, columns); NaN equals NaN.
    lines : sequence of int
        Where each stands in the file.
    name : str
        Of the file.
    start : datetime or None
        Date from which the times count.
    is_clock : bool
        Whether the times are hours of a day without a date.

    Raises
    ------
    LogError
        A time does not rise.
    """
    steps_s = np.diff(time_s)
    # Most files rise; a change of the clock ahead is a step of more than an hour.
    if steps_s.size == 0 or (steps_s.min() > 0.0 and (start is None or steps_s.max() < _HOUR_S)):
        return Ordered(time_s=time_s, keep=np.ones(time_s.size, bool))
    time_s = time_s.copy()
    notes: list[Text] = []
    up = steps_s[steps_s > 0.0]
    step_s = float(np.median(up)) if up.size else 0.0
    if is_clock:
        _pass_midnights(time_s, step_s, notes)
    elif start is not None and start.tzinfo is None:
        _undo_clock_changes(time_s, start, step_s, notes)
    if _share_stamps(time_s, values):
        spread = _spread(time_s)
        notes.append(
            say(
                "Up to {n} readings share one time stamp; they were spread evenly over it.",
                n=int(np.bincount(np.cumsum(np.diff(time_s, prepend=time_s[0]) != 0.0)).max()),
            )
        )
        time_s = spread
    elif _is_rounded(time_s):
        time_s = np.linspace(time_s[0], time_s[-1], time_s.size)
        notes.append(
            say("The times are rounded so that some are equal; the readings were spread evenly.")
        )
    keep = _rising(time_s, values, lines, name)
    return Ordered(time_s=time_s, keep=keep, notes=notes, repeated=int((~keep).sum()))


def repeated_note(n: int) -> list[Text]:
    """What is said about lines that repeat the line before, in at most one sentence."""
    return [say("{n} lines repeat the line before and were left out.", n=n)] if n else []


def _pass_midnights(time_s: FloatArray, step_s: float, notes: list[Text]) -> None:
    steps_s = np.diff(time_s)
    falls = np.flatnonzero((steps_s < 0.0) & (steps_s + _DAY_S <= max(2.0 * step_s, 1.0)))
    if falls.size:
        time_s[1:] += _DAY_S * np.cumsum(np.isin(np.arange(steps_s.size), falls))
        notes.append(say("The times pass midnight {n} times; each begins a day.", n=falls.size))


def _undo_clock_changes(
    time_s: FloatArray, start: datetime, step_s: float, notes: list[Text]
) -> None:
    """Times across a change of the clock count on without a break."""
    if not 0.0 < step_s <= _HOUR_S:
        return
    steps_s = np.diff(time_s)
    back = (steps_s <= 0.0) & (np.abs(steps_s + _HOUR_S - step_s) <= 1.5 * step_s)
    ahead = np.abs(steps_s - _HOUR_S - step_s) <= 0.5 * step_s
    if step_s > 0.5 * _HOUR_S:
        ahead[:] = False  # a missed reading looks the same
    shift = np.zeros(steps_s.size)
    for place in np.flatnonzero(back | ahead):
        before = start + timedelta(seconds=float(time_s[place]))
        after = start + timedelta(seconds=float(time_s[place + 1]))
        hour = before.hour if back[place] else after.hour
        if before.month not in _CHANGE_MONTHS or hour > _LATEST_CHANGE_H:
            continue
        if ahead[place] and (after.weekday() != 6 or hour == 0):
            continue
        shift[place] = _HOUR_S if back[place] else -_HOUR_S
        if len(notes) < _CHANGES_NAMED:
            told = {"before": f"{before:%Y-%m-%d %H:%M}", "after": f"{after:%H:%M}"}
            if back[place]:
                notes.append(
                    say(
                        "The clock goes back from {before} to {after}; the time counts on from "
                        "there by the clock before.",
                        **told,
                    )
                )
            else:
                notes.append(
                    say(
                        "The clock goes ahead from {before} to {after}; the time counts on from "
                        "there by the clock before.",
                        **told,
                    )
                )
    time_s[1:] += np.cumsum(shift)


def _share_stamps(time_s: FloatArray, values: FloatArray) -> bool:
    """Whether most stamps stand above several readings that are not all the same."""
    same = np.diff(time_s) == 0.0
    sizes = np.bincount(np.concatenate(([0], np.cumsum(~same))))
    rows_differ = ~_equal(values[1:], values[:-1])
    return sizes.size > 1 and bool((sizes > 1).mean() > 0.5) and bool((same & rows_differ).any())


def _is_rounded(time_s: FloatArray) -> bool:
    """Whether even times were written with too few digits, as oscilloscopes do.

    Many are equal then, and none lies further from an even one than what they are rounded to.
    """
    steps_s = np.diff(time_s)
    equal = int((steps_s == 0.0).sum())
    if equal < max(_MANY, _ROUNDED * steps_s.size) or steps_s.min() < 0.0:
        return False
    even = np.linspace(time_s[0], time_s[-1], time_s.size)
    return bool(np.abs(time_s - even).max() <= steps_s.max())


def _spread(time_s: FloatArray) -> FloatArray:
    """Readings of one stamp, evenly over the time to the next stamp."""
    first = np.flatnonzero(np.diff(time_s, prepend=-np.inf) != 0.0)
    size = np.diff(np.append(first, time_s.size))
    stamps = time_s[first]
    span = float(np.median(np.diff(stamps)))
    most = int(np.median(size))
    share = np.minimum(np.diff(np.append(stamps, stamps[-1] + span)), span) / size
    # The first and the last stamp may be cut: the log begins late in the one and ends in the other.
    offset = np.zeros(stamps.size)
    if size[0] < most:
        share[0] = span / most
        offset[0] = span - size[0] * share[0]
    if size[-1] < most:
        share[-1] = span / most
    inside = np.arange(time_s.size) - np.repeat(first, size)
    return np.asarray(np.repeat(stamps + offset, size) + inside * np.repeat(share, size))


def _equal(a: FloatArray, b: FloatArray) -> NDArray[np.bool_]:
    return np.asarray(((a == b) | (np.isnan(a) & np.isnan(b))).all(axis=1))


def _rising(
    time_s: FloatArray,
    values: FloatArray,
    lines: Sequence[int] | NDArray[np.int64],
    name: str,
) -> NDArray[np.bool_]:
    steps_s = np.diff(time_s)
    repeated = (steps_s == 0.0) & _equal(values[1:], values[:-1])
    wrong = (steps_s <= 0.0) & ~repeated
    if wrong.any():
        place = int(np.argmax(wrong)) + 1
        raise LogError(not_rising(name, int(lines[place]), float(steps_s[place - 1])))
    return np.concatenate(([True], ~repeated))


def not_rising(name: str, line: int, step_s: float) -> Text:
    """What to do about a time that does not rise, in a sentence."""
    if step_s == 0.0:
        return say(
            "{file}, line {line}: its time repeats the time of the line before with another "
            "reading; times must rise. Sort the log, or split it where the logger began again.",
            file=name,
            line=line,
        )
    return say(
        "{file}, line {line}: its time is {time} before the line above; times must "
        "increase. Sort the log, or split it where the logger restarted.",
        file=name,
        line=line,
        time=show(-step_s, "s"),
    )
