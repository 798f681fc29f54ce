"""A converter's efficiency table is typed in any order, seen as curves and used as one step."""

import pytest
from PySide6.QtCore import Qt

from explorer.scenario.supply import EfficiencyPoint
from explorer.widgets.efficiency.efficiency_dialog import EfficiencyDialog
from explorer.widgets.forms.efficiency_row import EfficiencyRow
from explorer.widgets.forms.section_form import SectionForm


@pytest.fixture
def dialog(qtbot, document):
    made = EfficiencyDialog(document)
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def enter(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def fill(qtbot, row, power, share, volts=""):
    for key, text in (("input_W", power), ("efficiency", share), ("store_V", volts)):
        if text:
            enter(qtbot, row.cells[key], text)


def test_rows_are_typed_in_any_order_and_used_as_one_step(qtbot, dialog, document):
    before = document.scenario
    assert not dialog.use.isEnabled()
    for row, typed in zip(
        dialog.table.rows, (("1 mW", "84"), ("10", "55 %"), ("0.1 mW", "75")), strict=True
    ):
        fill(qtbot, row, *typed)
    assert dialog.table.rows[1].cells["input_W"].text() == "10 µW"
    assert "it passes on" in dialog.foot.text()
    qtbot.mouseClick(dialog.use, Qt.MouseButton.LeftButton)
    assert not dialog.isVisible()
    assert document.scenario.charger.efficiency_table == (
        EfficiencyPoint(input_W=1e-5, efficiency=0.55),
        EfficiencyPoint(input_W=1e-4, efficiency=0.75),
        EfficiencyPoint(input_W=1e-3, efficiency=0.84),
    )
    document.undo_stack.undo()
    assert document.scenario == before


def test_a_row_that_is_not_whole_is_named_and_nothing_can_be_used_yet(qtbot, dialog):
    fill(qtbot, dialog.table.rows[0], "1 mW", "")
    assert dialog.sentence.text() == "Row 1 still lacks: Efficiency."
    assert not dialog.use.isEnabled()


def test_rows_that_contradict_each_other_are_refused_in_a_sentence(qtbot, dialog):
    fill(qtbot, dialog.table.rows[0], "1 mW", "80")
    fill(qtbot, dialog.table.rows[1], "2 mW", "30")
    assert "bring less out of it" in dialog.fault.text()
    assert not dialog.use.isEnabled()


def test_what_is_out_of_range_stays_marked(qtbot, dialog):
    cell = dialog.table.rows[0].cells["efficiency"]
    enter(qtbot, cell, "130")
    assert cell.text() == "130"
    assert cell.at_fault
    assert not dialog.table.is_typed_out


def test_a_table_is_taken_away_again(qtbot, document):
    rows = (EfficiencyPoint(store_V=2.0), EfficiencyPoint(store_V=4.0, efficiency=0.9))
    assert document.edit("charger.efficiency_table", rows)
    dialog = EfficiencyDialog(document)
    qtbot.addWidget(dialog)
    dialog.show()
    for _ in rows:
        qtbot.mouseClick(dialog.table.rows[0].remove, Qt.MouseButton.LeftButton)
    assert dialog.use.text() == "Use no table"
    qtbot.mouseClick(dialog.use, Qt.MouseButton.LeftButton)
    assert document.scenario.charger.efficiency_table == ()


def test_the_form_tells_of_the_table_and_hides_what_it_stands_for(qtbot, document):
    form = SectionForm(document, "charger").connect_to_document()
    qtbot.addWidget(form)
    form.show()
    (row,) = form.findChildren(EfficiencyRow)
    assert row.said.text().startswith("None")
    shown = {path.rpartition(".")[2] for path in paths(form)}
    assert {"efficiency", "fixed_loss_W"} <= shown
    document.edit("charger.efficiency_table", (EfficiencyPoint(),))
    assert row.said.text() == "One row: of 100 µW 80 % arrive."
    shown = {path.rpartition(".")[2] for path in paths(form)}
    assert "table_scale" in shown
    assert not {"efficiency", "fixed_loss_W", "loss_resistance_ohm"} & shown
    row.open()
    assert isinstance(row.dialog, EfficiencyDialog)


def paths(form):
    return [
        w.objectName() for w in form.findChildren(object)
        if w.objectName().startswith("charger.") and getattr(w, "isVisible", lambda: False)()
    ]
