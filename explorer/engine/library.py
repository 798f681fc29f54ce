"""Tables that designs share, found by what each was made from.

A table depends on a few of a design's values: a charging current on panel, charger and light, a
draw's current on the draw and the store's resistance, a composed cycle on all of these and the
store. A design that differs elsewhere finds it here. What was not asked for lately makes room.
"""

from __future__ import annotations

from collections import Counter, OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import fields, is_dataclass
from threading import Lock
from typing import Any, TypeVar

import numpy as np

T = TypeVar("T")

ROOM = 64_000_000
"""About how much the tables may take together. [bytes]"""


class Library:
    """Tables by their kind and what they were made from.

    Parameters
    ----------
    room : int
        About how much they may take together. [bytes]

    Notes
    -----
    Threads may share one: a table that two of them ask for at once may be made twice, and one of
    the two is kept.
    """

    def __init__(self, room: int = ROOM) -> None:
        self.room = room
        self.held = 0
        """About how much they take now. [bytes]"""
        self.made: Counter[str] = Counter()
        """How many of each kind have been made."""
        self._found: OrderedDict[Hashable, tuple[Any, int]] = OrderedDict()
        self._lock = Lock()

    def __len__(self) -> int:
        return len(self._found)

    def knows(self, kind: str, of: Hashable) -> bool:
        """Whether such a table is there."""
        return (kind, of) in self._found

    def get(self, kind: str, of: Hashable, make: Callable[[], T], size: int) -> T:
        """The table of a kind that was made from something, made at the first call.

        Parameters
        ----------
        kind : str
            What it is.
        of : hashable
            All that it depends on.
        make : callable
            Makes it.
        size : int
            About how much it takes. [bytes]
        """
        key = (kind, of)
        with self._lock:
            held = self._found.get(key)
            if held is not None:
                self._found.move_to_end(key)
                found: T = held[0]
                return found
        made = make()
        with self._lock:
            self.made[kind] += 1
            if key not in self._found:
                self.held += size
            self._found[key] = (made, size)
            while self.held > self.room and len(self._found) > 1:
                _, (_, freed) = self._found.popitem(last=False)
                self.held -= freed
        return made


def frozen(value: Any) -> Hashable:
    """A value, or a dataclass of values and arrays, as a key: equal where all of it is equal."""
    if isinstance(value, float):
        return value
    if isinstance(value, np.ndarray):
        return float(value) if value.ndim == 0 else (value.shape, value.tobytes())
    if isinstance(value, tuple):
        return tuple([frozen(one) for one in value])
    kind = type(value)
    names = _NAMES.get(kind)
    if names is None:
        held = fields(value) if is_dataclass(value) else ()
        names = _NAMES[kind] = tuple(one.name for one in held)
    if names and not isinstance(value, type):
        return (kind, *[frozen(getattr(value, name)) for name in names])
    hashable: Hashable = value
    return hashable


_NAMES: dict[type, tuple[str, ...]] = {}
"""Names of what a dataclass holds, by its type; of any other type none."""
