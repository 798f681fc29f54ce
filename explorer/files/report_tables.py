"""The tables and notes of a sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from math import isinf

from explorer.advice import cautions as cautions_of
from explorer.advice.assess import Assessment
from explorer.advice.break_even import BreakEven
from explorer.advice.budget import Budget
from explorer.advice.case import Case
from explorer.advice.elsewhere import elsewhere
from explorer.advice.verdict import CHECK_LABELS, Check
from explorer.files.report_blocks import Banner, Block, Column, Heading, Note, Row, Table
from explorer.files.report_inputs import InputRow, input_rows
from explorer.files.report_limits import Limit
from explorer.files.report_source import Source
from explorer.quantity import show
from explorer.scenario.calendar import MONTH_NAMES
from explorer.scenario.fields import describe
from explorer.scenario.model import (
    FORMAT,
    MARGIN_BY_KNOWLEDGE,
    VERSION,
    Scenario,
    get_value,
    owner_class,
)
from explorer.text import Text, capitalised, figure, joined, say
from explorer.words.answers import ASSUMED, LABELS, value_of
from explorer.words.cut_off import cut_off_note
from explorer.words.edges import break_even_text, edge_value
from explorer.words.elsewhere import COLUMNS, MEANING, place_row
from explorer.words.figures import (
    STATE_WORDS,
    bind_units,
    check_quantity,
    margin_text,
    value_text,
)
from explorer.words.options import option
from explorer.words.required import asked_rows

_SECTION_OF = {"store": "store", "charger": "charger", "panel": "panels", "load": "load"}
"""Section of a scenario that holds the choice which calls for a caution."""
_NOTHING = 1e-9


def banner(found: Assessment) -> Banner:
    """The verdict with the one reason that governs."""
    check = found.verdict.governing
    label = CHECK_LABELS[check.name]
    return Banner(
        state=found.verdict.state,
        word=found.verdict.word,
        reason=bind_units(check.sentence),
        number=say(
            "Decided by: {check}. Margin {margin}, required {wanted}.",
            check=label, margin=margin_text(check.margin), wanted=_wanted(check),
        ),
    )  # fmt: skip


def hazard_notes(found: Assessment) -> Iterator[Note]:
    """Dangers to people and parts."""
    for hazard in found.verdict.hazards:
        title = say("Hazard: {title}", title=hazard.title)
        yield Note(title=title, text=bind_units(hazard.sentence), hazard=True)


def check_table(found: Assessment) -> Table:
    """The six checks."""
    return Table(
        caption=say("A check passes at a margin of 1×; Runs requires the margin in the "
                    "column “Required”. Pulse: allowed dip divided by actual dip."),
        columns=(
            Column(title=say("Check", "noun"), share=0.135),
            Column(title=say("Result"), share=0.15),
            Column(title=say("Value"), share=0.10, kind="number"),
            Column(title=say("Limit"), share=0.09, kind="number"),
            Column(title=say("Margin"), share=0.09, kind="number"),
            Column(title=say("Required"), share=0.105, kind="number"),
            Column(title=say("In words"), share=0.33),
        ),
        rows=tuple(
            Row(
                cells=(
                    CHECK_LABELS[check.name], STATE_WORDS[check.state],
                    bind_units(value_text(check)), bind_units(_limit(check)),
                    margin_text(check.margin), _wanted(check), bind_units(check.sentence),
                ),
                state=check.state,
                strong=check is found.verdict.governing,
            )
            for check in found.verdict.checks
        ),
    )  # fmt: skip


def required_blocks(found: Assessment) -> tuple[Block, ...]:
    """The amounts that are asked beside what the course must serve; none where none are."""
    rows = asked_rows(found)
    if not rows:
        return ()
    return (Table(
        caption=say("Amounts that are asked; the one that fares worst is part of Service."),
        columns=(
            Column(title=say("Asked"), share=0.21),
            Column(title=say("Result"), share=0.15),
            Column(title=say("Value"), share=0.11, kind="number"),
            Column(title=say("Limit"), share=0.11, kind="number"),
            Column(title=say("Margin"), share=0.10, kind="number"),
            Column(title=say("In words"), share=0.32),
        ),
        rows=tuple(
            Row(
                cells=(row.label, STATE_WORDS[row.state], bind_units(row.value),
                       bind_units(row.limit), row.margin, bind_units(row.sentence)),
                state=row.state,
            )
            for row in rows
        ),
    ),)


def _limit(check: Check) -> str:
    if isinf(check.limit):
        return say("no end") if check.name == "dark" else say("none")
    return check_quantity(check, check.limit)


def _wanted(check: Check) -> str:
    return margin_text(check.wanted) if check.wanted > 1.0 else figure("1×")


def answer_table(found: Assessment) -> Table:
    """Every answer with what it assumes."""
    caption = say(
        "“Steady cycle”: the period that repeats once start-up effects have died out."
    )
    if isinf(found.answers.get("first_charge_s", 0.0)):
        caption = say(
            "“Steady cycle”: the period that repeats once start-up effects have died out. This "
            "design never starts from empty; these answers hold for one that begins with a full "
            "store."
        )
    return Table(
        caption=caption,
        columns=(
            Column(title=say("Answer"), share=0.29),
            Column(title=say("Value"), share=0.14, kind="number"),
            Column(title=say("Assumes"), share=0.57),
        ),
        rows=tuple(
            Row(cells=(LABELS[key], value_of(key, value), ASSUMED[key]))
            for key, value in found.answers.items()
            if key in LABELS
        ),
    )


def elsewhere_blocks(found: Assessment) -> tuple[Block, ...]:
    """The device in the light of other places; none where there are none."""
    places = elsewhere(found.case)
    if not places:
        return ()
    shares = (0.25, 0.12, 0.16, 0.16, 0.17, 0.14)
    return (
        Heading(text=say("Other places")),
        Table(
            caption=MEANING,
            columns=tuple(
                Column(title=title, share=share, kind="number" if k else "text")
                for k, (title, share) in enumerate(zip(COLUMNS, shares, strict=True))
            ),
            rows=tuple(Row(cells=place_row(one)) for one in places),
        ),
    )


def turn_table(case: Case, turns: Sequence[BreakEven]) -> Table:
    """The values at which the verdict changes, each quantity moved alone."""
    rows = []
    for found in turns:
        info = describe(owner_class(case.scenario, found.path), found.path.rpartition(".")[2])
        now = get_value(case.scenario, found.path)
        if now is None:
            now = case.mean_lit_lx
        cells = (
            info.label, edge_value(found.path, info.unit, now),
            bind_units(capitalised(break_even_text(found, info.unit))),
        )  # fmt: skip
        rows.append(Row(cells=cells))
    return Table(
        caption=say(
            "Each quantity moved alone along the stops of its knob, all else as it is; found by "
            "the exact model. Sizes of a store are those in which it is sold."
        ),
        columns=(
            Column(title=say("Quantity"), share=0.29),
            Column(title=say("Now"), share=0.14, kind="number"),
            Column(title=say("Verdict"), share=0.57),
        ),
        rows=tuple(rows),
    )


def budget_table(found: Budget) -> Table:
    """The budget of one period; after what it goes to stand their sum and where it came from."""
    rows = []
    for item in found.items:
        joules = item.joules if item.share > _NOTHING else 0.0  # femtojoules are rounding
        of_panel = "–" if item.key == "not_converted" else _percent(item.panel_share)
        rows.append(Row(cells=(item.label, show(joules, "J"), _percent(item.share), of_panel)))
    whole = sum(item.joules for item in found.items)
    shares = sum(item.share for item in found.items)
    of_panel = _percent(sum(item.panel_share for item in found.items))
    rows.append(Row(cells=(say("Sum"), _joules(whole), _percent(shares), of_panel), strong=True))
    sources = [(say("Light on the panel"), found.light_j)]
    if found.from_store_j > _NOTHING * found.light_j:
        sources.append((say("Given by the store"), found.from_store_j))
    given = sum(joules for _, joules in sources)
    rows += [
        Row(cells=(label, show(joules, "J"), _percent(joules / given if given else 0.0), ""))
        for label, joules in sources
    ]
    return Table(
        caption=joined(" ", (_energy_of(found), say(
            "Shares refer to the light on the panel and to the panel's maximum power. Not "
            "accounted for: {rest}.",
            rest=_joules(abs(found.residual_j)),
        ))),
        columns=(
            Column(title=say("Goes to"), share=0.46),
            Column(title=say("Energy"), share=0.18, kind="number"),
            Column(title=say("Of the light"), share=0.18, kind="number"),
            Column(title=say("Of the panel"), share=0.18, kind="number"),
        ),
        rows=tuple(rows),
    )  # fmt: skip


def _energy_of(found: Budget) -> Text:
    """What a budget is of; of a year a single month."""
    if found.month:
        return say(
            "Energy in {month}, the tightest month of the year.", month=MONTH_NAMES[found.month]
        )
    return say("Energy over {time} of the steady cycle.", time=show(found.span_s, "s"))


def _joules(energy_j: float) -> str:
    """An energy; what is less than a picojoule is rounding."""
    return show(energy_j if abs(energy_j) > 1e-12 else 0.0, "J")


def _percent(share: float) -> str:
    """A share to a hundredth of a percent, so that a reader can add them up."""
    return figure(f"{100.0 * share:.2f} %")


def light_table(scenario: Scenario) -> Table:
    """How the light is known, and the margin that follows."""
    known = scenario.light.known_by
    rows = [
        Row(
            cells=(option(kind), show(margin, "×"), say("this scenario") if kind == known else ""),
            strong=kind == known,
        )
        for kind, margin in MARGIN_BY_KNOWLEDGE.items()
    ]
    rows.append(
        Row(
            cells=(
                say("Margin that this design is asked for"),
                show(scenario.design_margin, "×"),
                say("follows from the light") if scenario.margins.design_margin is None
                else say("set in the scenario"),
            ),
            strong=True,
        )
    )  # fmt: skip
    return Table(
        caption=say(
            "A reading can be wrong, so a design is asked for more than it needs. The three "
            "margins are our own judgement."
        ),
        columns=(
            Column(title=say("Light known by"), share=0.5),
            Column(title=say("Required margin"), share=0.2, kind="number"),
            Column(title=say("Applies"), share=0.3),
        ),
        rows=tuple(rows),
    )


def input_notes(scenario: Scenario) -> dict[str, tuple[Note, ...]]:
    """Which voltage cuts off in place of the entered one, and cautions, by section."""
    found: dict[str, tuple[Note, ...]] = {}
    if (instead := cut_off_note(scenario)) is not None:
        found["load"] = (Note(title=say("Disconnect voltage"), text=bind_units(instead)),)
    for caution in cautions_of.cautions(scenario):
        note = Note(title=say("Caution: {title}", title=caution.title), text=caution.text)
        key = _SECTION_OF[caution.where]
        found[key] = (*found.get(key, ()), note)
    return found


def input_tables(scenario: Scenario, notes: dict[str, tuple[Note, ...]]) -> Iterator[Block]:
    """Every input, a table for each section, with what is to be noted below it."""
    for section, rows in groupby(input_rows(scenario), key=lambda row: row.section):
        kept = tuple(rows)
        written = all("." not in row.path for row in kept)
        shares = (0.14, 0.58, 0.12, 0.16) if written else (0.29, 0.25, 0.12, 0.34)
        yield Table(
            title=section,
            caption=say("Bold: differs from what a new scenario, or a new row in it, begins with."),
            columns=(
                Column(title=say("Input"), share=shares[0]),
                Column(title=say("Value"), share=shares[1]),
                Column(title=say("Default"), share=shares[2]),
                Column(title=say("Key in the file"), share=shares[3], kind="code"),
            ),
            rows=tuple(_input_rows(kept)),
        )
        yield from notes.get(kept[0].path.partition(".")[0], ())


def _input_rows(rows: Sequence[InputRow]) -> Iterator[Row]:
    for group, inner in groupby(rows, key=lambda row: row.group):
        if group:
            yield Row(cells=(group,), group=True)
        for row in inner:
            state = say("changed") if row.changed else say("default")
            yield Row(cells=(row.label, row.value, state, row.path), strong=row.changed)


def limit_table(model: Sequence[Limit]) -> Table:
    """What the model note says of its limits."""
    return Table(
        caption=say("Limits of the model"),
        columns=(
            Column(title=say("Section of the note"), share=0.18),
            Column(title=say("Left out"), share=0.41),
            Column(title=say("Expected error"), share=0.41),
        ),
        rows=tuple(
            Row(cells=(limit.section, limit.left_out or "–", limit.error or "–")) for limit in model
        ),
    )


def source_table(source: Source, notes: str) -> Table:
    """Program, files, hashes, date and notes."""
    rows = [
        (say("Program"), joined(" ", ("Gloaming", source.program))),
        (say("Written"), source.written.isoformat(sep=" ", timespec="minutes")),
        (say("Scenario file"), source.file or say("never saved")),
        (say("Format of the scenario"), say("{name}, version {n}", name=FORMAT, n=VERSION)),
        (say("SHA-256 of the scenario"), source.scenario_sha256),
    ]
    if source.log:
        rows += [
            (say("Light log"), source.log),
            (say("SHA-256 of the light log"), source.log_sha256),
        ]
    if notes:
        rows.append((say("Notes of the scenario"), notes))
    if source.note:
        rows.append((say("Note on this sheet"), source.note))
    return Table(
        caption=say("Provenance"),
        columns=(
            Column(title=say("What"), share=0.27),
            Column(title=say("Value"), share=0.73),
        ),
        rows=tuple(Row(cells=row) for row in rows),
    )


def sign_table() -> Table:
    """Room for those who answer for it; never filled in."""
    return Table(
        caption=say("To be signed by those responsible"),
        columns=(
            Column(title=say("Step"), share=0.2),
            Column(title=say("Name", "person"), share=0.3),
            Column(title=say("Date"), share=0.2),
            Column(title=say("Signature"), share=0.3),
        ),
        rows=tuple(
            Row(cells=(step, "", "", ""))
            for step in (say("Prepared"), say("Checked"), say("Accepted"))
        ),
    )
