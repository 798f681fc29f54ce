"""How far the store goes in a stretch of time: lowest and highest charge, lowest terminals."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import BoolArray, FloatArray, IntArray

_WIDENED = (
    ("lowest_c", np.minimum, np.inf),
    ("highest_c", np.maximum, -np.inf),
    ("lowest_v", np.minimum, np.inf),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """How far the store goes in stretches of time; arrays of shape (n,)."""

    lowest_c: FloatArray
    highest_c: FloatArray
    lowest_v: FloatArray
    """At the terminals. [V]"""
    end_c: FloatArray
    """Charge at the end. [C]"""

    def part(self, where: BoolArray | IntArray | slice) -> Extent:
        """Some of the stretches."""
        names = (*(name for name, _, _ in _WIDENED), "end_c")
        return Extent(**{name: getattr(self, name)[where] for name in names})

    def put(self, where: BoolArray | IntArray | slice, other: Extent) -> None:
        """Widen some of the stretches by others, which end later."""
        for name, wider, _ in _WIDENED:
            values = getattr(self, name)
            values[where] = wider(values[where], getattr(other, name))
        self.end_c[where] = other.end_c

    def put_each(self, place: IntArray, other: Extent) -> None:
        """Widen stretches by others, several to one; the last of these ends latest."""
        for name, wider, _ in _WIDENED:
            wider.at(getattr(self, name), place, getattr(other, name))
        self.end_c[place] = other.end_c

    def between(self, first: IntArray, last: IntArray) -> Extent:
        """What lies strictly between two places of a row of stretches, taken together."""
        spans = np.stack([first + 1, last], axis=-1)
        some = spans[:, 0] < spans[:, 1]
        out = Extent.none(len(first))
        for name, wider, none in _WIDENED:
            values = np.append(getattr(self, name), none)
            getattr(out, name)[some] = wider.reduceat(values, spans[some].ravel())[::2]
        out.end_c[:] = self.end_c[last - 1]
        return out

    def joined(self, first: IntArray) -> Extent:
        """Stretches taken together, from each of some places to the next."""
        last = np.append(first[1:], len(self.end_c)) - 1
        found = {
            name: wider.reduceat(getattr(self, name), first) for name, wider, _ in _WIDENED
        }
        return Extent(**found, end_c=self.end_c[last])

    @classmethod
    def none(cls, n: int) -> Extent:
        """Stretches in which nothing has been seen yet."""
        return cls(**{name: np.full(n, none) for name, _, none in _WIDENED}, end_c=np.empty(n))
