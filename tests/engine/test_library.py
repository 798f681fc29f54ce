"""Tables that designs share: what an edit builds anew, and how much is kept."""

from collections import Counter

import pytest

from explorer.engine.library import Library, frozen
from explorer.engine.march import Engine
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.build import build
from explorer.scenario.model import with_value

WEEK_S = 604_800.0
LIGHT = {"working point", "supply"}
LIGHT_KNOB = ("light.illuminance_lx", 1.2)
LOAD_KNOB = ("load.operations.0.phases.0.current_A", 1.2)


def scenario_of(name):
    return load_scenario(scenario_folder() / f"{name}.json").scenario


@pytest.fixture
def bench():
    """Marches a week with one library and tells which tables that built."""

    class Bench:
        def __init__(self):
            self.library = Library()

        def built(self, scenario):
            before = Counter(self.library.made)
            Engine(build(scenario), library=self.library).march(WEEK_S)
            return self.library.made - before

    return Bench()


def edited(scenario, path, factor):
    value = scenario
    for key in path.split("."):
        value = value[int(key)] if key.isdigit() else getattr(value, key)
    return with_value(scenario, path, type(value)(value * factor))


@pytest.mark.parametrize("name", ["soil_probe", "watering_valve", "plant_label"])
def test_light_knob_keeps_the_store_and_all_that_is_dark(bench, name):
    scenario = scenario_of(name)
    whole = bench.built(scenario)
    moved = bench.built(edited(scenario, *LIGHT_KNOB))
    assert moved["grid"] == moved["voltages"] == 0
    assert moved["working point"] == 1  # the day's alone
    assert moved["currents"] <= whole["currents"] // 2 + 1
    assert moved["cycle"] <= whole["cycle"] // 2 + 1


@pytest.mark.parametrize("name", ["soil_probe", "watering_valve", "plant_label"])
def test_load_knob_keeps_the_store_the_light_and_the_charger(bench, name):
    scenario = scenario_of(name)
    whole = bench.built(scenario)
    moved = bench.built(edited(scenario, *LOAD_KNOB))
    assert not moved.keys() & {"grid", "voltages", *LIGHT}
    assert moved["currents"] < whole["currents"] / 2
    assert moved["motion"] < whole["motion"]


@pytest.mark.parametrize("name", ["soil_probe", "watering_valve", "vent_flap"])
def test_store_knob_keeps_the_panel_and_its_charger(bench, name):
    scenario = scenario_of(name)
    bench.built(scenario)
    moved = bench.built(edited(scenario, "store.capacitance_F", 1.2))
    assert moved["grid"] == 1
    assert moved["working point"] == moved["voltages"] == 0


def test_store_of_the_same_resistance_keeps_every_current(bench):
    scenario = scenario_of("soil_probe")
    bench.built(with_value(scenario, "store.esr_ohm", 0.5))
    larger = edited(scenario, "store.capacitance_F", 1.2)  # its resistance follows
    moved = bench.built(with_value(larger, "store.esr_ohm", 0.5))
    assert not moved.keys() & {"currents", "supply", "working point", "voltages"}
    assert moved["motion"] > 0


@pytest.mark.parametrize("name", ["soil_probe", "seminar_room_co2"])
def test_what_was_looked_at_before_is_found_again(bench, name):
    path = scenario_folder() / f"{name}.json"
    scenario = load_scenario(path).scenario
    log = resolve_log(scenario, path)

    def built(one):
        before = Counter(bench.library.made)
        Engine(build(one, log), library=bench.library).march(WEEK_S)
        return bench.library.made - before

    first = built(scenario)
    other = built(with_value(scenario, "charger.full_V", scenario.charger.full_V - 0.02))
    assert first
    assert other
    assert not built(scenario)


def test_a_log_in_other_light_finds_most_of_its_levels(bench):
    path = scenario_folder() / "seminar_room_co2.json"
    scenario = load_scenario(path).scenario
    log = resolve_log(scenario, path)
    built = []
    for lux in (400.0, 500.0, 625.0, 800.0):
        before = Counter(bench.library.made)
        design = with_value(scenario, "light.illuminance_lx", lux)
        Engine(build(design, log), library=bench.library).march(WEEK_S)
        built.append(bench.library.made - before)
    for kind in ("working point", "currents", "cycle"):
        assert built[0][kind] > 15
        assert all(later[kind] < built[0][kind] / 2 for later in built[1:])


@pytest.mark.parametrize("name", ["soil_probe", "watering_valve", "vent_flap"])
def test_a_march_along_shared_tables_is_the_same_to_the_last_digit(name):
    scenario, shared = scenario_of(name), Library()
    for factor in (1.5, 1.1):
        for path in ("light.illuminance_lx", "store.capacitance_F"):
            Engine(build(edited(scenario, path, factor)), library=shared).march(WEEK_S)
    one = Engine(build(scenario), library=shared).march(WEEK_S)
    alone = Engine(build(scenario)).march(WEEK_S)
    assert [leg[:4] for leg in one.legs] == [leg[:4] for leg in alone.legs]
    assert one.tally == alone.tally


def test_memory_stays_within_its_room_in_a_long_series_of_edits():
    scenario, library = scenario_of("soil_probe"), Library(room=3_000_000)
    most = 0
    for lux in range(200, 240):
        design = with_value(scenario, "light.illuminance_lx", float(lux))
        Engine(build(design), library=library).march(WEEK_S)
        most = max(most, library.held)
    assert 1_500_000 < library.held <= most <= library.room
    assert library.held == sum(size for _, size in library._found.values())
    assert library.made["currents"] > len(library)


def test_what_was_asked_for_lately_stays():
    library = Library(room=100)
    for name in "abc":
        library.get("letter", name, lambda name=name: name, 40)
        library.get("letter", "a", lambda: "again", 40)
    assert library.get("letter", "a", lambda: "anew", 40) == "a"
    assert library.get("letter", "b", lambda: "anew", 40) == "anew"


def test_a_key_is_equal_where_all_of_a_value_is_equal():
    one, other = (build(scenario_of("soil_probe")) for _ in range(2))
    assert frozen(one) == frozen(other)
    assert hash(frozen(one)) == hash(frozen(other))
    brighter = build(edited(scenario_of("soil_probe"), *LIGHT_KNOB))
    assert frozen(one.light) != frozen(brighter.light)
    assert frozen(one.store) == frozen(brighter.store)
