"""Several designs side by side in words."""

import pytest

from explorer.scenario.model import Scenario, with_value
from explorer.scenario.part import PartKind, part_from, taken
from explorer.words.line_up import line_up_rows, line_up_table


def with_part(scenario: Scenario, key: str, kind: PartKind, title: str) -> Scenario:
    section = getattr(scenario, key)
    return with_value(scenario, key, taken(part_from(kind, section, title=title), section))


def inputs(*scenarios: Scenario) -> dict[str, tuple[str, ...]]:
    rows = line_up_rows(scenarios, [None] * len(scenarios))
    labels = [row.label for row in rows]
    assert len(set(labels)) == len(labels)
    at, end = labels.index("Inputs that differ"), labels.index("Answers")
    return {row.label: row.values for row in rows[at + 1 : end]}


@pytest.mark.parametrize(
    ("key", "kind", "label"),
    [
        ("panels", "panel", "Panels: Part"), ("charger", "charger", "Charger: Part"),
        ("store", "store", "Store: Part"), ("load", "load", "Load: Part"),
    ],
)  # fmt: skip
def test_the_part_of_each_design_has_its_title_and_says_of_what(key, kind, label):
    none = Scenario()
    sun = with_part(none, key, kind, "Sun 40")
    assert inputs(none, sun, sun) == {label: ("not set", "Sun 40", "Sun 40")}
    table = line_up_table(["a", "b"], line_up_rows([none, sun], [None, None]))
    assert table["2 b"][table["quantity"].index(label)] == "Sun 40"


def test_parts_that_differ_stand_in_one_row_whichever_design_has_none():
    none = Scenario()
    sun, moon = (with_part(none, "panels", "panel", title) for title in ("Sun 40", "Moon 5"))
    assert inputs(sun, moon) == {"Panels: Part": ("Sun 40", "Moon 5")}
    assert inputs(sun, moon, none) == {"Panels: Part": ("Sun 40", "Moon 5", "not set")}
