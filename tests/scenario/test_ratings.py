"""Ratings: what the worst unit, cell and charger meet, for one design and for many at once."""

import numpy as np
import pytest

from explorer.advice.case import varied
from explorer.scenario.build import build
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.ratings import ratings
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import ConverterCharger, DirectCharger, Panels


def rated(scenario, log=None):
    return {row.key: row for row in ratings(scenario, build(scenario, log))}


def bank(full_v=5.0, **changed):
    store = SupercapacitorStore(**({"units_in_series": 2, "rated_V": 2.7} | changed))
    return Scenario(store=store, charger=ConverterCharger(full_V=full_v))


def cell(charger=None, **changed):
    return Scenario(
        store=CellStore(**changed),
        charger=charger or ConverterCharger(full_V=4.1),
        panels=Panels(active_area_cm2=100.0, count=2),
        load={"connect_V": 3.6, "disconnect_V": 3.2, "minimum_V": 3.0},
    )


# -- volts on the worst unit ----------------------------------------------------------------------


def test_unbalanced_units_divide_by_capacitance_then_by_leakage():
    """±20 % of capacitance: 5 x 1.2 / 2 = 3.0 V; ±50 % of leakage: 5 x 1.5 / 2 = 3.75 V."""
    rows = rated(bank(balancing="none", tolerance=0.2))
    assert float(rows["charging_voltage"].seen) == pytest.approx(3.0)
    assert float(rows["standing_voltage"].seen) == pytest.approx(3.75)
    assert float(rows["standing_voltage"].margin) == pytest.approx(2.7 / 3.75)


def test_resistors_do_nothing_for_a_quick_charge():
    resistors = rated(bank(balancing="resistors", leakage_A=1e-6, balancing_A=1e-4))
    assert float(resistors["charging_voltage"].seen) == pytest.approx(3.0)
    assert float(resistors["standing_voltage"].seen) == pytest.approx(2.5, abs=0.02)


def test_a_bank_in_its_first_days_stands_less_evenly_on_its_resistors():
    """Fresh units leak more, so the same resistors hold a smaller part of the current."""
    given = {"balancing": "resistors", "leakage_A": 1e-6, "balancing_A": 1e-6}
    settled, fresh = (
        rated(bank(condition=c, **given))["standing_voltage"] for c in ("settled", "first_days")
    )
    assert float(fresh.seen) > float(settled.seen) + 0.1


@pytest.mark.parametrize(
    ("store", "volts"),
    [
        (SupercapacitorStore(balancing="active", rated_V=2.7), 2.5),
        (CapacitorStore(units_in_series=1, rated_V=6.3), 5.0),
        (CapacitorStore(units_in_series=2, rated_V=6.3), 3.75),
        (CellStore(cells_in_series=1), 5.0),
        (CellStore(cells_in_series=2), 2.5),
    ],
)
def test_one_unit_takes_all_and_balanced_ones_their_share(store, volts):
    scenario = Scenario().model_copy(update={"store": store})
    rows = rated(scenario)
    worst = max(float(row.seen) for key, row in rows.items() if key.endswith("_voltage"))
    assert worst == pytest.approx(volts)


def test_a_bank_that_begins_above_full_counts_from_there():
    rows = rated(bank(balancing="active", initial_V=6.0))
    assert float(rows["standing_voltage"].seen) == pytest.approx(3.0)


# -- currents of a cell ---------------------------------------------------------------------------


def test_full_sun_through_a_diode_counts_with_the_suns_own_spectrum():
    """Some 200 cm² at 100 000 lx: eight cells of 12.5 cm² each, two in parallel.

    The open sky carries some 105 lm/W (from memory), so 950 W/m²; an amorphous cell makes some
    100 A/m² of it (one sun, from memory), which is 0.25 A on 25 cm². The best module on sale
    keeps nearly all of it, the usual one some 0.7.
    """
    rows = rated(cell(DirectCharger(full_V=4.1), charge_limit_A=0.02))
    assert float(rows["charging_current"].seen) == pytest.approx(0.25, rel=0.25)
    assert float(rows["charging_current"].margin) < 0.1


def test_the_sun_does_not_ask_for_lamps_or_dirt():
    dim = cell(DirectCharger(full_V=4.1))
    moves = {
        "light.soiling_factor": 0.1, "light.source": "led_2700",
        "light.orientation_factor": 0.2, "light.daylight_share": 1.0,
    }  # fmt: skip
    for path, value in moves.items():
        moved = with_value(dim, path, value)
        assert rated(moved)["charging_current"].seen == rated(dim)["charging_current"].seen


def test_a_converter_passes_its_output_limit_whatever_the_cell_allows():
    rows = rated(cell(ConverterCharger(full_V=4.1, output_limit_A=0.1), charge_limit_A=0.02))
    assert float(rows["charging_current"].seen) == pytest.approx(0.1)
    kept = rated(cell(ConverterCharger(full_V=4.1, output_limit_A=0.02), charge_limit_A=0.02))
    assert float(kept["charging_current"].margin) == pytest.approx(1.0)


def test_a_cool_cell_takes_a_fifth_of_the_current():
    cool = with_value(cell(charge_limit_A=0.02), "light.ambient_C", 5.0)
    assert float(rated(cool)["charging_current"].rated) == pytest.approx(0.004)


@pytest.mark.parametrize(
    ("load", "amps"),
    [
        # Power is drawn with the most current at the cut-off voltage, 3.2 V ...
        ({"operations": ({"phases": ({"power_W": 0.32},)},)}, 0.1),
        # ... through a resistance with the most at full, 4.1 V ...
        ({"operations": ({"phases": ({"resistance_ohm": 41.0},)},)}, 0.1),
        # ... and a start-up counts as every other draw.
        ({"operations": (), "start_up": ({"current_A": 0.1, "duration_s": 1.0},)}, 0.1),
    ],
)
def test_the_largest_draw_is_found_at_the_voltage_at_which_it_is_largest(load, amps):
    scenario = cell()
    for key, value in ({"sleep_A": 0.0, "start_up": ()} | load).items():
        scenario = with_value(scenario, f"load.{key}", value)
    scenario = with_value(scenario, "charger.quiescent_A", 0.0)
    assert float(rated(scenario)["discharging_current"].seen) == pytest.approx(amps)


# -- temperatures ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ambient", "cold", "hot"), [(0.0, False, True), (20.0, True, True), (46.0, True, False)]
)
def test_a_cell_has_a_window_of_temperature(ambient, cold, hot):
    rows = rated(with_value(cell(), "light.ambient_C", ambient))
    assert (float(rows["too_cold"].margin) >= 1.0) is cold
    assert (float(rows["too_hot"].margin) >= 1.0) is hot


def test_a_bank_may_be_as_warm_as_it_is_rated():
    for ambient, kept in ((65.0, True), (65.1, False)):
        rows = rated(with_value(bank(), "light.ambient_C", ambient))
        assert (float(rows["too_hot"].margin) >= 1.0) is kept
        assert "too_cold" not in rows


# -- many at once ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("scenario", "path", "values"),
    [
        (bank(balancing="none"), "store.tolerance", (0.05, 0.2, 0.4)),
        (bank(balancing="resistors"), "store.leakage_A", (1e-7, 1e-6, 1e-5)),
        (bank(), "light.ambient_C", (20.0, 64.0, 66.0)),
        (cell(DirectCharger(full_V=4.1)), "panels.active_area_cm2", (1.0, 20.0, 300.0)),
        (cell(), "charger.full_V", (3.7, 4.1, 4.3)),
        (cell(), "store.cells_in_series", (1, 1, 1)),
        (cell(), "store.capacity_mAh", (5.0, 40.0, 400.0)),
        (cell(), "light.ambient_C", (-5.0, 5.0, 30.0)),
        (cell(), "load.disconnect_V", (3.1, 3.3, 3.5)),
    ],
)  # fmt: skip
def test_a_batch_is_rated_as_its_designs_are_one_by_one(scenario, path, values):
    many = varied(scenario, {path: np.array(values, float)})
    together = ratings(many, build(many))
    for i, value in enumerate(values):
        alone = rated(with_value(scenario, path, value))
        for row in together:
            for part in ("seen", "rated", "margin"):
                column = np.broadcast_to(getattr(row, part), (len(values), 1))
                assert column[i, 0] == pytest.approx(float(getattr(alone[row.key], part)), rel=1e-9)
