"""Days of a period that are alike: what a run did in one of them it does in the next."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile
from typing import NamedTuple

from explorer.engine.levels import Level
from explorer.engine.schedule import MOMENT_S
from explorer.engine.system import DAY_S, WEEK_S, Operation, Periodic

MOST_LEVELS = 200
"""Stretches of a period up to which days are compared: no two days of a log are alike."""


class Alike(NamedTuple):
    """What follows an edge of the light at which a day begins that is as the one before."""

    before: int
    """Segment that began a day before."""
    times: int
    """How many such days follow."""


def alike_days(
    edges_s: Sequence[float], levels: Sequence[Level], operations: Sequence[Operation],
    begins_at_s: float,
) -> dict[int, Alike]:
    """Segments of a period that begin a day like the one before, by number.

    Parameters
    ----------
    edges_s : sequence of float
        Edges of the segments of the light, one more than levels. [s]
    levels : sequence of Level
        Light of each segment.
    operations : sequence of Operation
        What the device does; days are alike only where its windows are.
    begins_at_s : float
        Time since Monday 00:00 at which the period begins. [s]
    """
    if len(levels) > MOST_LEVELS:
        return {}
    windows = [
        op.schedule.windows_s for op in operations
        if isinstance(op.schedule, Periodic) and not op.schedule.always
    ]
    light = [(level.low_a, level.high_a, level.weight) for level in levels]

    def day(first: int, count: int) -> tuple[object, ...]:
        """A day's light and windows, by times since its beginning."""
        begin = edges_s[first]
        at = [_rounded(edges_s[first + i + 1] - begin) for i in range(count)]
        return (
            at, light[first : first + count],
            [_opened(w, (begin + begins_at_s) % WEEK_S) for w in windows],
        )

    number = {_rounded(edge): k for k, edge in enumerate(edges_s)}
    found = {}
    for k, edge in enumerate(edges_s[:-1]):
        first = number.get(_rounded(edge - DAY_S))
        if first is None:
            continue
        count, this = k - first, day(first, k - first)
        later = range(k, len(levels) - count + 1, count)
        times = sum(1 for _ in takewhile(lambda n: day(n, count) == this, later))  # noqa: B023
        if times:
            found[k] = Alike(first, times)
    return found


def _rounded(seconds: float) -> int:
    return round(seconds / MOMENT_S)


def _opened(windows_s: Sequence[tuple[float, float]], begin_s: float) -> list[tuple[int, int]]:
    """Parts of the day from a moment of the week on in which a window is open."""
    parts = []
    for week in (0.0, WEEK_S):
        for opens, closes in windows_s:
            low = max(opens + week - begin_s, 0.0)
            # One that is open beyond the day is not one that closes with it.
            high = min(closes + week - begin_s, DAY_S + 1.0)
            if high > low and low < DAY_S:
                parts.append((_rounded(low), _rounded(high)))
    return parts


__all__ = ["Alike", "alike_days"]
