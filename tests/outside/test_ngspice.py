"""The same circuits in ngspice: an independent simulator of electric circuits, run in batch mode.

The netlists are written here; nothing in them is taken from the engine but the parts' values.
"""

import itertools
import shutil
import subprocess

import numpy as np
import pytest

from explorer.engine.course import Standing, StopAt
from explorer.engine.march import Engine
from explorer.engine.trace import Trace
from explorer.physics import store as st
from explorer.physics.constants import thermal_voltage
from explorer.physics.load import (
    Draw,
    LinearRegulator,
    regulator_draw,
    through_regulator,
)
from explorer.physics.panel import maximum_power
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
)

NGSPICE = shutil.which("ngspice")
LIMIT_V = 1e-3
pytestmark = pytest.mark.skipif(NGSPICE is None, reason="ngspice is not installed")


def spice(folder, circuit, *, stop_s, step_s, start="", probes=("v(store)", "v(term)")):
    """Transient run of a netlist; times and one row of values for each probe."""
    deck, out = folder / "deck.cir", folder / "out.txt"
    deck.write_text(
        f"""circuit
{circuit}
.options temp=25 tnom=25 reltol=1e-6 abstol=1e-13 vntol=1e-8 gmin=1e-15 method=gear
{start}
.control
set wr_singlescale
tran {step_s} {stop_s} 0 {step_s} uic
wrdata {out.name} {" ".join(probes)}
.endc
.end
""",
        encoding="utf-8",
    )
    done = subprocess.run(
        [NGSPICE, "-b", deck.name],
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert out.exists(), done.stdout + done.stderr
    table = np.loadtxt(out)
    assert table[-1, 0] == pytest.approx(stop_s, rel=1e-6), done.stdout + done.stderr
    return table[:, 0], table[:, 1:].T


def diode(name, saturation_a, slope_v):
    ideality = float(slope_v / thermal_voltage(25.0))
    return f".model {name} d(is={float(saturation_a):.12g} n={ideality:.12g})"


def panel_netlist(panel):
    """A panel between ground and node `out`; node `cell` is fed with the photocurrent.

    A photo-shunt is a current in proportion to light and to the diode's voltage.
    """
    return f"""
dpanel cell 0 dpanel
{diode("dpanel", panel.saturation_a, panel.slope_v)}
bshunt cell 0 i=v(cell)*({panel.shunt_s}+{panel.photo_shunt_per_v}*v(light))
rseries cell out {panel.series_ohm}
"""


def steps(name, pairs, ramp_s=1e-3):
    """A piecewise constant source, `pairs` of (begin, value)."""
    points = [f"0 {pairs[0][1]}"]
    for (_, before), (begin, value) in itertools.pairwise(pairs):
        points += [f"{begin} {before}", f"{begin + ramp_s} {value}"]
    return f"v{name} {name} 0 pwl({' '.join(points)})"


def at(times, engine, run, field="store_v"):
    return getattr(Trace(engine, run).at(np.asarray(times, float)), field)


@pytest.mark.parametrize("panel", [AMORPHOUS, CRYSTALLINE], ids=["amorphous", "crystalline"])
def test_direct_charge_through_a_blocking_diode(tmp_path, panel):
    farad, esr, leak_a = 4.7e-3, 30.0, 2e-6
    blocks = [(0.0, 150e-6), (120.0, 0.0), (200.0, 40e-6)]
    circuit = f"""
{steps("light", blocks)}
bphoto 0 cell i=v(light)
{panel_netlist(panel)}
dblock out term dblock
{diode("dblock", SCHOTTKY.diode_saturation_a, SCHOTTKY.diode_slope_v)}
resr term store {esr}
cstore store 0 {farad} ic=0.5
rleak store 0 {5.5 / leak_a}
"""
    times, (store_v, term_v) = spice(tmp_path, circuit, stop_s=300.0, step_s=0.05)
    given = system(
        light=levels(blocks, 300.0),
        panel=panel,
        charger=SCHOTTKY,
        store=bank(farad, rated_v=5.5, esr_ohm=esr, leakage_a=leak_a),
        full_v=9.0,
    )
    engine = Engine(given)
    run = engine.march(300.0, Standing(charge_c=farad * 0.5, connected=False))
    assert store_v.max() > 1.5
    assert at(times, engine, run) == pytest.approx(store_v, abs=LIMIT_V)
    away = np.min(np.abs(times[:, None] - [0.0, 120.0, 200.0]), axis=1) > 0.2
    ours = at(times, engine, run, "terminal_v")
    assert ours[away] == pytest.approx(term_v[away], abs=LIMIT_V)


@pytest.mark.parametrize("loss_ohm", [0.0, 40.0])
def test_converter_as_a_source_of_power(tmp_path, loss_ohm):
    farad, esr, amps, limit = 0.01, 5.0, 300e-6, 2e-3
    charger = converter(loss_ohm=loss_ohm, output_limit_a=limit)
    watt = 0.85 * float(maximum_power(CRYSTALLINE, amps).power_w) - 1e-6
    draw_w = 1.2e-3
    circuit = f"""
bpower 0 src i=min({watt}/max(v(src),1e-4),{limit})
rloss src term {max(loss_ohm, 1e-6)}
resr term store {esr}
cstore store 0 {farad} ic=0.3
{steps("load", [(0.0, 0.0), (200.0, draw_w)])}
bload term 0 i=v(load)/max(v(term),0.1)
"""
    times, (store_v, _) = spice(tmp_path, circuit, stop_s=225.0, step_s=0.05)
    given = system(
        light=steady(amps),
        panel=CRYSTALLINE,
        charger=charger,
        store=bank(farad, esr_ohm=esr),
        full_v=9.0,
        load=load(off_v=0.5, sleep=Draw(power_w=draw_w)),
    )
    engine = Engine(given)
    before = engine.unloaded().march(200.0, Standing(charge_c=farad * 0.3, connected=False))
    loaded = Standing(charge_c=before.end.charge_c, connected=True)
    after = engine.march(25.0, loaded)
    early, late = times < 200.0, times > 200.01
    # From 0.5 V on: below, the current limit's corner is rounded by a step of ngspice.
    charged = early & (store_v > 0.5)
    assert at(times, engine, before)[charged] == pytest.approx(store_v[charged], abs=LIMIT_V)
    assert at(times - 200.0, engine, after)[late] == pytest.approx(store_v[late], abs=LIMIT_V)


@pytest.mark.parametrize("compose", [True, False], ids=["composed", "walked"])
def test_pulse_train_over_a_series_resistance(tmp_path, compose):
    farad, esr, sleep_a, pulse_a = 0.1, 8.0, 20e-6, 0.02
    width, interval, edge = 0.05, 2.0, 1e-5
    circuit = f"""
resr term store {esr}
cstore store 0 {farad} ic=3.6
isleep term 0 {sleep_a}
ipulse term 0 pulse(0 {pulse_a} 0 {edge} {edge} {width - edge} {interval})
icharge 0 term 60u
"""
    times, (store_v, term_v) = spice(tmp_path, circuit, stop_s=60.0, step_s=0.004)
    given = system(
        light=steady(60e-6),
        store=bank(farad, esr_ohm=esr),
        load=load(
            off_v=1.0, sleep=Draw(current_a=sleep_a), operations=(pulse(pulse_a, width, interval),)
        ),
    )
    engine = Engine(given, compose=compose)
    run = engine.march(60.0, Standing(charge_c=farad * 3.6, connected=True))
    starts = interval * np.arange(1, 30)
    theirs = np.interp(starts - 0.01, times, store_v)
    ours = at(starts - 0.01, engine, run)
    assert ours == pytest.approx(theirs, abs=LIMIT_V)
    # The deepest point of every pulse at the terminals.
    lowest = [term_v[(times >= s) & (times < s + interval)].min() for s in starts]
    seen = Trace(engine, run).rows(starts, starts + interval).terminal_min_v
    assert seen == pytest.approx(lowest, abs=LIMIT_V)
    assert run.tally.served == [30.0]


def test_unequal_units_in_series(tmp_path):
    # 20 % above and 20 % below nominal; the lesser one sees the more.
    big, small, esr, amps = 0.12, 0.08, 4.0, 400e-6
    circuit = f"""
icharge 0 term {amps}
resr1 term store {esr}
csmall store mid {small} ic=0
resr2 mid mid2 {esr}
cbig mid2 0 {big} ic=0
"""
    times, (_, term_v, mid_v) = spice(
        tmp_path,
        circuit,
        stop_s=500.0,
        step_s=0.5,
        probes=("v(store)", "v(term)", "v(mid2)"),
    )
    pair = big * small / (big + small)
    given = system(light=steady(amps), store=bank(pair, esr_ohm=2 * esr), full_v=6.0)
    engine = Engine(given)
    run = engine.march(500.0)
    assert at(times, engine, run, "terminal_v")[2:] == pytest.approx(term_v[2:], abs=LIMIT_V)
    worst = float(st.largest_share(2, 0.2)) * at(times, engine, run)
    on_small = term_v - amps * 2 * esr - mid_v
    assert worst[2:] == pytest.approx(on_small[2:], abs=LIMIT_V)


def test_linear_regulator_until_it_drops_out(tmp_path):
    farad, esr, ground_a = 0.02, 2.0, 3e-6
    out_v, drop_v, ohm = 2.5, 0.15, 1200.0
    regulator = LinearRegulator(output_v=out_v, ground_a=ground_a)
    circuit = f"""
resr term store {esr}
cstore store 0 {farad} ic=4.0
bout reg 0 v=min({out_v},v(term)-{drop_v})
vsense reg dev 0
rdevice dev 0 {ohm}
bpass term 0 i=i(vsense)+{ground_a}
"""
    times, (store_v, term_v) = spice(tmp_path, circuit, stop_s=14.0, step_s=0.002)
    draw = through_regulator(Draw(conductance_s=1.0 / ohm), regulator) + regulator_draw(regulator)
    given = system(
        store=bank(farad, esr_ohm=esr),
        load=load(off_v=out_v + drop_v, sleep=draw, regulator=regulator),
    )
    engine = Engine(given)
    run = engine.march(1e4, Standing(charge_c=farad * 4.0, connected=True), stop_at=StopAt.CUT_OFF)
    assert run.span_s < 14.0
    dropped_out = float(np.interp(-(out_v + drop_v), -term_v, times))
    assert run.span_s == pytest.approx(dropped_out, rel=1e-4)
    while_on = times < run.span_s
    assert at(times, engine, run)[while_on] == pytest.approx(store_v[while_on], abs=LIMIT_V)
    assert at(times, engine, run, "terminal_v")[while_on] == pytest.approx(
        term_v[while_on], abs=LIMIT_V
    )
