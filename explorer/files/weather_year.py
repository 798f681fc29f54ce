"""A year of weather from the rows of a file: what is missing is filled, lux are held to watts."""

from __future__ import annotations

import numpy as np

from explorer.files.weather_rows import WANTED, WeatherError, WeatherRows
from explorer.physics.arrays import FloatArray
from explorer.scenario.weather import HOURS, WeatherYear
from explorer.text import Text, figure, say

DIFFUSE_LM_PER_W, NORMAL_LM_PER_W = 115.0, 88.0
"""Light of the sky and of the sun over their irradiance, a little less than the 119 and 91 of the
TMY3 year 703165 of the NREL over all its hours (own fit, tests/outside/test_weather_years.py)."""
PLAUSIBLE_LM_PER_W = ((80.0, 140.0), (80.0, 170.0))
"""Light over irradiance of a day on level ground, global and of the sky alone (own judgement)."""
_LEAST_WH = 100.0
"""Irradiance of a day from which on its quotient tells anything. [Wh/m²]"""
_LARGEST_SHARE = 0.1
"""Hours that may be missing of one quantity; more is another year (own judgement)."""
_HUNDREDS = 100.0


def made_year(rows: WeatherRows) -> WeatherYear:
    """Light and temperature of the hours.

    Raises
    ------
    WeatherError
        Too many values are missing.
    """
    notes: list[Text] = [
        say(
            "Weather of {site} ({file}), {latitude} north, {longitude} east; its place counts.",
            site=rows.site, file=rows.name,
            latitude=figure(f"{rows.latitude_deg:.2f}°"),
            longitude=figure(f"{rows.longitude_deg:.2f}°"),
        )
    ]
    filled = {
        key: _filled(rows, key, notes)
        for key in ("global_w", "normal_w", "diffuse_w", "temperature_c")
    }
    diffuse_lx = DIFFUSE_LM_PER_W * filled["diffuse_w"]
    normal_lx = NORMAL_LM_PER_W * filled["normal_w"]
    scale = _scale_of_days(rows, filled["global_w"], filled["diffuse_w"])
    factor = np.repeat(scale, 24)
    measured = factor > 0.0
    diffuse_lx = np.where(measured, factor * rows.values["diffuse_lx"], diffuse_lx)
    normal_lx = np.where(measured, factor * rows.values["normal_lx"], normal_lx)
    notes.append(_said_of_light(scale))
    if rows.left_out:
        notes.append(
            say("{n} hours of 29 February were left out.", n=rows.left_out)
        )
    for array in (diffuse_lx, normal_lx, filled["temperature_c"]):
        array.setflags(write=False)
    return WeatherYear(
        diffuse_lx=diffuse_lx,
        normal_lx=normal_lx,
        temperature_c=filled["temperature_c"],
        latitude_deg=rows.latitude_deg,
        longitude_deg=rows.longitude_deg,
        utc_offset_s=rows.utc_offset_s,
        name=rows.name,
        site=rows.site,
        notes=tuple(notes),
    )


def _filled(rows: WeatherRows, key: str, notes: list[Text]) -> FloatArray:
    """Values with those of the day before in the place of missing ones."""
    values = rows.values[key].copy()
    missing = np.isnan(values)
    n = int(missing.sum())
    if not n:
        return values
    label = next(w.label for w in WANTED if w.key == key)
    if n > _LARGEST_SHARE * HOURS:
        raise WeatherError(
            say(
                "{file}: {n} of 8760 hours have no {quantity}; that is too much to be filled in.",
                file=rows.name, n=n, quantity=label,
            )
        )
    known = np.flatnonzero(~missing)
    for hour in np.flatnonzero(missing).tolist():
        same = known[(known - hour) % 24 == 0]
        values[hour] = values[same[np.argmin(np.abs(same - hour))]]
    notes.append(
        say(
            "{n} missing hours of {quantity} have the value of the nearest day at that hour.",
            n=n, quantity=label,
        )
    )
    return values


def _scale_of_days(rows: WeatherRows, global_w: FloatArray, diffuse_w: FloatArray) -> FloatArray:
    """By what the lux of each day are multiplied, 0 where they are not to be believed.

    Columns of lux are filled by one file, left at nought by another, and hold hundreds of lux in a
    third, whatever their heading says. The sun's power on the same day tells.
    """
    scale = np.zeros(HOURS // 24)
    lux, watts = (
        tuple(values.reshape(-1, 24).sum(axis=1) for values in pair)
        for pair in (
            (rows.values["global_lx"], rows.values["diffuse_lx"]),
            (global_w, diffuse_w),
        )
    )
    bright = watts[0] >= _LEAST_WH
    whole = ~np.isnan(rows.values["normal_lx"].reshape(-1, 24)).any(axis=1)
    for factor in (1.0, _HUNDREDS):
        fits = bright & whole
        for light, power, (low, high) in zip(lux, watts, PLAUSIBLE_LM_PER_W, strict=True):
            efficacy = factor * light / np.maximum(power, 1.0)
            # NaN, of a missing value, is no quotient that fits.
            fits &= (efficacy >= low) & (efficacy <= high)
        scale[fits] = factor
    return scale


def _said_of_light(scale: FloatArray) -> Text:
    as_is, hundreds = int((scale == 1.0).sum()), int((scale == _HUNDREDS).sum())
    rest = scale.size - as_is - hundreds
    said = {
        "diffuse": figure(f"{DIFFUSE_LM_PER_W:g}"),
        "normal": figure(f"{NORMAL_LM_PER_W:g}"),
        "as_is": as_is, "hundreds": hundreds, "rest": rest,
    }  # fmt: skip
    if rest == scale.size:
        return say(
            "Its columns of light are empty or contradict those of power, so all light is taken "
            "from the power of the sun: {diffuse} lm/W for the sky, {normal} lm/W for the sun.",
            **said,
        )
    return say(
        "Light of {as_is} days as the file has it, of {hundreds} days in hundreds of lux; of "
        "{rest} days, whose light is missing or contradicts the power of the sun, from that power: "
        "{diffuse} lm/W for the sky, {normal} lm/W for the sun.",
        **said,
    )
