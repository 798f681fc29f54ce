"""The window in a disguise: what a person can read of it goes through the translation."""

import re

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QFileDialog, QMessageBox

from explorer.files.shelf import Shelf
from explorer.resource_files import resource_path
from explorer.scenario.demand import Operation, Phase
from explorer.scenario.light import SteadyPattern, WeekPattern
from explorer.scenario.model import FORMAT, Scenario, with_value
from explorer.scenario.part import part_from
from explorer.scenario.storage import CapacitorStore, CellStore
from explorer.scenario.supply import DirectCharger, SheetPoint
from explorer.state import language
from explorer.state.tour import STEPS
from explorer.widgets import messages
from explorer.widgets.exact_field import ExactField
from explorer.widgets.guide.guide_dialog import GuideDialog
from explorer.widgets.help.help_window import PAGES
from explorer.widgets.help.quantities import entries
from explorer.widgets.parts.parts_dialog import PartsDialog
from explorer.widgets.sheet.sheet_dialog import SheetDialog
from explorer.words.part import KIND_TITLES
from tests import pseudo
from tests.sharing import cases_are_shared  # noqa: F401

TITLE = "Zwergstation"
OWN = frozenset({TITLE, "Nordwand", "Funken"})
"""Title, place and operation of the scenario, which are the person's own words."""
QT = frozenset({"Save", "Discard", "Cancel", "Close", "Exit"})
"""Buttons and keys that Qt names, in the language of its own translation."""
PER_MONTH = frozenset({"month"})
"""Of the unit 1/month."""
LANGUAGES = frozenset(language.NAMES.values())
"""Each has its own name in every language."""
FROM_FILES = frozenset({"model_note", "sources", "stand", "licences"})
"""Pages that are files: one for each language, or in the words of those who gave a licence."""


@pytest.fixture(autouse=True)
def disguised(themed, monkeypatch):
    """Before any widget is made."""
    pseudo.use(monkeypatch)


@pytest.fixture
def scenario():
    work = Operation(name="Funken", phases=(Phase(name="Funken", current_A=0.03),))
    start = Scenario(title=TITLE, place="Nordwand")
    for path, value in (
        ("load.operations", (work, Operation(name="", phases=work.phases))),
        ("load.start_up", work.phases),
    ):
        start = with_value(start, path, value)
    return start


@pytest.fixture
def painted(monkeypatch):
    return pseudo.painted(monkeypatch)


def in_english(texts, own=OWN):
    return {text for text in texts if pseudo.is_forgotten(text, own)}


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {
            "store": CellStore(capacity_mAh=5.0), "charger.full_V": 4.15,  # quick to fill
            "light.pattern": SteadyPattern(),
        },
        {"store": CapacitorStore(), "charger": DirectCharger(), "load.operations": ()},
        {"charger.full_V": 5.5, "load.actuator": "door_lock", "load.start_up": ()},
    ],
)
def test_the_window_with_all_its_folds(window, document, solver, scenario, painted, changes):
    for path, value in changes.items():
        scenario = with_value(scenario, path, value)
    document.new(scenario)
    solver.solve_now()
    for fold in window.knobs.folds:
        fold.set_open(True)
    window.sign.rows[2].click()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    assert window.trace.isVisible()
    assert pseudo.forgotten(window, own=OWN | PER_MONTH | QT | LANGUAGES) == []
    window.grab()
    assert painted
    assert not in_english(painted)


def test_menus_and_actions(window):
    window.menus.recent.aboutToShow.emit()
    assert pseudo.forgotten(window.menuBar(), own=LANGUAGES) == []
    for action in window.commands.values():
        shown = (action.text(), action.toolTip(), action.iconText())
        assert not in_english(shown, QT), action.objectName()


def test_the_name_in_the_title_of_the_window(window, document, tmp_path):
    assert not in_english([window.windowTitle()])
    document.save(tmp_path / "Zwergstation.json")
    assert window.windowTitle() == "Zwergstation.json[*] – жжжжжжжж"


def test_the_knobs_keep_their_keys_for_alt(window):
    assert all("&" in row.label.text() for row in window.knobs.rows)


def test_a_refused_value_and_a_damaged_file(qtbot, window, said, tmp_path):
    damaged = tmp_path / "damaged.json"
    damaged.write_text("{", encoding="utf-8")
    assert not window.open_path(damaged)
    field = window.knobs.rows[1].field
    for text in ("65", "2,5", "viele"):
        field.setFocus()
        field.selectAll()
        qtbot.keyClicks(field, text)
        qtbot.keyClick(field, Qt.Key.Key_Return)
        shown = window.knobs.rows[1].fault.text()
        assert shown
        assert not in_english([shown.replace("viele", "")])
        qtbot.keyClick(field, Qt.Key.Key_Escape)
    (title, sentence), = said
    assert not in_english([language.tr(title)])
    assert not in_english([language.tr(sentence).replace("damaged.json", "")])


@pytest.mark.parametrize("unit", sorted({entry.unit for entry in entries().values()}))
@pytest.mark.parametrize("value", [0.25, 1.5, 40.0, 1234.5, 250_000.0])
def test_a_field_shows_the_mark_of_the_language_and_takes_what_it_shows(qtbot, unit, value):
    field = ExactField(unit)
    qtbot.addWidget(field)
    field.set_value(value)
    assert "." not in field.text()
    field.setModified(True)
    with qtbot.waitSignal(field.entered) as taken:
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert taken.args == [pytest.approx(value, rel=1e-5)]
    assert pseudo.forgotten(field, own=PER_MONTH) == []


def test_the_guide_on_all_its_pages(qtbot, jobs, painted):
    guide = GuideDialog(jobs)
    qtbot.addWidget(guide)
    guide.begin()
    for page in guide.pages:
        assert pseudo.forgotten(guide) == []
        given = 2 if page.question.key in ("often", "matters") else 0  # quicker to search
        page.set_answer(page.question.choices[given].key)
        guide.grab()
        guide.on_forward()
    assert pseudo.forgotten(guide) == []
    qtbot.waitUntil(lambda: guide.found is not None, timeout=20_000)
    assert pseudo.forgotten(guide) == []
    guide.grab()
    guide.outcome.show_failure("Schluss")
    assert pseudo.forgotten(guide, own=frozenset({"Schluss"})) == []
    assert painted
    assert not in_english(painted)


def test_all_of_the_help(window, document, scenario):
    document.new(scenario)
    for key, _ in PAGES:
        if key in FROM_FILES:
            continue
        window.assistance.open_page(key)
        shown = window.assistance._help.view.toPlainText()
        if key == "about":  # libraries and their licences have one name everywhere
            shown, libraries, _ = shown.rpartition(f"\n{language.tr('Libraries')}\n")
            assert libraries
        assert not in_english([shown], PER_MONTH | QT | {*FORMAT.split("-")}), key
    window.assistance.open_page("quantities")
    assert pseudo.forgotten(window.assistance._help, own=PER_MONTH) == []


def test_the_pane_that_explains(window, document, scenario):
    pane = window.assistance.pane
    assert pseudo.forgotten(pane) == []
    for entry in entries().values():
        pane.show_entry(entry)
        assert pseudo.forgotten(pane, own=PER_MONTH) == []
    pane.show_idea("dark")
    assert pseudo.forgotten(pane) == []
    window.knobs.folds[2].set_open(True)
    for store in (CapacitorStore(), CellStore()):
        document.edit("store", store)
        part, line = (window.knobs.folds[2].content.layout().itemAt(i).widget() for i in (0, 1))
        assert pseudo.forgotten(part) == []
        assert pseudo.forgotten(line) == []
        pane.show_cautions(line.found)
        assert pseudo.forgotten(pane) == []


def test_the_shelf_of_parts_and_the_data_sheet(qtbot, document, tmp_path):
    own = frozenset({"Herd", "EUR", "kaputt", "json"})
    shelf = Shelf(tmp_path)
    shelf.add(part_from("store", CellStore(), title="Herd", price=4.5, currency="EUR"))
    (tmp_path / "kaputt.json").write_text("{", encoding="utf-8")
    parts = PartsDialog(document, shelf)
    qtbot.addWidget(parts)
    for kind in KIND_TITLES:
        parts.begin(kind)
        assert pseudo.forgotten(parts, own=own) == []
    parts.begin("store")
    parts.on_take()
    assert pseudo.forgotten(parts, own=own) == []
    point = {"illuminance_lx": 200.0, "short_circuit_A": 2e-5, "open_circuit_V": 4.0}
    document.edit("panels.data_sheet", (SheetPoint(**point),))
    sheet = SheetDialog(document)
    qtbot.addWidget(sheet)
    sheet.show()
    assert pseudo.forgotten(sheet) == []
    row = sheet.table.rows[0]
    row.cells["max_power_V"].entered.emit(5.0)
    assert pseudo.forgotten(sheet) == []
    row.cells["max_power_A"].entered.emit(1e-5)
    assert pseudo.forgotten(sheet) == []


def test_every_step_of_the_tour(qtbot, window):
    window.assistance.start_tour()
    overlay = window.assistance.overlay
    for _ in STEPS:
        assert pseudo.forgotten(overlay) == []
        qtbot.keyClick(overlay, Qt.Key.Key_Right)


def test_questions_and_file_dialogs(qapp, monkeypatch, tmp_path):
    boxes, dialogs = [], []

    def look(box):
        boxes.append(box)
        own = QT | {TITLE, "json", "Heft"}
        assert pseudo.forgotten(box, own=own) == []
        assert not in_english([box.text(), box.informativeText(), box.windowTitle()], own)
        return QMessageBox.StandardButton.Cancel

    def pick(_, title, folder, filters):
        dialogs.append(folder)
        assert not in_english([title, filters], frozenset({"json"}))
        return "", ""

    monkeypatch.setattr(QMessageBox, "exec", look)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", pick)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", pick)
    messages.tell(None, language.say("Nothing was exported"), "Heft")
    messages.ask_save(None, TITLE)
    messages.ask_restore(None, [TITLE] * 9)
    messages.ask_replace_older(None, tmp_path / "Heft.json", 1)
    messages.pick_open(None, "here")
    messages.pick_save(None, "there")
    assert len(boxes) == 4
    assert dialogs == ["here", "there"]
    boxes.clear()


@pytest.mark.parametrize(
    ("page", "file"), [("model_note", "help/model-note.de.md"), ("sources", "README.de.md")]
)
def test_pages_from_files_come_in_the_language_on_show(window, page, file):
    window.assistance.open_page(page)
    shown = window.assistance._help.view.toPlainText()
    translated = resource_path(*file.split("/")).read_text(encoding="utf-8")
    assert translated.splitlines()[0].lstrip("# ") in shown


def test_the_sources_are_the_same_in_german():
    english, german = (
        resource_path(name).read_text(encoding="utf-8") for name in ("README.md", "README.de.md")
    )
    for pattern in (r"`[a-z_0-9/]+\.\w+`", r"\d+(?:[.,]\d+)*", r"^#+|^\|", r"BSD-3-Clause|CC BY"):
        found = [re.findall(pattern, text.replace(",", "."), re.M) for text in (english, german)]
        assert sorted(found[0]) == sorted(found[1]), pattern


def test_native_names_of_keys_stand_in_the_tooltips(window):
    native = QKeySequence("Ctrl+G").toString(QKeySequence.SequenceFormat.NativeText)
    assert window.commands["guide"].toolTip().endswith(f"({native})")


def test_hours_of_a_week_are_named_in_the_language(window, document):
    document.edit("light.pattern", WeekPattern())
    window.knobs.folds[0].set_open(True)
    buttons = window.knobs.folds[0].content.findChildren(type(window.knobs.folds[0].button))
    assert "жж" in [button.text() for button in buttons]
