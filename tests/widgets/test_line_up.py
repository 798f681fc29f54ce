"""Several designs laid over each other."""

import csv
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer

from explorer.advice.case import Case
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.storage import CellStore
from explorer.scenario.study import MOST_DESIGNS
from explorer.state.language import set_language
from explorer.state.theme import tokens_of
from explorer.words.line_up import line_up_rows
from tests.sharing import cases_are_shared  # noqa: F401

pytestmark = pytest.mark.usefixtures("reach_is_found_once")


def design(lux):
    return Case(with_value(Scenario(title=f"{lux:g} lx"), "light.illuminance_lx", lux))


@pytest.fixture
def line_up(qtbot, window):
    window.commands["line_up"].trigger()
    return window.comparisons.several


def filled(qtbot, line_up, *lux):
    for value in lux:
        line_up.line_up.add(design(value), f"{value:g} lx")
    qtbot.waitUntil(lambda: all(line_up.line_up.results), timeout=30_000)


def row_of(line_up, label):
    return next(r for r in line_up.table.designs.rows if r.label == label)


def test_six_designs_stand_side_by_side_and_a_seventh_is_refused(qtbot, window, line_up):
    filled(qtbot, line_up, 100.0, 500.0, 1000.0, 2000.0, 5000.0)
    assert line_up.table.designs.columnCount() == MOST_DESIGNS + 1
    now = window.document.scenario.light.illuminance_lx
    shown = [f"{value:g} lx" for value in (now, 100, 500, 1000, 2000, 5000)]
    shown[-1] = "5000 lx"
    assert [v.replace("\u202f", "") for v in row_of(line_up, "Illuminance").values] == shown
    words = row_of(line_up, "Verdict").values
    assert words[1] == "Falls short"
    assert words[0] == window.solver.result.verdict.word
    assert not line_up.add_button.isEnabled()
    assert not line_up.line_up.add(design(10.0), "one too many")
    assert "take one out" in line_up.notice.text.text()


def test_examples_have_their_names_in_the_language_on_show(qapp, request):
    set_language("de")
    try:
        line_up = request.getfixturevalue("line_up")
        line_up.fill_menu()
        offer = next(
            one for one in line_up.add_button.menu().actions()
            if str(one.data()).endswith("plant_label.json")
        )
        offer.trigger()
        (other,) = line_up.line_up.others
        assert other.name == load_scenario(Path(offer.data())).scenario.names_de.title
        assert offer.text().endswith(other.name)
    finally:
        set_language("en")


def test_the_first_column_follows_the_open_design(qtbot, window, line_up):
    filled(qtbot, line_up, 500.0)
    window.document.edit("panels.count", 7)
    window.solver.solve_now()
    assert row_of(line_up, "Panels").values == ("7", "1")


def test_what_one_design_lacks_is_a_dash():
    cell = with_value(with_value(Scenario(), "store", CellStore()), "charger.full_V", 4.15)
    dearer = with_value(Scenario(), "store.esr_ohm", 0.2)
    rows = line_up_rows([Scenario(), cell, dearer], [None, None, None])
    esr = next(r for r in rows if r.label == "Series resistance (ESR)")
    assert esr.values[1] == "–"
    assert esr.values[0] != esr.values[2]


def test_a_column_is_taken_out_by_key(qtbot, line_up):
    filled(qtbot, line_up, 100.0, 500.0)
    line_up.table.setCurrentIndex(line_up.table.designs.index(1, 2))
    assert line_up.remove_button.isEnabled()
    qtbot.keyClick(line_up.remove_button, Qt.Key.Key_Space)
    assert [d.name for d in line_up.line_up.others] == ["500 lx"]


def test_the_names_of_the_rows_stay_readable_where_keys_come_to_them(qtbot, line_up):
    filled(qtbot, line_up, 100.0)
    table = line_up.table
    table.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.keyClick(table, Qt.Key.Key_Down)
    assert table.currentIndex().column() == 0
    tokens = tokens_of(table.palette())
    other = table.visualRect(table.designs.index(3, 0))
    seen = table.viewport().grab().toImage()
    assert seen.pixelColor(other.left() + 3, other.center().y()) == tokens.color("card")


def test_a_cell_that_keys_come_to_shows_a_ring_before_any_column_is_chosen(qtbot, line_up):
    filled(qtbot, line_up, 100.0)
    table = line_up.table
    table.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(table.hasFocus)
    assert not table.selectedIndexes()
    here = table.visualRect(table.currentIndex())
    seen = table.viewport().grab().toImage()
    ring = seen.pixelColor(here.left() + 1, here.center().y())
    assert ring == tokens_of(table.palette()).color("accent")


def test_enter_opens_the_list_of_what_can_be_added(qtbot, line_up):
    menu = line_up.add_button.menu()
    opened = []
    menu.aboutToShow.connect(lambda: opened.append(True))
    menu.aboutToShow.connect(lambda: QTimer.singleShot(0, menu.close))
    qtbot.keyClick(line_up.add_button, Qt.Key.Key_Return)
    assert opened


def test_the_design_as_it_is_now_is_kept_while_the_open_one_goes_on(qtbot, window, line_up):
    line_up.fill_menu()
    line_up.add_button.menu().actions()[0].trigger()
    before = window.document.scenario.panels.count
    window.document.edit("panels.count", before + 3)
    window.solver.solve_now()
    assert row_of(line_up, "Panels").values == (str(before + 3), str(before))


def test_table_and_sheet_tell_of_all_designs(qtbot, line_up, tmp_path):
    assert line_up.open_other(scenario_folder() / "plant_label.json")
    filled(qtbot, line_up, 500.0)
    assert line_up.save_table(tmp_path / "designs.csv")
    assert str(tmp_path / "designs.csv") in line_up.notice.text.text()
    rows = list(csv.reader((tmp_path / "designs.csv").read_text(encoding="utf-8").splitlines()))
    assert len(rows[0]) == 4
    assert any(row[0] == "Verdict" for row in rows)
    for name in ("designs.html", "designs.pdf"):
        assert line_up.save_sheet(tmp_path / name)
    page = (tmp_path / "designs.html").read_text(encoding="utf-8")
    assert page.count("<svg") >= 1
    assert "Comparison of 3 designs" in page
    assert "500 lx" in page
    assert (tmp_path / "designs.pdf").read_bytes().startswith(b"%PDF")
