"""All text of the contest of stores, and its numbers as a table; pure, tested without a widget."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from explorer.advice.contest import PRESENT, Entry
from explorer.advice.verdict import CHECK_WORDS
from explorer.quantity import show
from explorer.text import figure, joined, say, texts
from explorer.words.answers import value_of
from explorer.words.drawers import CODES, Table
from explorer.words.price import price_text
from explorer.words.readout import margin_text, quantity_text

COST_CLASSES = 5
_OWN, _LAST = "own ", "without a price"
"""Groups of prices, in the order in which they are sorted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell of the contest: what it shows and what it sorts by."""

    text: str
    rank: float
    group: str = ""
    """What sorts before the rank: an amount of one currency is no more than one of another."""


CONTEST_COLUMNS = (
    ("store", say("Store")),
    ("verdict", say("Verdict")),
    ("trace", say("Trace")),
    ("size", say("Size")),
    ("margin", say("Margin")),
    ("first", say("Time to ready")),
    ("dark", say("Autonomy")),
    ("operations", say("Operations")),
    ("volume", say("Volume")),
    ("mass", say("Mass")),
    ("cost", say("Cost")),
    ("years", say("Life")),
    ("cautions", say("Cautions")),
)
CONTEST_TIPS = texts({
    "store": "Kind of store",
    "verdict": "Verdict of the device on this store",
    "trace": "Store voltage over the light's period, from the beginning",
    "size": "Smallest size that runs, or the best one if none does",
    "margin": "Margin of the check that governs",
    "first": "From empty to the first operation",
    "dark": "From full to cut-off without light",
    "operations": "Operations from full to cut-off without light",
    "volume": "Volume of the store",
    "mass": "Mass of the store",
    "cost": "Relative cost for the same job, 1 (cheapest) to 5; the price of a store of your own",
    "years": "Years to the store's end of life at this temperature and voltage",
    "cautions": "What to mind with this kind of store",
})  # fmt: skip


def contest_cell(entry: Entry, key: str) -> Cell:
    """Text and rank of one cell; a store that does not suit the device ranks last."""
    if key == "store":
        return Cell(text=entry.title, rank=0.0)
    verdict = entry.verdict
    if verdict is None:
        text = say("Does not suit") if key == "verdict" else "–"
        return Cell(text=text, rank=-math.inf if key == "verdict" else math.inf)
    found = entry.answers
    match key:
        case "verdict":
            cost = COST_CLASSES + 1 if math.isnan(entry.cost_class) else entry.cost_class
            if verdict.state == "falls_short":
                return Cell(text=verdict.word, rank=entry.nearness)
            return Cell(text=verdict.word, rank=10.0 * CODES.index(verdict.state) - cost)
        case "trace":
            return Cell(text="", rank=0.0)
        case "volume" | "mass" | "cost" if entry.key == PRESENT:
            return Cell(text="–", rank=math.inf, group=_LAST if key == "cost" else "")
        case "size":
            volume = math.inf if math.isnan(entry.volume_cm3) else entry.volume_cm3
            return Cell(text=show(entry.size, entry.unit), rank=volume)
        case "margin":
            check = verdict.governing
            label = CHECK_WORDS[check.name]
            return Cell(text=joined(" ", (margin_text(check.margin), label)), rank=check.reserve)
        case "first":
            seconds = found["first_charge_s"]
            return Cell(text=quantity_text(seconds, "s"), rank=seconds)
        case "dark":
            seconds = found["dark_time_s"]
            text = say("no end") if math.isinf(seconds) else quantity_text(seconds, "s")
            return Cell(text=text, rank=seconds)
        case "operations":
            count = found["operations_per_charge"]
            return Cell(text=value_of("operations_per_charge", count), rank=count)
        case "volume":
            return _measured(entry.volume_cm3, " cm³")
        case "mass":
            return _measured(entry.mass_g, " g")
        case "cost" if entry.is_own:
            return _price(entry)
        case "cost":
            text = say("{n} of {count}", n=round(entry.cost_class), count=COST_CLASSES)
            return Cell(text=text, rank=entry.cost_class)
        case "years":
            return Cell(text=years_text(entry.years_to_end), rank=entry.years_to_end)
        case _:
            text = joined(", ", entry.cautions) or say("none")
            return Cell(text=text, rank=len(entry.cautions))


def _measured(value: float, unit: str) -> Cell:
    if math.isnan(value):
        return Cell(text="–", rank=math.inf)
    return Cell(text=show(value, "", 2) + unit, rank=value)


def _price(entry: Entry) -> Cell:
    """What a store of one's own costs; ranks behind the classes of the generic kinds."""
    if math.isnan(entry.price):
        return Cell(text="–", rank=math.inf, group=_LAST)
    text = price_text(entry.price, entry.currency)
    return Cell(text=text, rank=entry.price, group=_OWN + entry.currency)


def years_text(years: float) -> str:
    """A life in years.

    Examples
    --------
    >>> years_text(3.42), years_text(15.6), years_text(0.5)
    ('3.4 years', '15 years', '0.5 years')
    """
    if math.isinf(years):
        return say("no end")
    # Cut, not rounded: a life must not read longer than it is.
    text = f"{math.floor(years):d}" if years >= 10 else f"{math.floor(years * 10) / 10:g}"
    return say("{n} years", n=figure(text)) if text != "1" else say("1 year")


def contest_line(entry: Entry) -> str:
    """One store in two sentences, for the line below the table and for screen readers."""
    verdict = entry.verdict
    if verdict is None:
        return say("{name}: its voltage does not suit this device in any size.", name=entry.title)
    size, word = show(entry.size, entry.unit), verdict.word.lower()
    sentences = [joined("", (entry.title, ", ", size, ": ", word, ".")), verdict.governing.sentence]
    sentences += (say("Hazard: {title}.", title=hazard.title) for hazard in verdict.hazards)
    if entry.cautions:
        sentences.append(say("Mind: {cautions}.", cautions=joined("; ", entry.cautions)))
    return joined(" ", sentences)


def contest_answer(entries: Sequence[Entry], done: bool) -> str:
    """How many kinds of store would run, as the answer to the drawer's question."""
    kinds = [e for e in entries if e.key != PRESENT and not e.is_own]
    own = [e for e in entries if e.is_own]
    n, count = _running(kinds), len(kinds)
    if done and own:
        return say(
            "{n} of {count} kinds of store would run, each in its best size, and {m} of {own} of "
            "your own",
            n=n, count=count, m=_running(own), own=len(own),
        )  # fmt: skip
    if not done:
        return say("{n} of {count} kinds so far would run", n=n, count=count)
    if n == 0:
        near = max(kinds, key=lambda entry: entry.nearness, default=None)
        if near is None or near.verdict is None:
            return say("None of {count} kinds of store would run in any size", count=count)
        return say(
            "None of {count} kinds of store would run in any size; nearest comes {store}, {size}: "
            "{reason}",
            count=count, store=near.title, size=show(near.size, near.unit),
            reason=near.verdict.governing.sentence,
        )  # fmt: skip
    return say("{n} of {count} kinds of store would run, each in its best size", n=n, count=count)


def _running(entries: Sequence[Entry]) -> int:
    return sum(e.verdict is not None and e.verdict.state == "runs" for e in entries)


def contest_table(entries: Sequence[Entry]) -> Table:
    """The contest as columns for a file."""
    table: Table = {
        "store": [e.title for e in entries],
        "verdict": [e.verdict.word if e.verdict else "does not suit" for e in entries],
        "size": [e.size for e in entries],
        "size_unit": [e.unit for e in entries],
        "governing_check": [e.verdict.governing.name if e.verdict else "" for e in entries],
        "governing_margin": [
            e.verdict.governing.margin if e.verdict else math.nan for e in entries
        ],
    }
    for key in ("first_charge_s", "dark_time_s", "operations_per_charge"):
        table[key] = [e.answers.get(key, math.nan) for e in entries]
    table["volume_cm3"] = [e.volume_cm3 for e in entries]
    table["mass_g"] = [e.mass_g for e in entries]
    table["cost_class"] = [e.cost_class for e in entries]
    table["price"] = [e.price for e in entries]
    table["currency"] = [e.currency for e in entries]
    table["years_to_end"] = [e.years_to_end for e in entries]
    table["cautions"] = ["; ".join(e.cautions) for e in entries]
    return table
