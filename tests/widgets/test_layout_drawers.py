"""Every drawer with a real answer in it: nothing is cut or lies on something, in every size."""

from contextlib import suppress
from itertools import islice, product
from types import SimpleNamespace

import pytest
from PySide6.QtCore import QRect, Qt
from pytestqt.exceptions import TimeoutError

from explorer.advice.build_front import Builds
from explorer.advice.case import Case
from explorer.advice.territory import axis_choices
from explorer.resource_files import resource_path, scenario_folder
from explorer.scenario.model import first_scenario
from explorer.scenario.price import RELATIVE
from explorer.scenario.storage import CellStore
from explorer.state import drawer_feeds, drawer_steps
from explorer.state.language import set_language, tr
from explorer.widgets.drawers import builds_drawer
from explorer.widgets.drawers.drawers import QUESTIONS
from explorer.widgets.drawers.scales import Scale
from explorer.widgets.drawers.territory_map import TerritoryMap
from explorer.words.builds import price_note
from tests.make_bench_log import NAME
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.layout import cut_cells, faults, painted_faults, scrolled

SIZES = ((960, 540), (1280, 720), (1920, 1080))
LOG = resource_path("logs", NAME)
STEPS = {"contest": 5, "territory": 1, "spread": 1, "year": 1}
"""Of a growing answer, as many as fill the drawer; all of the others."""


@pytest.fixture(params=["en", "de"])
def desk(request, qapp, monkeypatch):
    """A window whose drawers ask nobody; a test fills them."""
    set_language(request.param)
    monkeypatch.setattr(drawer_feeds.Feed, "set_open", lambda *_, **__: None)
    monkeypatch.setattr(drawer_steps, "FEW", 300)
    yield request.getfixturevalue("window")
    set_language("en")


def never() -> bool:
    return False


def _until_some_run(steps):
    for step in steps:
        assert isinstance(step, Builds)
        if step.front:
            return [step]
    raise AssertionError("no build runs")


WORKED_OUT: dict[str, tuple] = {}


def fill(drawer, key):
    """Show the real answer of a drawer."""
    if key == "bench":
        drawer.open_log(LOG)
    if key not in WORKED_OUT:
        steps = drawer.feed._steps(drawer.document.case, never)
        WORKED_OUT[key] = (
            tuple(_until_some_run(steps)) if key == "builds"
            else tuple(islice(steps, STEPS.get(key, 99)))
        )  # fmt: skip
    for step in WORKED_OUT[key]:
        drawer.feed.arrived.emit(step)
    drawer.feed.finished.emit()


def wrong(desk, drawer, narrow):
    """What is cut, lies on something, or has to be scrolled inside the drawer."""
    found = faults(drawer) + painted_faults(drawer) + cut_cells(drawer)
    return found + scrolled(drawer._room, upwards=narrow)


def lasting(qtbot, desk, drawer):
    """What is wrong and stays so: texts that have just arrived find their place in a moment."""
    found: list = []

    def is_right():
        found[:] = wrong(desk, drawer, desk.centre.arrangement == "narrow")
        return not found

    with suppress(TimeoutError):
        qtbot.waitUntil(is_right, timeout=1500)
    return list(found)


def test_every_drawer_has_room_for_its_answer_in_every_size_and_language(desk, qtbot):
    found = {}
    for key in QUESTIONS:
        example = "window_air_sensor" if key == "year" else "soil_probe"
        desk.document.open_example(scenario_folder() / f"{example}.json")
        desk.drawers.open(key)
        drawer = desk.drawers.drawer(key)
        fill(drawer, key)
        assert drawer.has_body, key
        for size in SIZES:
            desk.resize(*size)
            found[key, size] = lasting(qtbot, desk, drawer)
    assert not any(found.values()), {k: v for k, v in found.items() if v}


def test_what_the_prices_are_is_told_whole_in_every_size(desk, qtbot, monkeypatch):
    desk.drawers.open("builds")
    drawer = desk.drawers.drawer("builds")
    for currencies, size in product([(RELATIVE,), ("EUR", "USD", RELATIVE)], SIZES):
        note = price_note(SimpleNamespace(currencies=currencies, own_alone=("panels",)))
        monkeypatch.setattr(builds_drawer, "price_note", lambda _, note=note: note)
        fill(drawer, "builds")
        desk.resize(*size)
        assert lasting(qtbot, desk, drawer) == []
        line = drawer.line
        assert line.text() == tr(note)
        room = QRect(0, 0, line.width(), 9999)
        whole = line.fontMetrics().boundingRect(room, Qt.TextFlag.TextWordWrap, line.text())
        assert whole.height() <= line.height(), size
        assert whole.width() <= line.width(), size


def test_a_whole_year_needs_no_scrolling_on_a_large_screen(desk, qtbot):
    desk.resize(2560, 1400)
    desk.document.open_example(scenario_folder() / "window_air_sensor.json")
    desk.drawers.open("year")
    drawer = desk.drawers.drawer("year")
    if "whole year" not in WORKED_OUT:
        WORKED_OUT["whole year"] = tuple(drawer.feed._steps(drawer.document.case, never))
    for step in WORKED_OUT["whole year"]:
        drawer.feed.arrived.emit(step)
    drawer.feed.finished.emit()
    assert desk.centre.arrangement == "large"
    qtbot.wait(100)  # until what has arrived has found its place
    assert drawer.height() >= drawer.least_height(drawer.width())
    assert scrolled(drawer._room, upwards=True) == []


def test_long_values_beside_a_map_have_their_room(qtbot):
    design = first_scenario().model_copy(update={"store": CellStore(capacity_mAh=1000.0)})
    by_path = {axis.path: axis for axis in axis_choices(Case(design))}
    drawn = TerritoryMap()
    qtbot.addWidget(drawn)
    drawn.resize(240, 420)
    drawn.set_axes(Scale(by_path["light.illuminance_lx"]), Scale(by_path["store.capacity_mAh"]))
    drawn.show()
    names = [tick.text for tick in Scale(by_path["store.capacity_mAh"]).ticks(340.0, 26.0)]
    assert max(len(name) for name in names) >= len("3000 mAh"), names
    assert painted_faults(drawn) == []
