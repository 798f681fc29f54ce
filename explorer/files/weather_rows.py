"""What the rows of an EPW or TMY3 file say, hour by hour, before anything is made of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from explorer.files.disk import FileError
from explorer.physics.arrays import FloatArray
from explorer.scenario.weather import HOURS
from explorer.text import Text, figure, say


class WeatherError(FileError):
    """A weather file cannot be used; the text is one or more sentences."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One quantity of the rows."""

    key: str
    label: str
    low: float
    high: float
    missing_from: float = math.inf
    """Values from here on stand for a missing one."""
    tmy3: str = ""
    """Name of the column."""
    epw: int = 0
    """Place of the column, from 0."""


WANTED = (
    Wanted(key="global_w", label=say("global horizontal irradiance"), low=0.0, high=1600.0,
           missing_from=9999.0, tmy3="GHI (W/m^2)", epw=13),
    Wanted(key="normal_w", label=say("direct normal irradiance"), low=0.0, high=1600.0,
           missing_from=9999.0, tmy3="DNI (W/m^2)", epw=14),
    Wanted(key="diffuse_w", label=say("diffuse horizontal irradiance"), low=0.0, high=1600.0,
           missing_from=9999.0, tmy3="DHI (W/m^2)", epw=15),
    Wanted(key="global_lx", label=say("global horizontal illuminance"), low=0.0, high=250_000.0,
           missing_from=999_900.0, tmy3="GH illum (lx)", epw=16),
    Wanted(key="normal_lx", label=say("direct normal illuminance"), low=0.0, high=250_000.0,
           missing_from=999_900.0, tmy3="DN illum (lx)", epw=17),
    Wanted(key="diffuse_lx", label=say("diffuse horizontal illuminance"), low=0.0,
           high=250_000.0, missing_from=999_900.0, tmy3="DH illum (lx)", epw=18),
    Wanted(key="temperature_c", label=say("air temperature"), low=-90.0, high=70.0,
           missing_from=99.9, tmy3="Dry-bulb (C)", epw=6),
)  # fmt: skip
"""Marks of missing values are those of EPW; TMY3 writes -9900 for all of them."""
_TMY3_MISSING = -9900.0
_LEAP_YEAR, _YEAR = 2000, 2001


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherRows:
    """Values by key as they stand in the file, NaN where one is missing; shape (8760,) each."""

    values: dict[str, FloatArray]
    latitude_deg: float
    longitude_deg: float
    utc_offset_s: float
    name: str
    site: str
    left_out: int
    """Hours of a 29 February, which a calendar of its own may or may not have."""


def read_epw(lines: Sequence[str], name: str) -> WeatherRows:
    """Rows of an EPW file: eight lines of heads, then 35 columns in a fixed order."""
    head = lines[0].split(",")
    if len(head) < 10:
        raise _bad_head(name, 1)
    place = _place(name, 1, head[6], head[7], head[8])
    reader = _Reader(name, {w.key: w.epw for w in WANTED})
    for number, line in enumerate(lines[8:], start=9):
        if line.strip():
            cells = line.split(",")
            reader.row(number, cells, _moment(name, number, cells[1:4]))
    return reader.finished(place, site=head[1].strip())


def read_tmy3(lines: Sequence[str], name: str) -> WeatherRows:
    """Rows of a TMY3 file: a line about the station, a line of names, then the hours."""
    head = [cell.strip().strip('"') for cell in lines[0].split(",")]
    if len(head) < 6:
        raise _bad_head(name, 1)
    # A name may hold commas; what follows it is counted from the end.
    zone, latitude, longitude = head[-4:-1]
    place = _place(name, 1, latitude, longitude, zone)
    names = [cell.strip() for cell in lines[1].split(",")]
    for wanted in WANTED:
        if wanted.tmy3 not in names:
            raise WeatherError(
                say("{file}, line 2: there is no column {column}.", file=name, column=wanted.tmy3)
            )
    reader = _Reader(name, {w.key: names.index(w.tmy3) for w in WANTED})
    for number, line in enumerate(lines[2:], start=3):
        if line.strip():
            cells = line.split(",")
            month_day, hour = cells[0].split("/")[:2], (*cells, "")[1].split(":")[0]
            reader.row(number, cells, _moment(name, number, [*month_day, hour]))
    return reader.finished(place, site=head[1])


_Place = tuple[float, float, float]


class _Reader:
    """Takes row after row, each the hour after the one before it."""

    def __init__(self, name: str, columns: dict[str, int]) -> None:
        self._name, self._columns = name, columns
        self._values: dict[str, list[float]] = {key: [] for key in columns}
        self._due = 0
        self._left_out = 0
        self._last_line = 0

    def row(self, line: int, cells: Sequence[str], moment: tuple[int, int, int]) -> None:
        """Take the values of one hour."""
        self._last_line = line
        month, day, hour = moment
        if (month, day) == (2, 29):
            self._left_out += 1
            return
        found = (date(_YEAR, month, day) - date(_YEAR, 1, 1)).days * 24 + hour - 1
        if found != self._due or found >= HOURS:
            raise WeatherError(
                say(
                    "{file}, line {line}: expected {due}, found {found}. A weather year has every "
                    "hour once, from 1 January 01:00 to 31 December 24:00.",
                    file=self._name, line=line, due=_named(self._due), found=_named(found),
                )
            )
        for wanted in WANTED:
            self._values[wanted.key].append(self._value(line, cells, wanted))
        self._due += 1

    def _value(self, line: int, cells: Sequence[str], wanted: Wanted) -> float:
        place = self._columns[wanted.key]
        if place >= len(cells):
            raise WeatherError(
                say(
                    "{file}, line {line} has {n} columns; {quantity} should stand in column "
                    "{place}. The file may be cut off.",
                    file=self._name, line=line, n=len(cells), quantity=wanted.label,
                    place=place + 1,
                )
            )
        text = cells[place].strip()
        if not text:
            return math.nan
        try:
            value = float(text)
        except ValueError:
            value = math.inf
        if value == _TMY3_MISSING or wanted.missing_from <= value < math.inf:
            return math.nan
        if not wanted.low <= value <= wanted.high:
            raise WeatherError(
                say(
                    "{file}, line {line}, column {place}: {quantity} is {found}; {low} to {high} "
                    "is allowed.",
                    file=self._name, line=line, place=place + 1, quantity=wanted.label,
                    found=repr(text), low=figure(f"{wanted.low:g}"),
                    high=figure(f"{wanted.high:g}"),
                )
            )
        return value

    def finished(self, place: _Place, site: str) -> WeatherRows:
        """What was taken, once the year is whole."""
        if self._due != HOURS:
            raise WeatherError(
                say(
                    "{file} ends at line {line}, before {due}: it holds {n} hours of 8760. Fetch "
                    "the file again.",
                    file=self._name, line=self._last_line, due=_named(self._due), n=self._due,
                )
            )
        latitude, longitude, offset_h = place
        return WeatherRows(
            values={key: np.array(values) for key, values in self._values.items()},
            latitude_deg=latitude,
            longitude_deg=longitude,
            utc_offset_s=offset_h * 3600.0,
            name=self._name,
            site=site,
            left_out=self._left_out,
        )


def _moment(name: str, line: int, cells: Sequence[str]) -> tuple[int, int, int]:
    """Month, day and hour of a row, the hour from 1 to 24."""
    try:
        month, day, hour = (int(cell) for cell in cells)
        date(_LEAP_YEAR, month, day)
    except ValueError:
        hour = 0
    if not 1 <= hour <= 24:
        raise WeatherError(
            say(
                "{file}, line {line}: {found} is no month, day and hour from 1 to 24.",
                file=name, line=line, found=repr(" ".join(cell.strip() for cell in cells)),
            )
        )
    return month, day, hour


def _named(hour: int) -> Text:
    """An hour of the year in words."""
    day = date(_YEAR, 1, 1) + timedelta(days=hour // 24)
    return figure(f"{day:%m-%d} {hour % 24 + 1:02}:00")


def _place(name: str, line: int, latitude: str, longitude: str, zone: str) -> _Place:
    try:
        north, east, offset_h = float(latitude), float(longitude), float(zone)
    except ValueError:
        raise _bad_head(name, line) from None
    if not (abs(north) <= 90.0 and abs(east) <= 180.0 and abs(offset_h) <= 15.0):
        raise _bad_head(name, line)
    return north, east, offset_h


def _bad_head(name: str, line: int) -> WeatherError:
    return WeatherError(
        say(
            "{file}, line {line}: it should name the station, its latitude, longitude and hours "
            "ahead of UTC, parted by commas.",
            file=name, line=line,
        )
    )
