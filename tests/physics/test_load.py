"""What a device draws, and what that does to the terminals."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.physics import load as ld

LINEAR = ld.LinearRegulator(output_v=2.5, ground_a=2e-6)
SWITCHING = ld.SwitchingRegulator(output_v=1.8, efficiency=0.9, quiescent_a=1e-6)
DRAWS = st.builds(
    ld.Draw,
    current_a=st.floats(0.0, 0.2),
    power_w=st.floats(0.0, 0.5),
    conductance_s=st.floats(0.0, 0.05),
)


@given(DRAWS, st.floats(0.5, 6.0), st.floats(0.0, 20.0), st.floats(0.0, 0.01))
def test_terminal_voltage_balances_the_drop_across_the_resistance(draw, store_v, ohm, charge_a):
    volts = float(ld.terminal_voltage(store_v, charge_a, draw, ohm))
    if volts == ld.COLLAPSED_V:
        # No voltage does: the most that the resistance passes is too little at every one.
        tried = np.linspace(1e-3, store_v + charge_a * ohm, 400)
        left = store_v + (charge_a - ld.drawn_current(draw, tried)) * ohm - tried
        assert np.all(left < 1e-9)
    else:
        drawn = float(ld.drawn_current(draw, volts))
        assert volts == pytest.approx(store_v + (charge_a - drawn) * ohm, rel=1e-7, abs=1e-9)


def test_most_power_that_a_resistance_passes():
    # Maximum power transfer: v² / 4R, at half the voltage
    store_v, ohm = 3.0, 2.0
    most = store_v**2 / (4.0 * ohm)
    just = float(ld.terminal_voltage(store_v, 0.0, ld.Draw(power_w=most * (1 - 1e-12)), ohm))
    assert just == pytest.approx(1.5, abs=1e-5)
    over = ld.Draw(power_w=most * (1 + 1e-9))
    assert float(ld.terminal_voltage(store_v, 0.0, over, ohm)) == ld.COLLAPSED_V


def test_current_pulse_drops_by_ohms_law():
    # 100 mA, 50 mohm: 5 mV
    draw = ld.Draw(current_a=0.1)
    assert 3.0 - float(ld.terminal_voltage(3.0, 0.0, draw, 0.05)) == pytest.approx(5e-3)
    assert float(ld.terminal_voltage(3.0, 0.1, draw, 0.05)) == pytest.approx(3.0)


def test_a_resistor_divides_with_the_resistance():
    draw = ld.Draw(conductance_s=0.1)
    assert float(ld.terminal_voltage(3.0, 0.0, draw, 5.0)) == pytest.approx(2.0)


def test_draws_add_up():
    both = ld.Draw(current_a=1e-3, power_w=2e-3) + ld.Draw(power_w=1e-3, conductance_s=1e-4)
    assert float(ld.drawn_current(both, 3.0)) == pytest.approx(1e-3 + 1e-3 + 3e-4)


def test_a_linear_regulator_passes_current_whatever_its_input():
    for device, amps in (
        (ld.Draw(current_a=4e-3), 4e-3),
        (ld.Draw(power_w=5e-3), 2e-3),
        (ld.Draw(conductance_s=1e-3), 2.5e-3),
    ):
        seen = ld.through_regulator(device, LINEAR)
        assert ld.drawn_current(seen, np.array([2.7, 5.0])) == pytest.approx([amps, amps])
    assert float(ld.drawn_current(ld.regulator_draw(LINEAR), 4.0)) == 2e-6


def test_a_switching_regulator_draws_constant_power():
    for device, watt in (
        (ld.Draw(current_a=5e-3), 9e-3),
        (ld.Draw(power_w=9e-3), 9e-3),
        (ld.Draw(conductance_s=1 / 360.0), 9e-3),
    ):
        seen = ld.through_regulator(device, SWITCHING)
        volts = np.array([1.0, 2.0, 5.0])
        assert ld.drawn_current(seen, volts) * volts == pytest.approx([watt / 0.9] * 3)
    assert float(ld.drawn_current(ld.regulator_draw(SWITCHING), 4.0)) == 1e-6


def test_without_a_regulator_a_draw_is_seen_as_it_is():
    device = ld.Draw(current_a=1e-3, power_w=2e-3, conductance_s=3e-4)
    assert ld.through_regulator(device, None) == device
    assert float(ld.drawn_current(ld.regulator_draw(None), 3.0)) == 0.0


def test_inrush_is_the_charge_of_the_bulk_capacitance():
    assert float(ld.inrush_charge(1e-4, 3.0)) == pytest.approx(3e-4)
