"""Panels by technology against modules that are sold, and the defaults behind them.

What one may buy is known from catalogues, not from open text: such figures are marked "from
memory". They are written down here a second time, so that neither the table nor the diode behind
it moves without notice.
"""

from typing import get_args

import numpy as np
import pytest

from explorer.physics import panel
from explorer.scenario import parts
from explorer.scenario.build import FULL_SUN_LX, build_panel
from explorer.scenario.supply import Panels, Technology

TECHNOLOGIES = get_args(Technology)
MICROWATT_PER_CM2 = 1e-2
"""In W/m²."""
CM2 = 1e-4

SOLD = {
    # Glass modules of catalogues: 4 to 5.5 µW/cm² at 200 lx per whole area, film 2.5 to 3.5;
    # operating 0.45 (older) to 0.6 V a cell; from memory
    "amorphous": (
        "fluorescent_4000",
        {200: ((3.0, 4.8, 6.2), 0.545, 0.66), 1000: ((16.0, 27.0, 35.0), 0.605, 0.725)},
    ),
    # Small cut cells under lamps, 2 to 5 µW/cm² at 200 lx, cast ones less; from memory
    "crystalline": (
        "led_4000",
        {200: ((1.4, 3.5, 6.0), 0.24, 0.34), 1000: ((14.0, 35.5, 46.0), 0.333, 0.415)},
    ),
    # Makers of large thin cells claim 12 to 16 µW/cm² at 200 lx (from memory), small cut cells
    # less; the middle is own judgement
    "gallium_arsenide": (
        "led_4000",
        {200: ((6.0, 10.1, 14.0), 0.555, 0.68), 1000: ((38.0, 63.0, 84.0), 0.635, 0.765)},
    ),
    # 5 to 8 µW/cm² at 200 lx with an iodine electrolyte, single cells up to 13; from memory
    "dye_sensitised": (
        "led_4000",
        {200: ((4.8, 8.0, 13.0), 0.49, 0.585), 1000: ((27.0, 45.0, 71.0), 0.54, 0.645)},
    ),
    # Printed modules, 5 to 9 µW/cm² of active area at 200 lx; from memory
    "organic": (
        "led_4000",
        {200: ((4.4, 7.3, 11.0), 0.56, 0.67), 1000: ((24.0, 40.5, 59.0), 0.617, 0.73)},
    ),
    # Half to two thirds of laboratory cells; own judgement, hardly on sale
    "perovskite": (
        "led_4000",
        {200: ((6.6, 11.0, 17.0), 0.705, 0.835), 1000: ((37.0, 62.0, 92.0), 0.78, 0.915)},
    ),
}
"""Lamp; by light: low, typical and high power [µW/cm²], operating and open-circuit volts a cell."""
LINES = [(technology, lux) for technology in TECHNOLOGIES for lux in (200, 1000)]


def one_cell(technology, ambient_c=25.0):
    """A cell of one square centimetre, as a scenario without a data sheet builds it."""
    return build_panel(
        Panels(technology=technology, active_area_cm2=1.0, cells_in_series=1), ambient_c
    )


def photocurrent(technology, source, lux):
    """Of one square centimetre. [A]"""
    return lux * CM2 * parts.photocurrent_per_lux(source, technology)


def output(technology, source, lux):
    """Greatest output. [µW/cm²]"""
    best = panel.maximum_power(one_cell(technology), photocurrent(technology, source, lux))
    return float(best.power_w) * 1e6


@pytest.mark.parametrize(("technology", "lux"), LINES)
def test_a_panel_without_a_data_sheet_gives_what_the_usual_module_gives(technology, lux):
    lamp, lines = SOLD[technology]
    (low, typical, high), operating_v, open_v = lines[lux]
    light = photocurrent(technology, lamp, lux)
    best = panel.maximum_power(one_cell(technology), light)
    assert float(best.power_w) * 1e6 == pytest.approx(typical, rel=0.02)
    assert float(best.voltage_v) == pytest.approx(operating_v, abs=0.01)
    assert float(panel.open_circuit_voltage(one_cell(technology), light)) == pytest.approx(
        open_v, abs=0.01
    )
    line = next(x for x in parts.cell(technology).modules if x.illuminance_lx == lux)
    assert parts.cell(technology).modules_lamp == lamp
    shown = line.power_w_per_m2
    assert np.array([shown.low, shown.typical, shown.high]) == pytest.approx(
        np.array([low, typical, high]) * MICROWATT_PER_CM2
    )
    assert (line.max_power_v.typical, line.open_circuit_v.typical) == (operating_v, open_v)
    for span in (line.power_w_per_m2, line.max_power_v, line.open_circuit_v):
        assert span.low < span.typical < span.high


@pytest.mark.parametrize("technology", TECHNOLOGIES)
def test_the_source_of_a_modules_figures_is_named(technology):
    assert "from memory" in parts.cell(technology).modules_source


def test_the_span_of_what_is_sold_follows_the_light_between_its_two_levels():
    at = [parts.sold_share("crystalline", lux) for lux in (20.0, 200.0, 447.2, 1000.0, 5000.0)]
    assert at[0] == at[1] == pytest.approx((1.4 / 3.5, 6.0 / 3.5))
    assert at[3] == at[4] == pytest.approx((14.0 / 35.5, 46.0 / 35.5))
    # 447.2 lx is half-way between 200 and 1000 lx on a logarithmic scale
    assert at[2] == pytest.approx(0.5 * (np.array(at[1]) + at[3]), rel=1e-4)


def test_mixed_room_light_gives_amorphous_modules_five_to_six_per_cent():
    # 5 to 6 % at 20 W/m² of mixed light, Apostolou, Reinders, Verwaal 2016, doi 10.1002/ese3.110;
    # the mixture is not stated: the open sky is its reddest end, coated glass its greenest
    sky, glass = (
        output("amorphous", source, 20.0 / parts.irradiance_per_lux(source)) / 2000.0
        for source in ("daylight_open", "daylight_glass")
    )
    assert sky < 0.06
    assert glass > 0.05
    assert 0.045 < sky < glass < 0.085


def test_crystalline_product_modules_in_mixed_light_are_the_low_end():
    # 4 to 7 % at 20 W/m² for cast and single crystals, same source
    lux = 20.0 / parts.irradiance_per_lux("daylight_glass")
    low, _ = parts.sold_share("crystalline", lux)
    assert 0.04 < low * output("crystalline", "daylight_glass", lux) / 2000.0 < 0.07


def test_the_edge_of_a_cut_crystalline_cell_costs_dim_lamps_most_and_a_window_little():
    ours = one_cell("crystalline")
    whole = panel.Panel(
        saturation_a=ours.saturation_a, slope_v=ours.slope_v, series_ohm=ours.series_ohm,
        shunt_s=0.0,
    )  # fmt: skip

    def left(source, lux):
        light = photocurrent("crystalline", source, lux)
        pair = [float(panel.maximum_power(p, light).power_w) for p in (ours, whole)]
        return pair[0] / pair[1]

    # Lamps at 200 lx: 3.5 µW/cm² of the 8 that a cell without a shunt gives; from memory
    assert left("led_4000", 200.0) < 0.55
    assert left("daylight_glass", 3000.0) > 0.9


@pytest.mark.parametrize(
    ("technology", "low", "high"),
    # Sunlight, per active area: small crystalline modules 14 to 20 %, amorphous ones made for
    # rooms 4 to 7 %; from memory
    [("crystalline", 0.14, 0.20), ("amorphous", 0.04, 0.07)],
)
def test_the_same_cell_in_full_sun_gives_what_its_kind_gives(technology, low, high):
    power = output(technology, "daylight_open", FULL_SUN_LX) * MICROWATT_PER_CM2
    assert low < power / 1000.0 < high


@pytest.mark.parametrize(
    ("technology", "tolerance"),
    [("amorphous", 0.1), ("crystalline", 0.15), ("gallium_arsenide", 0.2), ("perovskite", 0.2)],
)
@pytest.mark.parametrize("lux", [200.0, 1000.0])
def test_voltage_falls_with_temperature_as_a_diode_of_that_gap_does(technology, tolerance, lux):
    light = photocurrent(technology, "led_4000", lux)
    cool, here, warm = (
        float(panel.open_circuit_voltage(one_cell(technology, t), light)) for t in (24, 25, 26)
    )
    # dV_oc/dT = -(E_g/e + 3 kT/e - V_oc)/T: textbook, from memory. Sheets state the coefficient in
    # full sun; that it comes out larger here is what the formula says.
    gap = parts.cell(technology).band_gap_ev
    expected = -(gap + 3.0 * 0.02569 - here) / 298.15
    assert (warm - cool) / 2.0 == pytest.approx(expected, rel=tolerance)
    assert (warm - cool) / 2.0 < parts.cell(technology).voc_temperature_v_per_k
