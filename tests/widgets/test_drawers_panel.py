"""The panel drawer follows the design and exports what it shows."""

import numpy as np
import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from explorer.advice.charger_curve import ChargerCurve
from explorer.scenario.model import Scenario
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.text import say
from explorer.widgets.drawers.charger_plot import _Picture
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


@pytest.mark.parametrize("power_w", [3e-5, 2.3e-4, 7e-4])
def test_the_word_of_the_working_point_lies_beside_the_curve(qapp, power_w):
    """On a rising share it stands below at the right, in the size that the table's dialog has."""
    inputs = np.geomspace(1e-6, 1e-2, 400)
    share = np.interp(np.log10(inputs), [-5.4, -5.0, -4.0, -3.0], [0.0, 0.6, 0.8, 0.88])
    working = power_w, float(np.interp(power_w, inputs, share))
    curve = ChargerCurve(
        kind="efficiency", inputs=inputs, curves=((say("efficiency"), share),), rows=(),
        working=working,
    )  # fmt: skip
    image = QImage(500, 440, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    picture = _Picture(painter, QRectF(image.rect()), curve, theme.LIGHT)
    (at,) = picture._points(*(np.array([value]) for value in working))
    word = picture.word_box(at, "now")
    assert QRectF(image.rect()).contains(word)
    assert not any(word.contains(point) for point in picture._points(inputs, share))
    picture.paint()
    painter.end()
