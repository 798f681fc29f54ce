"""Drawn years of daylight: place, skies, calendar, lamps, holidays, and a device to live in them.

Devices are those of `strategy`, with stores that hold for hours to weeks; most do little in a day,
so that a year can be stepped.
"""

from datetime import date

from pydantic import ValidationError

from explorer.scenario.model import Scenario
from tests.reference import strategy
from tests.reference.device import DAYS
from tests.reference.strategy import Fortune, Lots

PLACES = (
    ("Europe/Berlin", 52.0, 9.0), ("Etc/UTC", 0.0, 0.0), ("Australia/Adelaide", -34.9, 138.6),
    ("America/Denver", 39.7, -105.2), ("Europe/Helsinki", 64.5, 26.0),
    ("Asia/Kathmandu", 27.7, 85.3), ("America/Santiago", -33.4, -70.7),
)  # fmt: skip
LIT = ("lamps", "lamps", "daylight", "both")
WEEK_S = 604_800.0
SELDOM = 8.0
"""Times as seldom as in a week that an operation runs, at most so often as there."""


def pattern(d, kind, lux):
    """A year of light: of lamps alone, whose levels are few, of daylight, or of both."""
    zone, latitude, longitude = d.one(*PLACES)
    swing, middle = d.between(0.0, 14.0), d.between(2.0, 26.0)
    warmest = 6 if latitude >= 0 else 0
    months = [_month(d, middle + swing * _season(m, warmest)) for m in range(12)]
    lamps = [] if kind == "daylight" else [
        {
            "days": d.one(DAYS, DAYS[:5], ("mon", "thu")), "from_h": d.one(0.0, 6.1, 8.0),
            "to_h": d.one(9.0, 18.0, 23.5, 24.0), "illuminance_lx": lux,
        }
    ]
    return {
        "kind": "daylight", "year": d.one(2026, 2027, 2028), "latitude_deg": latitude,
        "longitude_deg": longitude, "time_zone": zone,
        "place": _place(d, kind, lux), "months": months, "lamps": lamps,
        "holidays": [_holiday(d) for _ in range(d.one(0, 1, 2))],
        "hung_up": f"{d.whole(1, 12):02d}-{d.whole(1, 28):02d}",
    }


def _season(month, warmest):
    apart = min((month - warmest) % 12, (warmest - month) % 12)
    return 1.0 - apart / 3.0


def _month(d, mean):
    clear, partly = d.one(0.0, 0.1, 0.3), d.one(0.0, 0.2, 0.5)
    return {
        "clear_share": clear, "partly_share": partly, "mean_C": round(mean, 1),
        "swing_C": d.one(0.0, 0.0, 4.0),
    }


def _place(d, kind, lux):
    if kind == "lamps":
        return {"kind": "indoors", "daylight_factor": 0.0}
    if d.chance(60):
        return {
            "kind": "indoors", "daylight_factor": min(lux / 8000.0, 1.0),
            "sun": d.one("sky_alone", "sky_and_sun"),
        }
    return {
        "kind": "outdoors", "tilt_deg": d.one(0.0, 35.0, 90.0),
        "azimuth_deg": d.one(0.0, 135.0, 180.0), "horizon_deg": d.one(0.0, 15.0),
        "overhang_deg": d.one(None, 60.0),
        "shade_factor": min(lux / 6000.0, 1.0), "glass": d.one("no_glass", "coated_glass"),
    }  # fmt: skip


def _holiday(d):
    begin = date(2027, d.whole(1, 12), d.whole(1, 28))
    end = date.fromordinal(begin.toordinal() + d.whole(0, 20))
    return {
        "from_date": f"{begin:%m-%d}", "to_date": f"{end:%m-%d}",
        "blinds": d.one("blinds_open", "blinds_closed"),
    }


def numbered_year(number, kinds=LIT):
    """The scenario of a number; it lives in a year of daylight."""
    d = Lots(1_000_003 * (number + 1))
    while True:
        try:
            return Scenario.model_validate(_drawn(d, kinds[number % len(kinds)]))
        except ValidationError:
            continue


def _drawn(d, kind):
    fortune = Fortune(kind=d.chance(70))
    lux = d.log(100.0, 2000.0)
    light = {
        "illuminance_lx": d.one(None, lux), "source": d.one(*strategy.SOURCES),
        "soiling_factor": d.one(1.0, 0.9), "pattern": pattern(d, kind, lux),
    }
    store = d.one("capacitor", "supercapacitor", "supercapacitor", "cell")
    volts = strategy._cell_volts(d) if store == "cell" else strategy._bank_volts(d)
    harvest_a = d.log(3e-6, 3e-3)
    held_c = harvest_a * d.log(6000.0, 600_000.0)
    mean_a = 0.3 * harvest_a
    charger = strategy._charger(d, fortune, volts, harvest_a)
    panels = strategy._panels(d, fortune, {**light, "illuminance_lx": lux}, charger, volts["full"],
                              harvest_a)  # fmt: skip
    load, largest_a = strategy._load(d, fortune, volts, held_c, mean_a, SELDOM * WEEK_S)
    load |= {"connect_V": volts["connect"], "disconnect_V": volts["off"], "reserve_J": 0.0}
    for operation in load["operations"]:
        schedule = operation["schedule"]
        if schedule["kind"] == "every" and "days" in schedule and d.chance(50):
            schedule["days"] = DAYS[:5]
    bank = strategy._store(d, fortune, store, volts, held_c, harvest_a, largest_a)
    bank["years_in_service"] = 0.0
    return {
        "light": light, "panels": panels, "charger": charger, "store": bank, "load": load,
        "margins": {
            "start_within_h": fortune(2000.0, d.log(1.0, 1000.0)), "closure_days": 0.0,
            "served_share": d.one(0.99, 0.5, 1.0), "full_sun_lx": d.one(100_000.0, 10_000.0),
        },
    }
