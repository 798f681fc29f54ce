"""Whatever a person or a stranger wrote is shown as it is written, never as a page."""

import pytest
from PySide6 import QtGui
from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QMessageBox, QWidget

from explorer import app
from explorer.files.scenario_json import save_scenario
from explorer.files.trust import TRUST, OutsideFile
from explorer.scenario.model import Scenario, with_value, with_values
from explorer.state.jobs import JobRunner
from explorer.widgets import messages
from tests.sharing import cases_are_shared  # noqa: F401

PAGE = "<b>x</b><img src=y>"


@pytest.fixture
def windows(qtbot, qapp, tmp_path, monkeypatch):
    """The windows of the program; no question is put, as answers would come after the look."""
    monkeypatch.setattr(JobRunner, "ask", lambda *_: None)
    found = app.build_windows(qapp, tmp_path / "settings.ini")
    found.add().show()
    yield found
    for window in tuple(found.open):
        window.document.undo_stack.setClean()
        window.close_unasked()
    qtbot.waitUntil(lambda: not found.leaving, timeout=30_000)
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def read_as_pages(root):
    """Texts with marks of a page in them that Qt would take for one."""
    found = []
    for label in root.findChildren(QLabel):
        rich = label.textFormat() == Qt.TextFormat.RichText
        guesses = label.textFormat() == Qt.TextFormat.AutoText
        if PAGE in label.text() and (rich or (guesses and QtGui.Qt.mightBeRichText(label.text()))):
            found.append((type(label.parent().parent()).__name__, label.objectName(), label.text()))
    for part in [root, *root.findChildren(QWidget), *root.findChildren(QAction)]:
        if PAGE in part.toolTip() and QtGui.Qt.mightBeRichText(part.toolTip()):
            found.append((part.__class__.__name__, part.objectName(), part.toolTip()))
    return found


def test_no_part_of_the_window_takes_a_name_for_a_page(qtbot, windows, tmp_path):
    window = windows.open[0]
    origin = {"title": PAGE, "source": PAGE, "fingerprint": PAGE}
    scenario = with_values(
        Scenario(),
        {
            "title": PAGE, "place": PAGE, "notes": PAGE, "load.operations.0.name": PAGE,
            "load.operations.0.phases.0.name": PAGE, "load.part": origin, "store.part": origin,
            "panels.part": origin, "charger.part": origin,
        },
    )  # fmt: skip
    place = tmp_path / "<b>x<b>.json"
    save_scenario(place, scenario)
    assert window.open_path(place)
    window.begin()
    _ = window.trace
    for fold in window.knobs.folds:
        fold.set_open(True)
    for key in window.drawers.buttons:
        window.drawers.open(key)
    QApplication.processEvents()
    assert read_as_pages(window) == []


def test_a_message_takes_no_name_for_a_page(qtbot):
    seen = []

    def look():
        box = QApplication.activeModalWidget()
        text = "".join(label.text() for label in box.findChildren(QLabel))
        seen.append((PAGE in text, read_as_pages(box)))
        box.reject()

    for show in (
        lambda: messages.tell(None, "x", PAGE),
        lambda: messages.ask_save(None, PAGE),
        lambda: messages.ask_restore(None, [PAGE]),
        lambda: messages.ask_delete(None, PAGE),
    ):
        QTimer.singleShot(0, look)
        show()
    assert seen == [(True, [])] * 4


def test_a_log_from_elsewhere_is_asked_about_first(qtbot, windows, tmp_path, monkeypatch):
    (tmp_path / "in").mkdir()
    log = tmp_path / "out.csv"
    log.write_text("time_s,lux\n0,100\n900,200\n1800,0\n", encoding="utf-8")
    pattern = {"kind": "log", "file": "../out.csv"}
    save_scenario(tmp_path / "in" / "s.json", with_value(Scenario(), "light.pattern", pattern))
    window, answers, asked = windows.open[0], ["cancel", "read"], []

    def answer():
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        asked.append(box.text())
        wanted = "Read it" if answers.pop(0) == "read" else "Cancel"
        next(b for b in box.findChildren(QAbstractButton) if b.text() == wanted).click()

    before = window.document.scenario
    QTimer.singleShot(0, answer)
    assert not window.open_path(tmp_path / "in" / "s.json")
    assert window.document.scenario == before
    QTimer.singleShot(0, answer)
    monkeypatch.setattr(TRUST, "_allowed", set())
    assert window.open_path(tmp_path / "in" / "s.json")
    assert window.document.log.readings == 3
    assert all(str(log) in text for text in asked)
    TRUST._allowed.clear()
    with pytest.raises(OutsideFile):
        window.document.open(tmp_path / "in" / "s.json")
