"""The voltage axis of the trace, with the decimal mark of the language on show."""

from __future__ import annotations

import pyqtgraph as pg

from explorer.state.language import tr
from explorer.text import figure


class VoltAxis(pg.AxisItem):
    """Axis of plain numbers, without any automatic prefix."""

    def __init__(self) -> None:
        super().__init__("left")
        self.enableAutoSIPrefix(False)

    def tickStrings(self, values: list[float], scale: float, spacing: float) -> list[str]:
        """Text of each tick."""
        return [tr(figure(text)) for text in super().tickStrings(values, scale, spacing)]
