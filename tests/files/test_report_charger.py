"""The sheet shows the efficiency table of a converter with its curves, where there is one."""

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.advice.panel_curve import panel_curve
from explorer.files.report_blocks import Figure, Paragraph, Table
from explorer.files.report_charger import charger_blocks
from explorer.scenario.model import Scenario
from explorer.scenario.supply import ConverterCharger, DirectCharger, EfficiencyPoint

ROWS = tuple(
    EfficiencyPoint(input_W=watt, efficiency=share, store_V=volts)
    for volts, gain in ((2.0, 0.0), (4.0, 0.1))
    for watt, share in ((1e-5, 0.5 + gain), (1e-3, 0.75 + gain))
)


def blocks(charger):
    scenario = Scenario().model_copy(update={"charger": charger})
    return charger_blocks(charger, panel_curve(Case(scenario)).charger)


def test_a_table_is_drawn_through_its_rows_and_printed_as_entered():
    found = blocks(ConverterCharger(efficiency_table=ROWS))
    (chart,) = (b.chart for b in found if isinstance(b, Figure))
    assert [curve.label for curve in chart.curves] == ["store at 2 V", "store at 4 V"]
    assert [tick.label for tick in chart.x.ticks][:2] == ["1 µW", "10 µW"]
    for dot, row in zip(chart.dots, ROWS, strict=False):
        curve = chart.curves[0 if row.store_V == 2.0 else 1]
        assert dot.y == pytest.approx(100.0 * row.efficiency)
        assert np.interp(dot.x, curve.x, curve.y) == pytest.approx(dot.y, abs=0.2)
    (table,) = (b for b in found if isinstance(b, Table))
    assert table.rows[0].cells == ("10 µW", "50 %", "2 V")
    assert len(table.rows) == len(ROWS)
    assert any("it passes on" in b.text for b in found if isinstance(b, Paragraph))


@pytest.mark.parametrize("charger", [ConverterCharger(), DirectCharger(full_V=4.5)])
def test_without_a_table_the_sheet_says_nothing_of_it(charger):
    assert blocks(charger) == []
