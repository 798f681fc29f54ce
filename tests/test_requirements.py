"""Amounts that are asked of a design: from a file to what is read, beside hand sums and a
reference that steps its own equations."""

import json
from contextlib import suppress
from dataclasses import replace
from math import inf, isinf

import numpy as np
import pytest
from click.testing import CliRunner

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.reach import reach
from explorer.advice.readings.required import in_steady_light, required
from explorer.advice.required_sentences import required_sentence
from explorer.cli.main import commands
from explorer.files.report_tables import required_blocks
from explorer.files.scenario_json import parse_scenario
from explorer.files.sweep_plan import Sweep, Varied
from explorer.files.sweep_rows import header, judged_rows
from explorer.scenario.model import Scenario, with_values
from explorer.words.answer_groups import answer_lines
from explorer.words.answers import value_of
from explorer.words.figures import value_text
from explorer.words.glance import glance_text, margins_glance
from explorer.words.required import asked_rows
from tests.depth import some
from tests.reference import files, habit
from tests.reference.circuit import ConverterSource
from tests.reference.device import Device
from tests.reference.strategy import numbered

AMOUNTS = {
    "margins.operations_per_charge": 10.0,
    "margins.operations_per_hour": 3.0,
    "margins.rate_light_lx": 500.0,
    "margins.fill_within_h": 4.0,
    "margins.fill_light_lx": 2000.0,
    "margins.dark_days": 0.5,
}
MOST = 600


def lock():
    """1 mF from 5 to 3 V without losses, and a device that takes 20 µC a run, no more."""
    return Scenario.model_validate({
        "light": {"illuminance_lx": 1000.0, "pattern": {"kind": "steady"}},
        "store": {"kind": "capacitor", "capacitance_F": 1e-3, "esr_ohm": 0.0, "leakage_A": 0.0},
        "charger": {"kind": "converter", "quiescent_A": 0.0, "full_V": 5.0},
        "load": {
            "connect_V": 4.0, "disconnect_V": 3.0, "minimum_V": 2.0, "start_up": (),
            "bulk_capacitance_F": 0.0, "sleep_A": 0.0,
            "operations": ({"schedule": {"kind": "every", "interval_s": 60.0},
                            "phases": ({"current_A": 2e-4, "duration_s": 0.1},)},),
        },
    })  # fmt: skip


def asked(scenario, **amounts):
    return Case(with_values(scenario, {f"margins.{key}": v for key, v in amounts.items()}))


def the_one(case):
    (one,) = required(case)
    return float(one.value[0]), float(one.margin[0])


def test_a_full_store_serves_what_its_charge_holds():
    """2 mC over 20 µC are 100 runs, one a minute."""
    runs, margin = the_one(asked(lock(), operations_per_charge=80.0))
    assert runs == pytest.approx(100.0, abs=1.0)
    assert margin == pytest.approx(runs / 80.0)


def test_a_rate_that_no_schedule_asks_for_says_so():
    """One run a minute is due, so no light makes it a hundred an hour."""
    (one,) = required(asked(lock(), operations_per_hour=100.0))
    assert float(one.value[0]) == pytest.approx(60.0, rel=1e-3)
    assert "all that is due, 60 an hour; 100 are asked for" in required_sentence(one)
    (dim,) = required(asked(lock(), operations_per_hour=100.0, rate_light_lx=30.0))
    assert "which takes a shorter interval" not in required_sentence(dim)


def test_one_run_is_told_as_one():
    hourly = with_values(lock(), {"load.operations.0.schedule.interval_s": 3600.0})
    (one,) = required(asked(hourly, operations_per_hour=1.0))
    assert "it does 1 operation an hour" in required_sentence(one)
    (large,) = required(asked(hourly, operations_per_charge=7.0))
    few = replace(large, value=np.array([1.0]))
    assert "serves 1 operation without" in required_sentence(few)


def test_a_full_store_carries_the_device_as_long_as_its_charge_lasts():
    seconds, margin = the_one(asked(lock(), dark_days=0.05))
    assert seconds == pytest.approx(6000.0, rel=0.02)
    assert margin == pytest.approx(seconds / (0.05 * 86_400.0))


def test_a_rate_is_that_of_the_schedule_where_the_light_is_enough():
    value, margin = the_one(asked(lock(), operations_per_hour=30.0))
    assert value == pytest.approx(60.0, rel=0.01)
    assert margin == pytest.approx(2.0, rel=0.01)


def test_a_rate_of_what_waits_is_the_current_that_flows_in_over_the_charge_of_a_run():
    """A run of 20 µC whenever the store is at 4.5 V; the current by the reference's converter."""
    waits = with_values(lock(), {
        "light.illuminance_lx": 20.0, "charger.cold_start_below_V": 0.0,
        "load.operations.0.schedule": {"kind": "when_ready", "ready_V": 4.5},
    })  # fmt: skip
    value, margin = the_one(asked(waits, operations_per_hour=100.0))
    device = Device(waits, None)
    amps = ConverterSource(device, device.steps[0][2]).current(4.49, inf, False)
    assert value == pytest.approx(3600.0 * amps / 20e-6, rel=0.02)
    assert margin == pytest.approx(value / 100.0)


def test_what_is_asked_and_missed_falls_short_and_says_what_and_how_far():
    fine = judge(Case(lock()))
    assert fine.state == "runs"
    verdict = judge(asked(lock(), operations_per_charge=200.0, dark_days=0.01))
    service = verdict.checks[-1]
    assert verdict.state == "falls_short"
    assert verdict.governing is service
    assert service.limit == 200.0
    assert service.margin == pytest.approx(service.value / 200.0)
    assert "operations without light; 200 are asked for" in service.sentence
    assert judge(asked(lock(), operations_per_charge=50.0, dark_days=0.01)).state == "runs"


def test_amounts_are_no_matter_of_the_most_operations_a_day():
    plain = reach(Case(lock()))["most_operations_per_day"]
    assert reach(asked(lock(), store_years=29.0))["most_operations_per_day"] == plain


def test_an_older_file_asks_for_nothing_and_means_the_same():
    old = '{"format": "gloaming-scenario", "version": 2, "margins": {"start_within_h": 5.0}}'
    scenario = parse_scenario(old, "old.json")
    assert not required(Case(scenario))
    assert scenario.margins.start_within_h == 5.0


# --- beside the reference -----------------------------------------------------------------------


def right_amounts(scenario, log):
    """The same amounts by stepping the equations; what takes too long is left out."""
    device, found = Device(scenario, log), {}
    full = device.store.state(device.full_v)
    time, march = habit.lasts(device, full, 0.0, habit.LONGEST_S, MOST, False)
    found["dark_days"] = time if time < habit.LONGEST_S else inf
    found["operations_per_charge"] = (
        sum(march.totals.served) if time < habit.LONGEST_S else inf
    )
    bright = Device(in_steady_light(scenario, 2000.0), None)
    found["fill_within_h"] = habit.full_charge_s(bright, MOST)
    steady = Device(in_steady_light(scenario, 500.0), None)
    first = habit.first_charge(steady, 168.0 * 3600.0, MOST)
    if isinf(first.started_s):
        found["operations_per_hour"] = 0.0
    elif all(op.schedule.kind == "when_ready" or (op.schedule.to_h - op.schedule.from_h == 24.0
             and len(op.schedule.days) == 7) for op in scenario.load.operations):  # fmt: skip
        with suppress(habit.TooLong):
            course = habit.settle(steady, first.march, MOST)
            found["operations_per_hour"] = 3600.0 * sum(course.totals.served) / course.span_s
    return found


NUMBERS = some((11, 13, 22, 25, 42, 57), 2)


@pytest.fixture(scope="module", params=NUMBERS)
def drawn(request, tmp_path_factory):
    """A drawn design with amounts asked, written as a file and opened again."""
    place = tmp_path_factory.mktemp("drawn") / "drawn.json"
    scenario, log = numbered(request.param)
    scenario = with_values(scenario, AMOUNTS)
    files.save((scenario, log), place)
    return place, files.load(place)


def test_amounts_of_drawn_designs_are_those_of_the_reference(drawn):
    place, (scenario, log) = drawn
    assert scenario.margins.rate_light_lx == 500.0
    found = assess(Case(scenario, log))
    right = right_amounts(scenario, log)
    rows = {one.key: one for one in required(found.case)}
    for key, value in right.items():
        # A run more or less where the store ends within one, and 1 % of a time.
        assert float(rows[key].value[0]) == pytest.approx(value, rel=0.01, abs=1.0), key
    shown = {row.label: row for row in asked_rows(found)}
    assert shown["Filled within"].sentence.count("2000 lx") == 1
    assert found.answers["filled_s"] == float(rows["fill_within_h"].value[0])
    command = CliRunner().invoke(commands, ["check", "--json", str(place)])
    told = {one["name"]: one for one in json.loads(command.output)[0]["requirements"]}
    dark = right["dark_days"]
    assert told["dark_days"]["limit"] == 43_200.0
    assert isinf(dark) or told["dark_days"]["margin"] == pytest.approx(dark / 43_200.0, rel=0.01)
    assert value_of("filled_s", found.answers["filled_s"])


# --- many at once, tables and sheets -------------------------------------------------------------


def test_the_batch_finds_the_amounts_that_the_march_finds():
    case = asked(lock(), operations_per_charge=60.0, operations_per_hour=10.0, fill_within_h=0.05,
                 dark_days=0.01, store_years=3.0)  # fmt: skip
    sizes = np.array([3e-4, 1e-3, 3e-3])
    rows = {one.key: one.value for one in fleet(case, {"store.capacitance_F": sizes})
            .readings.required}  # fmt: skip
    for at, size in enumerate(sizes.tolist()):
        for one in required(case.with_value("store.capacitance_F", size)):
            assert rows[one.key][at] == pytest.approx(float(one.value[0]), rel=0.05, abs=1.5)


def test_a_sweep_writes_what_is_reached_and_its_margin():
    case = asked(lock(), operations_per_charge=60.0, fill_within_h=0.05)
    plan = Sweep(scenario=case.scenario,
                 varied=(Varied(path="store.capacitance_F", values=(3e-4, 1e-3)),))  # fmt: skip
    rows = [dict(zip(header(plan)[2:], row, strict=True)) for row in judged_rows(plan, case, 0, 2)]
    assert [row["verdict"] for row in rows] == ["falls_short", "runs"]
    for row in rows:
        assert float(row["operations_per_charge_margin"]) == pytest.approx(
            float(row["operations_per_charge"]) / 60.0, rel=1e-3
        )
        assert float(row["fill_within_h_margin"]) == pytest.approx(
            180.0 / float(row["filled_s"]), rel=1e-3
        )


def test_the_sheet_has_a_table_of_what_is_asked():
    found = assess(asked(lock(), operations_per_charge=200.0))
    (table,) = required_blocks(found)
    (row,) = table.rows
    assert row.cells[:2] == ("Operations per charge", "fails")
    assert row.cells[3] == "200 per charge"
    assert required_blocks(assess(Case(lock()))) == ()


@pytest.mark.parametrize(
    ("asked_for", "answer"),
    [
        ({"operations_per_charge": 200.0}, "operations_per_charge"),
        ({"operations_per_hour": 100.0}, "reached_per_hour"),
        ({"fill_within_h": 0.001}, "filled_s"),
        ({"dark_days": 1.0}, "dark_time_s"),
        ({"dark_days": 1.0, "operations_per_charge": 101.0}, "dark_time_s"),
    ],
)
def test_the_answer_that_is_marked_is_the_amount_that_is_missed(asked_for, answer):
    lines = answer_lines(assess(asked(lock(), **asked_for)))
    assert [line.key for line in lines if line.decides] == [answer]


def test_what_is_asked_stands_in_the_line_below_its_heading():
    case = asked(lock(), operations_per_charge=12.0, fill_within_h=0.5, dark_days=2.0)
    line = glance_text(margins_glance(case.scenario))
    assert "operations per charge 12, filled within 30 min, days from full 2 d" in line


def test_the_service_that_is_told_says_of_what_its_number_is():
    for key, limit, said in (("operations_per_charge", 200.0, "100 per charge"),
                             ("operations_per_hour", 90.0, "60 per hour")):  # fmt: skip
        service = judge(asked(lock(), **{key: limit})).checks[-1]
        assert value_text(service) == said
