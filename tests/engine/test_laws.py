"""The laws of a motion: the solutions of the equation, alike for one value and for arrays."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from explorer.engine import laws

SPEEDS = st.floats(1e-9, 1e3)
SLOPES = st.floats(-50.0, 50.0) | st.floats(-1e-7, 1e-7)


@given(st.floats(-1e3, 1e3), SLOPES, st.floats(0.0, 10.0))
def test_a_place_drifts_as_the_integral_of_its_speed(speed, slope, seconds):
    exact = speed * quad(lambda t: np.exp(slope * t), 0.0, seconds)[0]
    assert laws.drift(speed, slope, seconds) == pytest.approx(exact, rel=1e-7, abs=1e-12)


@given(st.floats(0.0, 10.0), st.floats(1e-2, 1e2), st.floats(1e-2, 1e2))
def test_a_width_is_crossed_in_the_integral_of_the_inverse_speed(width, begin, end):
    exact = width * quad(lambda share: 1.0 / (begin + (end - begin) * share), 0.0, 1.0)[0]
    assert laws.crossing(width, begin, end) == pytest.approx(exact, rel=1e-7)


@given(st.lists(st.tuples(SPEEDS, SLOPES, st.floats(0.0, 10.0)), min_size=1, max_size=5))
def test_arrays_drift_like_single_places(places):
    speed, slope, seconds = np.array(places).T
    alone = [laws.drift(*place) for place in places]
    assert laws.drifts(speed, slope, seconds) == pytest.approx(alone, rel=1e-12)


@given(st.lists(st.tuples(st.floats(0.0, 10.0), SPEEDS, SPEEDS), min_size=1, max_size=5))
def test_arrays_are_crossed_like_single_widths(places):
    width, begin, end = np.array(places).T
    alone = [laws.crossing(*place) for place in places]
    assert laws.crossings(width, begin, end) == pytest.approx(alone, rel=1e-12)
    assert laws.crossings(width, -begin, -end) == pytest.approx(alone, rel=1e-12)


def test_a_width_that_turns_the_motion_round_is_never_crossed():
    begin, end = np.array([1.0, 1.0, 0.0, -1.0]), np.array([-1.0, 0.0, 1.0, 1.0])
    assert np.all(laws.crossings(np.ones(4), begin, end) == np.inf)
    assert np.all(laws.crossings(np.zeros(4), begin, end) == 0.0)


def test_an_endless_drift_ends_where_the_speed_does():
    assert laws.drifts(np.array([2.0]), np.array([-0.5]), np.array([np.inf])) == [4.0]
    assert laws.drifts(np.array([2.0]), np.array([0.0]), np.array([np.inf])) == [np.inf]
