"""Rates, runs and times above zero: from a file to what `check` and the sign say, beside a device
that scipy steps through time."""

import json
import re
from math import isfinite
from random import Random

import pytest
from click.testing import CliRunner

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.cli.main import commands
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.scenario.model import Scenario, with_values
from explorer.widgets.sign import Sign
from tests.depth import some
from tests.stepped import Walk, filled_after, settled_rate, through_the_dark, until_empty

RATE_LX, FILL_LX = 700.0, 2500.0


def drawn(number, kind):
    """A device on a capacitor or a supercapacitor, in lights and with parts that are drawn."""
    lots = Random(f"{kind} {number}")
    off = lots.uniform(1.4, 2.6)
    connect = off + lots.uniform(0.4, 1.2)
    full = connect + lots.uniform(0.5, 1.2)
    farad = 10.0 ** lots.uniform(-3.0, -1.2)
    phase = {"duration_s": 10.0 ** lots.uniform(-2.0, -0.3)}
    # A run takes some hundredths of what lies between cut-off and full.
    taken_c = farad * (connect - off) * lots.uniform(0.02, 0.2)
    amps = taken_c / phase["duration_s"]
    as_power = lots.random() < 0.3
    phase |= {"power_W": amps * connect} if as_power else {"current_A": amps}
    schedule = {"kind": "when_ready", "ready_V": off + lots.uniform(0.5, 0.95) * (full - off)}
    if kind == "every":
        schedule = {"kind": "every", "interval_s": lots.uniform(15.0, 60.0)}
    if kind == "until_empty":
        schedule = {"kind": "until_empty", "wanted_per_day": 5.0}
        phase = {"current_A": taken_c / 0.05, "duration_s": 0.02}
    return Scenario.model_validate({
        "light": {"illuminance_lx": RATE_LX, "pattern": {"kind": "steady"}},
        "panels": {"count": lots.choice((1, 2, 3))},
        "charger": {"kind": "converter", "full_V": full, "full_hysteresis_V": 0.1,
                    "quiescent_A": lots.choice((0.0, 1e-6)),
                    "cold_start_below_V": lots.choice((0.0, 0.8))},
        "store": {"kind": "capacitor", "capacitance_F": farad, "rated_V": 10.0,
                  "esr_ohm": lots.choice((0.0, 0.2)) * 1e-3 / farad,
                  "leakage_A": lots.choice((0.0, 1e-6))},
        "load": {"connect_V": connect, "disconnect_V": off, "minimum_V": 0.5 * off, "start_up": (),
                 "bulk_capacitance_F": 0.0, "sleep_A": 10.0 ** lots.uniform(-6.0, -5.0),
                 "retry_delay_s": lots.choice((0.1, 3.0)),
                 "operations": ({"schedule": schedule, "phases": (phase,)},)},
        "margins": {"rate_light_lx": RATE_LX, "fill_light_lx": FILL_LX},
    })  # fmt: skip


def right_amounts(scenario, kind):
    """What is reached of every amount, by stepping; what takes too long is left out."""
    seconds, runs = through_the_dark(scenario)
    right = {"fill_within_h": filled_after(scenario, FILL_LX)}
    if kind != "until_empty":  # a run lasts less than what may be asked for
        right["dark_days"] = seconds
    if kind == "until_empty":
        found = until_empty(Walk(scenario, RATE_LX))
        right["operations_per_hour"] = None if found is None else found["runs_per_hour"]
        right["operations_per_charge"] = 1.0
    else:
        right["operations_per_hour"] = settled_rate(Walk(scenario, RATE_LX))
        right["operations_per_charge"] = float(runs)
    return right


UNITS_S = {"dark_days": 86_400.0, "fill_within_h": 3600.0}
KINDS = ("when_ready", "every", "until_empty")


def limits(right, over):
    """Amounts that are asked, by fields of `margins`: a little more than is reached, or less."""
    asked = {}
    for key, value in right.items():
        more = 1.02 if over != (key == "fill_within_h") else 0.98
        limit = value + (0.5 if over else -0.5) if key == "operations_per_charge" else value * more
        asked[f"margins.{key}"] = limit / UNITS_S.get(key, 1.0)
    return asked


def told(*places):
    command = CliRunner().invoke(commands, ["check", "--json", *map(str, places)])
    return json.loads(command.output)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("number", some([3, 9], 2))
def test_amounts_in_a_file_are_those_that_stepping_gives_and_turn_where_they_are_reached(
    number, kind, tmp_path
):
    scenario = drawn(number, kind)
    right = right_amounts(scenario, kind)
    assert all(isfinite(value) and value > 0.0 for value in right.values())
    places = [tmp_path / "less.json", tmp_path / "more.json"]
    for place, over in zip(places, (False, True), strict=True):
        save_scenario(place, with_values(scenario, limits(right, over)))
    for found, over in zip(told(*places), (False, True), strict=True):
        rows = {one["name"]: one for one in found["requirements"]}
        for key, value in right.items():
            near = 0.3 if key == "operations_per_charge" else 0.0
            assert rows[key]["value"] == pytest.approx(value, rel=5e-3, abs=near), key
            assert (rows[key]["margin"] < 1.0) == over, key
        assert rows["operations_per_hour"]["light_lx"] == RATE_LX
        assert rows["fill_within_h"]["light_lx"] == FILL_LX
        if kind == "until_empty":
            runs = until_empty(Walk(scenario, RATE_LX))
            for key, value in runs.items():
                assert found["answers"][key] == pytest.approx(value, rel=5e-3), key
    assert found["verdict"] == "falls_short"


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("over", [False, True])
def test_the_sign_has_the_rate_and_falls_short_just_above_it(kind, over, qtbot, tmp_path):
    scenario = drawn(2, kind)
    rate = right_amounts(scenario, kind)["operations_per_hour"]
    limit = rate * (1.02 if over else 0.98)
    save_scenario(tmp_path / "one.json", with_values(scenario, {
        "margins.operations_per_hour": limit,
    }))  # fmt: skip
    sign = Sign()
    qtbot.addWidget(sign)
    sign.set_assessment(assess(Case(load_scenario(tmp_path / "one.json").scenario)))
    service = sign.rows[-1]
    sentence = service.accessibleDescription().replace("\u00a0", " ")
    number = re.search(
        r"In steady 700 lx it does (?:all that is due, )?([0-9.]+( k)?) ?(?:operations|an hour)",
        sentence,
    )
    assert number, sentence
    assert said(number[1]) == pytest.approx(rate, rel=6e-3)
    assert ("fails" in service.accessibleName()) == over
    assert sign.word.text() == "Falls short" or not over


def said(text):
    """The number that `show` wrote."""
    return float(text.removesuffix(" k")) * (1000.0 if text.endswith("k") else 1.0)


@pytest.mark.parametrize("number", [1, 6])
def test_runs_count_from_the_least_length_on(number, tmp_path):
    scenario = drawn(number, "until_empty")
    runs = until_empty(Walk(scenario, RATE_LX))
    places = [tmp_path / "less.json", tmp_path / "more.json"]
    for place, share in zip(places, (0.99, 1.01), strict=True):
        least = {"load.operations.0.phases.0.duration_s": share * runs["run_length_s"],
                 "margins.operations_per_hour": 0.5 * runs["runs_per_hour"]}  # fmt: skip
        save_scenario(place, with_values(scenario, least))
    counted, not_counted = told(*places)
    assert counted["requirements"][0]["margin"] == pytest.approx(2.0, rel=5e-3)
    assert counted["answers"]["runs_per_hour"] == pytest.approx(runs["runs_per_hour"], rel=5e-3)
    assert not_counted["requirements"][0]["value"] == 0.0
    assert not_counted["answers"]["runs_per_hour"] == 0.0
    assert not_counted["answers"]["run_length_s"] == pytest.approx(
        runs["run_length_s"], rel=5e-3
    )
