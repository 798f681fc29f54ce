"""How often the true value lies within the ± that a fit states, in runs with realistic faults.

    python -m tests.fit_coverage 200

The last lines are of two runs of one device fitted together, a discharge in the dark and a steady
current from rest, and of the change of a device that has aged.

Every run is computed from a device whose values all differ from those that the fit is told, by up
to their tolerances, and is written down by a logger with faults of its own: steps of 10 mV, a gain
off by up to 0.3 %, light off by up to 5 %, a clock off by up to 15 minutes.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

import numpy as np

from explorer.advice.bench.drift import Drift, drift
from explorer.advice.bench.fit import Fit, fit
from explorer.advice.bench.forecast import Beginning, forecast
from explorer.advice.bench.parameters import parameter, with_values
from explorer.advice.case import Case
from explorer.advice.spread import default_tolerances
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.fields import describe
from explorer.scenario.logged_run import BenchRun
from explorer.scenario.model import Scenario, get_value, owner_class, with_value
from tests.bench_runs import DARK, STEP, run_of
from tests.make_bench_log import START

STEP_V = 0.010
GAIN = 0.003
LIGHT_OFF = 0.05
CLOCK_S = 900.0
NOISE_V = 0.003
LIGHT, SIZE = "light.illuminance_lx", "store.capacitance_F"
SLEEP = "load.sleep_A"
DAY_S = 86_400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of run."""

    name: str
    scenario: Scenario
    fitted: tuple[str, ...]
    days: float
    step_s: float
    first_v: float


def kinds() -> tuple[Kind, ...]:
    """A week in the lamps, a discharge in the dark, and steady light, all of one device."""
    probe = load_scenario(scenario_folder() / "soil_probe.json").scenario
    dark = with_value(probe, "light.cover_factor", 0.0)
    steady = probe.model_dump()
    steady["light"].update(illuminance_lx=60.0, pattern={"kind": "steady"})
    lamps = type(probe).model_validate(steady)
    return (
        Kind(name="week", scenario=probe, fitted=(LIGHT, SIZE), days=5.0, step_s=600.0,
             first_v=3.7),
        Kind(name="dark", scenario=dark, fitted=(SIZE,), days=2.0, step_s=300.0,
             first_v=4.6),
        Kind(name="steady light", scenario=lamps, fitted=(LIGHT,), days=4.0, step_s=1200.0,
             first_v=2.8),
    )  # fmt: skip


def true_device(kind: Kind, random: np.random.Generator) -> Scenario:
    """The device with every value off by up to its tolerance; what is fitted by up to a third."""
    scenario = kind.scenario
    values = {}
    for t in default_tolerances(scenario):
        if t.path in kind.fitted:
            continue
        amount = LIGHT_OFF if t.path == LIGHT else t.amount
        nominal = get_value(scenario, t.path)
        off = random.uniform(-amount, amount) * (nominal if t.kind == "relative" else 1.0)
        info = describe(owner_class(scenario, t.path), t.path.rpartition(".")[2])
        values[t.path] = float(np.clip(nominal + off, info.low, info.high))
    for path in kind.fitted:
        values[path] = get_value(scenario, path) * float(np.exp(random.uniform(-0.3, 0.3)))
    return with_values(scenario, values)


def logged(kind: Kind, truth: Scenario, random: np.random.Generator) -> BenchRun:
    """What a logger with faults writes down of a device."""
    time_s = np.arange(0.0, kind.days * 86_400.0, kind.step_s)
    blank = np.full(len(time_s), kind.first_v)
    run = BenchRun(
        name="a", time_s=time_s, volts=blank, low_v=blank, high_v=blank, step_s=kind.step_s,
        readings=len(time_s), start=START,
    )
    found = forecast(
        Case(truth), run, (Beginning(first_v=kind.first_v, connected=True),), lowest=False
    )
    volts = found.terminal_v + random.normal(0.0, NOISE_V, len(time_s))
    volts = volts * (1.0 + random.uniform(-GAIN, GAIN))
    volts = STEP_V * np.round(volts / STEP_V)
    late = timedelta(seconds=random.uniform(-CLOCK_S, CLOCK_S))
    return replace(run, volts=volts, low_v=volts, high_v=volts, start=START + late)


def trials(kind: Kind, count: int, seed: int = 1) -> Iterator[tuple[Scenario, Fit]]:
    """True devices, and what the fit says of their runs."""
    for number in range(count):
        random = np.random.default_rng([seed, number])
        truth = true_device(kind, random)
        run = logged(kind, truth, random)
        case = Case(kind.scenario)
        yield truth, list(fit(case, [run], [parameter(kind.scenario, p) for p in kind.fitted]))[-1]


def story_runs(truth: Scenario, random: np.random.Generator, gain: float) -> list[BenchRun]:
    """A discharge in the dark and a steady current from rest, through one meter."""
    told = replace(STEP, current_A=STEP.current_A * (1.0 + random.uniform(-0.01, 0.01)))
    seeds = random.integers(1, 10**6, 2)
    runs = [
        run_of(truth, DARK, 4.6, 2 * DAY_S, 97, seed=int(seeds[0]), noise_v=NOISE_V, gain=gain),
        run_of(truth, told, 4.7, 1200.0, 301, seed=int(seeds[1]), noise_v=NOISE_V, gain=gain),
    ]
    # What is told of the current is its nominal value.
    return [runs[0], replace(runs[1], conditions=STEP)]


def stories(count: int, seed: int = 2) -> Iterator[tuple[Scenario, Fit, Scenario, Fit, Drift]]:
    """A device and what is found of it, the same aged, and what is said of the change."""
    kind = replace(next(k for k in kinds() if k.name == "dark"), fitted=(SIZE, SLEEP))
    probe = load_scenario(scenario_folder() / "soil_probe.json").scenario
    chosen = [parameter(probe, path) for path in kind.fitted]
    for number in range(count):
        random = np.random.default_rng([seed, number])
        truth = with_values(true_device(kind, random), {"light.cover_factor": 0.9})
        gain = 1.0 + random.uniform(-GAIN, GAIN)
        lost = random.uniform(0.0, 0.3)
        aged = with_values(truth, {SIZE: truth.store.capacitance_F * (1.0 - lost)})
        before, after = (
            list(fit(Case(probe), story_runs(one, random, gain), chosen))[-1]
            for one in (truth, aged)
        )
        yield truth, before, aged, after, drift(before, after)


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverage:
    """What came of one value in many runs."""

    stated: int
    """Runs in which it is called determined."""
    covered: int
    """Those of them in which the truth lies within the ±."""
    typical: float
    """Median of the ±, as a share of the value."""
    worst: float
    """Largest error of those outside, as a share of the truth."""


def coverage(path: str, found: Sequence[tuple[Scenario, Fit]]) -> Coverage:
    """How often the truth of a value lies within the ± of runs that determine it."""
    rows = [
        (value, get_value(truth, path))
        for truth, one in found
        if one.is_good
        for value in one.values
        if value.parameter.path == path and value.determined
    ]
    outside = [abs(v.value - t) / t for v, t in rows if abs(v.value - t) > v.plus_minus]
    return Coverage(
        stated=len(rows),
        covered=len(rows) - len(outside),
        typical=float(np.median([v.plus_minus / v.value for v, _ in rows])) if rows else np.nan,
        worst=max(outside, default=0.0),
    )


def main(count: int) -> None:
    """Print a line for every value of every kind of run, and for the change of a device."""
    for kind in kinds():
        found = list(trials(kind, count))
        for path in kind.fitted:
            c = coverage(path, found)
            print(
                f"{kind.name:14} {path:22} determined in {c.stated} of {count}, covered "
                f"{c.covered} ({100 * c.covered / max(c.stated, 1):.0f} %), ± {c.typical:.1%}, "
                f"worst outside {c.worst:.1%}", flush=True,
            )  # fmt: skip
    told = list(stories(count))
    for path in (SIZE, SLEEP):
        c = coverage(path, [(truth, found) for truth, found, *_ in told])
        print(
            f"{'story':14} {path:22} determined in {c.stated} of {count}, covered {c.covered}, "
            f"± {c.typical:.1%}, worst outside {c.worst:.1%}", flush=True,
        )  # fmt: skip
    inside = [
        one.changes[0].ratio_low
        <= aged.store.capacitance_F / truth.store.capacitance_F
        <= one.changes[0].ratio_high
        for truth, _, aged, _, one in told
    ]
    wide = float(np.median([one.changes[0].plus_minus for *_, one in told]))
    print(f"change of {SIZE}: covered {sum(inside)} of {count}, ± {wide:.1%}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
