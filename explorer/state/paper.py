"""The papers that a sheet may be printed on."""

from typing import Literal

from PySide6.QtCore import QLocale

Paper = Literal["A4", "Letter"]
PAPERS: dict[Paper, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Width and height of each, upright. [mm]"""


def usual_paper() -> Paper:
    """The paper that lies in printers where this computer stands, by its system's settings."""
    metric = QLocale.system().measurementSystem() != QLocale.MeasurementSystem.ImperialUSSystem
    return "A4" if metric else "Letter"
