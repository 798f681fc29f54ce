"""Tables of runs with many events, from the scenario's file to the printed number.

What is right was found with equations stepped event by event, apart from the program.
"""

import csv
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

from explorer.cli import main as cli
from explorer.files.scenario_json import load_scenario
from explorer.physics.store import bank_charge
from explorer.scenario.build import build

CASES = Path(__file__).parent / "cases"
HOUR_S, DAY_S = 3600.0, 86_400.0


@pytest.fixture
def traced(tmp_path):
    """The table that the command writes, and the length of its last step's end. [s]"""

    def write(name, days, *step):
        output = tmp_path / "out.csv"
        call = ["trace", str(CASES / f"{name}.json"), "--days", days, *step, "-o", str(output)]
        done = CliRunner().invoke(cli.commands, call)
        assert done.exit_code == 0, done.output
        with output.open(newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        return {name: np.array([float(row[name]) for row in rows]) for name in rows[0]}

    return write


def charge(rows, column, end_s):
    """Current times step, added up. [C]"""
    return float(rows[column] @ np.diff(np.append(rows["time_s"], end_s)))


@pytest.mark.parametrize(
    ("name", "days", "step", "span_s"),
    [
        ("two_pulse_trains", "7", "3600", 7 * DAY_S),
        ("two_pulse_trains", "7", "", 7 * DAY_S),
        ("dark_morning_then_pulses", "1", "1800", DAY_S),
        ("burst_motor", "2 min", "0.5s", 120.0),
        ("burst_motor", "2 min", "7s", 120.0),
        ("hiccup_of_72_minutes", "7", "1000", 7 * DAY_S),
        ("retry_longer_than_charge", "4.8 h", "11", 4.8 * HOUR_S),
        ("full_and_resume_with_pulses", "7", "997", 7 * DAY_S),
        ("cut_off_every_minute", "2 h", "13", 2 * HOUR_S),
    ],
)
def test_what_came_less_what_went_is_what_the_store_holds_more(traced, name, days, step, span_s):
    rows = traced(name, days, *(["--step", step] if step else []))
    came, drawn, leaked = (
        charge(rows, column, span_s) for column in ("harvest_A", "load_A", "leakage_A")
    )
    end_v = rows["store_V"][-1]
    if rows["time_s"][-1] < span_s:  # the last step ends with the run, and no row stands there
        end_v = traced(name, days, "--step", str(span_s))["store_V"][-1]
    store = build(load_scenario(CASES / f"{name}.json").scenario).store
    kept = float(bank_charge(store, end_v)) - float(bank_charge(store, rows["store_V"][0]))
    # Nine digits of each printed number are right to about this.
    assert came - drawn - leaked == pytest.approx(kept, abs=1e-6 * came)


def test_two_pulse_trains_draw_what_their_pulses_take(traced):
    rows = traced("two_pulse_trains", "7", "--step", "3600")
    # 5.39 to 5.41 C with the converter's defaults of different days; all that is wanted is 13.6 C.
    assert charge(rows, "load_A", 7 * DAY_S) == pytest.approx(5.40, abs=0.03)


def test_a_dark_morning_is_dark_and_nothing_is_drawn_before_the_connect(traced):
    rows = traced("dark_morning_then_pulses", "1", "--step", "1800")
    assert rows["store_V"][[4, 8, 12]] == pytest.approx([1.714, 0.819, 0.314], abs=1e-3)
    connect = int(np.argmax(rows["connected"]))
    assert rows["time_s"][connect] > 8 * HOUR_S
    assert np.all(rows["load_A"][: connect - 1] == 0.0)
    assert rows["load_A"][connect] > 1e-5


@pytest.mark.parametrize("step", [["--step", "0.5s"], []], ids=["at a step", "without"])
def test_a_burst_motor_makes_a_saw_tooth(traced, step):
    rows = traced("burst_motor", "2 min", *step)
    volts, times = rows["store_V"], rows["time_s"]
    late = times > 24.0
    assert volts[late].max() > 4.8
    assert rows["terminal_min_V"][late].min() == pytest.approx(2.27, abs=0.05)
    falls = times[1:][(volts[1:] < 3.3) & (volts[:-1] > 3.3) & late[1:]]
    assert len(falls) == pytest.approx(12, abs=1)
    assert np.diff(falls) == pytest.approx(8.0, abs=0.7)


def test_a_hiccup_goes_from_its_cut_off_to_its_connect(traced):
    rows = traced("hiccup_of_72_minutes", "7", "--step", "60")
    late = rows["time_s"] > DAY_S
    assert rows["store_V"][late].min() == pytest.approx(2.40, abs=0.01)
    assert rows["store_V"][late].max() == pytest.approx(3.60, abs=0.02)
    # It comes and goes: on for a fifth of the time, every 72 minutes or so.
    connects = np.sum(np.diff(rows["connected"][late]) > 0)
    assert connects == pytest.approx(6 * 24 * 60 / 72, rel=0.1)


def test_a_device_whose_store_fills_within_its_retry_delay_comes_back(traced):
    rows = traced("retry_longer_than_charge", "4.8 h", "--step", "1")
    # The first pulse pulls the terminals from 3.6 V to the cut-off of 2.4 V.
    cut_s = rows["time_s"][int(np.argmax(np.diff(rows["store_V"]) < -0.5))]
    back_s = rows["time_s"][int(np.argmax(rows["connected"]))]
    assert back_s - cut_s == pytest.approx(60.0, abs=1.5)
    assert np.all(rows["connected"][rows["time_s"] >= back_s] == 1.0)
    assert np.sum(rows["load_A"] > 5e-4) == pytest.approx(30, abs=1)  # a pulse every ten minutes


def test_a_store_that_cycles_at_full_is_never_shown_below_its_pulses(traced):
    rows = traced("full_and_resume_with_pulses", "7", "--step", "60")
    late = rows["time_s"] > DAY_S
    assert rows["store_V"][late].min() > 4.02
    assert rows["terminal_min_V"][late].min() == pytest.approx(4.023, abs=0.01)
    dips = rows["terminal_min_V"][late] < 4.3
    assert dips.sum() == pytest.approx(6 * 144, abs=2)  # a pulse every ten minutes
