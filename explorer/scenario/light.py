"""The light at a place: how much, from what source, at which hours."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.fields import MOST_IN_A_LIST, MOST_LETTERS, Name, Section, choice, quantity
from explorer.scenario.hours import too_short
from explorer.scenario.weekdays import Weekday
from explorer.text import figure, say

Source = Literal[
    "led_2700",
    "led_3000",
    "led_4000",
    "led_5000",
    "led_6600",
    "led_violet",
    "fluorescent_cool",
    "fluorescent_5000",
    "fluorescent_4000",
    "incandescent",
    "daylight_glass",
    "daylight_open",
]
LEVELLED = ("log", "daylight")
"""Patterns that have a level of their own, so that the light level may be left empty."""
LightKnowledge = Literal["meter_at_panel", "phone_or_lamp_data", "guess"]


class LitBlock(Section):
    """Hours of the week at one light level, relative to the scenario's illuminance."""

    days: tuple[Weekday, ...] = choice(
        ("mon", "tue", "wed", "thu", "fri"), "Days", "Weekdays on which this block is lit."
    )
    from_h: float = quantity(8.0, "From", "h", 0, 24, "Hour of the day when the light comes on.")
    to_h: float = quantity(18.0, "To", "h", 0, 24, "Hour of the day when the light goes off.")
    relative_level: float = quantity(
        1.0, "Relative level", "", 0, 100, "Level of this block as a multiple of the illuminance."
    )
    daylight_share: float | None = quantity(
        None,
        "Daylight share",
        "",
        0,
        1,
        "Share of the lux that is daylight behind glass in this block. Empty: as for the place.",
    )

    @model_validator(mode="after")
    def _hours_in_order(self) -> LitBlock:
        if self.to_h <= self.from_h:
            raise ValueError(
                say(
                    "to_h ({end}) must be later than from_h ({start}); "
                    "split a block that passes midnight into two",
                    end=figure(f"{self.to_h:g}"),
                    start=figure(f"{self.from_h:g}"),
                )
            )
        if fault := too_short(self.from_h, self.to_h):
            raise ValueError(fault)
        if not self.days:
            raise ValueError(say("days must name at least one weekday"))
        return self


class SteadyPattern(Section):
    """The same light at every hour."""

    kind: Literal["steady"] = "steady"


class WeekPattern(Section):
    """A week of lit blocks that repeats; where blocks overlap their levels add."""

    kind: Literal["week"] = "week"
    blocks: Annotated[tuple[LitBlock, ...], Field(max_length=MOST_IN_A_LIST)] = choice(
        (LitBlock(),), "Lit periods", "Hours with light."
    )
    dark_days: tuple[Weekday, ...] = choice(
        (), "Dark days", "Weekdays on which the place stays dark whatever the blocks say."
    )


class LogPattern(Section):
    """A measured light log, repeated end to end."""

    kind: Literal["log"] = "log"
    file: Annotated[str, Field(max_length=10 * MOST_LETTERS)] = choice(
        "office_lux_1min.csv",
        "Log file",
        "Table with a time and a light, as loggers write it: a shipped log, or a path beside the "
        "scenario.",
    )
    gaps: Literal["dark", "hold"] = choice(
        "dark", "Long gaps", "Hours without a reading count as dark, or hold the last reading."
    )
    hold_steps: float = quantity(
        5.0,
        "Short gaps, steps",
        "",
        0,
        1000,
        "A gap of up to so many steps of the log holds the reading before it: loggers miss single "
        "readings.",
    )
    offset_lx: float = quantity(
        0.0,
        "Offset",
        "lx",
        0,
        10_000,
        "What the meter reads in full darkness; it is taken off every reading.",
    )
    dates: Literal["by_file", "dmy", "mdy", "ymd"] = choice(
        "by_file",
        "Dates",
        "Order of day, month and year where the dates of the file leave it open.",
    )
    decimal: Literal["by_file", "point", "comma"] = choice(
        "by_file",
        "Decimal mark",
        "Which mark parts decimals where 1,234 could be thousands; else the file decides.",
    )
    clock: Literal["by_file", "hours", "minutes"] = choice(
        "by_file",
        "Times such as 12:30",
        "Hours and minutes, or minutes and seconds, where the file does not tell.",
    )
    column: Annotated[str, Field(max_length=MOST_LETTERS)] = choice(
        "", "Column", "Heading or number of the column to take where several hold light."
    )


Pattern = Annotated[
    SteadyPattern | WeekPattern | LogPattern | DaylightPattern, Field(discriminator="kind")
]


MOST_PLACES = 12
"""Places kept beside a scenario (own judgement: a table that is read at a glance)."""


class Elsewhere(Section):
    """Another place that the device may be taken to, by its light."""

    name: Name = choice("Near the window", "Name", "What the place is called.")
    illuminance_lx: float = quantity(
        1300.0, "Illuminance", "lx", 1, 200_000, "Steady illuminance at that place."
    )
    source: Source = choice("daylight_glass", "Light source", "What lights that place.")


class Light(Section):
    """Light that reaches the panel."""

    illuminance_lx: float | None = quantity(
        300.0,
        "Illuminance",
        "lx",
        1.0,
        200_000.0,
        "Illuminance at the panel's place while it is lit, read with a lux meter that faces as "
        "the panel faces. With a measured log or daylight: the mean while lit; empty means as "
        "measured or computed.",
    )
    source: Source = choice(
        "led_4000",
        "Light source",
        "A lux meter reads what the eye sees; the source decides what a panel makes of it.",
    )
    daylight_share: float = quantity(
        0.0, "Daylight share", "", 0, 1, "Share of the lux that is daylight behind glass."
    )
    pattern: Pattern = choice(WeekPattern(), "Lighting times", "When the place is lit.")
    orientation_factor: float = quantity(
        1.0,
        "Orientation factor",
        "",
        0,
        2,
        "Light on the panel divided by light on the meter; 1 if the meter faced the same "
        "way. A wall often gets a third of what the desk gets.",
    )
    cover_factor: float = quantity(
        1.0, "Cover transmittance", "", 0, 1,
        "Share of the light that a window or lens lets through."
    )
    soiling_factor: float = quantity(
        1.0, "Soiling factor", "", 0, 1, "Share of the light left by dust on the panel."
    )
    known_by: LightKnowledge = choice(
        "meter_at_panel", "Light known by", "How the level was found; sets the required margin."
    )
    ambient_C: float = quantity(
        22.0, "Ambient temperature", "°C", -40, 85, "Air temperature at panel and store."
    )

    elsewhere: Annotated[tuple[Elsewhere, ...], Field(max_length=MOST_PLACES)] = choice(
        (), "Other places", "Lights of other places, for which charging and rates are told too."
    )

    @model_validator(mode="after")
    def _level_is_known(self) -> Light:
        if self.illuminance_lx is None and self.pattern.kind not in LEVELLED:
            raise ValueError(
                say("illuminance_lx may be empty only where the pattern is a log or daylight")
            )
        return self
