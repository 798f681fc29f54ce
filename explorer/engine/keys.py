"""Names of what a store follows: which draw, which motion, which composed cycle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple


@dataclass(frozen=True, slots=True)
class Off:
    """The load switch is open."""


class StartUp(NamedTuple):
    """One phase of the start-up."""

    phase: int


class On(NamedTuple):
    """The device sleeps, and does beside it what is named here."""

    averaged: tuple[int, ...] = ()
    """Operations whose pulses are spread over their interval."""
    active: tuple[tuple[int, int], ...] = ()
    """Operations that run, each with its phase."""


DrawKey = Off | StartUp | On
OFF = Off()


class MotionKey(NamedTuple):
    """The motion of one exact light level, charger state and draw."""

    photocurrent_a: float
    charging: bool
    draw: DrawKey


class CycleKey(NamedTuple):
    """The composed cycle of one operation at one exact light level and charger state."""

    photocurrent_a: float
    charging: bool
    averaged: tuple[int, ...]
    """Operations that run beside it, spread over their interval."""
    operation: int
    part: tuple[int, int] | None = None
    """Only these of its phases, from one to before another, without the rest until the next run;
    None for the whole cycle."""
    beside: tuple[tuple[int, int], ...] = ()
    """Other operations that are at one phase meanwhile."""
