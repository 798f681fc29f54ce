"""The store: a capacitor, a supercapacitor bank or a small rechargeable cell."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from explorer.scenario.fields import Section, choice, quantity
from explorer.text import figure, say

Chemistry = Literal["lithium_ion", "iron_phosphate", "titanate"]
StoreKind = Literal["capacitor", "supercapacitor", "cell"]


class _CapacitorBank(Section):
    capacitance_F: float = quantity(
        1.0, "Storage capacitance", "F", 1e-5, 1000, "Of the whole bank, as rated."
    )
    units_in_series: int = quantity(
        1, "Units in series", "", 1, 24, "Units that share the bank's voltage."
    )
    rated_V: float = quantity(
        5.5, "Rated voltage per unit", "V", 0.5, 100, "Largest voltage that one unit may see."
    )
    esr_ohm: float = quantity(
        0.1, "Series resistance (ESR)", "Ω", 0, 1e4, "Of the whole bank at room temperature, new."
    )
    leakage_A: float = quantity(
        1e-6, "Leakage, settled", "A", 0, 1, "At rated voltage, days after the first charge."
    )
    tolerance: float = quantity(
        0.2, "Capacitance tolerance", "", 0, 0.5, "Spread of one unit around its rating (share)."
    )
    years_in_service: float = quantity(
        0.0, "Years in service", "a", 0, 40, "Age for which the bank is judged."
    )
    rated_life_h: float = quantity(
        1000.0, "Rated life", "h", 10, 1e6, "Hours to end of life at rated voltage and temperature."
    )
    rated_C: float = quantity(
        65.0, "Rated temperature", "°C", 20, 175, "Highest working temperature of a unit."
    )
    end_of_life_loss: float = quantity(
        0.2,
        "Capacitance lost at end of life",
        "",
        0.01,
        0.8,
        "Share of capacitance whose loss counts as the end; makers use 0.2 or 0.3.",
    )
    end_of_life_esr_rise: float = quantity(
        1.0,
        "ESR rise at end of life",
        "",
        0,
        10,
        "Relative rise of series resistance that counts as the end; 1 means twice the new value.",
    )
    life_per_tenth_volt: float = quantity(
        1.0,
        "Life gained per 0.1 V below rating",
        "",
        1,
        3,
        "Factor on life for every 0.1 V that a unit stays below its rated voltage; 1: no effect.",
    )
    cold_esr_factor: float = quantity(
        4.0,
        "ESR in the cold",
        "",
        1,
        1000,
        "Series resistance at -20 °C over that at 20 °C.",
    )
    initial_V: float = quantity(
        0.0, "Voltage at the beginning", "V", 0, 100, "Of the bank when the trace begins."
    )


class CapacitorStore(_CapacitorBank):
    """Electrolytic, ceramic or film capacitors: constant capacitance."""

    kind: Literal["capacitor"] = "capacitor"
    capacitance_F: float = quantity(
        4.7e-3, "Storage capacitance", "F", 1e-5, 1000, "Of the whole bank, as rated."
    )
    rated_V: float = quantity(
        6.3, "Rated voltage per unit", "V", 0.5, 100, "Largest voltage that one unit may see."
    )
    rated_life_h: float = quantity(
        2000.0, "Rated life", "h", 10, 1e6, "Hours to end of life at rated voltage and temperature."
    )
    rated_C: float = quantity(
        105.0, "Rated temperature", "°C", 20, 175, "Highest working temperature of a unit."
    )


class SupercapacitorStore(_CapacitorBank):
    """Supercapacitors: capacitance falls with voltage, leakage settles over days."""

    kind: Literal["supercapacitor"] = "supercapacitor"
    units_in_series: int = quantity(
        2, "Units in series", "", 1, 24, "Units that share the bank's voltage."
    )
    rated_V: float = quantity(
        2.7, "Rated voltage per unit", "V", 0.5, 100, "Largest voltage that one unit may see."
    )
    lowest_V: float = quantity(
        0.0,
        "Lowest voltage per unit",
        "V",
        0,
        50,
        "Voltage below which one unit must not fall; above 0 for hybrid (lithium-ion) capacitors, "
        "which then count as empty there.",
    )
    capacitance_slope: float = quantity(
        0.29,
        "Capacitance slope",
        "",
        0,
        0.6,
        "Relative rise of capacitance from 0.6 of rated voltage to 1.6 of it.",
    )
    capacitance_bend: float = quantity(
        0.33, "Capacitance bend", "", 0, 0.6, "Curvature that lowers capacitance at low voltage."
    )
    condition: Literal["settled", "first_days"] = choice(
        "settled",
        "Leakage counted",
        "Settled, or the mean of the first three days after the first charge.",
    )
    fresh_leakage_factor: float = quantity(
        5.0,
        "Leakage when fresh",
        "",
        1,
        100,
        "Leakage in the first hours over the settled leakage.",
    )
    settling_h: float = quantity(
        24.0,
        "Leakage settles in",
        "h",
        1,
        2000,
        "Time constant of the fall of leakage; after three of them little is left of it.",
    )
    balancing: Literal["none", "resistors", "active"] = choice(
        "active", "Balancing", "What keeps series units at equal voltage."
    )
    balancing_A: float = quantity(
        2e-7, "Balancing current", "A", 0, 1, "Taken by the balancing at rated voltage."
    )
    life_per_tenth_volt: float = quantity(
        1.3,
        "Life gained per 0.1 V below rating",
        "",
        1,
        3,
        "Factor on life for every 0.1 V that a unit stays below its rated voltage; 1: no effect.",
    )
    cold_esr_factor: float = quantity(
        1.6,
        "ESR in the cold",
        "",
        1,
        1000,
        "Series resistance at -20 °C over that at 20 °C.",
    )

    @model_validator(mode="after")
    def _limits_in_order(self) -> SupercapacitorStore:
        if self.lowest_V >= self.rated_V:
            raise ValueError(
                say(
                    "lowest_V ({lowest} V) must lie below rated_V ({rated} V)",
                    lowest=figure(f"{self.lowest_V:g}"),
                    rated=figure(f"{self.rated_V:g}"),
                )
            )
        return self


class CellStore(Section):
    """A small rechargeable lithium cell."""

    kind: Literal["cell"] = "cell"
    chemistry: Chemistry = choice(
        "lithium_ion", "Chemistry", "Sets the open-circuit voltage and the voltage window."
    )
    capacity_mAh: float = quantity(40.0, "Capacity", "mAh", 0.1, 100_000, "Rated, of the cell.")
    cells_in_series: int = quantity(1, "Cells in series", "", 1, 8, "Cells in the store.")
    resistance_ohm: float = quantity(
        0.5, "Resistance", "Ω", 0, 1e3, "Of the whole store at room temperature, new."
    )
    self_discharge_per_month: float = quantity(
        0.02, "Self-discharge", "1/month", 0, 1, "Share of the capacity lost in a month."
    )
    charge_limit_A: float = quantity(
        0.02, "Charging current limit", "A", 1e-6, 100, "Largest current into the cell."
    )
    discharge_limit_A: float = quantity(
        0.08, "Discharge current limit", "A", 1e-6, 500, "Largest current out of the cell."
    )
    charge_above_C: float = quantity(
        0.0, "Charge above", "°C", -40, 60, "No charging at or below this temperature."
    )
    charge_below_C: float = quantity(
        45.0, "Charge below", "°C", 0, 85, "No charging above this temperature."
    )
    cool_below_C: float = quantity(
        10.0, "Cool below", "°C", -40, 60, "Below this temperature charging is slowed down."
    )
    cool_charge_share: float = quantity(
        0.2, "Charging when cool", "", 0, 1, "Share of the charging limit that is left when cool."
    )
    cold_capacity_share: float = quantity(
        0.6, "Capacity in the cold", "", 0.05, 1, "Capacity at -20 °C over that at 20 °C."
    )
    cold_resistance_factor: float = quantity(
        5.0, "Resistance in the cold", "", 1, 1000, "Resistance at -20 °C over that at 20 °C."
    )
    cycles_to_end: float = quantity(
        500.0, "Full cycles to end of life", "", 1, 1e6, "Full cycles until 80 % is left."
    )
    cycles_per_year: float = quantity(
        100.0, "Full cycles a year", "1/a", 0, 1e5, "Charge taken in a year over the capacity."
    )
    fade_per_year: float = quantity(
        0.03,
        "Calendar fade",
        "1/a",
        0,
        0.5,
        "Share of the capacity lost in a year at rest at 25 °C; more when warmer.",
    )
    years_in_service: float = quantity(
        0.0, "Years in service", "a", 0, 40, "Age for which the cell is judged."
    )
    initial_charge: float = quantity(
        0.3, "Charge at the beginning", "", 0, 1, "State of charge when the trace begins."
    )

    @model_validator(mode="after")
    def _window_in_order(self) -> CellStore:
        if self.charge_above_C >= self.charge_below_C:
            raise ValueError(
                say(
                    "charge_above_C ({low}) must lie below charge_below_C ({high})",
                    low=figure(f"{self.charge_above_C:g}"),
                    high=figure(f"{self.charge_below_C:g}"),
                )
            )
        return self


Store = Annotated[
    CapacitorStore | SupercapacitorStore | CellStore, Field(discriminator="kind")
]
