"""Builds as a person reads them: the columns of the front, and the table of a file."""

from __future__ import annotations

import math
from collections.abc import Sequence

from explorer.advice.build_front import MEASURES, SIZES, Build, Builds, Combination, Wanted
from explorer.advice.verdict import CHECK_LABELS
from explorer.quantity import show
from explorer.scenario.price import RELATIVE
from explorer.text import Text, figure, joined, say, texts
from explorer.words.price import cost_columns, cost_text

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


def measure_label(name: str) -> Text:
    """What a measure is called, by a name of `measures_of`.

    Examples
    --------
    >>> measure_label("mass_g"), measure_label("price"), measure_label("price EUR")
    ('Mass', 'Price', 'Price in EUR')
    """
    head, of_several, currency = name.partition(" ")
    if not of_several:
        return say(MEASURE_LABELS[head])
    if currency == RELATIVE:
        return say("Price, relative")
    return say("Price in {currency}", currency=currency) if currency else (
        say("Price, no currency named")
    )


def measure_text(name: str, value: float) -> str:
    """A measure with its unit; a dash where it is not known.

    Examples
    --------
    >>> measure_text("panel_cm2", 4.0), measure_text("price", 2.153)
    ('4 cm²', '2.15')
    >>> measure_text("price EUR", 3.0)
    '3.00'
    >>> measure_text("mass_g", math.nan)
    '–'
    """
    if math.isnan(value):
        return "–"
    if name.partition(" ")[0] == "price":
        return figure(f"{value:.2f}")
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


def build_cell(build: Build, key: str, currencies: Sequence[str]) -> str:
    """Text of one cell, by the key of its column in `BUILD_COLUMNS`.

    Where all prices are relative none says so.
    """
    if key == "margin":
        governing = build.verdict.governing
        return joined(
            " ", (CHECK_LABELS[governing.name], figure(f"{governing.margin:.3g}"))
        )
    if key == "price" and build.cost.is_known and tuple(currencies) != (RELATIVE,):
        return cost_text(build.cost)
    if key in MEASURES:
        return measure_text(key, getattr(build, key))
    if key == "height_mm":
        return "–" if math.isnan(build.height_mm) else show(build.height_mm, "mm", 2)
    told: str = getattr(build, key)
    return told


def builds_line(found: Builds) -> Text:
    """What was tried and what came of it, in one sentence."""
    if not found.tried and found.front:
        return say(
            "The {n} builds that were kept still run; all others are looked at anew…",
            n=len(found.front),
        )
    running = found.running
    if not running and not found.is_done:
        return say("{n} builds tried, none of them may run so far…", n=found.tried)
    if not found.front and not found.is_done:
        return say(
            "{n} builds tried, {running} may run; the exact model tries the best of them…",
            n=found.tried, running=running,
        )  # fmt: skip
    if not running and found.within == 0:
        return say("None of {n} builds is within the limits.", n=found.tried)
    if not running and found.within is not None and found.within < found.tried:
        return say(
            "Of {n} builds {within} are within the limits, and none of these runs in this light.",
            n=found.tried, within=found.within,
        )  # fmt: skip
    if not running:
        return say("Of {n} builds none runs in this light.", n=found.tried)
    if not found.front:
        return say(
            "{n} builds tried; {running} seemed to run, and none of those that the exact model "
            "tried does.",
            n=found.tried, running=running,
        )  # fmt: skip
    if len(found.front) == 1:
        return say(
            "{n} builds tried, {running} may run; one of them is beaten by no other in price, "
            "area, volume and mass, and runs by the exact model.",
            n=found.tried, running=running,
        )  # fmt: skip
    return say(
        "{n} builds tried, {running} may run; {front} of them are beaten by no other in price, "
        "area, volume and mass, and run by the exact model.",
        n=found.tried, running=running, front=len(found.front),
    )  # fmt: skip


def price_note(found: Builds) -> Text:
    """What the prices are, of several currencies what is done, and what they left out."""
    told = _of_prices(found)
    if found.own_alone == ("panels",):
        return joined(" ", (told, say("As yours have prices, generic panels were not tried.")))
    if found.own_alone == ("stores",):
        return joined(" ", (told, say("As yours have prices, generic stores were not tried.")))
    return told


def _of_prices(found: Builds) -> Text:
    first, several = found.currencies[:1], len(found.currencies) > 1
    if not first:
        return say("None of these parts has a price.")
    if several and RELATIVE in found.currencies:
        return say(
            "Prices in {currencies} and relative ones of generic parts (own judgement, no source) "
            "are never added up: cheaper is what costs no more in any of them. A limit on the "
            "price holds for what is priced in {first} alone.",
            currencies=_listed(found.currencies), first=_listed(first),
        )  # fmt: skip
    if several:
        return say(
            "Prices in {currencies} are never added up: cheaper is what costs no more in any of "
            "them. A limit on the price holds for what is priced in {first} alone.",
            currencies=_listed(found.currencies), first=_listed(first),
        )  # fmt: skip
    if first != (RELATIVE,):
        return say("Prices are those of your parts; generic panels and stores were not tried.")
    return say(
        "Prices are relative and stand for generic parts (own judgement, no source); put in the "
        "prices of your parts to know better."
    )


def _listed(currencies: Sequence[str]) -> Text:
    """Currencies of one's own parts by name."""
    own = [c for c in currencies if c != RELATIVE]
    return joined(", ", [c or say("no named currency") for c in own])


def builds_table(found: Builds) -> dict[str, list[float | str]]:
    """The front as columns of a file."""
    table = front_table(found.front)
    table["governing"] = [b.verdict.governing.name for b in found.front]
    table["margin"] = [b.verdict.governing.margin for b in found.front]
    return table


def front_table(front: Sequence[Combination]) -> dict[str, list[float | str]]:
    """Parts and measures of some builds as columns of a file."""
    costs = cost_columns([b.cost for b in front])
    table: dict[str, list[float | str]] = {
        "panels": [str(b.panels) for b in front],
        "store": [str(b.store) for b in front],
        "charger": [str(b.charger) for b in front],
        "parts": [b.part_count for b in front],
        "price": costs.pop("price"),
    }
    for name in (*SIZES, "height_mm"):
        table[name] = [getattr(b, name) for b in front]
    return table | costs
