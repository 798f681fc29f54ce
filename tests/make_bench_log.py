"""Make the demonstration of a logged run: an imagined device, computed, with noise on top.

    python -m tests.make_bench_log

The device is the bundled soil probe with other values than its scenario states (`TRUTH`), so that a
fit has something to find. Nothing in it was measured.
"""

from __future__ import annotations

from datetime import datetime, timedelta

import numpy as np

from explorer.advice.bench.forecast import Beginning, forecast
from explorer.advice.bench.parameters import with_values
from explorer.advice.case import Case
from explorer.files.disk import write_text
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import resource_path, scenario_folder
from explorer.scenario.logged_run import BenchRun
from explorer.scenario.model import Scenario

NAME = "fernhollow_bench_run.csv"
TRUTH = {"light.illuminance_lx": 310.0, "store.capacitance_F": 1.31}
NOISE_V = 0.003
STEP_S, DAYS = 300.0, 5.0
PAUSE = (260, 300)
"""Rows that are missing, as when a logger was unplugged."""
START = datetime(2026, 3, 2, 9, 0)
FIRST_V = 3.7
SEED = 20260302


def made_run(scenario: Scenario, first_v: float = FIRST_V, noise_v: float = NOISE_V,
             seed: int = SEED, days: float = DAYS, step_s: float = STEP_S) -> BenchRun:
    """A run of a scenario as a logger with noise would write it down."""
    time_s = np.arange(0.0, days * 86_400.0, step_s)
    volts = np.full(len(time_s), first_v)
    blank = BenchRun(
        name=NAME, time_s=time_s, volts=volts, low_v=volts, high_v=volts, step_s=step_s,
        readings=len(time_s), start=START,
    )
    found = forecast(Case(scenario), blank, (Beginning(first_v=first_v, connected=True),))
    volts = found.terminal_v + np.random.default_rng(seed).normal(0.0, noise_v, len(time_s))
    return BenchRun(
        name=NAME, time_s=time_s, volts=volts, low_v=volts, high_v=volts, step_s=step_s,
        readings=len(time_s), start=START,
    )


def main() -> None:
    """Write the log beside the measured ones."""
    scenario = load_scenario(scenario_folder() / "soil_probe.json").scenario
    run = made_run(with_values(scenario, TRUTH))
    lines = [
        "# Made up: computed from the bundled soil probe with other values, and noise of 3 mV.",
        "# Not measured; see fernhollow_bench_run.txt.",
        "time,store_V",
    ]
    for row, (time_s, volts) in enumerate(zip(run.time_s, run.volts, strict=True)):
        if not PAUSE[0] <= row < PAUSE[1]:
            lines.append(f"{START + timedelta(seconds=float(time_s))},{volts:.4f}")
    write_text(resource_path("logs") / NAME, "\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
