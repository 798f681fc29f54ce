"""Five plain questions and the scenario that follows from their answers.

No number is asked for. What an answer stands for is in tables, each figure with its source: places
and jobs in `guide_tables`, the rest below. What a person cannot be asked (panel, charger, store,
thresholds) follows from simple rules, and every assumption is written into the scenario's notes.
Questions and assumptions can be shown in any language; a scenario is English, like every file.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.demand import Every, Load, Operation, Phase, Regulator
from explorer.scenario.guide_tables import COMMON, JOBS, SPOTS
from explorer.scenario.guide_tables import JobKey as JobKey
from explorer.scenario.guide_tables import PlaceKey as PlaceKey
from explorer.scenario.light import Light, LitBlock, WeekPattern
from explorer.scenario.model import Margins, Scenario
from explorer.scenario.storage import CellStore, Store
from explorer.scenario.supply import ConverterCharger, Panels, Technology
from explorer.scenario.weekdays import WEEKDAYS
from explorer.text import figure, joined, say, texts

OftenKey = Literal["minute", "ten_minutes", "hour", "six_hours", "day"]
DarkKey = Literal["nights", "weekends", "closure"]
MattersKey = Literal["smallest", "never_fails", "cheapest", "soon"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One answer that a person may give."""

    key: str
    title: str
    line: str
    """What it stands for, in a few words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One plain question."""

    key: str
    title: str
    hint: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """One answer to each question."""

    place: PlaceKey = "desk"
    job: JobKey = "report_near"
    often: OftenKey = "ten_minutes"
    dark: DarkKey = "weekends"
    matters: MattersKey = "cheapest"


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """What the guide chooses itself."""

    panels: int
    area_cm2: float
    """Of one panel."""
    family: str
    """Key of a store family."""
    size: float
    """Capacitance of the whole store, or capacity for a cell. [F or mAh]"""


_OFTEN: dict[OftenKey, tuple[str, str, str, float]] = texts({
    "minute": ("Every minute", "every minute", "1440 times a day", 60.0),
    "ten_minutes": ("Every ten minutes", "every ten minutes", "144 times a day", 600.0),
    "hour": ("Every hour", "every hour", "24 times a day", 3600.0),
    "six_hours": ("Every six hours", "every six hours", "4 times a day", 21_600.0),
    "day": ("Once a day", "once a day", "7 times a week", 86_400.0),
})  # fmt: skip
"""The answer, the same within a sentence, what it stands for, and its interval. [s]"""
_DARK: dict[DarkKey, tuple[str, str, str, float]] = texts({
    "nights": ("Nights only", "nights only", "the light comes on every day", 0.0),
    "weekends": ("Nights and weekends", "nights and weekends", "lit from Monday to Friday", 0.0),
    "closure": (
        "Also two weeks' closure", "also two weeks' closure",
        "lit on weekdays, once dark for 14 days", 14.0,
    ),
})  # fmt: skip
"""The answer, the same within a sentence, what it stands for, and the closure. [d]"""
_MATTERS: dict[MattersKey, tuple[str, str]] = texts({
    "smallest": ("The smallest size", "least panel area, then the smallest store"),
    "never_fails": ("Reliability first", "more margin, four days dark at least, three years old"),
    "cheapest": ("Few and simple parts", "simple panels, fewest of them, a simple store"),
    "soon": ("It runs soon after hanging up", "two hours of light from empty at most"),
})  # fmt: skip

QUESTIONS: tuple[Question, ...] = (
    Question(
        key="place", title=say("Where will it be?"),
        hint=say(
            "Levels are lighting design values or common practice; nothing replaces a lux meter."
        ),
        choices=tuple(Choice(key=k, title=s.title, line=s.line) for k, s in SPOTS.items()),
    ),
    Question(
        key="job", title=say("What does it do?"), hint=say("Pick what costs it the most energy."),
        choices=tuple(Choice(key=k, title=j.title, line=j.line) for k, j in JOBS.items()),
    ),
    Question(
        key="often", title=say("How often?"), hint=say("By day and by night, in the dark too."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, _, n, _) in _OFTEN.items()),
    ),
    Question(
        key="dark", title=say("How long is it dark?"),
        hint=say("The longest stretch that it must survive."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, _, n, _) in _DARK.items()),
    ),
    Question(
        key="matters", title=say("What matters most?"),
        hint=say("Decides between designs that all work."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n) in _MATTERS.items()),
    ),
)  # fmt: skip

SMALL_PANEL_CM2, LARGE_PANEL_CM2 = 12.0, 60.0
COMPACT_PANEL_CM2, COMPACT_LARGE_CM2 = 4.0, 20.0
MOST_PANELS = 16
START_DESIGN = Design(
    panels=2, area_cm2=SMALL_PANEL_CM2, family="standard_supercapacitor", size=1.0
)
_CELL_WINDOW = {"lithium_ion": (3.1, 3.5, 4.15), "iron_phosphate": (2.8, 3.15, 3.45),
                "titanate": (2.0, 2.25, 2.6)}  # fmt: skip
"""Cut-off, connect and full voltage, inside the window of each chemistry (own judgement). [V]"""
_HYBRID_WINDOW = (2.7, 3.2, 3.6)
_BANK_WINDOW = (2.4, 3.6, 5.0)
_AGED_YEARS = 3.0


def question(key: str) -> Question:
    """The question with this key."""
    return next(q for q in QUESTIONS if q.key == key)


def panel_areas(matters: MattersKey) -> tuple[float, float]:
    """Area of the small and of the large panel that the guide builds with. [cm²]"""
    if matters == "smallest":
        return COMPACT_PANEL_CM2, COMPACT_LARGE_CM2
    return SMALL_PANEL_CM2, LARGE_PANEL_CM2


def scenario_from(answers: Answers, design: Design = START_DESIGN) -> Scenario:
    """A valid scenario for five answers.

    Parameters
    ----------
    answers : Answers
        One answer to each question.
    design : Design, optional
        Panels and store; `explorer.words.plain_answer.find_design` tries for good ones.
    """
    spot, job = SPOTS[answers.place], JOBS[answers.job]
    family = next(f for f in parts.store_families() if f.key == design.family)
    store = family.store(design.size)
    if answers.matters == "never_fails":
        store = store.model_copy(update={"years_in_service": _AGED_YEARS})
    cut_v, connect_v, full_v = _window(store, family.window_v)
    compact = answers.matters == "smallest"
    technology: Technology = "gallium_arsenide" if compact else "amorphous"
    return Scenario(
        title=job.title,
        place=spot.title,
        light=_light(answers),
        panels=Panels(
            count=design.panels, technology=technology, active_area_cm2=design.area_cm2,
            cells_in_series=4 if compact else 8,
        ),
        charger=_charger(store, full_v),
        store=store,
        load=Load(
            connect_V=connect_v, disconnect_V=cut_v, minimum_V=cut_v - 0.2,
            regulator=Regulator(
                kind="switching", output_V=3.0, efficiency=0.85, ground_A=8e-7,
                minimum_input_V=1.8,
            ),
            sleep_A=job.sleep_a,
            operations=(
                Operation(
                    name=job.title.lower(),
                    schedule=Every(interval_s=_OFTEN[answers.often][3]),
                    phases=tuple(
                        Phase(name=name, power_W=power, duration_s=seconds)
                        for name, power, seconds in job.phases
                    ),
                ),
            ),
            actuator=job.actuator,
            reserve_J=job.reserve_j,
        ),
        margins=_margins(answers),
        notes="Made by the guide. Assumed:\n"
        + "\n".join(f"- {line}" for line in assumptions(answers, design)),
    )  # fmt: skip


def _charger(store: Store, full_v: float) -> ConverterCharger:
    """A converter that gives a cell no more than it takes."""
    charger = ConverterCharger(full_V=full_v)
    limit = min(charger.output_limit_A, store.most_charge_A)
    return charger.model_copy(update={"output_limit_A": limit})


def _window(store: Store, bank_v: tuple[float, float]) -> tuple[float, float, float]:
    if isinstance(store, CellStore):
        return _CELL_WINDOW[store.chemistry]
    return _HYBRID_WINDOW if bank_v[0] > 0 else _BANK_WINDOW


def level_lx(place: PlaceKey) -> float:
    """Light level that stands for a place, before the panel's position. [lx]"""
    spot = SPOTS[place]
    if not spot.listed:
        return spot.lux
    return next(p.illuminance_lx for p in parts.places() if p.name == spot.listed)


def _light(answers: Answers) -> Light:
    spot = SPOTS[answers.place]
    days = WEEKDAYS if answers.dark == "nights" else WEEKDAYS[:5]
    return Light(
        illuminance_lx=level_lx(answers.place),
        source=spot.source,
        daylight_share=1.0 if spot.source == "daylight_glass" else 0.0,
        pattern=WeekPattern(
            blocks=tuple(LitBlock(days=days, from_h=a, to_h=b) for a, b in spot.hours)
        ),
        orientation_factor=spot.facing,
        known_by="guess",
        ambient_C=21.0,
    )


def _margins(answers: Answers) -> Margins:
    closure = _DARK[answers.dark][3]
    if answers.matters == "never_fails":
        return Margins(design_margin=2.5, closure_days=max(closure, 4.0))
    return Margins(
        closure_days=closure, start_within_h=2.0 if answers.matters == "soon" else 168.0
    )


def assumptions(answers: Answers, design: Design = START_DESIGN) -> tuple[str, ...]:
    """Everything that five answers left open, as sentences, each with its source."""
    job = JOBS[answers.job]
    lines = [
        _light_line(answers),
        say(
            "What it does: {work}. Asleep it takes {sleep} ({origin}). It works {often}, at night "
            "and in closures too.",
            work=job.source,
            sleep=show(job.sleep_a, "A"),
            origin=COMMON,
            often=_OFTEN[answers.often][1],
        ),
        _dark_line(answers),
        _panel_line(answers, design),
        _store_line(design),
        say(
            "Charger: a switching converter, 85 % efficient, 0.5 µA of its own; it starts from an "
            "empty store at 5 %; the device runs on 3 V behind a regulator, 85 % ({origin}).",
            origin=COMMON,
        ),
    ]
    if answers.matters == "never_fails":
        lines += [
            say(
                "Margin: 2.5 times what is needed counts as Runs, because the light is a guess "
                "(own judgement)."
            ),
            say(
                "Judged after {years} years of ageing, not as new.",
                years=figure(f"{_AGED_YEARS:g}"),
            ),
        ]
    else:
        lines.append(
            say(
                "Margin: twice what is needed counts as Runs, because the light is a guess "
                "(own judgement)."
            )
        )
    if answers.matters == "soon":
        lines.append(
            say("From empty, the first result may take two hours of light, with the margin.")
        )
    if job.reserve_j:
        lines.append(
            say("{energy} are kept for one last safe move.", energy=show(job.reserve_j, "J"))
        )
    return tuple(lines)


def _light_line(answers: Answers) -> str:
    spot = SPOTS[answers.place]
    level = show(level_lx(answers.place), "lx")
    listed = next((p for p in parts.places() if p.name == spot.listed), None)
    if listed:
        level = say("{level} ({origin})", level=level, origin=listed.source)
    hours = [
        say("{start} to {end} h", start=figure(f"{a:g}"), end=figure(f"{b:g}"))
        for a, b in spot.hours
    ]
    return say(
        "Light: {level}, {hours}, {days}; {how}. Measure with a lux meter that faces as the panel "
        "will face: real places differ several times over.",
        level=level,
        hours=joined(say(" and "), hours),
        days=say("every day") if answers.dark == "nights" else say("from Monday to Friday"),
        how=spot.how,
    )


def _dark_line(answers: Answers) -> str:
    when, closure = _DARK[answers.dark][1], _margins(answers).closure_days
    if not closure:
        return say("Dark: {when}.", when=when)
    days = figure(f"{closure:g}")
    return say("Dark: {when}, and once {days} days without light.", when=when, days=days)


def _panel_line(answers: Answers, design: Design) -> str:
    smallest = answers.matters == "smallest"
    kind = say("gallium-arsenide") if smallest else say("amorphous silicon")
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
    family = next(f for f in parts.store_families() if f.key == design.family)
    return say(
        "Store: {name}, {size} (generic values, each with its source in the library of stores).",
        name=family.title.lower(),
        size=show(design.size, family.size_unit),
    )
