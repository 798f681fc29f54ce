import pytest
from PySide6.QtCore import Qt

from explorer.scenario.model import Scenario, with_value
from explorer.state import theme
from explorer.widgets.sign import Sign
from tests.widgets.samples import made_up


def at(level, panels=1):
    scenario = with_value(Scenario(), "light.illuminance_lx", level)
    return made_up(with_value(scenario, "panels.count", panels))


@pytest.fixture
def sign(qtbot):
    result = Sign()
    qtbot.addWidget(result)
    result.resize(300, 640)
    result.set_assessment(at(300.0))
    result.show()
    return result


@pytest.mark.parametrize(
    ("level", "word"), [(100.0, "Falls short"), (400.0, "Marginal"), (1000.0, "Runs")]
)
def test_word_and_lamp_follow_the_verdict(sign, level, word):
    sign.set_assessment(at(level))
    assert sign.word.text() == word
    assert sign.lamps.accessibleName() == f"Verdict: {word}"


def test_the_three_fillings_differ_without_any_colour(sign, qapp):
    def grey():
        picture = sign.lamps.grab().toImage()
        return picture.convertToFormat(picture.Format.Format_Grayscale8)

    pictures = []
    for level in (100.0, 400.0, 1000.0):
        sign.set_assessment(at(level))
        pictures.append(grey())
    assert pictures[0] != pictures[1] != pictures[2] != pictures[0]


def test_six_rows_say_their_check(sign):
    names = [row.accessibleName().split(":")[0] for row in sign.rows]
    assert names == ["Starts", "Balance", "Dark", "Pulse", "Ratings", "Service"]
    assert all(row.height() >= 24 for row in sign.rows)


def test_a_press_on_a_check_opens_and_closes_its_sentence(qtbot, sign):
    row = sign.rows[2]
    qtbot.mouseClick(row, Qt.MouseButton.LeftButton)
    assert sign.detail.isVisible()
    assert sign.detail.text() == row.accessibleDescription()
    qtbot.keyClick(row, Qt.Key.Key_Space)
    assert not sign.detail.isVisible()


def test_only_one_sentence_is_open(qtbot, sign):
    qtbot.mouseClick(sign.rows[0], Qt.MouseButton.LeftButton)
    qtbot.mouseClick(sign.rows[3], Qt.MouseButton.LeftButton)
    assert [row.isChecked() for row in sign.rows] == [False, False, False, True, False, False]


def test_a_hazard_stands_apart_from_the_verdict(sign):
    sign.set_assessment(at(1000.0, panels=6))
    assert sign.word.text() == "Runs"
    assert [badge.title.text() for badge in sign.hazards if badge.isVisible()] == [
        "Over-voltage in full sun"
    ]
    assert sign.hazards[0].accessibleName().startswith("Hazard: Over-voltage")
    sign.set_assessment(at(1000.0))
    assert not any(badge.isVisible() for badge in sign.hazards)


def test_a_verdict_is_announced_once_it_rests(qtbot, sign, monkeypatch):
    from explorer.widgets import sign as module

    spoken = []
    monkeypatch.setattr(
        module.QAccessible, "updateAccessibility", lambda event: spoken.append(sign._spoken)
    )
    for level in (310.0, 320.0, 1000.0):
        sign.set_assessment(at(level))
    qtbot.waitUntil(lambda: bool(spoken), timeout=5000)
    assert len(spoken) == 1
    assert spoken[0].startswith("Runs. ")


def test_a_new_palette_recolours_the_lamps(sign, qapp):
    light = sign.lamps.grab().toImage()
    qapp.setPalette(theme.palette_of(theme.DARK))
    qapp.processEvents()
    assert sign.lamps.grab().toImage() != light
