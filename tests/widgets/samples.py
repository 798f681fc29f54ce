"""A stand-in for the model: an assessment of the right shape, quick and made up."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from explorer.advice.assess import Assessment, Mark, PulseView, Threshold
from explorer.advice.case import Case
from explorer.advice.verdict import Check, Hazard, Verdict
from explorer.engine.march import Engine
from explorer.engine.trace import Trace
from explorer.resource_files import resource_path
from explorer.scenario.build import build
from explorer.scenario.model import Scenario
from tests.make_bench_log import NAME

ROWS_OF_A_DAY = 288


def run_of(scenario: Scenario, span_s: float) -> Trace:
    """The real run of a scenario, which is quick."""
    engine = Engine(build(scenario))
    return Trace(engine, engine.march(span_s))


def first_day(folder: Path) -> Path:
    """The bundled run of a bench, as far as its first day: a fit takes as long as the run lasts."""
    lines = resource_path("logs", NAME).read_text(encoding="utf-8").splitlines()
    rows = next(n for n, line in enumerate(lines) if line.startswith("time")) + 1
    path = folder / NAME
    path.write_text("\n".join(lines[: rows + ROWS_OF_A_DAY]) + "\n", encoding="utf-8")
    return path


def made_up_pulse() -> PulseView:
    time_s = np.array([0, 0.02, 0.02, 0.07, 0.07, 0.12])
    store = np.array([2.71, 2.71, 2.71, 2.65, 2.65, 2.65])
    drawn = np.array([0.0, 0.0, 0.22, 0.22, 0.0, 0.0])
    return PulseView(
        title="measure and send, at the lowest store voltage",
        time_s=time_s,
        store_v=store,
        terminal_v=store - drawn,
        minimum_v=2.2,
        step_v=0.22,
        ramp_v=0.06,
    )


def made_up(
    scenario: Scenario | None = None,
    log: object = None,
    *,
    trace: Trace | None = None,
) -> Assessment:
    """An assessment whose verdict follows the light: little falls short, much runs."""
    scenario = scenario or Scenario()
    trace = trace or run_of(scenario, 604_800.0)
    dark = (scenario.light.illuminance_lx or 300.0) / 350.0
    margins = {
        "starts": 3.1,
        "balance": 1.9,
        "dark": dark,
        "pulse": 1.6,
        "ratings": 1.4,
        "service": 1.0,
    }
    values = {
        "starts": (45.2, "h"),
        "balance": (0.0123, "W"),
        "dark": (4.1, "d"),
        "pulse": (2.43, "V"),
        "ratings": (2.5, "V"),
        "service": (1.0, "share"),
    }
    checks = tuple(
        Check(
            name=name,
            value=values[name][0],
            limit=1.0,
            unit=values[name][1],
            margin=margin,
            wanted=1.0 if name == "service" else 1.3,
            sentence=f"Survives the weekend with {margin:.2f} times the energy it needs.",
        )
        for name, margin in margins.items()
    )
    hazards = ()
    if scenario.panels.count > 4:
        hazards = (
            Hazard(
                key="over_voltage",
                title="Over-voltage in full sun",
                sentence="Brightest light, each unit sees 3.1 V; it is rated for 2.7 V.",
            ),
        )
    marks = tuple(
        Mark(
            time_s=e.time_s, kind=e.kind,
            volts=float(trace.engine.field.voltage_at(e.charge_c)),
        )
        for e in trace.run.events[:400]
    )
    return Assessment(
        case=Case(scenario),
        verdict=Verdict(checks=checks, hazards=hazards),
        answers={
            "first_charge_s": 9.2e3,
            "full_charge_s": 2.4e4,
            "dark_time_s": 2.9e5,
            "recovery_s": 1.1e4,
            "lowest_store_V": 2.71,
            "operations_per_charge": 412.0,
        },
        trace=trace,
        repeating=trace,
        marks=marks,
        thresholds=(
            Threshold(label="full", volts=scenario.charger.full_V),
            Threshold(label="connects", volts=scenario.load.connect_V),
            Threshold(label="disconnects", volts=scenario.load.disconnect_V),
        ),
        period_s=604_800.0,
    )
