"""A board's output and indicator, and the light of other places: from a file to what is read."""

import json
from math import inf, sqrt
from random import Random

import numpy as np
import pytest
from click.testing import CliRunner

from explorer.advice.answers import answers
from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.elsewhere import elsewhere
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.readings.indicator import indicator_level
from explorer.advice.readings.required import in_steady_light
from explorer.cli.main import commands
from explorer.files.report_tables import elsewhere_blocks
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.scenario.model import Scenario, with_values
from explorer.widgets.places_table import PlacesTable
from tests.reference import habit
from tests.reference.circuit import ConverterSource
from tests.reference.device import Device


def sensor(**changes):
    """1 mF up to 5 V without losses; a device that draws 20 mA at most."""
    scenario = Scenario.model_validate({
        "light": {"illuminance_lx": 500.0},
        "store": {"kind": "capacitor", "capacitance_F": 1e-3, "esr_ohm": 0.0, "leakage_A": 0.0},
        "load": {"sleep_A": 1e-6, "bulk_capacitance_F": 0.0, "start_up": ()},
    })  # fmt: skip
    return Case(with_values(scenario, changes))


def test_a_load_output_is_rated_for_what_the_load_draws():
    fine = judge(sensor(**{"load.output_limit_A": 0.05})).checks[4]
    low = judge(sensor(**{"load.output_limit_A": 0.01})).checks[4]
    assert (fine.state, low.state) == ("runs", "falls_short")
    assert low.margin == pytest.approx(0.01 / 0.020001, rel=1e-6)
    assert low.sentence == "Through the load output flow up to 20 mA; it carries 10 mA."
    several = fleet(sensor(**{"load.output_limit_A": 0.05}),
                    {"load.output_limit_A": np.array([0.01, 0.05])})  # fmt: skip
    assert (several.margins["ratings"] < 1.0).tolist() == [True, False]


def test_the_limit_of_the_charger_is_none_of_the_load():
    weak = judge(sensor(**{"charger.output_limit_A": 1e-3}))
    assert weak.checks[4].state == "runs"


def test_an_indicator_at_a_share_of_the_energy_stands_at_the_root_of_it():
    case = sensor(**{"load.indicator_share": 0.8})
    assert indicator_level(case) == pytest.approx(5.0 * sqrt(0.8), abs=1e-3)
    found = assess(case)
    (level,) = [t for t in found.thresholds if t.label == "indicator"]
    assert level.volts == pytest.approx(4.47, abs=0.005)
    assert found.answers["indicated_s"] < found.answers["full_charge_s"]


def test_what_must_be_filled_in_time_is_filled_at_the_indicator():
    """A constant power fills a capacitor to 3.5 V in 0.49 of the time that 5 V take."""
    asked = {"margins.fill_within_h": 1.0, "margins.fill_light_lx": 1000.0,
             "charger.cold_start_below_V": 0.0}  # fmt: skip
    whole = answers(sensor(**asked))["filled_s"]
    part = answers(sensor(**asked, **{"load.indicator_V": 3.5}))["filled_s"]
    assert part == pytest.approx(0.49 * whole, rel=0.02)
    assert "indicated_s" not in answers(sensor(**asked))


def drawn(number):
    lots = Random(number)
    return sensor(**{
        "store.capacitance_F": 10.0 ** lots.uniform(-3.5, -2.0),
        "store.leakage_A": lots.choice((0.0, 2e-6)),
        "load.indicator_V": lots.uniform(3.7, 4.8),
        "light.elsewhere": (
            {"name": "On the sill", "illuminance_lx": lots.uniform(800.0, 4000.0)},
            {"name": "Stairs", "illuminance_lx": lots.uniform(150.0, 400.0),
             "source": "led_4000"},
        ),
    }).scenario  # fmt: skip


@pytest.mark.parametrize("number", range(4))
def test_places_and_indicators_of_drawn_designs_are_those_of_the_reference(
    number, tmp_path, qtbot
):
    """Time to the indicator, to ready and to full by a reference that steps the equations."""
    place = tmp_path / "board.json"
    save_scenario(place, drawn(number))
    scenario = load_scenario(place).scenario
    case = Case(scenario)
    to_level = Device(scenario, None)
    to_level.full_v = scenario.load.indicator_V
    assert answers(case)["indicated_s"] == pytest.approx(
        habit.full_charge_s(to_level, 4000), rel=0.01
    )
    found = elsewhere(case)
    for one, other in zip(found, scenario.light.elsewhere, strict=True):
        steady = in_steady_light(scenario, other.illuminance_lx)
        light = steady.light.model_copy(update={"source": other.source, "daylight_share": 0.0})
        device = Device(steady.model_copy(update={"light": light}), None)
        assert one.full_s == pytest.approx(habit.full_charge_s(device, 4000), rel=0.01)
        first = habit.first_charge(device, 168.0 * 3600.0, 4000)
        assert one.ready_s == pytest.approx(first.started_s, rel=0.01)
    table = PlacesTable()
    qtbot.addWidget(table)
    table.set_places(found)
    assert [row[0] for row in table.rows] == ["Place", "On the sill", "Stairs"]
    told = json.loads(CliRunner().invoke(commands, ["check", "--json", str(place)]).output)[0]
    assert [row["full_charge_s"] for row in told["elsewhere"]] == [one.full_s for one in found]
    (_, sheet) = elsewhere_blocks(assess(case))
    assert [row.cells[0] for row in sheet.rows] == ["On the sill", "Stairs"]


def test_the_rate_that_a_light_pays_for_is_its_current_over_the_charge_of_a_run():
    """Without sleep and losses: what flows in at the best store voltage, over 1 mC a run."""
    case = sensor(**{
        "load.sleep_A": 0.0, "charger.quiescent_A": 0.0,
        "light.elsewhere": ({"name": "On the sill", "illuminance_lx": 1000.0},),
    })  # fmt: skip
    (one,) = elsewhere(case)
    light = {"light.illuminance_lx": 1000.0, "light.pattern": {"kind": "steady"},
             "light.source": "daylight_glass"}  # fmt: skip
    source = Device(with_values(case.scenario, light), None)
    brings = ConverterSource(source, source.steps[0][2])
    best = max(brings.current(v, inf, False) for v in np.linspace(2.4, 5.0, 53))
    assert one.per_hour == pytest.approx(3600.0 * best / 1e-3, rel=0.02)
