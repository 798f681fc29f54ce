"""The device's clock: which operation runs, which is due next, and when windows open or close."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, inf, nextafter, ulp

from explorer.engine.system import WEEK_S, Operation, Periodic

TIME_GRAIN_S = 1e-9
"""Two moments closer than this are one. [s]"""
MOMENT_S = 1e-6
"""Two moments that were reached along different ways, and differ by less than this, are one. [s]"""


def _grain(t: float) -> float:
    """Two moments at some time that are closer than this are one: as far as its digits go. [s]"""
    return max(TIME_GRAIN_S, 4.0 * ulp(t))


class Clock:
    """Schedules of a connected device.

    Parameters
    ----------
    operations : sequence of Operation
        What the device does.
    averaged : sequence of bool
        Operations whose pulses are spread over their interval; they have no moments of their own.
    week_offset_s : float
        Time since Monday 00:00 at time zero. [s]
    """

    def __init__(
        self, operations: Sequence[Operation], averaged: Sequence[bool], week_offset_s: float
    ) -> None:
        self.operations = operations
        self._averaged = averaged
        schedules = [op.schedule for op in operations]
        self._interval_s = [s.interval_s if isinstance(s, Periodic) else inf for s in schedules]
        self._always = [isinstance(s, Periodic) and s.always for s in schedules]
        self._offset = week_offset_s
        self.next_start = [inf] * len(operations)
        self._active: list[tuple[int, float] | None] = [None] * len(operations)
        self.busy: tuple[tuple[int, int], ...] = ()
        """Operations that run now, with their phase."""
        self.small: tuple[int, ...] = ()
        """Averaged operations that are due now."""
        self.due: tuple[int, ...] = ()
        """The other operations that are due now."""
        self.fast: int | None = None
        """The most frequent of these."""
        self.window_edge = inf
        """When the next window opens or closes. [s]"""

    def stop(self) -> None:
        """Forget what runs and what is due: the device has lost its supply."""
        self._active = [None] * len(self.operations)
        self.next_start = [inf] * len(self.operations)
        self.busy = ()

    def start(self, t: float) -> None:
        """Begin every schedule now, as after a start-up."""
        self.stop()
        for j, op in enumerate(self.operations):
            if isinstance(op.schedule, Periodic) and not self._averaged[j]:
                self.next_start[j] = self.open_from(op.schedule, t)
        self.look(t)

    def look(self, t: float) -> None:
        """See which windows are open now and when that may change."""
        small, due, edge = [], [], inf
        self.fast, shortest = None, inf
        for j, op in enumerate(self.operations):
            schedule = op.schedule
            if not isinstance(schedule, Periodic):
                continue
            opens = self.open_from(schedule, t)
            if opens > t + TIME_GRAIN_S:
                edge = min(edge, opens)
                continue
            edge = min(edge, self.close_after(schedule, t))
            if self._averaged[j]:
                small.append(j)
                continue
            due.append(j)
            if schedule.interval_s < shortest:
                self.fast, shortest = j, schedule.interval_s
        self.small, self.due = tuple(small), tuple(due)
        self.window_edge = edge

    def _week_time(self, t: float) -> tuple[float, float]:
        absolute = t + self._offset
        week = floor((absolute + _grain(absolute)) / WEEK_S) * WEEK_S
        return week - self._offset, absolute - week

    def open_from(self, schedule: Periodic, t: float) -> float:
        """Earliest time from t at which the schedule's window is open. [s]"""
        if schedule.always:
            return t
        week, inside = self._week_time(t)
        grain = _grain(t)
        for begin, end in schedule.windows_s:
            if inside < end - grain:
                return week + begin if begin > inside + grain else t
        return week + WEEK_S + schedule.windows_s[0][0]

    def close_after(self, schedule: Periodic, t: float) -> float:
        """Time at which the window that is open at t closes, infinite for one never closed. [s]"""
        if schedule.always:
            return inf
        week, inside = self._week_time(t)
        grain = _grain(t)
        for begin, end in schedule.windows_s:
            if begin - grain <= inside < end - grain:
                return week + end
        return t

    def others_due(self) -> float:
        """When the next operation beside the fast one is due. [s]"""
        soonest = inf
        for j, due in enumerate(self.next_start):
            if due < soonest and j != self.fast:
                soonest = due
        return soonest

    def next_moment(self, t: float) -> float:
        """When the clock next has something to do. [s]"""
        soonest = min(self.next_start, default=inf)
        if self.window_edge < soonest:
            soonest = self.window_edge
        if self.busy:
            for running in self._active:
                if running is not None and running[1] < soonest:
                    soonest = running[1]
        later = t + TIME_GRAIN_S
        return max(soonest, later if later > t else nextafter(t, inf))

    def begin_due(self, t: float) -> bool:
        """Begin the operations whose time has come; True where something changed."""
        changed, now = False, t + TIME_GRAIN_S
        for j, due in enumerate(self.next_start):
            if due <= now and self._active[j] is None:
                self.begin(j, t)
                changed = True
        return changed

    def begin(self, j: int, t: float) -> None:
        """Begin one operation, or wait for its window."""
        schedule = self.operations[j].schedule
        if self._always[j]:
            self.next_start[j] += self._interval_s[j]
        elif isinstance(schedule, Periodic):
            opens = self.open_from(schedule, t)
            if opens > t + TIME_GRAIN_S:
                self.next_start[j] = opens
                return
            following = self.next_start[j] + schedule.interval_s
            if following >= self.close_after(schedule, t) - TIME_GRAIN_S:
                following = self.open_from(schedule, following)
            self.next_start[j] = following
        # What is over at the moment at which it begins would begin there again and again.
        shortest_s = 2.0 * _grain(t)
        self._active[j] = (0, t + max(self.operations[j].phases[0].duration_s, shortest_s))
        self._refresh()

    def end_phases(self, t: float) -> list[int]:
        """End the phases whose time is over; returns the operations that are completed."""
        completed = []
        for j, running in enumerate(self._active):
            if running is None or t + TIME_GRAIN_S < running[1]:
                continue
            k = running[0] + 1
            if k < len(self.operations[j].phases):
                self._active[j] = (k, running[1] + self.operations[j].phases[k].duration_s)
            else:
                self._active[j] = None
                completed.append(j)
            self._refresh()
        return completed

    def phase_end(self, j: int) -> float:
        """When the present phase of an operation that runs is over. [s]"""
        running = self._active[j]
        assert running is not None
        return running[1]

    def come_to(self, j: int, phase: int, end_s: float) -> None:
        """An operation is in another phase, or over after its last one."""
        over = phase == len(self.operations[j].phases)
        self._active[j] = None if over else (phase, end_s)
        self._refresh()

    def standing(self, t: float) -> tuple[tuple[tuple[int, int], ...], tuple[float, ...]]:
        """What runs, and how long after t each start is due and each phase ends. [s]"""
        ends = (end - t for _, end in filter(None, self._active))
        return self.busy, (*(due - t for due in self.next_start), *ends)

    def pending(
        self, t: float
    ) -> tuple[tuple[float, ...], tuple[tuple[int, float] | None, ...]]:
        """How long after t each operation begins, and which phases run for how long. [s]"""
        return (
            tuple(due - t for due in self.next_start),
            tuple(a and (a[0], a[1] - t) for a in self._active),
        )

    def resume(
        self,
        t: float,
        starts_s: Sequence[float],
        running: Sequence[tuple[int, float] | None],
    ) -> None:
        """Go on where another run ended; that may have averaged other operations, as of a month."""
        self._active = [a and (a[0], t + a[1]) for a in running]
        self.next_start = [t + after_s for after_s in starts_s]
        for j, op in enumerate(self.operations):
            has_moments = isinstance(op.schedule, Periodic) and not self._averaged[j]
            if has_moments != (self.next_start[j] < inf):
                self.next_start[j] = t if has_moments else inf
        self.wait_for_windows()
        self._refresh()
        self.look(t)

    def shift(self, seconds: float) -> None:
        """Let everything happen later."""
        self.next_start = [due + seconds for due in self.next_start]
        self._active = [a and (a[0], a[1] + seconds) for a in self._active]

    def wait_for_windows(self) -> None:
        """Let no start come before its window opens."""
        for j, op in enumerate(self.operations):
            if isinstance(op.schedule, Periodic) and self.next_start[j] < inf:
                self.next_start[j] = self.open_from(op.schedule, self.next_start[j])

    def interval_s(self, j: int) -> float:
        """From one start of a clocked operation to the next. [s]"""
        return self._interval_s[j]

    def passed(self, j: int, t: float) -> int:
        """How many starts have passed once it is t; one that is due at t has not."""
        late = t - TIME_GRAIN_S - self.next_start[j]
        return floor(late / self.interval_s(j)) + 1 if late >= 0 else 0

    def pass_starts(self, j: int, count: int) -> None:
        """Let so many starts be over."""
        self.next_start[j] += count * self.interval_s(j)

    def after_cycles(self, j: int, t: float) -> None:
        """Set the next start after whole cycles that end at t."""
        schedule, self.next_start[j] = self.operations[j].schedule, t
        if self._always[j] or not isinstance(schedule, Periodic):
            return
        if t >= self.close_after(schedule, t - schedule.interval_s) - MOMENT_S:
            self.next_start[j] = self.open_from(schedule, t)

    def _refresh(self) -> None:
        self.busy = tuple([(j, a[0]) for j, a in enumerate(self._active) if a is not None])
