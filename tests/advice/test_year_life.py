"""What a year does to the store follows from what it goes through."""

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.advice.year.life import as_new, life, verdict_turn, worn_after
from explorer.advice.year.study import Lived, lived, seasons_of, wear_of
from explorer.physics.ageing import YEAR_H
from explorer.scenario.model import Scenario, with_values
from tests.advice.years import daylight, in_a_year, plant_label
from tests.depth import thorough


def test_ten_degrees_more_take_twice_the_life_of_a_bank():
    store = plant_label().scenario.store
    volts = np.full(100, 4.5)
    cool, warm = (store.wear_per_year(np.full(100, t), volts, 0.0) for t in (15.0, 25.0))
    assert warm == pytest.approx(2.0 * cool)
    # 1000 h at 65 degC and 2.7 V; at 25 degC 2^4 times as long, at 2.25 V of two cells 1.3^4.5.
    assert warm == pytest.approx(YEAR_H / (1000.0 * 2.0**4 * 1.3**4.5), rel=1e-6)


def test_half_a_year_hot_and_half_cold_wears_more_than_a_mild_one():
    store = plant_label().scenario.store
    volts = np.full(100, 4.5)
    mild = store.wear_per_year(np.full(100, 20.0), volts, 0.0)
    wild = store.wear_per_year(np.repeat([0.0, 40.0], 50), volts, 0.0)
    assert wild == pytest.approx(mild * (0.25 + 4.0) / 2.0)


def test_a_cell_wears_by_cycles_and_by_the_calendar():
    cell = with_values(Scenario(), {"store": {"kind": "cell", "cycles_to_end": 500.0,
                                              "fade_per_year": 0.02}}).store
    at_25 = np.full(10, 25.0)
    still = cell.wear_per_year(at_25, at_25, 0.0)
    assert still == pytest.approx(0.02 / 0.2)
    assert cell.wear_per_year(at_25, at_25, 50.0) == pytest.approx(still + 50.0 / 500.0)


@thorough
def test_an_old_store_is_as_worn_in_every_month():
    case = in_a_year(plant_label().scenario, daylight(), **{"store.years_in_service": 8.0})
    farads = {float(e.system.store.capacitance_f) for e in seasons_of(case)[1].engines}
    new = float(seasons_of(plant_label())[1].engines[0].system.store.capacitance_f)
    assert len(farads) == 1
    assert wear_of(case) == pytest.approx(8.0 * life(plant_label()).wear_per_year)
    assert farads.pop() == pytest.approx(new * worn_after(plant_label(), 8.0).size_share)


def test_cycles_are_what_is_taken_out():
    found: Lived = lived(plant_label())
    nights = 365
    # A night takes about a tenth of what is in the store; each hour counts by itself.
    assert 0.05 * nights < found.cycles < 0.3 * nights
    assert len(found.store_v) == 8760


def test_the_verdict_turns_with_age_and_not_before(monkeypatch):
    monkeypatch.setattr("explorer.advice.year.life.AGES", (1, 7))
    scenario = plant_label().scenario
    place = {"kind": "indoors", "daylight_factor": 0.03, "sun": "sky_alone"}
    hot = daylight((38.0,) * 12, place=place)
    case: Case = in_a_year(scenario, hot, **{"panels.count": 2})
    turn = verdict_turn(case)
    assert turn.new != "falls_short"
    assert turn.years == 7
    assert turn.then == "falls_short"
    worn = worn_after(case, 5.0)
    assert worn.size_share < 0.7
    assert worn.resistance_ratio > 2.0
    assert as_new(case) is case
