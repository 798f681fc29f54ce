"""The scenario refuses what cannot be, and changes one value at a time within a family."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from explorer.scenario.fields import describe
from explorer.scenario.model import (
    MARGIN_BY_KNOWLEDGE,
    Scenario,
    get_value,
    owner_class,
    with_value,
)
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import Panels, SheetPoint


def refused(data, key):
    with pytest.raises(ValidationError) as caught:
        Scenario.model_validate(data)
    faults = caught.value.errors(include_url=False)
    where = [".".join(str(p) for p in f["loc"]) for f in faults]
    assert any(key in place for place in where), where
    return " ".join(f["msg"] for f in faults)


def test_a_scenario_of_defaults_is_whole():
    scenario = Scenario()
    assert Scenario.model_validate(scenario.model_dump()) == scenario
    assert Scenario.model_validate_json(scenario.model_dump_json()) == scenario


@pytest.mark.parametrize(
    ("data", "key"),
    [
        ({"lihgt": {}}, "lihgt"),
        ({"light": {"illuminance": 300}}, "light.illuminance"),
        ({"store": {"kind": "supercapacitor", "capacitance_F": -1.0}}, "capacitance_F"),
        ({"store": {"kind": "supercapacitor", "capacitance_F": "lots"}}, "capacitance_F"),
        ({"store": {"kind": "supercapacitor", "esr_ohm": float("nan")}}, "esr_ohm"),
        ({"light": {"illuminance_lx": float("inf")}}, "illuminance_lx"),
        ({"store": {"kind": "flywheel"}}, "store"),
        ({"panels": {"count": 2.5}}, "panels.count"),
        ({"panels": {"count": 0}}, "panels.count"),
        ({"version": 4}, "version"),
    ],
)
def test_what_cannot_be_is_refused_by_its_key(data, key):
    refused(data, key)


def tabled(*rows):
    """A converter with an efficiency table."""
    keys = ("input_W", "efficiency", "store_V")
    table = [dict(zip(keys, row, strict=True)) for row in rows]
    return {"charger": {"kind": "converter", "efficiency_table": table}}


@pytest.mark.parametrize(
    ("data", "key", "sentence"),
    [
        ({"load": {"connect_V": 2.0, "disconnect_V": 2.4}}, "load", "connect_V .2 V. must be hig"),
        ({"charger": {"kind": "direct", "full_V": 3.0}}, "", "connect_V .3.6 V. must be lower"),
        ({"light": {"illuminance_lx": None}}, "light", "empty only where the pattern is a log"),
        ({"light": {"pattern": {"kind": "week", "blocks": [{"from_h": 9, "to_h": 8}]}}},
         "light.pattern", "split a block that passes midnight"),
        ({"store": {"kind": "supercapacitor", "lowest_V": 3.0}}, "store", "lowest_V .3 V. must"),
        ({"store": {"kind": "supercapacitor", "lowest_V": 2.6}}, "", "lowest voltage .5.2 V"),
        ({"store": {"kind": "cell", "charge_above_C": 50.0}}, "store", "must lie below charge_"),
        ({"load": {"operations": [{"phases": []}]}}, "load.operations.0", "at least one phase"),
        ({"load": {"operations": [{"phases": [{"current_A": 1.0, "power_W": 1.0}]}]}},
         "load.operations.0.phases.0", "exactly one of current_A, power_W"),
        ({"load": {"operations": [{"phases": [{"current_A": 1.0, "duration_s": 90.0}]}]}},
         "load.operations.0", "does not fit the interval_s"),
        (tabled((1e-5, 0.5, None), (1e-3, 0.8, 3.0)), "charger.converter", "every row or in none"),
        (tabled((1e-5, 0.5, None), (1e-5, 0.8, None)), "charger.converter", "10 µW stands in"),
        (tabled((1e-4, 0.8, 3.0), (2e-4, 0.3, 3.0)), "charger.converter",
         "200 µW into the converter bring less out of it than 100 µW"),
        (tabled(*((1e-6 * 2.0**n, 0.5, None) for n in range(13))), "charger.converter",
         "at most 12 rows"),
    ],
)  # fmt: skip
def test_what_contradicts_itself_is_refused_with_both_values(data, key, sentence):
    assert re.search(sentence, refused(data, key))


def test_a_data_sheet_that_contradicts_itself_is_refused_by_its_keys():
    with pytest.raises(ValidationError, match=r"max_power_V .4 V. must lie below open_circuit_V"):
        SheetPoint(max_power_V=4.0, max_power_A=1.6e-5, open_circuit_V=4.0)
    dim = SheetPoint(open_circuit_V=4.0)
    bright = {
        "illuminance_lx": 1000.0,
        "short_circuit_A": 1e-4,
        "open_circuit_V": 3.9,
    }
    with pytest.raises(ValidationError, match="data_sheet, point 2: open_circuit_V"):
        Panels(data_sheet=(dim, SheetPoint(**bright)))
    message = refused({"panels": {"data_sheet": [{"max_power_A": 3e-5, "max_power_V": 3}]}},
                      "panels.data_sheet.0")  # fmt: skip
    assert "max_power_A (30 µA) must lie below short_circuit_A (20 µA)" in message


def test_a_data_sheet_takes_eight_lines_at_most():
    levels = range(100, 1000, 100)
    lines = [SheetPoint(illuminance_lx=lx, short_circuit_A=lx * 1e-7) for lx in levels]
    assert len(Panels(data_sheet=lines[:8]).data_sheet) == 8
    with pytest.raises(ValidationError, match="1 to 8 points, found 9"):
        Panels(data_sheet=lines)


@pytest.mark.parametrize("known_by", MARGIN_BY_KNOWLEDGE)
def test_the_margin_follows_from_how_the_light_is_known_unless_set(known_by):
    scenario = with_value(Scenario(), "light.known_by", known_by)
    assert scenario.design_margin == MARGIN_BY_KNOWLEDGE[known_by]
    assert with_value(scenario, "margins.design_margin", 1.1).design_margin == 1.1


# -- paths ----------------------------------------------------------------------------------------


def test_a_value_is_found_and_set_by_its_path():
    scenario = with_value(Scenario(), "load.operations.0.phases.0.current_A", 0.05)
    assert get_value(scenario, "load.operations.0.phases.0.current_A") == 0.05
    assert owner_class(scenario, "load.operations.0.phases.0.current_A").__name__ == "Phase"
    assert get_value(Scenario(), "load.operations.0.phases.0.current_A") == 0.02


@pytest.mark.parametrize(
    "path", ["light.lux", "load.operations.7.name", "panels.count.0", "stores", ""]
)
def test_a_wrong_path_is_named(path):
    with pytest.raises(KeyError):
        get_value(Scenario(), path)


def test_a_value_out_of_range_leaves_the_scenario_alone():
    scenario = Scenario()
    with pytest.raises(ValidationError, match="less than or equal to 64"):
        with_value(scenario, "panels.count", 65)
    assert scenario == Scenario()


@given(st.floats(0.01, 900.0))
def test_a_larger_bank_of_the_same_family_keeps_its_time_constants(size):
    before = SupercapacitorStore()
    after = with_value(Scenario(store=before), "store.capacitance_F", size).store
    assert after.capacitance_F == size
    assert after.esr_ohm * size == pytest.approx(before.esr_ohm * before.capacitance_F)
    assert after.leakage_A / size == pytest.approx(before.leakage_A / before.capacitance_F)
    assert after.balancing_A / size == pytest.approx(before.balancing_A / before.capacitance_F)


def test_a_larger_capacitor_or_cell_scales_as_its_family_does():
    tank = with_value(Scenario(store=CapacitorStore()), "store.capacitance_F", 9.4e-3).store
    assert tank.leakage_A == pytest.approx(2.0 * CapacitorStore().leakage_A)
    scenario = Scenario(store=CellStore(), charger={"kind": "converter", "full_V": 4.2})
    cell = with_value(scenario, "store.capacity_mAh", 80.0).store
    assert cell.resistance_ohm == pytest.approx(0.5)
    assert cell.charge_limit_A == pytest.approx(0.04)
    assert cell.discharge_limit_A == pytest.approx(0.08)


def test_every_store_number_has_a_range_a_label_and_a_help():
    for section in (CapacitorStore, SupercapacitorStore, CellStore):
        for key in section.model_fields:
            if key == "kind":
                continue
            known = describe(section, key)
            assert known.label != key
            assert known.help.endswith(".")
            if isinstance(known.default, float):
                assert known.low <= known.default <= known.high
    with pytest.raises(KeyError):
        describe(CellStore, "capacitance_F")


def test_a_hysteresis_that_reaches_the_cut_off_is_refused():
    with pytest.raises(ValidationError, match="full_hysteresis_V"):
        with_value(Scenario(), "charger.full_hysteresis_V", 3.0)


def test_the_smallest_store_of_a_family_stays_within_its_limits():
    small = with_value(with_value(Scenario(), "store.esr_ohm", 5.0), "store.capacitance_F", 1e-5)
    assert small.store.esr_ohm == 1e4


@pytest.mark.parametrize("size", [0, 0.0, -1.0])
@pytest.mark.parametrize(
    ("store", "path"),
    [(SupercapacitorStore(), "store.capacitance_F"), (CellStore(), "store.capacity_mAh")],
)
def test_a_store_of_no_size_is_refused_by_its_range(store, path, size):
    with pytest.raises(ValidationError, match="greater than or equal"):
        with_value(Scenario(store=store), path, size)
