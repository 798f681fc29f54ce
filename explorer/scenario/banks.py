"""Banks of capacitors and supercapacitors as a scenario describes them."""

from __future__ import annotations

from math import inf
from typing import Any, ClassVar, Literal

import numpy as np
from pydantic import model_validator

from explorer.physics import ageing
from explorer.physics import store as st
from explorer.physics.arrays import FloatArray, Number
from explorer.scenario.fields import Section, choice, plain, quantity
from explorer.scenario.hours import HOUR_S
from explorer.scenario.origin import FromPart
from explorer.scenario.store_table import Usual
from explorer.text import figure, say

_CAN = Usual("electrolytic", 4.7e-3)
_PAIR = Usual("standard_supercapacitor", 1.0)
"""Defaults are those of the usual part of each kind; its table names the source of each number."""


class _CapacitorBank(FromPart, Section):
    size_key: ClassVar[str] = "capacitance_F"
    size_unit: ClassVar[str] = "F"
    resistance_key: ClassVar[str] = "esr_ohm"
    leakage_key: ClassVar[str] = "leakage_A"
    is_lithium: ClassVar[bool] = False
    usual_full: ClassVar[float] = 0.93
    """Share of its rated voltage to which it is usually charged (common practice, no source)."""
    followers: ClassVar[tuple[str, ...]] = ("esr_ohm", "leakage_A")
    """What follows the size along a maker's range."""

    capacitance_F: float = quantity(
        _CAN.size, "Capacitance", "F", 1e-5, 1000, "Of the whole bank, as rated."
    )
    units_in_series: int = quantity(
        1, "Units in series", "", 1, 24, "Units that share the bank's voltage."
    )
    rated_V: float = quantity(
        _CAN["rated_V"], "Rated voltage per unit", "V", 0.5, 100,
        "Largest voltage that one unit may see.",
    )
    esr_ohm: float = quantity(
        _CAN.over_size("esr_ohm_F"), "Series resistance (ESR)", "Ω", 0, 1e4,
        "Of the whole bank at room temperature, new.",
    )
    leakage_A: float = quantity(
        _CAN.per_size("leakage_A_per_F"), "Leakage current after 72 h", "A", 0, 1,
        "At rated voltage, days after the first charge.",
    )
    tolerance: float = quantity(
        _CAN["tolerance"], "Capacitance tolerance", "", 0, 0.5,
        "Spread of one unit around its rating (share).",
    )
    years_in_service: float = quantity(
        0.0, "Years in service", "a", 0, 40, "Age for which the bank is judged."
    )
    rated_life_h: float = quantity(
        _CAN["rated_life_h"], "Rated life", "h", 10, 1e6,
        "Hours to end of life at rated voltage and temperature.",
    )
    rated_C: float = quantity(
        _CAN["rated_C"], "Rated temperature", "°C", 20, 175,
        "Highest working temperature of a unit.",
    )
    end_of_life_loss: float = quantity(
        _CAN["end_of_life_loss"],
        "Capacitance lost at end of life",
        "",
        0.01,
        0.8,
        "Share of capacitance whose loss counts as the end; makers use 0.2 or 0.3.",
    )
    end_of_life_esr_rise: float = quantity(
        _CAN["end_of_life_esr_rise"],
        "ESR rise at end of life",
        "",
        0,
        10,
        "Relative rise of series resistance that counts as the end; 1 means twice the new value.",
    )
    life_per_tenth_volt: float = quantity(
        _CAN["life_per_tenth_volt"],
        "Life factor per 0.1 V below rating",
        "",
        1,
        3,
        "Factor on life for every 0.1 V that a unit stays below its rated voltage; 1: no effect.",
    )
    cold_esr_factor: float = quantity(
        _CAN["cold_esr_factor"],
        "ESR in the cold",
        "",
        1,
        1000,
        "Series resistance at -20 °C over that at 20 °C.",
    )
    initial_V: float = quantity(
        0.0, "Voltage at the beginning", "V", 0, 100, "Of the bank when the trace begins."
    )

    @property
    def size(self) -> float:
        """Capacitance of the bank. [F]"""
        return self.capacitance_F

    @property
    def in_series(self) -> int:
        """Units that share the voltage."""
        return self.units_in_series

    @property
    def unit_rated_v(self) -> float:
        """Largest voltage that one unit may see. [V]"""
        return self.rated_V

    @property
    def most_charge_A(self) -> float:
        """Largest charging current: a bank takes what comes. [A]"""
        return inf

    @property
    def spread(self) -> tuple[tuple[str, float], ...]:
        """Fields that differ from part to part, with their relative spread (own judgement)."""
        return (("capacitance_F", self.tolerance), ("esr_ohm", 0.3), ("leakage_A", 0.6))

    @property
    def empty_v(self) -> float:
        """Voltage of the bank that counts as empty. [V]"""
        return 0.0

    @property
    def reach_v(self) -> float:
        """Highest voltage of the bank that the law of its capacitance knows. [V]"""
        return inf

    def highest_v(self, full_v: Number) -> FloatArray:
        """Highest voltage that the bank meets: full, or what it begins with. [V]"""
        return np.asarray(np.maximum(full_v, self.initial_V))

    def unit_voltage(self, bank_v: Number) -> st.UnitVoltage:
        """Voltage on the worst unit at a voltage of the bank."""
        return st.worst_unit_voltage(
            bank_v,
            in_series=self.units_in_series,
            tolerance=self.tolerance,
            balancing=self._balanced_by,
            leakage_a=self._counted_leakage_a,
            balancing_a=self._balancing_a,
        )

    def resized(self, size: Any) -> dict[str, Any]:
        """Fields that change with the capacitance along a maker's range, within their ranges."""
        return self.within_ranges(self._grown(size / self.capacitance_F))

    def built(self, ambient_c: float, full_v: Number) -> st.CapacitorBank:
        """The bank for the engine, at a temperature and at its age.

        Parameters
        ----------
        ambient_c : float
            Temperature. [degC]
        full_v : array_like
            Voltage at which the bank is held while it ages: the charger's full voltage, which is
            on the safe side. [V]
        """
        rated_v = self.rated_V * self.units_in_series
        several = np.asarray(self.units_in_series) > 1
        bank = st.CapacitorBank(
            capacitance_f=self.capacitance_F,
            rated_v=rated_v,
            esr_ohm=self.esr_ohm
            * plain(st.cold_resistance_factor(ambient_c, self.cold_esr_factor)),
            leakage_a=self._counted_leakage_a + plain(np.where(several, self._balancing_a, 0.0)),
            lowest_v=self.empty_v,
            **self._law,
        )
        return ageing.aged(
            bank,
            self._life,
            years=self.years_in_service,
            temperature_c=ambient_c,
            voltage_share=full_v / rated_v,
        )

    def initial_charge_c(self, built: st.Store) -> Any:
        """Charge at the beginning of the scenario. [C]"""
        return plain(built.charge_at(np.maximum(self.initial_V, built.empty_v)))

    def wear_per_year(
        self, temperature_c: FloatArray, volts: FloatArray, cycles: float
    ) -> float:
        """Wear of a year, of which 1 is the end of life, from what the bank goes through in it.

        Parameters
        ----------
        temperature_c, volts : ndarray
            Of moments spread evenly over the year, shape (n,). [degC, V]
        cycles : float
            Full cycles in the year; they do not wear a capacitor.
        """
        share = volts / (self.rated_V * self.units_in_series)
        hours = ageing.capacitor_life(
            self._life, temperature_c=temperature_c, voltage_share=share
        )
        return float(np.mean(ageing.YEAR_H / hours))

    def worn(self, built: st.Store, wear: float) -> st.Store:
        """What was built, after some wear."""
        assert isinstance(built, st.CapacitorBank)
        return ageing.worn(built, self._life, wear)

    def years_to_end_of_life(self, ambient_c: float, full_v: Number) -> FloatArray:
        """Years until a new bank counts as worn out, held at a temperature and a voltage. [a]"""
        share = full_v / (self.rated_V * self.units_in_series)
        return ageing.years_to_end_of_life(
            self._life, temperature_c=ambient_c, voltage_share=share
        )

    @property
    def _balanced_by(self) -> st.Balancing:
        return "none"

    @property
    def _balancing_a(self) -> float:
        return 0.0

    @property
    def _counted_leakage_a(self) -> Number:
        return self.leakage_A

    @property
    def _law(self) -> dict[str, float]:
        return {}

    @property
    def _life(self) -> ageing.CapacitorLife:
        return ageing.CapacitorLife(
            rated_life_h=self.rated_life_h,
            rated_c=self.rated_C,
            unit_rated_v=self.rated_V,
            life_per_tenth_volt=self.life_per_tenth_volt,
            capacitance_loss=self.end_of_life_loss,
            esr_rise=self.end_of_life_esr_rise,
        )

    def _grown(self, ratio: Any) -> dict[str, Any]:
        rising = {key: getattr(self, key) * ratio for key in self.followers if key != "esr_ohm"}
        return {"esr_ohm": self.esr_ohm / ratio, **rising}


class CapacitorStore(_CapacitorBank):
    """Electrolytic, ceramic or film capacitors: constant capacitance."""

    kind: Literal["capacitor"] = "capacitor"


class SupercapacitorStore(_CapacitorBank):
    """Supercapacitors: capacitance falls with voltage, leakage settles over days."""

    followers: ClassVar[tuple[str, ...]] = ("esr_ohm", "leakage_A", "balancing_A")

    kind: Literal["supercapacitor"] = "supercapacitor"
    capacitance_F: float = quantity(
        _PAIR.size, "Capacitance", "F", 1e-5, 1000, "Of the whole bank, as rated."
    )
    units_in_series: int = quantity(
        int(_PAIR["units_in_series"]), "Units in series", "", 1, 24,
        "Units that share the bank's voltage.",
    )
    rated_V: float = quantity(
        _PAIR["rated_V"], "Rated voltage per unit", "V", 0.5, 100,
        "Largest voltage that one unit may see.",
    )
    esr_ohm: float = quantity(
        _PAIR.over_size("esr_ohm_F"), "Series resistance (ESR)", "Ω", 0, 1e4,
        "Of the whole bank at room temperature, new.",
    )
    leakage_A: float = quantity(
        _PAIR.per_size("leakage_A_per_F"), "Leakage current after 72 h", "A", 0, 1,
        "At rated voltage, days after the first charge.",
    )
    rated_life_h: float = quantity(
        _PAIR["rated_life_h"], "Rated life", "h", 10, 1e6,
        "Hours to end of life at rated voltage and temperature.",
    )
    rated_C: float = quantity(
        _PAIR["rated_C"], "Rated temperature", "°C", 20, 175,
        "Highest working temperature of a unit.",
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
        _PAIR["capacitance_slope"],
        "Capacitance slope",
        "",
        0,
        0.6,
        "Relative rise of capacitance from 0.6 of rated voltage to 1.6 of it.",
    )
    capacitance_bend: float = quantity(
        _PAIR["capacitance_bend"],
        "Capacitance bend",
        "",
        0,
        0.6,
        "Curvature that lowers capacitance at low voltage.",
    )
    condition: Literal["settled", "first_days"] = choice(
        "settled",
        "Leakage current used",
        "Settled, or the mean of the first three days after the first charge.",
    )
    fresh_leakage_factor: float = quantity(
        _PAIR["fresh_leakage_factor"],
        "Initial leakage factor",
        "",
        1,
        100,
        "Leakage in the first hours over the settled leakage.",
    )
    settling_h: float = quantity(
        _PAIR["settling_h"],
        "Leakage decay time",
        "h",
        1,
        2000,
        "Time constant of the fall of leakage; after three of them little is left of it.",
    )
    balancing: Literal["none", "resistors", "active"] = choice(
        "active", "Balancing", "What keeps series units at equal voltage."
    )
    balancing_A: float = quantity(
        _PAIR.per_size("balancing_A_per_F"), "Balancing current", "A", 0, 1,
        "Taken by the balancing at rated voltage.",
    )
    life_per_tenth_volt: float = quantity(
        _PAIR["life_per_tenth_volt"],
        "Life factor per 0.1 V below rating",
        "",
        1,
        3,
        "Factor on life for every 0.1 V that a unit stays below its rated voltage; 1: no effect.",
    )
    cold_esr_factor: float = quantity(
        _PAIR["cold_esr_factor"],
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

    @property
    def empty_v(self) -> float:
        """Voltage of the bank that counts as empty. [V]"""
        return self.lowest_V * self.units_in_series

    @property
    def reach_v(self) -> float:
        """Highest voltage of the bank that the law of its capacitance knows. [V]"""
        share = float(st.highest_lawful_share(self.capacitance_slope, self.capacitance_bend))
        return share * self.rated_V * self.units_in_series

    @property
    def _balanced_by(self) -> st.Balancing:
        return self.balancing

    @property
    def _balancing_a(self) -> float:
        return 0.0 if self.balancing == "none" else self.balancing_A

    @property
    def _counted_leakage_a(self) -> Number:
        if self.condition == "settled":
            return self.leakage_A
        mean: Number = plain(
            st.first_days_leakage(
                self.leakage_A, self.fresh_leakage_factor, self.settling_h * HOUR_S
            )
        )
        return mean

    @property
    def _law(self) -> dict[str, float]:
        return {"slope": self.capacitance_slope, "bend": self.capacitance_bend}

    @property
    def spread(self) -> tuple[tuple[str, float], ...]:
        """Fields that differ from part to part; the shape of the capacitance as measured."""
        shape = ("capacitance_slope", "capacitance_bend")
        return (*super().spread, *((key, _PAIR.plus_minus_share(key)) for key in shape))
