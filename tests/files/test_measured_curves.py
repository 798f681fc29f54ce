"""A curve of V and I becomes the line of a data sheet through which the panel is fitted."""

import numpy as np
import pytest

from explorer.files.disk import FileError
from explorer.files.measured_curves import read_curve
from explorer.files.report_blocks import Paragraph
from explorer.files.report_inputs import input_rows
from explorer.files.report_panel import panel_sheet_blocks
from explorer.files.scenario_json import dump_scenario, parse_scenario
from explorer.physics import panel as pv
from explorer.physics.measured_curve import curve_misfit, thinned
from explorer.scenario.data_sheet import sheet_fit
from explorer.scenario.model import Scenario
from explorer.scenario.supply import Panels, SheetPoint
from tests.engine.systems import AMORPHOUS

LIGHT_A = 4e-4


def curve_csv(tmp_path, *, noise=0.0, sign=1.0, start_v=-0.1, end=1.02, lux=None):
    """Forty points of a known panel, in volts and microamperes."""
    open_v = float(pv.open_circuit_voltage(AMORPHOUS, LIGHT_A))
    volts = np.linspace(start_v, end * open_v, 40)
    amps = np.asarray(pv.current_at_voltage(AMORPHOUS, LIGHT_A, volts))
    amps = amps + noise * LIGHT_A * np.random.default_rng(1).standard_normal(40)
    columns, head = [volts, sign * amps * 1e6], "Voltage (V);Current (µA)"
    if lux is not None:
        columns, head = [*columns, np.broadcast_to(lux, 40)], head + ";lux"
    path = tmp_path / "curve.csv"
    np.savetxt(path, np.column_stack(columns), delimiter=";", header=head, comments="",
               fmt="%.6f", encoding="utf-8")  # fmt: skip
    return path


@pytest.mark.parametrize(
    ("noise", "sign", "within"), [(0, 1, 0.004), (0, -1, 0.004), (0.01, 1, 0.02)]
)
def test_landmarks_are_those_of_the_panel(tmp_path, noise, sign, within):
    """Whichever way the instrument counts the current."""
    found = read_curve(curve_csv(tmp_path, noise=noise, sign=sign)).landmarks
    best = pv.maximum_power(AMORPHOUS, LIGHT_A)
    assert found.short_circuit_a == pytest.approx(
        float(pv.current_at_voltage(AMORPHOUS, LIGHT_A, 0.0)), rel=within
    )
    assert found.open_circuit_v == pytest.approx(
        float(pv.open_circuit_voltage(AMORPHOUS, LIGHT_A)), rel=within
    )
    watt = found.max_power_a * found.max_power_v
    assert watt == pytest.approx(float(best.power_w), rel=max(within, 0.01))
    assert found.max_power_v == pytest.approx(float(best.voltage_v), rel=0.03)


def test_the_fit_through_its_line_passes_along_all_of_its_points(tmp_path):
    found = read_curve(curve_csv(tmp_path))
    marks = found.landmarks
    fit = sheet_fit(Panels(technology="amorphous", cells_in_series=8, data_sheet=(SheetPoint(
        illuminance_lx=500.0, short_circuit_A=marks.short_circuit_a,
        open_circuit_V=marks.open_circuit_v, max_power_A=marks.max_power_a,
        max_power_V=marks.max_power_v,
    ),)))  # fmt: skip
    missed = curve_misfit(
        fit.panel, float(fit.photocurrent_a[0]), found.voltage_v, found.current_a
    )
    assert missed.points > 35
    assert missed.root_mean_square < 0.015
    assert missed.largest < 0.03


def test_the_misfit_is_told_as_a_share_of_the_short_circuit_current():
    volts = np.array([0.0, 1.0])
    amps = np.asarray(pv.current_at_voltage(AMORPHOUS, LIGHT_A, volts))
    missed = curve_misfit(AMORPHOUS, LIGHT_A, volts, amps - np.array([0.0, 0.1 * amps[0]]))
    assert missed.largest == pytest.approx(0.1)
    assert missed.root_mean_square == pytest.approx(0.1 / np.sqrt(2.0))


def test_light_that_stands_beside_it_is_taken(tmp_path):
    assert read_curve(curve_csv(tmp_path, lux=480.0)).illuminance_lx == pytest.approx(480.0)
    assert read_curve(curve_csv(tmp_path)).illuminance_lx is None


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"end": 0.8}, "measure on until the current is zero"),
        ({"start_v": 2.5}, "measure from short circuit on"),
        ({"lux": np.linspace(100.0, 400.0, 40)}, "the light changes from 100 to 400 lx"),
    ],
)
def test_a_curve_that_does_not_say_enough_is_refused(tmp_path, changes, said):
    with pytest.raises(FileError, match=said):
        read_curve(curve_csv(tmp_path, **changes))


def test_a_table_without_a_current_is_refused_by_its_columns(tmp_path):
    path = tmp_path / "light.csv"
    path.write_text("voltage_V,lux\n1,2\n2,3\n")
    with pytest.raises(FileError, match="current"):
        read_curve(path)


def test_few_points_of_a_long_curve_keep_its_ends_and_its_bend(tmp_path):
    volts = np.linspace(-0.5, 9.0, 4000)
    amps = np.asarray(pv.current_at_voltage(AMORPHOUS, LIGHT_A, volts))
    few_v, few_a = thinned(volts, amps, 60)
    assert 50 <= len(few_v) <= 60
    assert few_v[0] == pytest.approx(0.0, abs=0.003)
    assert few_a[-1] == pytest.approx(0.0, abs=0.02 * LIGHT_A)
    inside = (volts > 0.0) & (amps > 0.0)
    missed = np.interp(volts[inside], few_v, few_a) - amps[inside]
    assert np.abs(missed).max() < 0.01 * LIGHT_A


def test_a_scenario_keeps_the_points_and_its_sheet_says_how_far_the_fit_passes(tmp_path):
    found = read_curve(curve_csv(tmp_path))
    marks = found.landmarks
    volts, amps = thinned(found.voltage_v, found.current_a, 60)
    point = SheetPoint(
        illuminance_lx=500.0, short_circuit_A=marks.short_circuit_a,
        open_circuit_V=marks.open_circuit_v, max_power_A=marks.max_power_a,
        max_power_V=marks.max_power_v, measured_V=tuple(volts.tolist()),
        measured_A=tuple(amps.tolist()),
    )  # fmt: skip
    panels = Panels(technology="amorphous", cells_in_series=8, data_sheet=(point,))
    kept = parse_scenario(dump_scenario(Scenario(panels=panels)), "kept.json")
    assert kept.panels == panels
    said = [b.text for b in panel_sheet_blocks(kept.panels) if isinstance(b, Paragraph)]
    assert any(f"of {len(volts)} measured points the curve misses" in text for text in said)
    row = next(row for row in input_rows(kept) if row.path.endswith("measured_V"))
    assert row.value.count(" V") + row.value.count(" mV") == len(volts)


def test_the_fit_goes_by_all_points_where_they_are_kept(tmp_path):
    """Half a per cent of noise: no curve passes closer than that, and this one nearly does."""
    found = read_curve(curve_csv(tmp_path, noise=0.005))
    marks = found.landmarks
    volts, amps = thinned(found.voltage_v, found.current_a, 60)
    bare = SheetPoint(
        illuminance_lx=500.0, short_circuit_A=marks.short_circuit_a,
        open_circuit_V=marks.open_circuit_v, max_power_A=marks.max_power_a,
        max_power_V=marks.max_power_v,
    )  # fmt: skip
    points = {"measured_V": tuple(volts.tolist()), "measured_A": tuple(amps.tolist())}
    missed = {}
    for name, point in (("bare", bare), ("points", bare.model_copy(update=points))):
        fit = sheet_fit(Panels(technology="amorphous", cells_in_series=8, data_sheet=(point,)))
        found_by = curve_misfit(fit.panel, float(fit.photocurrent_a[0]), volts, amps)
        missed[name] = found_by.root_mean_square
    assert missed["points"] < 0.006
    assert missed["points"] < 0.6 * missed["bare"]


def test_points_that_do_not_pair_are_refused():
    with pytest.raises(ValueError, match="hold 2 and 1 values"):
        SheetPoint(measured_V=(0.0, 1.0), measured_A=(1e-5,))
