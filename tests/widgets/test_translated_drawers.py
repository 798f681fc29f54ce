"""Drawers, trace and comparison with every translated letter disguised: no English is left."""

import csv
import re

import pytest
from PySide6.QtWidgets import QApplication

from explorer.advice.case import Case
from explorer.advice.year.view import year_view
from explorer.resource_files import resource_path, scenario_folder
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.storage import CellStore
from explorer.state.examples import example_name
from explorer.widgets.compare.table import OTHER
from explorer.widgets.drawers import export
from explorer.widgets.drawers.bench_drawer import READINGS, VALUES
from explorer.widgets.drawers.drawers import QUESTIONS
from explorer.widgets.drawers.export import save_svg
from explorer.widgets.drawers.panel_drawer import CHARGER, CURVE, SOURCES
from explorer.widgets.drawers.spread_drawer import BUILDS, INFLUENCES
from explorer.widgets.drawers.year_drawer import YearDrawer
from explorer.widgets.plots.number_axis import NumberAxis
from explorer.widgets.sheet.sheet_plot import SheetPlot
from tests import pseudo
from tests.advice.years import plant_label
from tests.make_bench_log import NAME
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.samples import first_day

PATIENT = 60_000
OWN = frozenset({"New", "scenario", "measure", "and", "send", *re.findall("[a-z]+", NAME)})
"""Title and operation of a new scenario, which belong to the user."""


@pytest.fixture(autouse=True)
def disguised(monkeypatch):
    """Before any window is built."""
    pseudo.use(monkeypatch)


@pytest.fixture
def painted(monkeypatch):
    return pseudo.painted(monkeypatch)


def left(widget, painted, own=OWN):
    """English that is on a widget or painted by it."""
    widget.grab()
    QApplication.processEvents()
    strokes = [f"painted: {text}" for text in painted if pseudo.is_forgotten(text, own)]
    return [*pseudo.forgotten(widget, own), *sorted(set(strokes))]


def opened(qtbot, window, key):
    drawers = window.questions.drawers
    drawer = drawers.drawer(key)
    if key == "bench":
        drawer.open_log(resource_path("logs", NAME))
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        drawers.open(key)
    return drawer


# A scenario of a week has no year to show.
@pytest.mark.parametrize("key", [key for key in QUESTIONS if key != "year"])
def test_no_drawer_keeps_an_english_text_but_its_tables_do(
    qtbot, window, painted, key, tmp_path, few_units
):
    drawer = opened(qtbot, window, key)
    assert drawer.has_body
    assert left(drawer, painted) == []
    assert "ж" in "".join(painted)
    tables = {
        "spread": (BUILDS, INFLUENCES), "panel": (CURVE, CHARGER, SOURCES),
        "bench": (READINGS, VALUES), "builds": (),
    }  # fmt: skip
    for number, name in enumerate(tables.get(key, ("",))):
        path = tmp_path / f"{key}{number}.csv"
        assert drawer.save("csv", name, path)
        text = path.read_text(encoding="utf-8")
        assert "ж" not in text
        assert len({len(row) for row in csv.reader(text.splitlines())}) == 1
    if key == "budget":
        save_svg(drawer.picture(), tmp_path / "a.svg")
        assert "ж" in (tmp_path / "a.svg").read_text(encoding="utf-8")


def test_a_year_keeps_none(qtbot, document, jobs, painted):
    view = year_view(plant_label())
    own = OWN
    drawer = YearDrawer(document, jobs)
    qtbot.addWidget(drawer)
    for size in ((520, 700), (1100, 900)):
        drawer.resize(*size)
        drawer.show()
        drawer.show_step(view)
        assert left(drawer, painted, own) == []
    assert any(re.search(r"\d,\d", text) for text in painted)


def test_a_logged_run_and_its_fit_keep_none(qtbot, window, painted, tmp_path):
    drawer = window.questions.drawers.drawer("bench")
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        window.questions.drawers.open_log(first_day(tmp_path))
    own = OWN | {"store", "V", "mV"}
    assert left(drawer, painted, own) == []
    with qtbot.waitSignal(drawer.search.finished, timeout=PATIENT):
        drawer.fit_button.click()
    assert left(drawer, painted, own) == []
    drawer.document.edit("title", "Moss")
    bad = tmp_path / "bad.csv"
    bad.write_text("time,V\n0,3\n1,x\n2,3\n", encoding="utf-8")
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        drawer.open_log(bad)
    assert left(drawer, painted, own | {"bad", "csv", "x", "store", "mV"}) == []


def test_the_strip_of_questions_keeps_none(window, painted):
    for width in (1200, 700, 330):
        window.questions.drawers.resize(width, 60)
        assert left(window.questions.drawers, painted) == []


def test_the_trace_and_its_answers_keep_none(qtbot, window, painted):
    card = window.trace
    for span in card.spans.buttons():
        span.click()
        window.solver.solve_now()
        card.plot.set_cursor(card.plot.shown.from_s + 0.4 * card.plot.shown.length_s)
        assert left(card, painted) == [], span.objectName()


def test_a_pinned_design_and_a_close_look_keep_none(qtbot, window, document, painted):
    window.commands["pin"].trigger()
    document.edit("light.illuminance_lx", 450.0)
    window.solver.solve_now()
    window.trace.plot.zoom(6.0, 200_000.0)
    window.trace.plot.set_cursor(200_000.0)
    assert left(window.trace, painted) == []


@pytest.mark.usefixtures("asked_at_rest")
def test_remedies_keep_none(qtbot, window, document, painted):
    with qtbot.waitSignal(window.questions.remedies.feed.finished, timeout=PATIENT):
        document.edit("light.illuminance_lx", 40.0)
    assert left(window.questions.remedies, painted) == []


def test_landmarks_on_the_sliders_keep_none(window, painted):
    for row in window.knobs.rows:
        assert left(row.slider, painted) == []


def test_the_comparison_keeps_none(qtbot, window, painted):
    window.commands["compare"].trigger()
    compare = window.comparisons.one
    compare.resize(1700, 800)  # a title that is cut would be no known word
    QApplication.processEvents()
    painted.clear()
    assert left(compare.choice, painted, own=OWN | example_words()) == []
    other = with_value(Scenario(title="Moss wall"), "store", CellStore())
    other = with_value(other, "light.illuminance_lx", 500.0)
    with qtbot.waitSignal(compare.comparison.assessed, timeout=PATIENT):
        compare.compare_with(Case(other), "moss.json")
    own = OWN | {"Moss", "wall", "moss", "json"}
    assert left(compare, painted, own | example_words()) == []


def example_words():
    """Titles of the demonstration set."""
    titles = [example_name(path) for path in scenario_folder().glob("*.json")]
    return frozenset(re.findall("[A-Za-z]+", " ".join(titles)))


def test_names_of_exported_files_stay_english(qtbot, window, monkeypatch):
    drawer = opened(qtbot, window, "panel")
    suggested = []
    monkeypatch.setattr(export, "pick_file", lambda _, name, __: suggested.append(name))
    for action in drawer.export.menu().actions():
        action.trigger()
    stem = "how-does-the-panel-work"
    ends = (".png", ".svg", "-curve.csv", "-charger.csv", "-sources.csv")
    assert suggested == [f"{stem}{end}" for end in ends]


def test_what_a_person_typed_is_shown_as_typed(window, document):
    window.commands["compare"].trigger()
    compare = window.comparisons.one
    compare.compare_with(Case(with_value(document.scenario, "title", "Light")), "a.json")
    model = compare.differences.rows
    cells = [model.index(row, OTHER).data() for row in range(model.rowCount())]
    assert "Light" in cells


def test_a_typed_tolerance_is_refused_in_the_language(qtbot, window, document):
    drawer = window.questions.drawers.drawer("spread")
    for text in ("900 %", "much"):
        with qtbot.waitSignal(document.refused):
            assert not drawer.model.setData(drawer.model.index(0, 1), text)
        assert not pseudo.is_forgotten(window.notice.text.text(), frozenset({"much"}))


def test_an_axis_of_numbers_has_the_decimal_mark_of_the_language(qapp):
    assert NumberAxis("left").tickStrings([2.5, 3.0], 1.0, 0.5) == ["2,5", "3,0"]


def test_the_plot_of_a_data_sheet_has_it_on_both_axes(qtbot):
    plot = SheetPlot()
    qtbot.addWidget(plot)
    for side in ("left", "bottom"):
        assert plot.getPlotItem().getAxis(side).tickStrings([0.2], 1.0, 0.1) == ["0,2"]
