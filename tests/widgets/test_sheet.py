import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt

from explorer.scenario.sheet_draft import NUMBERS
from explorer.scenario.supply import SheetPoint
from explorer.widgets.forms.section_form import SectionForm
from explorer.widgets.forms.sheet_row import SheetRow
from explorer.widgets.sheet.sheet_dialog import SheetDialog

TYPED = ("200", "31,7", "4.64", "26.1 µA", "0.00351k")
READ = (200.0, 31.7e-6, 4.64, 26.1e-6, 3.51)


@pytest.fixture
def dialog(qtbot, document):
    result = SheetDialog(document)
    qtbot.addWidget(result)
    result.show()
    result.activateWindow()
    qtbot.waitUntil(result.isActiveWindow)
    return result


def enter(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def fill(qtbot, row, texts=TYPED):
    for key, text in zip(NUMBERS, texts, strict=True):
        enter(qtbot, row.cells[key], text)


def test_a_new_sheet_is_empty_and_waits_for_two_numbers(qtbot, dialog):
    (row,) = dialog.table.rows
    assert all(cell.text() == "" for cell in row.cells.values())
    assert row.cells["illuminance_lx"].hasFocus()
    assert not dialog.use.isEnabled()
    enter(qtbot, row.cells["short_circuit_A"], "20")
    assert "still lacks: Light" in dialog.sentence.text()
    enter(qtbot, row.cells["illuminance_lx"], "200")
    assert dialog.use.isEnabled()
    assert row.cells["open_circuit_V"].placeholderText().startswith("fit ")


def test_a_line_is_typed_and_used_as_one_step(qtbot, dialog, document):
    row = dialog.table.rows[0]
    fill(qtbot, row)
    assert row.cells["short_circuit_A"].text() == "31.7 µA"
    row.lamp.setCurrentIndex(row.lamp.findData("led_4000"))
    row.lamp.activated.emit(row.lamp.currentIndex())
    enter(qtbot, dialog.cells, "7")
    dialog.technology.setCurrentIndex(dialog.technology.findData("organic"))
    dialog.technology.activated.emit(dialog.technology.currentIndex())
    qtbot.mouseClick(dialog.use, Qt.MouseButton.LeftButton)
    panels = document.scenario.panels
    expected = SheetPoint(source="led_4000", **dict(zip(NUMBERS, READ, strict=True)))
    assert panels.data_sheet == (expected,)
    assert (panels.cells_in_series, panels.technology) == (7, "organic")
    assert document.undo_stack.count() == 1
    assert not dialog.isVisible()


def test_after_add_the_keyboard_is_in_the_new_line(qtbot, dialog):
    qtbot.mouseClick(dialog.table.add_button, Qt.MouseButton.LeftButton)
    assert dialog.table.rows[1].cells["illuminance_lx"].hasFocus()
    qtbot.keyClick(dialog.table.rows[1].cells["illuminance_lx"], Qt.Key.Key_Tab)
    assert dialog.table.rows[1].lamp.hasFocus()


def test_a_value_that_cannot_be_right_is_marked_and_named_and_left_out(qtbot, dialog):
    fill(qtbot, dialog.table.rows[0])
    qtbot.mouseClick(dialog.table.add_button, Qt.MouseButton.LeftButton)
    wrong = dialog.table.rows[1]
    fill(qtbot, wrong, ("500", "79", "4.58", "65.4", "3.78"))
    assert wrong.cells["open_circuit_V"].at_fault
    assert dialog.sentence.text().startswith("Point 2: “Open-circuit voltage” (4.58 V)")
    assert not dialog.use.isEnabled()
    assert len(dialog.found.lines) == 1
    enter(qtbot, wrong.cells["open_circuit_V"], "4.94")
    assert not wrong.cells["open_circuit_V"].at_fault
    assert dialog.use.isEnabled()
    assert dialog.foot.text().startswith("The curves pass within")


def test_what_is_no_number_stays_and_keeps_the_sheet_open(qtbot, dialog, document):
    row = dialog.table.rows[0]
    fill(qtbot, row)
    enter(qtbot, row.cells["open_circuit_V"], "lots")
    qtbot.mouseClick(dialog.use, Qt.MouseButton.LeftButton)
    assert row.cells["open_circuit_V"].text() == "lots"
    assert dialog.isVisible()
    assert document.scenario.panels.data_sheet == ()


def test_a_sheet_that_the_scenario_cannot_have_is_refused_with_a_sentence(qtbot, dialog):
    enter(qtbot, dialog.cells, "1")
    fill(qtbot, dialog.table.rows[0], ("200", "31.7", "40", "26.1", "30"))
    assert "makes 40 V for each" in dialog.sentence.text()
    assert not dialog.use.isEnabled()


def test_the_form_says_what_the_sheet_is_and_opens_it(qtbot, document):
    form = SectionForm(document, "panels").connect_to_document()
    qtbot.addWidget(form)
    form.show()
    row = form.findChild(SheetRow, "panels.data_sheet")
    assert row.said.text() == "None: the curve follows from technology and area."
    document.edit("panels.data_sheet", (SheetPoint(open_circuit_V=4.6),))
    assert "within 0.1 % of 2 values" in row.said.text()
    assert "filled in by the cell technology" in row.said.text()
    qtbot.mouseClick(row.open_button, Qt.MouseButton.LeftButton)
    assert row.dialog.table.rows[0].cells["open_circuit_V"].text() == "4.6 V"
    remove = row.dialog.table.rows[0].remove
    qtbot.mouseClick(remove, Qt.MouseButton.LeftButton)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    qtbot.mouseClick(row.dialog.use, Qt.MouseButton.LeftButton)
    assert document.scenario.panels.data_sheet == ()


def test_curves_are_drawn_as_current_and_as_power(qtbot, dialog):
    fill(qtbot, dialog.table.rows[0])
    axis = dialog.plot.getPlotItem().getAxis("left")
    assert axis.labelText == "Current, µA"
    qtbot.mouseClick(dialog.views.buttons()[1], Qt.MouseButton.LeftButton)
    assert axis.labelText == "Power, µW"


def measured_csv(tmp_path, rows=40):
    """A curve of 30 µA and 4.5 V, bent near its end."""
    volts = [4.6 * k / (rows - 1) for k in range(rows)]
    lines = [f"{v:.4f},{30.0 * (1.0 - (v / 4.5) ** 14):.5f}" for v in volts]
    path = tmp_path / "curve.csv"
    path.write_text("voltage (V),current (µA)\n" + "\n".join(lines), encoding="utf-8")
    return path


def test_a_measured_curve_becomes_a_line_that_waits_for_its_light(
    qtbot, dialog, document, tmp_path
):
    dialog.table.open_curve(measured_csv(tmp_path))
    (row,) = dialog.table.rows  # in place of the empty one
    assert row.draft.short_circuit_A == pytest.approx(30e-6, rel=1e-3)
    assert row.draft.open_circuit_V == pytest.approx(4.5, rel=1e-3)
    assert row.cells["illuminance_lx"].hasFocus()
    assert "still lacks: Light" in dialog.sentence.text()
    enter(qtbot, row.cells["illuminance_lx"], "200")
    said = dialog.sentence.text()
    assert "measured points the curve misses" in said
    qtbot.mouseClick(dialog.use, Qt.MouseButton.LeftButton)
    (point,) = document.scenario.panels.data_sheet
    assert len(point.measured_V) == len(point.measured_A) > 30
    again = SheetDialog(document)
    qtbot.addWidget(again)
    assert again.sentence.text() == said


def test_a_curve_that_cannot_be_read_is_refused_in_a_sentence(dialog, tmp_path):
    path = tmp_path / "short.csv"
    path.write_text("voltage_V,current_mA\n0,1\n1,0.9\n")
    dialog.table.open_curve(path)
    assert len(dialog.table.rows) == 1
    assert "at least 8 are needed" in dialog.table._fault.text()
