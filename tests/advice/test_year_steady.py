"""Stores of a year that are filled: in a light that is always on, and in the year's own."""

from math import inf

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.advice.elsewhere import elsewhere
from explorer.advice.readings.required import in_steady_light, required
from explorer.advice.readings.starts import full_charge_time
from explorer.advice.year.answers import year_answers
from explorer.advice.year.study import seasons_of
from explorer.engine.system import DAY_S
from explorer.files.scenario_json import load_scenario
from explorer.physics.panel import current_at_voltage, open_circuit_voltage
from explorer.resource_files import scenario_folder
from explorer.scenario import parts
from explorer.scenario.light import Elsewhere
from explorer.scenario.light_log import DARK_BELOW_LX
from explorer.scenario.model import with_value, with_values
from explorer.scenario.year_course import hung_up_s


def demo_case(name, values):
    scenario = load_scenario(scenario_folder() / f"{name}.json").scenario
    return Case(with_values(scenario, values))


def in_its_own_light(case, source, share):
    """A year's device in steady light, with what the year has written into the week's fields."""
    year = case.year
    lit = year.daylight_lx + year.electric_lx >= DARK_BELOW_LX
    return with_values(in_steady_light(case.scenario, 1000.0), {
        "light.source": source, "light.daylight_share": share,
        "light.ambient_C": float(year.temperature_c[lit].mean()),
    })


@pytest.mark.parametrize(("name", "source"), [
    ("north_door_counter", "daylight_open"), ("window_air_sensor", "fluorescent_4000"),
])  # fmt: skip
def test_what_is_asked_of_a_year_in_steady_light_is_asked_in_its_own(name, source):
    scenario = load_scenario(scenario_folder() / f"{name}.json").scenario
    cold = with_values(scenario, {
        "light.ambient_C": -20.0, "margins.fill_within_h": 100.0, "margins.fill_light_lx": 1000.0,
        "light.elsewhere": (Elsewhere(illuminance_lx=1000.0, source="led_2700"),),
    })
    case = Case(cold)
    lamps, day = float(case.year.electric_lx.sum()), float(case.year.daylight_lx.sum())
    share = day / (day + lamps) if lamps else 0.0
    own = in_its_own_light(case, source, share)
    (found,) = required(case)
    assert found.value[0] == pytest.approx(full_charge_time(Case(own).engine), rel=1e-6)
    other = with_values(own, {"light.source": "led_2700", "light.daylight_share": 0.0})
    (place,) = elsewhere(case)
    assert place.full_s == pytest.approx(full_charge_time(Case(other).engine), rel=1e-6)


def test_an_aged_store_is_filled_as_it_is_worn_by_its_years():
    scenario = load_scenario(scenario_folder() / "north_door_counter.json").scenario
    case = Case(with_values(scenario, {
        "store.years_in_service": 4.0, "margins.fill_within_h": 1000.0,
        "margins.fill_light_lx": 1000.0,
    }))
    new = Case(with_value(case.scenario, "store.years_in_service", 0.0))
    worn, whole = (
        float(seasons_of(one)[1].engines[0].system.store.capacitance_f) for one in (case, new)
    )
    took, took_new = (float(required(one)[0].value[0]) for one in (case, new))
    # The light is the same: it fills less in less time.
    assert took / took_new == pytest.approx(worn / whole, rel=0.02)
    assert worn < 0.9 * whole


def filled_by_hand(case):
    """Days from the first light after the hanging-up to full, stepped by quarter hours."""
    year, scenario, system = case.year, case.scenario, case.system
    charger, panels = scenario.charger, scenario.panels
    first = round(hung_up_s(scenario, year) / year.step_s)
    lux = np.roll(year.daylight_lx, -first)[: 60 * 96]
    per_lux = parts.photocurrent_per_lux("daylight_open", panels.technology)
    amps = lux * (0.9 * per_lux * panels.active_area_cm2 * 1e-4 / panels.cells_in_series)
    open_v = open_circuit_voltage(system.panel, amps)
    panel_v = charger.voc_fraction * open_v
    watts = np.maximum(panel_v * current_at_voltage(system.panel, amps, panel_v), 0.0)
    bank, field = system.store, case.engine.field
    assert float(bank.leakage_a) > 0.0
    charge = 0.0
    for step, watt in enumerate(watts):
        volts = float(field.voltage_at(charge))
        cold = volts < charger.cold_start_below_V
        least = charger.cold_start_panel_W if cold else charger.minimum_panel_W
        got = charger.cold_start_efficiency * watt if cold else (
            charger.efficiency * watt - charger.fixed_loss_W
        )
        amp = max(got, 0.0) / max(volts, 0.05) if watt >= least else 0.0
        leak = float(np.interp(volts, field.open_v, field.curve.leak_a)) + charger.quiescent_A
        charge = max(charge + (amp - leak) * year.step_s, 0.0)
        if field.voltage_at(charge) >= charger.full_V - 1e-6:
            return (step - int(np.argmax(lux > 0.0))) * year.step_s / DAY_S
    return inf


def test_a_store_that_is_hung_up_empty_is_full_when_its_own_weeks_have_filled_it():
    case = demo_case("north_door_counter", {})
    days = year_answers(case)["full_charge_s"] / DAY_S
    assert days == pytest.approx(filled_by_hand(case), rel=0.05)
    # Its darkest month alone would take more than twice as long, May a few days.
    assert full_charge_time(case.engine) / DAY_S > 2.0 * days
    in_may = demo_case("north_door_counter", {"light.pattern.hung_up": "05-02"})
    assert year_answers(in_may)["full_charge_s"] / DAY_S < 0.5 * days


def test_an_indicator_of_a_year_shows_before_the_store_is_full():
    found = year_answers(demo_case("north_door_counter", {"load.indicator_V": 4.5}))
    assert 0.5 * found["full_charge_s"] < found["indicated_s"] < found["full_charge_s"]


def test_a_store_that_no_year_fills_is_never_full():
    dark = {"panels.active_area_cm2": 0.02}
    assert year_answers(demo_case("north_door_counter", dark))["full_charge_s"] == inf
