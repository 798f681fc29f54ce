"""Designs on which a forecast is easily wrong, from the file to what `check` says of them."""

import json
import math
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.advice.readings.one import study
from explorer.cli import main as cli
from explorer.files.scenario_json import load_scenario
from explorer.scenario.model import with_value
from tests.depth import THOROUGH

CASES = Path(__file__).parent.parent / "cases"
LONG = "never_done_with_its_first_operation"
"""It fails half a million times a week; tests/engine/test_stopping.py looks at it, too."""


def said(name, tmp_path, **changes):
    """What `check --json` reports of a case, with some values changed."""
    path = CASES / f"{name}.json"
    if changes:
        scenario = load_scenario(path).scenario
        for key, value in changes.items():
            scenario = with_value(scenario, key.replace("__", "."), value)
        path = tmp_path / "changed.json"
        path.write_text(scenario.model_dump_json(), encoding="utf-8")
    done = CliRunner().invoke(cli.commands, ["check", "--json", str(path)])
    assert done.exit_code in (0, 1, 2), done.output
    report = json.loads(done.output)
    (found,) = report if isinstance(report, list) else (report,)
    found["checks"] = {check["name"]: check for check in found["checks"]}
    return found


def printed(name):
    """What `check` prints, on one line."""
    done = CliRunner().invoke(cli.commands, ["check", str(CASES / f"{name}.json")])
    return " ".join(done.output.split())


def test_steady_light_on_which_it_just_lives_never_falls_short(tmp_path):
    """It settles a little above its cut-off of 2 V, serves everything and is never cut off."""
    found = said("steady_light_that_just_holds", tmp_path, light__illuminance_lx=334.0)
    assert found["verdict"] == "marginal"
    assert found["governing"] == "balance"
    assert 2.0 < found["answers"]["lowest_store_V"] < 2.2
    assert found["answers"]["cut_offs_per_week"] == 0
    assert found["answers"]["longest_dark_s"] == 0
    assert found["checks"]["service"]["state"] == "runs"
    assert found["checks"]["dark"]["state"] == "runs"
    assert "held at 2 V" in found["checks"]["balance"]["sentence"]


def test_a_cut_off_every_minute_is_ten_thousand_a_week(tmp_path):
    found = said("cut_off_every_minute", tmp_path)
    assert found["answers"]["cut_offs_per_week"] == pytest.approx(7 * 24 * 60, rel=0.01)
    assert found["verdict"] == "falls_short"
    assert found["answers"]["served_share"] == 0.0
    assert found["answers"]["first_operation_s"] is None
    assert found["answers"]["first_charge_s"] < 60.0


@pytest.mark.parametrize(("lux", "runs"), [(20.0, False), (50.0, False), (300.0, True)])
def test_what_is_cut_off_does_not_run(lux, runs, tmp_path):
    """It connects at 0.05 V and needs 2.2 V: in dim light it is cut off every second for ever."""
    found = said("runs_with_84100_cut_offs", tmp_path, light__illuminance_lx=lux)
    assert (found["answers"]["cut_offs_per_week"] == 0) is runs
    assert (found["answers"]["cut_offs_per_week"] > 50_000) is not runs
    assert (found["verdict"] == "runs") is runs
    assert ("cut-offs per week" in found["checks"]["service"]["sentence"]) is not runs


def test_what_never_starts_serves_nothing(tmp_path):
    found = said("never_starts_serves_all", tmp_path)
    assert found["checks"]["starts"]["margin"] == 0.0
    assert found["checks"]["service"]["value"] == 0.0
    assert found["answers"]["served_share"] == 0.0
    assert found["answers_begin_with"] == "full_store"
    assert "holds for a beginning with a full store" in printed("never_starts_serves_all")
    assert "beginning with a full store" not in printed("full_and_resume_with_pulses")


def test_the_reason_why_a_motor_stops_is_the_true_one(tmp_path):
    """150 mA through 0.1 ohm are easy; 2.2 mF fall from 5 V to the 1.8 V needed in some 70 ms."""
    pulse = said("motor_longer_than_its_store", tmp_path)["checks"]["pulse"]
    assert pulse["state"] == "falls_short"
    assert "resistance" not in pulse["sentence"]
    assert "after 70.1 ms it is down to the 1.8 V" in pulse["sentence"]


def test_full_sun_on_a_cell_behind_a_diode_counts_everywhere(tmp_path):
    found = said("cell_on_a_diode", tmp_path)
    assert found["verdict"] == "falls_short"
    assert found["governing"] == "ratings"
    assert "In full sun" in found["checks"]["ratings"]["sentence"]
    case = Case(load_scenario(CASES / "cell_on_a_diode.json").scenario)
    lux = [10.0, 100.0, 1000.0, 10_000.0]
    many = fleet(case, {"light.illuminance_lx": lux})
    assert set(many.codes.tolist()) == {0}
    assert many.margins["ratings"] == pytest.approx(found["checks"]["ratings"]["margin"])


def test_a_pair_without_balancing_sees_more_than_its_share(tmp_path):
    found = said("unbalanced_pair", tmp_path)
    ratings = found["checks"]["ratings"]
    assert (ratings["value"], ratings["limit"]) == (pytest.approx(3.75), 3.2)
    assert found["governing"] == "ratings"
    assert [h["key"] for h in found["hazards"]] == ["over_voltage"]


def test_of_two_over_voltages_the_worse_is_told(tmp_path):
    """Charging brings 3 V to one unit, standing 3.75 V: at 2.6 V both are beyond the rating."""
    danger = said("unbalanced_pair", tmp_path, store__rated_V=2.6)["hazards"][0]
    assert "3.75 V" in danger["sentence"]


def test_a_cell_is_never_below_its_window(tmp_path):
    found = said("cell_with_default_load", tmp_path)
    assert "held at 3 V" in found["checks"]["balance"]["sentence"]
    assert "From 2.4 V" not in found["checks"]["pulse"]["sentence"]


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("two_cells_full_at_5V", r"charger.full_V \(5 V\)"),
        ("full_threshold_out_of_reach", "charger.full_V"),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(name, says):
    done = CliRunner().invoke(cli.commands, ["check", str(CASES / f"{name}.json")])
    assert done.exit_code == 3
    assert "Traceback" not in done.output
    assert re.search(says, done.output)


def test_a_pulse_from_a_full_store_is_one_thing_in_check_and_answers(tmp_path):
    """The check's pulse has no light: it lies no higher than the course's own lowest voltage."""
    found = said("full_and_resume_with_pulses", tmp_path)
    pulse, answers = found["checks"]["pulse"], found["answers"]
    assert answers["lowest_store_V"] > 3.95
    assert pulse["value"] == pytest.approx(answers["lowest_terminal_V"], abs=0.05)
    assert pulse["value"] <= answers["lowest_terminal_V"] + 1e-3


def test_a_store_that_refills_within_the_retry_delay_comes_back(tmp_path):
    found = said("retry_longer_than_charge", tmp_path)
    assert found["checks"]["service"]["state"] == "runs"
    assert found["answers"]["first_operation_s"] > found["answers"]["first_charge_s"] + 50.0


@pytest.mark.parametrize(("lux", "works"), [(130.0, False), (150.0, False), (200.0, True)])
def test_an_operation_that_waits_is_judged_at_the_level_it_waits_for(lux, works, tmp_path):
    """It waits for 3.4 V. At its cut-off of 2.4 V the light would cover its draw all along."""
    found = said("least_light_of_a_ready_load", tmp_path, light__illuminance_lx=lux)
    balance, service = found["checks"]["balance"], found["checks"]["service"]
    assert "held at 3.4 V" in balance["sentence"]
    assert (balance["margin"] >= 1.0) is works
    assert (service["value"] == 1.0) is works


@pytest.mark.parametrize(
    ("lux", "weeks", "cut_offs"), [(150.0, 2, 5), (200.0, 3, 9), (240.0, 6, 30)]
)
def test_a_course_of_several_weeks_is_followed_through_all_of_them(lux, weeks, cut_offs):
    """Numbers of a reference that steps its own equations (tests/reference)."""
    scenario = load_scenario(CASES / "course_of_three_weeks.json").scenario
    course = study(Case(with_value(scenario, "light.illuminance_lx", lux))).course
    assert course.settled
    assert (course.periods, course.run.tally.cut_offs) == (weeks, cut_offs)


@pytest.mark.parametrize(
    "path", [p for p in sorted(CASES.glob("*.json")) if THOROUGH or p.stem != LONG],
    ids=lambda p: p.stem,
)
def test_every_check_can_be_reconciled_with_its_value_and_limit(path, tmp_path):
    """The margin follows from value and limit; of a pulse also from where it begins."""
    try:
        load_scenario(path)
    except ValueError:
        return
    for name, check in said(path.stem, tmp_path)["checks"].items():
        value, limit, margin = (check[k] for k in ("value", "limit", "margin"))
        if value is None or limit is None or name == "pulse" or margin >= 99.0:
            continue
        if name in ("starts", "ratings"):
            expected = limit / value if value else math.inf
        elif limit == 0:
            continue
        else:
            expected = value / limit
        if check["unit"] != "°C":
            assert min(margin, 99.0) == pytest.approx(min(expected, 99.0), rel=1e-5)
