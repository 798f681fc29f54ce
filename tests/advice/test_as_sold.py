"""The build nearest to a place of a map: real parts, and what they cost."""

import math

import numpy as np
import pytest

from explorer.advice.as_sold import AREA, cost_of, family_like, nearest_as_sold
from explorer.advice.case import Case
from explorer.advice.stops import CAPACITANCE_STOPS
from explorer.advice.territory import axis_choices, axis_stops, territory
from explorer.scenario import parts
from explorer.scenario.generic import PER_CM2, PER_CM3, PER_PANEL, PER_STORE
from explorer.scenario.model import Scenario, with_value, with_values
from explorer.scenario.part import part_from, taken
from explorer.scenario.price import RELATIVE
from explorer.scenario.storage import SupercapacitorStore
from explorer.scenario.supply import Panels, SheetPoint
from explorer.words.as_sold import as_sold_line
from explorer.words.price import cost_text
from tests.advice.demos import NAMES, demo

SIZE = "store.capacitance_F"


def pair(size=1.0, **changes):
    family = next(f for f in parts.store_families() if f.key == "standard_supercapacitor")
    return family.store(size).model_copy(update=changes)


def design(**changes):
    return with_values(Scenario(store=pair()), changes)


@pytest.mark.parametrize("family", parts.store_families(), ids=lambda f: f.key)
def test_a_generic_store_is_known_again_in_every_size(family):
    for size in family.sizes:
        assert family_like(family.store(size)).key == family.key


def test_panels_are_whole_and_sizes_those_that_are_sold():
    found = nearest_as_sold(design(), {"panels.count": 2.6, SIZE: 1.95}, ())
    assert found.scenario.panels.count == 3
    assert found.scenario.store.capacitance_F == 1.8  # of 1.8 and 2.2 the nearer in ratio
    assert found.scenario.store.esr_ohm == pytest.approx(0.7 / 1.8)


def test_a_price_is_that_of_each_panel_and_of_the_store_s_volume():
    """Worked by hand from the stated rules of generic prices: 3 panels, a pair of 2.2 F."""
    found = nearest_as_sold(design(), {"panels.count": 3.0, SIZE: 2.2}, ())
    hand = 3 * (PER_PANEL + 12.0 * PER_CM2["amorphous"]) + 3 * (PER_STORE + PER_CM3 * 0.95 * 2.2)
    assert found.cost.amounts == ((RELATIVE, pytest.approx(hand)),)
    now = PER_PANEL + 12.0 * PER_CM2["amorphous"] + 3 * (PER_STORE + PER_CM3 * 0.95)
    assert found.now.single == pytest.approx(now)


def test_a_longer_string_has_larger_units():
    """Three in place of two for the same farads: each one and a half times as large."""
    three = cost_of(design(store=pair(2.2, units_in_series=3))).single
    two = cost_of(design(store=pair(2.2))).single
    assert three - two == pytest.approx(3 * PER_CM3 * 0.95 * 2.2 * (1.5**2 - 1.0))


def own(title, size, price, currency="EUR"):
    store = SupercapacitorStore(capacitance_F=size, esr_ohm=0.4, leakage_A=2e-6)
    return part_from("store", store, title=title, price=price, currency=currency)


def test_a_part_of_one_s_own_within_a_step_is_taken_at_its_price():
    mine = (own("Small", 1.1, 3.5), own("Large", 5.0, 9.0))
    found = nearest_as_sold(design(), {SIZE: 1.25}, mine)
    assert found.scenario.store.part.title == "Small"
    assert found.cost.amount("EUR") == 3.5
    assert found.scenario.store.capacitance_F == 1.1
    far = nearest_as_sold(design(), {SIZE: 2.2}, mine)
    assert far.scenario.store.part is None
    assert far.cost.currency == RELATIVE


def test_prices_of_one_s_own_and_relative_ones_are_never_added():
    found = nearest_as_sold(design(), {"panels.count": 2.0, SIZE: 1.1}, (own("Small", 1.1, 3.5),))
    text = as_sold_line(found)
    assert "Price 3.50 EUR and 2.96 (relative)" in text
    assert "now 2.67 (relative)" in text


def test_panels_of_one_s_own_cost_their_price_each_and_one_without_a_price_makes_none():
    for price, total in ((4.0, 12.0), (None, math.nan)):
        part = part_from("panel", Panels(active_area_cm2=20.0), title="Pane", price=price)
        base = design(panels=taken(part, Panels(count=2)))
        cost = nearest_as_sold(base, {"panels.count": 3.0}, ()).cost
        assert cost.amount("") == pytest.approx(total, nan_ok=True)
    assert "Price not known" in as_sold_line(nearest_as_sold(base, {"panels.count": 3.0}, ()))


def pane(title, area, price, **changes):
    section = Panels(active_area_cm2=area, **changes)
    return part_from("panel", section, title=title, price=price, currency="EUR")


def test_the_area_of_a_panel_goes_to_the_nearest_that_is_sold():
    for wanted, sold in ((10.0, 8.0), (12.0, 15.0), (400.0, 250.0)):
        found = nearest_as_sold(design(), {AREA: wanted, "panels.count": 2.0}, ())
        assert (found.scenario.panels.active_area_cm2, found.scenario.panels.count) == (sold, 2)
        assert found.panels == f"2 × {sold:g} cm², amorphous silicon"
        by_hand = 2 * (PER_PANEL + sold * PER_CM2["amorphous"])
        assert found.cost.single - cost_of(design()).single + PER_PANEL + (
            12.0 * PER_CM2["amorphous"]
        ) == pytest.approx(by_hand)


def test_a_panel_of_one_s_own_within_a_step_is_taken_at_its_price_each():
    mine = (pane("Near", 22.0, 4.0), pane("Nearer", 19.0, 5.0),
            pane("Other", 20.0, 1.0, technology="crystalline", cells_in_series=8))  # fmt: skip
    found = nearest_as_sold(design(), {AREA: 20.0, "panels.count": 3.0}, mine)
    panels = found.scenario.panels
    assert (panels.part.title, panels.count, panels.active_area_cm2) == ("Nearer", 3, 19.0)
    assert found.cost.amount("EUR") == 15.0
    assert "3 × Nearer" in as_sold_line(found)
    far = nearest_as_sold(design(), {AREA: 30.0}, mine)
    assert far.scenario.panels.part is None
    assert far.cost.currency == RELATIVE


def test_where_panels_are_counted_one_of_one_s_own_as_large_stands_for_the_generic_one():
    mine = (pane("Near", 13.0, 4.0),)
    found = nearest_as_sold(design(), {"panels.count": 2.0}, mine)
    assert found.scenario.panels.part.title == "Near"
    assert found.cost.amount("EUR") == 8.0
    there = design(panels=taken(pane("There", 12.0, 2.0), Panels(count=2)))
    kept = nearest_as_sold(there, {"panels.count": 3.0}, mine)
    assert kept.scenario.panels.part.title == "There"  # it is one's own already
    light = nearest_as_sold(design(), {"light.illuminance_lx": 300.0}, mine)
    assert light.scenario.panels.part is None  # panels are not on this map


def test_an_axis_of_areas_goes_through_what_is_sold_and_what_is_on_the_shelf():
    mine = (pane("Odd", 21.0, 4.0), pane("Other", 22.0, 1.0, technology="crystalline",
                                         cells_in_series=8))  # fmt: skip
    axis = next(a for a in axis_choices(Case(design()), mine) if a.path == AREA)
    assert axis.as_sold
    assert axis.values == (4.0, 8.0, 12.0, 15.0, 21.0, 30.0, 60.0, 120.0)
    assert set(axis.values) < set(axis_stops(design(), axis))
    sheet = design(panels=Panels(data_sheet=(SheetPoint(),)))
    assert AREA not in [a.path for a in axis_choices(Case(sheet), mine)]


def test_more_area_brings_more_light_on_the_map():
    """A panel of twice the area does in half the light what the smaller one does."""
    probe = with_value(demo("soil_probe")[0], "panels.data_sheet", ())
    axes = {a.path: a for a in axis_choices(Case(probe))}
    found = territory(Case(probe), axes[AREA], axes["light.illuminance_lx"])
    works = (found.codes >= 1).sum(axis=0)
    assert (np.diff(works) >= 0).all()
    assert works[-1] > works[0]


def test_of_a_place_that_a_design_of_another_kind_has_nothing_is_nearest():
    assert nearest_as_sold(design(), {"store.capacity_mAh": 10.0}, ()) is None
    assert nearest_as_sold(design(), {"load.operations.9.schedule.interval_s": 1.0}, ()) is None


def test_prices_in_several_currencies_are_never_added():
    pane = part_from(
        "panel", Panels(active_area_cm2=20.0), title="Pane", price=4.0, currency="USD"
    )
    base = design(panels=taken(pane, Panels(count=2)))
    alike = cost_of(base.model_copy(update={"store": taken(own("A", 1.0, 3.5, "USD"), pair())}))
    assert (alike.single, alike.currency) == (11.5, "USD")
    mixed = base.model_copy(update={"store": taken(own("A", 1.0, 3.5), pair())})
    assert math.isnan(cost_of(mixed).single)
    assert cost_text(cost_of(mixed)) == "8.00 USD and 3.50 EUR"


def test_a_part_that_was_changed_counts_as_generic():
    base = design(store=taken(own("Small", 1.0, 3.5), pair()))
    assert cost_of(base).amount("EUR") == 3.5
    assert cost_of(with_value(base, SIZE, 2.2)).currency == RELATIVE


@pytest.mark.parametrize("name", NAMES)
def test_the_map_of_a_demonstration_steps_through_sizes_as_they_are_sold(name):
    case = Case(*demo(name))
    for axis in axis_choices(case):
        if axis.as_sold and axis.path == SIZE:
            assert set(axis.values) - {case.scenario.store.size} <= set(CAPACITANCE_STOPS)
            assert case.scenario.store.size in axis.values
