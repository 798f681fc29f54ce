"""Scenarios from the corners of every range: whatever a file may hold, sensible or not."""

import random
import types
from math import exp, log
from typing import Annotated, Literal, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.fields import describe
from explorer.scenario.model import Scenario
from explorer.scenario.year_light import year_light

KINDS = ("current_A", "power_W", "resistance_ohm")
DATES = ("01-01", "02-29", "06-21", "12-31")
WORDS = {
    "time_zone": ("Etc/UTC", "Europe/Berlin", "Australia/Lord_Howe", "Pacific/Kiritimati"),
    "date": DATES, "from_date": DATES, "to_date": DATES, "hung_up": DATES,
    "time": ("00:00", "12:00", "23:59"), "weather_file": ("",),
}  # fmt: skip
"""Texts that a calendar takes, by key; any other text is a name."""


def corner_scenario(seed):
    """A scenario that the model takes, without log and data sheet; the same for the same seed."""
    chance = random.Random(seed)
    for _ in range(1000):
        data = _section(chance, Scenario, chance.choice((0.3, 0.6, 0.8, 0.9)))
        if data["light"]["pattern"]["kind"] == "log":
            data["light"]["pattern"] = {"kind": "steady"}
        if data["light"]["illuminance_lx"] is None:
            data["light"]["illuminance_lx"] = 300.0
        _put_in_order(chance, data)
        try:
            return Scenario.model_validate(data)
        except ValidationError:
            continue  # contradicts itself: another one
    raise AssertionError("no valid scenario in a thousand trials")


def corner_year(seed):
    """The same in a year of daylight from the corners of its own ranges."""
    chance, scenario = random.Random(seed), corner_scenario(seed)
    for _ in range(1000):
        pattern = _section(chance, DaylightPattern, chance.choice((0.3, 0.6, 0.9)))
        data = scenario.model_dump()
        data["light"] |= {"pattern": pattern, "illuminance_lx": chance.choice((None, 20.0, 3e4))}
        try:
            made = Scenario.model_validate(data)
            year_light(made.light)
        except ValueError:  # contradicts itself, or was read where no daylight is
            continue
        return made
    raise AssertionError("no valid year in a thousand trials")


def _put_in_order(chance, data):
    """Thresholds and intervals that do not contradict each other, most of the time."""
    charger, load = data["charger"], data["load"]
    full = charger["full_V"]
    low, high = sorted((chance.random(), chance.random()))
    load["connect_V"], load["disconnect_V"] = max(0.05, full * high), full * low
    room = full - load["disconnect_V"]
    charger["full_hysteresis_V"] = min(5.0, max(0.001, chance.choice((0.01, 0.1, 0.9)) * room))
    for operation in load["operations"]:
        every = operation["schedule"]
        total = sum(phase["duration_s"] for phase in operation["phases"])
        if every["kind"] == "every" and total >= every["interval_s"]:
            every["interval_s"] = min(8.64e6, total * chance.choice((1.0000001, 1.5, 10.0)))


def _section(chance, section, plain):
    """Values by key, of which the share `plain` keep their default.

    Each key has lots of its own: a new field leaves a seed's scenario as it is in all others.
    """
    data, number = {}, chance.getrandbits(64)
    for key, field in section.model_fields.items():
        lots = random.Random(f"{number} {key}")
        if key == "data_sheet" or lots.random() < plain:
            data[key] = _dumped(field.get_default(call_default_factory=True))
        else:
            data[key] = _value(lots, section, key, field.annotation, plain)
    if section.__name__ == "Phase":
        kept = chance.choice(KINDS)
        data |= {k: _number(chance, section, k) if k == kept else None for k in KINDS}
    return data


def _value(chance, section, key, kind, plain):
    origin = get_origin(kind)
    if origin is Annotated:
        return _value(chance, section, key, get_args(kind)[0], plain)
    if origin is Literal:
        return chance.choice(get_args(kind))
    if origin in (Union, types.UnionType):
        chosen = chance.choice([one for one in get_args(kind) if one is not DaylightPattern])
        return None if chosen is type(None) else _value(chance, section, key, chosen, plain)
    if origin is tuple and key == "months":
        return [_section(chance, get_args(kind)[0], plain) for _ in range(12)]
    if origin is tuple:
        item = get_args(kind)[0]
        if get_origin(item) is Annotated:
            item = get_args(item)[0]
        if item is str:
            return ["x"] * chance.choice((0, 1, 3))
        if get_origin(item) is Literal:
            return chance.sample(get_args(item), chance.randint(1, len(get_args(item))))
        return [_section(chance, item, plain) for _ in range(chance.choice((0, 1, 1, 2, 3)))]
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return _section(chance, kind, plain)
    if kind is int:
        return round(_number(chance, section, key))
    if kind is float:
        return _number(chance, section, key)
    return chance.choice(WORDS.get(key, ("x",)))


def _number(chance, section, key):
    """An end of the range, a value near the usual one, or any decade of the range."""
    info = describe(section, key)
    low, high, where = info.low, info.high, chance.random()
    if where < 0.24 or high <= 0.0:
        return chance.choice((low, high))
    if where < 0.5 and isinstance(info.default, int | float) and info.default:
        value = info.default * exp(chance.gauss(0.0, 1.0))
    elif where < 0.85:
        least = max(low, 1e-9 * high)
        value = exp(chance.uniform(log(least), log(high)))
    else:
        value = chance.uniform(low, high)
    return min(max(value, low), high)


def _dumped(value):
    if isinstance(value, BaseModel):
        return value.model_dump()
    if isinstance(value, tuple):
        return [_dumped(item) for item in value]
    return value
