"""The working point lies on the panel's curve and below its best point."""

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.advice.panel_curve import panel_curve
from explorer.scenario.model import Scenario
from explorer.scenario.supply import ConverterCharger, DirectCharger


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
    assert "never gets full" in curve.note
