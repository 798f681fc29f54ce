"""Texts and tables of the panel drawer, without widgets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import get_args

from explorer.advice.case import Case
from explorer.advice.charger_curve import ChargerCurve
from explorer.advice.panel_curve import PanelCurve, WorkingPoint
from explorer.advice.sold import sold_span
from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.efficiency_draft import DraftRow
from explorer.scenario.fields import describe
from explorer.scenario.light import Light, Source
from explorer.scenario.model import Scenario
from explorer.scenario.supply import EfficiencyPoint, Technology
from explorer.scenario.year_light import daylight_source
from explorer.text import figure, joined, say
from explorer.words.drawers import Table
from explorer.words.options import option

METER_NOTE = say(
    "A lux meter weighs light as the eye does, so the same reading means different things to a "
    "cell: watts and current depend on the source."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """What one reading of a lux meter means under one source."""

    source: Source
    name: str
    irradiance: str
    """Number of watts per square metre. [W/m²]"""
    current: str
    """Number of microamperes per square centimetre of cell. [µA/cm²]"""
    chosen: bool


def panel_answer(curve: PanelCurve, case: Case) -> str:
    """The working point in words: the light that is left at the cells, and how sure it is."""
    if curve.illuminance_lx <= 0 or curve.points[0].power_w <= 0:
        return say("No light reaches the panel.")
    peak = curve.points[0]
    light = case.scenario.light
    share = light.orientation_factor * light.cover_factor * light.soiling_factor
    light_at_panel = show(curve.illuminance_lx, "lx")
    power, voltage = show(peak.power_w, "W"), show(peak.voltage_v, "V")
    if share < 0.995:
        most = say(
            "At {light}, of which {rest} reach the cells, the panels give at most {power}, "
            "at {voltage}.",
            light=light_at_panel,
            rest=show(curve.illuminance_lx * share, "lx"),
            power=power,
            voltage=voltage,
        )
    else:
        most = say(
            "At {light} the panels give at most {power}, at {voltage}.",
            light=light_at_panel,
            power=power,
            voltage=voltage,
        )
    return most


def panel_notes(curve: PanelCurve, case: Case) -> str:
    """What holds for the answer: how far panels on sale lie around it, what the charger leaves."""
    return joined(" ", tuple(part for part in (sold_sentence(case), curve.note) if part))


def sold_sentence(case: Case) -> str:
    """How far panels on sale lie around the one that was computed; empty with a data sheet."""
    span = sold_span(case)
    if span is None:
        return ""
    low, high = (figure(f"{share:.2g}") for share in span)
    return say(
        "Panel by technology, no data sheet: modules on sale give {low} to {high} times the "
        "output computed here.",
        low=low,
        high=high,
    )


def panel_table(curve: PanelCurve) -> Table:
    """The curve as columns for a file."""
    return {
        "voltage_V": curve.voltage_v.tolist(),
        "current_A": curve.current_a.tolist(),
        "power_W": curve.power_w.tolist(),
    }


def charger_table(curve: ChargerCurve) -> Table:
    """What the charger makes of its input, as columns for a file."""
    head, unit = ("panel_W", "share") if curve.kind == "efficiency" else ("store_V", "charging_A")
    if len(curve.curves) == 1:
        return {head: curve.inputs.tolist(), unit: curve.curves[0][1].tolist()}
    return {
        head: curve.inputs.tolist(),
        **{f"{unit}, {name}": values.tolist() for name, values in curve.curves},
    }


def charger_spoken(curve: ChargerCurve) -> str:
    """Where the charger works, for somebody who does not see its curve."""
    if curve.working is None:
        return say("It does not run in this light.")
    at, value = curve.working
    if curve.kind == "efficiency":
        return say(
            "Of {power} it passes on {share} %.", power=show(at, "W"), share=f"{100 * value:.0f}"
        )
    return say("At {volts} it charges with {current}.",
               volts=show(at, "V"), current=show(value, "A"))  # fmt: skip


def table_summary(rows: Sequence[EfficiencyPoint]) -> str:
    """An efficiency table in one line, for the form that opens it."""
    if not rows:
        return say("None: efficiency, fixed loss and loss resistance count.")
    if len(rows) == 1:
        return say("One row: of {power} {share} % arrive.",
                   power=show(rows[0].input_W, "W"), share=f"{100 * rows[0].efficiency:.0f}")
    powers, shares = [row.input_W for row in rows], [row.efficiency for row in rows]
    return say(
        "{n} rows, {least} to {most}: {low} to {high} % arrive.",
        n=len(rows), least=show(min(powers), "W"), most=show(max(powers), "W"),
        low=f"{100 * min(shares):.0f}", high=f"{100 * max(shares):.0f}",
    )  # fmt: skip


def unfinished_row(place: int, draft: DraftRow) -> str:
    """What a row of an efficiency table that has been begun still lacks."""
    names = tuple(describe(EfficiencyPoint, key).label for key in draft.missing)
    return say("Row {n} still lacks: {what}.", n=place + 1, what=joined(", ", names))


def point_lines(curve: PanelCurve) -> tuple[tuple[str, str], ...]:
    """Name and values of every working point, in the order of `numbered`."""
    return tuple(
        (
            joined("  ", (str(number), p.label)),
            joined(", ", (show(p.voltage_v, "V"), show(p.power_w, "W"))),
        )
        for number, p in numbered(curve)
    )


def numbered(curve: PanelCurve) -> tuple[tuple[int, WorkingPoint], ...]:
    """Working points with the number that stands beside them, by rising voltage."""
    points = sorted(curve.points, key=lambda p: p.voltage_v)
    return tuple(enumerate(points, start=1))


def meaning_title(illuminance_lx: float, technology: Technology) -> str:
    """Heading of the table of sources."""
    return say(
        "What {light} mean to {cell}",
        light=show(illuminance_lx, "lx"),
        cell=option(technology).lower(),
    )


def chosen_source(light: Light) -> Source:
    """The source whose watts are told: the chosen one; of a year without lamps its daylight."""
    if isinstance(light.pattern, DaylightPattern) and not light.pattern.lamps:
        return daylight_source(light.pattern)
    return light.source


def light_meanings(
    technology: Technology, illuminance_lx: float, chosen: Source
) -> tuple[Meaning, ...]:
    """What a lux reading means under every source, for a cell technology."""
    rows = []
    for source in get_args(Source):
        found = parts.light_answer(source, illuminance_lx)
        # 1 A/m² is 100 µA/cm².
        micro = found.photocurrent_a_per_m2[technology] * 100.0
        rows.append(
            Meaning(
                source=source,
                name=option(source),
                irradiance=show(found.irradiance_w_per_m2, ""),
                current=show(micro, ""),
                chosen=source == chosen,
            )
        )
    return tuple(rows)


def meaning_line(scenario: Scenario, illuminance_lx: float) -> str:
    """The chosen source's row in one line, for the place where the source is chosen."""
    rows = light_meanings(
        scenario.panels.technology, illuminance_lx, chosen_source(scenario.light)
    )
    row = next(row for row in rows if row.chosen)
    return say(
        "{light} of it are {irradiance} W/m² and {current} µA/cm².",
        light=show(illuminance_lx, "lx"),
        irradiance=row.irradiance,
        current=row.current,
    )


def meaning_table(scenario: Scenario, illuminance_lx: float) -> Table:
    """The table of sources as columns for a file."""
    rows = [parts.light_answer(source, illuminance_lx) for source in get_args(Source)]
    technology = scenario.panels.technology
    return {
        "source": [r.source for r in rows],
        "illuminance_lx": [r.illuminance_lx for r in rows],
        "irradiance_W_per_m2": [r.irradiance_w_per_m2 for r in rows],
        "photocurrent_uA_per_cm2": [r.photocurrent_a_per_m2[technology] * 100.0 for r in rows],
    }
