"""The year on a sheet: what it comes to, its months in a table, and what was used for its light."""

from __future__ import annotations

from explorer.advice.year.view import YearView
from explorer.files.report_blocks import Block, Column, Heading, Paragraph, Row, Table
from explorer.quantity import show
from explorer.text import figure, say
from explorer.words.figures import margin_text
from explorer.words.year import SHORT_MONTHS, year_sentences


def year_blocks(view: YearView | None) -> list[Block]:
    """The year; nothing where the light is no year of daylight."""
    if view is None:
        return []
    return [
        Heading(text=say("The year")),
        *(Paragraph(text=sentence) for sentence in (*year_sentences(view), *view.notes)),
        month_table(view),
    ]


def month_table(view: YearView) -> Table:
    """The months, one row each."""
    rows = []
    for month in view.months:
        rows.append(Row(cells=(
            SHORT_MONTHS[month.begin.month], figure(f"{month.temperature_c:g}"),
            figure(f"{100 * month.served_share:.4g}"), show(month.longest_dark_s, "s"),
            show(month.lowest_v, "V"), show(month.taken_in_j, "J"),
            show(month.thrown_away_j, "J"), show(month.used_j + month.leaked_j, "J"),
            margin_text(month.margins["balance"]), margin_text(month.margins["dark"]),
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


__all__ = ["month_table", "year_blocks"]
