"""What a person reads of a scenario can be shown in another language; files hold plain English."""

import json
import re
from typing import get_args

import pytest
from pydantic import ValidationError

from explorer.files.scenario_json import schema
from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.demand import Every, Load, Operation, Phase
from explorer.scenario.fields import describe
from explorer.scenario.guide.answers import Answers, JobKey
from explorer.scenario.guide.assumptions import assumptions
from explorer.scenario.guide.design import Design
from explorer.scenario.guide.made import scenario_from
from explorer.scenario.guide.questions import QUESTIONS
from explorer.scenario.light import Light, LitBlock, WeekPattern
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CellStore, SupercapacitorStore
from explorer.scenario.supply import ConverterCharger, DirectCharger, Panels, SheetPoint
from explorer.text import Text, rendered

SECTIONS = (
    Scenario, Light, LitBlock, Panels, SheetPoint, DirectCharger, ConverterCharger,
    SupercapacitorStore, CellStore, Load, Operation, Phase, Every,
)  # fmt: skip
NEUTRAL = {"mAh"}
"""Units that are the same in every language."""


def foreign(text):
    """A text in a language that has one word, with a decimal comma."""
    assert isinstance(text, Text), text
    return rendered(text, lambda template, _: re.sub(r"(?<![{\w])[A-Za-z]+", "ω", template), ",")


def is_translated(text):
    return set(re.findall(r"[A-Za-z]{3,}", foreign(text))) <= NEUTRAL


@pytest.mark.parametrize("section", SECTIONS)
def test_label_and_help_of_every_field_can_be_translated(section):
    for key, field in section.model_fields.items():
        if field.title:
            found = describe(section, key)
            assert foreign(found.label) != found.label
            assert foreign(found.help) != found.help


@pytest.mark.parametrize("section", SECTIONS)
def test_a_unit_with_a_word_in_it_can_be_translated_wherever_it_stands(section):
    """That of self-discharge was "1/month" in every language."""
    for key in section.model_fields:
        unit = describe(section, key).unit
        if re.search("[A-Za-z]{3}", unit) and unit not in NEUTRAL:
            assert is_translated(show(0.03, unit)), unit
            assert show(0.03, unit) == f"0.03 {unit}"


def test_the_schema_is_plain_english():
    text = json.dumps(schema(), ensure_ascii=False)
    assert '"title": "Illuminance"' in text
    assert json.loads(text) == schema()


def test_questions_and_answers_of_the_guide_can_be_translated():
    for question in QUESTIONS:
        shown = [question.title, question.hint]
        shown += [text for choice in question.choices for text in (choice.title, choice.line)]
        assert all(is_translated(text) for text in shown)


def test_every_assumption_can_be_translated():
    for question in QUESTIONS:
        for choice in question.choices:
            answers = Answers(**{question.key: choice.key})
            if not answers.unknowable:
                assert all(is_translated(line) for line in assumptions(answers))
    for family in parts.store_families():
        design = Design(panels=1, area_cm2=12.5, family=family.key, size=family.sizes[0])
        assert all(is_translated(line) for line in assumptions(Answers(), design))


def test_numbers_of_an_assumption_follow_the_language():
    line = assumptions(Answers(), Design(panels=2, area_cm2=12.5, family="hybrid", size=10.0))[3]
    german = {
        "Panels: {n} panels of {area} cm², {kind} (modelled, see the model note).":
            "Module: {n} Stück mit {area} cm², {kind}.",
        "amorphous silicon": "amorphes Silizium",
    }  # fmt: skip
    shown = rendered(line, lambda template, _: german[template], ",")
    assert shown == "Module: 2 Stück mit 12,5 cm², amorphes Silizium."


@pytest.mark.parametrize("job", [j for j in get_args(JobKey) if j != "other"])
def test_the_scenario_of_the_guide_is_plain_text(job):
    scenario = scenario_from(Answers(job=job))
    operation = scenario.load.operations[0]
    own = (scenario.title, scenario.place, scenario.notes, operation.name)
    assert [type(text) for text in own] == [str] * 4
    assert all(type(phase.name) is str for phase in operation.phases)


REFUSED = [
    (lambda: LitBlock(from_h=18.5, to_h=8.0), "to_h (8) must be later than from_h (18.5); "),
    (lambda: LitBlock(days=()), "days must name at least one weekday"),
    (lambda: Light(illuminance_lx=None, pattern=WeekPattern()), "illuminance_lx may be empty"),
    (lambda: Phase(), "resistance_ohm, found none"),
    (lambda: Phase(current_A=1, power_W=1), "resistance_ohm, found current_A and power_W"),
    (lambda: Every(from_h=9.5, to_h=8.0), "to_h (8) must be later than from_h (9.5)"),
    (lambda: Operation(phases=()), "phases must hold at least one phase"),
    (
        lambda: Operation(phases=(Phase(current_A=1, duration_s=60.5),)),
        "the phases last 60.5 s, which does not fit the interval_s of 60 s",
    ),
    (lambda: Load(connect_V=2.1), "connect_V (2.1 V) must be higher than disconnect_V (2.4 V)"),
    (lambda: CellStore(charge_above_C=50.5), "charge_above_C (50.5) must lie below charge_below_C"),
    (lambda: SupercapacitorStore(lowest_V=2.75), "lowest_V (2.75 V) must lie below rated_V"),
    (lambda: Panels(data_sheet=(SheetPoint(),) * 9), "data_sheet takes 1 to 8 points, found 9"),
    (lambda: Scenario(load=Load(connect_V=8.5)), "load.connect_V (8.5 V) must be lower than"),
    (
        lambda: Scenario(charger=ConverterCharger(full_hysteresis_V=4.5)),
        "charger.full_hysteresis_V (4.5 V) must be less than the 2.6 V between",
    ),
    (
        lambda: Scenario(store=SupercapacitorStore(rated_V=5.0, lowest_V=2.75)),
        "must be higher than the bank's lowest voltage (5.5 V: ",
    ),
]


@pytest.mark.parametrize(("make", "said"), REFUSED)
def test_a_refusal_keeps_its_text_on_its_way_through_the_validator(make, said):
    with pytest.raises(ValidationError) as caught:
        make()
    text = str(caught.value.errors(include_url=False)[0]["ctx"]["error"])
    assert said in text
    assert foreign(text) != text
    assert not re.search(r"\d\.\d", foreign(text))
