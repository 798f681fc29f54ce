"""An axis of numbers, with the decimal mark of the language on show."""

from __future__ import annotations

from typing import Literal

import pyqtgraph as pg

from explorer.state.language import tr
from explorer.text import figure

Side = Literal["left", "bottom"]


class NumberAxis(pg.AxisItem):
    """Axis of plain numbers, without any automatic prefix."""

    def __init__(self, side: Side) -> None:
        super().__init__(side)
        self.enableAutoSIPrefix(False)

    def tickStrings(self, values: list[float], scale: float, spacing: float) -> list[str]:
        """Text of each tick."""
        return [tr(figure(text)) for text in super().tickStrings(values, scale, spacing)]
