"""The PDF of a sheet: pages with head and foot, words that can be found, nothing cut."""

import re
from dataclasses import replace
from datetime import UTC, datetime
from io import BytesIO
from types import SimpleNamespace

import numpy as np
import pytest
from pypdf import PdfReader

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.files.report import findings, sheet
from explorer.files.report_blocks import (
    PAPERS,
    Axis,
    Chart,
    Column,
    Curve,
    Figure,
    Heading,
    Paragraph,
    Row,
    Sheet,
    Table,
    widened,
)
from explorer.files.report_limits import model_limits
from explorer.files.report_source import source_of
from explorer.files.report_tables import required_blocks
from explorer.files.report_year import month_table
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import Margins, Scenario
from explorer.state import language, report_pdf
from explorer.state.report_pdf import SIDE, sheet_pdf
from explorer.words.figures import STATE_WORDS

NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)
PAGE_WIDTH, PAGE_HEIGHT = PAPERS["A4"]
DOTS = report_pdf.RESOLUTION / 25.4
ASKING = Scenario(margins=Margins(
    operations_per_charge=3.0, operations_per_hour=10.0, fill_within_h=60.0, dark_days=2.0,
    store_years=5.0,
))  # fmt: skip


@pytest.fixture(scope="module")
def one(qapp):
    scenario = Scenario(title="Fern label")
    source = source_of(scenario, None, "7.1", NOON)
    return sheet(findings(Case(scenario)), source, model_limits())


def pages(pdf):
    return len(re.findall(rb"/Type /Page\b", pdf))


class Heard:
    """Every line of text that is drawn while a PDF is made: page, place and words."""

    def __init__(self, monkeypatch):
        self.lines = []
        words = report_pdf._Press._draw
        heard = self

        def note(press, said, x, y, **options):
            first = options.get("first", 0)
            last = options.get("last")
            last = len(said.bottoms) if last is None else last
            above = said.bottoms[first - 1] if first else 0.0
            for i in range(first, last):
                line = said.layout.lineAt(i)
                text = said.layout.text()[line.textStart() : line.textStart() + line.textLength()]
                left = x + line.x() / DOTS
                heard.lines.append(
                    (press._page, left, left + line.naturalTextWidth() / DOTS,
                     y + said.bottoms[i] - above, text.strip())
                )  # fmt: skip
            words(press, said, x, y, **options)

        monkeypatch.setattr(report_pdf._Press, "_draw", note)


def set_out(one, monkeypatch):
    """Lines of the last of the two runs, the one that is kept."""
    heard = Heard(monkeypatch)
    pdf = sheet_pdf(one)
    half = len(heard.lines) // 2
    return pdf, heard.lines[half:]


@pytest.fixture(scope="module")
def printed(one):
    """The sheet as it comes, and its lines."""
    with pytest.MonkeyPatch.context() as patch:
        return set_out(one, patch)


def test_a_pdf_has_several_pages_and_embedded_letters(printed):
    pdf, _ = printed
    assert pdf.startswith(b"%PDF")
    assert pdf.rstrip().endswith(b"%%EOF")
    assert pages(pdf) > 3
    assert b"/FontFile2" in pdf or b"/FontFile3" in pdf
    assert b"/ToUnicode" in pdf, "words can be searched"


@pytest.mark.parametrize("paper", PAPERS)
def test_a_page_has_the_size_of_its_paper_and_nothing_leaves_it(qapp, monkeypatch, paper):
    heard = Heard(monkeypatch)
    pdf = sheet_pdf(alone(long_table("value " * 30, rows=60)), paper=paper)
    wide, high = PAPERS[paper]
    for page in PdfReader(BytesIO(pdf)).pages:
        assert page.mediabox.width == pytest.approx(wide * 72 / 25.4, abs=1.0)
        assert page.mediabox.height == pytest.approx(high * 72 / 25.4, abs=1.0)
    assert max(right for _, _, right, _, _ in heard.lines) <= wide - SIDE + 0.1
    assert high - 30.0 < max(bottom for *_, bottom, _ in heard.lines) < high - 5.0


def test_every_heading_is_a_bookmark_of_the_place_where_it_stands(one, printed):
    pdf, lines = printed
    reader = PdfReader(BytesIO(pdf))
    headings = [block.text for block in one.blocks if isinstance(block, Heading)]
    assert [mark.title for mark in reader.outline] == headings
    for mark in reader.outline:
        page = reader.get_destination_page_number(mark) + 1
        bottom = next(b for p, *_, b, text in lines if (p, text) == (page, mark.title))
        assert 0.0 < bottom - (PAGE_HEIGHT - mark.top * 25.4 / 72) < 10.0


def test_what_decides_stands_on_the_first_two_pages(printed):
    _, lines = printed
    pages_of = {text: page for page, *_, text in lines}
    assert pages_of["Six checks"] == pages_of["Where the verdict changes"] == 1
    assert pages_of["Store voltage"] <= pages_of["Answers"] <= 2
    assert max(page for page, *_ in lines) <= 10


def test_the_titles_of_the_checks_are_whole(one, printed):
    _, lines = printed
    checks = next(b for b in one.blocks if isinstance(b, Table) and len(b.columns) == 7)
    assert {column.title for column in checks.columns} <= {text for *_, text in lines}


@pytest.mark.parametrize("code", ["en", "de"])
def test_no_title_of_a_column_is_broken_within_a_word(one, monkeypatch, code):
    """Of ten columns of months "Ausgeführt" and "Dunkelheit" had no room for their last letters."""
    heard, render = Heard(monkeypatch), language.begin(code)
    months = month_table(SimpleNamespace(months=()))
    try:
        for table in (months, *(block for block in one.blocks if isinstance(block, Table))):
            del heard.lines[:]
            sheet_pdf(alone(replace(table, rows=(), title="", caption="")), render)
            told = {word for column in table.columns for word in render(column.title).split()}
            assert told <= {word for *_, text in heard.lines for word in text.split()}
            assert max(right for _, _, right, _, _ in heard.lines) <= PAGE_WIDTH - SIDE + 0.1
    finally:
        language.set_language("en")


def test_columns_with_room_to_spare_give_way_and_others_keep_what_they_need():
    columns = tuple(Column(title="", share=share) for share in (0.1, 0.2, 0.3, 0.4))
    table = Table(caption="", rows=(), columns=columns)
    shares = [column.share for column in widened(table, [0.2, 0.2, 0.2, 0.2]).columns]
    assert shares == pytest.approx([0.2, 0.2, 0.3 - 0.1 / 3, 0.4 - 0.2 / 3])
    assert widened(table, [0.1, 0.1, 0.3, 0.1]) is table, "all have room"
    assert widened(table, [0.3, 0.3, 0.3, 0.3]) is table, "nothing leaves the paper"


@pytest.mark.parametrize("state", STATE_WORDS)
def test_names_and_results_are_broken_in_no_word_in_german(
    one, monkeypatch, state
):
    """Bold letters are wider: "Dunkelheit" ran out of its column, and a comma stood by itself."""
    heard, render = Heard(monkeypatch), language.begin("de")
    checks = next(b for b in one.blocks if isinstance(b, Table) and len(b.columns) == 7)
    (asked,) = required_blocks(assess(Case(ASKING)))
    try:
        for table, strong in ((checks, True), (asked, False)):
            del heard.lines[:]
            rows = tuple(
                replace(row, cells=(row.cells[0], STATE_WORDS[state], *row.cells[2:]),
                        strong=strong)
                for row in table.rows
            )  # fmt: skip
            sheet_pdf(alone(replace(table, rows=rows)), render)
            told = {word for row in rows for cell in row.cells[:2] for word in render(cell).split()}
            drawn = {word for *_, text in heard.lines for word in text.split()}
            assert told <= drawn
    finally:
        language.set_language("en")


@pytest.mark.parametrize("name", ["door_counter", "soil_probe"])
def test_what_decides_fills_two_pages(qapp, monkeypatch, name):
    """The first says the verdict, why, and what would change it; the second shows and answers."""
    path = scenario_folder() / f"{name}.json"
    scenario = load_scenario(path).scenario
    source = source_of(scenario, path, "7.1", NOON)
    _, lines = set_out(sheet(findings(Case(scenario)), source, model_limits()), monkeypatch)
    body = PAGE_HEIGHT - report_pdf.BOTTOM
    for number in (1, 2):
        lowest = max(bottom for n, *_, bottom, _ in lines if n == number and bottom <= body)
        assert lowest > 0.75 * PAGE_HEIGHT, number


@pytest.mark.parametrize("rows", range(37, 42))
def test_no_row_of_a_table_goes_to_the_next_page_alone(qapp, monkeypatch, rows):
    _, lines = set_out(alone(long_table("value", rows=rows)), monkeypatch)
    on_page = [sum(t == "value" for p, *_, t in lines if p == n) for n in (1, 2)]
    assert sum(on_page) == rows
    assert on_page[1] != 1


def test_a_heading_goes_with_what_its_first_paragraph_leads_to(qapp, monkeypatch):
    """Down the page, the heading turns to the next one before its table does."""
    for above in range(26, 38, 2):
        table = long_table("under", rows=9)
        leads = (Heading(text="Here"), Paragraph(text="as so:"))
        blocks = (long_table("over", rows=above), *leads, table)
        _, lines = set_out(alone(*blocks), monkeypatch)
        here = next(page for page, *_, text in lines if text == "Here")
        assert here == min(page for page, *_, text in lines if text == "under")


@pytest.mark.parametrize("lines_of_notes", [0, 22])
def test_who_signs_has_what_is_signed_on_the_same_page(one, qapp, monkeypatch, lines_of_notes):
    """Wherever the last section begins; it has a table, a paragraph, and the lines to sign."""
    last = next(n for n, b in enumerate(one.blocks) if isinstance(b, Heading) and b.whole)
    heading, came_from, *rest = one.blocks[last:]
    notes = Row(cells=("Notes", "\n".join(["assumed"] * lines_of_notes)))
    came_from = replace(came_from, rows=(*came_from.rows, *([notes] if lines_of_notes else [])))
    for above in range(10, 46, 4):
        over = (long_table("over", rows=above), heading, came_from, *rest)
        _, lines = set_out(replace(one, blocks=over), monkeypatch)
        section = heading.text
        pages = {page for page, *_, text in lines if text in (section, "Accepted")}
        assert len(pages) == 1, above


def test_pictures_are_lines_and_not_pixels(printed):
    assert b"/Subtype /Image" not in printed[0]


def test_every_page_has_its_title_hash_and_number(one, printed):
    pdf, lines = printed
    n = pages(pdf)
    for page in range(1, n + 1):
        texts = [text for p, *_, text in lines if p == page]
        assert "Fern label" in texts
        assert f"Scenario {one.short_hash}" in texts
        assert f"Page {page} of {n}" in texts


def test_nothing_leaves_the_page_and_no_column_runs_into_the_next(printed):
    _, lines = printed
    assert len(lines) > 300
    for _, left, right, bottom, text in lines:
        assert left >= SIDE - 0.1, text
        assert right <= PAGE_WIDTH - SIDE + 0.1, text
        assert bottom <= PAGE_HEIGHT - 5.0, text


def words_of(table):
    return [cell for row in table.rows for cell in row.cells if cell]


def long_table(text, rows=1):
    row = Row(cells=("name", text))
    columns = (Column(title="What", share=0.3), Column(title="Value", share=0.7))
    return Table(caption="caption", columns=columns, rows=(row,) * rows)


def alone(*blocks):
    return Sheet(title="Fern label", place="", short_hash="0" * 12, blocks=blocks)


def test_every_word_of_every_table_is_on_the_paper(one, printed):
    _, lines = printed
    drawn = "".join("".join(text for *_, text in lines).split())
    cells = [c for b in one.blocks if isinstance(b, Table) for c in words_of(b)]
    assert len(cells) > 300
    for cell in cells:
        assert "".join(cell.split())[:12] in drawn, cell


def test_a_cell_longer_than_a_page_goes_on_over_the_next(qapp, monkeypatch):
    text = " ".join(f"w{i}" for i in range(3000))
    _, lines = set_out(alone(long_table(text)), monkeypatch)
    drawn = " ".join(line for *_, line in lines).split()
    assert [w for w in drawn if w[0] == "w"] == text.split()
    assert max(page for page, *_ in lines) > 1


def test_a_word_longer_than_its_column_is_broken_and_not_cut(qapp, monkeypatch):
    text = "x" * 400
    _, lines = set_out(alone(long_table(text)), monkeypatch)
    assert sum(line.count("x") for *_, line in lines) == 400
    assert all(right <= PAGE_WIDTH - SIDE + 0.1 for _, _, right, _, _ in lines)


def test_a_table_repeats_its_titles_on_every_page(qapp, monkeypatch):
    _, lines = set_out(alone(long_table("value", rows=120)), monkeypatch)
    last = max(page for page, *_ in lines)
    assert last >= 3
    for page in range(1, last + 1):
        assert [t for p, *_, t in lines if p == page].count("What") == 1
    assert sum(text == "value" for *_, text in lines) == 120


def test_a_sheet_with_nothing_on_it_is_one_page(qapp):
    assert pages(sheet_pdf(alone())) == 1


def test_a_long_title_is_set_whole_once_and_shortened_in_the_head(qapp, monkeypatch):
    title = "Fern " * 80
    _, lines = set_out(replace(alone(), title=title), monkeypatch)
    assert sum(text.count("Fern") for *_, text in lines) >= 80
    head = [text for _, _, right, bottom, text in lines if bottom < 20.0 and "Fern" in text]
    assert len(head) == 1
    assert head[0].endswith("…")


def test_a_painter_is_closed_when_a_picture_cannot_be_made(one, monkeypatch):
    def fail(*_):
        raise ValueError("no picture")

    monkeypatch.setattr(report_pdf, "chart_svg", fail)
    with pytest.raises(ValueError, match="no picture"):
        sheet_pdf(one)


def test_words_are_searched_letter_by_letter(qapp):
    """Where two letters are drawn as one sign, or a space is told as a tab, nothing is found."""
    axis = Axis(title="time", low=0.0, high=1.0, ticks=())
    line = np.array([0.0, 1.0])
    chart = Chart(x=axis, left=axis, curves=(Curve(label="first shuffle", x=line, y=line),))
    figure = Figure(caption="caption", spoken="a line", chart=chart)
    pdf = sheet_pdf(alone(figure, Paragraph(text="An efficient offer.")))
    text = PdfReader(BytesIO(pdf)).pages[0].extract_text()
    # Before 6.9, Qt draws the letters of a picture as outlines, which hold no text at all.
    assert "first shuffle" in text or "shu" not in text
    assert "An efficient offer." in text
