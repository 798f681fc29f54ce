"""Builds as a person reads them: the columns of the front, and the table of a file."""

from __future__ import annotations

import math

from explorer.advice.builds import MEASURES, Build, Builds, Wanted
from explorer.advice.verdict import CHECK_LABELS
from explorer.quantity import show
from explorer.text import Text, figure, joined, say, texts

MEASURE_LABELS: dict[str, str] = texts({
    "price": "Price",
    "panel_cm2": "Panel area",
    "volume_cm3": "Volume",
    "mass_g": "Mass",
})  # fmt: skip
LIMIT_LABELS = {**MEASURE_LABELS, "height_mm": say("Height")}
MEASURE_UNITS = {"price": "", "panel_cm2": "cm²", "volume_cm3": "cm³", "mass_g": "g"}
BUILD_COLUMNS: tuple[tuple[str, str], ...] = (
    ("price", MEASURE_LABELS["price"]),
    ("panel_cm2", MEASURE_LABELS["panel_cm2"]),
    ("panels", say("Panels")),
    ("store", say("Store")),
    ("volume_cm3", MEASURE_LABELS["volume_cm3"]),
    ("mass_g", MEASURE_LABELS["mass_g"]),
    ("height_mm", say("Height of the store")),
    ("margin", say("Smallest margin")),
    ("charger", say("Charger")),
)


def measure_text(name: str, value: float, currency: str = "") -> str:
    """A measure with its unit; a dash where it is not known.

    Examples
    --------
    >>> measure_text("panel_cm2", 4.0), measure_text("price", 2.153)
    ('4 cm²', '2.15')
    >>> measure_text("mass_g", math.nan)
    '–'
    """
    if math.isnan(value):
        return "–"
    if name == "price":
        return figure(f"{value:.2f} {currency}".rstrip())
    return show(value, MEASURE_UNITS[name])


def limit_text(name: str, most: float | None) -> Text:
    """A limit in words.

    Examples
    --------
    >>> limit_text("height_mm", 30.0), limit_text("mass_g", None)
    ('height up to 30 mm', 'any mass')
    """
    label = LIMIT_LABELS[name].lower()
    if most is None:
        return say("any {measure}", measure=label)
    unit = "mm" if name == "height_mm" else MEASURE_UNITS[name]
    return say("{measure} up to {value}", measure=label, value=show(most, unit))


def parts_text(most: int) -> Text:
    """A limit on the number of parts in words.

    Examples
    --------
    >>> parts_text(3), parts_text(5)
    ('one panel', 'up to 3 panels')
    """
    return say("one panel") if most == 3 else say("up to {n} panels", n=most - 2)


def limits_text(wanted: Wanted) -> Text:
    """All limits in one line.

    Examples
    --------
    >>> limits_text(Wanted(lithium=False, height_mm=30.0)), limits_text(Wanted())
    ('height up to 30 mm, no lithium', 'no limits')
    """
    told: list[Text] = [
        limit_text(name, most) for name in LIMIT_LABELS
        if (most := getattr(wanted, name)) is not None
    ]
    told += [] if wanted.lithium else [say("no lithium")]
    told += [] if wanted.most_parts is None else [parts_text(wanted.most_parts)]
    return joined(", ", told) if told else say("no limits")


def build_cell(build: Build, key: str, currency: str) -> str:
    """Text of one cell, by the key of its column in `BUILD_COLUMNS`."""
    if key == "margin":
        governing = build.verdict.governing
        return joined(
            " ", (CHECK_LABELS[governing.name], figure(f"{governing.margin:.3g}"))
        )
    if key in MEASURES:
        return measure_text(key, getattr(build, key), currency)
    if key == "height_mm":
        return "–" if math.isnan(build.height_mm) else show(build.height_mm, "mm", 2)
    told: str = getattr(build, key)
    return told


def builds_line(found: Builds) -> Text:
    """What was tried and what came of it, in one sentence."""
    if not found.tried and found.front:
        return say(
            "The {n} builds that were kept still run; all others are looked at anew …",
            n=len(found.front),
        )
    running = len(found.measures["price"])
    if not running and not found.is_done:
        return say("{n} builds tried, none of them may run so far …", n=found.tried)
    if not found.front and not found.is_done:
        return say(
            "{n} builds tried, {running} may run; the exact model tries the best of them …",
            n=found.tried, running=running,
        )  # fmt: skip
    if not running:
        return say("Of {n} builds none runs in this light.", n=found.tried)
    if not found.front:
        return say(
            "{n} builds tried; {running} seemed to run, and none of those that the exact model "
            "tried does.",
            n=found.tried, running=running,
        )  # fmt: skip
    return say(
        "{n} builds tried, {running} may run; {front} of them are beaten by no other in price, "
        "area, volume and mass, and run by the exact model.",
        n=found.tried, running=running, front=len(found.front),
    )  # fmt: skip


def price_note(found: Builds) -> Text:
    """What the prices are."""
    if found.currency and any(_is_generic(build) for build in found.front):
        return say(
            "Prices add those of your parts and relative ones of generic parts (own judgement, no "
            "source); put in parts of your own of every kind to know better."
        )
    if found.currency:
        return say("Prices are those of your parts.")
    return say(
        "Prices are relative and stand for generic parts (own judgement, no source); put in the "
        "prices of your parts to know better."
    )


def _is_generic(build: Build) -> bool:
    """Whether its panels or its store are no part of one's own."""
    return build.scenario.panels.part is None or build.scenario.store.part is None


def builds_table(found: Builds) -> dict[str, list[float | str]]:
    """The front as columns of a file."""
    table: dict[str, list[float | str]] = {
        "panels": [str(b.panels) for b in found.front],
        "store": [str(b.store) for b in found.front],
        "charger": [str(b.charger) for b in found.front],
        "parts": [b.part_count for b in found.front],
    }
    for name in MEASURES:
        table[name] = [getattr(b, name) for b in found.front]
    table["height_mm"] = [b.height_mm for b in found.front]
    table["currency"] = [found.currency or "relative" for _ in found.front]
    table["governing"] = [b.verdict.governing.name for b in found.front]
    table["margin"] = [b.verdict.governing.margin for b in found.front]
    return table
