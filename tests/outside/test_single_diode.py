"""The single-diode model against many-digit references, published curves and an open PV library."""

import csv
import json
from pathlib import Path

import numpy as np
import pvlib
import pytest

from explorer.physics import panel as pv
from explorer.physics.constants import thermal_voltage

DATA = Path(__file__).parent / "data" / "single_diode"
KT_Q = 0.0256925791211  # V at 25 °C, from the exact SI constants

# Photocurrent, saturation current, series and shunt resistance, a; then Isc, Voc, Imp, Vmp, Pmp.
# Computed with mpmath at 40 digits; pvlib's brentq agrees to 1e-13.
INDOOR = {
    "amorphous-like, 8 cells, 200 lx": (
        (20e-6, 1e-12, 500.0, 5e6, 0.369973139344),
        (1.99980001726e-5, 6.19604365808, 1.77647487842e-5, 5.16979075489, 9.18400340277e-5),
    ),
    "the same with a poor shunt": (
        (20e-6, 1e-12, 500.0, 2e5, 0.369973139344),
        (1.9950124661e-5, 3.99033738108, 9.9755570792e-6, 1.99985587992, 1.99496764804e-5),
    ),
    "poor shunt at 10 lx": (
        (1e-6, 1e-12, 500.0, 2e5, 0.369973139344),
        (9.97506233068e-7, 0.1999998566, 4.98753138304e-7, 0.0999999335245, 4.98752806756e-8),
    ),
    "crystalline-like, 4 cells, 500 lx": (
        (60e-6, 2e-9, 10.0, 1e5, 0.13360141143),
        (5.99939915996e-5, 1.34343100343, 4.51667317325e-5, 1.03130123723, 4.65805063174e-5),
    ),
    "crystalline-like at 20 lx": (
        (2.4e-6, 2e-9, 10.0, 1e5, 0.13360141143),
        (2.39975966476e-6, 0.239003392183, 1.20062375137e-6, 0.119635878006, 1.43637676651e-7),
    ),
    "gallium-arsenide-like, 1 cell, 1000 lx": (
        (150e-6, 1e-14, 5.0, 1e7, 0.0488159003301),
        (1.49999925e-4, 1.1437835509, 1.42880867233e-4, 0.993636239787, 1.41971607655e-4),
    ),
}


def parameters(i0, rs, rsh, a, photo=0.0):
    return pv.Panel(
        saturation_a=i0, slope_v=a, series_ohm=rs, shunt_s=1.0 / rsh, photo_shunt_per_v=photo
    )


@pytest.mark.parametrize("name", INDOOR)
def test_microampere_panels_match_forty_digit_arithmetic(name):
    (light, *rest), (isc, voc, imp, vmp, pmp) = INDOOR[name]
    cell = parameters(*rest)
    best = pv.maximum_power(cell, light)
    assert float(pv.current_at_voltage(cell, light, 0.0)) == pytest.approx(isc, rel=1e-8)
    assert float(pv.open_circuit_voltage(cell, light)) == pytest.approx(voc, rel=1e-8)
    assert float(best.current_a) == pytest.approx(imp, rel=1e-8)
    assert float(best.voltage_v) == pytest.approx(vmp, rel=1e-8)
    assert float(best.power_w) == pytest.approx(pmp, rel=1e-8)


# pvlib-python's test data (BSD-3): I-V curves computed with many digits
CURVES = json.loads((DATA / "precise_iv_curves1.json").read_text())["IV Curves"]
SETS = {
    int(row["Index"]): row
    for row in csv.DictReader(
        (DATA / "precise_iv_curves_parameter_sets1.csv").read_text().splitlines()
    )
}


def published(curve):
    row = SETS[curve["Index"]]
    kelvin = float(curve["Temperature"])
    a = float(row["n"]) * int(row["cells_in_series"]) * thermal_voltage(kelvin - 273.15)
    cell = parameters(
        float(row["saturation_current"]),
        float(row["resistance_series"]),
        float(row["resistance_shunt"]),
        a,
    )
    return cell, float(row["photocurrent"])


@pytest.mark.parametrize("curve", CURVES, ids=lambda c: f"curve {c['Index']}")
def test_published_curves_are_met_at_every_point(curve):
    cell, light = published(curve)
    best = pv.maximum_power(cell, light)
    assert float(pv.open_circuit_voltage(cell, light)) == pytest.approx(
        float(curve["v_oc"]), rel=1e-7
    )
    assert float(pv.current_at_voltage(cell, light, 0.0)) == pytest.approx(
        float(curve["i_sc"]), rel=1e-7
    )
    assert float(best.voltage_v) == pytest.approx(float(curve["v_mp"]), rel=1e-7)
    assert float(best.current_a) == pytest.approx(float(curve["i_mp"]), rel=1e-7)
    assert float(best.power_w) == pytest.approx(float(curve["p_mp"]), rel=1e-7)
    volts = np.array(curve["Voltages"], float)
    amps = np.array(curve["Currents"], float)
    assert pv.current_at_voltage(cell, light, volts) == pytest.approx(amps, rel=1e-7, abs=1e-9)
    # The file also gives the diode voltage of every point: the parametric form needs no solver.
    drawn = pv.curve(cell, light, np.array(curve["diode_voltage"], float))
    assert drawn.voltage_v == pytest.approx(volts, rel=1e-7, abs=1e-9)
    assert drawn.current_a == pytest.approx(amps, rel=1e-7, abs=1e-9)


def test_two_published_corners_are_read_as_printed():
    # Same file, first and last curve, as printed in its text
    first, last = CURVES[0], CURVES[31]
    assert float(pv.maximum_power(*published(first)).power_w) == pytest.approx(
        28.71481605, abs=5e-9
    )
    assert float(pv.maximum_power(*published(last)).power_w) == pytest.approx(
        244.20122989, abs=5e-8
    )


def random_panels(count=400, seed=20260):
    """Anything from a shaded amorphous strip to a panel in the sun."""
    rng = np.random.default_rng(seed)
    light = 10.0 ** rng.uniform(-6.5, 0.0, count)
    cells = rng.integers(1, 20, count)
    a = rng.uniform(0.95, 2.2, count) * cells * KT_Q
    i0 = light * np.exp(-rng.uniform(6.0, 28.0, count))
    full = a * np.log1p(light / i0)
    rs = rng.uniform(0.0, 0.08, count) * full / light
    rsh = 10.0 ** rng.uniform(-0.5, 3.0, count) * full / light
    photo = np.where(rng.random(count) < 0.5, rng.uniform(0.0, 0.6, count) / full, 0.0)
    return light, i0, rs, rsh, a, photo


def test_random_panels_match_an_open_library_photo_shunt_included():
    light, i0, rs, rsh, a, photo = random_panels()
    cell = parameters(i0, rs, rsh, a, photo)
    # For one light level a photo-shunt is a smaller shunt resistance.
    shunt = 1.0 / (1.0 / rsh + photo * light)
    theirs = pvlib.pvsystem.singlediode(light, i0, rs, shunt, a, method="brentq")
    best = pv.maximum_power(cell, light)
    assert pv.open_circuit_voltage(cell, light) == pytest.approx(
        np.asarray(theirs["v_oc"]), rel=1e-9
    )
    assert pv.current_at_voltage(cell, light, np.zeros_like(light)) == pytest.approx(
        np.asarray(theirs["i_sc"]), rel=1e-9
    )
    assert best.power_w == pytest.approx(np.asarray(theirs["p_mp"]), rel=1e-9)
    assert best.voltage_v == pytest.approx(np.asarray(theirs["v_mp"]), rel=2e-7)
    assert best.current_a == pytest.approx(np.asarray(theirs["i_mp"]), rel=2e-7)


@pytest.mark.parametrize("share", [-0.2, 0.1, 0.5, 0.8, 0.95, 1.05])
def test_current_at_a_fraction_of_open_circuit_matches_an_open_library(share):
    light, i0, rs, rsh, a, photo = random_panels(120, seed=7)
    cell = parameters(i0, rs, rsh, a, photo)
    volts = share * pv.open_circuit_voltage(cell, light)
    shunt = 1.0 / (1.0 / rsh + photo * light)
    theirs = pvlib.pvsystem.i_from_v(volts, light, i0, rs, shunt, a, method="lambertw")
    ours = pv.current_at_voltage(cell, light, volts)
    assert ours / light == pytest.approx(np.asarray(theirs) / light, abs=1e-8)


def test_shunt_ruled_panel_gives_a_quarter_of_its_corner():
    # Own computation: while I_L R_sh is far below a, V_oc = I_L R_sh and P = I_L² R_sh / 4.
    cell = parameters(1e-12, 0.0, 1e5, 0.37)
    light = np.array([1e-6, 2e-6])
    best = pv.maximum_power(cell, light)
    assert pv.open_circuit_voltage(cell, light)[0] == pytest.approx(0.1, rel=1e-3)
    assert best.power_w[0] == pytest.approx(25e-9, rel=1e-3)
    fill = best.power_w[0] / (light[0] * 0.1)
    assert fill == pytest.approx(0.25, rel=1e-3)
    assert best.power_w[1] / best.power_w[0] == pytest.approx(4.0, rel=1e-3)  # P grows as E²


# V_oc over kT/q: fill factor and V_mp/V_oc without resistances (own computation; Green 1981,
# quoted from memory, agrees within 2e-4)
IDEAL_FILL = {
    10: (0.693633, 0.782),
    15: (0.765268, 0.827),
    20: (0.807956, 0.855),
    25: (0.836556, 0.875),
    30: (0.857181, 0.889),
}


@pytest.mark.parametrize("v", IDEAL_FILL)
def test_fill_factor_of_an_ideal_cell(v):
    fill, ratio = IDEAL_FILL[v]
    light = 1e-4
    cell = parameters(light / np.expm1(v), 0.0, np.inf, KT_Q)
    voc = float(pv.open_circuit_voltage(cell, light))
    best = pv.maximum_power(cell, light)
    assert voc / KT_Q == pytest.approx(v, rel=1e-12)
    assert float(best.power_w) / (light * voc) == pytest.approx(fill, abs=1e-6)
    assert float(best.voltage_v) / voc == pytest.approx(ratio, abs=5e-4)
    green = (v - np.log(v + 0.72)) / (v + 1.0)
    assert fill == pytest.approx(green, abs=2e-4)


@pytest.mark.parametrize(
    ("ideality", "millivolt"), [(1.0, 59.16), (1.3, 76.9), (1.5, 88.7), (2.0, 118.3)]
)
def test_open_circuit_voltage_rises_evenly_for_each_decade_of_light(ideality, millivolt):
    # n kT/q ln 10 at 25 °C, own computation
    cell = parameters(1e-13, 0.0, np.inf, ideality * thermal_voltage(25.0))
    volts = pv.open_circuit_voltage(cell, 10.0 ** np.arange(-6.0, -1.0))
    assert np.diff(volts) * 1e3 == pytest.approx(millivolt, abs=0.05)


def test_open_circuit_voltage_from_1000_to_200_lx():
    # Ideal cell: kT/q ln 5 = 41.35 mV; detailed balance says 0.7313 -> 0.6900 V (own computation)
    cell = parameters(1e-4 / np.expm1(0.7313 / KT_Q), 0.0, np.inf, KT_Q)
    high, low = pv.open_circuit_voltage(cell, np.array([1e-4, 2e-5]))
    assert high == pytest.approx(0.7313, abs=1e-9)
    assert (low - high) * 1e3 == pytest.approx(-41.35, abs=0.005)
    assert low == pytest.approx(0.6900, abs=1e-4)
