import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtWidgets import QWidget

from explorer.scenario.demand import Operation
from explorer.scenario.light import LogPattern, SteadyPattern
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.state import theme
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.fields import CalmComboBox, OutlinedCheckBox
from explorer.widgets.forms.pulse_timing import PulseTiming
from explorer.widgets.forms.rows import AmountRow, NumberRow, OptionRow, TextRow, WeekdaysRow
from explorer.widgets.forms.section_form import SectionForm
from tests.sharing import cases_are_shared  # noqa: F401


def form_for(qtbot, document, path, **more):
    form = SectionForm(document, path, **more).connect_to_document()
    qtbot.addWidget(form)
    form.show()
    form.activateWindow()
    qtbot.waitUntil(form.isActiveWindow)
    return form


def row(form, path, kind=QWidget):
    found = form.findChild(kind, path)
    assert found is not None, path
    return found


def enter(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def choose(box, data):
    index = box.findData(data)
    box.setCurrentIndex(index)
    box.activated.emit(index)
    # What a form replaces is deleted on the next turn of the loop.
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def test_a_form_shows_without_editing(qtbot, document):
    with qtbot.assertNotEmitted(document.changed):
        form_for(qtbot, document, "light")
        form_for(qtbot, document, "load")
    assert document.undo_stack.count() == 0


def test_a_number_goes_into_the_document_as_one_step(qtbot, document):
    form = form_for(qtbot, document, "load")
    enter(qtbot, row(form, "load.sleep_A", NumberRow).entry, "3,5 uA")
    assert document.scenario.load.sleep_A == pytest.approx(3.5e-6)
    assert document.undo_stack.count() == 1


def test_a_refused_number_stays_with_its_sentence_until_it_is_put_right(qtbot, document):
    form = form_for(qtbot, document, "load")
    connects = row(form, "load.connect_V", NumberRow)
    enter(qtbot, connects.entry, "1 V")
    row(form, "load.sleep_A", NumberRow).entry.setFocus()
    assert connects.entry.text() == "1 V"
    assert connects.entry.at_fault
    assert connects.fault.text() == (
        "“Connect voltage” (1 V) must be higher than “Disconnect voltage” (2.4 V)."
    )
    connects.entry.setFocus()
    connects.entry.setCursorPosition(1)
    qtbot.keyClicks(connects.entry, "0")
    assert not connects.fault.isVisible()
    qtbot.keyClick(connects.entry, Qt.Key.Key_Backspace)
    qtbot.keyClick(connects.entry, Qt.Key.Key_Backspace)
    qtbot.keyClicks(connects.entry, "3")
    qtbot.keyClick(connects.entry, Qt.Key.Key_Return)
    assert document.scenario.load.connect_V == 3.0
    assert connects.entry.text() == "3 V"
    assert not connects.entry.at_fault


def test_a_refused_number_gives_way_when_the_value_behind_it_changes(qtbot, document):
    form = form_for(qtbot, document, "load")
    connects = row(form, "load.connect_V", NumberRow)
    enter(qtbot, connects.entry, "lots")
    row(form, "load.sleep_A", NumberRow).entry.setFocus()
    document.edit("load.sleep_A", 1e-6)
    assert connects.entry.text() == "lots"
    document.edit("load.connect_V", 3.0)
    assert connects.entry.text() == "3 V"
    assert not connects.fault.isVisible()


def test_a_refused_text_stays_too(qtbot, document):
    document.edit("light.pattern", LogPattern())
    form = form_for(qtbot, document, "light")
    name = row(form, "light.pattern.file", TextRow)
    name.entry.setFocus()
    name.entry.selectAll()
    qtbot.keyClicks(name.entry, "nowhere.csv")
    qtbot.keyClick(name.entry, Qt.Key.Key_Return)
    assert name.entry.text() == "nowhere.csv"
    assert name.entry.at_fault
    assert "nowhere.csv" in name.fault.text()
    assert document.scenario.light.pattern.file == LogPattern().file


def test_undo_is_shown(qtbot, document):
    form = form_for(qtbot, document, "panels")
    document.edit("panels.active_area_cm2", 40.0)
    entry = row(form, "panels.active_area_cm2", NumberRow).entry
    assert entry.text() == "40 cm²"
    document.undo_stack.undo()
    assert entry.text() == "12 cm²"


def test_a_choice_goes_into_the_document(qtbot, document):
    form = form_for(qtbot, document, "panels")
    choose(row(form, "panels.technology", OptionRow).box, "perovskite")
    assert document.scenario.panels.technology == "perovskite"


def test_days_are_toggled(qtbot, document):
    form = form_for(qtbot, document, "light")
    days = row(form, "light.pattern.blocks.0.days", WeekdaysRow)
    qtbot.mouseClick(days.buttons[5], Qt.MouseButton.LeftButton)
    assert document.scenario.light.pattern.blocks[0].days[-1] == "sat"


def test_the_last_day_cannot_be_taken_away(qtbot, document):
    document.edit("light.pattern.blocks.0.days", ("mon",))
    form = form_for(qtbot, document, "light")
    days = row(form, "light.pattern.blocks.0.days", WeekdaysRow)
    qtbot.mouseClick(days.buttons[0], Qt.MouseButton.LeftButton)
    assert "at least one weekday" in days.fault.text()
    assert days.buttons[0].isChecked()


def test_another_kind_brings_its_defaults_and_its_fields(qtbot, document):
    kinds = (CapacitorStore, SupercapacitorStore, CellStore)
    form = form_for(qtbot, document, "store", kinds=kinds, title="Store")
    choose(row(form, "store.kind", CalmComboBox), "cell")
    assert document.scenario.store == CellStore()
    assert row(form, "store.chemistry", OptionRow).isVisibleTo(form)
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert row(form, "store.units_in_series", NumberRow).isVisibleTo(form)


def test_the_pattern_of_light_is_a_choice_of_kind(qtbot, document):
    form = form_for(qtbot, document, "light")
    choose(row(form, "light.pattern.kind", CalmComboBox), "steady")
    assert document.scenario.light.pattern == SteadyPattern()


def test_list_items_are_added_and_removed(qtbot, document):
    form = form_for(qtbot, document, "light")
    qtbot.mouseClick(row(form, "light.pattern.blocks.add"), Qt.MouseButton.LeftButton)
    assert len(document.scenario.light.pattern.blocks) == 2
    qtbot.mouseClick(row(form, "light.pattern.blocks.0.remove"), Qt.MouseButton.LeftButton)
    assert len(document.scenario.light.pattern.blocks) == 1


def test_after_add_the_keyboard_is_in_the_new_row(qtbot, document):
    form = form_for(qtbot, document, "load")
    qtbot.mouseClick(row(form, "load.operations.0.phases.add"), Qt.MouseButton.LeftButton)
    name = row(form, "load.operations.0.phases.1.name", TextRow)
    assert name.entry.hasFocus()


def tab_walk(start, stops):
    """Names of what the next Tab stops edit."""
    names, at = [], start
    while len(names) < stops:
        at = at.nextInFocusChain()
        if at.focusPolicy() & Qt.FocusPolicy.TabFocus and at.isVisible():
            owner = at
            while not owner.objectName():
                owner = owner.parentWidget()
            names.append(owner.objectName().rpartition(".")[2])
    return names


def test_tab_goes_where_the_eye_goes_also_after_a_form_has_changed(qtbot, document):
    form = form_for(qtbot, document, "load")
    kind = row(form, "load.regulator.kind", OptionRow).box
    before = tab_walk(kind, 1)
    choose(kind, "linear")
    assert tab_walk(kind, 4) == ["output_V", "dropout_V", "ground_A", *before]
    qtbot.mouseClick(row(form, "load.operations.0.phases.add"), Qt.MouseButton.LeftButton)
    last = row(form, "load.operations.0.phases.1.duration_s", NumberRow).entry
    assert tab_walk(last, 2) == ["add", "add"]


def test_a_form_that_changes_keeps_the_focus_and_what_is_being_typed(qtbot, document):
    form = form_for(qtbot, document, "load")
    sleep = row(form, "load.sleep_A", NumberRow).entry
    sleep.setFocus()
    sleep.selectAll()
    qtbot.keyClicks(sleep, "12")
    document.edit("load.regulator.kind", "switching")
    document.edit("load.operations", (*document.scenario.load.operations, Operation()))
    assert sleep.hasFocus()
    assert sleep.text() == "12"
    box = row(form, "load.operations.0.phases.0.amount", AmountRow).box
    box.setFocus()
    choose(box, "resistance_ohm")
    assert box.hasFocus()


def test_what_has_no_effect_is_not_offered(qtbot, document):
    form = form_for(qtbot, document, "load")
    assert form.findChild(NumberRow, "load.regulator.output_V") is None
    choose(row(form, "load.regulator.kind", OptionRow).box, "switching")
    assert row(form, "load.regulator.efficiency", NumberRow).isVisibleTo(form)
    assert form.findChild(NumberRow, "load.regulator.dropout_V") is None


def test_the_last_phase_cannot_be_removed(qtbot, document):
    form = form_for(qtbot, document, "load")
    qtbot.mouseClick(row(form, "load.operations.0.phases.0.remove"), Qt.MouseButton.LeftButton)
    said = [line.text() for line in form.findChildren(FaultLine) if line.isVisible()]
    assert said == ["Phases must hold at least one phase."]


def test_a_phase_keeps_its_draw_when_it_is_said_as_power(qtbot, document):
    form = form_for(qtbot, document, "load")
    amount = row(form, "load.operations.0.phases.0.amount", AmountRow)
    choose(amount.box, "power_W")
    phase = document.scenario.load.operations[0].phases[0]
    assert phase.current_A is None
    assert phase.power_W == pytest.approx(0.02 * document.scenario.load.connect_V)
    again = row(form, "load.operations.0.phases.0.amount", AmountRow)
    assert again.entry.unit == "W"


def test_an_emptied_optional_number_is_none(qtbot, document):
    form = form_for(qtbot, document, "margins")
    entry = row(form, "margins.design_margin", NumberRow).entry
    enter(qtbot, entry, "1.5")
    assert document.scenario.margins.design_margin == 1.5
    entry.selectAll()
    qtbot.keyClick(entry, Qt.Key.Key_Backspace)
    qtbot.keyClick(entry, Qt.Key.Key_Return)
    assert document.scenario.margins.design_margin is None


def test_every_control_of_every_form_has_a_name(qtbot, document):
    for path in ("light", "panels", "charger", "store", "load", "margins"):
        form = form_for(qtbot, document, path)
        for kind in (ExactField, CalmComboBox):
            for control in form.findChildren(kind):
                assert control.accessibleName(), (path, control)
                assert control.height() >= 24


def test_duration_and_interval_of_the_pulse_lead_the_details(qtbot, document):
    timing = PulseTiming(document)
    qtbot.addWidget(timing)
    timing.show()
    labels = [r.field.label for r in timing.findChildren(NumberRow)]
    assert labels == ["Duration", "Interval"]
    enter(qtbot, row(timing, "load.operations.0.schedule.interval_s", NumberRow).entry, "5 min")
    assert document.scenario.load.operations[0].schedule.interval_s == 300.0


def test_timing_follows_the_largest_phase(qtbot, document):
    from explorer.scenario.demand import Phase

    timing = PulseTiming(document)
    qtbot.addWidget(timing)
    phases = document.scenario.load.operations[0].phases
    document.edit("load.operations.0.phases", (*phases, Phase(current_A=0.2, duration_s=0.01)))
    visible = [r.path for r in timing.findChildren(NumberRow) if r.isVisibleTo(timing)]
    assert "load.operations.0.phases.1.duration_s" in visible


def test_where_another_voltage_cuts_off_that_is_said_below_the_disconnect_voltage(qtbot, window):
    fold = next(f for f in window.knobs.folds if f.button.text().startswith("Load"))
    fold.set_open(True)
    note = row(fold, "cut_off_note")
    assert not note.isVisibleTo(fold)
    window.document.edit("load.minimum_V", 2.8)
    assert note.isVisibleTo(fold)
    assert "2.8\N{NO-BREAK SPACE}V" in note.text()
    QCoreApplication.processEvents()
    above, below = (row(fold, f"load.{key}_V") for key in ("disconnect", "minimum"))
    places = [part.mapTo(fold, part.rect().topLeft()).y() for part in (above, note, below)]
    assert places == sorted(set(places))
    window.document.edit("load.disconnect_V", 2.9)
    assert not note.isVisibleTo(fold)


def test_an_empty_check_box_shows_in_every_theme(qtbot, qapp):
    for tokens in theme.ALL_TOKENS:
        box = OutlinedCheckBox("Leakage")
        qtbot.addWidget(box)
        box.setPalette(theme.palette_of(tokens))
        box.show()
        colors = {
            box.grab().toImage().pixelColor(x, y).name().upper()
            for x in range(20) for y in range(box.height())
        }
        assert tokens.edge.upper() in colors
