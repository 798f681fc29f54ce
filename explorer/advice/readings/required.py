"""Amounts that are asked of a design: what it reaches of each, by the exact march."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, isfinite

import numpy as np

from explorer.advice.case import Case, kept
from explorer.advice.readings import Required
from explorer.advice.readings.dark import one_charge
from explorer.advice.readings.indicator import indicated_after, indicator_level
from explorer.advice.readings.runs import served_in
from explorer.advice.readings.starts import first_charge, full_charge_time
from explorer.advice.variants import changed
from explorer.advice.year.study import as_worn, wear_of, wear_per_year
from explorer.engine.march import Engine
from explorer.engine.steady import LEFT_AFTER, STUDY_LEGS, repeating_course
from explorer.engine.system import DAY_S, Operation, Periodic, WhenReady
from explorer.physics.ageing import LONGEST_YEARS
from explorer.physics.arrays import FloatArray
from explorer.scenario.demand import Every
from explorer.scenario.hours import HOUR_S
from explorer.scenario.light import Light, Source, SteadyPattern
from explorer.scenario.model import LIGHT_OF, Margins, Scenario

KEYS = ("operations_per_charge", "operations_per_hour", "fill_within_h", "dark_days", "store_years")
"""Fields that ask for an amount, in the order in which they are told."""
UNITS = {
    "operations_per_charge": "1", "operations_per_hour": "1/h", "fill_within_h": "s",
    "dark_days": "s", "store_years": "a",
}
COLUMN_OF = {
    "operations_per_hour": "reached_per_hour", "fill_within_h": "filled_s",
    "store_years": "store_years",
}
"""What the reached amount is called where names bear their unit and no other answer tells it."""
IN_SI = {"fill_within_h": HOUR_S, "dark_days": DAY_S}
"""Seconds in the unit of a field."""


def asked_keys(scenario: Scenario) -> tuple[str, ...]:
    """Fields that ask for an amount in a scenario, or in a batch."""
    return tuple(key for key in KEYS if getattr(scenario.margins, key) is not None)


def nothing_asked(scenario: Scenario) -> Scenario:
    """The same design without the amounts that are asked of it."""
    keys = asked_keys(scenario)
    if not keys:
        return scenario
    margins = scenario.margins.model_copy(update=dict.fromkeys(keys))
    return scenario.model_copy(update={"margins": margins})


@kept
def required(case: Case) -> tuple[Required, ...]:
    """Every amount that is asked, with what the design reaches; arrays of length 1."""
    margins = case.scenario.margins
    found = []
    for key in asked_keys(case.scenario):
        level = _level(case, LIGHT_OF.get(key))
        value = case.once_under_any_margins(
            ("required", key, level), _maker(case, key, level)
        )
        limit = getattr(margins, key) * IN_SI.get(key, 1.0)
        found.append(
            Required(
                key=key, value=np.array([value]), limit=np.array([limit]), unit=UNITS[key],
                light_lx=None if level is None else np.array([level]),
                at_most=key == "fill_within_h",
                due=due_rate(case.scenario) if key == "operations_per_hour" else inf,
            )
        )
    return tuple(found)


def due_rate(scenario: Scenario) -> float:
    """Runs an hour that fall due, while any do; infinite where the store decides. [1/h]"""
    schedules = [op.schedule for op in scenario.load.operations]
    return sum(HOUR_S / s.interval_s if isinstance(s, Every) else inf for s in schedules)


def reached(case: Case) -> dict[str, float]:
    """What is reached of the amounts that no other answer tells, by names with their unit."""
    return {
        COLUMN_OF[one.key]: float(one.value[0])
        for one in required(case) if one.key in COLUMN_OF
    }


def in_steady_light(scenario: Scenario, level_lx: float | FloatArray) -> Scenario:
    """The same device where the light is always on, with nothing asked of it."""
    light = changed(scenario.light, {"illuminance_lx": level_lx, "pattern": SteadyPattern()})
    return changed(scenario, {"light": light, "margins": Margins()})


def steady(case: Case, level_lx: float, source: Source | None = None) -> Case:
    """The same device in a light that is always on, of the sources of its own or of another.

    A year's own are as warm as it is while lit, and its store is as worn as the year leaves it.
    """
    light = case.light
    if source is not None and (source != light.source or case.year is not None):
        light = light.model_copy(update={"source": source, "daylight_share": 0.0})
    scenario = in_steady_light(case.scenario.model_copy(update={"light": light}), level_lx)
    return Case(scenario if case.year is None else as_worn(scenario, wear_of(case)))


def rate_in(engine: Engine) -> float:
    """Runs an hour, while they are due, in the settled course of an engine. [1/h]

    0 where the device never gets past its start-up.
    """
    first = first_charge(engine, None, LOOKED_H * HOUR_S)
    if not isfinite(first.seconds):
        return 0.0
    period = engine.edges[-1]
    into = first.end_s % period
    run = engine.march(
        period - into, first.end, begin_s=into, most_legs=STUDY_LEGS, most_cut_offs=LEFT_AFTER
    )
    course = repeating_course(engine, run.end).run
    if engine.system.load.until_empty is not None:
        did = served_in(engine.system, course, starts=True)
        return float(did.served.sum()) / course.span_s * HOUR_S
    return sum(
        served / (course.span_s * open_share(op)) * HOUR_S
        for served, op in zip(course.tally.served, engine.system.load.operations, strict=True)
    )


LOOKED_H = 168.0
"""A quarter of how long an empty store is followed in steady light. [h]"""


def open_share(operation: Operation) -> float:
    """Share of the time in which an operation may be due."""
    if isinstance(operation.schedule, WhenReady):
        return 1.0
    return open_time(operation.schedule) / (7.0 * DAY_S)


def open_time(schedule: Periodic) -> float:
    """Time of the week in which an operation may be due. [s]"""
    return sum(end - begin for begin, end in schedule.windows_s)


def one_charge_of(case: Case) -> tuple[float, float]:
    """Time that a full store lasts in the dark and runs done in it; see `one_charge`."""
    return case.once_under_any_margins("one charge", lambda: one_charge(case.engine))


def _level(case: Case, key: str | None) -> float | None:
    """Steady light in which an amount is asked: the one stated, or that of the place. [lx]"""
    if key is None:
        return None
    stated: float | None = getattr(case.scenario.margins, key)
    own = case.scenario.light.illuminance_lx
    return stated if stated is not None else own if own is not None else case.mean_lit_lx


def _maker(case: Case, key: str, level_lx: float | None) -> Callable[[], float]:
    """What finds the amount that a design reaches."""
    def make() -> float:
        if key == "operations_per_charge":
            return one_charge_of(case)[1]
        if key == "dark_days":
            return one_charge_of(case)[0]
        if key == "store_years":
            return store_years(case)
        assert level_lx is not None
        other = steady(case, level_lx)
        if key == "operations_per_hour":
            return rate_in(other.engine)
        level_v = indicator_level(other)
        return full_charge_time(other.engine) if level_v is None else (
            indicated_after(other, level_v)
        )

    return make


def store_years(case: Case) -> float:
    """Years until a new store counts as worn out, at most `LONGEST_YEARS`. [a]

    Of a year of daylight by what the store goes through in it, elsewhere at the full voltage and
    the temperature of the place.
    """
    scenario = case.scenario
    if case.year is not None:
        new = case if not scenario.store.years_in_service else (
            case.with_value("store.years_in_service", 0.0)
        )
        return min(1.0 / max(wear_per_year(new), 1e-9), LONGEST_YEARS)
    light: Light = scenario.light
    years = scenario.store.years_to_end_of_life(light.ambient_C, scenario.charger.full_V)
    return float(np.asarray(years))


__all__ = [
    "COLUMN_OF", "HOUR_S", "IN_SI", "KEYS", "UNITS", "asked_keys", "in_steady_light",
    "nothing_asked", "one_charge_of", "open_share", "reached", "required", "steady", "store_years",
]
