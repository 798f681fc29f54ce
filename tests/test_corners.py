"""Whatever the model takes ends in a verdict whose numbers are numbers.

Warnings of numpy count as failures. For a long search, run
``GLOAMING_TESTS=thorough CORNERS=10000 python -m pytest tests/test_corners.py``.
"""

import os
from math import isnan

import numpy as np
import pytest

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.engine.columns import Columns
from explorer.files.scenario_json import dump_scenario, parse_scenario
from tests.corners import corner_scenario, corner_year
from tests.depth import some

SEEDS = some(range(int(os.environ.get("CORNERS", "100"))), 2)
QUICK = 8
"""Years take seconds each; those from this one on do not."""
YEARS = range(QUICK, QUICK + len(SEEDS) // 25)
AT_ONCE = 50
"""Scenarios in one test."""


def faults(scenario):
    """What is not a number in the answers to one scenario, one by one and in a batch."""
    found = assess(Case(scenario))
    numbers = {
        f"{check.name}.{part}": getattr(check, part)
        for check in found.verdict.checks
        for part in ("value", "limit", "margin")
    } | dict(found.answers)
    rows = found.trace.eventful(200)
    for name in Columns.__dataclass_fields__:
        column = np.asarray(getattr(rows, name))
        if column.dtype.kind == "f":
            numbers[f"trace.{name}"] = float(np.min(column, initial=0.0))
    level = scenario.light.illuminance_lx or 300.0
    many = fleet(Case(scenario), {"light.illuminance_lx": level * np.array([0.5, 1.0, 2.0])})
    numbers |= {f"batch.{name}": float(np.min(row)) for name, row in many.margins.items()}
    return [name for name, number in numbers.items() if isnan(number)]


@pytest.mark.parametrize("first", range(0, len(SEEDS), AT_ONCE))
def test_every_scenario_is_judged_in_numbers_and_read_as_it_was_written(first):
    for seed in SEEDS[first : first + AT_ONCE]:
        scenario = corner_scenario(seed)
        try:
            assert not faults(scenario)
            assert parse_scenario(dump_scenario(scenario), "written.json") == scenario
        except Exception as fault:
            fault.add_note(f"corner_scenario({seed})")
            raise


@pytest.mark.parametrize("seed", YEARS)
def test_every_year_is_judged_in_numbers_and_read_as_it_was_written(seed):
    scenario = corner_year(seed)
    assert not faults(scenario)
    assert parse_scenario(dump_scenario(scenario), "written.json") == scenario


def test_the_corners_are_of_every_kind():
    drawn = [corner_scenario(seed) for seed in range(60)]
    assert {s.store.kind for s in drawn} == {"capacitor", "supercapacitor", "cell"}
    assert {s.charger.kind for s in drawn} == {"direct", "converter"}
    assert {s.light.pattern.kind for s in drawn} == {"steady", "week"}
    assert len({dump_scenario(s) for s in drawn}) == 60
