"""What has no effect with the choices made changes nothing that is computed."""

import pytest

from explorer.scenario.build import build
from explorer.scenario.demand import Regulator
from explorer.scenario.fields import describe
from explorer.scenario.idle import idle_keys
from explorer.scenario.model import Scenario, get_value, with_value
from explorer.scenario.storage import SupercapacitorStore
from explorer.scenario.supply import ConverterCharger, EfficiencyPoint

ROWS = (
    EfficiencyPoint(input_W=1e-5, efficiency=0.6), EfficiencyPoint(input_W=1e-3, efficiency=0.9),
)  # fmt: skip
CHOICES = (
    ("load.regulator", Regulator(kind="none")),
    ("load.regulator", Regulator(kind="linear")),
    ("load.regulator", Regulator(kind="switching")),
    ("charger", ConverterCharger(tracking="maximum_power")),
    ("charger", ConverterCharger(tracking="fraction")),
    ("charger", ConverterCharger(efficiency_table=ROWS)),
    ("store", SupercapacitorStore()),
    ("store", SupercapacitorStore(condition="first_days", balancing="none")),
    ("store", SupercapacitorStore(units_in_series=1, rated_V=5.5, balancing="resistors")),
)
JUDGED = {
    "rated_V", "tolerance", "rated_life_h", "rated_C", "end_of_life_loss", "end_of_life_esr_rise",
    "life_per_tenth_volt", "cold_esr_factor", "years_in_service",
}
"""Read by checks, by the spread, in the cold or with age, not by a new store in a room."""


def computed(scenario):
    """Everything that engine and checks read: the system, and the voltage on the worst unit."""
    return repr(build(scenario)), repr(scenario.store.unit_voltage(4.0))


def other_values(owner, key, value):
    if isinstance(value, tuple):
        return [ROWS[:1]] if value == ROWS else [ROWS]
    if isinstance(value, str):
        options = owner.model_fields[key].annotation.__args__
        return [word for word in options if word != value]
    field = describe(owner, key)
    tries = (3 * value, 1.1 * value, 0.5 * value, value + 0.01)
    return [type(value)(one) for one in tries if field.low <= one <= field.high and one != value]


def changes(path, section, key):
    scenario = with_value(Scenario(), path, section)
    where, found = f"{path}.{key}", []
    for value in other_values(type(section), key, get_value(scenario, where)):
        try:
            found.append(computed(with_value(scenario, where, value)) != computed(scenario))
        except ValueError:  # not allowed beside the other values
            continue
    assert found, key
    return any(found)


@pytest.mark.parametrize(("path", "section"), CHOICES)
def test_what_is_left_out_changes_nothing_and_what_is_shown_does(path, section):
    idle = idle_keys(section)
    for key in type(section).model_fields:
        if key in idle:
            assert not changes(path, section, key), (
                f"{path}.{key} has an effect although scenario/idle.py says that it has none"
            )
        elif key not in JUDGED and key not in ("kind", "units_in_series", "part"):
            assert changes(path, section, key), (
                f"{path}.{key} has no effect: use it where its section is built "
                "(scenario/build.py, or `built` of a store), or name it in scenario/idle.py"
            )
