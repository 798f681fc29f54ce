"""Words for the values that a scenario names by short keys."""

from __future__ import annotations

from explorer.text import figure, texts

OPTIONS = texts({
    # light sources
    "led_2700": "LED, warm white 2700 K",
    "led_3000": "LED, warm white 3000 K",
    "led_4000": "LED, neutral white 4000 K",
    "led_5000": "LED, cool white 5000 K",
    "led_6600": "LED, daylight white 6600 K",
    "led_violet": "LED, violet pumped",
    "fluorescent_cool": "Fluorescent, cool white",
    "fluorescent_5000": "Fluorescent, 5000 K",
    "fluorescent_4000": "Fluorescent, three-band 4000 K",
    "incandescent": "Incandescent",
    "daylight_glass": "Daylight behind glass",
    "daylight_open": "Daylight, open sky",
    # how the light is known
    "meter_at_panel": "Lux meter at the panel",
    "phone_or_lamp_data": "Phone app or lamp data",
    "guess": "A guess",
    # patterns
    "steady": "The same at every hour",
    "week": "Weekly timetable",
    "log": "Measured light log",
    "daylight": "A year of daylight",
    "outdoors": "Out of doors",
    "indoors": "In a room",
    "no_glass": "No, or plain glass",
    "coated_glass": "Coated window glass",
    "sky_alone": "The sky alone",
    "sky_and_sun": "Sky and sun",
    "clear": "Clear",
    "partly_cloudy": "Sun and clouds",
    "overcast": "Overcast",
    "blinds_open": "Blinds open",
    "blinds_closed": "Blinds closed",
    "dark": "Count as dark",
    "hold": "Hold the last reading",
    "by_file": "As the file says",
    "dmy": "Day first",
    "mdy": "Month first",
    "ymd": "Year first",
    "point": "Point",
    "comma": "Comma",
    "hours": "Hours and minutes",
    "minutes": "Minutes and seconds",
    # cells
    "amorphous": "Amorphous silicon",
    "crystalline": "Crystalline silicon",
    "gallium_arsenide": "Gallium arsenide",
    "dye_sensitised": "Dye-sensitised",
    "organic": "Organic",
    "perovskite": "Perovskite",
    # chargers
    "direct": "Direct, through a diode",
    "converter": "Switching converter",
    "fraction": "A fraction of open-circuit voltage",
    "maximum_power": "Maximum power",
    # stores
    "capacitor": "Electrolytic or film capacitor",
    "supercapacitor": "Supercapacitor bank",
    "cell": "Rechargeable lithium cell",
    "none": "None",
    "resistors": "Resistors",
    "active": "Active",
    "settled": "Settled",
    "first_days": "First days",
    "lithium_ion": "Lithium-ion",
    "iron_phosphate": "Lithium iron phosphate",
    "titanate": "Lithium titanate",
    # load
    "linear": "Linear",
    "switching": "Switching",
    "every": "At a fixed interval",
    "when_ready": "Whenever the store is ready",
    "until_empty": "Until the store gives out",
    "current_A": "Current",
    "power_W": "Power",
    "resistance_ohm": "Resistance",
    "latching_valve": "Latching valve",
    "vent_or_flap": "Vent or flap",
    "door_lock": "Door lock",
    "other_motor": "Other motor",
})  # fmt: skip
WEEKDAYS = texts({
    "mon": "Mon",
    "tue": "Tue",
    "wed": "Wed",
    "thu": "Thu",
    "fri": "Fri",
    "sat": "Sat",
    "sun": "Sun",
})  # fmt: skip
WEEKDAY_NAMES = tuple(WEEKDAYS.values())


def option(value: str) -> str:
    """What a person reads for one choice.

    Examples
    --------
    >>> option("led_4000")
    'LED, neutral white 4000 K'
    """
    return OPTIONS.get(value, value.replace("_", " ").capitalize())


def plain_number(value: float) -> str:
    """A number without trailing zeros, with a thin group mark from 10 000 on and a true minus.

    Examples
    --------
    >>> plain_number(200_000.0), plain_number(0.5)
    ('200 000', '0.5')
    """
    if abs(value) >= 10_000 and value == int(value):
        return figure(f"{int(value):,}".replace(",", " "))
    text = f"{value:.6g}".replace("e-0", "e-").replace("e+0", "e")
    return figure(f"−{text[1:]}" if value < 0.0 else text)
