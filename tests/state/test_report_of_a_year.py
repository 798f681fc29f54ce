"""The whole sheet of a year, in both languages and as a PDF: every part, and its own numbers."""

import re
from dataclasses import replace
from datetime import UTC, datetime
from io import BytesIO

import pytest
from pypdf import PdfReader

from explorer.advice.case import Case
from explorer.files.report import findings, sheet
from explorer.files.report_blocks import Heading, plain
from explorer.files.report_html import sheet_html
from explorer.files.report_inputs import input_rows
from explorer.files.report_limits import model_limits
from explorer.files.report_source import source_of
from explorer.scenario.model import Scenario
from explorer.state import language
from explorer.state.report_pdf import sheet_pdf
from tests.reference.yearly import numbered_year

FEW_LIGHTS = 9
"""A drawn year of lamps alone: its searches take two seconds."""
NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)
PARTS = (
    "Six checks", "Where the verdict changes", "Answers", "The year", "The deepest pulse",
    "Panel in this light", "Where the energy goes", "How the light is known",
    "The light of the year", "Inputs", "What the model leaves out, and how wrong it may be",
    "Where this report comes from",
)  # fmt: skip


@pytest.fixture(scope="module")
def found():
    return findings(Case(numbered_year(FEW_LIGHTS)))


@pytest.fixture
def in_language():
    yield language.begin
    language.set_language("en")


def made(found, name="en", render=plain):
    source = source_of(found.assessment.scenario, None, "7.1", NOON)
    return sheet(found, source, model_limits(name, render))


def headings(html):
    found = re.findall(r"<h[12][^>]*>(.*?)</h[12]>", html)
    return [re.sub("<[^>]+>", "", heading).strip() for heading in found]


def words(html):
    return re.sub("<[^>]+>", " ", html).replace("\u202f", " ").replace("\xa0", " ")


def test_the_sheet_of_a_year_has_every_part_and_its_own_numbers(found):
    html = sheet_html(made(found))
    assert tuple(headings(html)[1:]) == PARTS
    said = words(html)
    for check in found.assessment.verdict.checks:
        assert words(check.sentence) in said
    for month in found.year.months:
        assert f"{month.begin:%b}" in said
    longest = found.year.longest_dark
    assert f"{longest[0].day} {longest[0]:%B}" in said
    for sentence in found.year.notes:
        assert words(sentence) in said
    assert len(found.turns) == 4


def test_the_same_sheet_in_german_says_as_much(found, in_language, qapp):
    english = sheet_html(made(found))
    render = in_language("de")
    german = sheet_html(made(found, "de", render), "de", render)
    for mark in ("<tr", "<svg", "<h2", "<td"):
        assert german.count(mark) == english.count(mark)
    assert not set(headings(german)[1:]) & set(PARTS)
    said = words(german)
    for check in found.assessment.verdict.checks:
        assert words(check.sentence) not in said
    assert f"{found.year.longest_dark[0].day}. " in said
    assert not re.findall("January|February|March|May|June|July|October|December", said)


def test_the_year_of_a_sheet_can_be_searched_in_its_pdf(found, qapp):
    whole = made(found)
    titles = [block.text if isinstance(block, Heading) else "" for block in whole.blocks]
    first, after = titles.index("The year"), titles.index("The deepest pulse")
    few = replace(whole, blocks=whole.blocks[first:after])
    text = "".join(p.extract_text() for p in PdfReader(BytesIO(sheet_pdf(few))).pages)
    assert "The year" in text
    assert f"{found.year.longest_dark[0]:%B}" in text
    for month in found.year.months:
        assert f"{month.begin:%b}" in text


def test_what_a_person_wrote_is_put_into_no_other_language(in_language, qapp):
    """Also where it is a word that the program has, too."""
    render = in_language("de")
    own = Scenario(title="Light", place="Store", notes="Panels")
    values = {row.path: render(row.value) for row in input_rows(own)}
    assert [values[key] for key in ("title", "place", "notes")] == ["Light", "Store", "Panels"]
    assert values["load.start_up.0.name"] == "Anlauf"  # a name that nobody gave
