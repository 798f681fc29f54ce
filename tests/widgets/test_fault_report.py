"""A fault that nobody foresaw, wherever it happens, is told once, logged, and ends nothing."""

import logging
import sys
import threading

import pytest
from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QMessageBox, QPushButton, QWidget

from explorer.state.log_file import MOST_BYTES, LogFile
from explorer.widgets import messages
from explorer.widgets.fault_report import FaultReport


class Faulty(QWidget):
    """Fails in whatever way it is asked to."""

    def __init__(self):
        super().__init__()
        self.fails_in = ""

    def _fail(self, where):
        if self.fails_in == where:
            raise ValueError(f"a wire came off in {where}")

    def paintEvent(self, event):
        self._fail("paint")

    def keyPressEvent(self, event):
        self._fail("key")

    def event(self, event):
        if event.type() == QEvent.Type.User:
            self._fail("event")
        return super().event(event)

    def slot(self):
        self._fail("slot")


@pytest.fixture
def told(monkeypatch):
    heard = []
    monkeypatch.setattr(messages, "tell_fault", lambda *args: heard.append(args))
    return heard


@pytest.fixture
def report(qapp, told):
    made = FaultReport(lambda: None, "1.2.3")
    made.install()
    yield made
    made.remove()


def provoke(qapp, widget, where):
    widget.fails_in = where
    if where == "paint":
        widget.update()
    elif where == "key":
        QTimer.singleShot(0, widget, lambda: QApplication.sendEvent(widget, key()))
    elif where == "event":
        QApplication.postEvent(widget, QEvent(QEvent.Type.User))
    elif where == "slot":
        QTimer.singleShot(0, widget, widget.slot)
    else:
        def fail():
            raise ValueError("a wire came off in thread")

        threading.Thread(target=fail).start()


def key():
    from PySide6.QtGui import QKeyEvent

    return QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_A, Qt.KeyboardModifier.NoModifier)


@pytest.mark.parametrize("where", ["paint", "key", "event", "slot", "thread"])
def test_a_fault_anywhere_reaches_the_dialog(qtbot, qapp, report, told, caplog, where):
    widget = Faulty()
    qtbot.addWidget(widget)
    widget.show()
    qtbot.waitExposed(widget)
    provoke(qapp, widget, where)
    qtbot.waitUntil(lambda: told != [], timeout=5000)
    widget.fails_in = ""
    ((_, text, details, _),) = told
    assert f"a wire came off in {where}" in text
    assert "Gloaming 1.2.3, Python 3" in details
    assert "Traceback" in details
    assert "a wire came off" in caplog.text


def test_it_is_told_once_and_always_logged(qapp, report, told, caplog):
    for _ in range(3):
        report.report(ValueError, ValueError("a wire came off"), None)
    assert told == []  # never from within, where a window may be painting
    qapp.processEvents()
    assert len(told) == 1
    assert caplog.text.count("ValueError: a wire came off") == 3


def test_ctrl_c_is_no_fault(report, told, qapp, monkeypatch):
    passed = []
    monkeypatch.setattr(sys, "__excepthook__", lambda *args: passed.append(args))
    report.report(KeyboardInterrupt, KeyboardInterrupt(), None)
    qapp.processEvents()
    assert (told, len(passed)) == ([], 1)


def test_the_details_can_be_copied_and_the_dialog_stays(qtbot, qapp, tmp_path):
    seen = []

    def look():
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        copy = next(b for b in box.findChildren(QPushButton) if b.text() == "Copy details")
        qtbot.mouseClick(copy, Qt.MouseButton.LeftButton)
        seen.append((box.isVisible(), box.text(), box.textFormat(), box.informativeText()))
        box.close()

    QTimer.singleShot(0, look)
    messages.tell_fault(None, "<b>Fern</b>", "the\x1b[2J details", tmp_path / "gloaming.log")
    assert seen[0][:3] == (True, "<b>Fern</b>", Qt.TextFormat.PlainText)
    assert "gloaming.log" in seen[0][3]
    assert QGuiApplication.clipboard().text() == "the\x1b[2J details"


def test_the_log_is_kept_small_and_readable(tmp_path):
    log = LogFile(tmp_path / "data")
    for number in range(40):
        logging.getLogger("explorer").warning("\x1b[2J%d %s", number, "x" * 40_000)
    log.close()
    files = sorted((tmp_path / "data").iterdir())
    assert [file.name for file in files] == ["gloaming.log", "gloaming.log.1", "gloaming.log.2"]
    assert all(file.stat().st_size < MOST_BYTES + 50_000 for file in files)
    text = files[0].read_text(encoding="utf-8")
    assert "39 xxx" in text
    assert "\x1b" not in text


def test_a_log_that_cannot_be_written_is_done_without(tmp_path):
    (tmp_path / "data").write_text("", encoding="utf-8")
    log = LogFile(tmp_path / "data")
    logging.getLogger("explorer").warning("heard by nobody")
    log.close()
    assert log.path is None
