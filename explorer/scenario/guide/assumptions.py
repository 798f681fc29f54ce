"""Everything that the answers left open, as sentences, each with its source."""

from __future__ import annotations

from explorer.quantity import show
from explorer.scenario.generic import (
    PER_CM2,
    PER_CM3,
    PER_PANEL,
    PER_STORE,
    panels_price,
    store_price,
)
from explorer.scenario.guide.answers import Answers, LastsKey
from explorer.scenario.guide.design import (
    AGED_YEARS,
    CAUTIOUS_MARGIN,
    START_DESIGN,
    Design,
    margins_of,
    technology_of,
)
from explorer.scenario.guide.facing import facing_lines
from explorer.scenario.guide.jobs import BATTERIES, JOBS, battery_power_w
from explorer.scenario.guide.lit import (
    is_measured,
    lit_days,
    lit_hours,
    lux_of,
    meets_frost,
)
from explorer.scenario.guide.places import COMMON, SPOTS, origin_of
from explorer.scenario.guide.questions import OFTEN, WHEN
from explorer.scenario.guide.year import is_year, level_text, year_lines
from explorer.scenario.model import MARGIN_BY_KNOWLEDGE
from explorer.scenario.weekdays import WEEKDAYS
from explorer.text import Text, figure, listed, say, texts

_LASTS: dict[LastsKey, str] = texts({
    "day": "a day", "week": "a week", "month": "a month", "half_year": "half a year",
    "year": "a year", "three_years": "three years",
})  # fmt: skip
"""How long a battery lasts, within a sentence."""


def assumptions(
    answers: Answers, design: Design = START_DESIGN, own: Text | None = None
) -> tuple[str, ...]:
    """The sentences, the light first; `own` stands for the panels, the store and their price."""
    parts = (_panel_line(answers, design), _store_line(design)) if own is None else (own,)
    priced = answers.matters == "cheapest" and own is None
    return (
        *_place_lines(answers),
        *parts,
        say(
            "Charger: switching converter, efficiency 85 %, quiescent current 0.5 µA; from "
            "an empty store it cold-starts at 5 % efficiency; the device runs on 3 V "
            "behind a regulator of 85 % ({origin}).",
            origin=COMMON,
        ),
        *_demand_lines(answers),
        *((_price_line(answers, design),) if priced else ()),
        *_aim_lines(answers),
    )


def lasting(answers: Answers, *, own: bool = False) -> tuple[str, ...]:
    """Those of the sentences that no other parts make untrue, and whence the first parts came.

    Parameters
    ----------
    answers : Answers
        One answer to each question.
    own : bool
        Whether panels and store were a person's own.
    """
    parts = (
        say(
            "Parts: at first panels and store were those of your own that cost least, charger and "
            "regulator the guide's choice ({origin}). Any of them may have been changed since.",
            origin=COMMON,
        )
        if own
        else say(
            "Parts: at first all of them were the guide's choice ({origin}; stores with the "
            "sources in their list). Any of them may have been changed since.",
            origin=COMMON,
        )
    )
    return (*_place_lines(answers), parts, *_demand_lines(answers), *_aim_lines(answers))


def _place_lines(answers: Answers) -> tuple[str, ...]:
    """What the device meets and does."""
    return (
        _light_line(answers),
        *(year_lines(answers) if is_year(answers) else facing_lines(answers)),
        _work_line(answers),
        _dark_line(answers),
    )


def _demand_lines(answers: Answers) -> tuple[str, ...]:
    return (*_frost_lines(answers), *_margin_lines(answers))


def _aim_lines(answers: Answers) -> tuple[str, ...]:
    lines: list[str] = []
    if answers.matters == "soon":
        lines.append(
            say("From empty, the first result may take two hours of light, with the margin.")
        )
    reserve = JOBS[answers.job].reserve_j
    if reserve:
        lines.append(say("{energy} are kept for one last safe move.", energy=show(reserve, "J")))
    return tuple(lines)


def _light_line(answers: Answers) -> str:
    if is_year(answers):
        return say(
            "Light: {level}; {how}. Measure with a lux meter that faces as the panel will face: "
            "real places differ several times over.",
            level=level_text(answers, _origin(answers)), how=_how(answers),
        )
    level = say("{level} ({origin})", level=show(lux_of(answers), "lx"), origin=_origin(answers))
    hours = [
        say("{start} to {end} h", start=figure(f"{a:g}"), end=figure(f"{b:g}"))
        for a, b in lit_hours(answers)
    ]
    return say(
        "Light: {level}, {hours}, {days}; {how}. Measure with a lux meter that faces as the panel "
        "will face: real places differ several times over.",
        level=level,
        hours=listed(hours),
        days=_days(answers),
        how=_how(answers),
    )


def _how(answers: Answers) -> str:
    if is_measured(answers):
        return say("the panel faces as the meter did")
    return SPOTS[answers.place].how


def _origin(answers: Answers) -> str:
    return say("measured by you") if is_measured(answers) else origin_of(answers.place)


def _days(answers: Answers) -> str:
    days = lit_days(answers)
    if days == WEEKDAYS:
        return say("every day")
    if days == WEEKDAYS[:6]:
        return say("from Monday to Saturday")
    if days == WEEKDAYS[:5]:
        return say("from Monday to Friday")
    return say("from Monday to Friday and on Sundays")


def _work_line(answers: Answers) -> str:
    if answers.job == "other":
        battery = BATTERIES[answers.battery]
        return say(
            "What it does: it takes {power} all the time, because a battery of {energy} "
            "({battery}, from memory) lasts it {lasts}.",
            power=show(battery_power_w(answers.battery, answers.lasts), "W"),
            energy=show(battery[2], "J"),
            battery=battery[1],
            lasts=_LASTS[answers.lasts],
        )
    job = JOBS[answers.job]
    return say(
        "What it does: {work}. Asleep it takes {sleep} ({origin}). It works {often}, {when}.",
        work=job.source,
        sleep=show(job.sleep_a, "A"),
        origin=COMMON,
        often=OFTEN[answers.often][1],
        when=WHEN[answers.when][1],
    )


def _dark_line(answers: Answers) -> str:
    closure = margins_of(answers).closure_days
    if not closure:
        return say("Dark: its nights, and the days without light.")
    return say(
        "Dark: its nights, and once {days} days without light.", days=figure(f"{closure:g}")
    )


def _panel_line(answers: Answers, design: Design) -> str:
    kind = (
        say("gallium-arsenide") if technology_of(answers.matters) == "gallium_arsenide"
        else say("amorphous silicon")
    )  # fmt: skip
    area = figure(f"{design.area_cm2:g}")
    if design.panels == 1:
        return say(
            "Panels: 1 panel of {area} cm², {kind} (modelled, see the model note).",
            area=area,
            kind=kind,
        )
    return say(
        "Panels: {n} panels of {area} cm², {kind} (modelled, see the model note).",
        n=design.panels,
        area=area,
        kind=kind,
    )


def _store_line(design: Design) -> str:
    family = design.store_family
    return say(
        "Store: {name}, {size} (typical values, each with its source in the list of "
        "stores).",
        name=family.title.lower(),
        size=show(design.size, family.size_unit),
    )


def _frost_lines(answers: Answers) -> tuple[str, ...]:
    if not meets_frost(answers):
        return ()
    return (
        say(
            "Frost: no lithium-ion or iron-phosphate cell was tried, because below 0 °C they take "
            "no charge."
        ),
    )


def _margin_lines(answers: Answers) -> tuple[str, ...]:
    if answers.matters == "never_fails":
        return (
            say(
                "Margin: {factor} times what is needed counts as Runs, because reliability "
                "matters most (own judgement).",
                factor=figure(f"{CAUTIOUS_MARGIN:g}"),
            ),
            say(
                "Judged after {years} years of ageing, not as new.",
                years=figure(f"{AGED_YEARS:g}"),
            ),
        )
    if is_measured(answers):
        return (
            say(
                "Margin: {factor} times what is needed counts as Runs, because the light was "
                "measured (own judgement).",
                factor=figure(f"{MARGIN_BY_KNOWLEDGE['meter_at_panel']:g}"),
            ),
        )
    return (
        say(
            "Margin: {factor} times what is needed counts as Runs, because the light is a guess "
            "(own judgement).",
            factor=figure(f"{MARGIN_BY_KNOWLEDGE['guess']:g}"),
        ),
    )


def _price_line(answers: Answers, design: Design) -> str:
    technology = technology_of(answers.matters)
    panels = panels_price(design.panels, design.area_cm2, technology)
    store = store_price(design.store_family, design.size)
    return say(
        "Price: {panels} for the panels and {store} for the store, in a unit of its own: a panel "
        "counts {each} and {area} a cm², a store its class of cost times {base} and {volume} a "
        "cm³ (own judgement, no source). Put in the prices of your parts to know better.",
        panels=figure(f"{panels:.2g}"),
        store=figure(f"{store:.2g}"),
        each=figure(f"{PER_PANEL:g}"),
        area=figure(f"{PER_CM2[technology]:g}"),
        base=figure(f"{PER_STORE:g}"),
        volume=figure(f"{PER_CM3:g}"),
    )
