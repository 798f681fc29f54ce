"""All text that the drawers show, and their numbers as tables; pure, tested without a widget."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from explorer.advice.territory import Axis, Territory
from explorer.advice.verdict import CHECK_NAMES, State
from explorer.quantity import show
from explorer.scenario.calendar import MONTH_NAMES
from explorer.text import figure, joined, say, texts
from explorer.words.edges import span_text
from explorer.words.figures import lower_first as lower_first
from explorer.words.figures import percent as percent
from explorer.words.figures import percent_range as percent_range
from explorer.words.figures import quantity_text

if TYPE_CHECKING:
    from explorer.advice.budget import Budget
    from explorer.advice.edges import Edges
    from explorer.advice.spread import Spread, Tolerance

Table = dict[str, list[float | str]]
"""Columns of equal length under names that end in their unit."""
CODES: tuple[State, State, State] = ("falls_short", "marginal", "runs")
CODE_WORDS = texts(("falls short", "marginal", "runs"))
_NOTHING = 1e-9


# --- budget ---


@dataclass(frozen=True, slots=True, kw_only=True)
class BudgetLine:
    """One row of the budget."""

    label: str
    value: str
    share: str
    start: float
    """Where its bar begins: what was lost before it, 0 to 1 of what the panel could give."""
    length: float
    useful: bool
    path: str
    spoken: str


def budget_lines(found: Budget) -> tuple[BudgetLine, ...]:
    """Every end of the panel's energy, in the order in which it leaves its way."""
    rows = []
    start = 0.0
    for item in found.items:
        if item.key == "not_converted":
            continue
        # Rounding leaves femtojoules where nothing is lost.
        joules = item.joules if item.panel_share > _NOTHING else 0.0
        share, value = percent(joules and item.panel_share), show(joules, "J")
        rows.append(
            BudgetLine(
                label=item.label,
                value=value,
                share=share,
                start=start,
                length=item.panel_share,
                useful=item.stage == "work",
                path=item.path,
                spoken=say(
                    "{label}: {value}, {share} of what the panel could give. "
                    "Enter goes to what governs it.",
                    label=item.label, value=value, share=share,
                ),
            )
        )
        start += item.panel_share
    return tuple(rows)


def budget_answer(found: Budget) -> str:
    """The closing line: how much of it all becomes useful work."""
    whole = found.panel_j + found.from_store_j
    if whole <= 0:
        return ""
    share = percent(found.work_j / whole)
    return say("{share} of what the panel could give reaches the device", share=share)


def budget_close(found: Budget) -> str:
    """From the light to the work in one sentence."""
    a_week = abs(found.span_s - 604_800.0) < 1.0
    span = say("a week", "how often") if a_week else say("in {time}", time=show(found.span_s, "s"))
    if found.month:
        span = say("in {month}", month=MONTH_NAMES[found.month])
    light, panel, work = (show(j, "J") for j in (found.light_j, found.panel_j, found.work_j))
    if found.light_j > 0:
        panel = joined("", (panel, " (", percent(found.panel_j / found.light_j), ")"))
    if found.from_store_j > 1e-3 * found.panel_j:
        panel += say(", the store gives {store}", store=show(found.from_store_j, "J"))
    return say(
        "Of {light} of light {span} the cells convert {panel}; {work} reach the device.",
        light=light, span=span, panel=panel, work=work,
    )


def budget_table(found: Budget) -> Table:
    """The budget as columns for a file."""
    return {
        "item": [i.label for i in found.items],
        "stage": [i.stage for i in found.items],
        "energy_J": [i.joules for i in found.items],
        "share_of_light": [i.share for i in found.items],
        "share_of_panel": [i.panel_share for i in found.items],
        "governed_by": [i.path for i in found.items],
    }


# --- territory ---


def is_count(axis: Axis) -> bool:
    """Whether an axis counts things, so that nothing lies between its values."""
    return axis.unit == "" and all(v == round(v) for v in axis.values)


def axis_value(axis: Axis, value: float) -> str:
    """A value of an axis with its unit."""
    return show(value, "") if is_count(axis) else quantity_text(value, axis.unit)


def with_axis(axis: Axis, value: float) -> str:
    """A quantity held at a value, as in "with 2 panels"."""
    if is_count(axis):
        if axis.path == "panels.count":
            return say("1 panel") if value == 1 else say("{n} panels", n=show(value, ""))
        return joined(" ", (show(value, ""), axis.label.lower()))
    return joined(" ", (lower_first(axis.label), axis_value(axis, value)))


def territory_summary(x: Axis, y: Axis, y_now: float, works: Edges, runs: Edges) -> str:
    """Where the design runs along the present row of a map, as its knobs say it."""
    held = with_axis(y, y_now)
    if works.none:
        return say(
            "Falls short at every {label} from {low} to {high} with {held}.",
            label=lower_first(x.label), low=axis_value(x, works.low),
            high=axis_value(x, works.high), held=held,
        )
    parts = []
    if not runs.none:
        parts.append(say("runs {where}", where=_where(x, runs)))
    if works.stretches != runs.stretches:
        parts.append(say("works, below the required margin, {where}", where=_where(x, works)))
    return say("With {held}: {outcome}.", held=held, outcome=joined("; ", parts))


def row_pending(y: Axis, y_now: float) -> str:
    """What stands above a map while its row is looked at."""
    return say("With {held}: looking for where the verdict changes…", held=with_axis(y, y_now))


def _where(axis: Axis, found: Edges) -> str:
    if found.stretches == ((None, None),):
        first, last = axis_value(axis, found.low), axis_value(axis, found.high)
        return say("everywhere from {first} to {last}", first=first, last=last)
    return span_text(found, axis.unit)


def territory_table(found: Territory) -> Table:
    """A map as one line for each of its points."""
    across, up = np.meshgrid(np.asarray(found.x.values), np.asarray(found.y.values))
    codes = found.codes.ravel().tolist()
    return {
        column_name(found.x.path): across.ravel().tolist(),
        column_name(found.y.path): up.ravel().tolist(),
        "verdict": [CODE_WORDS[c] for c in codes],
        "smallest_margin": found.margin.ravel().tolist(),
        "margin_over_wanted": found.reserve.ravel().tolist(),
        "governing_check": [CHECK_NAMES[g] for g in found.governing.ravel().tolist()],
        "sure": [float(sure) for sure in found.sure.ravel().tolist()],
    }


def column_name(path: str) -> str:
    """A path as the name of a column; its unit stays at the end."""
    return path.replace(".", "_")


# --- spread ---


def tolerance_text(tolerance: Tolerance) -> str:
    """The half-width of a tolerance as a person reads it."""
    if tolerance.kind == "relative":
        return figure(f"{100 * tolerance.amount:.3g} %")
    return show(tolerance.amount, tolerance.unit)


def spread_answer(found: Spread) -> str:
    """Share of the built units that run, as the answer to the drawer's question."""
    builds = f"{found.builds:,}".replace(",", "\u202f")
    runs, works = percent_range(*found.runs), percent_range(*found.works)
    if found.drawn:
        return say(
            "{runs} of such devices run, {works} are at least marginal ({n} drawn)",
            runs=runs, works=works, n=found.drawn,
        )
    return say(
        "{runs} of {builds} built devices run, {works} are at least marginal",
        runs=runs, builds=builds, works=works,
    )


def spread_note(found: Spread) -> str:
    """How near a limit units were judged, and what a range means."""
    left = int(np.sum(~(found.works_sure & found.runs_sure)))
    if found.drawn:
        return say(
            "{n} devices, drawn at random, were each judged by their whole year; such a range "
            "holds the share of all in 95 of 100 draws.",
            n=found.drawn,
        )
    if not found.judged:
        return say("{n} devices near a limit are not decided yet.", n=left) if left else ""
    if left == 0:
        return say("{n} devices near a limit were judged one by one.", n=found.judged)
    return say(
        "{n} devices near a limit were judged one by one; {left} more are too near it to be sure.",
        n=found.judged, left=left,
    )


def spread_builds_table(new: Spread, aged: Spread | None) -> Table:
    """Every built unit on its own line."""
    table: Table = {"unit": [float(i + 1) for i in range(new.builds)]}
    for name, found in (("new", new), (f"after_{aged.years:g}_years" if aged else "", aged)):
        if found is not None:
            table[f"{name}_margin_over_wanted"] = found.reserve.tolist()
            table[f"{name}_smallest_margin"] = found.margin.tolist()
            table[f"{name}_governing_check"] = [CHECK_NAMES[g] for g in found.governing.tolist()]
            table[f"{name}_first_charge_s"] = found.first_charge_s.tolist()
            sure = found.works_sure & found.runs_sure
            table[f"{name}_sure"] = [float(one) for one in sure.tolist()]
    return table


def influence_table(found: Spread, tolerances: Sequence[Tolerance]) -> Table:
    """Tolerances with what they do to the spread, strongest first."""
    by_path = {t.path: t for t in tolerances}
    rows = [(i, by_path[i.path]) for i in found.influences if i.path in by_path]
    return {
        "quantity": [i.label for i, _ in rows],
        "path": [i.path for i, _ in rows],
        "tolerance_kind": [t.kind for _, t in rows],
        "tolerance": [t.amount for _, t in rows],
        "share_of_spread": [i.share for i, _ in rows],
    }
