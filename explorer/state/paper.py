"""The paper that a sheet is printed on where nobody says which."""

from PySide6.QtCore import QLocale

from explorer.files.report_blocks import Paper


def usual_paper() -> Paper:
    """The paper that lies in printers where this computer stands, by its system's settings."""
    metric = QLocale.system().measurementSystem() != QLocale.MeasurementSystem.ImperialUSSystem
    return "A4" if metric else "Letter"
