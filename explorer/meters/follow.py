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
class Lost:
    """The meter does not answer."""

    kind: str
    detail: str
    again_s: float
    """Until the next attempt. [s]"""


Happening = Found | Reading | Odd | Lost


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
                    tries = 0
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
) -> Iterator[Reading | Odd]:
    due_s = time.monotonic()
    while not stop.is_set():
        volts, lux = numbers_of(link.read())
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
        self._offset_s = time.time() - time.monotonic()

    def now(self) -> datetime:
        return datetime.fromtimestamp(time.monotonic() + self._offset_s)
