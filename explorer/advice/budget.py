"""Where the energy goes: one period of the repeating course, from the light to useful work."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from explorer.advice.case import Case, kept
from explorer.advice.readings.one import study
from explorer.advice.year.readings import worst_of_course
from explorer.advice.year.study import year_study
from explorer.engine.audit import Ledger, ledger
from explorer.engine.course import Trajectory
from explorer.engine.march import Engine
from explorer.engine.system import LightCourse, System
from explorer.physics import charger as ch
from explorer.physics import panel as pv
from explorer.physics.arrays import FloatArray
from explorer.scenario import parts
from explorer.scenario.course import current_per_lux, panel_factor
from explorer.scenario.light import Source
from explorer.scenario.model import Scenario, size_path
from explorer.scenario.supply import DirectCharger
from explorer.scenario.year_course import Month
from explorer.scenario.year_light import YearLight
from explorer.text import say

Stage = Literal["panel", "charger", "store", "device", "work"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BudgetItem:
    """Energy that ends in one place."""

    key: str
    label: str
    stage: Stage
    """Where on the way from the light to useful work it ends."""
    joules: float
    share: float
    """Of the light on the panel and what the store gave, 0 to 1."""
    panel_share: float
    """Of what the panel could have given and what the store gave; above 1 never, 0 for what the
    cells do not convert."""
    path: str
    """Scenario path of the knob that governs it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """Energy of one period of the repeating course. [J]"""

    span_s: float
    light_j: float
    """Light on the panel within 300 to 1200 nm."""
    panel_j: float
    """What the panel could have given at its maximum-power point."""
    taken_j: float
    """What was taken from the panel."""
    charged_j: float
    """What reached the store's terminals."""
    from_store_j: float
    """What the store gave because it ends the period lower than it began."""
    items: tuple[BudgetItem, ...]
    """In the order in which energy leaves its way; together the light and what the store gave."""
    residual_j: float
    """What the audit does not find again."""
    month: int = 0
    """Of a year of daylight, its tightest month alone is accounted for: its number, from 1."""

    @property
    def work_j(self) -> float:
        """Useful work: all operations. [J]"""
        return sum(item.joules for item in self.items if item.stage == "work")

    @property
    def closes(self) -> bool:
        """Whether the audit closes to 0.1 % of what was turned over."""
        turned_over = max(self.taken_j, 0.0) + self.from_store_j
        return abs(self.residual_j) <= 1e-3 * turned_over + 1e-12

    def item(self, key: str) -> BudgetItem:
        """One item by its key; KeyError where there is none."""
        for item in self.items:
            if item.key == key:
                return item
        raise KeyError(key)

    @property
    def answers(self) -> dict[str, float]:
        """Average powers, each with its unit in the key. [W]"""
        powers = {
            "light_W": self.light_j,
            "panel_maximum_W": self.panel_j,
            "panel_taken_W": self.taken_j,
            "charged_W": self.charged_j,
            "work_W": self.work_j,
        }
        powers |= {f"{item.key}_W": item.joules for item in self.items}
        return {key: joules / self.span_s for key, joules in powers.items()}


@kept
def budget(case: Case) -> Budget:
    """Energy budget of the repeating course of a case; of a year, of its tightest month.

    Items that are zero are left out where the scenario has no such part (a diode has no working
    point to miss), so what is listed can be changed by its knob.
    """
    if case.year is None:
        one = study(case)
        scenario, engine, run, month = case.scenario, one.engine, one.course.run, 0
        on_panel = light_on_panel(scenario, engine.system.light)
    else:
        # The joules of every leg of a year take as long as ten years of marching.
        tight = year_study(case).months[worst_of_course(case, "balance")]
        scenario, engine, run = tight.month.scenario, tight.engine, tight.run
        month = tight.month.begin.month
        on_panel = _of_month(tight.month, case.year)
    found, system = ledger(engine, run), engine.system
    seconds = _passed_s(system.light, run)
    light = float(on_panel @ seconds)
    panel = float(_panel_power(system) @ seconds)
    # A log is run on a ladder of levels; what lies between the ladder and the log itself is light
    # that is too weak to charge.
    missed = panel - found.panel_maximum_j
    missed = missed if missed > 1e-9 * panel else 0.0
    panel = found.panel_maximum_j + missed
    given = max(-found.stored_j, 0.0)
    rows = [
        row for row in _rows(scenario, engine, found, light - panel, missed)
        if _shown(scenario, row)
    ]
    return Budget(
        span_s=found.span_s,
        light_j=light,
        panel_j=panel,
        taken_j=found.panel_taken_j,
        charged_j=found.charged_j,
        from_store_j=given,
        items=tuple(
            BudgetItem(
                key=key, label=label, stage=stage, joules=joules, path=path,
                share=_share(joules, light + given),
                panel_share=0.0 if key == "not_converted" else _share(joules, panel + given),
            )
            for key, label, stage, joules, path in rows
        ),
        residual_j=found.residual_j,
        month=month,
    )


_Row = tuple[str, str, Stage, float, str]


def _rows(
    scenario: Scenario, engine: Engine, found: Ledger, not_converted_j: float, missed_j: float
) -> list[_Row]:
    """Items in order: key, label, stage, energy and the knob's path."""
    direct = not isinstance(engine.system.charger, ch.Converter)
    store = scenario.store
    rows: list[_Row] = [
        ("not_converted", say("Light not converted by the cells"), "panel", not_converted_j,
         "panels.technology"),
        ("too_weak", say("Light too weak for the charger"), "charger", found.too_weak_j + missed_j,
         "light.illuminance_lx" if direct else "charger.minimum_panel_W"),
        ("tracking", say("Panel not at its maximum power point"), "charger", found.tracking_loss_j,
         "panels.cells_in_series" if direct else _tracking_path(scenario)),
        ("clipped", say("Not taken because the store is full"), "charger", found.clipped_j,
         size_path(scenario)),
        ("limited", say("Held back by a current limit"), "charger", found.limited_j,
         _limit_path(engine)),
        ("charger", say("Lost in the blocking diode") if direct else say("Lost in the charger"),
         "charger", found.charger_loss_j,
         _loss_path(scenario)),
        ("esr", say("Lost in the store's resistance"), "store", found.esr_loss_j,
         f"store.{store.resistance_key}"),
        ("leakage", _leak_label(scenario), "store", found.leakage_j,
         f"store.{store.leakage_key}"),
        ("quiescent", say("Charger's quiescent current"), "store", found.quiescent_j,
         "charger.quiescent_A"),
        ("regulator", say("Lost in the regulator"), "device", found.regulator_loss_j,
         "load.regulator.efficiency" if scenario.load.regulator.kind == "switching"
         else "load.regulator.output_V"),
        _awake(scenario, found.sleep_j),
        ("start_up", say("Start-ups"), "device", found.start_up_j, _start_path(scenario)),
    ]
    timed = () if scenario.load.runs_until_empty else scenario.load.operations
    for j, (operation, joules) in enumerate(zip(timed, found.operations_j, strict=True)):
        last = "interval_s" if operation.schedule.kind == "every" else "ready_V"
        rows.append((f"operation_{j}", operation.name, "work", joules,
                     f"load.operations.{j}.schedule.{last}"))
    if found.stored_j > 0.0:
        rows.append(("stored", say("Left in the store"), "store", found.stored_j,
                     size_path(scenario)))
    return rows


def _awake(scenario: Scenario, joules: float) -> _Row:
    """What the device takes while it waits; what runs until the store gives out never does."""
    if not scenario.load.runs_until_empty:
        return ("sleep", say("Sleep"), "device", joules, "load.sleep_A")
    (operation,) = scenario.load.operations
    amount = operation.phases[0].amount_key
    return ("operation_0", operation.name, "work", joules,
            f"load.operations.0.phases.0.{amount}")  # fmt: skip


def _shown(scenario: Scenario, row: _Row) -> bool:
    """Whether the scenario has the part that an item belongs to, or energy ended there."""
    key, joules = row[0], row[3]
    if key == "regulator":
        return scenario.load.regulator.kind != "none"
    always = ("too_weak", "limited", "tracking", "start_up")
    return joules != 0.0 or key not in always


def _share(part: float, whole: float) -> float:
    return part / whole if whole > 0.0 else 0.0


def _loss_path(scenario: Scenario) -> str:
    """What decides the charger's own loss."""
    charger = scenario.charger
    if isinstance(charger, DirectCharger):
        return "charger.diode_saturation_A"
    return f"charger.{charger.efficiency_key}"


def _tracking_path(scenario: Scenario) -> str:
    if getattr(scenario.charger, "tracking", "") == "fraction":
        return "charger.voc_fraction"
    return "charger.tracking"


def _limit_path(engine: Engine) -> str:
    """The limit that is lower: the cell's or the converter's."""
    charger, field = engine.system.charger, engine.field
    own = np.inf if not isinstance(charger, ch.Converter) else float(
        np.asarray(charger.output_limit_a)
    )
    return "store.charge_limit_A" if field.curve.charge_limit_a < own else "charger.output_limit_A"


def _leak_label(scenario: Scenario) -> str:
    if scenario.store.kind == "cell":
        return say("Self-discharge of the cell")
    if getattr(scenario.store, "balancing", "none") != "none":
        return say("Leakage and balancing of the store")
    return say("Leakage of the store")


def _start_path(scenario: Scenario) -> str:
    if not scenario.load.start_up:
        return "load.bulk_capacitance_F"
    return f"load.start_up.0.{scenario.load.start_up[0].amount_key}"


def _passed_s(course: LightCourse, run: Trajectory) -> FloatArray:
    """How long a run lasts in each stretch of the light, shape (n,). [s]

    A run that was given up ends anywhere in a period.
    """
    lengths = np.diff(course.edges_s)

    def until(time_s: float) -> FloatArray:
        periods, into_s = divmod(time_s, course.period_s)
        return np.asarray(periods * lengths + np.clip(into_s - course.edges_s[:-1], 0.0, lengths))

    return until(run.begin_s + run.span_s) - until(run.begin_s)


def light_on_panel(scenario: Scenario, course: LightCourse) -> FloatArray:
    """Radiant power on all panels in each stretch of a week or a log, within 300 to 1200 nm. [W]

    The share of daylight in each stretch is read from its photocurrent per lux.
    """
    light, panels = scenario.light, scenario.panels
    lamp_a, day_a = (
        float(current_per_lux(light, panels, daylight_share=share)) for share in (0.0, 1.0)
    )
    lit = course.illuminance_lx > 0
    per_lux = course.photocurrent_a / np.where(lit, course.illuminance_lx, 1.0)
    share = np.full(per_lux.shape, light.daylight_share)
    if abs(day_a - lamp_a) > 1e-9 * abs(lamp_a):
        share = np.clip((per_lux - lamp_a) / (day_a - lamp_a), 0.0, 1.0)
    return _radiant_w(scenario, course, share, (light.source, "daylight_glass"))


def _of_month(month: Month, year: YearLight) -> FloatArray:
    """The same in each stretch of a month of daylight, which has lamps of their own hours. [W]"""
    course = month.course
    # Where a stretch begins, its light is what it is throughout.
    at = ((month.begin_s + course.edges_s[:-1]) / year.step_s).round().astype(np.intp)
    day, lamps = year.daylight_lx[at], year.electric_lx[at]
    share = day / np.where(day + lamps > 0.0, day + lamps, 1.0)
    return _radiant_w(month.scenario, course, share, (year.electric_source, year.daylight_source))


def _radiant_w(
    scenario: Scenario, course: LightCourse, share: FloatArray, sources: tuple[Source, Source]
) -> FloatArray:
    """Radiant power on all panels where shares of the lux are of the second source. [W]"""
    panels = scenario.panels
    area_m2 = panels.active_area_cm2 * 1e-4 * panels.count * panels.in_series
    one, other = (parts.irradiance_per_lux(source) for source in sources)
    irradiance = course.illuminance_lx * ((1.0 - share) * one + share * other)
    return np.asarray(irradiance * (area_m2 * panel_factor(scenario.light)))


def _panel_power(system: System) -> FloatArray:
    """What the panels could give in each stretch at their maximum-power point, shape (n,). [W]"""
    levels, which = np.unique(system.light.photocurrent_a, return_inverse=True)
    return np.asarray(pv.maximum_power(system.panel, levels).power_w[which.ravel()])


__all__ = ["Budget", "BudgetItem", "budget"]
