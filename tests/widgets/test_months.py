"""Skies and temperatures of the months are typed in a table and used as one step."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QWidget

from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.model import with_value, with_values
from explorer.state.knobs import LIGHT_PATH, PATTERN_PATH
from explorer.widgets.forms.section_form import SectionForm
from explorer.widgets.log_level import LogLevel
from explorer.widgets.months.months_dialog import MonthsDialog
from tests.weather_files import epw, rows

PATH = "light.pattern.months"


@pytest.fixture
def dialog(qtbot, document):
    document.restore(with_value(document.scenario, PATTERN_PATH, DaylightPattern()))
    made = MonthsDialog(document, PATH)
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def enter(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_months_are_typed_and_used_as_one_step(qtbot, dialog, document):
    before = document.scenario
    assert "Overcast throughout" in dialog.foot.text()
    january = dialog.table.rows[0]
    for key, text in (
        ("clear_share", "25"), ("partly_share", "40 %"), ("mean_C", "-3.5"), ("swing_C", "6"),
    ):
        enter(qtbot, january.cells[key], text)
    assert january.cells["clear_share"].accessibleName() == "January: Clear, %"
    qtbot.mouseClick(dialog.use, Qt.MouseButton.LeftButton)
    assert not dialog.isVisible()
    first, *others = document.get(PATH)
    assert (first.clear_share, first.partly_share) == (0.25, 0.4)
    assert (first.mean_C, first.swing_C) == (-3.5, 6.0)
    assert others == list(before.light.pattern.months[1:])
    document.undo_stack.undo()
    assert document.scenario == before


def test_a_month_of_too_many_days_or_without_a_number_is_named(qtbot, dialog):
    july = dialog.table.rows[6]
    for key in ("clear_share", "partly_share"):
        enter(qtbot, july.cells[key], "60")
    assert "More than all days: July." in dialog.sentence.text()
    assert not dialog.use.isEnabled()
    enter(qtbot, july.cells["partly_share"], "30")
    assert dialog.use.isEnabled()
    enter(qtbot, july.cells["mean_C"], "")
    assert "A number is missing: July." in dialog.sentence.text()
    assert not dialog.use.isEnabled()


def test_daylight_that_is_chosen_counts_as_computed_and_lamps_have_a_level(qtbot, document):
    form = SectionForm(document, "light").connect_to_document()
    qtbot.addWidget(form)
    form.show()
    (box,) = (b for b in form.findChildren(object, f"{PATTERN_PATH}.kind") if b.isVisible())
    for kind in ("daylight", "week"):
        box.setCurrentIndex(box.findData(kind))
        box.activated.emit(box.currentIndex())
        assert document.get(PATTERN_PATH).kind == kind
        assert (document.get(LIGHT_PATH) is None) == (kind == "daylight")


def test_a_year_counts_as_computed_until_a_level_is_set(qtbot, document):
    document.restore(
        with_values(document.scenario, {PATTERN_PATH: DaylightPattern(), LIGHT_PATH: None})
    )
    row = LogLevel(document)
    qtbot.addWidget(row)
    row.show()
    assert row.box.text() == "As computed"
    assert row.box.isChecked()
    qtbot.mouseClick(row.box, Qt.MouseButton.LeftButton)
    level = document.get(LIGHT_PATH)
    assert level == pytest.approx(document.case.year.mean_lit_lx, rel=5e-3)
    document.edit(LIGHT_PATH, 2.0 * level)
    assert row.scale.text() == "× 2"


def test_a_weather_file_is_looked_for_and_taken(qtbot, document, tmp_path, monkeypatch):
    found = tmp_path / "fernhollow.epw"
    found.write_text(epw(rows()), encoding="utf-8")
    chosen = (str(found), "")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: chosen)
    document.restore(
        with_values(document.scenario, {PATTERN_PATH: DaylightPattern(), LIGHT_PATH: None})
    )
    form = SectionForm(document, PATTERN_PATH).connect_to_document()
    qtbot.addWidget(form)
    form.show()
    (look,) = (b for b in form.findChildren(QWidget) if b.objectName().endswith("_file.look"))
    qtbot.mouseClick(look, Qt.MouseButton.LeftButton)
    assert document.get(f"{PATTERN_PATH}.weather_file") == str(found)
    assert document.case.weather.site == "Fernhollow"
    # The file knows its place and its months.
    assert not form.findChildren(QWidget, f"{PATTERN_PATH}.months")[0].isVisible()


def test_every_column_has_its_room(dialog):
    for line in dialog.table.rows:
        for part in line.parts:
            corner = part.mapTo(dialog, part.rect().topRight())
            assert corner.x() < dialog.rect().right() - 16
            assert part.visibleRegion().boundingRect().width() == part.width()
