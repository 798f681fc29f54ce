"""The menu entry that writes a sheet: it asks where, works aside, and says what came of it."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog, QMenu

from explorer.scenario.model import Scenario
from explorer.state import language, theme
from explorer.widgets import sheet_writer
from tests.sharing import cases_are_shared  # noqa: F401


@pytest.fixture
def ask(window, jobs, qtbot, monkeypatch):
    """Choose the menu entry and answer with a name; wait until the work is done."""

    def choose(name, kind="PDF (*.pdf)"):
        asked = []

        def answer(parent, title, suggestion, filters):
            asked.append((title, suggestion, filters))
            return str(name), kind

        monkeypatch.setattr(QFileDialog, "getSaveFileName", answer)
        window.commands["sheet"].trigger()
        qtbot.waitUntil(lambda: not jobs.busy(sheet_writer.JOB), timeout=20_000)
        return asked

    return choose


def file_menu(window):
    (menu,) = [m for m in window.findChildren(QMenu) if m.title() == "&File"]
    return menu.actions()


def test_the_entry_stands_in_the_file_menu(window):
    assert window.commands["sheet"] in file_menu(window)
    assert window.commands["sheet"].text() == "Write a re&port…"


def test_a_pdf_is_written_and_the_notice_says_where(window, ask, tmp_path):
    target = tmp_path / "sheet.pdf"
    ask(target)
    assert target.read_bytes().startswith(b"%PDF")
    assert window.notice.text.text() == f"The report was written: {target}"
    assert window.notice.isVisible()


def bar_colour(window):
    return window.notice.grab().toImage().pixelColor(9, window.notice.height() // 2)


def test_the_notice_is_red_for_a_fault_alone(window, ask, tmp_path):
    ask(tmp_path / "sheet.html")
    assert bar_colour(window) == theme.LIGHT.color("accent")
    ask(tmp_path / "none" / "sheet.html")
    assert bar_colour(window) == theme.LIGHT.color("falls_short")


def test_a_page_is_written_with_what_is_on_show(window, document, ask, tmp_path):
    document.edit("load.sleep_A", 7.5e-6)
    target = tmp_path / "sheet.html"
    ask(target)
    assert "<td>7.5 µA</td>" in target.read_text("utf-8")


@pytest.mark.parametrize(
    ("kind", "ending"), [("PDF (*.pdf)", ".pdf"), ("Web page (*.html)", ".html")]
)
def test_the_ending_is_added_where_it_is_missing(ask, tmp_path, kind, ending):
    ask(tmp_path / "sheet v1.2", kind)
    assert [p.name for p in tmp_path.glob("sheet*")] == [f"sheet v1.2{ending}"]


def test_the_name_offered_is_that_of_the_scenario(window, document, ask):
    document.restore(Scenario(title="Fern label"))
    (asked,) = ask("")
    assert Path(asked[1]).name == "Fern label.pdf"


def test_without_a_name_nothing_is_written_or_said(window, ask, tmp_path):
    before = set(tmp_path.iterdir())
    ask("")
    assert set(tmp_path.iterdir()) == before
    assert not window.notice.isVisible()


def test_a_place_that_cannot_be_written_is_told_in_a_sentence(window, ask, tmp_path, caplog):
    target = tmp_path / "none" / "sheet.pdf"
    ask(target)
    said = window.notice.text.text()
    assert said.startswith("The report was not written. ")
    assert f"there is no folder {target.parent}" in said


def test_the_sheet_is_in_the_language_on_show(window, ask, tmp_path):
    language.set_language("de")
    try:
        target = tmp_path / "sheet.html"
        ask(target)
    finally:
        language.set_language("en")
    text = target.read_text("utf-8")
    assert '<html lang="de">' in text
    assert "Sechs Prüfungen" in text
    assert "Nicht enthalten" in text
    assert "Teilabschattung" in text, "from the model note in German"
    assert "Six checks" not in text


def test_a_job_of_another_kind_is_not_spoken_of(window):
    window.jobs.done.emit("another", Path("x"))
    window.jobs.failed.emit("another", "no")
    assert not window.notice.isVisible()
