import json
from datetime import UTC, datetime

import pytest

from explorer.stand import page, setup_dialog
from explorer.stand.exhibits import load_exhibits
from explorer.stand.parked import ParkedScenarios
from explorer.stand.window import StandWindow
from explorer.state import solver, theme
from explorer.state.stand_plan import StandPlan
from explorer.widgets import messages

PLAN = StandPlan(
    scenarios=("bundled:plant_label", "bundled:door_counter"),
    title="Fernhollow Glasshouse",
    contact="Ask at the bench",
    idle_s=10,
    cycle_s=5,
)


@pytest.fixture(autouse=True)
def themed(qapp):
    """The light theme, whatever the machine prefers."""
    qapp.setStyle("Fusion")
    qapp.setPalette(theme.palette_of(theme.LIGHT))
    qapp.setFont(theme.font("body"))


@pytest.fixture
def searched():
    """For tests that look at what is searched once a visitor's hand rests, and by the set-up."""


@pytest.fixture(autouse=True)
def nothing_is_searched(request, monkeypatch):
    """Windows of all other tests look for nothing that would end after them."""
    if "searched" in request.fixturenames:
        return
    for module, name in (
        (solver, "at_rest_steps"), (page, "way_steps"), (page, "challenge_steps"),
        (setup_dialog, "unfair"),
    ):  # fmt: skip
        monkeypatch.setattr(module, name, lambda *_: iter(()))


@pytest.fixture(scope="session")
def exhibits():
    return load_exhibits(PLAN.scenarios).exhibits


@pytest.fixture
def plan():
    return PLAN


@pytest.fixture
def parked(tmp_path):
    noon = datetime(2025, 5, 4, 12, 0, tzinfo=UTC)
    return ParkedScenarios(tmp_path / "kept" / "visitors.json", lambda: noon)


@pytest.fixture
def kept(tmp_path):
    """What the file of parked scenarios holds."""

    def read():
        return json.loads((tmp_path / "kept" / "visitors.json").read_text(encoding="utf-8"))

    return read


@pytest.fixture
def said(monkeypatch):
    heard = []
    monkeypatch.setattr(messages, "tell", lambda _, title, text: heard.append((title, text)))
    return heard


@pytest.fixture
def stand(qtbot, plan, exhibits, parked):
    """A running stand on a page of 1920 × 1080; its clock only moves when a test ticks it."""
    window = StandWindow(plan, exhibits, parked)
    qtbot.addWidget(window)
    window.resize(1920, 1080)
    window.show()
    window.start()
    window.session._timer.stop()
    yield window
    window.leave()
