"""Names of what a store follows: which draw, which motion, which composed cycle."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Off:
    """The load switch is open."""


@dataclass(frozen=True, slots=True)
class StartUp:
    """One phase of the start-up."""

    phase: int


@dataclass(frozen=True, slots=True)
class On:
    """The device sleeps, and does beside it what is named here."""

    averaged: tuple[int, ...] = ()
    """Operations whose pulses are spread over their interval."""
    active: tuple[tuple[int, int], ...] = ()
    """Operations that run, each with its phase."""


DrawKey = Off | StartUp | On
OFF = Off()


@dataclass(frozen=True, slots=True)
class MotionKey:
    """The motion of one exact light level, charger state and draw."""

    photocurrent_a: float
    charging: bool
    draw: DrawKey


@dataclass(frozen=True, slots=True)
class CycleKey:
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
