"""The names of the stand's lines: each beside its own line, and clear of the curve."""

import numpy as np
import pytest
from PySide6.QtGui import QFontMetricsF

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_value
from explorer.stand import stand_trace
from explorer.stand.fit_label import sized_font
from explorer.stand.legibility import sizes_for
from explorer.stand.stand_trace import StandTrace
from explorer.state.spans import WEEK_S, Window
from explorer.state.theme import tokens_of
from explorer.widgets.paint import mix
from explorer.widgets.plots import overlay

SCREENS = {(1280, 800): (1252, 312), (1920, 1080): (1882, 420), (2560, 1440): (2508, 560)}
"""Size of the trace on a page of a size."""
LABELS = {"starts": "connects", "stops": "cuts off", "full": "full"}


@pytest.fixture
def names(qtbot, monkeypatch):
    """Paints a design at a size and gives its names with their places."""

    def painted(scenario, screen):
        found = []
        paint = stand_trace._paint_haloed

        def heard(painter, start, text, *rest):
            found.append((text, start))
            paint(painter, start, text, *rest)

        monkeypatch.setattr(stand_trace, "_paint_haloed", heard)
        trace = StandTrace()
        qtbot.addWidget(trace)
        trace.set_sizes(sizes_for(screen, 24.0, 3.0))
        trace.resize(*SCREENS[screen])
        trace.set_assessment(assess(Case(scenario)), Window(from_s=0.0, to_s=WEEK_S))
        trace.shot = trace.grab().toImage()
        return trace, found

    return painted


def design(name, lux):
    scenario = load_scenario(scenario_folder() / f"{name}.json").scenario
    return with_value(scenario, "light.illuminance_lx", lux)


@pytest.mark.parametrize("screen", SCREENS)
@pytest.mark.parametrize("name", ["soil_probe", "door_counter", "vent_flap"])
@pytest.mark.parametrize("lux", [100.0, 250.0, 450.0, 550.0, 700.0])
def test_a_name_stands_nearest_to_its_own_line_and_clear_of_the_curve(names, name, lux, screen):
    trace, found = names(design(name, lux), screen)
    assert any(text.startswith("stops") for text, _ in found)
    sizes = sizes_for(screen, 24.0, 3.0)
    metrics = QFontMetricsF(sized_font(sizes.axis))
    capital, area = metrics.capHeight(), trace._area(sizes)

    def height(volts):
        return area.bottom() - np.asarray(volts) / trace._top_v() * area.height()

    heights = {line.label: float(height(line.volts)) for line in trace._assessment.thresholds}
    time_s, volts = trace._line
    for text, start in found:
        top, base = start.y() - capital, start.y()
        apart = {label: max(h - base, top - h) for label, h in heights.items()}
        assert min(apart, key=apart.get) == LABELS[text.split()[0]]
        if text.startswith("stops"):  # it is named in any case
            continue
        left, right = start.x(), start.x() + metrics.horizontalAdvance(text)
        x = area.left() + time_s / WEEK_S * area.width()
        at = np.linspace(left, right, 300)
        tips = volts[(x > left) & (x < right)]
        y = height(np.concatenate((np.interp(at, x, volts), tips)))
        reach = 0.055 * sizes.axis  # half of the curve's stroke
        assert not ((y > top - reach) & (y < base + reach)).any()


@pytest.mark.parametrize("screen", SCREENS)
def test_a_line_in_a_band_shows_there_and_no_name_has_letters_on_it(names, screen):
    """The band of a motor that runs again and again hid the line at which it starts."""
    trace, found = names(design("vent_flap", 3000.0), screen)
    (starts,) = [start for text, start in found if text.startswith("starts")]
    assert len(found) >= 2
    shot, tokens = trace.shot, tokens_of(trace.palette())
    band = mix(tokens.color("accent"), tokens.color("card"), overlay.DENSE).rgb()
    sizes = sizes_for(screen, 24.0, 3.0)
    area, metrics = trace._area(sizes), QFontMetricsF(sized_font(sizes.axis))
    assert sum(shot.pixel(x, y) == band for x in (600, 601) for y in range(shot.height())) > 20
    (line,) = [t.volts for t in trace._assessment.thresholds if t.label == "connects"]
    row = round(area.bottom() - line / trace._top_v() * area.height())
    dashes = sum(shot.pixel(x, row) == tokens.color("threshold").rgb() for x in range(200, 1000))
    assert 300 < dashes < 600, "four parts of seven, but for their ends"
    for text, start in found:
        columns = range(round(start.x()), round(start.x() + metrics.horizontalAdvance(text)))
        rows = range(round(start.y() - metrics.capHeight()), round(start.y()))
        assert not any(shot.pixel(x, y) == band for x in columns for y in rows), text
    assert starts.y() > row
