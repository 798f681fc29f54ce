"""Panels and charger: what turns the light into a charging current."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from explorer.physics.panel_fit import (
    MOST_LINES,
    SheetValues,
    line_contradiction,
    numbered,
    sheet_contradiction,
)
from explorer.quantity import show
from explorer.scenario.fields import Section, choice, quantity
from explorer.scenario.light import Source
from explorer.scenario.origin import FromPart
from explorer.text import say

Technology = Literal[
    "amorphous", "crystalline", "gallium_arsenide", "dye_sensitised", "organic", "perovskite"
]


MOST_MEASURED = 64
"""Points of a measured curve that a scenario keeps (own judgement: its file stays readable)."""


class SheetPoint(Section):
    """One line of a panel's data sheet: a light level and what the panel gives there.

    What a sheet leaves out may be left empty; the cell technology then fills it.
    """

    illuminance_lx: float = quantity(
        200.0, "Light", "lx", 1, 200_000, "Illuminance of this data-sheet line."
    )
    source: Source = choice("fluorescent_4000", "Source", "Lamp that the data sheet used.")
    short_circuit_A: float = quantity(
        2e-5, "Short-circuit current", "A", 1e-9, 20, "Current at zero volts."
    )
    open_circuit_V: float | None = quantity(
        None, "Open-circuit voltage", "V", 0.05, 200,
        "Voltage at zero current. Empty: as the technology lets expect.",
    )
    max_power_A: float | None = quantity(
        None, "Current at maximum power", "A", 1e-9, 20,
        "Current where V·I is largest. Empty, with its voltage: as the technology lets expect.",
    )
    max_power_V: float | None = quantity(
        None, "Voltage at maximum power", "V", 0.02, 200,
        "Voltage where V·I is largest. Empty, with its current: as the technology lets expect.",
    )
    measured_V: tuple[float, ...] = choice(
        (), "Measured voltages", "Of the measured curve that this line was taken from, rising."
    )
    measured_A: tuple[float, ...] = choice(
        (), "Measured currents", "At those voltages; the fit is held against them."
    )

    def values(self, expected_a: float = 0.0) -> SheetValues:
        """The line as plain numbers, with the photocurrent that the technology lets expect."""
        return SheetValues(
            illuminance_lx=self.illuminance_lx,
            source=self.source,
            short_circuit_a=self.short_circuit_A,
            open_circuit_v=self.open_circuit_V,
            max_power_a=self.max_power_A,
            max_power_v=self.max_power_V,
            expected_a=expected_a,
            curve_v=self.measured_V,
            curve_a=self.measured_A,
        )

    @model_validator(mode="after")
    def _is_a_panel(self) -> SheetPoint:
        if fault := line_contradiction(self.values()):
            raise ValueError(fault.text)
        if len(self.measured_V) != len(self.measured_A) or len(self.measured_V) > MOST_MEASURED:
            raise ValueError(
                say(
                    "measured_V and measured_A hold {volts} and {amps} values; they must be as "
                    "many, and at most {most}",
                    volts=len(self.measured_V), amps=len(self.measured_A), most=MOST_MEASURED,
                )
            )
        return self


class Panels(FromPart, Section):
    """The panel array: one kind of panel, in parallel and in series."""

    count: int = quantity(1, "Panels", "", 1, 64, "Panels in parallel.")
    in_series: int = quantity(1, "Panels in series", "", 1, 12, "Panels in one string.")
    technology: Technology = choice(
        "amorphous", "Cell technology", "Decides the response to each light source."
    )
    active_area_cm2: float = quantity(
        12.0, "Active area per panel", "cm²", 0.01, 20_000,
        "Light-sensitive area of one whole panel."
    )
    cells_in_series: int = quantity(
        8, "Cells in series", "", 1, 144, "Cells in one panel; they share its area equally."
    )
    data_sheet: tuple[SheetPoint, ...] = choice(
        (), "Data-sheet points", "Up to eight; when given they set the I-V curve."
    )

    @model_validator(mode="after")
    def _sheet_agrees_with_itself(self) -> Panels:
        if len(self.data_sheet) > MOST_LINES:
            raise ValueError(
                say(
                    "data_sheet takes 1 to {most} points, found {n}",
                    most=MOST_LINES, n=len(self.data_sheet),
                )
            )  # fmt: skip
        points = [point.values() for point in self.data_sheet]
        if points and (fault := sheet_contradiction(points)):
            raise ValueError(say("data_sheet, {fault}", fault=numbered(fault)))
        return self


class DirectCharger(FromPart, Section):
    """Panel through a blocking diode straight into the store."""

    kind: Literal["direct"] = "direct"
    diode_saturation_A: float = quantity(
        7.2e-8,
        "Diode saturation current",
        "A",
        1e-15,
        1e-3,
        "Of the blocking diode; it also leaks this much back at night.",
    )
    diode_ideality: float = quantity(
        1.18, "Diode ideality", "", 0.5, 4,
        "Of the blocking diode; 1.05 to 1.3 for a Schottky diode."
    )
    full_V: float = quantity(
        5.0, "Full voltage", "V", 0.3, 100, "Store voltage at which charging stops."
    )
    full_hysteresis_V: float = quantity(
        0.05, "Recharge hysteresis", "V", 0.001, 5, "Charging resumes this far below full."
    )
    quiescent_A: float = quantity(
        2e-7, "Quiescent current", "A", 0, 1, "Drawn from the store at all times by the charger."
    )


MOST_ROWS, MOST_VOLTAGES = 12, 6


class EfficiencyPoint(Section):
    """One row of a converter's efficiency table."""

    input_W: float = quantity(
        1e-4, "Input power", "W", 1e-9, 1000, "Power that the panel gives in this row."
    )
    efficiency: float = quantity(
        0.8, "Efficiency", "", 0.001, 1, "Share of it that reaches the store."
    )
    store_V: float | None = quantity(
        None, "At store voltage", "V", 0.05, 100,
        "Where the sheet tells voltages apart; then in every row.",
    )


class ConverterCharger(FromPart, Section):
    """Switching converter that holds the panel at its working voltage.

    Defaults keep 60 % of 10 µW, 78 % of 100 µW and 80 % of 1 mW. Small harvesting converters keep
    50 to 75, 70 to 88 and 75 to 92 % (from memory; no open curve of efficiency against input
    power was found), the less the lower the panel's voltage. Least powers and voltages are the
    cautious ends of what their data sheets say: 5 µW to run, 3 to 15 µW and 0.25 to 0.6 V to start,
    0.33 to 0.49 µA drawn.
    """

    kind: Literal["converter"] = "converter"
    tracking: Literal["fraction", "maximum_power"] = choice(
        "fraction", "MPPT method", "A fixed fraction of open-circuit voltage, or maximum power."
    )
    voc_fraction: float = quantity(
        0.8, "Fraction of open-circuit voltage", "", 0.3, 0.98, "Panel voltage over its V_oc."
    )
    efficiency: float = quantity(
        0.8, "Efficiency", "", 0.05, 1.0, "Share of the panel power left after proportional loss."
    )
    fixed_loss_W: float = quantity(
        2e-6, "Fixed loss", "W", 0, 10, "Power lost whenever the converter runs."
    )
    loss_resistance_ohm: float = quantity(
        0.5, "Loss resistance", "Ω", 0, 1e4, "Resistance in the output path of the converter."
    )
    output_limit_A: float = quantity(
        0.1, "Output limit", "A", 1e-6, 100,
        "Largest charging current into the store; what the load may draw is another limit."
    )
    minimum_panel_V: float = quantity(
        0.1, "Minimum panel voltage", "V", 0, 50, "Below this working voltage it stops."
    )
    minimum_panel_W: float = quantity(
        5e-6, "Minimum panel power", "W", 0, 10, "Below this panel power it stops."
    )
    cold_start_below_V: float = quantity(
        1.8, "Cold start below", "V", 0, 20, "Below this store voltage only the cold start works."
    )
    cold_start_efficiency: float = quantity(
        0.05, "Cold-start efficiency", "", 0.001, 1, "Efficiency while the store is that low."
    )
    cold_start_panel_V: float = quantity(
        0.6, "Cold-start panel voltage", "V", 0, 20, "Open-circuit voltage that a cold start needs."
    )
    cold_start_panel_W: float = quantity(
        15e-6, "Cold-start panel power", "W", 0, 10, "Panel power that a cold start needs."
    )
    full_V: float = quantity(
        5.0, "Full voltage", "V", 0.3, 100, "Store voltage at which charging stops."
    )
    full_hysteresis_V: float = quantity(
        0.05, "Recharge hysteresis", "V", 0.001, 5, "Charging resumes this far below full."
    )
    quiescent_A: float = quantity(
        5e-7, "Quiescent current", "A", 0, 1, "Drawn from the store at all times by the charger."
    )
    efficiency_table: tuple[EfficiencyPoint, ...] = choice(
        (), "Efficiency by input power",
        "Rows of the sheet; they stand for efficiency, fixed loss and loss resistance.",
    )
    table_scale: float = quantity(
        1.0, "Table times", "", 0.5, 1.2, "Factor on every efficiency of the table, for tolerances."
    )

    @property
    def efficiency_key(self) -> Literal["efficiency", "table_scale"]:
        """The field that scales what the converter passes on."""
        return "table_scale" if self.efficiency_table else "efficiency"

    @model_validator(mode="after")
    def _table_can_be_read(self) -> ConverterCharger:
        if fault := table_fault(self.efficiency_table):
            raise ValueError(say("efficiency_table, {fault}", fault=fault))
        return self


Charger = Annotated[DirectCharger | ConverterCharger, Field(discriminator="kind")]


def table_fault(rows: Sequence[EfficiencyPoint]) -> str:
    """What keeps rows from being an efficiency table, as the end of a sentence; empty if nothing.

    More power into a converter never brings less out of it.
    """
    volts = {row.store_V for row in rows}
    if len(volts) > 1 and None in volts:
        return say("store_V must stand in every row or in none")
    if len(volts) > MOST_VOLTAGES:
        return say("at most {most} store voltages are taken, found {n}", most=MOST_VOLTAGES,
                   n=len(volts))  # fmt: skip
    for v in volts:
        own = sorted((row for row in rows if row.store_V == v), key=lambda row: row.input_W)
        if len(own) > MOST_ROWS:
            return say("at most {most} rows are taken for one store voltage, found {n}",
                       most=MOST_ROWS, n=len(own))  # fmt: skip
        for before, after in pairwise(own):
            if before.input_W == after.input_W:
                return say("{power} stands in two rows", power=show(after.input_W, "W", 6))
            if before.input_W * before.efficiency > after.input_W * after.efficiency:
                return say(
                    "{more} into the converter bring less out of it than {less}",
                    more=show(after.input_W, "W", 6), less=show(before.input_W, "W", 6),
                )
    return ""
