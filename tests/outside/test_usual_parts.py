"""Defaults of converter and store against what is known of the parts that one can buy."""

import numpy as np
import pytest

from explorer.physics import charger as ch
from explorer.scenario import parts
from explorer.scenario.build import build_charger
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import ConverterCharger

FAMILIES = {family.key: family for family in parts.store_families()}


# -- converter ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("panel_w", "low", "high"),
    # Small harvesting converters between a panel of 1 to 3 V and a store of 3 to 4 V; from memory,
    # no open curve of efficiency against input power was found
    [(10e-6, 0.50, 0.75), (100e-6, 0.70, 0.88), (1e-3, 0.75, 0.92)],
)
def test_the_default_converter_keeps_no_more_than_small_converters_do(panel_w, low, high):
    found = build_charger(ConverterCharger(), 25.0)
    assert isinstance(found, ch.Converter)
    kept = (found.efficiency * panel_w - found.fixed_loss_w) / panel_w
    assert low <= kept <= 0.5 * (low + high)  # the cautious half of the range


def test_the_default_converter_asks_for_what_its_kind_asks():
    usual = ConverterCharger()
    # 325 to 488 nA typical, 700 nA largest: data sheets of harvesting converters
    assert 325e-9 <= usual.quiescent_A <= 700e-9
    # Runs from 5 µW; starts from 3 to 5 µW, 15 µW from memory; 250 to 400 mV, in later revisions
    # 600 mV typical: the same sheets
    assert usual.minimum_panel_W == 5e-6
    assert 5e-6 <= usual.cold_start_panel_W <= 15e-6
    assert 0.4 <= usual.cold_start_panel_V <= 0.6
    # Sizing formula of one sheet: [leakage · 1.8 V + (1.8 V)²/R] / 0.05
    assert (usual.cold_start_below_V, usual.cold_start_efficiency) == (1.8, 0.05)
    # Below its fixed loss it has nothing left, so it must not be said to run there
    assert usual.efficiency * usual.minimum_panel_W > usual.fixed_loss_W


# -- stores -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("store", "family", "size"),
    [
        (SupercapacitorStore(), "standard_supercapacitor", 1.0),
        (CapacitorStore(), "electrolytic", 4.7e-3),
        (CellStore(), "lithium_pouch", 40.0),
    ],
)
def test_a_store_by_default_is_the_usual_part_of_its_kind(store, family, size):
    usual = FAMILIES[family].store(size)
    for key, value in usual.model_dump().items():
        ours = getattr(store, key)
        if isinstance(value, float):
            assert ours == pytest.approx(value, rel=5e-3), key
        else:
            assert ours == value, key


def test_resistance_of_the_default_bank_is_that_of_measured_cells():
    # 25 F cells of three makers: 23 to 27 mΩ, Zenodo 10.5281/zenodo.19221698; a cell's resistance
    # times its capacitance stays within a kind, and two in series keep the product
    bank = SupercapacitorStore()
    product = bank.esr_ohm * bank.capacitance_F
    assert 25.0 * 23e-3 <= product <= 1.2 * 25.0 * 27e-3


def test_leakage_of_the_default_bank_lies_between_limit_and_reading():
    # A 10 F cell: at most 30 µA after 72 h by its sheet, some 1 µA measured after 72 h
    bank = SupercapacitorStore()
    per_farad_of_cell = bank.leakage_A / (bank.units_in_series * bank.capacitance_F)
    assert 0.1e-6 < per_farad_of_cell < 3e-6


def test_leakage_of_the_default_electrolytic_lies_below_its_limit():
    # 0.002·C·V, low-leakage types: makers' and teaching pages
    can = CapacitorStore()
    limit = 0.002 * can.capacitance_F * can.rated_V
    assert 0.01 * limit < can.leakage_A < 0.2 * limit


def test_a_lithium_pouch_loses_its_own_charge_and_that_of_its_protection():
    # 1 to 2 % a month, and 3 % more for a protection circuit: battery handbook pages. The circuit
    # draws some 2 µA (from memory: 1 to 4 µA), which is 3 % a month of 50 mAh.
    pouch = FAMILIES["lithium_pouch"]
    assert pouch.store(50.0).self_discharge_per_month == pytest.approx(0.05, abs=0.002)
    circuit_a = [
        (pouch.store(size).self_discharge_per_month - 0.02) * size * 1e-3 / 730.5
        for size in (12.0, 40.0, 150.0)
    ]
    assert circuit_a == pytest.approx([2e-6] * 3, rel=0.05)
    # A coin without such a circuit
    assert FAMILIES["lithium_coin"].store(45.0).self_discharge_per_month == 0.02


def test_a_larger_cell_keeps_its_protection_circuit():
    scenario = Scenario(store=CellStore(), charger={"kind": "converter", "full_V": 4.2})
    large = with_value(scenario, "store.capacity_mAh", 400.0).store
    lost_a = large.self_discharge_per_month * 0.4 / 730.5
    assert lost_a == pytest.approx(2e-6 + 0.02 * 0.4 / 730.5, rel=0.02)


def test_charge_and_discharge_of_the_default_cell_follow_its_capacity():
    # Half and once the capacity in an hour; common practice, no source
    pouch = CellStore()
    assert np.array([pouch.charge_limit_A, pouch.discharge_limit_A]) == pytest.approx(
        np.array([0.5, 1.0]) * pouch.capacity_mAh * 1e-3
    )
