"""The sheet tells the assessment's own numbers, every input once, and where it comes from."""

import hashlib
import json
import re
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from explorer.advice.assess import assess
from explorer.advice.budget import budget
from explorer.advice.case import Case
from explorer.advice.reach import reach
from explorer.advice.verdict import CHECK_LABELS
from explorer.files.logs import resolve_log
from explorer.files.report import findings, sheet
from explorer.files.report_blocks import Banner, Figure, Heading, Note, Paragraph, Table
from explorer.files.report_figures import store_figure
from explorer.files.report_inputs import input_rows
from explorer.files.report_limits import limits_in, model_limits
from explorer.files.report_source import canonical_json, sha256_of, source_of
from explorer.files.report_svg import LINE, chart_svg
from explorer.files.report_tables import budget_table, check_table
from explorer.files.scenario_json import load_scenario
from explorer.quantity import parse
from explorer.resource_files import resource_path, scenario_folder
from explorer.scenario.demand import Phase
from explorer.scenario.model import Scenario, get_value, with_value, with_values
from explorer.scenario.part import part_from, taken
from explorer.scenario.supply import DirectCharger, SheetPoint
from explorer.text import Text, rendered
from explorer.words.answers import LABELS
from tests import pseudo
from tests.depth import THOROUGH
from tests.files.short_sheets import one_knob_is_searched  # noqa: F401
from tests.sharing import cases_are_shared  # noqa: F401

NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)
PATHS = {
    p.stem: p
    for p in sorted(scenario_folder().glob("*.json"))
    if load_scenario(p).scenario.light.pattern.kind != "daylight"
}
"""Searches through a year take long; what its sheet says more is tested with the words."""
BUDGET_HEAD = ("Goes to", "Energy", "Of the light", "Of the panel")


@cache
def beside(path):
    """The log of a bundled scenario, read once."""
    return resolve_log(load_scenario(path).scenario, path)


@cache
def shipped(name):
    """Findings, source and sheet of a bundled scenario as it is."""
    return made(PATHS[name])


def made(path=None, note="", **changes):
    """Findings, source and sheet of a bundled scenario, or of a new one with some changes."""
    scenario = load_scenario(path).scenario if path else Scenario()
    for key, value in changes.items():
        scenario = with_value(scenario, key.replace("__", "."), value)
    as_it_is = path in PATHS.values() and not changes
    log = beside(path) if as_it_is else resolve_log(scenario, path)
    found = findings(Case(scenario, log))
    source = source_of(scenario, path, "7.1", NOON, note)
    return found, source, sheet(found, source, model_limits())


def tables(one):
    return [block for block in one.blocks if isinstance(block, Table)]


def table(one, *titles):
    """The one table with these titles."""
    (found,) = [t for t in tables(one) if tuple(c.title for c in t.columns) == titles]
    return found


def number(shown):
    """The number at the head of a cell."""
    return float(re.match(r"[−-]?[\d.]+(e-?\d+)?", shown).group().replace("−", "-"))


LOOKED_AT = [name for name in PATHS if THOROUGH or name not in ("plant_label", "watering_valve")]
"""One of each verdict, a log, a cell and a capacitor among them."""


@pytest.fixture(scope="module", params=LOOKED_AT)
def bundled(request):
    return PATHS[request.param], *shipped(request.param)


def test_the_verdict_and_its_reason_lead(bundled):
    _, found, _, one = bundled
    verdict = found.assessment.verdict
    first = one.blocks[0]
    assert isinstance(first, Banner)
    assert (first.state, first.word) == (verdict.state, verdict.word)
    assert first.reason.replace("\u00a0", " ") == verdict.governing.sentence


def test_every_hazard_is_on_the_sheet(bundled):
    _, found, _, one = bundled
    shown = [b.text.replace("\u00a0", " ") for b in one.blocks if getattr(b, "hazard", False)]
    assert shown == [h.sentence for h in found.assessment.verdict.hazards]


def test_some_bundled_scenario_has_a_hazard():
    case = Case(load_scenario(PATHS["door_counter"]).scenario)
    assert any(findings(case).assessment.verdict.hazards)


def test_the_checks_are_those_of_the_assessment(bundled):
    path, _, _, one = bundled
    scenario = load_scenario(path).scenario
    checks = assess(Case(scenario, beside(path))).verdict.checks
    rows = table(
        one, "Check", "Result", "Value", "Limit", "Margin", "Required", "In words"
    ).rows
    assert len(rows) == 6
    for row, check in zip(rows, checks, strict=True):
        assert row.state == check.state
        assert row.cells[6].replace("\u00a0", " ") == check.sentence
        if check.margin < 99:
            assert number(row.cells[4]) == pytest.approx(check.margin, rel=0.05, abs=0.01)
        assert number(row.cells[5]) == pytest.approx(max(check.wanted, 1.0), abs=0.01)
        if check.name == "pulse":
            assert parse(row.cells[2], "V") == pytest.approx(check.value, rel=6e-3)
            assert parse(row.cells[3], "V") == pytest.approx(check.limit, rel=6e-3)


def test_all_answers_are_there_with_their_unit_and_what_they_assume(bundled):
    path, _, _, one = bundled
    scenario = load_scenario(path).scenario
    case = Case(scenario, beside(path))
    answers = {**assess(case).answers, **reach(case)}
    rows = {row.cells[0]: row.cells for row in table(one, "Answer", "Value", "Assumes").rows}
    assert set(rows) == {LABELS[key] for key in answers if key in LABELS}
    for key in ("lowest_store_V", "highest_store_V", "lowest_terminal_V"):
        assert parse(rows[LABELS[key]][1], "V") == pytest.approx(answers[key], rel=6e-3)
    assert all(assumed.endswith(".") for _, _, assumed in rows.values())


def test_every_answer_has_a_name():
    case = Case(Scenario())
    assert not {*assess(case).answers, *reach(case)} - set(LABELS)


def test_the_budget_closes(bundled):
    _, found, _, one = bundled
    rows = {row.cells[0]: row.cells[1:] for row in table(one, *BUDGET_HEAD).rows}
    assert rows["Sum"][1:] == ("100.00 %", "100.00 %")
    listed = [cells for name, cells in rows.items()
              if name not in ("Sum", "Light on the panel", "Given by the store")]
    assert len(listed) == len({i.label for i in found.budget.items}) >= 5
    rounding = 0.005 * len(listed) + 1e-9
    assert sum(number(cells[1]) for cells in listed) == pytest.approx(100.0, abs=rounding)
    of_panel = [number(cells[2]) for cells in listed if cells[2] != "–"]
    assert sum(of_panel) == pytest.approx(100.0, abs=rounding)
    joules = sum(parse(cells[0], "J") for cells in listed)
    assert joules == pytest.approx(parse(rows["Sum"][0], "J"), rel=5e-3)


def test_a_budget_that_does_not_close_is_seen():
    found = made()[0].budget
    rows = budget_table(replace(found, items=found.items[1:])).rows
    assert next(row for row in rows if row.cells[0] == "Sum").cells[2] != "100.00 %"


def leaves(node, head=""):
    """Paths of all values of a scenario, read from its plain data."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield from leaves(value, f"{head}{key}.")
    elif isinstance(node, list | tuple) and any(isinstance(v, dict) for v in node):
        for i, value in enumerate(node):
            yield from leaves(value, f"{head}{i}.")
    else:
        yield head[:-1]


def test_every_input_stands_on_the_sheet_once(bundled):
    path, _, _, one = bundled
    scenario = load_scenario(path).scenario
    expected = [
        p for p in leaves(scenario.model_dump())
        if p.partition(".")[0] not in ("format", "version", "names_de") and not (
            get_value(scenario, p) is None
            and (
                isinstance(get_value(scenario, p.rpartition(".")[0]), Phase)
                or p.endswith(".part")
            )
        )
    ]  # fmt: skip
    shown = [
        row.cells[3] for t in tables(one) if t.columns[-1].kind == "code" for row in t.rows
        if not row.group
    ]  # fmt: skip
    assert sorted(shown) == sorted(expected)
    assert len(expected) > 60


def test_an_input_is_told_with_all_its_digits_and_its_unit():
    scenario = with_value(Scenario(), "load.sleep_A", 1.23456789e-6)
    rows = {row.path: row for row in input_rows(scenario)}
    assert rows["load.sleep_A"].value == "1.23456789 µA"
    assert rows["light.illuminance_lx"].value == "300 lx"
    assert rows["light.source"].value == "LED, neutral white 4000 K"


def test_only_what_differs_from_a_new_scenario_is_marked():
    scenario = with_value(Scenario(), "load.sleep_A", 5e-6)
    assert not any(row.changed for row in input_rows(Scenario()))
    assert [row.path for row in input_rows(scenario) if row.changed] == ["load.sleep_A"]


def test_the_dates_of_a_year_are_told_in_words():
    scenario = load_scenario(scenario_folder() / "window_air_sensor.json").scenario
    rows = {row.path: row for row in input_rows(scenario)}
    assert rows["light.pattern.reading.date"].value == "12 October"
    assert rows["light.pattern.holidays.1.to_date"].value == "6 January"
    assert rows["light.pattern.hung_up"].value == "1 September"


def test_the_budget_of_a_year_names_its_month():
    found = replace(budget(Case(Scenario())), month=8)
    assert budget_table(found).caption.startswith("Energy in August, the tightest month of the")
    assert "Energy over 7 d of" in budget_table(replace(found, month=0)).caption


def test_a_title_that_is_also_the_name_of_a_choice_stays_as_it_was_typed():
    rows = {row.path: row for row in input_rows(with_value(Scenario(), "title", "none"))}
    assert rows["title"].value == "none"


def test_the_hash_is_that_of_the_canonical_json(bundled):
    path, _, source, one = bundled
    data = load_scenario(path).scenario.model_dump(mode="json")
    text = json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    wanted = hashlib.sha256(text.encode()).hexdigest()
    assert source.scenario_sha256 == wanted
    assert wanted.startswith(one.short_hash)
    assert len(one.short_hash) == 12
    assert wanted in [row.cells[1] for row in table(one, "What", "Value").rows]


def changed_values():
    """A path of every number of a new scenario, and another value that is allowed there."""
    for path in leaves(Scenario().model_dump()):
        value = get_value(Scenario(), path)
        if isinstance(value, float) and value > 0:
            yield path, value * 0.999


@pytest.mark.parametrize(("path", "value"), list(changed_values()))
def test_the_hash_changes_with_any_input(path, value):
    other = with_value(Scenario(), path, value)
    assert sha256_of(canonical_json(other)) != sha256_of(canonical_json(Scenario()))


def test_a_light_log_is_named_with_its_hash():
    _, source, one = shipped("seminar_room_co2")
    log = resource_path("logs", "office_lux_1min.csv")
    assert source.log == log.name
    assert source.log_sha256 == hashlib.sha256(log.read_bytes()).hexdigest()
    cells = [row.cells[1] for row in table(one, "What", "Value").rows]
    assert {source.log, source.log_sha256, "Gloaming 7.1", "2026-03-01 12:00+00:00"} <= set(cells)
    said = [block.text for block in one.blocks if isinstance(block, Paragraph)]
    assert any(text.startswith("office_lux_1min.csv: 20560 readings from 2015") for text in said)
    assert any(text.startswith("The readings are as measured") for text in said)
    assert any("No reading for 29.2 h after 2015-02-10 09:33" in text for text in said)


def test_a_note_of_the_writer_and_the_notes_of_the_scenario_are_kept():
    _, _, one = made(note="Second reading.", notes="Read at noon.")
    cells = [row.cells[1] for row in table(one, "What", "Value").rows]
    assert {"Second reading.", "Read at noon.", "never saved"} <= set(cells)


def test_a_caution_follows_the_choice_that_calls_for_it():
    _, _, one = shipped("watering_valve")
    section = ""
    placed = {}
    for block in one.blocks:
        section = block.title or section if isinstance(block, Table) else section
        if isinstance(block, Note) and not block.hazard:
            placed[block.title] = section
    assert placed["Caution: Supercapacitors"] == "Store"
    assert placed["Caution: Valves without power"] == "Load"
    assert placed["Caution: Glass and heights"] == "Panels"
    said = [b.text for b in one.blocks if isinstance(b, Paragraph)]
    assert "qualified person" in said[0]
    assert "qualified person" in said[-1]


def test_what_cuts_off_above_the_disconnect_voltage_is_noted_below_the_load():
    """As the window has it below that voltage; nothing where the voltage itself decides."""
    _, _, one = made(load__minimum_V=2.8)
    places = [i for i, b in enumerate(one.blocks) if isinstance(b, Table) and b.title == "Load"]
    assert len(places) == 1
    note = one.blocks[places[0] + 1]
    assert isinstance(note, Note)
    assert note.title == "Disconnect voltage"
    assert note.text.replace("\u00a0", " ") == (
        "Cuts off at 2.8 V already (minimum operating voltage), above the disconnect voltage."
    )
    _, _, plain = made()
    assert "Disconnect voltage" not in [b.title for b in plain.blocks if isinstance(b, Note)]


def test_the_design_margin_is_told_with_how_the_light_is_known():
    _, _, one = made(light__known_by="guess")
    rows = table(one, "Light known by", "Required margin", "Applies").rows
    assert [row.cells for row in rows if row.strong] == [
        ("A guess", "2×", "this scenario"),
        ("Margin that this design is asked for", "2×", "follows from the light"),
    ]


@pytest.mark.parametrize(
    ("code", "words"),
    [("en", ("left out", "expected error")), ("de", ("nicht enthalten", "erwarteter Fehler"))],
)
def test_the_note_of_the_model_says_what_is_left_out_in_each_language(code, words):
    name = "model-note.md" if code == "en" else f"model-note.{code}.md"
    note = resource_path("help", name).read_text(encoding="utf-8")
    found = limits_in(note, *words)
    by_section = {limit.section[:2]: limit for limit in found}
    forecast = [by_section[n] for n in ("2.", "3.", "4.", "5.", "6.")]
    assert all(limit.left_out and limit.error for limit in forecast)
    assert by_section["7."].error, "of the method"
    assert "10.1002/ese3.110" in found[1].error
    assert not any("*" in limit.left_out + limit.error for limit in found)


def test_the_sheet_tells_the_limits_of_the_forecast_alone():
    sections = [limit.section[:2] for limit in model_limits()]
    assert sections == ["2.", "3.", "4.", "5.", "6.", "7."]


def test_an_empty_text_is_told_as_empty():
    rows = {row.path: row for row in input_rows(Scenario())}
    assert rows["place"].value == "left empty"
    assert rows["margins.design_margin"].value == "left empty"


def test_there_are_three_figures_and_without_an_operation_two():
    figures = [b for b in made()[2].blocks if isinstance(b, Figure)]
    assert [f.caption[:9] for f in figures] == ["Figure 1.", "Figure 2.", "Figure 3."]
    nothing = {"load__operations": (), "load__start_up": (), "load__bulk_capacitance_F": 0.0}
    idle = [b for b in made(**nothing)[2].blocks if isinstance(b, Figure)]
    assert len(idle) == 2


def test_the_columns_of_each_table_fill_its_width(bundled):
    *_, one = bundled
    for t in tables(one):
        assert sum(c.share for c in t.columns) == pytest.approx(1.0)
        assert all(row.group or len(row.cells) == len(t.columns) for row in t.rows)


def test_a_design_that_never_starts_is_told_so():
    found, _, one = shipped("door_counter")
    assert found.repeating is None
    answer = table(one, "Answer", "Value", "Assumes")
    assert "never starts" in answer.caption
    assert answer.rows[0].cells[1] == "never"


def test_only_the_governing_check_stands_out():
    found = assess(Case(Scenario()))
    strong = [row.cells[0] for row in check_table(found).rows if row.strong]
    assert strong == [CHECK_LABELS[found.verdict.governing.name]]


def texts_of(node):
    """Every text of the blocks of a sheet."""
    if isinstance(node, str):
        yield node
    elif isinstance(node, tuple | list):
        for item in node:
            yield from texts_of(item)
    elif hasattr(node, "__dataclass_fields__"):
        for name in node.__dataclass_fields__:
            if name not in ("kind", "state", "dash", "letter"):
                yield from texts_of(getattr(node, name))


def test_every_word_of_a_sheet_can_be_said_in_another_language():
    scenario = with_value(Scenario(), "title", "Zwergstation")
    for path, value in (("load.operations.0.name", "Funken"), ("load.start_up.0.name", "Funken")):
        scenario = with_value(scenario, path, value)
    one = sheet(
        findings(Case(scenario)), source_of(scenario, Path("7.json"), "7", NOON),
        limits_in("", "", ""),
    )
    own = frozenset({"Zwergstation", "Funken", "SHA", "gloaming", "scenario", "json", "PDF", "UTF"})
    codes = {row.path for row in input_rows(scenario)}
    hashes = {sha256_of(canonical_json(scenario)), one.short_hash}
    shown = [
        rendered(text, pseudo.disguise, ",") if isinstance(text, Text) else text
        for text in texts_of(one.blocks) if text not in codes | hashes
    ]  # fmt: skip
    assert len(shown) > 300
    assert not [text for text in shown if pseudo.is_forgotten(text, own)]


def test_a_sheet_says_when_the_panel_is_known_by_its_technology_alone():
    _, _, one = shipped("soil_probe")
    _, _, other = made(PATHS["soil_probe"], panels__data_sheet=[SheetPoint().model_dump()])
    said = [
        [b.text for b in page.blocks if isinstance(b, Paragraph) and "no data sheet" in b.text]
        for page in (one, other)
    ]
    assert [len(texts) for texts in said] == [1, 0]
    assert "modules on sale give 0." in said[0][0]


def test_the_panels_data_sheet_stands_on_the_sheet_with_its_misfit_and_its_diode():
    line = SheetPoint(open_circuit_V=4.6).model_dump()
    _, _, page = made(PATHS["soil_probe"], panels__data_sheet=[line])
    at = [b.text for b in page.blocks if isinstance(b, Heading)].index("Panel by its data sheet")
    assert at > 0
    tables = [b for b in page.blocks if isinstance(b, Table)]
    points = next(t for t in tables if t.caption.startswith("Points of the data sheet"))
    assert points.rows[0].cells[1:] == ("20 µA  0.0 %", "4.6 V  0.0 %", "not given", "not given")
    diode = next(t for t in tables if t.caption.startswith("The diode"))
    assert "Series resistance" in [row.cells[0] for row in diode.rows]
    assert any("filled in by the cell technology" in b.text
               for b in page.blocks if isinstance(b, Paragraph))  # fmt: skip


def test_parts_that_were_taken_stand_on_the_sheet_with_their_source():
    part = part_from("store", Scenario().store, title="Ember pair", source="Data sheet, March")
    store = taken(part, Scenario().store).model_dump()
    _, _, page = made(PATHS["soil_probe"], store=store)
    table = next(b for b in page.blocks if isinstance(b, Table) and "copied into" in b.caption)
    assert [row.cells for row in table.rows] == [
        ("Store", "Ember pair", "Data sheet, March", "as it was taken")
    ]


def test_a_course_of_several_weeks_is_drawn_beside_a_first_one_that_ends_before_it():
    """This device is alike every third week alone; its first week was drawn to the end of those."""
    found, _, page = made(
        load__connect_V=3.8844196912993247, load__disconnect_V=1.3725653634810682,
        load__regulator__output_V=0.3, load__reserve_J=66321.12725460227,
        charger=DirectCharger(full_hysteresis_V=0.03627434636518932),
    )  # fmt: skip
    first_s, course_s = found.assessment.trace.span_s, found.repeating.span_s
    assert course_s == pytest.approx(3 * first_s)
    drawn = next(block for block in page.blocks if isinstance(block, Figure))
    solid, dotted = drawn.chart.curves
    assert solid.x[-1] == pytest.approx(course_s)
    assert dotted.x[-1] == pytest.approx(first_s)
    assert all(np.isfinite(curve.y).all() for curve in (solid, dotted))


def test_the_light_of_the_figure_is_constant_while_it_is_lit():
    """From 8 to 17 h on five days, in the numbers of the figure and where it is drawn."""
    scenario = with_values(
        load_scenario(scenario_folder() / "soil_probe.json").scenario,
        {"light.illuminance_lx": 350.0, "light.pattern.blocks.0.to_h": 17.0},
    )
    found = assess(Case(scenario))
    figure = store_figure(found, None, 0.0)
    strip = figure.chart.strip
    assert np.sum(np.diff(strip.x) * 0.5 * (strip.y[1:] + strip.y[:-1])) == pytest.approx(
        350.0 * 5 * 9 * 3600.0
    )
    assert {0.0, 350.0} == set(strip.y.tolist())
    (points,) = re.findall(rf'<polygon points="([^"]+)" fill="{LINE}"', chart_svg(figure.chart, ""))
    x, y = np.array([point.split(",") for point in points.split()], float).T
    ground = y.max()
    lit = np.sum(np.diff(x)[(y[1:] < ground) & (y[:-1] < ground)])
    assert lit / np.ptp(x) == pytest.approx(5 * 9 / 168, abs=0.003)
