"""Days that are alike: a run copies one that left all as it found it, and comes out the same."""

from dataclasses import astuple

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.engine.march import Engine
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_values

WEEK_S, DAY_S = 7 * 86_400.0, 86_400.0
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri")


def engine_of(name, **changes):
    scenario = load_scenario(scenario_folder() / f"{name}.json").scenario
    changes = {path.replace("__", "."): value for path, value in changes.items()}
    return Engine(Case(with_values(scenario, changes)).system)


def both(engine, span_s):
    """One march that copies days, and one that walks through each."""
    copied, days = engine.march(span_s), engine.days
    engine.days = {}
    walked = engine.march(span_s)
    engine.days = days
    return copied, walked


@pytest.mark.parametrize(("name", "changes"), [
    ("plant_label", {}),
    ("watering_valve", {"light__illuminance_lx": 900.0}),
    ("door_counter", {"light__illuminance_lx": 3000.0}),
    ("door_counter", {"light__illuminance_lx": 3000.0,
                      "load__operations__0__schedule__days": WEEKDAYS}),
    ("door_counter", {"light__illuminance_lx": 3000.0,
                      "load__operations__0__schedule__days": ("tue", "wed", "sat", "sun")}),
    ("soil_probe", {"light__illuminance_lx": 3000.0}),
])
def test_a_copied_day_is_the_day_that_would_have_come(name, changes):
    copied, walked = both(engine_of(name, **changes), 2 * WEEK_S)
    assert len(copied.legs) == len(walked.legs)
    ends = np.array([[leg.end_s for leg in run.legs] for run in (copied, walked)])
    assert np.abs(ends[0] - ends[1]).max() < 0.01
    charge = np.array([[leg.end_c for leg in run.legs] for run in (copied, walked)])
    assert np.abs(charge[0] - charge[1]).max() < 1e-7 * charge.max()
    assert [e.kind for e in copied.events] == [e.kind for e in walked.events]
    served, *counts = astuple(walked.tally)
    assert copied.tally.served == pytest.approx(served, rel=1e-6)
    assert astuple(copied.tally)[1:] == pytest.approx(counts, rel=1e-6)
    one, other = copied.end.pending, walked.end.pending
    assert one.starts_s == pytest.approx(other.starts_s, abs=1e-5)


def test_days_are_copied_at_all():
    engine = engine_of("plant_label")
    copied = engine.march(WEEK_S)
    mornings = [leg for leg in copied.legs if leg.begin_s % DAY_S == 8 * 3600.0]
    assert len(mornings) == 7
    # Legs of a copied day are those of the day before, later: their charges are the very same.
    assert mornings[-1].begin_c == mornings[-2].begin_c


def test_days_are_alike_where_light_and_windows_are():
    assert {a.times for a in engine_of("plant_label").days.values()} == {1, 2, 3, 4, 5}
    shorter = engine_of("plant_label", **{
        "load__operations__0__schedule__from_h": 9.0, "load__operations__0__schedule__to_h": 17.0,
        "load__operations__0__schedule__days": WEEKDAYS,
    })
    # Five days with a window: the fourth day after Monday is the last that is as the one before.
    assert max(a.times for a in shorter.days.values()) < 5
    assert engine_of("vent_flap").days == {}


def test_a_day_before_one_without_its_window_is_not_like_the_others():
    """Light on six days, a window on four of them: whoever copied on would serve on a Saturday."""
    engine = engine_of("door_counter", light__illuminance_lx=3000.0,
                       load__operations__0__schedule__days=("mon", "tue", "wed", "thu"))
    (one, _), (two, walked) = both(engine, WEEK_S), both(engine, 2 * WEEK_S)
    assert two.tally.served == walked.tally.served
    assert two.tally.served[0] - one.tally.served[0] == 4 * 9 * 60
