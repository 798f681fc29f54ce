import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from explorer.advice.compare import differences, taken_over
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.demand import Operation, Phase, WhenReady
from explorer.scenario.light import SteadyPattern
from explorer.scenario.model import Scenario, get_value, with_value
from explorer.scenario.storage import CellStore
from explorer.scenario.supply import DirectCharger

EXAMPLES = [load_scenario(path).scenario for path in sorted(scenario_folder().glob("*.json"))]


def changed(**values):
    scenario = Scenario()
    for path, value in values.items():
        scenario = with_value(scenario, path.replace("__", "."), value)
    return scenario


def found(a, b):
    return {d.path: (d.old, d.new) for d in differences(a, b)}


def test_a_scenario_does_not_differ_from_itself():
    assert differences(Scenario(), Scenario()) == ()


def test_each_value_that_differs_is_named_with_its_unit():
    a, b = Scenario(), changed(panels__count=3, load__connect_V=4.0)
    rows = differences(a, b)
    assert [(d.label, d.unit, d.old, d.new) for d in rows] == [
        ("Panels", "", 1, 3),
        ("Connect voltage", "V", 3.6, 4.0),
    ]


def test_parts_of_lists_are_told_apart():
    two = Operation(phases=(Phase(current_A=0.02), Phase(current_A=0.005, duration_s=0.1)))
    a = with_value(Scenario(), "load.operations", (two,))
    b = with_value(a, "load.operations.0.phases.1.duration_s", 0.2)
    (row,) = differences(a, b)
    assert row.path == "load.operations.0.phases.1.duration_s"
    assert row.label == "Measure and send, phase 2: Duration"


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("store", CellStore()),
        ("charger", DirectCharger()),
        ("light.pattern", SteadyPattern()),
        ("load.operations.0.schedule", WhenReady()),
        ("load.operations", (Operation(), Operation(name="open the valve"))),
        ("load.start_up", ()),
    ],
)
def test_another_kind_or_length_is_one_difference(path, value):
    a = Scenario()
    b = with_value(a, path, value)
    assert found(a, b) == {path: (get_value(a, path), value)}


def test_a_draw_given_in_another_way_is_one_difference():
    a = Scenario()
    b = with_value(a, "load.operations.0.phases.0", Phase(power_W=0.06, duration_s=0.05))
    assert list(found(a, b)) == ["load.operations.0.phases.0"]


def test_a_value_taken_over_is_the_only_thing_that_changes():
    a, b = Scenario(), changed(store__capacitance_F=3.3, panels__count=4)
    rows = {d.path: d for d in differences(a, b)}
    assert {"store.esr_ohm", "store.leakage_A"} < set(rows)  # they follow a size that is edited
    result = taken_over(a, [rows["store.capacitance_F"]])
    assert list(found(a, result)) == ["store.capacitance_F"]
    assert found(result, b).keys() == rows.keys() - {"store.capacitance_F"}


def test_a_value_that_does_not_go_alone_is_refused_and_goes_with_its_fellow():
    a, b = Scenario(), changed(load__disconnect_V=2.0, load__connect_V=2.2)
    rows = {d.path: d for d in differences(a, b)}
    with pytest.raises(ValidationError):
        taken_over(a, [rows["load.connect_V"]])
    assert taken_over(a, rows.values()) == b


@given(st.sampled_from(EXAMPLES), st.sampled_from(EXAMPLES))
def test_taking_everything_over_makes_them_equal(a, b):
    # Names in another language are no values of a design, and stay.
    assert taken_over(a, differences(a, b)) == b.model_copy(update={"names_de": a.names_de})


@given(st.sampled_from(EXAMPLES), st.sampled_from(EXAMPLES))
def test_seen_from_the_other_side_old_and_new_trade_places(a, b):
    there = found(a, b)
    back = found(b, a)
    assert there == {path: (new, old) for path, (old, new) in back.items()}


@given(st.sampled_from(EXAMPLES), st.sampled_from(EXAMPLES))
def test_no_difference_lies_within_another(a, b):
    paths = [d.path for d in differences(a, b)]
    assert len(set(paths)) == len(paths)
    assert not [p for p in paths for q in paths if p.startswith(f"{q}.")]
