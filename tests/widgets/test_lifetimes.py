"""What is opened and closed, shown and hidden, over and over, leaves nothing behind."""

import gc
from collections import Counter

import pytest
import shiboken6
from PySide6.QtCore import QEvent
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication

from explorer import app
from explorer.state.jobs import JobRunner
from explorer.state.language import set_language
from explorer.state.settings import SettingsStore
from explorer.widgets import spoken
from explorer.widgets.drawers.drawers import QUESTIONS
from explorer.widgets.plots.pulse_inset import PulseInset
from tests.depth import THOROUGH

ROUNDS = 5 if THOROUGH else 3


@pytest.fixture
def windows(qapp, tmp_path, monkeypatch):
    """The windows of the program, one of them open, which get no answers from elsewhere."""
    monkeypatch.setattr(JobRunner, "_take", lambda runner, task: None)
    store = SettingsStore(tmp_path / "settings.ini")
    store.update(tour_seen=True, theme="light", language="en")
    made = app.build_windows(qapp, tmp_path / "settings.ini", settings=store)
    first = made.add()
    app.open_first(first, None)
    first.show()
    yield made
    set_language("en")
    for window in tuple(made.open):
        window.close_unasked()
    settled(made)
    made.deleteLater()


def settled(windows):
    """Let everything that closes be gone."""
    for _ in range(5):
        QApplication.processEvents()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
        windows._let_go()


def window_comes_and_goes(windows):
    further = windows.add(windows.open[0])
    further.begin()
    further.show()
    settled(windows)
    further.close_unasked()


def language_changes(windows):
    for code in ("de", "en"):
        menu = windows.open[0].menus.languages
        next(action for action in menu.actions() if action.data() == code).trigger()
        settled(windows)


def themes_change(windows):
    for choice in ("dark", "contrast", "light"):
        windows.open[0].apply_theme(choice)
        settled(windows)


def drawers_open_and_close(windows):
    for key in (*QUESTIONS, QUESTIONS[-1]):
        windows.open[0].drawers.toggle(key)
        settled(windows)


def held():
    """How many objects there are of each type of the program and of Qt."""
    kinds = (type(thing) for thing in gc.get_objects())
    return Counter(
        f"{kind.__module__}.{kind.__qualname__}" for kind in kinds
        if str(kind.__module__).startswith(("explorer", "PySide6", "pyqtgraph"))
        and not issubclass(kind, spoken.Spoken)  # the binding keeps these
    )  # fmt: skip


@pytest.mark.alone
def test_windows_languages_themes_and_drawers_leave_no_object(windows):
    spoken.install()
    for does in (
        window_comes_and_goes, language_changes, themes_change, drawers_open_and_close,
    ):  # fmt: skip
        for _ in range(2):  # what is made once is made
            does(windows)
            settled(windows)
        gc.collect()
        before = held()
        for _ in range(ROUNDS):
            does(windows)
            settled(windows)
        gc.collect()
        more = {kind: n for kind, n in (held() - before).items() if n >= ROUNDS}
        assert not more, (does.__name__, more)


def test_a_theme_that_comes_back_has_the_palette_of_before(windows, qapp):
    """Qt keeps every icon that was painted, by the palette of then."""
    windows.open[0].apply_theme("light")
    before = qapp.palette().cacheKey()
    windows.open[0].apply_theme("dark")
    assert qapp.palette().cacheKey() != before
    windows.open[0].apply_theme("light")
    assert qapp.palette().cacheKey() == before


def test_a_further_window_dresses_no_other_one_anew(windows, qapp):
    before = shiboken6.getCppPointer(qapp.style())
    windows.add(windows.open[0])
    assert shiboken6.getCppPointer(qapp.style()) == before


def test_what_describes_a_widget_has_nothing_of_its_own(qapp):
    """The binding never lets go of it."""
    spoken.install()
    inset = PulseInset()
    found = QAccessible.queryAccessibleInterface(inset)
    assert isinstance(found, spoken.Spoken)
    assert not vars(found)
    inset.deleteLater()
