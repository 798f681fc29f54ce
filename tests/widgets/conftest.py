import pytest

from explorer.advice.reach import reach
from explorer.scenario.model import Scenario
from explorer.state import comparison, drawer_steps, line_up, theme
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.settings import SettingsStore
from explorer.state.solver import Solver
from explorer.widgets import messages
from explorer.widgets.main_window import MainWindow


@pytest.fixture(autouse=True)
def themed(qapp):
    """The light theme, whatever the machine prefers."""
    qapp.setStyle("Fusion")
    qapp.setPalette(theme.palette_of(theme.LIGHT))
    qapp.setFont(theme.font("body"))


AT_REST = frozenset({"break_evens", "remedies"})
"""What a window asks of its own accord once the knobs rest."""


@pytest.fixture
def asked_at_rest():
    """For tests that look at what a window works out by itself once the knobs rest."""


@pytest.fixture(autouse=True)
def nothing_asked_at_rest(request, monkeypatch):
    """No break-evens or remedies, except where they are wanted: in threads they take longer
    than most tests, and come after all has been looked at."""
    if "asked_at_rest" in request.fixturenames:
        return
    ask = JobRunner.ask

    def asked(jobs, key, question):
        if key not in AT_REST:
            ask(jobs, key, question)

    monkeypatch.setattr(JobRunner, "ask", asked)


@pytest.fixture
def document(qapp):
    made = Document(Scenario())
    yield made
    made.undo_stack.clear()  # at the end of the interpreter its commands would be gone before it


@pytest.fixture
def jobs(qapp):
    runner = JobRunner()
    yield runner
    runner.finish()


@pytest.fixture
def solver(document, jobs):
    return Solver(document, jobs)


@pytest.fixture
def said(monkeypatch):
    """What the message module was asked to say, in place of dialogs that would wait."""
    heard = []
    monkeypatch.setattr(messages, "tell", lambda _, title, text: heard.append((title, text)))
    return heard


@pytest.fixture
def window(qtbot, document, solver, jobs, tmp_path, said, monkeypatch):
    store = SettingsStore(tmp_path / "settings.ini")
    store.update(theme="light")
    result = MainWindow(document, solver, jobs, store, "0")
    # Closing asks about unsaved changes, and nobody is there to answer.
    qtbot.addWidget(result, before_close_func=lambda w: w.document.undo_stack.setClean())
    result.resize(1280, 720)
    result.show()
    solver.solve_now()
    return result


@pytest.fixture(scope="module")
def reach_is_found_once():
    """What another design reaches at most is worked out once for all tests of a file."""
    found = {}

    def once(case):
        if case.scenario not in found:
            found[case.scenario] = reach(case)
        return found[case.scenario]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(comparison, "reach", once)
        patch.setattr(line_up, "reach", once)
        yield


@pytest.fixture
def few_units(monkeypatch):
    """A spread of fewer units, for tests that look at how it is shown."""
    monkeypatch.setattr(drawer_steps, "MANY", 1500)
    monkeypatch.setattr(drawer_steps, "FEW", 300)
