"""Break-even: the value of a knob at which the verdict changes."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.advice.verdict import State


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakEven:
    """Verdict at every stop of one knob, and the sentence that sums it up."""

    path: str
    stops: tuple[float, ...]
    states: tuple[State, ...]
    sentence: str
