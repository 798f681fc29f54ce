import csv
from itertools import product

import pytest
from PySide6.QtCore import QItemSelectionModel, QPoint, Qt

from explorer.advice.case import Case
from explorer.files.scenario_json import save_scenario
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.storage import CellStore
from explorer.state import theme
from explorer.widgets import messages
from explorer.widgets.compare.table import LABEL, OTHER, TAKE, THIS
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.focus_seen import ring

pytestmark = pytest.mark.usefixtures("reach_is_found_once")


def other_design():
    scenario = with_value(Scenario(title="Moss wall"), "light.illuminance_lx", 500.0)
    scenario = with_value(scenario, "panels.count", 3)
    return with_value(scenario, "load.sleep_A", 4e-6)


@pytest.fixture
def compare(qtbot, window):
    """The comparison, open beside the window, with another design in it."""
    window.commands["compare"].trigger()
    found = window.comparisons.one
    found.compare_with(Case(other_design()), "moss.json")
    qtbot.waitUntil(lambda: found.comparison.result is not None, timeout=20_000)
    return found


def labels(compare):
    return [row.label for row in compare.differences.rows.rows if not row.is_heading]


def row_of(compare, label):
    return next(i for i, r in enumerate(compare.differences.rows.rows) if r.label == label
                and not r.is_heading)  # fmt: skip


def choose(compare, *names):
    table, flags = compare.differences, QItemSelectionModel.SelectionFlag
    table.clearSelection()
    for name in names:
        index = table.rows.index(row_of(compare, name), LABEL)
        table.selectionModel().setCurrentIndex(index, flags.Select | flags.Rows)


def table_in(path):
    return list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


def test_it_first_asks_what_to_compare_with(window):
    window.commands["compare"].trigger()
    found = window.comparisons.one
    assert found.isVisible()
    assert found.choice.isVisible()
    assert not found.choice.buttons[0].isEnabled()
    assert "none yet" in found.choice.buttons[0].text()


def test_only_what_differs_is_listed_with_units_and_texts_last(compare):
    assert labels(compare) == ["Illuminance", "Panels", "Sleep current", "Title"]
    row = compare.differences.rows.rows[row_of(compare, "Illuminance")]
    assert (row.this, row.other) == ("300 lx", "500 lx")
    assert compare.summary.text().startswith("4 values differ.")


def test_checks_answers_and_traces_of_both_are_there(compare, solver):
    rows = {row.label: row for row in compare.results.rows.rows}
    assert {"Starts", "Balance", "Dark", "Pulse", "Ratings", "Service"} < set(rows)
    assert rows["Starts"].this_state == solver.result.verdict.checks[0].state
    assert rows["Starts"].other
    assert rows["Empty to full, device off"].this != rows["Empty to full, device off"].other
    assert compare.plot._ghost is compare.comparison.result
    assert compare.plot._ghost.scenario == other_design()
    assert "Moss wall" in compare.other_plate.accessibleName()
    assert compare.comparison.result.verdict.word in compare.other_plate.accessibleName()


def test_enter_takes_one_value_over_as_one_undo_step(qtbot, compare, document):
    before = document.scenario
    choose(compare, "Panels")
    qtbot.keyClick(compare.differences, Qt.Key.Key_Return)
    assert document.scenario == with_value(before, "panels.count", 3)
    assert document.undo_stack.count() == 1
    assert document.undo_stack.undoText() == "taking over of Panels"
    qtbot.waitUntil(lambda: "Panels" not in labels(compare))
    document.undo_stack.undo()
    assert document.scenario == before
    qtbot.waitUntil(lambda: "Panels" in labels(compare))


def test_several_rows_go_over_together_as_one_undo_step(qtbot, compare, document):
    before = document.scenario
    choose(compare, "Illuminance", "Panels", "Sleep current", "Title")
    assert compare.take.text() == "Take 4 over"
    qtbot.mouseClick(compare.take, Qt.MouseButton.LeftButton)
    assert document.scenario == other_design()
    assert document.undo_stack.count() == 1
    qtbot.waitUntil(lambda: compare.summary.text() == "Nothing differs.")
    assert not compare.take.isEnabled()
    document.undo_stack.undo()
    assert document.scenario == before


def test_the_arrow_of_a_row_takes_that_row(qtbot, compare, document):
    table = compare.differences
    place = table.visualRect(table.rows.index(row_of(compare, "Sleep current"), TAKE)).center()
    qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert document.scenario.load.sleep_A == 4e-6
    assert document.undo_stack.count() == 1


def test_a_click_on_a_value_only_chooses_it(qtbot, compare, document):
    table = compare.differences
    place = table.visualRect(table.rows.index(row_of(compare, "Panels"), THIS)).center()
    qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(place))
    assert document.undo_stack.count() == 0
    assert [d.path for d in table.chosen()] == ["panels.count"]


def test_undo_and_redo_work_in_the_comparison_too(compare, window):
    assert {window.commands[key] for key in ("undo", "redo", "save")} <= set(compare.actions())


def test_a_value_that_does_not_go_alone_is_explained(qtbot, compare, document):
    low = with_value(with_value(Scenario(), "load.disconnect_V", 2.0), "load.connect_V", 2.2)
    compare.compare_with(Case(low), "low.json")
    before = document.scenario
    choose(compare, "Connect voltage")
    compare.take_over()
    assert document.scenario is before
    assert "must be higher than" in compare.notice.text.text()
    choose(compare, "Connect voltage", "Disconnect voltage")
    compare.take_over()
    assert not compare.notice.isVisible()
    assert document.scenario.load.connect_V == 2.2


def test_another_kind_of_store_goes_over_whole(compare, document):
    compare.compare_with(Case(with_value(Scenario(), "store", CellStore())), "cell.json")
    assert labels(compare) == ["Store"]
    row = compare.differences.rows.rows[row_of(compare, "Store")]
    assert row.this.startswith("Supercapacitor bank, ")
    assert row.other == "Rechargeable lithium cell, 40 mAh"
    choose(compare, "Store")
    compare.take_over()
    assert document.scenario.store == CellStore()


def test_it_follows_the_open_design(qtbot, compare, document):
    document.edit("load.reserve_J", 0.5)
    qtbot.waitUntil(lambda: "Energy for a last action" in labels(compare))
    table = compare.differences
    for row, one in enumerate(table.rows.rows):  # headings span all, values nothing
        assert table.columnSpan(row, LABEL) == (4 if one.is_heading else 1)
    document.edit("light.illuminance_lx", 500.0)
    qtbot.waitUntil(lambda: "Illuminance" not in labels(compare))
    for row, one in enumerate(table.rows.rows):
        assert table.columnSpan(row, LABEL) == (4 if one.is_heading else 1)


def test_arrow_keys_pass_over_headings(qtbot, compare):
    table = compare.differences
    assert table.currentIndex().row() == 1
    qtbot.keyClick(table, Qt.Key.Key_Down)
    assert not table.rows.rows[table.currentIndex().row()].is_heading
    assert [d.path for d in table.chosen()] == ["panels.count"]


def test_both_tables_show_that_they_have_the_focus(qtbot, qapp, compare):
    compare.activateWindow()
    qtbot.waitUntil(compare.isActiveWindow)
    for tokens, table in product(theme.ALL_TOKENS, (compare.differences, compare.results)):
        qapp.setPalette(theme.palette_of(tokens))
        assert ring(table) >= 1.0, tokens.name
        assert not table.rows.rows[table.currentIndex().row()].is_heading


def test_the_pinned_design_is_taken_at_once(qtbot, window, document):
    window.commands["pin"].trigger()
    document.edit("panels.count", 4)
    window.commands["compare"].trigger()
    found = window.comparisons.one
    assert [d.path for d in found.comparison.found] == ["panels.count"]
    assert found.comparison.found[0].new == 1
    assert "the pinned design" in found.other_plate.accessibleName()
    assert found.choice.buttons[0].isEnabled()


def test_a_file_and_an_example_can_be_chosen(qtbot, window, tmp_path, monkeypatch):
    save_scenario(tmp_path / "moss.json", other_design())
    monkeypatch.setattr(messages, "pick_open", lambda *_: tmp_path / "moss.json")
    window.commands["compare"].trigger()
    found = window.comparisons.one
    qtbot.mouseClick(found.choice.buttons[1], Qt.MouseButton.LeftButton)
    assert found.comparison.other == other_design()
    assert found.comparison.name == "moss.json"
    example = found.choice.menu.actions()[-1]
    example.trigger()
    assert found.comparison.other.title not in ("Moss wall", "New scenario")


def test_a_file_that_is_no_scenario_is_explained_and_nothing_changes(compare, said, tmp_path):
    (tmp_path / "odd.json").write_text("{", encoding="utf-8")
    assert not compare.open_other(tmp_path / "odd.json")
    assert "odd.json" in said[0][1]
    assert compare.comparison.name == "moss.json"


def test_both_tables_are_written_as_csv(compare, tmp_path, said):
    assert compare.save_table("differences", tmp_path / "d.csv")
    assert str(tmp_path / "d.csv") in compare.notice.text.text()
    rows = table_in(tmp_path / "d.csv")
    light = next(row for row in rows if row["key"] == "light.illuminance_lx")
    assert (light["unit"], light["this_design"], light["other_design"]) == ("lx", "300", "500")
    assert compare.save_table("results", tmp_path / "r.csv")
    rows = table_in(tmp_path / "r.csv")
    assert {"starts", "starts margin", "first charge"} < {row["result"] for row in rows}
    assert not compare.save_table("results", tmp_path / "nowhere" / "r.csv")
    assert "nowhere" in said[0][1]


def test_showing_and_choosing_edit_nothing(compare, document):
    assert document.undo_stack.count() == 0
    compare.close()
    assert document.is_clean


def test_each_theme_reaches_the_comparison(window, compare, qapp):
    for choice in ("light", "dark", "contrast"):
        window.apply_theme(choice)
        qapp.processEvents()
        for part in (compare, compare.plot, compare.differences, compare.this_plate):
            assert theme.tokens_of(part.palette()) is theme.resolve(choice)


def test_cells_are_spoken_with_the_design_they_belong_to(compare):
    model = compare.differences.rows
    row = row_of(compare, "Illuminance")
    speak = Qt.ItemDataRole.AccessibleTextRole
    assert model.index(row, OTHER).data(speak) == "The other: 500 lx"
    assert "Take over 500 lx as Illuminance" in model.index(row, TAKE).data(speak)
