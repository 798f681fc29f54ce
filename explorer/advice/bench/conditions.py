"""The device under what was otherwise than in the design while a run was logged."""

from __future__ import annotations

from typing import Any

from explorer.advice.case import Case
from explorer.scenario.demand import Load, Regulator
from explorer.scenario.light import LogPattern, SteadyPattern
from explorer.scenario.logged_run import BenchRun, Conditions
from explorer.scenario.model import Scenario

LEAST_LX = 1.0
"""What stands in a scenario for the light of a covered panel. [lx]"""
EMPTY_SHARE = 0.1
"""Share of the full voltage down to which a steady current is followed: below, what draws it often
no longer does (own judgement)."""


def under_conditions(case: Case, run: BenchRun) -> Case:
    """The device as it was while a run was logged: its light, and what was connected.

    Light that was logged beside the voltage takes the place of the design's; steady light that
    somebody told takes the place of both.
    """
    told, scenario = run.conditions, case.scenario
    if told.draw != "design":
        load = _connected(scenario, told)
        scenario = scenario.model_copy(update={"load": load})
    if told.light_lx is not None:
        return Case(scenario.model_copy(update={"light": _steady(scenario, told.light_lx)}), None)
    if run.light is None:
        return case if scenario is case.scenario else case.with_scenario(scenario)
    pattern = LogPattern(file=run.name, gaps="hold")
    light = scenario.light.model_copy(update={"pattern": pattern, "illuminance_lx": None})
    return Case(scenario.model_copy(update={"light": light}), run.light)


def _steady(scenario: Scenario, light_lx: float) -> Any:
    update: dict[str, Any] = {
        "pattern": SteadyPattern(),
        "illuminance_lx": max(light_lx, LEAST_LX),
    }
    if light_lx == 0.0:
        update["cover_factor"] = 0.0
    return scenario.light.model_copy(update=update)


def _connected(scenario: Scenario, told: Conditions) -> Load:
    """The load that was connected in place of the design's."""
    if told.draw == "asleep":
        return scenario.load.model_copy(update={"operations": ()})
    update: dict[str, Any] = {
        "operations": (), "start_up": (), "regulator": Regulator(), "bulk_capacitance_F": 0.0,
        "sleep_A": 0.0,
    }  # fmt: skip
    if told.draw == "current":
        empty_v = EMPTY_SHARE * scenario.charger.full_V
        update |= {
            "sleep_A": told.current_A, "disconnect_V": empty_v, "connect_V": 1.1 * empty_v,
            "minimum_V": 0.0,
        }  # fmt: skip
    return scenario.load.model_copy(update=update)
