"""The demonstration scenarios with their logs, and the exact word on a variant."""

from functools import cache

from explorer.advice.assess import judge
from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_value

NAMES = (
    "door_counter", "plant_label", "seminar_room_co2", "soil_probe", "vent_flap",
    "watering_valve",
)
LOGGED = "seminar_room_co2"
CODES = {"falls_short": 0, "marginal": 1, "runs": 2}


@cache
def demo(name):
    path = scenario_folder() / f"{name}.json"
    scenario = load_scenario(path).scenario
    return scenario, resolve_log(scenario, path)


@cache
def exact(scenario, log):
    return judge(Case(scenario, log))


def exact_at(name, path, value):
    scenario, log = demo(name)
    return exact(with_value(scenario, path, value), log)


def judge_many(scenario, log, changes, **given):
    """What the batch says of several variants."""
    return fleet(Case(scenario, log), changes, **given)


def reserve_of(verdict):
    """Smallest reserve; checks that are met or not count only where they fail."""
    counted = [c for c in verdict.checks if c.name not in ("ratings", "service") or c.margin < 1.0]
    return min(c.reserve for c in counted)
