"""The year on a sheet: what it comes to, its months in a table, and what was used for its light."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from explorer.advice.year.view import YearView
from explorer.engine.system import DAY_S
from explorer.files.report_blocks import (
    Axis,
    Band,
    Bars,
    Block,
    Chart,
    Column,
    Curve,
    Figure,
    Heading,
    Mosaic,
    NamedLine,
    Paragraph,
    Row,
    Strip,
    Table,
)
from explorer.files.report_figures import axis
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.text import figure, joined, say
from explorer.words.answers import value_of
from explorer.words.moments import SHORT_MONTHS, Tick
from explorer.words.year import month_margin, year_sentences


def year_blocks(view: YearView | None) -> list[Block]:
    """The year; nothing where the light is no year of daylight."""
    if view is None:
        return []
    return [
        Heading(text=say("The year")),
        year_figure(view),
        light_figure(view),
        store_figure(view),
        energy_figure(view),
        *(Paragraph(text=sentence) for sentence in (*year_sentences(view), *view.notes)),
        month_table(view),
    ]


def year_figure(view: YearView) -> Figure:
    """The store's voltage day by day, over the light."""
    calendar = view.calendar
    days = len(calendar.works)
    middle: FloatArray = DAY_S * (np.arange(days, dtype=float) + 0.5)
    low, high = calendar.lowest_v, calendar.highest_v
    levels = tuple(
        NamedLine(label=joined(" ", (level.label, show(level.volts, "V"))), y=level.volts)
        for level in view.thresholds
    )
    top = max(float(high.max()), *(level.y for level in levels))
    bottom = min(float(low.min()), *(level.y for level in levels))
    floor = 0.0 if bottom < 0.5 * top else bottom
    lux = calendar.illuminance_lx.mean(axis=1)
    brightest = max(float(lux.max()), 1e-9)
    turns = np.flatnonzero(np.diff(np.concatenate([[0], ~calendar.works, [0]]).astype(int)))
    chart = Chart(
        x=_months(view),
        left=axis(say("voltage, V"), floor, top + 0.04 * (top - floor)),
        shades=tuple((DAY_S * a, DAY_S * b) for a, b in turns.reshape(-1, 2).tolist()),
        shade_label=say("off"),
        bands=(Band(label=say("lowest to highest of the day"), x=middle, low=low, high=high),),
        curves=(
            Curve(label=say("middle of the day"), x=middle,
                  y=np.median(calendar.store_v, axis=1)),
        ),
        levels=levels,
        strip=Strip(
            title=say("light by day"), x=DAY_S * np.arange(days + 1.0),
            y=np.append(lux, lux[-1:]), high=1.05 * brightest, high_label=show(brightest, "lx"),
        ),
    )  # fmt: skip
    words = say(
        "Store voltage over a year: between {low} and {high}, off on {n} days.",
        low=show(float(low.min()), "V"), high=show(float(high.max()), "V"),
        n=figure(f"{view.off_days}"),
    )
    return Figure(caption=words, spoken=words, chart=chart)


def energy_figure(view: YearView) -> Figure:
    """What every month takes in, throws away and uses."""
    start = view.calendar.start
    edges = [(m.begin - start).total_seconds() for m in view.months]
    edges.append(DAY_S * len(view.calendar.works))
    rows: tuple[tuple[str, list[float]], ...] = (
        (say("taken in"), [m.taken_in_j for m in view.months]),
        (say("used and leaked"), [m.used_j + m.leaked_j for m in view.months]),
        (say("thrown away"), [m.thrown_away_j for m in view.months]),
    )
    begin, length = np.array(edges[:-1]), np.diff(edges)
    bars = tuple(
        Bars(
            label=label, begin=begin + (0.1 + 0.27 * k) * length,
            end=begin + (0.34 + 0.27 * k) * length, high=np.array(values), ink=k + k // 2,
        )
        for k, (label, values) in enumerate(rows)
    )
    top = max(max(values) for _, values in rows)
    words = say("Energy of each month: taken in, used and leaked, and thrown away, store full.")
    return Figure(
        caption=words, spoken=words,
        chart=Chart(
            x=_months(view), left=axis(say("energy, J"), 0.0, max(top, 1e-9)), bars=bars,
        ),
    )


def light_figure(view: YearView) -> Figure:
    """Light of every hour of the year."""
    lux = view.calendar.illuminance_lx
    brightest = max(float(lux.max()), 1e-9)
    steps = np.array([1e-4, 0.02, 0.1, 0.3]) * brightest
    labels = (
        say("dark"), *(say("to {lux}", lux=show(float(v), "lx")) for v in steps[1:]),
        say("brighter"),
    )
    words = say(
        "Light at the panel, days across and hours up; the brightest hour has {lux}.",
        lux=show(brightest, "lx"),
    )
    return _calendar(view, words, labels, np.searchsorted(steps, lux).astype(np.intp))


def store_figure(view: YearView) -> Figure:
    """Where the store stands in every hour of the year."""
    volts = view.calendar.store_v
    low = min(float(level.volts) for level in view.thresholds)
    high = max(float(volts.max()), low * (1.0 + 1e-9))
    steps = low + (high - low) * np.array([0.25, 0.5, 0.75])
    labels = (
        say("off"), *(say("to {volts}", volts=show(float(f"{v:.3g}"), "V")) for v in steps),
        say("fuller"),
    )
    classes = 1 + np.searchsorted(steps, volts)
    words = say("Voltage of the store, days across and hours up.")
    return _calendar(
        view, words, labels, np.where(view.calendar.connected, classes, 0).astype(np.intp)
    )


def _calendar(
    view: YearView, words: str, labels: tuple[str, ...], classes: NDArray[np.intp]
) -> Figure:
    hours = tuple(Tick(time_s=h, label=figure(f"{h:g}")) for h in (0.0, 6.0, 12.0, 18.0, 24.0))
    return Figure(
        caption=words, spoken=words,
        chart=Chart(
            x=_months(view), left=Axis(title=say("hour"), low=0.0, high=24.0, ticks=hours),
            mosaic=Mosaic(labels=labels, classes=classes),
        ),
    )


def _months(view: YearView) -> Axis:
    """A year with the names of its months in their middle."""
    start, days = view.calendar.start, len(view.calendar.works)
    begins = [*((m.begin - start).days for m in view.months), days]
    return Axis(
        title=say("month"), low=0.0, high=DAY_S * days,
        ticks=tuple(
            Tick(time_s=DAY_S * 0.5 * (a + b), label=SHORT_MONTHS[m.begin.month])
            for m, a, b in zip(view.months, begins, begins[1:], strict=False)
        ),
    )


def month_table(view: YearView) -> Table:
    """The months, one row each."""
    rows = []
    for month in view.months:
        rows.append(Row(cells=(
            SHORT_MONTHS[month.begin.month], show(month.temperature_c, ""),
            figure(f"{100 * month.served_share:.4g}"),
            value_of("longest_dark_s", month.longest_dark_s),
            show(month.lowest_v, "V"), show(month.taken_in_j, "J"),
            show(month.thrown_away_j, "J"), show(month.used_j + month.leaked_j, "J"),
            month_margin(month, "balance"), month_margin(month, "dark"),
        )))
    titles = (
        say("Month"), say("°C"), say("Served, %"), say("Longest dark"), say("Lowest store"),
        say("Taken in"), say("Thrown away"), say("Used and leaked"), say("Balance"), say("Dark"),
    )
    shares = (0.08, 0.06, 0.1, 0.12, 0.11, 0.11, 0.12, 0.12, 0.09, 0.09)
    return Table(
        caption=say(
            "Every month by itself, once the years are alike; thrown away is what the charger "
            "could have delivered into a full store."
        ),
        columns=tuple(
            Column(title=title, share=share, kind="number" if k else "text")
            for k, (title, share) in enumerate(zip(titles, shares, strict=True))
        ),
        rows=tuple(rows),
    )


__all__ = [
    "energy_figure", "light_figure", "month_table", "store_figure", "year_blocks", "year_figure",
]
