import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QFocusEvent

from explorer.state.language import set_language, tr
from explorer.widgets.exact_field import ExactField


@pytest.fixture
def field(qtbot):
    result = ExactField("F")
    qtbot.addWidget(result)
    result.show()
    result.set_value(0.47)
    return result


def typed(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)


def test_showing_does_not_emit(qtbot, field):
    with qtbot.assertNotEmitted(field.entered):
        field.set_value(1.5)
    assert field.text() == "1.5 F"


@pytest.mark.parametrize(
    ("text", "value"), [("470u", 470e-6), ("4,7 m", 4.7e-3), ("2.2", 2.2), ("10 mF", 0.01)]
)
def test_prefixes_and_either_decimal_mark_are_taken(qtbot, field, text, value):
    with qtbot.waitSignal(field.entered) as heard:
        typed(qtbot, field, text)
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert heard.args[0] == pytest.approx(value)


def test_a_unit_with_a_word_in_it_is_shown_and_read_in_the_language_on_show(qtbot):
    set_language("de")
    try:
        loss = ExactField("1/month")
        qtbot.addWidget(loss)
        loss.show()
        loss.set_value(0.03)
        assert loss.text() == "0,03 1/Monat"
        for text, value in (("0,05 1/Monat", 0.05), ("0,06", 0.06), ("0,07 1/month", 0.07)):
            with qtbot.waitSignal(loss.entered) as heard:
                typed(qtbot, loss, text)
                qtbot.keyClick(loss, Qt.Key.Key_Return)
            assert heard.args[0] == value
        typed(qtbot, loss, "0,05 1/Jahr")
        with qtbot.waitSignal(loss.fault_changed):
            qtbot.keyClick(loss, Qt.Key.Key_Return)
        assert "12,5 1/Monat" in tr(loss.refusal)
    finally:
        set_language("en")


def test_typing_commits_once(qtbot, field):
    heard = []
    field.entered.connect(heard.append)
    typed(qtbot, field, "3.3")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    field.clearFocus()
    assert heard == [3.3]


def test_leaving_the_field_commits(qtbot, field):
    with qtbot.waitSignal(field.entered):
        typed(qtbot, field, "3.3")
        field.clearFocus()


def test_nonsense_is_refused_with_a_sentence_and_stays_to_be_put_right(qtbot, field):
    typed(qtbot, field, "lots")
    with qtbot.waitSignal(field.fault_changed) as heard, qtbot.assertNotEmitted(field.entered):
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert '"lots" does not begin with a number' in heard.args[0]
    field.clearFocus()
    assert field.text() == "lots"
    assert field.at_fault
    field.setFocus()
    with qtbot.waitSignal(field.fault_changed) as heard:
        qtbot.keyClick(field, Qt.Key.Key_Backspace)
    assert heard.args == [""]
    assert field.text() == "lot"


def test_a_step_leaves_nonsense_behind(qtbot, field):
    typed(qtbot, field, "lots")
    qtbot.keyClick(field, Qt.Key.Key_Up)
    assert field.text() == "0.47 F"
    assert not field.at_fault


def test_escape_takes_the_text_back(qtbot, field):
    typed(qtbot, field, "9")
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == "0.47 F"


def test_a_change_from_elsewhere_does_not_disturb_typing(qtbot, field):
    typed(qtbot, field, "12")
    field.set_value(0.33)
    assert field.text() == "12"


def test_arrow_keys_ask_for_steps(qtbot, field):
    steps = []
    field.stepped.connect(steps.append)
    qtbot.keyClick(field, Qt.Key.Key_Up)
    qtbot.keyClick(field, Qt.Key.Key_Down)
    assert steps == [1, -1]


def test_a_whole_number_field_refuses_fractions(qtbot):
    field = ExactField("", whole=True)
    qtbot.addWidget(field)
    field.show()
    field.set_value(3)
    typed(qtbot, field, "2.5")
    with qtbot.waitSignal(field.fault_changed):
        qtbot.keyClick(field, Qt.Key.Key_Return)


def test_an_optional_field_can_be_emptied(qtbot):
    field = ExactField("lx", optional=True)
    qtbot.addWidget(field)
    field.show()
    field.set_value(300.0)
    field.setFocus()
    field.selectAll()
    qtbot.keyClick(field, Qt.Key.Key_Backspace)
    with qtbot.waitSignal(field.entered) as heard:
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert heard.args == [None]


def test_a_number_that_does_not_fit_loses_digits_and_shows_all_to_who_types(qtbot):
    field = ExactField("A")
    qtbot.addWidget(field)
    field.resize(200, 26)
    field.show()
    field.set_value(0.0262222)
    assert field.text() == "26.2222 mA"
    field.resize(70, 26)
    qtbot.waitUntil(lambda: field.text() != "26.2222 mA")
    assert field.text().endswith(" mA")
    assert field.fontMetrics().horizontalAdvance(field.text()) <= 70
    sent = []
    field.entered.connect(sent.append)
    field.focusInEvent(QFocusEvent(QEvent.Type.FocusIn))
    field.focusOutEvent(QFocusEvent(QEvent.Type.FocusOut))
    assert sent == []
