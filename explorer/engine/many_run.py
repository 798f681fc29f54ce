"""Running a batch: every system through stretches of constant light, thresholds met exactly."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.engine.many import Batch

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]
BoolArray = NDArray[np.bool_]

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
        for name in ("charge_c", "connected", "connected_s", "due_s", "lowest_c", "lost"):
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


def run_stretch(batch: Batch, rows: Rows, k: int, active: BoolArray | None = None) -> None:
    """Move systems through one stretch of constant light; all if not said which."""
    s = batch.stretches
    duration = float(s.edges_s[k + 1] - s.edges_s[k])
    level, due = int(s.level[k]), tuple(map(bool, s.due[k]))
    off_id, on_id = batch.off[level], batch.on[(level, due)]
    cut, can = batch.cut_c[due], may_start(batch)
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
        # Thresholds that are met already.
        rise = ~on & can[todo] & (q >= batch.connect_c[todo])
        q = np.where(rise, q - batch.start_c[todo], q)
        rows.first_s[todo] = np.where(
            rise & ~np.isfinite(rows.first_s[todo]),
            rows.passed_s + duration - time, rows.first_s[todo],
        )
        on = on | rise
        fall = on & (q < cut[todo])
        rows.lost[todo] += fall
        on = on & ~fall
        which = np.where(on, on_id, off_id)
        end = batch.flows.advance(which, todo, q, time)
        bound = np.where(on, cut[todo], np.where(can[todo], batch.connect_c[todo], np.inf))
        met = np.where(on, end < bound, end >= bound)
        met &= ~(~on & (q >= bound))
        used = time.copy()
        if met.any():
            hit = np.flatnonzero(met)
            used[hit] = np.minimum(
                batch.flows.time_to(which[hit], todo[hit], q[hit], bound[hit]), time[hit]
            )
            end[hit] = bound[hit]
        on_time[todo] += np.where(on, used, 0.0)
        left[todo] = np.where(met, np.maximum(time - used, 0.0), 0.0)
        rows.charge_c[todo] = np.where(met & on, end * (1.0 - 1e-12), end)
        rows.connected[todo] = on
        rows.see_lowest(todo, due)
    rest = np.flatnonzero(left > 0)
    if len(rest):
        on_time[rest] += left[rest] * _running_share(batch, rest, on_id, off_id, cut[rest])
    rows.connected_s += on_time
    rows.due_s += on_time[:, None] * np.array(due, float)
    rows.passed_s += duration


def may_start(batch: Batch) -> BoolArray:
    """Whether a connect at its threshold leaves enough for the device to go to sleep."""
    asleep = np.min(list(batch.cut_c.values()), axis=0)
    return np.asarray(batch.connect_c - batch.start_c > asleep)


def _running_share(
    batch: Batch, rows: IntArray, on_id: int, off_id: int, down: FloatArray
) -> FloatArray:
    """Share of time connected of systems that go to and fro between the thresholds."""
    up = batch.connect_c[rows]
    begin = up - batch.start_c[rows]
    ones = np.ones(len(rows), np.intp)
    fall = batch.flows.time_to(ones * on_id, rows, begin, down)
    rise = batch.flows.time_to(ones * off_id, rows, np.minimum(begin, down), up)
    with np.errstate(invalid="ignore"):
        share = fall / (fall + rise)
    return np.where(np.isfinite(share) & (begin > down), share, 0.0)


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
    ready = batch.ready_c[rows]
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
