"""The efficiency table of a converter on the sheet: its curves, its rows, where it works."""

from __future__ import annotations

from math import ceil, floor

import numpy as np

from explorer.advice.charger_curve import ChargerCurve
from explorer.files.report_blocks import (
    DASHES,
    Axis,
    Block,
    Chart,
    Column,
    Curve,
    Dot,
    Figure,
    Heading,
    Paragraph,
    Row,
    Table,
)
from explorer.files.report_figures import axis
from explorer.quantity import show
from explorer.scenario.fields import describe
from explorer.scenario.supply import Charger, ConverterCharger, EfficiencyPoint
from explorer.text import figure, say
from explorer.words.moments import Tick
from explorer.words.panel import charger_spoken


def charger_blocks(charger: Charger, curve: ChargerCurve) -> list[Block]:
    """What the sheet says of an efficiency table; nothing where there is none."""
    if not isinstance(charger, ConverterCharger) or not charger.efficiency_table:
        return []
    return [
        Heading(text=say("Charger by its efficiency table")),
        _figure(curve),
        _rows(charger),
        Paragraph(text=say("In the present light: {what}", what=charger_spoken(curve))),
    ]


def _figure(curve: ChargerCurve) -> Figure:
    """Efficiency over the logarithm of input power."""
    along = np.log10(curve.inputs)
    low, high = float(along[0]), float(along[-1])
    decades = range(ceil(low - 1e-9), floor(high + 1e-9) + 1)
    dots = [Dot(letter="", x=float(np.log10(w)), y=100.0 * share) for _, w, share in curve.rows]
    if curve.working is not None:
        watt, share = curve.working
        dots.append(Dot(letter="A", x=float(np.log10(watt)), y=100.0 * share))
    chart = Chart(
        x=Axis(
            title=say("input power"), low=low, high=high,
            ticks=tuple(Tick(time_s=float(n), label=show(10.0**n, "W")) for n in decades),
        ),
        left=axis(say("efficiency, %"), 0.0, 100.0),
        curves=tuple(
            Curve(label=name, x=along, y=100.0 * values, dash=DASHES[i % len(DASHES)])
            for i, (name, values) in enumerate(curve.curves)
        ),
        dots=tuple(dots),
    )  # fmt: skip
    words = say(
        "What the converter passes on, over its input power: rows of its table, the curve through "
        "them, and A in the present light with the store at its connect level."
    )
    return Figure(caption=words, spoken=words, chart=chart)


def _rows(charger: ConverterCharger) -> Table:
    keys = ("input_W", "efficiency", "store_V")
    return Table(
        caption=say("Efficiency table as entered"),
        columns=tuple(
            Column(title=describe(EfficiencyPoint, key).label, share=1.0 / 3.0,
                   kind="number" if place else "text")
            for place, key in enumerate(keys)
        ),
        rows=tuple(
            Row(cells=(
                show(row.input_W, "W", 4), figure(f"{100.0 * row.efficiency:.4g} %"),
                say("any") if row.store_V is None else show(row.store_V, "V"),
            ))
            for row in charger.efficiency_table
        ),
    )  # fmt: skip
