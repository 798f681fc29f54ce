"""Timings: they print figures and ratios, and assert nothing about time.

Run apart from the tests: python -m pytest tests/bench --benchmark-only
"""

import pytest

from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.build import build
from explorer.scenario.model import with_value
from explorer.widgets import messages

_LINES = pytest.StashKey[list]()


def pytest_configure(config):
    config.stash[_LINES] = []


def pytest_terminal_summary(terminalreporter, config):
    if config.stash[_LINES]:
        terminalreporter.section("figures and ratios")
        for line in config.stash[_LINES]:
            terminalreporter.write_line(line)


@pytest.fixture
def tell(request):
    """Add a line to the closing page."""
    return request.config.stash[_LINES].append


@pytest.fixture
def spread(benchmark, tell):
    """Tell median, 95th percentile and largest of what was measured."""

    def say(what, budget=""):
        data = sorted(benchmark.stats.stats.data)
        middle, high = data[len(data) // 2], data[min(int(0.95 * len(data)), len(data) - 1)]
        aim = f"; aim {budget}" if budget else ""
        tell(
            f"{what}: median {1e3 * middle:.3g} ms, 95 % under {1e3 * high:.3g} ms, "
            f"largest {1e3 * data[-1]:.3g} ms of {len(data)}{aim}"
        )
        return middle

    return say


def opened(name):
    path = scenario_folder() / f"{name}.json"
    scenario = load_scenario(path).scenario
    return scenario, resolve_log(scenario, path)


def minute_pulses(illuminance_lx):
    """The soil probe with ten farads, sending every minute."""
    scenario, _ = opened("soil_probe")
    for key, value in (
        ("load.operations.0.schedule.interval_s", 60.0),
        ("light.illuminance_lx", illuminance_lx),
        ("store.capacitance_F", 10.0),
        ("store.initial_V", 4.0),
    ):
        scenario = with_value(scenario, key, value)
    return build(scenario)


@pytest.fixture(autouse=True)
def no_dialog(monkeypatch):
    """A dialog would wait for a person."""
    monkeypatch.setattr(messages, "tell", lambda *_: None)
    monkeypatch.setattr(messages, "ask_save", lambda *_: "discard")
