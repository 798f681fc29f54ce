"""A panel's curve: what it must obey whatever its parameters."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.physics import panel as pv

PANELS = st.builds(
    pv.Panel,
    saturation_a=st.floats(-14.0, -7.0).map(lambda e: 10.0**e),
    slope_v=st.floats(0.025, 0.8),
    series_ohm=st.floats(0.0, 2000.0),
    shunt_s=st.floats(-9.0, -5.0).map(lambda e: 10.0**e),
    photo_shunt_per_v=st.sampled_from([0.0, 0.01, 0.05]),
)
LIGHT_A = st.floats(-6.5, -3.0).map(lambda e: 10.0**e)
CELL = pv.Panel(
    saturation_a=2e-14, slope_v=0.36, series_ohm=900.0, shunt_s=1e-7, photo_shunt_per_v=0.03
)


@given(PANELS, LIGHT_A)
def test_current_falls_from_short_circuit_to_open_circuit(panel, light_a):
    open_v = float(pv.open_circuit_voltage(panel, light_a))
    volts = np.linspace(0.0, open_v, 60)
    amps = pv.current_at_voltage(panel, light_a, volts)
    assert np.all(np.diff(amps) < 0.0)
    assert 0.0 < amps[0] <= light_a
    assert amps[-1] == pytest.approx(0.0, abs=1e-9 * light_a + 1e-16)


@given(PANELS, LIGHT_A, st.floats(0.0, 1.0))
def test_a_point_read_by_voltage_lies_on_the_curve_drawn_by_diode_voltage(panel, light_a, share):
    u = share * pv.open_circuit_voltage(panel, light_a)
    point = pv.curve(panel, light_a, u)
    back = pv.current_at_voltage(panel, light_a, point.voltage_v)
    assert float(back) == pytest.approx(float(point.current_a), rel=1e-9, abs=1e-9 * light_a)
    again = pv.diode_voltage_at_current(panel, light_a, point.current_a)
    assert float(again) == pytest.approx(float(u), abs=1e-7)


@given(PANELS, LIGHT_A)
def test_no_point_of_the_curve_beats_the_maximum(panel, light_a):
    best = pv.maximum_power(panel, light_a)
    assert float(best.power_w) > 0.0
    assert np.all(pv.current_over(panel, light_a, 400).power_w <= best.power_w * (1.0 + 1e-12))


@given(PANELS, LIGHT_A, st.integers(1, 6), st.integers(1, 6))
def test_an_array_is_its_panels_added_up(panel, light_a, in_series, in_parallel):
    array = pv.array_of(panel, in_series=in_series, in_parallel=in_parallel)
    one = pv.maximum_power(panel, light_a)
    all_of_them = pv.maximum_power(array, light_a * in_parallel)
    assert float(all_of_them.power_w) == pytest.approx(
        float(one.power_w) * in_series * in_parallel, rel=1e-9
    )
    assert float(pv.open_circuit_voltage(array, light_a * in_parallel)) == pytest.approx(
        float(pv.open_circuit_voltage(panel, light_a)) * in_series, rel=1e-9
    )


def test_power_grows_faster_than_light_with_a_shunt_and_less_than_its_square():
    light = np.array([2e-5, 4e-5])
    low, high = pv.maximum_power(CELL, light).power_w
    assert 2.0 < high / low < 4.0


def test_a_dark_panel_gives_nothing_and_takes_current_backwards():
    assert float(pv.open_circuit_voltage(CELL, 0.0)) == 0.0
    assert float(pv.maximum_power(CELL, 0.0).power_w) == 0.0
    backwards = pv.current_at_voltage(CELL, 0.0, np.array([1.0, 3.0]))
    assert np.all(backwards < 0.0)
    assert backwards[0] == pytest.approx(-1e-7, rel=2e-3)  # 1 V over 10 Mohm


def test_many_light_levels_are_solved_at_once():
    levels = np.array([0.0, 1e-6, 1e-4])
    together = pv.maximum_power(CELL, levels).power_w
    alone = [float(pv.maximum_power(CELL, level).power_w) for level in levels]
    assert together == pytest.approx(alone, rel=1e-12)
