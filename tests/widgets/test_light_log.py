"""A light log is taken by file or drop, shown as it is read, scaled only where that is visible."""

import pytest
from PySide6.QtCore import Qt

from explorer.files import logs
from explorer.scenario.light import LogPattern
from explorer.state.knobs import measured_level
from explorer.widgets import log_progress
from explorer.widgets.light_log_note import LightLogNote
from explorer.widgets.log_level import LogLevel
from tests.sharing import cases_are_shared  # noqa: F401

# Day and month could be taken either way; 4 lx are read at night, one reading is missing.
HOURS = [(day, hour) for day in (1, 2, 3) for hour in range(24) if (day, hour) != (2, 6)]
DESK = "time,lux\n" + "".join(
    f"0{day}/04/2024 {hour}:00,{204 if 8 <= hour < 18 else 4}\n" for day, hour in HOURS
)


@pytest.fixture
def desk(tmp_path):
    path = tmp_path / "desk.csv"
    path.write_text(DESK, encoding="utf-8")
    return path


@pytest.fixture
def note(window, qtbot):
    window.knobs.folds[0].set_open(True)
    found = window.knobs.findChild(LightLogNote)
    assert found is not None
    return found


def click(qtbot, button):
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def taken(window, qtbot, path):
    """The design after the log was shown, its dates were told, and it was used."""
    window.knobs.logs.show_file(path)
    dialog = window.knobs.logs.dialog
    choice = next(b for _, told, b in dialog.choices if told == "dmy")
    click(qtbot, choice)
    click(qtbot, dialog.use_button)
    return window.document.scenario.light


def test_a_file_that_leaves_something_open_cannot_be_used_until_told(window, qtbot, desk):
    window.knobs.logs.show_file(desk)
    dialog = window.knobs.logs.dialog
    assert not dialog.use_button.isEnabled()
    assert "nothing in it tells which of the numbers" in dialog.said.text()
    assert [b.text() for _, _, b in dialog.choices] == [
        "01/04/2024 is 2024-04-01",
        "01/04/2024 is 2024-01-04",
    ]
    first = [dialog.table.item(0, column) for column in range(dialog.table.columnCount())]
    assert first == []
    click(qtbot, dialog.choices[0][2])
    assert [dialog.table.item(0, n).text() for n in range(3)] == [
        "2", "2024-04-01 00:00:00", "4 lx",
    ]  # fmt: skip
    click(qtbot, dialog.choices[1][2])
    assert dialog.table.item(0, 1).text() == "2024-01-04 00:00:00"
    dialog.reject()
    assert not isinstance(window.document.scenario.light.pattern, LogPattern)


def test_a_log_that_is_taken_counts_as_measured_and_goes_in_one_step(window, qtbot, desk):
    before = window.document.scenario
    light = taken(window, qtbot, desk)
    assert light.illuminance_lx is None
    assert light.pattern.dates == "dmy"
    assert window.document.log.readings == len(HOURS)
    window.document.undo_stack.undo()
    assert window.document.scenario == before


def test_what_was_found_is_said_and_an_offset_goes_by_a_click(window, qtbot, desk, note):
    taken(window, qtbot, desk)
    assert "71 readings from 2024-04-01 00:00" in note.said.text().replace("\u00a0", " ")
    assert "1 short gaps" in note.said.text().replace("\u00a0", " ")
    assert note.offset_button.text() == "Take 4 lx off"
    click(qtbot, note.offset_button)
    assert window.document.scenario.light.pattern.offset_lx == 4.0
    assert window.document.log.mean_lit_lx == 200.0
    assert not note.offset_button.isVisible()


def test_a_scale_in_force_is_shown_at_knob_form_and_cursor(window, qtbot, desk, note, solver):
    level = window.knobs.findChild(LogLevel)
    assert not level.isVisible()
    taken(window, qtbot, desk)
    assert level.isVisible()
    assert level.box.isChecked()
    assert level.scale.text() == ""
    window.knobs.rows[0].edited.emit(2.0 * measured_level(window.document.case))
    assert not level.box.isChecked()
    assert level.scale.text() == "× 2"
    assert "(× 2)" in note.said.text().replace("\u00a0", " ")
    solver.solve_now()
    window.trace.plot.set_cursor(12 * 3600.0)
    assert "light (× 2)" in [line.label for line in window.trace.plot.cursor_lines()]
    click(qtbot, level.box)
    assert window.document.scenario.light.illuminance_lx is None
    assert level.scale.text() == ""


def test_the_reading_of_a_large_log_shows_how_far_it_is_and_can_be_stopped(
    window, qtbot, desk, monkeypatch
):
    progress = window.document.progress
    told = []

    def slow_read(*_):
        """Reads part by part, as from a large file."""
        for share in (0.2, 0.4, 0.6):
            progress(share)
            told.append((progress.dialog.value(), progress.dialog.isVisible()))
            if share == 0.4:
                progress.dialog.cancel()
        raise AssertionError("it went on")

    monkeypatch.setattr(logs, "read_light_log", slow_read)
    monkeypatch.setattr(log_progress, "PATIENCE_MS", 0)
    before = window.document.scenario
    heard = []
    window.document.refused.connect(heard.append)
    taken(window, qtbot, desk)
    assert told == [(200, True), (400, True)]
    assert heard == ["The reading of the light log was stopped."]
    assert window.document.scenario == before
    assert progress.dialog is None
