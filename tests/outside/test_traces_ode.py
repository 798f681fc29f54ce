"""Whole traces against scipy's solve_ivp, event by event (reference_ode.py)."""

from functools import cache

import numpy as np
import pytest

from explorer.engine.course import Standing
from explorer.engine.march import Engine
from explorer.engine.system import Operation, Periodic, Phase
from explorer.physics.charger import DirectCharger
from explorer.physics.load import (
    Draw,
    LinearRegulator,
    SwitchingRegulator,
    regulator_draw,
    through_regulator,
)
from explorer.physics.store import Cell, bank_charge
from explorer.scenario import parts
from tests.depth import THOROUGH, some
from tests.engine.systems import (
    AMORPHOUS,
    CRYSTALLINE,
    SCHOTTKY,
    bank,
    converter,
    levels,
    load,
    pulse,
    steady,
    system,
    when_ready,
)
from tests.outside.reference_ode import Reference

LIMIT_V = 1e-3
LIMIT_SHARE = 1e-3
SLACK = 5e-5
"""Share of the time passed by which an event may be late or early."""
MOST_PIECES = 250 if THOROUGH else 120
"""Events after which a random scenario has shown enough."""


def points(engine, run):
    """Exact points of a march: ends of legs, whole cycles and places inside plain legs."""
    for leg in run.legs:
        if leg.repeats is None and leg.cycles is None and leg.level.exact:
            inside = leg.begin_s + (leg.end_s - leg.begin_s) * np.array([0.2, 0.5, 0.8])
            charge = leg.low.flow.path(leg.begin_c, inside - leg.begin_s)
            yield from zip(inside, engine.field.voltage_at(charge), [leg] * 3, strict=True)
        yield leg.end_s, float(engine.field.voltage_at(leg.end_c)), leg


def reference(given, span_s, begin_s=0.0, connected=False, most_pieces=np.inf):
    """The same run, event by event."""
    second = Reference(given)
    y = given.initial_charge_c
    if not second.is_cell:
        grid = np.linspace(0.0, 1.1 * given.full_v, 20_001)
        y = float(np.interp(y, bank_charge(given.store, grid), grid))
    return second.run(span_s, y, connected=connected, begin_s=begin_s, most_pieces=most_pieces)


def largest_pulse_v(engine):
    """Most that one run of an operation moves the store, about."""
    field = engine.field
    top = field.charge_at(engine.system.full_v)
    taken = [engine.charge_of(op) for op in engine.system.load.operations]
    top = min(top, float(field.charge_c[-1]))
    return float(field.voltage_at(top) - field.voltage_at(top - max(taken, default=0.0)))


def worst(given, course, span_s, *, begin_s=0.0, connected=False, compose=True):
    """March; the largest difference from the reference over what is allowed, where, and the run.

    Once turns at full were skipped over with pulses, the place within the hysteresis band is an
    estimate, so the band (and the pulse that leaves it) is allowed from there on.
    """
    engine = Engine(given, compose=compose)
    state = Standing(charge_c=given.initial_charge_c, connected=connected)
    run = engine.march(span_s, state, begin_s=begin_s)
    largest, where, loose = 0.0, None, 0.0
    for t, volts, leg in points(engine, run):
        if leg.repeats is not None and any(sub.cycles for sub in leg.repeats[0]):
            loose = given.full_hysteresis_v + largest_pulse_v(engine)
        if not leg.level.exact and not leg.charging:
            loose = given.full_hysteresis_v + largest_pulse_v(engine)
        low, high = course.band(begin_s + t, 1e-6 + SLACK * t)
        allowed = max(LIMIT_V, LIMIT_SHARE * abs(volts)) + loose
        if leg.cycles is not None and not leg.level.exact:
            allowed += largest_pulse_v(engine)  # a reading ends anywhere within a cycle
        off = max(low - volts, volts - high, 0.0) / allowed
        if off > largest:
            largest, where = off, (t, volts, low, high)
    return largest, where, run


# -- scenarios ------------------------------------------------------------------------------------


def phases(*draws):
    return tuple(Phase(draw=draw, duration_s=seconds) for draw, seconds in draws)


def behind(regulator, device, *, sleeping=False):
    """What the store sees of a draw at the device; the regulator's own current with sleep."""
    seen = through_regulator(device, regulator)
    return seen + regulator_draw(regulator) if sleeping else seen


def sensor(**changes):
    """A node that starts up for 0.3 s and sends every 10 s."""
    given = {
        "connect_v": 3.2,
        "off_v": 2.4,
        "minimum_v": 2.2,
        "bulk_f": 1e-5,
        "start_up": phases((Draw(current_a=5e-3), 0.1), (Draw(power_w=6e-3), 0.2)),
        "sleep": Draw(current_a=3e-6),
        "operations": (pulse(0.01, 0.05, 10.0),),
    }
    return load(**{**given, **changes})


def operation(name, interval_s, *draws, windows_s=((0.0, 604_800.0),)):
    return Operation(
        name=name,
        schedule=Periodic(interval_s=interval_s, windows_s=windows_s),
        phases=phases(*draws),
    )


def lithium_cell(mah, ohm, **changes):
    table = parts.chemistry("lithium_ion")
    given = {
        "capacity_c": mah * 3.6,
        "state_of_charge": table.state_of_charge,
        "open_circuit_v": table.open_circuit_v,
        "resistance_ohm": ohm,
        "self_discharge_a": 1e-7,
        "charge_limit_a": 0.02,
        "may_charge": True,
    }
    return Cell(**{**given, **changes})


LINEAR = LinearRegulator(output_v=2.5, ground_a=2e-6)
SWITCHING = SwitchingRegulator(output_v=1.8, efficiency=0.85, quiescent_a=1e-6)

SCENARIOS = {}


def scenario(name, span_s, given, **more):
    SCENARIOS[name] = (given, span_s, more)


scenario(
    "amorphous panel, diode, 4.7 mF: starts, sends, dies in the dark, starts again",
    1800.0,
    system(
        light=levels([(0, 60e-6), (900, 0.0), (1500, 30e-6)], 1800),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(4.7e-3, esr_ohm=0.5, leakage_a=1e-6),
        load=sensor(),
        initial_charge_c=4.7e-3 * 2.8,
    ),
)
scenario(
    "supercapacitor with C(v) from a cold start on a tracking converter",
    1200.0,
    system(
        light=levels([(0, 400e-6), (600, 200e-6)], 1200),
        panel=CRYSTALLINE,
        charger=converter(cold_below_v=1.8, cold_efficiency=0.3),
        store=bank(0.02, esr_ohm=2.0, leakage_a=2e-6, slope=0.3, bend=0.3),
        load=sensor(),
        initial_charge_c=float(bank_charge(bank(0.02, slope=0.3, bend=0.3), 1.5)),
    ),
)
scenario(
    "cold start from nothing at all, converter at a fraction, two light blocks",
    3000.0,
    system(
        light=levels([(0, 250e-6), (1000, 0.0), (1400, 500e-6), (2500, 100e-6)], 3000),
        panel=AMORPHOUS,
        charger=converter(voc_fraction=0.8, cold_below_v=1.2, cold_efficiency=0.4),
        store=bank(0.047, esr_ohm=0.3, leakage_a=5e-6),
        load=sensor(connect_v=2.8, off_v=2.0),
    ),
)
scenario(
    "small lithium cell, constant-power operation, resistor heater in a window",
    6000.0,
    system(
        light=levels([(0, 900e-6), (2000, 0.0), (4000, 400e-6)], 6000),
        panel=CRYSTALLINE,
        charger=converter(),
        store=lithium_cell(0.4, 3.0),
        full_v=4.2,
        initial_charge_c=0.6 * 0.4 * 3.6,
        load=sensor(
            connect_v=3.4,
            off_v=3.0,
            operations=(
                operation("send", 30.0, (Draw(power_w=0.05), 0.1), (Draw(power_w=0.2), 0.02)),
                operation(
                    "heat",
                    300.0,
                    (Draw(conductance_s=1 / 150.0), 2.0),
                    windows_s=((1000.0, 2500.0), (3000.0, 5600.0)),
                ),
            ),
        ),
    ),
)
scenario(
    "linear regulator, three operations that overlap",
    1500.0,
    system(
        light=levels([(0, 500e-6), (700, 80e-6)], 1500),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(0.01, esr_ohm=1.0, leakage_a=1e-6),
        initial_charge_c=0.03,
        load=sensor(
            regulator=LINEAR,
            off_v=2.65,
            sleep=behind(LINEAR, Draw(current_a=4e-6), sleeping=True),
            operations=(
                operation("measure", 7.0, (behind(LINEAR, Draw(current_a=2e-3)), 0.2)),
                operation("send", 31.0, (behind(LINEAR, Draw(power_w=0.02)), 0.1)),
                operation(
                    "show",
                    90.0,
                    (behind(LINEAR, Draw(conductance_s=1e-3)), 1.0),
                    (behind(LINEAR, Draw(current_a=5e-3)), 0.3),
                ),
            ),
        ),
    ),
)
scenario(
    "switching regulator that browns out through its series resistance",
    900.0,
    system(
        light=steady(700e-6),
        panel=CRYSTALLINE,
        charger=converter(loss_ohm=3.0),
        store=bank(0.022, esr_ohm=9.0, leakage_a=1e-6),
        initial_charge_c=0.022 * 3.19,
        load=sensor(
            regulator=SWITCHING,
            off_v=2.0,
            sleep=behind(SWITCHING, Draw(current_a=5e-6), sleeping=True),
            operations=(operation("send", 40.0, (behind(SWITCHING, Draw(power_w=0.13)), 0.5)),),
        ),
    ),
)
scenario(
    "hiccup: every start-up empties the store before the device is up",
    300.0,
    system(
        light=steady(150e-6),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(470e-6, leakage_a=1e-7),
        load=sensor(bulk_f=2e-5, start_up=phases((Draw(current_a=8e-3), 0.5))),
    ),
)
scenario(
    "runs whenever the store is ready",
    900.0,
    system(
        light=levels([(0, 200e-6), (400, 90e-6), (700, 0.0)], 900),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(2.2e-3, esr_ohm=0.4, leakage_a=1e-6),
        load=sensor(
            connect_v=3.0,
            operations=(when_ready(3.8, (Draw(power_w=0.1), 0.04), (Draw(current_a=0.02), 0.03)),),
        ),
    ),
)
scenario(
    "chatters at full without pulses",
    2000.0,
    system(
        light=levels([(0, 300e-6), (1500, 0.0)], 2000),
        panel=CRYSTALLINE,
        charger=converter(),
        store=bank(0.01, esr_ohm=0.5, leakage_a=20e-6),
        full_v=4.5,
        full_hysteresis_v=0.02,
        initial_charge_c=0.044,
        load=sensor(operations=()),
    ),
)
scenario(
    "chatters at full with pulses",
    2000.0,
    system(
        light=levels([(0, 300e-6), (1500, 0.0)], 2000),
        panel=CRYSTALLINE,
        charger=converter(),
        store=bank(0.05, esr_ohm=0.5, leakage_a=20e-6),
        full_v=4.5,
        full_hysteresis_v=0.02,
        initial_charge_c=0.22,
        load=sensor(),
    ),
)
scenario(
    "large pulses against the store, walked one by one",
    500.0,
    system(
        light=levels([(0, 800e-6), (300, 300e-6)], 500),
        panel=CRYSTALLINE,
        charger=SCHOTTKY,
        store=bank(3.3e-3, esr_ohm=0.2, leakage_a=1e-6),
        initial_charge_c=3.3e-3 * 3.3,
        load=sensor(off_v=1.2, operations=(pulse(0.02, 0.12, 20.0),)),
    ),
)
scenario(
    "pulses so small that they are averaged, beside larger ones",
    900.0,
    system(
        light=levels([(0, 500e-6), (500, 0.0)], 900),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(0.5, esr_ohm=5.0, leakage_a=2e-6, slope=0.3, bend=0.3),
        initial_charge_c=1.7,
        load=sensor(
            operations=(
                pulse(1e-3, 0.02, 2.0),
                operation("send", 60.0, (Draw(power_w=0.06), 0.8)),
            )
        ),
    ),
)


@cache
def course_of(name):
    given, span_s, more = SCENARIOS[name]
    return reference(given, span_s, **more)


def holds(given, course, span_s, *, compose, **more):
    off, where, run = worst(given, course, span_s, compose=compose, **more)
    assert off <= 1.0, where
    assert run.tally.cut_offs == course.kinds().count("cut off")
    assert run.tally.started == course.kinds().count("started")
    assert run.tally.served == pytest.approx(course.served, rel=2e-3, abs=1.0)
    assert run.tally.connected_s == pytest.approx(course.connected_s, rel=1e-4, abs=1e-2)
    return run


@pytest.mark.parametrize("compose", [True, False], ids=["composed", "walked"])
@pytest.mark.parametrize("name", SCENARIOS)
def test_trace_follows_the_reference(name, compose):
    given, span_s, more = SCENARIOS[name]
    holds(given, course_of(name), span_s, compose=compose, **more)


# -- windows of the week --------------------------------------------------------------------------


@pytest.mark.parametrize("compose", [True, False], ids=["composed", "walked"])
def test_windows_keep_to_the_calendar_over_the_turn_of_the_week(compose):
    # Sunday 23:50 to Monday 00:20: one window ends the week, one begins it, one opens at 00:10.
    minute, week = 60.0, 7 * 86_400.0
    given = system(
        light=levels([(0, 300e-6), (5 * minute, 150e-6)], 9 * minute, begins_at_s=5 * minute),
        panel=CRYSTALLINE,
        charger=converter(),
        store=bank(0.02, esr_ohm=0.5, leakage_a=2e-6),
        initial_charge_c=0.02 * 3.9,
        load=sensor(
            operations=(
                operation(
                    "night",
                    40.0,
                    (Draw(current_a=3e-3), 0.4),
                    windows_s=((0.0, 4 * minute), (week - 7 * minute, week)),
                ),
                operation(
                    "morning",
                    25.0,
                    (Draw(power_w=0.02), 0.2),
                    windows_s=((10 * minute, 13 * minute), (week - 15 * minute, week - 600.0)),
                ),
            )
        ),
    )
    begin_s = week - 15 * minute  # the course began at Monday 00:05
    course = reference(given, 30 * minute, begin_s, connected=True)
    assert min(course.served) > 0
    holds(given, course, 30 * minute, compose=compose, begin_s=begin_s, connected=True)


# -- a log of one-minute readings -----------------------------------------------------------------


def log_like(minutes, seed, top_a):
    """Readings as a desk by a window has them: steps of lamps, drift of daylight, noise."""
    rng = np.random.default_rng(seed)
    t = np.arange(minutes)
    daylight = np.clip(np.sin(np.pi * t / minutes), 0.0, None) ** 2
    lamps = np.where((t > minutes * 0.2) & (t < minutes * 0.7), 0.4, 0.0)
    level = (0.6 * daylight + lamps) * rng.uniform(0.85, 1.15, minutes)
    level[t > 0.9 * minutes] = 0.0
    return levels(list(zip(t * 60.0, top_a * level, strict=True)), minutes * 60.0)


LOGS = {
    "small store on a converter": system(
        light=log_like(60, 1, 300e-6),
        panel=AMORPHOUS,
        charger=converter(voc_fraction=0.78, minimum_panel_w=0.0, fixed_loss_w=0.0),
        store=bank(0.1, esr_ohm=1.0, leakage_a=2e-6),
        initial_charge_c=0.29,
        load=sensor(),
    ),
    "larger store behind a diode": system(
        light=log_like(70, 2, 500e-6),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(1.0, esr_ohm=0.2, leakage_a=4e-6, slope=0.3, bend=0.3),
        initial_charge_c=2.6,
        load=sensor(operations=(pulse(0.01, 0.1, 30.0),)),
    ),
}


@pytest.mark.parametrize("name", LOGS)
def test_trace_follows_the_reference_through_a_log(name):
    given = LOGS[name]
    span_s = given.light.period_s
    course = reference(given, span_s)
    assert "started" in course.kinds()
    holds(given, course, span_s, compose=True)


# -- anything -------------------------------------------------------------------------------------


def random_phase(rng, scale_a, longest_s):
    seconds = float(10.0 ** rng.uniform(-2.0, np.log10(longest_s)))
    amps = float(scale_a * 10.0 ** rng.uniform(-1.0, 0.0))
    kind = rng.integers(3)
    if kind == 0:
        return Draw(current_a=amps), seconds
    if kind == 1:
        return Draw(power_w=3.0 * amps), seconds
    return Draw(conductance_s=amps / 3.0), seconds


def random_system(seed):
    """A small system and a span in which a few dozen things happen."""
    rng = np.random.default_rng(seed)

    def pick(*of):
        return of[rng.integers(len(of))]

    light_a = float(10.0 ** rng.uniform(-4.6, -3.0))
    span_s = float(rng.uniform(200.0, 900.0))
    edges = np.sort(rng.uniform(0.0, span_s, rng.integers(1, 4)))
    blocks = [(0.0, light_a)] + [
        (float(t), float(light_a * pick(0.0, 0.1, 0.5, 2.0))) for t in edges
    ]
    full_v = float(rng.uniform(3.6, 5.2))
    begin_v = float(pick(0.0, 0.3, 0.6, 0.8, 0.97) * full_v)
    panel = pick(AMORPHOUS, CRYSTALLINE)
    if rng.random() < 0.5:
        charger = DirectCharger(
            diode_saturation_a=float(10.0 ** rng.uniform(-9.0, -6.0)), diode_slope_v=0.03
        )
    else:
        charger = converter(
            voc_fraction=pick(None, 0.7, 0.82),
            efficiency=float(rng.uniform(0.6, 0.95)),
            loss_ohm=pick(0.0, 0.5, 20.0),
            output_limit_a=pick(0.1, float(light_a)),
            cold_below_v=pick(0.0, 1.5, 1.9),
            cold_efficiency=float(rng.uniform(0.2, 0.6)),
        )
    esr = float(pick(0.0, 0.2, 3.0, 15.0))
    if rng.random() < 0.2:
        store = lithium_cell(float(rng.uniform(0.01, 0.05)), esr, charge_limit_a=float(light_a))
        full_v, begin = min(full_v, 4.15), float(rng.uniform(0.02, 0.9) * store.capacity_c)
        farad = store.capacity_c
    else:
        # About a charge in the span at full light.
        farad = float(light_a * span_s / full_v * 10.0 ** rng.uniform(-1.0, 0.5))
        shape = pick({}, {"slope": 0.3, "bend": 0.3})
        store = bank(farad, esr_ohm=esr, leakage_a=float(light_a * pick(0.0, 0.01, 0.05)), **shape)
        begin = float(bank_charge(store, begin_v))
    off_v = float(rng.uniform(1.6, 2.6))
    connect_v = float(rng.uniform(off_v + 0.2, min(full_v - 0.1, 3.6)))
    interval_s = float(rng.uniform(5.0, 40.0))
    taken_a = float(farad * 10.0 ** rng.uniform(-3.0, -0.7))  # over about a second
    regulator = pick(None, LINEAR, SWITCHING)
    if regulator is LINEAR:
        off_v, connect_v = 2.65, max(connect_v, 2.9)
    operations = []
    for j in range(rng.integers(0, 3)):
        given = [random_phase(rng, taken_a, 1.5) for _ in range(rng.integers(1, 3))]
        draws = [(behind(regulator, d), s) for d, s in given]
        if rng.random() < 0.2:
            operations.append(when_ready(float(rng.uniform(connect_v, full_v - 0.06)), *draws))
        else:
            a, b = np.sort(rng.uniform(0.0, span_s, 2))
            windows = pick(((0.0, 604_800.0),), ((float(a), float(b) + 20.0),))
            operations.append(
                operation(f"op {j}", interval_s * (1 + 2.3 * j), *draws, windows_s=windows)
            )
    device = load(
        connect_v=connect_v,
        off_v=off_v,
        minimum_v=off_v,
        bulk_f=pick(0.0, 0.01 * farad),
        start_up=phases(
            *[
                (behind(regulator, d, sleeping=True), s)
                for d, s in [random_phase(rng, taken_a, 1.0) for _ in range(rng.integers(0, 3))]
            ]
        ),
        sleep=behind(regulator, Draw(current_a=0.02 * light_a), sleeping=True),
        operations=tuple(operations),
        regulator=regulator,
        retry_delay_s=float(rng.uniform(0.5, 20.0)),
    )
    return system(
        light=levels(blocks, span_s * 1.01),
        panel=panel,
        charger=charger,
        full_v=full_v,
        full_hysteresis_v=float(pick(0.02, 0.05, 0.2)),
        quiescent_a=float(0.005 * light_a),
        store=store,
        initial_charge_c=begin,
        load=device,
    ), span_s


# Beside some of the first, those that once found a skipped threshold.
@pytest.mark.parametrize("seed", [*some(range(40), 4), 1303, 1439])
def test_random_trace_follows_the_reference(seed):
    given, span_s = random_system(seed)
    course = reference(given, span_s, most_pieces=MOST_PIECES)
    if course.gave_up_s < span_s:
        span_s = course.gave_up_s
        course = reference(given, span_s)
    for compose in (True, False):
        holds(given, course, span_s, compose=compose)
