"""A generated case as files that the product opens, and back."""

import json
from datetime import timedelta

import numpy as np

from explorer.files import scenario_json
from explorer.files.logs import resolve_log
from explorer.scenario.model import VERSION


def save(case, path):
    """Write scenario and log; readings are repeated at the log's step, so nothing is a gap."""
    scenario, log = case
    data = json.loads(scenario.model_dump_json(exclude_none=True))
    data = {"format": "gloaming-scenario", "version": VERSION, **data}
    data["light"]["illuminance_lx"] = scenario.light.illuminance_lx
    if log is not None:
        name = path.stem + ".csv"
        data["light"]["pattern"] = {"kind": "log", "file": name, "gaps": "hold"}
        moments = np.arange(0.0, log.duration_s - 1e-6, log.step_s)
        lux = log.illuminance_lx[np.searchsorted(log.time_s, moments, side="right") - 1]
        lines = ["time,lux"]
        for t, x in zip(moments.tolist(), lux.tolist(), strict=True):
            when = repr(t) if log.start is None else (log.start + timedelta(seconds=t)).isoformat()
            lines.append(f"{when},{x!r}")
        path.with_name(name).write_text("\n".join(lines) + "\n", encoding="utf-8")
    path.write_text(json.dumps(data, indent=1) + "\n", encoding="utf-8")


def load(path):
    """The case in a file."""
    scenario = scenario_json.load_scenario(path).scenario
    return scenario, resolve_log(scenario, path)
