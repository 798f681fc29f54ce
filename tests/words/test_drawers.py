import math

import numpy as np
import pytest

from explorer.advice.territory import Axis, Territory
from explorer.scenario.model import Scenario, with_value
from explorer.state.drawer_steps import same_but_for
from explorer.words import drawers as drawer_text

LIGHT = Axis(
    path="light.illuminance_lx", label="Light level", unit="lx",
    values=(100.0, 200.0, 400.0, 800.0),
)
PANELS = Axis(path="panels.count", label="Panels", unit="", values=(1.0, 2.0))


def a_map(reserve, wanted=1.3):
    reserve = np.array(reserve, float)
    margin = reserve * wanted
    codes = (margin >= 1).astype(int) + (reserve >= 1).astype(int)
    return Territory(
        x=LIGHT, y=PANELS, codes=codes, margin=margin, reserve=reserve,
        governing=np.zeros(codes.shape, int),
    )


def test_the_summary_reads_the_row_of_the_present_point():
    # On a row from 0.5 to 2 over 200..400 lx the reserve passes 1 at the geometric middle.
    found = a_map([[0.1, 0.2, 0.3, 0.4], [0.25, 0.5, 2.0, 8.0]], wanted=1.0)
    assert drawer_text.territory_summary(found, 300.0, 2.0) == "With 2 panels: runs from 283 lx."
    assert drawer_text.territory_summary(found, 300.0, 1.0) == (
        "Falls short at every light level on this map with 1 panel."
    )


def test_the_summary_tells_where_it_works_under_its_margin():
    found = a_map([[0.25, 0.5, 1.25, 4.0]] * 2, wanted=2.0)
    text = drawer_text.territory_summary(found, 300.0, 2.0)
    assert text.startswith("With 2 panels: runs from ")
    assert text.endswith("; works under its margin from 200 lx.")


def test_more_can_be_worse_and_the_summary_says_so():
    assert drawer_text.crossings(LIGHT, np.array([0.5, 2.0, 2.0, 0.5])) == (
        pytest.approx((141.42, 565.69), abs=0.01),
    )


def test_a_count_has_nothing_between_its_values():
    assert drawer_text.crossings(PANELS, np.array([0.5, 1.5])) == ((2.0, math.inf),)


def test_a_store_resized_along_its_range_is_the_same_but_for_its_size():
    one = Scenario()
    other = one
    for farads in (1.7, 0.3, 2.9, 0.77):
        other = with_value(other, "store.capacitance_F", farads)
    other = with_value(other, "light.illuminance_lx", 777.0)
    paths = ("store.capacitance_F", "light.illuminance_lx")
    assert same_but_for(paths, one, other)
    assert not same_but_for(paths, one, with_value(other, "load.sleep_A", 9e-6))
    assert not same_but_for(("store.capacity_mAh",), one, other)
