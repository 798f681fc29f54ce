"""The sheet of a comparison: several designs, their traces over each other, one table."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from explorer.advice.assess import Assessment
from explorer.files.report import PLANNING
from explorer.files.report_blocks import (
    DASHES,
    Axis,
    Block,
    Chart,
    Column,
    Curve,
    Figure,
    Heading,
    Paragraph,
    Row,
    Sheet,
    Table,
)
from explorer.files.report_figures import COLUMNS, axis
from explorer.text import figure, joined, say
from explorer.words.line_up import LineUpRow, line_up_rows
from explorer.words.moments import time_ticks

_LABEL = 0.22
"""Share of a table's width for the names of its rows."""
_TICKS = 9
_WIDTHS = (1.8, 0.9)


def line_up_sheet(
    names: Sequence[str], found: Sequence[Assessment], hashes: Sequence[str], *, weekdays: bool
) -> Sheet:
    """The sheet of several designs.

    Parameters
    ----------
    names : sequence of str
        What each design is called.
    found : sequence of Assessment
        What the model says of each, the open one first.
    hashes : sequence of str
        SHA-256 of each scenario.
    weekdays : bool
        Whether the traces run on a calendar week.
    """
    rows = line_up_rows([a.scenario for a in found], found)
    blocks: list[Block] = [
        Paragraph(text=PLANNING),
        Heading(text=say("Store voltage")),
        _figure(found, weekdays=weekdays),
        Heading(text=say("Inputs that differ, and what comes of them")),
        _table(names, rows),
        Heading(text=say("Where this report comes from")),
        Table(
            caption=say("SHA-256 of each scenario in its canonical form."),
            columns=(
                Column(title=say("Design"), share=0.3),
                Column(title=say("SHA-256"), share=0.7, kind="code"),
            ),
            rows=tuple(
                Row(cells=(_named(i, name), code))
                for i, (name, code) in enumerate(zip(names, hashes, strict=True))
            ),
        ),
    ]
    return Sheet(
        title=say("Comparison of {n} designs", n=len(names)),
        place=found[0].scenario.place,
        short_hash=hashes[0][:12],
        blocks=tuple(blocks),
    )


def _named(index: int, name: str) -> str:
    return joined(" ", (figure(str(index + 1)), name))


def _figure(found: Sequence[Assessment], *, weekdays: bool) -> Figure:
    span = min(a.trace.span_s for a in found)
    top = max(a.trace.extremes().highest_store_v for a in found)
    curves = []
    for index, assessment in enumerate(found):
        x, y = assessment.trace.picture(0.0, span, COLUMNS).line(top / 400)
        curves.append(
            Curve(
                label=figure(str(index + 1)), x=x, y=y,
                dash=DASHES[index % len(DASHES)], width=_WIDTHS[index // len(DASHES)],
            )
        )  # fmt: skip
    low = min(float(np.nanmin(curve.y)) for curve in curves)
    time = Axis(
        title=say("time"), low=0.0, high=span, ticks=time_ticks(0.0, span, _TICKS, weekdays, 0.0)
    )
    chart = Chart(
        x=time, left=axis(say("voltage, V"), 0.0 if low < 0.5 * top else low, 1.04 * top),
        curves=tuple(curves),
    )  # fmt: skip
    told = say("Store voltage of {n} designs, numbered as in the table.", n=len(found))
    return Figure(caption=told, spoken=told, chart=chart)


def _table(names: Sequence[str], rows: Sequence[LineUpRow]) -> Table:
    share = (1.0 - _LABEL) / len(names)
    titles = [_named(index, name) for index, name in enumerate(names)]
    return Table(
        caption=say("Bold: the designs do not agree. A dash: a part of another kind is there."),
        columns=(
            Column(title="", share=_LABEL), *(Column(title=t, share=share) for t in titles)
        ),
        rows=tuple(
            Row(cells=(row.label, *row.values), strong=row.differs, group=row.is_heading)
            for row in rows
        ),
    )  # fmt: skip
