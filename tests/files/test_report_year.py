"""The year on a sheet: four figures and a row for every month."""

import json
import re
from dataclasses import replace
from math import inf

import numpy as np
import pytest

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.year.view import year_view
from explorer.cli.year import year_section
from explorer.files.report_blocks import Figure, Table
from explorer.files.report_svg import WIDTH, chart_svg
from explorer.files.report_year import month_table, year_blocks
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_value
from tests.advice.years import daylight, in_a_year, plant_label


@pytest.fixture(scope="module")
def view():
    return year_view(plant_label())


def test_a_scenario_of_a_week_has_no_year_on_its_sheet():
    assert year_blocks(None) == []


def test_every_month_has_its_row(view):
    table = next(block for block in year_blocks(view) if isinstance(block, Table))
    assert [row.cells[0] for row in table.rows][:2] == ["Jan", "Feb"]
    assert len(table.rows) == 12
    assert sum(column.share for column in table.columns) == pytest.approx(1.0)


def test_the_figures_show_the_days_off_the_hours_and_the_energies(view):
    figures = [block for block in year_blocks(view) if isinstance(block, Figure)]
    trace, light, store, energy = figures
    off_s = sum(end - begin for begin, end in trace.chart.shades)
    assert off_s == pytest.approx(view.off_days * 86_400.0)
    taken = energy.chart.bars[0]
    assert taken.high == pytest.approx([m.taken_in_j for m in view.months])
    assert (np.diff(taken.begin) > 27 * 86_400.0).all()
    hours = light.chart.mosaic.classes
    assert hours.shape == view.calendar.illuminance_lx.shape == (365, 24)
    assert not hours[355, 0]
    assert hours[170, 12] == hours.max() == len(light.chart.mosaic.labels) - 1
    assert (store.chart.mosaic.classes == 0).sum() == (~view.calendar.connected).sum() > 24
    for one in figures:
        assert chart_svg(one.chart, one.spoken).count("<text") > 15


def test_tiles_of_one_class_are_one_shape_and_cover_the_field(view):
    light = next(b for b in year_blocks(view) if isinstance(b, Figure) and b.chart.mosaic)
    drawn = chart_svg(light.chart, light.spoken)
    shapes = re.findall(r'<path d="([^"]+)"', drawn)
    assert len(shapes) == len(light.chart.mosaic.labels)
    wide = [float(w) for shape in shapes for w in re.findall(r"h([\d.]+)v", shape)]
    assert sum(wide) == pytest.approx(24 * (WIDTH - 66.0 - 140.0), abs=0.01 * len(wide))


def test_where_no_light_comes_all_year_no_stretch_of_dark_has_an_end():
    """Behind a cover that lets next to nothing through; on the sheet, and as `check --json`."""
    shut = daylight(place={"kind": "indoors", "daylight_factor": 1e-4, "sun": "sky_alone"})
    case = in_a_year(plant_label().scenario, shut, **{"light.cover_factor": 0.05})
    assert answers(case)["longest_dark_s"] == inf
    table = next(block for block in year_blocks(year_view(case)) if isinstance(block, Table))
    assert {row.cells[3] for row in table.rows} == {"no end"}
    told = year_section(case)
    assert "The light never brings its store anything." in told["sentences"]
    json.dumps(told, allow_nan=False)
    assert [month["longest_dark_s"] for month in told["months"]] == [None] * 12
    assert all(month["margins"]["dark"] == 0.0 for month in told["months"])


def test_a_month_that_lasts_longer_than_it_was_followed_is_told_so(view):
    followed = replace(view.months[0], margins=view.months[0].margins | {"dark": 20.0})
    months = (replace(followed, dark_at_least=True), replace(followed, dark_at_least=False))
    assert [row.cells[-1] for row in month_table(replace(view, months=months)).rows] == [
        "> 20×", "20×",
    ]


def test_short_nights_of_a_year_are_outlasted_by_more_than_is_followed():
    path = scenario_folder() / "window_air_sensor.json"
    case = Case(with_value(load_scenario(path).scenario, "light.pattern.holidays", ()))
    rows = month_table(year_view(case)).rows
    assert {row.cells[-1] for row in rows} == {"> 20×"}
