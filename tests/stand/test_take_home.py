"""What is taken home can be read again: the code by a decoder, the stick by the program."""

from urllib.parse import parse_qs, urlparse

import numpy as np
import pytest
import zxingcpp
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest

from explorer.files.scenario_json import load_scenario
from explorer.stand import taking_home
from explorer.stand.home_sheet import save_on_stick, sheet_pdf
from explorer.stand.take_home import MOST_BYTES, text_of
from explorer.stand.window import StandWindow
from tests.sharing import cases_are_shared  # noqa: F401


def decoded(widget):
    """What a phone would read from the screen."""
    image = widget.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), -1)
    (found,) = zxingcpp.read_barcodes(np.ascontiguousarray(rows[:, : image.width()]))
    return found.text


def taken(stand):
    stand.session.choose(0)
    stand.document.edit("panels.count", 2)
    stand.solver.solve_now()
    QTest.mouseClick(stand.page.cards.home, Qt.MouseButton.LeftButton)
    return stand.home


@pytest.mark.parametrize("size", [(1920, 1080), (960, 540), (1080, 1920)])
def test_the_code_on_the_screen_holds_the_design_as_text(stand, size):
    stand.resize(*size)
    home = taken(stand)
    text = decoded(home.veil)
    assert text == home.content
    lines = text.splitlines()
    assert lines[0] == "Plant label in the fern house"
    assert "Panels: 2" in lines
    assert "Illuminance: 800 lx" in lines
    assert "Runs" in lines
    assert lines[-1] == "Ask at the bench"
    assert len(text.encode()) <= MOST_BYTES


@pytest.mark.parametrize("name", ["dark", "contrast"])
def test_the_code_is_black_on_white_in_every_theme(qtbot, plan, exhibits, parked, name):
    window = StandWindow(plan.model_copy(update={"theme": name}), exhibits, parked)
    qtbot.addWidget(window)
    window.resize(1280, 800)
    window.show()
    window.start()
    assert decoded(taken(window).veil) == window.home.content
    window.leave()


def test_the_keepers_own_link_carries_the_design(qtbot, plan, exhibits, parked):
    own = plan.model_copy(update={"link": "https://stand.example/show?lang=en#top"})
    window = StandWindow(own, exhibits, parked)
    qtbot.addWidget(window)
    window.resize(1280, 800)
    window.show()
    window.start()
    link = urlparse(decoded(taken(window).veil))
    assert (link.netloc, link.fragment) == ("stand.example", "top")
    design = {key: value for key, (value,) in parse_qs(link.query).items()}
    assert design["lang"] == "en"
    assert design["exhibit"] == "plant_label"
    assert (design["light"], design["panels"], design["verdict"]) == ("800", "2", "Runs")
    window.leave()


def test_a_long_text_is_cut_at_a_line(stand):
    design = taking_home.design_of(taken(stand)._found)
    text = text_of(design, "x" * 2000)
    assert len(text.encode()) <= MOST_BYTES
    assert text.splitlines()[0] == design.title


def test_the_sheet_is_one_page_and_holds_the_code(stand, tmp_path):
    pdf = sheet_pdf(taken(stand).sheet())
    assert pdf.startswith(b"%PDF")
    assert pdf.count(b"/Type /Page\n") == 1


def test_a_stick_gets_scenario_and_sheet_under_a_free_name(stand, tmp_path, monkeypatch):
    monkeypatch.setattr(taking_home, "sticks", lambda: [tmp_path])
    home = taken(stand)
    for name in ("plant-label-in-the-fern-house", "plant-label-in-the-fern-house-2"):
        home._on_stick()
        assert load_scenario(tmp_path / f"{name}.json").scenario == stand.document.scenario
        assert (tmp_path / f"{name}.pdf").read_bytes().startswith(b"%PDF")
        assert name in home.veil.message.text()


def test_without_a_stick_it_asks_for_one(stand):
    home = taken(stand)
    said = save_on_stick([], stand.document.scenario, home.sheet())
    assert said == "Plug a USB stick in, and touch again."


def test_printing_and_saving_are_offered_only_where_the_keeper_allows_it(stand):
    veil = taken(stand).veil
    assert veil.print.isHidden()
    assert veil.stick.isHidden()
    QTest.mouseClick(veil.back, Qt.MouseButton.LeftButton)
    assert veil.isHidden()
    assert stand.page.isEnabled()


def test_walking_away_puts_it_away_and_keeps_nothing_of_it(stand, plan):
    home = taken(stand)
    for _ in range(plan.idle_s + plan.warning_s):
        stand.session.tick()
    assert stand.session.stage == "attract"
    assert home.veil.isHidden()
    assert stand.page.isEnabled()


def test_return_goes_on_and_a_held_esc_leaves(stand, qtbot):
    home = taken(stand)
    QTest.keyClick(home.veil.back, Qt.Key.Key_Return)
    assert not home.veil.isVisible()
    assert stand.page.isEnabled()
    stand.page.cards.home.click()
    assert home.veil.isVisible()
    stand.gesture._hold_ms = 100
    with qtbot.waitSignal(stand.left):
        QTest.keyPress(home.veil.back, Qt.Key.Key_Escape)
