"""The panel drawer follows the design and exports what it shows."""

import pytest

from explorer.scenario.model import Scenario
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.widgets.drawers.curve_plot import ticks
from explorer.widgets.drawers.panel_drawer import CHARGER, CURVE, SOURCES, PanelDrawer
from explorer.widgets.source_note import SourceNote


@pytest.fixture
def drawer(qtbot):
    document = Document(Scenario())
    jobs = JobRunner()
    made = PanelDrawer(document, jobs)
    qtbot.addWidget(made)
    made.resize(600, 260)
    made.show()
    yield made
    made.feed.set_open(False)
    jobs.finish()


def test_it_answers_when_opened_and_follows_the_light(qtbot, drawer):
    drawer.feed.set_open(True)
    qtbot.waitUntil(lambda: drawer.has_body, timeout=5000)
    assert "300 lx" in drawer.answer.text().replace("\u00a0", " ")
    drawer.document.edit("light.illuminance_lx", 1000.0)
    qtbot.waitUntil(
        lambda: "1000 lx" in drawer.answer.text().replace("\u00a0", " "), timeout=5000
    )


def test_every_column_of_figures_is_whole_in_a_narrow_drawer(qtbot, drawer):
    drawer.feed.set_open(True)
    qtbot.waitUntil(lambda: drawer.has_body, timeout=5000)
    hint = drawer.meanings.minimumSizeHint
    qtbot.waitUntil(lambda: drawer.column.viewport().width() >= hint().width(), timeout=2000)
    assert drawer.plot.width() > 200


def test_it_exports_curve_and_sources(qtbot, drawer, tmp_path):
    drawer.feed.set_open(True)
    qtbot.waitUntil(lambda: drawer.has_body, timeout=5000)
    for name in (CURVE, CHARGER, SOURCES):
        assert drawer.save("csv", name, tmp_path / f"{name}.csv")
    head = (tmp_path / "curve.csv").read_text().splitlines()[0]
    assert head == "voltage_V,current_A,power_W"
    charger = (tmp_path / "charger.csv").read_text().splitlines()[0]
    assert charger == "panel_W,share"
    assert drawer.save("svg", "", tmp_path / "panel.svg")
    assert drawer.save("png", "", tmp_path / "panel.png")
    assert (tmp_path / "panel.png").stat().st_size > 5000


def test_the_charger_is_a_click_away_and_says_what_it_passes_on(qtbot, drawer):
    drawer.feed.set_open(True)
    qtbot.waitUntil(lambda: drawer.has_body, timeout=5000)
    assert drawer.plot.isVisible()
    drawer.views.button(1).click()
    assert drawer.charger.isVisible()
    assert not drawer.plot.isVisible()
    assert "it passes on" in drawer.charger.accessibleDescription()


def test_the_note_beside_the_source_follows_the_source(qtbot):
    document = Document(Scenario())
    note = SourceNote(document)
    qtbot.addWidget(note)
    before = note.text()
    document.edit("light.source", "incandescent")
    assert note.text() != before
    assert "W/m²" in note.text()


@pytest.mark.parametrize(("top", "step"), [(1.0, 0.5), (0.00015, 5e-5), (6.2, 2.0)])
def test_ticks_are_round_and_stay_inside(top, step):
    found = ticks(top)
    assert found[0] == 0.0
    assert found[-1] <= top * (1 + 1e-9)
    assert found[1] == pytest.approx(step)
