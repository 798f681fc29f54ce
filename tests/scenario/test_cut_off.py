"""What cuts a device off is the highest of what it, its regulator and its store need."""

import pytest

from explorer.scenario.build import build
from explorer.scenario.cut_off import cut_off
from explorer.scenario.model import Scenario, with_values
from explorer.scenario.storage import CellStore
from explorer.words.cut_off import cut_off_note

TITANATE = CellStore(chemistry="titanate", capacity_mAh=20.0, cells_in_series=1)


@pytest.mark.parametrize(
    ("changes", "cause", "volts", "said"),
    [
        ({}, "threshold", 2.4, None),
        ({"load.minimum_V": 2.4}, "threshold", 2.4, None),
        ({"load.minimum_V": 2.8}, "device", 2.8, "minimum operating voltage"),
        (
            {"load.regulator.kind": "linear", "load.regulator.dropout_V": 0.25},
            "dropout", 3.25, "output and dropout",
        ),
        (  # 3.1 and 0.2 are a little more than 3.3
            {
                "load.regulator.kind": "linear", "load.regulator.output_V": 3.1,
                "load.regulator.dropout_V": 0.2, "load.disconnect_V": 3.3, "load.connect_V": 3.8,
            },
            "threshold", 3.3, None,
        ),
        (
            {"load.regulator.kind": "switching", "load.regulator.minimum_input_V": 2.7},
            "input", 2.7, "minimum input",
        ),
        (
            {
                "store": TITANATE, "charger.full_V": 2.7, "load.connect_V": 2.3,
                "load.disconnect_V": 1.95, "load.minimum_V": 1.8,
            },
            "store", TITANATE.empty_v, "store",
        ),
    ],
)  # fmt: skip
def test_the_highest_voltage_cuts_off_and_is_named_where_it_is_not_the_threshold(
    changes, cause, volts, said
):
    scenario = with_values(Scenario(), changes)
    assert cut_off(scenario) == (cause, pytest.approx(volts))
    assert build(scenario).load.off_v == pytest.approx(volts)
    note = cut_off_note(scenario)
    assert (note is None) is (said is None)
    if said is not None:
        assert f"{volts:.4g} V" in note
        assert said in note
