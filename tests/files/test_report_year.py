"""The year on a sheet: two figures and a row for every month."""

import numpy as np
import pytest

from explorer.advice.year.view import year_view
from explorer.files.report_blocks import Figure, Table
from explorer.files.report_svg import chart_svg
from explorer.files.report_year import year_blocks
from tests.advice.years import plant_label


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


def test_the_figures_show_the_days_off_and_the_energies(view):
    trace, energy = (block for block in year_blocks(view) if isinstance(block, Figure))
    off_s = sum(end - begin for begin, end in trace.chart.shades)
    assert off_s == pytest.approx(view.off_days * 86_400.0)
    taken = energy.chart.curves[0].y
    assert np.unique(taken) == pytest.approx(np.unique([m.taken_in_j for m in view.months]))
    for one in (trace, energy):
        assert chart_svg(one.chart, one.spoken).count("<text") > 15
