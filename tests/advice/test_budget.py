"""The energy budget adds up, names a knob for every item, and turning that knob moves the item."""

from datetime import datetime

import numpy as np
import pytest

from explorer.advice.budget import budget, light_on_panel
from explorer.advice.case import Case
from explorer.advice.readings.one import study
from explorer.advice.year.readings import worst_of_course
from explorer.advice.year.study import year_study
from explorer.advice.year.view import year_view
from explorer.engine.trace import Trace
from explorer.files.beside import resolve_case
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario
from explorer.physics.panel import maximum_power
from explorer.resource_files import scenario_folder
from explorer.scenario import parts
from explorer.scenario.build import build
from explorer.scenario.light import Light, LitBlock, LogPattern, SteadyPattern, WeekPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, get_value, with_value
from explorer.scenario.supply import ConverterCharger, DirectCharger, Panels
from tests.depth import some
from tests.reference.strategy import numbered

WEEK_S = 604_800.0
DEMOS = sorted(scenario_folder().glob("*.json"))


def of(scenario, log=None):
    return budget(Case(scenario, log))


@pytest.fixture(scope="module")
def probe():
    path = next(p for p in DEMOS if p.stem == "soil_probe")
    return load_scenario(path).scenario


@pytest.mark.parametrize("path", some(DEMOS, 2), ids=lambda p: p.stem)
def test_every_demonstration_closes_to_a_thousandth(path):
    scenario = load_scenario(path).scenario
    found = of(scenario, resolve_log(scenario, path))
    assert found.closes
    assert abs(found.residual_j) <= 1e-3 * found.taken_j
    total = sum(item.joules for item in found.items) + found.residual_j
    assert total == pytest.approx(found.light_j + found.from_store_j, rel=1e-9)
    assert sum(item.share for item in found.items) == pytest.approx(1.0, abs=1e-3)
    assert sum(item.panel_share for item in found.items) == pytest.approx(1.0, abs=1e-3)
    assert found.light_j > found.panel_j > found.taken_j > found.charged_j > found.work_j > 0.0
    assert len({item.key for item in found.items}) == len(found.items)
    for item in found.items:
        assert item.joules >= -1e-6 * found.taken_j, item.key
        get_value(scenario, item.path)
    for j, operation in enumerate(scenario.load.operations):
        assert found.item(f"operation_{j}").label == operation.name


@pytest.mark.parametrize(
    ("key", "path", "factor"),
    [
        ("sleep", "load.sleep_A", 2.0),
        ("quiescent", "charger.quiescent_A", 2.0),
        ("operation_0", "load.operations.0.schedule.interval_s", 0.8),
        ("leakage", "store.leakage_A", 1.5),
        ("esr", "store.esr_ohm", 2.0),
        ("clipped", "store.capacitance_F", 0.5),
        ("charger", "charger.efficiency", 0.9),
        ("tracking", "charger.voc_fraction", 0.9),
    ],
)
def test_the_knob_that_an_item_names_makes_it_grow(probe, key, path, factor):
    before = of(probe)
    assert before.item(key).path == path
    after = of(with_value(probe, path, get_value(probe, path) * factor))
    assert after.item(key).joules > 1.02 * before.item(key).joules


def test_sleep_costs_its_current_times_the_mean_voltage(probe):
    found = of(probe)
    current = probe.load.sleep_A
    assert 2.2 * current < found.answers["sleep_W"] < 5.0 * current


def test_average_powers_are_the_joules_of_a_week_over_its_seconds(probe):
    found = of(probe)
    assert found.span_s == pytest.approx(WEEK_S)
    for item in found.items:
        assert found.answers[f"{item.key}_W"] * WEEK_S == pytest.approx(item.joules)
    assert found.answers["work_W"] == pytest.approx(found.work_j / WEEK_S)


def test_a_regulator_and_its_knob_appear_with_it(probe):
    assert "regulator" not in {item.key for item in of(probe).items}
    linear = with_value(with_value(probe, "load.regulator.kind", "linear"),
                        "load.regulator.output_V", 2.0)
    found = of(linear)
    assert found.closes
    assert found.item("regulator").joules > 0.0
    assert found.item("regulator").path == "load.regulator.output_V"


def test_a_diode_loses_what_a_converter_would_track(probe):
    found = of(probe.model_copy(update={"charger": DirectCharger()}))
    assert found.closes
    assert found.item("charger").path == "charger.diode_saturation_A"
    assert found.item("tracking").joules > 0.0


def test_light_too_weak_for_the_converter_is_told_apart(probe):
    weak = with_value(probe, "charger.cold_start_panel_W", 1.0)
    found = of(with_value(weak, "charger.minimum_panel_W", 1.0))
    assert found.taken_j == 0.0
    assert found.item("too_weak").path == "charger.minimum_panel_W"
    assert found.item("too_weak").joules > 0.8 * found.panel_j


def test_a_current_limit_holds_back_and_is_named(probe):
    found = of(with_value(probe, "charger.output_limit_A", 2e-5))
    assert found.closes
    assert found.item("limited").joules > 0.2 * found.panel_j
    assert found.item("limited").path == "charger.output_limit_A"


def test_a_device_that_falls_over_and_over_pays_for_start_ups():
    scenario = load_scenario(next(p for p in DEMOS if p.stem == "door_counter")).scenario
    found = of(scenario)
    assert found.item("start_up").joules > 0.0
    assert found.item("start_up").path == "load.start_up.0.current_A"


def test_a_dark_place_has_a_budget_too():
    week = WeekPattern(dark_days=("mon", "tue", "wed", "thu", "fri", "sat", "sun"))
    found = of(Scenario(light=Light(pattern=week)))
    assert found.light_j == found.panel_j == 0.0
    assert found.closes
    assert all(np.isfinite([item.joules, item.share]).all() for item in found.items)


# -- light on the panel ---------------------------------------------------------------------------


def test_light_on_the_panel_is_irradiance_times_area_times_time():
    scenario = Scenario(
        light=Light(
            illuminance_lx=500.0, source="led_4000", pattern=SteadyPattern(),
            orientation_factor=0.5, cover_factor=0.9, soiling_factor=0.8,
        ),
        panels=Panels(active_area_cm2=20.0, count=3, in_series=2),
    )
    irradiance = parts.light_answer("led_4000", 500.0).irradiance_w_per_m2
    expected = irradiance * 0.5 * 0.9 * 0.8 * 6 * 20e-4 * WEEK_S
    course = build(scenario).light
    found = light_on_panel(scenario, course) @ np.diff(course.edges_s)
    assert found == pytest.approx(expected, rel=1e-9)


def test_daylight_brings_more_energy_per_lux_block_by_block():
    def week(*shares):
        return Scenario(
            light=Light(
                illuminance_lx=500.0, daylight_share=0.25,
                pattern=WeekPattern(
                    blocks=tuple(
                        LitBlock(days=("mon",), from_h=8.0 + 2 * i, to_h=10.0 + 2 * i,
                                 daylight_share=share)
                        for i, share in enumerate(shares)
                    )
                ),
            )
        )

    area_m2 = Panels().active_area_cm2 * 1e-4
    lamp, day = (
        500.0 * parts.irradiance_per_lux(source) * 7200.0 * area_m2
        for source in ("led_4000", "daylight_glass")
    )
    scenario = week(0.0, 1.0, None)
    expected = lamp + day + 0.75 * lamp + 0.25 * day
    course = build(scenario).light
    found = light_on_panel(scenario, course) @ np.diff(course.edges_s)
    assert found == pytest.approx(expected, rel=1e-9)


def test_a_log_is_counted_as_measured_not_as_the_ladder_of_levels_has_it():
    pick = np.random.default_rng(5)
    lux = np.where(np.arange(192) % 96 < 40, 10.0 ** pick.uniform(0.3, 3.0, 192), 0.0)
    log = LightLog(
        time_s=np.arange(193) * 900.0, illuminance_lx=lux, start=datetime(2024, 1, 1), step_s=900.0
    )
    scenario = Scenario(
        light=Light(illuminance_lx=None, pattern=LogPattern()), charger=ConverterCharger()
    )
    found = of(scenario, log)
    irradiance = lux * parts.irradiance_per_lux("led_4000")
    area_m2 = Panels().active_area_cm2 * 1e-4
    periods = found.span_s / (192 * 900.0)
    once_j = float(irradiance.sum()) * 900.0 * area_m2
    assert found.light_j == pytest.approx(periods * once_j, rel=1e-9)
    assert found.closes
    # A converter with a least power leaves the dimmest readings unused.
    assert 0.0 < found.item("too_weak").joules < 0.05 * found.panel_j


def test_what_a_full_store_leaves_unused_is_that_of_each_reading():
    """Full, it goes on in one leg from bright readings through dim ones and the dark."""
    pick = np.random.default_rng(8)
    hour = np.arange(480) * 0.25 % 24.0
    lux = np.where((hour > 7.0) & (hour < 17.0), 10.0 ** pick.uniform(1.5, 3.3, 480), 0.0)
    log = LightLog(
        time_s=np.arange(481) * 900.0, illuminance_lx=lux, start=datetime(2024, 1, 1), step_s=900.0
    )
    case = Case(
        Scenario(
            light=Light(illuminance_lx=None, pattern=LogPattern()), panels=Panels(count=8),
            charger=ConverterCharger(tracking="maximum_power"),
        ),
        log,
    )
    found, one = budget(case), study(case)
    course = one.engine.system.light
    given = maximum_power(one.engine.system.panel, course.photocurrent_a).power_w
    periods = found.span_s / course.period_s
    expected = periods * float(given @ np.diff(course.edges_s))
    assert found.panel_j == pytest.approx(expected, rel=5e-3)
    # Counted moment by moment: lit, and nothing comes.
    moments = np.arange(20.0, found.span_s, 40.0)
    now = Trace(one.engine, one.course.run).at(moments)
    reading = np.searchsorted(course.edges_s[1:-1], moments % course.period_s, side="right")
    idle = given[reading][now.harvest_a <= 0.0].sum() * 40.0
    assert found.item("clipped").joules > 0.5 * found.panel_j
    assert found.item("clipped").joules == pytest.approx(idle, rel=0.02)


@pytest.mark.parametrize("name", ["north_door_counter", "window_air_sensor"])
def test_in_a_full_month_of_a_year_the_cells_convert_no_more_than_in_an_empty_one(name):
    path = next(p for p in DEMOS if p.stem == name)
    case = resolve_case(load_scenario(path).scenario, path)
    found, tight = budget(case), year_study(case).months[worst_of_course(case, "balance")]
    course = tight.engine.system.light
    given = maximum_power(tight.engine.system.panel, course.photocurrent_a).power_w
    periods = found.span_s / course.period_s
    expected = periods * float(given @ np.diff(course.edges_s))
    assert found.panel_j == pytest.approx(expected, rel=1e-3)
    # The year's table counts what the charger would have delivered, from its charging currents.
    month = year_view(case).months[worst_of_course(case, "balance")]
    passed_on = found.charged_j / found.taken_j
    assert month.taken_in_j == pytest.approx(found.charged_j, rel=1e-3)
    assert month.thrown_away_j == pytest.approx(
        found.item("clipped").joules * passed_on, rel=2e-3
    )


@pytest.mark.parametrize("level", [None, 450.0])
def test_the_lamps_of_a_year_bring_the_watts_of_their_own_spectrum(level):
    path = next(p for p in DEMOS if p.stem == "window_air_sensor")
    scenario = with_value(load_scenario(path).scenario, "light.illuminance_lx", level)
    case = resolve_case(with_value(scenario, "light.soiling_factor", 0.8), path)
    found, tight = budget(case), year_study(case).months[worst_of_course(case, "balance")].month
    year = case.year
    first = round(tight.begin_s / year.step_s)
    some = slice(first, first + round(tight.length_s / year.step_s))
    watts = (
        year.daylight_lx[some] * parts.irradiance_per_lux("daylight_glass")
        + year.electric_lx[some] * parts.irradiance_per_lux("fluorescent_4000")
    ) * (24e-4 * 0.8) * (1.0 if level is None else level / year.mean_lit_lx)
    periods = found.span_s / tight.length_s
    assert year.electric_lx[some].any()
    assert year.daylight_lx[some].any()
    assert found.light_j == pytest.approx(periods * float(watts.sum()) * year.step_s, rel=1e-9)
    assert found.item("not_converted").joules == pytest.approx(found.light_j - found.panel_j)


def test_a_run_that_was_given_up_within_a_week_counts_the_light_until_then():
    case = Case(*numbered(267))  # cuts off again and again
    run, found = study(case).course.run, budget(case)
    course = study(case).engine.system.light
    edges = np.append(course.edges_s[course.edges_s < run.span_s], run.span_s)
    watt = light_on_panel(case.scenario, course)[: len(edges) - 1]
    assert run.span_s < 0.9 * course.period_s
    assert found.light_j == pytest.approx(float(watt @ np.diff(edges)), rel=1e-9)
