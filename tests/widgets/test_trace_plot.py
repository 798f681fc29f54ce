import gc
import sys
from itertools import pairwise

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QImage, QPainter, QWheelEvent

from explorer.advice.assess import run_for
from explorer.files.scenario_json import load_scenario
from explorer.quantity import show
from explorer.resource_files import scenario_folder
from explorer.scenario.model import Scenario, first_scenario, with_value, with_values
from explorer.scenario.parts import store_families
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.spans import DAY_S, WEEK_S, Window
from explorer.widgets.plots import overlay
from explorer.widgets.plots.pulse_inset import PulseInset
from explorer.widgets.plots.trace_menu import TraceMenu
from explorer.widgets.plots.trace_plot import TracePlot
from tests.advice.years import plant_label
from tests.depth import THOROUGH, thorough
from tests.widgets.samples import made_up, made_up_pulse, run_of

WEEK = Window(from_s=0.0, to_s=WEEK_S)


@pytest.fixture
def plot(qtbot):
    result = TracePlot()
    qtbot.addWidget(result)
    result.resize(640, 400)
    result.show()
    result.set_assessment(made_up(), WEEK)
    qtbot.waitExposed(result)
    return result


def wheel(plot, steps, x, keys=Qt.KeyboardModifier.NoModifier):
    where = QPointF(x, 200)
    plot.wheelEvent(
        QWheelEvent(
            where, plot.mapToGlobal(where), QPoint(), QPoint(0, 120 * steps),
            Qt.MouseButton.NoButton, keys,
            Qt.ScrollPhase.NoScrollPhase, False,
        )
    )  # fmt: skip


def x_range(plot):
    return tuple(plot.getPlotItem().getViewBox().viewRange()[0])


def test_it_shows_the_whole_window_and_axes_that_begin_at_zero(plot):
    assert x_range(plot) == pytest.approx((0.0, WEEK_S))
    low, high = plot.getPlotItem().getViewBox().viewRange()[1]
    assert low == 0.0
    assert high > 5.0


def test_no_menu_of_the_plot_library_is_built_for_its_view(plot):
    item = plot.getPlotItem()
    assert item.getViewBox().menu is None
    assert not item.menuEnabled()


def test_the_axis_does_not_move_while_a_knob_moves(plot):
    before = plot.getPlotItem().getViewBox().viewRange()
    for level in (310.0, 330.0, 350.0):
        plot.set_assessment(made_up(with_value(Scenario(), "light.illuminance_lx", level)), WEEK)
    assert plot.getPlotItem().getViewBox().viewRange() == before


def test_the_wheel_zooms_in_time_around_the_pointer(qtbot, plot):
    x = plot.to_x(3 * DAY_S)
    with qtbot.waitSignal(plot.zoomed_changed) as heard:
        wheel(plot, 4, x)
    assert heard.args == [True]
    assert plot.shown.length_s < 0.5 * WEEK_S
    assert plot.to_x(3 * DAY_S) == pytest.approx(x, abs=1.0)


def test_fit_shows_everything_again(qtbot, plot):
    wheel(plot, 4, 300)
    with qtbot.waitSignal(plot.zoomed_changed) as heard:
        plot.fit()
    assert heard.args == [False]
    assert x_range(plot) == pytest.approx((0.0, WEEK_S))


def test_a_zoom_asks_the_run_anew_within_a_frame(qtbot, plot):
    """What is on show has a column for every pixel, at any zoom."""
    before = plot._picture
    assert before.edge_s[[0, -1]] == pytest.approx([0.0, WEEK_S])
    wheel(plot, 20, plot.to_x(4.5 * DAY_S))
    qtbot.waitUntil(lambda: plot._picture is not before)
    shown = plot._picture
    assert shown.edge_s[[0, -1]] == pytest.approx([plot.shown.from_s, plot.shown.to_s])
    assert len(shown.low_v) == pytest.approx(plot.area().width(), abs=1)
    time_s, volts = plot._curve.getData()
    exact = plot._assessment.trace.at(time_s).store_v
    assert volts == pytest.approx(exact, abs=2e-3)


def test_a_wider_plot_has_more_columns(qtbot, plot):
    before = len(plot._picture.low_v)
    plot.resize(900, 400)
    qtbot.waitUntil(lambda: len(plot._picture.low_v) > before + 200)


def test_nothing_is_drawn_where_nothing_was_computed(qtbot, plot):
    short = run_of(Scenario(), 3 * DAY_S)
    plot.set_assessment(made_up(trace=short), WEEK)
    time_s, volts = plot._curve.getData()
    assert time_s[np.isfinite(volts)].max() <= 3 * DAY_S * (1 + 1e-9)
    plot.set_cursor(5 * DAY_S)
    assert plot.cursor_lines()[1].label == "not followed so far"
    plot.grab()


def test_a_zoom_out_never_leaves_the_window(plot):
    wheel(plot, -30, 300)
    assert plot.shown == WEEK


def test_a_zoom_stays_while_results_come(plot):
    wheel(plot, 4, 300)
    shown = plot.shown
    plot.set_assessment(made_up(), WEEK)
    assert plot.shown == shown


def test_the_mouse_moves_the_cursor(qtbot, plot):
    where = QPoint(round(plot.to_x(2 * DAY_S)), 200)
    with qtbot.waitSignal(plot.cursor_moved):
        qtbot.mouseMove(plot.viewport(), where)
    assert plot.cursor_s == pytest.approx(2 * DAY_S, abs=WEEK_S / 500)
    assert plot.cursor_lines()[0].label.startswith("Wed 0")


def test_the_keyboard_moves_hides_and_zooms(qtbot, plot):
    plot.setFocus()
    qtbot.keyClick(plot, Qt.Key.Key_Right)
    first = plot.cursor_s
    qtbot.keyClick(plot, Qt.Key.Key_Right)
    assert plot.cursor_s > first
    qtbot.keyClick(plot, Qt.Key.Key_Left)
    assert plot.cursor_s == pytest.approx(first)
    qtbot.keyClick(plot, Qt.Key.Key_Plus)
    assert plot.is_zoomed
    qtbot.keyClick(plot, Qt.Key.Key_Home)
    assert not plot.is_zoomed
    qtbot.keyClick(plot, Qt.Key.Key_Escape)
    assert plot.cursor_s is None


def test_dragging_pans_a_zoomed_trace(qtbot, plot):
    wheel(plot, 6, plot.to_x(3.5 * DAY_S))
    before = plot.shown
    port = plot.viewport()
    qtbot.mousePress(port, Qt.MouseButton.LeftButton, pos=QPoint(300, 200))
    qtbot.mouseMove(port, QPoint(250, 200))
    qtbot.mouseRelease(port, Qt.MouseButton.LeftButton, pos=QPoint(250, 200))
    assert plot.shown.from_s > before.from_s
    assert plot.shown.length_s == pytest.approx(before.length_s)


def test_ctrl_and_the_wheel_zoom_in_volts_around_the_pointer(plot):
    whole, seconds = plot.shown_volts, plot.shown
    at = plot.volts_at(200)
    wheel(plot, 4, plot.to_x(3 * DAY_S), Qt.KeyboardModifier.ControlModifier)
    low, high = plot.shown_volts
    assert high - low == pytest.approx((whole[1] - whole[0]) / 1.25**4)
    assert plot.volts_at(200) == pytest.approx(at, abs=0.02)
    assert plot.shown == seconds
    assert plot.is_zoomed
    plot.fit()
    assert plot.shown_volts == whole
    assert not plot.is_zoomed


def test_the_wheel_over_the_voltage_axis_zooms_in_volts(plot):
    seconds, (low, high) = plot.shown, plot.shown_volts
    wheel(plot, 1, 10)
    assert plot.shown == seconds
    assert plot.shown_volts[1] - plot.shown_volts[0] == pytest.approx((high - low) / 1.25)


def test_a_zoom_in_volts_stays_while_results_come(plot):
    plot.zoom_volts(4.0, 3.0)
    shown = plot.shown_volts
    plot.set_assessment(made_up(with_value(Scenario(), "light.illuminance_lx", 350.0)), WEEK)
    assert plot.shown_volts == shown


def test_a_box_drawn_with_shift_is_what_is_shown_next(qtbot, plot):
    left, right = plot.to_x(1 * DAY_S), plot.to_x(3 * DAY_S)
    top, bottom = plot.to_y(3.0), plot.to_y(1.5)
    shift, button = Qt.KeyboardModifier.ShiftModifier, Qt.MouseButton.LeftButton
    corners = QPoint(round(left), round(top)), QPoint(round(right), round(bottom))
    qtbot.mousePress(plot.viewport(), button, shift, corners[0])
    qtbot.mouseMove(plot.viewport(), corners[1])
    assert plot.box.width() == pytest.approx(right - left, abs=2)
    qtbot.mouseRelease(plot.viewport(), button, shift, corners[1])
    assert plot.box is None
    assert plot.shown.from_s == pytest.approx(1 * DAY_S, abs=0.03 * DAY_S)
    assert plot.shown.to_s == pytest.approx(3 * DAY_S, abs=0.03 * DAY_S)
    assert plot.shown_volts == pytest.approx((1.5, 3.0), abs=0.05)


def test_a_click_with_shift_is_no_box(qtbot, plot):
    shift = Qt.KeyboardModifier.ShiftModifier
    qtbot.mouseClick(plot.viewport(), Qt.MouseButton.LeftButton, shift, QPoint(300, 200))
    assert not plot.is_zoomed


def test_keys_zoom_and_move_in_both_axes(qtbot, plot):
    plot.setFocus()
    low, high = plot.shown_volts
    qtbot.keyClick(plot, Qt.Key.Key_Plus, Qt.KeyboardModifier.ControlModifier)
    assert plot.shown_volts[1] - plot.shown_volts[0] == pytest.approx((high - low) / 1.25)
    before = plot.shown_volts
    qtbot.keyClick(plot, Qt.Key.Key_Up)
    assert plot.shown_volts[0] > before[0]
    qtbot.keyClick(plot, Qt.Key.Key_Down)
    assert plot.shown_volts == pytest.approx(before)
    qtbot.keyClick(plot, Qt.Key.Key_Plus)
    start = plot.shown.from_s
    qtbot.keyClick(plot, Qt.Key.Key_PageDown)
    assert plot.shown.from_s > start


def test_the_cursor_measures_from_the_mark(qtbot, plot):
    """Time, volts, charge and mean currents between them agree with the run's own ledger."""
    trace = plot.assessment.trace
    plot.setFocus()
    plot.set_cursor(2 * DAY_S)
    qtbot.keyClick(plot, Qt.Key.Key_M)
    plot.set_cursor(1 * DAY_S)
    lines = {line.label: line.value for line in plot.cursor_lines()}
    row = trace.rows(np.array([DAY_S]), np.array([2 * DAY_S]))
    charge, _ = trace.charge_at(np.array([DAY_S, 2 * DAY_S]))
    gained = float(charge[1] - charge[0])
    net = float((row.harvest_a - row.load_a - row.leakage_a)[0]) * DAY_S
    assert net == pytest.approx(gained, rel=1e-6, abs=1e-9)
    assert lines["Δ time from the mark"] == "24 h"
    assert lines["charge gained"] == ("−" if gained < 0 else "+") + show(abs(gained), "C")
    assert lines["mean charging"] == show(float(row.harvest_a[0]), "A")
    assert lines["mean load"] == show(float(row.load_a[0]), "A")
    qtbot.keyClick(plot, Qt.Key.Key_Escape)
    assert plot.mark_s is None
    assert plot.cursor_lines() == ()


def test_the_moment_is_told_as_finely_as_the_zoom_shows(plot):
    plot.set_cursor(2 * DAY_S + 1.5)
    assert plot.cursor_lines()[0].label == "Wed 00:00"
    plot.zoom(1e5, 2 * DAY_S + 1.5)
    plot.set_cursor(2 * DAY_S + 1.5)
    assert plot.cursor_lines()[0].label == "Wed 00:00:01.50"


def test_its_menu_measures_zooms_and_exports_what_is_shown(plot, tmp_path):
    document = Document(Scenario())
    menu = TraceMenu(plot, document)
    plot.set_cursor(3 * DAY_S)
    choices = {action.text(): action for action in menu.build().actions()}
    choices["&Measure from here\tM"].trigger()
    assert plot.mark_s == 3 * DAY_S
    choices["Zoom &in\t+"].trigger()
    assert plot.is_zoomed
    assert menu.save("csv", tmp_path / "trace.csv")
    rows = (tmp_path / "trace.csv").read_text().splitlines()
    assert rows[0].startswith("time_s,store_V,terminal_V")
    assert float(rows[1].split(",")[0]) == pytest.approx(plot.shown.from_s)
    assert menu.save("png", tmp_path / "trace.png")
    assert menu.save("svg", tmp_path / "trace.svg")
    assert QImage(str(tmp_path / "trace.png")).width() >= 1600
    assert "<svg" in (tmp_path / "trace.svg").read_text()


def test_a_pinned_design_is_drawn_and_read(plot):
    plain = plot.grab().toImage()
    plot.set_ghost(made_up(with_value(Scenario(), "light.illuminance_lx", 150.0)))
    assert plot.grab().toImage() != plain
    plot.set_cursor(2 * DAY_S)
    assert plot.cursor_lines()[-1].label == "pinned"
    plot.set_cursor(None)
    plot.set_ghost(None)
    assert plot.grab().toImage() == plain


@pytest.mark.parametrize("lux", [900.0, 2500.0], ids=["another", "as pinned"])
def test_the_name_of_a_pinned_design_lies_on_no_curve_however_steep(
    qtbot, plot, monkeypatch, lux
):
    scenario = load_scenario(scenario_folder() / "watering_valve.json").scenario
    other = with_value(scenario, "light.illuminance_lx", lux)
    plot.resize(620, 330)
    plot.set_assessment(made_up(scenario, trace=run_of(scenario, WEEK_S)), WEEK)
    plot.set_ghost(made_up(other, trace=run_of(other, WEEK_S)))
    qtbot.wait(50)
    painted = {}
    monkeypatch.setattr(
        overlay, "paint_label", lambda _, at, text, *more: painted.update({text: at})
    )
    plot.grab()
    at = painted["pinned"]
    assert at.x() > plot.area().left()
    for x, y in plot._lines_px(plot._view()):
        beneath = y[..., (x > at.x()) & (x < at.x() + 30.0)]
        assert not ((beneath > at.y() - 8.0) & (beneath < at.y())).any()


@pytest.mark.parametrize("height", [96, 150, 200])
def test_the_name_of_full_stands_above_a_curve_that_runs_there(qtbot, plot, monkeypatch, height):
    scenario = load_scenario(scenario_folder() / "plant_label.json").scenario
    plot.set_assessment(made_up(scenario, trace=run_of(scenario, WEEK_S)), WEEK)
    plot.resize(640, height)
    qtbot.wait(50)  # until the curve is known at that size
    painted = []
    paint = overlay.paint_thresholds
    monkeypatch.setattr(overlay, "paint_thresholds", lambda *a: painted.append((a, paint(*a))))
    plot.grab()
    (_, view, thresholds, *_), names = painted[-1]
    name = min(names, key=lambda place: place.top())
    assert name.top() >= 0
    assert name.bottom() <= view.y(max(one.volts for one in thresholds)) + 1


def test_the_name_of_a_line_in_a_band_keeps_off_the_curve_that_runs_through_it(
    qtbot, plot, monkeypatch
):
    """A motor that runs again and again: the curve stands for what is usual within the band."""
    scenario = load_scenario(scenario_folder() / "vent_flap.json").scenario
    plot.set_assessment(made_up(scenario, trace=run_of(scenario, WEEK_S)), WEEK)
    plot.resize(640, 300)
    qtbot.wait(50)  # until the curve is known at that size
    painted = []
    paint = overlay.paint_thresholds
    monkeypatch.setattr(overlay, "paint_thresholds", lambda *a: painted.append((a, paint(*a))))
    plot.grab()
    (_, view, *_), names = painted[-1]
    time_s, volts = plot._picture.line(view.pixel_v)
    assert plot._picture.dense(view.pixel_v).mean() > 0.9
    assert len(names) == 3
    for name in names:
        at = np.linspace(name.left(), name.right(), 100)
        y = np.interp(at, view.x(time_s), view.y(volts))
        assert not ((y > name.top()) & (y < name.bottom())).any()


def test_the_note_of_the_axis_stands_beside_a_curve_that_begins_at_the_bottom(
    qtbot, plot, monkeypatch
):
    hybrid = next(f for f in store_families() if f.key == "hybrid").store(10.0)
    scenario = with_values(first_scenario(), {
        "store": hybrid, "charger.full_V": 3.5, "load.connect_V": 3.3, "load.disconnect_V": 3.1,
        "load.minimum_V": 2.6,
    })  # fmt: skip
    plot.set_assessment(made_up(scenario, trace=run_of(scenario, WEEK_S)), WEEK)
    plot.resize(640, 150)
    qtbot.wait(50)  # until the curve is known at that size
    written = {}
    monkeypatch.setattr(
        overlay, "paint_label", lambda _, at, text, *__, **___: written.setdefault(text, at)
    )
    plot.grab()
    at = next(at for text, at in written.items() if "axis begins" in text)
    width = plot.fontMetrics().horizontalAdvance("axis begins at 2.44 V")
    ((x, y), *_) = plot._lines_px(plot._view())
    over_it = y[:, (x >= at.x()) & (x <= at.x() + width)]
    assert np.nanmax(over_it) < at.y() - theme.TEXT_SIZES["small"]


def test_a_new_palette_changes_ground_axes_and_curves(qtbot, plot, qapp):
    qapp.setPalette(theme.palette_of(theme.DARK))
    qapp.processEvents()
    image = plot.grab().toImage()
    corner = image.pixelColor(3, 3).name().upper()
    assert corner == theme.DARK.card
    assert plot._curve.opts["pen"].color().name().upper() == theme.DARK.accent


def test_the_plot_has_a_name_and_says_its_key_numbers(plot):
    assert plot.accessibleName() == "Trace of the store voltage, V"
    assert "highest" in plot.accessibleDescription()


def test_lit_hours_become_one_band_each():
    bands = overlay.LitBands(run_of(Scenario(), WEEK_S)).bands
    assert len(bands) == 5
    start, end, _ = bands[0]
    assert start == pytest.approx(8 * 3600, abs=400)
    assert end == pytest.approx(18 * 3600, abs=400)


@pytest.mark.parametrize(("days", "shaded"), [(7.0, True), (360.0, False)])
def test_of_a_year_the_lit_hours_in_view_are_shaded_while_they_are_few(qtbot, days, shaded):
    bands = overlay.LitBands(run_for(plant_label()))
    assert len(bands.bands) > overlay.MOST_BANDS
    picture = QImage(700, 20, QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.white)
    view = overlay.View(
        area=QRectF(picture.rect()), from_s=100.0 * DAY_S, to_s=(100.0 + days) * DAY_S,
        low_v=0.0, high_v=1.0,
    )
    painter = QPainter(picture)
    bands.paint(painter, view, theme.LIGHT)
    painter.end()
    white = [picture.pixelColor(x, 10) == Qt.GlobalColor.white for x in range(700)]
    nights = sum(a and not b for a, b in pairwise(white))
    assert (nights, all(white)) == ((7, False) if shaded else (0, True))


def test_brightness_steps_with_the_light_and_dark_is_none():
    levels = overlay.brightness_level(np.array([0.0, 0.5, 10.0, 100.0, 1000.0]))
    assert levels.tolist() == [0, 0, 1, 3, overlay.LEVELS]


@thorough
@pytest.mark.alone
def test_many_paintings_drop_no_reference_to_none(plot, qapp):
    # A binding that drops one on each void call aborts the program within a few hundred frames.
    frames, shown = 500 if THOROUGH else 150, made_up()
    plot.repaint()
    gc.disable()  # a collection in between would drop some
    try:
        before = sys.getrefcount(None)
        for frame in range(frames):
            plot.set_assessment(shown, WEEK)
            plot.set_cursor(frame * 600.0)
            plot.viewport().repaint()
        qapp.processEvents()
        dropped = before - sys.getrefcount(None)
    finally:
        gc.enable()
    assert dropped < frames / 2


def test_the_pulse_says_its_step_and_ramp(qtbot):
    inset = PulseInset()
    qtbot.addWidget(inset)
    inset.resize(300, 130)
    inset.show()
    empty = inset.grab().toImage()
    inset.set_pulse(made_up_pulse())
    assert "ESR step 0.22 V, ramp 60 mV" in inset.accessibleDescription()
    assert inset.grab().toImage() != empty
    inset.set_pulse(None)
    assert inset.grab().toImage() == empty


def test_leaving_takes_the_cursor_along_unless_it_has_the_focus(plot):
    plot.clearFocus()
    plot.set_cursor(DAY_S)
    plot.leaveEvent(QEvent(QEvent.Type.Leave))
    assert plot.cursor_s is None
    plot.setFocus()
    plot.set_cursor(DAY_S)
    plot.leaveEvent(QEvent(QEvent.Type.Leave))
    assert plot.cursor_s == DAY_S
