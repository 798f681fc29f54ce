"""Columns of any scenario that the model takes: they add up, and each row is where a march ends."""

import os

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, example, given, settings
from hypothesis import strategies as st

from explorer.engine.march import Engine
from explorer.engine.span import EVEN
from explorer.engine.trace import Trace
from explorer.scenario.build import build
from tests.depth import THOROUGH
from tests.reference.strategy import cases, numbered

EXAMPLES = int(os.environ.get("GLOAMING_EXAMPLES", 60 if THOROUGH else 20))
LONGEST_RUN = 60_000
"""Legs after which a run is given up: it only costs time."""
ordinary = settings(
    max_examples=EXAMPLES, deadline=None, derandomize=EXAMPLES <= 60, database=None,
    suppress_health_check=list(HealthCheck), phases=(Phase.explicit, Phase.generate),
)


def traced(case):
    scenario, log = case
    engine = Engine(build(scenario, log))
    return engine, Trace(engine, engine.march(engine.edges[-1], most_legs=LONGEST_RUN))


def summed(rows, end_s):
    width_s = np.diff(np.append(rows.time_s, end_s))
    return np.array([a @ width_s for a in (rows.harvest_a, rows.load_a, rows.leakage_a)])


@ordinary
@given(cases(), st.floats(0.003, 0.7))
def test_current_times_step_is_the_ledger_of_charge(case, share):
    engine, trace = traced(case)
    rows = trace.steps(share * trace.span_s)
    came, drawn, leaked = summed(rows, trace.span_s)
    kept = trace.run.end.charge_c - engine.system.initial_charge_c
    turned_over = max(abs(came), drawn + leaked, abs(kept), 1e-9)
    assert came - drawn - leaked == pytest.approx(kept, abs=1e-6 * turned_over)
    assert np.all(rows.terminal_min_v <= rows.terminal_v)
    assert np.all(rows.store_min_v <= rows.store_v)
    # Finer steps hold the same charges, and nothing deeper than the whole run.
    fine = trace.eventful(300)
    assert summed(fine, trace.span_s) == pytest.approx(
        [came, drawn, leaked], abs=1e-9 * turned_over
    )
    lowest = trace.extremes().lowest_ever_v
    assert min(fine.terminal_min_v.min(), rows.terminal_min_v.min()) >= lowest - 1e-4


def unfolded(legs):
    for leg in legs:
        if leg.repeats is None:
            yield leg
        else:
            yield from unfolded(leg.repeats.legs)


def unsure_v(engine, run):
    """One pulse, where a full store is taken through its pulses with their mean; else none. [V]

    Where in the band between resume and full it is then is an estimate (DEVELOPERS.md).
    """
    if not any(leg.averages for leg in unfolded(run.legs)):
        return 0.0
    largest = max(engine.charge_of(op) for op in engine.system.load.operations)
    low = engine.field.resume_c - largest
    return float(engine.field.voltage_at(engine.field.full_c) - engine.field.voltage_at(low))


@ordinary
@given(cases(), st.lists(st.floats(0.0, 1.0), min_size=4, max_size=4))
def test_a_row_is_where_a_march_that_ends_there_ends(case, shares):
    engine, trace = traced(case)
    moments = np.sort(np.array(shares)) * trace.span_s
    rows = trace.at(moments)
    spare_v = unsure_v(engine, trace.run)
    for i, moment in enumerate(moments.tolist()):
        ended = engine.march(moment, most_legs=LONGEST_RUN).end
        expected = float(engine.field.voltage_at(ended.charge_c))
        assert rows.store_v[i] == pytest.approx(expected, rel=1e-4, abs=1e-4 + spare_v)


@ordinary
@given(cases(), st.floats(0.0, 0.9), st.floats(-6.0, 0.0))
# Columns of a cycle or two that each take much: where the store is between pulses is sampled.
@example(numbered(2470), 0.234, -0.575)
@example(numbered(2269), 0.513, -0.263)
@example(numbered(2622), 0.0, 0.0)
def test_a_picture_misses_nothing_and_invents_nothing(case, start, decades):
    engine, trace = traced(case)
    begin = start * trace.span_s
    end = min(begin + 10.0**decades * trace.span_s, trace.span_s)
    shown = trace.picture(begin, end, 40)
    exact = trace.rows(shown.edge_s[:-1], shown.edge_s[1:])
    # Where a column holds whole cycles it may show the ones at its edges whole, and whole cycles
    # that drift by no more than so much each are laid out evenly.
    spare_v = EVEN * float(engine.field.voltage_at(engine.field.full_c))
    assert (shown.low_v - exact.store_min_v).max() < spare_v
    assert (shown.terminal_low_v - exact.terminal_min_v).max() < spare_v
    assert np.all(shown.high_v >= exact.store_v - spare_v)
    assert np.all(shown.low_v <= shown.typical_v + 1e-9)
    assert np.all(shown.typical_v <= shown.high_v + 1e-9)
