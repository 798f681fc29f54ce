"""Which build lives through a year: bounds by energy first, whole years in the end."""

import numpy as np
import pytest

from explorer.advice.build_front import Wanted
from explorer.advice.builds import search
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.year.prospects import prospects_of_year
from explorer.scenario.model import size_path, with_values
from tests.advice.demos import demo
from tests.advice.years import plant_label
from tests.depth import some, thorough

YEARS = ("window_air_sensor", "north_door_counter")


@thorough
@pytest.mark.parametrize(("name", "closure_days"), [(YEARS[0], 0.0), (YEARS[1], 20.0)])
def test_no_design_does_better_than_its_prospects(name, closure_days):
    """Stores and panels of several sizes: whole years beside the bounds, a closure among them."""
    scenario = with_values(demo(name)[0], {"margins.closure_days": closure_days})
    path = size_path(scenario)
    now = getattr(scenario.store, path.rpartition(".")[2]), scenario.panels.active_area_cm2
    factors = np.array(some([[0.5, 0.75], [1.0, 0.5], [0.75, 0.25], [3.0, 1.0]], 2))
    changes = {path: now[0] * factors[:, 0], "panels.active_area_cm2": now[1] * factors[:, 1]}
    at_most = prospects_of_year(Case(scenario), changes)
    for k, bound in enumerate(at_most.tolist()):
        one = {key: float(values[k]) for key, values in changes.items()}
        checks = {c.name: c for c in judge(Case(with_values(scenario, one))).checks}
        reached = min(checks[n].margin / checks[n].wanted for n in ("balance", "dark"))
        assert reached <= bound * 1.005 or checks["ratings"].margin < 1.0
        assert bound < 4.0 * reached  # it rules something out


def test_a_part_beyond_its_rating_has_no_prospects():
    case = plant_label()
    full = case.scenario.charger.full_V / case.scenario.store.units_in_series
    found = prospects_of_year(case, {"store.rated_V": np.array([0.5, 1.5]) * full})
    assert found[0] == 0.0
    assert found[1] > 0.0


def test_the_front_of_a_year_is_found_by_whole_years_and_no_check_refuses_it():
    """The darkest weeks, again and again, would leave nothing: they hold a fortnight's closure."""
    case = Case(demo("window_air_sensor")[0])
    *_, found = search(case, wanted=Wanted(price=3.5, panel_cm2=10.0))
    assert found.is_done
    assert found.front
    for build in found.front:
        assert build.scenario.light.pattern == case.scenario.light.pattern
        assert judge(Case(build.scenario)).state == build.verdict.state == "runs"
