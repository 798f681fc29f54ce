"""The guide's answer reads like a sentence and agrees with the model."""

from dataclasses import replace
from functools import cache
from typing import get_args

import pytest

from explorer.advice import guided_design
from explorer.advice.assess import assess
from explorer.advice.break_even import break_even
from explorer.advice.case import Case
from explorer.advice.guided_design import find_design
from explorer.advice.judge import judge
from explorer.advice.stops import LIGHT_STOPS
from explorer.quantity import show
from explorer.scenario.guide import answers as keys
from explorer.scenario.guide.answers import Answers
from explorer.scenario.guide.assumptions import assumptions
from explorer.scenario.guide.design import Design
from explorer.scenario.model import Scenario, with_value
from explorer.words.plain_answer import answer
from explorer.words.two_sentences import two_sentences
from tests.depth import THOROUGH, some, thorough
from tests.sharing import cases_are_shared  # noqa: F401

ORDER = ("falls_short", "marginal", "runs")
answered = cache(answer)
FIRST_WORD = {"runs": "Yes", "marginal": "Marginal", "falls_short": "No"}


def spread_out() -> list[Answers]:
    """Answers that bring many neighbours together, each choice at least once."""
    every = (
        ("place", keys.PlaceKey, 1), ("job", keys.JobKey, 5), ("often", keys.OftenKey, 2),
        ("when", keys.WhenKey, 1), ("dark", keys.DarkKey, 1), ("matters", keys.MattersKey, 3),
        ("season", keys.SeasonKey, 1),
    )  # fmt: skip
    aliases = [(name, get_args(alias), step) for name, alias, step in every]
    return [
        Answers(**{
            name: choices[(index * step + index // len(choices)) % len(choices)]
            for name, choices, step in aliases
        }, light="measured" if index == 5 else "usual", lux=150.0 if index == 5 else None)
        for index in range(3, 17, 2)
    ]  # fmt: skip


SPREAD = spread_out()
MATCHED = next(one for one in SPREAD if one.job == "valve")
"""It runs in brighter light with parts to match."""
LOOKED_AT = [one for one in SPREAD if THOROUGH or one.job != "camera"]
"""All but the dearest, which runs in brighter light with parts to match like the valve."""


@pytest.mark.parametrize("answers", some(LOOKED_AT, 2), ids=str)
def test_an_answer_is_sound(answers):
    found = answered(answers)
    verdict = found.assessment.verdict
    lead, reason = found.sentences
    assert lead.startswith(FIRST_WORD[verdict.state] + ": ")
    assert lead.count(".") - lead.count("0.") >= 1
    assert reason[0].isupper()
    assert reason.endswith(".")
    assert bool(found.advice) is (verdict.state != "runs")
    assert 1 <= found.design.panels <= 4
    # The verdict is the exact model's on the scenario that is handed over.
    assert assess(Case(found.scenario)).verdict.state == verdict.state
    assert all(line in found.scenario.notes for line in found.noted)


def state(**given) -> int:
    return ORDER.index(find_design(Answers(**given))[1].verdict.state)


@pytest.mark.parametrize("job", some(["sense_co2", "report_near", "report_far"], 3))
def test_more_light_never_makes_the_verdict_worse(job):
    rising = ("dark_corner", "shelf", "desk")
    states = [state(place=place, job=job, often="ten_minutes") for place in rising]
    assert states == sorted(states)


@thorough
@pytest.mark.parametrize("place", some(["corridor", "dark_corner"], 2))
def test_rarer_work_never_makes_the_verdict_worse(place):
    states = [state(place=place, job="show", often=o) for o in get_args(keys.OftenKey)]
    assert states == sorted(states)


def test_what_everyone_knows_comes_out():
    # A sensor that reports every ten minutes lives on a desk; a picture every minute in a dark
    # corner does not (0.37 J a minute is 6 mW; 20 lx brings some tens of microwatts).
    assert state(place="desk", job="report_near", often="ten_minutes") == 2
    assert state(place="dark_corner", job="show", often="minute") == 0


def test_what_matters_changes_the_design():
    small, _ = find_design(Answers(place="desk", matters="smallest"))
    cheap, _ = find_design(Answers(place="desk", matters="cheapest"))
    assert small.panels * small.area_cm2 < cheap.panels * cheap.area_cm2
    _, found = find_design(Answers(place="desk", matters="soon"))
    assert found.answers["first_charge_s"] <= 7200.0  # "two hours of light from empty at most"
    _, patient = find_design(Answers(place="desk", matters="cheapest"))
    assert found.answers["first_charge_s"] < patient.answers["first_charge_s"]


@pytest.mark.parametrize(
    ("given", "key"),
    [
        ({"place": "window", "job": "lock", "often": "day", "when": "people",
          "dark": "long_weekend"}, "hybrid"),
        ({"place": "shelf", "job": "count", "often": "hour", "when": "people",
          "dark": "long_weekend"}, "titanate"),
    ],
)  # fmt: skip
def test_the_smallest_design_has_whatever_store_needs_least(monkeypatch, given, key):
    """Kinds that were never tried made a device with a lock three times as large."""
    answers = Answers(season="milder", matters="smallest", **given)

    def size(*kinds):
        monkeypatch.setitem(guided_design.FAMILIES, "smallest", kinds)
        design, found = find_design(answers)
        assert found.verdict.state == "runs"
        return design.panel_cm2, design.store_cm3

    tried = guided_design.FAMILIES["smallest"]
    smallest = size(*tried)
    assert smallest == size(key)
    assert smallest < size(*(kind for kind in tried if kind != key))


def test_a_device_runs_on_a_hybrid_capacitor_where_no_other_small_store_is_enough():
    """A valve in a hall was told to be marginal."""
    given = {"place": "hall", "job": "valve", "often": "day"}
    design, found = find_design(Answers(season="milder", matters="smallest", **given))
    assert found.verdict.state == "runs"
    assert (design.family, design.panel_cm2) == ("hybrid", 90.0)


def test_what_one_kind_of_store_does_not_keep_is_not_held_against_another(monkeypatch):
    """Averages are too hopeful of a small cell that its own pulse cuts off; not of a larger one."""
    answers = Answers(
        place="facade", season="milder", job="tracker", often="hour", matters="smallest"
    )
    one = Design(panels=1, area_cm2=16.0, family="titanate", size=20.0)
    other = Design(panels=1, area_cm2=16.0, family="lithium_pouch", size=60.0)
    tried = [
        guided_design._Tried(design=design, reserve=reserve, rank=())
        for design, reserve in ((one, 1.04), (one, 1.03), (other, 1.02))
    ]
    marched = []

    def judged(case):
        marched.append(case.scenario.store)
        return judge(case)

    monkeypatch.setattr(guided_design, "judge", judged)
    best = guided_design._best_of(answers, tried, lambda: False, None)
    assert (best.design, best.verdict.state) == (other, "runs")
    assert len(marched) == 2, "the second on the same store would fail like the first"


def test_where_no_small_store_lives_through_the_frost_a_larger_kind_is_named(monkeypatch):
    answers = Answers(
        place="facade", region="north", facing="north", job="motor", often="hour",
        matters="smallest",
    )  # fmt: skip
    few = ("power_supercapacitor", "lithium_pouch")
    monkeypatch.setitem(guided_design.FAMILIES, "smallest", few)
    monkeypatch.setattr(guided_design, "COUNTS", (1, 4))
    design, found = find_design(answers)
    assert found.verdict.state == "runs"
    assert design.family in guided_design.OTHERS
    assert design.family not in guided_design.FAMILIES["smallest"]
    title = design.store_family.title.lower()
    assert any(title in line for line in assumptions(answers, design))
    monkeypatch.setattr(guided_design, "OTHERS", ())
    assert find_design(answers)[1].verdict.state == "falls_short"


@pytest.mark.parametrize(
    ("answers", "advised"),
    some(
        [
            (MATCHED, "light of about"),
            (
                Answers(
                    place="corridor", job="show", often="ten_minutes", saturday=True, sunday=True
                ),
                "the same work every six hours, and suitable parts",
            ),
            (
                Answers(
                    place="corridor", job="show", often="hour", saturday=True, sunday=True,
                    matters="never_fails",
                ),
                "the same work every six hours",
            ),
        ],
        2,
    ),
    ids=some(["light and parts", "light, work and parts", "light or work"], 2),
)  # fmt: skip
def test_the_advice_turns_the_verdict(answers, advised):
    found = answered(answers)
    assert found.assessment.verdict.state != "runs"
    assert advised in found.advice
    assert found.ways
    for way in found.ways:
        assert find_design(way.answers)[1].verdict.state == "runs"


def test_the_light_that_is_named_is_the_one_that_its_knob_names():
    """Who opens the design in the window reads the same value beside the light."""
    named, shelf = 0, Answers(place="shelf", job="sense_co2", matters="cheapest")
    for answers in (*LOOKED_AT, shelf):
        found = answered(answers)
        if found.assessment.verdict.state == "runs" or "would run from" not in found.advice:
            continue
        knob = break_even(Case(found.scenario), "light.illuminance_lx", LIGHT_STOPS)
        values = {show(edge.value, "lx") for edge in knob.runs.edges}
        assert any(f"would run from {value} " in found.advice for value in values), found.advice
        named += 1
    assert named >= 2


def test_a_search_that_is_stopped_still_answers():
    found = answer(Answers(place="dark_corner", often="minute"), stopped=lambda: True)
    assert found.sentences[0]


DIM = assess(Case(with_value(Scenario(), "light.illuminance_lx", 5.0)))
SMALL = assess(Case(with_value(Scenario(), "panels.count", 8)))


def governed_by(found, name):
    """The same assessment as if only one check had been made."""
    check = next(c for c in found.verdict.checks if c.name == name)
    return replace(found, verdict=replace(found.verdict, checks=(check,))), check


@pytest.mark.parametrize("name", ["balance", "pulse", "ratings", "service", "dark", "starts"])
def test_the_reason_gives_the_numbers_of_the_check_that_governs(name):
    found, check = governed_by(SMALL, name)
    lead, reason = two_sentences(found)
    assert lead.startswith(FIRST_WORD[check.state])
    if name == "balance":
        assert f"{check.margin:.2g} times" in reason or "ten times" in reason
    elif name == "service":
        assert f"{100 * check.value:.3g} %" in reason
    elif not (name == "ratings" and check.state == "runs"):
        assert show(check.value, check.unit) in reason
        assert show(check.limit, check.unit) in reason


def test_never_is_said_as_never():
    found, check = governed_by(DIM, "starts")
    assert check.value == float("inf")
    assert "never gets going" in two_sentences(found)[1]


def test_a_failed_rating_names_what_the_part_sees_and_bears():
    hot = with_value(Scenario(), "light.ambient_C", 80.0)
    found, check = governed_by(assess(Case(hot)), "ratings")
    assert check.state == "falls_short"
    assert two_sentences(found)[1] == "A part would be at 80 °C and is made for 65 °C."


def test_where_the_light_brings_too_little_that_is_the_reason_and_not_the_dark_after_it():
    _, found = find_design(Answers(place="hall", job="sense_co2", often="minute", dark="closure"))
    checks = {c.name: c for c in found.verdict.checks}
    assert checks["balance"].state == checks["dark"].state == "falls_short"
    assert f"{int(100 * checks['balance'].margin)} % of the energy" in two_sentences(found)[1]


def test_light_that_brings_nearly_enough_is_not_said_to_bring_all_of_it():
    verdict = DIM.verdict
    checks = tuple(
        replace(c, margin=0.997 if c.name == "balance" else 1.5, wanted=1.3, limit=1.0, value=1.0)
        for c in verdict.checks
    )
    nearly = replace(DIM, verdict=replace(verdict, checks=checks))
    assert "brings 99 % of the energy" in two_sentences(nearly)[1]


def test_a_start_that_comes_too_late_is_not_called_too_little_light():
    _, found = find_design(Answers(place="shelf", job="lock", often="day", matters="soon"))
    assert found.verdict.governing.name == "starts"
    lead, reason = two_sentences(found)
    assert lead.endswith("does not start soon enough.")
    assert "2 h are allowed" in reason


def test_panels_bring_enough_where_the_store_alone_falls_short_in_a_year():
    """Not the smallest panel of many designs that all fail by the same dark stretch."""
    lock = Answers(
        place="facade", region="latitude", latitude_deg=51.5, facing="north", job="lock",
        matters="smallest",
    )  # fmt: skip
    kinds = ("power_supercapacitor", "lithium_pouch")
    (nearest,) = guided_design._in_order(lock, kinds, lambda: False, None)
    assert nearest.reserve < 1.0
    assert nearest.design.panel_cm2 > 30.0  # 15 cm² would bring half of what is used


def test_what_the_guide_made_is_opened_under_names_of_the_language_on_show():
    found = answered(SPREAD[0])
    assert found.named(str) == found.scenario
    foreign = found.named(lambda text: f"«{text}»")
    names = (foreign.title, foreign.place, *(one.name for one in foreign.load.operations))
    assert all(name.startswith("«") and name.endswith("»") for name in names)
    lines = foreign.notes.splitlines()
    assert len(lines) == len(found.scenario.notes.splitlines()) > 4
    assert all("«" in line and line.endswith("»") for line in lines)
    phases = [phase.name for one in foreign.load.operations for phase in one.phases]
    assert phases
    assert all(name.startswith("«") for name in phases)


def test_a_device_and_a_place_of_ones_own_have_names_in_the_language_on_show():
    found = answered(replace(
        SPREAD[0], job="other", battery="coin", lasts="year", place="elsewhere",
        light="measured", lux=500.0,
    ))  # fmt: skip
    foreign = found.named(lambda text: f"«{text}»")
    assert foreign.title == "«A device of your own»"
    assert foreign.place == "«Where the light was measured»"
