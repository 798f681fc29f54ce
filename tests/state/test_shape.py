import pytest

from explorer.scenario.demand import Every, Load, Operation, Phase, Regulator
from explorer.scenario.fields import Section
from explorer.scenario.light import Light, LitBlock
from explorer.scenario.model import Margins, Scenario
from explorer.scenario.supply import Panels, SheetPoint
from explorer.state.shape import default_item, is_written_by_hand, kind_of, shape_of


@pytest.mark.parametrize(
    ("owner", "key", "kind"),
    [
        (Panels, "count", "whole"),
        (Panels, "active_area_cm2", "number"),
        (Panels, "technology", "option"),
        (Scenario, "notes", "text"),
        (LitBlock, "days", "weekdays"),
        (Load, "regulator", "section"),
        (Scenario, "store", "union"),
        (Light, "pattern", "union"),
        (Operation, "phases", "list"),
    ],
)
def test_each_field_has_the_shape_that_a_person_expects(owner, key, kind):
    assert shape_of(owner, key).kind == kind


def test_a_number_that_may_be_empty_is_optional():
    assert shape_of(Margins, "design_margin").optional
    assert not shape_of(Margins, "served_share").optional


def test_every_field_of_the_model_has_a_shape():
    seen: set[type[Section]] = set()

    def walk(section):
        if section in seen:
            return
        seen.add(section)
        for key in section.model_fields:
            for inner in shape_of(section, key).sections:
                walk(inner)

    walk(Scenario)
    assert len(seen) > 15


def test_the_kinds_of_a_union_come_from_the_model():
    kinds = [kind_of(s) for s in shape_of(Light, "pattern").sections]
    assert kinds == ["steady", "week", "log", "daylight"]


@pytest.mark.parametrize("section", [Phase, LitBlock, Operation, SheetPoint])
def test_a_new_list_item_is_valid(section):
    assert isinstance(default_item(section), section)


def test_only_what_has_more_than_one_value_is_offered():
    assert not is_written_by_hand(Scenario, "version")
    assert not is_written_by_hand(Every, "kind")
    assert is_written_by_hand(Regulator, "kind")


def test_a_further_operation_has_a_name_of_its_own():
    assert default_item(Operation).name == Operation().name
    assert default_item(Operation, 1).name == "operation 2"
