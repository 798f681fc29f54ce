"""A captured load current: readings of which each holds until the next."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import FloatArray
from explorer.text import say


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Capture:
    """Readings of a current; arrays of shape (n,)."""

    name: str
    """Of the file."""
    time_s: FloatArray
    """Since the first reading, rising. [s]"""
    current_a: FloatArray
    """Each holds until the time of the next. [A]"""
    span_s: float
    """To the end of the last reading. [s]"""
    notes: tuple[str, ...] = ()
    """What the reader found or repaired, one sentence each."""

    @property
    def held_s(self) -> FloatArray:
        """How long each reading holds, shape (n,). [s]"""
        return np.diff(self.time_s, append=self.span_s)

    def charge_c(self) -> FloatArray:
        """Charge drawn up to the end of each reading, shape (n,). [C]"""
        return np.cumsum(self.current_a * self.held_s)

    def between(self, from_s: float, to_s: float) -> Capture:
        """The stretch from one moment to another, its time counted from 0.

        Raises
        ------
        ValueError
            The stretch is empty or reaches out of the capture.
        """
        if not 0.0 <= from_s < to_s <= self.span_s:
            raise ValueError(
                say(
                    "a cycle from {start} s to {end} s does not lie within the capture, which "
                    "lasts {span} s",
                    start=f"{from_s:.9g}", end=f"{to_s:.9g}", span=f"{self.span_s:.9g}",
                )
            )
        first = int(np.searchsorted(self.time_s, from_s, side="right")) - 1
        stop = int(np.searchsorted(self.time_s, to_s, side="left"))
        time = self.time_s[first:stop] - from_s
        time[0] = 0.0
        return Capture(
            name=self.name, time_s=time, current_a=self.current_a[first:stop],
            span_s=to_s - from_s, notes=self.notes,
        )


def captured(
    name: str, time_s: FloatArray, current_a: FloatArray, notes: tuple[str, ...] = ()
) -> Capture:
    """A capture of readings whose times rise; the last holds as long as most others.

    Parameters
    ----------
    name : str
        Of the file.
    time_s : ndarray
        Rising, shape (n,), n at least 2. [s]
    current_a : ndarray
        Shape (n,). [A]
    notes : tuple of str
        What the reader found, one sentence each.
    """
    time = time_s - time_s[0]
    return Capture(
        name=name, time_s=time, current_a=current_a, notes=notes,
        span_s=float(time[-1] + np.median(np.diff(time))),
    )  # fmt: skip


def mean_currents(capture: Capture, edges_s: FloatArray) -> FloatArray:
    """Mean current of each stretch between edges, shape (len(edges) - 1,). [A]"""
    ends = np.concatenate(([0.0], capture.charge_c()))
    times = np.append(capture.time_s, capture.span_s)
    means: FloatArray = np.diff(np.interp(edges_s, times, ends)) / np.diff(edges_s)
    return means
