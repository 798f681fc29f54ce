"""Ageing: heat and voltage wear capacitors, cycles and time wear cells."""

import numpy as np
import pytest

from explorer.physics.ageing import (
    LONGEST_YEARS,
    YEAR_H,
    CapacitorLife,
    CellLife,
    aged,
    aged_cell,
    capacitor_life,
    capacitor_wear,
    cell_fade,
    years_to_end_of_life,
)
from explorer.physics.store import CapacitorBank, Cell

SUPERCAPACITOR = CapacitorLife(
    rated_life_h=1000.0, rated_c=65.0, unit_rated_v=2.7, life_per_tenth_volt=1.3
)
ELECTROLYTIC = CapacitorLife(rated_life_h=2000.0, rated_c=105.0, unit_rated_v=6.3)
LITHIUM = CellLife(cycles_to_end=500.0, cycles_per_year=50.0, fade_per_year=0.03)
BANK = CapacitorBank(capacitance_f=10.0, rated_v=5.4, esr_ohm=0.05, leakage_a=5e-6)


def test_a_bank_at_its_end_of_life_has_lost_a_fifth_and_doubled_its_resistance():
    years = 1000.0 / YEAR_H
    old = aged(BANK, SUPERCAPACITOR, years=years, temperature_c=65.0)
    assert float(old.capacitance_f) == pytest.approx(8.0)
    assert float(old.esr_ohm) == pytest.approx(0.1)
    assert old.leakage_a == BANK.leakage_a


def test_a_new_bank_is_as_rated():
    new = aged(BANK, SUPERCAPACITOR, years=0.0, temperature_c=65.0)
    assert float(new.capacitance_f) == 10.0
    assert float(new.esr_ohm) == 0.05


def test_another_definition_of_the_end_wears_further():
    worn = CapacitorLife(
        rated_life_h=1000.0, rated_c=65.0, unit_rated_v=2.7, capacitance_loss=0.3, esr_rise=2.0
    )
    old = aged(BANK, worn, years=1000.0 / YEAR_H, temperature_c=65.0)
    assert float(old.capacitance_f) == pytest.approx(7.0)
    assert float(old.esr_ohm) == pytest.approx(0.15)


def test_half_the_voltage_counts_no_more_than_six_tenths():
    shares = np.array([0.5, 0.6, 0.7])
    hours = capacitor_life(SUPERCAPACITOR, temperature_c=25.0, voltage_share=shares)
    assert hours[0] == hours[1] > hours[2]


def test_above_its_rating_a_unit_wears_faster():
    over = capacitor_life(SUPERCAPACITOR, temperature_c=65.0, voltage_share=2.8 / 2.7)
    assert float(over) == pytest.approx(1000.0 / 1.3)


def test_voltage_does_not_count_for_an_electrolytic():
    shares = np.array([0.5, 0.8, 1.0])
    life = capacitor_life(ELECTROLYTIC, temperature_c=105.0, voltage_share=shares)
    assert life.tolist() == [2000.0] * 3


def test_wear_beyond_the_end_leaves_a_tenth():
    old = aged(BANK, SUPERCAPACITOR, years=10.0, temperature_c=65.0)
    assert float(old.capacitance_f) == pytest.approx(1.0)
    wear = capacitor_wear(SUPERCAPACITOR, years=10.0, temperature_c=65.0)
    assert float(wear) == pytest.approx(87.66)


def test_a_cell_fades_by_cycles_and_by_the_calendar():
    lost = cell_fade(LITHIUM, years=np.array([0.0, 1.0, 2.0]), temperature_c=25.0)
    assert lost.tolist() == pytest.approx([0.0, 0.05, 0.1])
    warm = cell_fade(LITHIUM, years=1.0, temperature_c=35.0)
    assert float(warm) == pytest.approx(0.02 + 0.06)


def test_an_old_cell_holds_less_and_resists_more():
    cell = Cell(
        capacity_c=100.0,
        state_of_charge=np.array([0.0, 1.0]),
        open_circuit_v=np.array([3.0, 4.2]),
        resistance_ohm=0.5,
        self_discharge_a=1e-6,
        charge_limit_a=0.02,
        may_charge=True,
    )
    old = aged_cell(cell, LITHIUM, years=4.0, temperature_c=25.0)
    assert float(old.capacity_c) == pytest.approx(80.0)
    assert float(old.resistance_ohm) == pytest.approx(1.0)


def test_years_to_the_end():
    assert float(years_to_end_of_life(LITHIUM, temperature_c=25.0)) == pytest.approx(4.0)
    warm = years_to_end_of_life(SUPERCAPACITOR, temperature_c=55.0, voltage_share=1.0)
    assert float(warm) == pytest.approx(2000.0 / YEAR_H)
    idle = CellLife(cycles_to_end=500.0, cycles_per_year=0.0, fade_per_year=0.0)
    assert float(years_to_end_of_life(idle, temperature_c=25.0)) == LONGEST_YEARS
    assert float(years_to_end_of_life(ELECTROLYTIC, temperature_c=22.0)) == LONGEST_YEARS


def test_at_many_times_its_rating_a_part_has_no_life_but_its_wear_is_a_number():
    """27 V on 2.7 V would be 1.3^-243 of the rated life; nothing divides by that."""
    wear = capacitor_wear(SUPERCAPACITOR, years=1.0, temperature_c=25.0, voltage_share=10.0)
    assert float(wear) == pytest.approx(8766.0)
    bank = CapacitorBank(capacitance_f=1.0, rated_v=2.7, esr_ohm=0.1, leakage_a=0.0)
    dead = aged(bank, SUPERCAPACITOR, years=1.0, temperature_c=25.0, voltage_share=1e6)
    assert np.isfinite(float(dead.esr_ohm))
