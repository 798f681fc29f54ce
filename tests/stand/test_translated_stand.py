"""The stand in another language: nothing stays English, and nothing is cut where words are long."""

import json
import re

import pytest
from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter
from PySide6.QtWidgets import QAbstractButton, QLabel

from explorer.advice.verdict import Check
from explorer.resource_files import scenario_folder
from explorer.scenario.model import Scenario
from explorer.stand import way_steps
from explorer.stand.big_button import _SMALLEST, BigButton
from explorer.stand.exhibits import load_exhibits, name_in_list
from explorer.stand.fit_label import FitLabel
from explorer.stand.phrases import number_of
from explorer.stand.setup_dialog import SetupDialog
from explorer.stand.window import StandWindow
from explorer.state import language
from explorer.state.language import tr
from explorer.state.stand_plan import BUNDLED, StandPlan, bundled_names
from tests import pseudo
from tests.depth import THOROUGH
from tests.sharing import cases_are_shared  # noqa: F401
from tests.waiting import confirmed


@pytest.fixture(scope="module", autouse=True)
def ways_are_found_once():
    """The way forward of an exhibit is the same in every language."""
    found, find = {}, way_steps.found_way

    def remembered(movable, case, *stopped):
        key = (movable, case.scenario, case.log, case.weather)
        if key not in found:
            way = find(movable, case, *stopped)
            if way is None:
                return None  # told to stop
            found[key] = way
        return found[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(way_steps, "found_way", remembered)
        yield


_OWN_KEYS = frozenset({"title", "place", "name", "notes"})
"""What a user types into a scenario; it is never translated."""
_FILE_WORDS = " ".join(bundled_names()).replace(":", " ").replace("_", " ").split()
FILES = frozenset((*_FILE_WORDS, *(word.capitalize() for word in _FILE_WORDS), "json"))
"""Words in the names of the files that come with the program."""
SHOWN = bundled_names() if THOROUGH else (
    "bundled:soil_probe", "bundled:door_counter", "bundled:vent_flap"
)  # fmt: skip
"""One of each verdict, with a capacitor and a task that runs when it is ready among them."""
PAGES = [(1280, 720), (1920, 1080), (1080, 1920)]


def wordless(data):
    """A scenario file's content with numbers in place of the words of its user."""
    if isinstance(data, list):
        return [wordless(item) for item in data]
    if isinstance(data, dict):
        return {
            k: "12" if k in _OWN_KEYS else wordless(v) for k, v in data.items() if k != "names_de"
        }
    return data


@pytest.fixture(scope="module")
def exhibits(tmp_path_factory):
    """Bundled scenarios of every verdict, without the words that belong to their user."""
    folder, names = tmp_path_factory.mktemp("wordless"), []
    stems = [name.removeprefix(BUNDLED) for name in SHOWN]
    for path in (scenario_folder() / f"{stem}.json" for stem in stems):
        names.append(str(folder / path.name))
        text = json.dumps(wordless(json.loads(path.read_text(encoding="utf-8"))))
        (folder / path.name).write_text(text, encoding="utf-8")
    found = load_exhibits(names)
    assert found.problems == ()
    return found.exhibits


@pytest.fixture
def plan():
    return StandPlan(scenarios=bundled_names()[:2], title="12", contact="34", idle_s=10, cycle_s=5)


def visits(stand, qtbot):
    """Show one scenario after the other, with all that the page says about it."""
    for index in range(len(stand.session.exhibits)):
        with qtbot.waitSignal(
            stand.solver.break_evens_ready, timeout=30_000, check_params_cb=confirmed
        ):
            stand.session.choose(index)
            stand.solver.solve_now()
        yield index


@pytest.fixture
def painted(monkeypatch):
    """Every text that is painted from now on."""
    heard, draw = [], QPainter.drawText

    def listen(painter, *args):
        heard.extend(a for a in args if isinstance(a, str))
        return draw(painter, *args)

    monkeypatch.setattr(QPainter, "drawText", listen)
    return heard


# --- nothing stays English ---


@pytest.fixture
def disguised(monkeypatch):
    pseudo.use(monkeypatch)


def test_no_veil_stays_english(disguised, stand, plan):
    stand.session.set_paused(True)
    assert pseudo.forgotten(stand) == []
    stand.session.set_paused(False)
    stand.session.choose(1)
    stand.solver.solve_now()
    for _ in range(plan.idle_s):
        stand.session.tick()
    assert stand.warning.isVisible()
    assert "20" in stand.warning.text.text()
    assert pseudo.forgotten(stand) == []
    stand.warning.set_left(1, plan.warning_s)
    stand._on_waiting()
    assert pseudo.forgotten(stand) == []
    stand.page._on_not_judged("12.")
    assert pseudo.forgotten(stand) == []


def test_no_part_of_the_page_and_nothing_that_is_painted_stays_english(
    searched, disguised, stand, qtbot, painted
):
    for _ in visits(stand, qtbot):
        assert pseudo.forgotten(stand) == []
        stand.grab()
    assert len(painted) > 100
    heard = QLabel(" \n".join(painted))
    qtbot.addWidget(heard)
    assert pseudo.forgotten(heard) == []


def test_the_set_up_stays_english_nowhere(disguised, qtbot, plan, parked):
    parked.park(Scenario(title="12"), "Marginal")
    dialog = SetupDialog(plan, parked, QSize(1920, 1080))
    qtbot.addWidget(dialog)
    dialog.show_problems(load_exhibits(("78.json",)).problems)
    # Lists name what comes with the program by the title in its file, in the language on show.
    titles = " ".join(name_in_list(name) for name in bundled_names())
    own = FILES.union(re.findall(r"[A-Za-z]+", titles))
    assert pseudo.forgotten(dialog, own=own) == []
    dialog.diagonal.setValue(14.5)  # a screen that cannot carry the page
    for box in dialog.movable.values():
        box.setChecked(False)
    assert "14,5" in dialog.diagonal.text()
    assert dialog.start.toolTip()
    assert pseudo.forgotten(dialog, own=own) == []


def test_the_number_of_every_check_is_translated(disguised, qtbot):
    values = [
        ("starts", 45 * 3600.0, "s"), ("starts", float("inf"), "s"), ("dark", 86_400.0, "s"),
        ("dark", 2.5 * 86_400.0, "s"), ("dark", float("inf"), "s"), ("balance", 1.0, "W"),
        ("pulse", 2.5, "V"), ("service", 0.22, ""), ("ratings", 2.5, "V"),
    ]  # fmt: skip
    for margin in (1.5, 1000.0):
        for name, value, unit in values:
            check = Check(
                name=name, value=value, limit=1.5, unit=unit, margin=margin, wanted=1.3, sentence=""
            )
            label = QLabel(tr(number_of(check).spoken))
            qtbot.addWidget(label)
            assert pseudo.forgotten(label) == []


# --- nothing is cut ---


@pytest.fixture
def longer(monkeypatch):
    """English with three tenths more letters in every word."""

    def grown(match):
        word = match.group()
        return word + word[: -(-3 * len(word) // 10)].lower()

    def lengthened(template, _):
        parts = pseudo._KEPT.split(template)
        grow = re.compile("[A-Za-z]{2,}")
        return "".join(p if pseudo._KEPT.fullmatch(p) else grow.sub(grown, p) for p in parts)

    pseudo.use(monkeypatch)
    monkeypatch.setattr(language, "_translate", lengthened)


def cut(root):
    """Texts on show that do not fit their place at the smallest size that they may shrink to."""
    found = []
    for label in root.findChildren(FitLabel):
        if label.text() and label.isVisible():
            font = label._fitted()
            if not label._fits(font) or not _whole(label, QFontMetrics(font)):
                found.append(f"{type(label.parent()).__name__}: {label.text()}")
    for button in root.findChildren(BigButton):
        if button.text() and button.isVisible() and button.fitting_px() <= _SMALLEST * button._px:
            found.append(f"button: {button.text()}")
    return found


def _whole(label, metrics):
    """Whether the letters of a single line, descenders too, are inside of their label."""
    if label.wordWrap():
        return True
    letters = metrics.tightBoundingRect(label.text())
    base = (label.height() - metrics.ascent() - metrics.descent()) / 2 + metrics.ascent()
    return base + letters.top() >= -1 and base + letters.bottom() <= label.height() + 1


@pytest.mark.parametrize("size", PAGES[2:])
def test_texts_a_third_longer_are_not_cut(searched, longer, stand, qtbot, plan, painted, size):
    stand.resize(*size)
    assert cut(stand) == []
    for _ in visits(stand, qtbot):
        painted.clear()
        stand.grab()
        assert cut(stand) == []
        assert not [text for text in painted if text.endswith("…")]
        # The line at which the device stops is named on the trace, whatever its name.
        assert [text for text in painted if text.startswith("stopsst ")]
    for _ in range(plan.idle_s):
        stand.session.tick()
    assert stand.warning.isVisible()
    assert cut(stand) == []


@pytest.mark.parametrize("size", PAGES[:2])
def test_the_set_up_in_longer_texts_fits_the_screen(longer, qtbot, plan, parked, size):
    dialog = SetupDialog(plan, parked, QSize(*size))
    qtbot.addWidget(dialog)
    dialog.resize(size[0] - 40, size[1] - 60)  # frame and panels of the desktop
    dialog.show()
    assert dialog.width() <= size[0] - 40
    assert dialog.height() <= size[1] - 60
    for button in dialog.findChildren(QAbstractButton):
        if button.isVisible() and button.text():
            assert button.width() >= button.sizeHint().width(), button.text()
    for label in dialog.findChildren(QLabel):
        if label.isVisible():
            free = QRect(0, 0, label.width() if label.wordWrap() else 10_000, 10_000)
            flags = Qt.TextFlag.TextWordWrap if label.wordWrap() else Qt.TextFlag.TextShowMnemonic
            needed = label.fontMetrics().boundingRect(free, int(flags.value), label.text())
            assert needed.width() <= label.width(), label.text()
            assert needed.height() <= label.height(), label.text()


@pytest.mark.parametrize("code", ["en", "de"])
@pytest.mark.parametrize("size", PAGES)
def test_word_number_and_caption_keep_the_size_for_three_metres(
    qtbot, plan, exhibits, parked, code, size
):
    language.set_language(code)
    try:
        window = StandWindow(plan, exhibits, parked)
        qtbot.addWidget(window)
        window.resize(*size)
        window.show()
        window.start()
        sizes, _ = window.page.divide()
        for index in range(len(exhibits)):
            window.session.choose(index)
            window.solver.solve_now()
            head = window.page.headline
            assert head.word.shown_px >= 0.97 * sizes.word, head.word.text()
            assert head.number.shown_px >= 0.97 * sizes.number, head.number.text()
            assert head.caption.shown_px >= 0.97 * sizes.caption, head.caption.text()
        window.leave()
    finally:
        language.set_language("en")
