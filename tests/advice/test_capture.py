"""A captured cycle as few phases: the charge is exact and the droop is kept in every store."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from explorer.advice.capture.droop import hull_of, worst_error
from explorer.advice.capture.habit import habit
from explorer.advice.capture.operation import taken
from explorer.advice.capture.phases import MOST_PHASES, reduced
from explorer.advice.capture.record import captured
from explorer.scenario.demand import Every, Load, Operation, WhenReady
from tests.advice.captures import KINDS, cycles, one_cycle
from tests.depth import THOROUGH

RESISTANCES = np.array([1e-3, 0.01, 0.1, 1.0])
CAPACITANCES = np.array([1e-5, 1e-4, 1e-3, 0.1, 1.0, 100.0])
"""Every corner of what is promised, 10 µF behind 1 Ω and 100 F behind 1 mΩ among them."""


def deepest(edges_s, current_a, esr, capacitance):
    """Lowest that a store stands below where it began, worst moment, straight from the law."""
    drawn = np.cumsum(current_a * np.diff(edges_s))
    return float(np.max(esr * current_a + drawn / capacitance))


def capture_edges(cycle):
    return np.append(cycle.time_s, cycle.span_s)


def flows_back(cycle):
    """Largest charge that flows back, as a share; no phase can draw less than nothing."""
    drawn = cycle.charge_c()
    return np.max(drawn - np.minimum.accumulate(drawn[::-1])[::-1]) / drawn[-1]


def radio_train(*, period_s, readings, step_s, noise=0.0, jitter=0.0):
    """Bursts of 1 mA, 8 mA and 30 mA on 2 µA."""
    rng = np.random.default_rng(5)
    time = np.arange(readings) * step_s
    amps = np.full(readings, 2e-6)
    for n in range(int(readings * step_s / period_s) + 1):
        begin = (n + 0.3 + jitter * rng.uniform(-1, 1)) * period_s
        for lasts, height in ((3e-3, 1e-3), (2e-3, 8e-3), (1e-3, 30e-3)):
            amps[(time >= begin) & (time < begin + lasts)] = height
            begin += lasts
    return captured("train.csv", time, amps + noise * rng.standard_normal(readings))


@settings(max_examples=80 if THOROUGH else 20)
@given(cycle=cycles())
def test_charge_is_exact_and_the_deepest_droop_kept_in_every_store(cycle):
    assume(flows_back(cycle) < 0.002)
    found = reduced(cycle, habit(cycle))
    assert len(found.extra_a) <= MOST_PHASES
    edges, amps = found.steps()
    charge = np.sum(cycle.current_a * cycle.held_s)
    assert np.sum(amps * np.diff(edges)) == pytest.approx(charge, rel=1e-11)
    assert np.all(found.extra_a >= 0.0)
    assert np.all(np.diff(edges) > 0.0)
    assert edges[-1] == cycle.span_s
    for esr in RESISTANCES:
        for capacitance in CAPACITANCES:
            truth = deepest(capture_edges(cycle), cycle.current_a, esr, capacitance)
            mine = deepest(edges, amps, esr, capacitance)
            assert mine == pytest.approx(truth, rel=0.01)


@settings(max_examples=30)
@given(cycle=cycles(), log_tau=st.floats(-8, 2))
def test_the_error_told_is_the_worst_over_all_stores(cycle, log_tau):
    found = reduced(cycle, habit(cycle))
    edges, amps = found.steps()
    tau = 10.0**log_tau
    truth = deepest(capture_edges(cycle), cycle.current_a, tau, 1.0)
    miss = abs(deepest(edges, amps, tau, 1.0) / truth - 1.0)
    assert miss <= found.droop_error + 1e-4


@settings(max_examples=30)
@given(cycle=cycles(), log_tau=st.floats(-8, 2))
def test_the_hull_says_the_droop_of_every_store(cycle, log_tau):
    hull = hull_of(cycle.current_a, cycle.charge_c())
    truth = deepest(capture_edges(cycle), cycle.current_a, 10.0**log_tau, 1.0)
    assert float(hull.deepest(10.0**log_tau)) == pytest.approx(truth, rel=1e-4)
    assert np.all(np.diff(hull.charge_c) > 0)
    assert np.all(np.diff(hull.current_a) < 0)


def test_the_worst_error_is_that_of_the_store_that_sees_most_of_it():
    """30 A for 1 s against 20 A for 1.5 s: a store that is all resistance sees 1/3 less."""
    assert worst_error(
        hull_of(np.array([20.0]), np.array([30.0])), hull_of(np.array([30.0]), np.array([30.0]))
    ) == pytest.approx(1 / 3)


def test_plain_steps_come_back_as_they_were():
    train = radio_train(period_s=0.1, readings=200_000, step_s=1e-5)
    known = habit(train)
    found = reduced(train.between(known.from_s, known.to_s), known)
    assert found.extra_a + found.sleep_a == pytest.approx([1e-3, 8e-3, 30e-3], rel=1e-3)
    assert found.duration_s == pytest.approx([3e-3, 2e-3, 1e-3], rel=0.02)
    assert found.sleep_a == pytest.approx(2e-6, rel=1e-6)
    assert found.interval_s == pytest.approx(0.1, rel=1e-3)


def test_one_reading_of_a_spike_is_a_phase_of_its_own():
    """A microsecond of 2 A in a second of 1 mA: nothing to a capacitor, all to a resistance."""
    amps = np.full(100_000, 1e-3)
    amps[40_000] = 2.0
    cycle = captured("spike.csv", np.arange(100_000) * 1e-5, amps)
    found = reduced(cycle, habit(cycle))
    assert np.max(found.extra_a + found.sleep_a) == pytest.approx(2.0, rel=0.01)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_of_load_needs_few_phases_where_it_is_clean(kind):
    cycle = one_cycle(kind, seed=3, readings=20_000, span_s=1.0, noise=0.0)
    found = reduced(cycle, habit(cycle))
    assert found.droop_error <= 0.01
    assert len(found.extra_a) <= MOST_PHASES


@pytest.mark.parametrize("kind", ["inrush", "motor"])
def test_noise_that_needs_more_phases_than_there_are_makes_some_of_them_longer(kind):
    """Cut at its corners alone, either comes to lie 2 to 4 % off with all phases spent."""
    cycle = one_cycle(kind, seed=1, readings=500, span_s=1.0, noise=0.03)
    found = reduced(cycle, habit(cycle))
    assert found.droop_error <= 0.01
    assert len(found.extra_a) <= MOST_PHASES


@pytest.mark.parametrize(("noise", "jitter"), [(0.0, 0.0), (2e-4, 0.0), (1e-3, 0.002)])
def test_period_and_sleep_current_are_found(noise, jitter):
    train = radio_train(period_s=0.5, readings=600_000, step_s=1e-5, noise=noise, jitter=jitter)
    known = habit(train)
    assert known.period_s == pytest.approx(0.5, rel=0.001 + 3 * jitter)
    assert known.sleep_a == pytest.approx(2e-6, abs=1e-9 + noise / 100)
    # The cycle begins as the device wakes, and ends as it wakes again.
    assert known.from_s == pytest.approx(0.15, abs=0.002 + jitter)


def test_of_pulses_alike_in_pairs_the_pair_is_the_period():
    time = np.arange(300_000) * 1e-4
    amps = np.full(time.size, 1e-6)
    amps[(time % 3.0 >= 1.0) & (time % 3.0 < 1.02)] = 0.02
    amps[(time % 3.0 >= 1.5) & (time % 3.0 < 1.505)] = 0.02
    assert habit(captured("pairs.csv", time, amps)).period_s == pytest.approx(3.0, rel=1e-3)


@pytest.mark.parametrize("kind", ["inrush", "ringing", "ramp", "motor"])
def test_one_event_has_no_period(kind):
    assert habit(one_cycle(kind, seed=1, readings=20_000, span_s=1.0, noise=0.0)).period_s is None


def test_a_device_that_never_sleeps_has_no_sleep_current():
    steady = captured("steady.csv", np.arange(1000) * 1.0, np.full(1000, 5e-3))
    known = habit(steady)
    assert known.sleep_a is None
    found = reduced(steady, known)
    assert found.charge_error < 1e-11
    assert found.duration_s.sum() < found.interval_s


def test_a_cycle_is_cut_where_the_handles_stand_within_a_reading_too():
    """1 A for 1 s, then 3 A for 1 s; from 0.5 s to 1.25 s are 0.5 A s and 0.75 A s."""
    part = captured("two.csv", np.array([0.0, 1.0]), np.array([1.0, 3.0])).between(0.5, 1.25)
    assert part.charge_c() == pytest.approx([0.5, 1.25])
    assert part.span_s == 0.75


def test_a_cycle_outside_of_the_capture_is_refused():
    whole = captured("two.csv", np.array([0.0, 1.0]), np.array([1.0, 3.0]))
    with pytest.raises(ValueError, match="does not lie within the capture, which lasts 2 s"):
        whole.between(0.5, 2.5)


def test_a_cycle_that_takes_no_charge_is_refused():
    turned = captured("turned.csv", np.arange(10) * 1.0, np.full(10, -1e-3))
    with pytest.raises(ValueError, match="sign"):
        reduced(turned, habit(turned))


def test_a_single_event_runs_when_the_operation_ran_and_leaves_the_sleep_current():
    """5 mA for a second, nothing before and after: what it repeats is not known."""
    event = captured("event.csv", np.arange(100) * 0.01, np.full(100, 5e-3))
    found = reduced(event, habit(event))
    assert not found.rests
    schedule = WhenReady(ready_V=4.0)
    load = Load(sleep_A=2e-6, operations=(Operation(schedule=schedule),))
    (made,) = taken(load, found, "move", 0, keeps_schedule=True).operations
    assert made.schedule == schedule
    assert made.phases[0].current_A == pytest.approx(5e-3 - 2e-6, rel=1e-5)
    assert taken(load, found, "move", 0).operations[0].schedule == Every(interval_s=1.0)
    assert taken(load, found, "move").sleep_A == 2e-6


def test_a_cycle_stands_for_one_operation_for_all_or_beside_them():
    train = radio_train(period_s=0.1, readings=20_000, step_s=1e-5)
    known = habit(train)
    found = reduced(train.between(known.from_s, known.to_s), known)
    load = Load(operations=(Operation(name="a"), Operation(name="b")))
    for place, names in ((0, ["x", "b"]), (1, ["a", "x"]), (2, ["a", "b", "x"]), (None, ["x"])):
        after = taken(load, found, "x", place)
        assert [operation.name for operation in after.operations] == names
        assert after.sleep_A == pytest.approx(2e-6)
