"""Plain answers make a scenario, whatever they are."""

import itertools
import random
from dataclasses import replace
from typing import get_args

import numpy as np
import pytest

from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.physics.sun import sun_position
from explorer.scenario import parts
from explorer.scenario.cut_off import cut_off
from explorer.scenario.generic import cells_for, panels_price
from explorer.scenario.guide import answers as keys
from explorer.scenario.guide.answers import Answers
from explorer.scenario.guide.assumptions import assumptions
from explorer.scenario.guide.design import START_DESIGN, Design
from explorer.scenario.guide.jobs import JOBS, battery_power_w
from explorer.scenario.guide.lit import light_of, meets_frost
from explorer.scenario.guide.made import scenario_from
from explorer.scenario.guide.places import SPOTS, level_lx
from explorer.scenario.guide.questions import QUESTIONS, choices_of, is_asked
from explorer.scenario.guide.region import REGIONS, latitude_of
from explorer.scenario.guide.year import noon_lx
from explorer.scenario.model import Scenario
from explorer.scenario.weekdays import WEEKDAYS
from explorer.scenario.year_light import year_light

KEYS = {
    "place": keys.PlaceKey, "season": keys.SeasonKey, "region": keys.RegionKey,
    "light": keys.LightKey, "facing": keys.FacingKey, "job": keys.JobKey,
    "battery": keys.BatteryKey, "lasts": keys.LastsKey, "often": keys.OftenKey,
    "when": keys.WhenKey, "dark": keys.DarkKey, "matters": keys.MattersKey,
}  # fmt: skip


def some(count: int) -> list[Answers]:
    """Answers drawn from all that a person may give, with figures where a meter was there."""
    dice, drawn = random.Random(7), []
    while len(drawn) < count:
        given = {name: dice.choice(get_args(alias)) for name, alias in KEYS.items()}
        answers = Answers(
            **given,
            lux=dice.choice((None, 40.0, 900.0)),
            hours=dice.choice((None, (6.5, 22.0))),
            saturday=dice.choice((None, True, False)),
            sunday=dice.choice((None, True, False)),
        )
        if not answers.unknowable:
            drawn.append(answers)
    return drawn


SOME = some(400)


def energy(scenario: Scenario) -> float:
    """Energy of one run at the device."""
    return sum(p.power_W * p.duration_s for p in scenario.load.operations[0].phases)


def test_no_question_needs_a_unit_to_be_answered():
    assert [q.key for q in QUESTIONS] == list(KEYS)
    assert set(KEYS) < set(Answers.__dataclass_fields__)
    for question in QUESTIONS:
        assert question.title.endswith("?")
        assert all(choice.title and choice.line for choice in question.choices)


def test_the_choices_are_those_that_the_answers_may_take():
    for question in QUESTIONS:
        assert tuple(c.key for c in question.choices) == get_args(KEYS[question.key])


def test_only_questions_that_matter_are_asked():
    office = {"place": "desk", "job": "show"}
    assert [k for k in KEYS if is_asked(k, office)] == [
        "place", "light", "job", "often", "when", "dark", "matters",
    ]  # fmt: skip
    door = {"place": "facade", "season": "winter", "job": "other"}
    assert [k for k in KEYS if is_asked(k, door)] == [
        "place", "season", "region", "light", "facing", "job", "battery", "lasts", "dark",
        "matters",
    ]  # fmt: skip
    assert not is_asked("region", door | {"season": "milder"})
    assert not is_asked("lasts", door | {"battery": "unknown"})


def test_an_unnamed_place_has_no_usual_light():
    assert choices_of("light", {"place": "elsewhere"}) == ("measured", "unknown")
    assert choices_of("light", {"place": "desk"}) == ("usual", "measured")
    assert Answers(place="elsewhere", light="unknown").unknowable
    assert Answers(job="other", battery="unknown").unknowable
    assert not Answers(place="elsewhere", light="measured", lux=80.0).unknowable


def test_any_answers_are_a_valid_scenario():
    for answers in SOME:
        scenario = scenario_from(answers)
        assert Scenario.model_validate(scenario.model_dump()) == scenario


@pytest.mark.parametrize("family", [f.key for f in parts.store_families()])
@pytest.mark.parametrize("matters", get_args(keys.MattersKey))
def test_every_kind_of_store_can_carry_the_guide_s_device(family, matters):
    sizes = next(f for f in parts.store_families() if f.key == family).sizes
    for size in (sizes[0], sizes[-1]):
        design = Design(panels=3, area_cm2=12.0, family=family, size=size)
        scenario = scenario_from(Answers(matters=matters), design)
        assert scenario.panels.count == 3
        assert scenario.load.disconnect_V < scenario.load.connect_V < scenario.charger.full_V


def test_a_scenario_of_the_guide_survives_its_file(tmp_path):
    scenario = scenario_from(Answers(job="valve", dark="closure"))
    save_scenario(tmp_path / "valve.json", scenario)
    assert load_scenario(tmp_path / "valve.json").scenario == scenario


@pytest.mark.parametrize("place", [p for p in SPOTS if p != "elsewhere"])
def test_levels_come_from_the_list_of_places_or_say_where_from(place):
    text = assumptions(Answers(place=place))[0]
    listed = [p for p in parts.places() if p.illuminance_lx == level_lx(place) and p.source in text]
    assert listed or SPOTS[place].origin in text
    assert "Measure" in text


def test_a_panel_on_a_wall_gets_a_third_of_what_the_desk_is_designed_for():
    # The design level holds on the work surface; a wall often gets a third (common practice).
    desk, wall = (scenario_from(Answers(place=p)).light for p in ("desk", "meeting_room"))
    assert desk.illuminance_lx == wall.illuminance_lx == 500.0
    assert desk.orientation_factor == 1.0
    assert wall.orientation_factor == pytest.approx(1 / 3, abs=0.01)


def test_a_guess_asks_for_a_margin_of_two_and_a_meter_for_less():
    assert scenario_from(Answers()).design_margin == 2.0
    assert scenario_from(Answers(matters="never_fails")).design_margin == 2.5
    measured = scenario_from(Answers(place="corridor", light="measured", lux=120.0))
    assert measured.design_margin < 2.0
    assert measured.light.illuminance_lx == 120.0
    assert measured.light.orientation_factor == 1.0


def test_measured_hours_and_weekends_are_taken():
    light = scenario_from(Answers(hours=(6.5, 20.0), saturday=True)).light.pattern.blocks
    assert [(b.from_h, b.to_h, b.days) for b in light] == [(6.5, 20.0, WEEKDAYS[:6])]


def test_daylight_does_not_stop_at_the_weekend():
    for place in ("window", "facade"):
        light = scenario_from(
            Answers(place=place, season="milder", saturday=False, sunday=False)
        ).light
        (block,) = light.pattern.blocks
        assert (block.days, block.from_h, block.to_h) == (WEEKDAYS, 7.0, 17.0)


def monthly(answers: Answers) -> np.ndarray:
    """Mean light of each month, day and night."""
    year = year_light(light_of(answers))
    return np.array([year.daylight_lx[year.clock.month == m].mean() for m in range(12)])


@pytest.mark.parametrize("place", [p for p, spot in SPOTS.items() if spot.daylight])
def test_a_window_or_a_sky_is_judged_over_the_year_at_the_level_of_its_place(place):
    light = light_of(Answers(place=place))
    assert light.pattern.kind == "daylight"
    # The level stands for ten hours of an overcast day at the equinox, at 52 degrees north.
    march = monthly(Answers(place=place))[2] * 24.0
    assert march == pytest.approx(10.0 * level_lx(place) * SPOTS[place].facing, rel=0.12)


def test_winter_is_as_dark_as_the_latitude_makes_it():
    # By hand, 300 + 21 000 sin h lx summed over 21 December: 4400 lx for 6 h and little beside at
    # 52 degrees north, against 9800 lx for 10 h in March; at 5 degrees all months are alike.
    def dark(region):
        found = monthly(Answers(place="facade", region=region))
        return found.min() / found[2], int(found.argmin()) + 1

    share, month = dark("north")
    assert share == pytest.approx(4400 * 6.3 / (9800 * 10), rel=0.15)
    assert month == 12
    assert dark("far_north")[0] < 0.6 * share
    assert dark("tropics")[0] > 0.85
    assert dark("south")[1] == 6


def test_a_reading_sets_the_year_by_its_month():
    answers = Answers(place="window", light="measured", lux=900.0, measured_month=11)
    pattern = light_of(answers).pattern
    assert (pattern.reading.illuminance_lx, pattern.reading.date) == (900.0, "11-15")
    spring = replace(answers, measured_month=4)
    assert monthly(answers).mean() > 2.0 * monthly(spring).mean()
    # Without a reading: what one would say, from the level of the place.
    usual = Answers(place="window")
    read = replace(usual, light="measured", lux=noon_lx(usual))
    assert monthly(read) == pytest.approx(monthly(usual), rel=0.03)


def test_who_does_not_say_where_is_told_what_was_taken():
    told = " ".join(assumptions(Answers(place="window")))
    assert "52° north, as nobody said where" in told
    own = Answers(place="window", region="latitude", latitude_deg=-41.5)
    assert "41.5° south" in " ".join(assumptions(own))
    assert latitude_of(own) == -41.5
    assert light_of(own).pattern.hung_up == "06-01"


def test_frost_is_met_only_where_winters_are_cold():
    assert meets_frost(Answers(place="facade", region="north"))
    assert not meets_frost(Answers(place="facade", region="warm"))
    assert not meets_frost(Answers(place="window"))
    assert any("0 °C" in line for line in assumptions(Answers(place="facade")))
    january = light_of(Answers(place="facade", region="north")).pattern.months[0]
    assert january.mean_C == 0.0


@pytest.mark.parametrize("region", ["far_north", "north", "mild", "warm"])
def test_the_day_of_december_is_as_long_as_a_region_says(region):
    """By the sun of the program on 21 December 2020, in whole hours."""
    _, line, latitude_deg = REGIONS[region]
    minutes = np.datetime64("2020-12-21", "s").astype(np.int64) + 60.0 * np.arange(1440)
    up_h = np.sum(sun_position(minutes, latitude_deg, 0.0).elevation_deg > 0.0) / 60.0
    said = {"six": 6, "eight": 8, "nine": 9, "ten": 10}
    assert [h for word, h in said.items() if f"{word} hours" in line] == [round(up_h)]


# Energies of one run in joule; sources beside them.
@pytest.mark.parametrize(
    ("job", "joule"),
    [
        ("show", 0.38),  # 0.37 J receive and program, 0.01 J draw: measured e-paper tag, published
        ("report_near", 3 * 36e-6 + 0.15e-3),  # advertising, maker's note; sensor: no source
        ("report_far", 23.94e-3 + 0.15e-3),  # LoRa SF9, 13 B, 164.864 ms at 3.3 V and 44 mA
        ("count", 3 * 36e-6),
        ("sense_co2", 0.3 + 3 * 36e-6),  # 0.25 to 0.35 J, photo-acoustic sensor data sheets
        ("lock", 0.45 + 0.015),  # 0.3 A at 3 V for 0.5 s: typical, common practice, no source
        ("lamp", 1.8),  # 20 mA at 3 V for 30 s
        ("camera", 0.6 + 1.2),  # typical, common practice, no source
        ("tracker", 2.25 + 23.96e-3),  # 25 mA at 3 V for 30 s, from memory; radio as above
        ("valve", 0.6 / 0.83),  # 12 V, 1 A, 50 ms: public valve pages; 83 %: no source
        ("motor", 1.0),  # typical, common practice, no source
    ],
)
def test_a_job_takes_its_published_energy(job, joule):
    assert energy(scenario_from(Answers(job=job))) == pytest.approx(joule, rel=0.01)


def test_a_device_is_known_by_the_battery_that_it_empties():
    # Two AA cells of 2.4 Ah at 1.25 V hold 21.6 kJ; a year has 31.5 Ms: 0.685 mW.
    assert battery_power_w("two_aa", "year") == pytest.approx(2 * 2.4 * 3600 * 1.25 / 31.536e6)
    load = scenario_from(Answers(job="other", battery="two_aa", lasts="year")).load
    assert load.operations == ()
    assert load.sleep_A * load.regulator.output_V == pytest.approx(0.685e-3, rel=1e-3)


@pytest.mark.parametrize("family", parts.store_families(), ids=lambda family: family.key)
def test_thresholds_lie_within_what_the_store_gives(family):
    """A titanate cell is empty at 2.22 V; its device was to run down to 2 V, and connected 30 mV
    above its end, where its first pulse cut it off again."""
    scenario = scenario_from(Answers(), Design(
        panels=1, area_cm2=30.0, family=family.key, size=family.sizes[-1]
    ))  # fmt: skip
    load, low_v = scenario.load, scenario.store.empty_v
    assert cut_off(scenario) == ("threshold", load.disconnect_V)
    assert low_v < load.disconnect_V < load.connect_V < scenario.charger.full_V
    assert load.connect_V - load.disconnect_V >= 0.06


def test_no_design_is_called_none_of_these():
    for job, work in JOBS.items():
        made = scenario_from(Answers(job=job, battery="coin", lasts="year"))
        assert made.title == (work.title if job != "other" else "A device of your own")
    for place, spot in SPOTS.items():
        made = scenario_from(Answers(place=place, light="measured", lux=80.0))
        known = place != "elsewhere"
        assert made.place == (spot.title if known else "Where the light was measured")


def test_what_moves_keeps_the_energy_of_one_last_move():
    for job in ("valve", "motor", "lock"):
        scenario = scenario_from(Answers(job=job))
        assert scenario.load.reserve_J == pytest.approx(energy(scenario))
        assert scenario.load.actuator != "none"


def test_a_sign_that_sleeps_at_night_works_a_fraction_of_the_week():
    def hours(when):
        every = scenario_from(Answers(place="desk", job="show", when=when)).load.operations[0]
        return len(every.schedule.days) * (every.schedule.to_h - every.schedule.from_h)

    assert [hours(when) for when in get_args(keys.WhenKey)] == [168.0, 50.0, 50.0]


def test_the_longest_dark_stretch_follows_the_answer():
    days = [
        scenario_from(Answers(dark=d)).margins.closure_days for d in get_args(keys.DarkKey)
    ]
    assert days == [0.0, 4.0, 14.0, 42.0]


def test_what_matters_shows_in_the_scenario():
    assert scenario_from(Answers(matters="soon")).margins.start_within_h == 2.0
    assert scenario_from(Answers(matters="smallest")).panels.technology == "gallium_arsenide"
    careful = scenario_from(Answers(matters="never_fails"))
    assert careful.store.years_in_service == 3.0
    assert careful.margins.closure_days == 4.0


@pytest.mark.parametrize("matters", get_args(keys.MattersKey))
def test_a_panel_of_the_guide_has_as_many_cells_as_one_that_a_search_for_a_build_takes(matters):
    panels = scenario_from(Answers(matters=matters)).panels
    assert panels.cells_in_series == cells_for(panels.technology)


def test_one_large_panel_costs_less_than_many_small_ones_of_its_area():
    for area, count in itertools.product((12.0, 60.0), (2, 4, 16)):
        one = panels_price(1, area * count, "amorphous")
        assert one < panels_price(count, area, "amorphous")


def test_a_charger_gives_a_cell_no_more_than_it_takes_in_the_cold():
    design = Design(panels=1, area_cm2=250.0, family="lithium_pouch", size=250.0)
    cold = scenario_from(Answers(place="facade", season="milder"), design)
    assert cold.light.ambient_C == 5.0
    # A pouch cell takes half an hour's rate warm, a fifth of that in the cool.
    assert cold.charger.output_limit_A == pytest.approx(
        cold.store.charge_limit_A * cold.store.cool_charge_share
    )


def test_what_was_assumed_of_place_work_and_margin_is_in_the_notes():
    of_parts = ("Panels:", "Store:", "Charger:", "Price:")
    for answers in SOME[::10]:
        notes = scenario_from(answers).notes
        lines = [line for line in assumptions(answers) if not line.startswith(of_parts)]
        assert len(lines) >= 4
        assert all(line in notes for line in lines)


def test_notes_stay_true_when_other_parts_are_taken():
    other = Design(panels=4, area_cm2=250.0, family="lithium_pouch", size=250.0)
    for answers in SOME[::10]:
        notes = scenario_from(answers).notes
        assert scenario_from(answers, other).notes == notes
        assert f"{START_DESIGN.area_cm2:g} cm²" not in notes
        assert START_DESIGN.store_family.title.lower() not in notes
        assert "converter" not in notes


def test_places_and_jobs_say_what_would_be_absurd():
    assert SPOTS["worn"].most_cm2 < 100.0
    assert all(job.most_cm2 <= 300.0 for job in JOBS.values())


def test_which_way_it_faces_is_asked_only_where_the_sun_can_reach_an_upright_panel():
    asked = {
        place: is_asked("facing", {"place": place, "season": "winter", "light": "usual"})
        for place in SPOTS
    }
    assert {place for place, is_it in asked.items() if is_it} == {"window", "facade"}
    assert not is_asked("facing", {"place": "facade", "season": "winter", "light": "measured"})


def test_a_wall_that_faces_the_sun_has_clear_days_after_a_row_of_dull_ones():
    north = light_of(Answers(place="facade", season="milder", facing="north"))
    south = light_of(Answers(place="facade", season="milder", facing="south"))
    dull = north.pattern.blocks[0].relative_level
    levels = {block.days: block.relative_level / dull for block in south.pattern.blocks}
    assert levels["mon", "tue", "wed", "thu"] == pytest.approx(1.0)
    # By hand: the sun of a clear noon meets a wall to the south with some 60 klx and an overcast
    # sky gives it 4 klx at the equinox: 15 times; of the day's mean 8 to 20.
    assert 8.0 < levels["sun",] < 20.0
    assert sum(len(days) for days in levels) == 7


def test_in_a_year_the_sun_shines_on_a_wall_that_faces_it():
    noon = Answers(place="facade", facing="south", region="south")
    assert light_of(noon).pattern.place.azimuth_deg == 0.0
    for region in ("north", "south"):
        faced = Answers(place="facade", facing="south", region=region)
        away = replace(faced, facing="north")
        assert monthly(faced).min() > 3.0 * monthly(away).min()


def test_what_was_assumed_of_the_facing_is_said():
    milder = Answers(place="facade", season="milder")
    said = [line for line in assumptions(replace(milder, facing="side"))
            if line.startswith("Facing")]  # fmt: skip
    assert "4 overcast days in a row" in said[0]
    assert "Facing: no sunny day is counted; every day is overcast." in assumptions(milder)
    year = Answers(place="facade", facing="side")
    assert any("of seven days 4 are overcast" in line for line in assumptions(year))
    assert any("overcast on every day" in line for line in assumptions(Answers(place="facade")))
    assert not any(line.startswith("Facing") for line in assumptions(Answers(place="desk")))
