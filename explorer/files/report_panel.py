"""A panel's data sheet on the sheet: its points, the curves through them, the diode found."""

from __future__ import annotations

from explorer.files.report_blocks import (
    DASHES,
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
from explorer.files.report_figures import axis, scaled
from explorer.physics.panel_fit import QUANTITIES, PanelFit
from explorer.quantity import show
from explorer.scenario.data_sheet import sheet_fit
from explorer.scenario.fields import describe
from explorer.scenario.supply import Panels, SheetPoint
from explorer.text import joined, say
from explorer.words.options import option
from explorer.words.sheet import (
    curves,
    fit_rows,
    fit_sentence,
    light_name,
    measured_of,
    misfit_sentences,
    percent_off,
    points_of,
)


def panel_sheet_blocks(panels: Panels) -> list[Block]:
    """What the sheet says of the panel's own data sheet; nothing where there is none."""
    if not panels.data_sheet:
        return []
    fit = sheet_fit(panels)
    return [
        Heading(text=say("Panel by its data sheet")),
        _figure(panels, fit),
        _point_table(panels, fit),
        Paragraph(text=fit_sentence(panels, fit)),
        *(
            Paragraph(text=sentence)
            for sentence in misfit_sentences(panels, fit, range(len(panels.data_sheet)))
        ),
        _diode_table(panels, fit),
    ]


def _figure(panels: Panels, fit: PanelFit) -> Figure:
    points, drawn = panels.data_sheet, curves(fit)
    amps, prefix = scaled(max(float(current.max()) for _, current in drawn))
    several = len({point.source for point in points}) > 1
    chart = Chart(
        x=axis(say("voltage of one panel, V"), 0.0,
               max(float(volts.max()) for volts, _ in drawn), snug=True),
        left=axis(say("current, {unit}", unit=f"{prefix}A"), 0.0,
                  max(float(current.max()) for _, current in drawn) * amps),
        curves=tuple(
            Curve(
                label=light_name(point.illuminance_lx, point.source, with_source=several),
                x=volts, y=current * amps, dash=DASHES[i % len(DASHES)],
            )
            for i, (point, (volts, current)) in enumerate(zip(points, drawn, strict=True))
        )
        + tuple(
            Curve(label=say("measured"), x=volts, y=current * amps, dash="2 3")
            for volts, current in (measured_of(point) for point in points if point.measured_V)
        ),
        dots=tuple(
            Dot(letter=str(i), x=volts, y=current * amps)
            for i, point in enumerate(points, start=1) for _, volts, current in points_of(point)
        ),
    )  # fmt: skip
    words = say(
        "Curves of one panel fitted to its data sheet, and the points of the sheet by their number."
    )
    return Figure(caption=words, spoken=words, chart=chart)


def _point_table(panels: Panels, fit: PanelFit) -> Table:
    return Table(
        caption=say(
            "Points of the data sheet, each with how far the curve lies above or below it"
        ),
        columns=(
            Column(title=say("Point"), share=0.28),
            *(
                Column(title=describe(SheetPoint, key).label, share=0.18, kind="number")
                for key in QUANTITIES
            ),
        ),
        rows=tuple(
            Row(cells=(
                say("{n}: {light}, {lamp}", n=i + 1, light=show(point.illuminance_lx, "lx"),
                    lamp=option(point.source)),
                *(_value(point, key, float(fit.residuals[i][column]))
                  for column, key in enumerate(QUANTITIES)),
            ))
            for i, point in enumerate(panels.data_sheet)
        ),
    )


def _value(point: SheetPoint, key: str, missed: float) -> str:
    value = getattr(point, key)
    if value is None:
        return say("not given")
    return joined("  ", (show(value, describe(SheetPoint, key).unit, 4), percent_off(missed)))


def _diode_table(panels: Panels, fit: PanelFit) -> Table:
    return Table(
        caption=say("The diode of one panel, as fitted, at 25 °C"),
        columns=(
            Column(title=say("Parameter"), share=0.6),
            Column(title=say("Value", "column"), share=0.4, kind="number"),
        ),
        rows=tuple(Row(cells=row) for row in fit_rows(panels, fit)),
    )  # fmt: skip
