from math import inf

import pytest

from explorer.advice.verdict import Check
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.stand import phrases
from explorer.stand.phrases import caution_line, number_of, parked_text, spoken_cautions, thinned


def check(name, value, unit, margin=1.5, limit=1.0):
    return Check(
        name=name, value=value, limit=limit, unit=unit, margin=margin, wanted=1.3, sentence="."
    )


@pytest.mark.parametrize(
    ("of", "number", "caption"),
    [
        (check("starts", 45 * 3600.0, "s"), "45 hours", "until it starts"),
        (check("starts", inf, "s", 0.0), "never", "starts"),
        (check("dark", 4.14 * 86_400.0, "s"), "4.1 days", "in the dark"),
        (check("dark", inf, "s"), "no end", "to its reserve"),
        (check("balance", 1e-5, "W", 0.999), "0.99×", "the energy it needs"),
        (check("balance", 1e-5, "W", 1000.0), "plenty", "of energy"),
        (check("pulse", 2.43, "V"), "2.43 V", "in the pulse"),
        (check("service", 0.2228, "", 0.225), "22.2 %", "of its work completed"),
    ],
)
def test_the_one_number_is_the_governing_check_in_a_visitor_s_words(of, number, caption):
    found = number_of(of)
    assert (found.number, found.caption) == (number, caption)
    assert found.spoken == f"{number} {caption}"


def scenario(name):
    return load_scenario(scenario_folder() / f"{name}.json").scenario


def test_cautions_are_one_line_and_what_moves_comes_first():
    line = caution_line(scenario("watering_valve"))
    assert "\n" not in line
    assert line.startswith("Valves")
    assert "Also: " in line


def test_where_there_are_more_cautions_than_room_the_line_says_so(monkeypatch):
    whole = caution_line(scenario("soil_probe"))
    assert whole.endswith(".")
    monkeypatch.setattr(phrases, "LONGEST_LINE", len(whole) - 1)
    short = caution_line(scenario("soil_probe"))
    assert short.endswith(" and more.")
    assert whole.startswith(short.removesuffix(" and more."))


@pytest.mark.parametrize("name", ["plant_label", "vent_flap", "soil_probe", "door_counter"])
def test_a_screen_reader_gets_the_cautions_in_full(name):
    spoken = spoken_cautions(scenario(name))
    assert len(spoken) > len(caution_line(scenario(name)))
    assert "a qualified person decide" in spoken


def test_a_time_stamp_that_cannot_be_read_is_shown_as_it_is():
    assert parked_text("Plant label", "Runs", "yesterday") == "yesterday – Plant label – Runs"


def test_names_that_would_touch_are_left_out_evenly():
    assert thinned([50, 50, 50], [0, 100, 200], 10) == [0, 1, 2]
    assert thinned([95] * 5, [0, 100, 200, 300, 400], 10) == [0, 2, 4]
    assert thinned([], [], 10) == []
