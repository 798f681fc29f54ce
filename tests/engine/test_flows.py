"""Motion along a tabulated speed: exact, composable, reversible in time of travel."""

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from explorer.engine.cycles import FlowMap
from explorer.engine.flows import BlendedFlow, Flow

# Six orders of magnitude in one motion; more has a test of its own.
SPEEDS = st.integers(-2_000_000, 2_000_000).map(lambda n: n * 1e-6)


@st.composite
def flows(draw, rising=False):
    """Nodes from 0 to 1 and any speeds; now and then a place where the speed jumps."""
    count = draw(st.integers(2, 8))
    inner = sorted(draw(st.lists(st.floats(0.05, 0.95), min_size=count, max_size=count)))
    nodes = np.array([0.0, *inner, 1.0])
    if draw(st.booleans()):
        nodes[2] = nodes[1]
    # Two nodes nearer than a rounding error would be one threshold named twice.
    close = np.diff(nodes)
    nodes = nodes[np.concatenate([[True], (close == 0.0) | (close > 1e-6)])]
    sign = st.floats(1e-3, 2.0) if rising else SPEEDS
    speed = np.array(draw(st.lists(sign, min_size=len(nodes), max_size=len(nodes))))
    if not rising:
        speed[0] = max(speed[0], 0.0)
        speed[-1] = min(speed[-1], 0.0)
    return Flow(nodes, speed)


POSITIONS = st.integers(0, 10**9).map(lambda n: n * 1e-9)
TIMES = st.one_of(st.floats(0.0, 5.0), st.floats(0.0, 1e4))


@given(flows(), POSITIONS, TIMES, TIMES)
def test_moving_twice_is_moving_once_for_the_whole_time(flow, x, first, second):
    once = flow.advance(x, first + second)
    middle = flow.advance(x, first)
    # Next to a place that pushes away on both sides a rounding decides; so it does on arrival.
    low, high = (flow.advance(middle + nudge, second) for nudge in (-1e-9, 1e-9))
    assert low - 1e-9 <= once <= high + 1e-9
    assert low - 1e-9 <= flow.advance(middle, second) <= high + 1e-9


@given(flows(), st.lists(POSITIONS, min_size=1, max_size=6), TIMES)
@example(Flow(np.array([0.0, 0.4, 1.0]), np.array([1.0, 0.0, -1.0])), [0.4], 0.1)
@example(Flow(np.array([0.0, 0.6, 1.0]), np.array([0.0, 1.0, 0.0])), [1.0], 0.1)
def test_many_at_once_move_like_each_alone(flow, begins, seconds):
    together = flow.advance_all(np.array(begins), seconds)
    alone = [flow.advance(x, seconds) for x in begins]
    assert together == pytest.approx(alone, abs=1e-12)
    path = flow.path(begins[0], np.array([0.0, seconds / 3.0, seconds]))
    assert path[-1] == pytest.approx(alone[0], abs=1e-12)


@given(flows(), POSITIONS, st.floats(1e-3, 20.0))
def test_time_to_a_place_is_the_inverse_of_moving_there(flow, x, seconds):
    end = flow.advance(x, seconds)
    if end == x:
        return
    needed = flow.time_to(x, end)
    if needed == np.inf:
        # A rounding away from rest: strictly, rest is never reached.
        assert flow.advance(x, 10.0 * seconds) == pytest.approx(end, abs=1e-9)
        return
    assert flow.advance(x, needed) == pytest.approx(end, abs=1e-9)
    if abs(flow.advance(end, 1e-3) - end) > 1e-4:
        assert needed == pytest.approx(seconds, rel=1e-5)


@given(flows(), POSITIONS, POSITIONS)
def test_a_place_that_is_never_reached_takes_for_ever(flow, x, target):
    needed = flow.time_to(x, target)
    if np.isfinite(needed):
        assert flow.advance(x, needed) == pytest.approx(target, abs=1e-9)
    else:
        end = flow.advance(x, 1e6)
        assert (end - target) * (x - target) >= -1e-9


@given(flows(), POSITIONS, POSITIONS, TIMES)
def test_order_is_kept(flow, x, y, seconds):
    low, high = sorted((x, y))
    assert flow.advance(low, seconds) <= flow.advance(high, seconds) + 1e-12


@given(flows(), POSITIONS, TIMES, POSITIONS, POSITIONS)
def test_a_bound_is_met_in_time_or_not_at_all(flow, x, seconds, a, b):
    low, high = min(a, b, x), max(a, b, x)
    end, used = flow.run(x, seconds, low, high)
    assert low <= end <= high
    assert 0.0 <= used <= seconds
    if used < seconds:
        assert end in (low, high)
        assert flow.advance(x, used) == pytest.approx(end, abs=1e-9)
    else:
        assert flow.advance(x, seconds) == pytest.approx(end, abs=1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_motion_is_the_solution_of_its_equation(seed):
    # scipy's solve_ivp on the same piecewise linear speed
    rng = np.random.default_rng(seed)
    nodes = np.linspace(0.0, 1.0, 9)
    speed = rng.uniform(-1.0, 1.0, 9)
    speed[0], speed[-1] = abs(speed[0]), -abs(speed[-1])
    flow = Flow(nodes, speed)
    for begin in (0.05, 0.33, 0.71, 0.99):
        found = solve_ivp(
            lambda _, x: np.interp(x, nodes, speed),
            (0.0, 3.0),
            [begin],
            rtol=1e-11,
            atol=1e-12,
            max_step=0.02,
        )
        assert flow.advance(begin, 3.0) == pytest.approx(found.y[0, -1], abs=1e-7)


@given(flows(), flows(), st.floats(0.0, 1.0), POSITIONS, st.floats(0.0, 20.0))
@example(
    Flow(np.array([0.0, 1.0]), np.array([1.0, 1.0])),
    Flow(np.array([0.0, 1.0]), np.array([-1.0, -1.0])),
    0.5,
    0.3,
    1.0,
)
def test_blended_motion_is_motion_at_the_blended_speed(a, b, weight, x, seconds):
    b = Flow(a.nodes, np.interp(a.nodes, b.nodes, b.speed))
    mixed = Flow(a.nodes, (1.0 - weight) * a.speed + weight * b.speed)
    blend = BlendedFlow(a, b, weight)
    end, used = blend.run(x, seconds, -np.inf, np.inf)
    assert used == seconds
    assert end == pytest.approx(mixed.advance(x, seconds), abs=1e-9)
    low, high = 0.4 * x, x + 0.5 * (1.0 - x)
    assert blend.run(x, seconds, low, high) == pytest.approx(
        mixed.run(x, seconds, low, high), rel=1e-7, abs=1e-9
    )


# -- maps -----------------------------------------------------------------------------------------


def cycle_map(flow, seconds, nodes=200):
    grid = np.linspace(0.0, 1.0, nodes)
    return FlowMap(grid, flow.advance_all(grid, seconds) - grid)


@pytest.mark.parametrize("times", [1, 7, 333])
@pytest.mark.parametrize("seed", range(4))
def test_a_map_composed_with_itself_is_the_longer_motion(seed, times):
    rng = np.random.default_rng(seed)
    nodes = np.linspace(0.0, 1.0, 12)
    speed = np.cumsum(rng.uniform(-0.4, 0.4, 12))
    speed[0], speed[-1] = abs(speed[0]), -abs(speed[-1])
    flow = Flow(nodes, speed)
    once = cycle_map(flow, 0.2, nodes=800)
    slow = FlowMap(once.nodes, np.zeros_like(once.nodes))
    for _ in range(times):
        slow = slow.then(once)
    exact = flow.advance_all(once.nodes, 0.2 * times)
    assert slow(once.nodes) == pytest.approx(exact, abs=3e-4)


@settings(max_examples=40)
@given(flows(), st.floats(0.01, 3.0))
def test_a_map_of_a_motion_is_rising(flow, seconds):
    made = cycle_map(flow, seconds)
    assert np.all(np.diff(made(np.linspace(0.0, 1.0, 777))) >= -1e-12)


# -- pencil cases ---------------------------------------------------------------------------------


def test_constant_speed_is_a_straight_line():
    flow = Flow(np.linspace(0.0, 10.0, 5), np.full(5, 2.0))
    assert flow.advance(1.0, 3.0) == pytest.approx(7.0, rel=1e-14)
    assert flow.time_to(1.0, 7.0) == pytest.approx(3.0, rel=1e-14)
    assert flow.advance(9.0, 3.0) == 10.0


def test_speed_in_proportion_is_an_exponential():
    nodes = np.linspace(0.0, 5.0, 101)
    flow = Flow(nodes, -nodes / 20.0)
    assert flow.advance(5.0, 20.0) == pytest.approx(5.0 / np.e, rel=1e-12)
    assert flow.time_to(5.0, 5.0 / np.e) == pytest.approx(20.0, rel=1e-12)
    assert flow.time_to(5.0, 0.0) == np.inf


def test_rest_lies_where_the_speed_changes_sign():
    flow = Flow(np.array([0.0, 1.0, 2.0, 3.0]), np.array([3.0, 1.0, -1.0, -3.0]))
    for begin in (0.0, 1.49, 1.5, 1.51, 3.0):
        assert flow.advance(begin, 1e9) == pytest.approx(1.5, abs=1e-9)
        assert flow.advance(begin, 40.0) == pytest.approx(1.5, abs=1e-9)


def test_a_jump_that_pushes_back_from_both_sides_holds():
    # As a cold start that lifts the store to where normal running cannot hold it.
    flow = Flow(np.array([0.0, 1.0, 1.0, 2.0]), np.array([1.0, 1.0, -1.0, -1.0]))
    for begin in (0.2, 1.0, 1.7):
        assert flow.advance(begin, 10.0) == 1.0
        assert flow.advance_all(np.array([begin]), 10.0) == [1.0]
    assert flow.time_to(0.0, 1.0) == pytest.approx(1.0)
    assert flow.time_to(0.0, 1.5) == np.inf
    assert flow.time_to(2.0, 0.5) == np.inf


def test_a_jump_between_two_rates_is_passed():
    flow = Flow(np.array([0.0, 1.0, 1.0, 2.0]), np.array([1.0, 1.0, 4.0, 4.0]))
    assert flow.advance(0.5, 0.75) == pytest.approx(2.0)
    assert flow.time_to(0.5, 2.0) == pytest.approx(0.75)
    down = Flow(np.array([0.0, 1.0, 1.0, 2.0]), np.array([-1.0, -1.0, -4.0, -4.0]))
    assert down.advance(2.0, 0.75) == pytest.approx(0.5)
    assert down.time_to(2.0, 0.5) == pytest.approx(0.75)


def test_speeds_many_orders_apart_are_crossed_in_finite_time():
    # A cell from 1 down to 1e-17 takes the logarithm of 1e17; one of no speed is never left.
    flow = Flow(np.array([0.0, 1.0, 2.0]), np.array([1.0, 1e-17, 1e-17]))
    assert flow.time_to(0.0, 0.999999) == pytest.approx(np.log(1e6), rel=1e-6)
    assert flow.travel[1] == pytest.approx(17.0 * np.log(10.0), rel=1e-12)
    still = Flow(np.array([0.0, 1.0, 2.0]), np.array([1.0, 1e-310, 1e-310]))
    assert still.time_to(0.0, 2.0) == np.inf
    assert still.advance(0.0, 1e9) == pytest.approx(1.0)


@pytest.mark.parametrize("seed", range(20))
def test_a_motion_in_the_mirror_goes_as_far_the_other_way(seed):
    """Up and down are walked by different lines: one must be the mirror image of the other."""
    chance = np.random.default_rng(seed)
    nodes = np.cumsum(chance.uniform(0.05, 1.0, 12))
    speed = chance.uniform(0.01, 5.0, 12) * (1.0 if seed % 2 else chance.choice([-1.0, 1.0], 12))
    there, mirrored = Flow(nodes, speed), Flow(-nodes[::-1], -speed[::-1])
    for x in chance.uniform(nodes[0], nodes[-1], 20).tolist():
        low, high = sorted(chance.uniform(nodes[0], nodes[-1], 2).tolist())
        for seconds in (1e-4, 0.02, 0.3, 4.0):
            bounds = (low, high) if low < x < high else (nodes[0] - 1.0, nodes[-1] + 1.0)
            end, used = there.run(x, seconds, *bounds)
            back, passed = mirrored.run(-x, seconds, -bounds[1], -bounds[0])
            assert back == pytest.approx(-end, rel=1e-9, abs=1e-12)
            assert passed == pytest.approx(used, rel=1e-9)
