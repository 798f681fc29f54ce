"""The guide asks, answers and opens what it found."""

import itertools
import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton

from explorer.scenario.guide.answers import Answers
from explorer.scenario.guide.questions import QUESTIONS
from explorer.state import theme
from explorer.state.drawer_steps import guided
from explorer.widgets import messages
from explorer.widgets.guide import guide_dialog
from explorer.widgets.guide.guide_dialog import GuideDialog
from explorer.widgets.guide.question_page import QuestionPage
from tests.sharing import cases_are_shared  # noqa: F401

PICKED = {"place": "desk", "light": "usual", "job": "report_near", "often": "hour",
          "when": "always", "dark": "usual", "matters": "cheapest"}  # fmt: skip


@pytest.fixture(scope="module")
def found_before():
    return {}


@pytest.fixture(autouse=True)
def answers_are_found_once(found_before, monkeypatch):
    """What the guide finds for the same answers is the same in every test of this file."""

    def once(answers, parts_folder):
        if answers not in found_before:
            found_before[answers] = guided(answers, parts_folder)
        return found_before[answers]

    monkeypatch.setattr(guide_dialog, "guided", once)


@pytest.fixture
def guide(qtbot, jobs):
    dialog = GuideDialog(jobs)
    qtbot.addWidget(dialog)
    dialog.begin()
    return dialog


def card(page: QuestionPage, key: str):
    return next(c for c in page.cards if c.choice.key == key)


def click_through(qtbot, guide, picked=PICKED):
    for key, answer in picked.items():
        page = guide.stack.currentWidget()
        assert page.question.key == key
        qtbot.mouseClick(card(page, answer), Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: guide.found is not None, timeout=20_000)


def test_it_asks_one_question_on_a_page_with_nothing_chosen(guide):
    assert len(guide.pages) == len(QUESTIONS)
    assert guide.progress.text() == "Question 1 of 7"
    assert guide.answers is None
    assert not guide.forward.isEnabled()
    assert not guide.back.isEnabled()


def test_a_click_answers_and_goes_on(qtbot, guide):
    qtbot.mouseClick(card(guide.pages[0], "window"), Qt.MouseButton.LeftButton)
    assert guide.pages[0].answer == "window"
    assert guide.progress.text() == "Question 2 of 9"
    qtbot.mouseClick(guide.back, Qt.MouseButton.LeftButton)
    assert guide.progress.text() == "Question 1 of 9"
    assert guide.pages[0].answer == "window"


def test_a_click_a_question_leads_to_a_verdict_two_sentences_and_assumptions(qtbot, guide):
    click_through(qtbot, guide)
    assert guide.answers == Answers(**PICKED, saturday=False, sunday=False)
    found = guide.found
    page = guide.outcome
    assert page.word.text() == found.assessment.verdict.word
    said = (page.lead.text() + page.reason.text()).replace("\N{NO-BREAK SPACE}", " ")
    assert said == "".join(found.sentences)
    for line in found.assumptions:
        assert line[:20] in page.view.toPlainText()
    assert "qualified person" in page.view.toPlainText()
    assert "\u00a0lx" in page.view.document().toRawText()  # no line ends between the two
    assert guide.forward.isEnabled()
    assert guide.forward.hasFocus()


def test_it_can_be_answered_with_the_keyboard_alone(qtbot, guide):
    while guide.stack.currentWidget() is not guide.outcome:
        focused = guide.focusWidget()
        qtbot.keyClick(focused, Qt.Key.Key_Space)
        below = guide.focusWidget()
        qtbot.keyClick(below, Qt.Key.Key_Down)
        assert guide.focusWidget() is not focused
        assert guide.focusWidget().isChecked()
        qtbot.keyClick(guide.focusWidget(), Qt.Key.Key_Return)
        if guide.light.lux.hasFocus():  # "I measured it" wants its figure
            qtbot.keyClicks(guide.light.lux, "300")
            qtbot.keyClick(guide.light.lux, Qt.Key.Key_Return)
    assert guide.stack.currentWidget() is guide.outcome
    qtbot.waitUntil(lambda: guide.found is not None, timeout=20_000)
    with qtbot.waitSignal(guide.chosen):
        qtbot.keyClick(guide.focusWidget(), Qt.Key.Key_Return)


def test_walking_past_an_answer_does_not_go_on(qtbot, guide):
    qtbot.keyClick(guide.focusWidget(), Qt.Key.Key_Space)
    first = guide.pages[0].answer
    qtbot.keyClick(guide.focusWidget(), Qt.Key.Key_Down)
    assert guide.stack.currentIndex() == 0
    assert guide.pages[0].answer not in ("", first)


def test_one_answer_can_be_changed_and_the_rest_stays(qtbot, guide):
    click_through(qtbot, guide)
    before = guide.found
    qtbot.mouseClick(guide.outcome.changes["place"], Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget() is guide.pages[0]
    assert guide.forward.text() == "Show the answer"
    qtbot.mouseClick(card(guide.pages[0], "dark_corner"), Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget() is guide.outcome
    qtbot.waitUntil(lambda: guide.found is not None, timeout=20_000)
    assert guide.found.answers.place == "dark_corner"
    assert guide.found.answers.job == "report_near"
    assert guide.found.scenario != before.scenario
    assert "dark corner" in guide.outcome.changes["place"].text()


def test_a_changed_place_asks_what_it_brings_with_it(qtbot, guide):
    click_through(qtbot, guide)
    qtbot.mouseClick(guide.outcome.changes["place"], Qt.MouseButton.LeftButton)
    qtbot.mouseClick(card(guide.pages[0], "facade"), Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget().question.key == "season"
    qtbot.mouseClick(card(guide.pages[1], "winter"), Qt.MouseButton.LeftButton)
    region = guide.stack.currentWidget()
    assert region is guide.region
    qtbot.keyClicks(region.latitude, "47,5")
    qtbot.keyClick(region.latitude, Qt.Key.Key_Return)
    assert region.figures == {"latitude_deg": 47.5}
    qtbot.mouseClick(guide.forward, Qt.MouseButton.LeftButton)
    facing = guide.stack.currentWidget()
    assert facing.question.key == "facing"
    qtbot.mouseClick(card(facing, "south"), Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: guide.found is not None, timeout=20_000)
    assert (guide.found.answers.season, guide.found.answers.facing) == ("winter", "south")
    assert guide.outcome.changes["region"].text() == "Latitude: 47.5 °"
    assert not guide.outcome.changes["season"].isHidden()
    assert guide.outcome.changes["battery"].isHidden()


def typed(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_what_the_meter_read_hours_and_weekends_are_taken(qtbot, guide):
    qtbot.mouseClick(card(guide.pages[0], "corridor"), Qt.MouseButton.LeftButton)
    page = guide.light
    assert guide.stack.currentWidget() is page
    qtbot.mouseClick(card(page, "measured"), Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget() is page  # the figure is missing still
    assert page.lux.hasFocus()
    typed(qtbot, page.start, "7")
    typed(qtbot, page.end, "6")
    assert "later than it comes on" in page.fault.text()
    typed(qtbot, page.end, "21:30")
    page.saturday.click()
    typed(qtbot, page.lux, "0")
    assert "1 to 200 000 lx" in page.fault.text().replace("\u202f", " ").replace("\u00a0", " ")
    typed(qtbot, page.lux, "1,300.5 lx")
    assert guide.stack.currentWidget().question.key == "job"
    for key in ("job", "often", "when", "dark", "matters"):
        choice = card(guide.stack.currentWidget(), PICKED[key])
        qtbot.mouseClick(choice, Qt.MouseButton.LeftButton)
    light = guide.answers
    assert (light.lux, light.hours, light.saturday, light.sunday) == (
        1300.5, (7.0, 21.5), True, False,
    )  # fmt: skip
    qtbot.waitUntil(lambda: guide.found is not None, timeout=20_000)
    assert "measured by you" in guide.outcome.view.toPlainText()


def test_a_figure_of_one_place_does_not_count_at_another(qtbot, guide):
    qtbot.mouseClick(card(guide.pages[0], "corridor"), Qt.MouseButton.LeftButton)
    typed(qtbot, guide.light.lux, "120")
    assert guide.given["light"] == "measured"
    guide.pages[0].set_answer("shop")
    guide._go(guide.light)
    assert guide.given["light"] == ""
    assert guide.light.saturday.isChecked()  # shops open on Saturdays


@pytest.mark.parametrize(
    ("picked", "what"),
    [
        ({"place": "elsewhere", "light": "unknown"}, "lux meter"),
        ({"job": "other", "battery": "unknown"}, "current"),
    ],
)
def test_what_nobody_can_know_ends_in_what_to_measure(qtbot, guide, picked, what):
    wanted = PICKED | picked
    while guide.stack.currentWidget() is not guide.outcome:
        page = guide.stack.currentWidget()
        choice = card(page, wanted[page.question.key])
        qtbot.mouseClick(choice, Qt.MouseButton.LeftButton)
    assert guide.outcome.word.text() == "No answer yet"
    assert what in guide.outcome.lead.text()
    assert not guide.forward.isEnabled()


def test_the_sentence_that_would_rescue_it_is_a_button(qtbot, guide):
    click_through(qtbot, guide, PICKED | {"place": "corridor", "job": "show"})
    assert guide.found.assessment.verdict.state != "runs"
    ways = [button.text().replace("\u00a0", " ") for button in guide.outcome.ways]
    assert any(text.startswith("Show it working") for text in ways)
    qtbot.mouseClick(guide.outcome.ways[-1], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: guide.found is not None, timeout=20_000)
    assert guide.found.assessment.verdict.state == "runs"
    assert guide.outcome.ways == []
    assert "as large as" in guide.outcome.how_large.text()


def test_going_back_without_a_change_keeps_the_answer(qtbot, guide):
    click_through(qtbot, guide)
    before = guide.found
    qtbot.mouseClick(guide.outcome.changes["dark"], Qt.MouseButton.LeftButton)
    qtbot.mouseClick(guide.back, Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget() is guide.outcome
    assert guide.found is before


def test_esc_closes_and_the_answers_stay(qtbot, guide):
    qtbot.mouseClick(card(guide.pages[0], "desk"), Qt.MouseButton.LeftButton)
    qtbot.keyClick(guide, Qt.Key.Key_Escape)
    assert not guide.isVisible()
    guide.begin()
    assert guide.pages[0].answer == "desk"


def test_every_control_is_named_large_enough_and_a_radio_button_is_one(guide):
    for control in guide.findChildren(QAbstractButton):
        assert control.accessibleName() or control.text()
        assert control.minimumSizeHint().height() >= 24 or control.height() >= 24
    first = QAccessible.queryAccessibleInterface(guide.pages[0].cards[0])
    assert first.role() == QAccessible.Role.RadioButton
    assert first.text(QAccessible.Text.Description) == guide.pages[0].cards[0].choice.line


def test_empty_boxes_for_the_weekend_show_in_every_theme(guide):
    boxes = guide.light.saturday, guide.light.sunday
    for box, tokens in itertools.product(boxes, theme.ALL_TOKENS):
        box.setPalette(theme.palette_of(tokens))
        image = box.grab().toImage()
        colors = {
            image.pixelColor(x, y).name().upper()
            for x in range(20) for y in range(image.height())
        }
        assert tokens.edge.upper() in colors


def test_a_narrow_guide_puts_its_answers_in_one_column(guide, qapp):
    # What a window of 1280 × 720 is at 200 %.
    guide.resize(600, 340)
    qapp.processEvents()
    cards = guide.pages[0].cards
    assert len({c.x() for c in cards}) == 1
    fits = cards[0].fontMetrics().horizontalAdvance(cards[5].text())
    assert fits < cards[5].width() - 90
    assert guide.forward.isVisible()
    assert guide.rect().contains(guide.forward.geometry())


# --- in the window ---


@pytest.mark.parametrize(("answer", "opened"), [("discard", True), ("cancel", False)])
def test_opening_asks_about_unsaved_changes(qtbot, window, document, monkeypatch, answer, opened):
    monkeypatch.setattr(messages, "ask_save", lambda *_: answer)
    document.edit("panels.count", 3)
    window.commands["guide"].trigger()
    guide = window.assistance.guide
    click_through(qtbot, guide)
    qtbot.mouseClick(guide.forward, Qt.MouseButton.LeftButton)
    assert (document.scenario == guide.found.scenario) is opened
    assert guide.isVisible() is not opened
    if opened:
        assert document.path is None
        assert document.scenario.notes.startswith("Made by the guide.")
        word = guide.found.assessment.verdict.word
        qtbot.waitUntil(lambda: window.sign.word.text() == word)


def test_a_start_does_not_wait_for_guide_and_help():
    wanted_later = ("guide_dialog", "help_window", "help.pane", "tour_overlay", "plain_words")
    code = "import sys, explorer.widgets.main_window; print(*sys.modules)"
    loaded = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=120
    ).stdout.split()
    assert "explorer.widgets.help.assistance" in loaded
    assert not [name for name in loaded if name.endswith(wanted_later)]


def test_a_latitude_without_sun_in_winter_is_refused(qtbot, guide):
    guide.region.latitude.entered.emit(80.0)
    assert "nearer to a pole" in guide.region.fault.text()
    guide.region.set_answer("latitude")
    assert guide.region.answer == ""


@pytest.fixture
def region(qtbot, guide):
    """The guide at the question how far north, which has a field for a figure."""
    for key in ("window", "winter"):
        page = guide.stack.currentWidget()
        qtbot.mouseClick(card(page, key), Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget() is guide.region
    return guide.region


@pytest.mark.parametrize("marked", ["", "far_north"])
def test_a_wrong_number_keeps_the_focus_until_a_good_one_takes_its_place(
    qtbot, guide, region, marked
):
    region.set_answer(marked)
    typed(qtbot, region.latitude, "95")
    assert guide.stack.currentWidget() is region
    assert region.latitude.hasFocus()
    assert region.latitude.text() == "95"
    assert "nearer to a pole" in region.fault.text()
    assert not guide.forward.isEnabled()
    typed(qtbot, region.latitude, "53,5")
    assert guide.stack.currentWidget() is not region
    assert region.figures == {"latitude_deg": 53.5}


def test_no_press_goes_on_past_a_wrong_number_and_back_drops_it(qtbot, guide, region):
    region.set_answer("far_north")
    region.latitude.setFocus()
    qtbot.keyClicks(region.latitude, "95")  # a press takes no focus away
    qtbot.mouseClick(guide.forward, Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget() is region
    assert region.latitude.hasFocus()
    qtbot.mouseClick(card(region, "far_north"), Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget() is region
    assert region.latitude.hasFocus()
    qtbot.mouseClick(guide.back, Qt.MouseButton.LeftButton)
    assert (region.answer, region.latitude.text()) == ("far_north", "")


def test_what_is_typed_counts_when_somebody_presses_next(qtbot, guide, region):
    region.set_answer("far_north")
    region.latitude.setFocus()
    qtbot.keyClicks(region.latitude, "53,5")
    qtbot.mouseClick(guide.forward, Qt.MouseButton.LeftButton)
    assert guide.stack.currentWidget() is not region
    assert region.figures == {"latitude_deg": 53.5}


def test_hours_that_cannot_be_keep_the_light_question_open(qtbot, guide):
    qtbot.mouseClick(card(guide.pages[0], "corridor"), Qt.MouseButton.LeftButton)
    guide.light.set_answer("usual")
    typed(qtbot, guide.light.start, "30")
    assert guide.stack.currentWidget() is guide.light
    assert guide.light.start.hasFocus()
    typed(qtbot, guide.light.start, "7")
    assert guide.stack.currentWidget() is not guide.light


def test_a_reading_by_a_window_asks_for_its_month(guide):
    guide.light.set_place("window")
    guide.light.set_year(True)
    assert not guide.light._when.isHidden()
    assert guide.light.figures["measured_month"] == 3
    guide.light.set_year(False)
    assert guide.light._when.isHidden()
