"""What is asked of a device of a year in a light that is always on."""

import pytest

from explorer.advice.case import Case
from explorer.advice.elsewhere import elsewhere
from explorer.advice.readings.required import in_steady_light, required
from explorer.advice.readings.starts import full_charge_time
from explorer.advice.year.study import seasons_of
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.light import Elsewhere
from explorer.scenario.light_log import DARK_BELOW_LX
from explorer.scenario.model import with_value, with_values


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
