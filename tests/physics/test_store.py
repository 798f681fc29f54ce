"""Stores: charge and voltage, leakage over the first days, series units, cold."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.physics.store import (
    CapacitorBank,
    Cell,
    bank_charge,
    bank_leakage,
    charge_current_share,
    cold_capacity_share,
    cold_resistance_factor,
    first_days_leakage,
    largest_share,
    worst_unit_voltage,
)

DAY_S = 86_400.0


def capacitance(bank, volts, step=1e-4):
    """Slope of the charge, over the rated capacitance."""
    rise = bank_charge(bank, volts + step) - bank_charge(bank, volts - step)
    return float(rise / (2.0 * step) / bank.capacitance_f)


def bank(**changed):
    values = {"capacitance_f": 10.0, "rated_v": 5.4, "esr_ohm": 0.05, "leakage_a": 5e-6}
    return CapacitorBank(**(values | {"slope": 0.3, "bend": 0.3} | changed))


def small_cell(**changed):
    values = {
        "capacity_c": 144.0,
        "state_of_charge": np.array([0.0, 0.5, 1.0]),
        "open_circuit_v": np.array([3.0, 3.7, 4.2]),
        "resistance_ohm": 0.5,
        "self_discharge_a": 1e-6,
        "charge_limit_a": 0.02,
        "may_charge": True,
    }
    return Cell(**(values | changed))


@given(st.floats(0.0, 0.6), st.floats(0.0, 0.6))
def test_rated_capacitance_is_what_the_standard_window_measures(slope, bend):
    b = bank(slope=slope, bend=bend)
    charge = bank_charge(b, 0.8 * 5.4) - bank_charge(b, 0.4 * 5.4)
    assert charge / (0.4 * 5.4) == pytest.approx(10.0, rel=1e-12)


def test_a_supercapacitor_holds_more_near_the_top_and_less_when_low():
    b = bank()
    assert 1.02 < capacitance(b, 0.8 * 5.4) < 1.07
    assert 0.82 < capacitance(b, 0.2 * 5.4) < 0.90


def test_many_banks_are_computed_at_once():
    sizes = np.array([[1.0], [2.0]])
    charge = bank_charge(bank(capacitance_f=sizes), np.array([1.0, 2.0, 3.0]))
    assert charge.shape == (2, 3)
    assert charge[1] == pytest.approx(2.0 * charge[0])


def test_leakage_is_proportional_to_voltage():
    assert float(bank_leakage(bank(), 5.4)) == pytest.approx(5e-6)
    assert float(bank_leakage(bank(), 2.7)) == pytest.approx(2.5e-6)


def test_a_hybrid_bank_counts_as_empty_at_its_lower_limit():
    b = bank(slope=0.0, bend=0.0, lowest_v=2.5)
    curve = b.curve(top_v=4.0, nodes=50)
    assert curve.open_v[0] == 2.5
    assert curve.charge_c[0] == 0.0
    assert curve.charge_c[-1] == pytest.approx(10.0 * 1.5)


def test_a_mark_becomes_a_node_and_a_double_mark_two():
    curve = bank().curve(top_v=5.0, marks_v=[1.8, 1.8, 3.333], nodes=40)
    assert np.count_nonzero(curve.open_v == 1.8) == 2
    assert np.count_nonzero(curve.open_v == 3.333) == 1
    assert (np.diff(curve.charge_c) >= 0).all()


def test_a_cell_follows_its_table():
    cell = small_cell()
    curve = cell.curve(top_v=9.0, marks_v=[3.5], nodes=20)
    assert curve.open_v[[0, -1]].tolist() == [3.0, 4.2]
    assert 3.5 in curve.open_v
    assert float(np.interp(72.0, curve.charge_c, curve.open_v)) == pytest.approx(3.7)
    assert curve.charge_limit_a == 0.02
    assert small_cell(may_charge=False).curve(top_v=9.0).charge_limit_a == 0.0


# -- the first days -------------------------------------------------------------------------------


def test_the_mean_of_the_first_days_costs_the_same_charge():
    t = np.linspace(0.0, 3 * DAY_S, 20001)
    lost = 1e-6 * (1.0 + 4.0 * np.exp(-t / DAY_S))
    mean = float(np.mean(0.5 * (lost[1:] + lost[:-1])))
    assert float(first_days_leakage(1e-6, 5.0, DAY_S)) == pytest.approx(mean, rel=1e-6)
    assert float(first_days_leakage(1e-6, 1.0, DAY_S)) == pytest.approx(1e-6)


# -- series units ---------------------------------------------------------------------------------


def worst(balancing, **changed):
    values = {
        "bank_v": 5.0,
        "in_series": 2,
        "tolerance": 0.2,
        "balancing": balancing,
        "leakage_a": 1e-6,
        "balancing_a": 1e-5,
    }
    return worst_unit_voltage(**(values | changed))


def test_equal_units_share_equally():
    assert float(worst("none", tolerance=0.0, leakage_spread=0.0).worst_v) == 2.5
    assert float(worst("active").worst_v) == 2.5
    assert float(worst("none", in_series=1, bank_v=2.4).worst_v) == 2.4


def test_active_balancing_saves_what_unbalanced_units_would_lose():
    assert float(worst("active").worst_v) < 2.7 < float(worst("none").worst_v)


def test_resistors_even_out_the_standing_bank_but_not_a_quick_charge():
    none, resistors = worst("none"), worst("resistors")
    assert float(none.standing_v) == pytest.approx(5.0 * 0.75)
    assert float(resistors.standing_v) < 2.7
    assert float(resistors.charging_v) == pytest.approx(3.0)


def test_any_charge_leaves_the_worst_unit_between_quick_charge_and_long_standing():
    """Two units stepped through charges of minutes to years: the smaller, least leaky one."""
    unit_f, leak_s = np.array([0.8, 1.2]), np.array([0.5e-6, 1.5e-6]) / 2.7
    bounds = worst("none", balancing_a=0.0)
    time_s, steps = np.array([[600.0], [2e6], [1e8]]), 20_000
    volts, dt, per_f = np.zeros((3, 2)), time_s / steps, (1.0 / unit_f).sum()
    for _ in range(steps):
        # the current that raises the sum of both by 5 V / time_s
        need = (5.0 / time_s + (leak_s * volts / unit_f).sum(axis=1, keepdims=True)) / per_f
        volts += dt * (need - leak_s * volts) / unit_f
    ends = volts.max(axis=1).tolist()
    assert ends == sorted(ends)
    assert ends[0] == pytest.approx(float(bounds.charging_v), abs=1e-3)
    assert ends[-1] == pytest.approx(float(bounds.standing_v), abs=0.1)
    assert ends[-1] < float(bounds.worst_v)


def test_a_bank_without_any_leakage_keeps_the_division_by_capacitance():
    still = worst("none", leakage_a=0.0)
    assert float(still.charging_v) == pytest.approx(3.0)
    assert float(still.standing_v) == pytest.approx(3.0)


@given(st.integers(2, 8), st.floats(0.0, 0.5))
def test_the_worst_unit_takes_more_than_its_even_share(units, spread):
    share = float(largest_share(units, spread))
    assert 1.0 / units - 1e-12 <= share < 1.0


# -- temperature ----------------------------------------------------------------------------------


def test_resistance_rises_in_the_cold_and_is_nominal_when_warm():
    factor = cold_resistance_factor(np.array([-40.0, -20.0, 0.0, 20.0, 60.0]), 4.0)
    assert factor.tolist() == pytest.approx([8.0, 4.0, 2.0, 1.0, 1.0])


def test_a_cold_cell_holds_less():
    share = cold_capacity_share(np.array([-60.0, -20.0, 0.0, 20.0, 40.0]), 0.5)
    assert share.tolist() == pytest.approx([0.05, 0.5, 0.75, 1.0, 1.0], abs=0.05)
    assert (np.diff(share) >= 0).all()


@pytest.mark.parametrize(
    ("temperature", "share"),
    # No charge below 0 °C, a fifth from 0 to 10 °C, all up to 45 °C: JEITA bands as in charger
    # data sheets (20 % is their default)
    [(-1.0, 0.0), (0.0, 0.0), (0.5, 0.2), (9.9, 0.2), (10.0, 1.0), (45.0, 1.0), (46.0, 0.0)],
)
def test_the_temperature_decides_how_fast_a_cell_may_charge(temperature, share):
    bands = {"above_c": 0.0, "below_c": 45.0, "cool_below_c": 10.0, "cool_share": 0.2}
    assert float(charge_current_share(temperature, **bands)) == share


def test_the_nodes_of_a_cell_are_close_in_charge_and_in_voltage():
    """Iron phosphate is flat for nine tenths of its charge and steep at both ends."""
    share = np.array([0.0, 0.02, 0.95, 1.0])
    flat = small_cell(state_of_charge=share, open_circuit_v=np.array([2.0, 3.2, 3.35, 3.6]))
    curve = flat.curve(top_v=9.0)
    assert np.diff(curve.open_v).max() < 1.01 * 1.6 / 199
    assert np.diff(curve.charge_c).max() < 1.01 * 144.0 / 199
    assert np.diff(curve.charge_c).min() > 1e-10 * 144.0


@pytest.mark.parametrize("store", [bank(), small_cell()])
def test_charge_and_leakage_at_a_voltage_are_those_of_the_curve(store):
    curve = store.curve(top_v=4.2, nodes=100)
    for i in (10, 50, 90):
        volts, charge = float(curve.open_v[i]), float(curve.charge_c[i])
        assert float(store.charge_at(volts)) == pytest.approx(charge, rel=1e-6)
        assert float(store.leak_a(charge, volts)) == pytest.approx(float(curve.leak_a[i]))
    assert curve.esr_ohm == store.series_ohm
    assert curve.charge_limit_a == store.most_charge_a


def test_many_strings_of_cells_are_read_row_by_row():
    """One cell, and two of them in series: twice the voltage at the same state of charge."""
    one = small_cell()
    table = np.stack([one.open_circuit_v, 2.0 * one.open_circuit_v])
    many = small_cell(open_circuit_v=table)
    assert many.empty_v.tolist() == [[3.0], [6.0]]
    assert many.share_at(np.array([[3.7], [7.4]])).tolist() == [[0.5], [0.5]]
    assert many.voltage_at(np.array([[0.0, 0.5, 1.0]])) == pytest.approx(table)
    assert many.charge_at(np.array([[4.2], [6.0]])).tolist() == [[144.0], [0.0]]
