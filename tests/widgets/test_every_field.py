"""Every field of the model is reached by hand in the window."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from explorer.scenario.daylight import (
    DaylightPattern,
    Holidays,
    Indoors,
    LampHours,
    Outdoors,
    SkyMonth,
    SkyReading,
)
from explorer.scenario.demand import Every, Load, Operation, Phase, Regulator, UntilEmpty, WhenReady
from explorer.scenario.fields import Section, describe
from explorer.scenario.light import Elsewhere, Light, LogPattern, SteadyPattern
from explorer.scenario.measured import MeasuredValue
from explorer.scenario.model import Names, Scenario, get_value, owner_class, with_value
from explorer.scenario.origin import PartOrigin
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import (
    ConverterCharger,
    DirectCharger,
    EfficiencyPoint,
    SheetPoint,
)
from explorer.state.shape import kind_of, shape_of
from explorer.widgets.forms.rows import AMOUNT_KEYS
from explorer.widgets.forms.section_form import SectionForm
from explorer.widgets.knob_panel import KnobPanel
from explorer.widgets.title_bar import TitleBar
from tests.every_field import all_fields
from tests.weather_files import epw, rows

WRITTEN_BY_THE_PROGRAM = {(Scenario, "format"), (Scenario, "version")} | {
    (owner, key) for owner in (PartOrigin, MeasuredValue) for key in owner.model_fields
}
IN_FILES_ALONE = {(Scenario, "names_de")} | {(Names, key) for key in Names.model_fields}
"""Names in another language: who edits a scenario sees those of the language on show."""
IN_DIALOGS = {
    (owner, key) for owner in (SheetPoint, EfficiencyPoint, SkyMonth) for key in owner.model_fields
}
"""Reached in a dialog of their own, see test_sheet.py, test_efficiency.py and test_months.py."""
ELSEWHERE = WRITTEN_BY_THE_PROGRAM | IN_FILES_ALONE | IN_DIALOGS


LOG = "time,lux\n" + "".join(f"2015-02-02 {h:02}:00,{100 * h}\n" for h in range(24))


def load(schedule, phase, regulator):
    operation = Operation(schedule=schedule, phases=(phase,))
    return Load(operations=(operation,), regulator=regulator, start_up=(phase,))


DESIGNS = (
    Scenario(
        load=load(Every(), Phase(current_A=0.01), Regulator(kind="linear")),
        store=SupercapacitorStore(condition="first_days"),
        light=Light(elsewhere=(Elsewhere(),)),
    ),
    Scenario(
        light=Light(pattern=SteadyPattern()),
        charger=DirectCharger(),
        store=CapacitorStore(),
        load=load(WhenReady(), Phase(power_W=0.01), Regulator(kind="switching")),
    ),
    Scenario(
        light=Light(pattern=LogPattern(), illuminance_lx=200.0),
        charger=ConverterCharger(
            full_V=8.2, tracking="fraction", efficiency_table=(EfficiencyPoint(store_V=3.0),)
        ),
        store=CellStore(cells_in_series=2),
        load=load(UntilEmpty(), Phase(resistance_ohm=100.0), Regulator()),
    ),
)
"""Together they have every section in every kind, and every choice that wakes a field."""


DAYLIGHT = tuple(
    Scenario(
        light=Light(
            illuminance_lx=None,
            pattern=DaylightPattern(
                place=place,
                lamps=(LampHours(),),
                holidays=(Holidays(),),
                reading=SkyReading(illuminance_lx=500.0),
            ),
        )
    )
    for place in (Outdoors(), Indoors())
)
"""The same of a year of daylight, whose form is used by itself: its verdict takes longer."""


def paths_of(part, head=""):
    for key in type(part).model_fields:
        value = getattr(part, key)
        if isinstance(value, Section):
            yield from paths_of(value, f"{head}{key}.")
        elif isinstance(value, tuple) and any(isinstance(v, Section) for v in value):
            for index, item in enumerate(value):
                yield from paths_of(item, f"{head}{key}.{index}.")
        elif not value and shape_of(type(part), key).kind in ("list", "section"):
            continue
        elif not (isinstance(part, Phase) and key in AMOUNT_KEYS and value is None):
            yield f"{head}{key}"


def is_choice(scenario, path):
    return shape_of(owner_class(scenario, path), path.rpartition(".")[2]).kind == "option"


def another(scenario, path, log):
    """A value that the field may have instead."""
    owner, key = owner_class(scenario, path), path.rpartition(".")[2]
    shape, value = shape_of(owner, key), get_value(scenario, path)
    field = describe(owner, key)
    if key in ("file", "weather_file"):
        return str(log if key == "file" else log.with_name("other.epw"))
    if shape.kind in ("number", "whole"):
        base = field.low if value is None else value
        tries = [base * 1.25, base * 0.8, base + 1, base - 1, base / 2, field.low, field.high]
        tries = [round(t) if shape.kind == "whole" else float(f"{t:.4g}") for t in tries]
    elif shape.kind == "option" and len(shape.options) == 1:
        head = path.rpartition(".")[0]
        kinds = shape_of(owner_class(scenario, head), head.rpartition(".")[2]).sections
        return next(kind_of(one) for one in kinds if kind_of(one) != value)
    elif shape.kind == "option":
        tries = list(shape.options)
    elif shape.kind == "weekdays":
        tries = [("mon",), ("tue",)]
    else:
        tries = ["another text", "03-04", "11:20", "Etc/UTC"]
    for one in tries:
        if one != value and field.low <= (one if isinstance(one, int | float) else field.low):
            try:
                with_value(scenario, path, one)
            except ValueError:
                continue
            return one
    raise AssertionError(f"{path}: nothing else is allowed")


@pytest.fixture
def window(qtbot, document, solver):
    """The parts of the main window that change the scenario."""
    both = QWidget()
    column = QVBoxLayout(both)
    document.setParent(both)  # a document goes with its window, before the collector finds it
    for part in (TitleBar(document), panel := KnobPanel(document, solver)):
        column.addWidget(part)
    qtbot.addWidget(both)
    both.show()
    for fold in panel.folds:
        fold.set_open(True)
    return both, panel


def type_into(qtbot, entry, text):
    assert entry.isVisible()
    assert entry.isEnabled()
    entry.setFocus()
    entry.selectAll()
    qtbot.keyClicks(entry, text)
    qtbot.keyClick(entry, Qt.Key.Key_Return)


def change(qtbot, window, path, value):
    """Do by hand what gives a field another value; whether there was something to do it with."""
    both, panel = window
    key = path.rpartition(".")[2]
    for knob in panel.rows:
        if knob.knob.path == path:
            type_into(qtbot, knob.field, f"{value:.6g}")
            return True
    drawn = key in AMOUNT_KEYS and path.startswith("load.")
    name = f"{path.rpartition('.')[0]}.amount" if drawn else path
    for row in (w for w in both.findChildren(QWidget, name) if w.isVisible()):
        entry = getattr(row, "entry", row if hasattr(row, "selectAll") else None)
        if entry is not None:
            type_into(qtbot, entry, value if isinstance(value, str) else f"{value:.6g}")
        elif hasattr(row, "buttons"):
            for day, button in zip(
                ("mon", "tue", "wed", "thu", "fri", "sat", "sun"), row.buttons, strict=True
            ):
                if button.isChecked() != (day in value):
                    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
        else:
            box = getattr(row, "box", row)
            box.setCurrentIndex(box.findData(value))
            box.activated.emit(box.currentIndex())
        return True
    return False


def reached_by_hand(qtbot, document, window, designs, log):
    reached, missing = set(), set()
    for design in designs:
        document.restore(design)
        # Choices last: another kind has other fields.
        for path in sorted(paths_of(design), key=lambda path: is_choice(design, path)):
            field = owner_class(design, path), path.rpartition(".")[2]
            if field in reached | ELSEWHERE:
                continue
            if is_choice(design, path):
                document.restore(design)
            value = another(document.scenario, path, log)
            if not change(qtbot, window, path, value):
                missing.add(path)
                continue
            assert get_value(document.scenario, path) == value, path
            reached.add(field)
    return reached | ELSEWHERE, missing


def test_every_field_of_the_model_is_changed_by_hand(qtbot, document, window, tmp_path):
    log = tmp_path / "other.csv"
    log.write_text(LOG, encoding="utf-8")
    reached, missing = reached_by_hand(qtbot, document, window, DESIGNS, log)
    assert reached >= all_fields() - all_fields(DaylightPattern), missing


def test_every_field_of_a_year_of_daylight_is_changed_by_hand(qtbot, document, tmp_path):
    log = tmp_path / "other.csv"
    log.with_name("other.epw").write_text(epw(rows()), encoding="utf-8")
    form = SectionForm(document, "light", hidden=frozenset({"illuminance_lx"}))
    form.connect_to_document()
    qtbot.addWidget(form)
    form.show()
    designs = DAYLIGHT
    reached, missing = reached_by_hand(qtbot, document, (form, NoKnobs()), designs, log)
    assert reached >= all_fields(DaylightPattern), missing


class NoKnobs:
    """A panel without knobs."""

    rows = ()
