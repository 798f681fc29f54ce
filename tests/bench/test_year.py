"""Time of a year of daylight: its verdict after a move of a slider, all answers, and an edge."""

from time import perf_counter

import pytest

from explorer.advice.assess import assess
from explorer.advice.break_even import break_even
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.stops import stops_of
from explorer.scenario.model import size_path, with_value
from tests.bench.conftest import opened

YEARS = ("north_door_counter", "window_air_sensor")
MOVES = 20


def moved(name, path=None):
    """The same design with another value each time, so that no march is kept."""
    scenario, _ = opened(name)
    path = path or size_path(scenario)
    now = getattr(scenario.store, path.rpartition(".")[2])
    return [Case(with_value(scenario, path, now * (1 + k * 1e-3))) for k in range(1, MOVES + 1)]


@pytest.mark.parametrize("name", YEARS)
def test_the_verdict_and_all_answers_of_a_year(benchmark, spread, tell, name):
    """The light of the year is known, as after a move of any slider but the place's."""
    judge(Case(opened(name)[0]))
    cases = iter(moved(name))
    benchmark.pedantic(lambda: judge(next(cases)), rounds=MOVES)
    middle = spread(f"verdict on a year, {name}", "250 ms")
    begun = perf_counter()
    for case in moved(name)[:5]:
        assess(case)
    tell(f"all answers of {name} take {(perf_counter() - begun) / 5 / middle:.1f} x its verdict")


@pytest.mark.parametrize("name", YEARS)
def test_the_edges_of_a_knob_in_a_year(benchmark, spread, tell, name):
    """How many verdicts an answer of the store's knob costs, in time."""
    scenario, _ = opened(name)
    begun = perf_counter()
    for case in moved(name)[:5]:
        judge(case)
    verdict_s = (perf_counter() - begun) / 5
    path = size_path(scenario)
    benchmark.pedantic(
        lambda: break_even(Case(scenario), path, stops_of(path)), rounds=1, iterations=1
    )
    whole_s = spread(f"edges of the store in a year, {name}")
    tell(f"which is {whole_s / verdict_s:.1f} x a verdict")
