"""What the drawer of logged runs exports: the readings beside the forecast, and fitted values."""

from __future__ import annotations

from collections.abc import Sequence

from explorer.advice.bench.fit import Fit
from explorer.advice.bench.forecast import Agreement
from explorer.advice.bench.parameters import Parameter
from explorer.words.drawers import Table
from explorer.words.fit import remark


def readings_table(found: Agreement) -> Table:
    """Every row of a run with the forecast and its band."""
    return {
        "time_s": found.run.time_s.tolist(),
        "log_V": found.run.volts.tolist(),
        "log_lowest_V": found.run.low_v.tolist(),
        "log_highest_V": found.run.high_v.tolist(),
        "forecast_V": found.forecast_v.tolist(),
        "residual_V": found.residual_v.tolist(),
        "band_low_V": found.low_v.tolist(),
        "band_high_V": found.high_v.tolist(),
        "illuminance_lx": found.illuminance_lx.tolist(),
    }


def values_table(offered: Sequence[Parameter], found: Fit | None) -> Table:
    """Every value that can be fitted; the last columns are empty where it was not."""
    places = {}
    if found is not None and found.is_good:
        places = {v.parameter.path: i for i, v in enumerate(found.values)}
    rows = [(p, places.get(p.path)) for p in offered]
    fits = found.values if found is not None else ()
    return {
        "path": [p.path for p, _ in rows],
        "quantity": [p.label for p, _ in rows],
        "unit": [p.unit for p, _ in rows],
        "present": [p.value for p, _ in rows],
        "fitted": ["" if i is None else fits[i].value for _, i in rows],
        "plus_minus": ["" if i is None else fits[i].plus_minus for _, i in rows],
        "remark": ["" if i is None or found is None else remark(found, i) for _, i in rows],
    }
