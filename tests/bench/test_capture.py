"""Time of a captured current of ten million readings: found, cut, reduced, drawn."""

import numpy as np
import pytest

from explorer.advice.capture.extremes import extremes
from explorer.advice.capture.habit import habit
from explorer.advice.capture.phases import reduced
from explorer.advice.capture.record import captured

READINGS = 10_000_000


@pytest.fixture(scope="module")
def capture():
    """A hundred cycles of a second: a start of 1 mA, a burst of 30 mA, noise all along."""
    time = np.arange(READINGS) * 1e-5
    amps = 2e-6 + 1e-5 * np.random.default_rng(1).standard_normal(READINGS)
    moment = time % 1.0
    amps[(moment > 0.2) & (moment < 0.203)] += 1e-3
    amps[(moment >= 0.203) & (moment < 0.205)] += 30e-3
    return captured("long.csv", time, amps)


def test_sleep_and_period(benchmark, spread, capture):
    known = benchmark(habit, capture)
    spread("sleep current and period of ten million readings")
    assert known.period_s == pytest.approx(1.0, rel=1e-3)


@pytest.mark.parametrize("cycles", [1, 99], ids=["one cycle", "all of it"])
def test_phases(benchmark, spread, capture, cycles):
    known = habit(capture)
    part = capture.between(known.from_s, known.from_s + cycles)
    found = benchmark(reduced, part, known)
    spread(f"phases of {len(part.time_s)} readings")
    assert found.droop_error < 0.01


@pytest.mark.parametrize("seen_s", [100.0, 1.0])
def test_picture(benchmark, spread, capture, seen_s):
    low, high = benchmark(extremes, capture, 0.0, seen_s, 900)
    spread(f"lowest and highest of 900 columns of {seen_s:g} s of ten million readings")
    assert np.all(low <= high)
