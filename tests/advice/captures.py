"""Captured load currents as instruments write them, drawn at random."""

import numpy as np
from hypothesis import strategies as st

from explorer.advice.capture.record import captured


def pulse(time, begins, lasts, height):
    """A stretch of constant current."""
    return height * ((time >= begins) & (time < begins + lasts))


def radio(time, span, rng):
    """Crystal start, processor, then bursts of a radio, sent one to three times."""
    amps, at = np.zeros_like(time), 0.1 * span
    for _ in range(rng.integers(1, 4)):
        for height in (1e-3, 8e-3, rng.uniform(10e-3, 0.5)):
            lasts = span * rng.uniform(1e-3, 0.04)
            amps += pulse(time, at, lasts, height)
            at += lasts
        at += span * rng.uniform(0.01, 0.1)
    return amps


def display(time, span, rng):
    """A boost converter that draws a comb of pulses for a third of the time, then settles."""
    comb = (np.floor(time / span * rng.integers(40, 400)) % rng.integers(2, 5)) == 0
    return pulse(time, 0.1 * span, 0.3 * span, rng.uniform(2e-3, 3e-2)) * comb


def motor(time, span, rng):
    """Inrush that dies away to the running current, and a stall at the end."""
    begins, lasts, tau = 0.05 * span, rng.uniform(0.2, 0.6) * span, span * rng.uniform(1e-3, 0.1)
    on = (time >= begins) & (time < begins + lasts)
    runs = rng.uniform(0.0, 0.5)
    amps = on * (runs + rng.uniform(0.5, 4.0) * np.exp(-np.maximum(time - begins, 0.0) / tau))
    return amps + pulse(time, begins + 0.9 * lasts, 0.1 * lasts, rng.choice([0.0, 2.0]))


def inrush(time, span, rng):
    """An empty capacitor that fills: nothing but a falling exponential, and rest."""
    return 0.2 * np.exp(-time / (span * rng.uniform(0.01, 0.12)))


def ramp(time, span, rng):
    """A coil that lets go of its current evenly."""
    return 0.05 * np.maximum(1.0 - time / (span * rng.uniform(0.3, 1.0)), 0.0)


def ringing(time, span, rng):
    """A step that overshoots, below zero too at first."""
    tau, cycles = span * rng.uniform(0.005, 0.05), rng.integers(20, 200)
    wave = np.exp(-time / tau) * np.cos(2.0 * np.pi * cycles * time / span)
    return 0.02 * (1.0 + rng.uniform(0.2, 1.5) * wave) * (time < 0.5 * span)


KINDS = {f.__name__: f for f in (radio, display, motor, inrush, ramp, ringing)}


def one_cycle(kind, *, seed, readings, span_s, noise, uneven=False):
    """A capture of one cycle of a kind, on a sleep current, with noise as a share of the most."""
    rng = np.random.default_rng(seed)
    steps = rng.uniform(0.2, 1.8, readings) if uneven else np.ones(readings)
    time = np.concatenate(([0.0], np.cumsum(steps)[:-1])) * (span_s / steps.sum())
    amps = KINDS[kind](time, span_s, rng) + 10.0 ** rng.uniform(-7, -4)
    amps += noise * amps.max() * rng.standard_normal(readings)
    return captured("drawn.csv", time, amps)


@st.composite
def cycles(draw):
    """Captures of one cycle of any kind, clean or noisy, evenly sampled or not."""
    return one_cycle(
        draw(st.sampled_from(sorted(KINDS))),
        seed=draw(st.integers(0, 10**6)),
        readings=draw(st.sampled_from([60, 500, 5000, 80_000])),
        span_s=draw(st.sampled_from([1e-3, 0.05, 1.0, 60.0, 3600.0])),
        noise=draw(st.sampled_from([0.0, 0.0, 1e-4, 3e-3, 0.03])),
        uneven=draw(st.booleans()),
    )
