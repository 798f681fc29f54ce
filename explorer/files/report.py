"""The sheet that another engineer can check: what it says, in which order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import isfinite

from explorer.advice.assess import Assessment, assess
from explorer.advice.break_even import BreakEven, break_even
from explorer.advice.budget import Budget, budget
from explorer.advice.case import Case
from explorer.advice.panel_curve import PanelCurve, panel_curve
from explorer.advice.reach import reach
from explorer.advice.stops import knob_paths, stops_of
from explorer.advice.year.view import YearView, year_view
from explorer.engine.trace import Trace
from explorer.files.report_blocks import Block, Figure, Heading, Paragraph, Sheet
from explorer.files.report_charger import charger_blocks
from explorer.files.report_figures import panel_figure, point_table, pulse_figure, store_figure
from explorer.files.report_limits import Limit
from explorer.files.report_panel import panel_sheet_blocks
from explorer.files.report_parts import part_blocks
from explorer.files.report_source import SHORT, Source
from explorer.files.report_tables import (
    answer_table,
    banner,
    budget_table,
    check_table,
    elsewhere_blocks,
    hazard_notes,
    input_notes,
    input_tables,
    light_table,
    limit_table,
    required_blocks,
    sign_table,
    source_table,
    turn_table,
)
from explorer.files.report_year import year_blocks
from explorer.scenario.light import WeekPattern
from explorer.text import joined, say
from explorer.words.light_log import log_sentences
from explorer.words.panel import sold_sentence

PLANNING = say(
    "A planning estimate: local codes, the parts' data sheets and a qualified person "
    "decide."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """All that the model says about one scenario."""

    assessment: Assessment
    repeating: Trace | None
    """The course that repeats; None where the device never starts."""
    budget: Budget
    curve: PanelCurve
    turns: tuple[BreakEven, ...]
    """Where the verdict changes along each of the four quantities that knobs move."""
    calendar: float | None
    """Time from Monday 00:00 to the beginning of the light; None where no weekday is meant. [s]"""
    year: YearView | None = None
    """The year, where the light is one of daylight."""


def findings(case: Case) -> Findings:
    """Everything that a sheet is written from; takes a second, under a log some more.

    Parameters
    ----------
    case : Case
        The design and its light.

    Raises
    ------
    ValueError, ArithmeticError
        The design cannot be computed.
    """
    found = assess(case)
    found = replace(found, answers={**found.answers, **reach(case)})
    starts = isfinite(found.answers["first_charge_s"])
    return Findings(
        assessment=found,
        repeating=found.repeating if starts else None,
        budget=budget(case),
        curve=panel_curve(case),
        turns=tuple(break_even(case, path, stops_of(path)) for path in knob_paths(case.scenario)),
        calendar=_calendar(case),
        year=None if case.year is None else year_view(case),
    )


def sheet(found: Findings, source: Source, model: Sequence[Limit]) -> Sheet:
    """The sheet of a scenario.

    Parameters
    ----------
    found : Findings
        What the model says.
    source : Source
        Where it comes from.
    model : sequence of Limit
        What the model leaves out, in the language of the sheet.
    """
    scenario = found.assessment.scenario
    blocks: list[Block] = [
        banner(found.assessment),
        *hazard_notes(found.assessment),
        Paragraph(text=PLANNING),
        Heading(text=say("Six checks")),
        check_table(found.assessment),
        *required_blocks(found.assessment),
        Heading(text=say("Where the verdict changes")),
        turn_table(found.assessment.case, found.turns),
        *_store(found),
        Heading(text=say("Answers")),
        answer_table(found.assessment),
        *elsewhere_blocks(found.assessment),
        *year_blocks(found.year),
        *_pulse(found.assessment),
        Heading(text=say("Panel in this light")),
        panel_figure(found.curve),
        point_table(found.curve),
        *_sold(found.assessment),
        *panel_sheet_blocks(scenario.panels),
        *charger_blocks(scenario.charger, found.curve.charger),
        Heading(text=say("Where the energy goes")),
        budget_table(found.budget),
        Heading(text=say("How the light is known")),
        light_table(scenario),
        *_light_log(found.assessment.case),
        *part_blocks(scenario),
        Heading(text=say("Inputs")),
        *input_tables(scenario, input_notes(scenario)),
        Heading(text=say("What the model leaves out, and how wrong it may be")),
        Paragraph(
            text=say(
                "From the model note that comes with the program; the numbers are its sections, "
                "which give the equations and the sources."
            )
        ),
        limit_table(model),
        Heading(text=say("Where this report comes from"), whole=True),  # nobody signs a bare page
        source_table(source, scenario.notes),
        Paragraph(
            text=say(
                "The same scenario gives the same SHA-256: of its JSON with every key, keys "
                "sorted, no blanks between them, in UTF-8."
            )
        ),
        sign_table(),
        Paragraph(text=PLANNING),
    ]
    return Sheet(
        title=scenario.title,
        place=scenario.place,
        short_hash=source.scenario_sha256[:SHORT],
        blocks=_numbered(blocks),
    )


def _pulse(found: Assessment) -> list[Block]:
    if found.pulse is None:
        return []
    return [Heading(text=say("The deepest pulse")), pulse_figure(found.pulse)]


def _sold(found: Assessment) -> list[Block]:
    sentence = sold_sentence(found.case)
    return [Paragraph(text=sentence)] if sentence else []


def _light_log(case: Case) -> list[Block]:
    sentences = log_sentences(case)
    if not sentences:
        return []
    title = say("The light log") if case.log is not None else say("The light of the year")
    return [Heading(text=title), *(Paragraph(text=text) for text in sentences)]


def _numbered(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """Blocks with their pictures numbered."""
    numbered: list[Block] = []
    n = 0
    for block in blocks:
        if isinstance(block, Figure):
            n += 1
            name = say("Figure {n}.", n=n)
            block = replace(block, caption=joined(" ", (name, block.caption)))
        numbered.append(block)
    return tuple(numbered)


def _store(found: Findings) -> list[Block]:
    """The store over one period of its light; of a year there is a section of its own."""
    if found.year is not None:
        return []
    return [
        Heading(text=say("Store voltage")),
        store_figure(found.assessment, found.repeating, found.calendar),
    ]


def _calendar(case: Case) -> float | None:
    log = case.log
    if isinstance(case.scenario.light.pattern, WeekPattern):
        return 0.0
    return log.start_of_week_s if log is not None and log.start is not None else None
