"""The guide's answer in plain words: two sentences, and what would make it run."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import isfinite

from explorer.advice.assess import Assessment, assess
from explorer.advice.guided_design import WaysOut, find_design, ways_out
from explorer.advice.guided_parts import OwnBuild, cheapest_own, priced
from explorer.quantity import show
from explorer.scenario.calendar import MONTH_NAMES
from explorer.scenario.guide.answers import Answers
from explorer.scenario.guide.assumptions import assumptions, lasting
from explorer.scenario.guide.design import Design
from explorer.scenario.guide.jobs import JOBS
from explorer.scenario.guide.lit import is_measured
from explorer.scenario.guide.made import notes_of
from explorer.scenario.guide.places import SPOTS
from explorer.scenario.guide.questions import OFTEN
from explorer.scenario.guide.year import is_year
from explorer.scenario.localised import named
from explorer.scenario.model import Names, Scenario, with_value
from explorer.scenario.part import Part
from explorer.text import Text, figure, say
from explorer.words.price import cost_text
from explorer.words.sizes import like_area, like_volume
from explorer.words.two_sentences import two_sentences


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One change that would make it run, and the answers that bring it."""

    label: Text
    """What a button says."""
    answers: Answers


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainAnswer:
    """What the guide answers."""

    answers: Answers
    design: Design
    assessment: Assessment
    sentences: tuple[str, str]
    size: Text
    """How large panels and store are."""
    warning: str
    """Why nobody would build it so; empty where somebody might."""
    advice: str
    """What would turn the verdict; empty where it runs."""
    ways: tuple[WayOut, ...]
    """The same as answers that can be taken."""
    assumptions: tuple[str, ...]
    noted: tuple[str, ...]
    """What the notes of the scenario say of them: that which stays true with other parts."""

    @property
    def scenario(self) -> Scenario:
        """The scenario that was judged."""
        return self.assessment.scenario

    def named(self, render: Callable[[str], str]) -> Scenario:
        """The scenario to go on with, under the names that a language has for what was chosen."""
        job = JOBS[self.answers.job]
        names = Names(
            title=render(job.design_title),
            place=render(SPOTS[self.answers.place].design_place),
            notes=notes_of(self.noted, render),
            operations=tuple(render(job.title.lower()) for _ in self.scenario.load.operations),
        )
        scenario = named(self.scenario, names)
        load = scenario.load.model_copy(update={"operations": tuple(
            one.model_copy(update={"phases": tuple(
                phase.model_copy(update={"name": render(name)})
                for phase, (name, _, _) in zip(one.phases, job.phases, strict=True)
            )})
            for one in scenario.load.operations
        )})  # fmt: skip
        return scenario.model_copy(update={"load": load})


def answer(
    answers: Answers, stopped: Callable[[], bool] = lambda: False, own: Sequence[Part] = ()
) -> PlainAnswer:
    """The guide's answer: a design, its verdict and plain words.

    Parameters
    ----------
    answers : Answers
        One answer to each question, of which the light and the work are known.
    stopped : callable
        Asked between tries; True settles for what was found so far.
    own : sequence of Part
        Parts of one's own, whose prices count where the lowest price matters.
    """
    design, found = find_design(answers, stopped)
    mine = None
    if answers.matters == "cheapest" and not stopped():
        mine = cheapest_own(found.case, own, stopped)
    if mine is not None:
        return _of_own_parts(answers, design, mine)
    runs = found.verdict.state == "runs"
    ways = None if runs or stopped() else ways_out(answers, found.case, stopped)
    return PlainAnswer(
        answers=answers,
        design=design,
        assessment=found,
        sentences=two_sentences(found),
        size=_size_of(design.panel_cm2, design.store_cm3),
        warning="" if found.verdict.state == "falls_short" else _warning(answers, design.panel_cm2),
        advice=_advice(answers, ways),
        ways=_ways(answers, ways),
        assumptions=(*assumptions(answers, design), *_own_note(answers, own)),
        noted=lasting(answers),
    )


def _of_own_parts(answers: Answers, design: Design, mine: OwnBuild) -> PlainAnswer:
    """The answer with parts of one's own, whose titles and prices it says."""
    build = mine.build
    lines = assumptions(
        answers,
        design,
        say(
            "Panels and store are yours: {panels}; {store}. Together they cost {price}, the least "
            "of your parts that run here.",
            panels=build.panels,
            store=build.store,
            price=cost_text(build.cost),
        ),
    )
    noted = lasting(answers, own=True)
    found, notes = mine.assessment, notes_of(noted)
    return PlainAnswer(
        answers=answers,
        design=design,
        assessment=assess(found.case.with_scenario(with_value(build.scenario, "notes", notes))),
        sentences=two_sentences(found),
        size=_size_of(build.panel_cm2, build.volume_cm3),
        warning=_warning(answers, build.panel_cm2),
        advice="",
        ways=(),
        assumptions=lines,
        noted=noted,
    )


def _own_note(answers: Answers, own: Sequence[Part]) -> tuple[Text, ...]:
    """Why parts of one's own do not stand in the answer, where there are any with a price."""
    if answers.matters != "cheapest" or not any(p.price is not None for p in own):
        return ()
    if not priced(own):
        return (
            say(
                "Your parts: their prices count once both a panel and a store of yours have one, in"
                " one currency."
            ),
        )
    return (say("Your parts: none of your panels with any of your stores runs here."),)


def unanswerable(answers: Answers) -> Text:
    """Why nobody can answer, and what to do first; empty where the guide can.

    The device or the light is not known at all, and a guess would be no better than none.
    """
    if not answers.unknowable:
        return say("")
    if answers.job == "other" and answers.battery == "unknown":
        return say(
            "Nobody can tell without knowing what the device takes. Measure its current over one "
            "run and while it sleeps, or look up how long a battery lasts in it; a logged current "
            "can be read by File > Read a load capture."
        )
    return say(
        "Nobody can tell without knowing the light. A lux meter costs little: hold it where the "
        "panel will be, facing as it will face, once by day and once in the evening, and come back "
        "with the figure."
    )


def _size_of(panel_cm2: float, store_cm3: float) -> Text:
    if not isfinite(store_cm3):  # a part of one's own need not say how large it is
        return say("The panels together are about as large as {area}.", area=like_area(panel_cm2))
    return say(
        "The panels together are about as large as {area}, the store about as large as {volume}.",
        area=like_area(panel_cm2),
        volume=like_volume(store_cm3),
    )


def _warning(answers: Answers, panel_cm2: float) -> str:
    most = min(SPOTS[answers.place].most_cm2, JOBS[answers.job].most_cm2)
    if panel_cm2 <= most:
        return ""
    return say(
        "But {area} cm² of panels is more than such a device should carry: more light, or less "
        "frequent work, would make it smaller.",
        area=figure(f"{panel_cm2:g}"),
    )


def _ways(answers: Answers, found: WaysOut | None) -> tuple[WayOut, ...]:
    """What would turn the verdict, as answers."""
    if found is None:
        return ()
    ways = []
    lux = found.matched_lx if found.own_lx is None else found.own_lx
    if lux is not None:
        facing = 1.0 if is_measured(answers) else SPOTS[answers.place].facing
        at_panel = float(f"{1.005 * lux * facing:.2g}") if facing < 1.0 else lux
        ways.append(
            WayOut(
                label=say("Show it with {light} on the panel", light=show(at_panel, "lx")),
                answers=replace(answers, light="measured", lux=at_panel),
            )
        )
    if found.rarer is not None:
        ways.append(
            WayOut(
                label=say("Show it working {often}", often=OFTEN[found.rarer][1]),
                answers=replace(answers, often=found.rarer),
            )
        )
    return tuple(ways)


def _light_text(answers: Answers, lux: float) -> Text:
    """A level that would do; in a year of daylight as a meter would read it."""
    level = show(lux, "lx")
    if not is_year(answers):
        return level
    return say(
        "{level} (midday in {month}, dull sky)",
        level=level, month=MONTH_NAMES[answers.measured_month],
    )  # fmt: skip


def _advice(answers: Answers, found: WaysOut | None) -> str:
    """What would make it run, in one sentence; empty where the search was stopped."""
    if found is None:
        return ""
    own = found.own_lx
    lux = found.matched_lx if own is None else own
    light = "" if lux is None else _light_text(answers, lux)
    often = "" if found.rarer is None else OFTEN[found.rarer][1]
    if own is not None and often:
        return say(
            "It would run from {light} at such a place; or with the same work {often}, and parts "
            "to match.",
            light=light,
            often=often,
        )
    if own is not None:
        return say("It would run from {light} at such a place.", light=light)
    if light and often:
        return say(
            "It would run with about {light} at such a place, or with the same work "
            "{often}, and suitable parts.",
            light=light,
            often=often,
        )
    if light:
        return say(
            "It would run with light of about {light} at such a place, and parts to match.",
            light=light,
        )
    if often:
        return say("It would run with the same work {often}, and parts to match.", often=often)
    return say("Neither more light nor less frequent work alone is enough.")
