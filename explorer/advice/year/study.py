"""The runs of a design through a year: from its hanging-up, and once the years are alike."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from math import inf, isfinite, isinf

import numpy as np

from explorer.advice.case import TABLES, YEAR_STUDY, Case, kept
from explorer.advice.readings.dark import Gap, InTheDark, gaps
from explorer.advice.readings.starts import STUCK, FirstCharge, starts_in_vain
from explorer.engine.course import Standing, StopAt, Trajectory
from explorer.engine.march import Engine
from explorer.engine.seasons import MOST_YEARS, Chain, Part, Seasons, SettledYear, settled_year
from explorer.engine.trace import Trace
from explorer.physics.arrays import BoolArray, FloatArray
from explorer.scenario.fields import describe
from explorer.scenario.hours import HOUR_S
from explorer.scenario.model import Scenario
from explorer.scenario.year_course import Month, hung_up_s, in_days, month_system, months_of
from explorer.scenario.year_light import YearLight

SHARES = 6.0
"""Shares into which the light of a month is parted, each between two levels of its ladder: on
generated designs 4 and 40 differ by less than 1 mV at the ends of months."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthRun:
    """What a design does in one month of the settled year."""

    month: Month
    engine: Engine
    part: Part
    trace: Trace
    gaps: tuple[Gap, ...]
    """Dark stretches that begin in the month, by the time since it began."""
    in_the_dark: InTheDark

    @property
    def run(self) -> Trajectory:
        """Its march."""
        return self.part.run


@dataclass(frozen=True, slots=True, kw_only=True)
class YearStudy:
    """The runs of one design through a year of light."""

    year: YearLight
    seasons: Seasons
    months: tuple[MonthRun, ...]
    """The settled year."""
    hung_s: float
    """Time of the year at which the device is hung up. [s]"""
    opening: Chain
    """A year from the scenario's own beginning on the day of hanging-up."""
    first: FirstCharge
    """From an empty store on that day."""
    course: SettledYear
    gaps: tuple[Gap, ...]
    """Dark stretches of the year, by the time of the year."""

    @property
    def starts(self) -> bool:
        """Whether the device ever gets past its start-up within the year."""
        return isfinite(self.first.seconds)


def seasons_of(case: Case) -> tuple[tuple[Month, ...], Seasons]:
    """The months of a case's year and their engines."""
    def make() -> tuple[tuple[Month, ...], Seasons]:
        assert case.year is not None
        months, wear = months_of(case.scenario, case.year), wear_of(case)
        engines = [_engine(m, wear) for m in months]
        return months, Seasons(
            engines, cache(lambda k: _engine(in_days(months[k]), wear)),
            {k for k, engine in enumerate(engines) if starts_in_vain(engine)},
        )

    return case.once_under_any_margins("seasons", make)


def _engine(month: Month, wear: float) -> Engine:
    return Engine(month_system(month, wear), library=TABLES, shares=SHARES)


def wear_of(case: Case) -> float:
    """Wear of the store at its age, of which 1 is its end of life, by what a new one lives through.

    One wear for all months: what a store has lost does not come back in the cold.
    """
    years = float(np.asarray(case.scenario.store.years_in_service))
    if years <= 0.0:
        return 0.0

    def make() -> float:
        return years * wear_per_year(case.with_value("store.years_in_service", 0.0))

    return case.once_under_any_margins("wear", make)


def as_worn(scenario: Scenario, wear: float, nominal: Scenario | None = None) -> Scenario:
    """A design outside of its year, with a store of the age that wears it so at its temperature.

    Many designs are as old as the nominal one of which they are variants.
    """
    if wear <= 0.0:
        return scenario
    one, light = nominal or scenario, scenario.light
    life = one.store.years_to_end_of_life(light.ambient_C, one.charger.full_V)
    most = describe(type(one.store), "years_in_service").high
    years = min(wear * float(np.asarray(life)), most)
    store = scenario.store.model_copy(update={"years_in_service": years})
    return scenario.model_copy(update={"store": store})


def aged(case: Case, years: float, per_year: float) -> Case:
    """A design with a store of some years, of which each took so much of its life."""
    other = case.with_value("store.years_in_service", years)
    other.once_under_any_margins("wear", lambda: years * per_year)
    return other


@dataclass(frozen=True, slots=True, kw_only=True)
class Lived:
    """What a store goes through in the settled year, hour by hour; arrays of shape (hours,)."""

    store_v: FloatArray
    """Open-circuit voltage at the middle of each hour. [V]"""
    temperature_c: FloatArray
    connected: BoolArray
    cycles: float
    """Charge taken out in the year over the charge of a full store."""


@kept
def lived(case: Case) -> Lived:
    """What the store goes through in the settled year."""
    found = year_study(case)
    hours = int(found.seasons.year_s / HOUR_S + 1e-6)
    middle = HOUR_S * (np.arange(hours) + 0.5)
    volts, on, cycles = np.empty(hours), np.empty(hours, bool), 0.0
    which = np.searchsorted(found.seasons.edges_s, middle, side="right") - 1
    for k, run in enumerate(found.months):
        charge_c, some = run.trace.charge_at(middle[which == k] - run.part.begin_s)
        volts[which == k] = run.engine.field.voltage_at(charge_c)
        on[which == k] = some
        out_c = np.maximum(-np.diff(charge_c), 0.0).sum()
        cycles += float(out_c) / found.seasons.full_c(k)
    steps = (middle / found.year.step_s).astype(np.intp)
    return Lived(
        store_v=volts, temperature_c=found.year.temperature_c[steps], connected=on, cycles=cycles
    )


def wear_per_year(case: Case) -> float:
    """Wear of the store in a year like this one, of which 1 is its end of life."""
    gone = lived(case)
    return case.scenario.store.wear_per_year(gone.temperature_c, gone.store_v, gone.cycles)


def year_study(case: Case) -> YearStudy:
    """Run all that a verdict on a year needs; cases that differ in what is asked share it."""
    return case.once_under_any_margins(YEAR_STUDY, lambda: _studied(case))


def _studied(case: Case) -> YearStudy:
    months, seasons = seasons_of(case)
    year = case.year
    assert year is not None
    hung_s = hung_up_s(case.scenario, year)
    begin = seasons.month_at(hung_s)
    initial = seasons.engines[begin].initial_state()
    opening = seasons.march(seasons.year_s, initial, begin_s=hung_s)
    empty = Standing(charge_c=0.0, connected=False)
    first = first_charge(
        seasons, hung_s,
        opening if initial.charge_c <= float(seasons.engines[begin].field.charge_c[0]) else
        seasons.march(
            seasons.year_s, empty, begin_s=hung_s, stop_at=StopAt.FIRST_OPERATION
        ),
    )
    if isfinite(first.seconds):
        course = settled_year(seasons, opening)
    else:
        full = Standing(charge_c=seasons.full_c(0), connected=True, charging=False)
        course = settled_year(seasons, seasons.march(seasons.year_s, full))
    dark = year_gaps(case)
    runs = [
        MonthRun(
            month=month, engine=part.engine, part=part, trace=Trace(part.engine, part.run),
            gaps=_within(dark, month), in_the_dark=InTheDark(part.engine),
        )
        for month, part in zip(months, course.months, strict=True)
    ]
    return YearStudy(
        year=year, seasons=seasons, months=tuple(runs), hung_s=hung_s, opening=opening,
        first=first, course=course, gaps=dark,
    )


def first_charge(seasons: Seasons, hung_s: float, run: Chain) -> FirstCharge:
    """From the first light after the hanging-up to the end of the first start-up.

    Parameters
    ----------
    seasons : Seasons
        The year.
    hung_s : float
        Time of the year at which an empty store is hung up. [s]
    run : Chain
        A march from then.
    """
    light_s = _first_light(seasons, hung_s)
    done_s = run.first_operation_s
    highest, connects, connect_s = 0.0, 0.0, inf
    for part in run.parts:
        if part.begin_s > done_s:
            break
        for event in part.run.events:
            if event.kind == "connect" and part.begin_s + event.time_s <= done_s:
                connect_s = min(connect_s, part.begin_s + event.time_s - light_s)
        tries = part.run
        started = isfinite(tries.first_operation_s)
        connects += tries.first_connects if started else tries.tally.connects
        volts = seasons.engines[part.month].field.voltage_at
        top_c = max((leg.end_c for leg in part.run.legs), default=0.0)
        highest = max(highest, float(volts(top_c)))
    if done_s == inf:
        return FirstCharge(
            seconds=inf, connect_s=connect_s, connects=connects, stuck_v=highest,
            looked_s=run.span_s, end=run.end, end_s=hung_s + run.span_s,
        )
    return FirstCharge(
        seconds=max(done_s - light_s, 0.0), connect_s=max(connect_s, 0.0), connects=connects,
        stuck_v=0.0, looked_s=done_s, end=run.end, end_s=hung_s + done_s,
    )


def filled_after(case: Case, level_v: float | None = None) -> float:
    """From the first light after the hanging-up to a full store, the device held off. [s]

    Infinite where that takes more than `MOST_YEARS` years, or for ever.

    Parameters
    ----------
    case : Case
        A design in a year of daylight.
    level_v : float, optional
        Open-circuit voltage that counts as full; the charger's own when left out. [V]
    """
    assert case.year is not None
    whole, hung_s = seasons_of(case)[1], hung_up_s(case.scenario, case.year)
    seasons = Seasons([_unloaded(engine, level_v) for engine in whole.engines])
    state, passed = Standing(charge_c=0.0, connected=False), 0.0
    for _ in range(MOST_YEARS):
        run = seasons.march(seasons.year_s, state, begin_s=hung_s, stop_at=StopAt.FULL)
        passed += run.span_s
        if not run.end.charging:
            return max(passed - _first_light(seasons, hung_s), 0.0)
        if abs(run.end.charge_c - state.charge_c) <= STUCK * seasons.full_c(run.parts[-1].month):
            break
        state = run.end
    return inf


def _unloaded(engine: Engine, level_v: float | None) -> Engine:
    if level_v is None:
        return engine.unloaded()
    system = replace(engine.system, full_v=level_v)
    return Engine(system, library=TABLES, shares=SHARES).unloaded()


def _first_light(seasons: Seasons, from_s: float) -> float:
    """Time from a moment of the year to the next light; 0 where there is none. [s]"""
    passed, month = 0.0, seasons.month_at(from_s)
    into = max(from_s % seasons.year_s - seasons.edges_s[month], 0.0)
    for _ in range(len(seasons.engines) + 1):
        light = seasons.engines[month].system.light
        lit = (light.photocurrent_a > 0.0) & (light.edges_s[1:] > into)
        if lit.any():
            return float(passed + max(float(light.edges_s[:-1][lit][0]) - into, 0.0))
        passed += light.period_s - into
        month, into = (month + 1) % len(seasons.engines), 0.0
    return 0.0


def dark_stretches(seasons: Seasons) -> tuple[Gap, ...]:
    """Every stretch of the year in which the light brings nothing to the store."""
    brings = np.concatenate([np.asarray(e.charge_a) > 0.0 for e in seasons.engines])
    edges = [np.asarray(e.edges[:-1]) + at for e, at in
             zip(seasons.engines, seasons.edges_s[:-1], strict=True)]
    return tuple(gaps(brings, np.append(np.concatenate(edges), seasons.year_s)))


def year_gaps(case: Case) -> tuple[Gap, ...]:
    """The dark stretches of a case's year, for which nothing is marched."""
    return case.once_under_any_margins("gaps", lambda: dark_stretches(seasons_of(case)[1]))


def _within(dark: tuple[Gap, ...], month: Month) -> tuple[Gap, ...]:
    begin, end = month.begin_s, month.begin_s + month.length_s
    return tuple(
        Gap(begin_s=max(g.begin_s - begin, 0.0), length_s=g.length_s, stretch=g.stretch)
        for g in dark if begin <= g.begin_s < end or isinf(g.length_s)
    )


__all__ = [
    "Lived", "MonthRun", "YearStudy", "aged", "as_worn", "dark_stretches", "filled_after",
    "first_charge", "lived", "seasons_of", "wear_of", "wear_per_year", "year_gaps", "year_study",
]
