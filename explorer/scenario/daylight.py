"""Light of the sky through a year: where, which way, under which skies, and lamps beside it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, field_validator, model_validator

from explorer.physics.sky import Sky
from explorer.physics.sun import sun_position
from explorer.scenario.calendar import (
    clock_fault,
    date_fault,
    date_in_words,
    first_fault,
    utc_of,
    zone_fault,
)
from explorer.scenario.fields import Section, choice, quantity
from explorer.scenario.hours import too_short
from explorer.scenario.weekdays import Weekday
from explorer.text import figure, say


class SkyMonth(Section):
    """Sky and air of one month."""

    clear_share: float = quantity(
        0.0, "Clear", "", 0, 1, "Share of the days of this month with a clear sky."
    )
    partly_share: float = quantity(
        0.0,
        "Partly cloudy",
        "",
        0,
        1,
        "Share of the days with sun and clouds. All other days are overcast: 0 and 0 is the "
        "cautious choice.",
    )
    mean_C: float = quantity(
        22.0, "Ambient temperature", "°C", -60, 85,
        "Mean temperature at panel and store in this month."
    )
    swing_C: float = quantity(
        0.0, "Warmer and colder by", "°C", 0, 60,
        "By how much the warmest and the coldest hours of light lie above and below that mean.",
    )

    @model_validator(mode="after")
    def _shares_fit(self) -> SkyMonth:
        if self.clear_share + self.partly_share > 1.0 + 1e-9:
            raise ValueError(
                say(
                    "clear_share ({clear}) and partly_share ({partly}) must not exceed 1 together",
                    clear=self.clear_share,
                    partly=self.partly_share,
                )
            )
        return self


class Outdoors(Section):
    """The panel lies in the light of the sky itself."""

    kind: Literal["outdoors"] = "outdoors"
    tilt_deg: float = quantity(
        90.0,
        "Tilt",
        "°",
        0,
        180,
        "0 lies flat and looks up, 90 stands upright as on a wall, 180 looks down.",
    )
    azimuth_deg: float = quantity(
        0.0,
        "Faces",
        "°",
        0,
        360,
        "Direction that the panel faces: 0 north, 90 east, 180 south, 270 west.",
    )
    horizon_deg: float = quantity(
        0.0,
        "Horizon",
        "°",
        0,
        89,
        "Angle above level up to which houses, hills or trees hide the sky all around.",
    )
    overhang_deg: float | None = quantity(
        None,
        "Overhang",
        "°",
        1,
        180,
        "Angle above level, straight ahead of the panel, from which on a roof or balcony hides "
        "the sky. Empty: nothing hangs over.",
    )
    ground_reflectance: float = quantity(
        0.1,
        "Ground",
        "",
        0,
        1,
        "Share of the light on the ground that it throws back: grass and open ground about 0.2, "
        "snow 0.7, the shaded strip before a wall less.",
    )
    shade_factor: float = quantity(
        1.0,
        "Shade factor",
        "",
        0,
        1,
        "Share of the light left by leaves, awnings or shading cloth.",
    )
    glass: Literal["no_glass", "coated_glass"] = choice(
        "no_glass",
        "Behind glass",
        "Coated window glass takes away most of the infrared that crystalline cells live on. How "
        "much light it takes is the cover transmittance.",
    )


class Indoors(Section):
    """A place in a room, which gets a share of the light outside."""

    kind: Literal["indoors"] = "indoors"
    daylight_factor: float = quantity(
        0.01,
        "Daylight factor",
        "",
        0,
        1,
        "Light at the place over light out of doors on open level ground, under an overcast sky: "
        "0.05 by a window, 0.005 deep in a room. One reading beside the window sets it, see below.",
    )
    sun: Literal["sky_alone", "sky_and_sun"] = choice(
        "sky_alone",
        "Sunshine",
        "Whether sunshine in the room counts. A place that no sunbeam meets has the sky alone, "
        "which is the cautious choice.",
    )


Place = Annotated[Outdoors | Indoors, Field(discriminator="kind")]


class SkyReading(Section):
    """One reading of a lux meter, which sets the light of the whole year."""

    illuminance_lx: float | None = quantity(
        None,
        "Reading",
        "lx",
        0.1,
        200_000,
        "What a lux meter read that faced as the panel faces, with the lamps off. Empty: no "
        "reading was taken, and the year counts as computed.",
    )
    date: str = choice(
        "05-12", "Date of the reading", "Month and day, two figures each: 05-12 is 12 May."
    )
    time: str = choice(
        "14:10", "Time of the reading", "Hour and minute by the clock on the wall."
    )
    sky: Sky = choice(
        "overcast",
        "Sky at the reading",
        "What the sky was like. A clear sky differs least from one day to the next, an overcast "
        "one most.",
    )

    @model_validator(mode="after")
    def _moment_is_one(self) -> SkyReading:
        first_fault((date_fault("date", self.date), clock_fault("time", self.time)))
        return self


class LampHours(Section):
    """Hours of the week with electric light beside the daylight."""

    days: tuple[Weekday, ...] = choice(
        ("mon", "tue", "wed", "thu", "fri"), "Days", "Weekdays on which these lamps are lit."
    )
    from_h: float = quantity(8.0, "From", "h", 0, 24, "Hour of the day when the lamps come on.")
    to_h: float = quantity(18.0, "To", "h", 0, 24, "Hour of the day when the lamps go off.")
    illuminance_lx: float = quantity(
        200.0,
        "Lamp light",
        "lx",
        0,
        200_000,
        "What the lamps alone give at the panel's place; read it after dark.",
    )

    @model_validator(mode="after")
    def _hours_in_order(self) -> LampHours:
        if self.to_h <= self.from_h:
            raise ValueError(
                say(
                    "to_h ({end}) must be later than from_h ({start}); "
                    "split hours that pass midnight into two",
                    end=self.to_h,
                    start=self.from_h,
                )
            )
        if fault := too_short(self.from_h, self.to_h):
            raise ValueError(fault)
        if not self.days:
            raise ValueError(say("days must name at least one weekday"))
        return self


DATE_KEYS = frozenset({"date", "from_date", "to_date", "hung_up"})
"""Fields that hold a date as month and day, two figures each."""


class Holidays(Section):
    """Days on which nobody is there."""

    from_date: str = choice(
        "12-24", "First day", "Month and day, two figures each: 12-24 is 24 December."
    )
    to_date: str = choice(
        "01-06", "Last day", "Month and day; a range may pass New Year. Both days count."
    )
    blinds: Literal["blinds_open", "blinds_closed"] = choice(
        "blinds_open",
        "Daylight meanwhile",
        "Lamps stay off on holidays. Behind closed blinds or shutters it is dark by day, too.",
    )

    @model_validator(mode="after")
    def _dates_are_dates(self) -> Holidays:
        first_fault(
            (date_fault("from_date", self.from_date), date_fault("to_date", self.to_date))
        )
        return self


class DaylightPattern(Section):
    """A year of daylight, repeated."""

    kind: Literal["daylight"] = "daylight"
    year: int = quantity(
        2026, "Calendar of", "", 1970, 2100, "Year whose weekdays and dates count."
    )
    latitude_deg: float = quantity(
        50.0, "Latitude", "°", -90, 90, "North is positive, south negative."
    )
    longitude_deg: float = quantity(
        10.0, "Longitude", "°", -180, 180, "East of Greenwich is positive, west negative."
    )
    time_zone: str = choice(
        "Europe/Berlin",
        "Time zone",
        "Name of the IANA data base; it knows when clocks change. Etc/UTC never changes.",
    )
    place: Place = choice(Outdoors(), "Where the panel is", "Out of doors, or in a room.")
    weather_file: str = choice(
        "",
        "Weather file",
        "A year of weather beside the scenario, as EPW or TMY3. Its place and its temperatures "
        "count. Empty: the skies and temperatures of the months below.",
    )
    months: tuple[SkyMonth, ...] = choice(
        (SkyMonth(),) * 12,
        "Months",
        "Skies and temperatures from January to December. The overcast days of a month come in "
        "one row.",
    )
    reading: SkyReading = choice(
        SkyReading(), "One reading", "A reading on a known day sets the light of the year."
    )
    lamps: tuple[LampHours, ...] = choice((), "Lamps", "Electric light beside the daylight.")
    holidays: tuple[Holidays, ...] = choice((), "Holidays", "Dates on which lamps stay off.")
    hung_up: str = choice(
        "01-01",
        "Hung up on",
        "Month and day on which the device is hung up, at noon: Starts is judged from then.",
    )

    @field_validator("months")
    @classmethod
    def _twelve(cls, months: tuple[SkyMonth, ...]) -> tuple[SkyMonth, ...]:
        if len(months) != 12:
            raise ValueError(
                say(
                    "months must hold 12 entries, January to December; found {n}", n=len(months)
                )
            )
        return months

    @model_validator(mode="after")
    def _names_are_known(self) -> DaylightPattern:
        first_fault((zone_fault(self.time_zone), date_fault("hung_up", self.hung_up)))
        return self

    @model_validator(mode="after")
    def _reading_is_by_day(self) -> DaylightPattern:
        """A weather file may lie elsewhere; whether its sun was up is told by the year's light."""
        reading = self.reading
        if reading.illuminance_lx is None or self.weather_file:
            return self
        moment_s = utc_of(self.year, reading.date, reading.time, self.time_zone)
        sun = sun_position(moment_s, self.latitude_deg, self.longitude_deg)
        if sun.elevation_deg <= 0.0:
            raise ValueError(
                say(
                    "reading: on {date} at {time} the sun is down, so a reading says nothing about "
                    "daylight; check date, time, latitude, longitude and time_zone",
                    date=date_in_words(reading.date),
                    time=figure(reading.time),
                )
            )
        return self
