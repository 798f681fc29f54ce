"""What a closed fold says of the light."""

import pytest

from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_value
from explorer.words.glance import GLIMPSES, glance_text, light_glance


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("north_door_counter", "A year of daylight, out of doors"),
        ("window_air_sensor", "A year of daylight, in a room, Fluorescent, three-band 4000 K"),
    ],
)
def test_of_a_year_it_names_the_place_and_lamps_where_there_are_some(name, said):
    scenario = load_scenario(scenario_folder() / f"{name}.json").scenario
    assert str(glance_text(light_glance(scenario))) == said


def test_behind_coated_glass_it_is_at_a_window():
    scenario = load_scenario(scenario_folder() / "north_door_counter.json").scenario
    window = with_value(scenario, "light.pattern.place.glass", "coated_glass")
    assert str(glance_text(light_glance(window))) == "A year of daylight, at a window"


@pytest.mark.parametrize("glimpse", GLIMPSES.values(), ids=GLIMPSES)
def test_a_glimpse_changes_with_its_own_sections_alone(glimpse):
    here, there = (
        load_scenario(scenario_folder() / f"{name}.json").scenario
        for name in ("soil_probe", "window_air_sensor")
    )
    assert glimpse.lines(here) != glimpse.lines(there)
    others = set(type(here).model_fields) - set(glimpse.sections)
    mixed = here.model_copy(update={name: getattr(there, name) for name in others})
    assert glimpse.lines(mixed) == glimpse.lines(here)
    assert glimpse.holds_for(mixed, here)
    assert not glimpse.holds_for(there, here)


def test_an_edit_of_one_section_keeps_the_others():
    scenario = load_scenario(scenario_folder() / "soil_probe.json").scenario
    edited = with_value(scenario, "light.illuminance_lx", 321.0)
    held = [glimpse.holds_for(edited, scenario) for glimpse in GLIMPSES.values()]
    assert held == [False, True, True, True, True]
