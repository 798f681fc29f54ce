"""What a closed fold says of the light."""

import pytest

from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.words.glance import glance_text, light_glance


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
