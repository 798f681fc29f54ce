"""Days of a period that are alike: what a run did in one of them it does in the next."""

from __future__ import annotations

from collections.abc import Sequence
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
    at = [_rounded(edge) for edge in edges_s]
    number = {edge: k for k, edge in enumerate(at)}
    opened: dict[int, list[list[tuple[int, int]]]] = {}

    def opens(first: int) -> list[list[tuple[int, int]]]:
        """Parts of the day that begins with a segment in which each window is open."""
        if first not in opened:
            begin_s = (edges_s[first] + begins_at_s) % WEEK_S
            opened[first] = [_opened(w, begin_s) for w in windows]
        return opened[first]

    found: dict[int, Alike] = {}
    day = _rounded(DAY_S)
    for k in range(len(levels) - 1, 0, -1):
        first = number.get(at[k] - day)
        if first is None:
            continue
        end = k + k - first
        if (
            light[k:end] == light[first:k]
            and [edge - day for edge in at[k + 1 : end + 1]] == at[first + 1 : k + 1]
            and (not windows or opens(k) == opens(first))
        ):
            following = found.get(end)
            found[k] = Alike(first, 1 if following is None else 1 + following.times)
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
