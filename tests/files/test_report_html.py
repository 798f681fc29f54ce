"""The page of a sheet: well formed, complete in itself, safe, readable without colour."""

import re
import xml.etree.ElementTree as ET
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.files.report import findings, sheet
from explorer.files.report_blocks import Axis, Chart, Curve, NamedLine, plain
from explorer.files.report_figures import pulse_figure, ticks
from explorer.files.report_html import sheet_html
from explorer.files.report_inputs import input_rows
from explorer.files.report_limits import model_limits
from explorer.files.report_source import source_of
from explorer.files.report_svg import HEIGHT, WIDTH, chart_svg, shape_svg, spread_out
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import Scenario, with_value
from explorer.text import rendered
from explorer.words.moments import Tick
from tests import pseudo
from tests.files.short_sheets import one_knob_is_searched  # noqa: F401
from tests.sharing import cases_are_shared  # noqa: F401

NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)
SVG = "{http://www.w3.org/2000/svg}"
GREYS = {
    "black": 0, "dimgray": 105, "silver": 192, "lightgray": 211, "whitesmoke": 245, "white": 255,
}  # fmt: skip
"""The greys of CSS by name, red as green as blue."""


def page(scenario=None, language="en", render=plain, note=""):
    scenario = scenario or Scenario()
    source = source_of(scenario, Path("7.json"), "7.1", NOON, note)
    return sheet_html(sheet(findings(Case(scenario)), source, model_limits()), language, render)


def tree(text):
    """The page as a tree; it is written so that XML can read it too."""
    return ET.fromstring(text.partition("\n")[2])


@pytest.fixture(scope="module")
def written():
    return page(load_scenario(scenario_folder() / "watering_valve.json").scenario)


def test_the_page_is_well_formed_and_says_its_language(written):
    root = tree(written)
    assert written.startswith("<!DOCTYPE html>\n")
    assert root.tag == "html"
    assert root.get("lang") == "en"
    assert root.find("head/title").text == "Latching watering valve"


def test_the_page_needs_nothing_beside_it(written):
    root = tree(written)
    outside = {"script", "link", "img", "iframe", "object", "embed", "a", "image", "use"}
    assert not [e.tag for e in root.iter() if e.tag.replace(SVG, "") in outside]
    assert not [k for e in root.iter() for k in e.attrib if k in ("href", "src") or k[:2] == "on"]
    assert not re.findall(r"url\(|@import", written)
    addresses = set(re.findall(r"https?://[^\s\"<]+", written))
    assert addresses == {"http://www.w3.org/2000/svg"}, "the name of a kind of picture alone"


@pytest.mark.parametrize("key", ["title", "place", "notes", "load.operations.0.name"])
def test_what_a_person_typed_is_text_and_never_a_part_of_the_page(key):
    evil = "<script>alert(1)</script> & \"quoted\" 'also' ]]>"
    text = page(with_value(Scenario(), key, evil), note=evil)
    assert "<script" not in text
    assert evil in "".join(tree(text).itertext())


def test_letters_that_no_page_may_hold_are_made_visible():
    text = page(with_value(Scenario(), "load.operations.0.name", "a\x00b\x0bc\ttab"))
    assert "a\N{SYMBOL FOR NULL}b c tab" in "".join(tree(text).itertext())


def test_every_figure_says_what_it_shows(written):
    pictures = [e for e in tree(written).iter(f"{SVG}svg") if e.get("role") == "img"]
    assert len(pictures) == 3
    for picture in pictures:
        assert len(picture.get("aria-label")) > 40
        assert picture.find(f"{SVG}title").text == picture.get("aria-label")
    spare = [e for e in tree(written).iter(f"{SVG}svg") if e.get("role") != "img"]
    assert spare
    assert all(e.get("aria-hidden") == "true" for e in spare)


def test_every_head_of_a_table_says_what_it_heads(written):
    root = tree(written)
    assert len(list(root.iter("table"))) > 10
    for table in root.iter("table"):
        assert table.find("caption") is not None
        assert all(th.get("scope") == "col" for th in table.iterfind("thead/tr/th"))
        for row in table.iterfind("tbody/tr"):
            assert row[0].tag == "th"
            assert row[0].get("scope") in ("row", "rowgroup")
    assert all(th.get("scope") for th in root.iter("th"))


def test_every_input_has_its_key_on_the_page_once(written):
    scenario = load_scenario(scenario_folder() / "watering_valve.json").scenario
    keys = [td.text for td in tree(written).iter("td") if td.get("class") == "code"]
    assert sorted(keys) == sorted(row.path for row in input_rows(scenario))


def luminance(grey):
    share = grey / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def test_there_are_greys_alone_and_text_stands_out_from_paper(written):
    inks = {e.get("fill") for e in tree(written).iter(f"{SVG}text")}
    inks |= set(re.findall(r"[{;]\s*color: (\w+)", written))
    assert inks == {"black", "dimgray"}
    for ink in inks:
        assert 1.05 / (luminance(GREYS[ink]) + 0.05) >= 4.5
    used = {e.get(k) for e in tree(written).iter() for k in ("fill", "stroke") if e.get(k)}
    assert used - {"none"} <= set(GREYS)


def test_print_keeps_rows_whole_and_repeats_the_heads(written):
    assert re.search(r"@media print", written)
    assert "figure, .note, .banner, .short, caption, thead { break-inside: avoid; }" in written
    assert "thead { display: table-header-group; }" in written
    assert "caption, thead, thead tr { break-after: avoid; }" in written, "no head without a row"
    assert "size: auto" in written, "A4 and Letter alike"


def rules(page):
    """What the style of a page says of each kind of element, outside of any medium."""
    style = page[page.index("<style>") : page.index("@media")]
    found = {}
    for kinds, said in re.findall(r"([^{}]+) \{([^{}]*)\}", style):
        for kind in kinds.split(","):
            pairs = (pair.split(":") for pair in said.split(";") if ":" in pair)
            own = {name.strip(): value.strip() for name, value in pairs}
            found[kind.strip()] = found.get(kind.strip(), {}) | own
    return found


def test_a_long_word_widens_its_column_as_a_title_and_is_broken_in_a_cell_alone(written):
    said = rules(written)
    assert said["td"]["overflow-wrap"] == "anywhere", "a wide cell is broken and never cut"
    title = said["th"] | said["thead th"]
    assert title["overflow-wrap"] == "normal"
    assert title.get("hyphens", "manual") == "manual"
    assert said["table"].get("table-layout", "auto") == "auto", "a fixed column cannot widen"


def test_the_page_speaks_another_language_with_its_decimal_mark():
    scenario = with_value(Scenario(), "title", "Zwergstation")
    for path in ("load.operations.0.name", "load.start_up.0.name"):
        scenario = with_value(scenario, path, "Funken")
    source = source_of(scenario, Path("7.json"), "7", NOON)
    text = sheet_html(
        sheet(findings(Case(scenario)), source, ()), "de",
        lambda t: rendered(t, pseudo.disguise, ","),
    )
    root = tree(text)
    assert root.get("lang") == "de"
    keys = {row.path for row in input_rows(scenario)} | {source.scenario_sha256}
    own = frozenset({"Zwergstation", "Funken", "SHA", "gloaming", "scenario", "json"})
    own |= {source.scenario_sha256[:12]}
    shown = [t.replace(source.scenario_sha256[:12], "") for t in root.find("body").itertext()
             if t.strip() and t not in keys]  # fmt: skip
    shown += [e.get("aria-label") for e in root.iter() if e.get("aria-label")]
    assert len(shown) > 300
    assert not [t for t in shown if pseudo.is_forgotten(t, own)]


def chart(**parts):
    """A chart from 0 to 10 on both axes."""
    places = tuple(Tick(time_s=v, label=f"{v:g}") for v in (0.0, 5.0, 10.0))
    axis = Axis(title="axis", low=0.0, high=10.0, ticks=places)
    return Chart(x=axis, left=axis, **parts)


def drawn(picture):
    return ET.fromstring(chart_svg(picture, "spoken"))


def test_a_curve_is_drawn_to_scale():
    x = np.array([0.0, 5.0, 10.0])
    root = drawn(chart(curves=(Curve(label="c", x=x, y=np.array([0.0, 10.0, 5.0])),)))
    points = root.find(f"{SVG}polyline").get("points").split()
    (x0, y0), (x1, y1), (x2, y2) = (tuple(map(float, p.split(","))) for p in points)
    assert x1 - x0 == pytest.approx(x2 - x1, abs=0.11)
    assert y0 - y2 == pytest.approx((y0 - y1) / 2, abs=0.11)
    assert x0 > 0
    assert x2 < WIDTH
    assert 0 < y1 < y0 < HEIGHT


def test_nothing_leaves_its_field():
    x = np.array([-5.0, 0.0, 10.0, 20.0])
    root = drawn(chart(curves=(Curve(label="c", x=x, y=np.array([0.0, -90.0, 90.0, 0.0])),)))
    frame = [e for e in root.iter(f"{SVG}rect") if e.get("stroke") == "black"][-1]
    west, north, width, height = (float(frame.get(k)) for k in ("x", "y", "width", "height"))
    points = root.find(f"{SVG}polyline").get("points").split()
    assert len(points) == 2
    for point in points:
        px, py = map(float, point.split(","))
        assert west <= px <= west + width
        assert north <= py <= north + height


def test_names_of_levels_that_lie_close_do_not_cover_each_other():
    levels = tuple(NamedLine(label=f"level {i}", y=5.0 + 0.01 * i) for i in range(4))
    root = drawn(chart(levels=levels))
    names = [e for e in root.iter(f"{SVG}text") if e.text.startswith("level")]
    heights = sorted(float(e.get("y")) for e in names)
    assert len(heights) == 4
    assert np.diff(heights).min() > 13.0


@pytest.mark.parametrize("words", ["connects 36.0 V", "Einschalten 3,60 V", "Abschalten 2,40 V"])
def test_names_of_levels_have_room_beside_the_field(words):
    root = drawn(chart(levels=(NamedLine(label=words, y=5.0),)))
    (name,) = [e for e in root.iter(f"{SVG}text") if e.text == words]
    widest = 0.58 * float(root.get("font-size"))
    assert float(name.get("x")) + widest * len(words) < WIDTH


@pytest.mark.parametrize("name", [
    "door_counter", "plant_label", "soil_probe", "vent_flap", "watering_valve",
])  # fmt: skip
def test_the_names_of_step_and_ramp_keep_off_the_curves_and_off_each_other(name):
    """The paper under "ESR step" hid the end of the curve that it names."""
    pulse = assess(Case(load_scenario(scenario_folder() / f"{name}.json").scenario)).pulse
    root = drawn(pulse_figure(pulse).chart)
    named = [e for e in root.iter(f"{SVG}text") if e.text.startswith(("ESR step", "ramp"))]
    papers = [e for e in root.iter(f"{SVG}rect")
              if e.get("fill") == "white" and e.get("height") == "14"]
    assert len(named) == len(papers) == 2
    boxes = [tuple(float(e.get(k)) for k in ("x", "y", "width", "height")) for e in papers]
    assert abs(boxes[0][1] - boxes[1][1]) >= 14.0
    curves = [e.get("points").split() for e in root.iter(f"{SVG}polyline")]
    assert len(curves) == 2
    for points in curves:
        x, y = np.array([p.split(",") for p in points], float).T
        part = np.linspace(0.0, len(x) - 1.0, 200 * len(x))
        x, y = (np.interp(part, np.arange(len(x)), v) for v in (x, y))
        for west, north, width, height in boxes:
            inside = (x > west) & (x < west + width) & (y > north) & (y < north + height)
            assert not inside.any()


def test_places_that_are_far_apart_stay():
    assert spread_out([10.0, 90.0, 50.0], 15.0) == [10.0, 90.0, 50.0]


@pytest.mark.parametrize(("low", "high"), [(0.0, 5.0), (0.0, 1e-6), (2.84, 2.86), (3.0, 3.0)])
def test_ticks_are_round_and_enclose_the_values(low, high):
    found = ticks(low, high)
    assert found[0] <= low + 1e-12
    assert found[-1] >= high - 1e-12
    assert 2 <= len(found) <= 9


def test_each_verdict_has_a_shape_of_its_own():
    shapes = {shape_svg(state, 24) for state in ("runs", "marginal", "falls_short")}
    assert len(shapes) == 3
