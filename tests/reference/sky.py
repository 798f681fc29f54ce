"""The light of a year at a place, worked out from the model note and without the product's own.

Sun: J. J. Michalsky, Solar Energy 40 (1988) 227, coefficients from memory, good to 0.01 degrees
until 2050. Clock and calendar: the standard library, quarter hour by quarter hour. The sky on a
plane: summed over patches of another size than the product's.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np

DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
STEP_S = 900.0
MOMENTS = (150.0, 450.0, 750.0)
"""Of a quarter hour, at which the sun is asked. [s]"""
AS_BRIGHT = {"clear": 0.89, "partly": 1.06, "overcast": 2.1}
"""What such skies had on average over the formulas; counts once a reading was taken."""
SKY_NAMES = {"clear": "clear", "partly_cloudy": "partly", "overcast": "overcast"}
RINGS = {  # ISO 15469 types 7 and 12: a, b of the gradation; c, d, e of the ring about the sun
    "clear": (-1.0, -0.32, 10.0, -3.0, 0.45), "partly": (0.0, -1.0, 5.0, -2.5, 0.30),
}  # fmt: skip


@dataclass
class Year:
    """Quarter hours from New Year by the clock on the wall."""

    begin: datetime
    day_lx: np.ndarray
    lamps_lx: np.ndarray
    celsius: np.ndarray


def sun(utc_s, latitude, longitude):
    """Elevation and azimuth. [deg]"""
    n = np.asarray(utc_s) / 86_400.0 + 2_440_587.5 - 2_451_545.0
    mean, g = 280.460 + 0.9856474 * n, np.radians(357.528 + 0.9856003 * n)
    ecliptic = np.radians(mean + 1.915 * np.sin(g) + 0.020 * np.sin(2.0 * g))
    tilt = np.radians(23.439 - 4e-7 * n)
    ascension = np.arctan2(np.cos(tilt) * np.sin(ecliptic), np.cos(ecliptic))
    declination = np.arcsin(np.sin(tilt) * np.sin(ecliptic))
    hour = (np.asarray(utc_s) % 86_400.0) / 3600.0
    sidereal_h = 6.697375 + 0.0657098242 * n + hour + longitude / 15.0
    angle = np.radians(15.0 * sidereal_h) - ascension
    phi = np.radians(latitude)
    up = np.sin(declination) * np.sin(phi) + np.cos(declination) * np.cos(phi) * np.cos(angle)
    north = np.sin(declination) * np.cos(phi) - np.cos(declination) * np.sin(phi) * np.cos(angle)
    east = -np.cos(declination) * np.sin(angle)
    return np.degrees(np.arcsin(np.clip(up, -1, 1))), np.degrees(np.arctan2(east, north)) % 360.0


def lifted(elevation):
    """Elevation as seen through the air; the almanac's own fit. [deg]"""
    e = np.maximum(elevation, -0.56)
    by = 3.51561 * (0.1594 + 0.0196 * e + 2e-5 * e**2) / (1.0 + 0.505 * e + 0.0845 * e**2)
    return np.where(elevation > -0.56, elevation + by, elevation)


def out_of_doors(sky, elevation):
    """Light of the sky on level ground, and of the sun on a plane that faces it. [lx]"""
    seen = lifted(elevation)
    h, up = np.maximum(seen, 0.0), seen > 0.0
    sine = np.sin(np.radians(h))
    mass = 1.0 / (sine + 0.50572 * (h + 6.07995) ** -1.6364)
    if sky == "overcast":
        return np.where(up, 300.0 + 21_000.0 * sine, 0.0), np.zeros_like(sine)
    if sky == "partly":
        return (
            np.where(up, 300.0 + 45_000.0 * sine, 0.0),
            np.where(up, 127_500.0 * np.exp(-0.80 * mass), 0.0),
        )
    return (
        np.where(up, 800.0 + 15_500.0 * np.sqrt(sine), 0.0),
        np.where(up, 127_500.0 * np.exp(-0.21 * mass), 0.0),
    )


def towards(place, elevation, away):
    """Cosine of directions to the panel's plane; 0 where something hides them. [deg]"""
    e, a, tilt = np.radians(elevation), np.radians(away), np.radians(place.tilt_deg)
    ahead = np.cos(e) * np.cos(a)
    cosine = np.cos(tilt) * np.sin(e) + np.sin(tilt) * ahead
    free = elevation > place.horizon_deg
    if place.overhang_deg is not None:
        free &= np.degrees(np.arctan2(np.sin(e), ahead)) < place.overhang_deg
    return np.where(free, np.maximum(cosine, 0.0), 0.0)


def share_of_sky(place, sky, elevation, away):
    """Light of the sky on the plane over that on level ground, for suns of shape (n,)."""
    band, piece = np.arange(1.0, 90.0, 2.0), np.arange(-176.0, 180.0, 8.0)
    e, a = (x.ravel() for x in np.meshgrid(band, piece, indexing="ij"))
    size, flat = np.cos(np.radians(e)), np.sin(np.radians(e))
    seen = towards(place, e, a)
    if sky == "overcast":
        bright = (1.0 + 2.0 * flat) * size
        return np.full(len(elevation), (bright @ seen) / (bright @ flat))
    grade_a, grade_b, c, d, power = RINGS[sky]
    bright = (1.0 + grade_a * np.exp(grade_b / flat)) * size
    out = np.empty(len(elevation))
    for k, (h, az) in enumerate(zip(np.radians(elevation), np.radians(away), strict=True)):
        near = np.sin(h) * flat + np.cos(h) * size * np.cos(np.radians(a) - az)
        chi = np.arccos(np.clip(near, -1.0, 1.0))
        ring = 1.0 + c * (np.exp(d * chi) - np.exp(d * np.pi / 2.0)) + power * near**2
        out[k] = ((ring * bright) @ seen) / ((ring * bright) @ flat)
    return out


def at_place(place, sky, elevation, azimuth):
    """Light at the panel's place. [lx]"""
    diffuse, normal = out_of_doors(sky, elevation)
    level = diffuse + normal * np.sin(np.radians(np.maximum(elevation, 0.0)))
    if place.kind == "indoors":
        return place.daylight_factor * (level if place.sun == "sky_and_sun" else diffuse)
    away = azimuth - place.azimuth_deg
    up = np.flatnonzero(diffuse > 0.0)
    share = np.zeros_like(diffuse)
    share[up] = share_of_sky(place, sky, np.maximum(elevation[up], 0.0), away[up])
    ground = place.ground_reflectance * (1.0 - np.cos(np.radians(place.tilt_deg))) / 2.0
    whole = diffuse * share + normal * towards(place, elevation, away) + ground * level
    return place.shade_factor * whole


def light_of(pattern):
    """The year of a pattern without a weather file."""
    zone = ZoneInfo(pattern.time_zone)
    first = datetime(pattern.year, 1, 1, tzinfo=zone).timestamp()
    last = datetime(pattern.year + 1, 1, 1, tzinfo=zone).timestamp()
    utc_s = np.arange(first, last, STEP_S)
    wall = [datetime.fromtimestamp(s, zone).replace(tzinfo=None) for s in utc_s.tolist()]
    skies, closed, shut = _days(pattern)
    days, lamps = np.zeros(len(wall)), np.zeros(len(wall))
    celsius = np.array([pattern.months[w.month - 1].mean_C for w in wall])
    factor, typical = _reading(pattern, zone)
    sky_of = np.array([skies[w.date()] for w in wall])
    for sky in AS_BRIGHT:
        some = np.flatnonzero(sky_of == sky)
        for into in MOMENTS:
            e, az = sun(utc_s[some] + into, pattern.latitude_deg, pattern.longitude_deg)
            days[some] += at_place(pattern.place, sky, e, az) / len(MOMENTS)
        days[some] *= factor * (AS_BRIGHT[sky] if typical else 1.0)
    for k, w in enumerate(wall):
        if w.date() in shut:
            days[k] = 0.0
        if w.date() in closed:
            continue
        begin = w.hour * 3600.0 + w.minute * 60.0
        for hours in pattern.lamps:
            if DAYS[w.weekday()] in hours.days:
                lit = min(begin + STEP_S, hours.to_h * 3600.0) - max(begin, hours.from_h * 3600.0)
                lamps[k] += max(lit, 0.0) / STEP_S * hours.illuminance_lx
    return Year(datetime(pattern.year, 1, 1), days, lamps, celsius)


def _days(pattern):
    """Sky of every date, dates without lamps, and those behind closed blinds."""
    skies, closed, shut = {}, set(), set()
    day = datetime(pattern.year, 1, 1).date()
    by_month = {m: [] for m in range(1, 13)}
    while day.year == pattern.year:
        by_month[day.month].append(day)
        for away in pattern.holidays:
            if _between(f"{day:%m-%d}", away.from_date, away.to_date):
                closed.add(day)
                if away.blinds == "blinds_closed":
                    shut.add(day)
        day += timedelta(days=1)
    for number, days in by_month.items():
        month = pattern.months[number - 1]
        clear = round(month.clear_share * len(days))
        partly = min(round(month.partly_share * len(days)), len(days) - clear)
        kinds = ["overcast"] * (len(days) - clear - partly) + ["partly"] * partly
        skies |= dict(zip(days, kinds + ["clear"] * clear, strict=True))
    return skies, closed, shut


def _between(day, first, last):
    """By month and day as text, which sorts as the calendar does."""
    return first <= day <= last if first <= last else day >= first or day <= last


def _reading(pattern, zone):
    """By what one reading multiplies the daylight, and whether skies count as they are."""
    reading = pattern.reading
    if reading.illuminance_lx is None:
        return 1.0, False
    when = datetime.fromisoformat(f"{pattern.year}-{reading.date}T{reading.time}")
    utc = when.replace(tzinfo=zone).astimezone(UTC).timestamp()
    sky = SKY_NAMES[reading.sky]
    e, az = sun(np.array([utc]), pattern.latitude_deg, pattern.longitude_deg)
    computed = float(at_place(pattern.place, sky, e, az)[0]) * AS_BRIGHT[sky]
    return reading.illuminance_lx / computed, True
