"""The four drawers on the real model: what they show, and that acting on it changes the design."""

import csv
import itertools

import numpy as np
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QImage

from explorer.advice import territory as territory_module
from explorer.advice.as_sold import AREA, cost_of
from explorer.advice.break_even import break_even
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.stops import CAPACITANCE_STOPS, stops_of
from explorer.advice.territory import Axis, Territory
from explorer.files.shelf import Shelf
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.part import part_from
from explorer.scenario.price import RELATIVE
from explorer.scenario.storage import CellStore
from explorer.state import drawer_steps, theme
from explorer.state.language import set_language
from explorer.state.theme import ALL_TOKENS
from explorer.widgets.drawers.budget_drawer import BudgetDrawer
from explorer.widgets.drawers.contest_drawer import ContestDrawer
from explorer.widgets.drawers.contest_model import ENTRY_ROLE
from explorer.widgets.drawers.scales import Scale
from explorer.widgets.drawers.spread_drawer import BUILDS, INFLUENCES, SpreadDrawer
from explorer.widgets.drawers.territory_drawer import TerritoryDrawer
from explorer.widgets.drawers.territory_paint import map_color, map_picture, pattern
from explorer.words.as_sold import checks_line
from explorer.words.drawers import territory_summary
from explorer.words.readout import bind_units
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.focus_seen import ring
from tests.widgets.shared_answers import answers_are_shared  # noqa: F401

PATIENT = 60_000
pytestmark = pytest.mark.usefixtures("answers_are_shared")


def opened(qtbot, drawer):
    qtbot.addWidget(drawer)
    drawer.resize(900, 420)
    drawer.show()
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        drawer.set_open(True)
    return drawer


# --- budget ---


def test_the_budget_ends_in_useful_work_and_its_bars_follow_one_another(qtbot, document, jobs):
    drawer = opened(qtbot, BudgetDrawer(document, jobs))
    lines = [row.line for row in drawer.bars.rows if row.isVisible()]
    assert any(line.useful for line in lines)
    for one, other in itertools.pairwise(lines):
        assert other.start == pytest.approx(one.start + one.length)
    assert sum(line.length for line in lines) == pytest.approx(1.0, abs=0.01)
    assert "reaches the device" in drawer.answer.text()


@pytest.mark.parametrize("code", ["en", "de"])
@pytest.mark.parametrize("width", [540, 613])
def test_no_name_of_a_loss_is_cut_at_the_narrowest_that_a_drawer_is(
    qtbot, document, jobs, code, width
):
    set_language(code)
    try:
        drawer = opened(qtbot, BudgetDrawer(document, jobs))
        drawer.bars.resize(width - 24, drawer.bars.height())
        rows = [row for row in drawer.bars.rows if row.isVisible()]
        for row in rows:
            row.resize(width - 24, row.height())
        assert [row.shown_label() for row in rows if "…" in row.shown_label()] == []
    finally:
        set_language("en")


def test_enter_on_a_loss_asks_for_the_field_that_governs_it(qtbot, document, jobs):
    drawer = opened(qtbot, BudgetDrawer(document, jobs))
    drawer.focus_body()
    row = drawer.bars.rows[0]
    qtbot.keyClick(row, Qt.Key.Key_Down)
    second = drawer.bars.rows[1]
    with qtbot.waitSignal(drawer.wants_field) as asked:
        qtbot.keyClick(second, Qt.Key.Key_Return)
    assert asked.args == [second.line.path]
    document.get(second.line.path)  # it is a path of the scenario


# --- contest ---


def test_the_contest_brings_every_kind_of_store_and_enter_takes_one(
    qtbot, document, jobs, tmp_path
):
    Shelf(tmp_path / "parts").add(part_from("store", CellStore(), title="Hearth"))
    drawer = opened(qtbot, ContestDrawer(document, jobs, tmp_path / "parts"))
    assert drawer.sorted.rowCount() == len(drawer.model.entries) >= 5
    assert "Own: Hearth" in [entry.title for entry in drawer.model.entries]
    ranks = []
    for row in range(drawer.sorted.rowCount()):
        entry = drawer.sorted.index(row, 0).data(ENTRY_ROLE)
        order = ["falls_short", "marginal", "runs"]
        ranks.append(order.index(entry.verdict.state) if entry.verdict else -1)
    assert ranks == sorted(ranks, reverse=True)

    row = next(
        r for r in range(drawer.sorted.rowCount())
        if (e := drawer.sorted.index(r, 0).data(ENTRY_ROLE)).scenario is not None
        and e.scenario != document.scenario
    )
    drawer.view.setCurrentIndex(drawer.sorted.index(row, 0))
    wanted = drawer.chosen().scenario
    before = document.scenario
    qtbot.keyClick(drawer.view, Qt.Key.Key_Return)
    assert document.scenario == wanted
    assert document.undo_stack.count() == 1
    # What is on show belongs to the design before, so a second press must not act on it.
    assert not drawer.take.isEnabled()
    drawer.view.setCurrentIndex(drawer.sorted.index((row + 1) % drawer.sorted.rowCount(), 0))
    qtbot.keyClick(drawer.view, Qt.Key.Key_Return)
    assert document.scenario == wanted
    document.undo_stack.undo()
    assert document.scenario == before


def test_the_contest_shows_the_design_s_own_store_which_cannot_be_taken(
    qtbot, document, jobs, tmp_path
):
    drawer = opened(qtbot, ContestDrawer(document, jobs, tmp_path))
    row = next(
        r for r in range(drawer.sorted.rowCount())
        if drawer.sorted.index(r, 0).data(ENTRY_ROLE).key == "present"
    )
    drawer.view.setCurrentIndex(drawer.sorted.index(row, 0))
    assert not drawer.take.isEnabled()
    assert "As it is now" in drawer.line.text()


# --- territory ---


@pytest.fixture
def territory(qtbot, document, jobs, monkeypatch):
    # Which points the march decides is tested with the map; here it would take most of the time.
    monkeypatch.setattr(territory_module, "refined", lambda *_: iter(()))
    return opened(qtbot, TerritoryDrawer(document, jobs))


def test_a_key_moves_the_design_over_the_map_without_another_map(
    qtbot, territory, document, jobs
):
    qtbot.waitUntil(lambda: jobs.is_idle, timeout=PATIENT)
    asked = []
    jobs.started.connect(asked.append)
    before = document.scenario.light.illuminance_lx
    qtbot.keyClick(territory.map, Qt.Key.Key_Right)
    assert document.scenario.light.illuminance_lx > before
    qtbot.wait(400)
    assert "territory" not in asked
    assert territory.feed.is_current


def test_a_drag_moves_both_quantities_as_one_undo_step(qtbot, territory, document):
    start = document.scenario
    area = territory.map.area()
    at = territory.map.place(*territory.map._point).toPoint()
    qtbot.mousePress(territory.map, Qt.MouseButton.LeftButton, pos=at)
    for step in range(1, 8):
        to = QPointF(at) + QPointF(6.0 * step, -4.0 * step)
        assert area.contains(to)
        qtbot.mouseMove(territory.map, to.toPoint())
    qtbot.mouseRelease(territory.map, Qt.MouseButton.LeftButton, pos=to.toPoint())
    assert document.scenario.light.illuminance_lx > start.light.illuminance_lx
    assert document.scenario.store.capacitance_F > start.store.capacitance_F
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.scenario == start


def pixel(territory, lux, farads):
    return territory.map.place(lux, farads).toPoint()


def told(territory):
    return territory.near.said.text()


def test_under_the_pointer_stands_what_is_sold_with_its_price_and_a_click_takes_it(
    qtbot, territory, document
):
    before = document.scenario
    lux = 1.3 * before.light.illuminance_lx
    at = pixel(territory, lux, 2.9 * before.store.capacitance_F)
    qtbot.mouseMove(territory.map, at)
    qtbot.waitUntil(lambda: "A click takes it" in told(territory), timeout=PATIENT)
    shown = territory.near._shown
    assert shown.scenario.store.capacitance_F in CAPACITANCE_STOPS
    assert "Nearest as sold" in told(territory)
    assert f"{shown.cost.amount(RELATIVE):.2f} (relative)" in told(territory)
    then, now = judge(Case(shown.scenario)), judge(Case(before))
    assert bind_units(checks_line(now, then)) in told(territory)
    assert document.scenario == before  # so far it was only looked at
    qtbot.mouseClick(territory.map, Qt.MouseButton.LeftButton, pos=at)
    assert document.scenario == shown.scenario
    document.undo_stack.undo()
    assert document.scenario == before


def test_a_store_of_one_s_own_near_the_pointer_is_what_a_click_takes(
    qtbot, document, jobs, tmp_path, monkeypatch
):
    monkeypatch.setattr(territory_module, "refined", lambda *_: iter(()))
    farads = 3.0 * document.scenario.store.capacitance_F
    store = document.scenario.store.model_copy(update={"capacitance_F": farads, "part": None})
    Shelf(tmp_path).add(part_from("store", store, title="Hearth", price=7.5, currency="EUR"))
    drawer = opened(qtbot, TerritoryDrawer(document, jobs, tmp_path))
    at = pixel(drawer, document.scenario.light.illuminance_lx, 1.1 * farads)
    qtbot.mouseMove(drawer.map, at)
    qtbot.waitUntil(lambda: "Hearth" in told(drawer), timeout=PATIENT)
    assert "7.50 EUR" in told(drawer)
    qtbot.mouseClick(drawer.map, Qt.MouseButton.LeftButton, pos=at)
    assert document.scenario.store.part.title == "Hearth"
    assert document.scenario.store.capacitance_F == farads


def test_the_map_of_panel_areas_names_a_panel_of_one_s_own_with_its_price(
    qtbot, document, jobs, tmp_path, monkeypatch
):
    monkeypatch.setattr(territory_module, "refined", lambda *_: iter(()))
    document.edit("panels.data_sheet", ())
    area = 1.9 * document.scenario.panels.active_area_cm2
    panels = document.scenario.panels.model_copy(update={"active_area_cm2": area, "part": None})
    Shelf(tmp_path).add(part_from("panel", panels, title="Pane", price=2.5, currency="EUR"))
    drawer = opened(qtbot, TerritoryDrawer(document, jobs, tmp_path))
    drawer.up.setCurrentIndex(drawer.up.findData(AREA))
    drawer.up.activated.emit(0)
    assert area in drawer._axes[1].values
    qtbot.waitUntil(lambda: drawer._found is not None and drawer.feed.is_current, timeout=PATIENT)
    at = pixel(drawer, document.scenario.light.illuminance_lx, area)
    qtbot.mouseMove(drawer.map, at)
    qtbot.waitUntil(lambda: "Pane" in told(drawer), timeout=PATIENT)
    count = document.scenario.panels.count * document.scenario.panels.in_series
    assert f"{2.5 * count:.2f} EUR" in told(drawer)
    table = drawer.table("")
    assert len(set(table["price_relative" if "price_relative" in table else "price"])) > 1
    qtbot.mouseClick(drawer.map, Qt.MouseButton.LeftButton, pos=at)
    assert document.scenario.panels.part.title == "Pane"


def test_enter_takes_what_is_nearest_to_the_design_and_the_numbers_have_prices(
    territory, document, qtbot
):
    document.edit("store.capacitance_F", 0.95)
    qtbot.keyClick(territory.map, Qt.Key.Key_Return)
    assert document.scenario.store.capacitance_F == 1.0
    table = territory.table("")
    assert len(table["price"]) == len(table["verdict"])
    assert set(table["currency"]) == {"relative"}
    found = dict(zip(table["store_capacitance_F"], table["price"], strict=True))
    assert found[1.0] == pytest.approx(cost_of(document.scenario).single)
    assert found[2.2] > found[1.0]


def test_the_row_is_named_as_the_knob_names_it_and_the_point_is_the_document_s(
    qtbot, territory, document
):
    across, up = territory._axes
    qtbot.waitUntil(lambda: territory._edges is not None, timeout=PATIENT)
    knob = break_even(Case(document.scenario), across.path, stops_of(across.path))
    summary = territory_summary(across, up, territory.map._point[1], knob.works, knob.runs)
    assert territory.answer.text() == bind_units(summary)
    document.edit("light.illuminance_lx", document.scenario.light.illuminance_lx * 1.5)
    assert territory.map._point[0] == document.scenario.light.illuminance_lx


def test_choosing_the_quantity_of_the_other_axis_swaps_them(qtbot, territory):
    x, y = territory.across.currentData(), territory.up.currentData()
    index = territory.across.findData(y)
    territory.across.setCurrentIndex(index)
    with qtbot.waitSignal(territory.feed.finished, timeout=PATIENT):
        territory.across.activated.emit(index)
    assert (territory.across.currentData(), territory.up.currentData()) == (y, x)


def test_a_design_that_leaves_the_map_gets_another_one(qtbot, territory, document):
    with qtbot.waitSignal(territory.feed.finished, timeout=PATIENT):
        document.edit("light.illuminance_lx", document.scenario.light.illuminance_lx * 50)
    assert Scale(territory._axes[0]).holds(document.scenario.light.illuminance_lx)


def test_another_kind_of_store_changes_the_axis(qtbot, territory, document):
    from explorer.scenario.storage import CellStore

    with qtbot.waitSignal(territory.feed.finished, timeout=PATIENT):
        document.edit("store", CellStore())
    assert "store.capacity_mAh" in [
        territory.up.itemData(i) for i in range(territory.up.count())
    ]
    assert territory.up.currentData() != "store.capacitance_F"


@pytest.mark.parametrize("tokens", ALL_TOKENS, ids=lambda t: t.name)
def test_the_outcomes_differ_on_the_map_without_colour(tokens):
    marks = {s: pattern(s, 64, 64, 1.0) for s in ("runs", "marginal", "falls_short")}
    assert not marks["runs"].any()
    assert marks["marginal"].any()
    assert marks["falls_short"].any()
    assert (marks["marginal"] != marks["falls_short"]).any()
    for state in ("marginal", "falls_short"):
        ground = map_color(state, tokens)
        assert ground.isValid()


def test_the_picture_shows_each_outcome_where_the_model_found_it():
    x = Axis(path="light.illuminance_lx", label="Light", unit="lx", values=(100.0, 1000.0))
    y = Axis(path="load.sleep_A", label="Sleep", unit="A", values=(1e-6, 1e-5))
    margin = np.array([[0.25, 4.0], [0.25, 4.0]])
    found = Territory(
        x=x, y=y, codes=np.array([[0, 2], [0, 2]]), margin=margin, reserve=margin,
        governing=np.zeros((2, 2), int), sure=np.ones((2, 2), bool),
    )
    picture = map_picture(found, Scale(x), Scale(y), 200, 100, 1.0, theme.LIGHT)
    runs = map_color("runs", theme.LIGHT).name()
    assert {picture.image.pixelColor(i, 50).name() for i in range(120, 200)} == {runs}
    left = {picture.image.pixelColor(i, j).name() for i in range(10, 40) for j in range(20)}
    assert map_color("falls_short", theme.LIGHT).name() in left
    # Margins of 1/4 and 4 cross 1 half way in ratio, so the line stands in the middle.
    assert {round(line.x1(), 1) for line in picture.margin_one} == {0.5}


def test_scales_go_there_and_back():
    for axis in (
        Axis(path="a", label="a", unit="lx", values=(50.0, 100.0, 3200.0)),
        Axis(path="b", label="b", unit="", values=(1.0, 2.0, 3.0, 4.0)),
        Axis(path="c", label="c", unit="d", values=(0.0, 15.0, 30.0)),
    ):
        scale = Scale(axis)
        for value in axis.values:
            assert scale.value(scale.share(value)) == pytest.approx(value, rel=1e-2, abs=1e-9)
        assert scale.stop(axis.values[0], -1) >= axis.values[0] * 0.99
        assert scale.stop(axis.values[1], 1) > axis.values[1]
        assert scale.ticks(400.0, 60.0)


# --- spread ---


@pytest.fixture
def spread(qtbot, document, jobs, few_units):
    return opened(qtbot, SpreadDrawer(document, jobs))


def test_the_spread_shows_new_and_aged_units_and_the_strongest_influence_first(spread):
    found = spread._found
    assert found.new.builds == found.aged.builds == drawer_steps.MANY
    assert found.new.years == 0.0
    assert found.aged.years == 10.0
    shares = [spread.model.shares[t.path] for t in spread.model.rows]
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize("tokens", theme.ALL_TOKENS, ids=lambda tokens: tokens.name)
def test_tab_into_the_tolerances_shows_which_one_is_typed(qtbot, spread, tokens):
    spread.activateWindow()
    qtbot.waitUntil(spread.isActiveWindow)
    spread.view.setPalette(theme.palette_of(tokens))
    assert ring(spread.view) >= 1.0
    assert spread.view.currentIndex() == spread.model.index(0, 1)


def test_a_typed_tolerance_is_asked_anew_and_can_be_taken_back(qtbot, spread, document):
    index = spread.model.index(0, 1)
    path, usual = spread.model.rows[0].path, spread.model.rows[0].amount
    with qtbot.waitSignal(spread.feed.finished, timeout=PATIENT):
        assert spread.model.setData(index, "1 %")
    row = next(t for t in spread.model.rows if t.path == path)
    assert row.amount == pytest.approx(0.01)
    assert document.undo_stack.count() == 0
    with qtbot.waitSignal(spread.feed.finished, timeout=PATIENT):
        spread.usual.click()
    row = next(t for t in spread.model.rows if t.path == path)
    assert row.amount == usual


def test_an_impossible_tolerance_is_refused_in_words(qtbot, document, jobs):
    drawer = SpreadDrawer(document, jobs)  # its tolerances stand before anything is worked out
    qtbot.addWidget(drawer)
    for text in ("-5 %", "900 %", "much"):
        with qtbot.waitSignal(document.refused) as said:
            assert not drawer.model.setData(drawer.model.index(0, 1), text)
        assert len(said.args[0]) > 10


def test_a_tolerance_keeps_number_and_unit_of_its_name_together(qtbot, document, jobs):
    drawer = SpreadDrawer(document, jobs)
    qtbot.addWidget(drawer)
    names = [drawer.model.index(row, 0).data() for row in range(drawer.model.rowCount())]
    assert "Leakage current after 72\u00a0h" in names


# --- export and empty states ---


def test_pictures_are_wide_enough_to_print_and_numbers_open_as_a_table(
    qtbot, document, jobs, tmp_path
):
    drawer = opened(qtbot, BudgetDrawer(document, jobs))
    assert drawer.save("png", "", tmp_path / "a.png")
    image = QImage(str(tmp_path / "a.png"))
    assert image.width() >= 1600
    assert image.pixelColor(2, 2).name().upper() == theme.LIGHT.card
    assert drawer.save("svg", "", tmp_path / "a.svg")
    assert "the device" in (tmp_path / "a.svg").read_text(encoding="utf-8")
    assert drawer.save("csv", "", tmp_path / "a.csv")
    with (tmp_path / "a.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert {row["stage"] for row in rows} >= {"panel", "work"}
    assert sum(float(r["share_of_light"]) for r in rows) == pytest.approx(1.0, abs=0.01)


def test_an_export_says_where_it_is_and_a_name_of_another_kind_is_refused(
    qtbot, document, jobs, tmp_path, said
):
    drawer = opened(qtbot, BudgetDrawer(document, jobs))
    (tmp_path / "mine.csv").write_text("1,2", encoding="utf-8")
    for kind in ("png", "svg"):
        assert not drawer.save(kind, "", tmp_path / "mine.csv")
        sentence = f"The name of a {kind.upper()} file ends in .{kind}; mine.csv does not."
        assert said[-1][1] == sentence
    assert (tmp_path / "mine.csv").read_text(encoding="utf-8") == "1,2"
    assert not drawer.save("csv", "", tmp_path / "a.png")
    with qtbot.waitSignal(drawer.reports) as told:
        assert drawer.save("csv", "", tmp_path / "a.csv")
    assert told.args == [f"The file was written: {tmp_path / 'a.csv'}", False]


def test_drawers_export_their_picture_and_their_numbers(
    qtbot, document, jobs, tmp_path, few_units
):
    names = {ContestDrawer: ("",), SpreadDrawer: (BUILDS, INFLUENCES)}
    for kind, tables in names.items():
        shelf = (tmp_path / "parts",) if kind is ContestDrawer else ()
        drawer = opened(qtbot, kind(document, jobs, *shelf))
        drawer.feed.set_open(False)
        for ending in ("png", "svg"):
            path = tmp_path / f"{kind.__name__}.{ending}"
            assert drawer.save(ending, "", path)
            assert path.stat().st_size > 2000
        for number, name in enumerate(tables):
            path = tmp_path / f"{kind.__name__}{number}.csv"
            assert drawer.save("csv", name, path)
            lines = path.read_text(encoding="utf-8").splitlines()
            assert len(lines) > 5
            assert len({line.count(",") for line in lines if '"' not in line}) == 1


def test_a_place_that_cannot_be_written_is_told(qtbot, document, jobs, tmp_path, said):
    drawer = opened(qtbot, BudgetDrawer(document, jobs))
    for ending in ("png", "svg", "csv"):
        assert not drawer.save(ending, "", tmp_path / "none" / f"a.{ending}")
    assert len(said) == 3


def test_a_failure_is_told_in_the_place_of_the_picture(qtbot, document, jobs):
    drawer = opened(qtbot, BudgetDrawer(document, jobs))
    drawer.feed.failed.emit("This could not be computed: the light is negative")
    assert not drawer.has_body
    assert "open the drawer again" in drawer.nothing.text()
    assert not drawer.export.isEnabled()


def test_darkness_leaves_nothing_to_show_and_says_so(qtbot, document, jobs):
    from explorer.scenario.light import WeekPattern

    dark = with_value(Scenario(), "light.pattern", WeekPattern(blocks=()))
    document.new(dark)
    drawer = opened(qtbot, BudgetDrawer(document, jobs))
    assert not drawer.has_body
    assert "no light reaches the panel" in drawer.nothing.text()
