"""The time axis: s, min, h and days, weekdays where the trace runs on a calendar week."""

from __future__ import annotations

from datetime import datetime

import pyqtgraph as pg

from explorer.state.language import tr
from explorer.words.moments import time_ticks

_LABEL_PX = 62.0


class TimeAxis(pg.AxisItem):
    """Axis whose ticks and texts come from `time_ticks`, without any automatic prefix."""

    def __init__(self) -> None:
        super().__init__("bottom")
        self.enableAutoSIPrefix(False)
        self._weekdays = True
        self._offset_s = 0.0
        self._begins: datetime | None = None
        self._labels: dict[float, str] = {}

    def set_calendar(
        self, weekdays: bool, offset_s: float, begins: datetime | None = None
    ) -> None:
        """Say whether zero is a moment of the week, and which, and its date if it has one."""
        now = (weekdays, offset_s, begins)
        if now != (self._weekdays, self._offset_s, self._begins):
            self._weekdays, self._offset_s, self._begins = now
            self.picture = None
            self.update()

    def tickValues(
        self, low: float, high: float, size: float
    ) -> list[tuple[float, list[float]]]:
        """Ticks that fit the width in pixels."""
        most = max(2, int(size / _LABEL_PX))
        ticks = time_ticks(low, high, most, self._weekdays, self._offset_s, self._begins)
        self._labels = {tick.time_s: tick.label for tick in ticks}
        return [(max(high - low, 1e-9) / most, [tick.time_s for tick in ticks])]

    def tickStrings(self, values: list[float], scale: float, spacing: float) -> list[str]:
        """Text of each tick."""
        return [tr(self._labels.get(value, "")) for value in values]
