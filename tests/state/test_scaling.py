"""The size of everything follows a very large screen, until somebody chooses one."""

import pytest
from PySide6.QtCore import QSize

from explorer.state import scaling
from explorer.state.settings import SettingsStore


@pytest.fixture
def store(tmp_path, monkeypatch):
    monkeypatch.delenv(scaling.VARIABLE, raising=False)
    monkeypatch.setenv(scaling.VARIABLE, "1")
    monkeypatch.delenv(scaling.VARIABLE)  # restored, whatever a test sets
    return SettingsStore(tmp_path / "settings.ini")


def test_a_screen_of_4k_that_nothing_enlarges_gets_larger_letters_at_once_and_from_then_on(
    store, tmp_path
):
    assert scaling.set_scale(store)
    assert scaling.look_at_screen(store, QSize(3840, 2160), 1.0)
    again = SettingsStore(tmp_path / "settings.ini")
    assert scaling.in_force(again) == 150
    # The next start sees its own factor, and asks for nothing else.
    assert not scaling.look_at_screen(again, QSize(2560, 1440), 1.5)
    # Back on a smaller screen, the size is the usual one again.
    assert scaling.look_at_screen(again, QSize(1280, 720), 1.5)
    assert scaling.in_force(again) == 100


@pytest.mark.parametrize(
    ("size", "ratio", "percent"),
    [((3840, 2160), 1.0, 150), ((1920, 1080), 2.0, 100), ((2560, 1440), 1.0, 100),
     ((3440, 1440), 1.0, 100), ((5120, 2880), 1.0, 200), ((1366, 768), 1.0, 100)],
)  # fmt: skip
def test_what_a_screen_asks_for(size, ratio, percent):
    assert scaling.asked_percent(QSize(*size), ratio) == percent


def test_a_chosen_size_stays_whatever_the_screen(store):
    store.update(scale_percent=100)
    assert not scaling.look_at_screen(store, QSize(3840, 2160), 1.0)
    assert scaling.in_force(store) == 100


def test_a_factor_of_the_desktop_is_left_alone(store, monkeypatch):
    monkeypatch.setenv(scaling.VARIABLE, "2")
    assert not scaling.set_scale(store)
