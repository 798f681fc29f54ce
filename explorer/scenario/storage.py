"""The store: a capacitor, a supercapacitor bank or a small rechargeable cell."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from explorer.scenario.fields import Section, choice, quantity

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
        0.2, "Capacitance tolerance", "", 0, 0.5, "Spread of one unit around its rating, as a share."
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
    initial_V: float = quantity(
        0.0, "Voltage at the beginning", "V", 0, 100, "Of the bank when the trace begins."
    )


class CapacitorStore(_CapacitorBank):
    """Electrolytic or film capacitors: constant capacitance."""

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
    capacitance_slope: float = quantity(
        0.2,
        "Capacitance slope",
        "",
        0,
        0.6,
        "Relative rise of capacitance from 0.6 of rated voltage to 1.6 of it.",
    )
    capacitance_bend: float = quantity(
        0.2, "Capacitance bend", "", 0, 0.6, "Curvature that lowers capacitance at low voltage."
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
        72.0, "Leakage settles in", "h", 1, 2000, "Time constant of the fall of leakage."
    )
    balancing: Literal["none", "resistors", "active"] = choice(
        "active", "Balancing", "What keeps series units at equal voltage."
    )
    balancing_A: float = quantity(
        2e-7, "Balancing current", "A", 0, 1, "Taken by the balancing at rated voltage."
    )


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
    cycles_to_end: float = quantity(
        500.0, "Full cycles to end of life", "", 1, 1e6, "Full cycles until 80 % is left."
    )
    fade_per_year: float = quantity(
        0.03, "Calendar fade", "1/a", 0, 0.5, "Share of the capacity lost in a year at rest."
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
                f"charge_above_C ({self.charge_above_C:g}) must lie below "
                f"charge_below_C ({self.charge_below_C:g})"
            )
        return self


Store = Annotated[
    CapacitorStore | SupercapacitorStore | CellStore, Field(discriminator="kind")
]
