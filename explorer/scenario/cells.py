"""Small rechargeable cells as a scenario describes them."""

from __future__ import annotations

from dataclasses import replace
from math import inf
from typing import Any, ClassVar, Literal

import numpy as np
from pydantic import model_validator

from explorer.physics import ageing
from explorer.physics import store as st
from explorer.physics.arrays import FloatArray, Number
from explorer.scenario.chemistry import ChemistryName, chemistry
from explorer.scenario.fields import Section, choice, plain, quantity
from explorer.scenario.origin import FromPart
from explorer.scenario.store_table import Usual
from explorer.text import figure, say

_POUCH = Usual("lithium_pouch", 40.0)
"""Defaults are those of the usual small pouch; its table names the source of each number."""
MONTH_S = 30.4375 * 86_400.0


class CellStore(FromPart, Section):
    """A small rechargeable lithium cell."""

    size_key: ClassVar[str] = "capacity_mAh"
    size_unit: ClassVar[str] = "mAh"
    resistance_key: ClassVar[str] = "resistance_ohm"
    leakage_key: ClassVar[str] = "self_discharge_per_month"
    is_lithium: ClassVar[bool] = True
    usual_full: ClassVar[float] = 1.0
    """Share of its highest voltage to which it is usually charged: that is its full voltage."""
    followers: ClassVar[tuple[str, ...]] = (
        "resistance_ohm", "charge_limit_A", "discharge_limit_A",
    )  # fmt: skip
    """What follows the size along a maker's range."""

    kind: Literal["cell"] = "cell"
    chemistry: ChemistryName = choice(
        "lithium_ion", "Chemistry", "Sets the open-circuit voltage and the voltage window."
    )
    capacity_mAh: float = quantity(
        _POUCH.size, "Cell capacity", "mAh", 0.1, 100_000, "Rated, of the cell."
    )
    cells_in_series: int = quantity(1, "Cells in series", "", 1, 8, "Cells in the store.")
    resistance_ohm: float = quantity(
        _POUCH.over_size("resistance_ohm_mAh"), "Resistance", "Ω", 0, 1e3,
        "Of the whole store at room temperature, new.",
    )
    self_discharge_per_month: float = quantity(
        _POUCH.monthly_loss, "Self-discharge", "1/month", 0, 1,
        "Share of the capacity lost in a month.",
    )
    charge_limit_A: float = quantity(
        1e-3 * _POUCH.per_size("charge_rate_per_h"), "Charging current limit", "A", 1e-6, 100,
        "Largest current into the cell.",
    )
    discharge_limit_A: float = quantity(
        1e-3 * _POUCH.per_size("discharge_rate_per_h"), "Discharge current limit", "A", 1e-6, 500,
        "Largest current out of the cell.",
    )
    charge_above_C: float = quantity(
        _POUCH["charge_above_C"], "Lowest charging temperature", "°C", -40, 60,
        "No charging at or below this temperature.",
    )
    charge_below_C: float = quantity(
        _POUCH["charge_below_C"], "Highest charging temperature", "°C", 0, 85,
        "No charging above this temperature."
    )
    cool_below_C: float = quantity(
        _POUCH["cool_below_C"], "Reduced charging below", "°C", -40, 60,
        "Below this temperature charging is slowed down.",
    )
    cool_charge_share: float = quantity(
        _POUCH["cool_charge_share"], "Share of charging current when cool", "", 0, 1,
        "Share of the charging limit that is left when cool.",
    )
    cold_capacity_share: float = quantity(
        _POUCH["cold_capacity_share"], "Capacity in the cold", "", 0.05, 1,
        "Capacity at -20 °C over that at 20 °C.",
    )
    cold_resistance_factor: float = quantity(
        _POUCH["cold_resistance_factor"], "Resistance in the cold", "", 1, 1000,
        "Resistance at -20 °C over that at 20 °C.",
    )
    cycles_to_end: float = quantity(
        _POUCH["cycles_to_end"], "Full cycles to end of life", "", 1, 1e6,
        "Full cycles until 80 % is left.",
    )
    cycles_per_year: float = quantity(
        100.0, "Full cycles a year", "1/a", 0, 1e5, "Charge taken in a year over the capacity."
    )
    fade_per_year: float = quantity(
        _POUCH["fade_per_year"],
        "Calendar ageing",
        "1/a",
        0,
        0.5,
        "Share of the capacity lost in a year at rest at 25 °C; more when warmer.",
    )
    years_in_service: float = quantity(
        0.0, "Years in service", "a", 0, 40, "Age for which the cell is judged."
    )
    initial_charge: float = quantity(
        0.3, "Initial state of charge", "", 0, 1, "State of charge when the trace begins."
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

    @property
    def size(self) -> float:
        """Rated capacity. [mAh]"""
        return self.capacity_mAh

    @property
    def in_series(self) -> int:
        """Cells that share the voltage."""
        return self.cells_in_series

    @property
    def unit_rated_v(self) -> float:
        """Largest voltage that one cell may see. [V]"""
        return chemistry(self.chemistry).maximum_v

    @property
    def most_charge_A(self) -> float:
        """Largest charging current. [A]"""
        return self.charge_limit_A

    @property
    def spread(self) -> tuple[tuple[str, float], ...]:
        """Fields that differ from part to part, with their relative spread (own judgement)."""
        return (("capacity_mAh", 0.08), ("resistance_ohm", 0.3), ("self_discharge_per_month", 0.5))

    @property
    def empty_v(self) -> float:
        """Lower end of the window of all cells together. [V]"""
        return chemistry(self.chemistry).minimum_v * self.cells_in_series

    @property
    def reach_v(self) -> float:
        """Without end: above its window a cell takes no more, whatever the charger wants. [V]"""
        return inf

    def highest_v(self, full_v: Number) -> FloatArray:
        """Highest voltage that the cells may be charged to. [V]"""
        return np.asarray(full_v, float)

    def unit_voltage(self, bank_v: Number) -> st.UnitVoltage:
        """Voltage on one cell at a voltage of the whole; cells count as balanced."""
        even = np.asarray(bank_v / np.asarray(self.cells_in_series))
        return st.UnitVoltage(charging_v=even, standing_v=even)

    def resized(self, size: Any) -> dict[str, Any]:
        """Fields that change with the capacity along a maker's range, within their ranges.

        What is lost beyond a bare cell's share is the current of a protection circuit, which is the
        same in a small and a large cell.
        """
        ratio = size / self.capacity_mAh
        bare = np.minimum(self.self_discharge_per_month, _POUCH["self_discharge_per_month"])
        return self.within_ranges({
            "self_discharge_per_month": bare + (self.self_discharge_per_month - bare) / ratio,
            "resistance_ohm": self.resistance_ohm / ratio,
            "charge_limit_A": self.charge_limit_A * ratio,
            "discharge_limit_A": self.discharge_limit_A * ratio,
        })  # fmt: skip

    def built(self, ambient_c: float, full_v: Number) -> st.Cell:
        """The cells for the engine, at a temperature and at their age.

        Parameters
        ----------
        ambient_c : float
            Temperature. [degC]
        full_v : array_like
            Not used: the fade of a cell does not depend on its voltage here. [V]
        """
        table = chemistry(self.chemistry)
        rated_c = self.capacity_mAh * 3.6
        share = plain(
            st.charge_current_share(
                ambient_c,
                above_c=self.charge_above_C,
                below_c=self.charge_below_C,
                cool_below_c=self.cool_below_C,
                cool_share=self.cool_charge_share,
            )
        )
        cold = plain(st.cold_capacity_share(ambient_c, self.cold_capacity_share))
        cell = st.Cell(
            capacity_c=rated_c * cold,
            state_of_charge=table.state_of_charge,
            open_circuit_v=table.open_circuit_v * self.cells_in_series,
            resistance_ohm=self.resistance_ohm
            * plain(st.cold_resistance_factor(ambient_c, self.cold_resistance_factor)),
            self_discharge_a=rated_c * self.self_discharge_per_month / MONTH_S,
            charge_limit_a=self.charge_limit_A * share,
            may_charge=bool(np.any(np.asarray(share) > 0.0)),
        )
        return ageing.aged_cell(
            cell, self._life, years=self.years_in_service, temperature_c=ambient_c
        )

    def initial_charge_c(self, built: st.Store) -> Any:
        """Charge at the beginning of the scenario. [C]"""
        assert isinstance(built, st.Cell)
        return plain(self.initial_charge * built.capacity_c)

    def wear_per_year(
        self, temperature_c: FloatArray, volts: FloatArray, cycles: float
    ) -> float:
        """Wear of a year, of which 1 is the end of life, from what the cell goes through in it.

        Parameters
        ----------
        temperature_c, volts : ndarray
            Of moments spread evenly over the year, shape (n,); the volts do not count. [degC, V]
        cycles : float
            Full cycles in the year.
        """
        life = replace(self._life, cycles_per_year=cycles)
        lost = ageing.cell_fade(life, years=1.0, temperature_c=temperature_c)
        return float(np.mean(lost)) / float(np.asarray(life.capacity_loss))

    def worn(self, built: st.Store, wear: float) -> st.Store:
        """What was built, after some wear."""
        assert isinstance(built, st.Cell)
        return ageing.worn_cell(built, self._life, wear)

    def years_to_end_of_life(self, ambient_c: float, full_v: Number) -> FloatArray:
        """Years until a new cell counts as worn out; its voltage does not count. [a]"""
        return ageing.years_to_end_of_life(self._life, temperature_c=ambient_c)

    @property
    def _life(self) -> ageing.CellLife:
        return ageing.CellLife(
            cycles_to_end=self.cycles_to_end,
            cycles_per_year=self.cycles_per_year,
            fade_per_year=self.fade_per_year,
        )
