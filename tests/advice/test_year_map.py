"""The map of a design in a year says of the design what the sign says."""

import numpy as np

from explorer.advice import territory_year
from explorer.advice.asked import verdict_with
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.territory import axis_of
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder

CODES = {"falls_short": 0, "marginal": 1, "runs": 2}
AREA, CAPACITY = "panels.active_area_cm2", "store.capacity_mAh"


def test_whole_years_at_the_nodes_and_levels_between_them(monkeypatch):
    monkeypatch.setattr(territory_year, "NODES", 2)
    scenario = load_scenario(scenario_folder() / "window_air_sensor.json").scenario
    case = Case(scenario)
    x = axis_of(scenario, AREA, 6.0, 24.0, points=5)
    y = axis_of(scenario, CAPACITY, 5.0, 80.0, points=5)
    *_, found = territory_year.territory_of_year(case, x, y, lambda: False)
    assert found.codes[2, 4] == CODES[judge(case).state] == 2
    assert [*np.flatnonzero(found.sure.any(axis=0))] == [0, 4]
    assert [*np.flatnonzero(found.sure.any(axis=1))] == [0, 2, 4]
    for j in (0, 2, 4):
        verdict = verdict_with(case, {AREA: x.values[0], CAPACITY: y.values[j]})
        assert found.codes[j, 0] == CODES[verdict.state]
        assert found.codes[j, 0] == (found.margin[j, 0] >= 1.0) + (found.reserve[j, 0] >= 1.0)
    between = np.log(found.reserve[2])
    assert np.ptp(np.diff(between)) < 1e-9


def test_a_map_of_a_year_stops_when_told():
    scenario = load_scenario(scenario_folder() / "window_air_sensor.json").scenario
    x, y = axis_of(scenario, AREA, 6.0, 24.0), axis_of(scenario, CAPACITY, 5.0, 80.0)
    assert not [*territory_year.territory_of_year(Case(scenario), x, y, lambda: True)]
