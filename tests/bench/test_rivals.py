"""The same week by other means: scipy's solve_ivp event by event, and ngspice.

The circuit: a small amorphous panel behind a blocking diode charges a 1.5 F store with series
resistance and leakage; a device sleeps at 3 µA and takes 10 mA for 50 ms every minute; light from
eight to six on five days. No threshold is met, so the three solve one and the same problem.
"""

import shutil
import subprocess
from time import perf_counter

import numpy as np
import pytest

from explorer.engine.course import Standing
from explorer.engine.march import Engine
from explorer.physics.constants import thermal_voltage
from explorer.physics.load import Draw
from explorer.physics.panel import Panel
from tests.engine.systems import SCHOTTKY, bank, levels, load, pulse, system
from tests.outside.reference_ode import Reference

WEEK_S, DAY_S, HOUR_S = 604_800.0, 86_400.0, 3600.0
PHOTOCURRENT_A, START_V = 35e-6, 3.5
PANEL = Panel(saturation_a=2e-14, slope_v=0.36, series_ohm=900.0, shunt_s=1e-7)
ESR_OHM, LEAKAGE_A, RATED_V, FARAD = 0.5, 2e-6, 5.5, 1.5
SLEEP_A, PULSE_A, PULSE_S, EVERY_S = 3e-6, 0.01, 0.05, 60.0
LIT = [(day * DAY_S + 8 * HOUR_S, day * DAY_S + 18 * HOUR_S) for day in range(5)]


def same_system():
    begins = [(0.0, 0.0)]
    for begin, end in LIT:
        begins += [(begin, PHOTOCURRENT_A), (end, 0.0)]
    return system(
        light=levels(begins, WEEK_S),
        panel=PANEL,
        charger=SCHOTTKY,
        full_v=5.4,
        store=bank(FARAD, rated_v=RATED_V, esr_ohm=ESR_OHM, leakage_a=LEAKAGE_A),
        initial_charge_c=FARAD * START_V,
        load=load(
            connect_v=3.2,
            off_v=1.0,
            sleep=Draw(current_a=SLEEP_A),
            operations=(pulse(PULSE_A, PULSE_S, EVERY_S),),
        ),
    )


def march(given):
    """Voltage after the week, with all tables built afresh."""
    engine = Engine(given)
    run = engine.march(WEEK_S, Standing(charge_c=given.initial_charge_c, connected=True))
    return float(engine.field.voltage_at(run.end.charge_c))


def median_of(function, *arguments, times=9):
    """Median time of some runs, in seconds, and what the last of them gave."""
    taken = []
    for _ in range(times):
        begin = perf_counter()
        found = function(*arguments)
        taken.append(perf_counter() - begin)
    return sorted(taken)[times // 2], found


def test_against_solve_ivp(benchmark, tell):
    """All 10 080 pulses, by LSODA with rtol 1e-6 from event to event."""
    given = same_system()
    ours_s, volts = median_of(march, given)
    reference = Reference(given, rtol=1e-6)
    course = benchmark.pedantic(
        reference.run, args=(WEEK_S, START_V), kwargs={"connected": True}, rounds=1, iterations=1
    )
    theirs_s = benchmark.stats.stats.min
    off_v = abs(course.volts(WEEK_S) - volts)
    tell(
        f"solve_ivp event by event, whole week: {theirs_s:.3g} s, ours {1e3 * ours_s:.3g} ms with "
        f"all tables, ratio {theirs_s / ours_s:.0f}; they differ by {1e6 * off_v:.2g} µV at the end"
    )
    assert off_v < 1e-3


def netlist(span_s, out):
    """The same circuit in SPICE; the ideality that makes N·kT/q the slope of each diode."""
    kelvin_c = 27.0
    volt = thermal_voltage(kelvin_c)
    points = ["0 0"]
    for begin, end in LIT:
        if begin < span_s:
            edge = 1e-3
            points += [f"{begin} 0", f"{begin + edge} {PHOTOCURRENT_A}"]
            points += [f"{end} {PHOTOCURRENT_A}", f"{end + edge} 0"]
    return f"""a store in room light
.options gmin=1e-18 reltol=1e-4 abstol=1e-13 temp={kelvin_c} tnom={kelvin_c}
Ilight 0 a PWL({" ".join(points)})
Dcell a 0 cell
Rshunt a 0 {1 / PANEL.shunt_s}
Rseries a b {PANEL.series_ohm}
Dblock b t block
.model cell D(IS={PANEL.saturation_a} N={PANEL.slope_v / volt})
.model block D(IS={SCHOTTKY.diode_saturation_a} N={SCHOTTKY.diode_slope_v / volt})
Resr t c {ESR_OHM}
Cstore c 0 {FARAD} IC={START_V}
Rleak c 0 {RATED_V / LEAKAGE_A}
Isleep t 0 {SLEEP_A}
Ipulse t 0 PULSE(0 {PULSE_A} 0 1e-6 1e-6 {PULSE_S} {EVERY_S})
.control
set filetype=ascii
save v(c)
tran 30 {span_s} 0 30 uic
let last = v(c)[length(v(c))-1]
print last > {out}
quit
.endc
.end
"""


@pytest.mark.skipif(shutil.which("ngspice") is None, reason="ngspice is not installed")
def test_against_ngspice(benchmark, tell, tmp_path):
    """The whole week, in a process of its own whose start is taken off."""
    given = same_system()

    def spice(span_s):
        deck, out = tmp_path / "store.cir", tmp_path / "last.txt"
        deck.write_text(netlist(span_s, out), encoding="utf-8")
        done = subprocess.run(
            ["ngspice", "-b", str(deck)], capture_output=True, text=True, check=False
        )
        assert out.exists(), done.stdout + done.stderr
        return float(out.read_text().split("=")[1])

    start_s, _ = median_of(spice, 30.0, times=3)
    ours_s, volts = median_of(march, given)
    theirs_v = benchmark.pedantic(spice, args=(WEEK_S,), rounds=1, iterations=1)
    theirs_s = benchmark.stats.stats.min - start_s
    tell(
        f"ngspice, whole week: {theirs_s:.3g} s without its start of {start_s:.2g} s, ours "
        f"{1e3 * ours_s:.3g} ms with all tables, ratio {theirs_s / ours_s:.0f}; they differ by "
        f"{1e6 * abs(theirs_v - volts):.3g} µV at the end"
    )
    assert np.isfinite(theirs_v)
    assert abs(theirs_v - volts) < 1e-3
