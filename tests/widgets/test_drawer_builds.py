"""Which build? The drawer shows what runs, and takes one as one step."""

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt

from explorer.advice import build_parts
from explorer.advice import builds as module
from explorer.advice.build_front import MEASURES, Builds, Wanted
from explorer.advice.judge import judge
from explorer.files.scenario_json import load_scenario
from explorer.files.shelf import Shelf
from explorer.resource_files import scenario_folder
from explorer.scenario import parts
from explorer.scenario.part import part_from
from explorer.scenario.supply import Panels
from explorer.state import theme
from explorer.state.document import Document
from explorer.widgets.drawers.builds_drawer import BuildsDrawer
from explorer.words.builds import builds_line
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.focus_seen import ring
from tests.widgets.shared_answers import answers_are_shared  # noqa: F401

pytestmark = pytest.mark.usefixtures("answers_are_shared")


@pytest.fixture
def document():
    made = Document(load_scenario(scenario_folder() / "plant_label.json").scenario)
    yield made
    made.undo_stack.clear()


@pytest.fixture
def drawer(qtbot, document, jobs, tmp_path, monkeypatch):
    few = parts.store_families()[3:5]
    monkeypatch.setattr(build_parts, "_technologies", lambda _: ("amorphous", "gallium_arsenide"))
    monkeypatch.setattr(module, "COUNTS", (1, 2))
    monkeypatch.setattr(build_parts.parts, "store_families", lambda: few)
    made = BuildsDrawer(document, jobs, tmp_path / "parts")
    qtbot.addWidget(made)
    made.resize(860, 320)
    made.show()
    made.set_open(True)
    settled(qtbot, made)
    return made


def settled(qtbot, drawer):
    qtbot.waitUntil(
        lambda: drawer._found is not None and drawer._found.is_done and drawer.feed.is_current,
        timeout=60_000,
    )


def shown(drawer, column):
    return [drawer.view.item(row, column).text() for row in range(drawer.view.rowCount())]


def test_it_shows_the_front_by_price_with_the_first_chosen(drawer):
    prices = [float(text) for text in shown(drawer, 0)]
    assert prices == sorted(prices)
    assert drawer.view.currentRow() == 0
    assert "may run" in drawer.answer.text()
    assert "relative" in drawer.line.text()
    assert drawer.plot._at == 0


@pytest.mark.parametrize("tokens", theme.ALL_TOKENS, ids=lambda tokens: tokens.name)
def test_the_chosen_build_shows_that_it_has_the_focus(qtbot, drawer, tokens):
    drawer.activateWindow()
    qtbot.waitUntil(drawer.isActiveWindow)
    drawer.view.setPalette(theme.palette_of(tokens))
    assert ring(drawer.view) >= 1.0


def test_a_build_is_taken_as_one_step_and_runs(qtbot, drawer, document):
    before = document.scenario
    chosen = drawer.chosen()
    qtbot.mouseClick(drawer.take, Qt.MouseButton.LeftButton)
    assert document.scenario == chosen.scenario
    assert judge(document.case).state == "runs"
    document.undo_stack.undo()
    assert document.scenario == before


def test_a_click_beside_a_point_chooses_it_and_arrows_walk_on(qtbot, drawer):
    places = drawer.plot._places(*drawer.plot._front())
    last = len(places) - 1
    x, y = places[last].tolist()
    qtbot.mouseClick(
        drawer.plot, Qt.MouseButton.LeftButton, pos=QPoint(round(x) + 3, round(y) - 2)
    )
    assert drawer.view.currentRow() == last
    qtbot.keyClick(drawer.plot, Qt.Key.Key_Left)
    assert drawer.view.currentRow() == last - 1
    assert drawer.plot._at == last - 1


def test_points_lie_where_their_measures_are(drawer):
    drawer.across.setCurrentIndex(drawer.across.findData("mass_g"))
    drawer.across.activated.emit(0)
    places = drawer.plot._places(*drawer.plot._front())
    masses = np.array([build.mass_g for build in drawer._found.front])
    order = np.argsort(masses)
    assert (np.diff(places[order, 0]) >= -1e-9).all()
    # Twice the mass lies as far to the right wherever it begins.
    ends = drawer.plot._places(np.array([1.0, 2.0, 4.0]), np.array([1.0, 1.0, 1.0]))[:, 0]
    assert np.diff(ends)[0] == pytest.approx(np.diff(ends)[1])


def test_what_costs_nothing_in_a_currency_lies_at_the_edge_and_what_is_unknown_nowhere(drawer):
    places = drawer.plot._places(np.array([0.0, 2.0, np.nan]), np.array([1.0, 0.0, 1.0]))
    area = drawer.plot._area()
    assert places[0, 0] == pytest.approx(area.left())
    assert places[1, 1] == pytest.approx(area.bottom())
    assert np.isnan(places[2, 0])


def test_filters_ask_again_and_the_button_says_which_hold(qtbot, drawer):
    drawer.limits.lithium.trigger()
    assert drawer.limits.text() == "no lithium"
    (low,) = [a for a in drawer.limits.actions_of("height_mm") if a.data()[1] == 15.0]
    low.trigger()
    assert drawer.limits.text() == "2 limits"
    assert drawer.limits.toolTip() == "height up to 15 mm, no lithium"
    assert drawer.wanted.height_mm == 15.0
    settled(qtbot, drawer)
    qtbot.waitUntil(lambda: drawer._found is not None and all(
        build.scenario.store.kind != "cell" and build.height_mm <= 15.0
        for build in drawer._found.front), timeout=60_000)
    assert drawer.view.rowCount() == len(drawer._found.front) >= 1
    drawer.limits.actions_of("height_mm")[0].trigger()
    assert drawer.limits.text() == "no lithium"


def test_prices_in_several_currencies_stand_apart_on_the_screen(
    qtbot, document, jobs, drawer, tmp_path
):
    """Own panels in euros, generic stores: two measures, and each build says both."""
    pane = Panels(active_area_cm2=20.0, technology="amorphous")
    Shelf(tmp_path / "parts").add(
        part_from("panel", pane, title="Pane", price=3.0, currency="EUR")
    )
    again = BuildsDrawer(document, jobs, tmp_path / "parts")
    qtbot.addWidget(again)
    again.resize(860, 320)
    again.show()
    again.set_open(True)
    settled(qtbot, again)
    names = [again.across.itemText(i) for i in range(again.across.count())]
    assert names == ["Price in EUR", "Price, relative", "Panel area", "Volume", "Mass"]
    assert (again.across.currentText(), again.up.currentText()) == ("Price in EUR", "Panel area")
    for text, build in zip(shown(again, 0), again._found.front, strict=True):
        euros, relative = build.cost.amount("EUR"), build.cost.amount("relative")
        assert euros == 3.0 * build.scenario.panels.count
        assert text == f"{euros:.2f} EUR and {relative:.2f} (relative)"
    assert "never added up" in again.line.text()
    places = again.plot._places(*again.plot._front())
    assert np.isfinite(places).all()
    assert again.limits.actions_of("price")[0].text() == "any price"
    (low,) = [a for a in again.limits.actions_of("price") if a.data()[1] == 10.0]
    low.trigger()
    qtbot.waitUntil(lambda: "is within the limits" in again.answer.text(), timeout=60_000)
    assert again.view.rowCount() == 0
    for box, name in ((again.across, "price EUR"), (again.up, "price relative")):
        box.setCurrentIndex(box.findData(name))
    again._offer_measures(MEASURES)  # as where no part of one's own has a price any more
    assert (again.across.currentText(), again.up.currentText()) == ("Price", "Panel area")


def test_its_table_is_the_front(drawer):
    table = drawer.table("")
    assert len(table["price"]) == drawer.view.rowCount()
    assert set(MEASURES) < set(table)


def test_where_none_runs_the_filters_stay_in_reach(qtbot, drawer, document):
    document.edit("light.illuminance_lx", 1.0)
    qtbot.waitUntil(lambda: "none runs" in drawer.answer.text(), timeout=60_000)
    settled(qtbot, drawer)
    assert drawer.limits.isVisible()
    assert not drawer.take.isEnabled()


# --- kept with a study ---------------------------------------------------------------------------


def test_a_study_that_is_opened_shows_its_limits_and_first_its_front(
    qtbot, drawer, document, tmp_path
):
    limits = Wanted(lithium=False, height_mm=17.5, most_parts=4)
    drawer.limits.set_wanted(limits)
    assert drawer.wanted == limits
    drawer.limits.changed.emit()
    settled(qtbot, drawer)
    qtbot.waitUntil(lambda: document.study.builds.front != (), timeout=60_000)
    kept = document.study.builds
    assert kept.limits == limits
    assert [b.scenario for b in kept.front] == [b.scenario for b in drawer._found.front]
    document.keep(tmp_path / "study")
    document.new()
    other = Document()
    other.open(tmp_path / "study")
    assert other.study.builds == kept
    again = BuildsDrawer(other, drawer.feed._jobs, tmp_path / "parts")
    qtbot.addWidget(again)
    assert again.wanted == limits
    assert again.limits.toolTip() == "height up to 17.5 mm, no lithium, up to 2 panels"
    steps = []
    again.feed.arrived.connect(steps.append)
    again.set_open(True)
    settled(qtbot, again)
    assert [step.is_done for step in steps] == [False, True]  # nothing less came between
    assert "that were kept still run" in builds_line(steps[0])
    assert [b.scenario for b in steps[0].front] == [b.scenario for b in kept.front]
    assert other.is_clean  # nobody changed anything by looking
    again.limits.lithium.trigger()
    assert not other.is_clean
    assert other.study.builds.limits.lithium
    other.undo_stack.clear()


def test_a_search_tells_no_count_before_anything_is_known():
    def told(tried, running, *, is_done):
        prices = {"panel_cm2": np.ones(running)}
        return builds_line(Builds(tried=tried, measures=prices, front=(), is_done=is_done))

    assert told(40, 0, is_done=False) == "40 builds tried, none of them may run so far…"
    assert told(40, 3, is_done=False).startswith("40 builds tried, 3 may run; the exact model")
    assert told(40, 3, is_done=True).startswith("40 builds tried; 3 seemed to run, and none")
    assert told(40, 0, is_done=True) == "Of 40 builds none runs in this light."
