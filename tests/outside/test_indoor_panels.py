"""Panels in room light against detailed balance, published cells and a measured data set."""

import csv
from pathlib import Path
from typing import get_args

import numpy as np
import pytest

from explorer.physics import light, panel
from explorer.physics.constants import thermal_voltage
from explorer.resource_files import read_table, resource_path
from explorer.scenario import parts
from explorer.scenario.supply import Technology
from tests import radiation

TECHNOLOGIES = get_args(Technology)
LAMPS = ("led_4000", "fluorescent_4000")
LEVELS_LX = np.array([200.0, 500.0, 1000.0])
NANOWATT_PER_CM2 = 1e-5
"""One nW/cm² in W/m²."""


def cell_current(source, technology):
    """Current of the bare response for one lux, before cover and wiring of a module. [A/(m²·lx)]"""
    share = parts.cell(technology).current_share
    return parts.photocurrent_per_lux(source, technology) / share


def lamp_light(source, lux):
    spectrum = parts.spectrum(source)
    return spectrum.wavelength_nm, light.spectral_irradiance(
        lux, spectrum.wavelength_nm, spectrum.relative, spectrum.photopic
    )


def square_metre(technology):
    """One cell of 1 m² at 25 °C."""
    cell = parts.cell(technology)
    return panel.Panel(
        saturation_a=cell.saturation_current_a_per_m2,
        slope_v=cell.ideality * thermal_voltage(25.0),
        series_ohm=cell.series_resistance_ohm_m2,
        shunt_s=cell.shunt_conductance_s_per_m2,
        photo_shunt_per_v=cell.photo_shunt_per_v,
    )


def power_per_lux(technology, source, lux):
    """Greatest output. [nW/(cm²·lx)]"""
    photocurrent = np.asarray(lux) * parts.photocurrent_per_lux(source, technology)
    best = panel.maximum_power(square_metre(technology), photocurrent)
    return best.power_w / np.asarray(lux) / NANOWATT_PER_CM2


def limit_per_lux(technology, source, lux):
    """Detailed-balance limit for the technology's gap. [nW/(cm²·lx)]"""
    gap = parts.cell(technology).band_gap_ev
    best = [
        float(radiation.detailed_balance(*lamp_light(source, e), gap).max_power_w_per_m2)
        for e in lux
    ]
    return np.array(best) / lux / NANOWATT_PER_CM2


# -- detailed balance ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("gap", "voc", "jsc_ma_per_cm2", "fill", "percent", "j0_ma_per_cm2"),
    # ASTM G173 global, 300 K, emission from the front: a numeric table in a public repository
    # (read, not kept). Its sun differs from ours by some 0.04 %, hence 0.1 %.
    [
        (1.12, 0.876594, 43.8268, 0.869735, 33.4138, 8.234e-14),
        (1.337, 1.079, 35.14, 0.8888, 33.703, 2.64e-17),
        (1.424, 1.160208, 31.8842, 0.894886, 33.1039, 1.0302e-18),
        (1.75, 1.465004, 21.0616, 0.912394, 28.1523, 5.158e-24),
    ],
)
def test_limit_in_sunlight(gap, voc, jsc_ma_per_cm2, fill, percent, j0_ma_per_cm2):
    table = read_table(resource_path("spectra", "daylight_open.csv"))
    sun = table["wavelength_nm"], table["relative"]
    limit = radiation.detailed_balance(*sun, gap, 300.0)
    assert limit.open_circuit_v == pytest.approx(voc, rel=1e-3)
    assert limit.short_circuit_a_per_m2 / 10.0 == pytest.approx(jsc_ma_per_cm2, rel=1e-3)
    assert limit.fill_factor == pytest.approx(fill, rel=1e-3)
    assert limit.saturation_a_per_m2 / 10.0 == pytest.approx(j0_ma_per_cm2, rel=3e-3)
    efficiency = limit.max_power_w_per_m2 / light.integral(*sun)
    assert efficiency * 100.0 == pytest.approx(percent, rel=1e-3)


def test_best_single_gap_in_sunlight():
    table = read_table(resource_path("spectra", "daylight_open.csv"))
    sun = table["wavelength_nm"], table["relative"]
    gaps = np.linspace(0.9, 1.8, 1801)
    power = radiation.detailed_balance(*sun, gaps).max_power_w_per_m2 / light.integral(*sun)
    # 33.7 % at 1.34 eV: Rühle, Solar Energy 130 (2016) 139; value from memory: 0.2 points
    assert power.max() * 100.0 == pytest.approx(33.7, abs=0.2)
    assert gaps[power.argmax()] == pytest.approx(1.34, abs=0.02)


@pytest.mark.parametrize(
    ("source", "lux", "gap", "jsc", "voc", "power", "percent"),
    # Computed with colour-science tables at 25 °C by a separate search; µA/cm², V, µW/cm², %
    [
        ("led_4000", 50, 1.12, 7.184, 0.6543, 3.94, 24.99),
        ("led_4000", 200, 1.12, 28.736, 0.6900, 16.75, 26.54),
        ("led_4000", 200, 1.424, 28.736, 0.9819, 24.86, 39.39),
        ("led_4000", 200, 1.75, 27.921, 1.2967, 32.73, 51.86),
        ("led_4000", 500, 1.12, 71.841, 0.7135, 43.50, 27.57),
        ("led_4000", 500, 1.424, 71.841, 1.0054, 63.79, 40.43),
        ("led_4000", 500, 1.75, 69.802, 1.3202, 83.44, 52.88),
        ("led_4000", 1000, 1.12, 143.682, 0.7313, 89.47, 28.35),
        ("led_4000", 1000, 1.424, 143.682, 1.0232, 130.07, 41.22),
        ("led_4000", 1000, 1.55, 143.682, 1.1449, 147.12, 46.62),
        ("led_4000", 1000, 1.75, 139.605, 1.3381, 169.31, 53.65),
        ("led_4000", 1000, 1.90, 123.573, 1.4808, 167.16, 52.97),
        ("fluorescent_4000", 200, 1.75, 25.796, 1.2947, 30.19, 50.85),
        ("fluorescent_4000", 1000, 1.12, 131.903, 0.7291, 81.86, 27.57),
        ("fluorescent_4000", 1000, 1.424, 131.903, 1.0210, 119.13, 40.13),
        ("fluorescent_4000", 1000, 1.90, 122.455, 1.4805, 165.62, 55.79),
    ],
)
def test_limit_under_lamps(source, lux, gap, jsc, voc, power, percent):
    wavelength, irradiance = lamp_light(source, lux)
    limit = radiation.detailed_balance(wavelength, irradiance, gap)
    assert limit.short_circuit_a_per_m2 * 100.0 == pytest.approx(jsc, rel=2e-3)
    assert limit.open_circuit_v == pytest.approx(voc, abs=2e-4)
    assert limit.max_power_w_per_m2 * 100.0 == pytest.approx(power, rel=2e-3)
    efficiency = limit.max_power_w_per_m2 / light.integral(wavelength, irradiance)
    assert efficiency * 100.0 == pytest.approx(percent, rel=2e-3)


@pytest.mark.parametrize(
    ("source", "gap", "percent"),
    # Computed with colour-science tables; 1.77 eV for a warm white LED also in a published study of
    # triple-cation perovskites (abstract)
    [
        ("led_2700", 1.770, 55.34),
        ("led_4000", 1.820, 54.42),
        ("led_6600", 1.875, 53.64),
        ("fluorescent_4000", 1.950, 56.55),
        ("fluorescent_cool", 1.905, 55.29),
    ],
)
def test_best_gap_under_lamps(source, gap, percent):
    wavelength, irradiance = lamp_light(source, 1000.0)
    gaps = np.arange(1.2, 2.4, 0.005)
    power = radiation.detailed_balance(wavelength, irradiance, gaps).max_power_w_per_m2
    assert gaps[power.argmax()] == pytest.approx(gap, abs=0.016)
    best = power.max() / light.integral(wavelength, irradiance) * 100.0
    assert best == pytest.approx(percent, rel=3e-3)


def test_gallium_arsenide_limit_under_typical_lamps():
    for source, ours in (("led_2700", 43.3), ("led_4000", 41.2), ("led_6600", 39.5)):
        wavelength, irradiance = lamp_light(source, 1000.0)
        limit = radiation.detailed_balance(wavelength, irradiance, 1.424)
        percent = limit.max_power_w_per_m2 / light.integral(wavelength, irradiance) * 100.0
        assert percent == pytest.approx(ours, rel=3e-3)  # computed with colour-science
        # "40 %" for GaAs in typical indoor light, lamp not stated: Teran et al., IEEE TED 63
        # (2016) 2820, doi 10.1109/TED.2016.2569079
        assert percent == pytest.approx(40.0, abs=4.0)


# -- responses ----------------------------------------------------------------------------------


def test_crystalline_response_is_pvlibs():
    # Scaled response of pvlib.spectrum.get_example_spectral_response (Driesse & Stein 2020,
    # doi 10.2172/1814068), 0.95 at 950 nm
    wavelength = [
        300,
        350,
        400,
        450,
        500,
        550,
        600,
        650,
        700,
        800,
        900,
        950,
        1000,
        1050,
        1100,
        1150,
    ]
    eqe = [
        0.190, 0.696, 0.835, 0.898, 0.939, 0.963, 0.977, 0.986, 0.992, 0.993, 0.973, 0.950, 0.839,
        0.499, 0.172, 0.039,
    ]  # fmt: skip
    cell = parts.cell("crystalline")
    assert np.interp(wavelength, cell.eqe_wavelength_nm, cell.eqe) == pytest.approx(eqe, abs=1e-3)


@pytest.mark.parametrize(
    ("source", "microampere"),
    # µA/cm² at 1000 lx from the same response with colour-science and pvlib spectra
    [
        ("led_2700", 148.8),
        ("led_4000", 138.1),
        ("led_6600", 136.2),
        ("fluorescent_cool", 123.9),
        ("fluorescent_4000", 126.1),
        ("daylight_open", 359.2),
    ],
)
def test_crystalline_current_under_each_light(source, microampere):
    ours = 1000.0 * cell_current(source, "crystalline") * 100.0
    assert ours == pytest.approx(microampere, rel=2e-3)


@pytest.mark.parametrize(
    ("source", "relative"),
    # Response per W/m² against AM1.5G (whole sun, 1000.4 W/m²), same origin
    [("led_2700", 1.180), ("led_4000", 1.113), ("led_6600", 1.057), ("fluorescent_4000", 1.080)],
)
def test_crystalline_response_per_watt_against_the_sun(source, relative):
    sun = parts.photocurrent_per_lux("daylight_open", "crystalline") * 109.454
    lamp = parts.photocurrent_per_lux(source, "crystalline") / parts.irradiance_per_lux(source)
    assert lamp / sun == pytest.approx(relative, rel=3e-3)


@pytest.mark.parametrize(
    ("source", "microampere"), [("led_4000", 129.3), ("fluorescent_4000", 118.7)]
)
def test_gallium_arsenide_current_under_lamps(source, microampere):
    # Modelled, not measured: 0.9(1 - e^(-αd)) of 3 µm, µA/cm² at 1000 lx
    ours = 1000.0 * cell_current(source, "gallium_arsenide") * 100.0
    assert ours == pytest.approx(microampere, rel=5e-3)


# -- published cells ----------------------------------------------------------------------------

# nW/(cm²·lx) of laboratory cells, which no module on sale surpasses
LABORATORY = {
    # 25.56 µW/cm² at 500 lx: Sci. Rep. 2017, PMC5629211
    "amorphous": 51.0,
    # 103 µW/cm² at 1000 lx, fluorescent: Michaels et al., Chem. Sci. 2020, 11, 2895
    "dye_sensitised": 103.0,
    # 65.3 µW/cm² at 1000 lx: Arai et al., ACS AMI 2019 (abstract)
    "organic": 65.3,
    # 41.6 µW/cm² at 400 lx: Dagar et al., Nano Energy 2018 (abstract)
    "perovskite": 104.0,
}


@pytest.mark.parametrize("source", LAMPS)
@pytest.mark.parametrize("technology", TECHNOLOGIES)
def test_every_cell_stays_below_its_limit(technology, source):
    ours = power_per_lux(technology, source, LEVELS_LX)
    assert (ours < limit_per_lux(technology, source, LEVELS_LX)).all()
    assert (ours < 170.0).all()  # about the limit of the best gap under a white LED


@pytest.mark.parametrize(("technology", "record"), LABORATORY.items())
def test_no_module_on_sale_surpasses_the_cells_of_laboratories(technology, record):
    for line in parts.cell(technology).modules:
        best = line.power_w_per_m2.high / line.illuminance_lx / NANOWATT_PER_CM2
        assert best < record


@pytest.mark.parametrize("source", LAMPS)
@pytest.mark.parametrize("technology", TECHNOLOGIES)
def test_dim_light_yields_less_for_each_lux(technology, source):
    levels = np.array([20.0, 50.0, 200.0, 500.0, 1000.0])
    assert (np.diff(power_per_lux(technology, source, levels)) > 0.0).all()


def test_dye_cell_loses_as_little_in_dim_light_as_measured():
    at_200, at_1000 = power_per_lux("dye_sensitised", "fluorescent_4000", np.array([200.0, 1000.0]))
    # 95/103 = 0.92, Chem. Sci. 2020, 11, 2895; within 0.04 for another cell
    assert at_200 / at_1000 == pytest.approx(95.0 / 103.0, abs=0.04)


def test_organic_cell_loses_as_little_in_dim_light_as_measured():
    at_200, at_1000 = power_per_lux("organic", "led_4000", np.array([200.0, 1000.0]))
    # 62/65 = 0.95, Arai et al. 2019; within 0.04 for another cell
    assert at_200 / at_1000 == pytest.approx(62.0 / 65.3, abs=0.04)


def test_the_measured_voltage_of_an_organic_module_lies_among_those_on_sale():
    at_200 = parts.cell("organic").modules[0].open_circuit_v
    # > 4.2 V from 6 cells under an LED at 200 lx, Arai et al. 2019 (abstract): a laboratory module
    assert 6.0 * at_200.typical < 4.2 < 6.0 * at_200.high


def test_order_of_the_technologies_under_a_warm_lamp():
    at = {name: power_per_lux(name, "led_3000", 1000.0) for name in TECHNOLOGIES}
    # GaAs above c-Si under a 3000 K LED at 1000 lx: Shore et al., Energy Sci. Eng. 9 (2021) 2036,
    # doi 10.1002/ese3.964 (abstract)
    assert at["gallium_arsenide"] > at["crystalline"]
    # Commercial amorphous cells stay under 10 % indoors: Wei et al. 2023
    assert at["amorphous"] * NANOWATT_PER_CM2 / parts.irradiance_per_lux("led_3000") < 0.10


# -- measured places ----------------------------------------------------------------------------

PLACES = Path(__file__).parent / "data" / "indoor_places"
# Five places over 24 h: S. Bader et al., IEEE Sensors 2020; MIT licence beside the data. Inferred,
# not stated there: which panel is which, the unit µA, and what is daylight and what is a lamp.
DAYLIGHT, LAMP_LIT = (1, 3, 4), (6, 7)
PANEL_COLUMNS = {"amorphous": "isc_a_uA_assumed", "crystalline": "isc_c_uA_assumed"}
MEDIAN_UA_PER_LUX = {
    "amorphous": {1: 0.0454, 3: 0.0458, 4: 0.0460, 6: 0.0460, 7: 0.0432},
    "crystalline": {1: 0.0971, 3: 0.1038, 4: 0.1036, 6: 0.0746, 7: 0.0845},
}
"""Medians over 50 lx, computed from the data with another program."""


def measured(place, technology):
    """Lux and short-circuit current [A] of the rows that hold a reading above 50 lx."""
    with (PLACES / f"place{place}.csv").open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["filler"] == "0"]
    lux = np.array([float(row["lux"]) for row in rows])
    current = np.array([float(row[PANEL_COLUMNS[technology]]) for row in rows]) * 1e-6
    return lux[lux > 50.0], current[lux > 50.0]


def short_circuit(technology, source, lux):
    """Short-circuit current of a panel of one square metre. [A]"""
    photocurrent = lux * parts.photocurrent_per_lux(source, technology)
    return panel.current_at_voltage(square_metre(technology), photocurrent, 0.0)


def predicted(place, technology, lamp):
    lux, current = measured(place, technology)
    return short_circuit(technology, "daylight_glass" if place in DAYLIGHT else lamp, lux), current


@pytest.mark.parametrize("technology", PANEL_COLUMNS)
def test_data_set_gives_the_known_medians(technology):
    for place, expected in MEDIAN_UA_PER_LUX[technology].items():
        lux, current = measured(place, technology)
        assert np.median(current / lux) * 1e6 == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize("lamp", LAMPS)
@pytest.mark.parametrize(("technology", "tolerance"), [("amorphous", 0.10), ("crystalline", 0.15)])
def test_light_log_in_panel_current_out(technology, tolerance, lamp):
    # One number for each panel, the unknown area of one of its cells, is taken from all five places
    # together; the rest is prediction. The lamps of places 6 and 7 are unknown, and measured
    # crystalline current per lux differs by 13 % between them.
    pairs = {place: predicted(place, technology, lamp) for place in (*DAYLIGHT, *LAMP_LIT)}
    ratios = {place: current.sum() / model.sum() for place, (model, current) in pairs.items()}
    area_m2 = np.exp(np.mean(np.log(list(ratios.values()))))
    for place, (model, current) in pairs.items():
        assert area_m2 * model.sum() == pytest.approx(current.sum(), rel=tolerance), place
        middle = np.median(current / (area_m2 * model))
        assert middle == pytest.approx(1.0, rel=tolerance), place
    assert 2e-5 < area_m2 < 2e-4  # a string of cells of about half a square centimetre each


def test_charge_of_a_day_under_constant_lamps():
    lux, current = measured(6, "amorphous")
    hours = 25.2  # 10 120 lx·h at 401.6 lx
    assert lux.mean() * hours == pytest.approx(10_120, rel=5e-3)  # computed from the data
    assert current.mean() * 1e6 * hours == pytest.approx(465.0, rel=5e-3)  # µAh, likewise


def test_amorphous_panel_gets_the_same_for_each_lux_in_every_light():
    # Measured: ± 6 % around the middle over daylight and lamps, same data set
    per_lux = np.array(
        [
            parts.photocurrent_per_lux(source, "amorphous")
            for source in ("daylight_glass", "led_3000", "led_4000", "led_5000", "fluorescent_4000")
        ]
    )
    middle = 0.5 * (per_lux.max() + per_lux.min())
    assert np.abs(per_lux / middle - 1.0).max() < 0.06
    seen = np.array([*MEDIAN_UA_PER_LUX["amorphous"].values()])
    assert np.abs(seen / (0.5 * (seen.max() + seen.min())) - 1.0).max() < 0.06


@pytest.mark.parametrize("lamp", LAMPS)
def test_crystalline_panel_gains_in_daylight_behind_glass_as_measured(lamp):
    steady = np.divide(*reversed(measured(6, "crystalline")))
    gains = []
    for place in DAYLIGHT:
        lux, current = measured(place, "crystalline")
        gains.append(np.median(current / lux) / np.median(steady))
    # Measured medians of places 1, 3, 4 over the constant lamp of place 6: 1.30 to 1.39
    assert 1.29 < min(gains) <= max(gains) < 1.40
    lamp_current = parts.photocurrent_per_lux(lamp, "crystalline")
    ours = parts.photocurrent_per_lux("daylight_glass", "crystalline") / lamp_current
    assert 1.30 < ours < 1.46  # band of the eight places of the data set
    # The bare sky would give twice as much: computed with pvlib's AM1.5G, 2.6 and 2.85
    open_sky = parts.photocurrent_per_lux("daylight_open", "crystalline") / lamp_current
    assert 2.55 < open_sky < 2.90
