"""Running a batch: every system through stretches of constant light, thresholds met exactly."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.engine.many import Batch
from explorer.engine.thresholds import Cut
from explorer.physics.arrays import BoolArray, FloatArray, IntArray

MOST_TURNS = 6
"""Most connects and cut-offs followed one by one within a stretch of constant light."""


@dataclass(slots=True)
class Rows:
    """Where every system of a batch stands, and what it has done since."""

    charge_c: FloatArray
    connected: BoolArray
    first_s: FloatArray
    """Time of the first connect that stays, infinite before. [s]"""
    passed_s: float
    connected_s: FloatArray
    due_s: FloatArray
    """Connected time in which each operation was due, (systems, operations). [s]"""
    lowest_c: FloatArray
    """Lowest charge while connected and each operation was due, (systems, operations); infinite
    where that never was. [C]"""
    lost: FloatArray
    """Cut-offs."""
    ran: FloatArray
    """Runs of the operation that waits for the least charge, (systems,)."""
    at_most: BoolArray
    """Whether such runs followed each other without a pause: then the store goes on filling."""
    at_edges: list[FloatArray]
    """Charge at the beginning of every stretch run so far. [C]"""
    on_at_edges: list[BoolArray]
    """Whether each system was connected then."""

    def see_lowest(self, which: IntArray | slice, due: tuple[bool, ...]) -> None:
        """Note where some systems stand while operations are due."""
        here = np.where(self.connected[which], self.charge_c[which], np.inf)
        for j, is_due in enumerate(due):
            if is_due:
                self.lowest_c[which, j] = np.minimum(self.lowest_c[which, j], here)

    def take(self, other: Rows, which: BoolArray) -> None:
        """Put some systems' rows of another run in place of this one's; not `at_edges`."""
        for name in (
            "charge_c", "connected", "connected_s", "due_s", "lowest_c", "lost", "ran", "at_most",
        ):
            getattr(self, name)[which] = getattr(other, name)[which]


def begin_rows(batch: Batch, charge_c: FloatArray, connected: bool | BoolArray) -> Rows:
    """Every system at a charge, connected or not."""
    n = batch.size
    return Rows(
        charge_c=np.broadcast_to(charge_c, (n,)).astype(float),
        connected=np.broadcast_to(connected, (n,)).copy(),
        first_s=np.full(n, np.inf),
        passed_s=0.0,
        connected_s=np.zeros(n),
        due_s=np.zeros((n, len(batch.system.load.operations))),
        lowest_c=np.full((n, len(batch.system.load.operations)), np.inf),
        lost=np.zeros(n),
        ran=np.zeros(n),
        at_most=np.zeros(n, bool),
        at_edges=[],
        on_at_edges=[],
    )


def run_period(
    batch: Batch, rows: Rows, first: int = 0, active: BoolArray | None = None
) -> None:
    """Move systems through one period, beginning at stretch number `first`; all if not said."""
    count = len(batch.stretches.level)
    for i in range(count):
        run_stretch(batch, rows, (first + i) % count, active)


def run_stretch(
    batch: Batch, rows: Rows, k: int, active: BoolArray | None = None, *, pace: float = 1.0
) -> None:
    """Move systems through one stretch of constant light; all if not said which.

    It lasts `pace` times as long as it does.
    """
    s = batch.stretches
    duration = pace * float(s.edges_s[k + 1] - s.edges_s[k])
    level, due = int(s.level[k]), tuple(map(bool, s.due[k]))
    off_id, on_id = batch.off[level], batch.on[(level, due)]
    cut, waits, start_c = batch.cut[due], batch.waits, starts_at(batch, level)
    rows.at_edges.append(rows.charge_c.copy())
    rows.on_at_edges.append(rows.connected.copy())
    rows.see_lowest(slice(None), due)
    left = np.full(batch.size, duration)
    if active is not None:
        left[~active] = 0.0
    on_time = np.zeros(batch.size)
    for _ in range(MOST_TURNS):
        todo = np.flatnonzero(left > 0)
        if not len(todo):
            break
        q, on, time = rows.charge_c[todo], rows.connected[todo], left[todo]
        begin, need, ready_c = start_c[todo], cut.need_c[todo], waits.ready_c[todo]
        # Thresholds that are met already.
        rise = ~on & (q >= begin)
        if rise.any():
            some = todo[rise]
            q[rise] -= batch.start.taken_c[some]
            rows.first_s[some] = np.where(
                np.isfinite(rows.first_s[some]), rows.first_s[some],
                rows.passed_s + duration - time[rise],
            )
            on = on | rise
        q, on = _run_what_waits(batch, rows, todo, q, on)
        fall = on & (q < need)
        if fall.any():
            some = todo[fall]
            rows.lost[some] += 1.0
            q[fall] = np.minimum(q[fall], cut.left_c[some])
            on = on & ~fall
        which = np.where(on, on_id, off_id)
        end = batch.flows.advance(which, todo, q, time)
        ready = on & (end >= ready_c)
        down = on & (end < need)
        met = ready | down | (~on & (end >= begin) & (q < begin))
        used, stays = time.copy(), ready
        if met.any():
            hit = np.flatnonzero(met)
            bound = np.where(on, np.where(ready, ready_c, need), begin)[hit]
            used[hit] = np.minimum(
                batch.flows.time_to(which[hit], todo[hit], q[hit], bound), time[hit]
            )
            end[hit] = bound
            if ready.any():
                stays = ready & ~_spoils(batch, todo)
                some = np.flatnonzero(stays)
                end[some] = _hold_ready(batch, rows, todo[some], on_id, (time - used)[some])
        on_time[todo] += np.where(stays, time, np.where(on, used, 0.0))
        left[todo] = np.where(met & ~stays, np.maximum(time - used, 0.0), 0.0)
        rows.charge_c[todo] = np.where(down, end * (1.0 - 1e-12), end)
        rows.connected[todo] = on
        rows.see_lowest(todo, due)
    rest = np.flatnonzero(left > 0)
    if len(rest):
        share, turns = _to_and_fro(batch, rest, on_id, off_id, start_c[rest], cut)
        on_time[rest] += left[rest] * share
        rows.lost[rest] += left[rest] * turns
    rows.connected_s += on_time
    rows.due_s += on_time[:, None] * np.array(due, float)
    rows.passed_s += duration


def starts_at(batch: Batch, level: int) -> FloatArray:
    """Charge at which a start-up succeeds in this light, (systems,); infinite where none does. [C]

    The connect threshold; where a start-up fails from there, what the store gathers while the
    switch waits to try again, if that is more and suffices.
    """
    known = batch.starts.get(level)
    if known is not None:
        return known
    start, rows = batch.start, np.arange(batch.size)
    need = start.need_c - np.maximum(batch.given_a[:, level], 0.0) * start.length_s
    connect = batch.connect_at_c[:, level]
    found = np.where(connect >= need, connect, np.inf)
    fails = np.flatnonzero(~np.isfinite(found))
    if len(fails):
        again = batch.flows.advance(
            np.full(len(fails), batch.off[level], np.intp), rows[fails],
            np.minimum(start.left_c, batch.nodes_c[:, -1])[fails],
            retry_delay(batch)[fails],
        )
        again = np.maximum(again, connect[fails])
        found[fails] = np.where(again >= need[fails], again, np.inf)
    batch.starts[level] = found
    return found


def retry_delay(batch: Batch) -> FloatArray:
    """Least time from a cut-off to the next connect, (systems,). [s]"""
    delay = np.asarray(batch.system.load.retry_delay_s, float)
    return np.broadcast_to(delay.reshape(-1), (batch.size,))


def _spoils(batch: Batch, rows: IntArray) -> BoolArray:
    """Whether the run that waits for the least charge ends in a cut-off."""
    waits = batch.waits
    if not waits.spoiled.shape[1]:
        return np.zeros(len(rows), bool)
    return np.asarray(waits.spoiled[rows, waits.first[rows]])


def _run_what_waits(
    batch: Batch, rows: Rows, todo: IntArray, charge_c: FloatArray, on: BoolArray
) -> tuple[FloatArray, BoolArray]:
    """Runs that a store above their charge begins at once; one that fails leaves it cut off."""
    waits = batch.waits
    over = on & (charge_c >= waits.ready_c[todo])
    if not over.any():
        return charge_c, on
    spoils = over & _spoils(batch, todo)
    runs = np.where(over, np.floor((charge_c - waits.ready_c[todo]) / waits.run_c[todo]) + 1.0, 0.0)
    runs = np.where(spoils, 0.0, np.where(over, runs, 0.0))
    rows.ran[todo] += runs
    rows.lost[todo] += spoils
    charge_c = charge_c - runs * np.where(over, waits.run_c[todo], 0.0)
    return np.where(spoils, np.minimum(charge_c, batch.asleep_c[todo]), charge_c), on & ~spoils


def _hold_ready(
    batch: Batch, rows: Rows, which: IntArray, on_id: int, time: FloatArray
) -> FloatArray:
    """Charge of stores that spend on waiting runs whatever arrives; the runs are counted."""
    waits = batch.waits
    # At any moment half of a run is spent since the last one began.
    middle = waits.ready_c[which] - 0.5 * np.minimum(waits.run_c, waits.ready_c)[which]
    _, speed = batch.flows.begin(np.full(len(which), on_id, np.intp), which, middle)
    rate = np.maximum(speed, 0.0) / waits.run_c[which]
    most = 1.0 / np.maximum(waits.run_s[which], 1e-9)
    rows.at_most[which] |= rate > most
    rate = np.minimum(rate, most)
    rows.ran[which] += 0.5 + rate * time
    return middle


def _to_and_fro(
    batch: Batch, rows: IntArray, on_id: int, off_id: int, start_c: FloatArray, cut: Cut
) -> tuple[FloatArray, FloatArray]:
    """Share of time connected, and cut-offs a second, of systems that come and go.

    They connect and are cut off at rest; what only the light lifts so far connects at `start_c`.
    """
    up, down = batch.connect_c[rows], cut.need_c[rows]
    up = np.where(np.isfinite(up), up, start_c)
    # What never connects does not go to and fro, wherever it would begin to fall.
    begin = np.where(np.isfinite(up), up - batch.start.taken_c[rows], 0.0)
    ones = np.ones(len(rows), np.intp)
    fall = np.where(
        begin > down, batch.flows.time_to(ones * on_id, rows, begin, down), 0.0
    )
    low = np.maximum(np.minimum(begin, cut.left_c[rows]), 0.0)
    rise = batch.flows.time_to(ones * off_id, rows, low, up)
    rise = np.maximum(rise, retry_delay(batch)[rows])
    turn = fall + rise
    some = np.isfinite(turn) & (turn > 0)
    turn = np.where(some, turn, 1.0)
    return np.where(some, fall / turn, 0.0), np.where(some, 1.0 / turn, 0.0)


def dark_time(
    batch: Batch, rows: IntArray, charge_c: FloatArray, first: IntArray, most_s: FloatArray
) -> FloatArray:
    """Time in the dark until the load is cut off with its reserve kept. [s]

    Parameters
    ----------
    batch : Batch
        The systems.
    rows, first : ndarray
        System and number of the stretch in which its dark begins, shape (n,).
    charge_c, most_s : ndarray
        Where it begins [C] and the longest time that is of interest [s], shape (n,).
    """
    s = batch.stretches
    span = np.diff(s.edges_s)
    dues = list(batch.dark)
    kind = np.array([dues.index(tuple(map(bool, d))) for d in s.due])
    motion = np.array([batch.dark[d] for d in dues])
    floors = np.array([np.minimum(batch.floor_c[d], batch.nodes_c[:, -1]) for d in dues])
    # Runs that wait for a charge spend what lies above it at once.
    ready = batch.waits.ready_c[rows]
    x = np.minimum(charge_c, np.where(ready > floors.max(axis=0)[rows], ready, np.inf))
    total, todo, k = np.zeros(len(rows)), np.arange(len(rows)), first.copy()
    # One period by its windows, what follows by the mean.
    for _ in range(len(span) if len(dues) > 1 else 0):
        floor = floors[kind[k[todo]], rows[todo]]
        keep = (total[todo] < most_s[todo]) & (x[todo] > floor)
        todo, floor = todo[keep], floor[keep]
        if not len(todo):
            break
        which, time = motion[kind[k[todo]]], span[k[todo]]
        end = batch.flows.advance(which, rows[todo], x[todo], time)
        met = end <= floor
        hit = todo[met]
        total[hit] += np.minimum(
            batch.flows.time_to(which[met], rows[hit], x[hit], floor[met]), time[met]
        )
        todo = todo[~met]
        total[todo] += time[~met]
        x[todo] = end[~met]
        k[todo] = (k[todo] + 1) % len(span)
    floor = floors.max(axis=0)[rows[todo]]
    left = x[todo] > floor
    todo, floor = todo[left], floor[left]
    which = np.full(len(todo), batch.dark_mean, np.intp)
    total[todo] += batch.flows.time_to(which, rows[todo], x[todo], floor)
    return np.asarray(np.minimum(total, most_s))
