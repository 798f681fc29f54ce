"""Picture, word and number tell one story, and there is always a way forward."""

import threading

import pytest
from PySide6.QtGui import QColor

from explorer.stand.phrases import picture_note
from explorer.stand.window import StandWindow
from explorer.state import theme
from tests.sharing import cases_are_shared  # noqa: F401
from tests.stand.pictures import colours


def visit(stand, index=0):
    stand.session.choose(index)
    stand.solver.solve_now()


def test_the_way_forward_stands_on_the_knobs_that_lead_there(searched, stand, qtbot):
    with qtbot.waitSignal(stand.page.way.arrived, timeout=60_000):
        visit(stand, 1)  # the door counter
    framed = {k.knob.path: k.hint for k in stand.page.knobs if k.hint is not None}
    assert framed
    for knob in stand.page.knobs:
        assert bool(knob.way.text()) == (knob.hint is not None)
        assert not (knob.way.text() and knob.sentence.text())
    for path, value in framed.items():
        stand.document.edit(path, int(value) if path.endswith("count") else value)
    stand.solver.solve_now()
    assert stand.page.headline.word.text() == "Runs"
    assert all(k.hint is None for k in stand.page.knobs)


def test_where_nothing_that_may_be_moved_helps_it_says_so(searched, qtbot, plan, exhibits, parked):
    window = StandWindow(plan.model_copy(update={"movable": ("light",)}), exhibits, parked)
    qtbot.addWidget(window)
    window.show()
    window.start()
    visit(window, 0)
    with qtbot.waitSignal(window.page.way.arrived, timeout=60_000):
        window.document.edit("light.ambient_C", 80.0)
    assert "Nothing that can be moved here is enough." in window.page.notes.reason.text()
    window.leave()


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"charger.full_V": 5.6}, "The curve is not the trouble: a part gets 2.8"),
        (
            {"store.esr_ohm": 20.0, "load.operations.1.phases.0.current_A": 0.05},
            "The curve hides the pulse",
        ),
        ({"margins.closure_days": 9.0}, "Left in the dark it lasts"),
        ({"light.illuminance_lx": 10.0}, "It never gets up to"),
    ],
)
def test_a_line_that_may_look_well_is_explained_in_the_picture(stand, changes, told):
    visit(stand, 0)
    for path, value in changes.items():
        assert stand.document.edit(path, value)
    stand.solver.solve_now()
    assert stand.page.headline.word.text() == "Falls short"
    assert told in stand.page.trace._note.replace("\u00a0", " ")
    assert theme.LIGHT.falls_short.lower() in colours(stand.page.trace)


def test_a_design_that_runs_needs_no_note(stand):
    visit(stand, 0)
    assert picture_note(stand.solver.result) == ""
    assert stand.page.trace._note == ""


def test_what_is_being_computed_greys_word_number_and_curve_together(stand, qtbot, monkeypatch):
    from explorer.state import solver

    visit(stand, 0)
    name = stand.page.trace._title
    quick, go = solver.assess, threading.Event()

    def slow(*args, **more):
        assert go.wait(20)
        return quick(*args, **more)

    monkeypatch.setattr(solver, "assess", slow)
    monkeypatch.setattr(solver, "SLOW_S", 0.0)
    stand.session.choose(1)
    qtbot.waitUntil(lambda: stand.solver.is_pending)
    ghost = QColor(theme.LIGHT.ghost).name()
    assert stand.page.trace._title == name  # it never runs ahead of its curve
    for part in (stand.page.headline.word, stand.page.headline.number, stand.page.trace):
        assert ghost in colours(part)
    assert QColor(theme.LIGHT.accent).name() not in colours(stand.page.trace)
    go.set()
    qtbot.waitUntil(lambda: not stand.solver.is_pending)
    assert stand.page.trace._title != name
    assert ghost not in colours(stand.page.headline.word)


def test_the_set_up_names_what_no_visitor_could_save(searched, qtbot, plan, parked, tmp_path):
    from explorer.files.scenario_json import dump_scenario, load_scenario
    from explorer.scenario.model import with_value
    from explorer.stand.setup_dialog import SetupDialog
    from explorer.state.stand_plan import scenario_path

    label = load_scenario(scenario_path("bundled:plant_label")).scenario
    hot = with_value(label, "light.ambient_C", 80.0).model_copy(update={"title": "Oven"})
    (tmp_path / "oven.json").write_text(dump_scenario(hot), encoding="utf-8")
    dialog = SetupDialog(plan.model_copy(update={"movable": ("light",)}), parked)
    qtbot.addWidget(dialog)
    dialog.scenarios.add_file(tmp_path / "oven.json")
    qtbot.waitUntil(lambda: "Oven" in dialog.fair_text.text(), timeout=60_000)
    assert "cannot be brought to Runs" in dialog.fair_text.text()
    assert "Plant" not in dialog.fair_text.text()
    dialog.reject()
