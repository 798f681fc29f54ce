"""The working point lies on the panel's curve and below its best point."""

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.advice.panel_curve import panel_curve
from explorer.physics.panel import maximum_power
from explorer.scenario import parts
from explorer.scenario.build import build_panel
from explorer.scenario.course import current_per_lux, panel_factor
from explorer.scenario.light_log import DARK_BELOW_LX
from explorer.scenario.model import Scenario
from explorer.scenario.supply import ConverterCharger, DirectCharger, EfficiencyPoint
from tests.advice.demos import demo


def _with_charger(charger):
    return Scenario().model_copy(update={"charger": charger})


@pytest.mark.parametrize(
    "charger",
    [ConverterCharger(), ConverterCharger(tracking="maximum_power"), DirectCharger(full_V=4.0)],
    ids=["fraction", "maximum power", "direct"],
)
def test_every_point_lies_on_the_curve(charger):
    curve = panel_curve(Case(_with_charger(charger)))
    for point in curve.points:
        on_curve = np.interp(point.voltage_v, curve.voltage_v, curve.current_a)
        assert point.current_a == pytest.approx(on_curve, rel=5e-3, abs=1e-9)
        assert point.power_w <= curve.points[0].power_w * (1 + 1e-9)


def test_maximum_power_tracking_works_at_the_best_point():
    curve = panel_curve(Case(_with_charger(ConverterCharger(tracking="maximum_power"))))
    best, held = curve.points
    assert held.power_w == pytest.approx(best.power_w, rel=1e-9)


def test_dim_light_is_said_to_be_too_little_for_the_converter():
    curve = panel_curve(Case(_with_charger(ConverterCharger(minimum_panel_W=1e-3))))
    assert "does not run in this light" in curve.note


def test_a_panel_that_ends_below_full_says_so():
    curve = panel_curve(Case(_with_charger(DirectCharger(full_V=12.0))))
    assert "never becomes full" in curve.note


def table(*rows):
    keys = ("input_W", "efficiency", "store_V")
    return tuple(EfficiencyPoint(**dict(zip(keys, row, strict=False))) for row in rows)


def test_an_efficiency_table_is_drawn_through_its_rows_and_used_where_the_panel_works():
    rows = table((1e-6, 0.4), (1e-5, 0.6), (1e-2, 0.9))
    case = Case(_with_charger(ConverterCharger(efficiency_table=rows)))
    curve = panel_curve(case)
    found = curve.charger
    ((_, shares),) = found.curves
    for power, share in ((1e-6, 0.4), (1e-5, 0.6), (1e-2, 0.9)):
        at = np.interp(np.log(power), np.log(found.inputs), shares)
        assert at == pytest.approx(share, abs=2e-3)
    watt, share = found.working
    assert watt == pytest.approx(curve.points[1].power_w)
    assert 0.6 < share < 0.9
    # What the engine charges with is just that.
    light = case.scenario.light
    amps = light.illuminance_lx * float(current_per_lux(light, case.scenario.panels))
    volts = case.system.load.connect_v
    charged = case.engine.field.charge_currents(np.array([amps]), volts)[0]
    assert charged * volts == pytest.approx(share * watt, rel=1e-3)
    assert f"passes on {100 * share:.0f} % of it" in curve.note


def test_a_table_by_store_voltage_has_a_curve_for_each():
    rows = table((1e-5, 0.5, 2.0), (1e-3, 0.7, 2.0), (1e-5, 0.6, 4.0), (1e-3, 0.9, 4.0))
    found = panel_curve(Case(_with_charger(ConverterCharger(efficiency_table=rows)))).charger
    assert [name for name, _ in found.curves] == ["store at 2 V", "store at 4 V"]
    assert np.all(found.curves[1][1] >= found.curves[0][1])
    assert [row[0] for row in found.rows] == [0, 0, 1, 1]


def test_a_diode_is_drawn_as_charging_current_over_the_store_s_voltage():
    found = panel_curve(Case(_with_charger(DirectCharger(full_V=12.0)))).charger
    ((_, amps),) = found.curves
    assert found.kind == "current"
    assert np.all(np.diff(amps) <= 1e-12)
    assert amps[-1] == 0.0


@pytest.mark.parametrize(("name", "source"), [
    ("north_door_counter", "daylight_open"), ("window_air_sensor", None),
])  # fmt: skip
def test_the_mean_light_of_a_year_has_the_spectrum_of_the_year(name, source):
    case = Case(*demo(name))
    curve, panels, year = panel_curve(case), case.scenario.panels, case.year
    day, lamps = (
        float(lux.sum()) * parts.photocurrent_per_lux(of, panels.technology)
        for lux, of in (
            (year.daylight_lx, "daylight_open" if source else "daylight_glass"),
            (year.electric_lx, year.electric_source),
        )
    )
    per_lux = (day + lamps) / float((year.daylight_lx + year.electric_lx).sum())
    light = case.scenario.light
    lit = year.daylight_lx + year.electric_lx >= DARK_BELOW_LX
    mean_c = float(year.temperature_c[lit].mean())
    warmth = 1.0 + parts.cell(panels.technology).current_temperature_per_k * (mean_c - 25.0)
    amps = year.mean_lit_lx * per_lux * warmth * panel_factor(light) * panels.count
    amps *= panels.active_area_cm2 * 1e-4 / panels.cells_in_series
    panel = build_panel(panels, mean_c)
    expected = maximum_power(panel, np.array([amps])).power_w[0]
    assert curve.points[0].power_w == pytest.approx(expected, rel=1e-6)
