"""Averaged, composed, leaped and walked pulses are one and the same where they meet."""

import numpy as np
import pytest

from explorer.engine.course import Standing
from explorer.engine.cycles import GENERATOR_TOLERANCE_V, FlowMap
from explorer.engine.march import Engine
from explorer.engine.motions import AVERAGED_BELOW_V
from explorer.physics.load import Draw
from tests.engine.systems import (
    CRYSTALLINE,
    SCHOTTKY,
    bank,
    converter,
    load,
    pulse,
    steady,
    system,
)

LIGHT_A = 200e-6
INTERVAL_S = 10.0
SIZES_F = (2e-4, 1e-3, 4.7e-3, 0.01, 0.022, 0.05, 0.1, 0.5, 1.0, 4.0, 6.0, 10.0)
CHARGERS = {"diode": SCHOTTKY, "converter": converter()}


def sender(farad, charger, **changes):
    """Sends 10 mA for 50 ms every 10 s: half a millicoulomb."""
    given = {
        "light": steady(LIGHT_A),
        "panel": CRYSTALLINE,
        "charger": charger,
        "store": bank(farad, esr_ohm=0.3, leakage_a=1e-6),
        "load": load(
            connect_v=3.2,
            off_v=2.4,
            sleep=Draw(current_a=3e-6),
            operations=(pulse(0.01, 0.05, INTERVAL_S),),
        ),
    }
    return system(**{**given, **changes})


def way(engine, run):
    """How the pulses of a run were taken."""
    if engine.averaged[0]:
        return "averaged"
    taken = {
        "generator" if leg.cycles[0].smooth_span(leg.begin_c) else "leaped"
        for leg in run.legs
        if leg.cycles is not None
    }
    return taken.pop() if len(taken) == 1 else ("mixed" if taken else "walked")


def both(given, farad, span_s, begin_v=3.3):
    start = Standing(charge_c=farad * begin_v, connected=True)
    engines = [Engine(given, compose=c) for c in (True, False)]
    return [(e, e.march(span_s, start)) for e in engines]


@pytest.mark.parametrize("charger", CHARGERS)
@pytest.mark.parametrize("farad", SIZES_F)
def test_composed_pulses_end_where_walked_ones_do(farad, charger):
    given = sender(farad, CHARGERS[charger])
    (engine, quick), (_, slow) = both(given, farad, 1800.0)
    volts = [float(engine.field.voltage_at(r.end.charge_c)) for r in (quick, slow)]
    # Below a millifarad a course may chatter at full; elsewhere microvolts.
    allowed = 1e-3 if volts[1] > 4.9 else 1e-5
    assert volts[0] == pytest.approx(volts[1], abs=allowed)
    assert quick.tally.served == pytest.approx(slow.tally.served, abs=1e-6)
    assert quick.tally.cut_offs == slow.tally.cut_offs


def test_every_way_is_taken_by_some_size_and_the_sizes_overlap():
    ways = []
    for farad in SIZES_F:
        (engine, quick), _ = both(sender(farad, CHARGERS["converter"]), farad, 300.0)
        ways.append(way(engine, quick))
    assert ways[0] == "walked"
    assert "leaped" in ways
    assert "generator" in ways
    assert ways[-1] == "averaged"


@pytest.mark.parametrize("share", [0.9, 1.1])
def test_either_side_of_the_limit_of_averaging_is_the_same_within_it(share):
    coulomb = 0.01 * 0.05
    farad = coulomb / (AVERAGED_BELOW_V * share)
    given = sender(farad, CHARGERS["diode"])
    (engine, quick), (_, slow) = both(given, farad, 36_000.0)
    assert engine.averaged[0] is (share < 1.0)
    off = abs(quick.end.charge_c - slow.end.charge_c) / farad
    assert off < AVERAGED_BELOW_V


@pytest.mark.parametrize("farad", [0.01, 0.1, 1.0])
def test_the_generator_is_the_repeated_map_and_the_walk(farad):
    engine = Engine(sender(farad, CHARGERS["converter"]))
    cycle = engine.cycle(LIGHT_A, True, (), 0)
    begin = farad * np.array([2.8, 3.3, 4.1])
    for times in (1, 5, 37):
        by_map = begin
        for _ in range(times):
            by_map = cycle.map(by_map)
        by_generator = cycle.generator.advance_all(begin, times * cycle.length_s)
        allowed = 2e-5 + times * GENERATOR_TOLERANCE_V
        assert by_generator / farad == pytest.approx(by_map / farad, abs=allowed)
        for charge, expected in zip(begin, by_map, strict=True):
            reached, count = cycle.leap(charge, times, 0.0, np.inf)
            assert count == times
            assert reached / farad == pytest.approx(expected / farad, abs=2e-5)
            walker = Engine(sender(farad, CHARGERS["converter"]), compose=False)
            start = Standing(charge_c=float(charge), connected=True)
            walked = walker.march(times * INTERVAL_S, start)
            assert walked.end.charge_c / farad == pytest.approx(expected / farad, abs=2e-5)


def test_a_leap_stops_before_the_bound_that_the_next_cycle_would_pass():
    farad = 0.01
    engine = Engine(sender(farad, CHARGERS["diode"], light=steady(0.0)))
    cycle = engine.cycle(0.0, True, (), 0)
    low = farad * 3.0
    reached, count = cycle.leap(farad * 3.3, 10_000, low, np.inf)
    assert reached >= low
    assert float(cycle.map(reached)) < low
    assert 0 < count < 10_000


def test_a_cycle_says_how_low_its_pulse_pulls_the_terminals():
    # 10 mA over 0.3 ohm is 3 mV; half a millicoulomb off 10 mF is 50 mV; 3 µA of sleep for the
    # other 9.95 s take less than the resistance gives back.
    farad = 0.01
    store = bank(farad, esr_ohm=0.3)
    engine = Engine(sender(farad, CHARGERS["diode"], light=steady(0.0), store=store))
    cycle = engine.cycle(0.0, False, (), 0)
    at = int(np.argmin(np.abs(cycle.nodes / farad - 3.3)))
    sleeping = 3e-6 * 0.05 / farad + 3e-6 * 0.3
    assert cycle.nodes[at] / farad - cycle.terminal_min_v[at] == pytest.approx(
        0.053 + sleeping, abs=1e-6
    )
    assert cycle.map.displacement[at] / farad == pytest.approx(-0.05 - 3e-5 / farad, abs=1e-9)


def test_a_map_says_the_same_of_one_charge_and_of_many():
    chance = np.random.default_rng(3)
    nodes = np.cumsum(chance.uniform(0.01, 1.0, 50))
    given = FlowMap(nodes, chance.normal(0.0, 0.01, 50))
    charge = np.concatenate([nodes, chance.uniform(nodes[0] - 1.0, nodes[-1] + 1.0, 100)])
    one_by_one = [given.at(q) for q in charge.tolist()]
    assert one_by_one == pytest.approx(given(charge), rel=1e-12)
