"""A long log joined to means while it is read, so that a year of seconds needs little memory."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from explorer.files.progress import Progress
from explorer.files.table_reader.headings import Quantity
from explorer.files.table_reader.order import ordered, repeated_note
from explorer.files.table_reader.parts import Part, PartReader
from explorer.files.table_reader.understanding import Understanding
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.text import Text, say

_NEAT_S = (1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1800.0, 3600.0)
_FINER = 4.0
_HOUR_S = 3600.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """Means over stretches of equal length; those without a reading are left out."""

    time_s: FloatArray
    """Beginning of each stretch since the first reading, shape (n,). [s]"""
    means: FloatArray
    """Shape (n,), in SI units."""
    start: datetime | None
    """Date and time of the first reading."""
    notes: list[Text]
    readings: int
    """In the file."""


def read_joined(known: Understanding, quantity: Quantity, most: int, progress: Progress) -> Joined:
    """Read a log of one quantity as means.

    Parameters
    ----------
    known : Understanding
        How the file is to be read.
    quantity : str
        What is joined.
    most : int
        Stretches that the log may have, about.
    progress : callable
        Is told the share of the file that was read; what it raises ends the reading.

    Raises
    ------
    LogError
        A line cannot be read, or its time does not rise.
    """
    reader, order = PartReader(known), _Order(known)
    sums: _Sums | None = None
    for part in reader.parts(progress):
        if not len(part.time_s):
            continue
        time_s, keep = order.take(part, quantity, reader.base)
        if sums is None:
            step_s = float(np.median(np.diff(time_s))) if len(time_s) > 1 else 1.0
            # What the first part holds tells about what the file will hold.
            # Lines may grow longer, so the first ones tell too many: begin with finer stretches.
            rows = len(time_s) / part.characters * known.layout.file.characters
            sums = _Sums(time_s[0], _neat(step_s * rows / most / _FINER, step_s))
        sums.add(time_s[keep], part.values[quantity][keep])
    if sums is None:
        nothing = np.zeros(0)
        return Joined(time_s=nothing, means=nothing, start=None, notes=reader.notes, readings=0)
    place, means = sums.means(most)
    width = show(sums.width_s, "s")
    note = say("{n} readings were joined to means of {width}.", n=sums.count, width=width)
    return Joined(
        time_s=place * sums.width_s,
        means=means,
        start=None if reader.base is None else reader.base + timedelta(seconds=sums.first_s),
        notes=[*reader.notes, *order.notes, *repeated_note(order.repeated), note],
        readings=sums.count,
    )


def _neat(least_s: float, of_s: float) -> float:
    """A neat time of at least so much, a whole multiple of another one where there is any. [s]"""
    for neat in _NEAT_S:
        if neat >= 0.999 * least_s and abs(neat / of_s - round(neat / of_s)) < 1e-6:
            return neat
    return of_s * max(float(np.ceil(least_s / of_s)), 1.0)


class _Sums:
    """Sums and counts of the readings in stretches of equal length."""

    def __init__(self, first_s: float, width_s: float) -> None:
        self.first_s, self.width_s, self.count = float(first_s), width_s, 0
        self._found: list[tuple[FloatArray, FloatArray, FloatArray]] = []

    def add(self, time_s: FloatArray, values: FloatArray) -> None:
        """Take readings in order of time."""
        if not len(time_s):
            return
        place = np.floor((time_s - self.first_s) / self.width_s + 1e-6)
        first = np.flatnonzero(np.diff(place, prepend=-1.0))
        size = np.diff(np.append(first, len(place))).astype(float)
        self._found.append((place[first], np.add.reduceat(values, first), size))
        self.count += len(time_s)

    def means(self, most: int) -> tuple[FloatArray, FloatArray]:
        """Numbers of at most so many stretches that have readings, and their means.

        The stretches are made wider for it.
        """
        place, total, size = (np.concatenate(parts) for parts in zip(*self._found, strict=True))
        width_s = _neat((place[-1] + 1.0) / most * self.width_s, self.width_s)
        place = np.floor(place * (self.width_s / width_s) + 1e-6)
        self.width_s = width_s
        first = np.flatnonzero(np.diff(place, prepend=-1.0))
        return place[first], np.add.reduceat(total, first) / np.add.reduceat(size, first)


class _Order:
    """Makes times rise from part to part: each goes on from the last reading of the one before."""

    def __init__(self, known: Understanding) -> None:
        assert known.stamps is not None
        self._name, self._is_clock = known.layout.name, known.stamps.kind == "clock"
        self._last: tuple[float, float, int] | None = None
        """Time, value and line of the last reading."""
        self._shift_s = 0.0
        """By how much changes of the clock have moved the times so far."""
        self.notes: list[Text] = []
        self.repeated = 0

    def take(
        self, part: Part, quantity: Quantity, start: datetime | None
    ) -> tuple[FloatArray, NDArray[np.bool_]]:
        """Times of a part, and which of its readings stay."""
        time_s, values, lines = part.time_s + self._shift_s, part.values[quantity], part.lines
        before = self._last is not None
        if self._last is not None:
            time_s = np.insert(time_s, 0, self._last[0])
            values = np.insert(values, 0, self._last[1])
            lines = np.insert(lines, 0, self._last[2])
        found = ordered(
            time_s, values[:, np.newaxis], lines, self._name, start=start, is_clock=self._is_clock
        )
        moved = float(found.time_s[-1] - time_s[-1])
        self._shift_s += round(moved / _HOUR_S) * _HOUR_S  # readings that share a stamp move less
        self._last = float(found.time_s[-1]), float(values[-1]), int(lines[-1])
        self.notes += [note for note in found.notes if note not in self.notes]
        self.repeated += found.repeated
        return found.time_s[before:], found.keep[before:]
