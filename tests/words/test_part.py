"""One's own parts in one line."""

import pytest

from explorer.scenario.demand import Load, Operation
from explorer.scenario.part import part_from
from explorer.scenario.supply import Panels, SheetPoint
from explorer.words.part import part_summary


@pytest.mark.parametrize("n", [1, 2])
def test_one_of_a_kind_is_said_in_the_singular(n):
    points = tuple(
        SheetPoint(illuminance_lx=200.0 * times, short_circuit_A=20e-6 * times)
        for times in range(1, n + 1)
    )
    panels = Panels(cells_in_series=n, data_sheet=points)
    told = part_summary(part_from("panel", panels, title="Sun"))
    load = Load(operations=tuple(Operation(name=str(i)) for i in range(n)))
    asked = part_summary(part_from("load", load, title="Probe"))
    if n == 1:
        assert ", 1 cell, data sheet of 1 point" in told
        assert asked.startswith("1 operation, ")
    else:
        assert ", 2 cells in series, data sheet of 2 points" in told
        assert asked.startswith("2 operations, ")
