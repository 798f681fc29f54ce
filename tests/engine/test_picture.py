"""A picture of a run shows what a pixel column holds: no pulse is missed, nothing is invented."""

from pathlib import Path

import numpy as np
import pytest

from explorer.engine.march import Engine
from explorer.engine.trace import Trace
from explorer.files.beside import resolve_case
from explorer.files.scenario_json import load_scenario
from explorer.physics.load import Draw
from explorer.resource_files import scenario_folder
from explorer.scenario.build import build
from explorer.scenario.model import with_value
from tests.engine.systems import bank, load, system

CASES = Path(__file__).parents[1] / "cases"
WEEK_S, YEAR_S = 7 * 86_400.0, 365 * 86_400.0
PIXEL_V = 5.5 / 300


@pytest.fixture(scope="module")
def motor():
    engine = Engine(build(load_scenario(CASES / "burst_motor.json").scenario))
    return Trace(engine, engine.march(YEAR_S))


@pytest.mark.parametrize("span_s", [10.0, 60.0, 600.0, 3600.0, 86_400.0, 7 * 86_400.0, YEAR_S])
def test_a_burst_motor_shows_its_saw_tooth_at_every_zoom(motor, span_s):
    from_s = min(1000.0, YEAR_S - span_s)
    shown = motor.picture(from_s, from_s + span_s, 720)
    later = slice(1, None) if from_s == 0.0 else slice(None)  # a year begins with an empty store
    assert shown.low_v[later].min() == pytest.approx(2.3, abs=0.02)
    assert shown.high_v[later].max() == pytest.approx(5.0, abs=0.01)
    bands = shown.bands(PIXEL_V)
    _, volts = shown.line(PIXEL_V)
    if span_s <= 600.0:  # teeth of eight seconds, one by one
        assert not bands
        assert volts.max() == pytest.approx(5.0, abs=0.01)  # to the tip of every tooth
        assert volts.min() == pytest.approx(2.3, abs=0.02)
        tips = np.sum((volts[1:-1] > 4.97) & (volts[2:] < volts[1:-1]))
        assert tips >= span_s / 7.93 - 1.5
        teeth = np.sum((volts[1:] < 3.6) & (volts[:-1] > 3.6))
        assert teeth == pytest.approx(span_s / 7.93, abs=1)
    if span_s >= 3600.0:  # too close for a line: one band of their height
        assert len(bands) == 1
        _, low, high = bands[0]
        assert low[3:] == pytest.approx(2.3, abs=0.05)
        assert high == pytest.approx(5.0, abs=0.05)
        assert np.nanmedian(shown.typical_v) == pytest.approx(3.65, abs=0.1)


def test_the_line_goes_through_exact_points(motor):
    shown = motor.picture(1000.0, 1060.0, 500)
    exact = motor.at(shown.edge_s).store_v
    assert shown.edge_v == pytest.approx(exact, abs=1e-6)
    time_s, volts = shown.line(PIXEL_V)
    assert np.all(np.isfinite(volts))
    assert np.all(np.diff(time_s) >= 0.0)
    # What was left out lies on the line.
    assert np.interp(shown.edge_s, time_s, volts) == pytest.approx(exact, abs=PIXEL_V)


@pytest.mark.parametrize("interval_s", [300.0, 600.0, 1200.0])
def test_a_steep_rise_with_small_pulses_is_a_line_and_no_band(interval_s):
    """A week in columns of 18 minutes: the store rises by some pixels in each, pulses take one."""
    scenario = load_scenario(scenario_folder() / "soil_probe.json").scenario
    for key, value in (
        ("store.capacitance_F", 0.4), ("load.operations.0.schedule.interval_s", interval_s),
    ):
        scenario = with_value(scenario, key, value)
    engine = Engine(build(scenario))
    trace = Trace(engine, engine.march(WEEK_S))
    shown = trace.picture(0.0, WEEK_S, 567)
    rises = np.diff(shown.edge_v) > 3.0 * PIXEL_V
    assert rises.sum() > 10
    assert shown.bands(PIXEL_V) == []
    time_s, volts = shown.line(PIXEL_V)
    exact = trace.at(shown.edge_s[1:]).store_v
    assert np.interp(shown.edge_s[1:], time_s, volts) == pytest.approx(exact, abs=PIXEL_V)


def test_one_pulse_is_drawn_phase_by_phase(motor):
    """60 ms of 150 mA through 0.1 ohm: 15 mV across the resistance, then a fall of 2.7 V."""
    fine = motor.picture(1000.0, 1008.0, 1000)
    at_s = float(fine.edge_s[int(np.argmin(np.diff(fine.edge_v)))])
    shown = motor.picture(at_s - 0.1, at_s + 0.1, 800)
    fall = shown.edge_s[:-1][np.diff(shown.edge_v) < -0.002]
    assert np.ptp(fall) == pytest.approx(0.06, abs=0.001)
    inside = (shown.edge_s[:-1] > fall[0] + 0.005) & (shown.edge_s[:-1] < fall[-1] - 0.005)
    # The charger's milliampere takes a little off the step.
    step_v = shown.low_v[inside] - shown.terminal_low_v[inside]
    assert step_v == pytest.approx(0.015, abs=0.003)


def test_no_line_bridges_what_was_not_computed(motor):
    short = motor.beside(motor.engine.march(1000.0))
    shown = short.picture(500.0, 1500.0, 400)
    seen = shown.edge_s[1:] <= 1000.0
    assert np.all(np.isfinite(shown.low_v[seen]))
    assert np.all(np.isnan(shown.low_v[~seen]))
    time_s, volts = shown.line(PIXEL_V)
    assert time_s[np.isfinite(volts)].max() <= 1000.0
    assert all(x.max() <= 1000.0 + 2.5 for x, _, _ in shown.bands(PIXEL_V) + shown.envelope())
    before = short.picture(-100.0, 100.0, 100)
    assert np.isnan(before.low_v[:50]).all()
    assert np.isfinite(before.low_v[51:]).all()


def test_a_picture_begins_where_the_store_is_before_a_connect_takes_its_inrush():
    given = system(
        store=bank(0.1), initial_charge_c=0.4,
        load=load(connect_v=3.2, off_v=1.0, bulk_f=0.01, sleep=Draw(current_a=1e-6)),
    )
    engine = Engine(given)
    shown = Trace(engine, engine.march(10.0)).picture(0.0, 10.0, 100)
    assert shown.edge_v[0] == pytest.approx(4.0)
    assert shown.high_v[0] == pytest.approx(4.0)
    assert shown.low_v[0] == pytest.approx(3.6, abs=1e-4)
    assert shown.high_v[1] == pytest.approx(3.6, abs=1e-4)


def test_a_drawn_curve_has_few_vertices_at_any_zoom(motor):
    for span_s in (1.0, 30.0, 1800.0, 5000.0, 86_400.0):
        time_s, _ = motor.picture(2000.0, 2000.0 + span_s, 1000).line(PIXEL_V)
        assert len(time_s) <= 2000


def test_a_pulse_shows_in_the_envelope_of_the_column_that_holds_it():
    scenario = with_value(
        load_scenario(CASES / "full_and_resume_with_pulses.json").scenario, "store.esr_ohm", 20.0
    )
    engine = Engine(build(scenario))
    trace = Trace(engine, engine.march(7200.0))
    shown = trace.picture(1000.0, 7000.0, 600)
    # 20 mA through 20 ohm: 0.4 V below the store, for 50 ms every ten minutes.
    deep = shown.low_v - shown.terminal_low_v > 0.3
    assert deep.sum() == 10
    assert np.diff(shown.edge_s[:-1][deep]) == pytest.approx(600.0, abs=11.0)


@pytest.mark.parametrize("name", ["soil_probe", "seminar_room_co2", "burst_motor"])
@pytest.mark.parametrize("share", [1.0, 0.13])
def test_typical_of_a_column_is_where_the_store_is_for_most_of_its_time(name, share):
    """Half of a column's time lies near it: a pulse is short, and a turn goes evenly to and fro."""
    folder = CASES if name == "burst_motor" else scenario_folder()
    path = folder / f"{name}.json"
    case = resolve_case(load_scenario(path).scenario, path)
    trace = Trace(case.engine, case.engine.march(WEEK_S))
    shown = trace.picture(0.3 * WEEK_S, (0.3 + share * 0.7) * WEEK_S, 150)
    width = np.diff(shown.edge_s)
    shares = np.linspace(0.02, 0.98, 61)
    store_v = trace.at((shown.edge_s[:-1, None] + shares * width[:, None]).ravel()).store_v
    middle_v = np.median(store_v.reshape(-1, len(shares)), axis=1)
    tall = shown.high_v - shown.low_v
    assert np.all(np.abs(shown.typical_v - middle_v) <= 0.5 * tall + 1e-5)
    seen = tall > 1e-3 * np.ptp(store_v)
    assert np.median(np.abs(shown.typical_v - middle_v)[seen] / tall[seen]) < 0.25


def test_where_each_cycle_takes_much_a_column_of_several_ends_where_the_store_is():
    """A night of 16 h in columns of 6 h; each hour takes a tenth of a volt and an operation."""
    scenario = load_scenario(scenario_folder() / "soil_probe.json").scenario
    for key, value in (
        ("store.capacitance_F", 0.2), ("load.operations.0.schedule.interval_s", 3600.0),
        ("load.sleep_A", 5e-6),
    ):
        scenario = with_value(scenario, key, value)
    engine = Engine(build(scenario))
    trace = Trace(engine, engine.march(WEEK_S))
    shown = trace.picture(0.0, WEEK_S, 28)
    assert shown.edge_v[1:] == pytest.approx(trace.at(shown.edge_s[1:]).store_v, abs=1e-3)
    exact = trace.rows(shown.edge_s[:-1], shown.edge_s[1:])
    assert shown.low_v == pytest.approx(exact.store_min_v, abs=1e-3)
