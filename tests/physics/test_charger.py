"""What reaches the store: a converter's power and a diode's current."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.physics import charger as ch
from explorer.physics import panel as pv
from tests.engine.systems import AMORPHOUS, CRYSTALLINE, SCHOTTKY, converter

LIGHT_A = 3e-4
PANELS = st.sampled_from([AMORPHOUS, CRYSTALLINE])
AMPS = st.floats(-6.0, -3.0).map(lambda e: 10.0**e)


@given(st.floats(0.0, 1.0), st.floats(0.0, 6.0), st.floats(0.0, 100.0))
def test_power_is_shared_between_the_store_and_the_path(watt, volt, ohm):
    amps = float(ch.power_into(watt, volt, ohm, 1e9))
    if volt + ohm * amps > 1e-6:
        assert amps * (volt + amps * ohm) == pytest.approx(watt, rel=1e-9, abs=1e-15)


def test_power_into_an_empty_store_is_held_by_the_limit():
    assert float(ch.power_into(1e-3, 0.0, 0.0, 0.05)) == 0.05
    assert float(ch.power_into(0.0, 0.0, 0.0, 0.05)) == 0.0


@pytest.mark.parametrize("share", [0.6, 0.75, 0.9])
def test_a_fraction_of_open_circuit_never_beats_the_maximum(share):
    best = ch.converter_input(converter(), CRYSTALLINE, LIGHT_A)
    held = ch.converter_input(converter(voc_fraction=share), CRYSTALLINE, LIGHT_A)
    assert float(held.panel_w) < float(best.panel_w)
    point = pv.maximum_power(CRYSTALLINE, LIGHT_A)
    exact = float(point.voltage_v / pv.open_circuit_voltage(CRYSTALLINE, LIGHT_A))
    same = ch.converter_input(converter(voc_fraction=exact), CRYSTALLINE, LIGHT_A)
    assert float(same.panel_w) == pytest.approx(float(best.panel_w), rel=1e-9)


def test_losses_of_a_converter_add_up():
    given_ = ch.converter_input(converter(efficiency=0.8, fixed_loss_w=2e-6), AMORPHOUS, LIGHT_A)
    assert float(given_.warm_w) == pytest.approx(0.8 * float(given_.panel_w) - 2e-6, rel=1e-12)


def test_a_converter_stops_below_its_least_voltage_or_power():
    watt = float(pv.maximum_power(CRYSTALLINE, LIGHT_A).power_w)
    for name, value in (("minimum_panel_v", 5.0), ("minimum_panel_w", 1.01 * watt)):
        stopped = ch.converter_input(converter(**{name: value}), CRYSTALLINE, LIGHT_A)
        assert float(stopped.warm_w) == 0.0
    runs = ch.converter_input(converter(minimum_panel_w=0.99 * watt), CRYSTALLINE, LIGHT_A)
    assert float(runs.warm_w) > 0.0
    # A fixed loss above the power is no current out of the store.
    lossy = ch.converter_input(converter(fixed_loss_w=1.0), CRYSTALLINE, LIGHT_A)
    assert float(lossy.warm_w) == 0.0


def test_a_cold_start_needs_its_own_voltage_and_power_and_gives_no_more_than_the_panel():
    pump = converter(cold_below_v=1.8, cold_efficiency=0.5)
    given_ = ch.converter_input(pump, CRYSTALLINE, LIGHT_A)
    volts = np.array([0.0, 0.5, 1.79, 1.8, 3.0])
    amps = ch.converter_current(pump, given_, volts, volts, 0.0)
    assert amps[0] == pytest.approx(float(given_.panel_a))
    assert amps[2] * (1.79 + 0.5 * amps[2]) == pytest.approx(0.5 * float(given_.panel_w))
    # At 1.8 V normal running begins: 0.85 of the power less the fixed loss, over 0.5 ohm.
    assert amps[3] * (1.8 + 0.5 * amps[3]) == pytest.approx(float(given_.warm_w), rel=1e-12)
    assert amps[3] > amps[2]
    for name, value in (("cold_panel_v", 9.0), ("cold_panel_w", 1.0)):
        none = ch.converter_input(
            converter(cold_below_v=1.8, **{name: value}), CRYSTALLINE, LIGHT_A
        )
        assert float(none.cold_w) == 0.0


@given(PANELS, AMPS, st.floats(0.0, 9.0), st.floats(0.0, 50.0))
def test_voltages_around_the_direct_path_add_up(panel, light_a, store_v, ohm):
    amps = float(ch.direct_current(SCHOTTKY, panel, light_a, store_v, ohm))
    leak = SCHOTTKY.diode_saturation_a
    assert -leak <= amps <= light_a
    if amps > -0.99 * leak:
        panel_v = store_v + amps * ohm + SCHOTTKY.diode_slope_v * np.log1p(amps / leak)
        back = float(pv.current_at_voltage(panel, light_a, panel_v))
        assert back == pytest.approx(amps, rel=1e-6, abs=1e-12 + 1e-7 * light_a)


@given(PANELS, AMPS, st.floats(0.0, 50.0))
def test_the_tabulated_direct_curve_is_the_solved_one(panel, light_a, ohm):
    table = ch.direct_curve(SCHOTTKY, panel, light_a, ohm)
    assert np.all(np.diff(table.source_v) >= 0.0)
    volts = np.linspace(0.0, 9.0, 181)
    read = np.interp(volts, table.source_v, table.current_a)
    solved = ch.direct_current(SCHOTTKY, panel, light_a, volts, ohm)
    assert read == pytest.approx(solved, abs=3e-5 * light_a + 1e-12)


def test_at_night_the_diode_leaks_no_more_than_its_saturation_current():
    volts = np.array([0.0, 0.02, 0.5, 3.0])
    amps = ch.direct_current(SCHOTTKY, CRYSTALLINE, 0.0, volts, 0.0)
    assert amps[0] == pytest.approx(0.0, abs=1e-15)
    assert np.all(np.diff(amps) <= 0.0)
    assert amps[-1] == pytest.approx(-7.2e-8, rel=1e-3)


def test_more_light_gives_more_current_at_every_voltage():
    volts = np.linspace(0.0, 6.0, 61)
    dim, bright = (ch.direct_current(SCHOTTKY, AMORPHOUS, a, volts, 5.0) for a in (1e-4, 2e-4))
    assert np.all(bright >= dim - 1e-15)


def test_a_bright_panel_behind_a_tight_diode_drives_its_current():
    """0.6 A of light and a diode that leaks 0.6 nA: nearly all of it goes into 4 V.

    Hand sum: the photocurrent, less what shunt and diode take at 4 V and the drop of 0.4 to 0.6 V.
    """
    panel = pv.Panel(saturation_a=1e-9, slope_v=0.45, series_ohm=0.1, shunt_s=1e-5)
    charger = ch.DirectCharger(diode_saturation_a=6e-10, diode_slope_v=0.028)
    amps = ch.direct_current(charger, panel, np.array([0.6, 6e-4, 0.0]), np.array([4.0] * 3), 0.0)
    assert amps[0] == pytest.approx(0.6 - 1e-5 * 4.6, rel=1e-3)
    assert amps[1] == pytest.approx(6e-4 - 1e-5 * 4.4 - 1.7e-5, rel=1e-2)
    assert amps[2] == pytest.approx(-6e-10, rel=1e-6)
