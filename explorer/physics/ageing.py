"""Ageing of stores: how long until a part counts as worn out, and what it is worth before that.

A capacitor bank wears by temperature and voltage, a cell by cycles and by the calendar. Wear runs
from 0 (new) to 1 (end of life by the maker's definition) in proportion to time, which is a
simplification (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from explorer.physics.arrays import FloatArray, Number
from explorer.physics.store import CapacitorBank, Cell

YEAR_H = 8766.0
LIFE_HALVES_PER_K = 10.0
"""Life doubles per 10 K less (capacitor makers' rule)."""
LOWEST_COUNTED_SHARE = 0.6
"""Below this share of rated voltage no more life is counted (own judgement, no source)."""
LONGEST_YEARS = 25.0
"""No rule of thumb is trusted further than this: seals and contacts go first (own judgement)."""
SHORTEST_H = 1.0
"""Nor further than this down: at many times its rating a part does not age, it bursts."""
LEAST_LEFT = 0.1
"""Capacitance or capacity that is left whatever the age."""
REFERENCE_C = 25.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CapacitorLife:
    """What a maker promises of a capacitor, and what counts as its end."""

    rated_life_h: Number
    """At rated voltage and rated temperature. [h]"""
    rated_c: Number
    unit_rated_v: Number
    life_per_tenth_volt: Number = 1.0
    """Factor on life for every 0.1 V that a unit stays below its rating: about 1.3 for
    supercapacitors (one maker's note), 1 where voltage does not count."""
    capacitance_loss: Number = 0.2
    """Share of capacitance lost at end of life: 0.2 (two makers' notes), 0.3 also in use."""
    esr_rise: Number = 1.0
    """Relative rise of series resistance at end of life; +100 % (makers' notes)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CellLife:
    """Cycle and calendar life of a cell."""

    cycles_to_end: Number
    """Full cycles until ``capacity_loss`` is lost."""
    cycles_per_year: Number
    """Equivalent full cycles a year."""
    fade_per_year: Number
    """Share of capacity lost in a year at rest at 25 °C."""
    capacity_loss: Number = 0.2
    """Share lost that counts as the end."""
    resistance_rise: Number = 1.0
    """Relative rise of resistance at that point (common practice, no source)."""


def capacitor_life(
    life: CapacitorLife, *, temperature_c: Number, voltage_share: Number = 1.0
) -> FloatArray:
    """Hours to end of life at a temperature and a share of rated voltage. [h]

    ``L = L_rated 2^((T_rated - T)/10) f^((1 - share) V_rated / 0.1 V)``: the ten-degree rule and
    the voltage rule of capacitor makers. Shares below 0.6 count as 0.6; above the rating life
    shortens by the same rule.

    Examples
    --------
    >>> cell = CapacitorLife(rated_life_h=1000.0, rated_c=65.0, unit_rated_v=2.7)
    >>> float(capacitor_life(cell, temperature_c=25.0))
    16000.0
    """
    cooler = np.asarray(life.rated_c, float) - temperature_c
    share = np.maximum(np.asarray(voltage_share, float), LOWEST_COUNTED_SHARE)
    below_v = (1.0 - share) * life.unit_rated_v
    gained = np.asarray(life.life_per_tenth_volt, float) ** (below_v / 0.1)
    hours = life.rated_life_h * 2.0 ** (cooler / LIFE_HALVES_PER_K) * gained
    return np.asarray(np.maximum(hours, SHORTEST_H))


def capacitor_wear(
    life: CapacitorLife,
    *,
    years: Number,
    temperature_c: Number,
    voltage_share: Number = 1.0,
) -> FloatArray:
    """Time in service over time to end of life."""
    hours = capacitor_life(life, temperature_c=temperature_c, voltage_share=voltage_share)
    return np.asarray(np.asarray(years, float) * YEAR_H / hours)


def aged(
    bank: CapacitorBank,
    life: CapacitorLife,
    *,
    years: Number,
    temperature_c: Number,
    voltage_share: Number = 1.0,
) -> CapacitorBank:
    """A bank after years in service: less capacitance, more series resistance.

    Parameters
    ----------
    bank : CapacitorBank
        When new.
    life : CapacitorLife
        The maker's promise.
    years : array_like
        Time in service. [a]
    temperature_c, voltage_share : array_like
        Mean temperature [degC] and voltage over the rating in that time.
    """
    wear = capacitor_wear(
        life, years=years, temperature_c=temperature_c, voltage_share=voltage_share
    )
    return worn(bank, life, wear)


def worn(bank: CapacitorBank, life: CapacitorLife, wear: Number) -> CapacitorBank:
    """A bank after some wear, of which 1 is its end of life."""
    left = np.maximum(1.0 - life.capacitance_loss * np.asarray(wear, float), LEAST_LEFT)
    return replace(
        bank,
        capacitance_f=np.asarray(bank.capacitance_f * left),
        esr_ohm=np.asarray(bank.esr_ohm * (1.0 + life.esr_rise * wear)),
    )


def cell_fade(life: CellLife, *, years: Number, temperature_c: Number) -> FloatArray:
    """Share of a cell's capacity that is lost.

    Cycle fade and calendar fade add; the calendar part doubles per 10 K above 25 °C and halves
    per 10 K below (common practice, no source).
    """
    return np.asarray(np.asarray(years, float) * _fade_rate(life, temperature_c))


def _fade_rate(life: CellLife, temperature_c: Number) -> FloatArray:
    cycled = life.capacity_loss * np.asarray(life.cycles_per_year, float) / life.cycles_to_end
    warmer = (np.asarray(temperature_c, float) - REFERENCE_C) / LIFE_HALVES_PER_K
    return np.asarray(cycled + life.fade_per_year * 2.0**warmer)


def aged_cell(cell: Cell, life: CellLife, *, years: Number, temperature_c: Number) -> Cell:
    """A cell after years in service: less capacity, more resistance."""
    lost = cell_fade(life, years=years, temperature_c=temperature_c)
    return worn_cell(cell, life, lost / np.asarray(life.capacity_loss, float))


def worn_cell(cell: Cell, life: CellLife, wear: Number) -> Cell:
    """A cell after some wear, of which 1 is its end of life."""
    lost = np.asarray(life.capacity_loss * np.asarray(wear, float))
    return replace(
        cell,
        capacity_c=np.asarray(cell.capacity_c * np.maximum(1.0 - lost, LEAST_LEFT)),
        resistance_ohm=np.asarray(cell.resistance_ohm * (1.0 + life.resistance_rise * wear)),
    )


def years_to_end_of_life(
    life: CapacitorLife | CellLife,
    *,
    temperature_c: Number,
    voltage_share: Number = 1.0,
) -> FloatArray:
    """Years until a store counts as worn out, at most `LONGEST_YEARS`. [a]

    The voltage share counts for capacitors only.
    """
    if isinstance(life, CellLife):
        rate = np.maximum(_fade_rate(life, temperature_c), 1e-12)
        years = np.asarray(life.capacity_loss, float) / rate
    else:
        years = (
            capacitor_life(life, temperature_c=temperature_c, voltage_share=voltage_share) / YEAR_H
        )
    return np.asarray(np.minimum(years, LONGEST_YEARS))
