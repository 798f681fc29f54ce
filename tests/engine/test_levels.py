"""A measured log is gathered and blended without a change of what it brings."""

from itertools import product

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from explorer.engine import at_full, levels, repeats
from explorer.engine.audit import ledger
from explorer.engine.course import Standing
from explorer.engine.march import Engine
from explorer.engine.trace import Trace
from explorer.files.logs import read_light_log
from explorer.physics.charger import direct_current
from explorer.physics.load import Draw
from explorer.physics.panel import open_circuit_voltage
from explorer.resource_files import resource_path
from explorer.scenario.build import build
from explorer.scenario.model import Scenario
from tests.depth import THOROUGH, some
from tests.engine.systems import (
    AMORPHOUS,
    CRYSTALLINE,
    RISING,
    SCHOTTKY,
    bank,
    converter,
    load,
    pulse,
    system,
)
from tests.engine.systems import levels as course_of

HARVEST = 0.003
"""Share by which the harvest of a blended log may differ."""
CLOSES = 1e-4
"""Share of the energy turned over to which the ledger of a blended log closes."""
STEP_S = 300.0


def log_of(amps, step_s=STEP_S):
    return course_of(
        list(zip(step_s * np.arange(len(amps)), amps, strict=True)), step_s * len(amps)
    )


READINGS = 240 if THOROUGH else 120


def steps(rng, n=READINGS):
    """An office day of a few levels, some of them dark."""
    chosen = 2e-4 * np.array([0.0, 0.02, 0.15, 0.5, 1.0])[rng.integers(0, 5, n // 12)]
    return np.repeat(chosen, 12)


def device(charger, panel, farad, amps, **more):
    return system(
        light=log_of(amps),
        panel=panel,
        charger=charger,
        store=bank(farad, esr_ohm=0.5, leakage_a=1e-6),
        quiescent_a=2e-7,
        load=load(**{"connect_v": 3.6, "off_v": 2.4, **more}),
    )


def harvest(given, start_v):
    """Charge that arrives in one run of a log, what of its ledger is missing, and the end. [V]"""
    engine = Engine(given)
    begin = Standing(charge_c=engine.field.charge_at(start_v), connected=False)
    run = engine.march(engine.edges[-1], begin)
    book = ledger(engine, run)
    missing = abs(book.residual_j) / max(book.turned_over_j, 1e-9)
    return book.charged_j, missing, float(engine.field.voltage_at(run.end.charge_c))


PANELS = {"amorphous": AMORPHOUS, "crystalline": CRYSTALLINE}
CHARGERS = {"diode": SCHOTTKY, "converter": converter()}


@pytest.mark.parametrize(
    ("start_v", "farad", "panel", "charger"),
    some(product((0.5, 3.0), (0.02, 0.35), PANELS, CHARGERS), 3),
)
def test_a_dither_of_a_thousandth_changes_no_harvest(charger, panel, farad, start_v):
    """Also where the store stands close to the panel's open-circuit voltage, or above it."""
    panel, charger = PANELS[panel], CHARGERS[charger]
    rng = np.random.default_rng(11)
    connect_v = 3.6 if farad > 0.1 else 1e3
    for amps in (np.full(READINGS, 2e-5), np.full(READINGS, 1.5e-4), steps(rng)):
        dithered = amps * (1.0 + 0.001 * rng.uniform(-1.0, 1.0, len(amps)))
        (plain_j, _, plain_v), (dithered_j, missing, end_v) = (
            harvest(device(charger, panel, farad, a, connect_v=connect_v), start_v)
            for a in (amps, dithered)
        )
        # What arrives is never less than what is turned over at the rate of a thousandth of it.
        scale = max(abs(plain_j), 1e-3 * farad)
        assert dithered_j == pytest.approx(plain_j, abs=HARVEST * scale)
        assert end_v == pytest.approx(plain_v, abs=5e-3)
        assert missing < CLOSES


def test_more_light_than_the_store_stands_at_is_never_lost():
    """Where no reading lifts the panel to the connect voltage a lower store is charged all the
    same."""
    rng = np.random.default_rng(2)
    amps = 2e-5 * (1.0 + 0.2 * rng.uniform(-1.0, 1.0, 200))
    assert float(open_circuit_voltage(CRYSTALLINE, amps.max())) < 3.6
    brought, _, end_v = harvest(device(SCHOTTKY, CRYSTALLINE, 0.1, amps), 0.5)
    assert brought > 0.05
    assert end_v > 1.2


@pytest.mark.parametrize(("farad", "panel"), some(product((0.1, 1.2), PANELS), 3))
def test_a_cloudy_day_behind_a_diode_is_what_an_ode_solver_makes_of_it(panel, farad):
    """Readings a minute apart and far from even, close to the open-circuit voltage."""
    panel = PANELS[panel]
    rng = np.random.default_rng(5)
    amps = 1e-4 * rng.uniform(0.1, 1.0, 240)
    given = system(
        light=log_of(amps, 60.0), panel=panel, charger=SCHOTTKY,
        store=bank(farad), load=load(connect_v=1e3), full_v=9.0,
    )
    starts = np.array([1.0, 2.5, 3.3])
    volts = starts
    for light in amps.tolist():
        def rate(_, v, light=light):
            return direct_current(SCHOTTKY, panel, light, v, 0.0) / farad

        volts = solve_ivp(
            rate, (0.0, 60.0), volts, rtol=1e-8, atol=1e-10, method="LSODA"
        ).y[:, -1]
    engine = Engine(given)
    assert not all(level.exact for level in engine.levels)
    for start_v, brought_c in zip(starts.tolist(), farad * (volts - starts), strict=True):
        run = engine.march(
            engine.edges[-1], Standing(charge_c=engine.field.charge_at(start_v), connected=False)
        )
        ours_c = run.end.charge_c - engine.field.charge_at(start_v)
        light_c = float(amps.sum()) * 60.0
        assert ours_c == pytest.approx(brought_c, abs=HARVEST * max(brought_c, 0.05 * light_c))


def test_a_small_store_that_follows_the_panel_through_a_log_is_good_to_a_rung(monkeypatch):
    rng = np.random.default_rng(3)
    amps = 3e-4 * rng.uniform(0.02, 1.0, 240) * (np.arange(240) % 90 < 70)
    given = system(
        light=log_of(amps, 60.0), panel=CRYSTALLINE, charger=SCHOTTKY,
        store=bank(2e-3, leakage_a=1e-6), load=load(connect_v=3.0),
    )
    blended = Engine(given).unloaded()
    monkeypatch.setattr(levels, "EXACT_LEVELS", 10_000)
    exact = Engine(given).unloaded()
    for minutes in (20, 65, 150):
        ours, theirs = (
            float(e.field.voltage_at(e.march(60.0 * minutes).end.charge_c))
            for e in (blended, exact)
        )
        assert ours == pytest.approx(theirs, abs=0.03)


@pytest.mark.parametrize("technology", some(PANELS, 2))
def test_a_measured_office_brings_through_a_diode_what_its_readings_bring_one_by_one(
    technology, monkeypatch
):
    log = read_light_log(resource_path("logs", "office_lux_1min.csv"))
    scenario = Scenario.model_validate({
        "light": {"illuminance_lx": None, "pattern": {"kind": "log"}},
        "panels": {"technology": technology},
        "charger": {"kind": "direct"},
        "store": {"kind": "supercapacitor", "capacitance_F": 2.0},
        "load": {"sleep_A": 2e-6, "operations": []},
    })
    given, days_s = build(scenario, log), 2.0 * 86_400.0
    blended = Engine(given)
    monkeypatch.setattr(levels, "EXACT_LEVELS", 10**9)
    exact = Engine(given)
    assert len(blended.levels) < len(exact.levels)
    ours, theirs = (ledger(e, e.march(days_s)).charged_j for e in (blended, exact))
    assert theirs > 0.1
    assert ours == pytest.approx(theirs, rel=HARVEST)


@pytest.mark.parametrize("spread", [0.03, 0.3, 0.9])
def test_windows_keep_the_light_above_every_threshold(spread):
    """Behind a diode a large store gathers readings that are not too uneven, and no others."""
    rng = np.random.default_rng(8)
    amps = np.repeat(1e-4 * rng.uniform(0.4, 1.0, 40), 15) * (1.0 - spread * rng.random(600))
    given = system(
        light=log_of(amps, 60.0), panel=AMORPHOUS, charger=SCHOTTKY, store=bank(50.0),
        load=load(connect_v=3.0, operations=(pulse(0.01, 0.1, 60.0),)),
    )
    engine = Engine(given)
    assert (len(engine.levels) < 0.2 * len(amps)) == (spread < levels.EVEN)
    span = np.diff(engine.edges)
    mean = np.array([(1.0 - x.weight) * x.low_a + x.weight * x.high_a for x in engine.levels])
    assert float(mean @ span) == pytest.approx(float(amps.sum() * 60.0), rel=1e-9)
    for bend in (2e-5, 4e-5, 6e-5, 9e-5):
        kept = np.array([
            (1.0 - x.weight) * max(x.low_a - bend, 0.0) + x.weight * max(x.high_a - bend, 0.0)
            for x in engine.levels
        ])
        brought = float(np.maximum(amps - bend, 0.0).sum() * 60.0)
        assert float(kept @ span) == pytest.approx(brought, abs=HARVEST * float(mean @ span))


def test_levels_worked_out_at_once_charge_as_each_by_itself():
    """Also where a table of efficiencies asks for the store's voltage."""
    made = system(panel=AMORPHOUS, charger=converter(table=RISING, loss_ohm=0.0), full_v=4.4)
    amps = np.geomspace(3e-5, 3e-3, 7)
    together, alone = Engine(made).field, Engine(made).field
    together.prepare(amps)
    at = together.open_v
    for level in amps.tolist():
        given = together.supply(level).current(at, at)
        assert given == pytest.approx(alone.supply(level).current(at, at), rel=1e-12)


@pytest.mark.parametrize(
    ("charger", "connected"), [(SCHOTTKY, True), (converter(), False)], ids=["diode", "converter"]
)
def test_a_store_that_turns_at_full_within_each_reading_is_passed_over(
    charger, connected, monkeypatch
):
    """A small store fills and falls many times within one reading of a log."""
    amps = 2e-4 * (1.0 + np.linspace(0.0, 1.0, 48))
    given = device(
        charger, AMORPHOUS, 1e-3, amps,
        connect_v=3.6 if connected else 50.0, sleep=Draw(current_a=2e-6),
    )
    start = Standing(charge_c=1e-3 * 4.0, connected=connected)
    engine = Engine(given)
    span_s = engine.edges[-1]
    one = engine.march(span_s, start)
    with monkeypatch.context() as patch:
        patch.setattr(at_full, "full_turns", lambda *_: None)
        patch.setattr(repeats, "turns", lambda *_: None)
        two = engine.march(span_s, start)
    assert len(one.legs) < len(two.legs) / 3
    assert one.tally.full_s == pytest.approx(two.tally.full_s, rel=1e-6)
    assert one.end.charge_c == pytest.approx(two.end.charge_c, rel=1e-6)
    moments = np.linspace(0.0, span_s, 200)
    found = [Trace(engine, run).at(moments).store_v for run in (one, two)]
    assert np.allclose(*found, atol=1e-4)
    book = ledger(engine, one)
    assert abs(book.residual_j) < CLOSES * book.turned_over_j
