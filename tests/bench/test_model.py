"""Time of the model alone: marches, and the whole assessment behind one move of a slider."""

import tracemalloc

import numpy as np
import pytest

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.engine.march import Engine
from explorer.engine.trace import Trace
from explorer.scenario.build import build
from explorer.scenario.model import with_value
from tests.bench.conftest import minute_pulses, opened

WEEK_S, YEAR_S = 604_800.0, 365 * 86_400.0
SCENARIOS = (
    "door_counter",
    "plant_label",
    "seminar_room_co2",
    "soil_probe",
    "vent_flap",
    "watering_valve",
)


SPANS = pytest.mark.parametrize(
    ("span_s", "what", "budget"),
    [(WEEK_S, "week", "3 ms"), (YEAR_S, "year", "60 ms")],
    ids=["week", "year"],
)
LIGHTS = pytest.mark.parametrize(
    ("lux", "light"), [(650.0, "never full"), (1500.0, "full each day")], ids=["650 lx", "1500 lx"]
)


@LIGHTS
@SPANS
def test_pulses_every_minute_from_scratch(benchmark, spread, span_s, what, budget, lux, light):
    """Tables built afresh each time, as after a move of a slider; then the picture to draw."""
    system = minute_pulses(lux)

    def run():
        engine = Engine(system)
        return Trace(engine, engine.march(span_s)).picture(0.0, span_s, 1000)

    found = benchmark(run)
    spread(f"{what} of one-minute pulses, {light}, from scratch to 1000 columns")
    assert np.all(np.isfinite(found.low_v))


@LIGHTS
@SPANS
def test_pulses_every_minute(benchmark, spread, span_s, what, budget, lux, light):
    """The march alone, its tables built before."""
    engine = Engine(minute_pulses(lux))
    engine.march(span_s)
    run = benchmark(engine.march, span_s)
    spread(f"{what} of one-minute pulses, {light}, march alone, {len(run.legs)} legs", budget)
    assert run.tally.served[0] > 0.99 * span_s / 60.0


@pytest.mark.parametrize("name", SCENARIOS)
def test_assess(benchmark, spread, name):
    """Six checks, all answers and the trace; a value moves each time, so nothing is kept."""
    scenario, light_log = opened(name)
    level = scenario.light.illuminance_lx or light_log.mean_lit_lx
    moves = [
        with_value(scenario, "light.illuminance_lx", level * (1 + k * 1e-3)) for k in range(50)
    ]
    turn = iter(range(10**9))
    found = benchmark(lambda: assess(Case(moves[next(turn) % 50], light_log)))
    spread(f"assess {name}")
    assert len(found.verdict.checks) == 6


def test_build(benchmark, spread):
    """From a scenario to what the engine runs."""
    system = benchmark(build, opened("soil_probe")[0])
    spread("build a system from a scenario")
    assert system.load.operations


def test_memory_of_an_assessment(benchmark, tell):
    """What is held after forty moves, and the most that one assessment takes."""
    scenario, _ = opened("soil_probe")
    moves = [with_value(scenario, "light.illuminance_lx", 300.0 + k) for k in range(40)]
    for move in moves[:10]:
        assess(Case(move))
    tracemalloc.start()
    before = tracemalloc.get_traced_memory()[0]

    def drag():
        for move in moves:
            assess(Case(move))

    benchmark.pedantic(drag, rounds=1, iterations=1)
    after, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    tell(
        f"memory: {(after - before) / 1e3:.0f} kB more after 40 assessments, "
        f"{(peak - before) / 1e6:.1f} MB at most during one"
    )
