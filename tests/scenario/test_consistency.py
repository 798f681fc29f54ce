"""A design that contradicts itself is refused with a sentence; a bad one is judged."""

import warnings
from pathlib import Path

import numpy as np
import pytest
from pydantic import ValidationError

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.files.scenario_json import ScenarioError, load_scenario
from explorer.physics.store import bank_charge, highest_lawful_share
from explorer.scenario.build import build
from explorer.scenario.course import light_course
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore

CASES = Path(__file__).parents[1] / "cases"


def refused(**sections):
    with pytest.raises(ValidationError) as fault:
        Scenario.model_validate(sections)
    return str(fault.value)


@pytest.mark.parametrize(
    ("case", "names"),
    [
        # Two lithium-ion cells are empty at 6 V; the charger stops at 5 V.
        ("two_cells_full_at_5V", ("charger.full_V (5 V)", "6 V", "store.cells_in_series: 2")),
        # Two units of 2.75 V; the measured law of capacitance is taken to 2.48 times their rating.
        ("full_threshold_out_of_reach", ("charger.full_V (26.56 V)", "13.66 V", "rated 5.5 V")),
    ],
)
def test_a_contradiction_is_told_by_its_keys_with_what_is_allowed(case, names):
    with pytest.raises(ScenarioError) as fault:
        load_scenario(CASES / f"{case}.json")
    for part in names:
        assert part in str(fault.value)


@pytest.mark.parametrize(
    "case", ["cell_with_default_load", "sheet_divides_by_zero", "cell_on_a_diode",
             "unbalanced_pair"],
)  # fmt: skip
def test_what_is_merely_bad_is_judged(case):
    scenario = load_scenario(CASES / f"{case}.json").scenario
    assert assess(Case(scenario)).verdict.state == "falls_short"


def test_cells_need_room_for_the_hysteresis_above_their_empty_end():
    assert "charging resumes only when it is empty" in refused(
        store={"kind": "cell"},
        charger={"kind": "converter", "full_V": 3.1, "full_hysteresis_V": 0.2},
        load={"connect_V": 3.05},
    )
    Scenario(
        store={"kind": "cell"},
        charger={"kind": "converter", "full_V": 3.1, "full_hysteresis_V": 0.05},
        load={"connect_V": 3.05},
    )


def test_a_hybrid_needs_it_too():
    store = {"kind": "supercapacitor", "units_in_series": 1, "rated_V": 3.8, "lowest_V": 3.0}
    text = refused(
        store=store, charger={"kind": "converter", "full_V": 3.5, "full_hysteresis_V": 0.6},
        load={"connect_V": 3.2},
    )  # fmt: skip
    assert "(0.6 V) must be less than the 0.5 V" in text


@pytest.mark.parametrize("bend", [0.0, 0.05, 0.33, 0.6])
@pytest.mark.parametrize("slope", [0.0, 0.29, 0.6])
def test_as_far_as_the_law_is_taken_charge_rises_with_voltage(slope, bend):
    """Also a tenth and two hundredths above the highest threshold that is taken."""
    reach = min(float(highest_lawful_share(slope, bend)), 20.0)
    assert reach > 1.6  # a threshold half as high again as the rating is judged, not refused
    store = SupercapacitorStore(capacitance_slope=slope, capacitance_bend=bend)
    bank = store.built(22.0, 5.0)
    volts = np.linspace(0.0, 1.1 * 1.02 * reach * bank.rated_v, 2000)
    assert (np.diff(bank_charge(bank, volts)) > 0.0).all()


def test_a_bank_cannot_begin_where_its_law_has_ended():
    store = {"kind": "supercapacitor", "units_in_series": 1, "initial_V": 10.0}
    assert "store.initial_V (10 V)" in refused(store=store)
    # Six volts on two units of 2.7 V are too much, but they are a course.
    begun = Scenario(store=SupercapacitorStore(initial_V=6.0))
    assert any(h.key == "over_voltage" for h in assess(Case(begun)).verdict.hazards)


@pytest.mark.parametrize("hour", [5e-324, 1e-9, 2e-4])
def test_hours_of_less_than_a_second_are_refused(hour):
    block = {"from_h": 0.0, "to_h": hour}
    assert "must last a second or more" in refused(
        light={"pattern": {"kind": "week", "blocks": [block]}}
    )
    every = {"kind": "every", "from_h": 0.0, "to_h": hour}
    assert "must last a second or more" in refused(
        load={"operations": [{"schedule": every}]}
    )


def test_hours_that_all_but_meet_do_meet():
    """A block ends where the next begins but for the last digit: no stretch lies between."""
    begin = float(np.nextafter(12.0, 13.0))
    blocks = ({"from_h": 8.0, "to_h": 12.0}, {"from_h": begin, "to_h": 16.0, "relative_level": 2})
    scenario = Scenario(light={"pattern": {"kind": "week", "blocks": blocks}})
    course = light_course(scenario.light, scenario.panels, None)
    assert np.diff(course.edges_s).min() == 4 * 3600.0


def test_the_sheet_of_a_store_that_stays_empty_is_written(tmp_path):
    from explorer.cli.report import write_report

    with warnings.catch_warnings():
        warnings.simplefilter("error")
        word = write_report(CASES / "sheet_divides_by_zero.json", tmp_path / "sheet.html")
    assert word == "Falls short"
    assert "<svg" in (tmp_path / "sheet.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "store", [SupercapacitorStore(), CapacitorStore(rated_V=6.3), CellStore(capacity_mAh=10.0)]
)
def test_a_store_ages_at_the_voltage_at_which_its_charger_holds_it(store):
    """Of a supercapacitor, one held lower loses less; the others do not ask."""
    charger = {"kind": "converter", "full_V": 4.1}
    load = {"connect_V": 3.6, "disconnect_V": 3.2, "minimum_V": 3.0}
    aged = store.model_copy(update={"years_in_service": 5.0})
    low = build(Scenario(store=aged, charger=charger, load=load)).store
    high = build(with_value(Scenario(store=aged, charger=charger, load=load),
                            "charger.full_V", 5.3)).store  # fmt: skip
    size = "capacity_c" if isinstance(store, CellStore) else "capacitance_f"
    if isinstance(store, SupercapacitorStore):
        assert float(getattr(low, size)) > 1.02 * float(getattr(high, size))
    else:
        assert float(getattr(low, size)) == pytest.approx(float(getattr(high, size)))


def sheet(*lines):
    keys = ("illuminance_lx", "short_circuit_A", "open_circuit_V", "max_power_A", "max_power_V")
    return [dict(zip(keys, line, strict=True)) for line in lines]


@pytest.mark.parametrize(
    ("volts", "cells", "each"),
    # One cell of 75 V; 144 cells of a third of a millivolt; no junction does either.
    [(75.0, 1, "75 V"), (0.05, 144, "0.0003472 V")],
)
def test_a_sheet_voltage_that_no_cell_has_is_refused_with_the_number_of_cells(volts, cells, each):
    lines = sheet((200.0, 2e-5, volts, 1.6e-5, 0.75 * volts))
    text = refused(panels={"cells_in_series": cells, "data_sheet": lines})
    assert f"makes {each} for each of the panels.cells_in_series ({cells})" in text


def test_a_sheet_of_a_larger_panel_stands_with_the_number_of_cells_left_as_it_was():
    """22 V on the usual eight cells: the sheet sets the curve, not the cells."""
    lines = sheet((1000.0, 2e-4, 22.0, 1.6e-4, 17.0))
    scenario = Scenario(panels={"data_sheet": lines})
    assert assess(Case(scenario)).verdict.state in ("runs", "marginal", "falls_short")


def test_points_that_lie_on_no_panels_curve_are_refused_with_the_worst_of_them():
    """Each line alone is a panel's, but the voltage rises thirtyfold with twice the light."""
    lines = sheet((100.0, 1e-5, 0.3, 8e-6, 0.2), (200.0, 2e-5, 9.0, 1.6e-5, 7.0))
    with pytest.raises(ValueError, match=r"point \d: no panel has these points; .* misses \w+ by"):
        build(Scenario(panels={"data_sheet": lines}))
