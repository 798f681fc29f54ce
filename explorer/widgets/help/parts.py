"""What F1 says of the pictures: what is drawn, and what the keys do there."""

from __future__ import annotations

from explorer.text import texts

PICTURES: dict[str, tuple[str, str]] = texts({
    "TracePlot": (
        "The trace",
        "The open-circuit voltage of the store over time. The ground is bright while light falls; "
        "dashed lines are the voltages at which charging ends and the device connects and cuts "
        "off. Where pulses crowd, the band below the line shows how far they reach down. A "
        "triangle marks a connect or a cut-off. Left and right move the cursor, M holds a second "
        "one, plus and minus zoom, Home shows all, the menu key exports.",
    ),
    "PulseInset": (
        "The deepest pulse",
        "The voltage at the terminals while the operation runs that pulls it down most, at the "
        "lowest store voltage. The ESR step is lost across the series resistance at once; the "
        "rest is what the store itself discharges. The dashed line is the store's own voltage.",
    ),
    "BudgetBars": (
        "Where the energy goes",
        "Each bar takes away what ends there, from the panel's best to what reaches the device. "
        "Up and down walk the bars, Enter goes to the value that governs one.",
    ),
    "TerritoryMap": (
        "Where it would work",
        "The verdict over two quantities, all others as they are. Full ground runs, hatched "
        "ground is marginal, empty ground falls short; the cross is this design. Arrow keys walk "
        "the map, Enter takes the place over.",
    ),
    "Histogram": (
        "How many devices",
        "How many built devices reach each value, as their parts scatter within tolerance. Bars "
        "are new devices, the line is those of the age that is chosen.",
    ),
    "PanelPlot": (
        "The panel's curve",
        "Current over voltage in the present light. Marked are the maximum power point, the point "
        "at which the charger holds the panel, and the open-circuit voltage.",
    ),
    "ChargerPlot": (
        "The charger's curve",
        "What the charger passes on over the store's voltage, with its cold start.",
    ),
    "BenchPlot": (
        "Forecast and measurement",
        "The measured voltage over the forecast one, and below it how far they are apart.",
    ),
    "YearPicture": (
        "The year",
        "Four pictures over one axis of days: the store's voltage from the lowest to the highest "
        "of each day, the light and the store hour by hour, and the energy of each month. Hatched "
        "red is off. Left and right move the day, with Shift a week, Home goes to the lowest.",
    ),
    "LineUpPlot": (
        "Traces over each other",
        "The store voltage of each design, numbered as in the table below.",
    ),
})  # fmt: skip
"""Title and text of each picture, by the name of its class."""
