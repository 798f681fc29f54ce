import pytest
from PySide6.QtCore import Qt

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.remedies import Change, Remedies, Remedy
from explorer.scenario.model import Scenario, with_value
from explorer.widgets.remedy_list import RemedyList, value_text
from tests.widgets.samples import made_up

PATIENT = 60_000
pytestmark = pytest.mark.usefixtures("asked_at_rest")


def changed(path, value):
    return with_value(Scenario(), path, value)


def remedy(path="light.illuminance_lx", new=470.0):
    change = Change(path=path, label="Illuminance", unit="lx", old=400.0, new=new)
    return Remedy(changes=(change,), effort=0.2, scenario=changed(path, new))


@pytest.fixture
def remedies(qtbot, document, jobs, tmp_path):
    result = RemedyList(document, jobs, tmp_path)
    qtbot.addWidget(result)
    result.resize(260, 300)
    result.show()
    return result


def visible(remedies):
    return [b for b in remedies.buttons if b.isVisible()]


def test_a_design_that_runs_needs_no_remedy(remedies):
    remedies.set_assessment(made_up(changed("light.illuminance_lx", 1000.0)))
    assert remedies.heading.text() == "Runs as it is"
    assert visible(remedies) == []
    assert not remedies.feed.is_open


@pytest.mark.parametrize("by", ["mouse", "Enter"])
def test_a_poor_design_gets_remedies_and_one_press_makes_it_run(qtbot, remedies, document, by):
    document.edit("light.illuminance_lx", 20.0)
    document.undo_stack.clear()
    first = assess(Case(document.scenario))
    assert first.verdict.state != "runs"
    remedies.set_assessment(first)
    assert remedies.text.text() == "Looking…"
    with qtbot.waitSignal(remedies.feed.finished, timeout=PATIENT):
        pass
    shown = visible(remedies)
    assert shown
    before = document.scenario
    if by == "mouse":
        qtbot.mouseClick(shown[0], Qt.MouseButton.LeftButton)
    else:
        qtbot.keyClick(shown[0], Qt.Key.Key_Return)
    assert assess(Case(document.scenario)).verdict.state == "runs"
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.scenario == before


def test_what_was_found_for_another_design_disappears_at_once(qtbot, remedies, document):
    remedies.set_assessment(assess(Case(changed("light.illuminance_lx", 20.0))))
    document.edit("light.illuminance_lx", 20.0)
    remedies._on_arrived(Remedies(singles=(remedy(),), done=True))
    assert visible(remedies)
    document.edit("panels.count", 2)
    assert visible(remedies) == []
    assert remedies.text.text() == "Looking…"


def test_a_press_on_an_outdated_remedy_does_nothing(qtbot, remedies, document):
    document.edit("light.illuminance_lx", 20.0)
    remedies._on_arrived(Remedies(singles=(remedy(),), done=True))
    before = document.scenario
    remedies.buttons[0].click()
    assert document.scenario == before


def test_a_pair_stands_on_one_button(remedies):
    one, other = remedy(), remedy("panels.count", 3)
    pair = Remedy(changes=one.changes + other.changes, effort=1.0, scenario=other.scenario)
    remedies._on_arrived(Remedies(pair=pair, sentence="No single change is enough.", done=True))
    assert remedies.text.text().startswith("No single change is enough.")
    assert len(visible(remedies)) == 1
    assert visible(remedies)[0].height() >= 45
    assert visible(remedies)[0].accessibleName().startswith("Apply: Illuminance")


def test_where_nothing_helps_it_says_why(remedies):
    remedies._on_arrived(Remedies(sentence="Nothing helps within reach: too dark.", done=True))
    assert remedies.text.text() == "Nothing helps within reach: too dark."
    assert visible(remedies) == []


def test_a_shared_unit_is_said_once():
    assert value_text(remedy().changes[0]) == "400 → 470 lx"
    change = Change(path="load.sleep_A", label="Sleep", unit="A", old=1e-3, new=5e-6)
    assert value_text(change) == "1 mA → 5 µA"
    change = Change(path="store", label="Store", unit="", old="capacitor", new="a pouch cell")
    assert value_text(change) == "a pouch cell"
