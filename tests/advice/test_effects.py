"""Every field counts: another value of it changes a check, an answer, a threshold or a mark.

`tests/scenario/test_idle.py` asks whether a value reaches the system that is built; here it is
asked whether anything is done with it there.
"""

from functools import cache
from itertools import product

import pytest

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.scenario.daylight import (
    DaylightPattern,
    Holidays,
    Indoors,
    LampHours,
    Outdoors,
    SkyMonth,
    SkyReading,
)
from explorer.scenario.demand import Load, Operation, Phase, Regulator
from explorer.scenario.fields import Section, describe
from explorer.scenario.light import Elsewhere, Light, LogPattern
from explorer.scenario.measured import MeasuredValue
from explorer.scenario.model import Margins, Names, Scenario, first_scenario, get_value, with_values
from explorer.scenario.origin import PartOrigin
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import SheetPoint
from explorer.scenario.year_light import year_light
from tests.every_field import all_fields

SHEET = {
    "illuminance_lx": 200.0, "source": "led_4000", "short_circuit_A": 5e-5, "open_circuit_V": 4.0,
    "max_power_A": 4e-5, "max_power_V": 3.1,
}  # fmt: skip
ROWS = ({"input_W": 1e-5, "efficiency": 0.6}, {"input_W": 1e-3, "efficiency": 0.9})
ROWS = tuple({**row, "store_V": volts} for volts, row in product((2.0, 4.0), ROWS))
UNEVEN = {"kind": "capacitor", "capacitance_F": 0.1, "units_in_series": 2, "rated_V": 2.6,
          "leakage_A": 0.0}  # fmt: skip
LEAN = {"condition": "first_days", "balancing": "resistors", "balancing_A": 1e-5, "rated_V": 2.6}
ASKED = {
    "operations_per_charge": 10.0, "operations_per_hour": 10.0, "fill_within_h": 50.0,
    "rate_light_lx": 400.0, "fill_light_lx": 400.0, "dark_days": 2.0, "store_years": 5.0,
}  # fmt: skip
RUN, WAY = "load.operations.0.phases.0", "load.operations.0.schedule"
DESIGNS = tuple(
    with_values(first_scenario(), changes)
    for changes in (
        {},
        {"store": {"kind": "capacitor", "capacitance_F": 0.1}, f"{WAY}.to_h": 12.0},
        {"store": UNEVEN},
        {"store": {"kind": "cell"}, "charger.full_V": 4.1, "load.connect_V": 3.8},
        {f"store.{key}": value for key, value in LEAN.items()},
        {"charger": {"kind": "direct"}},
        {"charger.efficiency_table": ROWS},
        {"load.regulator.kind": "linear", f"{RUN}.current_A": None, f"{RUN}.power_W": 0.01},
        {"load.regulator.kind": "switching"},
        {f"{WAY}": {"kind": "when_ready"}, f"{RUN}.current_A": None, f"{RUN}.resistance_ohm": 99.0},
        {"load.operations.0.schedule": {"kind": "until_empty"}},
        {"panels.data_sheet": (SHEET,), "load.indicator_V": 4.0},
        {f"margins.{key}": value for key, value in ASKED.items()},
    )
)
"""Together they have every section in every kind, and every choice that wakes a field."""
SITUATIONS = (
    {},
    {"light.ambient_C": -5.0, "store.years_in_service": 4.0, "light.illuminance_lx": 20.0},
    {"light.ambient_C": 5.0, "light.illuminance_lx": 50_000.0},
)
LIKELY = {
    SupercapacitorStore: ((1, 0), (0, 4), (0, 12)), CapacitorStore: ((1, 1), (0, 2)),
    Regulator: ((0, 7), (0, 8)), Margins: ((0, 12), (0, 3)),
}  # fmt: skip
"""Situations and designs that are awake to most fields of a section: they are tried first."""
NOT_HERE = {
    "a text": {(Scenario, key) for key in ("format", "version", "title", "place", "notes")}
    | {(Phase, "name"), (Operation, "name")}
    | {(owner, key) for owner in (Names, PartOrigin, MeasuredValue) for key in owner.model_fields},
    "other cells in series ask for other thresholds": {(CellStore, "cells_in_series")},
    "below, in its own light": all_fields(DaylightPattern),
    "tests/files/test_logs.py": {(LogPattern, key) for key in LogPattern.model_fields},
    "tests/files/test_measured_curves.py": {(SheetPoint, "measured_V"), (SheetPoint, "measured_A")},
    "tests/test_board_and_places.py": {(Elsewhere, key) for key in Elsewhere.model_fields},
}
"""What cannot be asked so: why, or who looks at it instead."""
FIELDS = sorted(
    (field for field in all_fields() - set().union(*NOT_HERE.values()) if field[1] != "kind"),
    key=lambda field: (field[0].__name__, field[1]),
)

NOT_IN_THE_BATCH = {
    "what is wanted, not what is reached": {(Light, "known_by"), (Margins, "design_margin")},
    "of the trace alone": {(CellStore, "initial_charge")},
    "a danger, not a margin": {(Load, "actuator")},
    "of devices that fail again and again": {(Load, "retry_delay_s")},
    "a place that the march knows alone": {(Load, "indicator_share")},
}  # fmt: skip
OF_THE_BATCH = [f for f in FIELDS if f not in set().union(*NOT_IN_THE_BATCH.values())]
OF_A_YEAR = sorted(
    all_fields(DaylightPattern)
    - {(DaylightPattern, "kind"), (Outdoors, "kind"), (Indoors, "kind")}
    - {(DaylightPattern, "hung_up"), (DaylightPattern, "weather_file"), (SkyMonth, "swing_C")},
    key=lambda field: (field[0].__name__, field[1]),
)
"""What makes the light of a year. The swing of a day and when it begins are looked at by
tests/advice/test_year.py, a file of weather by tests/scenario/test_year_light.py."""
TEXTS = {
    "date": "06-20", "from_date": "06-20", "to_date": "07-20", "time": "10:00",
    "time_zone": "Etc/UTC",
}  # fmt: skip
FAIR = SkyMonth(clear_share=0.3, partly_share=0.3)
YEARS = tuple(
    DaylightPattern(
        place=place, lamps=(LampHours(),), reading=reading, months=(FAIR,) * 12,
        holidays=(Holidays(from_date="06-25", to_date="07-15"),),
    )
    for place in (Outdoors(tilt_deg=60.0), Indoors(sun="sky_and_sun"))
    for reading in (SkyReading(), SkyReading(illuminance_lx=500.0))
)  # fmt: skip


def name(part):
    """How a test is called after a section or a key."""
    return getattr(part, "__name__", part)


@cache
def told(number, changes):
    """What is told of a design in a situation, or None where that is not allowed."""
    try:
        found = assess(Case(with_values(DESIGNS[number], dict(changes))))
    except ValueError:
        return None
    return repr((found.verdict.checks, found.verdict.hazards, found.answers, found.thresholds,
                 found.marks))  # fmt: skip


def places(part, owner, key, head=""):
    """Paths of a field wherever it stands below a section."""
    if type(part) is owner and key in owner.model_fields:
        yield f"{head}{key}"
    for name in type(part).model_fields:
        inner = getattr(part, name)
        if isinstance(inner, Section):
            yield from places(inner, owner, key, f"{head}{name}.")
        elif isinstance(inner, tuple):
            for index, item in enumerate(inner):
                if isinstance(item, Section):
                    yield from places(item, owner, key, f"{head}{name}.{index}.")


def other_values(owner, key, value):
    field = describe(owner, key)
    if isinstance(value, tuple):
        return (("mon",), ("tue", "wed"))
    if key in TEXTS:
        return (TEXTS[key],)
    if isinstance(value, str):
        return tuple(w for w in owner.model_fields[key].annotation.__args__ if w != value)
    if value is None:
        tries = (0.01, 0.5, 1.5, 3.0)
    elif isinstance(value, int):
        tries = (value + 1, value + 3)
    else:
        tries = (3 * value, 1.1 * value, 0.5 * value, value + 0.01, value + 6.0, 0.01 * value)
    return tuple(one for one in tries if field.low <= one <= field.high and one != value)


def tried_on_designs(of, owner, key):
    """What `of` makes of each design that has the field, and of it with another value."""
    likely = LIKELY.get(owner, ())
    everywhere = product(range(len(SITUATIONS)), range(len(DESIGNS)))
    for place in (*likely, *(place for place in everywhere if place not in likely)):
        before, number = tuple(SITUATIONS[place[0]].items()), place[1]
        for path in places(DESIGNS[number], owner, key):
            for value in other_values(owner, key, get_value(DESIGNS[number], path)):
                pair = of(number, before), of(number, (*before, (path, value)))
                if None not in pair:
                    yield pair


@pytest.mark.parametrize(("owner", "key"), FIELDS, ids=name)
def test_another_value_changes_what_is_told(owner, key):
    tried = False
    for one, other in tried_on_designs(told, owner, key):
        tried = True
        if one != other:
            return
    assert tried, f"{owner.__name__}.{key}: no other value is allowed in DESIGNS; add one with it"
    pytest.fail(
        f"{owner.__name__}.{key} changes no check and no answer: physics, engine or advice must do "
        "something with it (explorer/scenario hands it on), or NOT_HERE says who looks at it"
    )


@cache
def read_by_the_batch(number, changes):
    """What the batch engine reads of the same, or None where that is not allowed."""
    try:
        found = fleet(Case(with_values(DESIGNS[number], dict(changes))), {})
    except ValueError:
        return None
    read = found.readings
    rows = (read.brought_w, read.taken_w, read.ready_s, read.dark.lasts_s, read.served,
            *found.margins.values())  # fmt: skip
    return (*(row.tobytes() for row in rows), repr(read.required))


@pytest.mark.parametrize(("owner", "key"), OF_THE_BATCH, ids=name)
def test_another_value_changes_what_the_batch_reads(owner, key):
    assert any(one != other for one, other in tried_on_designs(read_by_the_batch, owner, key)), (
        f"{owner.__name__}.{key} counts in the exact march and not in engine/many and what reads "
        "it: a sweep would pass over it, or NOT_IN_THE_BATCH says why it is not read there"
    )


@cache
def light_of(pattern):
    """The light and the temperatures of a year step by step, and the spectra that they have."""
    found = year_light(Light(pattern=pattern, illuminance_lx=None))
    hours = (found.daylight_lx, found.electric_lx, found.temperature_c)
    spectra = (found.daylight_source, found.electric_source)
    return (*(row.tobytes() for row in hours), *spectra, found.clock.start)


@pytest.mark.parametrize(("owner", "key"), OF_A_YEAR, ids=name)
def test_another_value_changes_the_light_of_a_year(owner, key):
    tried = 0
    for pattern in YEARS:
        design = with_values(first_scenario(), {"light.pattern": pattern.model_dump()})
        for path in places(design, owner, key):
            for value in other_values(owner, key, get_value(design, path)):
                try:
                    changed = with_values(design, {path: value}).light.pattern
                except ValueError:
                    continue
                tried += 1
                if light_of(changed) != light_of(pattern):
                    return
    assert tried, f"{owner.__name__}.{key}: no other value is allowed in YEARS; add one with it"
    pytest.fail(
        f"{owner.__name__}.{key} changes no hour of a year: scenario/year_light.py must do "
        "something with it, or OF_A_YEAR leaves it out and says who looks at it"
    )
