"""The scenario that follows from the answers.

What a person cannot be asked (charger, thresholds, regulator) follows from simple rules. What was
assumed of place, work and margin is written into the scenario's notes; parts are not, as they may
be changed and their fields tell which they are.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from explorer.scenario.demand import Every, Load, Operation, Phase, Regulator
from explorer.scenario.generic import cells_for
from explorer.scenario.guide.answers import Answers
from explorer.scenario.guide.assumptions import lasting
from explorer.scenario.guide.design import (
    AGED_YEARS,
    START_DESIGN,
    Design,
    margins_of,
    technology_of,
)
from explorer.scenario.guide.jobs import JOBS, battery_power_w
from explorer.scenario.guide.lit import light_of, lit_days, lit_hours
from explorer.scenario.guide.places import SPOTS
from explorer.scenario.guide.questions import OFTEN
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CellStore, Store
from explorer.scenario.supply import ConverterCharger, Panels
from explorer.text import say

DEVICE_V = 3.0
"""Behind the regulator."""
_CELL_WINDOW = {"lithium_ion": (3.1, 3.5, 4.15), "iron_phosphate": (2.8, 3.15, 3.45),
                "titanate": (2.23, 2.3, 2.6)}  # fmt: skip
"""Cut-off, connect and full voltage, inside the window of each chemistry (own judgement). [V]"""
_HYBRID_WINDOW = (2.7, 3.2, 3.6)
_BANK_WINDOW = (2.4, 3.6, 5.0)
_HEAD = say("Made by the guide. What it assumed then:")


def scenario_from(answers: Answers, design: Design = START_DESIGN) -> Scenario:
    """A valid scenario for the answers.

    Parameters
    ----------
    answers : Answers
        One answer to each question.
    design : Design, optional
        Panels and store; `explorer.advice.guided_design.find_design` tries for good ones.
    """
    spot, job, family = SPOTS[answers.place], JOBS[answers.job], design.store_family
    store = family.store(design.size)
    if answers.matters == "never_fails":
        store = store.model_copy(update={"years_in_service": AGED_YEARS})
    cut_v, connect_v, full_v = _window(store, family.window_v)
    technology = technology_of(answers.matters)
    return Scenario(
        title=job.design_title,
        place=spot.design_place,
        light=light_of(answers),
        panels=Panels(
            count=design.panels, technology=technology, active_area_cm2=design.area_cm2,
            cells_in_series=cells_for(technology),
        ),
        charger=_charger(store, full_v, spot.ambient_c),
        store=store,
        load=Load(
            connect_V=connect_v, disconnect_V=cut_v, minimum_V=cut_v - 0.2,
            regulator=Regulator(
                kind="switching", output_V=DEVICE_V, efficiency=0.85, ground_A=8e-7,
                minimum_input_V=1.8,
            ),
            sleep_A=_sleep_a(answers),
            operations=_operations(answers),
            actuator=job.actuator,
            reserve_J=job.reserve_j,
        ),
        margins=margins_of(answers),
        notes=notes_of(lasting(answers)),
    )  # fmt: skip


def notes_of(lines: Sequence[str], render: Callable[[str], str] = str) -> str:
    """What was assumed, as notes of a scenario."""
    return "\n".join((render(_HEAD), *(f"- {render(line)}" for line in lines)))


def _sleep_a(answers: Answers) -> float:
    """What the device takes between its operations; all of it where a battery tells. [A]"""
    if answers.job == "other":
        return battery_power_w(answers.battery, answers.lasts) / DEVICE_V
    return JOBS[answers.job].sleep_a


def _operations(answers: Answers) -> tuple[Operation, ...]:
    job = JOBS[answers.job]
    if not job.phases:
        return ()
    phases = tuple(
        Phase(name=name, power_W=power, duration_s=seconds) for name, power, seconds in job.phases
    )
    return (Operation(name=job.title.lower(), schedule=_schedule(answers), phases=phases),)


def _schedule(answers: Answers) -> Every:
    interval = OFTEN[answers.often][3]
    if answers.when == "light":
        hours = lit_hours(answers)
        return Every(
            interval_s=interval, days=lit_days(answers), from_h=hours[0][0], to_h=hours[-1][1]
        )
    if answers.when == "people":
        spot = SPOTS[answers.place]
        start, end = spot.people
        return Every(interval_s=interval, days=spot.days, from_h=start, to_h=end)
    return Every(interval_s=interval)


def _charger(store: Store, full_v: float, ambient_c: float) -> ConverterCharger:
    """A converter that gives a cell no more than it takes at that temperature."""
    charger = ConverterCharger(full_V=full_v)
    if not isinstance(store, CellStore):
        return charger
    limit = min(charger.output_limit_A, float(store.built(ambient_c, full_v).charge_limit_a))
    return charger.model_copy(update={"output_limit_A": limit})


def _window(store: Store, bank_v: tuple[float, float]) -> tuple[float, float, float]:
    if isinstance(store, CellStore):
        return _CELL_WINDOW[store.chemistry]
    return _HYBRID_WINDOW if bank_v[0] > 0 else _BANK_WINDOW
