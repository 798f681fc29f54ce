"""Cautions appear where they apply, and only there."""

import pytest

from explorer.advice.case import Case
from explorer.advice.cautions import Caution, cautions
from explorer.advice.judge import judge
from explorer.scenario import parts
from explorer.scenario.daylight import DaylightPattern, Indoors, Outdoors, SkyMonth
from explorer.scenario.demand import Load
from explorer.scenario.light import Light
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import ConverterCharger, DirectCharger, Panels
from tests.advice.demos import demo

CELL_CHARGER = ConverterCharger(full_V=4.2)


def keys(scenario):
    return {caution.key for caution in cautions(scenario)}


def of(scenario, key) -> Caution:
    return next(caution for caution in cautions(scenario) if caution.key == key)


def test_a_pair_of_supercapacitors_warns_of_shorts_of_sharing_and_of_its_solvent():
    found = keys(Scenario())
    assert {"supercapacitor", "series_bank", "acetonitrile"} <= found
    assert not found & {"lithium", "coin", "electrolytic", "hybrid", "egress"}


def test_a_single_supercapacitor_shares_nothing():
    assert "series_bank" not in keys(Scenario(store=SupercapacitorStore(units_in_series=1)))


def test_a_hybrid_names_its_lower_limit():
    store = SupercapacitorStore(units_in_series=1, rated_V=3.8, lowest_V=2.5)
    assert "2.5 V" in of(Scenario(store=store), "hybrid").text


def test_an_electrolytic_warns_of_polarity():
    scenario = Scenario(store=CapacitorStore())
    assert "polarity" in of(scenario, "electrolytic").text
    assert "supercapacitor" not in keys(scenario)
    assert "series_bank" in keys(Scenario(store=CapacitorStore(units_in_series=2)))


def test_a_lithium_cell_states_its_own_charging_window():
    store = CellStore(charge_above_C=5.0, charge_below_C=40.0)
    text = of(Scenario(store=store, charger=CELL_CHARGER), "lithium").text
    assert "between 5 and 40 °C" in text
    assert "below 0 °C" in text
    assert "UN 38.3" in text


@pytest.mark.parametrize(("capacity", "shown"), [(40.0, True), (250.0, True), (1000.0, False)])
def test_only_a_small_cell_can_be_swallowed(capacity, shown):
    scenario = Scenario(store=CellStore(capacity_mAh=capacity), charger=CELL_CHARGER)
    assert ("coin" in keys(scenario)) is shown


def test_cells_in_series_need_watching_one_by_one():
    scenario = Scenario(store=CellStore(cells_in_series=2), charger=ConverterCharger(full_V=8.4))
    assert "series_cells" in keys(scenario)


def test_a_bare_diode_in_front_of_lithium_is_pointed_out_at_the_charger():
    bare = Scenario(store=CellStore(), charger=DirectCharger(full_V=4.2))
    assert of(bare, "direct_lithium").where == "charger"
    assert "direct_lithium" not in keys(Scenario(store=CellStore(), charger=CELL_CHARGER))
    assert "direct_lithium" not in keys(Scenario(charger=DirectCharger()))


@pytest.mark.parametrize(
    ("actuator", "key", "word"),
    [
        ("door_lock", "egress", "leave at any time"),
        ("latching_valve", "valve", "stays where it is"),
        ("vent_or_flap", "vent", "smoke"),
        ("other_motor", "motor", "pinch"),
    ],
)
def test_what_moves_brings_its_own_caution(actuator, key, word):
    caution = of(Scenario(load=Load(actuator=actuator)), key)
    assert word in caution.text
    assert caution.where == "load"


def test_a_reserve_for_the_safe_action_takes_back_the_remark_about_it():
    bare = of(Scenario(load=Load(actuator="latching_valve")), "valve")
    kept = of(Scenario(load=Load(actuator="latching_valve", reserve_J=0.6)), "valve")
    assert "No energy is reserved" in bare.text
    assert "No energy is reserved" not in kept.text


def test_nothing_moves_in_a_plain_sensor():
    assert all(caution.where != "load" for caution in cautions(Scenario()))


def test_a_large_array_is_more_than_a_panel_on_a_device():
    small, large = Scenario(), Scenario(panels=Panels(active_area_cm2=600.0, count=8))
    assert "mounting" in keys(small)
    assert "large_array" not in keys(small)
    assert "0.48 m²" in of(large, "large_array").text


@pytest.mark.parametrize("family", parts.store_families(), ids=lambda f: f.key)
def test_every_caution_of_every_store_defers_to_sheet_code_and_person(family):
    low, high = family.window_v
    store = family.store(family.sizes[0])
    full = high if family.kind == "cell" else 0.95 * high
    load = Load(connect_V=0.9 * full, disconnect_V=max(low, 0.5 * full), actuator="door_lock")
    scenario = Scenario(store=store, charger=ConverterCharger(full_V=full), load=load)
    shown = cautions(scenario)
    assert len({caution.key for caution in shown}) == len(shown) >= 3
    for caution in shown:
        assert "data sheet, local codes and a qualified person" in caution.text
        assert caution.title
    assert shown[0].where == "store"


@pytest.mark.parametrize(("off_v", "shown"), [(2.4, True), (3.0, False), (3.2, False)])
def test_a_load_that_would_empty_a_cell_too_far_is_told(off_v, shown):
    """A lithium-ion cell is empty at 3 V."""
    load = Load(connect_V=3.6, disconnect_V=off_v, minimum_V=2.2)
    scenario = Scenario(store=CellStore(), charger=CELL_CHARGER, load=load)
    assert ("over_discharge" in keys(scenario)) is shown
    if shown:
        assert "disconnects at 2.4 V, but the store is empty at 3 V" in of(
            scenario, "over_discharge"
        ).text


def test_a_bank_on_a_diode_is_told_what_its_panel_reaches_in_the_sun():
    """Eight amorphous cells of some 0.9 V each in the sun (from memory): 7 V and more on 5.4 V."""
    bare = Scenario(store=SupercapacitorStore(), charger=DirectCharger(full_V=5.0))
    text = of(bare, "direct_bank").text
    assert "rated 5.4 V together" in text
    assert "ends the charge at 5 V" in text
    volts = float(text.split("reaches ")[1].split(" V")[0])
    assert 6.5 < volts < 9.0
    # Four such cells never reach the rating, and a converter stops by itself.
    few = Scenario(charger=DirectCharger(full_V=5.0), panels=Panels(cells_in_series=4))
    assert "direct_bank" not in keys(few)
    assert "direct_bank" not in keys(Scenario(store=SupercapacitorStore()))


def test_frost_and_heat_behind_glass_are_told_of_a_year_and_of_nothing_else():
    def keys(place, store, mean_c):
        months = (SkyMonth(mean_C=mean_c),) * 12
        light = Light(illuminance_lx=None, pattern=DaylightPattern(place=place, months=months))
        charger = ConverterCharger(full_V=4.1)
        return {c.key for c in cautions(Scenario(light=light, store=store, charger=charger))}

    cell = CellStore()
    assert {"frost", "heat"} <= keys(Indoors(), cell, 5.0)
    assert "frost" not in keys(Indoors(), cell, 22.0)
    assert "frost" not in keys(Indoors(), SupercapacitorStore(), -5.0)
    assert "heat" not in keys(Outdoors(), cell, 5.0)
    assert "heat" in keys(Outdoors(glass="coated_glass"), cell, 5.0)
    assert not {"frost", "heat"} & {c.key for c in cautions(Scenario())}


def test_a_lock_is_told_to_let_people_out_whatever_else_is_said():
    case = Case(*demo("vent_flap"))
    locked = case.with_value("load.actuator", "door_lock")
    assert "egress" not in [danger.key for danger in judge(case).hazards]
    assert "egress" in [danger.key for danger in judge(locked).hazards]
