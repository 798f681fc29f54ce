"""The library of store kinds: complete, sourced, and each one usable as it is."""

import pytest

from explorer.scenario import parts
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore

FAMILIES = {family.key: family for family in parts.store_families()}
CLASSES = {"capacitor": CapacitorStore, "supercapacitor": SupercapacitorStore, "cell": CellStore}


def test_the_library_spans_capacitors_to_cells():
    assert len(FAMILIES) == len(parts.store_families()) >= 9
    assert {family.kind for family in FAMILIES.values()} == set(CLASSES)
    assert {f.chemistry for f in FAMILIES.values() if f.kind == "cell"} == {
        "lithium_ion",
        "iron_phosphate",
        "titanate",
    }


@pytest.mark.parametrize("key", FAMILIES)
def test_every_number_names_where_it_comes_from(key):
    family = FAMILIES[key]
    assert set(family.sources) == set(family.numbers) | {"sizes"}
    assert all(len(source) > 4 for source in family.sources.values())
    assert family.note.endswith(".")
    assert family.cautions
    assert 1 <= family.cost_class <= 5


@pytest.mark.parametrize("key", FAMILIES)
def test_every_size_is_a_store_that_a_scenario_takes(key):
    family = FAMILIES[key]
    assert list(family.sizes) == sorted(set(family.sizes))
    small, large = family.store(family.sizes[0]), family.store(family.sizes[-1])
    assert type(small) is CLASSES[family.kind]
    resistance = "resistance_ohm" if family.kind == "cell" else "esr_ohm"
    assert getattr(small, resistance) > getattr(large, resistance)
    assert family.volume_cm3(family.sizes[0]) < family.volume_cm3(family.sizes[-1])
    assert family.mass_g(family.sizes[0]) > 0.0
    for size in family.sizes:
        family.store(size).built(22.0, 5.0)


@pytest.mark.parametrize("key", FAMILIES)
def test_a_store_lives_longer_in_a_cool_place(key):
    family = FAMILIES[key]
    store, full_v = family.store(family.sizes[0]), family.window_v[1]
    cool, hot = (store.years_to_end_of_life(t, full_v) for t in (20.0, 60.0))
    assert cool >= hot > 0.0


def test_a_hybrid_capacitor_has_a_floor_and_a_pair_has_two_units():
    assert FAMILIES["hybrid"].window_v == (2.5, 3.8)
    assert FAMILIES["standard_supercapacitor"].window_v == (0.0, 5.4)
    assert FAMILIES["lithium_pouch"].window_v == pytest.approx((3.0, 4.2))


def test_a_memory_backup_can_resists_far_more_than_a_power_pair():
    can = FAMILIES["memory_backup"].store(0.33)
    pair = FAMILIES["power_supercapacitor"].store(0.33)
    assert can.esr_ohm > 500.0 * pair.esr_ohm


def test_a_cell_holds_far_more_energy_in_a_volume_than_a_capacitor():
    def joule_per_cm3(key, size):
        family = FAMILIES[key]
        low, high = family.window_v
        if family.kind == "cell":
            return size * 3.6 * 0.5 * (low + high) / family.volume_cm3(size)
        return 0.5 * size * (high**2 - low**2) / family.volume_cm3(size)

    order = [
        joule_per_cm3("electrolytic", 2.2e-3),
        joule_per_cm3("standard_supercapacitor", 4.7),
        joule_per_cm3("hybrid", 68.0),
        joule_per_cm3("lithium_pouch", 100.0),
    ]
    assert order == sorted(order)
    assert order[-1] > 1000.0 * order[0]


def test_the_library_is_read_once():
    assert parts.store_families() is parts.store_families()
