from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.compare import differences
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.demand import Operation, Phase
from explorer.scenario.light import LogPattern
from explorer.scenario.model import Scenario, with_value
from explorer.words.compare import (
    difference_rows,
    difference_table,
    result_rows,
    result_table,
    summary,
    words,
)


def test_values_are_grouped_by_part_and_texts_come_last():
    other = with_value(Scenario(title="Moss wall"), "panels.count", 3)
    other = with_value(other, "margins.closure_days", 4.0)
    rows = difference_rows(differences(Scenario(), other))
    assert [(row.label, row.is_heading) for row in rows] == [
        ("Panels", True),
        ("Panels", False),
        ("Margins", True),
        ("Longest closure", False),
        ("Title, place and notes", True),
        ("Title", False),
    ]


def test_parts_and_lists_are_said_in_words():
    assert words(Scenario().store, "").startswith("Supercapacitor bank, ")
    assert words(LogPattern(), "") == "Measured light log, office_lux_1min.csv"
    assert words((Phase(power_W=0.06, duration_s=0.05),), "") == "60 mW for 50 ms"
    assert words((Operation(), Operation(name="open")), "") == "measure and send; open"
    assert words((), "") == "none"
    assert words("", "") == "empty"


def test_equal_results_are_told_from_different_ones_even_before_the_other_is_there():
    this, other = assess(Case(Scenario())), assess(Case(with_value(Scenario(), "panels.count", 3)))
    rows = {row.label: row for row in result_rows(this, other) if not row.is_heading}
    assert rows["Balance"].differs
    assert not rows["Ratings"].differs
    assert {row.other for row in result_rows(this, None)} == {""}


def test_the_summary_counts_and_names_both_verdicts():
    bright = load_scenario(scenario_folder() / "plant_label.json").scenario
    this = assess(Case(bright))
    dark = assess(Case(with_value(bright, "light.illuminance_lx", 5.0)))
    assert summary(1, this, None) == "One value differs."
    assert summary(2, this, this).startswith("2 values differ. Both: ")
    assert summary(1, this, dark).endswith("This design: runs; the other: falls short.")


def test_tables_hold_numbers_in_the_unit_beside_them():
    other = with_value(Scenario(), "load.sleep_A", 4e-6)
    table = difference_table(differences(Scenario(), other))
    assert (table["key"], table["unit"]) == (["load.sleep_A"], ["A"])
    assert (table["this_design"], table["other_design"]) == ([2e-6], [4e-6])
    results = result_table(assess(Case(Scenario())), assess(Case(other)))
    assert len({len(column) for column in results.values()}) == 1
    place = results["result"].index("first charge")
    assert results["unit"][place] == "s"
