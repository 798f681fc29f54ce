"""Designs that were on show lately, with what was computed for them: a way back is a look-up."""

from __future__ import annotations

from explorer.advice.case import Case
from explorer.files.beside import NOTHING, Beside
from explorer.scenario.model import Scenario

MOST_CASES = 24
"""Designs that are kept, some 2 MB each, under a measured log 4."""
MOST_YEARS = 4
"""Of them such as live in a year of daylight, 25 MB each."""


class Cases:
    """Cases by their scenario, in one measured light; what was on show longest ago makes room."""

    def __init__(self) -> None:
        self._beside = NOTHING
        self._kept: dict[Scenario, Case] = {}
        self._last: Case | None = None

    def of(self, scenario: Scenario, beside: Beside) -> Case:
        """The case of a design in its light; the one of before where it was kept."""
        last = self._last
        # Many ask for the design on show; to find it by what it says takes a while.
        if last is not None and last.scenario is scenario and beside is self._beside:
            return last
        if beside is not self._beside:
            self._make_room(0)
            self._beside = beside
        case = self._kept.pop(scenario, None)
        if case is None:
            year = scenario.light.pattern.kind == "daylight"
            self._make_room((MOST_YEARS if year else MOST_CASES) - 1)
            case = beside.case(scenario)
        self._kept[scenario] = self._last = case
        return case

    def _make_room(self, most: int) -> None:
        """Let go of the oldest, and of what refers back to them."""
        while len(self._kept) > most:
            oldest = next(iter(self._kept))
            self._kept.pop(oldest).forget()
