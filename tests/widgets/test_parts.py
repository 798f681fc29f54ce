import pytest
from PySide6.QtCore import Qt

from explorer.app import build_window, build_windows
from explorer.files.part_json import load_part, save_part
from explorer.files.shelf import Shelf
from explorer.scenario.part import part_from
from explorer.scenario.storage import CellStore
from explorer.state.language import set_language
from explorer.widgets import messages
from explorer.widgets.file_drop import FileDrop
from explorer.widgets.parts.part_line import PartLine
from explorer.widgets.parts.parts_dialog import PartsDialog
from tests.sharing import cases_are_shared  # noqa: F401


@pytest.fixture
def shelf(tmp_path):
    return Shelf(tmp_path / "parts")


@pytest.fixture
def dialog(qtbot, document, shelf):
    result = PartsDialog(document, shelf)
    qtbot.addWidget(result)
    result.begin("store")
    qtbot.waitUntil(result.isActiveWindow)
    return result


def press(qtbot, dialog, key):
    qtbot.mouseClick(dialog.buttons[key], Qt.MouseButton.LeftButton)


def enter(qtbot, entry, text):
    entry.setFocus()
    entry.selectAll()
    qtbot.keyClicks(entry, text)
    qtbot.keyClick(entry, Qt.Key.Key_Return)


def type_and_tab(qtbot, entry, text):
    entry.setFocus()
    entry.selectAll()
    qtbot.keyClicks(entry, text)
    qtbot.keyClick(entry, Qt.Key.Key_Tab)


def titles(shelf, kind="store"):
    found = [one.part for one in shelf.kept() if one.part is not None]
    return sorted(part.title for part in found if part.kind == kind)


def test_the_present_store_is_kept_named_and_taken_again(qtbot, document, shelf, dialog):
    assert dialog.empty.isVisible()
    document.edit("store.esr_ohm", 0.2)
    kept = document.scenario.store
    press(qtbot, dialog, "keep")
    assert dialog.fields.entries["title"].hasFocus()
    for key, text in (
        ("title", "Ember pair"), ("source", "Bench, March"), ("price", "2,90"), ("currency", "EUR"),
        ("volume_cm3", "3"),
    ):  # fmt: skip
        enter(qtbot, dialog.fields.entries[key], text)
    (part,) = shelf.stores()
    assert (part.title, part.price, part.volume_cm3) == ("Ember pair", 2.9, 3.0)
    assert "2.90 EUR" in dialog.list.item(0).text()
    document.edit("store", CellStore())
    dialog.list.setFocus()
    qtbot.keyClick(dialog.list, Qt.Key.Key_Return)
    store = document.scenario.store
    assert store.model_copy(update={"part": None}) == kept
    assert (store.part.title, store.part.source) == ("Ember pair", "Bench, March")
    assert not dialog.isVisible()
    document.undo_stack.undo()
    assert document.scenario.store == CellStore()


def test_the_keyboard_begins_at_the_parts_of_the_kind_or_at_keeping_the_first(qtbot, dialog):
    assert dialog.focusWidget() is dialog.buttons["keep"]
    qtbot.keyClick(dialog.focusWidget(), Qt.Key.Key_Space)
    dialog.begin("panel")
    assert dialog.focusWidget() is dialog.buttons["keep"]
    dialog.begin("store")
    assert dialog.focusWidget() is dialog.list


def test_a_part_that_does_not_suit_the_design_is_refused_with_a_sentence(
    qtbot, document, shelf, dialog
):
    shelf.add(part_from("store", CellStore(cells_in_series=4), title="Tall"))
    dialog.begin("store")
    press(qtbot, dialog, "take")
    assert "voltage of an empty store" in dialog.fault.text()
    assert dialog.isVisible()
    assert document.scenario.store.part is None


def test_a_part_is_renewed_duplicated_and_deleted(qtbot, document, shelf, dialog, monkeypatch):
    press(qtbot, dialog, "keep")
    enter(qtbot, dialog.fields.entries["title"], "Ember")
    document.edit("store.esr_ohm", 0.11)
    press(qtbot, dialog, "update")
    assert shelf.stores()[0].store.esr_ohm == 0.11
    press(qtbot, dialog, "duplicate")
    assert titles(shelf) == ["Ember", "Ember 2"]
    assert dialog.chosen.part.title == "Ember 2"
    monkeypatch.setattr(messages, "ask_delete", lambda _, name: name != "Ember 2")
    press(qtbot, dialog, "delete")
    assert titles(shelf) == ["Ember", "Ember 2"]
    monkeypatch.setattr(messages, "ask_delete", lambda _, name: name == "Ember 2")
    press(qtbot, dialog, "delete")
    assert titles(shelf) == ["Ember"]


def test_parts_go_out_and_come_in_as_files(qtbot, shelf, dialog, monkeypatch, tmp_path):
    file = tmp_path / "given.json"
    save_part(file, part_from("load", dialog._document.scenario.load, title="Probe"))
    monkeypatch.setattr(messages, "pick_part", lambda _: file)
    press(qtbot, dialog, "import")
    assert titles(shelf, "load") == ["Probe"]
    assert dialog.kind == "load"
    monkeypatch.setattr(messages, "pick_part_target", lambda *_: tmp_path / "out.json")
    press(qtbot, dialog, "export")
    assert load_part(tmp_path / "out.json").title == "Probe"
    file.write_text("{}", encoding="utf-8")
    press(qtbot, dialog, "import")
    assert "given.json is not a part" in dialog.fault.text()


def test_a_wrong_entry_stays_and_the_file_keeps_what_it_had(qtbot, shelf, dialog):
    press(qtbot, dialog, "keep")
    enter(qtbot, dialog.fields.entries["title"], "Ember")
    enter(qtbot, dialog.fields.entries["mass_g"], "-3")
    assert dialog.fields.entries["mass_g"].text() == "-3"
    assert "Mass takes 0 to" in dialog.fields.fault.text()
    enter(qtbot, dialog.fields.entries["title"], " ")
    assert dialog.fields.fault.text() == "Title must not be empty."
    assert titles(shelf) == ["Ember"]


@pytest.mark.parametrize(
    ("code", "price", "area"), [("en", "4.2", "41.5 cm²"), ("de", "4,2", "41,5 cm²")]
)
def test_a_field_shows_what_was_taken(qtbot, shelf, dialog, request, code, price, area):
    request.addfinalizer(lambda: set_language("en"))
    set_language(code)
    press(qtbot, dialog, "keep")
    entries = dialog.fields.entries
    for key, text in (("price", price), ("area_cm2", area.split()[0]), ("mass_g", "12")):
        type_and_tab(qtbot, entries[key], text)
    assert [entries[k].text() for k in ("price", "area_cm2", "mass_g")] == [price, area, "12 g"]
    type_and_tab(qtbot, entries["price"], "5")
    assert entries["price"].text() == "5"
    (part,) = shelf.stores()
    assert (part.price, part.area_cm2, part.mass_g) == (5.0, 41.5, 12.0)


def test_the_sentence_of_a_refused_price_stays_as_long_as_its_mark(qtbot, shelf, dialog):
    press(qtbot, dialog, "keep")
    press(qtbot, dialog, "duplicate")
    entries = dialog.fields.entries
    type_and_tab(qtbot, entries["price"], "abc")
    type_and_tab(qtbot, entries["currency"], "EUR")
    assert entries["price"].at_fault
    assert '"abc" does not begin with a number' in dialog.fields.fault.text()
    type_and_tab(qtbot, entries["title"], " ")
    assert dialog.fields.fault.text() == "Title must not be empty."
    type_and_tab(qtbot, entries["title"], dialog.chosen.part.title)
    assert not entries["title"].at_fault
    assert '"abc" does not begin with a number' in dialog.fields.fault.text()
    dialog.list.setCurrentRow(1 - dialog.list.currentRow())
    assert (entries["price"].text(), entries["price"].at_fault) == ("", False)
    assert dialog.fields.fault.text() == ""


def test_a_damaged_file_is_told_of_and_can_be_deleted(qtbot, shelf, dialog, monkeypatch):
    shelf.folder.mkdir()
    (shelf.folder / "broken.json").write_text("{", encoding="utf-8")
    dialog.begin("panel")
    assert "ends too early" in dialog.said.text()
    assert not dialog.buttons["take"].isEnabled()
    monkeypatch.setattr(messages, "ask_delete", lambda *_: True)
    press(qtbot, dialog, "delete")
    assert shelf.kept() == ()


def test_the_window_opens_the_shelf_beside_each_section(qtbot, qapp, tmp_path):
    window = build_window(qapp, tmp_path / "settings.ini")
    qtbot.addWidget(window)
    window.show()
    window.knobs.folds[2].set_open(True)
    line = window.knobs.findChild(PartLine, "store.part")
    assert line.said.text() == "No part of your own."
    qtbot.mouseClick(line.button, Qt.MouseButton.LeftButton)
    (dialog,) = window.findChildren(PartsDialog)
    assert (dialog.isVisible(), dialog.kind) == (True, "store")
    press(qtbot, dialog, "keep")
    assert len(list((tmp_path / "parts").glob("*.json"))) == 1
    press(qtbot, dialog, "take")
    assert line.said.text().startswith("Part: Store of")
    window.document.edit("store.esr_ohm", 0.07)
    assert line.said.text().endswith("changed since it was taken.")
    window.document.undo_stack.setClean()


def test_a_part_that_is_dropped_on_a_window_goes_to_the_shelf(qtbot, qapp, tmp_path):
    file = tmp_path / "given.json"
    save_part(file, part_from("store", CellStore(), title="Hearth 40"))
    windows = build_windows(qapp, tmp_path / "settings" / "settings.ini")
    window = windows.add()
    qtbot.addWidget(window)
    window.findChild(FileDrop).dropped.emit([file])
    (dialog,) = window.findChildren(PartsDialog)
    assert dialog.chosen.part.title == "Hearth 40"
    assert window.document.is_clean
    assert load_part(tmp_path / "settings" / "parts" / "hearth-40.json").title == "Hearth 40"
    window.close()
