"""One term for one thing: no word that was given up comes back."""

import re
import xml.etree.ElementTree as ET

import pytest

from explorer.resource_files import resource_path
from tests.make_translations import gathered

ROWS = [
    [cell.strip() for cell in line.strip().strip("|").split("|")]
    for line in resource_path("help", "words.md").read_text(encoding="utf-8").splitlines()
    if line.startswith("| ") and not line.startswith("| English")
]
DROPPED = sorted({term.strip() for row in ROWS for term in row[2].split(", ") if term.strip()})
DROPPED_GERMAN = sorted({t.strip() for row in ROWS for t in row[3].split(", ") if t.strip()})
TWO_IN_ONE = {"leakage": "leakage, settled", "settled": "leakage, settled"}
"""A term with a comma in it."""


@pytest.fixture(scope="module")
def shown():
    """Every text that the program shows."""
    return [text for text, _ in gathered()]


@pytest.fixture(scope="module")
def shown_in_german():
    """Every text in German."""
    found = ET.parse(resource_path("languages", "gloaming_de.ts")).getroot().iter("translation")
    return [text.text for text in found if text.text]


def terms():
    return sorted({TWO_IN_ONE.get(term, term) for term in DROPPED})


@pytest.mark.parametrize("term", terms())
def test_no_text_says_a_dropped_term(shown, term):
    said = re.compile(rf"(?<![\w-]){re.escape(term)}(?![\w-])", re.IGNORECASE)
    assert [text for text in shown if said.search(text)] == []


@pytest.mark.parametrize("term", DROPPED_GERMAN)
def test_no_german_text_says_a_dropped_term(shown_in_german, term):
    said = re.compile(rf"(?<![\w-]){re.escape(term)}(?![\w-])", re.IGNORECASE)
    assert [text for text in shown_in_german if said.search(text)] == []


def test_the_list_names_what_the_program_says(shown):
    """A sample of its first column is found among the labels."""
    low = {text.lower() for text in shown}
    for term in ("connect voltage", "cover transmittance", "calendar ageing", "required margin"):
        assert term in low


def test_every_term_has_a_word_in_both_languages():
    assert len(ROWS) > 25
    for english, german, *_ in ROWS:
        assert english
        assert german
