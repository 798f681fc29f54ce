"""What a march leaves behind: legs of motion, events and counts."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from enum import Enum, auto
from threading import get_ident
from typing import NamedTuple

from explorer.engine.cycles import Cycle
from explorer.engine.keys import DrawKey, On
from explorer.engine.levels import Level, Motion


class StopAt(Enum):
    """What ends a run before its time is over."""

    FIRST_OPERATION = auto()
    """A start-up is completed."""
    CUT_OFF = auto()
    FULL = auto()


class Unfinished(Exception):
    """Marches would take longer than they may."""


class Interrupted(Exception):
    """Nobody waits for the answer any more."""


_STOPPED: ContextVar[Callable[[], bool] | None] = ContextVar("stopped", default=None)


@contextmanager
def until(stopped: Callable[[], bool]) -> Iterator[None]:
    """A stretch of computing whose marches are given up once `stopped` says so.

    It holds for the thread that asks alone. What was kept until then stays.

    Raises
    ------
    Interrupted
        From within a march.
    """
    token = _STOPPED.set(stopped)
    try:
        yield
    finally:
        _STOPPED.reset(token)


def asked_to_stop() -> Callable[[], bool] | None:
    """What a march of this thread asks now and then; None where it goes to its end."""
    return _STOPPED.get()


def give_way() -> None:
    """Go on only where somebody still waits for it.

    Raises
    ------
    Interrupted
        Nobody does; see `until`.
    """
    stopped = asked_to_stop()
    if stopped is not None and stopped():
        raise Interrupted


@dataclass(slots=True)
class Allowance:
    """How many events marches may come through together, before they are given up.

    One takes some 10 microseconds, tables not counted. It counts in the thread that made it alone.
    """

    events: int
    thread: int = field(default_factory=get_ident)

    @property
    def counts(self) -> bool:
        """Whether this is the thread whose marches it is for."""
        return self.thread == get_ident()

    def spend(self, events: int) -> None:
        """Count events. Unfinished where none are left."""
        self.events -= events
        if self.events < 0:
            raise Unfinished


@dataclass(slots=True)
class Walked:
    """What the marches of a system have left behind."""

    legs: int = 0


class Leg(NamedTuple):
    """A stretch of time in which one motion moved the store."""

    begin_s: float
    end_s: float
    begin_c: float
    end_c: float
    level: Level
    """Light at the beginning; a store that does not charge goes on in any light."""
    charging: bool
    connected: bool
    low: Motion
    """Motion of the lower neighbour of the level; the only one where the level is exact."""
    high: Motion
    cycles: tuple[Cycle, Cycle] | None
    """Composed load cycles that the leg runs through, or None for a plain motion."""
    repeats: Repeats | None
    """The turn that this one stands for, many times over."""

    @property
    def draw(self) -> DrawKey:
        """What was drawn meanwhile; the whole name of the motion is `low.key`."""
        return self.low.key.draw

    @property
    def averages(self) -> bool:
        """Whether the motion holds the pulses of its cycles already, with their mean.

        Such a leg is no whole number of cycles: a pulse may begin anywhere along it.
        """
        return (
            self.cycles is not None
            and isinstance(self.draw, On)
            and self.cycles[0].key.operation in self.draw.averaged
        )


class Repeats(NamedTuple):
    """A turn of a course that comes back to where it began."""

    legs: tuple[Leg, ...]
    times: float
    opening_c: float
    """Charge at which the turn began, before any instant loss that opens it. [C]"""


class Event(NamedTuple):
    """A threshold crossed."""

    time_s: float
    kind: str
    charge_c: float


@dataclass(slots=True)
class Tally:
    """Counts of a run."""

    served: list[float]
    """Completed runs of every operation."""
    connects: float = 0.0
    cut_offs: float = 0.0
    connected_s: float = 0.0
    full_s: float = 0.0
    """Time with charging stopped because the store is full. [s]"""
    started: float = 0.0
    """Start-ups completed."""

    def copy(self) -> Tally:
        """The counts as they stand."""
        return Tally(
            list(self.served), self.connects, self.cut_offs, self.connected_s, self.full_s,
            self.started,
        )

    def since(self, before: Tally, turns: float, stretch: float) -> Tally:
        """What happened since `before`, `turns` times over, and its times by `stretch`."""
        return Tally(
            served=[
                turns * (now - then)
                for now, then in zip(self.served, before.served, strict=True)
            ],
            connects=turns * (self.connects - before.connects),
            cut_offs=turns * (self.cut_offs - before.cut_offs),
            connected_s=stretch * (self.connected_s - before.connected_s),
            full_s=stretch * (self.full_s - before.full_s),
            started=turns * (self.started - before.started),
        )

    def add(self, gain: Tally) -> None:
        """Count something more."""
        self.served = [a + b for a, b in zip(self.served, gain.served, strict=True)]
        self.connects += gain.connects
        self.cut_offs += gain.cut_offs
        self.connected_s += gain.connected_s
        self.full_s += gain.full_s
        self.started += gain.started


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """What a device is about: its clock, as times from now."""

    starts_s: tuple[float, ...]
    """When each operation begins next, infinite where nothing is planned. [s]"""
    running: tuple[tuple[int, float] | None, ...]
    """Phase of each operation that runs, and how long that still lasts. [s]"""
    start_up: tuple[int, float] | None = None
    """Phase of the start-up, and how long that still lasts. [s]"""
    retry_s: float = 0.0
    """How long the load may not yet connect. [s]"""

    @property
    def times_s(self) -> tuple[float, ...]:
        """All of it as one row; two phases are told apart by a whole number of them. [s]"""
        phases = [*self.running, self.start_up]
        return (
            *self.starts_s, self.retry_s,
            *(float(part) for one in phases for part in (one or (-1.0, 0.0))),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where a run stands: what the next run needs to go on."""

    charge_c: float
    connected: bool
    charging: bool = True
    pending: Pending | None = None
    """None where a device that is connected begins all its operations now."""

    def goes_on_as(self, other: Standing, grain_c: float, grain_s: float) -> bool:
        """Whether two stand alike but for so much charge [C] and time [s]."""
        one_s, other_s = (s.pending.times_s if s.pending else None for s in (self, other))
        if (self.connected, self.charging) != (other.connected, other.charging):
            return False
        if one_s is None or other_s is None:
            alike = one_s is other_s or not self.connected
        else:
            alike = len(one_s) == len(other_s) and all(
                a == b or abs(a - b) < grain_s for a, b in zip(one_s, other_s, strict=True)
            )
        return alike and abs(self.charge_c - other.charge_c) <= grain_c


@dataclass(frozen=True, slots=True)
class Trajectory:
    """A whole run."""

    legs: list[Leg]
    events: list[Event]
    tally: Tally
    end: Standing
    span_s: float
    first_operation_s: float = field(default=float("inf"))
    """Time at which the first start-up was completed. [s]"""
    begin_s: float = 0.0
    """Time within the light's course at which it began. [s]"""
    first_connects: float = 0.0
    """Connects up to the end of the first start-up."""
