"""Operations that run until the store gives out: from a file to what is read, beside hand sums and
a reference that steps its own equations."""

import json
from random import Random

import pytest
from click.testing import CliRunner

from explorer.advice.answers import answers
from explorer.advice.assess import assess
from explorer.advice.budget import budget
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.readings.one import study
from explorer.advice.year.answers import month_energies
from explorer.advice.year.view import year_view
from explorer.cli.main import commands
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.scenario.model import Scenario, with_value, with_values
from explorer.words.answer_groups import answer_lines
from explorer.words.year import year_answer
from tests.depth import thorough
from tests.reference import habit
from tests.reference.device import Device


def burst(**changes):
    """A motor that takes 50 mA from 3.3 mF between 4.5 and 2.5 V; 80 ms of it count."""
    scenario = Scenario.model_validate({
        "light": {"illuminance_lx": 1300.0, "pattern": {"kind": "steady"}},
        "panels": {"count": 2},
        "store": {"kind": "capacitor", "capacitance_F": 3.3e-3, "esr_ohm": 0.0, "leakage_A": 3e-6,
                  "rated_V": 6.3},
        "load": {
            "connect_V": 4.5, "disconnect_V": 2.5, "minimum_V": 2.0, "start_up": (),
            "bulk_capacitance_F": 0.0, "sleep_A": 0.0, "retry_delay_s": 0.1,
            "operations": ({
                "name": "burst", "schedule": {"kind": "until_empty", "wanted_per_day": 100.0},
                "phases": ({"current_A": 0.05, "duration_s": 0.08},),
            },),
        },
    })  # fmt: skip
    return Case(with_values(scenario, changes))


def test_a_run_takes_the_charge_between_connect_and_cut_off():
    """6.6 mC at 50 mA last 132 ms; ½·3.3 mF·(4.5² − 2.5²) V² are 23.1 mJ."""
    found = answers(burst())
    assert found["run_length_s"] == pytest.approx(0.132, rel=0.01)
    assert found["run_energy_J"] == pytest.approx(0.0231, rel=0.01)
    assert found["runs_per_hour"] == pytest.approx(3600.0 / found["run_period_s"], rel=0.01)
    assert found["run_duty"] == pytest.approx(0.132 / found["run_period_s"], rel=0.02)
    assert found["operations_per_charge"] == 1.0


def test_the_first_run_is_done_after_the_least_length_wherever_the_connect_falls():
    """A minute after the light comes on a moment is known to 1e-14 s, and so is a length."""
    for least_s in (0.02, 0.03, 0.05, 0.07, 0.08, 0.1, 0.11, 0.13):
        found = answers(burst(**{"load.operations.0.phases.0.duration_s": least_s}))
        done = found["first_charge_s"] + least_s
        assert found["first_operation_s"] == pytest.approx(done, rel=1e-9), least_s
    long = answers(burst(**{"load.operations.0.phases.0.duration_s": 0.14}))
    assert long["first_operation_s"] == float("inf")  # it lasts 0.132 s


@thorough
def test_a_year_of_it_tells_its_runs_as_a_week_does():
    """½·3.3 mF·(4.5² − 2.5²) V² are 23.1 mJ a run, and the year's work is that of all its runs."""
    by_sky = burst(**{"light.pattern": {"kind": "daylight"}})
    found = answers(by_sky)
    assert found["run_length_s"] == pytest.approx(0.132, rel=0.02)
    assert found["run_energy_J"] == pytest.approx(0.0231, rel=0.02)
    assert found["first_operation_s"] == pytest.approx(found["first_charge_s"] + 0.08, rel=1e-6)
    worked_j = month_energies(by_sky).used_j.sum()
    assert found["runs_per_hour"] * 8760.0 * 0.0231 == pytest.approx(worked_j, rel=0.03)
    service = judge(by_sky).checks[-1]
    assert "runs until the store gives out, and as often" in service.sentence
    assert "rests until it has filled again; the tightest" in year_answer(year_view(by_sky))
    never = by_sky.with_value("panels.active_area_cm2", 0.05)
    assert year_answer(year_view(never)) == "The device is off at some hour of every day."


@thorough
def test_in_a_year_too_a_run_that_takes_longer_than_the_store_is_never_done():
    too_long = answers(burst(**{
        "light.pattern": {"kind": "daylight"}, "load.operations.0.phases.0.duration_s": 0.5,
    }))  # fmt: skip
    assert too_long["first_operation_s"] == float("inf")


def test_runs_that_are_too_short_do_not_count():
    assert judge(burst()).state == "runs"
    short = judge(burst(**{"load.operations.0.phases.0.duration_s": 0.2}))
    assert short.checks[-1].margin == 0.0
    assert short.state == "falls_short"


def test_a_night_asks_nothing_of_it_and_more_runs_than_the_light_pays_for_fall_short():
    by_day = burst(**{"light.pattern": {"kind": "week"}, "margins.closure_days": 10.0})
    verdict = judge(by_day)
    assert {c.name: c.state for c in verdict.checks}["dark"] == "runs"
    assert verdict.state == "runs"
    many = judge(burst(**{"load.operations.0.schedule.wanted_per_day": 5000.0}))
    service = many.checks[-1]
    per_day = 24.0 * answers(burst())["runs_per_hour"]
    assert service.state == "falls_short"
    assert service.value == pytest.approx(per_day / 5000.0, rel=0.01)


def test_a_run_that_the_light_carries_through_the_day_lasts_until_the_evening():
    """At 20 µA the store is full from eight to six, again and again; 6.6 mC more last 330 s."""
    changes = {"light.pattern": {"kind": "week"}, "load.operations.0.phases.0.current_A": 2e-5}
    case = burst(**changes)
    run = study(case).course.run
    assert any(leg.repeats is not None for leg in run.legs)
    found, days = answers(case), run.tally.connects
    assert found["run_length_s"] == pytest.approx(run.tally.connected_s / days, rel=1e-6)
    assert found["run_length_s"] > 10 * 3600.0
    assert found["run_period_s"] == pytest.approx(24 * 3600.0)


def test_a_load_that_the_light_carries_never_stops_and_serves_everything():
    """2 µA of work in light that brings some 200 µA."""
    case = burst(**{"load.operations.0.phases.0.current_A": 2e-6})
    found = answers(case)
    assert (found["run_length_s"], found["run_duty"]) == (float("inf"), 1.0)
    assert judge(case).state == "runs"
    lines = {one.key: one.value for one in answer_lines(assess(case))}
    assert lines["run_length_s"] == "no end"


def test_its_energy_stands_in_the_budget_under_its_name():
    items = {item.label: item.joules for item in budget(burst()).items}
    found = answers(burst())
    runs = 168.0 * found["runs_per_hour"]
    assert items["burst"] == pytest.approx(runs * found["run_energy_J"], rel=0.02)


def test_it_is_the_only_operation_and_has_one_phase():
    one = burst().scenario
    with pytest.raises(ValueError, match="must be the only one, found 2"):
        with_value(one, "load.operations", one.load.operations * 2)
    phase = one.load.operations[0].phases[0]
    with pytest.raises(ValueError, match="has one phase, found 2"):
        with_value(one, "load.operations.0.phases", (phase, phase))


# --- beside the reference -----------------------------------------------------------------------


def drawn(number):
    """A device that runs until its store gives out, in a light and with parts that are drawn."""
    lots = Random(number)
    off = lots.uniform(1.5, 3.0)
    connect = off + lots.uniform(0.5, 1.8)
    return burst(**{
        "light.illuminance_lx": lots.uniform(300.0, 3000.0),
        "store.capacitance_F": 10.0 ** lots.uniform(-3.3, -1.5),
        "store.esr_ohm": lots.choice((0.0, 0.5)),
        "load.disconnect_V": off, "load.minimum_V": 0.5 * off, "load.connect_V": connect,
        "load.retry_delay_s": lots.choice((0.1, 5.0)),
        "load.operations.0.phases.0.current_A": 10.0 ** lots.uniform(-2.5, -1.2),
        "load.operations.0.phases.0.duration_s": 0.01,
    }).scenario  # fmt: skip


def right_runs(scenario):
    """Length of a run and time from one to the next, by stepping the equations.

    The reference knows no such operation: to it this is a device that sleeps with the same current.
    """
    load = scenario.load.model_dump()
    load |= {"operations": (), "sleep_A": scenario.load.operations[0].phases[0].current_A}
    device = Device(scenario.model_copy(update={"load": type(scenario.load)(**load)}), None)
    first = habit.first_charge(device, 168.0 * 3600.0, 4000)
    march = first.march
    march.to(march.t + 50_000.0, stop=lambda m: m.totals.cut_offs >= 4)
    on = [t for t, kind in march.events if kind == "connect"]
    off = [t for t, kind in march.events if kind == "cut_off"]
    return off[2] - on[2], on[3] - on[2]


@pytest.mark.parametrize("number", range(6))
def test_runs_of_drawn_designs_are_those_of_the_reference(number, tmp_path):
    place = tmp_path / "burst.json"
    save_scenario(place, drawn(number))
    scenario = load_scenario(place).scenario
    length_s, period_s = right_runs(scenario)
    found = assess(Case(scenario))
    assert found.answers["run_length_s"] == pytest.approx(length_s, rel=5e-3)
    assert found.answers["run_period_s"] == pytest.approx(period_s, rel=5e-3)
    told = json.loads(CliRunner().invoke(commands, ["check", "--json", str(place)]).output)[0]
    assert told["answers"]["runs_per_hour"] == pytest.approx(3600.0 / period_s, rel=0.02)
