"""What a lux reading is worth depends on the source, and the drawer says so."""

from typing import get_args

import pytest

from explorer.advice.case import Case
from explorer.advice.panel_curve import panel_curve
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario import parts
from explorer.scenario.light import Source
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.supply import SheetPoint
from explorer.words.panel import (
    chosen_source,
    light_meanings,
    meaning_line,
    meaning_table,
    numbered,
    panel_answer,
    panel_notes,
    panel_table,
    sold_sentence,
)


def test_every_source_has_a_row_and_one_is_chosen():
    rows = light_meanings("amorphous", 500.0, "led_4000")
    assert [r.source for r in rows] == list(get_args(Source))
    assert [r.source for r in rows if r.chosen] == ["led_4000"]


def test_the_same_reading_is_worth_more_to_crystalline_cells_by_daylight():
    table = meaning_table(with_value(Scenario(), "panels.technology", "crystalline"), 500.0)
    current = dict(zip(table["source"], table["photocurrent_uA_per_cm2"], strict=True))
    assert current["daylight_glass"] > 1.25 * current["led_4000"]
    assert current["incandescent"] > 5 * current["led_4000"]


def test_five_hundred_lux_of_neutral_led_are_about_one_and_a_half_watts():
    # CIE LED-B3 has 317 lm/W (CIE tables by the colour library): 500 / 317 = 1.58 W/m².
    assert "1.58 W/m²" in meaning_line(Scenario(), 500.0)


def test_bright_light_means_numbers_that_a_person_counts_in():
    rows = light_meanings("crystalline", 100_000.0, "incandescent")
    assert not [r for r in rows if "e" in r.irradiance + r.current]
    assert next(r for r in rows if r.chosen).irradiance.isdigit()


def test_a_year_without_lamps_is_told_in_its_own_daylight():
    counter = load_scenario(scenario_folder() / "north_door_counter.json").scenario
    assert chosen_source(counter.light) == "daylight_open"
    window = with_value(counter, "light.pattern.place.glass", "coated_glass")
    assert chosen_source(window.light) == "daylight_glass"
    lit = load_scenario(scenario_folder() / "window_air_sensor.json").scenario
    assert chosen_source(lit.light) == lit.light.source  # of its lamps
    watts = parts.light_answer("daylight_glass", 500.0).irradiance_w_per_m2
    assert f"{watts:.3g} W/m²" in meaning_line(window, 500.0)


def test_the_answer_names_light_power_and_voltage():
    curve = panel_curve(Case(Scenario()))
    text = panel_answer(curve, Case(Scenario()))
    assert "300 lx" in text
    peak = max(zip(curve.power_w, curve.voltage_v, strict=True))
    assert peak[0] == pytest.approx(curve.points[0].power_w, rel=1e-3)


def test_the_answer_names_the_light_that_a_turned_panel_gets():
    turned = with_value(Scenario(), "light.orientation_factor", 0.5)
    text = panel_answer(panel_curve(Case(turned)), Case(turned))
    assert "At 300 lx, of which 150 lx reach the cells, the panels give" in text


def test_points_are_numbered_by_rising_voltage():
    volts = [p.voltage_v for _, p in numbered(panel_curve(Case(Scenario())))]
    assert volts == sorted(volts)


def test_the_table_is_the_curve():
    curve = panel_curve(Case(Scenario()))
    table = panel_table(curve)
    assert table["power_W"][10] == pytest.approx(table["voltage_V"][10] * table["current_A"][10])


@pytest.mark.parametrize(
    ("technology", "lux", "span"),
    # 3.0, 4.8 and 6.2 µW/cm² at 200 lx; 14, 35.5 and 46 at 1000 lx: the table of what is sold
    [("amorphous", 200.0, "0.62 to 1.3 times"), ("crystalline", 1000.0, "0.39 to 1.3 times")],
)
def test_a_panel_without_a_data_sheet_is_said_to_be_one_of_many(technology, lux, span):
    scenario = with_value(Scenario(), "panels.technology", technology)
    scenario = with_value(scenario, "light.illuminance_lx", lux)
    case = Case(scenario)
    assert f"no data sheet: modules on sale give {span}" in sold_sentence(case)
    assert sold_sentence(case) in panel_notes(panel_curve(case), case)


def test_what_reaches_the_cells_decides_how_far_modules_differ():
    crystalline = with_value(Scenario(), "panels.technology", "crystalline")
    bright = with_value(crystalline, "light.illuminance_lx", 1000.0)
    behind = with_value(bright, "light.cover_factor", 0.2)
    assert sold_sentence(Case(behind)) == sold_sentence(
        Case(with_value(crystalline, "light.illuminance_lx", 200.0))
    )
    assert sold_sentence(Case(behind)) != sold_sentence(Case(bright))


def test_a_data_sheet_leaves_nothing_to_be_said_about_other_modules():
    scenario = with_value(Scenario(), "panels.data_sheet", [SheetPoint().model_dump()])
    assert sold_sentence(Case(scenario)) == ""
    assert "on sale" not in panel_notes(panel_curve(Case(scenario)), Case(scenario))
