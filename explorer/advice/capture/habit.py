"""What a capture repeats: its sleep current, its period and one cycle of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.advice.capture.record import Capture, mean_currents
from explorer.physics.arrays import FloatArray

BINS = (65_536, 4096, 512)
"""Into so many stretches a capture is gathered to look for its period; coarse ones find cycles
that do not come quite evenly."""
JOINED = 16
"""So many readings at least are gathered where there are many, against noise."""
ALIKE = 0.6
"""Correlation from which a shift counts as a period (own judgement)."""
RANGE = 1e-5
"""Currents below this share of the highest are one to an instrument (own judgement)."""
APART = 3.0
"""Least ratio of what is drawn awake and asleep, and most within sleep (own judgement)."""
MOST_BACK = 0.1
"""Share of the highest current that may flow back asleep, as noise or a shifted zero (own
judgement)."""
LEAST_SLEEP = 0.02
"""Least share of the time that a device sleeps, to say that it does (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """What repeats in a capture."""

    sleep_a: float | None
    """Mean current asleep; None where the device is not seen to sleep. [A]"""
    awake_a: float
    """A stretch with a mean above this counts as awake; below all where it never sleeps. [A]"""
    gathered_s: float
    """Length of the stretches whose means were looked at. [s]"""
    period_s: float | None
    """None where nothing is seen to repeat. [s]"""
    from_s: float
    """Where a cycle begins: as the device wakes. [s]"""
    to_s: float
    """Where it ends; without a period the end of the capture. [s]"""


def habit(capture: Capture) -> Habit:
    """Sleep current, period and the first whole cycle of a capture."""
    means, width = _gathered(capture, BINS[0])
    awake_a = _threshold(means)
    period_s = _period(capture)
    begin = 0.0
    end = min(period_s or capture.span_s, capture.span_s)
    if awake_a > -np.inf:
        begin, end = _cycle(capture, means > awake_a, width, awake_a, period_s)
        period_s = period_s and end - begin
    return Habit(
        sleep_a=_asleep(means, awake_a) if awake_a > -np.inf else None,
        awake_a=awake_a,
        gathered_s=width,
        period_s=period_s,
        from_s=begin,
        to_s=end,
    )


def rest_begins(cycle: Capture, known: Habit) -> float:
    """From when on a cycle is at rest until its end. [s]"""
    awake_a = known.awake_a
    count = max(4, min(BINS[0], round(cycle.span_s / known.gathered_s)))
    means = mean_currents(cycle, np.linspace(0.0, cycle.span_s, count + 1))
    width = cycle.span_s / count
    awake = np.flatnonzero(means > awake_a)
    if not len(awake):
        return 0.0
    # The last reading of the last stretch awake that is itself above.
    first, stop = np.searchsorted(
        cycle.time_s, [awake[-1] * width, (awake[-1] + 1) * width + 1e-12 * cycle.span_s]
    )
    first = max(int(first) - 1, 0)
    above = np.flatnonzero(cycle.current_a[first:stop] > awake_a)
    last = first + int(above[-1]) if len(above) else int(stop) - 1
    return float(np.append(cycle.time_s, cycle.span_s)[last + 1])


def _gathered(capture: Capture, most: int) -> tuple[FloatArray, float]:
    """Mean currents of even stretches, and their length. [A], [s]"""
    readings = len(capture.time_s)
    count = max(4, min(readings, max(BINS[1], readings // JOINED), most))
    edges = np.linspace(0.0, capture.span_s, count + 1)
    return mean_currents(capture, edges), capture.span_s / count


def _threshold(means_a: FloatArray) -> float:
    """Current that parts sleep from work best; -inf where they do not lie apart. [A]

    The split of logarithms with the greatest variance between both sides [N. Otsu, IEEE Trans.
    Systems, Man, and Cybernetics 9 (1979) 62]; what is lost in the instrument's noise is one.
    """
    most = float(means_a.max())
    low, middle = np.quantile(means_a, [0.025, 0.25])
    noise = middle + 3.0 * (middle - low)
    floor = max(RANGE * most, noise if most > APART * noise else 0.0, 1e-15)
    logs = np.sort(np.log10(np.maximum(means_a, floor)))
    below = np.arange(1, len(logs))
    total = np.cumsum(logs)
    low_mean = total[:-1] / below
    high_mean = (total[-1] - total[:-1]) / (len(logs) - below)
    spread = below * (len(logs) - below) * (high_mean - low_mean) ** 2
    cut = int(np.argmax(spread))
    quiet = logs[: cut + 1]
    band = logs[int(0.9 * cut)] - logs[int(0.1 * cut)]
    sleeps = (
        low > -MOST_BACK * most
        and high_mean[cut] - low_mean[cut] >= np.log10(APART)
        and band <= np.log10(APART)
        and len(quiet) >= LEAST_SLEEP * len(logs)
    )
    return float(10.0 ** (0.5 * (logs[cut] + logs[cut + 1]))) if sleeps else -np.inf


def _asleep(means_a: FloatArray, awake_a: float) -> float:
    """Mean of the stretches asleep, those beside a stretch awake left out. [A]"""
    awake = means_a > awake_a
    beside = awake.copy()
    beside[1:] |= awake[:-1]
    beside[:-1] |= awake[1:]
    quiet = means_a[~beside] if not beside.all() else means_a[~awake]
    return max(float(quiet.mean()), 0.0)


def _period(capture: Capture) -> float | None:
    """Shortest shift by which the capture falls onto itself. [s]"""
    for most in BINS:
        means, width = _gathered(capture, most)
        found = _repeats_after(means)
        if found is not None:
            return found * width
    return None


def _repeats_after(means_a: FloatArray) -> float | None:
    """The same in stretches, between them where the correlation is highest."""
    n = len(means_a)
    x = means_a - means_a.mean()
    spectrum = np.abs(np.fft.rfft(x, 2 * n)) ** 2
    products = np.fft.irfft(spectrum)[: n // 2 + 1]
    # Pulses fall on the border of two stretches now and then: neighbours count with them.
    products[1:-1] = 0.25 * products[:-2] + 0.5 * products[1:-1] + 0.25 * products[2:]
    products[0] = 0.5 * (products[0] + products[1])
    shift = np.arange(len(products))
    alike = products / max(products[0], 1e-300) * n / (n - shift)
    fallen = np.flatnonzero(alike < 0.5 * ALIKE)
    if not len(fallen):
        return None
    middle = alike[fallen[0] + 1 : -1]
    peaks = fallen[0] + 1 + np.flatnonzero(
        (middle >= alike[fallen[0] : -2]) & (middle >= alike[fallen[0] + 2 :])
    )
    if not len(peaks) or alike[peaks].max() < ALIKE:
        return None
    found = float(peaks[np.argmax(alike[peaks] >= 0.8 * alike[peaks].max())])
    # Every doubling within reach says the period twice as finely.
    times = 1
    while 2 * times * found + 3 < len(alike):
        times *= 2
        near = round(times * found) - 2
        found = (near + int(np.argmax(alike[near : near + 5]))) / times
    # What dies away falls onto itself only near by.
    farthest = round(found * max((len(alike) - 3) // found, 1.0))
    return found if alike[farthest - 1 : farthest + 2].max() >= 0.5 * ALIKE else None


def _cycle(
    capture: Capture,
    awake: NDArray[np.bool_],
    width_s: float,
    awake_a: float,
    period_s: float | None,
) -> tuple[float, float]:
    """From where the device wakes after the longest sleep of its first period to the next. [s]"""
    edges = np.flatnonzero(np.diff(awake, prepend=awake[0]))
    wakes = edges[awake[edges]]
    span_s = capture.span_s
    if not len(wakes):
        return 0.0, min(period_s or span_s, span_s)
    at = np.array([_first_above(capture, wake, width_s, awake_a) for wake in wakes])
    slept = wakes - np.append(0, edges)[np.searchsorted(edges, wakes)]
    if period_s is None:
        return float(at[np.argmax(slept)]) if len(wakes) == 1 else 0.0, span_s
    last = min(at[0] + 0.999 * period_s, span_s - 0.99 * period_s)
    within = at <= max(last, at[0])
    begin = float(at[within][np.argmax(slept[within])])
    end = begin + period_s
    near = at[np.abs(at - end) <= max(2.0 * width_s, 0.02 * period_s)]
    if len(near):
        end = float(near[np.argmin(np.abs(near - end))])
    return (begin, end) if end <= span_s else (max(span_s - period_s, 0.0), span_s)


def _first_above(capture: Capture, wake: int, width_s: float, awake_a: float) -> float:
    """Moment of the first reading above a current within a stretch. [s]"""
    first, stop = np.searchsorted(capture.time_s, [wake * width_s, (wake + 1) * width_s])
    first = max(int(first) - 1, 0)
    above = np.flatnonzero(capture.current_a[first:stop] > awake_a)
    return float(capture.time_s[first + above[0]]) if len(above) else wake * width_s
