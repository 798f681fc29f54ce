"""A meter followed through time: its readings, and what happens to the line."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from threading import Event

from explorer.files.bench_log import HIGHEST_V, LOWEST_V
from explorer.files.logs import BRIGHTEST_LX
from explorer.meters.answers import OVERLOAD_V, numbers_of
from explorer.meters.faults import FATAL, MeterFault
from explorer.meters.link import Link
from explorer.meters.meter import Meter

RETRY_S = (1.0, 2.0, 5.0, 10.0)
"""Waits before the next attempt; the last one repeats."""
MOST_GARBLED = 50
"""Lines of a stream one after the other that are passed over; a board that starts anew tells of
itself for a while, and opening its line anew would only start it once more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The meter answers."""

    identity: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading."""

    moment: datetime
    volts: float
    lux: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Odd:
    """A number that is no reading of a store: an overload, or far out of range."""

    volts: float
    lux: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Garbled:
    """A line of a stream that holds no reading; the next one may."""

    detail: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost:
    """The meter does not answer."""

    kind: str
    detail: str
    again_s: float
    """Until the next attempt. [s]"""


Happening = Found | Reading | Odd | Garbled | Lost


def follow(meter: Meter, stop: Event, retry_s: tuple[float, ...] = RETRY_S) -> Iterator[Happening]:
    """What comes from a meter, until `stop` is set; a lost one is sought again.

    Parameters
    ----------
    meter : Meter
        Where it is and how it is read.
    stop : threading.Event
        Ends the waits.
    retry_s : tuple of float
        Waits before each further attempt; the last repeats. [s]

    Raises
    ------
    MeterFault
        Something is wrong that waiting does not mend, such as a library that is missing.
    """
    clock = _Clock()
    tries = 0
    while not stop.is_set():
        try:
            with Link(meter) as link:
                yield Found(identity=link.identity)
                for happening in _readings(link, meter, stop, clock):
                    tries = 0 if isinstance(happening, Reading) else tries
                    yield happening
        except MeterFault as fault:
            if fault.kind in FATAL:
                raise
            wait_s = retry_s[min(tries, len(retry_s) - 1)]
            tries += 1
            yield Lost(kind=fault.kind, detail=fault.detail, again_s=wait_s)
            stop.wait(wait_s)


def _readings(
    link: Link, meter: Meter, stop: Event, clock: _Clock
) -> Iterator[Reading | Odd | Garbled]:
    due_s = time.monotonic()
    garbled, answered = 0, False
    while not stop.is_set():
        try:
            volts, lux = numbers_of(link.read())
        except MeterFault as fault:
            garbled += 1
            if fault.kind not in ("garbled", "comma") or (fault.kind == "comma" and not answered):
                raise
            if not meter.is_stream or garbled >= MOST_GARBLED:
                raise MeterFault("garbled", fault.detail) from None
            yield Garbled(detail=fault.detail)
            continue
        garbled, answered = 0, True
        now_s = time.monotonic()
        if meter.is_stream and now_s < due_s:
            continue  # lines come faster than they are wanted
        fits = LOWEST_V <= volts <= HIGHEST_V and (lux is None or 0.0 <= lux <= BRIGHTEST_LX)
        yield Reading(moment=clock.now(), volts=volts, lux=lux) if fits else Odd(
            volts=volts if abs(volts) < OVERLOAD_V else float("inf"), lux=lux
        )
        due_s = max(due_s + meter.every_s, now_s)
        if not meter.is_stream:
            stop.wait(max(due_s - time.monotonic(), 0.0))


class _Clock:
    """The time of day, which goes on evenly when the computer's clock is set."""

    def __init__(self) -> None:
        self._offset_s = time.time() - _since_boot_s()

    def now(self) -> datetime:
        return datetime.fromtimestamp(_since_boot_s() + self._offset_s)


def _since_boot_s() -> float:
    """A clock that nobody sets. [s]

    On Linux the usual one stands still while the computer sleeps, and a run that goes on
    afterwards would be told too early by a whole night.
    """
    awake_or_not = getattr(time, "CLOCK_BOOTTIME", None)
    return time.monotonic() if awake_or_not is None else time.clock_gettime(awake_or_not)
