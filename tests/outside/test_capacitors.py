"""Capacitors against closed forms, the IEC 62391-1 procedure and measured discharges.

Closed forms marked "own computation" were derived by hand and agree with an ODE solver to 1e-6;
every run here is a march of the engine, not the formula written twice.
"""

import re
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import trapezoid

from explorer.engine.course import Standing, StopAt
from explorer.engine.march import Engine
from explorer.engine.trace import Trace
from explorer.physics import store as st
from explorer.physics.load import Draw, terminal_voltage
from explorer.scenario.storage import SupercapacitorStore
from tests.engine.systems import (
    AMORPHOUS,
    NEVER_V,
    bank,
    load,
    power_source,
    pulse,
    resistor_source,
    steady,
    system,
)

LONG_S = 1e9
DEFAULT, FINE = {"nodes": 400}, {"nodes": 4000}
TOLERANCE = {400: 1e-5, 4000: 1e-6}


def charged(store, volts):
    return Standing(charge_c=float(st.bank_charge(store, volts)), connected=True)


def emptied(store, from_v, until_v, draw, nodes=400):
    """Run a draw from an open-circuit voltage until the terminals reach a voltage."""
    given = system(store=store, full_v=from_v + 0.5, load=load(off_v=until_v, sleep=draw))
    return Engine(given, nodes=nodes).march(LONG_S, charged(store, from_v), stop_at=StopAt.CUT_OFF)


def volts_at_end(store, run, nodes=4001):
    grid = np.linspace(0.0, 10.0, nodes)
    return float(np.interp(run.end.charge_c, st.bank_charge(store, grid), grid))


# -- energy ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("farad", "high", "low", "joule", "share"),
    [
        (1.0, 5.0, 2.5, 9.375, 0.75),
        (0.47, 5.0, 2.0, 4.935, 0.84),
        (1.0, 2.7, 1.35, 2.73375, 0.75),
        (100e-6, 4.5, 2.2, 0.7705e-3, 0.7610),
    ],
)
def test_usable_energy_is_what_a_constant_power_gets_out(farad, high, low, joule, share):
    # C (V1² - V2²) / 2, own computation
    watt = joule / 100.0
    run = emptied(bank(farad), high, low, Draw(power_w=watt), nodes=4000)
    assert run.span_s * watt == pytest.approx(joule, rel=1e-6)
    assert joule / (0.5 * farad * high**2) == pytest.approx(share, abs=1e-4)


# -- constant power through a series resistance ---------------------------------------------------

# C, V1 -> V2 internal, P, R, time, time without R; own computation (closed form and ODE)
POWER = [
    (1.0, 5.0, 2.0, 1.0, 0.1, 10.407289, 10.500),
    (0.1, 3.3, 2.0, 0.1, 2.0, 3.341443, 3.445),
    (0.015, 4.5, 2.2, 0.35, 0.15, 0.328595, 0.330214),
    (25.0, 2.7, 1.35, 5.0, 0.025, 13.217885, 13.66875),
]


@pytest.mark.parametrize("nodes", TOLERANCE)
@pytest.mark.parametrize(("farad", "v1", "v2", "watt", "ohm", "seconds", "without"), POWER)
def test_constant_power_discharge(nodes, farad, v1, v2, watt, ohm, seconds, without):
    draw = Draw(power_w=watt)
    until = float(terminal_voltage(v2, 0.0, draw, ohm))
    run = emptied(bank(farad, esr_ohm=ohm), v1, until, draw, nodes)
    assert run.span_s == pytest.approx(seconds, rel=TOLERANCE[nodes], abs=6e-7)
    lossless = emptied(bank(farad), v1, v2, draw, nodes)
    assert lossless.span_s == pytest.approx(without, rel=TOLERANCE[nodes], abs=6e-7)


def test_cut_off_is_met_at_the_terminals():
    # V2 = U2 + (P / U2) R: 2.1 V inside for 2.0 V outside, 3.146716 s; own computation
    store = bank(0.1, esr_ohm=2.0)
    run = emptied(store, 3.3, 2.0, Draw(power_w=0.1), nodes=4000)
    assert run.span_s == pytest.approx(3.146716, rel=1e-6)
    assert volts_at_end(store, run) == pytest.approx(2.1, abs=1e-6)


@pytest.mark.parametrize("nodes", TOLERANCE)
def test_power_is_out_of_reach_below_twice_the_root_of_power_times_resistance(nodes):
    # 2 sqrt(P R): 0.35 W, 0.15 ohm, 0.4583 V inside; maximum power transfer, own computation
    store = bank(0.015, esr_ohm=0.15)
    run = emptied(store, 4.5, 1e-3, Draw(power_w=0.35), nodes)
    assert volts_at_end(store, run) == pytest.approx(0.4583, abs=5e-5)
    assert terminal_voltage(0.4584, 0.0, Draw(power_w=0.35), 0.15) > 0.22
    assert terminal_voltage(0.4581, 0.0, Draw(power_w=0.35), 0.15) < 0.0


# -- constant current -----------------------------------------------------------------------------


def test_current_pulse_sags_by_its_step_and_its_ramp():
    # I ESR + I t / C: 100 mA, 50 mohm, 50 ms, 0.1 F give 5 mV + 50 mV; own computation
    store = bank(0.1, esr_ohm=0.05)
    one = pulse(0.1, 0.05, 10.0)
    given = system(store=store, load=load(operations=(one,)))
    engine = Engine(given)
    run = engine.march(10.0, charged(store, 3.0))
    trace = Trace(engine, run).eventful(100)
    assert trace.terminal_min_v.min() == pytest.approx(3.0 - 0.055, abs=1e-9)
    assert trace.store_min_v.min() == pytest.approx(3.0 - 0.050, abs=1e-9)
    assert run.tally.served == [1.0]


def test_constant_leak_of_a_microampere_costs_0_0864_volt_a_day():
    store = bank(1.0)
    given = system(store=store, quiescent_a=1e-6)
    run = Engine(given).march(86_400.0, Standing(charge_c=4.0, connected=False))
    assert 4.0 - run.end.charge_c == pytest.approx(0.0864, rel=1e-9)


@pytest.mark.parametrize(("hours", "left"), [(24, 4.58614), (168, 2.73092)])
def test_leak_resistor_empties_exponentially(hours, left):
    # 1 F, 1 Mohm, 5 V; own computation. Leakage in proportion to voltage is a resistor.
    store = bank(1.0, rated_v=5.5, leakage_a=5.5e-6)
    given = system(store=store, full_v=5.5)
    run = Engine(given).march(hours * 3600.0, Standing(charge_c=5.0, connected=False))
    assert run.end.charge_c == pytest.approx(left, abs=5e-6)


def test_constant_current_charges_along_a_straight_line():
    # v = I t / C
    given = system(light=steady(1e-4), store=bank(0.1), full_v=5.0)
    engine = Engine(given)
    run = engine.march(4000.0)
    trace = Trace(engine, run).eventful(200)
    assert trace.store_v == pytest.approx(trace.time_s * 1e-3, abs=1e-9)
    assert trace.harvest_a == pytest.approx(1e-4, rel=1e-9)
    full = engine.march(LONG_S, stop_at=StopAt.FULL)
    assert full.span_s == pytest.approx(5000.0, rel=1e-9)


# -- charging -------------------------------------------------------------------------------------


@pytest.mark.parametrize("ohm", [1e3, 5e4])
@pytest.mark.parametrize("esr", [0.0, 40.0])
def test_charging_through_a_resistance(ohm, esr):
    # v = V (1 - exp(-t / RC)), the store's own resistance in series
    store, volts = bank(0.01, esr_ohm=esr), 4.0
    given = system(light=steady(volts / ohm), panel=resistor_source(ohm), store=store, full_v=5.0)
    engine, tau = Engine(given), (ohm + esr) * 0.01
    for turns in (0.1, 1.0, 3.0, 8.0):
        run = engine.march(turns * tau)
        assert run.end.charge_c / 0.01 == pytest.approx(-volts * np.expm1(-turns), rel=1e-5)


# C, V1, V2, P, leak, time, time without leak; own computation
CHARGE = [
    (1.0, 2.0, 4.5, 100e-6, 5e-6, 98_126.936, 81_250.0),
    (0.1, 0.5, 3.0, 20e-6, 1e-6, 24_402.243, 21_875.0),
]


@pytest.mark.parametrize("nodes", TOLERANCE)
@pytest.mark.parametrize(("farad", "v1", "v2", "watt", "leak", "seconds", "without"), CHARGE)
def test_charging_by_constant_power_less_a_leak(nodes, farad, v1, v2, watt, leak, seconds, without):
    for amps, expected in ((leak, seconds), (0.0, without)):
        given = system(
            light=steady(1e-4),
            panel=AMORPHOUS,
            charger=power_source(watt, AMORPHOUS, 1e-4),
            store=bank(farad),
            full_v=v2,
            quiescent_a=amps,
        )
        start = Standing(charge_c=farad * v1, connected=False)
        run = Engine(given, nodes=nodes).march(LONG_S, start, stop_at=StopAt.FULL)
        assert run.span_s == pytest.approx(expected, rel=TOLERANCE[nodes])


def test_constant_power_less_a_leak_has_a_ceiling():
    # P / I = 100 µW / 25 µA = 4 V; own computation
    given = system(
        light=steady(1e-4),
        panel=AMORPHOUS,
        charger=power_source(100e-6, AMORPHOUS, 1e-4),
        store=bank(0.01),
        quiescent_a=25e-6,
    )
    for begin_v in (1.0, 4.9):
        run = Engine(given).march(1e5, Standing(charge_c=0.01 * begin_v, connected=False))
        assert run.end.charge_c / 0.01 == pytest.approx(4.0, abs=1e-3)


# -- series units ---------------------------------------------------------------------------------


def test_unequal_units_in_series_share_a_voltage_inversely_to_capacitance():
    # C +20 % and -20 %, 5 V: 2.0 V and 3.0 V, and 0.48 C for the pair; own computation.
    # Each unit takes the same charge, so two units marched apart must add up to the pair.
    big, small, pair = bank(1.2), bank(0.8), bank(0.48)
    amps, seconds = 1e-3, 0.48 * 5.0 / 1e-3
    reached = [
        Engine(system(light=steady(amps), store=unit, full_v=NEVER_V / 100)).march(seconds)
        for unit in (big, small, pair)
    ]
    volts = [r.end.charge_c / c for r, c in zip(reached, (1.2, 0.8, 0.48), strict=True)]
    assert volts == pytest.approx([2.0, 3.0, 5.0], rel=1e-9)
    assert float(5.0 * st.largest_share(2, 0.2)) == pytest.approx(3.0, rel=1e-12)


# -- the IEC 62391-1 procedure --------------------------------------------------------------------


def class_currents(farad, rated_v):
    """Discharge currents of IEC 62391-1 for classes 2, 3 and 4 (read second-hand). [A]"""
    return [k * farad * rated_v * 1e-3 for k in (0.4, 4.0, 40.0)]


def iec_reading(time_s, terminal_v, rated_v, current_a):
    """Capacitance and resistance as the procedure reads them off a discharge.

    C from the time between 0.8 and 0.4 of rated voltage; R from the straight line through the
    discharge, drawn back to its beginning.
    """
    falling = np.minimum.accumulate(terminal_v)

    def when(share):
        return np.interp(-share * rated_v, -falling, time_s)

    farad = current_a * (when(0.4) - when(0.8)) / (0.4 * rated_v)
    line = np.polynomial.Polynomial.fit(
        *zip(*[(when(s), s * rated_v) for s in np.linspace(0.9, 0.7, 41)], strict=True), 1
    )
    return float(farad), float(line(0.0))


def simulated_discharge(store, rated_v, current_a, nodes=400):
    given = system(
        store=store,
        full_v=rated_v + 0.01,
        load=load(off_v=0.02 * rated_v, sleep=Draw(current_a=current_a)),
    )
    engine = Engine(given, nodes=nodes)
    run = engine.march(LONG_S, charged(store, rated_v), stop_at=StopAt.CUT_OFF)
    trace = Trace(engine, run).eventful(4000)
    keep = trace.connected
    return trace.time_s[keep], trace.terminal_v[keep]


def test_class_currents_are_those_of_the_standard():
    # IEC 62391-1 table, seen second-hand; the measured files below carry exactly these currents
    assert class_currents(25.0, 3.0) == pytest.approx([0.030, 0.300, 3.000])
    assert class_currents(50.0, 3.0) == pytest.approx([0.060, 0.600, 6.000])
    assert class_currents(1.0, 5.5) == pytest.approx([2.2e-3, 22e-3, 220e-3])
    assert measured("25F_a").current_a == class_currents(25.0, 3.0)[2]
    assert measured("50F_a").current_a == pytest.approx(class_currents(50.0, 3.0)[1])


@pytest.mark.parametrize(("farad", "rated_v", "ohm"), [(25.0, 3.0, 0.027), (1.0, 5.5, 0.8)])
@pytest.mark.parametrize("which", [0, 1, 2])
def test_the_procedure_recovers_a_constant_capacitance_and_its_resistance(
    farad, rated_v, ohm, which
):
    amps = class_currents(farad, rated_v)[which]
    store = bank(farad, rated_v=rated_v, esr_ohm=ohm)
    read_f, begin_v = iec_reading(*simulated_discharge(store, rated_v, amps), rated_v, amps)
    assert read_f == pytest.approx(farad, rel=1e-6)
    assert (rated_v - begin_v) / amps == pytest.approx(ohm, rel=1e-3)


def test_the_procedure_reads_the_rated_value_off_a_capacitance_that_falls_with_voltage():
    # `capacitance_f` is declared as what this procedure gives, whatever the slope and the bend.
    for slope, bend in ((0.0, 0.0), (0.3, 0.3), (0.5, 0.1)):
        store = bank(25.0, rated_v=3.0, esr_ohm=0.0, slope=slope, bend=bend)
        time_s, terminal_v = simulated_discharge(store, 3.0, 0.3)
        assert iec_reading(time_s, terminal_v, 3.0, 0.3)[0] == pytest.approx(25.0, rel=1e-5)


# -- measured discharges --------------------------------------------------------------------------

DATA = Path(__file__).parent / "data" / "supercapacitors"


class Discharge:
    """One measured discharge from data/supercapacitors, see ORIGIN.txt there."""

    def __init__(self, name):
        lines = (DATA / f"discharge_{name}.csv").read_text().splitlines()
        head = dict(re.findall(r"(\w+)=([-\d.eE]+)", lines[1]))
        self.rated_v = float(head["U_R_V"])
        self.current_a = float(head["I_dc_A"])
        self.drop_v = float(head["U3_V"])
        table = np.array([row.split(",") for row in lines[3:]], float)
        table = table[table[:, 0] >= 0.0]
        self.time_s, self.voltage_v = table[:, 0], table[:, 1]

    def time_at(self, share):
        falling = np.minimum.accumulate(self.voltage_v)
        return float(np.interp(-share * self.rated_v, -falling, self.time_s))

    def capacitance(self, high, low):
        seconds = self.time_at(low) - self.time_at(high)
        return self.current_a * seconds / ((high - low) * self.rated_v)


def measured(name):
    return Discharge(name)


# t(0.8->0.4 U_R), C, C(0.9->0.7), C(0.4->0.2), energy at the terminals, C (V1² - V2²) / 2, U3/I;
# computed from the full logs of Zenodo 10.5281/zenodo.19221698; the thinned copies keep 0.06 %
MEASURED = {
    "50F_a": (106.22, 53.110, 55.733, 45.933, 115.585, 114.717, 0.0200),
    "25F_a": (10.925, 27.312, 28.468, 23.694, 59.338, 58.993, 0.0268),
    "25F_b": (10.60, 26.504, 27.536, 23.352, 57.534, 57.249, 0.0259),
    "25F_c": (10.815, 27.036, 27.681, 24.504, 58.635, 58.398, 0.0229),
}


@pytest.mark.parametrize("name", MEASURED)
def test_measured_discharges_are_read_as_published(name):
    seconds, farad, top, bottom, at_terminals, by_formula, ohm = MEASURED[name]
    log = measured(name)
    assert log.time_at(0.4) - log.time_at(0.8) == pytest.approx(seconds, rel=1e-3)
    read_f, _ = iec_reading(log.time_s, log.voltage_v, log.rated_v, log.current_a)
    assert read_f == pytest.approx(farad, rel=1e-3)
    assert log.capacitance(0.9, 0.7) == pytest.approx(top, rel=2e-3)
    assert log.capacitance(0.4, 0.2) == pytest.approx(bottom, rel=2e-3)
    assert log.drop_v / log.current_a == pytest.approx(ohm, abs=5e-5)
    begin, end = log.time_at(0.8), log.time_at(0.4)
    inside = log.time_s[(log.time_s > begin) & (log.time_s < end)]
    times = np.concatenate([[begin], inside, [end]])
    volts = np.interp(times, log.time_s, log.voltage_v)
    joule = log.current_a * trapezoid(volts, times)
    assert joule == pytest.approx(at_terminals, rel=2e-3)
    assert 0.5 * read_f * 0.48 * log.rated_v**2 == pytest.approx(by_formula, rel=1e-3)
    assert by_formula / at_terminals - 1.0 == pytest.approx(-0.0058, abs=0.0025)


@pytest.mark.parametrize("name", MEASURED)
def test_the_model_follows_a_measured_discharge(name):
    # With the capacitance that the procedure read, and the default slope and bend, which are
    # those of a family, not of this unit.
    _, farad, *_, ohm = MEASURED[name]
    log = measured(name)
    usual = SupercapacitorStore()
    shaped = {"slope": usual.capacitance_slope, "bend": usual.capacitance_bend}
    errors = {}
    for kind, form in {"falls with voltage": shaped, "constant": {}}.items():
        store = bank(farad, rated_v=log.rated_v, esr_ohm=ohm, **form)
        time_s, volts = simulated_discharge(store, log.rated_v, log.current_a)
        upper = np.linspace(0.9, 0.2, 71) * log.rated_v
        model = np.interp(-upper, -volts, time_s)
        seen = np.array([log.time_at(u / log.rated_v) for u in upper])
        # Time from 0.8 of rated voltage on: when a hold before it ended is the logger's affair.
        offset = np.interp(-0.8 * log.rated_v, -upper, seen - model)
        errors[kind] = np.abs(seen - model - offset).max() / (farad * log.rated_v / log.current_a)
    assert errors["falls with voltage"] < 0.012
    assert errors["falls with voltage"] < 0.8 * errors["constant"]


@pytest.mark.parametrize("name", MEASURED)
def test_constant_capacitance_promises_too_much_energy_at_low_voltage(name):
    # Medians over 61 published logs: C below 0.4 U_R is 6 to 15 % under the IEC value
    log = measured(name)
    missing = 1.0 - log.capacitance(0.4, 0.2) / log.capacitance(0.8, 0.4)
    assert 0.06 < missing < 0.15
    usual = SupercapacitorStore()
    unit = bank(1.0, slope=usual.capacitance_slope, bend=usual.capacitance_bend)
    held = np.diff(st.bank_charge(unit, 5.5 * np.array([0.2, 0.4])))[0] / (0.2 * 5.5)
    assert 0.06 < 1.0 - held < 0.15
