"""Logged runs of a device of which the truth is known: computed, with noise on top."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np

from explorer.advice.bench.conditions import under_conditions
from explorer.advice.bench.forecast import Beginning, forecast
from explorer.advice.case import Case
from explorer.scenario.logged_run import BenchRun, Conditions
from explorer.scenario.model import Scenario

START = datetime(2026, 3, 2, 9, 0)
DARK = Conditions(light_lx=0.0)
STEP = Conditions(light_lx=0.0, draw="current", current_A=2e-3)
HANGING = Conditions()


def run_of(
    truth: Scenario, conditions: Conditions, first_v: float, span_s: float, rows: int,
    *, seed: int = 1, noise_v: float = 0.003, gain: float = 1.0, start: datetime = START,
    name: str = "a.csv",
) -> BenchRun:  # fmt: skip
    """What a logger writes down of a device under some conditions; a current steps in from rest."""
    time_s = np.linspace(0.0, span_s, rows)
    blank = np.full(rows, first_v)
    run = BenchRun(
        name=name, time_s=time_s, volts=blank, low_v=blank, high_v=blank,
        step_s=float(time_s[1]), readings=rows, start=start, conditions=conditions,
    )
    at_rest = conditions.draw == "current"
    begin = Beginning(first_v=first_v, connected=True, at_rest=at_rest)
    there = under_conditions(Case(truth), run)
    volts = forecast(there, run, (begin,), lowest=False).terminal_v.copy()
    if at_rest:
        volts[0] = first_v
    volts = gain * (volts + np.random.default_rng(seed).normal(0.0, noise_v, rows))
    return replace(run, volts=volts, low_v=volts, high_v=volts)


def dark_run(truth: Scenario, **more: object) -> BenchRun:
    """Two days in the dark."""
    return run_of(truth, DARK, 4.6, 2 * 86_400.0, 97, **more)


def step_run(truth: Scenario, **more: object) -> BenchRun:
    """A steady current of 2 mA from rest, for 20 minutes."""
    return run_of(truth, STEP, 4.7, 1200.0, 301, **more)


def hanging_run(truth: Scenario, days: float = 3.0, **more: object) -> BenchRun:
    """Some days as it hangs."""
    return run_of(truth, HANGING, 3.7, days * 86_400.0, round(days * 48) + 1, **more)


def written(runs: Sequence[BenchRun], folder: Path) -> list[Path]:
    """The runs as files, numbered."""
    paths = []
    for number, run in enumerate(runs, 1):
        assert run.start is not None
        rows = [
            f"{run.start + timedelta(seconds=float(t))},{v:.4f}"
            for t, v in zip(run.time_s, run.volts, strict=True)
        ]
        path = folder / f"run{number}.csv"
        path.write_text("time,store_V\n" + "\n".join(rows) + "\n", encoding="utf-8")
        paths.append(path)
    return paths
