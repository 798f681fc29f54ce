"""From a scenario to the system that the engine runs."""

import numpy as np
import pytest

from explorer.advice.variants import changed
from explorer.engine.march import Engine
from explorer.physics import panel as pv
from explorer.physics import store as st
from explorer.physics.load import Draw, LinearRegulator, SwitchingRegulator
from explorer.scenario.build import (
    FULL_SUN_LX,
    build,
    build_panel,
)
from explorer.scenario.course import current_per_lux
from explorer.scenario.data_sheet import sheet_fit
from explorer.scenario.light import Light
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.parts import photocurrent_per_lux
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import Panels, SheetPoint

SHEET = (
    SheetPoint(
        illuminance_lx=200.0,
        short_circuit_A=18e-6,
        open_circuit_V=4.6,
        max_power_A=14e-6,
        max_power_V=3.5,
    ),
    SheetPoint(
        illuminance_lx=1000.0,
        short_circuit_A=91e-6,
        open_circuit_V=5.2,
        max_power_A=73e-6,
        max_power_V=4.0,
    ),
)


def built(store, ambient_c, full_v=5.4):
    return store.built(ambient_c, full_v)


# -- panels ---------------------------------------------------------------------------------------


def test_panels_in_series_add_voltage_and_panels_in_parallel_add_current():
    one = build_panel(Panels(), 25.0)
    array = build_panel(Panels(count=3, in_series=2), 25.0)
    light = 20e-6
    assert float(pv.open_circuit_voltage(array, 3 * light)) == pytest.approx(
        2.0 * float(pv.open_circuit_voltage(one, light)), rel=1e-9
    )
    assert float(pv.current_at_voltage(array, 3 * light, 0.0)) == pytest.approx(
        3.0 * float(pv.current_at_voltage(one, light, 0.0)), rel=1e-9
    )


def test_a_warm_panel_loses_voltage_by_its_coefficient_and_a_cold_night_gives_it_back():
    panels = Panels(technology="crystalline")
    area = panels.active_area_cm2 * 1e-4 / panels.cells_in_series

    def per_kelvin(lux):
        light = lux * area * photocurrent_per_lux("daylight_open", "crystalline")
        volts = [
            float(pv.open_circuit_voltage(build_panel(panels, t), light))
            for t in (-5.0, 25.0, 55.0)
        ]
        return -np.diff(volts) / 30.0

    # -2.2 mV per kelvin and cell for the crystalline technology in full sun, eight cells
    assert per_kelvin(FULL_SUN_LX) == pytest.approx(8 * 0.0022, rel=0.01)
    # n · k/e · ln(sun/light) more in a hundredth of it: 1.26 · 0.0862 mV/K · 4.6 = 0.5 mV/K
    assert per_kelvin(0.01 * FULL_SUN_LX) == pytest.approx(8 * 0.0027, rel=0.03)


def test_a_data_sheet_sets_the_curve_at_its_own_light():
    panels = Panels(data_sheet=SHEET)
    light = Light(source="fluorescent_4000", ambient_C=25.0)
    array = build_panel(panels, 25.0)
    for point in SHEET:
        amps = current_per_lux(light, panels) * point.illuminance_lx
        best = pv.maximum_power(array, amps)
        assert float(pv.current_at_voltage(array, amps, 0.0)) == pytest.approx(
            point.short_circuit_A, rel=0.02
        )
        assert float(pv.open_circuit_voltage(array, amps)) == pytest.approx(
            point.open_circuit_V, rel=0.02
        )
        assert float(best.power_w) == pytest.approx(point.max_power_A * point.max_power_V, rel=0.04)


def test_the_data_sheet_makes_area_a_matter_of_indifference():
    light = Light()
    small, large = (Panels(data_sheet=SHEET, active_area_cm2=a) for a in (6.0, 24.0))
    assert current_per_lux(light, small) == pytest.approx(current_per_lux(light, large), rel=1e-12)
    assert build_panel(small, 40.0) == build_panel(large, 40.0)


def test_a_batch_varies_the_area_but_not_the_cells_of_a_sheet():
    many = changed(Panels(data_sheet=SHEET), {"active_area_cm2": np.array([[6.0], [24.0]])})
    assert np.ptp(current_per_lux(Light(), many)) < 1e-18
    odd = changed(many, {"cells_in_series": np.array([[8], [6]])})
    with pytest.raises(ValueError, match="cells_in_series must be one number"):
        build_panel(odd, 25.0)


def test_a_batch_of_stores_is_built_at_once():
    many = changed(SupercapacitorStore(), {
        "capacitance_F": np.array([[1.0], [2.0]]),
        "years_in_service": np.array([[0.0], [1.0]]),
    })
    bank = built(many, 22.0, 5.0)
    assert bank.capacitance_f[0, 0] == 1.0
    assert bank.capacitance_f[1, 0] < 2.0
    one = built(SupercapacitorStore(capacitance_F=2.0, years_in_service=1.0), 22.0, 5.0)
    assert bank.capacitance_f[1, 0] == pytest.approx(float(one.capacitance_f))


def test_the_technology_still_decides_what_another_lamp_gives():
    lamp, sun = Light(source="fluorescent_4000"), Light(source="daylight_open")
    sheeted = {
        t: Panels(data_sheet=SHEET, technology=t) for t in ("amorphous", "crystalline")
    }  # fmt: skip
    gain = {t: current_per_lux(sun, p) / current_per_lux(lamp, p) for t, p in sheeted.items()}
    assert gain["crystalline"] > 2.0 * gain["amorphous"]


def test_a_data_sheet_drives_a_scenario_and_is_fitted_once():
    scenario = with_value(Scenario(), "panels.data_sheet", SHEET)
    run = Engine(build(scenario)).march(7 * 86_400.0)
    assert run.end.charge_c > 0.0
    assert sheet_fit(scenario.panels) is sheet_fit(with_value(scenario, "panels.count", 4).panels)
    assert np.abs(sheet_fit(scenario.panels).residuals).max() < 0.02


# -- stores ---------------------------------------------------------------------------------------


def test_a_bank_has_its_units_rating_and_its_balancing_current():
    bank = built(SupercapacitorStore(leakage_A=1e-6, balancing_A=3e-7), 22.0)
    assert bank.rated_v == pytest.approx(5.4)
    assert bank.leakage_a == pytest.approx(1.3e-6)
    alone = built(SupercapacitorStore(units_in_series=1, balancing_A=3e-7), 22.0)
    assert alone.leakage_a == pytest.approx(1e-6)


def test_a_bank_in_its_first_days_leaks_more():
    settled = built(SupercapacitorStore(balancing="none"), 22.0)
    fresh = built(SupercapacitorStore(balancing="none", condition="first_days"), 22.0)
    assert 1.5 < float(fresh.leakage_a) / float(settled.leakage_a) < 5.0


def test_years_in_service_take_capacitance_and_add_resistance():
    new = built(SupercapacitorStore(), 40.0, 5.0)
    old = built(SupercapacitorStore(years_in_service=1.0), 40.0, 5.0)
    assert float(old.capacitance_f) < float(new.capacitance_f) == 1.0
    assert float(old.esr_ohm) > float(new.esr_ohm)
    warmer = built(SupercapacitorStore(years_in_service=1.0), 50.0, 5.0)
    assert float(warmer.capacitance_f) < float(old.capacitance_f)


def test_the_cold_raises_resistance_by_the_kind_of_store():
    def factor(store):
        key = "resistance_ohm" if isinstance(store, CellStore) else "esr_ohm"
        cold, room = built(store, -20.0), built(store, 20.0)
        return float(getattr(cold, key)) / float(getattr(room, key))

    assert factor(SupercapacitorStore()) == pytest.approx(1.6)
    assert factor(CapacitorStore()) == pytest.approx(4.0)
    assert factor(CellStore()) == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("ambient", "limit_a"), [(-1.0, 0.0), (5.0, 0.004), (22.0, 0.02), (50.0, 0.0)]
)
def test_the_temperature_limits_the_charging_of_a_cell(ambient, limit_a):
    curve = built(CellStore(), ambient).curve(top_v=5.0)
    assert curve.charge_limit_a == pytest.approx(limit_a)


def test_a_freezing_cell_is_not_charged_by_the_brightest_light():
    scenario = Scenario(
        light=Light(illuminance_lx=5000.0, ambient_C=-5.0),
        store=CellStore(initial_charge=0.5),
        charger={"kind": "converter", "full_V": 4.2},
    )
    run = Engine(build(scenario)).unloaded().march(86_400.0)
    assert run.end.charge_c < build(scenario).initial_charge_c


def test_an_old_cell_holds_less_and_a_cold_one_too():
    new = built(CellStore(), 22.0)
    assert float(new.capacity_c) == pytest.approx(40.0 * 3.6)
    old = built(CellStore(years_in_service=3.0), 22.0)
    cold = built(CellStore(), -20.0)
    assert float(old.capacity_c) < float(new.capacity_c)
    assert float(cold.capacity_c) == pytest.approx(0.6 * 40.0 * 3.6)


def test_self_discharge_of_a_cell_empties_it_by_its_share_of_a_month():
    cell = built(CellStore(self_discharge_per_month=0.02), 22.0)
    month_s = 30.4375 * 86_400.0
    assert cell.self_discharge_a * month_s == pytest.approx(0.02 * 144.0)


def test_the_beginning_of_a_scenario_is_counted_from_empty():
    settings = SupercapacitorStore(initial_V=3.2, units_in_series=1, lowest_V=2.5, rated_V=3.8)
    bank = built(settings, 22.0)
    assert settings.initial_charge_c(bank) == pytest.approx(float(st.bank_charge(bank, 3.2)))
    empty = settings.model_copy(update={"initial_V": 0.0})
    assert empty.initial_charge_c(bank) == 0.0
    half = CellStore(initial_charge=0.5)
    assert half.initial_charge_c(built(half, 22.0)) == pytest.approx(72.0)


@pytest.mark.parametrize(
    ("store", "floor_v"),
    [
        (SupercapacitorStore(units_in_series=1, rated_V=3.8, lowest_V=2.5), 2.5),
        (CellStore(), 3.0),
        (SupercapacitorStore(), 2.4),
    ],
)
def test_the_load_is_cut_off_before_a_store_is_harmed(store, floor_v):
    scenario = Scenario(store=store, charger={"kind": "converter", "full_V": 3.8})
    assert build(scenario).load.off_v == pytest.approx(floor_v)


def test_a_supercapacitor_held_below_its_rating_lives_longer():
    """A tenth of a volt on each of two units makes a life 1.3 times as long."""
    store = SupercapacitorStore(rated_V=2.7, life_per_tenth_volt=1.3)
    full, lower = (float(store.years_to_end_of_life(45.0, v)) for v in (5.4, 5.2))
    assert lower == pytest.approx(1.3 * full)


def test_heat_shortens_the_life_of_every_kind():
    for store in (SupercapacitorStore(), CapacitorStore(rated_C=85.0), CellStore()):
        assert store.years_to_end_of_life(60.0, 5.0) < store.years_to_end_of_life(45.0, 5.0)


# -- load and charger -----------------------------------------------------------------------------


def test_a_linear_regulator_needs_its_output_and_its_drop():
    scenario = Scenario(
        load={"connect_V": 4.0, "regulator": {"kind": "linear", "output_V": 3.0, "dropout_V": 0.2}}
    )
    load = build(scenario).load
    assert isinstance(load.regulator, LinearRegulator)
    assert load.minimum_v == pytest.approx(3.2)
    assert load.sleep == Draw(current_a=2e-6 + 1e-6)


def test_a_switching_regulator_turns_current_into_power():
    scenario = Scenario(load={"regulator": {"kind": "switching", "output_V": 2.0}})
    load = build(scenario).load
    assert isinstance(load.regulator, SwitchingRegulator)
    assert float(load.operations[0].phases[0].draw.power_w) == pytest.approx(0.02 * 2.0 / 0.85)


def test_windows_that_touch_are_one_window():
    scenario = Scenario()
    schedule = build(scenario).load.operations[0].schedule
    assert schedule.always
    nights = with_value(
        scenario,
        "load.operations.0.schedule",
        {"kind": "every", "interval_s": 60.0, "days": ["mon", "wed"], "from_h": 6.0, "to_h": 8.0},
    )
    windows = build(nights).load.operations[0].schedule.windows_s
    assert windows == ((21_600.0, 28_800.0), (2 * 86_400 + 21_600.0, 2 * 86_400 + 28_800.0))


def test_a_log_pattern_without_a_log_is_refused():
    scenario = with_value(Scenario(), "light.pattern", {"kind": "log"})
    with pytest.raises(ValueError, match="no log was read"):
        build(scenario)
