"""Designs that were on show lately, with what was computed for them: a way back is a look-up."""

from __future__ import annotations

from explorer.advice.case import Case
from explorer.files.beside import NOTHING, Beside
from explorer.scenario.model import Scenario

MOST_CASES = 24
"""Designs that are kept."""
ROOM = 100_000_000
"""About how much they may take together: most take some 3 MB, but one whose store runs empty and
fills up again all the time takes more than a hundred. [bytes]"""
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
            self._make_room((MOST_YEARS if year else MOST_CASES) - 1, ROOM)
            case = beside.case(scenario)
        self._kept[scenario] = self._last = case
        return case

    def _make_room(self, most: int, room: int = 0) -> None:
        """Let go of the oldest, and of what refers back to them."""
        held = sum(case.size for case in self._kept.values())
        while len(self._kept) > most or (held > room and self._kept):
            oldest = self._kept.pop(next(iter(self._kept)))
            held -= oldest.size
            oldest.forget()
