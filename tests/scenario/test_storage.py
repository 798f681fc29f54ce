"""A store is asked: every kind has an answer to the same questions."""

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.scenario.model import Scenario, size_path, with_value
from explorer.scenario.storage import SIZE_PATHS, CapacitorStore, CellStore, SupercapacitorStore

KINDS = (CapacitorStore(), SupercapacitorStore(), CellStore())
each = pytest.mark.parametrize("store", KINDS, ids=[store.kind for store in KINDS])


@each
def test_keys_name_fields_of_the_section(store):
    fields = type(store).model_fields
    assert {store.size_key, store.resistance_key, store.leakage_key} <= set(fields)
    assert {key for key, _ in store.spread} <= set(fields)
    assert store.size == getattr(store, store.size_key)
    assert f"store.{store.size_key}" in SIZE_PATHS


@each
def test_what_follows_the_size_is_what_a_change_of_size_moves(store):
    """And nothing else changes along a maker's range."""
    scenario = Scenario(store=store, charger={"kind": "converter", "full_V": 4.1})
    grown = with_value(scenario, size_path(scenario), 1.1 * store.size).store
    changed = {
        key for key in type(store).model_fields if getattr(grown, key) != getattr(store, key)
    }
    assert changed - {store.size_key} <= set(store.resized(1.1 * store.size))
    assert set(store.followers) <= set(store.resized(1.1 * store.size))


@each
def test_the_physical_store_begins_and_ends_where_its_section_says(store):
    built = store.built(22.0, 4.1)
    assert float(np.asarray(built.empty_v)) == pytest.approx(store.empty_v)
    assert float(np.asarray(built.charge_at(store.empty_v))) == pytest.approx(0.0, abs=1e-12)
    assert built.most_charge_a == store.most_charge_A


def test_a_batch_takes_any_number_of_cells_in_series():
    scenario = Scenario(
        store=CellStore(), charger={"kind": "converter", "full_V": 9.0},
        load={"connect_V": 7.5, "disconnect_V": 6.5},
    )  # fmt: skip
    cells = np.array([1, 2, 2])
    margins = fleet(Case(scenario), {"store.cells_in_series": cells}).margins["ratings"]
    assert margins[0] == pytest.approx(4.2 / 9.0, rel=1e-6)  # 9 V on one cell of 4.2 V
    assert margins[1] == margins[2] > 1.9 * margins[0]
