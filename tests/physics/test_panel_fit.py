"""A panel is found again from the lines of its data sheet, and a wrong sheet is refused."""

from dataclasses import replace

import numpy as np
import pytest

from explorer.physics.panel import (
    Panel,
    current_at_voltage,
    maximum_power,
    open_circuit_voltage,
)
from explorer.physics.panel_fit import SheetValues, fit_panel, sheet_contradiction

AMORPHOUS = Panel(
    saturation_a=1e-12, slope_v=0.37, series_ohm=500.0, shunt_s=2e-7, photo_shunt_per_v=0.02
)
AMORPHOUS_START = Panel(
    saturation_a=1e-11, slope_v=0.33, series_ohm=100.0, shunt_s=1e-7, photo_shunt_per_v=0.015
)
CRYSTALLINE = Panel(saturation_a=2e-9, slope_v=0.1336, series_ohm=10.0, shunt_s=1e-5)
CRYSTALLINE_START = Panel(saturation_a=1e-10, slope_v=0.12, series_ohm=1.0, shunt_s=8e-6)
LEVELS_LX = (200.0, 500.0, 1000.0)


def sheet_of(panel, photocurrent_a, lux=LEVELS_LX, expected_over_real=1.0):
    """The data sheet that a maker would print for a panel."""
    lines = []
    for level, light in zip(lux, photocurrent_a, strict=True):
        best = maximum_power(panel, light)
        lines.append(
            SheetValues(
                illuminance_lx=level,
                source="fluorescent_4000",
                short_circuit_a=float(current_at_voltage(panel, light, 0.0)),
                open_circuit_v=float(open_circuit_voltage(panel, light)),
                max_power_a=float(best.current_a),
                max_power_v=float(best.voltage_v),
                expected_a=light * expected_over_real,
            )
        )
    return lines


@pytest.mark.parametrize(
    ("real", "start", "light"),
    [
        (AMORPHOUS, AMORPHOUS_START, (20e-6, 50e-6, 100e-6)),
        (CRYSTALLINE, CRYSTALLINE_START, (24e-6, 60e-6, 120e-6)),
    ],
)
def test_three_lines_give_the_panel_back(real, start, light):
    fit = fit_panel(sheet_of(real, light), start)
    assert np.abs(fit.residuals).max() < 1e-3
    assert fit.current_scale == pytest.approx(1.0, rel=1e-3)
    assert fit.panel.slope_v == pytest.approx(real.slope_v, rel=0.01)
    assert fit.panel.saturation_a == pytest.approx(real.saturation_a, rel=0.1)
    assert fit.panel.shunt_s == pytest.approx(real.shunt_s, rel=0.02)
    between = np.geomspace(light[0] / 2, light[-1] * 2, 9)
    ours = maximum_power(fit.panel, fit.current_scale * between).power_w
    assert ours == pytest.approx(maximum_power(real, between).power_w, rel=2e-3)


def test_one_line_is_met_and_keeps_what_it_does_not_say():
    line = sheet_of(AMORPHOUS, (50e-6,), lux=(500.0,))
    fit = fit_panel(line, AMORPHOUS_START)
    assert fit.residuals.shape == (1, 4)
    assert np.abs(fit.residuals).max() < 1e-4
    assert fit.panel.series_ohm == pytest.approx(AMORPHOUS_START.series_ohm, rel=0.05)


def test_the_current_scale_makes_up_for_a_wrong_area():
    lines = sheet_of(AMORPHOUS, (20e-6, 100e-6), lux=(200.0, 1000.0), expected_over_real=0.4)
    fit = fit_panel(lines, AMORPHOUS_START)
    assert fit.current_scale == pytest.approx(2.5, rel=1e-3)
    assert np.abs(fit.residuals).max() < 1e-3


def test_a_panel_without_photo_shunt_is_not_given_one():
    fit = fit_panel(sheet_of(CRYSTALLINE, (24e-6, 60e-6, 120e-6)), CRYSTALLINE_START)
    assert fit.panel.photo_shunt_per_v == 0.0


def test_a_misprint_shows_in_the_residuals_and_is_named():
    lines = sheet_of(AMORPHOUS, (20e-6, 50e-6, 100e-6))
    # 20 % too much at the middle level: still a possible panel, but not this one
    lines[1] = replace(lines[1], short_circuit_a=lines[1].short_circuit_a * 1.2)
    fit = fit_panel(lines, AMORPHOUS_START)
    line, quantity, size = fit.worst
    assert (line, quantity) == (1, "short_circuit_A")
    assert -0.2 < size < -0.05


GOOD = SheetValues(
    illuminance_lx=200.0,
    source="fluorescent_4000",
    short_circuit_a=20e-6,
    open_circuit_v=4.0,
    max_power_a=16e-6,
    max_power_v=3.0,
    expected_a=20e-6,
)
BRIGHT = replace(
    GOOD, illuminance_lx=1000.0, short_circuit_a=100e-6, open_circuit_v=4.6, max_power_a=80e-6,
    max_power_v=3.4, expected_a=100e-6,
)  # fmt: skip


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        (replace(GOOD, max_power_v=4.0), r"max_power_V \(4 V\) must lie below open_circuit_V"),
        (replace(GOOD, max_power_a=21e-6), r"max_power_A \(21 µA\) must lie below short_circ"),
        (replace(GOOD, max_power_v=1.5), r"max_power_V \(1.5 V\) is less than half of open_circu"),
        (replace(GOOD, max_power_a=9e-6), r"max_power_A \(9 µA\) is less than half of short_c"),
        (replace(GOOD, max_power_a=19.6e-6, max_power_v=3.9), "fill factor.* is 0.96; a panel has"),
    ],
)
def test_a_line_that_no_panel_can_have_is_refused(line, sentence):
    with pytest.raises(ValueError, match="point 1: .*" + sentence):
        fit_panel([line], AMORPHOUS_START)


@pytest.mark.parametrize(
    ("second", "sentence"),
    [
        (replace(BRIGHT, open_circuit_v=4.0), "point 2: open_circuit_V .* does not rise"),
        (replace(BRIGHT, short_circuit_a=18e-6, max_power_a=14e-6), "point 2: short_circuit_A"),
        (replace(BRIGHT, max_power_a=15e-6, short_circuit_a=21e-6), "short_circuit_A per lux"),
        (replace(BRIGHT, illuminance_lx=200.0), "same illuminance_lx and source"),
        (replace(BRIGHT, source="led_4000", short_circuit_a=28e-6, max_power_a=14.5e-6),
         "point 2: max_power_A .* does not rise"),
    ],
)  # fmt: skip
def test_lines_that_contradict_each_other_are_refused(second, sentence):
    with pytest.raises(ValueError, match=sentence):
        fit_panel([GOOD, second], AMORPHOUS_START)


def test_a_sound_sheet_has_nothing_to_complain_about():
    assert sheet_contradiction([BRIGHT, GOOD]) is None


def test_two_lamps_may_give_what_rounding_makes_the_same():
    other = replace(GOOD, source="led_4000", short_circuit_a=20.1e-6)
    assert sheet_contradiction([GOOD, other]) is None
    assert sheet_contradiction([GOOD, replace(other, open_circuit_v=3.9)]) is not None


def test_the_short_circuit_current_alone_sets_the_current_and_leaves_the_rest_as_it_was():
    alone = replace(GOOD, open_circuit_v=None, max_power_a=None, max_power_v=None)
    fit = fit_panel([alone], AMORPHOUS_START)
    assert fit.model[0, 0] == pytest.approx(20e-6, rel=1e-6)
    assert np.isnan(fit.residuals[0, 1:]).all()
    assert float(fit.panel.slope_v) == pytest.approx(float(AMORPHOUS_START.slope_v), rel=1e-6)


def test_a_voltage_beside_the_current_is_met_too():
    fit = fit_panel([replace(GOOD, max_power_a=None, max_power_v=None)], AMORPHOUS_START)
    assert fit.model[0, :2] == pytest.approx((20e-6, 4.0), rel=1e-4)


def test_half_a_point_of_greatest_power_is_named():
    with pytest.raises(ValueError, match="point 1: max_power_V is missing"):
        fit_panel([replace(GOOD, max_power_v=None)], AMORPHOUS_START)


def test_no_line_or_too_many_are_refused():
    with pytest.raises(ValueError, match="1 to 8 points, found 0"):
        fit_panel([], AMORPHOUS_START)
    with pytest.raises(ValueError, match="1 to 8 points, found 9"):
        fit_panel([GOOD] * 9, AMORPHOUS_START)


def test_a_line_without_expected_current_is_refused():
    with pytest.raises(ValueError, match="the photocurrent"):
        fit_panel([replace(GOOD, expected_a=0.0)], AMORPHOUS_START)
