"""What a person reads of a year: its answer, a day of it, its months and the store's life."""

from __future__ import annotations

from datetime import datetime, timedelta

import numpy as np

from explorer.advice.verdict import CHECK_LABELS, CHECK_NAMES, VERDICT_WORDS
from explorer.advice.year.answers import MonthAnswers
from explorer.advice.year.dates import month_name
from explorer.advice.year.view import TOLD_YEARS, YearView
from explorer.quantity import show
from explorer.scenario.calendar import date_text
from explorer.scenario.fields import describe
from explorer.scenario.light import Light
from explorer.text import Text, figure, joined, say
from explorer.words.drawers import Table
from explorer.words.figures import margin_text, more_than_text
from explorer.words.moments import SHORT_MONTHS
from explorer.words.options import option

NO_YEAR = say(
    "The light of this scenario repeats every week or with its log, so its year is one week after "
    "the other. Choose “{choice}” under “{label}” to see the seasons.",
    choice=option("daylight"), label=describe(Light, "pattern").label,
)

WHOLE_YEAR = timedelta(days=365)


def year_answer(view: YearView) -> Text:
    """The answer in one sentence."""
    off, worst = view.off_days, view.months[view.worst["balance"]]
    if view.gives_out and off:
        return say(
            "The device runs until the store gives out and rests until it has filled again; the "
            "tightest month is {month}.",
            month=month_name(worst.begin),
        )
    if off == 0:
        return say(
            "The device is never off; the tightest month is {month}.", month=month_name(worst.begin)
        )
    days = len(view.calendar.works)
    if off == days:
        return say("The device is off at some hour of every day.")
    first, last = (_date(view, day - 1) for day in view.working)
    return say(
        "Off on {n} of {days} days; without a gap it works from {first} to {last}.",
        n=figure(f"{off}"), days=figure(f"{days}"), first=date_text(first), last=date_text(last),
    )


def dark_sentence(view: YearView) -> Text:
    """The longest dark stretch, by its dates."""
    if view.longest_dark is None:
        return say("There is no dark stretch.")
    begin, end = view.longest_dark
    if end - begin >= WHOLE_YEAR:
        return say("The light never brings its store anything.")
    return say(
        "Longest dark stretch: {time}, from {first}, {begin}, to {last}, {end}.",
        time=show((end - begin).total_seconds(), "s"), first=date_text(begin),
        begin=figure(f"{begin:%H:%M}"), last=date_text(end), end=figure(f"{end:%H:%M}"),
    )


def worst_sentence(view: YearView) -> Text:
    """The month that each check fares worst in, of those that months tell apart."""
    parts = []
    for name in CHECK_NAMES:
        if np.ptp([month.margins[name] for month in view.months]) <= 0.0:
            continue
        month = view.months[view.worst[name]]
        parts.append(say(
            "{check} {month} ({margin})", check=CHECK_LABELS[name],
            month=SHORT_MONTHS[month.begin.month], margin=month_margin(month, name),
        ))
    return say("Worst months, each by itself: {list}.", list=joined(", ", tuple(parts)))


def month_margin(month: MonthAnswers, name: str) -> str:
    """The margin of a check in one month; more than that where it was followed no longer."""
    text = margin_text(month.margins[name])
    return more_than_text(text) if name == "dark" and month.dark_at_least else text


def year_sentences(view: YearView) -> tuple[Text, ...]:
    """What there is to say of a year in sentences."""
    return (
        year_answer(view), dark_sentence(view), worst_sentence(view), life_text(view),
    )


def day_text(view: YearView, day: int) -> Text:
    """One day in a line."""
    calendar = view.calendar
    off = int((~calendar.connected[day]).sum())
    values: dict[str, object] = {
        "date": date_text(_date(view, day)),
        "lux": show(float(calendar.illuminance_lx[day].max()), "lx"),
        "low": show(float(calendar.lowest_v[day]), "V"),
        "high": show(float(calendar.highest_v[day]), "V"),
    }
    if off:
        return say(
            "{date}: brightest hour {lux}, store {low} to {high}, off for {n} h.",
            **values, n=figure(f"{off}"),
        )
    return say("{date}: brightest hour {lux}, store {low} to {high}.", **values)


def life_text(view: YearView) -> Text:
    """What a year does to the store, and what is left of it."""
    found, worn = view.life, view.worn
    said = say(
        "A year like this takes {share} % of the store's life: {cycles} full cycles, {mean} °C on "
        "average, {high} % of the time near full. After {years} years {left} % of its size is left "
        "and its resistance is {times} times that of a new one.",
        share=show(100 * found.wear_per_year, ""),
        cycles=show(found.cycles_per_year, ""), mean=show(round(found.mean_c), ""),
        high=figure(f"{100 * found.near_full_share:.0f}"), years=figure(f"{worn.years:g}"),
        left=figure(f"{100 * worn.size_share:.0f}"), times=figure(f"{worn.resistance_ratio:.2f}"),
    )
    turn = view.turn
    if turn is None:
        return said
    if turn.years is None:
        return joined(" ", (said, say(
            "{word} when new, and so it stays for {years} years and more.",
            word=VERDICT_WORDS[turn.new], years=figure(f"{turn.looked_years:g}"),
        )))
    return joined(" ", (said, say(
        "{word} when new; {then} from year {years} on.",
        word=VERDICT_WORDS[turn.new], then=VERDICT_WORDS[turn.then],
        years=figure(f"{turn.years:g}"),
    )))


def age_button_text(years_in_service: float) -> Text:
    """What the button does that changes the age for which the store is judged."""
    if years_in_service > 0.0:
        return say("Judge as new")
    return say("Judge after {years} years", years=figure(f"{TOLD_YEARS:g}"))


def year_table(view: YearView) -> Table:
    """The months, one row each."""
    months = view.months
    return {
        "month": [f"{m.begin:%Y-%m}" for m in months],
        "temperature_C": [m.temperature_c for m in months],
        "served_share": [m.served_share for m in months],
        "connected_share": [m.connected_share for m in months],
        "ready_s": [m.ready_s for m in months],
        "longest_dark_s": [m.longest_dark_s for m in months],
        "lowest_store_V": [m.lowest_v for m in months],
        "taken_in_J": [m.taken_in_j for m in months],
        "thrown_away_J": [m.thrown_away_j for m in months],
        "used_J": [m.used_j for m in months],
        "leaked_J": [m.leaked_j for m in months],
        **{f"{name}_margin": [m.margins[name] for m in months] for name in CHECK_NAMES},
    }


def day_table(view: YearView) -> Table:
    """The hours of the year, one row each."""
    calendar = view.calendar
    days = len(calendar.works)
    return {
        "day": np.repeat(np.arange(days) + 1, 24).tolist(),
        "hour": np.tile(np.arange(24), days).tolist(),
        "illuminance_lx": calendar.illuminance_lx.ravel().tolist(),
        "store_V": calendar.store_v.ravel().tolist(),
        "connected": calendar.connected.ravel().astype(int).tolist(),
    }


def date_flag(view: YearView, day: int) -> Text:
    """A day in a few letters."""
    moment = _date(view, day)
    return say("{day} {month}", day=figure(f"{moment.day}"), month=SHORT_MONTHS[moment.month])


def _date(view: YearView, day: int) -> datetime:
    return view.calendar.start + timedelta(days=int(day))


__all__ = [
    "NO_YEAR", "age_button_text", "dark_sentence", "date_flag", "day_table",
    "day_text", "life_text", "month_margin", "worst_sentence", "year_answer", "year_sentences",
    "year_table",
]
