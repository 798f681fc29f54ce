"""What a person may answer to the guide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PlaceKey = Literal[
    "corridor", "stairs", "hall", "desk", "meeting_room", "shelf", "shop", "machine",
    "living_room", "dark_corner", "cupboard", "worn",
    "window", "skylight", "facade", "eaves", "elsewhere",
]  # fmt: skip
LightKey = Literal["usual", "measured", "unknown"]
SeasonKey = Literal["winter", "milder"]
RegionKey = Literal[
    "far_north", "north", "mild", "warm", "tropics", "south", "unknown", "latitude"
]
FacingKey = Literal["south", "side", "north", "unknown"]
JobKey = Literal[
    "show", "report_near", "report_far", "count", "sense_co2", "lock", "lamp", "camera", "tracker",
    "valve", "motor", "other",
]  # fmt: skip
BatteryKey = Literal["coin", "two_aaa", "two_aa", "four_aa", "pocket", "unknown"]
LastsKey = Literal["day", "week", "month", "half_year", "year", "three_years"]
OftenKey = Literal["minute", "ten_minutes", "hour", "six_hours", "day"]
WhenKey = Literal["always", "light", "people"]
DarkKey = Literal["usual", "long_weekend", "closure", "summer"]
MattersKey = Literal["smallest", "never_fails", "cheapest", "soon"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """One answer to each question; those that are not asked stand as they are."""

    place: PlaceKey = "desk"
    season: SeasonKey = "winter"
    """Asked where there is a window or a sky."""
    region: RegionKey = "unknown"
    """Asked with the next where such a place is judged over the year."""
    latitude_deg: float | None = None
    """North is positive. [deg]"""
    light: LightKey = "usual"
    lux: float | None = None
    """Measured where the panel will be, facing as it will face. [lx]"""
    measured_month: int = 3
    """Month of that reading at midday under a dull sky, where a year of daylight is judged."""
    hours: tuple[float, float] | None = None
    """Lit from and to, where that is known. [h]"""
    saturday: bool | None = None
    """Whether the lamps are on on Saturdays; None as such places usually are."""
    sunday: bool | None = None
    facing: FacingKey = "unknown"
    """Asked where an upright panel sees the sky and nothing was measured."""
    job: JobKey = "report_near"
    battery: BatteryKey = "two_aa"
    """Asked, with the next, where no job of the list fits."""
    lasts: LastsKey = "year"
    often: OftenKey = "ten_minutes"
    when: WhenKey = "always"
    dark: DarkKey = "usual"
    matters: MattersKey = "cheapest"

    @property
    def measured_lux(self) -> float | None:
        """What a meter read, where one did. [lx]"""
        return self.lux if self.light == "measured" else None

    @property
    def unknowable(self) -> bool:
        """Whether nobody could answer: the light or the device is not known at all."""
        unmeasured = self.place == "elsewhere" and self.measured_lux is None
        no_light = self.light == "unknown" or unmeasured
        return no_light or (self.job == "other" and self.battery == "unknown")
